package org.surfactantblend.aqueous;

import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.quantity.Require;

/**
 * How far ions in solution act as if they were fewer than they are.
 *
 * <p>The term is that of Davies,
 *
 * <pre>
 * log10 gamma = -A z^2 ( sqrt(I) / (1 + sqrt(I)) - C I )
 * </pre>
 *
 * <p>with C = 0.2 as first proposed (Davies, J. Chem. Soc. 1938, 2093) or 0.3 as in his later book
 * (Ion Association, 1962). Above {@value #HELD_ABOVE} mol/kg, far outside its validity, the term is
 * held at its value there: a concentrate still gets a finite figure, never a good one.
 *
 * <p>A is worked out from the permittivity of water of Malmberg and Maryott, J. Res. Natl. Bur.
 * Stand. 56 (1956) 1, and its density (Kell, J. Chem. Eng. Data 20 (1975) 97).
 *
 * <p>Immutable and thread-safe; equality by value.
 */
public final class ActivityModel {
  static final double HELD_ABOVE = 1.0;
  private static final ActivityModel IDEAL = new ActivityModel(false, 0);
  private static final ActivityModel DAVIES = new ActivityModel(true, 0.2);

  private final boolean active;
  private final double c;

  private ActivityModel(boolean active, double c) {
    this.active = active;
    this.c = c;
  }

  /**
   * The term of Davies with C = 0.2, the house's choice.
   *
   * @return the model
   */
  public static ActivityModel davies() {
    return DAVIES;
  }

  /**
   * The term of Davies with another coefficient.
   *
   * @param c the coefficient [kg water/mol], 0 to 1; 0 is the term of Guntelberg
   * @return the model
   * @throws IllegalArgumentException if the coefficient is NaN or outside its range
   */
  public static ActivityModel davies(double c) {
    return new ActivityModel(true, Require.inRange("Davies coefficient", c, 0, 1, "kg water/mol"));
  }

  /**
   * No activity term: every activity equals its molality. For checking arithmetic, not for real
   * solutions.
   *
   * @return the model
   */
  public static ActivityModel ideal() {
    return IDEAL;
  }

  /**
   * The decimal logarithm of the activity coefficient of one ion.
   *
   * @param charge the charge of the ion, in units of the proton's; 0 gives 0
   * @param ionicStrength the ionic strength [mol/kg water], 0 or more
   * @param temperatureC the temperature [C], 0 to 100
   * @return log10 of the coefficient
   * @throws IllegalArgumentException if the ionic strength or the temperature is NaN or outside its
   *     range
   */
  public double log10Gamma(int charge, double ionicStrength, double temperatureC) {
    Require.inRange("temperature", temperatureC, 0, 100, "C");
    double term = term(limitingSlope(temperatureC), checkedIonicStrength(ionicStrength));
    return 0.0 - (double) charge * charge * term;
  }

  /**
   * The limiting slope A of the Debye-Hueckel law, on the molal scale and for decimal logarithms.
   *
   * @param temperatureC the temperature [C], 0 to 100
   * @return A [(kg water/mol)^0.5]
   * @throws IllegalArgumentException if the temperature is NaN or outside its range
   */
  public static double limitingSlope(double temperatureC) {
    double t = Require.inRange("temperature", temperatureC, 0, 100, "C");
    double permittivity = 87.740 + t * (-0.40008 + t * (9.398e-4 - 1.410e-6 * t));
    double density =
        (999.83952
                + t
                    * (16.945176
                        + t
                            * (-7.9870401e-3
                                + t * (-46.170461e-6 + t * (105.56302e-9 - 280.54253e-12 * t)))))
            / (1000 * (1 + 16.879850e-3 * t));
    double kelvin = Conditions.ZERO_C_IN_KELVIN + t;
    double product = permittivity * kelvin;
    return 1.824829e6 * Math.sqrt(density) / (product * Math.sqrt(product));
  }

  /**
   * The ionic strength at which ions are least active; on either side of it the activity term is
   * monotone.
   *
   * @return the ionic strength [mol/kg water], 0 for the ideal model
   */
  public double ionicStrengthOfLowestActivity() {
    if (!active) {
      return 0;
    }
    double low = 0;
    double high = HELD_ABOVE;
    for (int i = 0; i < 60; i++) {
      double middle = (low + high) / 2;
      double root = Math.sqrt(middle);
      if (1 / (2 * root * (1 + root) * (1 + root)) > c) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return high;
  }

  /** The part of -log10 gamma that does not depend on the charge, for a unit charge. */
  double term(double slope, double ionicStrength) {
    if (!active) {
      return 0;
    }
    double held = Math.min(ionicStrength, HELD_ABOVE);
    double root = Math.sqrt(held);
    return slope * (root / (1 + root) - c * held);
  }

  static double checkedIonicStrength(double ionicStrength) {
    if (!(ionicStrength >= 0 && ionicStrength <= Double.MAX_VALUE)) {
      throw new IllegalArgumentException(
          "ionic strength was " + ionicStrength + ", allowed is 0 mol/kg water or more");
    }
    return ionicStrength;
  }

  boolean isIdeal() {
    return !active;
  }

  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof ActivityModel that && active == that.active && c == that.c;
  }

  @Override
  public int hashCode() {
    return Objects.hash(active, c);
  }

  @Override
  public String toString() {
    return active ? "Davies, C = " + c : "ideal (no activity term)";
  }
}
