package org.surfactantblend.mildness;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;

/** Laws of the index with a credit for mixing. */
class BlendedIndexProperties {
  @Property(tries = 500, seed = "5711")
  void neverAboveTheWeightedMeanAndAboveEveryTangent(
      @ForAll @IntRange(min = 1, max = 8) int n,
      @ForAll @LongRange(min = 0, max = 1_000_000) long seed) {
    Random random = new Random(seed);
    BlendedIndex index = fromPoints(n, random);
    double[] contact = shares(n, random);
    double[] tangent = index.tangent(contact);
    assertEquals(index.at(contact), dot(tangent, contact), 1e-9);
    for (int trial = 0; trial < 30; trial++) {
      double[] y = shares(n, random);
      double value = index.at(y);
      assertTrue(value >= dot(tangent, y) - 1e-9, "tangent above the index");
      assertTrue(index.credit(y) <= 1e-12, "credit above zero");
    }
  }

  @Property(tries = 500, seed = "5712")
  void cutsKeepEveryBlendWithinTheLimitAndDropTheTrial(
      @ForAll @IntRange(min = 2, max = 8) int n,
      @ForAll @LongRange(min = 0, max = 1_000_000) long seed) {
    Random random = new Random(seed);
    BlendedIndex index = fromPoints(n, random);
    double[] trial = shares(n, random);
    double limit = index.at(trial) - 1;
    double[] cut = index.cut(trial, limit);
    assertEquals(1, dot(cut, trial), 1e-9, "violated by the excess over the limit");
    for (int other = 0; other < 30; other++) {
      double[] y = shares(n, random);
      double mass = 0.1 + 20 * random.nextDouble();
      if (index.at(y) <= limit) {
        assertTrue(mass * dot(cut, y) <= 1e-9, "a good blend was cut off");
      }
    }
  }

  @Property(tries = 500, seed = "5713")
  void creditsMadeOfDistancesAreConvexAndTheVerdictAgreesWithSampling(
      @ForAll @IntRange(min = 2, max = 6) int n,
      @ForAll @LongRange(min = 0, max = 1_000_000) long seed) {
    Random random = new Random(seed);
    assertEquals(n, fromPoints(n, random).size());
    double[][] credits = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < i; j++) {
        credits[i][j] = -100 * random.nextDouble();
        credits[j][i] = credits[i][j];
      }
    }
    boolean bent = false;
    for (int trial = 0; trial < 4000; trial++) {
      double[] d = new double[n];
      double mean = 0;
      for (int i = 0; i < n; i++) {
        d[i] = random.nextGaussian();
        mean += d[i] / n;
      }
      double curvature = 0;
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
          curvature += credits[i][j] * (d[i] - mean) * (d[j] - mean);
        }
      }
      bent |= curvature < -1e-6;
    }
    if (BlendedIndex.refusal(credits).isEmpty()) {
      assertTrue(!bent, "accepted although it bends downward");
    } else {
      assertTrue(bent || leastIsTiny(credits), "refused although it never bends downward");
    }
  }

  @Property(tries = 300, seed = "5714")
  void gradientIsTheSlopeOfTheIndex(
      @ForAll @IntRange(min = 1, max = 8) int n,
      @ForAll @LongRange(min = 0, max = 1_000_000) long seed) {
    Random random = new Random(seed);
    BlendedIndex index = fromPoints(n, random);
    double[] y = shares(n, random);
    double[] gradient = index.gradient(y);
    for (int i = 0; i < n; i++) {
      double[] up = y.clone();
      double[] down = y.clone();
      up[i] += 1e-3;
      down[i] -= 1e-3;
      assertEquals((index.at(up) - index.at(down)) / 2e-3, gradient[i], 1e-6);
    }
  }

  /** The sampled search may miss a direction that bends by less than a hundredth of the credits. */
  private static boolean leastIsTiny(double[][] credits) {
    String reason = BlendedIndex.refusal(credits).orElse("");
    double[][] helped = new double[credits.length][credits.length];
    for (int i = 0; i < credits.length; i++) {
      for (int j = 0; j < credits.length; j++) {
        helped[i][j] = i == j ? 0 : credits[i][j] - 1;
      }
    }
    return BlendedIndex.refusal(helped).isEmpty() && !reason.isEmpty();
  }

  /** Credits that are squared distances between random points: convex by Schoenberg's theorem. */
  private static BlendedIndex fromPoints(int n, Random random) {
    double[][] points = new double[n][3];
    double[] scores = new double[n];
    for (int i = 0; i < n; i++) {
      scores[i] = 120 * random.nextDouble();
      for (int k = 0; k < 3; k++) {
        points[i][k] = 5 * random.nextGaussian();
      }
    }
    double[][] credits = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < i; j++) {
        double squared = 0;
        for (int k = 0; k < 3; k++) {
          squared += (points[i][k] - points[j][k]) * (points[i][k] - points[j][k]);
        }
        credits[i][j] = -squared;
        credits[j][i] = -squared;
      }
    }
    return BlendedIndex.ofPairs(scores, credits);
  }

  private static double[] shares(int n, Random random) {
    double[] y = new double[n];
    double sum = 0;
    for (int i = 0; i < n; i++) {
      y[i] = -Math.log(1 - random.nextDouble());
      sum += y[i];
    }
    for (int i = 0; i < n; i++) {
      y[i] /= sum;
    }
    return y;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }
}
