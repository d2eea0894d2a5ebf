package org.surfactantblend.acidity;

import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.ChargeCurve;
import org.surfactantblend.material.Material;

/**
 * What is known of a blend's charge curve before any reading: its mean and covariance over the
 * whole pH scale, on a grid fine enough that a cubic between four points is exact to 1e-4 meq/kg.
 *
 * <p>Three parts: the materials' declared ranges (a little widened, because ranges of typical
 * grades are not limits), small buffers that no sheet declares, and a free level of strong ions,
 * which the first reading settles. Immutable.
 */
final class CurvePrior {
  static final double LOW = -0.5;
  static final double STEP = 0.1;
  static final int POINTS = 151;

  private static final double WIDENING =
      Math.pow(Double.parseDouble(System.getProperty("wi", "1.15")), 2);
  private static final double LEAST_UNASSIGNED_PKA = 4;
  private static final double UNASSIGNED_SPACING = 1;
  private static final int UNASSIGNED = 7;
  private static final double FREE_LEVEL = 30e-3;
  private static final double MOST_IONIC_STRENGTH = 1;

  private final BlendCharge charge;
  private final double[] ionicStrength = new double[POINTS];
  private final double[] mean = new double[POINTS];
  private final double[][] covariance;
  private final double[] waterSlope = new double[POINTS];

  CurvePrior(Blend blend, BlendCharge charge, Titrant titrant, double ionicStrengthAtTarget) {
    this.charge = charge;
    double[] ph = new double[POINTS];
    for (int k = 0; k < POINTS; k++) {
      ph[k] = LOW + k * STEP;
      ionicStrength[k] =
          Math.min(MOST_IONIC_STRENGTH, charge.doseTo(ph[k], titrant, 0).ionicStrength());
      waterSlope[k] = charge.waterSlope(ph[k], ionicStrength[k]);
    }
    ChargeCurve.Moments moments = charge.momentsAt(ionicStrengthAtTarget, ph);
    covariance = moments.covariance();
    double level = 0;
    double unassigned = 0;
    for (BlendLine line : blend.lines()) {
      if (line.material().isSurfactant()) {
        level += square(line.massFraction() * FREE_LEVEL);
        unassigned += square(line.massFraction() * unassignedEqPerKg(line.material()));
      }
    }
    double[][] shares = new double[UNASSIGNED][POINTS];
    for (int b = 0; b < UNASSIGNED; b++) {
      for (int k = 0; k < POINTS; k++) {
        double pKa = LEAST_UNASSIGNED_PKA + b * UNASSIGNED_SPACING;
        shares[b][k] = 1 / (1 + StrictMath.pow(10, pKa - ph[k]));
      }
    }
    for (int k = 0; k < POINTS; k++) {
      mean[k] =
          moments.mean()[k]
              + charge.chargeEqPerKg(ph[k], ionicStrength[k])
              - charge.chargeEqPerKg(ph[k], ionicStrengthAtTarget);
      for (int l = 0; l < POINTS; l++) {
        double own = 0;
        for (double[] share : shares) {
          own += share[k] * share[l];
        }
        covariance[k][l] = WIDENING * covariance[k][l] + unassigned * own + level;
      }
    }
  }

  private static double square(double x) {
    return x * x;
  }

  /** The standard deviation of a buffer that no sheet declares [eq/kg as supplied]. */
  private static double unassignedEqPerKg(Material m) {
    String family = m.family().name();
    if (family.contains("sulfate") || family.contains("sulfonate")) {
      return 0.5e-3;
    }
    return family.contains("betaine") || family.contains("glucoside")
        ? Double.parseDouble(System.getProperty("ub", "2")) * 1e-3
        : Double.parseDouble(System.getProperty("uo", "2")) * 1e-3;
  }

  BlendCharge charge() {
    return charge;
  }

  double[] mean() {
    return mean;
  }

  double[][] covariance() {
    return covariance;
  }

  /** The steepest fall that the model allows nowhere to be undercut [eq/kg per pH unit]. */
  double waterSlope(double ph) {
    return at(waterSlope, ph);
  }

  double ionicStrength(double ph) {
    return at(ionicStrength, ph);
  }

  /** The charge of a titrant over the grid, each at the ionic strength that goes with the pH. */
  double[] chargeOf(Titrant titrant, org.surfactantblend.aqueous.Conditions conditions) {
    double[] z = new double[POINTS];
    for (int k = 0; k < POINTS; k++) {
      z[k] = titrant.chargeEqPerKg(conditions, LOW + k * STEP, ionicStrength[k]);
    }
    return z;
  }

  /** The covariance of the curve at one pH with itself over the grid. */
  double[] row(double ph) {
    Weights w = new Weights(ph);
    double[] row = new double[POINTS];
    for (int a = 0; a < 4; a++) {
      double[] from = covariance[w.first + a];
      double weight = w.weight(a);
      for (int k = 0; k < POINTS; k++) {
        row[k] += weight * from[k];
      }
    }
    return row;
  }

  /** A value between the points of a grid. */
  static double at(double[] grid, double ph) {
    Weights w = new Weights(ph);
    return w.w0 * grid[w.first]
        + w.w1 * grid[w.first + 1]
        + w.w2 * grid[w.first + 2]
        + w.w3 * grid[w.first + 3];
  }

  /** The slope between the points of a grid [per pH unit]. */
  static double slope(double[] grid, double ph) {
    return (at(grid, ph + STEP / 2) - at(grid, ph - STEP / 2)) / STEP;
  }

  /** The four points around a pH with their weights in the cubic through them. */
  private static final class Weights {
    final int first;
    final double w0;
    final double w1;
    final double w2;
    final double w3;

    Weights(double ph) {
      double x = (ph - LOW) / STEP;
      first = Math.max(0, Math.min(POINTS - 4, (int) Math.floor(x) - 1));
      double t = x - first;
      w0 = -(t - 1) * (t - 2) * (t - 3) / 6;
      w1 = t * (t - 2) * (t - 3) / 2;
      w2 = -t * (t - 1) * (t - 3) / 2;
      w3 = t * (t - 1) * (t - 2) / 6;
    }

    double weight(int i) {
      return switch (i) {
        case 0 -> w0;
        case 1 -> w1;
        case 2 -> w2;
        default -> w3;
      };
    }
  }
}
