package org.surfactantblend.quantity;

/**
 * Surface-active matter in percent by mass, of whatever holds it: a raw material or a product.
 * Never to be added to an {@link AsSuppliedPercent}.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param value the number [% active], 0 to 100
 */
public record ActivePercent(double value) implements Comparable<ActivePercent> {
  /**
   * Checks the range.
   *
   * @param value the number [% active], 0 to 100
   * @throws IllegalArgumentException if the value is NaN or outside 0 to 100 % active
   */
  public ActivePercent {
    value = Require.inRange("active percent", value, 0, 100, "% active");
  }

  /**
   * The same as the constructor, for reading aloud.
   *
   * @param value the number [% active], 0 to 100
   * @return the value
   * @throws IllegalArgumentException if the value is NaN or outside 0 to 100 % active
   */
  public static ActivePercent of(double value) {
    return new ActivePercent(value);
  }

  /**
   * How much of a raw material as supplied brings this much active matter into a product.
   *
   * @param content the active matter of the raw material, more than 0
   * @return the percentage as supplied
   * @throws IllegalArgumentException if the content is 0, or so low that more than 100 % would be
   *     needed
   */
  public AsSuppliedPercent asSuppliedAt(ActivePercent content) {
    Require.positive("active content", content.value, "% active");
    return new AsSuppliedPercent(value / content.value * 100);
  }

  @Override
  public int compareTo(ActivePercent other) {
    return Double.compare(value, other.value);
  }

  @Override
  public String toString() {
    return Text.number(value) + " % active";
  }
}
