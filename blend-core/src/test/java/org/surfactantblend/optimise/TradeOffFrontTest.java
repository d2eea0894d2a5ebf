package org.surfactantblend.optimise;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class TradeOffFrontTest {
  private static List<TradeOffFront.Corner> front(
      LinearProgram lp, double[] first, double[] second) {
    DualSimplex simplex = new DualSimplex();
    return TradeOffFront.of(
        new TradeOffFront.Minimiser() {
          @Override
          public double[] least(double[] cost) {
            LpSolution s = simplex.solve(lp.withCost(cost));
            return s.isOptimal() ? s.x() : null;
          }

          @Override
          public double[] least(double[] cost, double[] held, double limit) {
            LpSolution s =
                simplex.solve(lp.plusRow(held, Double.NEGATIVE_INFINITY, limit).withCost(cost));
            return s.isOptimal() ? s.x() : null;
          }
        },
        first,
        second,
        1e-9);
  }

  private static TradeOffFront.Minimiser over(SupportProblem problem) {
    SupportSearch search = new SupportSearch();
    return new TradeOffFront.Minimiser() {
      @Override
      public double[] least(double[] cost) {
        return best(problem.with(problem.programme.withCost(cost)));
      }

      @Override
      public double[] least(double[] cost, double[] held, double limit) {
        return best(
            problem.with(
                problem.programme.plusRow(held, Double.NEGATIVE_INFINITY, limit).withCost(cost)));
      }

      private double[] best(SupportProblem p) {
        List<SupportResult.Choice> found = search.search(p, SearchSettings.best(1)).choices();
        return found.isEmpty() ? null : found.get(0).solution().x();
      }
    };
  }

  /**
   * Three pure choices that sum to 1: the middle one lies below the line of the others, a fourth
   * above.
   */
  @Test
  void findsTheCornersOfASmallFront() {
    LinearProgram lp =
        LinearProgram.of(
            new double[4],
            new double[][] {{1, 1, 1, 1}},
            new double[] {1},
            new double[] {1},
            new double[4],
            new double[] {1, 1, 1, 1});
    List<TradeOffFront.Corner> front =
        front(lp, new double[] {0, 1, 4, 2}, new double[] {4, 1, 0, 2});
    assertEquals(3, front.size());
    assertArrayEquals(new double[] {1, 0, 0, 0}, front.get(0).x(), 1e-12);
    assertArrayEquals(new double[] {0, 1, 0, 0}, front.get(1).x(), 1e-12);
    assertArrayEquals(new double[] {0, 0, 1, 0}, front.get(2).x(), 1e-12);
  }

  /**
   * Where the first measure ties, the end of the front is the tied point that is best in the
   * second.
   */
  @Test
  void theEndsAreNotDominated() {
    LinearProgram lp =
        LinearProgram.of(
            new double[3],
            new double[][] {{1, 1, 1}},
            new double[] {1},
            new double[] {1},
            new double[3],
            new double[] {1, 1, 1});
    List<TradeOffFront.Corner> front = front(lp, new double[] {1, 1, 2}, new double[] {5, 3, 3});
    assertEquals(1, front.size());
    assertArrayEquals(new double[] {0, 1, 0}, front.get(0).x(), 1e-12);
  }

  /**
   * Every weighting has its exact optimum at a listed corner, and every corner is the optimum of a
   * weighting: so none is missing and none is too much.
   */
  @Test
  void noWeightingBeatsTheCorners() {
    DualSimplex simplex = new DualSimplex();
    int corners = 0;
    for (long seed = 0; seed < 120; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      LinearProgram lp = Instances.blend(random, 8 + random.nextInt(30), 5 + random.nextInt(4));
      int n = lp.variables();
      double[] first = IntStream.range(0, n).mapToDouble(lp::cost).toArray();
      double[] second = random.doubles(n).toArray();
      List<TradeOffFront.Corner> points = front(lp, first, second);
      assertEquals(simplex.solve(lp).isOptimal(), !points.isEmpty());
      corners += points.size();
      for (TradeOffFront.Corner p : points) {
        assertNull(Recheck.violation(lp, p.x(), 2e-9));
      }
      for (int i = 1; i < points.size(); i++) {
        assertTrue(points.get(i).first() > points.get(i - 1).first());
        assertTrue(points.get(i).second() < points.get(i - 1).second());
      }
      for (double w = 0.01; w < 1 && !points.isEmpty(); w += 0.07) {
        double[] cost = new double[n];
        double best = Double.POSITIVE_INFINITY;
        for (int j = 0; j < n; j++) {
          cost[j] = w * first[j] + (1 - w) * second[j];
        }
        for (TradeOffFront.Corner p : points) {
          best = Math.min(best, w * p.first() + (1 - w) * p.second());
        }
        assertEquals(simplex.solve(lp.withCost(cost)).objective(), best, 1e-8, "seed " + seed);
      }
      for (int i = 1; i < points.size() - 1; i++) {
        // Below the line of its neighbours: a corner, not a point between corners.
        TradeOffFront.Corner a = points.get(i - 1);
        TradeOffFront.Corner p = points.get(i);
        TradeOffFront.Corner b = points.get(i + 1);
        double line =
            a.second()
                + (b.second() - a.second()) * (p.first() - a.first()) / (b.first() - a.first());
        assertTrue(p.second() < line, "seed " + seed);
      }
    }
    assertTrue(corners > 300, "corners " + corners);
  }

  /** The same for a choice of supports, against all supports tried. */
  @Test
  void noWeightingBeatsTheSupportedCorners() {
    int corners = 0;
    for (long seed = 0; seed < 40; seed++) {
      SplittableRandom random = new SplittableRandom(seed + 500);
      LinearProgram lp = Instances.blend(random, 9, 5);
      double[] first = IntStream.range(0, 9).mapToDouble(lp::cost).toArray();
      double[] second = random.doubles(9).toArray();
      int[] choosable = IntStream.range(1, 9).toArray();
      double[] minimum = new double[8];
      java.util.Arrays.fill(minimum, 0.02);
      SupportProblem problem = SupportProblem.of(lp, choosable, minimum).atMost(3).build();
      List<TradeOffFront.Corner> front = TradeOffFront.of(over(problem), first, second, 1e-9);
      corners += front.size();
      for (double w = 0.02; w < 1; w += 0.12) {
        double[] cost = new double[9];
        for (int j = 0; j < 9; j++) {
          cost[j] = w * first[j] + (1 - w) * second[j];
        }
        List<BruteForce.Found> all =
            BruteForce.all(lp.withCost(cost), choosable, minimum, t -> t.size() <= 3);
        assertEquals(all.isEmpty(), front.isEmpty());
        if (!all.isEmpty()) {
          double weight = w;
          double best =
              front.stream()
                  .mapToDouble(p -> weight * p.first() + (1 - weight) * p.second())
                  .min()
                  .orElseThrow();
          assertEquals(all.get(0).cost(), best, 1e-8, "seed " + seed + " weight " + w);
        }
      }
    }
    assertTrue(corners > 40, "corners " + corners);
  }
}
