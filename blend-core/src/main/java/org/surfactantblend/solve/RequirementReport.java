package org.surfactantblend.solve;

import java.util.OptionalDouble;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.quantity.Range;

/**
 * How a blend stands against one requirement.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param requirement what was asked
 * @param reached the figure at typical contents with its guaranteed range, in the requirement's
 *     unit
 * @param roomBelow how far the figure may fall before the lower end binds; infinite without one
 * @param roomAbove how far the figure may rise before the upper end binds; infinite without one
 * @param bindingLow whether the lower end holds the blend where it is
 * @param bindingHigh whether the upper end holds the blend where it is
 * @param gainPerPoint by how much the wish's figure improves when the binding end is moved outwards
 *     by one point, from solving again; empty when no end binds
 */
public record RequirementReport(
    Requirement requirement,
    Range reached,
    double roomBelow,
    double roomAbove,
    boolean bindingLow,
    boolean bindingHigh,
    OptionalDouble gainPerPoint) {
  /**
   * Whether an end holds the blend where it is.
   *
   * @return true when either end binds
   */
  public boolean isBinding() {
    return bindingLow || bindingHigh;
  }
}
