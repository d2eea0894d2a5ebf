package org.surfactantblend.blend;

import java.util.Objects;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.AsSuppliedPercent;

/**
 * One line of a blend: a material and how much of it.
 *
 * <p>Immutable and thread-safe.
 *
 * @param material the material or lot
 * @param amount percent by mass of the product, as supplied
 */
public record BlendLine(Material material, AsSuppliedPercent amount) {
  /**
   * Checks that nothing is missing.
   *
   * @param material the material or lot
   * @param amount percent by mass of the product, as supplied
   * @throws NullPointerException if an argument is null
   */
  public BlendLine {
    Objects.requireNonNull(material, "material");
    Objects.requireNonNull(amount, "amount");
  }

  /**
   * The amount as a fraction.
   *
   * @return kg as supplied per kg of product, 0 to 1
   */
  public double massFraction() {
    return amount.value() / 100;
  }

  @Override
  public String toString() {
    return material + " " + amount;
  }
}
