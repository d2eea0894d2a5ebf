package org.surfactantblend.io;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Loaded;

/**
 * The question for the pH a recipe starts at, and its answer, as JSON.
 *
 * <table>
 * <caption>Fields of a request of the kind {@code starting-ph}, beside those of {@link
 * Requests}</caption>
 * <tr><th>field</th><th>value</th></tr>
 * <tr><td>recipe</td><td>as {@link RecipeFile} reads it</td></tr>
 * <tr><td>surfactantsOnly</td><td>true for the surfactants with water in place of everything else; false when left out</td></tr>
 * <tr><td>temperatureC</td><td>0 to 60; 25 when left out</td></tr>
 * </table>
 */
public final class StartingPhFile {
  /** Said wherever a pH is predicted. */
  static final String MEASURE = "a prediction from tables: measure before you correct or release";

  static final Question<StartingPh, StartingPh> QUESTION =
      new Question<>(
          "starting-ph", StartingPhFile::read, p -> p, StartingPhFile::answer, p -> true);

  private StartingPhFile() {}

  /**
   * Reads a request.
   *
   * @param input the JSON text
   * @param table what there is, beside what the request brings
   * @return the starting pH, empty when the request could not be used, and every problem
   * @throws NullPointerException if an argument is null
   */
  public static Loaded<Optional<StartingPh>> read(Input input, MaterialTable table) {
    return QUESTION.read(input, table);
  }

  /**
   * Writes an answer.
   *
   * @param ph the starting pH
   * @return the JSON text, with line feeds
   * @throws NullPointerException if the argument is null
   */
  public static String write(StartingPh ph) {
    return QUESTION.write(ph, List.of());
  }

  private static @Nullable StartingPh read(JsonPart request, Shelf shelf) {
    Blend blend = RecipeFile.read(request, shelf);
    boolean surfactantsOnly = request.yesNo("surfactantsOnly", false);
    Conditions conditions = Shelf.conditions(request);
    if (blend == null) {
      return null;
    }
    return request.tried(
        () -> StartingPh.of(surfactantsOnly ? surfactantsOnly(blend) : blend, conditions));
  }

  private static Blend surfactantsOnly(Blend blend) {
    Material water =
        blend.lines().stream()
            .map(BlendLine::material)
            .filter(m -> m.constituents().isEmpty())
            .findFirst()
            .orElseThrow(
                () ->
                    new IllegalArgumentException(
                        "recipe " + blend.name() + " had no line of water, allowed is one with"));
    return blend.surfactantsOnly(water);
  }

  private static ObjectNode answer(StartingPh ph) {
    ObjectNode node = JsonDocument.object().put("name", ph.blend().name());
    node.setAll(intervals(ph));
    node.put("ionicStrengthMolPerKg", JsonDocument.number(ph.ionicStrength()));
    node.put("bufferingMeqPerKgPerPh", JsonDocument.number(ph.bufferingMeqPerKgPerPh()));
    ArrayNode lines = node.putArray("contributions");
    for (StartingPh.Contribution c : ph.contributions()) {
      ObjectNode line = Shelf.reference(lines.addObject(), c.line().material());
      line.put("meqPerKg", JsonDocument.number(c.meqPerKg()));
      line.put("spreadMeqPerKg", JsonDocument.number(c.spreadMeqPerKg()));
      line.set("swing", JsonDocument.window(c.swing()));
    }
    notes(node, ph.caveats());
    return node;
  }

  /** A starting pH inside another answer. */
  static ObjectNode intervals(StartingPh ph) {
    ObjectNode node = JsonDocument.object();
    node.put("typical", JsonDocument.number(ph.typical()));
    node.set("likely", JsonDocument.window(ph.likely()));
    node.set("guaranteed", JsonDocument.window(ph.guaranteed()));
    return node.put("causeOfSpread", ph.causeInWords());
  }

  /** The notes of an answer that predicts a pH. */
  static void notes(ObjectNode node, List<String> caveats) {
    JsonDocument.texts(node, "notes", caveats);
    node.withArray("notes").add(MEASURE);
  }
}
