package org.surfactantblend.acidity;

import org.surfactantblend.quantity.Require;

/**
 * How well a pH can be read.
 *
 * <p>Common practice: a bench meter in buffers 0.02, a meter in viscous surfactant 0.05 to 0.1, a
 * pocket meter 0.1, strips 0.3 to 0.5.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param accuracy the standard deviation of one reading about the true pH [pH], 0.001 to 1
 */
public record Meter(double accuracy) {
  /**
   * Checks the figure.
   *
   * @param accuracy the standard deviation of one reading about the true pH [pH], 0.001 to 1
   * @throws IllegalArgumentException if it is out of range
   */
  public Meter {
    accuracy = Require.inRange("accuracy of the meter", accuracy, 0.001, 1, "pH");
  }

  /**
   * A meter from its accuracy.
   *
   * @param standardDeviation of one reading about the true pH [pH], 0.001 to 1
   * @return the meter
   * @throws IllegalArgumentException if it is out of range
   */
  public static Meter accurateTo(double standardDeviation) {
    return new Meter(standardDeviation);
  }
}
