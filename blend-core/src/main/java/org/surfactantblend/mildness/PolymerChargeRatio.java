package org.surfactantblend.mildness;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/**
 * The charge of cationic polymers against that of the surfactants they meet: equivalents of plus
 * over equivalents of minus. Near 1 a coacervate or a precipitate is likely; no published figure
 * for how near was found, so {@link #isNearOne} takes half to double.
 *
 * <p>The charge of a polymer differs by grade and is no part of the table of materials: take it
 * from the supplier's sheet. At other families nothing is asked.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param ratio plus over minus, or empty when there is no anionic charge, a charge density is
 *     missing, or the anionic charge is not given
 * @param polymerMeqPerKg the charge of the polymers [meq/kg of product]
 * @param withoutChargeDensity polymers whose charge was not given
 */
public record PolymerChargeRatio(
    OptionalDouble ratio, double polymerMeqPerKg, List<String> withoutChargeDensity) {
  /** The family of cationic polymers in the table of materials. */
  public static final String FAMILY = "cationic polymer";

  /**
   * Copies the list.
   *
   * @param ratio plus over minus, or empty when there is no anionic charge, a charge density is
   *     missing, or the anionic charge is not given
   * @param polymerMeqPerKg the charge of the polymers [meq/kg of product]
   * @param withoutChargeDensity polymers whose charge was not given
   */
  public PolymerChargeRatio {
    withoutChargeDensity = List.copyOf(withoutChargeDensity);
  }

  /**
   * The ratio of a blend.
   *
   * @param blend the blend
   * @param charge its anionic charge
   * @param meqPerGram charge of polymers by material id [meq/g as supplied], 0 to 20
   * @return the ratio, or empty when the blend holds no cationic polymer
   * @throws IllegalArgumentException if a charge is out of range
   */
  public static Optional<PolymerChargeRatio> of(
      Blend blend, NetAnionicCharge charge, Map<String, Double> meqPerGram) {
    double plus = 0;
    boolean any = false;
    List<String> missing = new ArrayList<>();
    for (BlendLine l : blend.lines()) {
      String id = l.material().id();
      Double density = meqPerGram.get(id);
      if (density != null) {
        any = true;
        plus +=
            1000
                * l.massFraction()
                * Require.inRange("charge of " + id, density, 0, 20, "meq/g as supplied");
      } else if (l.material().family().name().equals(FAMILY) && l.massFraction() > 0) {
        any = true;
        missing.add(id);
      }
    }
    if (!any) {
      return Optional.empty();
    }
    double minus = charge.meqPerKg().orElse(0);
    return Optional.of(
        new PolymerChargeRatio(
            missing.isEmpty() && minus > 0
                ? OptionalDouble.of(plus / minus)
                : OptionalDouble.empty(),
            plus,
            missing));
  }

  /**
   * Whether the charges are near balance, where a precipitate or coacervate is likely.
   *
   * @return true from half to double
   */
  public boolean isNearOne() {
    return ratio.isPresent() && ratio.getAsDouble() >= 0.5 && ratio.getAsDouble() <= 2;
  }

  /**
   * The ratio in words.
   *
   * @return the figure, or what is missing
   */
  public String text() {
    if (ratio.isPresent()) {
      return Text.number(ratio.getAsDouble());
    }
    return withoutChargeDensity.isEmpty()
        ? "not given: no anionic charge known"
        : "not given: no charge of " + String.join(", ", withoutChargeDensity);
  }
}
