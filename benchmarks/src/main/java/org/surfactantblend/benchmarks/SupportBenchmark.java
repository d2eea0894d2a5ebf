package org.surfactantblend.benchmarks;

import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.surfactantblend.optimise.SearchSettings;
import org.surfactantblend.optimise.SupportProblem;
import org.surfactantblend.optimise.SupportSearch;

/**
 * The best choices of at most so many surfactants, each at 1 % or more or absent, by the kernel on
 * plain arrays, over 16 problems in turn. The arrays are loaded beforehand; {@link LpBenchmark}
 * measures what loading costs.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 4, time = 1)
@Measurement(iterations = 5, time = 1)
public class SupportBenchmark {

  /** Materials, water included. */
  @Param({"12", "40", "80", "200"})
  public int n;

  /** Surfactants allowed. */
  @Param({"3", "4", "5"})
  public int atMost;

  /** Choices asked for. */
  @Param({"1", "20"})
  public int alternatives;

  /** Rows. */
  @Param({"9", "17"})
  public int rows;

  /** Near-equal costs and a narrow pH window. */
  @Param({"false", "true"})
  public boolean hard;

  private final SupportSearch search = new SupportSearch();
  private final SupportProblem[] problems = new SupportProblem[16];
  private SearchSettings settings = SearchSettings.best(1);
  private int next;

  /** Makes the problems. */
  @Setup
  public void setUp() {
    BlendProgrammes[] programmes = BlendProgrammes.feasible(n, rows, hard, problems.length);
    for (int i = 0; i < problems.length; i++) {
      problems[i] = programmes[i].choose(atMost);
    }
    settings = SearchSettings.best(alternatives);
  }

  /** This library's kernel. */
  @Benchmark
  public int own() {
    return search.search(problems[next++ & 15], settings).choices().size();
  }
}
