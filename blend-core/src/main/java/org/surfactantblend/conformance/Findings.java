package org.surfactantblend.conformance;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Text;

/** Collects the findings of one check. */
final class Findings {
  private final String code;
  private final String subject;
  private final List<Problem> problems = new ArrayList<>();

  Findings(String code, String subject) {
    this.code = code;
    this.subject = subject;
  }

  /** The check that asks one question of a subject. */
  static Check check(String code, String subject, String sentence, Consumer<Findings> question) {
    return new Check(
        code,
        subject,
        sentence,
        () -> {
          Findings f = new Findings(code, subject);
          question.accept(f);
          return f.list();
        });
  }

  Findings error(String figure, String found, String allowed, String advice) {
    problems.add(Problem.error(code, Place.in(subject, figure), found, allowed, advice));
    return this;
  }

  Findings warning(String figure, String found, String allowed, String advice) {
    problems.add(Problem.warning(code, Place.in(subject, figure), found, allowed, advice));
    return this;
  }

  List<Problem> list() {
    return List.copyOf(problems);
  }

  static String span(Range r, String unit) {
    String numbers =
        r.isExact()
            ? Text.number(r.typical())
            : Text.number(r.low()) + " to " + Text.number(r.high());
    return unit.isEmpty() ? numbers : numbers + " " + unit;
  }
}
