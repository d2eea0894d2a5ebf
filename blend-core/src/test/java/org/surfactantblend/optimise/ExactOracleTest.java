package org.surfactantblend.optimise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Every answer of the dual simplex against exact whole-number arithmetic, which decides. More
 * instances: {@code -Doptimise.instances=1000} (per kind and unit system; the default is 125, 5,250
 * in all).
 */
class ExactOracleTest {

  private static final int COUNT = Integer.getInteger("optimise.instances", 125);

  @ParameterizedTest
  @EnumSource
  void answersAgreeWithExactArithmetic(Instances.Kind kind) {
    DualSimplex simplex = new DualSimplex();
    List<String> wrong = new ArrayList<>();
    int feasible = 0;
    int infeasible = 0;
    for (Instances.Units units : Instances.Units.values()) {
      for (int seed = 0; seed < COUNT; seed++) {
        LinearProgram lp = Instances.of(kind, units, seed);
        String name = kind + " " + units + " " + seed;
        LpSolution s;
        try {
          s = simplex.solve(lp);
        } catch (NumericBreakdownException e) {
          wrong.add(name + ": " + e.getMessage());
          continue;
        }
        ExactLp.Answer exact = ExactLp.solve(lp, s.basis());
        String fault = fault(lp, s, exact);
        if (fault != null) {
          wrong.add(name + ": " + fault);
        }
        if (exact.feasible()) {
          feasible++;
        } else {
          infeasible++;
        }
      }
    }
    assertEquals(List.of(), wrong);
    assertTrue(kind == Instances.Kind.INFEASIBLE || feasible > COUNT);
    assertTrue(kind != Instances.Kind.INFEASIBLE || infeasible > COUNT);
  }

  static @org.jspecify.annotations.Nullable String fault(
      LinearProgram lp, LpSolution s, ExactLp.Answer exact) {
    if (s.isOptimal()) {
      String violated = Recheck.violation(lp, s.x(), 2e-9);
      if (violated != null) {
        return violated;
      }
      if (!exact.feasible()) {
        double margin = exact.value().doubleValue() / lp.magnitude();
        return margin > 1e-8 ? "called feasible, exact margin " + margin : null;
      }
      double size = 1e-7 * lp.magnitude();
      for (int j = 0; j < lp.variables(); j++) {
        size = Math.max(size, Math.abs(lp.cost(j) * s.x(j)));
      }
      double off = new BigDecimal(s.objective()).subtract(exact.value()).doubleValue();
      if (off > 1e-7 * size) {
        return "too dear by " + off + " of " + exact.value().doubleValue();
      }
      // Too cheap is right only where rows loosened by the tolerance allow it.
      return off < -1e-7 * size && s.objective() < loosenedCost(lp, s.basis()) - 1e-9 * size
          ? "too cheap by " + -off + " of " + exact.value().doubleValue()
          : null;
    }
    if (exact.feasible()) {
      return "called infeasible, but it is feasible";
    }
    return Recheck.proves(lp, s.certificate()) ? null : "certificate does not prove it";
  }

  private static double loosenedCost(LinearProgram lp, Basis start) {
    double[] low = new double[lp.rows()];
    double[] high = new double[lp.rows()];
    for (int i = 0; i < low.length; i++) {
      double room = 2e-9 * lp.rowMax(i) * lp.magnitude();
      low[i] = lp.rowLower(i) - room;
      high[i] = lp.rowUpper(i) + room;
    }
    return ExactLp.solve(lp.withRowBounds(low, high), start).value().doubleValue();
  }
}
