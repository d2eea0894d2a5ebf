package org.surfactantblend.benchmarks;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.DoubleSupplier;
import org.surfactantblend.optimise.SearchSettings;
import org.surfactantblend.optimise.SupportResult;
import org.surfactantblend.optimise.SupportSearch;

/**
 * How many times faster than general solvers, for a machine that others use too: this library and
 * its peers take turns on the same programme, and what counts is the processor time of the one
 * thread. All solvers run in the calling thread. From plain arrays to the answer, loading included.
 *
 * <p>Arguments: {@code lp}; or {@code choice rows hard problems}; or {@code twenty rows hard
 * problems}, then if wanted the solvers to ask (SCIP, CBC, HIGHS, ojAlgo). Answers are compared on
 * the way; a peer that is off by more than its tolerance is named.
 */
public final class PeerRatios {

  private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

  private static final List<String> SLOW = List.of("ojAlgo model", "GLOP", "CLP", "HiGHS");

  private PeerRatios() {}

  /** Prints one line per size. */
  public static void main(String[] args) {
    String what = args.length == 0 ? "lp" : args[0];
    int rows = args.length > 1 ? Integer.parseInt(args[1]) : 9;
    boolean hard = args.length > 2 && Boolean.parseBoolean(args[2]);
    int problems = args.length > 3 ? Integer.parseInt(args[3]) : 8;
    List<String> solvers =
        args.length > 4
            ? List.of(args).subList(4, args.length)
            : what.equals("choice")
                ? List.of("SCIP", "CBC", "HIGHS", "ojAlgo")
                : List.of("SCIP", "CBC", "HIGHS");
    switch (what) {
      case "lp" -> {
        for (int n : new int[] {12, 40, 80, 200}) {
          programme(n);
        }
      }
      case "choice" -> {
        for (int n : new int[] {40, 80, 200}) {
          for (int atMost = 3; atMost <= 5; atMost++) {
            choice(n, atMost, 1, rows, hard, problems, solvers);
          }
        }
      }
      case "twenty" -> {
        for (int n : new int[] {12, 40, 80}) {
          choice(n, 4, 20, rows, hard, problems, solvers);
        }
      }
      default -> throw new IllegalArgumentException("lp, choice or twenty, not " + what);
    }
  }

  private static void programme(int n) {
    LpPeersBenchmark b = new LpPeersBenchmark();
    b.n = n;
    b.setUp();
    Map<String, DoubleSupplier> peers = new LinkedHashMap<>();
    peers.put("Commons Math", b::commonsMath);
    peers.put("ojAlgo general", b::ojAlgoGeneral);
    peers.put("ojAlgo standard", b::ojAlgoStandard);
    peers.put("ojAlgo model", b::ojAlgoModel);
    peers.put("GLOP", b::glop);
    peers.put("CLP", b::clp);
    peers.put("HiGHS", b::highs);
    int rounds = 25;
    int warm = 20;
    double[] own = new double[rounds];
    Map<String, double[]> other = new LinkedHashMap<>();
    for (int r = -warm; r < rounds; r++) {
      double mine = microseconds(b::own, 1600);
      if (r >= 0) {
        own[r] = mine;
      }
      for (Map.Entry<String, DoubleSupplier> peer : peers.entrySet()) {
        double theirs = microseconds(peer.getValue(), SLOW.contains(peer.getKey()) ? 32 : 640);
        if (r >= 0) {
          other.computeIfAbsent(peer.getKey(), k -> new double[rounds])[r] = theirs;
        }
      }
    }
    String fastest = "";
    for (String peer : other.keySet()) {
      if (fastest.isEmpty() || middle(other.get(peer)) < middle(other.get(fastest))) {
        fastest = peer;
      }
    }
    double[] ratio = new double[rounds];
    for (int r = 0; r < rounds; r++) {
      ratio[r] = other.get(fastest)[r] / own[r];
    }
    StringBuilder line = new StringBuilder();
    other.forEach(
        (peer, times) -> line.append(String.format(Locale.ROOT, ", %s %.1f", peer, middle(times))));
    System.out.printf(
        Locale.ROOT,
        "n %d: own %.2f us%s; %s / own %.1f (quartiles %.1f to %.1f)%n",
        n,
        middle(own),
        line,
        fastest,
        middle(ratio),
        quantile(ratio, 0.25),
        quantile(ratio, 0.75));
  }

