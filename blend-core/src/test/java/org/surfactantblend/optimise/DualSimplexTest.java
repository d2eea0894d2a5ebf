package org.surfactantblend.optimise;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;

class DualSimplexTest {

  private static final double[] NONE = {};

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

  private static double[] copy(IntToDoubleFunction of, int length) {
    return IntStream.range(0, length).mapToDouble(of).toArray();
  }

  /** The same point and prices up to rounding; where several are best, the same cost. */
  private static void assertSameAnswer(
      LinearProgram lp, LpSolution expected, LpSolution actual, String name) {
    assertEquals(expected.status(), actual.status(), name);
    if (expected.isOptimal()) {
      assertNull(Recheck.violation(lp, actual.x(), 2e-9), name);
      assertTrue(Recheck.unproved(lp, actual) < 1e-10, name);
      assertEquals(
          expected.objective(),
          actual.objective(),
          1e-9 * Math.max(1, Math.abs(expected.objective())),
          name);
    } else {
      assertTrue(Recheck.proves(lp, actual.certificate()), name);
    }
  }

  /** What a family of programmes came to. */
  private static final class Tally {
    final DualSimplex simplex = new DualSimplex();
    int optimal;
    int infeasible;
    int broken;
    int pivots;

    void add(LinearProgram lp, String name) {
      LpSolution s;
      try {
        s = simplex.solve(lp);
      } catch (NumericBreakdownException e) {
        assertSame(lp, e.program(), name);
        broken++;
        return;
      }
      pivots += s.pivots();
      if (s.isOptimal()) {
        assertNull(Recheck.violation(lp, s.x(), 2e-9), name);
        double unproved = Recheck.unproved(lp, s);
        assertTrue(unproved < 1e-9, name + ": " + unproved);
        for (double v : s.x()) {
          assertFalse(Double.toString(v).equals("-0.0"), name);
        }
        for (double v : s.rowDuals()) {
          assertFalse(Double.toString(v).equals("-0.0"), name);
        }
        optimal++;
      } else {
        assertTrue(Recheck.proves(lp, s.certificate()), name);
        infeasible++;
      }
    }

    void assertAsGoodAs(int leastOptimal, int leastInfeasible, int mostPivots) {
      assertTrue(
          optimal >= leastOptimal && infeasible >= leastInfeasible && pivots <= mostPivots,
          toString());
    }

    @Override
    public String toString() {
      return optimal
          + " optimal, "
          + infeasible
          + " infeasible, "
          + broken
          + " broken, "
          + pivots
          + " pivots";
    }
  }

  /**
   * Rounding decides here. An answer stands in exact arithmetic, what cannot be decided is said to
   * be so, and that is seldom.
   */
  @Test
  void nearlyEqualRowsAreAnsweredRightlyOrRefused() {
    Tally six = new Tally();
    Tally eight = new Tally();
    Tally nine = new Tally();
    Tally fourteen = new Tally();
    for (long seed = 0; seed < 600; seed++) {
      six.add(Instances.nearlyEqualRows(1e-6, false, seed), "1e-6, " + seed);
      eight.add(Instances.nearlyEqualRows(1e-8, false, seed), "1e-8, " + seed);
      nine.add(Instances.nearlyEqualRows(1e-9, true, seed), "1e-9 and shifted, " + seed);
      fourteen.add(Instances.nearlyEqualRows(1e-14, true, seed), "1e-14 and shifted, " + seed);
    }
    six.assertAsGoodAs(594, 0, 2745);
    eight.assertAsGoodAs(586, 0, 2713);
    nine.assertAsGoodAs(439, 161, 2576);
    fourteen.assertAsGoodAs(600, 0, 1626);
  }

