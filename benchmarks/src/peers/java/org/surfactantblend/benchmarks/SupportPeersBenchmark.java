package org.surfactantblend.benchmarks;

import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.ToDoubleFunction;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.surfactantblend.optimise.SearchSettings;
import org.surfactantblend.optimise.SupportResult;
import org.surfactantblend.optimise.SupportSearch;

/**
 * The best choices of at most so many surfactants, each at 1 % or more or absent, from plain arrays
 * to the answer, loading included: this library and general solvers, each on the same four problems
 * per invocation. The general solvers are asked again with the choices so far forbidden where more
 * than one is wanted, and keep their own tolerances and gaps, which is to their advantage.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@OperationsPerInvocation(SupportPeersBenchmark.PROBLEMS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class SupportPeersBenchmark {

  static final int PROBLEMS = 4;

  /** Materials, water included. */
  @Param({"40", "80", "200"})
  public int n;

  /** Surfactants allowed. */
  @Param({"3", "4", "5"})
  public int atMost;

  /** Choices asked for. */
  @Param("1")
  public int alternatives;

  /** Rows. */
  @Param({"9", "17"})
  public int rows;

  /** Near-equal costs and a narrow pH window. */
  @Param("false")
  public boolean hard;

  private final SupportSearch search = new SupportSearch();
  private BlendProgrammes[] programmes = {};

  /** Makes the problems. */
  @Setup
  public void setUp() {
    programmes = BlendProgrammes.feasible(n, rows, hard, PROBLEMS);
  }

  /** This library. */
  @Benchmark
  public double own() {
    return sum(
        p -> {
          SupportResult r = search.search(p.choose(atMost), SearchSettings.best(alternatives));
          return r.choices().isEmpty() ? 0 : r.choices().get(r.choices().size() - 1).cost();
        });
  }

  /** SCIP. */
  @Benchmark
  public double scip() {
    return sum(p -> last("SCIP", p));
  }

  /** CBC. */
  @Benchmark
  public double cbc() {
    return sum(p -> last("CBC", p));
  }

  /** HiGHS. */
  @Benchmark
  public double highs() {
    return sum(p -> last("HIGHS", p));
  }

  /** OjAlgo, the best choice only. */
  @Benchmark
  public double ojAlgo() {
    return sum(p -> OjAlgoChoice.cost(p, atMost));
  }

  private double sum(ToDoubleFunction<BlendProgrammes> solver) {
    double sum = 0;
    for (BlendProgrammes p : programmes) {
      sum += solver.applyAsDouble(p);
    }
    return sum;
  }

  private double last(String name, BlendProgrammes p) {
    try (GeneralSolver solver = new GeneralSolver(name, p, atMost)) {
      List<GeneralSolver.Choice> found = solver.best(alternatives);
      return found.isEmpty() ? 0 : found.get(found.size() - 1).cost();
    }
  }
}
