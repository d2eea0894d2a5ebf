package org.surfactantblend.quantity;

/**
 * A mass, 0 or more.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param inGrams the mass [g]
 */
public record Mass(double inGrams) implements Comparable<Mass> {
  /**
   * Checks the range.
   *
   * @param inGrams the mass [g]
   * @throws IllegalArgumentException if the mass is NaN, infinite or negative
   */
  public Mass {
    inGrams = Require.inRange("mass", inGrams, 0, Double.MAX_VALUE, "g");
  }

  /**
   * A mass from grams.
   *
   * @param grams the mass [g], 0 or more
   * @return the mass
   * @throws IllegalArgumentException if it is NaN, infinite or negative
   */
  public static Mass grams(double grams) {
    return new Mass(grams);
  }

  /**
   * A mass from kilograms.
   *
   * @param kilograms the mass [kg], 0 or more
   * @return the mass
   * @throws IllegalArgumentException if it is NaN, infinite or negative
   */
  public static Mass kilograms(double kilograms) {
    return new Mass(kilograms * 1000);
  }

  /**
   * The mass in kilograms.
   *
   * @return the mass [kg]
   */
  public double inKilograms() {
    return inGrams / 1000;
  }

  @Override
  public int compareTo(Mass other) {
    return Double.compare(inGrams, other.inGrams);
  }

  @Override
  public String toString() {
    return Text.number(inGrams) + " g";
  }
}
