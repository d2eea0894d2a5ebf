package org.surfactantblend.io;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;

/** Collects problems up to a limit, so that a hopeless file gives a readable answer. */
final class ProblemLog {
  /** The most problems one reading reports. */
  static final int MOST = 1000;

  private final List<Problem> problems = new ArrayList<>();
  private int errors;

  void add(Problem problem) {
    errors += problem.isError() ? 1 : 0;
    if (problems.size() < MOST) {
      problems.add(problem);
    } else if (problems.size() == MOST) {
      problems.add(
          Problem.error(
              ProblemCodes.TOO_MANY_PROBLEMS,
              Place.in(problem.place().source(), ""),
              "more than " + MOST + " problems",
              "at most " + MOST + " are listed",
              "mend the first ones and read the file again; often one cause repeats"));
    }
  }

  /** How many errors were met. */
  int errors() {
    return errors;
  }

  boolean isFull() {
    return problems.size() > MOST;
  }

  /** In the order of their rows, and as met within one row. */
  List<Problem> problems() {
    if (problems.isEmpty()) {
      return List.of();
    }
    return problems.stream().sorted(Comparator.comparingInt(p -> p.place().row())).toList();
  }
}
