package org.surfactantblend.optimise;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;

/** All supports, one programme each, sorted: what a support search must find. */
final class BruteForce {

  record Found(List<Integer> support, double cost) {}

  private BruteForce() {}

  /** All feasible supports that pass the filter, by cost, equal costs by index list. */
  static List<Found> all(
      LinearProgram lp, int[] choosable, double[] minimumUse, Predicate<List<Integer>> filter) {
    DualSimplex simplex = new DualSimplex();
    double scale = 0;
    for (int j = 0; j < lp.variables(); j++) {
      scale = Math.max(scale, Math.abs(lp.cost(j)));
    }
    return all(
        lp,
        choosable,
        minimumUse,
        filter,
        restricted -> {
          LpSolution s = simplex.solve(restricted);
          return s.isOptimal() ? s.objective() : Double.NaN;
        },
        1e-10 * scale);
  }

  /** The same with each programme solved in whole numbers; only equal costs tie. */
  static List<Found> exactly(
      LinearProgram lp, int[] choosable, double[] minimumUse, Predicate<List<Integer>> filter) {
    return all(
        lp,
        choosable,
        minimumUse,
        filter,
        restricted -> {
          ExactLp.Answer exact = ExactLp.solve(restricted, null);
          return exact.feasible() ? exact.value().doubleValue() : Double.NaN;
        },
        0);
  }

  private static List<Found> all(
      LinearProgram lp,
      int[] choosable,
      double[] minimumUse,
      Predicate<List<Integer>> filter,
      ToDoubleFunction<LinearProgram> leastCost,
      double tie) {
    List<Found> found = new ArrayList<>();
    for (int bits = 0; bits < 1 << choosable.length; bits++) {
      List<Integer> support = new ArrayList<>();
      double[] lower = new double[lp.variables()];
      double[] upper = new double[lp.variables()];
      for (int j = 0; j < lower.length; j++) {
        lower[j] = lp.lower(j);
        upper[j] = lp.upper(j);
      }
      boolean possible = true;
      for (int s = 0; s < choosable.length; s++) {
        int v = choosable[s];
        if ((bits >> s & 1) == 1) {
          support.add(v);
          lower[v] = minimumUse[s];
          possible &= lower[v] <= upper[v];
        } else {
          upper[v] = 0;
        }
      }
      support.sort(null);
      if (possible && filter.test(support)) {
        double cost = leastCost.applyAsDouble(lp.withBounds(lower, upper));
        if (!Double.isNaN(cost)) {
          found.add(new Found(support, cost));
        }
      }
    }
    found.sort(
        (a, b) ->
            Math.abs(a.cost() - b.cost()) > tie
                ? Double.compare(a.cost(), b.cost())
                : a.support().size() != b.support().size()
                    ? Integer.compare(a.support().size(), b.support().size())
                    : Arrays.compare(array(a), array(b)));
    return found;
  }

  /** Picks greedily: the best, then the best that differs enough from all before. */
  static List<Found> differing(List<Found> all, int members, int wanted) {
    List<Found> picked = new ArrayList<>();
    for (Found f : all) {
      if (picked.size() < wanted
          && picked.stream().allMatch(p -> difference(p.support(), f.support()) >= members)) {
        picked.add(f);
      }
    }
    return picked;
  }

  static int difference(List<Integer> a, List<Integer> b) {
    int shared = (int) a.stream().filter(b::contains).count();
    return Math.max(a.size(), b.size()) - shared;
  }

  private static int[] array(Found f) {
    return f.support().stream().mapToInt(Integer::intValue).toArray();
  }
}
