package org.surfactantblend.quantity;

/**
 * A weighing scale: the step it shows and the most it can hold.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param resolutionGrams the step of the display [g], more than 0
 * @param capacityGrams the most it can weigh [g], at least the resolution
 */
public record Scale(double resolutionGrams, double capacityGrams) {
  /**
   * Checks both figures.
   *
   * @throws IllegalArgumentException if the resolution is not above 0 or the capacity is below it
   */
  public Scale {
    Require.positive("resolution", resolutionGrams, "g");
    Require.inRange("capacity", capacityGrams, resolutionGrams, Double.MAX_VALUE, "g");
  }

  /**
   * A scale from its two figures.
   *
   * @param resolutionGrams the step of the display [g], more than 0
   * @param capacityGrams the most it can weigh [g], at least the resolution
   * @return the scale
   * @throws IllegalArgumentException if the resolution is not above 0 or the capacity is below it
   */
  public static Scale of(double resolutionGrams, double capacityGrams) {
    return new Scale(resolutionGrams, capacityGrams);
  }

  @Override
  public String toString() {
    return Text.number(resolutionGrams) + " g steps up to " + Text.number(capacityGrams) + " g";
  }
}
