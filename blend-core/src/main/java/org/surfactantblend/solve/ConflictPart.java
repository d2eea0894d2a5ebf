package org.surfactantblend.solve;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * One of the demands that cannot hold together, and what changing it alone would do.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param demand the demand in words
 * @param bound the end of a requirement it stands for, or empty when it is a setting of the brief
 * @param enoughAt the value at which this demand alone makes the brief feasible, rounded to the
 *     safe side and verified by solving again; empty when no change of it alone is enough or it has
 *     no value
 * @param change the smallest change in words, or that no change of this alone is enough
 */
public record ConflictPart(
    String demand, Optional<Bound> bound, OptionalDouble enoughAt, String change) {
  /** What {@link #change} says when nothing helps. */
  public static final String NOT_ENOUGH = "no change of this alone is enough";

  /**
   * Whether changing this demand alone is enough.
   *
   * @return true when it is
   */
  public boolean isEnoughAlone() {
    return !change.equals(NOT_ENOUGH);
  }
}
