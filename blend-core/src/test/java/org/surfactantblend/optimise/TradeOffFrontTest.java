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
    TradeOffFront.Front front =
        new TradeOffFront().of(lp, new double[] {0, 1, 4, 2}, new double[] {4, 1, 0, 2});
    assertEquals(3, front.points().size());
    assertArrayEquals(new double[] {1, 0, 0, 0}, front.points().get(0).x(), 1e-12);
    assertArrayEquals(new double[] {0, 1, 0, 0}, front.points().get(1).x(), 1e-12);
    assertArrayEquals(new double[] {0, 0, 1, 0}, front.points().get(2).x(), 1e-12);
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
    TradeOffFront.Front front =
        new TradeOffFront().of(lp, new double[] {1, 1, 2}, new double[] {5, 3, 3});
    assertEquals(1, front.points().size());
    assertArrayEquals(new double[] {0, 1, 0}, front.points().get(0).x(), 1e-12);
  }

  /**
   * Every weighting has its exact optimum at a listed corner, and every corner is the optimum of a
   * weighting: so none is missing and none is too much.
   */
  @Test
  void noWeightingBeatsTheCorners() {
    TradeOffFront fronts = new TradeOffFront();
    DualSimplex simplex = new DualSimplex();
    int corners = 0;
    for (long seed = 0; seed < 120; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      LinearProgram lp = Instances.blend(random, 8 + random.nextInt(30), 5 + random.nextInt(4));
      int n = lp.variables();
      double[] first = IntStream.range(0, n).mapToDouble(lp::cost).toArray();
      double[] second = random.doubles(n).toArray();
      TradeOffFront.Front front = fronts.of(lp, first, second);
      List<TradeOffFront.Point> points = front.points();
      assertEquals(simplex.solve(lp).isOptimal(), !points.isEmpty());
      corners += points.size();
      for (TradeOffFront.Point p : points) {
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
        for (TradeOffFront.Point p : points) {
          best = Math.min(best, w * p.first() + (1 - w) * p.second());
        }
        assertEquals(simplex.solve(lp.withCost(cost)).objective(), best, 1e-8, "seed " + seed);
      }
      for (int i = 1; i < points.size() - 1; i++) {
        // Below the line of its neighbours: a corner, not a point between corners.
        TradeOffFront.Point a = points.get(i - 1);
        TradeOffFront.Point p = points.get(i);
        TradeOffFront.Point b = points.get(i + 1);
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
    TradeOffFront fronts = new TradeOffFront();
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
      TradeOffFront.Front front = fronts.supported(problem, first, second, SearchSettings.best(1));
      assertTrue(front.complete());
      corners += front.points().size();
      for (double w = 0.02; w < 1; w += 0.12) {
        double[] cost = new double[9];
        for (int j = 0; j < 9; j++) {
          cost[j] = w * first[j] + (1 - w) * second[j];
        }
        List<BruteForce.Found> all =
            BruteForce.all(lp.withCost(cost), choosable, minimum, t -> t.size() <= 3);
        assertEquals(all.isEmpty(), front.points().isEmpty());
        if (!all.isEmpty()) {
          double weight = w;
          double best =
              front.points().stream()
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
