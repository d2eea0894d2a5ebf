package org.surfactantblend.swap;

import java.util.OptionalDouble;
import org.surfactantblend.quantity.Text;

/**
 * A figure in which two swaps end differently.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param name the figure
 * @param unit its unit
 * @param first the figure after the first swap, empty when that one has no such figure
 * @param second the figure after the second swap, empty when that one has no such figure
 */
public record FigureDifference(
    String name, String unit, OptionalDouble first, OptionalDouble second) {
  @Override
  public String toString() {
    return name + " " + text(first) + " | " + text(second) + (unit.isEmpty() ? "" : " " + unit);
  }

  private static String text(OptionalDouble v) {
    return v.isPresent() ? Text.number(v.getAsDouble()) : "-";
  }
}
