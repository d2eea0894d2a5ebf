package org.surfactantblend.io;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.solve.Alternatives;
import org.surfactantblend.solve.BlendSolver;
import org.surfactantblend.solve.SearchBudget;
import org.surfactantblend.solve.SolvedBlend;

/**
 * The best distinct sets of surfactants for a brief, asked and answered as JSON.
 *
 * <table>
 * <caption>Fields of a request of the kind {@code alternatives}, beside those of a brief ({@link
 * SolveFile}); all may be left out</caption>
 * <tr><th>field</th><th>value</th></tr>
 * <tr><td>most</td><td>how many sets at most, 1 to 100; 5 when left out</td></tr>
 * <tr><td>differing</td><td>by how many surfactants any two sets differ at least, 1 to 20; 1 when left out</td></tr>
 * <tr><td>searchSteps</td><td>after so many steps the search stops with the best so far; a step is a look at sets or at one range of ionic strength; 30000 when left out, which is a second or two at most; the same request gives the same answer on every machine</td></tr>
 * </table>
 */
public final class AlternativesFile {
  private static final int USUAL = 5;
  private static final int USUAL_STEPS = 30_000;

  static final Question<Request, Alternatives> QUESTION =
      new Question<>(
          "alternatives",
          AlternativesFile::request,
          r ->
              BlendSolver.alternatives(
                  r.asked.brief(), r.asked.table(), r.most, r.differing, budget(r.steps)),
          AlternativesFile::answer,
          a -> !a.blends().isEmpty());

  private AlternativesFile() {}

  /** What a request asks. */
  record Request(SolveFile.Request asked, int most, int differing, int steps) {}

  private static @Nullable Request request(JsonPart r, Shelf shelf) {
    int most = r.countOr("most", 1, 100, USUAL);
    int differing = r.countOr("differing", 1, 20, 1);
    int steps = steps(r);
    SolveFile.Request asked = SolveFile.request(r, shelf);
    return asked == null ? null : new Request(asked, most, differing, steps);
  }

  /** How many steps a search may take: whoever waits for an answer gets one. */
  static int steps(JsonPart r) {
    return r.countOr("searchSteps", 1, 1_000_000_000, USUAL_STEPS);
  }

  static SearchBudget budget(int steps) {
    AtomicInteger taken = new AtomicInteger();
    return SearchBudget.none().goingOnWhile(() -> taken.getAndIncrement() < steps);
  }

  /**
   * Writes the sets.
   *
   * @param alternatives the sets
   * @return the JSON text, with line feeds
   * @throws NullPointerException if the argument is null
   */
  public static String write(Alternatives alternatives) {
    return QUESTION.write(alternatives, List.of());
  }

  private static ObjectNode answer(Alternatives a) {
    ObjectNode node = JsonDocument.object().put("name", a.brief().name());
    node.put("wish", a.brief().wish().toString());
    ArrayNode blends = node.putArray("blends");
    for (SolvedBlend s : a.blends()) {
      ObjectNode one = blends.addObject().put("reached", JsonDocument.number(s.wishValue()));
      one.put("startingPh", JsonDocument.number(s.startingPh().typical()));
      one.setAll(RecipeFile.contents(s.blend()));
    }
    node.put("complete", a.complete());
    a.gap().ifPresent(gap -> node.put("noneBetterByMoreThan", JsonDocument.number(gap)));
    StartingPhFile.notes(node, List.of());
    return node;
  }
}
