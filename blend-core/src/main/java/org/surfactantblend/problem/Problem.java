package org.surfactantblend.problem;

import java.util.Objects;

/**
 * One thing that is wrong with what a person entered.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param code a stable, lower-case, hyphenated name for programs, such as {@code number-format}
 * @param severity whether the figure is unusable or only doubtful
 * @param place where it stands
 * @param found what was found there
 * @param allowed what is allowed there
 * @param advice what probably helps; empty when there is nothing to suggest
 */
public record Problem(
    String code, Severity severity, Place place, String found, String allowed, String advice) {
  /**
   * Checks that nothing is missing.
   *
   * @param code a stable, lower-case, hyphenated name for programs, such as {@code number-format}
   * @param severity whether the figure is unusable or only doubtful
   * @param place where it stands
   * @param found what was found there
   * @param allowed what is allowed there
   * @param advice what probably helps; empty when there is nothing to suggest
   * @throws NullPointerException if an argument is null
   */
  public Problem {
    Objects.requireNonNull(code, "code");
    Objects.requireNonNull(severity, "severity");
    Objects.requireNonNull(place, "place");
    Objects.requireNonNull(found, "found");
    Objects.requireNonNull(allowed, "allowed");
    Objects.requireNonNull(advice, "advice");
  }

  /**
   * An error.
   *
   * @param code the name for programs
   * @param place where it stands
   * @param found what was found
   * @param allowed what is allowed
   * @param advice what probably helps, or empty
   * @return the problem
   */
  public static Problem error(
      String code, Place place, String found, String allowed, String advice) {
    return new Problem(code, Severity.ERROR, place, found, allowed, advice);
  }

  /**
   * A warning.
   *
   * @param code the name for programs
   * @param place where it stands
   * @param found what was found
   * @param allowed what is expected
   * @param advice what probably helps, or empty
   * @return the problem
   */
  public static Problem warning(
      String code, Place place, String found, String allowed, String advice) {
    return new Problem(code, Severity.WARNING, place, found, allowed, advice);
  }

  /**
   * Whether this is an error.
   *
   * @return true for {@link Severity#ERROR}
   */
  public boolean isError() {
    return severity == Severity.ERROR;
  }

  /** One or two lines for a person. */
  @Override
  public String toString() {
    String line =
        (isError() ? "error " : "warning ")
            + code
            + " at "
            + place
            + ": found "
            + found
            + "; allowed: "
            + allowed
            + ".";
    return advice.isEmpty() ? line : line + " Maybe: " + advice;
  }
}
