package org.surfactantblend.optimise;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What programmes hold, refuse and hand on. */
class ProgrammesTest {
  private static final double INF = Double.POSITIVE_INFINITY;

  private static void refused(String message, Executable call) {
    assertEquals(message, assertThrows(IllegalArgumentException.class, call).getMessage());
  }

  private static LinearProgram small() {
    return LinearProgram.of(
        new double[] {1, 2},
        new double[][] {{1, 1}, {0.3, -0.6}},
        new double[] {1, -INF},
        new double[] {1, 0.2},
        new double[] {0, 0.1},
        new double[] {1, 0.9});
  }

  @Test
  void everythingCanBeReadBack() {
    LinearProgram p = small();
    assertEquals(2, p.variables());
    assertEquals(2, p.rows());
    assertEquals(2, p.cost(1));
    assertEquals(-0.6, p.coefficient(1, 1));
    assertEquals(-INF, p.rowLower(1));
    assertEquals(0.2, p.rowUpper(1));
    assertEquals(0.1, p.lower(1));
    assertEquals(0.9, p.upper(1));
    assertEquals(0.6, p.rowMax(1));
    LinearProgram costs = p.withCost(new double[] {3, 4});
    assertEquals(4, costs.cost(1));
    assertEquals(-0.6, costs.coefficient(1, 1));
    LinearProgram row = p.withRow(1, new double[] {0, 0}, -1, 1);
    assertEquals(1, row.rowMax(1), "a row of zeros");
    assertEquals(-1, row.rowLower(1));
    LinearProgram more = p.plusRow(new double[] {5, 0}, 0, 4);
    assertEquals(3, more.rows());
    assertEquals(5, more.rowMax(2));
    assertEquals(4, more.rowUpper(2));
    assertEquals(2, p.rows());
    LinearProgram bounds = p.withBounds(new double[] {0, 0}, new double[] {0.5, 0.5});
    assertEquals(0.5, bounds.upper(0));
    LinearProgram rows = p.withRowBounds(new double[] {0, 0}, new double[] {0.5, 0.5});
    assertEquals(0.5, rows.rowUpper(0));
  }

  @Test
  void whatIsRefused() {
    LinearProgram p = small();
    double[] one = {1};
    double[] two = {1, 1};
    refused("rowLower has length 1; allowed: 2", () -> p.withRowBounds(one, two));
    refused("rowUpper has length 1; allowed: 2", () -> p.withRowBounds(two, one));
    refused("lower has length 1; allowed: 2", () -> p.withBounds(one, two));
    refused("upper has length 1; allowed: 2", () -> p.withBounds(two, one));
    refused("cost has length 1; allowed: 2", () -> p.withCost(one));
    refused("coefficients has length 1; allowed: 2", () -> p.plusRow(one, 0, 1));
    String row = "; allowed: lower not above upper, lower below +infinity, upper above -infinity";
    refused("row 2 has bounds 2.0 to 1.0" + row, () -> p.plusRow(two, 2, 1));
    refused("row 0 has bounds Infinity to Infinity" + row, () -> p.withRow(0, two, INF, INF));
    refused("row 1 has bounds -Infinity to -Infinity" + row, () -> p.withRow(1, two, -INF, -INF));
    refused("row 1 has bounds NaN to 1.0" + row, () -> p.withRow(1, two, Double.NaN, 1));
    String variable = "; allowed: finite, lower not above upper";
    refused(
        "variable 1 has bounds 2.0 to 1.0" + variable,
        () -> p.withBounds(new double[] {0, 2}, two));
    refused(
        "variable 0 has bounds -Infinity to 1.0" + variable,
        () -> p.withBounds(new double[] {-INF, 0}, two));
    refused(
        "cost has length 0; allowed: 1 or more",
        () ->
            LinearProgram.of(
                new double[0],
                new double[0][],
                new double[0],
                new double[0],
                new double[0],
                new double[0]));
    assertThrows(IndexOutOfBoundsException.class, () -> p.withRow(2, two, 0, 1));
  }

  private static double magnitude(double lower, double upper, double coefficient, double right) {
    return LinearProgram.of(
            new double[] {1},
            new double[][] {{coefficient}},
            new double[] {-INF},
            new double[] {right},
            new double[] {lower},
            new double[] {upper})
        .magnitude();
  }

