package org.surfactantblend.swap;

import java.util.Objects;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Mass;

/**
 * What is left of a lot.
 *
 * <p>Immutable and thread-safe.
 *
 * @param lot the lot or material
 * @param mass what is left of it
 */
public record Stock(Material lot, Mass mass) {
  /**
   * Checks that nothing is missing.
   *
   * @param lot the lot or material
   * @param mass what is left of it
   * @throws NullPointerException if an argument is null
   */
  public Stock {
    Objects.requireNonNull(lot, "lot");
    Objects.requireNonNull(mass, "mass");
  }
}
