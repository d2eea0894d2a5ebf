package org.surfactantblend.solve;

import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.optimise.DualSimplex;
import org.surfactantblend.optimise.LinearProgram;
import org.surfactantblend.optimise.LpSolution;
import org.surfactantblend.optimise.NumericBreakdownException;
import org.surfactantblend.solve.Programme.Objective;
import org.surfactantblend.solve.Programme.Row;

/** Finds the mass fractions with the least of a sum, or of a ratio of sums, under given rows. */
final class Minimiser {
  private static final int MOST_PASSES = 60;

  private final Programme programme;
  private final DualSimplex simplex = new DualSimplex();
  private double lastRatio;

  Minimiser(Programme programme) {
    this.programme = programme;
  }

  /** Finds the optimum of one programme; null when it has none. */
  interface Optimiser {
    @Nullable LpSolution solve(LinearProgram programme);
  }

  /** The answer of the plain programme. */
  LpSolution solve(LinearProgram p) {
    return simplex.solve(p);
  }

  /**
   * The best mass fractions between given ends; null when there are none.
   *
   * @throws NumericBreakdownException when rounding hides whether there are any
   */
  double @Nullable [] minimise(List<Row> rows, Objective objective, double[] low, double[] high) {
    return minimise(
        rows,
        objective,
        low,
        high,
        p -> {
          LpSolution s = simplex.solve(p);
          return s.isOptimal() ? s : null;
        });
  }

  /** The same with another way to the optimum of each programme. */
  double @Nullable [] minimise(
      List<Row> rows, Objective objective, double[] low, double[] high, Optimiser optimiser) {
    // Any start will do; that of the tangents before is near.
    double ratio = objective.floors().isEmpty() ? 0 : lastRatio;
    double[] best = null;
    for (int pass = 0; pass < MOST_PASSES; pass++) {
      LpSolution s = optimiser.solve(programme.model(rows, objective.at(ratio), low, high));
      if (s == null) {
        return best;
      }
      double[] w = programme.fractions(s.x());
      if (!objective.isRatio()) {
        return w;
      }
      double next = programme.objectiveValue(objective, w);
      if (best != null && next >= ratio - 1e-12 * Math.max(1, Math.abs(ratio))) {
        return best;
      }
      best = w;
      ratio = next;
      lastRatio = next;
    }
    return best;
  }

  /** The least value of a sum over blends inside some rows, infinite when there are none. */
  double leastOf(List<Row> rows, double[] sum, double[] low, double[] high) {
    try {
      double[] w = minimise(rows, Objective.plain(sum), low, high);
      return w == null ? Double.POSITIVE_INFINITY : Programme.dot(sum, w);
    } catch (NumericBreakdownException e) {
      // Whether there are any hangs on a hair's breadth; fractions sum to 1, so this holds anyway.
      return Arrays.stream(sum).min().orElseThrow();
    }
  }
}
