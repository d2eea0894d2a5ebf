package org.surfactantblend.acidity;

import java.util.Objects;

/**
 * A reading that does not fit, and the likely cause.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param step the place of the reading among the steps of the titration, 0 for the first
 * @param kind what is wrong
 * @param text what was found and what to do, without a full stop
 * @param held true when the reading is kept out of the learning until a second reading confirms it
 */
public record ReadingFlag(int step, Kind kind, String text, boolean held) {
  /** What can be wrong with a reading. */
  public enum Kind {
    /** The pH moved against the dose: not stirred, electrode not settled, wrong bottle. */
    AGAINST_THE_DOSE,
    /** Two readings without a dose between them disagree. */
    DRIFTING,
    /** One unit more or less would fit well. */
    TYPING_ERROR,
    /** The start contradicts a sheet pH; the titration goes on. */
    CONTRADICTS_A_SHEET,
    /** It, or three that agree, is far from everything the model holds possible. */
    CONTRADICTS_THE_MODEL,
    /** Read hot or diluted: worth less than a neat reading at 20 to 25 C. */
    NOT_COMPARABLE
  }

  /**
   * Checks that nothing is missing.
   *
   * @param step the place of the reading among the steps of the titration, 0 for the first
   * @param kind what is wrong
   * @param text what was found and what to do, without a full stop
   * @param held true when the reading is kept out of the learning until a second reading confirms
   *     it
   */
  public ReadingFlag {
    Objects.requireNonNull(kind, "kind");
    Objects.requireNonNull(text, "text");
  }

  @Override
  public String toString() {
    return text;
  }
}
