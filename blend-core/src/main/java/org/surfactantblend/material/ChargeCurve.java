package org.surfactantblend.material;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.aqueous.ChargeBalance;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.quantity.Range;

/**
 * The net charge of one raw material against pH: the one place where a material's row in the charge
 * balance is worked out.
 *
 * <p>Per kilogram as supplied, {@code z(pH, I) = S + sum over groups of n * q(pH, I)} [eq/kg],
 * where S is the charge of its strong ions and of the surfactant's permanent charges, n the amount
 * of a weak group [mol/kg] and q its mean charge. Water's own h - oh is not included: the balance
 * of a blend adds it once, times the blend's water.
 *
 * <p>S is worked back from the sheet pH at its stated dilution, so that the model gives that pH for
 * the material alone; a declared or measured strong-ion charge overrides this.
 *
 * <p>Two spreads are offered. The <em>guaranteed</em> bounds take every amount, pKa and the sheet
 * pH at whichever end is worst; they are exact because z rises with the sheet pH and is linear in
 * each amount, and its dependence on one pKa has its extremes at the ends or midway between the two
 * pH values. The <em>likely</em> moments take the same inputs as independent and triangular on
 * least / typical / greatest.
 *
 * <p>Immutable and thread-safe.
 */
public final class ChargeCurve {
  private static final int MAX_PASSES = 50;
  private static final double SALT_G_PER_MOL = 58.44;
  private static final GaussIntegratorFactory GAUSS = new GaussIntegratorFactory();

  private final Conditions conditions;
  private final AcidBaseGroup[] groups;
  private final double permanent;
  private final double waterKg;
  private final double saltMolPerKg;
  private final boolean calibrated;
  private final Range sheetPh;
  private final double sampleWaterKg;
  private final double sampleIonicStrength;
  private final double typicalCharge;
  private final Range declared;

  /** Works out the curve of a material. */
  ChargeCurve(Material material, Conditions conditions) {
    this.conditions = conditions;
    groups = material.groups().toArray(AcidBaseGroup[]::new);
    waterKg = material.waterPercent().typical() / 100;
    saltMolPerKg = material.saltPercent().typical() * 10 / SALT_G_PER_MOL;
    permanent = material.family().permanentCharge() * material.activeMolPerKg().typical();
    SheetPh sheet = material.sheetPh().orElse(null);
    Range strong = material.strongIonEqPerKg().orElse(null);
    if (strong == null && sheet != null) {
      calibrated = true;
      sheetPh = sheet.effective();
      // A powder measured "as it is" has no water of its own; a trace keeps the balance defined.
      sampleWaterKg = Math.max(0.01, waterKg + 100 / sheet.dilutionPercent() - 1);
      double ionicStrength = 0;
      double charge = 0;
      for (int pass = 0; pass < MAX_PASSES; pass++) {
        charge = calibratedCharge(sheetPh.typical(), ionicStrength);
        double next =
            (saltMolPerKg
                    + Math.abs(charge - permanent) / 2
                    + weakIonicStrength(sheetPh.typical(), ionicStrength))
                / sampleWaterKg;
        boolean settled = Math.abs(next - ionicStrength) < 1e-13;
        ionicStrength = next;
        if (settled) {
          break;
        }
      }
      sampleIonicStrength = ionicStrength;
      typicalCharge = calibratedCharge(sheetPh.typical(), ionicStrength);
      declared = Range.ZERO;
    } else {
      calibrated = false;
      sheetPh = Range.exactly(7);
      sampleWaterKg = 0;
      sampleIonicStrength = 0;
      declared = strong == null ? Range.ZERO : strong;
      typicalCharge = declared.typical() + permanent;
    }
  }

  private double calibratedCharge(double ph, double ionicStrength) {
    double sum = sampleWaterKg * water(ph, ionicStrength);
    for (AcidBaseGroup g : groups) {
      sum += g.amount().typical() * conditions.meanCharge(g.acid(), ph, ionicStrength);
    }
    return -sum;
  }

  private double water(double ph, double ionicStrength) {
    return conditions.h(ph, ionicStrength) - conditions.oh(ph, ionicStrength);
  }

  /**
   * The charge of its strong ions and permanent charges at the typical figures.
   *
   * @return the charge [eq/kg as supplied]
   */
  public double strongChargeEqPerKg() {
    return typicalCharge;
  }

  /**
   * The water it brings.
   *
   * @return the water [kg/kg as supplied]
   */
  public double waterKgPerKg() {
    return waterKg;
  }

