package org.surfactantblend.io;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.swap.ContentRecipe;
import org.surfactantblend.swap.RecipeContent;
import org.surfactantblend.swap.RecipeConversion;

/**
 * A recipe made with somebody's own grades, asked and answered as JSON.
 *
 * <table>
 * <caption>Fields of a request of the kind {@code conversion}, beside those of {@link
 * Requests}</caption>
 * <tr><th>field</th><th>value</th></tr>
 * <tr><td>recipe</td><td>as {@link RecipeFile} reads it, where the grades are known; or</td></tr>
 * <tr><td>withoutGrades</td><td>{name, asSuppliedPercent}: percent as supplied by INCI name, where they are not</td></tr>
 * <tr><td>grades</td><td>a list of {material, lot, insteadOf}: one's own grades, each for the substance of its INCI name or, as a stand-in of the same charge class, for the one named</td></tr>
 * <tr><td>upToHundredWith</td><td>the id of what fills up to 100 %</td></tr>
 * </table>
 */
public final class ConversionFile {
  private static final int MOST = 500;

  static final Question<RecipeConversion, RecipeConversion> QUESTION =
      new Question<>(
          "conversion",
          ConversionFile::read,
          c -> c,
          ConversionFile::answer,
          c -> c.notHeld().stream().noneMatch(h -> h.content().wanted()));

  private ConversionFile() {}

  /**
   * Reads a request.
   *
   * @param input the JSON text
   * @param table what there is, beside what the request brings
   * @return the conversion, empty when the request could not be used, and every problem
   * @throws NullPointerException if an argument is null
   */
  public static Loaded<Optional<RecipeConversion>> read(Input input, MaterialTable table) {
    return QUESTION.read(input, table);
  }

  /**
   * Writes a conversion.
   *
   * @param conversion the conversion
   * @return the JSON text, with line feeds
   * @throws NullPointerException if the argument is null
   */
  public static String write(RecipeConversion conversion) {
    return QUESTION.write(conversion, List.of());
  }

  private record Grade(JsonPart part, Material material, String insteadOf) {}

  private static @Nullable RecipeConversion read(JsonPart request, Shelf shelf) {
    ContentRecipe recipe = recipe(request, shelf);
    List<Grade> grades = request.list("grades", true, MOST, p -> grade(p, shelf));
    Material water = shelf.grade(request, "upToHundredWith");
    if (recipe == null || water == null) {
      return null;
    }
    RecipeConversion.Builder b = recipe.toGrades(water);
    for (Grade g : grades) {
      g.part.tried(
          () -> g.insteadOf.isEmpty() ? b.using(g.material) : b.insteadOf(g.insteadOf, g.material));
    }
    return request.made(b::convert);
  }

  private static @Nullable ContentRecipe recipe(JsonPart request, Shelf shelf) {
    if (!request.has("withoutGrades")) {
      Blend blend = RecipeFile.read(request, shelf);
      return blend == null ? null : ContentRecipe.of(blend);
    }
    if (request.has("recipe")) {
      request.error(
          ProblemCodes.CHOICE,
          "recipe",
          "both",
          "recipe or withoutGrades",
          "leave one of them out");
    }
    JsonPart part = request.part("withoutGrades", true);
    if (part == null) {
      return null;
    }
    String name = part.text("name");
    Map<String, Double> lines =
        part.numbers("asSuppliedPercent", true, 0, 100, "% m/m as supplied");
    part.done();
    return part.made(() -> ContentRecipe.withoutGrades(name, lines, shelf.table()));
  }

  private static @Nullable Grade grade(JsonPart part, Shelf shelf) {
    Material material = shelf.material(part);
    String insteadOf = part.textOr("insteadOf", "");
    part.done();
    return material == null ? null : new Grade(part, material, insteadOf);
  }

  private static ObjectNode answer(RecipeConversion c) {
    ObjectNode node = JsonDocument.object().put("name", c.recipe().name());
    node.setAll(RecipeFile.contents(c.blend()));
    node.set("recipeTotalActivePercent", JsonDocument.range(c.recipe().totalActive()));
    ArrayNode contents = node.putArray("contents");
    for (RecipeConversion.Held h : c.contents()) {
      RecipeContent content = h.content();
      ObjectNode one = contents.addObject().put("inciName", content.inciName());
      content.chargeClass().ifPresent(k -> one.put("chargeClass", k.label()));
      one.put("wanted", content.wanted());
      one.set("recipePercent", JsonDocument.range(content.percent()));
      one.set("reachedPercent", JsonDocument.range(h.reached()));
      one.put("held", h.isHeld()).put("remark", h.remark());
    }
    node.putObject("withTheWeightsAsWritten")
        .put("totalActivePercent", JsonDocument.number(c.gramForGram().totalActive().value()));
    JsonDocument.texts(node, "assumptions", c.recipe().assumptions());
    node.set("startingPh", StartingPhFile.intervals(c.startingPh()));
    StartingPhFile.notes(node, c.startingPh().caveats());
    return node;
  }
}
