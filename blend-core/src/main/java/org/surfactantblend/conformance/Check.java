package org.surfactantblend.conformance;

import java.util.List;
import java.util.Objects;
import java.util.function.Supplier;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.problem.ProblemsException;

/**
 * One named question about one subject. Nothing is worked out before it is asked.
 *
 * <p>Immutable and thread-safe.
 */
public final class Check {
  private final String code;
  private final String subject;
  private final String sentence;
  private final Supplier<List<Problem>> question;

  Check(String code, String subject, String sentence, Supplier<List<Problem>> question) {
    this.code = code;
    this.subject = subject;
    this.sentence = sentence;
    this.question = question;
  }

  /** The same check without the findings that are accepted. */
  Check without(List<KnownDeviation> accepted) {
    return new Check(
        code,
        subject,
        sentence,
        () ->
            findings().stream().filter(f -> accepted.stream().noneMatch(d -> fits(d, f))).toList());
  }

  static boolean fits(KnownDeviation deviation, Problem finding) {
    return deviation.code().equals(finding.code())
        && deviation.subject().equals(finding.place().source());
  }

  /**
   * The name for programs.
   *
   * @return lower-case words with hyphens, such as {@code dry-residue}
   */
  public String code() {
    return code;
  }

  /**
   * What is checked.
   *
   * @return the id of a material with its lot if it has one, an acid, or the table
   */
  public String subject() {
    return subject;
  }

  /**
   * The name for people: subject and what ought to be true of it.
   *
   * @return a sentence, such as {@code decyl-glucoside-52: the dry residue is what its constituents
   *     add up to}
   */
  public String name() {
    return subject + ": " + sentence;
  }

  /**
   * What was found.
   *
   * @return one problem for each thing that is wrong, empty when all is well; a question that the
   *     figures do not even allow to be asked is an error with the code of this check
   */
  public List<Problem> findings() {
    try {
      return Objects.requireNonNull(question.get());
    } catch (IllegalArgumentException | IllegalStateException | ArithmeticException e) {
      return List.of(
          Problem.error(
              code,
              Place.in(subject, ""),
              "figures with which it cannot be worked out: " + e.getMessage(),
              sentence,
              ""));
    }
  }

  /**
   * Throws when something is wrong; made for a dynamic test.
   *
   * @throws ProblemsException if a finding is an error; warnings do not throw
   */
  public void orElseThrow() {
    List<Problem> found = findings();
    if (found.stream().anyMatch(Problem::isError)) {
      throw new ProblemsException(found);
    }
  }

  @Override
  public String toString() {
    return name();
  }
}
