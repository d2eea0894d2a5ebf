package org.surfactantblend.benchmarks;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.DoubleSupplier;
import org.apache.commons.math3.optim.MaxIter;
import org.apache.commons.math3.optim.linear.LinearConstraint;
import org.apache.commons.math3.optim.linear.LinearConstraintSet;
import org.apache.commons.math3.optim.linear.LinearObjectiveFunction;
import org.apache.commons.math3.optim.linear.NonNegativeConstraint;
import org.apache.commons.math3.optim.linear.Relationship;
import org.apache.commons.math3.optim.linear.SimplexSolver;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.ojalgo.optimisation.Expression;
import org.ojalgo.optimisation.ExpressionsBasedModel;
import org.ojalgo.optimisation.linear.LinearSolver;
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
import org.surfactantblend.optimise.DualSimplex;
import org.surfactantblend.optimise.LinearProgram;
import org.surfactantblend.optimise.LpSolution;

/**
 * One linear programme from the same plain arrays to the least cost, loading included, over 16
 * programmes in turn. The upper bounds of 1 follow from the first row, so the peers need not be
 * told them; where a peer has cheap bounds it is given them.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 4, time = 1)
@Measurement(iterations = 5, time = 1)
public class LpBenchmark {

  /** Materials, water included. */
  @Param({"12", "40", "80", "200"})
  public int n;

  private final DualSimplex simplex = new DualSimplex();
  BlendProgrammes[] programmes = {};
  private LinearProgram[] loaded = {};
  LpSolution[] solved = {};
  private int next;

  /** Makes the programmes and compares all solvers on them once. */
  @Setup
  public void setUp() {
    programmes = BlendProgrammes.feasible(n, 9, false, 16);
    loaded = new LinearProgram[16];
    solved = new LpSolution[16];
    double pivots = 0;
    for (int i = 0; i < programmes.length; i++) {
      loaded[i] = programmes[i].load();
      solved[i] = simplex.solve(loaded[i]);
      pivots += solved[i].pivots() / 16.0;
      double least = solved[i].objective();
      same(least, i, this::own);
      same(least, i, this::commonsMath);
      same(least, i, this::ojAlgoGeneral);
      same(least, i, this::ojAlgoStandard);
      same(least, i, this::ojAlgoModel);
    }
    System.out.println("mean pivots " + pivots);
  }

  void same(double expected, int i, DoubleSupplier solver) {
    next = i;
    double found = solver.getAsDouble();
    if (!(Math.abs(expected - found) <= 1e-6 * Math.abs(expected))) {
      throw new IllegalStateException(
          "answers differ on programme " + i + ": " + expected + ", " + found);
    }
  }

  BlendProgrammes take() {
    return programmes[next++ & 15];
  }

  /** This library. */
  @Benchmark
  public double own() {
    return simplex.solve(take().load()).objective();
  }

  /** This library without the check and scan of the arrays. */
  @Benchmark
  public double ownLoaded() {
    return simplex.solve(loaded[next++ & 15]).objective();
  }

  /**
   * This library after a change of one row, started from the end of the solve before the change.
   */
  @Benchmark
  public double ownAgainAfterOneRowChanged() {
    int i = next++ & 15;
    LinearProgram lp = loaded[i];
    return simplex
        .solve(
            lp.withRow(7, programmes[i].rows[7], Double.NEGATIVE_INFINITY, 0.0101),
            solved[i].basis())
        .pivots();
  }

  /** Commons Math's simplex. */
  @Benchmark
  public double commonsMath() {
    BlendProgrammes p = take();
    List<LinearConstraint> constraints = new ArrayList<>();
    for (int i = 0; i < p.rows.length; i++) {
      if (p.rowLower[i] == p.rowUpper[i]) {
        constraints.add(new LinearConstraint(p.rows[i], Relationship.EQ, p.rowLower[i]));
      } else {
        if (p.rowLower[i] > Double.NEGATIVE_INFINITY) {
          constraints.add(new LinearConstraint(p.rows[i], Relationship.GEQ, p.rowLower[i]));
        }
        if (p.rowUpper[i] < Double.POSITIVE_INFINITY) {
          constraints.add(new LinearConstraint(p.rows[i], Relationship.LEQ, p.rowUpper[i]));
        }
      }
    }
    return new SimplexSolver()
        .optimize(
            new MaxIter(10_000),
            new LinearObjectiveFunction(p.cost, 0),
            new LinearConstraintSet(constraints),
            GoalType.MINIMIZE,
            new NonNegativeConstraint(true))
        .getValue();
  }

  /** ojAlgo's solver on arrays, bounds as bounds. */
  @Benchmark
  public double ojAlgoGeneral() {
    BlendProgrammes p = take();
    return fill(LinearSolver.newBuilder(p.cost).lower(p.lower).upper(p.upper), p)
        .solve()
        .getValue();
  }

  /** ojAlgo's solver on arrays, standard form, bounds of 1 left out. */
  @Benchmark
  public double ojAlgoStandard() {
    BlendProgrammes p = take();
    return fill(LinearSolver.newBuilder(p.cost), p).toStandardForm().solve().getValue();
  }

  /** ojAlgo's model. */
  @Benchmark
  public double ojAlgoModel() {
    BlendProgrammes p = take();
    ExpressionsBasedModel model = new ExpressionsBasedModel();
    for (int j = 0; j < p.cost.length; j++) {
      model.newVariable("x" + j).lower(p.lower[j]).upper(p.upper[j]).weight(p.cost[j]);
    }
    for (int i = 0; i < p.rows.length; i++) {
      Expression e = model.newExpression("r" + i);
      for (int j = 0; j < p.cost.length; j++) {
        e.set(j, p.rows[i][j]);
      }
      if (p.rowLower[i] > Double.NEGATIVE_INFINITY) {
        e.lower(p.rowLower[i]);
      }
      if (p.rowUpper[i] < Double.POSITIVE_INFINITY) {
        e.upper(p.rowUpper[i]);
      }
    }
    return model.minimise().getValue();
  }

  private static LinearSolver.Builder fill(LinearSolver.Builder b, BlendProgrammes p) {
    for (int i = 0; i < p.rows.length; i++) {
      if (p.rowLower[i] == p.rowUpper[i]) {
        b.equality(p.rowLower[i], p.rows[i]);
      } else {
        if (p.rowLower[i] > Double.NEGATIVE_INFINITY) {
          double[] negative = new double[p.rows[i].length];
          for (int j = 0; j < negative.length; j++) {
            negative[j] = -p.rows[i][j];
          }
          b.inequality(-p.rowLower[i], negative);
        }
        if (p.rowUpper[i] < Double.POSITIVE_INFINITY) {
          b.inequality(p.rowUpper[i], p.rows[i]);
        }
      }
    }
    return b;
  }
}
