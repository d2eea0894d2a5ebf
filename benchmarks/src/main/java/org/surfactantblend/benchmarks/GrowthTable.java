package org.surfactantblend.benchmarks;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.Arrays;
import java.util.Locale;
import org.surfactantblend.optimise.SearchSettings;
import org.surfactantblend.optimise.SupportProblem;
import org.surfactantblend.optimise.SupportSearch;

/**
 * How the search for the best choices grows with the number of materials, of surfactants allowed
 * and of choices wanted. Processor time of the thread over 16 problems, the middle of eleven
 * rounds. Arguments: rows (9), hard (false), numbers of materials (12 40 80 200 400).
 */
public final class GrowthTable {

  private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();
  private static final int PROBLEMS = 16;
  private static final int ROUNDS = 11;

  private GrowthTable() {}

  /** Prints one table row per number of materials and surfactants. */
  public static void main(String[] args) {
    int rows = args.length > 0 ? Integer.parseInt(args[0]) : 9;
    boolean hard = args.length > 1 && Boolean.parseBoolean(args[1]);
    int[] wanted = {1, 5, 20, 100};
    int[] sizes =
        args.length > 2
            ? Arrays.stream(args).skip(2).mapToInt(Integer::parseInt).toArray()
            : new int[] {12, 40, 80, 200, 400};
    System.out.println("| n | at most | 1 choice, us (nodes) | 5 | 20 | 100 |");
    System.out.println("|---|---|---|---|---|---|");
    for (int n : sizes) {
      BlendProgrammes[] programmes = BlendProgrammes.feasible(n, rows, hard, PROBLEMS);
      for (int atMost = 2; atMost <= 6; atMost++) {
        StringBuilder line = new StringBuilder("| " + n + " | " + atMost);
        for (int k : wanted) {
          line.append(cell(programmes, atMost, SearchSettings.best(k)));
        }
        System.out.println(line.append(" |"));
      }
    }
  }

  private static String cell(BlendProgrammes[] programmes, int atMost, SearchSettings settings) {
    SupportSearch search = new SupportSearch();
    SupportProblem[] problems = new SupportProblem[PROBLEMS];
    long nodes = 0;
    for (int i = 0; i < PROBLEMS; i++) {
      problems[i] = programmes[i].choose(atMost);
      nodes += search.search(problems[i], settings).nodes();
    }
    int repeats =
        (int) Math.max(1, Math.min(50, 50_000_000 / (1 + time(search, problems, settings, 1))));
    time(search, problems, settings, repeats);
    double[] times = new double[ROUNDS];
    for (int r = 0; r < ROUNDS; r++) {
      times[r] = time(search, problems, settings, repeats) / 1000.0 / repeats / PROBLEMS;
    }
    Arrays.sort(times);
    return String.format(Locale.ROOT, " | %.0f (%d)", times[ROUNDS / 2], nodes / PROBLEMS);
  }

  private static long time(
      SupportSearch search, SupportProblem[] problems, SearchSettings settings, int repeats) {
    long nodes = 0;
    long start = THREADS.getCurrentThreadCpuTime();
    for (int r = 0; r < repeats; r++) {
      for (SupportProblem problem : problems) {
        nodes += search.search(problem, settings).nodes();
      }
    }
    long end = THREADS.getCurrentThreadCpuTime();
    return nodes < 0 ? 0 : end - start;
  }
}
