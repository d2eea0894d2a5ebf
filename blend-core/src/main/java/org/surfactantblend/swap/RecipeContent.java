package org.surfactantblend.swap;

import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Require;

/**
 * How much of a substance a recipe holds, from all sources.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param inciName the substance
 * @param percent how much of it [% m/m of the product]
 * @param classOrNull its charge class, or null when it is no active matter
 * @param wanted true for what the recipe is about: the main substance of one of its lines; false
 *     for what only comes along inside a raw material
 */
public record RecipeContent(
    String inciName, Range percent, @Nullable ChargeClass classOrNull, boolean wanted) {
  /**
   * Checks the figures.
   *
   * @param inciName the substance
   * @param percent how much of it [% m/m of the product]
   * @param classOrNull its charge class, or null when it is no active matter
   * @param wanted true for what the recipe is about: the main substance of one of its lines; false
   *     for what only comes along inside a raw material
   * @throws IllegalArgumentException if the name is blank or the percentage outside 0 to 100
   */
  public RecipeContent {
    inciName = Require.text("INCI name", inciName);
    Objects.requireNonNull(percent, "percent");
    Require.inRange("lowest percent of " + inciName, percent.low(), 0, 100, "% m/m");
    Require.inRange("typical percent of " + inciName, percent.typical(), 0, 100, "% m/m");
  }

  /**
   * Its charge class.
   *
   * @return the class, or empty when it is no active matter
   */
  public Optional<ChargeClass> chargeClass() {
    return Optional.ofNullable(classOrNull);
  }

  @Override
  public String toString() {
    return inciName + " " + percent + " %";
  }
}
