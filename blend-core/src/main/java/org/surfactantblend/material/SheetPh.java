package org.surfactantblend.material;

import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Require;

/**
 * A pH that was read on a material at a known dilution: the one a supplier's sheet or certificate
 * states, or the end point of a titration together with the acid it took to get there.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param ph the pH; exact for a certificate, a range for a specification
 * @param dilutionPercent how much of the material as supplied the measured sample holds [% m/m],
 *     above 0 to 100; 100 means measured as it is
 * @param basisCertain false when the sheet leaves the dilution open or measures in a solvent: the
 *     likelier reading is used, the range is widened and the answer says so
 * @param addedAcidEqPerKg strong acid added to the sample before the reading [eq/kg of material as
 *     supplied], negative for strong base; zero for a plain pH
 */
public record SheetPh(
    Range ph, double dilutionPercent, boolean basisCertain, Range addedAcidEqPerKg) {
  /** By how much each end of a pH range is moved outwards when its basis is uncertain. */
  public static final double WIDENING = 0.3;

  /**
   * Checks the figures.
   *
   * @param ph the pH; exact for a certificate, a range for a specification
   * @param dilutionPercent how much of the material as supplied the measured sample holds [% m/m],
   *     above 0 to 100; 100 means measured as it is
   * @param basisCertain false when the sheet leaves the dilution open or measures in a solvent: the
   *     likelier reading is used, the range is widened and the answer says so
   * @param addedAcidEqPerKg strong acid added to the sample before the reading [eq/kg of material
   *     as supplied], negative for strong base; zero for a plain pH
   * @throws IllegalArgumentException if the pH is outside 0 to 14 or the dilution outside 0 to 100
   */
  public SheetPh {
    Require.inRange("lowest sheet pH", ph.low(), 0, 14, "");
    Require.inRange("highest sheet pH", ph.high(), 0, 14, "");
    Require.positive("dilution of the sheet pH", dilutionPercent, "% m/m");
    Require.inRange("dilution of the sheet pH", dilutionPercent, 0, 100, "% m/m");
    Require.inRange("least added acid", addedAcidEqPerKg.low(), -50, 50, "eq/kg");
    Require.inRange("greatest added acid", addedAcidEqPerKg.high(), -50, 50, "eq/kg");
  }

  /**
   * A pH to which nothing was added.
   *
   * @param ph the pH, 0 to 14
   * @param dilutionPercent percent of the material as supplied in the measured sample [% m/m]
   * @param basisCertain false when the sheet leaves the dilution open
   * @throws IllegalArgumentException if a figure is out of range
   */
  public SheetPh(Range ph, double dilutionPercent, boolean basisCertain) {
    this(ph, dilutionPercent, basisCertain, Range.ZERO);
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
   * The end point of a titration with strong acid or base. At the end point the charges of the
   * sample balance with the acid counted in, so the charge of the strong ions is {@code S = A - sum
   * of n q(pH) - W (h - oh)}, with A the acid, n and q amount and mean charge of the weak groups
   * and W the water of the sample. The water of the titrant is not counted.
   *
   * @param endPoint the pH at which the titration stopped, 0 to 14
   * @param dilutionPercent percent of the material as supplied in the sample [% m/m]
   * @param acidEqPerKg strong acid used [eq/kg of material as supplied], negative for strong base
   * @return the reading
   * @throws IllegalArgumentException if a figure is out of range
   */
  public static SheetPh endPoint(double endPoint, double dilutionPercent, Range acidEqPerKg) {
    return new SheetPh(Range.exactly(endPoint), dilutionPercent, true, acidEqPerKg);
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
