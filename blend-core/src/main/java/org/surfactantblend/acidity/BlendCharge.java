package org.surfactantblend.acidity;

import java.util.List;
import java.util.function.ToDoubleBiFunction;
import org.surfactantblend.aqueous.AqueousState;
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
  private static final double FIRST_IONIC_STRENGTH = 0.1;

  /** A change of ionic strength that moves no pH by more than about 1e-10 [mol/kg water]. */
  private static final double SETTLED = 1e-10;

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
    return state(ph).ionicStrength();
  }

  private AqueousState state(double ph) {
    AqueousState state = conditions.at(ph, FIRST_IONIC_STRENGTH);
    for (int pass = 0; pass < MAX_PASSES; pass++) {
      double next = ionicStrengthOnce(state);
      boolean settled = Math.abs(next - state.ionicStrength()) <= SETTLED;
      state = state.withIonicStrength(next);
      if (settled) {
        break;
      }
    }
    return state;
  }

  private double ionicStrengthOnce(AqueousState state) {
    double sum = 0;
    for (int i = 0; i < curves.length; i++) {
      sum += fractions[i] * curves[i].ionicStrengthMolPerKg(state);
    }
    return sum / waterKg + state.ownIonicStrength();
  }

  /**
   * The net charge at a pH, at the typical figures.
   *
   * @param ph the pH
   * @return the net charge [eq/kg of product]
   */
  public double chargeEqPerKg(double ph) {
    return sum(state(ph), ChargeCurve::chargeEqPerKg);
  }

  private double sum(
      AqueousState state, ToDoubleBiFunction<ChargeCurve, AqueousState> perMaterial) {
    double sum = waterKg * state.hydrogenLessHydroxide();
    for (int i = 0; i < curves.length; i++) {
      sum += fractions[i] * perMaterial.applyAsDouble(curves[i], state);
    }
    return sum;
  }

  /**
   * The least net charge that lots inside the declared ranges can give.
   *
   * @param ph the pH
   * @return the guaranteed least net charge [eq/kg of product]
   */
  public double leastChargeEqPerKg(double ph) {
    return sum(state(ph), ChargeCurve::leastChargeEqPerKg);
  }

  /**
   * The greatest net charge that lots inside the declared ranges can give.
   *
   * @param ph the pH
   * @return the guaranteed greatest net charge [eq/kg of product]
   */
  public double greatestChargeEqPerKg(double ph) {
    return sum(state(ph), ChargeCurve::greatestChargeEqPerKg);
  }

  /** The net charge with one line at the worst of its ranges and the others typical. */
  double chargeWithLineAtItsEnd(int line, double ph, boolean greatest) {
    AqueousState state = state(ph);
    return sum(state, ChargeCurve::chargeEqPerKg)
        + fractions[line]
            * ((greatest
                    ? curves[line].greatestChargeEqPerKg(state)
                    : curves[line].leastChargeEqPerKg(state))
                - curves[line].chargeEqPerKg(state));
  }

  /** How far the charge of a line can be apart within its ranges [eq/kg of product]. */
  double lineSpread(int line, double ph) {
    AqueousState state = state(ph);
    return fractions[line]
        * (curves[line].greatestChargeEqPerKg(state) - curves[line].leastChargeEqPerKg(state));
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
      mean[k] = waterKg * conditions.at(ph[k], middle).hydrogenLessHydroxide();
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
   * The net charge that a lot drawn from the ranges stays below with a given chance, by the mean,
   * spread and skewness of the sum (Cornish and Fisher's first correction).
   *
   * @param ph the pH
   * @param normalQuantile the quantile of a standard normal variable at that chance
   * @return the quantile of the net charge [eq/kg of product]
   */
  double chargeQuantile(double ph, double normalQuantile) {
    AqueousState state = state(ph);
    double mean = waterKg * state.hydrogenLessHydroxide();
    double variance = 0;
    double third = 0;
    for (int i = 0; i < curves.length; i++) {
      double[] own = curves[i].skewedMoments(state);
      mean += fractions[i] * own[0];
      variance += fractions[i] * fractions[i] * own[1];
      third += fractions[i] * fractions[i] * fractions[i] * own[2];
    }
    double sd = Math.sqrt(Math.max(0, variance));
    double skewness = sd < 1e-15 ? 0 : Math.max(-1, Math.min(1, third / (sd * sd * sd)));
    return mean + sd * (normalQuantile + skewness * (normalQuantile * normalQuantile - 1) / 6);
  }

  /**
   * The pH of the blend at the typical figures.
   *
   * @return the pH
   */
  public double ph() {
    double ionicStrength = FIRST_IONIC_STRENGTH;
    double ph = 7;
    double strong = 0;
    for (int i = 0; i < curves.length; i++) {
      strong += fractions[i] * curves[i].strongChargeEqPerKg();
    }
    for (int pass = 0; pass < MAX_PASSES; pass++) {
      ChargeBalance.Builder b =
          ChargeBalance.at(conditions, ionicStrength).water(waterKg).strongCharge(strong);
      for (int i = 0; i < curves.length; i++) {
        curves[i].addGroups(b, fractions[i]);
      }
      ph = b.build().phNear(ph);
      double next = ionicStrengthOnce(conditions.at(ph, ionicStrength));
      if (Math.abs(next - ionicStrength) <= SETTLED) {
        return ph;
      }
      ionicStrength = next;
    }
    return ph;
  }

  /** The charge a line brings [eq/kg of product]. */
  double lineCharge(int line, double ph) {
    return fractions[line] * curves[line].chargeEqPerKg(state(ph));
  }
}
