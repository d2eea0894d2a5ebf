package org.surfactantblend.batch;

import org.jspecify.annotations.Nullable;
import org.surfactantblend.quantity.Scale;
import org.surfactantblend.quantity.Text;

/**
 * A dilution made first because a line is too small for the scale, in water or in another liquid of
 * the recipe in which the material dissolves.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param strengthPercent how much of the material the premix holds [% m/m], 10 or 1
 * @param materialGrams how much of the material to weigh for it [g]
 * @param liquidGrams how much liquid to add to that [g]
 * @param toWeighGrams how much of the premix to put into the batch [g]
 * @param liquidBroughtGrams how much of the liquid line to leave out for it [g]
 */
public record Premix(
    double strengthPercent,
    double materialGrams,
    double liquidGrams,
    double toWeighGrams,
    double liquidBroughtGrams) {

  /** A weaker one wastes kilograms for a line of less than a step; a finer scale is the answer. */
  private static final double[] STRENGTHS = {10, 1};

  /**
   * The strongest premix of a line that gives it enough divisions, if the batch has a line that can
   * give up its liquid.
   */
  static @Nullable Premix forLine(double grams, Scale scale, Scales on, double mostLiquid) {
    double least = scale.resolutionGrams() * BatchLine.FEWEST_DIVISIONS;
    if (grams <= 0 || grams >= least * (1 - 1e-9)) {
      return null;
    }
    for (double percent : STRENGTHS) {
      double exact = grams * 100 / percent;
      Scale fit = on.forMass(exact);
      double toWeigh = fit.round(exact);
      double brought = toWeigh * (1 - percent / 100);
      if (exact >= fit.resolutionGrams() * BatchLine.FEWEST_DIVISIONS * (1 - 1e-9)
          && brought <= mostLiquid) {
        double material = Math.max(least, 2 * grams);
        material = on.forMass(material).round(material);
        return new Premix(percent, material, material * (100 / percent - 1), toWeigh, brought);
      }
    }
    return null;
  }

  /**
   * What to do, in one sentence without its full stop.
   *
   * @return the words
   */
  public String text() {
    return "mix "
        + Text.number(materialGrams)
        + " g with "
        + Text.number(liquidGrams)
        + " g of water or another liquid line that dissolves it, weigh "
        + Text.number(toWeighGrams)
        + " g of that and leave out "
        + Text.number(liquidBroughtGrams)
        + " g of the liquid";
  }
}
