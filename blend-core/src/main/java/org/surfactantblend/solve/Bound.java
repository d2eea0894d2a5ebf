package org.surfactantblend.solve;

import org.surfactantblend.brief.Requirement;
import org.surfactantblend.quantity.Text;

/**
 * One end of a requirement: the unit in which conflicts and changes are told.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param requirement the requirement
 * @param upper true for its upper end, false for its lower one
 */
public record Bound(Requirement requirement, boolean upper) {
  private static final double LEAST_ACTIVE = 0.1;

  /**
   * The value of this end.
   *
   * @return the value, in the unit of the requirement's kind
   */
  public double value() {
    return upper ? requirement.high() : requirement.low();
  }

  /**
   * The same end moved outwards.
   *
   * @param by how far, 0 or more
   * @return the looser end
   */
  Bound loosened(double by) {
    return new Bound(upper ? requirement.loosenedHigh(by) : requirement.loosenedLow(by), upper);
  }

  /** The same end as loose as it can be: nothing is asked, but for a trace of active matter. */
  Bound loosest() {
    return loosened(mostLoosening());
  }

  /** Whether giving this end up still leaves a condition. */
  boolean leavesATrace() {
    return requirement.kind() == Requirement.Kind.TOTAL_ACTIVE && !upper;
  }

  /** How far this end can be moved before it means nothing. */
  double mostLoosening() {
    return switch (requirement.kind()) {
      case STARTING_PH, STARTING_PH_OF_SURFACTANTS -> upper ? 14 - value() : value();
      case COST -> 1e6;
      // Without any active matter every share would be met: that is no way out.
      case TOTAL_ACTIVE -> upper ? 100 - value() : Math.max(0, value() - LEAST_ACTIVE);
      case NET_ANIONIC_CHARGE -> 1e5;
      case NET_ANIONIC_CHARGE_SHARE -> upper ? 400 - value() : value();
      case IRRITATION_INDEX, BLENDED_INDEX -> upper ? 200 - value() : value();
      default -> upper ? 100 - value() : value();
    };
  }

  /**
   * The end with another value, in words.
   *
   * @param value the value
   * @return for instance {@code share of amphoteric at most 60 % of the active}
   */
  String withValue(double value) {
    String unit = requirement.kind().unit();
    return requirement.label()
        + (upper ? " at most " : " at least ")
        + Text.number(value)
        + (unit.isEmpty() ? "" : " " + unit);
  }

  @Override
  public String toString() {
    return withValue(value());
  }
}
