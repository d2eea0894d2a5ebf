package org.surfactantblend.benchmarks;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.List;
import org.apache.commons.math3.fraction.BigFraction;
import org.apache.commons.math3.linear.Array2DRowFieldMatrix;
import org.apache.commons.math3.linear.ArrayFieldVector;
import org.apache.commons.math3.linear.FieldDecompositionSolver;
import org.apache.commons.math3.linear.FieldLUDecomposition;
import org.apache.commons.math3.linear.FieldVector;
import org.surfactantblend.optimise.DualSimplex;
import org.surfactantblend.optimise.LinearProgram;
import org.surfactantblend.optimise.LpSolution;

/**
 * What one choice of surfactants costs at least, judged in fractions of whole numbers: from the
 * basis alone for an optimum, from the multipliers alone for the proof that there is none. Nothing
 * else of the solver's answer is believed.
 */
final class ExactLeaf {

  /** How much of a bound a point may miss, as in the kernel's own promise. */
  private static final BigFraction HAIR = fraction(1e-9);

  private ExactLeaf() {}

  /**
   * The exact least cost with exactly these surfactants in use.
   *
   * @return NaN if no such blend exists
   * @throws IllegalStateException if the answer cannot be proved
   */
  static double cost(BlendProgrammes p, List<Integer> support) {
    double[] lower = p.lower.clone();
    double[] upper = p.upper.clone();
    for (int j = 1; j < lower.length; j++) {
      if (support.contains(j)) {
        lower[j] = BlendProgrammes.MINIMUM_USE;
      } else {
        upper[j] = 0;
      }
    }
    LinearProgram lp = p.load().withBounds(lower, upper);
    LpSolution solution = new DualSimplex().solve(lp);
    if (solution.isOptimal()) {
      return optimum(lp, solution);
    }
    if (!excludes(lp, solution.certificate())) {
      throw new IllegalStateException("not proved infeasible: " + support);
    }
    return Double.NaN;
  }

  /** The cost of the basic point, once it is shown to lie within all bounds and to be cheapest. */
  private static double optimum(LinearProgram lp, LpSolution solution) {
    int n = lp.variables();
    int m = lp.rows();
    int[] head = solution.basis().basic();
    boolean[] basic = new boolean[n + m];
    BigFraction[][] columns = new BigFraction[m][m];
    BigFraction[] costs = new BigFraction[m];
    for (int k = 0; k < m; k++) {
      basic[head[k]] = true;
      costs[k] = head[k] < n ? fraction(lp.cost(head[k])) : BigFraction.ZERO;
      for (int i = 0; i < m; i++) {
        columns[i][k] = coefficient(lp, i, head[k]);
      }
    }
    BigFraction[] rest = new BigFraction[m];
    java.util.Arrays.fill(rest, BigFraction.ZERO);
    BigFraction cost = BigFraction.ZERO;
    for (int j = 0; j < n + m; j++) {
      double at = basic[j] ? 0 : bound(lp, j, solution.basis().atUpper(j));
      if (at != 0) {
        BigFraction v = fraction(at);
        cost = j < n ? cost.add(fraction(lp.cost(j)).multiply(v)) : cost;
        for (int i = 0; i < m; i++) {
          rest[i] = rest[i].subtract(coefficient(lp, i, j).multiply(v));
        }
      }
    }
    Array2DRowFieldMatrix<BigFraction> matrix = new Array2DRowFieldMatrix<>(columns);
    FieldVector<BigFraction> values = solver(matrix).solve(new ArrayFieldVector<>(rest));
    for (int k = 0; k < m; k++) {
      BigFraction v = values.getEntry(k);
      BigFraction hair = head[k] < n ? HAIR : HAIR.multiply(fraction(lp.rowMax(head[k] - n)));
      if (below(v.add(hair), bound(lp, head[k], false))
          || above(v.subtract(hair), bound(lp, head[k], true))) {
        throw new IllegalStateException("the basic point lies outside its bounds");
      }
      cost = cost.add(costs[k].multiply(v));
    }
    FieldVector<BigFraction> prices =
        solver(matrix.transpose()).solve(new ArrayFieldVector<>(costs));
    for (int j = 0; j < n + m; j++) {
      if (!basic[j] && bound(lp, j, false) != bound(lp, j, true)) {
        BigFraction reduced = j < n ? fraction(lp.cost(j)) : BigFraction.ZERO;
        for (int i = 0; i < m; i++) {
          reduced = reduced.subtract(prices.getEntry(i).multiply(coefficient(lp, i, j)));
        }
        double wrong = solution.basis().atUpper(j) ? reduced.doubleValue() : -reduced.doubleValue();
        if (wrong > 1e-10) {
          throw new IllegalStateException("the basic point is not the cheapest");
        }
      }
    }
    return cost.doubleValue();
  }

  private static FieldDecompositionSolver<BigFraction> solver(
      org.apache.commons.math3.linear.FieldMatrix<BigFraction> matrix) {
    return new FieldLUDecomposition<>(matrix).getSolver();
  }

  private static BigFraction coefficient(LinearProgram lp, int row, int column) {
    int n = lp.variables();
    if (column < n) {
      return fraction(lp.coefficient(row, column));
    }
    return column - n == row ? BigFraction.MINUS_ONE : BigFraction.ZERO;
  }

  private static double bound(LinearProgram lp, int j, boolean upper) {
    int n = lp.variables();
    if (j < n) {
      return upper ? lp.upper(j) : lp.lower(j);
    }
    return upper ? lp.rowUpper(j - n) : lp.rowLower(j - n);
  }

  private static boolean below(BigFraction v, double bound) {
    return !Double.isInfinite(bound) && v.compareTo(fraction(bound)) < 0;
  }

  private static boolean above(BigFraction v, double bound) {
    return !Double.isInfinite(bound) && v.compareTo(fraction(bound)) > 0;
  }

  /** Whether the multipliers of the rows leave no point. */
  private static boolean excludes(LinearProgram lp, double[] y) {
    BigFraction gap = BigFraction.ZERO;
    for (int j = 0; j < lp.variables(); j++) {
      BigFraction g = BigFraction.ZERO;
      for (int i = 0; i < y.length; i++) {
        g = g.add(fraction(y[i]).multiply(fraction(lp.coefficient(i, j))));
      }
      boolean positive = g.getNumerator().signum() > 0;
      gap = gap.add(g.multiply(fraction(positive ? lp.lower(j) : lp.upper(j))));
    }
    for (int i = 0; i < y.length; i++) {
      if (y[i] != 0) {
        gap =
            gap.subtract(
                fraction(y[i]).multiply(fraction(bound(lp, lp.variables() + i, y[i] > 0))));
      }
    }
    return gap.getNumerator().signum() > 0;
  }

  /** The very number: every double is a whole number over a power of two. */
  private static BigFraction fraction(double v) {
    BigDecimal exact = new BigDecimal(v);
    return new BigFraction(exact.unscaledValue(), BigInteger.TEN.pow(Math.max(0, exact.scale())))
        .multiply(BigInteger.TEN.pow(Math.max(0, -exact.scale())));
  }
}
