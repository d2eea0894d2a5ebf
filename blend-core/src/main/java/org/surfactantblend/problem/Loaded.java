package org.surfactantblend.problem;

import java.util.List;
import java.util.Objects;

/**
 * What could be read, together with everything that was wrong: the good part stays usable.
 *
 * <p>Immutable and thread-safe when the value is.
 *
 * @param <T> what was read
 * @param value the good part
 * @param problems every problem met, in order
 */
public record Loaded<T>(T value, List<Problem> problems) {
  /**
   * Copies the list.
   *
   * @param value the good part
   * @param problems every problem met, in order
   * @throws NullPointerException if an argument is null
   */
  public Loaded {
    Objects.requireNonNull(value, "value");
    problems = List.copyOf(problems);
  }

  /**
   * Whether anything could not be used.
   *
   * @return true when at least one problem is an error
   */
  public boolean hasErrors() {
    for (Problem problem : problems) {
      if (problem.isError()) {
        return true;
      }
    }
    return false;
  }

  /**
   * The value, when nothing in it had to be left out.
   *
   * @return the value
   * @throws ProblemsException if any problem is an error; warnings do not throw
   */
  public T orElseThrow() {
    if (hasErrors()) {
      throw new ProblemsException(problems);
    }
    return value;
  }
}
