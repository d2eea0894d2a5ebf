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
   * @param resolutionGrams the step of the display [g], more than 0
   * @param capacityGrams the most it can weigh [g], at least the resolution
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

  /**
   * A mass as this scale can show it, half a step rounded up. A mass that arithmetic left less than
   * a billionth of a step below the half counts as the half.
   *
   * @param grams the mass [g], 0 or more
   * @return the nearest whole number of steps [g]
   */
  public double round(double grams) {
    return grams(Math.floor(stepsIn(grams) + 0.5));
  }

  /**
   * The greatest mass this scale can show that is not above a mass.
   *
   * @param grams the mass [g], 0 or more
   * @return a whole number of steps [g]
   */
  public double roundDown(double grams) {
    return grams(Math.floor(stepsIn(grams)));
  }

  private double stepsIn(double grams) {
    double steps = grams / resolutionGrams;
    return steps + 1e-9 * Math.max(1, steps * 1e-4);
  }

  private double grams(double steps) {
    // Dividing by a whole number gives 34.9 where multiplying by 0.1 gives 34.900000000000006.
    double perGram = Math.rint(1 / resolutionGrams);
    return perGram >= 1 && Math.abs(perGram * resolutionGrams - 1) < 1e-12
        ? steps / perGram
        : steps * resolutionGrams;
  }

  @Override
  public String toString() {
    return Text.number(resolutionGrams) + " g steps up to " + Text.number(capacityGrams) + " g";
  }
}
