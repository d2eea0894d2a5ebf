package org.surfactantblend.acidity;

import java.util.List;
import java.util.Objects;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.PhWindow;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Text;

/**
 * What to do next at the bench.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param action what to do
 * @param titrant what to weigh in, or what is in use
 * @param dose how much, in whole steps of the scale; zero unless the action is {@link Action#DOSE}
 * @param phNow the estimate of the true pH, from all readings together
 * @param likelyPhNow the central 90 % of the true pH
 * @param expectedReading what the meter is expected to show after the dose
 * @param likelyReading the central 90 % of that reading
 * @param remaining what is left to the target: central 90 % and middle [g], before this dose
 * @param reason why, without a full stop
 * @param cautions for whoever weighs it
 */
public record NextDose(
    Action action,
    Titrant titrant,
    Mass dose,
    double phNow,
    PhWindow likelyPhNow,
    double expectedReading,
    PhWindow likelyReading,
    Range remaining,
    String reason,
    List<String> cautions) {
  /** What to do. */
  public enum Action {
    /** Weigh the dose in, stir, wait, read. */
    DOSE,
    /** Read the pH: nothing was read since the last addition. */
    READ,
    /** Read again: the last reading does not fit. */
    READ_AGAIN,
    /** Stop: the estimate is within the tolerance. */
    FINISHED,
    /** It went past the target by more than the tolerance: see the repairs. */
    OVERSHOT,
    /** The right dose is less than the scale can weigh: use a weaker solution. */
    WEAKER_SOLUTION,
    /** The titrant pushes the wrong way: the opposite kind is needed. */
    OTHER_TITRANT,
    /** The titrant cannot reach the target. */
    OUT_OF_REACH
  }

  /**
   * Copies the list.
   *
   * @param action what to do
   * @param titrant what to weigh in, or what is in use
   * @param dose how much, in whole steps of the scale; zero unless the action is {@link
   *     Action#DOSE}
   * @param phNow the estimate of the true pH, from all readings together
   * @param likelyPhNow the central 90 % of the true pH
   * @param expectedReading what the meter is expected to show after the dose
   * @param likelyReading the central 90 % of that reading
   * @param remaining what is left to the target: central 90 % and middle [g], before this dose
   * @param reason why, without a full stop
   * @param cautions for whoever weighs it
   */
  public NextDose {
    Objects.requireNonNull(action, "action");
    Objects.requireNonNull(titrant, "titrant");
    Objects.requireNonNull(dose, "dose");
    Objects.requireNonNull(likelyPhNow, "likely pH now");
    Objects.requireNonNull(likelyReading, "likely reading");
    Objects.requireNonNull(remaining, "remaining");
    Objects.requireNonNull(reason, "reason");
    cautions = List.copyOf(cautions);
  }

  @Override
  public String toString() {
    StringBuilder s = new StringBuilder();
    s.append("Now pH ")
        .append(Text.fixed(phNow, 2))
        .append(" (likely ")
        .append(Text.fixed(likelyPhNow.low(), 2))
        .append(" to ")
        .append(Text.fixed(likelyPhNow.high(), 2))
        .append("). ");
    switch (action) {
      case DOSE ->
          s.append("Weigh in ")
              .append(Text.number(dose.inGrams()))
              .append(" g of ")
              .append(titrant)
              .append(", stir, wait, read.\n  Expect pH ")
              .append(Text.fixed(expectedReading, 2))
              .append(" (likely ")
              .append(Text.fixed(likelyReading.low(), 2))
              .append(" to ")
              .append(Text.fixed(likelyReading.high(), 2))
              .append("); in all ")
              .append(Text.fixed(remaining.typical(), 2))
              .append(" g are left (")
              .append(Text.fixed(remaining.low(), 2))
              .append(" to ")
              .append(Text.fixed(remaining.high(), 2))
              .append(").");
      case READ -> s.append("Read the pH.");
      case READ_AGAIN -> s.append("Read again.");
      case FINISHED -> s.append("Stop here.");
      case OVERSHOT -> s.append("Past the target.");
      case WEAKER_SOLUTION -> s.append("Use a weaker solution.");
      case OTHER_TITRANT -> s.append("Use the opposite kind of titrant.");
      case OUT_OF_REACH -> s.append("This titrant cannot reach the target.");
    }
    s.append("\n  ").append(reason).append(".\n");
    cautions.forEach(c -> s.append("  Caution: ").append(c).append(".\n"));
    return s.toString();
  }
}
