package org.surfactantblend.aqueous;

import org.surfactantblend.quantity.Text;

/**
 * One pH at one ionic strength under given conditions, with the powers of ten that every acid-base
 * group needs worked out once.
 *
 * <p>Immutable and thread-safe.
 */
public final class AqueousState {
  private final Conditions conditions;
  private final double ph;
  private final double ionicStrength;
  private final double activity;
  private final double factor;

  private AqueousState(
      Conditions conditions, double ph, double ionicStrength, double activity, double factor) {
    this.conditions = conditions;
    this.ph = ph;
    this.ionicStrength = ionicStrength;
    this.activity = activity;
    this.factor = factor;
  }

  static AqueousState of(Conditions conditions, double ph, double ionicStrength) {
    return new AqueousState(
        conditions,
        ph,
        ionicStrength,
        Conditions.power(-Conditions.checkedPh(ph)),
        Conditions.power(conditions.unitTerm(ionicStrength)));
  }

  /**
   * The same pH at another ionic strength.
   *
   * @param newIonicStrength the ionic strength [mol/kg water]
   * @return the state
   * @throws IllegalArgumentException if it is NaN or negative
   */
  public AqueousState withIonicStrength(double newIonicStrength) {
    return newIonicStrength == ionicStrength
        ? this
        : new AqueousState(
            conditions,
            ph,
            newIonicStrength,
            activity,
            Conditions.power(conditions.unitTerm(newIonicStrength)));
  }

  /**
   * The pH.
   *
   * @return the pH
   */
  public double ph() {
    return ph;
  }

  /**
   * The ionic strength.
   *
   * @return the ionic strength [mol/kg water]
   */
  public double ionicStrength() {
    return ionicStrength;
  }

  /**
   * The activity of hydrogen ions: ten to the power of minus the pH.
   *
   * @return the activity
   */
  public double activityOfHydrogen() {
    return activity;
  }

  /**
   * One over the activity coefficient of an ion of unit charge.
   *
   * @return the factor, 1 in the ideal model
   */
  public double unitFactor() {
    return factor;
  }

  /**
   * What multiplies the thermodynamic constant of a step so that it can be read with hydrogen-ion
   * activity and molalities of the two forms.
   *
   * @param chargeOfAcidForm the charge of the form that still holds the proton, -12 to 12
   * @return the factor: that of a unit charge to the power of 1 - 2 z
   */
  public double constantFactor(int chargeOfAcidForm) {
    int power = 1 - 2 * chargeOfAcidForm;
    double base = power < 0 ? 1 / factor : factor;
    double product = 1;
    for (int i = 0; i < Math.abs(power); i++) {
      product *= base;
    }
    return product;
  }

  /**
   * Hydrogen ions less hydroxide ions.
   *
   * @return the charge of water's own ions [mol/kg water]
   */
  public double hydrogenLessHydroxide() {
    return factor * (activity - conditions.ionProduct() / activity);
  }

  /**
   * What water's own ions add to the ionic strength.
   *
   * @return half the sum of both [mol/kg water]
   */
  public double ownIonicStrength() {
    return factor * (activity + conditions.ionProduct() / activity) / 2;
  }

  @Override
  public String toString() {
    return "pH "
        + Text.number(ph)
        + " at ionic strength "
        + Text.number(ionicStrength)
        + " mol/kg water";
  }
}
