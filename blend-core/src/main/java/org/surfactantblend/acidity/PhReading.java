package org.surfactantblend.acidity;

import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/**
 * A pH as it was read, with the state of the sample.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param ph what the meter showed, 0 to 14
 * @param temperatureC the temperature of the sample, with the meter's compensation on [C], 0 to 60
 * @param dilutionPercent how much product the sample holds [% m/m], 0.1 to 100; 100 is neat, 10 is
 *     one part in ten with water free of carbon dioxide
 */
public record PhReading(double ph, double temperatureC, double dilutionPercent)
    implements TitrationStep {
  /** The temperature at which the constants stand [C]. */
  public static final double REFERENCE_C = 25;

  /**
   * Checks the figures.
   *
   * @param ph what the meter showed, 0 to 14
   * @param temperatureC the temperature of the sample, with the meter's compensation on [C], 0 to
   *     60
   * @param dilutionPercent how much product the sample holds [% m/m], 0.1 to 100; 100 is neat, 10
   *     is one part in ten with water free of carbon dioxide
   * @throws IllegalArgumentException if one is out of range
   */
  public PhReading {
    ph = Require.inRange("reading", ph, 0, 14, "pH");
    temperatureC = Require.inRange("temperature of the sample", temperatureC, 0, 60, "C");
    dilutionPercent = Require.inRange("product in the sample", dilutionPercent, 0.1, 100, "% m/m");
  }

  /**
   * A reading in the neat product at 25 C.
   *
   * @param ph what the meter showed, 0 to 14
   * @return the reading
   * @throws IllegalArgumentException if it is out of range
   */
  public static PhReading of(double ph) {
    return new PhReading(ph, REFERENCE_C, 100);
  }

  /**
   * The same reading at another temperature.
   *
   * @param celsius the temperature of the sample [C], 0 to 60
   * @return the changed reading
   * @throws IllegalArgumentException if it is out of range
   */
  public PhReading at(double celsius) {
    return new PhReading(ph, celsius, dilutionPercent);
  }

  /**
   * The same reading in a diluted sample.
   *
   * @param percent product in the sample [% m/m], 0.1 to 100
   * @return the changed reading
   * @throws IllegalArgumentException if it is out of range
   */
  public PhReading diluted(double percent) {
    return new PhReading(ph, temperatureC, percent);
  }

  /** Whether it was read neat at about the reference temperature. */
  boolean isPlain() {
    return dilutionPercent == 100 && Math.abs(temperatureC - REFERENCE_C) <= 5;
  }

  @Override
  public String toString() {
    return "pH "
        + Text.fixed(ph, 2)
        + (temperatureC == REFERENCE_C ? "" : " at " + Text.number(temperatureC) + " C")
        + (dilutionPercent == 100 ? "" : " in " + Text.number(dilutionPercent) + " % of product");
  }
}
