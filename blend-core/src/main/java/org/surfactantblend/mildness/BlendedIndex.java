package org.surfactantblend.mildness;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.IntStream;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;
import org.surfactantblend.quantity.Require;

/**
 * An irritation index with a credit for mixing, convex so that a blend can be limited by it with
 * plain linear rows. With y_i the share of surfactant i of the active matter [0 to 1, sum 1], I_i
 * its score and b_ij = b_ji &lt;= 0 the credit of a pair:
 *
 * <pre>
 *   f(y) = sum_i I_i y_i + Q(y),     Q(y) = sum over pairs i &lt; j of b_ij y_i y_j
 *   df/dy_i = I_i + (B y)_i,         (B y)_i = sum_j b_ij y_j
 * </pre>
 *
 * <p>This is the quadratic blending polynomial of mixture experiments. It is convex over all blends
 * when P B P has no negative eigenvalue, P = 1 - ones/n, and then lies above each of its tangents:
 *
 * <pre>  f(y) &gt;= sum_i g_i y_i,     g_i = I_i + (B y0)_i - Q(y0),   equal at y = y0.</pre>
 *
 * <p>So in active amounts A_i the row sum_i (g_i - limit) A_i &lt;= 0 holds for every blend with f
 * &lt;= limit and cuts off a y0 that is above it ({@link #cut}). Adding such rows until none is
 * violated solves the limited programme exactly.
 *
 * <p>There is no default credit. That mixtures fall below the weighted mean is measured, how far is
 * not: one published datum (Goldemberg, J. Soc. Cosmet. Chem. 30, 415 (1979), p. 422: a fifth of
 * sodium lauryl sulfate replaced by acylated protein took a third off the score of a rabbit eye
 * test) is all there is.
 *
 * <p>Immutable and thread-safe.
 */
public final class BlendedIndex {
  /** How far below zero a computed eigenvalue may lie by rounding, against the largest credit. */
  private static final double ROUNDING = 1e-10;

  private final double[] scores;
  private final double[][] credits;

  private BlendedIndex(double[] scores, double[][] credits) {
    this.scores = scores;
    this.credits = credits;
  }

  /**
   * An index with a credit for each pair.
   *
   * @param scores score of each surfactant [sodium lauryl sulfate = 100], 0 to 200; the high figure
   *     where there is a range
   * @param credits symmetric, zero on the diagonal, nowhere above 0 [same scale]; shape n x n
   * @return the index
   * @throws IllegalArgumentException if a number is out of range, a shape is wrong, or the index
   *     would not be convex; ask {@link #refusal} first where that may happen
   */
  public static BlendedIndex ofPairs(double[] scores, double[][] credits) {
    double[] checkedScores = checkedScores(scores);
    if (credits.length != scores.length) {
      throw new IllegalArgumentException(
          "rows of pair credits were " + credits.length + ", allowed is " + scores.length);
    }
    double[][] copy = checkedCredits(credits);
    Optional<String> refusal = refusal(copy);
    if (refusal.isPresent()) {
      throw new IllegalArgumentException(refusal.get());
    }
    return new BlendedIndex(checkedScores, copy);
  }

  /**
   * An index whose credit is k times the variance of charge in the blend: b_ij = -k (z_i - z_j)^2,
   * so f = sum I_i y_i - k Var(z). Always convex.
   *
   * @param scores score of each surfactant [sodium lauryl sulfate = 100], 0 to 200
   * @param charges charge of each surfactant [elementary charges], -4 to 4; same length
   * @param k the credit for a variance of one [same scale as the scores], 0 to 1000
   * @return the index
   * @throws IllegalArgumentException if a number is out of range or the lengths differ
   */
  public static BlendedIndex ofChargeVariance(double[] scores, double[] charges, double k) {
    Require.inRange("credit for charge variance", k, 0, 1000, "(sodium lauryl sulfate = 100)");
    if (charges.length != scores.length) {
      throw new IllegalArgumentException(
          "number of charges was " + charges.length + ", allowed is " + scores.length);
    }
    double[][] credits = new double[scores.length][scores.length];
    for (int i = 0; i < scores.length; i++) {
      Require.inRange("charge " + i, charges[i], -4, 4, "elementary charges");
      for (int j = 0; j < scores.length; j++) {
        double difference = charges[i] - charges[j];
        credits[i][j] = 0.0 - k * difference * difference;
      }
    }
    // Convex whatever the charges: a variance is a sum of squares.
    return new BlendedIndex(checkedScores(scores), credits);
  }

