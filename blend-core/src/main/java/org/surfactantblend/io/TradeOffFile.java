package org.surfactantblend.io;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.solve.BlendSolver;
import org.surfactantblend.solve.Measure;
import org.surfactantblend.solve.TradeOff;

/**
 * What one measure of a blend costs in another, asked and answered as JSON.
 *
 * <table>
 * <caption>Fields of a request of the kind {@code trade-off}, beside those of a brief ({@link
 * SolveFile}), whose wish does not count</caption>
 * <tr><th>field</th><th>value</th></tr>
 * <tr><td>first, second</td><td>the measures: cost, surfactant-as-supplied, surfactant-count, anionic-share, irritation-index, salt, not-of-natural-origin</td></tr>
 * <tr><td>searchSteps</td><td>after so many steps the search for sets of surfactants stops with what it has; 30000 when left out</td></tr>
 * </table>
 */
public final class TradeOffFile {
  private static final Map<String, Measure> MEASURES = measures();

  static final Question<Request, TradeOff> QUESTION =
      new Question<>(
          "trade-off",
          TradeOffFile::request,
          r ->
              BlendSolver.tradeOff(
                  r.asked.brief(),
                  r.asked.table(),
                  r.first,
                  r.second,
                  AlternativesFile.budget(r.steps)),
          TradeOffFile::answer,
          t -> !t.corners().isEmpty());

  private TradeOffFile() {}

  /** What a request asks. */
  record Request(SolveFile.Request asked, Measure first, Measure second, int steps) {}

  private static @Nullable Request request(JsonPart r, Shelf shelf) {
    List<String> words = List.copyOf(MEASURES.keySet());
    Measure first = MEASURES.get(r.choice("first", words));
    Measure second = MEASURES.get(r.choice("second", words));
    if (first != null && first == second) {
      r.error(
          ProblemCodes.CHOICE,
          "second",
          Row.quoted(JsonDocument.word(second)),
          "another measure than the first",
          "");
    }
    int steps = AlternativesFile.steps(r);
    SolveFile.Request asked = SolveFile.request(r, shelf);
    return asked == null || first == null || second == null
        ? null
        : new Request(asked, first, second, steps);
  }

  private static Map<String, Measure> measures() {
    Map<String, Measure> all = new LinkedHashMap<>();
    for (Measure m : Measure.values()) {
      all.put(JsonDocument.word(m), m);
    }
    return all;
  }

  /**
   * Writes a trade-off.
   *
   * @param tradeOff the trade-off
   * @return the JSON text, with line feeds
   * @throws NullPointerException if the argument is null
   */
  public static String write(TradeOff tradeOff) {
    return QUESTION.write(tradeOff, List.of());
  }

  private static ObjectNode answer(TradeOff t) {
    ObjectNode node = JsonDocument.object().put("name", t.brief().name());
    node.set("first", measure(t.first()));
    node.set("second", measure(t.second()));
    ArrayNode corners = node.putArray("corners");
    for (TradeOff.Corner c : t.corners()) {
      ObjectNode one = corners.addObject().put("first", JsonDocument.number(c.first()));
      one.put("second", JsonDocument.number(c.second()));
      one.setAll(RecipeFile.contents(c.blend()));
    }
    node.put("mixturesOfNeighbours", t.between());
    node.put("complete", t.complete());
    StartingPhFile.notes(node, List.of());
    return node;
  }

  private static ObjectNode measure(Measure m) {
    return JsonDocument.object().put("measure", JsonDocument.word(m)).put("unit", m.unit());
  }
}
