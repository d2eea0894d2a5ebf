package org.surfactantblend.aqueous;

import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.quantity.Require;

/**
 * Where acid-base constants are read: a temperature, an activity model and the ionic product of
 * water. Gives the charge of weak groups and the ions of water at a known pH.
 *
 * <p>The ionic product follows the same temperature form as every other constant, with pKw = 13.995
 * at 25 C, 55.81 kJ/mol and -224 J/(K mol); it stays within 0.004 of the molal table in the CRC
 * Handbook of Chemistry and Physics (2005, p. 8-79) from 0 to 60 C.
 *
 * <p>pH is everywhere minus the decimal logarithm of the hydrogen-ion activity, -2 to 16; ionic
 * strengths are in mol/kg water, 0 or more.
 *
 * <p>Immutable and thread-safe; equality by value.
 */
public final class Conditions {
  static final double LN_10 = 2.302585092994046;
  static final double ZERO_C_IN_KELVIN = 273.15;
  static final double LEAST_PH = -2;
  static final double MOST_PH = 16;
  private static final double R_LN_10 = 8.31446261815324 * LN_10;
  private static final double REFERENCE = ZERO_C_IN_KELVIN + 25;
  private static final double RESCALE_ABOVE = 1e150;
  private static final AcidBase WATER = AcidBase.water();
  private static final Conditions STANDARD = new Conditions(ActivityModel.davies(), 25, null);

  private final ActivityModel activity;
  private final double temperatureC;
  private final @Nullable Double fixedPkw;
  private final double slope;
  private final double enthalpyFactor;
  private final double heatCapacityFactor;
  private final double pKw;
  private final double ionProduct;

  private Conditions(ActivityModel activity, double temperatureC, @Nullable Double fixedPkw) {
    this.activity = Objects.requireNonNull(activity, "activity");
    this.temperatureC = Require.inRange("temperature", temperatureC, 0, 100, "C");
    this.fixedPkw = fixedPkw;
    slope = ActivityModel.limitingSlope(this.temperatureC);
    double kelvin = ZERO_C_IN_KELVIN + this.temperatureC;
    enthalpyFactor = 1000 / R_LN_10 * (1 / REFERENCE - 1 / kelvin);
    heatCapacityFactor =
        1 / R_LN_10 * (REFERENCE / kelvin - 1 + StrictMath.log(kelvin / REFERENCE));
    pKw = fixedPkw != null ? fixedPkw : pKa(WATER, 0);
    ionProduct = power(-pKw);
  }

  /**
   * The usual conditions: Davies with C = 0.2, at 25 C.
   *
   * @return the conditions
   */
  public static Conditions standard() {
    return STANDARD;
  }

  /**
   * Activities equal to molalities and a given ionic product of water, at 25 C: for arithmetic
   * worked by hand.
   *
   * @param pKw minus the decimal logarithm of the ionic product, 10 to 18
   * @return the conditions
   * @throws IllegalArgumentException if the value is NaN or outside its range
   */
  public static Conditions ideal(double pKw) {
    return new Conditions(ActivityModel.ideal(), 25, Require.inRange("pKw", pKw, 10, 18, ""));
  }

  /**
   * The same conditions at another temperature. A fixed pKw stays as it is.
   *
   * @param temperatureC the temperature [C], 0 to 100; above 60 the constants are unchecked and a
   *     solution says so
   * @return the changed conditions
   * @throws IllegalArgumentException if the temperature is NaN or outside its range
   */
  public Conditions withTemperature(double temperatureC) {
    return new Conditions(activity, temperatureC, fixedPkw);
  }

  /**
   * The same conditions with another activity model.
   *
   * @param activity the activity model
   * @return the changed conditions
   * @throws NullPointerException if the model is null
   */
  public Conditions withActivity(ActivityModel activity) {
    return new Conditions(activity, temperatureC, fixedPkw);
  }

  /**
   * The temperature.
   *
   * @return the temperature [C]
   */
  public double temperatureC() {
    return temperatureC;
  }

  /**
   * The activity model.
   *
   * @return the activity model
   */
  public ActivityModel activity() {
    return activity;
  }

  /**
   * The ionic product of water at this temperature, at zero ionic strength.
   *
   * @return minus its decimal logarithm
   */
  public double pKw() {
    return pKw;
  }

  /** The ionic product of water on the activity scale. */
  double ionProduct() {
    return ionProduct;
  }

  /**
   * These conditions at one pH and ionic strength, for reading many groups there.
   *
   * @param pH the pH, -2 to 16
   * @param ionicStrength the ionic strength [mol/kg water]
   * @return the state
   * @throws IllegalArgumentException if an argument is NaN or outside its range
   */
  public AqueousState at(double pH, double ionicStrength) {
    return AqueousState.of(this, pH, ionicStrength);
  }

  /**
   * The constant of one step at this temperature, at zero ionic strength or, for an apparent
   * system, as it stands in the blend.
   *
   * @param acid the system
   * @param step which step, 0 for the first proton lost
   * @return the constant
   * @throws NullPointerException if the system is null
   * @throws IllegalArgumentException if there is no such step
   */
  public double pKa(AcidBase acid, int step) {
    if (step < 0 || step >= acid.stepCount()) {
      throw new IllegalArgumentException(
          "step of "
              + acid.name()
              + " was "
              + step
              + ", allowed is 0 to "
              + (acid.stepCount() - 1));
    }
    return acid.pKa(step, enthalpyFactor, heatCapacityFactor);
  }

