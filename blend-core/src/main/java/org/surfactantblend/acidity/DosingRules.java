package org.surfactantblend.acidity;

import java.util.Objects;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Scale;

/**
 * How careful a titration is.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param tolerance how far from the target the pH may end [pH], 0.02 to 1
 * @param risk the probability up to which a dose may go past the target by more than the tolerance,
 *     0.0001 to 0.5; from the second dose on up to four times that for half of what is left, and
 *     whatever it is for 0.36 of it
 * @param scale the scale the titrant is weighed on
 * @param newLots true when no batch of these lots was titrated before: the first dose is then
 *     capped by the least that any lot inside its ranges needs
 */
public record DosingRules(double tolerance, double risk, Scale scale, boolean newLots) {
  /**
   * Checks the figures.
   *
   * @param tolerance how far from the target the pH may end [pH], 0.02 to 1
   * @param risk the greatest probability that a dose goes past the target by more than the
   *     tolerance, 0.0001 to 0.5
   * @param scale the scale the titrant is weighed on
   * @param newLots true when no batch of these lots was titrated before: the first dose is then
   *     capped by the least that any lot inside its ranges needs
   * @throws IllegalArgumentException if one is out of range
   */
  public DosingRules {
    tolerance = Require.inRange("tolerance", tolerance, 0.02, 1, "pH");
    risk = Require.inRange("risk", risk, 0.0001, 0.5, "");
    Objects.requireNonNull(scale, "scale");
  }

  /**
   * Within 0.1 of the target, 2 % risk, a scale of 0.01 g, new lots.
   *
   * @return the rules
   */
  public static DosingRules usual() {
    return new DosingRules(0.1, 0.02, Scale.of(0.01, 500), true);
  }

  /**
   * With another scale.
   *
   * @param other the scale
   * @return the changed rules
   */
  public DosingRules on(Scale other) {
    return new DosingRules(tolerance, risk, other, newLots);
  }

  /**
   * With another tolerance.
   *
   * @param ph how far from the target the pH may end [pH], 0.02 to 1
   * @return the changed rules
   */
  public DosingRules within(double ph) {
    return new DosingRules(ph, risk, scale, newLots);
  }

  /**
   * With another risk.
   *
   * @param probability of going past the tolerance with one dose, 0.0001 to 0.5
   * @return the changed rules
   */
  public DosingRules risking(double probability) {
    return new DosingRules(tolerance, probability, scale, newLots);
  }

  /**
   * For lots that were titrated before.
   *
   * @return the changed rules
   */
  public DosingRules knownLots() {
    return new DosingRules(tolerance, risk, scale, false);
  }
}
