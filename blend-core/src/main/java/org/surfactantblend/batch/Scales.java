package org.surfactantblend.batch;

import java.util.Comparator;
import java.util.List;
import org.surfactantblend.quantity.Scale;

/** The scales of a shop, finest first. */
record Scales(List<Scale> list) {
  /** More are soon miscounted (common practice, no source). */
  private static final int MOST_PORTIONS = 4;

  Scales {
    if (list.isEmpty()) {
      throw new IllegalArgumentException("scales were none, allowed is at least one");
    }
    list =
        list.stream()
            .sorted(
                Comparator.comparingDouble(Scale::resolutionGrams)
                    .thenComparing(Comparator.comparingDouble(Scale::capacityGrams).reversed()))
            .toList();
  }

  Scale finest() {
    return list.get(0);
  }

  /**
   * The finest scale that holds a mass at once; the one with the greatest capacity if none does.
   */
  Scale forMass(double grams) {
    Scale largest = list.get(0);
    for (Scale s : list) {
      if (s.capacityGrams() >= grams) {
        return s;
      }
      largest = s.capacityGrams() > largest.capacityGrams() ? s : largest;
    }
    return largest;
  }

  /**
   * The scale for a line: the one for its mass, or, where that is too coarse, the next finer one in
   * a few portions.
   */
  Scale forLine(double grams) {
    Scale one = forMass(grams);
    int finer = list.indexOf(one) - 1;
    return finer >= 0
            && grams < one.resolutionGrams() * BatchLine.FEWEST_DIVISIONS * (1 - 1e-9)
            && portions(list.get(finer), grams) <= MOST_PORTIONS
        ? list.get(finer)
        : one;
  }

  static int portions(Scale scale, double grams) {
    return (int) Math.max(1, Math.ceil(grams / scale.capacityGrams() - 1e-9));
  }
}
