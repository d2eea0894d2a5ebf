package org.surfactantblend.optimise;

import java.util.Arrays;
import java.util.SplittableRandom;

/** Seeded programmes of many kinds. The same seed gives the same programme. */
final class Instances {

  /** What is special about a programme. */
  enum Kind {
    BLEND,
    DENSE,
    DEGENERATE,
    TIGHT_EQUALITY,
    INFEASIBLE,
    NEARLY_INFEASIBLE
  }

  /** Unit systems: factors for the variables, the rows and the costs. */
  enum Units {
    FRACTION,
    PERCENT,
    GRAM_PER_KILOGRAM,
    PARTS_PER_MILLION,
    MIXED_COLUMNS,
    MIXED_ROWS,
    ALL_MIXED
  }

  private Instances() {}

  static LinearProgram of(Kind kind, Units units, long seed) {
    SplittableRandom random = new SplittableRandom(seed * 1_000_003 + kind.name().hashCode());
    LinearProgram lp =
        switch (kind) {
          case BLEND -> blend(random, 6 + random.nextInt(20), 3 + random.nextInt(6));
          case DENSE -> around(random, 4 + random.nextInt(16), 2 + random.nextInt(8), 0.3, false);
          case DEGENERATE -> degenerate(random);
          case TIGHT_EQUALITY ->
              around(random, 5 + random.nextInt(12), 2 + random.nextInt(5), 0, true);
          case INFEASIBLE -> infeasible(random);
          case NEARLY_INFEASIBLE -> nearlyInfeasible(random);
        };
    return inUnits(lp, units, random);
  }

  /** A blend: variable 0 is water, the rest have strength, class, charge, salt and price. */
  static LinearProgram blend(SplittableRandom random, int n, int rows) {
    double[] cost = new double[n];
    double[] strength = new double[n];
    int[] group = new int[n];
    double[] salt = new double[n];
    double[][] charge = new double[2][n];
    cost[0] = 0.01;
    for (int j = 1; j < n; j++) {
      strength[j] = 0.25 + 0.5 * random.nextDouble();
      group[j] = random.nextInt(4);
      salt[j] = 0.08 * random.nextDouble();
      cost[j] = 1 + 6 * random.nextDouble();
      charge[0][j] = random.nextDouble() - 0.35;
      charge[1][j] = charge[0][j] - 0.1 - 0.3 * random.nextDouble();
    }
    double[][] a = new double[rows][n];
    double[] low = new double[rows];
    double[] high = new double[rows];
    Arrays.fill(a[0], 1);
    low[0] = high[0] = 1;
    double total = 0.06 + 0.12 * random.nextDouble();
    for (int i = 1; i < rows; i++) {
      low[i] = Double.NEGATIVE_INFINITY;
      high[i] = Double.POSITIVE_INFINITY;
      double share = 0.1 + 0.4 * random.nextDouble();
      for (int j = 0; j < n; j++) {
        a[i][j] =
            switch (i) {
              case 1 -> strength[j];
              case 2, 3, 4 ->
                  j == 0 ? 0 : (group[j] == i - 2 ? strength[j] : 0) - share * strength[j];
              case 5, 6 -> charge[i - 5][j];
              case 7 -> salt[j];
              default -> random.nextDouble();
            };
      }
      switch (i) {
        case 1 -> {
          low[i] = total - 0.002;
          high[i] = total + 0.002;
        }
        case 2, 6 -> high[i] = 0;
        case 3, 4, 5 -> low[i] = 0;
        case 7 -> high[i] = 0.01;
        default -> high[i] = 0.5 + random.nextDouble();
      }
    }
    double[] upper = new double[n];
    for (int j = 0; j < n; j++) {
      upper[j] = j == 0 ? 1 : 0.2 + 0.6 * random.nextDouble();
    }
    return LinearProgram.of(cost, a, low, high, new double[n], upper);
  }

  /** Rows drawn around a point that meets them. */
  private static LinearProgram around(
      SplittableRandom random, int n, int m, double room, boolean equality) {
    double[] lower = new double[n];
    double[] upper = new double[n];
    double[] point = new double[n];
    double[] cost = new double[n];
    for (int j = 0; j < n; j++) {
      lower[j] = random.nextInt(3) == 0 ? random.nextDouble() - 0.5 : 0;
      upper[j] = lower[j] + (random.nextInt(12) == 0 ? 0 : random.nextDouble() + 0.05);
      int where = random.nextInt(4);
      point[j] =
          where == 0
              ? lower[j]
              : where == 1 ? upper[j] : lower[j] + random.nextDouble() * (upper[j] - lower[j]);
      cost[j] = random.nextInt(6) == 0 ? 0 : random.nextDouble() * 2 - 0.7;
    }
    double[][] a = new double[m][n];
    double[] low = new double[m];
    double[] high = new double[m];
    for (int i = 0; i < m; i++) {
      double at = 0;
      for (int j = 0; j < n; j++) {
        a[i][j] = random.nextInt(4) == 0 ? 0 : random.nextDouble() * 2 - 1;
        at += a[i][j] * point[j];
      }
      int shape = random.nextInt(4);
      if (equality || shape == 3) {
        low[i] = at;
        high[i] = at;
      } else {
        low[i] = shape == 0 ? Double.NEGATIVE_INFINITY : at - room * random.nextDouble();
        high[i] = shape == 1 ? Double.POSITIVE_INFINITY : at + room * random.nextDouble();
      }
    }
    return LinearProgram.of(cost, a, low, high, lower, upper);
  }

