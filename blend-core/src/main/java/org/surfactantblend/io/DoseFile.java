package org.surfactantblend.io;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.acidity.AcidDose;
import org.surfactantblend.acidity.Titrant;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.quantity.Mass;

/**
 * How much acid or base, asked and answered as JSON.
 *
 * <table>
 * <caption>Fields of a request of the kind {@code dose}, beside those of {@link Requests}</caption>
 * <tr><th>field</th><th>value</th></tr>
 * <tr><td>recipe</td><td>the whole product before the addition, as {@link RecipeFile} reads it</td></tr>
 * <tr><td>batchGrams</td><td>the mass of the product before the addition</td></tr>
 * <tr><td>targetPh</td><td>2 to 12</td></tr>
 * <tr><td>titrant</td><td>{solution, percent}, with solution one of citric-acid, citric-acid-monohydrate, lactic-acid, gluconolactone, sodium-hydroxide, potassium-hydroxide, sodium-citrate, triethanolamine; or {material, lot} of the table; or one's own as {name, groups, strongIonEqPerKg, waterPercent, contents, cautions, remarks, minutesToAct}; each with thinnedParts where it was thinned with water</td></tr>
 * <tr><td>measuredPh</td><td>what the meter showed before any addition; may be left out</td></tr>
 * <tr><td>temperatureC</td><td>0 to 60; 25 when left out</td></tr>
 * </table>
 */
public final class DoseFile {
  private static final double MOST_GRAMS = 1e9;

  static final Question<AcidDose, AcidDose> QUESTION =
      new Question<>(
          "dose",
          DoseFile::read,
          d -> d,
          DoseFile::answer,
          d ->
              d.verdict() == AcidDose.Verdict.DOSE
                  || d.verdict() == AcidDose.Verdict.ALREADY_THERE);

  private DoseFile() {}

  /**
   * Reads a request.
   *
   * @param input the JSON text
   * @param table what there is, beside what the request brings
   * @return the dose, empty when the request could not be used, and every problem
   * @throws NullPointerException if an argument is null
   */
  public static Loaded<Optional<AcidDose>> read(Input input, MaterialTable table) {
    return QUESTION.read(input, table);
  }

  /**
   * Writes a dose.
   *
   * @param dose the dose
   * @return the JSON text, with line feeds
   * @throws NullPointerException if the argument is null
   */
  public static String write(AcidDose dose) {
    return QUESTION.write(dose, List.of());
  }

  /** The dose that a document asks for, or null with problems. */
  static @Nullable AcidDose read(JsonPart request, Shelf shelf) {
    Blend blend = RecipeFile.read(request, shelf);
    double grams = request.positive("batchGrams", MOST_GRAMS, "g");
    double target = request.number("targetPh", 2, 12, "");
    Titrant titrant = Titrants.read(request, "titrant", shelf);
    boolean measured = request.has("measuredPh");
    double start = request.numberOr("measuredPh", 0, 14, "", 7);
    Conditions conditions = Shelf.conditions(request);
    if (blend == null || titrant == null) {
      return null;
    }
    return request.made(
        () -> {
          AcidDose.Plan plan = AcidDose.of(blend).to(target).with(titrant).under(conditions);
          return (measured ? plan.startingAt(start) : plan).forBatch(Mass.grams(grams));
        });
  }

  private static ObjectNode answer(AcidDose d) {
    ObjectNode node = JsonDocument.object().put("name", d.plan().blend().name());
    node.put("verdict", JsonDocument.word(d.verdict()));
    node.put("titrant", d.plan().titrant().name());
    node.put("batchGrams", JsonDocument.number(d.batch().inGrams()));
    node.put("startPh", JsonDocument.number(d.startPh()));
    node.put("startPhMeasured", d.plan().measuredStart().isPresent());
    node.put("targetPh", JsonDocument.number(d.plan().target()));
    node.put("totalGrams", JsonDocument.number(d.total().inGrams()));
    node.set("likelyGrams", JsonDocument.range(d.likelyGrams()));
    node.set("guaranteedGrams", JsonDocument.range(d.guaranteedGrams()));
    node.put("firstAdditionGrams", JsonDocument.number(d.firstAddition().inGrams()));
    node.put("reason", d.reason());
    node.put("remainderGrams", JsonDocument.number(d.remainder().inGrams()));
    node.put("neededMeqPerKg", JsonDocument.number(d.neededMeqPerKg()));
    node.put("titrantMeqPerGram", JsonDocument.number(d.titrantMeqPerGram()));
    ObjectNode adds = node.putObject("adds");
    d.adds().forEach((inci, percent) -> adds.put(inci, JsonDocument.number(percent)));
    ObjectNode takers = node.putObject("meqPerKgByMaterial");
    d.meqPerKgByMaterial().forEach((id, meq) -> takers.put(id, JsonDocument.number(meq)));
    d.needed().ifPresent(n -> node.put("needed", n));
    JsonDocument.texts(node, "cautions", d.cautions());
    JsonDocument.texts(node, "assumptions", d.assumptions());
    StartingPhFile.notes(node, d.notes());
    return node;
  }
}
