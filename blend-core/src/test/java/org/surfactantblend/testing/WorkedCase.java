package org.surfactantblend.testing;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.quantity.Range;

/**
 * One of the worked cases in {@code data/cases}: a product of a small workshop, worked by hand on
 * invented grades with invented prices. They check arithmetic, not chemistry.
 */
public final class WorkedCase {
  /** The grade that fills up to 100 %. */
  public static final String WATER = "WATER";

  /** The acid solution that is dosed last; left out of a starting pH. */
  public static final String ACID = "CIT20";

  private static final Family INVENTED = Family.inert("invented grade");

  private final JsonNode root;
  private final Map<String, Material> grades = new LinkedHashMap<>();
  private final PriceList prices;

  private WorkedCase(JsonNode root) {
    this.root = root;
    Map<String, Double> costs = new LinkedHashMap<>();
    for (Map.Entry<String, JsonNode> e : root.get("grades").properties()) {
      grades.put(e.getKey(), material(e.getKey(), e.getValue()));
      costs.put(e.getKey(), e.getValue().get("price_per_kg").asDouble());
    }
    prices = PriceList.of("cu", costs);
  }

  /** Reads case {@code JM-number}. */
  public static WorkedCase number(int number) {
    Path file = Path.of("..", "data", "cases", "JM-" + number + ".json");
    try {
      return new WorkedCase(new ObjectMapper().readTree(file.toFile()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** What the case starts from. */
  public JsonNode inputs() {
    return root.get("case").get("inputs");
  }

  /** What was worked out by hand. */
  public JsonNode expected() {
    return root.get("case").get("expected");
  }

  /** The invented prices. */
  public PriceList prices() {
    return prices;
  }

  /** Every grade of the case, with its prices. */
  public MaterialTable table() {
    return MaterialTable.of(grades.values()).priced(prices);
  }

  /** One grade. */
  public Material grade(String key) {
    Material m = grades.get(key);
    if (m == null) {
      throw new IllegalArgumentException("no grade " + key);
    }
    return m;
  }

  /** Shares of the active by grade, as fractions. */
  public Map<String, Double> shares() {
    Map<String, Double> all = new LinkedHashMap<>();
    for (JsonNode s : inputs().get("shares_of_active")) {
      all.put(s.get("grade").asText(), s.get("share").asDouble());
    }
    return all;
  }

  /** The other lines by grade [% m/m as supplied]. */
  public Map<String, Double> others() {
    Map<String, Double> all = new LinkedHashMap<>();
    for (Map.Entry<String, JsonNode> e : inputs().get("other_pct").properties()) {
      all.put(e.getKey(), e.getValue().asDouble());
    }
    return all;
  }

  /** The total active [% active]. */
  public double totalActive() {
    return inputs().get("total_active_pct").asDouble();
  }

  /** The product with some grades in place of others, every active percentage held. */
  public Blend blend(Map<String, String> replaced, Map<String, Double> others) {
    Blend.Builder b = Blend.named(root.get("case").get("title").asText());
    shares()
        .forEach(
            (grade, share) -> {
              Material m = grade(replaced.getOrDefault(grade, grade));
              b.line(m, totalActive() * share / (m.activePercent().typical() / 100));
            });
    others.forEach((grade, percent) -> b.line(grade(grade), percent));
    return b.upToHundredWith(grade(WATER));
  }

  private static Material material(String key, JsonNode grade) {
    Material.Builder b =
        Material.builder(key).inciName(grade.get("name").asText()).family(INVENTED);
    String active = grade.path("active_inci").asText("");
    for (Map.Entry<String, JsonNode> e : grade.get("composition_pct").properties()) {
      Range percent = Range.exactly(e.getValue().asDouble());
      if (e.getKey().equals(active)) {
        b.constituent(
            Constituent.active(
                active,
                percent,
                ChargeClass.parse(grade.get("charge_class").asText()).orElseThrow(),
                OptionalDouble.of(grade.get("mean_molar_mass").asDouble())));
      } else if (!e.getKey().equals(Constituent.WATER)) {
        b.constituent(Constituent.other(e.getKey(), percent));
      }
    }
    acidBase(b, key, grade.path("acid_base"));
    return b.build();
  }

  /** The constants of the case in place of any sheet pH, which has no dilution here. */
  private static void acidBase(Material.Builder b, String key, JsonNode parts) {
    double strong = 0;
    List<AcidBaseGroup> groups = new ArrayList<>();
    for (JsonNode p : parts) {
      double amount = p.get("mmol_per_kg").asDouble() / 1000;
      String kind = p.get("kind").asText();
      switch (kind) {
        case "strong_base" -> strong += amount;
        case "strong_acid" -> strong -= amount;
        case "weak_acid" -> groups.add(group(AcidBase.acid(kind, p.get("pKa").asDouble()), amount));
        case "amine" -> groups.add(group(AcidBase.base(kind, p.get("pKa").asDouble()), amount));
        case "salt_of_weak_acid" -> {
          strong += amount;
          groups.add(group(AcidBase.acid(kind, p.get("pKa").asDouble()), amount));
        }
        default -> throw new IllegalArgumentException("kind " + kind);
      }
    }
    // Molar masses and constants are those of the cases' conventions.
    if (key.equals("NABENZ")) {
      strong = 1000 / 144.11;
      groups.add(group(AcidBase.acid("benzoic acid", 4.20), strong));
    } else if (key.equals("KSORB")) {
      strong = 1000 / 150.22;
      groups.add(group(AcidBase.acid("sorbic acid", 4.76), strong));
    }
    groups.forEach(b::group);
    b.strongIonEqPerKg(Range.exactly(strong));
  }

  private static AcidBaseGroup group(AcidBase acid, double molPerKg) {
    return new AcidBaseGroup(acid.name(), acid, null, Range.exactly(molPerKg), false, false);
  }
}
