package org.surfactantblend.material;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Require;

/**
 * One substance inside a raw material. Water is never listed: it is what the others leave.
 *
 * <p>Immutable and thread-safe.
 */
public final class Constituent {
  /** The INCI name under which sodium chloride is listed. */
  public static final String SODIUM_CHLORIDE = "Sodium Chloride";

  /** The INCI name under which water is counted. */
  public static final String WATER = "Aqua";

  private final String inciName;
  private final Range percent;
  private final @Nullable ChargeClass chargeClass;
  private final double molarMass;

  private Constituent(
      String inciName, Range percent, @Nullable ChargeClass chargeClass, double molarMass) {
    this.inciName = Require.text("INCI name", inciName);
    this.percent = Objects.requireNonNull(percent, "percent");
    Require.inRange("lowest percent of " + inciName, percent.low(), 0, 100, "% m/m");
    Require.inRange("highest percent of " + inciName, percent.high(), 0, 100, "% m/m");
    if (inciName.equalsIgnoreCase(WATER)) {
      throw new IllegalArgumentException(
          "constituent was Aqua, allowed is anything but water: it is what the others leave");
    }
    this.chargeClass = chargeClass;
    this.molarMass =
        Double.isNaN(molarMass)
            ? molarMass
            : Require.inRange("molar mass of " + inciName, molarMass, 10, 100000, "g/mol");
  }

  /**
   * A surface-active constituent.
   *
   * @param inciName its INCI name
   * @param percent its percent by mass of the raw material as supplied, 0 to 100
   * @param chargeClass its charge class
   * @param molarMass its mean molar mass [g/mol], 10 to 100000, or empty when not known
   * @return the constituent
   * @throws IllegalArgumentException if a figure is out of range
   */
  public static Constituent active(
      String inciName, Range percent, ChargeClass chargeClass, OptionalDouble molarMass) {
    return new Constituent(
        inciName,
        percent,
        Objects.requireNonNull(chargeClass, "charge class"),
        molarMass.orElse(Double.NaN));
  }

  /**
   * A constituent that is not surface-active.
   *
   * @param inciName its INCI name
   * @param percent its percent by mass of the raw material as supplied, 0 to 100
   * @return the constituent
   * @throws IllegalArgumentException if the percent is out of range
   */
  public static Constituent other(String inciName, Range percent) {
    return new Constituent(inciName, percent, null, Double.NaN);
  }

  /**
   * A constituent that is not surface-active, with its molar mass.
   *
   * @param inciName its INCI name
   * @param percent its percent by mass of the raw material as supplied, 0 to 100
   * @param molarMass its molar mass [g/mol], 10 to 100000, or empty when not known
   * @return the constituent
   * @throws IllegalArgumentException if a figure is out of range
   */
  public static Constituent other(String inciName, Range percent, OptionalDouble molarMass) {
    return new Constituent(inciName, percent, null, molarMass.orElse(Double.NaN));
  }

  /**
   * The INCI name.
   *
   * @return the name, never blank
   */
  public String inciName() {
    return inciName;
  }

  /**
   * Percent by mass of the raw material as supplied.
   *
   * @return the range [% m/m]
   */
  public Range percent() {
    return percent;
  }

  /**
   * Whether it counts as active matter.
   *
   * @return true for surfactants
   */
  public boolean isActive() {
    return chargeClass != null;
  }

  /**
   * The charge class of an active constituent.
   *
   * @return the class, or empty for what is not surface-active
   */
  public Optional<ChargeClass> chargeClass() {
    return Optional.ofNullable(chargeClass);
  }

  /**
   * The mean molar mass.
   *
   * @return the molar mass [g/mol], or empty when not known
   */
  public OptionalDouble molarMass() {
    return Double.isNaN(molarMass) ? OptionalDouble.empty() : OptionalDouble.of(molarMass);
  }

  /**
   * The same substance in another amount.
   *
   * @param newPercent percent by mass of the raw material as supplied, 0 to 100
   * @return the changed constituent
   * @throws IllegalArgumentException if the percent is out of range
   */
  public Constituent withPercent(Range newPercent) {
    return new Constituent(inciName, newPercent, chargeClass, molarMass);
  }

  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof Constituent c
        && c.inciName.equals(inciName)
        && c.percent.equals(percent)
        && c.chargeClass == chargeClass
        && Double.compare(c.molarMass, molarMass) == 0;
  }

  @Override
  public int hashCode() {
    return Objects.hash(inciName, percent, chargeClass, molarMass);
  }

  @Override
  public String toString() {
    return inciName + " " + percent + " %";
  }
}
