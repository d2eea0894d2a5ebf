package org.surfactantblend.benchmarks;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.surfactantblend.optimise.DualSimplex;
import org.surfactantblend.optimise.LinearProgram;
import org.surfactantblend.optimise.SupportProblem;

/**
 * Seeded programmes of the shape of a blend: water and n - 1 surfactants as mass fractions, and
 * rows for the sum, total active, four class shares, the two rows of a pH window, salt, and as many
 * loose property rows as asked for.
 */
final class BlendProgrammes {

  /** Class of each variable: -1 for water, else 0 to 3. */
  final int[] group;

  /** The variables of each class. */
  final int[][] members = new int[4][];

  /** Active share of each variable. */
  final double[] strength;

  final double[] cost;
  final double[][] rows;
  final double[] rowLower;
  final double[] rowUpper;
  final double[] lower;
  final double[] upper;

  /**
   * @param n variables
   * @param m rows, 9 or more
   * @param hard near-equal costs and a narrow pH window
   * @param seed the same seed gives the same programme
   */
  private BlendProgrammes(int n, int m, boolean hard, long seed) {
    SplittableRandom random = new SplittableRandom(seed * 7919 + n);
    group = new int[n];
    strength = new double[n];
    cost = new double[n];
    rows = new double[m][n];
    rowLower = new double[m];
    rowUpper = new double[m];
    lower = new double[n];
    upper = new double[n];
    Arrays.fill(upper, 1);
    Arrays.fill(rowLower, Double.NEGATIVE_INFINITY);
    Arrays.fill(rowUpper, Double.POSITIVE_INFINITY);
    group[0] = -1;
    cost[0] = 0.02;
    double[] shareLower = {0.10, 0.20, 0.15, 0};
    double[] shareUpper = {0.45, 0.60, 0.60, 0.05};
    for (int j = 1; j < n; j++) {
      group[j] = j % 10 == 9 ? 3 : j % 3;
      strength[j] = 0.27 + 0.35 * random.nextDouble();
      cost[j] = strength[j] * (hard ? 6 + 0.02 * random.nextDouble() : 4 + 8 * random.nextDouble());
    }
    for (int g = 0; g < members.length; g++) {
      int wanted = g;
      members[g] = IntStream.range(1, n).filter(j -> group[j] == wanted).toArray();
    }
    double window = hard ? 0.05 : 0.3;
    for (int j = 0; j < n; j++) {
      double a = strength[j];
      double alkali = j == 0 ? 0 : (group[j] == 2 ? 0.10 : -0.02) + 0.06 * random.nextDouble();
      rows[0][j] = 1;
      rows[1][j] = a;
      for (int g = 0; g < 3; g++) {
        double own = j > 0 && group[j] == g ? 1 : 0;
        rows[2 + g][j] = a * (own - (g == 0 ? shareUpper[g] : shareLower[g]));
      }
      rows[5][j] = alkali;
      rows[6][j] = j == 0 ? -1e-6 : alkali - window * a * (0.05 + 0.1 * random.nextDouble());
      rows[7][j] = j == 0 ? 0 : 0.07 * random.nextDouble();
      rows[8][j] = a * ((j > 0 && group[j] == 3 ? 1 : 0) - shareUpper[3]);
      for (int i = 9; i < m; i++) {
        rows[i][j] = j == 0 ? 0 : random.nextDouble();
      }
    }
    rowLower[0] = rowUpper[0] = 1;
    rowLower[1] = 0.088;
    rowUpper[1] = 0.092;
    rowUpper[2] = 0;
    rowLower[3] = rowLower[4] = rowLower[5] = 0;
    rowUpper[6] = 0;
    rowUpper[7] = 0.012;
    rowUpper[8] = 0;
    for (int i = 9; i < m; i++) {
      rowUpper[i] = 0.11;
    }
  }

  /** The first {@code count} feasible programmes. */
  static BlendProgrammes[] feasible(int n, int m, boolean hard, int count) {
    BlendProgrammes[] found = new BlendProgrammes[count];
    DualSimplex simplex = new DualSimplex();
    int have = 0;
    for (long seed = 0; have < count; seed++) {
      BlendProgrammes p = new BlendProgrammes(n, m, hard, seed);
      if (simplex.solve(p.load()).isOptimal()) {
        found[have++] = p;
      }
    }
    return found;
  }

  /** The programme of a seed, with or without a solution. */
  static BlendProgrammes of(int n, int m, boolean hard, long seed) {
    return new BlendProgrammes(n, m, hard, seed);
  }

  LinearProgram load() {
    return LinearProgram.of(cost, rows, rowLower, rowUpper, lower, upper);
  }

  /** Least mass fraction of a surfactant in use. */
  static final double MINIMUM_USE = 0.01;

  /** Classes of which one surfactant at least has to be in use. */
  static final int[] NEEDED = {1, 2};

  /** At most so many surfactants, each at 1 % or more or absent, one of each needed class. */
  SupportProblem choose(int atMost) {
    int n = cost.length;
    int[] choosable = new int[n - 1];
    double[] minimumUse = new double[n - 1];
    for (int s = 0; s < n - 1; s++) {
      choosable[s] = s + 1;
      minimumUse[s] = MINIMUM_USE;
    }
    SupportProblem.Builder builder =
        SupportProblem.of(load(), choosable, minimumUse).atMost(atMost);
    for (int j : choosable) {
      builder.contribution(j, strength[j]);
    }
    for (int wanted : NEEDED) {
      builder.count(members[wanted], 1, atMost);
    }
    return builder.build();
  }
}