  /** Small whole numbers: many ties, many vertices in one point, rows said twice. */
  private static LinearProgram degenerate(SplittableRandom random) {
    int n = 4 + random.nextInt(12);
    int m = 3 + random.nextInt(8);
    double[][] a = new double[m][n];
    double[] low = new double[m];
    double[] high = new double[m];
    double[] cost = new double[n];
    double[] upper = new double[n];
    for (int j = 0; j < n; j++) {
      cost[j] = random.nextInt(4) - 1;
      upper[j] = random.nextInt(3);
    }
    for (int i = 0; i < m; i++) {
      if (i > 1 && random.nextInt(5) == 0) {
        a[i] = a[i - 1].clone();
        low[i] = low[i - 1];
        high[i] = high[i - 1];
        continue;
      }
      for (int j = 0; j < n; j++) {
        a[i][j] = random.nextInt(5) - 2;
      }
      int v = random.nextInt(4) - 1;
      low[i] = random.nextBoolean() ? v : Double.NEGATIVE_INFINITY;
      high[i] = random.nextBoolean() ? v + random.nextInt(2) : Double.POSITIVE_INFINITY;
    }
    return LinearProgram.of(cost, a, low, high, new double[n], upper);
  }

  private static LinearProgram infeasible(SplittableRandom random) {
    LinearProgram lp =
        random.nextBoolean()
            ? blend(random, 6 + random.nextInt(14), 7)
            : around(random, 4 + random.nextInt(12), 2 + random.nextInt(6), 0.3, false);
    int n = lp.variables();
    double[] row = new double[n];
    double most = 0;
    // A combination of rows pushed past what they allow, or past the bounds.
    for (int j = 0; j < n; j++) {
      row[j] = random.nextDouble() - 0.3;
      most += row[j] * (row[j] > 0 ? lp.upper(j) : lp.lower(j));
    }
    double beyond = most + 0.05 + 0.2 * random.nextDouble();
    if (random.nextBoolean()) {
      return lp.plusRow(row, beyond, Double.POSITIVE_INFINITY);
    }
    int i = random.nextInt(lp.rows());
    double[] copy = new double[n];
    for (int j = 0; j < n; j++) {
      copy[j] = lp.coefficient(i, j);
    }
    double top = lp.rowUpper(i);
    return Double.isInfinite(top)
        ? lp.plusRow(row, beyond, Double.POSITIVE_INFINITY)
        : lp.plusRow(copy, top + 0.01 + random.nextDouble(), Double.POSITIVE_INFINITY);
  }

  /** A row pushed to the end of what the others allow, and a hair's breadth before or beyond. */
  private static LinearProgram nearlyInfeasible(SplittableRandom random) {
    LinearProgram lp =
        random.nextBoolean()
            ? blend(random, 6 + random.nextInt(10), 5)
            : around(random, 4 + random.nextInt(8), 2 + random.nextInt(4), 0.3, false);
    double[] row = new double[lp.variables()];
    for (int j = 0; j < row.length; j++) {
      row[j] = random.nextDouble() - 0.4;
    }
    ExactLp.Answer end = ExactLp.solve(lp.withCost(row), null);
    if (!end.feasible()) {
      return lp;
    }
    double[] hair = {0, 1e-12, 1e-10, 3e-9, 2e-8, 1e-7, -1e-12, -1e-10, -3e-9, -2e-8, -1e-7};
    double limit = end.value().doubleValue() + hair[random.nextInt(hair.length)];
    return lp.plusRow(row, Double.NEGATIVE_INFINITY, limit);
  }

  /**
   * Every second row is the one before it but for a hair's breadth; mostly one has to be broken.
   */
  static LinearProgram nearlyEqualRows(double hair, boolean shifted, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    int n = 4 + random.nextInt(8);
    int m = 3 + random.nextInt(5);
    double[] upper = new double[n];
    double[] cost = new double[n];
    double[] point = new double[n];
    Arrays.fill(upper, 1);
    for (int j = 0; j < n; j++) {
      point[j] = random.nextBoolean() ? random.nextDouble() : random.nextInt(2);
      cost[j] = random.nextDouble() * 2 - 1;
    }
    double[][] a = new double[m][n];
    double[] low = new double[m];
    double[] high = new double[m];
    for (int i = 0; i < m; i++) {
      double at = shifted ? hair * (random.nextDouble() - 0.5) : 0;
      for (int j = 0; j < n; j++) {
        a[i][j] =
            i % 2 == 1
                ? a[i - 1][j] + hair * (random.nextDouble() - 0.5)
                : random.nextDouble() * 2 - 1;
        at += a[i][j] * point[j];
      }
      low[i] = at;
      high[i] = random.nextBoolean() ? at : Double.POSITIVE_INFINITY;
    }
    return LinearProgram.of(cost, a, low, high, new double[n], upper);
  }