  /** Here the corrections of a point do not come to an end by themselves. */
  @Test
  void rowsAreKeptToTheirToleranceWhereverTheyAreNearlyTheSame() {
    Tally tally = new Tally();
    for (long seed : new long[] {668, 1843, 1962, 2478}) {
      tally.add(Instances.nearlyEqualRows(1e-10, false, seed), "1e-10, " + seed);
    }
    for (long seed : new long[] {130, 595, 673, 1006, 2286, 2413, 2857, 3103, 3136, 3986}) {
      tally.add(Instances.nearlyEqualRows(3e-11, false, seed), "3e-11, " + seed);
    }
    for (long seed : new long[] {363, 371, 429, 508, 608, 929, 1073, 2444, 2470, 2479, 2872}) {
      tally.add(Instances.nearlyEqualRows(1e-11, false, seed), "1e-11, " + seed);
    }
    for (long seed : new long[] {65, 999, 1355, 2055, 2169, 2370, 2394, 2823, 3005, 3933}) {
      tally.add(Instances.nearlyEqualRows(1e-11, true, seed), "1e-11 and shifted, " + seed);
    }
    tally.assertAsGoodAs(33, 0, 258);
  }

  /** The same for coefficients of very different sizes. */
  @Test
  void coefficientsOfManySizesAreAnsweredRightlyOrRefused() {
    int[] leastOptimal = {400, 400, 400, 399, 395};
    int[] mostPivots = {1408, 1450, 1365, 1416, 1375};
    for (int i = 0; i < 5; i++) {
      int powers = 3 * (i + 1);
      Tally tally = new Tally();
      for (long seed = 0; seed < 400; seed++) {
        tally.add(Instances.wideCoefficients(powers, seed), powers + " powers, " + seed);
      }
      tally.assertAsGoodAs(leastOptimal[i], 0, mostPivots[i]);
    }
  }

  /** Many exchanges in one solve: the inverse is made fresh on the way. */
  @Test
  void manyRowsAreSolvedToRounding() {
    DualSimplex simplex = new DualSimplex();
    int pivots = 0;
    for (long seed = 0; seed < 6; seed++) {
      for (int m : new int[] {40, 60, 80}) {
        for (boolean costs : new boolean[] {false, true}) {
          String name = m + " rows, costs " + costs + ", " + seed;
          LinearProgram lp = Instances.manyRows(m, 2 * m, costs, seed);
          LpSolution s = simplex.solve(lp);
          assertTrue(s.isOptimal(), name);
          assertNull(Recheck.violation(lp, s.x(), 1e-11), name);
          assertTrue(Recheck.unproved(lp, s) < 1e-11, name);
          pivots += s.pivots();
        }
      }
    }
    assertTrue(pivots <= 3373, "pivots " + pivots);
  }

  /** A search asks for the point first and for the final check afterwards: the same answer. */
  @Test
  void pointAndCheckInTwoStepsGiveTheSameAnswer() {
    DualSimplex simplex = new DualSimplex();
    DualSimplex steps = new DualSimplex();
    int optimal = 0;
    int infeasible = 0;
    for (long seed = 0; seed < 500; seed++) {
      for (LinearProgram lp :
          List.of(
              Instances.of(Instances.Kind.BLEND, Instances.Units.MIXED_ROWS, seed),
              Instances.of(Instances.Kind.INFEASIBLE, Instances.Units.PERCENT, seed),
              Instances.nearlyEqualRows(1e-8, seed % 2 == 0, seed),
              Instances.wideCoefficients(12, seed))) {
        LpSolution expected;
        try {
          expected = simplex.solve(lp);
        } catch (NumericBreakdownException e) {
          continue;
        }
        steps.load(lp);
        steps.coldStart();
        int status = steps.runSafely(Double.POSITIVE_INFINITY);
        int pivots = steps.pivots;
        if (status == DualSimplex.OPTIMAL) {
          steps.pivots = 0;
          status = steps.checkSafely();
          pivots += steps.pivots;
          optimal++;
        } else {
          infeasible++;
        }
        LpSolution s = steps.solution(status);
        assertEquals(expected.status(), s.status(), "seed " + seed);
        assertTrue(pivots >= expected.pivots(), "seed " + seed);
        if (s.isOptimal()) {
          assertNull(Recheck.violation(lp, s.x(), 2e-9), "seed " + seed);
          assertTrue(Recheck.unproved(lp, s) < 1e-9, "seed " + seed);
        } else {
          assertEquals(expected.pivots(), pivots, "seed " + seed);
          assertArrayEquals(expected.certificate(), s.certificate(), "seed " + seed);
        }
      }
    }
    assertTrue(optimal > 1000 && infeasible > 500, optimal + " " + infeasible);
  }

