package org.surfactantblend.acidity;

import java.util.Objects;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/** One thing that was done in a titration: read, dosed, or mended with fresh product. */
public sealed interface TitrationStep
    permits PhReading, TitrationStep.Dosed, TitrationStep.FreshProduct {
  /**
   * A dose that was weighed in and stirred.
   *
   * @param titrant what
   * @param grams how much, as the scale showed it [g], 0 or more
   */
  record Dosed(Titrant titrant, double grams) implements TitrationStep {
    /**
     * Checks the figures.
     *
     * @param titrant what
     * @param grams how much, as the scale showed it [g], 0 or more
     * @throws IllegalArgumentException if the mass is negative or not finite
     */
    public Dosed {
      Objects.requireNonNull(titrant, "titrant");
      grams = Require.inRange("dose", grams, 0, 1e9, "g");
    }

    @Override
    public String toString() {
      return Text.number(grams) + " g of " + titrant;
    }
  }

  /**
   * Product of the same batch, held back before the titration, that was stirred in.
   *
   * @param grams how much [g], 0 or more
   */
  record FreshProduct(double grams) implements TitrationStep {
    /**
     * Checks the figure.
     *
     * @param grams how much [g], 0 or more
     * @throws IllegalArgumentException if the mass is negative or not finite
     */
    public FreshProduct {
      grams = Require.inRange("product added", grams, 0, 1e9, "g");
    }

    @Override
    public String toString() {
      return Text.number(grams) + " g of unacidified product";
    }
  }
}
