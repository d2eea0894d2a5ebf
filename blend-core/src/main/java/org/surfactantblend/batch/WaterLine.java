package org.surfactantblend.batch;

import java.util.List;
import org.surfactantblend.material.Material;

/**
 * The water of a batch sheet, which takes up what rounding leaves.
 *
 * <p>Immutable and thread-safe.
 *
 * @param material the water
 * @param percent percent of the product [% m/m]
 * @param exactGrams the water by the recipe [g]
 * @param residualGrams the batch less all rounded lines [g]: the exact rest
 * @param pours how it is weighed: once, with the percent and exact mass of the recipe, or with the
 *     last grams on a finer scale
 */
public record WaterLine(
    Material material,
    double percent,
    double exactGrams,
    double residualGrams,
    List<BatchLine> pours) {
  /**
   * Copies the list.
   *
   * @param material the water
   * @param percent percent of the product [% m/m]
   * @param exactGrams the water by the recipe [g]
   * @param residualGrams the batch less all rounded lines [g]: the exact rest
   * @param pours how it is weighed: once, with the percent and exact mass of the recipe, or with
   *     the last grams on a finer scale
   */
  public WaterLine {
    pours = List.copyOf(pours);
  }

  /**
   * The water as it can be weighed.
   *
   * @return the sum of the pours [g]
   */
  public double weighGrams() {
    double sum = 0;
    for (BatchLine p : pours) {
      sum += p.weighGrams();
    }
    return sum;
  }
}