  /** What cannot end below the cutoff is left, and no sooner. */
  @Test
  void theCutoffIsWhereTheCostReachesIt() {
    DualSimplex simplex = new DualSimplex();
    int cut = 0;
    int whole = 0;
    for (long seed = 0; seed < 200; seed++) {
      for (LinearProgram lp :
          List.of(
              Instances.blend(new SplittableRandom(seed), 40, 8),
              Instances.of(Instances.Kind.DENSE, Instances.Units.FRACTION, seed),
              Instances.of(Instances.Kind.DEGENERATE, Instances.Units.PERCENT, seed),
              Instances.wideCoefficients(9, seed))) {
        LpSolution s = simplex.solve(lp);
        if (!s.isOptimal()) {
          continue;
        }
        // What the tolerance of the rows is worth at their prices.
        double hair = 1e-9 * (1 + Math.abs(s.objective()));
        for (int i = 0; i < lp.rows(); i++) {
          hair += 2e-9 * Math.abs(s.rowDuals()[i]) * lp.rowMax(i) * lp.magnitude();
        }
        String name = lp + ", " + seed;
        double start = cutAt(simplex, lp, Double.NEGATIVE_INFINITY, name);
        assertEquals(0, simplex.pivots, name);
        simplex.coldStart();
        assertEquals(DualSimplex.OPTIMAL, simplex.runSafely(s.objective() + hair), name);
        assertEquals(s.objective(), simplex.z, hair, name);
        cutAt(simplex, lp, start, name);
        assertEquals(0, simplex.pivots, name);
        double middle = start + 0.3 * (s.objective() - start);
        if (middle < s.objective() - hair) {
          cutAt(simplex, lp, s.objective() - hair, name);
          cutAt(simplex, lp, middle, name);
          cut += simplex.pivots;
          whole += s.pivots();
        }
      }
    }
    assertTrue(whole > 2600 && cut <= 1029, cut + " of " + whole);
  }

  /** Lets the cutoff end the solve from the first basis; answers the cost that it ended at. */
  private static double cutAt(DualSimplex simplex, LinearProgram lp, double cutoff, String name) {
    simplex.load(lp);
    simplex.coldStart();
    assertEquals(DualSimplex.CUTOFF, simplex.runSafely(cutoff), name);
    assertTrue(simplex.z >= cutoff, name);
    return simplex.z;
  }

  /** Leaving out of the work what is held at 0 changes no answer. */
  @Test
  void whatIsHeldAtNothingMayBeLeftOut() {
    DualSimplex whole = new DualSimplex();
    DualSimplex part = new DualSimplex();
    int optimal = 0;
    for (Instances.Kind kind : Instances.Kind.values()) {
      if (kind == Instances.Kind.NEARLY_INFEASIBLE) {
        continue;
      }
      for (long seed = 0; seed < 60; seed++) {
        LinearProgram lp = Instances.of(kind, Instances.Units.ALL_MIXED, seed);
        int n = lp.variables();
        double[] low = copy(lp::lower, n);
        double[] high = copy(lp::upper, n);
        int[] live = new int[n];
        int count = 0;
        for (int j = 0; j < n; j++) {
          if ((j + seed) % 3 == 0) {
            low[j] = 0;
            high[j] = 0;
          } else {
            live[count++] = j;
          }
        }
        LinearProgram held = lp.withBounds(low, high);
        LpSolution expected = whole.solve(held);
        part.load(held);
        part.coldStart();
        part.restrictTo(live, count);
        LpSolution s = part.solution(part.solveLoaded());
        assertSameAnswer(held, expected, s, kind + " " + seed);
        optimal += s.isOptimal() ? 1 : 0;
      }
    }
    assertTrue(optimal > 60, "optimal " + optimal);
  }

