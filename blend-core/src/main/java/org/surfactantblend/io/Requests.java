package org.surfactantblend.io;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Objects;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Problem;

/**
 * One JSON request in, one JSON answer out: the boundary for tools that are not written in Java.
 *
 * <p>Every request is an object with {@code version} 1 and a {@code kind}, and may bring its own
 * {@code materials} (as {@link MaterialFile} reads them), {@code certificates} of lots (as {@link
 * CertificateFile}) and {@code prices} (as {@link PriceFile}), which are laid over the table for
 * this request alone. A material with a lot stands beside its grade and is asked for by {@code
 * material} and {@code lot}. Unknown fields are reported and not read, everything wrong is reported
 * at once, and no path in the data is ever opened. The JSON Schemas in {@code data/schemas} say the
 * same for machines.
 *
 * <table>
 * <caption>Kinds of request, and who reads them</caption>
 * <tr><th>kind</th><th>what is asked</th><th></th></tr>
 * <tr><td>solve</td><td>a blend for a brief</td><td>{@link SolveFile}</td></tr>
 * <tr><td>alternatives</td><td>the best distinct sets of surfactants for a brief</td><td>{@link AlternativesFile}</td></tr>
 * <tr><td>trade-off</td><td>what one measure of a blend costs in another</td><td>{@link TradeOffFile}</td></tr>
 * <tr><td>sensitivity</td><td>what would change the answer to a brief</td><td>{@link SensitivityFile}</td></tr>
 * <tr><td>starting-ph</td><td>the pH a recipe starts at</td><td>{@link StartingPhFile}</td></tr>
 * <tr><td>dose</td><td>the acid or base that brings a recipe to a pH</td><td>{@link DoseFile}</td></tr>
 * <tr><td>titration</td><td>the next dose after readings</td><td>{@link TitrationFile}</td></tr>
 * <tr><td>swap</td><td>another lot, grade or supplier in a recipe</td><td>{@link SwapFile}</td></tr>
 * <tr><td>conversion</td><td>a recipe for one's own grades</td><td>{@link ConversionFile}</td></tr>
 * <tr><td>largest-batch</td><td>the most that a stock allows</td><td>{@link StockFile}</td></tr>
 * <tr><td>batch-sheet</td><td>a recipe as grams on real scales</td><td>{@link BatchSheetFile}</td></tr>
 * <tr><td>correction</td><td>what to add when something was weighed wrongly</td><td>{@link CorrectionFile}</td></tr>
 * <tr><td>conformance</td><td>whether materials and lots can be trusted</td><td>{@link ConformanceFile}</td></tr>
 * </table>
 *
 * <p>An answer is of the kind {@code <kind>-answer} and lists under {@code problems} what was odd
 * about the request; a request that cannot be used is answered by a document of the kind {@code
 * problems}.
 */
public final class Requests {
  private static final List<Question<?, ?>> QUESTIONS =
      List.of(
          SolveFile.QUESTION,
          AlternativesFile.QUESTION,
          TradeOffFile.QUESTION,
          SensitivityFile.QUESTION,
          StartingPhFile.QUESTION,
          DoseFile.QUESTION,
          TitrationFile.QUESTION,
          SwapFile.QUESTION,
          ConversionFile.QUESTION,
          StockFile.QUESTION,
          BatchSheetFile.QUESTION,
          CorrectionFile.QUESTION,
          ConformanceFile.QUESTION);

  private Requests() {}

  /** How a request ended. */
  public enum Outcome {
    /** The answer holds everything that was asked for. */
    MET,
    /** What was asked cannot be had, or not all of it; the answer says what and why. */
    NOT_MET,
    /** The request cannot be used; the answer lists every problem. */
    NOT_USABLE
  }

  /**
   * An answer.
   *
   * @param outcome how the request ended
   * @param json the answer as JSON text, with line feeds
   */
  public record Answer(Outcome outcome, String json) {
    /**
     * Checks that nothing is missing.
     *
     * @param outcome how the request ended
     * @param json the answer as JSON text, with line feeds
     * @throws NullPointerException if an argument is null
     */
    public Answer {
      Objects.requireNonNull(outcome, "outcome");
      Objects.requireNonNull(json, "json");
    }

    static Answer notUsable(List<Problem> problems) {
      return new Answer(Outcome.NOT_USABLE, writeProblems(problems));
    }
  }

  /**
   * Answers a request of any kind.
   *
   * @param input the JSON text
   * @param table what there is, beside what the request brings
   * @return the answer
   * @throws NullPointerException if an argument is null
   */
  public static Answer answer(Input input, MaterialTable table) {
    Objects.requireNonNull(table, "table");
    ProblemLog log = new ProblemLog();
    JsonPart root = Question.root(input, log);
    if (root != null) {
      String kind = root.choice("kind", kinds());
      for (Question<?, ?> question : QUESTIONS) {
        if (question.kind().equals(kind)) {
          return question.reply(root, table);
        }
      }
    }
    return Answer.notUsable(log.problems());
  }

  /**
   * The kinds of request.
   *
   * @return the words for the field {@code kind}
   */
  public static List<String> kinds() {
    return QUESTIONS.stream().<String>map(Question::kind).toList();
  }

  /**
   * Writes problems, as the answer to a request that could not be used.
   *
   * @param problems the problems
   * @return the JSON text, with line feeds
   * @throws NullPointerException if the list is null
   */
  public static String writeProblems(List<Problem> problems) {
    ObjectNode root = Question.document("problems");
    root.set("problems", list(problems));
    return JsonDocument.write(root);
  }

  static ArrayNode list(List<Problem> problems) {
    ArrayNode list = JsonDocument.object().arrayNode();
    for (Problem p : problems) {
      ObjectNode one = list.addObject().put("code", p.code());
      one.put("severity", p.isError() ? "error" : "warning");
      one.put("source", p.place().source());
      if (p.place().row() > 0) {
        one.put("row", p.place().row());
      }
      one.put("place", p.place().field());
      one.put("found", p.found()).put("allowed", p.allowed());
      if (!p.advice().isEmpty()) {
        one.put("maybe", p.advice());
      }
    }
    return list;
  }
}
