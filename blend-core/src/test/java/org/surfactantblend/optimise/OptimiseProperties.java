package org.surfactantblend.optimise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;

class OptimiseProperties {

  @Property(tries = 300, seed = "11")
  void oneRowMoreNeverCostsLess(
      @ForAll @LongRange(min = 0, max = 1_000_000) long seed, @ForAll Instances.Kind kind) {
    LinearProgram lp = Instances.of(kind, Instances.Units.FRACTION, seed);
    SplittableRandom random = new SplittableRandom(seed);
    double[] row = random.doubles(lp.variables(), -1, 1).toArray();
    LpSolution before = new DualSimplex().solve(lp);
    LpSolution after = new DualSimplex().solve(lp.plusRow(row, Double.NEGATIVE_INFINITY, 0.05));
    if (!before.isOptimal()) {
      assertFalse(after.isOptimal());
    } else if (after.isOptimal()) {
      assertTrue(after.objective() >= before.objective() - 1e-9);
    } else {
      assertTrue(after.conflictRows().length > 0);
    }
  }

  @Property(tries = 300, seed = "12")
  void permutingTheVariablesChangesNothing(
      @ForAll @LongRange(min = 0, max = 1_000_000) long seed, @ForAll Instances.Kind kind) {
    LinearProgram lp = Instances.of(kind, Instances.Units.FRACTION, seed);
    int[] order = shuffled(lp.variables(), 0, seed);
    LpSolution a = new DualSimplex().solve(lp);
    LpSolution b = new DualSimplex().solve(permuted(lp, order));
    if (kind != Instances.Kind.NEARLY_INFEASIBLE) {
      assertEquals(a.status(), b.status());
    }
    if (a.isOptimal() && b.isOptimal()) {
      assertEquals(a.objective(), b.objective(), 1e-7 * Math.max(1, Math.abs(a.objective())));
    }
  }

  /** Dual values give the same cost as the point: nothing is left between the two. */
  @Property(tries = 300, seed = "13")
  void pointAndPricesGiveTheSameCost(
      @ForAll @LongRange(min = 0, max = 1_000_000) long seed, @ForAll Instances.Kind kind) {
    LinearProgram lp = Instances.of(kind, Instances.Units.FRACTION, seed);
    LpSolution s = new DualSimplex().solve(lp);
    if (!s.isOptimal()) {
      assertTrue(Recheck.proves(lp, s.certificate()));
      return;
    }
    double cost = 0;
    double[] y = s.rowDuals();
    double[] d = s.reducedCosts();
    for (int i = 0; i < y.length; i++) {
      if (Math.abs(y[i]) > 1e-9) {
        cost += y[i] * (y[i] > 0 ? lp.rowLower(i) : lp.rowUpper(i));
      }
    }
    for (int j = 0; j < d.length; j++) {
      cost += d[j] * (d[j] > 0 ? lp.lower(j) : lp.upper(j));
      double reduced = lp.cost(j);
      for (int i = 0; i < y.length; i++) {
        reduced -= y[i] * lp.coefficient(i, j);
      }
      assertEquals(reduced, d[j], 1e-8 * (1 + Arrays.stream(y).map(Math::abs).sum()));
    }
    assertEquals(s.objective(), cost, 1e-7 * (1 + Arrays.stream(y).map(Math::abs).sum()));
  }

  /** A warm start changes the work and not the answer. */
  @Property(tries = 300, seed = "14")
  void aWarmStartGivesTheSameAnswer(
      @ForAll @LongRange(min = 0, max = 1_000_000) long seed, @ForAll Instances.Kind kind) {
    LinearProgram lp = Instances.of(kind, Instances.Units.FRACTION, seed);
    SplittableRandom random = new SplittableRandom(seed + 1);
    DualSimplex simplex = new DualSimplex();
    LpSolution first = simplex.solve(lp);
    int i = random.nextInt(lp.rows());
    double[] row = new double[lp.variables()];
    for (int j = 0; j < row.length; j++) {
      row[j] = lp.coefficient(i, j) * (0.9 + 0.2 * random.nextDouble());
    }
    LinearProgram changed = lp.withRow(i, row, lp.rowLower(i), lp.rowUpper(i));
    LpSolution cold = new DualSimplex().solve(changed);
    // Another programme in between must leave no trace in the workspace.
    simplex.solve(Instances.of(Instances.Kind.DENSE, Instances.Units.FRACTION, seed));
    LpSolution warm = simplex.solve(changed, first.basis());
    assertEquals(cold.status(), warm.status());
    if (cold.isOptimal()) {
      assertEquals(
          cold.objective(), warm.objective(), 1e-8 * Math.max(1, Math.abs(cold.objective())));
    }
  }

  /** A used workspace gives the same bits as a fresh one. */
  @Property(tries = 200, seed = "15")
  void aUsedWorkspaceGivesTheSameBits(
      @ForAll @LongRange(min = 0, max = 1_000_000) long seed, @ForAll Instances.Kind kind) {
    DualSimplex used = new DualSimplex();
    used.solve(Instances.of(Instances.Kind.BLEND, Instances.Units.PERCENT, seed + 1));
    used.solve(Instances.of(Instances.Kind.DEGENERATE, Instances.Units.ALL_MIXED, seed + 2));
    LinearProgram lp = Instances.of(kind, Instances.Units.FRACTION, seed);
    LpSolution a = used.solve(lp);
    LpSolution b = new DualSimplex().solve(lp);
    assertEquals(a.status(), b.status());
    assertEquals(a.pivots(), b.pivots());
    if (a.isOptimal()) {
      assertEquals(
          List.of(Arrays.toString(a.x()), Arrays.toString(a.rowDuals())),
          List.of(Arrays.toString(b.x()), Arrays.toString(b.rowDuals())));
    } else {
      assertEquals(Arrays.toString(a.certificate()), Arrays.toString(b.certificate()));
    }
  }

