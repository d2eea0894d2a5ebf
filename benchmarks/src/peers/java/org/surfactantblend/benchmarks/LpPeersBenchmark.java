package org.surfactantblend.benchmarks;

import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.Setup;

/** {@link LpBenchmark} with the native linear solvers of OR-Tools beside the others. */
public class LpPeersBenchmark extends LpBenchmark {

  /** Compares the native solvers on all programmes once. */
  @Setup
  public void compareNative() {
    for (int i = 0; i < programmes.length; i++) {
      double least = solved[i].objective();
      same(least, i, this::glop);
      same(least, i, this::clp);
      same(least, i, this::highs);
    }
  }

  /** OR-Tools' own simplex. */
  @Benchmark
  public double glop() {
    return solve("GLOP");
  }

  /** COIN-OR's simplex. */
  @Benchmark
  public double clp() {
    return solve("CLP");
  }

  /** HiGHS. */
  @Benchmark
  public double highs() {
    return solve("HIGHS_LP");
  }

  private double solve(String name) {
    try (GeneralSolver solver = new GeneralSolver(name, take())) {
      return solver.leastCost();
    }
  }
}
