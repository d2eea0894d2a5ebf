package org.surfactantblend.acidity;

import java.util.List;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.aqueous.AqueousState;
import org.surfactantblend.aqueous.ChargeBalance;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.ChargeCurve;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Text;

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
  private static final double LN_10 = 2.302585092994046;

  private final Conditions conditions;
  private final double[] fractions;
  private final ChargeCurve[] curves;
  private final Material[] materials;
  private final double waterKg;

  private BlendCharge(
      Conditions conditions, double[] fractions, ChargeCurve[] curves, Material[] materials) {
    this.conditions = conditions;
    this.fractions = fractions;
    this.curves = curves;
    this.materials = materials;
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
    Material[] m = new Material[w.length];
    for (int i = 0; i < w.length; i++) {
      w[i] = lines.get(i).massFraction();
      m[i] = lines.get(i).material();
      c[i] = m[i].chargeCurve(conditions);
    }
    return new BlendCharge(conditions, w, c, m);
  }

  /**
   * The water of the product.
   *
   * @return the water [kg/kg of product]
   */
  public double waterKgPerKg() {
    return waterKg;
  }

  Conditions conditions() {
    return conditions;
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
      if (Math.abs(next - ionicStrength) <= 1e-10) {
        return next;
      }
      ionicStrength = next;
    }
    return ionicStrength;
  }

  private double ionicStrengthOnce(double ph, double ionicStrength) {
    return ionicStrengthOnce(ph, ionicStrength, 0, 0, conditions);
  }

  /**
   * One pass of the loop on ionic strength.
   *
   * @param moreIons what else adds to it [mol/kg of product]
   * @param moreWater what else dilutes it [kg/kg of product]
   */
  private double ionicStrengthOnce(
      double ph, double ionicStrength, double moreIons, double moreWater, Conditions at) {
    double sum = moreIons;
    AqueousState state = conditions.at(ph, ionicStrength);
    for (int i = 0; i < curves.length; i++) {
      sum += fractions[i] * curves[i].ionicStrengthMolPerKg(state);
    }
    return sum / (waterKg + moreWater) + (at.h(ph, ionicStrength) + at.oh(ph, ionicStrength)) / 2;
  }

  /**
   * The net charge at a pH, at the typical figures.
   *
   * @param ph the pH
   * @return the net charge [eq/kg of product]
   */
  public double chargeEqPerKg(double ph) {
    return chargeEqPerKg(ph, ionicStrength(ph));
  }

  /** The net charge at the typical figures, at a given ionic strength [eq/kg of product]. */
  double chargeEqPerKg(double ph, double ionicStrength) {
    AqueousState state = conditions.at(ph, ionicStrength);
    double sum = waterKg * state.hydrogenLessHydroxide();
    for (int i = 0; i < curves.length; i++) {
      sum += fractions[i] * curves[i].chargeEqPerKg(state);
    }
    return sum;
  }

  double waterCharge(double ph, double ionicStrength) {
    return waterKg * (conditions.h(ph, ionicStrength) - conditions.oh(ph, ionicStrength));
  }

  /**
   * The least net charge that lots inside the declared ranges can give.
   *
   * @param ph the pH
   * @return the guaranteed least net charge [eq/kg of product]
   */
  public double leastChargeEqPerKg(double ph) {
    return leastChargeEqPerKg(ph, ionicStrength(ph));
  }

  /** The guaranteed least net charge at a given ionic strength [eq/kg of product]. */
  double leastChargeEqPerKg(double ph, double ionicStrength) {
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
    return greatestChargeEqPerKg(ph, ionicStrength(ph));
  }

  /** The guaranteed greatest net charge at a given ionic strength [eq/kg of product]. */
  double greatestChargeEqPerKg(double ph, double ionicStrength) {
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
   * @param ph the pH values, at least one
   * @return the moments [eq/kg of product]
   * @throws IllegalArgumentException if there is none
   */
  public ChargeCurve.Moments moments(double... ph) {
    if (ph.length == 0) {
      throw new IllegalArgumentException("number of pH values was 0, allowed is 1 or more");
    }
    return momentsAt(ionicStrength(ph[ph.length / 2]), ph);
  }

  /** The moments at a given ionic strength. */
  ChargeCurve.Moments momentsAt(double ionicStrength, double... ph) {
    double[] mean = new double[ph.length];
    double[][] covariance = new double[ph.length][ph.length];
    for (int k = 0; k < ph.length; k++) {
      mean[k] = waterCharge(ph[k], ionicStrength);
    }
    for (int i = 0; i < curves.length; i++) {
      ChargeCurve.Moments own = curves[i].moments(ph, ionicStrength);
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
    return phWith(List.of(), 0, 0, conditions);
  }

  /**
   * The pH of the blend at the typical figures with what was added to it.
   *
   * @param additions what was added
   * @param moreCharge a charge added to the strong ions, by which a reading is met [eq/kg of
   *     product]
   * @param moreWater water added [kg/kg of product]
   * @param at where the constants are read; the strong ions stay those of this balance
   * @return the pH
   */
  double phWith(List<Addition> additions, double moreCharge, double moreWater, Conditions at) {
    double ionicStrength = 0.1;
    double ph = 7;
    double water = water(additions, moreWater);
    for (int pass = 0; pass < MAX_PASSES; pass++) {
      ph = balance(additions, moreCharge, water, ionicStrength, at).phNear(ph);
      double next =
          ionicStrengthOnce(
              ph, ionicStrength, ions(additions, ph, ionicStrength, at), water - waterKg, at);
      if (Math.abs(next - ionicStrength) <= 1e-10) {
        return ph;
      }
      ionicStrength = next;
    }
    return ph;
  }

  /**
   * The charge to add to the strong ions so that the blend with what was added reads a pH.
   *
   * @return the charge [eq/kg of product]
   */
  double chargeToRead(double ph, List<Addition> additions, double moreWater, Conditions at) {
    double ionicStrength = 0.1;
    double water = water(additions, moreWater);
    for (int pass = 0; pass < MAX_PASSES; pass++) {
      double next =
          ionicStrengthOnce(
              ph, ionicStrength, ions(additions, ph, ionicStrength, at), water - waterKg, at);
      if (Math.abs(next - ionicStrength) <= 1e-10) {
        break;
      }
      ionicStrength = next;
    }
    return -balance(additions, 0, water, ionicStrength, at).netCharge(ph);
  }

  private double water(List<Addition> additions, double moreWater) {
    double water = waterKg + moreWater;
    for (Addition a : additions) {
      water += a.kgPerKg() * a.titrant().waterKgPerKg();
    }
    return water;
  }

  private static double ions(
      List<Addition> additions, double ph, double ionicStrength, Conditions at) {
    double sum = 0;
    for (Addition a : additions) {
      sum += a.kgPerKg() * a.titrant().ionsMolPerKg(at, ph, ionicStrength);
    }
    return sum;
  }

  private ChargeBalance balance(
      List<Addition> additions,
      double moreCharge,
      double water,
      double ionicStrength,
      Conditions at) {
    ChargeBalance.Builder b = ChargeBalance.at(at, ionicStrength).water(water);
    double strong = moreCharge;
    for (int i = 0; i < curves.length; i++) {
      strong += fractions[i] * curves[i].strongChargeEqPerKg();
      curves[i].addGroups(b, fractions[i]);
    }
    for (Addition a : additions) {
      strong += a.kgPerKg() * a.titrant().strongChargeEqPerKg();
      a.titrant().addGroups(b, a.kgPerKg());
    }
    return b.strongCharge(strong).build();
  }

  /** How much of a titrant was added [kg/kg of product]. */
  record Addition(Titrant titrant, double kgPerKg) {}

  /**
   * A dose and the ionic strength that goes with it.
   *
   * @param kgPerKg the dose [kg of titrant per kg of product]; negative when the titrant pushes the
   *     wrong way, infinite when it does not push at all
   * @param ionicStrength the ionic strength at the target [mol/kg water]
   * @param titrantCharge the charge of the titrant there [eq/kg of titrant]
   */
  record Solved(double kgPerKg, double ionicStrength, double titrantCharge) {}

  /**
   * The dose that brings the typical figures to a pH: at a fixed pH a plain division, repeated
   * until the ionic strength belongs to its result.
   */
  Solved doseTo(double ph, Titrant titrant, double moreCharge) {
    double ionicStrength = ionicStrength(ph);
    double dose = 0;
    double charge = 0;
    for (int pass = 0; pass < MAX_PASSES; pass++) {
      charge = titrant.chargeEqPerKg(conditions, ph, ionicStrength);
      dose = -(chargeEqPerKg(ph, ionicStrength) + moreCharge) / charge;
      double counted = Double.isFinite(dose) ? Math.min(1, Math.max(0, dose)) : 0;
      double next =
          ionicStrengthOnce(
              ph,
              ionicStrength,
              counted * titrant.ionsMolPerKg(conditions, ph, ionicStrength),
              counted * titrant.waterKgPerKg(),
              conditions);
      if (Math.abs(next - ionicStrength) <= 1e-13) {
        break;
      }
      ionicStrength = next;
    }
    return new Solved(dose, ionicStrength, charge);
  }

  /**
   * The extreme change of the net charge between two pH, over every amount and pKa in its range:
   * what the blend takes up or gives off whatever its sheet pH was.
   *
   * @param from the pH it starts from
   * @param to the pH it is brought to
   * @param ionicStrength the ionic strength [mol/kg water]
   * @param sign 1 for the greatest, -1 for the least
   * @return the change [eq/kg of product]; above zero when {@code to} is below {@code from}
   */
  double extremeShift(double from, double to, double ionicStrength, int sign) {
    double sum = waterCharge(to, ionicStrength) - waterCharge(from, ionicStrength);
    for (int i = 0; i < materials.length; i++) {
      for (AcidBaseGroup g : materials[i].groups()) {
        sum += fractions[i] * extremeShift(g, from, to, ionicStrength, sign);
      }
    }
    return sum;
  }

  private double extremeShift(
      AcidBaseGroup g, double from, double to, double ionicStrength, int sign) {
    double best = sign * Double.NEGATIVE_INFINITY;
    Range pKa = g.pKa();
    double[] constants =
        pKa == null
            ? new double[] {Double.NaN}
            : new double[] {
              pKa.low(), pKa.high(), Math.min(pKa.high(), Math.max(pKa.low(), (from + to) / 2))
            };
    for (double constant : constants) {
      AcidBase acid = Double.isNaN(constant) ? g.acid() : g.acid().withPka(0, constant);
      double q =
          conditions.meanCharge(acid, to, ionicStrength)
              - conditions.meanCharge(acid, from, ionicStrength);
      for (double amount : new double[] {g.amount().low(), g.amount().high()}) {
        best = sign > 0 ? Math.max(best, amount * q) : Math.min(best, amount * q);
      }
    }
    return best;
  }

  /**
   * What the blend takes up or gives off between two pH with every amount at its low end and every
   * pKa typical [eq/kg of product]; above zero when {@code to} is below {@code from}.
   */
  double leanShift(double from, double to, double ionicStrength) {
    double sum = waterCharge(to, ionicStrength) - waterCharge(from, ionicStrength);
    for (int i = 0; i < materials.length; i++) {
      for (AcidBaseGroup g : materials[i].groups()) {
        sum +=
            fractions[i]
                * g.amount().low()
                * (conditions.meanCharge(g.acid(), to, ionicStrength)
                    - conditions.meanCharge(g.acid(), from, ionicStrength));
      }
    }
    return sum;
  }

  /** How far the charge of a line can be apart within its ranges [eq/kg of product]. */
  double lineSpread(int line, double ph) {
    AqueousState state = conditions.at(ph, ionicStrength(ph));
    return fractions[line]
        * (curves[line].greatestChargeEqPerKg(state) - curves[line].leastChargeEqPerKg(state));
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
    AqueousState state = conditions.at(ph, ionicStrength(ph));
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

  /** How the charge falls with the pH by water's own ions alone [eq/kg per pH unit], positive. */
  double waterSlope(double ph, double ionicStrength) {
    return LN_10 * waterKg * (conditions.h(ph, ionicStrength) + conditions.oh(ph, ionicStrength));
  }

  /** The charge a line brings [eq/kg of product]. */
  double lineCharge(int line, double ph) {
    return fractions[line] * curves[line].chargeEqPerKg(ph, ionicStrength(ph));
  }

  @Override
  public String toString() {
    return "charge balance of "
        + materials.length
        + " materials, "
        + Text.fixed(waterKg, 3)
        + " kg of water per kg";
  }
}
