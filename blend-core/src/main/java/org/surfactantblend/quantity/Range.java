package org.surfactantblend.quantity;

/**
 * A figure with what is known of its spread: the least, the typical and the greatest value, all in
 * one unit that the owner of the range names.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param low the least value, inclusive
 * @param typical the value to reckon with, between low and high
 * @param high the greatest value, inclusive
 */
public record Range(double low, double typical, double high) {
  /** The range that holds only zero. */
  public static final Range ZERO = new Range(0, 0, 0);

  /**
   * Checks the order of the three values.
   *
   * @param low the least value, inclusive
   * @param typical the value to reckon with, between low and high
   * @param high the greatest value, inclusive
   * @throws IllegalArgumentException if a value is not finite or they are not in rising order
   */
  public Range {
    low = Require.inRange("low", low, -Double.MAX_VALUE, Double.MAX_VALUE, "");
    high = Require.inRange("high", high, low, Double.MAX_VALUE, "");
    typical = Require.inRange("typical", typical, low, high, "");
  }

  /**
   * A range with all three values stated.
   *
   * @param low the least value
   * @param typical the typical value
   * @param high the greatest value
   * @return the range
   * @throws IllegalArgumentException if they are not finite and in rising order
   */
  public static Range of(double low, double typical, double high) {
    return new Range(low, typical, high);
  }

  /**
   * A range whose typical value was not stated: the middle is taken.
   *
   * @param low the least value
   * @param high the greatest value
   * @return the range
   * @throws IllegalArgumentException if they are not finite and in rising order
   */
  public static Range between(double low, double high) {
    return new Range(low, low + (high - low) / 2, high);
  }

  /**
   * A range without spread.
   *
   * @param value the one value
   * @return the range
   * @throws IllegalArgumentException if the value is not finite
   */
  public static Range exactly(double value) {
    return new Range(value, value, value);
  }

  /**
   * The sum, low with low and high with high: the guaranteed range of a sum.
   *
   * @param other the range to add
   * @return the sum
   */
  public Range plus(Range other) {
    return new Range(low + other.low, typical + other.typical, high + other.high);
  }

  /**
   * Every value multiplied by a factor that is not negative.
   *
   * @param factor the factor, 0 or more
   * @return the scaled range
   * @throws IllegalArgumentException if the factor is negative or not finite
   */
  public Range times(double factor) {
    Require.inRange("factor", factor, 0, Double.MAX_VALUE, "");
    return new Range(low * factor, typical * factor, high * factor);
  }

  /**
   * The distance from low to high.
   *
   * @return the width, 0 or more
   */
  public double width() {
    return high - low;
  }

  /**
   * Whether low and high are the same.
   *
   * @return true when there is no spread
   */
  public boolean isExact() {
    return low == high;
  }

  /**
   * Whether a value lies between low and high, ends included.
   *
   * @param value the value
   * @return true when it lies inside
   */
  public boolean contains(double value) {
    return value >= low && value <= high;
  }

  @Override
  public String toString() {
    return isExact()
        ? Text.number(typical)
        : Text.number(low) + ".." + Text.number(typical) + ".." + Text.number(high);
  }
}