  /**
   * The hydrogen ions at a pH.
   *
   * @param pH the pH, -2 to 16
   * @param ionicStrength the ionic strength [mol/kg water]
   * @return the molality [mol/kg water]
   * @throws IllegalArgumentException if an argument is NaN or outside its range
   */
  public double h(double pH, double ionicStrength) {
    return power(unitTerm(ionicStrength) - checkedPh(pH));
  }

  /**
   * The hydroxide ions at a pH.
   *
   * @param pH the pH, -2 to 16
   * @param ionicStrength the ionic strength [mol/kg water]
   * @return the molality [mol/kg water]
   * @throws IllegalArgumentException if an argument is NaN or outside its range
   */
  public double oh(double pH, double ionicStrength) {
    return power(unitTerm(ionicStrength) + checkedPh(pH) - pKw);
  }

  /**
   * The mean charge of a weak system.
   *
   * @param acid the system
   * @param pH the pH, -2 to 16
   * @param ionicStrength the ionic strength [mol/kg water]
   * @return the charge per mole of the system [eq/mol]
   * @throws NullPointerException if the system is null
   * @throws IllegalArgumentException if a number is NaN or outside its range
   */
  public double meanCharge(AcidBase acid, double pH, double ionicStrength) {
    double term = acid.apparent() ? 0 : unitTerm(ionicStrength);
    checkedPh(pH);
    int z = acid.chargeOfMostProtonatedForm();
    double weight = 1;
    double sum = 1;
    double lost = 0;
    for (int step = 0; step < acid.stepCount(); step++) {
      weight *= ratio(acid, step, pH, term);
      sum += weight;
      lost += (step + 1) * weight;
      if (weight > RESCALE_ABOVE) {
        weight /= RESCALE_ABOVE;
        sum /= RESCALE_ABOVE;
        lost /= RESCALE_ABOVE;
      }
    }
    return z - lost / sum;
  }

  /**
   * The mean of the squared charge of a weak system, for the ionic strength: half of it times the
   * molality is what the system adds.
   *
   * @param acid the system
   * @param pH the pH, -2 to 16
   * @param ionicStrength the ionic strength [mol/kg water]
   * @return the mean squared charge; 0 for an apparent system, whose ions do not count towards the
   *     ionic strength
   * @throws NullPointerException if the system is null
   * @throws IllegalArgumentException if a number is NaN or outside its range
   */
  public double meanSquareCharge(AcidBase acid, double pH, double ionicStrength) {
    if (acid.apparent()) {
      return 0;
    }
    double[] share = fractions(acid, pH, ionicStrength);
    double sum = 0;
    for (int lost = 0; lost < share.length; lost++) {
      double z = (double) acid.chargeOfMostProtonatedForm() - lost;
      sum += z * z * share[lost];
    }
    return sum;
  }

  /**
   * The shares of the forms of a weak system.
   *
   * @param acid the system
   * @param pH the pH, -2 to 16
   * @param ionicStrength the ionic strength [mol/kg water]
   * @return the share of each form [mol/mol], the most protonated first; one more than there are
   *     steps, together 1
   * @throws NullPointerException if the system is null
   * @throws IllegalArgumentException if a number is NaN or outside its range
   */
  public double[] fractions(AcidBase acid, double pH, double ionicStrength) {
    double term = acid.apparent() ? 0 : unitTerm(ionicStrength);
    checkedPh(pH);
    double[] share = new double[acid.stepCount() + 1];
    share[0] = 1;
    double sum = 1;
    for (int step = 0; step < acid.stepCount(); step++) {
      share[step + 1] = share[step] * ratio(acid, step, pH, term);
      sum += share[step + 1];
      if (share[step + 1] > RESCALE_ABOVE) {
        for (int i = 0; i <= step + 1; i++) {
          share[i] /= RESCALE_ABOVE;
        }
        sum /= RESCALE_ABOVE;
      }
    }
    for (int i = 0; i < share.length; i++) {
      share[i] /= sum;
    }
    return share;
  }

  /**
   * The share of the most protonated form: for an acid, the undissociated share; for an amine, the
   * share that carries the proton.
   *
   * @param acid the system
   * @param pH the pH, -2 to 16
   * @param ionicStrength the ionic strength [mol/kg water]
   * @return the share [mol/mol], 0 to 1
   * @throws NullPointerException if the system is null
   * @throws IllegalArgumentException if a number is NaN or outside its range
   */
  public double undissociatedShare(AcidBase acid, double pH, double ionicStrength) {
    return fractions(acid, pH, ionicStrength)[0];
  }

  /** The activity term of a unit charge: -log10 of its activity coefficient. */
  double unitTerm(double ionicStrength) {
    return activity.term(slope, ActivityModel.checkedIonicStrength(ionicStrength));
  }

  /** The constant of a step on the scale of pH and molalities at the given activity term. */
  double mixedPka(AcidBase acid, int step, double term) {
    int z = acid.chargeOfMostProtonatedForm() - step;
    return acid.pKa(step, enthalpyFactor, heatCapacityFactor) + term * (2 * z - 1);
  }

  private double ratio(AcidBase acid, int step, double pH, double term) {
    return power(pH - mixedPka(acid, step, term));
  }

  static double power(double exponent) {
    return StrictMath.exp(LN_10 * exponent);
  }

  static double checkedPh(double pH) {
    return Require.inRange("pH", pH, LEAST_PH, MOST_PH, "");
  }

  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof Conditions that
        && activity.equals(that.activity)
        && temperatureC == that.temperatureC
        && Objects.equals(fixedPkw, that.fixedPkw);
  }

  @Override
  public int hashCode() {
    return Objects.hash(activity, temperatureC, fixedPkw);
  }

  @Override
  public String toString() {
    return activity + " at " + temperatureC + " C" + (fixedPkw == null ? "" : ", pKw " + fixedPkw);
  }
}
