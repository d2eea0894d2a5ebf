package org.surfactantblend.quantity;

/**
 * A part of the active matter of a product, in percent of that active matter.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param value the number [% of the active], 0 to 100
 */
public record ShareOfActive(double value) implements Comparable<ShareOfActive> {
  /**
   * Checks the range.
   *
   * @param value the number [% of the active], 0 to 100
   * @throws IllegalArgumentException if the value is NaN or outside 0 to 100 % of the active
   */
  public ShareOfActive {
    value = Require.inRange("share of the active", value, 0, 100, "% of the active");
  }

  /**
   * The same as the constructor, for reading aloud.
   *
   * @param value the number [% of the active], 0 to 100
   * @return the value
   * @throws IllegalArgumentException if the value is NaN or outside 0 to 100 % of the active
   */
  public static ShareOfActive of(double value) {
    return new ShareOfActive(value);
  }

  @Override
  public int compareTo(ShareOfActive other) {
    return Double.compare(value, other.value);
  }

  @Override
  public String toString() {
    return Text.number(value) + " % of the active";
  }
}
