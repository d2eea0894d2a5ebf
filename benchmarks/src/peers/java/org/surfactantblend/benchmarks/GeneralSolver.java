package org.surfactantblend.benchmarks;

import com.google.ortools.Loader;
import com.google.ortools.linearsolver.MPConstraint;
import com.google.ortools.linearsolver.MPObjective;
import com.google.ortools.linearsolver.MPSolver;
import com.google.ortools.linearsolver.MPSolverParameters;
import com.google.ortools.linearsolver.MPVariable;
import java.util.ArrayList;
import java.util.List;

/**
 * The same programmes and choices put to the general solvers that OR-Tools brings, each amount with
 * a yes-or-no variable beside it.
 */
final class GeneralSolver implements AutoCloseable {

  /** One choice: the variables in use, ascending, and its cost as the solver tells it. */
  record Choice(List<Integer> support, double cost) {}

  private static final double INFINITY = Double.POSITIVE_INFINITY;

  private final MPSolver solver;
  private final MPSolverParameters parameters = new MPSolverParameters();
  private final MPVariable[] amount;
  private final double[] cost;
  private MPVariable[] used = {};
  private double costFactor = 1;

  static {
    Loader.loadNativeLibraries();
  }

  /**
   * Loads the programme without any choice.
   *
   * @param name a solver's name as OR-Tools knows it
   */
  GeneralSolver(String name, BlendProgrammes p) {
    solver = MPSolver.createSolver(name);
    cost = p.cost;
    int n = cost.length;
    amount = new MPVariable[n];
    MPObjective objective = solver.objective();
    for (int j = 0; j < n; j++) {
      amount[j] = solver.makeNumVar(p.lower[j], p.upper[j], "");
      objective.setCoefficient(amount[j], cost[j]);
    }
    objective.setMinimization();
    for (int i = 0; i < p.rows.length; i++) {
      MPConstraint row = solver.makeConstraint(p.rowLower[i], p.rowUpper[i], "");
      double[] coefficients = p.rows[i];
      for (int j = 0; j < n; j++) {
        if (coefficients[j] != 0) {
          row.setCoefficient(amount[j], coefficients[j]);
        }
      }
    }
  }

  /**
   * Loads programme and choice. The upper bound of an amount in use is what the total of active
   * matter leaves it, the tightest that a careful modeller would give.
   */
  GeneralSolver(String name, BlendProgrammes p, int atMost) {
    this(name, p);
    int n = p.cost.length;
    used = new MPVariable[n];
    MPConstraint count = solver.makeConstraint(0, atMost, "");
    for (int j = 1; j < n; j++) {
      used[j] = solver.makeBoolVar("");
      MPConstraint least = solver.makeConstraint(0, INFINITY, "");
      least.setCoefficient(amount[j], 1);
      least.setCoefficient(used[j], -BlendProgrammes.MINIMUM_USE);
      MPConstraint most = solver.makeConstraint(-INFINITY, 0, "");
      most.setCoefficient(amount[j], 1);
      most.setCoefficient(used[j], -Math.min(p.upper[j], p.rowUpper[1] / p.strength[j]));
      count.setCoefficient(used[j], 1);
    }
    for (int g : BlendProgrammes.NEEDED) {
      MPConstraint one = solver.makeConstraint(1, INFINITY, "");
      for (int j = 1; j < n; j++) {
        if (p.group[j] == g) {
          one.setCoefficient(used[j], 1);
        }
      }
    }
  }

  /**
   * Asks for the optimum itself where the solver would by itself stop a little short of it: no
   * relative gap, close tolerances, and costs so large that an absolute gap (HiGHS: 1e-6, and its
   * options cannot be reached from here) means nothing.
   */
  GeneralSolver precise() {
    parameters.setDoubleParam(MPSolverParameters.DoubleParam.RELATIVE_MIP_GAP, 0);
    parameters.setDoubleParam(MPSolverParameters.DoubleParam.PRIMAL_TOLERANCE, 1e-9);
    parameters.setDoubleParam(MPSolverParameters.DoubleParam.DUAL_TOLERANCE, 1e-9);
    costFactor = 1000;
    for (int j = 0; j < amount.length; j++) {
      solver.objective().setCoefficient(amount[j], costFactor * cost[j]);
    }
    return this;
  }

  /** The least cost of the programme; NaN when there is none. */
  double leastCost() {
    return solver.solve(parameters) == MPSolver.ResultStatus.OPTIMAL
        ? solver.objective().value() / costFactor
        : Double.NaN;
  }

  /** The best choices in order; after each the solver is asked again with that one forbidden. */
  List<Choice> best(int wanted) {
    List<Choice> found = new ArrayList<>();
    while (found.size() < wanted) {
      MPSolver.ResultStatus status = solver.solve(parameters);
      if (status == MPSolver.ResultStatus.INFEASIBLE) {
        break;
      }
      if (status != MPSolver.ResultStatus.OPTIMAL) {
        throw new IllegalStateException(solver.solverVersion() + " answers " + status);
      }
      List<Integer> support = new ArrayList<>();
      boolean[] in = new boolean[used.length];
      for (int j = 1; j < used.length; j++) {
        in[j] = used[j].solutionValue() > 0.5;
        if (in[j]) {
          support.add(j);
        }
      }
      found.add(new Choice(List.copyOf(support), solver.objective().value() / costFactor));
      if (found.size() < wanted) {
        MPConstraint other = solver.makeConstraint(1 - support.size(), INFINITY, "");
        for (int j = 1; j < used.length; j++) {
          other.setCoefficient(used[j], in[j] ? -1 : 1);
        }
      }
    }
    return found;
  }

  @Override
  public void close() {
    parameters.delete();
    solver.delete();
  }
}
