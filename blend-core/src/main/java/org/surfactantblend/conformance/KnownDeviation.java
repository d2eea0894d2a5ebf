package org.surfactantblend.conformance;

import org.surfactantblend.quantity.Require;

/**
 * A finding that somebody looked at and accepts, with the reason.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param subject what the finding is about, as it stands in its place: the id of a material, {@code
 *     acid citric acid}, or {@code table}
 * @param code the code of the finding, such as {@code dry-residue}
 * @param reason why it is accepted
 */
public record KnownDeviation(String subject, String code, String reason) {
  /**
   * Checks that nothing is blank.
   *
   * @param subject what the finding is about, as it stands in its place: the id of a material, {@code acid citric acid}, or {@code table}
   * @param code the code of the finding, such as {@code dry-residue}
   * @param reason why it is accepted
   * @throws NullPointerException if an argument is null
   * @throws IllegalArgumentException if an argument is blank
   */
  public KnownDeviation {
    subject = Require.text("subject", subject);
    code = Require.text("code", code);
    reason = Require.text("reason", reason);
  }
}
