package org.surfactantblend.io;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Loaded;

/**
 * A recipe as JSON: percentages as supplied, with the materials and lots behind them.
 *
 * <table>
 * <caption>Fields of a recipe; as a document of its own with {@code version} 1 and {@code kind}
 * "recipe" around the field {@code recipe}</caption>
 * <tr><th>field</th><th>value</th></tr>
 * <tr><td>name</td><td>what to call the product</td></tr>
 * <tr><td>lines</td><td>a list of {material, lot, asSuppliedPercent} [% m/m as supplied]; lot may be left out</td></tr>
 * <tr><td>upToHundredWith</td><td>the id of what fills up to 100 %, usually water; left out when the lines add up to 100 by themselves</td></tr>
 * </table>
 *
 * <p>A document that {@link #write} makes brings every material that is not in the table, and reads
 * back as the same blend to the last bit, as long as the families of its materials are in the
 * table.
 */
public final class RecipeFile {
  private static final int MOST_LINES = 500;

  private RecipeFile() {}

  /**
   * Reads a recipe.
   *
   * @param input the JSON text
   * @param table what there is, beside what the document brings
   * @return the blend, empty when it could not be read, and every problem
   * @throws NullPointerException if an argument is null
   */
  public static Loaded<Optional<Blend>> read(Input input, MaterialTable table) {
    return Question.read(input, table, "recipe", RecipeFile::read);
  }

  /**
   * Writes a recipe with every material that is not in a table.
   *
   * @param blend the blend
   * @param table the table that the reader will have
   * @return the JSON text, with line feeds
   * @throws NullPointerException if an argument is null
   * @throws IllegalArgumentException if two different materials have the same id and lot
   */
  public static String write(Blend blend, MaterialTable table) {
    ObjectNode root = Question.document("recipe");
    put(root, blend, table);
    return JsonDocument.write(root);
  }

  private record Line(Material material, double percent) {}

  /** The recipe in the field recipe, or null with problems. */
  static @Nullable Blend read(JsonPart document, Shelf shelf) {
    return read(document, "recipe", shelf);
  }

  static @Nullable Blend read(JsonPart document, String field, Shelf shelf) {
    JsonPart recipe = document.part(field, true);
    if (recipe == null) {
      return null;
    }
    String name = recipe.text("name");
    List<Line> lines = recipe.list("lines", true, MOST_LINES, line -> line(line, shelf));
    Material filler = recipe.has("upToHundredWith") ? shelf.grade(recipe, "upToHundredWith") : null;
    recipe.done();
    return recipe.made(
        () -> {
          Blend.Builder b = Blend.named(name);
          lines.forEach(l -> b.line(l.material, l.percent));
          return filler == null ? b.build() : b.upToHundredWith(filler);
        });
  }

  private static @Nullable Line line(JsonPart line, Shelf shelf) {
    Material material = shelf.material(line);
    double percent = line.number("asSuppliedPercent", 0, 100, "% m/m as supplied");
    line.done();
    return material == null ? null : new Line(material, percent);
  }

  /** Puts a recipe, and the materials behind it, into a document. */
  static void put(ObjectNode root, Blend blend, MaterialTable table) {
    ObjectNode recipe = root.putObject("recipe").put("name", blend.name());
    recipe.set("lines", lines(blend));
    Shelf.embed(root, blend.lines().stream().map(BlendLine::material).toList(), table);
  }

  /** The lines of a blend, as supplied. */
  static ArrayNode lines(Blend blend) {
    ArrayNode lines = JsonDocument.object().arrayNode();
    for (BlendLine l : blend.lines()) {
      Shelf.reference(lines.addObject(), l.material())
          .put("asSuppliedPercent", JsonDocument.number(l.amount().value()));
    }
    return lines;
  }

  /** A blend in an answer: its lines and what is in it. */
  static ObjectNode contents(Blend blend) {
    ObjectNode node = JsonDocument.object();
    ArrayNode lines = node.putArray("lines");
    for (BlendLine l : blend.lines()) {
      ObjectNode line = Shelf.reference(lines.addObject(), l.material());
      line.put("asSuppliedPercent", JsonDocument.number(l.amount().value()));
      if (l.material().isSurfactant()) {
        double active = l.massFraction() * l.material().activePercent().typical();
        double total = blend.totalActive().value();
        line.put("activePercentOfProduct", JsonDocument.number(active));
        line.put(
            "shareOfActivePercent", JsonDocument.number(total == 0 ? 0 : active / total * 100));
      }
    }
    node.set("totalActivePercent", JsonDocument.range(blend.totalActiveRange()));
    ObjectNode shares = node.putObject("sharesOfActivePercent");
    for (ChargeClass c : ChargeClass.values()) {
      shares.set(c.label(), JsonDocument.range(blend.shareRange(c)));
    }
    node.put("waterPercent", JsonDocument.number(blend.waterPercent()));
    node.set("sodiumChloridePercent", JsonDocument.range(blend.saltPercent()));
    return node;
  }
}
