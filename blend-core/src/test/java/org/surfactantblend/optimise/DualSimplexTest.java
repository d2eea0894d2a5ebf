package org.surfactantblend.optimise;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;

class DualSimplexTest {

  /**
   * Two strengths mixed to a third: 30 % and 50 % to 36 %, 7 parts to 3 (alligation, arithmetic).
   */
  @Test
  void mixesTwoStrengthsToAThird() {
    LinearProgram lp =
        LinearProgram.of(
            new double[] {1, 2},
            new double[][] {{1, 1}, {0.30, 0.50}},
            new double[] {1, 0.36},
            new double[] {1, 0.36},
            new double[2],
            new double[] {1, 1});
    LpSolution s = new DualSimplex().solve(lp);
    assertEquals(LpSolution.Status.OPTIMAL, s.status());
    assertArrayEquals(new double[] {0.7, 0.3}, s.x(), 1e-15);
    assertEquals(1.3, s.objective(), 1e-15);
    assertArrayEquals(new double[] {1, 0.36}, s.rowActivity(), 1e-15);
    // One more unit of strength exchanges 5 parts of the first for 5 of the second.
    assertArrayEquals(new double[] {-0.5, 5}, s.rowDuals(), 1e-12);
    assertTrue(s.pivots() <= 3);
  }

  @Test
  void provesThatNoMixtureExists() {
    LinearProgram lp =
        LinearProgram.of(
            new double[] {1, 2, 0},
            new double[][] {{1, 1, 1}, {0, 0, 1}, {0.30, 0.50, 0}},
            new double[] {1, 0, 0.60},
            new double[] {1, 0.2, 0.70},
            new double[3],
            new double[] {1, 1, 1});
    LpSolution s = new DualSimplex().solve(lp);
    assertEquals(LpSolution.Status.INFEASIBLE, s.status());
    assertArrayEquals(new int[] {0, 2}, s.conflictRows());
    double[] y = s.certificate();
    assertTrue(y[0] > 0);
    assertTrue(y[2] < 0);
  }

  /** Work, not time: a change of the pivoting rules that makes the way longer has to be seen. */
  @Test
  void keepsToItsBudgetOfPivots() {
    DualSimplex simplex = new DualSimplex();
    int cold = 0;
    int warm = 0;
    int mostPivots = 0;
    for (long seed = 0; seed < 200; seed++) {
      LinearProgram lp = Instances.blend(new SplittableRandom(seed), 200, 8);
      LpSolution first = simplex.solve(lp);
      cold += first.pivots();
      mostPivots = Math.max(mostPivots, first.pivots());
      double[] row = new double[200];
      for (int j = 0; j < row.length; j++) {
        row[j] = lp.coefficient(5, j) + 0.05 * lp.coefficient(1, j);
      }
      warm +=
          simplex.solve(lp.withRow(5, row, lp.rowLower(5), lp.rowUpper(5)), first.basis()).pivots();
    }
    assertTrue(cold <= 1000, "cold " + cold);
    assertTrue(warm <= 25, "warm " + warm);
    assertTrue(mostPivots <= 12, "most " + mostPivots);
  }

  /** The second way, taken when the first leads nowhere, reaches the same answers. */
  @Test
  void theCarefulWayGivesTheSameAnswers() {
    DualSimplex simplex = new DualSimplex();
    for (Instances.Kind kind : Instances.Kind.values()) {
      for (int seed = 0; seed < 60; seed++) {
        LinearProgram lp = Instances.of(kind, Instances.Units.MIXED_ROWS, seed);
        LpSolution quick = simplex.solve(lp);
        simplex.load(lp);
        LpSolution careful = simplex.solution(simplex.solveCarefully());
        assertNull(
            ExactOracleTest.fault(lp, careful, ExactLp.solve(lp, careful.basis())),
            kind + " " + seed);
        if (kind != Instances.Kind.NEARLY_INFEASIBLE) {
          assertEquals(quick.status(), careful.status(), kind + " " + seed);
        }
      }
    }
  }