  /** Coefficients over so many powers of ten within every row, rows drawn through one point. */
  static LinearProgram wideCoefficients(int powers, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    int n = 3 + random.nextInt(10);
    int m = 2 + random.nextInt(7);
    double[] upper = new double[n];
    double[] cost = new double[n];
    double[] point = new double[n];
    for (int j = 0; j < n; j++) {
      upper[j] = Math.pow(10, random.nextInt(3));
      point[j] = upper[j] * (random.nextBoolean() ? random.nextDouble() : random.nextInt(2));
      cost[j] = random.nextDouble() * 2 - 1;
    }
    double[][] a = new double[m][n];
    double[] low = new double[m];
    double[] high = new double[m];
    for (int i = 0; i < m; i++) {
      double at = 0;
      for (int j = 0; j < n; j++) {
        a[i][j] =
            random.nextInt(3) == 0
                ? 0
                : (random.nextDouble() - 0.5) * StrictMath.pow(10, -random.nextInt(powers + 1));
        at += a[i][j] * point[j];
      }
      low[i] = at;
      high[i] = random.nextBoolean() ? at : Double.POSITIVE_INFINITY;
    }
    return LinearProgram.of(cost, a, low, high, new double[n], upper);
  }

  /** Whole numbers in many rows through a corner, half of them equations; costs may be nothing. */
  static LinearProgram manyRows(int m, int n, boolean costs, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    double[] upper = new double[n];
    double[] cost = new double[n];
    double[] point = new double[n];
    for (int j = 0; j < n; j++) {
      upper[j] = 1 + random.nextInt(3);
      point[j] = random.nextInt((int) upper[j] + 1);
      cost[j] = costs ? random.nextInt(5) - 2 : 0;
    }
    double[][] a = new double[m][n];
    double[] low = new double[m];
    double[] high = new double[m];
    for (int i = 0; i < m; i++) {
      for (int j = 0; j < n; j++) {
        a[i][j] = random.nextInt(3) == 0 ? random.nextInt(7) - 3 : 0;
        low[i] += a[i][j] * point[j];
      }
      high[i] = i % 2 == 0 ? low[i] : Double.POSITIVE_INFINITY;
    }
    return LinearProgram.of(cost, a, low, high, new double[n], upper);
  }

  private static LinearProgram inUnits(LinearProgram lp, Units units, SplittableRandom random) {
    int n = lp.variables();
    int m = lp.rows();
    double[] column = new double[n];
    double[] rowFactor = new double[m];
    double costFactor = 1;
    Arrays.fill(column, 1);
    Arrays.fill(rowFactor, 1);
    switch (units) {
      case FRACTION -> {
        return lp;
      }
      case PERCENT -> Arrays.fill(column, 100);
      case GRAM_PER_KILOGRAM -> {
        Arrays.fill(column, 1000);
        costFactor = 0.1;
      }
      case PARTS_PER_MILLION -> {
        Arrays.fill(column, 1e6);
        costFactor = 1e-3;
      }
      case MIXED_COLUMNS -> {
        for (int j = 0; j < n; j++) {
          column[j] = Math.pow(10, random.nextInt(5) - 1);
        }
      }
      case MIXED_ROWS -> {
        for (int i = 0; i < m; i++) {
          rowFactor[i] = Math.pow(10, random.nextInt(9) - 4);
        }
        costFactor = 1e5;
      }
      case ALL_MIXED -> {
        for (int j = 0; j < n; j++) {
          column[j] = Math.pow(10, random.nextInt(4) - 1);
        }
        for (int i = 0; i < m; i++) {
          rowFactor[i] = Math.pow(10, random.nextInt(7) - 3);
        }
        costFactor = 1e-4;
      }
    }
    double[] cost = new double[n];
    double[] lower = new double[n];
    double[] upper = new double[n];
    double[][] a = new double[m][n];
    double[] low = new double[m];
    double[] high = new double[m];
    for (int j = 0; j < n; j++) {
      cost[j] = lp.cost(j) * costFactor / column[j];
      lower[j] = lp.lower(j) * column[j];
      upper[j] = lp.upper(j) * column[j];
    }
    for (int i = 0; i < m; i++) {
      for (int j = 0; j < n; j++) {
        a[i][j] = lp.coefficient(i, j) * rowFactor[i] / column[j];
      }
      low[i] = lp.rowLower(i) * rowFactor[i];
      high[i] = lp.rowUpper(i) * rowFactor[i];
    }
    return LinearProgram.of(cost, a, low, high, lower, upper);
  }
}
