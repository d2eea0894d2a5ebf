package org.surfactantblend.optimise;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * Exact checks of an answer from the programme's own numbers, with nothing taken from the solver.
 */
final class Recheck {

  private Recheck() {}

  /**
   * What the point violates by more than the tolerance (on rows over their largest coefficient), or
   * null.
   */
  static @Nullable String violation(LinearProgram lp, double[] x, double tolerance) {
    for (int j = 0; j < x.length; j++) {
      if (!(x[j] >= lp.lower(j) && x[j] <= lp.upper(j))) {
        return "x[" + j + "] = " + x[j] + " outside its bounds";
      }
    }
    for (int i = 0; i < lp.rows(); i++) {
      BigDecimal sum = BigDecimal.ZERO;
      for (int j = 0; j < x.length; j++) {
        sum = sum.add(new BigDecimal(lp.coefficient(i, j)).multiply(new BigDecimal(x[j])));
      }
      double allowed = tolerance * lp.rowMax(i) * lp.magnitude();
      double below =
          Double.isInfinite(lp.rowLower(i))
              ? 0
              : new BigDecimal(lp.rowLower(i)).subtract(sum).doubleValue();
      double above =
          Double.isInfinite(lp.rowUpper(i))
              ? 0
              : sum.subtract(new BigDecimal(lp.rowUpper(i))).doubleValue();
      if (below > allowed || above > allowed) {
        return "row " + i + " violated by " + Math.max(below, above) + ", allowed " + allowed;
      }
    }
    return null;
  }

  /**
   * By how much the cost is above what the prices prove to be the least, over the size of what the
   * prices pay; near 0 for an optimum, whatever the solver says.
   */
  static double unproved(LinearProgram lp, LpSolution s) {
    double[] y = s.rowDuals();
    double[] d = s.reducedCosts();
    double proved = 0;
    double size = lp.costMax * lp.magnitude();
    for (int i = 0; i < y.length; i++) {
      double end = y[i] > 0 ? lp.rowLower(i) : lp.rowUpper(i);
      // A price that is all rounding may stand at an end that is open.
      double part = Double.isInfinite(end) && Math.abs(y[i]) < 1e-9 ? 0 : y[i] * end;
      proved += part;
      size += Math.abs(part);
    }
    for (int j = 0; j < d.length; j++) {
      proved += d[j] * (d[j] > 0 ? lp.lower(j) : lp.upper(j));
    }
    return Math.abs(s.objective() - proved) / size;
  }

  /** Whether the multipliers exclude every point, in exact arithmetic. */
  static boolean proves(LinearProgram lp, double[] y) {
    BigDecimal gap = BigDecimal.ZERO;
    for (int j = 0; j < lp.variables(); j++) {
      BigDecimal g = BigDecimal.ZERO;
      for (int i = 0; i < y.length; i++) {
        g = g.add(new BigDecimal(y[i]).multiply(new BigDecimal(lp.coefficient(i, j))));
      }
      gap = gap.add(g.multiply(new BigDecimal(g.signum() > 0 ? lp.lower(j) : lp.upper(j))));
    }
    for (int i = 0; i < y.length; i++) {
      if (y[i] != 0) {
        double limit = y[i] > 0 ? lp.rowUpper(i) : lp.rowLower(i);
        if (Double.isInfinite(limit)) {
          return false;
        }
        gap = gap.subtract(new BigDecimal(y[i]).multiply(new BigDecimal(limit)));
      }
    }
    return gap.signum() > 0;
  }
}
