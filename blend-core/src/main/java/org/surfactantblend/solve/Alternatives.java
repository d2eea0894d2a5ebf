package org.surfactantblend.solve;

import java.util.List;
import java.util.OptionalDouble;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.quantity.Text;

/**
 * The best distinct sets of surfactants for a brief, each with its best amounts.
 *
 * <p>Immutable and thread-safe.
 *
 * @param brief what is asked
 * @param blends in order of the wish, best first; empty when no blend meets the brief or none was
 *     found in time
 * @param complete whether the search ran to its end: there is then no better list
 * @param bound when the search was stopped, what the wish's figure of no other set goes below;
 *     minus infinity when that is not known
 */
public record Alternatives(Brief brief, List<SolvedBlend> blends, boolean complete, double bound) {

  /**
   * Keeps a copy of the list.
   *
   * @param brief what is asked
   * @param blends in order of the wish, best first; empty when no blend meets the brief or none was
   *     found in time
   * @param complete whether the search ran to its end: there is then no better list
   * @param bound when the search was stopped, what the wish's figure of no other set goes below;
   *     minus infinity when that is not known
   */
  public Alternatives {
    blends = List.copyOf(blends);
  }

  /**
   * How much better than the first of the list a blend might still be, if the search was stopped.
   *
   * @return the proven gap, 0 or more, in the unit of the wish; 0 when complete; empty when nothing
   *     was found or nothing is proven
   */
  public OptionalDouble gap() {
    if (blends.isEmpty()) {
      return OptionalDouble.empty();
    }
    if (complete) {
      return OptionalDouble.of(0);
    }
    return Double.isInfinite(bound)
        ? OptionalDouble.empty()
        : OptionalDouble.of(Math.max(0, blends.get(0).wishValue() - bound));
  }

  /**
   * The list in at most 80 columns.
   *
   * @return several lines
   */
  public String table() {
    StringBuilder s = new StringBuilder(brief.name());
    s.append(": ").append(brief.wish()).append("\n\n");
    s.append(Text.right("wish", 14)).append("   surfactants, % as supplied\n");
    for (SolvedBlend b : blends) {
      s.append(Text.right(Text.fixed(b.wishValue(), 4), 14));
      SolvedBlend.appendSurfactants(s, b.blend(), 17);
    }
    if (blends.isEmpty()) {
      s.append(
          complete
              ? "  no blend meets the brief; solving it tells why\n"
              : "  none found before the stop\n");
    }
    if (!complete) {
      s.append("  The search was stopped");
      if (gap().isPresent()) {
        s.append("; none is better than the first by more than ")
            .append(Text.fixed(gap().getAsDouble(), 4));
      }
      s.append(".\n");
    }
    return s.toString();
  }

  @Override
  public String toString() {
    return table();
  }
}
