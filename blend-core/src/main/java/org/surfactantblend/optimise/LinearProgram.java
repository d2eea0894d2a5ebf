package org.surfactantblend.optimise;

import java.util.Arrays;
import java.util.Objects;

/**
 * Minimise {@code cost . x} subject to {@code rowLower <= A x <= rowUpper} and {@code lower <= x <=
 * upper}, all dense.
 *
 * <p>Every variable has two finite bounds; a row may be open on either side or on both. Nothing has
 * a unit here: the caller's units must agree with each other.
 *
 * <p>To keep loading cheap the arrays are kept and not copied. <b>Whoever hands an array over must
 * not change it afterwards</b>; under that condition an instance is immutable and may be shared
 * between threads.
 */
public final class LinearProgram {

  /** Variables, rows. */
  final int n;

  final int m;
  final double[] cost;
  final double[][] a;
  final double[] rowLower;
  final double[] rowUpper;
  final double[] lower;
  final double[] upper;

  /** Largest magnitude in each row, 1 for a row of zeros. */
  final double[] rowMax;

  /** Largest magnitude of the costs, 1 when there are none. */
  final double costMax;

  /** Typical magnitude of a solution; feasibility is judged as a fraction of it. */
  final double magnitude;

  private LinearProgram(
      double[] cost,
      double[][] a,
      double[] rowLower,
      double[] rowUpper,
      double[] lower,
      double[] upper,
      double[] rowMax,
      double costMax) {
    this.n = cost.length;
    this.m = a.length;
    this.cost = cost;
    this.a = a;
    this.rowLower = rowLower;
    this.rowUpper = rowUpper;
    this.lower = lower;
    this.upper = upper;
    this.rowMax = rowMax;
    this.costMax = costMax;
    this.magnitude = magnitudeOf();
  }

  /**
   * A programme over the given arrays, which are kept.
   *
   * @param cost cost of one unit of each variable, finite, length n (1 or more)
   * @param rows coefficients, finite, one array of length n per row
   * @param rowLower lower bound of each row, negative infinity when open
   * @param rowUpper upper bound of each row, positive infinity when open, not below {@code
   *     rowLower}
   * @param lower lower bound of each variable, finite
   * @param upper upper bound of each variable, finite, not below {@code lower}
   * @throws IllegalArgumentException if a length, a number or an order is not as said; the text
   *     names the place
   */
  public static LinearProgram of(
      double[] cost,
      double[][] rows,
      double[] rowLower,
      double[] rowUpper,
      double[] lower,
      double[] upper) {
    Objects.requireNonNull(rows, "rows");
    double costMax = checkedMax("cost", -1, cost, Objects.requireNonNull(cost, "cost").length);
    int n = cost.length;
    if (n == 0) {
      throw new IllegalArgumentException("cost has length 0; allowed: 1 or more");
    }
    double[] rowMax = new double[rows.length];
    for (int i = 0; i < rows.length; i++) {
      double largest = checkedMax("rows", i, rows[i], n);
      rowMax[i] = largest == 0 ? 1 : largest;
    }
    checkRowBounds(rowLower, rowUpper, rows.length);
    checkBounds(lower, upper, n);
    return new LinearProgram(
        cost, rows, rowLower, rowUpper, lower, upper, rowMax, costMax == 0 ? 1 : costMax);
  }

  /** Number of variables. */
  public int variables() {
    return n;
  }

  /** Number of rows. */
  public int rows() {
    return m;
  }

  /** Cost of one unit of a variable. */
  public double cost(int variable) {
    return cost[variable];
  }

  /** Coefficient of a variable in a row. */
  public double coefficient(int row, int variable) {
    return a[row][variable];
  }

  /** Lower bound of a row; negative infinity when open. */
  public double rowLower(int row) {
    return rowLower[row];
  }

  /** Upper bound of a row; positive infinity when open. */
  public double rowUpper(int row) {
    return rowUpper[row];
  }

  /** Lower bound of a variable. */
  public double lower(int variable) {
    return lower[variable];
  }

  /** Upper bound of a variable. */
  public double upper(int variable) {
    return upper[variable];
  }

  /**
   * Largest magnitude among the coefficients of a row; 1 for a row of zeros. Rows are judged after
   * division by it.
   */
  public double rowMax(int row) {
    return rowMax[row];
  }

  /**
   * The magnitude of a solution that feasibility tolerances refer to: the largest bound of a
   * variable, or the largest bound of a scaled row where that is smaller. It is 1 for fractions
   * that sum to 1 and 100 for percentages.
   */
  public double magnitude() {
    return magnitude;
  }

  /** The same rows and bounds with other costs. The array is kept. */
  public LinearProgram withCost(double[] newCost) {
    double max = checkedMax("cost", -1, Objects.requireNonNull(newCost, "newCost"), n);
    return new LinearProgram(
        newCost, a, rowLower, rowUpper, lower, upper, rowMax, max == 0 ? 1 : max);
  }

  /** The same rows and costs with other bounds of the variables. The arrays are kept. */
  public LinearProgram withBounds(double[] newLower, double[] newUpper) {
    checkBounds(newLower, newUpper, n);
    return new LinearProgram(cost, a, rowLower, rowUpper, newLower, newUpper, rowMax, costMax);
  }

