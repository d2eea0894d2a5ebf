package org.surfactantblend.batch;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Scale;

/**
 * One line of a batch sheet.
 *
 * <p>Immutable and thread-safe.
 *
 * @param material the material or lot
 * @param percent percent of the product [% m/m as supplied]
 * @param exactGrams the exact mass [g]
 * @param weighGrams what to weigh [g], a whole number of steps of the scale
 * @param scale on which scale
 * @param portions in how many portions, because the scale cannot hold all at once; usually 1
 * @param phase when it goes in
 * @param premixOrNull the premix proposed because the line is too small for the scale
 */
public record BatchLine(
    Material material,
    double percent,
    double exactGrams,
    double weighGrams,
    Scale scale,
    int portions,
    Phase phase,
    @Nullable Premix premixOrNull) {
  /** The fewest steps of a scale that a line should have: half a step is then 1 % of it. */
  public static final int FEWEST_DIVISIONS = 50;

  /**
   * The error of rounding.
   *
   * @return weighed less exact [% of the exact mass], 0 for an empty line
   */
  public double errorPercent() {
    return exactGrams == 0 ? 0 : (weighGrams - exactGrams) / exactGrams * 100;
  }

  /**
   * How many steps of its scale the line has.
   *
   * @return the exact mass over the step
   */
  public double divisions() {
    return exactGrams / scale.resolutionGrams();
  }

  /**
   * Whether the line is too small for its scale.
   *
   * @return true when it has some mass but fewer than {@link #FEWEST_DIVISIONS} steps
   */
  public boolean isTooSmall() {
    return exactGrams > 0 && divisions() < FEWEST_DIVISIONS - 1e-9;
  }

  /**
   * What to weigh, with the decimals of the scale.
   *
   * @return the mass [g]
   */
  public String weighText() {
    return BatchSheet.grams(weighGrams, scale);
  }

  /**
   * How to get a line right that is too small for its scale.
   *
   * @return a premix, or the advice to take a finer scale; empty when nothing is wrong
   */
  public String advice() {
    return !isTooSmall()
        ? ""
        : premixOrNull == null ? "take a finer scale or make a larger batch" : premixOrNull.text();
  }

  /**
   * The premix proposed for a line that is too small: 10 %, or else 1 %.
   *
   * @return the premix, or empty when the line can be weighed as it is or no premix would help
   */
  public Optional<Premix> premix() {
    return Optional.ofNullable(premixOrNull);
  }
}
