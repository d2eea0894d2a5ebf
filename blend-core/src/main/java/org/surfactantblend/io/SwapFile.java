package org.surfactantblend.io;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.solve.Rebalance;
import org.surfactantblend.swap.LotMix;
import org.surfactantblend.swap.SupplierSwap;
import org.surfactantblend.swap.SwapFigure;
import org.surfactantblend.swap.SwapReport;
import org.surfactantblend.swap.SwapTolerances;

/**
 * A supplier swap, asked and reported as JSON.
 *
 * <table>
 * <caption>Fields of a request of the kind {@code swap}, beside those of {@link Requests}</caption>
 * <tr><th>field</th><th>value</th></tr>
 * <tr><td>recipe</td><td>as {@link RecipeFile} reads it, with a line of water</td></tr>
 * <tr><td>replacements</td><td>a list of {line, with}: the id of a line, and a list of {material, lot, parts} that takes its place; lot and parts may be left out</td></tr>
 * <tr><td>holding</td><td>a list of {inciName, line}: a substance to hold from all sources, and the line that gives way; may be left out</td></tr>
 * <tr><td>correctedWith</td><td>{material, lot, targetPh}: the acid of the product; may be left out</td></tr>
 * <tr><td>tolerances</td><td>{activePercent, saltPoints, ph, noChangeActivePercent, noChangeSaltPoints}; the usual ones for whatever is left out</td></tr>
 * <tr><td>temperatureC</td><td>0 to 60; 25 when left out</td></tr>
 * </table>
 */
public final class SwapFile {
  private static final int MOST = 100;

  static final Question<SupplierSwap, SwapReport> QUESTION =
      new Question<>(
          "swap",
          SwapFile::read,
          SupplierSwap::report,
          SwapFile::answer,
          SwapReport::holdsEverything);

  private SwapFile() {}

  /**
   * Reads a request.
   *
   * @param input the JSON text
   * @param table what there is, beside what the request brings
   * @return the swap, empty when the request could not be used, and every problem
   * @throws NullPointerException if an argument is null
   */
  public static Loaded<Optional<SupplierSwap>> read(Input input, MaterialTable table) {
    return QUESTION.read(input, table);
  }

  /**
   * Writes a report.
   *
   * @param report the report
   * @return the JSON text, with line feeds
   * @throws NullPointerException if the argument is null
   */
  public static String write(SwapReport report) {
    return QUESTION.write(report, List.of());
  }

  /** One change of a swap, tried once everything is read. */
  private record Step(JsonPart part, UnaryOperator<SupplierSwap> change) {}

  private static @Nullable SupplierSwap read(JsonPart request, Shelf shelf) {
    Blend blend = RecipeFile.read(request, shelf);
    List<Step> steps =
        new ArrayList<>(request.list("replacements", true, MOST, p -> replacement(p, shelf)));
    steps.addAll(request.list("holding", false, MOST, SwapFile::hold));
    JsonPart acid = request.part("correctedWith", false);
    if (acid != null) {
      steps.add(acid(acid, shelf));
    }
    SwapTolerances tolerances = tolerances(request.part("tolerances", false));
    Conditions conditions = Shelf.conditions(request);
    if (blend == null || tolerances == null) {
      return null;
    }
    SupplierSwap swap =
        request.tried(
            () ->
                SupplierSwap.in(blend)
                    .under(conditions)
                    .judgedBy(tolerances)
                    .priced(shelf.table().prices()));
    for (Step step : steps) {
      SupplierSwap so = swap;
      SupplierSwap next = so == null ? null : step.part.tried(() -> step.change.apply(so));
      swap = next == null ? so : next;
    }
    return swap;
  }