  /** Changed bounds are solved on from where the last solve ended, and the way back is exact. */
  @Test
  void changedBoundsAndTheWayBack() {
    DualSimplex fresh = new DualSimplex();
    DualSimplex simplex = new DualSimplex();
    DualSimplex.Snapshot snapshot = new DualSimplex.Snapshot();
    DualSimplex.Snapshot midway = new DualSimplex.Snapshot();
    int optimal = 0;
    int pivots = 0;
    int cold = 0;
    for (Instances.Kind kind : Instances.Kind.values()) {
      if (kind == Instances.Kind.NEARLY_INFEASIBLE) {
        continue;
      }
      for (long seed = 0; seed < 60; seed++) {
        SplittableRandom random = new SplittableRandom(seed);
        LinearProgram lp = Instances.of(kind, Instances.Units.FRACTION, seed);
        int n = lp.variables();
        simplex.load(lp);
        simplex.coldStart();
        if (simplex.runSafely(Double.POSITIVE_INFINITY) != DualSimplex.OPTIMAL) {
          continue;
        }
        simplex.save(snapshot);
        String before = state(simplex);
        double[] low = copy(lp::lower, n);
        double[] high = copy(lp::upper, n);
        for (int change = 0; change < 4; change++) {
          int j = random.nextInt(n);
          double middle = low[j] + random.nextDouble() * (high[j] - low[j]);
          switch (random.nextInt(3)) {
            case 0 -> low[j] = middle;
            case 1 -> high[j] = middle;
            default -> {
              low[j] = middle;
              high[j] = middle;
            }
          }
          simplex.changeBounds(j, low[j], high[j]);
          // Kept and taken back while the change is still to be carried through.
          simplex.save(midway);
          simplex.restore(midway);
          simplex.bindBounds();
          LinearProgram changed = lp.withBounds(low.clone(), high.clone());
          LpSolution expected = fresh.solve(changed);
          int status = simplex.runSafely(Double.POSITIVE_INFINITY);
          pivots += simplex.pivots;
          cold += expected.pivots();
          if (status == DualSimplex.OPTIMAL) {
            assertEquals(
                expected.objective(),
                simplex.z,
                1e-9 * Math.max(1, Math.abs(expected.objective())),
                kind + " " + seed);
            status = simplex.checkSafely();
            optimal++;
          }
          assertSameAnswer(changed, expected, simplex.solution(status), kind + " " + seed);
          if (status != DualSimplex.OPTIMAL) {
            break;
          }
          assertEquals(
              expected.objective(),
              simplex.z,
              1e-9 * Math.max(1, Math.abs(expected.objective())),
              kind + " " + seed);
        }
        for (int j = 0; j < n; j++) {
          simplex.lo[j] = lp.lower(j);
          simplex.up[j] = lp.upper(j);
        }
        simplex.restore(snapshot);
        simplex.bindBounds();
        assertEquals(before, state(simplex), kind + " " + seed);
        assertEquals(DualSimplex.OPTIMAL, simplex.runSafely(Double.POSITIVE_INFINITY));
        assertEquals(0, simplex.pivots);
        LpSolution again = simplex.solution(simplex.checkSafely());
        assertSameAnswer(lp, fresh.solve(lp), again, kind + " " + seed);
      }
    }
    assertTrue(optimal > 300, "optimal " + optimal);
    assertTrue(cold > 2000 && pivots <= 289, pivots + " instead of " + cold);
  }

  private static String state(DualSimplex simplex) {
    return IntStream.range(0, simplex.total)
            .mapToObj(j -> simplex.value(j) + " " + simplex.pos[j] + " " + simplex.dir[j])
            .toList()
        + " "
        + simplex.z;
  }

  @Test
  void aStartThatNamesOneIndexTwiceIsRefused() {
    LinearProgram lp = twoRows(new double[] {0.3, 0.5}, 0.36, 0.36);
    for (int index = 0; index < 4; index++) {
      Basis twice = new Basis(2, new int[] {index, index}, new long[1]);
      assertRefused(
          "start holds index " + index + " twice", () -> new DualSimplex().solve(lp, twice));
    }
    LinearProgram more = lp.plusRow(new double[] {1, 0}, 0, 1);
    Basis start = new DualSimplex().solve(lp).basis();
    assertRefused(
        "start is for 2 variables and 2 rows; allowed: 2 and 3",
        () -> new DualSimplex().solve(more, start));
    assertRefused(
        "start is for 3 variables and 2 rows; allowed: 2 and 2",
        () -> new DualSimplex().solve(lp, new Basis(3, new int[] {0, 1}, new long[1])));
  }