  /** A right side in units of its row, but no more than the bounds and no less than a millionth. */
  @ParameterizedTest
  @CsvSource({
    "0, 1, 1, 1, 1",
    "0, 1000, 3, 60, 20",
    "0, 10, 3, 60, 10",
    "0, 1000, 1, 0, 1000",
    "-5, 2, 1, 0, 5",
    "0, 1, 1, 1e-9, 1e-6",
    "0, 0, 2, 6, 3",
    "0, 0, 2, 0, 1",
    "0, 1000, 3, -60, 20"
  })
  void magnitudeOfASolution(
      double lower, double upper, double coefficient, double right, double expected) {
    assertEquals(expected, magnitude(lower, upper, coefficient, right), 1e-15 * expected);
    // An open end of a row says nothing, the lower end as much as the upper one.
    assertEquals(
        expected,
        LinearProgram.of(
                new double[] {1},
                new double[][] {{coefficient}},
                new double[] {right},
                new double[] {INF},
                new double[] {lower},
                new double[] {upper})
            .magnitude(),
        1e-15 * expected);
  }

  /** What is not basic sits at the bound that the basis names. */
  @Test
  void theBasisSaysWhereEveryVariableSits() {
    int upper = 0;
    for (long seed = 0; seed < 40; seed++) {
      LinearProgram base = Instances.blend(new SplittableRandom(seed), 90, 6);
      // Tight upper bounds, so that some variables sit there.
      double[] high = new double[90];
      java.util.Arrays.fill(high, 0.02);
      high[0] = 1;
      LinearProgram lp =
          base.withBounds(IntStream.range(0, 90).mapToDouble(base::lower).toArray(), high);
      LpSolution s = new DualSimplex().solve(lp);
      if (!s.isOptimal()) {
        continue;
      }
      Basis basis = s.basis();
      List<Integer> basic = IntStream.of(basis.basic()).boxed().toList();
      assertEquals(lp.rows(), basic.size());
      for (int j = 0; j < 90; j++) {
        if (!basic.contains(j)) {
          assertEquals(basis.atUpper(j) ? lp.upper(j) : lp.lower(j), s.x(j), 1e-12);
          upper += basis.atUpper(j) ? 1 : 0;
        }
      }
      for (int i = 0; i < lp.rows(); i++) {
        if (!basic.contains(90 + i) && lp.rowLower(i) < lp.rowUpper(i)) {
          double end = basis.atUpper(90 + i) ? lp.rowUpper(i) : lp.rowLower(i);
          assertEquals(end, s.rowActivity()[i], 1e-9);
        }
      }
      // From its own end there is nothing left to do.
      assertEquals(0, new DualSimplex().solve(lp, basis).pivots());
      assertTrue(s.pivots() > 0);
    }
    assertTrue(upper > 100, "at upper " + upper);
  }

  @Test
  void supportProblemsRefuse() {
    LinearProgram p = small().withBounds(new double[] {0, 0}, new double[] {1, 1});
    double[] least = {0.1};
    for (int bad : new int[] {-1, 2}) {
      refused(
          "choosable[0] is " + bad + "; allowed: 0 to 1",
          () -> SupportProblem.of(p, new int[] {bad}, least));
    }
    for (double bad : new double[] {0, -1, INF, Double.NaN}) {
      refused(
          "minimumUse[0] is " + bad + "; allowed: above 0",
          () -> SupportProblem.of(p, new int[] {0}, new double[] {bad}));
    }
    refused(
        "minimumUse has length 1; allowed: 2", () -> SupportProblem.of(p, new int[] {0, 1}, least));
    refused(
        "choosable holds 1 twice",
        () -> SupportProblem.of(p, new int[] {1, 1}, new double[] {0.1, 0.2}));
    refused(
        "variable 1 to choose has lower bound 0.1; allowed: 0",
        () -> SupportProblem.of(small(), new int[] {1}, least));
    SupportProblem.Builder b = SupportProblem.of(p, new int[] {1}, least);
    refused("count is -1; allowed: 0 or more", () -> b.atMost(-1));
    refused("most is 1; allowed: 2 or more", () -> b.count(new int[] {1}, 2, 1));
    refused("notTogether names 1 twice", () -> b.notTogether(1, 1));
    for (double bad : new double[] {-1, INF}) {
      refused("perUnit is " + bad + "; allowed: 0 or more", () -> b.contribution(1, bad));
    }
    b.contribution(1, 0);
    for (int bad : new int[] {-1, 0, 2}) {
      refused(
          "variable is " + bad + "; allowed: one of those to choose from", () -> b.mustUse(bad));
    }
  }

