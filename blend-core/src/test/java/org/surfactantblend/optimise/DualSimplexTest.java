package org.surfactantblend.optimise;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

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
}
