package org.surfactantblend.acidity;

import java.util.List;
import org.surfactantblend.aqueous.ChargeBalance;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.ChargeCurve;

/**
 * The charge balance of a blend: the sum of its materials' curves and of the ions of its water.
 *
 * <p>{@code Z(p) = sum of w_i * z_i(p, I) + W * (h - oh)} [eq per kg of product], with w the mass
 * fractions, W the water of the product and I the ionic strength that belongs to the blend at that
 * pH. Z falls strictly as the pH rises, and the pH of the blend is where it is zero.
 *
 * <p>Immutable and thread-safe.
 */
public final class BlendCharge {
  private static final int MAX_PASSES = 60;

  private final Conditions conditions;
  private final double[] fractions;
  private final ChargeCurve[] curves;
  private final double waterKg;

  private BlendCharge(Conditions conditions, double[] fractions, ChargeCurve[] curves) {
    this.conditions = conditions;
    this.fractions = fractions;
    this.curves = curves;
    double water = 0;
    for (int i = 0; i < curves.length; i++) {
      water += fractions[i] * curves[i].waterKgPerKg();
    }
    // Without water there is no pH; a trace keeps a paste's balance defined.
    waterKg = Math.max(water, 1e-3);
  }

  /**
   * The charge balance of a blend.
   *
   * @param blend the blend
   * @param conditions temperature and activity model
   * @return the balance
   */
  public static BlendCharge of(Blend blend, Conditions conditions) {
    List<BlendLine> lines = blend.lines();
    double[] w = new double[lines.size()];
    ChargeCurve[] c = new ChargeCurve[w.length];
    for (int i = 0; i < w.length; i++) {
      w[i] = lines.get(i).massFraction();
      c[i] = lines.get(i).material().chargeCurve(conditions);
    }
    return new BlendCharge(conditions, w, c);
  }

  /**
   * The water of the product.
   *
   * @return the water [kg/kg of product]
   */
  public double waterKgPerKg() {
    return waterKg;
  }

  /**
   * The ionic strength at a pH: small ions in full, surfactant ions not.
   *
   * @param ph the pH
   * @return the ionic strength [mol/kg water]
   */
  public double ionicStrength(double ph) {
    double ionicStrength = 0.05;
    for (int pass = 0; pass < MAX_PASSES; pass++) {
      double next = ionicStrengthOnce(ph, ionicStrength);
      if (Math.abs(next - ionicStrength) <= 1e-12) {
        return next;
      }
      ionicStrength = next;
    }
    return ionicStrength;
  }

  private double ionicStrengthOnce(double ph, double ionicStrength) {
    double sum = 0;
    for (int i = 0; i < curves.length; i++) {
      sum += fractions[i] * curves[i].ionicStrengthMolPerKg(ph, ionicStrength);
    }
    return sum / waterKg + (conditions.h(ph, ionicStrength) + conditions.oh(ph, ionicStrength)) / 2;
  }

  /**
   * The net charge at a pH, at the typical figures.
   *
   * @param ph the pH
   * @return the net charge [eq/kg of product]
   */
  public double chargeEqPerKg(double ph) {
    double ionicStrength = ionicStrength(ph);
    double sum = waterCharge(ph, ionicStrength);
    for (int i = 0; i < curves.length; i++) {
      sum += fractions[i] * curves[i].chargeEqPerKg(ph, ionicStrength);
    }
    return sum;
  }

  private double waterCharge(double ph, double ionicStrength) {
    return waterKg * (conditions.h(ph, ionicStrength) - conditions.oh(ph, ionicStrength));
  }

  /**
   * The least net charge that lots inside the declared ranges can give.
   *
   * @param ph the pH
   * @return the guaranteed least net charge [eq/kg of product]
   */
  public double leastChargeEqPerKg(double ph) {
    double ionicStrength = ionicStrength(ph);
    double sum = waterCharge(ph, ionicStrength);
    for (int i = 0; i < curves.length; i++) {
      sum += fractions[i] * curves[i].leastChargeEqPerKg(ph, ionicStrength);
    }
    return sum;
  }

  /**
   * The greatest net charge that lots inside the declared ranges can give.
   *
   * @param ph the pH
   * @return the guaranteed greatest net charge [eq/kg of product]
   */
  public double greatestChargeEqPerKg(double ph) {
    double ionicStrength = ionicStrength(ph);
    double sum = waterCharge(ph, ionicStrength);
    for (int i = 0; i < curves.length; i++) {
      sum += fractions[i] * curves[i].greatestChargeEqPerKg(ph, ionicStrength);
    }
    return sum;
  }

  /**
   * The net charge with one line at the worst of its ranges and the others typical.
   *
   * @param line which line
   * @param ph the pH
   * @param greatest true for the greatest charge of that line, false for the least
   * @return the net charge [eq/kg of product]
   */
  double chargeWithLineAtItsEnd(int line, double ph, boolean greatest) {
    double ionicStrength = ionicStrength(ph);
    double sum = waterCharge(ph, ionicStrength);
    for (int i = 0; i < curves.length; i++) {
      double z =
          i != line
              ? curves[i].chargeEqPerKg(ph, ionicStrength)
              : greatest
                  ? curves[i].greatestChargeEqPerKg(ph, ionicStrength)
                  : curves[i].leastChargeEqPerKg(ph, ionicStrength);
      sum += fractions[i] * z;
    }
    return sum;
  }

  /**
   * Mean and covariances of the net charge at several pH, the materials' ranges taken as
   * independent.
   *
   * @param ph the pH values
   * @return the moments [eq/kg of product]
   */
  public ChargeCurve.Moments moments(double... ph) {
    double middle = ionicStrength(ph[ph.length / 2]);
    double[] mean = new double[ph.length];
    double[][] covariance = new double[ph.length][ph.length];
    for (int k = 0; k < ph.length; k++) {
      mean[k] = waterCharge(ph[k], middle);
    }
    for (int i = 0; i < curves.length; i++) {
      ChargeCurve.Moments own = curves[i].moments(ph, middle);
      for (int k = 0; k < ph.length; k++) {
        mean[k] += fractions[i] * own.mean()[k];
        for (int l = 0; l < ph.length; l++) {
          covariance[k][l] += fractions[i] * fractions[i] * own.covariance()[k][l];
        }
      }
    }
    return new ChargeCurve.Moments(mean, covariance);
  }

  /**
   * The pH of the blend at the typical figures.
   *
   * @return the pH
   */
  public double ph() {
    double ionicStrength = 0.1;
    double ph = 7;
    for (int pass = 0; pass < MAX_PASSES; pass++) {
      ChargeBalance.Builder b = ChargeBalance.at(conditions, ionicStrength).water(waterKg);
      double strong = 0;
      for (int i = 0; i < curves.length; i++) {
        strong += fractions[i] * curves[i].strongChargeEqPerKg();
        curves[i].addGroups(b, fractions[i]);
      }
      ph = b.strongCharge(strong).build().phNear(ph);
      double next = ionicStrengthOnce(ph, ionicStrength);
      if (Math.abs(next - ionicStrength) <= 1e-12) {
        return ph;
      }
      ionicStrength = next;
    }
    return ph;
  }

  /** The charge a line brings [eq/kg of product]. */
  double lineCharge(int line, double ph) {
    return fractions[line] * curves[line].chargeEqPerKg(ph, ionicStrength(ph));
  }
}
