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

  /** The same end at another value, without the other end, which it may then pass. */
  Bound aloneAt(double value) {
    Requirement r = requirement;
    return new Bound(
        new Requirement(
            r.kind(),
            r.subject(),
            upper ? Double.NEGATIVE_INFINITY : value,
            upper ? value : Double.POSITIVE_INFINITY,
            r.atPh()),
        upper);
  }

  /** How far this end can be moved before it means nothing. */
  double mostLoosening() {
    return switch (requirement.kind()) {
      case STARTING_PH, STARTING_PH_OF_SURFACTANTS -> upper ? 14 - value() : value();
      case COST -> 1e6;
      case NET_ANIONIC_CHARGE -> 1e5;
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