  /** Numbers beyond what the arithmetic holds give no answer, and the programme is named. */
  @Test
  void numbersBeyondTheArithmeticAreRefused() {
    double[] one = {1, 1};
    double[] open = {Double.POSITIVE_INFINITY};
    for (double[][] numbers :
        new double[][][] {{{1e-300, 1e-300}, {1e300}}, {{1e-320, 1e-320}, {1}}}) {
      LinearProgram lp =
          LinearProgram.of(one, new double[][] {numbers[0]}, numbers[1], open, new double[2], one);
      NumericBreakdownException broken =
          assertThrows(NumericBreakdownException.class, () -> new DualSimplex().solve(lp));
      assertSame(lp, broken.program());
      assertTrue(broken.getMessage().startsWith("linear programme of 2 variables and 1 rows: "));
    }
  }

  private static int runFromTheStart(DualSimplex simplex, LinearProgram lp, double cutoff) {
    simplex.load(lp);
    simplex.coldStart();
    return simplex.runSafely(cutoff);
  }

  /** Where rounding leads the first way nowhere, the second has the same end: optimum or cutoff. */
  @Test
  void theSecondWayKeepsToTheCutoff() {
    DualSimplex simplex = new DualSimplex();
    for (LinearProgram lp :
        List.of(
            Instances.nearlyEqualRows(1e-6, false, 922),
            Instances.nearlyEqualRows(1e-7, false, 351),
            Instances.nearlyEqualRows(1e-7, false, 2387))) {
      simplex.load(lp);
      simplex.coldStart();
      assertThrows(DualSimplex.Stuck.class, () -> simplex.run(Double.POSITIVE_INFINITY));
      int spent = simplex.pivots;
      simplex.load(lp);
      assertEquals(DualSimplex.OPTIMAL, simplex.solveCarefully());
      int careful = simplex.pivots;
      assertEquals(DualSimplex.OPTIMAL, runFromTheStart(simplex, lp, Double.POSITIVE_INFINITY));
      assertEquals(spent + careful, simplex.pivots);
      double least = simplex.z;
      assertEquals(DualSimplex.CUTOFF, runFromTheStart(simplex, lp, least));
      assertEquals(
          DualSimplex.OPTIMAL, runFromTheStart(simplex, lp, least + 0.01 * Math.abs(least)));
      assertEquals(least, simplex.z);
    }
  }

  /** What rounding hides at first is found to have no point, at whichever step it shows. */
  @Test
  void thatNoPointExistsIsFoundAtEveryStep() {
    DualSimplex simplex = new DualSimplex();
    for (long seed : new long[] {174, 348}) {
      LinearProgram lp = Instances.nearlyEqualRows(1e-8, true, seed);
      simplex.load(lp);
      simplex.coldStart();
      assertThrows(DualSimplex.Stuck.class, () -> simplex.run(Double.POSITIVE_INFINITY));
      assertEquals(DualSimplex.INFEASIBLE, runFromTheStart(simplex, lp, Double.POSITIVE_INFINITY));
      assertTrue(Recheck.proves(lp, simplex.solution(DualSimplex.INFEASIBLE).certificate()));
    }
    for (LinearProgram lp :
        List.of(
            Instances.nearlyEqualRows(1e-8, true, 1448),
            Instances.nearlyEqualRows(1e-8, true, 2434),
            Instances.nearlyEqualRows(1e-8, true, 5942),
            Instances.nearlyEqualRows(1e-9, true, 2434))) {
      assertEquals(DualSimplex.OPTIMAL, runFromTheStart(simplex, lp, Double.POSITIVE_INFINITY));
      assertEquals(DualSimplex.INFEASIBLE, simplex.checkSafely());
      assertTrue(Recheck.proves(lp, simplex.solution(DualSimplex.INFEASIBLE).certificate()));
    }
  }