  /** The same coefficients with other row bounds. The arrays are kept. */
  public LinearProgram withRowBounds(double[] newLower, double[] newUpper) {
    checkRowBounds(newLower, newUpper, m);
    return new LinearProgram(cost, a, newLower, newUpper, lower, upper, rowMax, costMax);
  }

  /** The same programme with one row exchanged. The coefficients are kept. */
  public LinearProgram withRow(int row, double[] coefficients, double newLower, double newUpper) {
    Objects.checkIndex(row, m);
    double[][] rows = a.clone();
    double[] lows = rowLower.clone();
    double[] highs = rowUpper.clone();
    double[] maxima = rowMax.clone();
    return withRowAt(row, rows, lows, highs, maxima, coefficients, newLower, newUpper);
  }

  /** The same programme with one row more, put last. The coefficients are kept. */
  public LinearProgram plusRow(double[] coefficients, double newLower, double newUpper) {
    double[][] rows = Arrays.copyOf(a, m + 1);
    double[] lows = Arrays.copyOf(rowLower, m + 1);
    double[] highs = Arrays.copyOf(rowUpper, m + 1);
    double[] maxima = Arrays.copyOf(rowMax, m + 1);
    return withRowAt(m, rows, lows, highs, maxima, coefficients, newLower, newUpper);
  }

  private LinearProgram withRowAt(
      int row,
      double[][] rows,
      double[] lows,
      double[] highs,
      double[] maxima,
      double[] coefficients,
      double newLower,
      double newUpper) {
    double largest =
        checkedMax("coefficients", -1, Objects.requireNonNull(coefficients, "coefficients"), n);
    rows[row] = coefficients;
    lows[row] = newLower;
    highs[row] = newUpper;
    maxima[row] = largest == 0 ? 1 : largest;
    checkRowBounds(lows, highs, lows.length);
    return new LinearProgram(cost, rows, lows, highs, lower, upper, maxima, costMax);
  }

  private double magnitudeOf() {
    double bounds = 0;
    for (int j = 0; j < n; j++) {
      // Plain comparisons: Math.max on doubles would take longer than reading all the rows.
      double low = Math.abs(lower[j]);
      double high = Math.abs(upper[j]);
      if (low > bounds) {
        bounds = low;
      }
      if (high > bounds) {
        bounds = high;
      }
    }
    double rows = 0;
    for (int i = 0; i < m; i++) {
      double low = Math.abs(rowLower[i]) / rowMax[i];
      double high = Math.abs(rowUpper[i]) / rowMax[i];
      if (low < Double.POSITIVE_INFINITY) {
        rows = Math.max(rows, low);
      }
      if (high < Double.POSITIVE_INFINITY) {
        rows = Math.max(rows, high);
      }
    }
    if (bounds == 0) {
      return rows == 0 ? 1 : rows;
    }
    return rows == 0 ? bounds : Math.max(Math.min(bounds, rows), 1e-6 * bounds);
  }

  /** Largest magnitude; a NaN or an infinity is not below it and so found in the same pass. */
  private static double checkedMax(String name, int row, double[] values, int length) {
    if (values == null || values.length != length) {
      Objects.requireNonNull(values, place(name, row));
      throw new IllegalArgumentException(
          place(name, row) + " has length " + values.length + "; allowed: " + length);
    }
    double largest = 0;
    for (int j = 0; j < length; j++) {
      double size = Math.abs(values[j]);
      if (!(size <= largest)) {
        if (!(size < Double.POSITIVE_INFINITY)) {
          throw new IllegalArgumentException(
              place(name, row) + "[" + j + "] is " + values[j] + "; allowed: a finite number");
        }
        largest = size;
      }
    }
    return largest;
  }

  private static String place(String name, int row) {
    return row < 0 ? name : name + "[" + row + "]";
  }

  private static void checkRowBounds(double[] low, double[] high, int rows) {
    checkLength("rowLower", Objects.requireNonNull(low, "rowLower"), rows);
    checkLength("rowUpper", Objects.requireNonNull(high, "rowUpper"), rows);
    for (int i = 0; i < rows; i++) {
      if (!(low[i] <= high[i]
          && low[i] < Double.POSITIVE_INFINITY
          && high[i] > Double.NEGATIVE_INFINITY)) {
        throw new IllegalArgumentException(
            "row "
                + i
                + " has bounds "
                + low[i]
                + " to "
                + high[i]
                + "; allowed: lower not above upper, lower below +infinity, upper above -infinity");
      }
    }
  }

  private static void checkBounds(double[] low, double[] high, int variables) {
    checkLength("lower", Objects.requireNonNull(low, "lower"), variables);
    checkLength("upper", Objects.requireNonNull(high, "upper"), variables);
    for (int j = 0; j < variables; j++) {
      if (!(low[j] <= high[j]
          && low[j] > Double.NEGATIVE_INFINITY
          && high[j] < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException(
            "variable "
                + j
                + " has bounds "
                + low[j]
                + " to "
                + high[j]
                + "; allowed: finite, lower not above upper");
      }
    }
  }

  private static void checkLength(String name, double[] values, int length) {
    if (values.length != length) {
      throw new IllegalArgumentException(
          name + " has length " + values.length + "; allowed: " + length);
    }
  }
}
