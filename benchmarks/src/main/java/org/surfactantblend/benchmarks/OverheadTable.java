package org.surfactantblend.benchmarks;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.Arrays;
import java.util.Locale;
import java.util.function.Supplier;

/**
 * What a solve through the public API takes beside the kernel alone on the same brief ({@link
 * SolveBenchmark}), in turns, by processor time of the thread: for a machine that others use too.
 */
public final class OverheadTable {

  private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();
  private static final int ROUNDS = 25;
  private static final int CALLS = 400;

  private OverheadTable() {}

  /** Prints the table. */
  public static void main(String[] args) {
    System.out.println(
        "| n | choice | kernel, us | public API, us | times the kernel (quartiles) |\n"
            + "|---|---|---|---|---|");
    for (int n : new int[] {12, 60, 200}) {
      SolveBenchmark b = new SolveBenchmark();
      b.materials = n;
      b.setUp();
      print(n, "free", b::kernel, b::solve);
      print(n, "at most three", b::kernelAtMostThree, b::solveAtMostThree);
    }
  }

  private static void print(int n, String choice, Supplier<?> kernel, Supplier<?> solve) {
    double[] alone = new double[ROUNDS];
    double[] whole = new double[ROUNDS];
    double[] ratio = new double[ROUNDS];
    for (int r = -ROUNDS; r < ROUNDS; r++) {
      double k = microseconds(kernel);
      double s = microseconds(solve);
      if (r >= 0) {
        alone[r] = k;
        whole[r] = s;
        ratio[r] = s / k;
      }
    }
    Arrays.sort(alone);
    Arrays.sort(whole);
    Arrays.sort(ratio);
    System.out.printf(
        Locale.ROOT,
        "| %d | %s | %.1f | %.1f | %.1f (%.1f to %.1f) |%n",
        n,
        choice,
        alone[ROUNDS / 2],
        whole[ROUNDS / 2],
        ratio[ROUNDS / 2],
        ratio[ROUNDS / 4],
        ratio[3 * ROUNDS / 4]);
  }

  private static double microseconds(Supplier<?> work) {
    int seen = 0;
    long start = THREADS.getCurrentThreadCpuTime();
    for (int i = 0; i < CALLS; i++) {
      seen += work.get().hashCode();
    }
    long end = THREADS.getCurrentThreadCpuTime();
    return seen == 1 && start == 0 ? 0 : (end - start) / 1000.0 / CALLS;
  }
}
