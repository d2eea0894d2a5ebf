package org.surfactantblend.mildness;

import java.util.OptionalDouble;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Require;

/**
 * Charge balances of a surfactant mix on a mole basis. Of the physical measures, charge of the
 * aggregates is the one that recent reviews find best related to skin penetration (J. Cosmet. Sci.
 * 71, 104 (2020); 75(5), 388 (2024)); it still predicts no clinical result.
 */
public final class ChargeShare {
  /** The ionic strength at which the charges of materials are read [mol/kg water]. */
  public static final double IONIC_STRENGTH = 0.1;

  private ChargeShare() {}

  /**
   * The mean charge of a material's surfactant, from its permanent charge and the acid-base groups
   * on it, at their typical constants and an ionic strength of 0.1 mol/kg.
   *
   * @param material the material
   * @param ph the pH
   * @param conditions temperature and activity model
   * @return the charge [elementary charges per molecule], or empty when it is no surfactant or the
   *     molar mass of one of its surfactants is not known
   */
  public static OptionalDouble chargePerMole(Material material, double ph, Conditions conditions) {
    double moles = material.activeMolPerKg().typical();
    boolean known =
        moles > 0
            && material.constituents().stream()
                .allMatch(c -> !c.isActive() || c.molarMass().isPresent());
    return known
        ? OptionalDouble.of(
            material.chargeCurve(conditions).chargeOnActiveEqPerKg(ph, IONIC_STRENGTH) / moles)
        : OptionalDouble.empty();
  }

  /**
   * The net anionic charge per mole of surfactant: sum n_i max(0, -z_i) / sum n_i.
   *
   * @param moles amount of each surfactant, in one molar unit of any size, 0 or more, not all 0
   * @param charges mean charge of each at the pH in question [elementary charges], -4 to 4; same
   *     length
   * @return the share [mol charge/mol], above 1 only where surfactants carry two charges
   * @throws IllegalArgumentException if a number is out of range or the lengths differ
   */
  public static double netAnionic(double[] moles, double[] charges) {
    if (moles.length != charges.length) {
      throw new IllegalArgumentException(
          "number of charges was " + charges.length + ", allowed is " + moles.length);
    }
    double negative = 0;
    double total = 0;
    for (int i = 0; i < moles.length; i++) {
      double n = Require.inRange("amount " + i, moles[i], 0, 1e9, "mol");
      double z = Require.inRange("charge " + i, charges[i], -4, 4, "elementary charges");
      negative += n * Math.max(0, -z);
      total += n;
    }
    return negative / Require.positive("sum of the amounts", total, "mol");
  }
}
