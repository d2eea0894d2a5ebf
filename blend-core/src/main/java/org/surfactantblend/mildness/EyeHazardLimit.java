package org.surfactantblend.mildness;

import org.surfactantblend.quantity.Require;

/**
 * From which active content up a surfactant counts as hazardous to the eye, in the classification
 * of chemicals. Local rules and the supplier's sheet go first.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param seriousFromPercent from here up: risk of serious eye damage [% active], more than 0
 * @param irritatingFromPercent from here up: eye irritation [% active], more than 0, at most the
 *     limit of serious damage
 * @param source the id of the source
 */
public record EyeHazardLimit(
    double seriousFromPercent, double irritatingFromPercent, String source) {
  /**
   * Checks the values.
   *
   * @param seriousFromPercent from here up: risk of serious eye damage [% active], more than 0
   * @param irritatingFromPercent from here up: eye irritation [% active], more than 0, at most the
   *     limit of serious damage
   * @param source the id of the source
   * @throws IllegalArgumentException if a limit is out of range or the source is blank
   */
  public EyeHazardLimit {
    Require.positive("limit of serious eye damage", seriousFromPercent, "% active");
    seriousFromPercent =
        Require.inRange("limit of serious eye damage", seriousFromPercent, 0, 100, "% active");
    Require.positive("limit of eye irritation", irritatingFromPercent, "% active");
    irritatingFromPercent =
        Require.inRange(
            "limit of eye irritation", irritatingFromPercent, 0, seriousFromPercent, "% active");
    source = Require.text("source of the eye-hazard limit", source);
  }
}