  private static void choice(
      int n, int atMost, int wanted, int rows, boolean hard, int problems, List<String> names) {
    BlendProgrammes[] programmes = BlendProgrammes.feasible(n, rows, hard, problems);
    SupportSearch search = new SupportSearch();
    double[][] times = new double[names.size()][problems];
    double[] own = new double[problems];
    int[] off = new int[names.size()];
    for (BlendProgrammes p : programmes) {
      microseconds(() -> last(search, p, atMost, wanted), 3000 / problems);
    }
    for (int i = 0; i < problems; i++) {
      BlendProgrammes p = programmes[i];
      double[] batches = new double[names.size() + 1];
      double right = last(search, p, atMost, wanted);
      batches[names.size()] = microseconds(() -> last(search, p, atMost, wanted), 50);
      for (int s = 0; s < names.size(); s++) {
        String name = names.get(s);
        double[] told = new double[1];
        times[s][i] =
            microseconds(
                () ->
                    told[0] =
                        name.equals("ojAlgo")
                            ? OjAlgoChoice.cost(p, atMost)
                            : last(name, p, atMost, wanted),
                1);
        off[s] += Math.abs(told[0] - right) <= 1e-4 * Math.abs(right) ? 0 : 1;
        batches[s] = microseconds(() -> last(search, p, atMost, wanted), 50);
      }
      own[i] = middle(batches);
    }
    int fastest = 0;
    StringBuilder line = new StringBuilder();
    for (int s = 0; s < names.size(); s++) {
      fastest = mean(times[s]) < mean(times[fastest]) ? s : fastest;
      line.append(String.format(Locale.ROOT, ", %s %.0f", names.get(s), mean(times[s])));
      line.append(off[s] == 0 ? "" : " (" + off[s] + " wrong)");
    }
    double[] ratio = new double[problems];
    for (int i = 0; i < problems; i++) {
      double least = Double.POSITIVE_INFINITY;
      for (double[] of : times) {
        least = Math.min(least, of[i]);
      }
      ratio[i] = least / own[i];
    }
    System.out.printf(
        Locale.ROOT,
        "n %d, at most %d, %d wanted, %d rows%s: own %.1f us, worst %.0f%s; %s / own %.0f;"
            + " fastest of each problem / own: %.0f, least %.0f, most %.0f%n",
        n,
        atMost,
        wanted,
        rows,
        hard ? ", hard" : "",
        mean(own),
        quantile(own, 1),
        line,
        names.get(fastest),
        mean(times[fastest]) / mean(own),
        middle(ratio),
        quantile(ratio, 0),
        quantile(ratio, 1));
  }

  private static double last(SupportSearch search, BlendProgrammes p, int atMost, int wanted) {
    SupportResult r = search.search(p.choose(atMost), SearchSettings.best(wanted));
    return r.choices().isEmpty() ? 0 : r.choices().get(r.choices().size() - 1).cost();
  }

  private static double last(String name, BlendProgrammes p, int atMost, int wanted) {
    try (GeneralSolver solver = new GeneralSolver(name, p, atMost)) {
      List<GeneralSolver.Choice> found = solver.best(wanted);
      return found.isEmpty() ? 0 : found.get(found.size() - 1).cost();
    }
  }

  /** Processor time of this thread per call. */
  private static double microseconds(DoubleSupplier work, int times) {
    double sum = 0;
    long start = THREADS.getCurrentThreadCpuTime();
    for (int i = 0; i < times; i++) {
      sum += work.getAsDouble();
    }
    long end = THREADS.getCurrentThreadCpuTime();
    if (sum == Double.NEGATIVE_INFINITY) {
      throw new IllegalStateException("no cost is negative");
    }
    return (end - start) / 1000.0 / times;
  }

  private static double mean(double[] values) {
    return Arrays.stream(values).average().orElse(Double.NaN);
  }

  private static double middle(double[] values) {
    return quantile(values, 0.5);
  }

  private static double quantile(double[] values, double q) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return sorted[(int) Math.round(q * (sorted.length - 1))];
  }
}