  @Property(tries = 150, seed = "16")
  void moreAllowedNeverCostsMore(
      @ForAll @LongRange(min = 0, max = 1_000_000) long seed,
      @ForAll @IntRange(min = 15, max = 60) int n) {
    LinearProgram lp = Instances.blend(new SplittableRandom(seed), n, 7);
    SupportSearch search = new SupportSearch();
    double before = Double.POSITIVE_INFINITY;
    for (int most = 1; most <= 5; most++) {
      SupportResult r = search.search(choice(lp, most), SearchSettings.best(1));
      double cost = r.choices().isEmpty() ? Double.POSITIVE_INFINITY : r.choices().get(0).cost();
      assertTrue(cost <= before + 1e-9);
      before = cost;
    }
    LpSolution relaxed = new DualSimplex().solve(lp);
    assertTrue(!relaxed.isOptimal() || relaxed.objective() <= before + 1e-9);
  }

  @Property(tries = 60, seed = "17")
  void alternativesAreInOrderDistinctAndWithinTheirLimits(
      @ForAll @LongRange(min = 0, max = 1_000_000) long seed,
      @ForAll @IntRange(min = 15, max = 60) int n) {
    LinearProgram lp = Instances.blend(new SplittableRandom(seed), n, 7);
    SupportResult r = new SupportSearch().search(choice(lp, 4), SearchSettings.best(20));
    Set<String> seen = new HashSet<>();
    double before = Double.NEGATIVE_INFINITY;
    assertTrue(r.complete());
    for (SupportResult.Choice c : r.choices()) {
      assertTrue(seen.add(Arrays.toString(c.support())));
      assertTrue(c.cost() >= before - 1e-9);
      before = c.cost();
      assertTrue(c.support().length <= 4);
      double[] x = c.solution().x();
      for (int j = 1; j < n; j++) {
        boolean used = Arrays.binarySearch(c.support(), j) >= 0;
        assertTrue(used ? x[j] >= 0.01 : x[j] == 0, "x[" + j + "] = " + x[j]);
      }
      assertEquals(null, Recheck.violation(lp, x, 2e-9));
    }
  }

  @Property(tries = 100, seed = "18")
  void permutingTheTableChangesNothingButOrderAmongTies(
      @ForAll @LongRange(min = 0, max = 1_000_000) long seed,
      @ForAll @IntRange(min = 12, max = 40) int n) {
    LinearProgram lp = Instances.blend(new SplittableRandom(seed), n, 7);
    int[] order = shuffled(n, 1, seed);
    SupportResult a = new SupportSearch().search(choice(lp, 4), SearchSettings.best(10));
    SupportResult b =
        new SupportSearch().search(choice(permuted(lp, order), 4), SearchSettings.best(10));
    assertEquals(a.choices().size(), b.choices().size());
    for (int i = 0; i < a.choices().size(); i++) {
      int[] back = IntStream.of(b.choices().get(i).support()).map(j -> order[j]).sorted().toArray();
      assertEquals(Arrays.toString(a.choices().get(i).support()), Arrays.toString(back));
      assertEquals(a.choices().get(i).cost(), b.choices().get(i).cost(), 1e-9);
    }
  }

  private static SupportProblem choice(LinearProgram lp, int most) {
    int n = lp.variables();
    double[] minimum = new double[n - 1];
    Arrays.fill(minimum, 0.01);
    return SupportProblem.of(lp, IntStream.range(1, n).toArray(), minimum).atMost(most).build();
  }

  private static int[] shuffled(int n, int fixed, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    int[] order = IntStream.range(0, n).toArray();
    for (int j = n - 1; j > fixed; j--) {
      int k = fixed + random.nextInt(j - fixed + 1);
      int o = order[j];
      order[j] = order[k];
      order[k] = o;
    }
    return order;
  }

  /** Variable j of the result is variable order[j] of the given. */
  private static LinearProgram permuted(LinearProgram lp, int[] order) {
    int n = order.length;
    double[] cost = new double[n];
    double[] lower = new double[n];
    double[] upper = new double[n];
    double[][] rows = new double[lp.rows()][n];
    double[] low = new double[lp.rows()];
    double[] high = new double[lp.rows()];
    for (int j = 0; j < n; j++) {
      cost[j] = lp.cost(order[j]);
      lower[j] = lp.lower(order[j]);
      upper[j] = lp.upper(order[j]);
    }
    for (int i = 0; i < rows.length; i++) {
      low[i] = lp.rowLower(i);
      high[i] = lp.rowUpper(i);
      for (int j = 0; j < n; j++) {
        rows[i][j] = lp.coefficient(i, order[j]);
      }
    }
    return LinearProgram.of(cost, rows, low, high, lower, upper);
  }
}
