package org.surfactantblend.benchmarks;

import org.ojalgo.optimisation.Expression;
import org.ojalgo.optimisation.ExpressionsBasedModel;
import org.ojalgo.optimisation.Optimisation;

/** The choice as ojAlgo's model takes it. */
final class OjAlgoChoice {

  private OjAlgoChoice() {}

  /** The least cost that ojAlgo finds; NaN if it finds none. */
  static double cost(BlendProgrammes p, int atMost) {
    int n = p.cost.length;
    ExpressionsBasedModel model = new ExpressionsBasedModel();
    for (int j = 0; j < n; j++) {
      model.newVariable("x" + j).lower(p.lower[j]).upper(p.upper[j]).weight(p.cost[j]);
    }
    for (int j = 1; j < n; j++) {
      model.newVariable("u" + j).binary();
    }
    for (int i = 0; i < p.rows.length; i++) {
      Expression row = model.newExpression("r" + i);
      for (int j = 0; j < n; j++) {
        row.set(j, p.rows[i][j]);
      }
      if (p.rowLower[i] > Double.NEGATIVE_INFINITY) {
        row.lower(p.rowLower[i]);
      }
      if (p.rowUpper[i] < Double.POSITIVE_INFINITY) {
        row.upper(p.rowUpper[i]);
      }
    }
    Expression count = model.newExpression("count").upper(atMost);
    for (int j = 1; j < n; j++) {
      int used = n + j - 1;
      model.newExpression("least" + j).lower(0).set(j, 1).set(used, -BlendProgrammes.MINIMUM_USE);
      model
          .newExpression("most" + j)
          .upper(0)
          .set(j, 1)
          .set(used, -Math.min(p.upper[j], p.rowUpper[1] / p.strength[j]));
      count.set(used, 1);
    }
    for (int g : BlendProgrammes.NEEDED) {
      Expression one = model.newExpression("class" + g).lower(1);
      for (int j = 1; j < n; j++) {
        if (p.group[j] == g) {
          one.set(n + j - 1, 1);
        }
      }
    }
    Optimisation.Result result = model.minimise();
    return result.getState().isFeasible() ? result.getValue() : Double.NaN;
  }
}
