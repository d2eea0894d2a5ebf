package org.surfactantblend.material;

import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Require;

/**
 * A weak acid-base group that a raw material carries, with how much of it and how sure its constant
 * is.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param name what it is, such as {@code fatty acid}
 * @param acid its constants at the typical pKa
 * @param pKa the range of its first pKa when that is uncertain, as for groups in micelles; null
 *     when the constants of {@code acid} are taken as exact
 * @param amount how much [mol/mol of the active, or mol/kg as supplied]
 * @param perMoleActive true when the amount is in mol per mol of the main active, false when it is
 *     in mol per kg of the raw material as supplied
 * @param onActive true when the group sits on the surface-active molecule itself
 */
public record AcidBaseGroup(
    String name,
    AcidBase acid,
    @Nullable Range pKa,
    Range amount,
    boolean perMoleActive,
    boolean onActive) {
  /**
   * Checks the figures.
   *
   * @param name what it is, such as {@code fatty acid}
   * @param acid its constants at the typical pKa
   * @param pKa the range of its first pKa when that is uncertain, as for groups in micelles; null
   *     when the constants of {@code acid} are taken as exact
   * @param amount how much [mol/mol of the active, or mol/kg as supplied]
   * @param perMoleActive true when the amount is in mol per mol of the main active, false when it
   *     is in mol per kg of the raw material as supplied
   * @param onActive true when the group sits on the surface-active molecule itself
   * @throws IllegalArgumentException if the amount is negative or above 50, or a pKa outside -5 to
   *     20
   */
  public AcidBaseGroup {
    name = Require.text("group", name);
    Objects.requireNonNull(acid, "acid");
    Require.inRange("lowest amount of " + name, amount.low(), 0, 50, "mol");
    Require.inRange("highest amount of " + name, amount.high(), 0, 50, "mol");
    if (pKa != null) {
      Require.inRange("lowest pKa of " + name, pKa.low(), -5, 20, "");
      Require.inRange("highest pKa of " + name, pKa.high(), -5, 20, "");
    }
  }

  /**
   * The same group with its amount per kilogram of raw material.
   *
   * @param activeMolPerKg the main active [mol/kg as supplied]
   * @return the group with {@code perMoleActive} false
   */
  AcidBaseGroup resolved(Range activeMolPerKg) {
    return perMoleActive
        ? new AcidBaseGroup(
            name,
            acid,
            pKa,
            Range.of(
                amount.low() * activeMolPerKg.low(),
                amount.typical() * activeMolPerKg.typical(),
                amount.high() * activeMolPerKg.high()),
            false,
            onActive)
        : this;
  }
}
