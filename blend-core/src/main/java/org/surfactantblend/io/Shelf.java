package org.surfactantblend.io;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;

/**
 * What a document brings with it, laid over a table: materials of one's own, lots with their
 * certificates, prices. Lots stand beside their grade and are asked for by id and lot.
 */
final class Shelf {
  private static final int MOST_LOTS = 1000;

  private final MaterialTable table;
  private final List<Material> own;
  private final Set<String> asked = new HashSet<>();
  private final Map<String, Material> lots = new LinkedHashMap<>();
  private final Map<Material, Double> lotPrices = new LinkedHashMap<>();
  private final List<CertificateFile.OfGrade> certificates = new ArrayList<>();
  private final List<Runnable> lotProblems = new ArrayList<>();

  private Shelf(MaterialTable table, List<Material> own) {
    this.table = table;
    this.own = own;
  }

  /** Reads the fields materials, certificates and prices of a document. */
  static Shelf of(JsonPart document, MaterialTable base) {
    ProblemLog log = document.log();
    MaterialFile.Reading own =
        new MaterialFile.Reading(
            base, document.has("prices") ? "" : base.prices().currency(), log, true);
    if (document.has("materials")) {
      MaterialFile.materials(
          own, document.source(), document.at("materials"), document.node("materials"));
    }
    List<Material> grades = new ArrayList<>();
    List<Material> ownLots = new ArrayList<>();
    own.materials.values().forEach(m -> (m.lot().isEmpty() ? grades : ownLots).add(m));
    MaterialTable laid = base.with(grades);
    PriceList under = base.prices();
    if (document.has("prices")) {
      under =
          PriceFile.read(
              document.source(), document.at("prices"), document.node("prices"), laid, log);
    }
    PriceList with = own.prices.list();
    if (!under.currency().isEmpty()
        && !with.currency().isEmpty()
        && !with.currency().equals(under.currency())) {
      document.error(
          ProblemCodes.CURRENCY_MIXED,
          "materials",
          Row.quoted(with.currency()),
          "the currency of the prices, " + under.currency(),
          "convert the price");
      with = PriceList.EMPTY;
    }
    Shelf shelf =
        new Shelf(
            document.failed() ? laid : own.priced(laid, under),
            List.copyOf(own.materials.values()));
    ownLots.forEach(m -> shelf.lots.put(m.toString(), m));
    shelf.lotPrices.putAll(own.lotPrices);
    document.list("certificates", false, MOST_LOTS, shelf::certificate);
    return shelf;
  }

  private @Nullable Material certificate(JsonPart part) {
    CertificateFile.OfGrade read = CertificateFile.read(part, this);
    part.done();
    if (read == null) {
      return null;
    }
    Loaded<Material> lot = read.certificate().appliedTo(read.grade());
    certificates.add(read);
    lot.problems().forEach(p -> lotProblems.add(() -> part.log().add(Question.moved(part, p))));
    lotProblems.add(
        () -> {
          if (!part.failed() && !asked.contains(lot.value().toString())) {
            part.warning(
                ProblemCodes.UNUSED_LOT,
                "lot",
                Row.quoted(lot.value().toString()),
                "a lot that the request uses",
                "name the lot beside its material; without it the figures of the grade are taken");
          }
        });
    if (lots.putIfAbsent(lot.value().toString(), lot.value()) != null) {
      part.error(
          ProblemCodes.DUPLICATE_ID,
          "lot",
          Row.quoted(lot.value().toString()),
          "a lot that stands here once",
          "");
    }
    read.certificate().pricePerKg().ifPresent(p -> lotPrices.put(lot.value(), p));
    return lot.value();
  }

  /** Reports every figure of a certificate that looks wrong. */
  void reportLots() {
    lotProblems.forEach(Runnable::run);
  }

  /** The certificates, for whoever judges them; {@link #reportLots} then has nothing to say. */
  List<CertificateFile.OfGrade> certificatesToJudge() {
    lotProblems.clear();
    return certificates;
  }

  /** The grades and lots that came as rows of their own. */
  List<Material> ownMaterials() {
    return own;
  }