  /**
   * Its net charge at the typical figures, without water's own ions.
   *
   * @param ph the pH
   * @param ionicStrength the ionic strength of the blend [mol/kg water]
   * @return the net charge [eq/kg as supplied]
   */
  public double chargeEqPerKg(double ph, double ionicStrength) {
    double sum = typicalCharge;
    for (AcidBaseGroup g : groups) {
      sum += g.amount().typical() * conditions.meanCharge(g.acid(), ph, ionicStrength);
    }
    return sum;
  }

  /**
   * Adds its weak groups at their typical amounts to a charge balance.
   *
   * @param balance where to add them
   * @param kg how much of the material as supplied [kg per kg of product]
   */
  public void addGroups(ChargeBalance.Builder balance, double kg) {
    for (AcidBaseGroup g : groups) {
      balance.add(g.acid(), g.amount().typical() * kg);
    }
  }

  /**
   * The charge on its surface-active molecules: permanent charges and weak groups that sit on them.
   *
   * @param ph the pH
   * @param ionicStrength the ionic strength of the blend [mol/kg water]
   * @return the charge [eq/kg as supplied], negative for anionic matter
   */
  public double chargeOnActiveEqPerKg(double ph, double ionicStrength) {
    double sum = permanent;
    for (AcidBaseGroup g : groups) {
      if (g.onActive()) {
        sum += g.amount().typical() * conditions.meanCharge(g.acid(), ph, ionicStrength);
      }
    }
    return sum;
  }

  /**
   * What it adds to the ionic strength: small ions in full, surfactant ions not.
   *
   * @param ph the pH
   * @param ionicStrength the ionic strength at which weak groups are read [mol/kg water]
   * @return half the sum of amount times charge squared [mol/kg as supplied], to be divided by the
   *     blend's water per kg
   */
  public double ionicStrengthMolPerKg(double ph, double ionicStrength) {
    return saltMolPerKg
        + Math.abs(typicalCharge - permanent) / 2
        + weakIonicStrength(ph, ionicStrength);
  }

  private double weakIonicStrength(double ph, double ionicStrength) {
    double sum = 0;
    for (AcidBaseGroup g : groups) {
      if (!g.onActive() && !g.acid().apparent()) {
        sum += g.amount().typical() * conditions.meanSquareCharge(g.acid(), ph, ionicStrength) / 2;
      }
    }
    return sum;
  }

  /**
   * The least net charge that any material inside the declared ranges can have.
   *
   * @param ph the pH
   * @param ionicStrength the ionic strength of the blend [mol/kg water]
   * @return the guaranteed least net charge [eq/kg as supplied]
   */
  public double leastChargeEqPerKg(double ph, double ionicStrength) {
    return extreme(ph, ionicStrength, -1);
  }

  /**
   * The greatest net charge that any material inside the declared ranges can have.
   *
   * @param ph the pH
   * @param ionicStrength the ionic strength of the blend [mol/kg water]
   * @return the guaranteed greatest net charge [eq/kg as supplied]
   */
  public double greatestChargeEqPerKg(double ph, double ionicStrength) {
    return extreme(ph, ionicStrength, 1);
  }

  private double extreme(double ph, double ionicStrength, int sign) {
    double at = sign > 0 ? sheetPh.high() : sheetPh.low();
    double sum =
        calibrated
            ? -sampleWaterKg * water(at, sampleIonicStrength)
            : permanent + (sign > 0 ? declared.high() : declared.low());
    for (AcidBaseGroup g : groups) {
      Range pKa = g.pKa();
      double best = worst(g, g.acid(), ph, ionicStrength, at, sign);
      if (pKa != null) {
        double midway = (ph + at) / 2;
        double[] candidates = {
          pKa.low(), pKa.high(), Math.min(pKa.high(), Math.max(pKa.low(), midway))
        };
        for (double candidate : candidates) {
          double here = worst(g, g.acid().withPka(0, candidate), ph, ionicStrength, at, sign);
          best = sign > 0 ? Math.max(best, here) : Math.min(best, here);
        }
      }
      sum += best;
    }
    return sum;
  }

  private double worst(
      AcidBaseGroup g, AcidBase acid, double ph, double ionicStrength, double at, int sign) {
    double q = shift(acid, ph, ionicStrength, at);
    double low = g.amount().low() * q;
    double high = g.amount().high() * q;
    return sign > 0 ? Math.max(low, high) : Math.min(low, high);
  }

  /** The charge of one mole of a group at a pH, less its charge in the sheet's sample if any. */
  private double shift(AcidBase acid, double ph, double ionicStrength, double at) {
    double q = conditions.meanCharge(acid, ph, ionicStrength);
    return calibrated ? q - conditions.meanCharge(acid, at, sampleIonicStrength) : q;
  }

