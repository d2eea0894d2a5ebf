package org.surfactantblend.swap;

import org.surfactantblend.quantity.Require;

/**
 * When a change is too much, and when it is too little to act upon.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param activePercent the greatest change of an active content that is tolerated [% of it], 0 to
 *     100
 * @param saltPoints the greatest change of the sodium chloride [% m/m of the product], 0 to 100
 * @param ph the greatest change of the starting pH [pH units], 0 to 14
 * @param noChangeActivePercent a swap below which the old weights may stand: the change of the
 *     total active when nothing is changed [% of it], 0 to 100
 * @param noChangeSaltPoints as before, for the sodium chloride [% m/m of the product], 0 to 100
 */
public record SwapTolerances(
    double activePercent,
    double saltPoints,
    double ph,
    double noChangeActivePercent,
    double noChangeSaltPoints) {
  /**
   * The usual ones: 1 % of an active content, 0.05 points of salt, 0.3 pH; no change below 2 % of
   * the total active and 0.05 points of salt. Common practice, no source.
   */
  public static final SwapTolerances USUAL = new SwapTolerances(1, 0.05, 0.3, 2, 0.05);

  /**
   * Checks the figures.
   *
   * @param activePercent the greatest change of an active content that is tolerated [% of it], 0 to
   *     100
   * @param saltPoints the greatest change of the sodium chloride [% m/m of the product], 0 to 100
   * @param ph the greatest change of the starting pH [pH units], 0 to 14
   * @param noChangeActivePercent a swap below which the old weights may stand: the change of the
   *     total active when nothing is changed [% of it], 0 to 100
   * @param noChangeSaltPoints as before, for the sodium chloride [% m/m of the product], 0 to 100
   * @throws IllegalArgumentException if one is out of range
   */
  public SwapTolerances {
    Require.inRange("tolerance of active contents", activePercent, 0, 100, "%");
    Require.inRange("tolerance of salt", saltPoints, 0, 100, "% m/m");
    Require.inRange("tolerance of the starting pH", ph, 0, 14, "");
    Require.inRange("no-change threshold of the active", noChangeActivePercent, 0, 100, "%");
    Require.inRange("no-change threshold of salt", noChangeSaltPoints, 0, 100, "% m/m");
  }
}
