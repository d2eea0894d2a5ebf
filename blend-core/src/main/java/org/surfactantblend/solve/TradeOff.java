package org.surfactantblend.solve;

import java.util.List;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.quantity.Text;

/**
 * The trade-off between two measures among all blends that meet a brief: the blends that cannot be
 * bettered in one measure without giving up on the other.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param brief what is asked; its wish does not count
 * @param first the measure along which the corners are ordered
 * @param second the other measure
 * @param corners the corners by rising first measure; empty when no blend meets the brief
 * @param between whether mixtures of two neighbours are on the front, too: true when the brief
 *     leaves the choice of surfactants free. Otherwise the corners are those choices that are best
 *     for some weighting of the two measures or, against the number of surfactants, for a number
 * @param complete false when the search was stopped by its budget: corners may then be missing
 */
public record TradeOff(
    Brief brief,
    Measure first,
    Measure second,
    List<Corner> corners,
    boolean between,
    boolean complete) {

  /**
   * Corners that lie less than this share of the front's range below the line between their
   * neighbours are not listed: with the ionic strength a front bends a little everywhere.
   */
  public static final double PRECISION = 1e-4;

  /**
   * One blend of the front.
   *
   * @param blend the blend
   * @param first its first measure, in that measure's unit
   * @param second its second measure, in that measure's unit
   */
  public record Corner(Blend blend, double first, double second) {}

  /**
   * Keeps a copy of the corners.
   *
   * @param brief what is asked; its wish does not count
   * @param first the measure along which the corners are ordered
   * @param second the other measure
   * @param corners the corners by rising first measure; empty when no blend meets the brief
   * @param between whether mixtures of two neighbours are on the front, too: true when the brief
   *     leaves the choice of surfactants free. Otherwise the corners are those choices that are
   *     best for some weighting of the two measures or, against the number of surfactants, for a
   *     number
   * @param complete false when the search was stopped by its budget: corners may then be missing
   */
  public TradeOff {
    corners = List.copyOf(corners);
  }

  /**
   * The front as a table in at most 80 columns.
   *
   * @return several lines
   */
  public String table() {
    StringBuilder s = new StringBuilder(brief.name());
    s.append(": ").append(first.label()).append(" against ").append(second.label()).append("\n\n");
    if (corners.isEmpty()) {
      return s.append("  no blend meets the brief\n").toString();
    }
    s.append("  ")
        .append(Text.right(first.label(), 16))
        .append(Text.right(second.label(), 24))
        .append("\n  ")
        .append(Text.right(first.unit(), 16))
        .append(Text.right(second.unit(), 24))
        .append("   surfactants, % as supplied\n");
    for (Corner c : corners) {
      s.append("  ")
          .append(Text.right(Text.fixed(c.first(), first.decimals()), 16))
          .append(Text.right(Text.fixed(c.second(), second.decimals()), 24));
      SolvedBlend.appendSurfactants(s, c.blend(), 45);
    }
    if (corners.size() > 1) {
      s.append(
          between
              ? "  Mixtures of two neighbours are on the front as well.\n"
              : "  Between two neighbours there is no promise: the choice changes.\n");
    }
    if (!complete) {
      s.append("  The search was stopped: corners may be missing.\n");
    }
    return s.toString();
  }

  @Override
  public String toString() {
    return table();
  }
}