  private static double[] checkedScores(double[] scores) {
    double[] checked = scores.clone();
    for (int i = 0; i < scores.length; i++) {
      checked[i] =
          Require.inRange(
              "irritation score " + i, scores[i], 0, 200, "(sodium lauryl sulfate = 100)");
    }
    return checked;
  }

  /**
   * Why credits cannot be used because the index would not be convex. Convex means that the credits
   * behave like squared distances: the square root of none may exceed the sum of the square roots
   * over a third surfactant, and a few rarer conditions of the same kind.
   *
   * @param credits symmetric, zero on the diagonal, nowhere above 0; shape n x n
   * @return the reason, or empty when the index is convex
   * @throws IllegalArgumentException if a number is out of range or the shape is wrong
   */
  public static Optional<String> refusal(double[][] credits) {
    return refusal(
        credits, IntStream.range(0, credits.length).mapToObj(Integer::toString).toList());
  }

  /** As {@link #refusal(double[][])}, with names for the surfactants. */
  static Optional<String> refusal(double[][] credits, List<String> names) {
    double[][] b = checkedCredits(credits);
    int n = b.length;
    double largest = 0;
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        largest = Math.max(largest, -b[i][j]);
      }
    }
    if (largest == 0) {
      return Optional.empty();
    }
    RealMatrix projected = projected(b);
    double room = ROUNDING * largest * n;
    if (isPositive(projected, room)) {
      return Optional.empty();
    }
    double least = leastCurvature(projected);
    if (least >= -room) {
      return Optional.empty();
    }
    for (int i = 0; i < n; i++) {
      for (int j = i + 1; j < n; j++) {
        for (int k = 0; k < n; k++) {
          double around = Math.sqrt(-b[i][k]) + Math.sqrt(-b[k][j]);
          if (Math.sqrt(-b[i][j]) > around * (1 + 1e-9)) {
            return Optional.of(
                String.format(
                    Locale.ROOT,
                    "the index is not convex: the credit of surfactants %s and %s was %.4g, allowed"
                        + " is %.4g to 0 beside their credits with surfactant %s",
                    names.get(i),
                    names.get(j),
                    b[i][j],
                    0.0 - around * around,
                    names.get(k)));
          }
        }
      }
    }
    return Optional.of(
        String.format(
            Locale.ROOT,
            "the index is not convex: its least curvature was %.4g, allowed is 0 or more",
            least));
  }

  /**
   * The number of surfactants.
   *
   * @return the length of every array here
   */
  public int size() {
    return scores.length;
  }

  /**
   * The index of a blend.
   *
   * @param shares share of each surfactant of the active matter, summing to 1
   * @return f [sodium lauryl sulfate = 100]
   * @throws IllegalArgumentException if the length is wrong
   */
  public double at(double[] shares) {
    checkLength(shares);
    double linear = 0;
    for (int i = 0; i < scores.length; i++) {
      linear += scores[i] * shares[i];
    }
    return linear + credit(shares);
  }

  /**
   * What mixing takes off the weighted mean.
   *
   * @param shares share of each surfactant of the active matter, summing to 1
   * @return Q, 0 or less
   * @throws IllegalArgumentException if the length is wrong
   */
  public double credit(double[] shares) {
    checkLength(shares);
    double twice = 0;
    for (int i = 0; i < scores.length; i++) {
      twice += shares[i] * crossTerm(i, shares);
    }
    return 0.5 * twice;
  }

  /**
   * The gradient of the index, treating all shares as free.
   *
   * @param shares share of each surfactant of the active matter, summing to 1
   * @return I_i + (B y)_i
   * @throws IllegalArgumentException if the length is wrong
   */
  public double[] gradient(double[] shares) {
    checkLength(shares);
    double[] gradient = new double[scores.length];
    for (int i = 0; i < scores.length; i++) {
      gradient[i] = scores[i] + crossTerm(i, shares);
    }
    return gradient;
  }

  /**
   * The tangent of the index at a blend, as a homogeneous row: sum g_i y_i is at most f(y) for
   * every blend y and equal to it at this one.
   *
   * @param shares share of each surfactant of the active matter at the point of contact, summing to
   *     1
   * @return g_i = I_i + (B y0)_i - Q(y0)
   * @throws IllegalArgumentException if the length is wrong
   */
  public double[] tangent(double[] shares) {
    double[] row = gradient(shares);
    double q = credit(shares);
    for (int i = 0; i < row.length; i++) {
      row[i] -= q;
    }
    return row;
  }

  /**
   * The row that keeps a blend at or below a limit, as far as the tangent at a trial blend can: sum
   * c_i A_i &lt;= 0 in active amounts A_i of any one mass unit.
   *
   * @param actives active amounts of the trial blend, 0 or more, not all 0
   * @param limit the highest index allowed [sodium lauryl sulfate = 100]
   * @return c_i = g_i - limit
   * @throws IllegalArgumentException if the length is wrong or the amounts are all 0 or negative
   */
  public double[] cut(double[] actives, double limit) {
    double[] row = tangent(shares(actives));
    for (int i = 0; i < row.length; i++) {
      row[i] -= limit;
    }
    return row;
  }

  /**
   * Shares of the active matter from active amounts.
   *
   * @param actives active amounts in one mass unit, 0 or more, not all 0
   * @return shares, summing to 1
   * @throws IllegalArgumentException if the length is wrong or the amounts are all 0 or negative
   */
  public double[] shares(double[] actives) {
    checkLength(actives);
    double sum = 0;
    for (double active : actives) {
      sum += Require.inRange("active amount", active, 0, 1e9, "mass units");
    }
    Require.positive("total active amount", sum, "mass units");
    double[] shares = new double[actives.length];
    for (int i = 0; i < shares.length; i++) {
      shares[i] = actives[i] / sum;
    }
    return shares;
  }

  private double crossTerm(int i, double[] shares) {
    double sum = 0;
    for (int j = 0; j < shares.length; j++) {
      sum += credits[i][j] * shares[j];
    }
    return sum;
  }

  private void checkLength(double[] values) {
    Objects.requireNonNull(values, "shares");
    if (values.length != scores.length) {
      throw new IllegalArgumentException(
          "number of surfactants was " + values.length + ", allowed is " + scores.length);
    }
  }

  /** Whether a symmetric matrix plus some room on its diagonal has a Cholesky factor. */
  private static boolean isPositive(RealMatrix matrix, double room) {
    int n = matrix.getRowDimension();
    double[][] factor = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        double sum = matrix.getEntry(i, j) + (i == j ? room : 0);
        for (int k = 0; k < j; k++) {
          sum -= factor[i][k] * factor[j][k];
        }
        if (i == j && !(sum > 0)) {
          return false;
        }
        factor[i][j] = i == j ? Math.sqrt(sum) : sum / factor[j][j];
      }
    }
    return true;
  }

  /** P B P. */
  private static RealMatrix projected(double[][] b) {
    int n = b.length;
    double[] mean = new double[n];
    double all = 0;
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        mean[i] += b[i][j] / n;
      }
      all += mean[i] / n;
    }
    RealMatrix projected = MatrixUtils.createRealMatrix(n, n);
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        double value = b[i][j] - mean[i] - mean[j] + all;
        projected.setEntry(i, j, value);
        projected.setEntry(j, i, value);
      }
    }
    return projected;
  }

  private static double leastCurvature(RealMatrix projected) {
    double least = Double.POSITIVE_INFINITY;
    for (double eigenvalue : new EigenDecomposition(projected).getRealEigenvalues()) {
      least = Math.min(least, eigenvalue);
    }
    return least;
  }

  private static double[][] checkedCredits(double[][] credits) {
    int n = credits.length;
    Require.inRange("number of surfactants", n, 1, 10_000, "");
    double[][] copy = new double[n][];
    for (int i = 0; i < n; i++) {
      if (credits[i].length != n) {
        throw new IllegalArgumentException(
            "length of credit row " + i + " was " + credits[i].length + ", allowed is " + n);
      }
      copy[i] = credits[i].clone();
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        String name = "credit of surfactants " + i + " and " + j;
        copy[i][j] =
            Require.inRange(name, copy[i][j], i == j ? 0 : -100_000, 0, "(scale of the scores)");
        if (copy[i][j] != credits[j][i] + 0.0) {
          throw new IllegalArgumentException(
              name + " was " + copy[i][j] + ", allowed is that of " + j + " and " + i);
        }
      }
    }
    return copy;
  }

  @Override
  public String toString() {
    return "blended index of " + size() + " surfactants";
  }
}
