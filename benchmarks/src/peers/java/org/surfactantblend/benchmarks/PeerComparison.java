package org.surfactantblend.benchmarks;

import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.surfactantblend.optimise.SearchSettings;
import org.surfactantblend.optimise.SupportResult;
import org.surfactantblend.optimise.SupportSearch;

/**
 * The support search next to general mixed-integer solvers on seeded choices of 3 to 5 out of 40 to
 * 200. In one third the limit on salt is a thousandth below the least that any choice reaches, so
 * that there is no solution although amounts without the choice may well exist; in one third it is
 * a thousandth above. Where a verdict differs, or an optimum by more than 1e-7 of it, {@link
 * ExactLeaf} judges both choices. Ends with 1 if this library was wrong.
 *
 * <p>Arguments: how many choices (500 if not given), the first seed (0), then the solvers (HIGHS
 * and SCIP).
 */
public final class PeerComparison {

  private static final double EQUAL = 1e-7;
  private static final int SALT = 7;

  private PeerComparison() {}

  /** Compares and prints the counts. */
  public static void main(String[] args) {
    int count = args.length > 0 ? Integer.parseInt(args[0]) : 500;
    int first = args.length > 1 ? Integer.parseInt(args[1]) : 0;
    List<String> solvers =
        args.length > 2 ? List.of(args).subList(2, args.length) : List.of("HIGHS", "SCIP");
    SupportSearch search = new SupportSearch();
    int[] same = new int[solvers.size()];
    int[] excused = new int[solvers.size()];
    int infeasible = 0;
    int wrong = 0;
    for (int i = first; i < first + count; i++) {
      int n = 40 + i * 37 % 161;
      int rows = 9 + i * 5 % 9;
      int atMost = 3 + i / 3 % 3;
      BlendProgrammes p = BlendProgrammes.of(n, rows, i % 7 == 0, i);
      if (i % 3 != 0) {
        SupportResult least =
            search.search(p.choose(atMost).withCost(p.rows[SALT]), SearchSettings.best(1));
        if (!least.choices().isEmpty()) {
          p.rowUpper[SALT] = least.choices().get(0).cost() * (i % 3 == 1 ? 0.999 : 1.001);
        }
      }
      SupportResult result = search.search(p.choose(atMost), SearchSettings.best(1));
      boolean feasible = !result.choices().isEmpty();
      List<Integer> support =
          feasible ? IntStream.of(result.choices().get(0).support()).boxed().toList() : List.of();
      double own = feasible ? ExactLeaf.cost(p, support) : Double.NaN;
      infeasible += feasible ? 0 : 1;
      String name = "choice " + i + ", " + atMost + " of " + n + ", " + rows + " rows: ";
      if (feasible && !near(own, result.choices().get(0).cost())) {
        System.out.println(
            name + "own cost " + result.choices().get(0).cost() + ", exactly " + own);
        wrong++;
      }
      for (int s = 0; s < solvers.size(); s++) {
        GeneralSolver.Choice other = ask(solvers.get(s), p, atMost);
        double told = other == null ? Double.NaN : other.cost();
        if (near(own, told)) {
          same[s]++;
          continue;
        }
        double theirs = other == null ? Double.NaN : ExactLeaf.cost(p, other.support());
        boolean better = theirs < own * (1 - EQUAL) || (Double.isNaN(own) && !Double.isNaN(theirs));
        wrong += better ? 1 : 0;
        excused[s] += better ? 0 : 1;
        System.out.println(
            name
                + solvers.get(s)
                + " says "
                + told
                + ", its choice costs exactly "
                + theirs
                + "; this library's "
                + own
                + (better ? ": WRONG" : ": the other's tolerance"));
      }
      if ((i - first) % 50 == 49) {
        System.out.println("... " + (i - first + 1));
      }
    }
    for (int s = 0; s < solvers.size(); s++) {
      System.out.printf(
          Locale.ROOT,
          "%s: %d choices, %d without a solution, %d same to 1e-7, %d other through its tolerance%n",
          solvers.get(s),
          count,
          infeasible,
          same[s],
          excused[s]);
    }
    System.out.println("this library wrong: " + wrong);
    System.exit(wrong == 0 ? 0 : 1);
  }

  private static GeneralSolver.@org.jspecify.annotations.Nullable Choice ask(
      String name, BlendProgrammes p, int atMost) {
    try (GeneralSolver solver = new GeneralSolver(name, p, atMost)) {
      List<GeneralSolver.Choice> found = solver.precise().best(1);
      return found.isEmpty() ? null : found.get(0);
    }
  }

  private static boolean near(double own, double other) {
    return Double.isNaN(own) ? Double.isNaN(other) : Math.abs(own - other) <= EQUAL * own;
  }
}
