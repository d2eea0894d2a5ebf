package org.surfactantblend.optimise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.ojalgo.optimisation.Expression;
import org.ojalgo.optimisation.ExpressionsBasedModel;
import org.ojalgo.optimisation.Optimisation;

/**
 * The dual simplex next to ojAlgo's linear solver, which shares no code or author with it. Where
 * the two disagree, exact arithmetic decides and only this solver has to be right. More instances:
 * {@code -Doptimise.instances=1000} (per kind and unit system; the default is 125, 5,250 in all).
 */
class OjAlgoOracleTest {

  private static final int COUNT = Integer.getInteger("optimise.instances", 125);

  @ParameterizedTest
  @EnumSource
  void agreesWithAnIndependentSolver(Instances.Kind kind) {
    DualSimplex simplex = new DualSimplex();
    List<String> wrong = new ArrayList<>();
    int same = 0;
    int total = 0;
    for (Instances.Units units : Instances.Units.values()) {
      for (int seed = 0; seed < COUNT; seed++) {
        LinearProgram lp = Instances.of(kind, units, seed);
        LpSolution own = simplex.solve(lp);
        Optimisation.Result other = ojAlgo(lp);
        total++;
        if (agree(lp, own, other)) {
          same++;
          continue;
        }
        String fault = ExactOracleTest.fault(lp, own, ExactLp.solve(lp, own.basis()));
        if (fault != null) {
          wrong.add(kind + " " + units + " " + seed + ": " + fault);
        }
      }
    }
    assertEquals(List.of(), wrong);
    // Where a hair's breadth decides another solver may differ, nowhere else.
    double least = kind == Instances.Kind.NEARLY_INFEASIBLE ? 0.85 : 0.99;
    assertTrue(same >= least * total, same + " of " + total);
  }

  private static boolean agree(LinearProgram lp, LpSolution own, Optimisation.Result other) {
    if (!own.isOptimal()) {
      return other.getState().isFailure() || !other.getState().isFeasible();
    }
    if (!other.getState().isOptimal()) {
      return false;
    }
    double size = 1e-7 * lp.magnitude();
    double cost = 0;
    for (int j = 0; j < lp.variables(); j++) {
      size = Math.max(size, Math.abs(lp.cost(j) * own.x(j)));
      cost += lp.cost(j) * other.doubleValue(j);
    }
    return Math.abs(own.objective() - cost) <= 1e-7 * size;
  }

  private static Optimisation.Result ojAlgo(LinearProgram lp) {
    ExpressionsBasedModel model = new ExpressionsBasedModel();
    for (int j = 0; j < lp.variables(); j++) {
      model
          .newVariable("x" + j)
          .lower(new BigDecimal(lp.lower(j)))
          .upper(new BigDecimal(lp.upper(j)))
          .weight(new BigDecimal(lp.cost(j)));
    }
    for (int i = 0; i < lp.rows(); i++) {
      Expression row = model.newExpression("r" + i);
      for (int j = 0; j < lp.variables(); j++) {
        row.set(j, new BigDecimal(lp.coefficient(i, j)));
      }
      if (!Double.isInfinite(lp.rowLower(i))) {
        row.lower(new BigDecimal(lp.rowLower(i)));
      }
      if (!Double.isInfinite(lp.rowUpper(i))) {
        row.upper(new BigDecimal(lp.rowUpper(i)));
      }
    }
    return model.minimise();
  }
}
