package org.surfactantblend.quantity;

/**
 * A pH, minus the decimal logarithm of the hydrogen-ion activity, as meters read it.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param value the number [pH units], -2 to 16
 */
public record Ph(double value) implements Comparable<Ph> {
  /**
   * Checks the range.
   *
   * @param value the number [pH units], -2 to 16
   * @throws IllegalArgumentException if the value is NaN or outside -2 to 16 pH
   */
  public Ph {
    value = Require.inRange("pH", value, -2, 16, "");
  }

  /**
   * The same as the constructor, for reading aloud.
   *
   * @param value the number [pH units], -2 to 16
   * @return the value
   * @throws IllegalArgumentException if the value is NaN or outside -2 to 16 pH
   */
  public static Ph of(double value) {
    return new Ph(value);
  }

  @Override
  public int compareTo(Ph other) {
    return Double.compare(value, other.value);
  }

  @Override
  public String toString() {
    return "pH " + Text.number(value);
  }
}
