package org.surfactantblend.swap;

import org.surfactantblend.quantity.Text;

/**
 * One figure of a product before and after a swap.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param name what it is
 * @param unit its unit with the basis; empty for pH and ratios
 * @param decimals how many decimals it is shown with
 * @param before the figure before
 * @param after the figure after
 * @param tolerance by how much it may change, in its unit; infinity when no tolerance applies
 * @param verdict what became of it; held when it changed by less than half of the last digit shown
 */
public record SwapFigure(
    String name,
    String unit,
    int decimals,
    double before,
    double after,
    double tolerance,
    Verdict verdict) {
  static SwapFigure of(
      String name, String unit, int decimals, double before, double after, double tolerance) {
    double change = Math.abs(after - before);
    double dust = 1e-10 * Math.max(1, Math.abs(before));
    // A change that the shown digits do not show is none to act upon.
    double unseen = Math.min(0.5 * StrictMath.pow(10, -decimals), tolerance / 2);
    Verdict verdict =
        change <= Math.max(dust, unseen)
            ? Verdict.HELD
            : change > tolerance + dust ? Verdict.OUTSIDE_TOLERANCE : Verdict.MOVED;
    return new SwapFigure(name, unit, decimals, before, after, tolerance, verdict);
  }

  /**
   * By how much it changed.
   *
   * @return after less before
   */
  public double change() {
    return after - before;
  }

  @Override
  public String toString() {
    return name
        + " "
        + Text.fixed(before, decimals)
        + " -> "
        + Text.fixed(after, decimals)
        + (unit.isEmpty() ? "" : " " + unit)
        + ", "
        + verdict.label();
  }
}