  /** The order in which variables are named changes nothing. */
  @Test
  void theOrderOfWhatCanBeChosenDoesNotMatter() {
    for (long seed = 0; seed < 20; seed++) {
      LinearProgram lp = Instances.blend(new SplittableRandom(seed), 10, 5);
      int[] up = {1, 2, 3, 4, 5, 6, 7, 8, 9};
      int[] down = {9, 8, 7, 6, 5, 4, 3, 2, 1};
      double[] least = {.01, .02, .03, .04, .05, .06, .07, .08, .09};
      double[] tsael = {.09, .08, .07, .06, .05, .04, .03, .02, .01};
      List<SupportResult.Choice> a =
          new SupportSearch()
              .search(
                  SupportProblem.of(lp, up, least)
                      .atMost(3)
                      .count(new int[] {2, 5, 8, 5}, 0, 1)
                      .build(),
                  SearchSettings.best(3))
              .choices();
      List<SupportResult.Choice> b =
          new SupportSearch()
              .search(
                  SupportProblem.of(lp, down, tsael)
                      .atMost(3)
                      .count(new int[] {8, 5, 2}, 0, 1)
                      .build(),
                  SearchSettings.best(3))
              .choices();
      assertEquals(a.size(), b.size());
      for (int i = 0; i < a.size(); i++) {
        assertArrayEquals(a.get(i).solution().x(), b.get(i).solution().x(), 1e-12);
      }
    }
  }

  /** A minimiser over listed points of the plane that cannot search under a limit. */
  private static TradeOffFront.Minimiser among(double[][] points) {
    return new TradeOffFront.Minimiser() {
      @Override
      public double[] least(double[] cost) {
        double[] best = points[0];
        for (double[] p : points) {
          if (cost[0] * p[0] + cost[1] * p[1] < cost[0] * best[0] + cost[1] * best[1]) {
            best = p;
          }
        }
        return best;
      }

      @Override
      public double[] least(double[] cost, double[] held, double limit) {
        return null;
      }
    };
  }

  private static List<List<Double>> front(double[]... points) {
    return TradeOffFront.of(among(points), new double[] {1, 0}, new double[] {0, 1}, 1e-6).stream()
        .map(c -> List.of(c.first(), c.second()))
        .toList();
  }

  @Test
  void oneBestPointIsAFrontOfOne() {
    // Equal in the first: the better in the second; and the other way round.
    assertEquals(List.of(List.of(1.0, 3.0)), front(new double[] {1, 5}, new double[] {1, 3}));
    assertEquals(List.of(List.of(1.0, 3.0)), front(new double[] {1, 3}, new double[] {2, 3}));
    assertEquals(List.of(List.of(1.0, 3.0)), front(new double[] {1, 3}));
  }

  @Test
  void cornersOfNegativeAndLargeMeasures() {
    assertEquals(
        List.of(
            List.of(-30.0, 1e6), List.of(-29.0, 2e5), List.of(-25.0, -1e5), List.of(-10.0, -2e5)),
        front(
            new double[] {-10, -2e5},
            new double[] {-20, 5e5},
            new double[] {-29, 2e5},
            new double[] {-30, 1e6},
            new double[] {-25, -1e5}));
  }

  @Test
  void whereNothingIsFeasibleThereIsNoFront() {
    TradeOffFront.Minimiser none =
        new TradeOffFront.Minimiser() {
          @Override
          public double[] least(double[] cost) {
            return null;
          }

          @Override
          public double[] least(double[] cost, double[] held, double limit) {
            return null;
          }
        };
    assertEquals(List.of(), TradeOffFront.of(none, new double[] {1, 0}, new double[] {0, 1}, 1e-6));
  }

  /**
   * Costs exchanged later count as if they had been said at first, small ones, large ones, none.
   */
  @Test
  void otherCostsAreAsIfSaidAtFirst() {
    for (long seed = 0; seed < 40; seed++) {
      LinearProgram lp = Instances.of(Instances.Kind.DENSE, Instances.Units.FRACTION, seed);
      int n = lp.variables();
      for (double unit : new double[] {1e-9, 1, 1e9, 0}) {
        double[] cost = IntStream.range(0, n).mapToDouble(j -> unit * (j % 5 - 2)).toArray();
        LinearProgram later = lp.withCost(cost);
        LinearProgram first =
            LinearProgram.of(cost, lp.a, lp.rowLower, lp.rowUpper, lp.lower, lp.upper);
        assertEquals(first.costMax, later.costMax);
        assertArrayEquals(new DualSimplex().solve(first).x(), new DualSimplex().solve(later).x());
      }
    }
  }
}
