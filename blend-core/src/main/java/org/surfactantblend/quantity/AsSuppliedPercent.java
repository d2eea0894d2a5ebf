package org.surfactantblend.quantity;

/**
 * Percent by mass of the finished product, weighed as the material comes out of its drum. Never to
 * be added to an {@link ActivePercent}.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param value the number [% m/m as supplied], 0 to 100
 */
public record AsSuppliedPercent(double value) implements Comparable<AsSuppliedPercent> {
  /**
   * Checks the range.
   *
   * @param value the number [% m/m as supplied], 0 to 100
   * @throws IllegalArgumentException if the value is NaN or outside 0 to 100 % m/m as supplied
   */
  public AsSuppliedPercent {
    value = Require.inRange("as-supplied percent", value, 0, 100, "% m/m as supplied");
  }

  /**
   * The same as the constructor, for reading aloud.
   *
   * @param value the number [% m/m as supplied], 0 to 100
   * @return the value
   * @throws IllegalArgumentException if the value is NaN or outside 0 to 100 % m/m as supplied
   */
  public static AsSuppliedPercent of(double value) {
    return new AsSuppliedPercent(value);
  }

  /**
   * The active matter that this much of a raw material brings.
   *
   * @param content the active matter of the raw material
   * @return the active matter of the product
   */
  public ActivePercent activeAt(ActivePercent content) {
    return new ActivePercent(value * content.value() / 100);
  }

  /**
   * The mass to weigh for a batch.
   *
   * @param batch the mass of the batch
   * @return the mass of this line
   */
  public Mass of(Mass batch) {
    return Mass.grams(batch.inGrams() * value / 100);
  }

  @Override
  public int compareTo(AsSuppliedPercent other) {
    return Double.compare(value, other.value);
  }

  @Override
  public String toString() {
    return Text.number(value) + " % as supplied";
  }
}
