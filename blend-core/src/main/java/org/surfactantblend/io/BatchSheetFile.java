package org.surfactantblend.io;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.batch.BatchLine;
import org.surfactantblend.batch.BatchOrder;
import org.surfactantblend.batch.BatchSheet;
import org.surfactantblend.batch.Phase;
import org.surfactantblend.batch.Premix;
import org.surfactantblend.batch.WaterLine;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Scale;

/**
 * A batch sheet, asked and written as JSON.
 *
 * <table>
 * <caption>Fields of a request of the kind {@code batch-sheet}, beside those of {@link
 * Requests}</caption>
 * <tr><th>field</th><th>value</th></tr>
 * <tr><td>recipe</td><td>as {@link RecipeFile} reads it</td></tr>
 * <tr><td>batchGrams</td><td>the mass to make; or</td></tr>
 * <tr><td>order</td><td>{densityGramsPerMl, containers, sampleGrams, lossPercent, meanOverfillPercent, roundUpToGrams}, where containers is a list of {name, nominalMl, forSale, retained}</td></tr>
 * <tr><td>scales</td><td>a list of {resolutionGrams, capacityGrams}</td></tr>
 * <tr><td>keepingTotal</td><td>true so that the weighed grams add up to the batch; false when left out</td></tr>
 * <tr><td>phases</td><td>by material id: water, powders, humectants, preservative, surfactants, thickener, delicate, ph or salt; the usual one for whatever is left out</td></tr>
 * <tr><td>batchNumber, formulaVersion</td><td>texts; may be left out</td></tr>
 * </table>
 */
public final class BatchSheetFile {
  private static final int MOST = 200;
  private static final double MOST_GRAMS = 1e9;

  static final Question<BatchSheet, BatchSheet> QUESTION =
      new Question<>(
          "batch-sheet", BatchSheetFile::read, s -> s, BatchSheetFile::answer, s -> true);

  private BatchSheetFile() {}

  /**
   * Reads a request.
   *
   * @param input the JSON text
   * @param table what there is, beside what the request brings
   * @return the sheet, empty when the request could not be used, and every problem
   * @throws NullPointerException if an argument is null
   */
  public static Loaded<Optional<BatchSheet>> read(Input input, MaterialTable table) {
    return QUESTION.read(input, table);
  }

  /**
   * Writes a sheet.
   *
   * @param sheet the sheet
   * @return the JSON text, with line feeds
   * @throws NullPointerException if the argument is null
   */
  public static String write(BatchSheet sheet) {
    return QUESTION.write(sheet, List.of());
  }

  /** The sheet that an object asks for, or null with problems. */
  static @Nullable BatchSheet read(JsonPart request, Shelf shelf) {
    Blend blend = RecipeFile.read(request, shelf);
    BatchOrder order = order(request);
    double grams =
        request.has("order") ? Double.NaN : request.positive("batchGrams", MOST_GRAMS, "g");
    if (request.has("batchGrams") && request.has("order")) {
      request.error(
          ProblemCodes.CHOICE, "order", "both", "batchGrams or order", "leave one of them out");
    }
    List<Scale> scales = request.list("scales", true, MOST, BatchSheetFile::scale);
    boolean keepingTotal = request.yesNo("keepingTotal", false);
    String number = request.textOr("batchNumber", "");
    String version = request.textOr("formulaVersion", "");
    JsonPart phases = request.part("phases", false);
    List<String> lines = phases == null ? List.of() : phases.names();
    if (blend == null) {
      return null;
    }
    BatchSheet.Plan plan = BatchSheet.of(blend).batchNumber(number).formulaVersion(version);
    for (String line : lines) {
      String word = phases == null ? "" : phases.choice(line, PHASES);
      if (phases != null && !word.isEmpty()) {
        phases.tried(() -> plan.phase(line, Phase.valueOf(word.toUpperCase(Locale.ROOT))));
      }
    }
    return request.made(
        () -> {
          if (order == null) {
            plan.mass(Mass.grams(grams));
          } else {
            plan.mass(order);
          }
          return (keepingTotal ? plan.keepingTotal() : plan).on(scales);
        });
  }

  private static final List<String> PHASES =
      Stream.of(Phase.values()).map(JsonDocument::word).toList();

  static @Nullable Scale scale(JsonPart part) {
    double resolution = part.positive("resolutionGrams", MOST_GRAMS, "g");
    double capacity = part.positive("capacityGrams", MOST_GRAMS, "g");
    part.done();
    return part.made(() -> Scale.of(resolution, capacity));
  }

  private record Container(String name, double nominalMl, int forSale, int retained) {}

  private static @Nullable BatchOrder order(JsonPart request) {
    JsonPart order = request.part("order", false);
    if (order == null) {
      return null;
    }
    double density = order.number("densityGramsPerMl", 0.5, 2, "g/ml");
    List<Container> containers = order.list("containers", true, MOST, BatchSheetFile::container);
    double sample = order.numberOr("sampleGrams", 0, MOST_GRAMS, "g", 0);
    double loss = order.numberOr("lossPercent", 0, 99, "% of the batch", 0);
    double overfill = order.numberOr("meanOverfillPercent", 0, 50, "% of nominal", 0);
    double step =
        order.has("roundUpToGrams") ? order.positive("roundUpToGrams", MOST_GRAMS, "g") : 0;
    order.done();
    return order.made(
        () -> {
          BatchOrder.Builder b =
              BatchOrder.density(density)
                  .sample(Mass.grams(sample))
                  .lossPercent(loss)
                  .meanOverfillPercent(overfill);
          containers.forEach(c -> b.container(c.name, c.nominalMl, c.forSale, c.retained));
          return (step > 0 ? b.roundUpTo(Mass.grams(step)) : b).build();
        });
  }