  @Test
  void refusesWhatIsNotANumberOrOutOfOrder() {
    double[] one = {1};
    double[][] row = {{1}};
    assertRefused(
        "cost[0] is NaN; allowed: a finite number",
        () -> LinearProgram.of(new double[] {Double.NaN}, row, one, one, one, one));
    assertRefused(
        "rows[0][0] is Infinity; allowed: a finite number",
        () ->
            LinearProgram.of(one, new double[][] {{Double.POSITIVE_INFINITY}}, one, one, one, one));
    assertRefused(
        "rows[0] has length 2; allowed: 1",
        () -> LinearProgram.of(one, new double[][] {{1, 2}}, one, one, one, one));
    assertRefused(
        "row 0 has bounds 1.0 to 0.5; allowed: lower not above upper, lower below +infinity, upper"
            + " above -infinity",
        () -> LinearProgram.of(one, row, one, new double[] {0.5}, one, one));
    assertRefused(
        "variable 0 has bounds 1.0 to Infinity; allowed: finite, lower not above upper",
        () -> LinearProgram.of(one, row, one, one, one, new double[] {Double.POSITIVE_INFINITY}));
  }

  private static void assertRefused(String message, Executable action) {
    assertEquals(message, assertThrows(IllegalArgumentException.class, action).getMessage());
  }

  @Test
  void aProofIsOnlyThereWhenThereIsNoOptimum() {
    LinearProgram lp = Instances.of(Instances.Kind.BLEND, Instances.Units.FRACTION, 0);
    LpSolution s = new DualSimplex().solve(lp);
    assertTrue(s.isOptimal());
    assertThrows(IllegalStateException.class, s::certificate);
    assertThrows(IllegalStateException.class, s::conflictRows);
  }

  /** The same over all kinds of programmes and units. */
  @Test
  void keepsToItsBudgetOfPivotsInEveryUnit() {
    DualSimplex simplex = new DualSimplex();
    int[] most = {408, 648, 219, 616, 100, 539};
    for (Instances.Kind kind : Instances.Kind.values()) {
      int pivots = 0;
      for (Instances.Units units : Instances.Units.values()) {
        for (int seed = 0; seed < 20; seed++) {
          pivots += simplex.solve(Instances.of(kind, units, seed)).pivots();
        }
      }
      int budget = most[List.of(Instances.Kind.values()).indexOf(kind)];
      assertTrue(pivots > 0 && pivots <= budget, kind + " " + pivots);
    }
  }

  private static LinearProgram twoRows(double[] second, double low, double high) {
    return LinearProgram.of(
        new double[] {1, 2},
        new double[][] {{1, 1}, second},
        new double[] {1, low},
        new double[] {1, high},
        new double[2],
        new double[] {1, 1});
  }

  /** A start whose rows have become the same, or have no end to sit at any more, is no start. */
  @Test
  void aStartThatCannotBeUsedIsLeftAlone() {
    DualSimplex simplex = new DualSimplex();
    // Both variables are basic, both rows tight: 0.7 and 0.3.
    LpSolution two = simplex.solve(twoRows(new double[] {0.3, 0.5}, 0.36, 0.36));
    assertArrayEquals(new double[] {0.7, 0.3}, two.x(), 1e-12);
    LpSolution same = simplex.solve(twoRows(new double[] {1, 1}, 0.5, 2), two.basis());
    assertArrayEquals(new double[] {1, 0}, same.x(), 1e-12);
    LpSolution never = simplex.solve(twoRows(new double[] {1, 1}, 1.5, 2), two.basis());
    assertEquals(LpSolution.Status.INFEASIBLE, never.status());
    LpSolution open =
        simplex.solve(
            twoRows(new double[] {0.3, 0.5}, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY),
            two.basis());
    assertArrayEquals(new double[] {1, 0}, open.x(), 1e-12);
    assertEquals(1, open.objective(), 1e-12);
    // A row that lost the end it sat at sits at its other one.
    LpSolution upper = simplex.solve(twoRows(new double[] {0.3, 0.5}, 0.36, 0.4));
    LpSolution lost =
        simplex.solve(
            twoRows(new double[] {0.3, 0.5}, Double.NEGATIVE_INFINITY, 0.4), upper.basis());
    assertArrayEquals(new double[] {1, 0}, lost.x(), 1e-12);
  }
}
