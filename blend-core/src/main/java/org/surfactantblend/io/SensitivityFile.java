package org.surfactantblend.io;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import org.surfactantblend.solve.BlendResult;
import org.surfactantblend.solve.BlendSolver;
import org.surfactantblend.solve.Sensitivity;
import org.surfactantblend.solve.SolvedBlend;

/**
 * What would change the answer to a brief, asked and answered as JSON: a request of the kind {@code
 * sensitivity} holds a brief as {@link SolveFile} reads it. Where no blend meets the brief, the
 * answer holds the conflict.
 */
public final class SensitivityFile {
  static final Question<SolveFile.Request, BlendResult> QUESTION =
      new Question<>(
          "sensitivity",
          SolveFile::request,
          r -> BlendSolver.solve(r.brief(), r.table()),
          SensitivityFile::answer,
          BlendResult::isSolved);

  private SensitivityFile() {}

  /**
   * Writes what would change an answer, which is worked out for it.
   *
   * @param result the answer
   * @return the JSON text, with line feeds
   * @throws NullPointerException if the argument is null
   */
  public static String write(BlendResult result) {
    return QUESTION.write(result, List.of());
  }

  private static ObjectNode answer(BlendResult result) {
    ObjectNode root = JsonDocument.object().put("name", result.brief().name());
    root.put("solved", result.isSolved());
    return result.<ObjectNode>fold(s -> changes(root, s), n -> SolveFile.unsolved(root, n));
  }

  private static ObjectNode changes(ObjectNode root, SolvedBlend s) {
    Sensitivity found = s.sensitivity();
    root.putObject("wish")
        .put("aim", s.brief().wish().toString())
        .put("reached", JsonDocument.number(s.wishValue()));
    ArrayNode loosenings = root.putArray("loosenings");
    for (Sensitivity.Loosening l : found.loosenings()) {
      ObjectNode one = loosenings.addObject().put("asked", l.bound().requirement().toString());
      SolveFile.asked(one, l.bound().requirement());
      one.put("end", l.bound().upper() ? "high" : "low")
          .put("onePointBuys", JsonDocument.number(l.gainPerPoint()))
          .put("goesOnTo", JsonDocument.number(l.holdsTo()))
          .put("buysThere", JsonDocument.number(l.gainThere()));
    }
    found
        .gainOfOneMore()
        .ifPresent(gain -> root.put("oneSurfactantMoreBuys", JsonDocument.number(gain)));
    ArrayNode prices = root.putArray("entryPrices");
    for (Sensitivity.EntryPrice e : found.entryPrices()) {
      ObjectNode one = prices.addObject().put("material", e.materialId());
      one.put("pricePerKg", JsonDocument.number(e.price()));
      e.entersAt()
          .ifPresent(
              at ->
                  one.put("comesInBelow", JsonDocument.number(at))
                      .put("asSuppliedPercent", JsonDocument.number(e.asSupplied())));
    }
    StartingPhFile.notes(root, List.of());
    return root;
  }
}