  private static @Nullable Container container(JsonPart part) {
    String name = part.text("name");
    double nominal = part.number("nominalMl", 5, 10_000, "ml");
    int forSale = part.count("forSale", 0, 1_000_000);
    int retained = part.countOr("retained", 0, 1_000_000, 0);
    part.done();
    return part.made(() -> new Container(name, nominal, forSale, retained));
  }

  private static ObjectNode answer(BatchSheet s) {
    ObjectNode node = JsonDocument.object().put("name", s.blend().name());
    node.put("batchNumber", s.batchNumber()).put("formulaVersion", s.formulaVersion());
    node.put("batchGrams", JsonDocument.number(s.mass().inGrams()));
    node.put("keepsTotal", s.keepsTotal());
    s.order().ifPresent(o -> node.set("order", order(o)));
    ArrayNode scales = node.putArray("scales");
    s.scales().forEach(scale -> scales.add(scale(scale)));
    ArrayNode lines = node.putArray("lines");
    s.lines().forEach(l -> lines.add(line(l)));
    s.water().ifPresent(w -> node.set("water", water(w)));
    ArrayNode order = node.putArray("orderOfAddition");
    for (Map.Entry<Phase, List<BatchLine>> e : s.orderOfAddition().entrySet()) {
      ObjectNode phase = order.addObject().put("phase", JsonDocument.word(e.getKey()));
      phase.put("label", e.getKey().label()).put("reason", e.getKey().reason());
      ArrayNode goesIn = phase.putArray("goesIn");
      for (BatchLine l : e.getValue()) {
        Shelf.reference(goesIn.addObject(), l.material()).put("weigh", l.weighText() + " g");
      }
    }
    ObjectNode realised = node.putObject("asRounded");
    realised.put("grams", JsonDocument.number(s.realisedMass().inGrams()));
    realised.setAll(RecipeFile.contents(s.realised()));
    node.put("plannedTotalActivePercent", JsonDocument.number(s.blend().totalActive().value()));
    node.put("activeErrorBoundPercent", JsonDocument.number(s.activeErrorBound()));
    JsonDocument.texts(node, "notes", s.notes());
    return node;
  }

  private static ObjectNode order(BatchOrder o) {
    ObjectNode node = JsonDocument.object();
    node.put("densityGramsPerMl", JsonDocument.number(o.densityGramsPerMl()));
    ArrayNode containers = node.putArray("containers");
    for (BatchOrder.Container c : o.containers()) {
      ObjectNode one = containers.addObject().put("name", c.name());
      one.put("nominalMl", JsonDocument.number(c.nominalMl()));
      one.put("forSale", c.forSale()).put("retained", c.retained());
      one.put("fillGrams", JsonDocument.number(o.fillGrams(c)));
      one.put("lowerLimitGrams", JsonDocument.number(o.lowerLimitGrams(c)));
      one.put("absoluteLimitGrams", JsonDocument.number(o.absoluteLimitGrams(c)));
      one.put("moreFromSurplus", o.moreFromSurplus(c));
    }
    node.put("sampleGrams", JsonDocument.number(o.sample().inGrams()));
    node.put("lossPercent", JsonDocument.number(o.lossPercent()));
    node.put("neededGrams", JsonDocument.number(o.neededGrams()));
    return node.put("surplusGrams", JsonDocument.number(o.surplusGrams()));
  }

  static ObjectNode scale(Scale s) {
    return JsonDocument.object()
        .put("resolutionGrams", JsonDocument.number(s.resolutionGrams()))
        .put("capacityGrams", JsonDocument.number(s.capacityGrams()));
  }

  private static ObjectNode line(BatchLine l) {
    ObjectNode node = Shelf.reference(JsonDocument.object(), l.material());
    node.put("inciName", l.material().inciName());
    node.put("asSuppliedPercent", JsonDocument.number(l.percent()));
    node.put("exactGrams", JsonDocument.number(l.exactGrams()));
    node.put("weighGrams", JsonDocument.number(l.weighGrams()));
    node.put("weigh", l.weighText() + " g");
    node.set("scale", scale(l.scale()));
    node.put("portions", l.portions());
    node.put("errorPercent", JsonDocument.number(l.errorPercent()));
    node.put("divisions", JsonDocument.number(l.divisions()));
    node.put("tooSmallForItsScale", l.isTooSmall());
    node.put("phase", JsonDocument.word(l.phase()));
    l.premix().ifPresent(p -> node.set("premix", premix(p)));
    return node;
  }

  private static ObjectNode premix(Premix p) {
    return JsonDocument.object()
        .put("strengthPercent", JsonDocument.number(p.strengthPercent()))
        .put("materialGrams", JsonDocument.number(p.materialGrams()))
        .put("liquidGrams", JsonDocument.number(p.liquidGrams()))
        .put("toWeighGrams", JsonDocument.number(p.toWeighGrams()))
        .put("liquidBroughtGrams", JsonDocument.number(p.liquidBroughtGrams()));
  }

  private static ObjectNode water(WaterLine w) {
    ObjectNode node = Shelf.reference(JsonDocument.object(), w.material());
    node.put("asSuppliedPercent", JsonDocument.number(w.percent()));
    node.put("exactGrams", JsonDocument.number(w.exactGrams()));
    node.put("residualGrams", JsonDocument.number(w.residualGrams()));
    node.put("weighGrams", JsonDocument.number(w.weighGrams()));
    ArrayNode pours = node.putArray("pours");
    w.pours().forEach(p -> pours.add(line(p)));
    return node;
  }
}
