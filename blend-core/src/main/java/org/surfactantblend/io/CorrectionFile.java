package org.surfactantblend.io;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.batch.AsWeighed;
import org.surfactantblend.batch.BatchSheet;
import org.surfactantblend.batch.Correction;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.quantity.Mass;

/**
 * A batch as it was really weighed, and what to add, as JSON.
 *
 * <table>
 * <caption>Fields of a request of the kind {@code correction}, beside those of {@link
 * BatchSheetFile}</caption>
 * <tr><th>field</th><th>value</th></tr>
 * <tr><td>weighed</td><td>a list of {line, grams, from}: a line that was weighed otherwise, by its id or, of two lots, as in {@code x lot A}, what went in (0 for a missed one), and {material, lot} where another drum was taken; grams or from may be left out</td></tr>
 * <tr><td>evaporatedGrams</td><td>water lost; 0 when left out</td></tr>
 * <tr><td>kettleGrams</td><td>the most the kettle holds; may be left out</td></tr>
 * </table>
 */
public final class CorrectionFile {
  private static final int MOST = 500;
  private static final double MOST_GRAMS = 1e9;

  /** What was weighed, with what mends it. */
  record Mended(AsWeighed batch, Correction correction) {}

  static final Question<AsWeighed, Mended> QUESTION =
      new Question<>(
          "correction",
          CorrectionFile::read,
          b -> new Mended(b, b.correction()),
          CorrectionFile::answer,
          m -> m.correction.repairsEverything());

  private CorrectionFile() {}

  /**
   * Reads a request.
   *
   * @param input the JSON text
   * @param table what there is, beside what the request brings
   * @return the batch as weighed, empty when the request could not be used, and every problem
   * @throws NullPointerException if an argument is null
   */
  public static Loaded<Optional<AsWeighed>> read(Input input, MaterialTable table) {
    return QUESTION.read(input, table);
  }

  /**
   * Writes what mends a batch.
   *
   * @param batch the batch as weighed
   * @return the JSON text, with line feeds
   * @throws NullPointerException if the argument is null
   */
  public static String write(AsWeighed batch) {
    return QUESTION.write(QUESTION.work().apply(batch), List.of());
  }

  /** Something that went otherwise, tried once everything is read. */
  private record Step(JsonPart part, String field, UnaryOperator<AsWeighed> change) {}

  private static @Nullable AsWeighed read(JsonPart request, Shelf shelf) {
    BatchSheet sheet = BatchSheetFile.read(request, shelf);
    Set<String> lines = new HashSet<>();
    List<Step> steps =
        new ArrayList<>(request.list("weighed", false, MOST, p -> weighed(p, shelf, lines)));
    double lost = request.numberOr("evaporatedGrams", 0, MOST_GRAMS, "g", 0);
    double kettle = request.numberOr("kettleGrams", 0, MOST_GRAMS, "g", 0);
    if (lost > 0) {
      steps.add(new Step(request, "evaporatedGrams", b -> b.evaporated(Mass.grams(lost))));
    }
    if (kettle > 0) {
      steps.add(new Step(request, "kettleGrams", b -> b.kettle(Mass.grams(kettle))));
    }
    AsWeighed batch = sheet == null ? null : AsWeighed.of(sheet);
    for (Step step : steps) {
      AsWeighed so = batch;
      AsWeighed next = so == null ? null : step.part.tried(step.field, () -> step.change.apply(so));
      batch = next == null ? so : next;
    }
    AsWeighed last = batch;
    // Asks for the contents once, so that an empty kettle is a problem and no surprise later.
    return last == null || request.tried(last::contents) == null ? null : last;
  }

  private static @Nullable Step weighed(JsonPart part, Shelf shelf, Set<String> lines) {
    String line = part.text("line");
    if (!line.isEmpty() && !lines.add(line)) {
      part.error(
          ProblemCodes.DUPLICATE_ID,
          "line",
          Row.quoted(line),
          "a line that stands here once",
          "give all that was weighed of it at once");
    }
    boolean stated = part.has("grams");
    double grams = part.numberOr("grams", 0, MOST_GRAMS, "g", 0);
    JsonPart from = part.part("from", false);
    Material lot = from == null ? null : shelf.material(from);
    if (from != null) {
      from.done();
    } else if (!stated) {
      part.error(ProblemCodes.MISSING_VALUE, "grams", "nothing", "grams, or from, or both", "");
    }
    part.done();
    if (part.failed()) {
      return null;
    }
    return new Step(
        part,
        "",
        b ->
            lot == null
                ? b.weighed(line, Mass.grams(grams))
                : stated ? b.weighed(line, lot, Mass.grams(grams)) : b.fromLot(line, lot));
  }

  private static ObjectNode answer(Mended m) {
    Correction c = m.correction;
    ObjectNode node = JsonDocument.object().put("name", m.batch.sheet().blend().name());
    ObjectNode kettle = node.putObject("inTheKettle");
    kettle.put("grams", JsonDocument.number(m.batch.mass().inGrams()));
    kettle.setAll(RecipeFile.contents(m.batch.contents()));
    node.put("correctionNeeded", c.isNeeded());
    ArrayNode additions = node.putArray("additions");
    Map<Material, Double> toWeigh = c.additionsToWeigh();
    c.additions()
        .forEach(
            (material, grams) ->
                Shelf.reference(additions.addObject(), material)
                    .put("exactGrams", JsonDocument.number(grams))
                    .put("weighGrams", JsonDocument.number(toWeigh.getOrDefault(material, grams))));
    ObjectNode after = node.putObject("afterwards");
    after.put("grams", JsonDocument.number(c.finalMass().inGrams()));
    after.setAll(RecipeFile.contents(c.contents()));
    node.put("repairsEverything", c.repairsEverything());
    ArrayNode left = node.putArray("notRepaired");
    for (Correction.NotRepaired n : c.notRepaired()) {
      left.addObject()
          .put("content", n.name())
          .put("plannedPercent", JsonDocument.number(n.plannedPercent()))
          .put("reachedPercent", JsonDocument.number(n.reachedPercent()))
          .put("reason", n.reason());
    }
    node.putArray("notes")
        .add("mix, read the pH, and dose acid by readings: the old dose no longer applies");
    return node;
  }
}
