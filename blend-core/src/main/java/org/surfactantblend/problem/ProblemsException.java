package org.surfactantblend.problem;

import java.util.List;
import java.util.stream.Collectors;

/** Thrown when a caller asks for a value that could not be built; carries every problem found. */
public final class ProblemsException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient List<Problem> problems;

  /**
   * An exception for a list of problems.
   *
   * @param problems what was found, at least one
   */
  public ProblemsException(List<Problem> problems) {
    super(
        problems.stream()
            .map(Problem::toString)
            .collect(
                Collectors.joining(
                    "\n", problems.size() == 1 ? "" : problems.size() + " problems:\n", "")));
    this.problems = List.copyOf(problems);
  }

  /**
   * Every problem found.
   *
   * @return an immutable list, in the order in which they were met
   */
  public List<Problem> problems() {
    return problems;
  }
}