  /** A row that lost the end it sat at sits at the other one: nothing is left to do there. */
  @Test
  void aStartSitsAtTheEndThatIsLeft() {
    double open = Double.POSITIVE_INFINITY;
    LinearProgram lower = twoRows(new double[] {0.3, 0.5}, 0.36, open);
    LinearProgram upper =
        twoRows(new double[] {0.3, 0.5}, -open, 0.36).withCost(new double[] {2, 1});
    Basis atLower = new DualSimplex().solve(lower).basis();
    Basis atUpper = new DualSimplex().solve(upper).basis();
    assertFalse(atLower.atUpper(3));
    assertTrue(atUpper.atUpper(3));
    for (Basis start : List.of(atLower, atUpper)) {
      for (LinearProgram lp : List.of(lower, upper)) {
        LpSolution s = new DualSimplex().solve(lp, start);
        assertArrayEquals(new double[] {0.7, 0.3}, s.x(), 1e-15);
        assertEquals(0, s.pivots());
        assertTrue(new DualSimplex().solve(lp).pivots() > 0);
      }
    }
    // Open at both ends there is nowhere to sit.
    LpSolution s = new DualSimplex().solve(twoRows(new double[] {0.3, 0.5}, -open, open), atLower);
    assertArrayEquals(new double[] {1, 0}, s.x(), 1e-15);
    // In the basis such a row is as good as any.
    LinearProgram first =
        LinearProgram.of(
            new double[] {1, 2},
            new double[][] {{0.3, 0.5}, {1, 1}},
            new double[] {-open, 1},
            new double[] {open, 1},
            new double[2],
            new double[] {1, 1});
    Basis start = new DualSimplex().solve(first).basis();
    assertEquals(2, start.basic()[0]);
    assertEquals(0, new DualSimplex().solve(first, start).pivots());
  }

  /** What costs nothing and is not needed stays at the end nearest to 0. */
  @Test
  void whatCostsNothingStaysNearNothing() {
    double[] cost = {0, 0, 0, 0, 1, -1};
    double[] low = {-3, 2, 0, -2, -1, -1};
    double[] high = {1, 5, 4, -1, 2, 2};
    LinearProgram lp = LinearProgram.of(cost, new double[0][], NONE, NONE, low, high);
    LpSolution s = new DualSimplex().solve(lp);
    assertArrayEquals(new double[] {1, 2, 0, -1, -1, 2}, s.x());
    assertEquals(-3, s.objective());
    assertArrayEquals(cost, s.reducedCosts());
  }

  /**
   * The two well-known programmes on which a careless simplex goes round in circles: E. M. L.
   * Beale, Cycling in the dual simplex algorithm, Naval Research Logistics Quarterly 2 (1955)
   * 269-275, and H. W. Kuhn's in M. L. Balinski and A. W. Tucker, Duality theory of linear
   * programs, SIAM Review 11 (1969) 347-377. Numbers from memory; each optimum is proved here by
   * its prices.
   */
  @Test
  void theProgrammesThatCycleEnd() {
    double open = Double.NEGATIVE_INFINITY;
    double[] nothing = new double[4];
    double[] hundred = {100, 100, 100, 100};
    LinearProgram beale =
        LinearProgram.of(
            new double[] {-0.75, 150, -0.02, 6},
            new double[][] {{0.25, -60, -0.04, 9}, {0.5, -90, -0.02, 3}, {0, 0, 1, 0}},
            new double[] {open, open, open},
            new double[] {0, 0, 1},
            nothing,
            hundred);
    LinearProgram kuhn =
        LinearProgram.of(
            new double[] {-2, -3, 1, 12},
            new double[][] {{-2, -9, 1, 9}, {1 / 3.0, 1, -1 / 3.0, -2}, {2, 3, -1, -12}},
            new double[] {open, open, open},
            new double[] {0, 0, 2},
            nothing,
            hundred);
    DualSimplex simplex = new DualSimplex();
    assertEnds(simplex.solve(beale), beale, -0.05);
    assertEnds(simplex.solve(kuhn), kuhn, -2);
    simplex.load(beale);
    assertEnds(simplex.solution(simplex.solveCarefully()), beale, -0.05);
    simplex.load(kuhn);
    assertEnds(simplex.solution(simplex.solveCarefully()), kuhn, -2);
  }

