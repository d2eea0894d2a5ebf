package org.surfactantblend.material;

import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Require;

/**
 * The pH a supplier's sheet or certificate states, with the dilution at which it is measured.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param ph the pH; exact for a certificate, a range for a specification
 * @param dilutionPercent how much of the material as supplied the measured sample holds [% m/m],
 *     above 0 to 100; 100 means measured as it is
 * @param basisCertain false when the sheet leaves the dilution open or measures in a solvent: the
 *     likelier reading is used, the range is widened and the answer says so
 */
public record SheetPh(Range ph, double dilutionPercent, boolean basisCertain) {
  /** By how much each end of a pH range is moved outwards when its basis is uncertain. */
  public static final double WIDENING = 0.3;

  /**
   * Checks the figures.
   *
   * @throws IllegalArgumentException if the pH is outside 0 to 14 or the dilution outside 0 to 100
   */
  public SheetPh {
    Require.inRange("lowest sheet pH", ph.low(), 0, 14, "");
    Require.inRange("highest sheet pH", ph.high(), 0, 14, "");
    Require.positive("dilution of the sheet pH", dilutionPercent, "% m/m");
    Require.inRange("dilution of the sheet pH", dilutionPercent, 0, 100, "% m/m");
  }

  /**
   * A pH range on a clear basis.
   *
   * @param low the lowest pH, 0 to 14
   * @param high the highest pH, low to 14
   * @param dilutionPercent percent of the material as supplied in the measured sample [% m/m]
   * @return the sheet pH
   * @throws IllegalArgumentException if a figure is out of range
   */
  public static SheetPh of(double low, double high, double dilutionPercent) {
    return new SheetPh(Range.between(low, high), dilutionPercent, true);
  }

  /**
   * The range to reckon with: widened when the basis is uncertain.
   *
   * @return the pH range
   */
  public Range effective() {
    return basisCertain
        ? ph
        : Range.of(
            Math.max(0, ph.low() - WIDENING), ph.typical(), Math.min(14, ph.high() + WIDENING));
  }
}
