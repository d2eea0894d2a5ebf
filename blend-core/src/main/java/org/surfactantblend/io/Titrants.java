package org.surfactantblend.io;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleFunction;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.acidity.Titrant;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.quantity.Range;

/**
 * What is dosed, as an object: {solution, percent} for a usual one, {material, lot} for one of the
 * table, or everything in it; each with {@code thinnedParts} where it was thinned.
 */
final class Titrants {
  private static final int MOST = 50;

  /** The usual solutions and crystals by strength; NaN for those that have only one. */
  private static final Map<String, DoubleFunction<Titrant>> SOLUTIONS =
      Map.of(
          "citric-acid", Titrant::citricAcid,
          "citric-acid-monohydrate", p -> Titrant.citricAcidMonohydrate(),
          "lactic-acid", Titrant::lacticAcid,
          "gluconolactone", p -> Titrant.gluconolactone(),
          "sodium-hydroxide", Titrant::sodiumHydroxide,
          "potassium-hydroxide", Titrant::potassiumHydroxide,
          "sodium-citrate", p -> Titrant.sodiumCitrate(),
          "triethanolamine", Titrant::triethanolamine);

  /** Those that come at one strength only. */
  private static final List<String> PURE =
      List.of("citric-acid-monohydrate", "gluconolactone", "sodium-citrate");

  private Titrants() {}

  /** The titrant in a field, or null with problems. */
  static @Nullable Titrant read(JsonPart document, String field, Shelf shelf) {
    JsonPart t = document.part(field, true);
    if (t == null) {
      return null;
    }
    Titrant titrant =
        t.has("solution") ? solution(t) : t.has("material") ? material(t, shelf) : inFull(t, shelf);
    double parts = t.numberOr("thinnedParts", 1, 1000, "by mass", 1);
    t.done();
    return titrant == null || Double.isNaN(parts) ? null : t.made(() -> titrant.thinned(parts));
  }

  private static @Nullable Titrant solution(JsonPart t) {
    String word = t.choice("solution", SOLUTIONS.keySet().stream().sorted().toList());
    double percent = PURE.contains(word) ? 100 : t.positive("percent", 100, "% m/m");
    DoubleFunction<Titrant> make = SOLUTIONS.get(word);
    return make == null ? null : t.made(() -> make.apply(percent));
  }

  private static @Nullable Titrant material(JsonPart t, Shelf shelf) {
    Material m = shelf.material(t);
    return m == null ? null : t.made(() -> Titrant.of(m));
  }

  private static @Nullable Titrant inFull(JsonPart t, Shelf shelf) {
    String name = t.text("name");
    double strong = t.numberOr("strongIonEqPerKg", -50, 50, "eq/kg", 0);
    double water = t.numberOr("waterPercent", 0, 100, "% m/m", 0);
    List<AcidBaseGroup> groups = MaterialFile.groups(t, "groups", shelf.table().acids());
    Map<String, Double> contents = t.numbers("contents", false, 0, 100, "% m/m");
    List<String> cautions = t.texts("cautions", false, MOST);
    List<String> remarks = t.texts("remarks", false, MOST);
    double minutes = t.numberOr("minutesToAct", 0, 10_000, "min", 5);
    return t.made(
        () -> {
          Titrant.Builder b =
              Titrant.named(name)
                  .strongIonEqPerKg(strong)
                  .waterPercent(water)
                  .minutesToAct(minutes);
          groups.forEach(g -> b.group(g.acid(), g.amount().typical()));
          contents.forEach(b::content);
          cautions.forEach(b::caution);
          remarks.forEach(b::remark);
          return b.build();
        });
  }

  /** A titrant with everything in it, so that it reads back the same. */
  static ObjectNode inFull(Titrant t, MaterialTable table) {
    ObjectNode node = JsonDocument.object().put("name", t.name());
    node.put("strongIonEqPerKg", JsonDocument.number(t.strongChargeEqPerKg()));
    node.put("waterPercent", JsonDocument.number(percent(t.waterKgPerKg())));
    ArrayNode groups = node.putArray("groups");
    for (Titrant.Group g : t.groups()) {
      groups.add(
          MaterialFile.json(
              new AcidBaseGroup(
                  g.acid().name(), g.acid(), null, Range.exactly(g.molPerKg()), false, false),
              table.acids()));
    }
    ObjectNode contents = node.putObject("contents");
    t.contents().forEach((inci, p) -> contents.put(inci, JsonDocument.number(p)));
    JsonDocument.texts(node, "cautions", t.cautions());
    JsonDocument.texts(node, "remarks", t.remarks());
    return node.put("minutesToAct", JsonDocument.number(t.minutesToAct()));
  }

  /** The percentage whose hundredth is exactly a fraction. */
  private static double percent(double fraction) {
    double percent = fraction * 100;
    for (double p : new double[] {percent, Math.nextUp(percent), Math.nextDown(percent)}) {
      if (p / 100 == fraction) {
        return p;
      }
    }
    return percent;
  }
}
