package org.surfactantblend.material;

import org.surfactantblend.quantity.Require;

/**
 * Where a figure of the table comes from.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param id the short name that figures point to
 * @param citation what it stands for
 * @param kind published, handbook, regulation, common-practice, memory, calculated or
 *     commercial-typical
 * @param note what was read and what was not; may be empty
 */
public record Source(String id, String citation, String kind, String note) {
  /**
   * Checks that nothing is missing.
   *
   * @param id the short name that figures point to
   * @param citation what it stands for
   * @param kind published, handbook, regulation, common-practice, memory, calculated or
   *     commercial-typical
   * @param note what was read and what was not; may be empty
   * @throws NullPointerException if an argument is null
   * @throws IllegalArgumentException if the id, the citation or the kind is blank
   */
  public Source {
    id = Require.text("source id", id);
    citation = Require.text("citation", citation);
    kind = Require.text("kind of source", kind);
    note = note.strip();
  }
}