  /**
   * The mean and covariances of the net charge at several pH, its inputs taken as independent and
   * triangular on least / typical / greatest; by product quadrature, without sampling.
   *
   * @param ph the pH values
   * @param ionicStrength the ionic strength of the blend [mol/kg water]
   * @return the moments at those pH values, in that order
   */
  public Moments moments(double[] ph, double ionicStrength) {
    int n = ph.length;
    double[] mean = new double[n];
    double[][] second = new double[n][n];
    List<Node> starts = calibrated ? triangular(sheetPh) : List.of(new Node(sheetPh.typical(), 1));
    List<List<Node>> constants = new ArrayList<>();
    for (AcidBaseGroup g : groups) {
      Range pKa = g.pKa();
      constants.add(pKa == null ? List.of() : triangular(pKa));
    }
    for (Node start : starts) {
      double[] here = new double[n];
      double[][] spread = new double[n][n];
      double base =
          calibrated
              ? -sampleWaterKg * water(start.x, sampleIonicStrength)
              : permanent + mean(declared);
      java.util.Arrays.fill(here, base);
      if (!calibrated) {
        addToAll(spread, variance(declared));
      }
      for (int g = 0; g < groups.length; g++) {
        addGroup(groups[g], constants.get(g), ph, ionicStrength, start.x, here, spread);
      }
      for (int i = 0; i < n; i++) {
        mean[i] += start.weight * here[i];
        for (int j = 0; j < n; j++) {
          second[i][j] += start.weight * (spread[i][j] + here[i] * here[j]);
        }
      }
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        second[i][j] -= mean[i] * mean[j];
      }
    }
    return new Moments(mean, second);
  }

  private void addGroup(
      AcidBaseGroup group,
      List<Node> constants,
      double[] ph,
      double ionicStrength,
      double at,
      double[] mean,
      double[][] spread) {
    int n = ph.length;
    double amount = mean(group.amount());
    double amountSquare = amount * amount + variance(group.amount());
    double[] first = new double[n];
    double[][] product = new double[n][n];
    List<Node> nodes = constants.isEmpty() ? List.of(new Node(Double.NaN, 1)) : constants;
    for (Node node : nodes) {
      AcidBase acid = Double.isNaN(node.x) ? group.acid() : group.acid().withPka(0, node.x);
      double[] q = new double[n];
      for (int i = 0; i < n; i++) {
        q[i] = shift(acid, ph[i], ionicStrength, at);
        first[i] += node.weight * q[i];
      }
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
          product[i][j] += node.weight * q[i] * q[j];
        }
      }
    }
    for (int i = 0; i < n; i++) {
      mean[i] += amount * first[i];
      for (int j = 0; j < n; j++) {
        spread[i][j] += amountSquare * product[i][j] - amount * amount * first[i] * first[j];
      }
    }
  }

  private static void addToAll(double[][] matrix, double value) {
    for (double[] row : matrix) {
      for (int j = 0; j < row.length; j++) {
        row[j] += value;
      }
    }
  }

  private static double mean(Range r) {
    return (r.low() + r.typical() + r.high()) / 3;
  }

  private static double variance(Range r) {
    double a = r.low();
    double b = r.typical();
    double c = r.high();
    return (a * a + b * b + c * c - a * b - a * c - b * c) / 18;
  }

  /** Gauss nodes for the triangular density, three on each side of its peak. */
  private static List<Node> triangular(Range r) {
    if (r.isExact()) {
      return List.of(new Node(r.typical(), 1));
    }
    List<Node> nodes = new ArrayList<>();
    double[] ends = {r.low(), r.typical(), r.high()};
    for (int side = 0; side < 2; side++) {
      double from = ends[side];
      double to = ends[side + 1];
      if (to > from) {
        GaussIntegrator rule = GAUSS.legendre(3, from, to);
        for (int i = 0; i < rule.getNumberOfPoints(); i++) {
          double x = rule.getPoint(i);
          double height = side == 0 ? (x - from) / (to - from) : (to - x) / (to - from);
          nodes.add(new Node(x, rule.getWeight(i) * height * 2 / r.width()));
        }
      }
    }
    return nodes;
  }

  private record Node(double x, double weight) {}

  /**
   * Means and covariances of a material's net charge at several pH.
   *
   * @param mean the means [eq/kg as supplied]
   * @param covariance the covariances [(eq/kg as supplied) squared]
   */
  @SuppressWarnings("ArrayRecordComponent")
  public record Moments(double[] mean, double[][] covariance) {}
}
