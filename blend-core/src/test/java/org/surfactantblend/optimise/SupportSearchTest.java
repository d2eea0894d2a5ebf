package org.surfactantblend.optimise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class SupportSearchTest {

  private static final int[] NONE = {};

  /** A seeded problem with its filter said a second time, in plain words, for the brute force. */
  private static final class Case {
    final LinearProgram lp;
    final int[] choosable;
    final double[] minimumUse;
    final SupportProblem problem;
    final Predicate<List<Integer>> filter;

    Case(long seed) {
      this(seed, 0);
    }

    /** One of so many variables, or of a random number if 0. */
    Case(long seed, int variables) {
      SplittableRandom random = new SplittableRandom(seed);
      int n = variables > 0 ? variables : 6 + random.nextInt(seed % 10 == 0 ? 9 : 6);
      boolean ties = random.nextInt(3) == 0;
      LinearProgram base = Instances.blend(random, n, 3 + random.nextInt(5));
      lp = ties ? withTwins(base, random) : base;
      choosable = IntStream.range(1, n).toArray();
      minimumUse = new double[n - 1];
      for (int s = 0; s < minimumUse.length; s++) {
        minimumUse[s] = random.nextBoolean() ? 0.01 : 0.005 + 0.05 * random.nextDouble();
      }
      SupportProblem.Builder builder = SupportProblem.of(lp, choosable, minimumUse);
      List<Predicate<List<Integer>>> filters = new ArrayList<>();
      int most = 1 + random.nextInt(5);
      builder.atMost(most);
      filters.add(t -> t.size() <= most);
      if (random.nextInt(3) == 0) {
        int least = 1 + random.nextInt(most);
        builder.atLeast(least);
        filters.add(t -> t.size() >= least);
      }
      for (int g = random.nextInt(3); g > 0; g--) {
        int[] members = IntStream.of(choosable).filter(j -> random.nextInt(3) == 0).toArray();
        int least = random.nextInt(2);
        int limit = least + random.nextInt(3);
        builder.count(members, least, limit);
        filters.add(
            t -> {
              long used = t.stream().filter(j -> Arrays.binarySearch(members, j) >= 0).count();
              return used >= least && used <= limit;
            });
      }
      for (int i = random.nextInt(3); i > 0; i--) {
        int a = 1 + random.nextInt(n - 1);
        int b = 1 + random.nextInt(n - 1);
        if (a != b) {
          builder.notTogether(a, b);
          filters.add(t -> !(t.contains(a) && t.contains(b)));
        }
      }
      for (int i = random.nextInt(3); i > 0; i--) {
        int a = 1 + random.nextInt(n - 1);
        int b = 1 + random.nextInt(n - 1);
        builder.onlyIf(a, b);
        filters.add(t -> !t.contains(a) || t.contains(b));
      }
      if (random.nextInt(4) == 0) {
        int a = 1 + random.nextInt(n - 1);
        builder.mustUse(a);
        filters.add(t -> t.contains(a));
      }
      if (random.nextBoolean()) {
        for (int j : choosable) {
          builder.contribution(j, 0.3 + random.nextDouble());
        }
      }
      problem = builder.build();
      filter = filters.stream().reduce(t -> true, Predicate::and);
    }
  }

  /** Some columns are made equal to others, so that supports tie exactly. */
  private static LinearProgram withTwins(LinearProgram lp, SplittableRandom random) {
    int n = lp.variables();
    int[] source = IntStream.range(0, n).toArray();
    for (int j = 2; j < n; j++) {
      if (random.nextInt(3) == 0) {
        source[j] = 1 + random.nextInt(j - 1);
      }
    }
    double[][] rows = new double[lp.rows()][n];
    double[] low = new double[lp.rows()];
    double[] high = new double[lp.rows()];
    for (int i = 0; i < rows.length; i++) {
      low[i] = lp.rowLower(i);
      high[i] = lp.rowUpper(i);
      for (int j = 0; j < n; j++) {
        rows[i][j] = lp.coefficient(i, source[j]);
      }
    }
    double[] cost = new double[n];
    double[] upper = new double[n];
    for (int j = 0; j < n; j++) {
      cost[j] = lp.cost(source[j]);
      upper[j] = lp.upper(source[j]);
    }
    return LinearProgram.of(cost, rows, low, high, new double[n], upper);
  }

  @Test
  void theBestOnesAreThoseOfTryingAllSupports() {
    SupportSearch search = new SupportSearch();
    int withAny = 0;
    int withNone = 0;
    for (long seed = 0; seed < 600; seed++) {
      Case c = new Case(seed);
      List<BruteForce.Found> all = BruteForce.all(c.lp, c.choosable, c.minimumUse, c.filter);
      int k = new int[] {1, 3, 20}[(int) (seed % 3)];
      SupportResult result = search.search(c.problem, SearchSettings.best(k));
      String name = "seed " + seed + " k " + k;
      compare(name, all.subList(0, Math.min(k, all.size())), result);
      if (all.isEmpty()) {
        withNone++;
        assertEquals(Double.POSITIVE_INFINITY, result.bound(), name);
      } else {
        withAny++;
      }
    }
    assertTrue(withAny > 200 && withNone > 20, withAny + " " + withNone);
  }

  @Test
  void anyOfEqualCostIsAsGoodAndNeverMoreWork() {
    SupportSearch search = new SupportSearch();
    long saved = 0;
    for (long seed = 3000; seed < 3200; seed++) {
      Case c = new Case(seed);
      SupportResult exact = search.search(c.problem, SearchSettings.best(1));
      SupportResult any = search.search(c.problem, SearchSettings.best(1).withAnyOfEqualCost());
      String name = "seed " + seed;
      assertTrue(any.complete(), name);
      assertEquals(exact.choices().isEmpty(), any.choices().isEmpty(), name);
      if (!exact.choices().isEmpty()) {
        double best = exact.choices().get(0).cost();
        assertEquals(best, any.choices().get(0).cost(), 1e-8 * Math.max(1, Math.abs(best)), name);
      }
      assertTrue(any.nodes() <= exact.nodes(), name);
      saved += exact.nodes() - any.nodes();
    }
    assertTrue(saved > 0);
  }

  @Test
  void differentEnoughMeansTheGreedyListOfAllSupports() {
    SupportSearch search = new SupportSearch();
    for (long seed = 1000; seed < 1200; seed++) {
      Case c = new Case(seed);
      List<BruteForce.Found> all = BruteForce.all(c.lp, c.choosable, c.minimumUse, c.filter);
      int members = 2 + (int) (seed % 2);
      SupportResult result =
          search.search(c.problem, SearchSettings.best(4).withDiffering(members));
      compare("seed " + seed, BruteForce.differing(all, members, 4), result);
    }
  }

  private static void compare(String name, List<BruteForce.Found> expected, SupportResult result) {
    assertTrue(result.complete(), name);
    List<List<Integer>> supports = new ArrayList<>();
    for (SupportResult.Choice choice : result.choices()) {
      supports.add(IntStream.of(choice.support()).boxed().toList());
    }
    assertEquals(expected.stream().map(BruteForce.Found::support).toList(), supports, name);
    for (int i = 0; i < expected.size(); i++) {
      assertEquals(
          expected.get(i).cost(),
          result.choices().get(i).cost(),
          1e-9 * Math.max(1, Math.abs(expected.get(i).cost())),
          name);
    }
  }

  /**
   * The list against all supports, each judged in whole numbers: no tolerance of this library's is
   * believed, and equal costs are equal in all digits. More and larger ones: {@code
   * -Doptimise.supports=400} (up to 14 variables; the default is 40 of up to 10).
   */
  @Test
  void theBestOnesAreThoseOfExactArithmetic() {
    int count = Integer.getInteger("optimise.supports", 40);
    SupportSearch search = new SupportSearch();
    int feasible = 0;
    int ties = 0;
    int checked = 0;
    for (long seed = 20_000; checked < count; seed++) {
      Case c = new Case(seed);
      if (count == 40 && c.lp.variables() > 10) {
        continue;
      }
      checked++;
      List<BruteForce.Found> all = BruteForce.exactly(c.lp, c.choosable, c.minimumUse, c.filter);
      SupportResult result = search.search(c.problem, SearchSettings.best(20));
      compare("seed " + seed, all.subList(0, Math.min(20, all.size())), result);
      feasible += all.isEmpty() ? 0 : 1;
      for (int i = 1; i < all.size(); i++) {
        ties += all.get(i).cost() == all.get(i - 1).cost() ? 1 : 0;
      }
    }
    assertTrue(feasible > count / 3 && ties > count / 3, feasible + " " + ties);
  }

  @Test
  void everyLeafStandsInExactArithmetic() {
    SupportSearch search = new SupportSearch();
    int leaves = 0;
    for (long seed = 10_000; seed < 12_000; seed++) {
      Case c = new Case(seed);
      List<LpSolution> solutions = new ArrayList<>();
      List<int[]> supports = new ArrayList<>();
      search.search(
          c.problem,
          SearchSettings.best(4)
              .withLeafCheck(
                  leaf -> {
                    supports.add(leaf.support());
                    solutions.add(leaf.solution());
                    return leaf.solution();
                  }));
      for (int i = 0; i < supports.size(); i++) {
        LinearProgram restricted = restricted(c, supports.get(i));
        LpSolution s = solutions.get(i);
        ExactLp.Answer exact = ExactLp.solve(restricted, s.basis());
        assertNull(ExactOracleTest.fault(restricted, s, exact), "seed " + seed);
        leaves++;
      }
    }
    assertTrue(leaves > 4000, "leaves " + leaves);
  }

  private static LinearProgram restricted(Case c, int[] support) {
    double[] lower = new double[c.lp.variables()];
    double[] upper = new double[c.lp.variables()];
    for (int j = 0; j < lower.length; j++) {
      lower[j] = c.lp.lower(j);
      upper[j] = c.lp.upper(j);
    }
    for (int s = 0; s < c.choosable.length; s++) {
      if (Arrays.binarySearch(support, c.choosable[s]) >= 0) {
        lower[c.choosable[s]] = c.minimumUse[s];
      } else {
        upper[c.choosable[s]] = 0;
      }
    }
    return c.lp.withBounds(lower, upper);
  }

  @Test
  void aRejectedSupportIsLeftOutAndTheNextTakesItsPlace() {
    SupportSearch search = new SupportSearch();
    Case c = new Case(245);
    List<BruteForce.Found> all = BruteForce.all(c.lp, c.choosable, c.minimumUse, c.filter);
    assertTrue(all.size() > 8);
    int shunned = all.get(0).support().get(0);
    SupportResult result =
        search.search(
            c.problem,
            SearchSettings.best(3)
                .withLeafCheck(
                    leaf ->
                        Arrays.binarySearch(leaf.support(), shunned) >= 0
                            ? null
                            : leaf.solution()));
    compare(
        "shunned",
        all.stream().filter(f -> !f.support().contains(shunned)).limit(3).toList(),
        result);
  }

  @Test
  void aDearerReplacementKeepsTheOrderExact() {
    SupportSearch search = new SupportSearch();
    int seen = 0;
    for (long seed = 2000; seed < 2060; seed++) {
      Case c = new Case(seed);
      // The true programme has a dearer price for every other variable.
      double[] cost = new double[c.lp.variables()];
      for (int j = 0; j < cost.length; j++) {
        cost[j] = c.lp.cost(j) * (j % 2 == 0 ? 1.3 : 1);
      }
      LinearProgram dearer = c.lp.withCost(cost);
      List<BruteForce.Found> all = BruteForce.all(dearer, c.choosable, c.minimumUse, c.filter);
      SupportResult result =
          search.search(
              c.problem, SearchSettings.best(3).withLeafCheck(leaf -> leaf.resolve(dearer)));
      compare("seed " + seed, all.subList(0, Math.min(3, all.size())), result);
      seen += all.size();
    }
    assertTrue(seen > 100);
  }

  @Test
  void stoppedEarlyItGivesTheBestSoFarAndAProvenBound() {
    SupportSearch search = new SupportSearch();
    int stopped = 0;
    for (long seed = 3000; seed < 3100; seed++) {
      Case c = new Case(seed);
      SupportResult full = search.search(c.problem, SearchSettings.best(5));
      for (int budget = 0; budget < 6; budget++) {
        int[] left = {budget};
        SupportResult part =
            search.search(c.problem, SearchSettings.best(5).withKeepGoing(() -> left[0]-- > 0));
        if (part.complete()) {
          continue;
        }
        stopped++;
        List<List<Integer>> listed = new ArrayList<>();
        for (SupportResult.Choice choice : part.choices()) {
          listed.add(IntStream.of(choice.support()).boxed().toList());
        }
        for (SupportResult.Choice choice : full.choices()) {
          List<Integer> support = IntStream.of(choice.support()).boxed().toList();
          assertTrue(
              listed.contains(support) || choice.cost() >= part.bound() - 1e-9, "seed " + seed);
        }
      }
    }
    assertTrue(stopped > 100);
  }

  @Test
  void aProblemWithNothingToChooseIsTheProgrammeItself() {
    LinearProgram lp = Instances.of(Instances.Kind.BLEND, Instances.Units.FRACTION, 1);
    SupportResult result =
        new SupportSearch()
            .search(SupportProblem.of(lp, NONE, new double[0]).build(), SearchSettings.best(3));
    assertEquals(1, result.choices().size());
    assertEquals(new DualSimplex().solve(lp).objective(), result.choices().get(0).cost(), 1e-12);
  }

  /** Work, not time. */
  @Test
  void keepsToItsBudgetOfNodes() {
    SupportSearch search = new SupportSearch();
    long one = 0;
    long twenty = 0;
    long pivots = 0;
    for (long seed = 0; seed < 40; seed++) {
      LinearProgram lp = Instances.blend(new SplittableRandom(seed), 80, 8);
      double[] minimum = new double[79];
      Arrays.fill(minimum, 0.01);
      SupportProblem problem =
          SupportProblem.of(lp, IntStream.range(1, 80).toArray(), minimum).atMost(4).build();
      SupportResult best = search.search(problem, SearchSettings.best(1));
      one += best.nodes();
      SupportResult list = search.search(problem, SearchSettings.best(20));
      twenty += list.nodes();
      pivots += list.pivots();
    }
    assertTrue(one <= 194, "one " + one);
    assertTrue(twenty <= 3490, "twenty " + twenty);
    assertTrue(pivots <= 1204, "pivots " + pivots);
  }

  /** Nodes, pivots and order do not depend on what the workspace was used for before. */
  @Test
  void aUsedWorkspaceSearchesTheSameWay() {
    SupportSearch used = new SupportSearch();
    for (long seed = 4000; seed < 4040; seed++) {
      Case c = new Case(seed);
      SupportResult a = used.search(c.problem, SearchSettings.best(5));
      SupportResult b = new SupportSearch().search(c.problem, SearchSettings.best(5));
      assertEquals(b.nodes(), a.nodes());
      assertEquals(b.pivots(), a.pivots());
      assertEquals(describe(b), describe(a));
    }
  }

  private static List<String> describe(SupportResult result) {
    return result.choices().stream()
        .map(c -> Arrays.toString(c.support()) + Arrays.toString(c.solution().x()))
        .toList();
  }

  /** Work, not time: what follows from counts and pairs has to spare nodes. */
  @Test
  void keepsToItsBudgetAmongCountsAndPairs() {
    SupportSearch search = new SupportSearch();
    List<SearchSettings> settings =
        List.of(
            SearchSettings.best(1),
            SearchSettings.best(10),
            SearchSettings.best(4).withDiffering(2));
    long[] nodes = new long[3];
    long[] pivots = new long[3];
    for (long seed = 5000; seed < 5080; seed++) {
      Case c = new Case(seed, 30);
      for (int i = 0; i < 3; i++) {
        SupportResult r = search.search(c.problem, settings.get(i));
        assertTrue(r.complete());
        nodes[i] += r.nodes();
        pivots[i] += r.pivots();
      }
    }
    long[] mostNodes = {797, 3782, 5342};
    long[] mostPivots = {737, 2021, 3056};
    for (int i = 0; i < 3; i++) {
      assertTrue(nodes[i] > 0 && nodes[i] <= mostNodes[i], i + ": nodes " + nodes[i]);
      assertTrue(pivots[i] > 0 && pivots[i] <= mostPivots[i], i + ": pivots " + pivots[i]);
    }
  }

  /** What is not to choose from may stand anywhere among the variables, in any amount. */
  @Test
  void someOfTheVariablesAreToChooseFrom() {
    SupportSearch search = new SupportSearch();
    int found = 0;
    for (long seed = 6000; seed < 6080; seed++) {
      Case c = new Case(seed, 9);
      int[] choosable = seed % 2 == 0 ? new int[] {0, 2, 3, 6} : new int[] {2, 4, 5, 8};
      double[] minimum = {0.02, 0.01, 0.03, 0.015};
      List<BruteForce.Found> all =
          BruteForce.all(c.lp, choosable, minimum, t -> t.size() >= 1 && t.size() <= 3);
      SupportProblem problem =
          SupportProblem.of(c.lp, choosable, minimum).atLeast(1).atMost(3).build();
      SupportResult result = search.search(problem, SearchSettings.best(6));
      compare("seed " + seed, all.subList(0, Math.min(6, all.size())), result);
      found += all.size();
    }
    assertTrue(found > 200, "found " + found);
  }

  /** In grams, or with costs in another currency, the same sets come in the same order. */
  @Test
  void theUnitsDoNotMatter() {
    SupportSearch search = new SupportSearch();
    for (long seed = 7000; seed < 7060; seed++) {
      Case c = new Case(seed, 8);
      int n = c.lp.variables();
      for (double unit : new double[] {1e-3, 1e6}) {
        double[][] rows = new double[c.lp.rows()][n];
        double[] low = new double[rows.length];
        double[] high = new double[rows.length];
        double[] cost = new double[n];
        double[] upper = new double[n];
        double[] minimum = new double[n - 1];
        for (int j = 0; j < n; j++) {
          cost[j] = c.lp.cost(j) / unit;
          upper[j] = c.lp.upper(j) * unit;
          if (j > 0) {
            minimum[j - 1] = c.minimumUse[j - 1] * unit;
          }
        }
        for (int i = 0; i < rows.length; i++) {
          low[i] = c.lp.rowLower(i);
          high[i] = c.lp.rowUpper(i);
          for (int j = 0; j < n; j++) {
            rows[i][j] = c.lp.coefficient(i, j) / unit;
          }
        }
        LinearProgram lp = LinearProgram.of(cost, rows, low, high, new double[n], upper);
        SupportProblem problem = SupportProblem.of(lp, c.choosable, minimum).atMost(3).build();
        List<BruteForce.Found> all =
            BruteForce.all(c.lp, c.choosable, c.minimumUse, t -> t.size() <= 3);
        compare(
            "seed " + seed + " unit " + unit,
            all.subList(0, Math.min(8, all.size())),
            search.search(problem, SearchSettings.best(8)));
      }
    }
  }

  /** All amounts sum to 1, so a lower price of everything changes no order. */
  @Test
  void pricesBelowNothingAreSearchedTheSameWay() {
    SupportSearch search = new SupportSearch();
    for (long seed = 8000; seed < 8060; seed++) {
      Case c = new Case(seed, 9);
      double[] cost = new double[9];
      for (int j = 0; j < 9; j++) {
        cost[j] = c.lp.cost(j) - 5;
      }
      LinearProgram lp = c.lp.withCost(cost);
      List<BruteForce.Found> all = BruteForce.all(lp, c.choosable, c.minimumUse, t -> true);
      SupportProblem problem = SupportProblem.of(lp, c.choosable, c.minimumUse).build();
      compare(
          "seed " + seed,
          all.subList(0, Math.min(6, all.size())),
          search.search(problem, SearchSettings.best(6)));
      assertEquals(
          new DualSimplex().solve(c.lp).isOptimal(), new DualSimplex().solve(lp).isOptimal());
    }
  }

  /** Three variables that sum to 1, the first the cheapest. */
  private static SupportProblem.Builder three(double mostOfFirst) {
    LinearProgram lp =
        LinearProgram.of(
            new double[] {1, 2, 4},
            new double[][] {{1, 1, 1}},
            new double[] {1},
            new double[] {1},
            new double[3],
            new double[] {mostOfFirst, 1, 1});
    return SupportProblem.of(lp, new int[] {0, 1, 2}, new double[] {0.25, 0.25, 0.25});
  }

  private static List<List<Integer>> supports(SupportProblem problem) {
    return new SupportSearch()
        .search(problem, SearchSettings.best(9)).choices().stream()
            .map(c -> IntStream.of(c.support()).boxed().toList())
            .toList();
  }

  @Test
  void whatCannotReachItsLeastUseIsNeverIn() {
    assertEquals(List.of(List.of(1), List.of(1, 2), List.of(2)), supports(three(0.2).build()));
    assertEquals(List.of(), supports(three(0.2).mustUse(0).build()));
    // Just its least use is enough: 0.25 + 1.5, then 0.25 + 1 + 1.
    assertEquals(
        List.of(
            List.of(0, 1), List.of(1), List.of(0, 1, 2), List.of(1, 2), List.of(0, 2), List.of(2)),
        supports(three(0.25).build()));
    assertEquals(List.of(), supports(three(1).mustUse(0).atMost(0).build()));
    assertEquals(List.of(), supports(three(1).mustUse(0).count(new int[] {0, 1}, 0, 0).build()));
    assertEquals(List.of(), supports(three(1).mustUse(0).mustUse(1).notTogether(0, 1).build()));
    assertEquals(List.of(List.of(0, 1, 2)), supports(three(1).atLeast(3).build()));
    assertEquals(List.of(), supports(three(1).atLeast(4).build()));
  }

  @Test
  void theWatcherIsToldOfEveryEntryAndEvery256Nodes() {
    LinearProgram lp = Instances.blend(new SplittableRandom(3), 80, 8);
    double[] minimum = new double[79];
    Arrays.fill(minimum, 0.01);
    SupportProblem problem =
        SupportProblem.of(lp, IntStream.range(1, 80).toArray(), minimum).atMost(4).build();
    for (int differing : new int[] {1, 2}) {
      List<SearchSettings.Progress> told = new ArrayList<>();
      SupportResult result =
          new SupportSearch()
              .search(
                  problem,
                  SearchSettings.best(differing == 1 ? 300 : 40)
                      .withDiffering(differing)
                      .withProgress(told::add));
      double relaxed = new DualSimplex().solve(lp).objective();
      int entries = 0;
      int most = 0;
      for (SearchSettings.Progress p : told) {
        assertEquals(p.found() == 0, Double.isInfinite(p.best()));
        // With others to differ from, each search has a best of its own.
        assertTrue(p.best() >= result.choices().get(0).cost() - 1e-9);
        assertTrue(p.bound() >= relaxed - 1e-9);
        entries += p.nodes() % 256 == 0 ? 0 : 1;
        most = Math.max(most, p.found());
      }
      assertTrue(entries >= result.choices().size(), told.toString());
      assertEquals(result.choices().size(), most);
      if (differing == 1) {
        assertEquals(result.choices().get(0).cost(), told.get(told.size() - 1).best(), 1e-12);
        // An entry may fall on such a node.
        long every256 =
            told.stream()
                .mapToLong(SearchSettings.Progress::nodes)
                .filter(nodes -> nodes % 256 == 0)
                .distinct()
                .count();
        assertTrue(every256 > 0);
        assertEquals(result.nodes() / 256, every256);
      }
    }
  }

  /** A check of a set may be long: none is asked for twice, whether it is taken or rejected. */
  @Test
  void noSetIsJudgedTwice() {
    SupportSearch search = new SupportSearch();
    int judged = 0;
    for (long seed = 5000; seed < 5040; seed++) {
      Case c = new Case(seed, 12);
      for (boolean taken : new boolean[] {true, false}) {
        Set<List<Integer>> seen = new HashSet<>();
        search.search(
            c.problem,
            SearchSettings.best(1000)
                .withLeafCheck(
                    leaf -> {
                      assertSame(c.lp, leaf.programme());
                      assertTrue(seen.add(IntStream.of(leaf.support()).boxed().toList()));
                      return taken ? leaf.solution() : null;
                    }));
        judged += seen.size();
      }
    }
    assertTrue(judged > 1000, "judged " + judged);
  }

  /** Nothing unlisted costs less than the last of a full list; a list of all has no such bound. */
  @Test
  void theBoundIsTheCostOfTheLastOfAFullList() {
    SupportProblem problem = three(1).build();
    for (int wanted = 1; wanted <= 8; wanted++) {
      SupportResult result = new SupportSearch().search(problem, SearchSettings.best(wanted));
      int found = result.choices().size();
      assertEquals(Math.min(wanted, 7), found);
      assertEquals(
          wanted <= 7 ? result.choices().get(found - 1).cost() : Double.POSITIVE_INFINITY,
          result.bound());
    }
  }

  /** 0 only with 1, and two of three: 0.75 and 0.25, the cheaper one the more. */
  @Test
  void limitsAreSaidInOneSentenceAndKeptUnderOtherCosts() {
    SupportProblem problem =
        three(1).contribution(0, 2).onlyIf(0, 1).exactly(2).contribution(1, 0.5).build();
    assertEquals(List.of(List.of(0, 1), List.of(1, 2)), supports(problem));
    SupportProblem dearerFirst = problem.withCost(new double[] {4, 2, 1});
    assertEquals(List.of(List.of(1, 2), List.of(0, 1)), supports(dearerFirst));
  }
}