  private static void assertEnds(LpSolution s, LinearProgram lp, double least) {
    assertEquals(least, s.objective(), 1e-12);
    assertNull(Recheck.violation(lp, s.x(), 1e-12));
    assertTrue(Recheck.unproved(lp, s) < 1e-12);
    assertTrue(s.pivots() <= 8, "pivots " + s.pivots());
  }

  /** Without costs every exchange leaves all prices as they are: a standstill, not a circle. */
  @Test
  void aLongStandstillEnds() {
    DualSimplex simplex = new DualSimplex();
    int pivots = 0;
    for (long seed = 0; seed < 10; seed++) {
      for (int n : new int[] {200, 300}) {
        LinearProgram lp = Instances.manyRows(100, n, false, seed);
        LpSolution s = simplex.solve(lp);
        assertTrue(s.isOptimal());
        assertNull(Recheck.violation(lp, s.x(), 1e-11));
        pivots += s.pivots();
      }
    }
    assertTrue(pivots <= 4566, "pivots " + pivots);
  }

  /** Units a power of two apart: the same way, and the same answer to the last bit. */
  @Test
  void powersOfTwoChangeNoBit() {
    for (long seed = 0; seed < 250; seed++) {
      List<LinearProgram> programmes =
          List.of(
              Instances.nearlyEqualRows(1e-6, false, seed),
              Instances.nearlyEqualRows(1e-8, seed % 2 == 0, seed),
              Instances.nearlyEqualRows(1e-10, true, seed),
              Instances.wideCoefficients(12, seed),
              Instances.of(Instances.Kind.NEARLY_INFEASIBLE, Instances.Units.FRACTION, seed),
              Instances.of(Instances.Kind.DEGENERATE, Instances.Units.FRACTION, seed));
      for (int kind = 0; kind < programmes.size(); kind++) {
        LinearProgram lp = programmes.get(kind);
        String plain = answer(lp, 1, 1, 0);
        String name = "kind " + kind + ", " + seed;
        assertEquals(plain, answer(lp, 0x1p20, 0x1p-12, 0), name);
        assertEquals(plain, answer(lp, 0x1p-16, 0x1p14, 6), name);
      }
    }
  }

  /** The answer in the given units of the amounts and the costs, told in the plain ones. */
  private static String answer(LinearProgram lp, double amount, double price, int rows) {
    int n = lp.variables();
    int m = lp.rows();
    double[] perRow = new double[m];
    double[][] a = new double[m][n];
    for (int i = 0; i < m; i++) {
      perRow[i] = Math.scalb(1.0, rows * (i % 3 - 1));
      for (int j = 0; j < n; j++) {
        a[i][j] = lp.coefficient(i, j) * perRow[i];
      }
    }
    LinearProgram scaled =
        LinearProgram.of(
            copy(j -> lp.cost(j) * price, n),
            a,
            copy(i -> lp.rowLower(i) * perRow[i] * amount, m),
            copy(i -> lp.rowUpper(i) * perRow[i] * amount, m),
            copy(j -> lp.lower(j) * amount, n),
            copy(j -> lp.upper(j) * amount, n));
    LpSolution s;
    try {
      s = new DualSimplex().solve(scaled);
    } catch (NumericBreakdownException e) {
      return e.getMessage();
    }
    return s.isOptimal()
        ? s.pivots()
            + Arrays.toString(copy(j -> s.x(j) / amount, n))
            + Arrays.toString(copy(i -> s.rowDuals()[i] * perRow[i] / price, m))
            + s.objective() / amount / price
        : s.pivots() + Arrays.toString(copy(i -> s.certificate()[i] * perRow[i], m));
  }
}
