package org.surfactantblend.quantity;

/**
 * A closed interval of pH, such as the window a brief asks for or the interval a prediction gives.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param low the lower end [pH units], -2 to 16
 * @param high the upper end [pH units], low to 16
 */
public record PhWindow(double low, double high) {
  /**
   * Checks both ends.
   *
   * @param low the lower end [pH units], -2 to 16
   * @param high the upper end [pH units], low to 16
   * @throws IllegalArgumentException if an end is outside -2 to 16 or the ends are in falling order
   */
  public PhWindow {
    low = Require.inRange("lower pH", low, -2, 16, "");
    high = Require.inRange("upper pH", high, low, 16, "");
  }

  /**
   * A window from its ends.
   *
   * @param lowInclusive the lower end [pH units], -2 to 16
   * @param highInclusive the upper end [pH units], low to 16
   * @return the window
   * @throws IllegalArgumentException if an end is outside -2 to 16 or the ends are in falling order
   */
  public static PhWindow of(double lowInclusive, double highInclusive) {
    return new PhWindow(lowInclusive, highInclusive);
  }

  /**
   * The distance between the ends.
   *
   * @return the width [pH units]
   */
  public double width() {
    return high - low;
  }

  /**
   * Whether a pH lies inside, ends included.
   *
   * @param ph the pH
   * @return true when inside
   */
  public boolean contains(double ph) {
    return ph >= low && ph <= high;
  }

  @Override
  public String toString() {
    return "pH " + Text.fixed(low, 2) + " to " + Text.fixed(high, 2);
  }
}