  /** The table with the document's grades and prices over it. */
  MaterialTable table() {
    return table;
  }

  /** What a lot cost, where its certificate says so [currency per kg as supplied]. */
  OptionalDouble lotPrice(Material lot) {
    Double price = lotPrices.get(lot);
    return price == null ? OptionalDouble.empty() : OptionalDouble.of(price);
  }

  /** The table in which every lot stands in for its grade, at its own price if it has one. */
  MaterialTable tableOfLots(JsonPart document) {
    asked.addAll(lots.keySet());
    MaterialTable result = table.with(lots.values());
    if (lots.values().stream().map(Material::id).distinct().count() < lots.size()) {
      document.error(
          ProblemCodes.DUPLICATE_ID,
          "certificates",
          "two lots of one material",
          "one lot of each material, which then stands in for its grade",
          "");
    }
    PriceList prices = table.prices();
    for (Material lot : lots.values()) {
      if (lotPrices.containsKey(lot)) {
        prices = prices.with(lot.id(), lotPrices.getOrDefault(lot, 0.0));
      }
    }
    return result.priced(prices);
  }

  /** The grade of an id in a field, or null with a problem. */
  @Nullable Material grade(JsonPart part, String field) {
    String id = part.text(field);
    if (id.isEmpty()) {
      return null;
    }
    Material found = table.find(id).orElse(null);
    if (found == null) {
      unknown(part, part.at(field), id);
    }
    return found;
  }

  /** Reports an id that the table does not have. */
  void known(JsonPart part, String path, String id) {
    if (table.find(id).isEmpty()) {
      unknown(part, path, id);
    }
  }

  private void unknown(JsonPart part, String path, String id) {
    part.log()
        .add(
            Problem.error(
                ProblemCodes.UNKNOWN_MATERIAL,
                Place.in(part.source(), path),
                Row.quoted(id),
                "an id of the table or of the materials that come with the request",
                Nearest.to(id, table.materials().stream().map(Material::id).toList())));
  }

  /** The material that the fields material and lot name, or null with a problem. */
  @Nullable Material material(JsonPart part) {
    if (!part.has("lot")) {
      return grade(part, "material");
    }
    String id = part.text("material");
    String lot = part.text("lot");
    asked.add(id + " lot " + lot);
    Material found = lots.get(id + " lot " + lot);
    if (found == null && !id.isEmpty() && !lot.isEmpty()) {
      part.error(
          ProblemCodes.UNKNOWN_LOT,
          "lot",
          Row.quoted(lot) + " of " + Row.quoted(id),
          "a lot with a certificate, or with a row of its own among the materials",
          Nearest.to(
              lot,
              lots.values().stream()
                  .filter(m -> m.id().equals(id))
                  .flatMap(m -> m.lot().stream())
                  .toList()));
    }
    return found;
  }

  /** The conditions that a field temperatureC asks for, 25 degC without it. */
  static Conditions conditions(JsonPart part) {
    double celsius = part.numberOr("temperatureC", 0, 60, "degC", 25);
    return celsius == 25 || Double.isNaN(celsius)
        ? Conditions.standard()
        : Conditions.standard().withTemperature(celsius);
  }

  // Writing

  /** Names a material. */
  static ObjectNode reference(ObjectNode at, Material m) {
    at.put("material", m.id());
    m.lot().ifPresent(lot -> at.put("lot", lot));
    return at;
  }

  /** Puts whatever is not in a table into a document, so that it can be read anywhere. */
  static void embed(ObjectNode root, Collection<Material> used, MaterialTable table) {
    Map<String, Material> all = new LinkedHashMap<>();
    for (Material m : used) {
      Material other = all.putIfAbsent(m.toString(), m);
      if (other != null && other != m) {
        throw new IllegalArgumentException(
            "materials were two different ones called " + m + ", allowed is one");
      }
    }
    all.values().removeIf(m -> m.lot().isEmpty() && table.find(m.id()).orElse(null) == m);
    if (!all.isEmpty()) {
      ArrayNode list = root.putArray("materials");
      all.values().forEach(m -> list.add(MaterialFile.json(m, table.acids())));
    }
  }
}
