package org.surfactantblend.aqueous;

import java.util.List;

/**
 * The pH of a solution with what it rests on.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param ph minus the decimal logarithm of the hydrogen-ion activity, -2 to 16
 * @param ionicStrength the ionic strength at that pH [mol/kg water]
 * @param passes how many times the charge balance was solved until the ionic strength settled
 * @param caveats where the model is used outside its validity, in plain words; empty when inside
 */
public record PhResult(double ph, double ionicStrength, int passes, List<String> caveats) {
  /**
   * Copies the caveats.
   *
   * @param ph minus the decimal logarithm of the hydrogen-ion activity, -2 to 16
   * @param ionicStrength the ionic strength at that pH [mol/kg water]
   * @param passes how many times the charge balance was solved until the ionic strength settled
   * @param caveats where the model is used outside its validity, in plain words; empty when inside
   */
  public PhResult {
    caveats = List.copyOf(caveats);
  }
}
