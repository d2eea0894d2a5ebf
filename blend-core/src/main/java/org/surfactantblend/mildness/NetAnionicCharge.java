package org.surfactantblend.mildness;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/**
 * The negative charge on the surfactants of a blend at a pH, on a mole basis and at the typical
 * figures of its materials: sum n_i max(0, -z_i) / sum n_i. See {@link ChargeShare}.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param atPh the pH
 * @param sharePercent the share [mol charge per 100 mol of surfactant], or empty when a molar mass
 *     is missing or there is no surfactant
 * @param meqPerKg the negative charge [meq/kg of product], or empty in the same cases
 * @param withoutMolarMass the materials whose surfactant has no molar mass
 */
public record NetAnionicCharge(
    double atPh,
    OptionalDouble sharePercent,
    OptionalDouble meqPerKg,
    List<String> withoutMolarMass) {
  /**
   * Copies the list.
   *
   * @param atPh the pH
   * @param sharePercent the share [mol charge per 100 mol of surfactant], or empty when a molar
   *     mass is missing or there is no surfactant
   * @param meqPerKg the negative charge [meq/kg of product], or empty in the same cases
   * @param withoutMolarMass the materials whose surfactant has no molar mass
   */
  public NetAnionicCharge {
    withoutMolarMass = List.copyOf(withoutMolarMass);
  }

  /**
   * The charge of a blend.
   *
   * @param blend the blend
   * @param atPh the pH, 0 to 14
   * @param conditions temperature and activity model
   * @return the charge, or the materials that lack a molar mass
   * @throws IllegalArgumentException if the pH is out of range
   */
  public static NetAnionicCharge of(Blend blend, double atPh, Conditions conditions) {
    double ph = Require.inRange("pH", atPh, 0, 14, "");
    List<String> missing = new ArrayList<>();
    double negative = 0;
    double moles = 0;
    for (BlendLine l : blend.lines()) {
      Material m = l.material();
      if (m.isSurfactant() && l.massFraction() > 0) {
        OptionalDouble charge = ChargeShare.chargePerMole(m, ph, conditions);
        if (charge.isEmpty()) {
          missing.add(m.id());
        } else {
          double own = l.massFraction() * m.activeMolPerKg().typical();
          moles += own;
          negative += own * Math.max(0, -charge.getAsDouble());
        }
      }
    }
    boolean given = missing.isEmpty() && moles > 0;
    return new NetAnionicCharge(
        ph,
        given ? OptionalDouble.of(100 * negative / moles) : OptionalDouble.empty(),
        given ? OptionalDouble.of(1000 * negative) : OptionalDouble.empty(),
        missing);
  }

  /**
   * The share in words.
   *
   * @return for instance {@code 41.2 % of the moles}, or what is missing
   */
  public String text() {
    return sharePercent.isPresent()
        ? Text.fixed(sharePercent.getAsDouble(), 1) + " % of the moles"
        : withoutMolarMass.isEmpty()
            ? "not given: no surfactant"
            : "not given: no molar mass of " + String.join(", ", withoutMolarMass);
  }
}
