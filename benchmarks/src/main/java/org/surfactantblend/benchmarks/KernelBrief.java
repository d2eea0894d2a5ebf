package org.surfactantblend.benchmarks;

import java.util.Arrays;
import java.util.List;
import org.surfactantblend.aqueous.AqueousState;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Material;
import org.surfactantblend.optimise.LinearProgram;
import org.surfactantblend.optimise.SupportProblem;

/**
 * The brief of {@link SolveBenchmark} as plain arrays for the kernel, at one ionic strength, so
 * that the rest of a solve through the public API shows.
 */
final class KernelBrief {

  private static final double IONIC_STRENGTH = 0.1;

  private final double[] cost;
  private final double[][] rows = new double[9][];
  private final double[] rowLower = new double[rows.length];
  private final double[] rowUpper = new double[rows.length];
  private final double[] lower;
  private final double[] upper;
  private final int[] choosable;
  private final double[] minimumUse;
  private final double[] active;

  /**
   * @param columns surfactants to choose from, glycerin, water
   * @param cost price of each per kg
   */
  KernelBrief(List<Material> columns, double[] cost) {
    this.cost = cost;
    int n = columns.size();
    lower = new double[n];
    upper = new double[n];
    active = new double[n];
    choosable = new int[n - 2];
    minimumUse = new double[n - 2];
    Arrays.fill(upper, 1);
    Arrays.fill(minimumUse, 0.01);
    Arrays.fill(rowLower, Double.NEGATIVE_INFINITY);
    Arrays.fill(rowUpper, Double.POSITIVE_INFINITY);
    lower[n - 2] = upper[n - 2] = 0.03;
    for (int i = 0; i < rows.length; i++) {
      rows[i] = new double[n];
    }
    AqueousState low = Conditions.standard().at(6, IONIC_STRENGTH);
    AqueousState high = Conditions.standard().at(7.5, IONIC_STRENGTH);
    for (int j = 0; j < n; j++) {
      Material m = columns.get(j);
      active[j] = m.activePercent().typical();
      if (j < n - 2) {
        choosable[j] = j;
      }
      boolean amphoteric = m.chargeClass().orElse(null) == ChargeClass.AMPHOTERIC;
      boolean nonionic = m.chargeClass().orElse(null) == ChargeClass.NONIONIC;
      rows[0][j] = 1;
      rows[1][j] = active[j];
      rows[2][j] = active[j] * ((amphoteric ? 1 : 0) - 0.25);
      rows[3][j] = active[j] * ((amphoteric ? 1 : 0) - 0.50);
      rows[4][j] = active[j] * ((nonionic ? 1 : 0) - 0.20);
      rows[5][j] = active[j] * ((nonionic ? 1 : 0) - 0.60);
      rows[6][j] = charge(m, low);
      rows[7][j] = charge(m, high);
      rows[8][j] = m.saltPercent().typical();
    }
    rowLower[0] = rowUpper[0] = 1;
    rowLower[1] = 9.7;
    rowUpper[1] = 10.3;
    rowLower[2] = rowLower[4] = rowLower[6] = 0;
    rowUpper[3] = rowUpper[5] = rowUpper[7] = 0;
    rowUpper[8] = 1.5;
  }

  private static double charge(Material m, AqueousState state) {
    var curve = m.chargeCurve(Conditions.standard());
    return curve.chargeEqPerKg(state) + curve.waterKgPerKg() * state.hydrogenLessHydroxide();
  }

  LinearProgram load() {
    return LinearProgram.of(cost, rows, rowLower, rowUpper, lower, upper);
  }

  SupportProblem choose(int atMost) {
    SupportProblem.Builder b = SupportProblem.of(load(), choosable, minimumUse).atMost(atMost);
    for (int j : choosable) {
      b.contribution(j, active[j]);
    }
    return b.build();
  }
}
