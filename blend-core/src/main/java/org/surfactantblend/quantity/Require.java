package org.surfactantblend.quantity;

import java.util.Objects;

/** Argument checks that name the value, what was given and what is allowed. */
public final class Require {
  private Require() {}

  /**
   * Returns {@code value} when it is a finite number within the closed range; a negative zero comes
   * back as zero.
   *
   * @param name what the number is, for the message
   * @param value the number to check
   * @param least the smallest allowed value, inclusive
   * @param most the largest allowed value, inclusive; may be infinite, the value itself may not
   * @param unit the unit, for the message; may be empty
   * @return the checked value
   * @throws IllegalArgumentException if the value is NaN, infinite or outside the range
   */
  public static double inRange(String name, double value, double least, double most, String unit) {
    if (!(value >= least && value <= most) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(
          name
              + " was "
              + value
              + ", allowed is "
              + (most < Double.MAX_VALUE
                  ? least + " to " + most + unitSuffix(unit)
                  : least > -Double.MAX_VALUE
                      ? least + unitSuffix(unit) + " or more"
                      : "a finite number"));
    }
    return value + 0.0;
  }

  /**
   * Returns {@code value} when it is above zero and finite.
   *
   * @param name what the number is, for the message
   * @param value the number to check
   * @param unit the unit, for the message; may be empty
   * @return the checked value
   * @throws IllegalArgumentException if the value is NaN, infinite, zero or negative
   */
  public static double positive(String name, double value, String unit) {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(
          name + " was " + value + ", allowed is more than 0" + unitSuffix(unit));
    }
    return value;
  }

  /**
   * Returns {@code text} without surrounding white space when something is left.
   *
   * @param name what the text is, for the message
   * @param text the text to check
   * @return the text, stripped
   * @throws NullPointerException if the text is null
   * @throws IllegalArgumentException if the text is blank
   */
  public static String text(String name, String text) {
    Objects.requireNonNull(text, name);
    String stripped = text.strip();
    if (stripped.isEmpty()) {
      throw new IllegalArgumentException(name + " was blank, allowed is at least one character");
    }
    return stripped;
  }

  private static String unitSuffix(String unit) {
    return unit.isEmpty() ? "" : " " + unit;
  }
}