  private static @Nullable Step replacement(JsonPart replacement, Shelf shelf) {
    String line = replacement.text("line");
    List<Double> parts = new ArrayList<>();
    List<Material> lots =
        replacement.list(
            "with",
            true,
            MOST,
            p -> {
              Material m = shelf.material(p);
              parts.add(p.numberOr("parts", 0, 1e12, "by mass", 1));
              p.done();
              return m;
            });
    replacement.done();
    if (replacement.failed()) {
      return null;
    }
    Material first = lots.get(0);
    OptionalDouble price = lots.size() == 1 ? shelf.lotPrice(first) : OptionalDouble.empty();
    return new Step(
        replacement,
        swap ->
            price.isPresent()
                ? swap.replace(line).with(first, price.getAsDouble())
                : swap.replace(line).with(new LotMix(lots, parts)));
  }

  private static @Nullable Step hold(JsonPart hold) {
    String inciName = hold.text("inciName");
    String line = hold.text("line");
    hold.done();
    return hold.failed() ? null : new Step(hold, swap -> swap.holding(inciName, line));
  }

  private static Step acid(JsonPart acid, Shelf shelf) {
    Material material = shelf.material(acid);
    double target = acid.number("targetPh", 0, 14, "");
    acid.done();
    return new Step(
        acid,
        swap ->
            material == null || Double.isNaN(target) ? swap : swap.correctedWith(material, target));
  }

  private static @Nullable SwapTolerances tolerances(@Nullable JsonPart t) {
    SwapTolerances usual = SwapTolerances.USUAL;
    if (t == null) {
      return usual;
    }
    double active = t.numberOr("activePercent", 0, 100, "%", usual.activePercent());
    double salt = t.numberOr("saltPoints", 0, 100, "% m/m", usual.saltPoints());
    double ph = t.numberOr("ph", 0, 14, "", usual.ph());
    double noActive =
        t.numberOr("noChangeActivePercent", 0, 100, "%", usual.noChangeActivePercent());
    double noSalt = t.numberOr("noChangeSaltPoints", 0, 100, "% m/m", usual.noChangeSaltPoints());
    t.done();
    return t.made(() -> new SwapTolerances(active, salt, ph, noActive, noSalt));
  }

  private static ObjectNode answer(SwapReport r) {
    ObjectNode node = JsonDocument.object().put("name", r.before().name());
    node.put("holdsEverything", r.holdsEverything());
    node.put("noChangeNeeded", r.noChangeNeeded());
    r.obstacle().ifPresent(o -> node.put("obstacle", o));
    ArrayNode gaveWay = node.putArray("gaveWay");
    for (Rebalance.Reached g : r.gaveWay()) {
      gaveWay
          .addObject()
          .put("content", g.held().name())
          .put("wantedPercent", JsonDocument.number(g.held().percent()))
          .put("reachedPercent", JsonDocument.number(g.percent()));
    }
    node.set("before", RecipeFile.contents(r.before()));
    node.set("after", RecipeFile.contents(r.after()));
    ArrayNode figures = node.putArray("figures");
    for (SwapFigure f : r.figures()) {
      ObjectNode figure = figures.addObject().put("name", f.name()).put("unit", f.unit());
      figure.put("before", JsonDocument.number(f.before()));
      figure.put("after", JsonDocument.number(f.after()));
      if (!Double.isInfinite(f.tolerance())) {
        figure.put("tolerance", JsonDocument.number(f.tolerance()));
      }
      figure.put("verdict", JsonDocument.word(f.verdict()));
    }
    node.putObject("withTheOldWeights")
        .put("totalActivePercent", JsonDocument.number(r.gramForGram().totalActive().value()))
        .put("errorPercent", JsonDocument.number(r.gramForGramErrorPercent()));
    node.set("startingPhBefore", StartingPhFile.intervals(r.startingPhBefore()));
    node.set("startingPhAfter", StartingPhFile.intervals(r.startingPhAfter()));
    JsonDocument.texts(node, "newOnLabel", r.newOnLabel());
    JsonDocument.texts(node, "offLabel", r.offLabel());
    JsonDocument.texts(node, "neverHeld", r.neverHeld());
    StartingPhFile.notes(node, r.notes());
    return node;
  }
}
