package org.surfactantblend.io;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.quantity.Range;

/**
 * A shop's own raw materials as CSV or JSON, laid over a table that is already there.
 *
 * <p>CSV: UTF-8, one header row, one row per material, in any order of columns. Cells are separated
 * by commas; semicolons, tabs and bars are read too, with a warning. Numbers have a decimal point
 * and no percent sign. An empty cell means "not given", never zero.
 *
 * <table>
 * <caption>Columns of CSV, and the JSON field of the same meaning</caption>
 * <tr><th>column</th><th>JSON</th><th></th></tr>
 * <tr><td>id</td><td>id</td><td>required; lower-case words with hyphens that name INCI and grade; a row replaces the row of the same id underneath</td></tr>
 * <tr><td>inci_name</td><td>inciName</td><td>required; INCI name of the main constituent; further names after " (and) "</td></tr>
 * <tr><td>grade</td><td>grade</td><td>the grade in words</td></tr>
 * <tr><td>charge_class</td><td>chargeClass</td><td>anionic, amphoteric, nonionic, cationic, or none for what is no surfactant; empty: the family's</td></tr>
 * <tr><td>family</td><td>family</td><td>a family of the table; brings its acid-base groups</td></tr>
 * <tr><td>lot</td><td>lot</td><td>the lot, when the figures are those of its certificate</td></tr>
 * <tr><td>active_min_pct, active_typ_pct, active_max_pct</td><td>activePercent</td><td>active matter of the main surfactant [% m/m as supplied]; required for surfactants: the typical figure, or both ends</td></tr>
 * <tr><td>dry_residue_min_pct, dry_residue_typ_pct, dry_residue_max_pct</td><td>dryResiduePercent</td><td>[% m/m as supplied]; never to be entered as active matter</td></tr>
 * <tr><td>ph_low, ph_typ, ph_high</td><td>ph.low, ph.typical, ph.high</td><td>pH of the sheet</td></tr>
 * <tr><td>ph_dilution_pct</td><td>ph.dilutionPercent</td><td>material as supplied in the measured sample [% m/m], 100 = as it is</td></tr>
 * <tr><td>ph_basis_certain, ph_basis_note</td><td>ph.basisCertain, ph.basisNote</td><td>no: the dilution is not certain, so the range is widened; why</td></tr>
 * <tr><td>titrated_acid_min_eq_per_kg, titrated_acid_typ_eq_per_kg, titrated_acid_max_eq_per_kg</td><td>titratedAcidEqPerKg</td><td>strong acid that brought a sample to that pH [eq/kg as supplied], below zero for base; empty for a plain pH</td></tr>
 * <tr><td>salt_min_pct, salt_typ_pct, salt_max_pct</td><td>saltPercent</td><td>sodium chloride [% m/m as supplied]</td></tr>
 * <tr><td>water_pct</td><td>waterPercent</td><td>water [% m/m as supplied], as a check; what it and the constituents leave of 100 is listed as "(undeclared)"</td></tr>
 * <tr><td>molar_mass_g_per_mol</td><td>molarMass</td><td>mean of the main surfactant [g/mol]</td></tr>
 * <tr><td>natural_origin_pct</td><td>naturalOriginPercent</td><td>[% m/m without water]</td></tr>
 * <tr><td>max_use_pct</td><td>maxUsePercent</td><td>greatest use [% m/m of the product as supplied]</td></tr>
 * <tr><td>strong_ion_min_eq_per_kg, strong_ion_typ_eq_per_kg, strong_ion_max_eq_per_kg</td><td>strongIonEqPerKg</td><td>strong cations less strong anions [eq/kg as supplied], when declared or measured</td></tr>
 * <tr><td>constituents</td><td>constituents</td><td>what else is inside [% m/m as supplied], such as {@code Glycerin 2..3; Sodium Benzoate 0.4; Coco-Betaine 5..6..7 [amphoteric, 285 g/mol]}; in JSON a list of objects with inciName, percent, chargeClass, molarMass, source</td></tr>
 * <tr><td>groups</td><td>groups</td><td>weak groups beside the family's, such as {@code soap: pKa 6.3..6.9..7.5, charge 0, 0..0.04..0.09 mol/kg, apparent; citric acid: acid citric, 0.02 mol/kg; carboxyl: pKa 4.5..4.9..5.3, charge 0, 1 mol/mol, apparent, on active}; in JSON a list of objects with name, acid or acidName, pKa, enthalpies and heatCapacities, pKaRange, charge, amount, amountBasis, apparent, onActive, source</td></tr>
 * <tr><td>price_per_kg, currency</td><td>pricePerKg, currency</td><td>the shop's price [per kg as supplied]</td></tr>
 * <tr><td>..._source, other_sources</td><td>sources</td><td>source ids by figure; in other_sources {@code constituent Glycerin: COM | group soap: EST}</td></tr>
 * <tr><td>caveats, notes</td><td>caveats, notes</td><td>what is uncertain, separated by semicolons (JSON: a list); remarks</td></tr>
 * </table>
 *
 * <p>In JSON a range is an object with low, typical and high, or a plain number for the typical
 * value; {@code ph} is an object. The document is a list of materials or an object with such a list
 * named {@code materials}; {@code version} 1 and {@code kind} "materials" may stand beside it.
 *
 * <p>What is missing has a rule: no typical value = the middle of the range; no range of active
 * matter = the usual one of the family, with a caveat; no dilution of a pH = 10 %, with a warning
 * and a wider range; no family = a default of the charge class, with a warning. The codes of all
 * problems are in {@link ProblemCodes}.
 */
public final class MaterialFile {
  private static final Set<String> COLUMNS = Set.copyOf(MaterialRows.COLUMNS);
  private static final JsonDocument.Fields MATERIAL_FIELDS = materialFields();
  private static final JsonDocument.Fields CONSTITUENT_FIELDS = constituentFields();
  private static final JsonDocument.Fields GROUP_FIELDS = groupFields();

  private static final int MOST_PARTS = 200;

  private MaterialFile() {}

  /**
   * Reads a table of materials and lays its rows, and prices if it has any, over a table.
   *
   * @param input the CSV text
   * @param base the table underneath, whose families and acids the rows may use
   * @return the base with every row that could be read laid over it, and every problem
   * @throws NullPointerException if an argument is null
   */
  public static Loaded<MaterialTable> readCsv(Input input, MaterialTable base) {
    Reading reading = csv(input, base);
    return new Loaded<>(reading.table(), reading.log.problems());
  }

  /**
   * Reads the rows of a table of materials alone.
   *
   * @param input the CSV text
   * @param base the table whose families and acids the rows may use
   * @return the materials that could be read, in the order of the text, and every problem
   * @throws NullPointerException if an argument is null
   */
  public static Loaded<List<Material>> materialsFromCsv(Input input, MaterialTable base) {
    Reading reading = csv(input, base);
    return new Loaded<>(List.copyOf(reading.materials.values()), reading.log.problems());
  }

  /**
   * Reads materials from JSON and lays them, and prices if there are any, over a table.
   *
   * @param input the JSON text
   * @param base the table underneath, whose families and acids the materials may use
   * @return the base with every material that could be read laid over it, and every problem
   * @throws NullPointerException if an argument is null
   */
  public static Loaded<MaterialTable> readJson(Input input, MaterialTable base) {
    Reading reading = json(input, base);
    return new Loaded<>(reading.table(), reading.log.problems());
  }

  /**
   * Reads the materials of a JSON text alone.
   *
   * @param input the JSON text
   * @param base the table whose families and acids the materials may use
   * @return the materials that could be read, in the order of the text, and every problem
   * @throws NullPointerException if an argument is null
   */
  public static Loaded<List<Material>> materialsFromJson(Input input, MaterialTable base) {
    Reading reading = json(input, base);
    return new Loaded<>(List.copyOf(reading.materials.values()), reading.log.problems());
  }

  /** What one reading gathers. */
  static final class Reading {
    final MaterialTable base;
    final ProblemLog log;
    final MaterialRows rows;
    final Map<String, Material> materials = new LinkedHashMap<>();
    final PriceFile.Collector prices;
    final Map<Material, Double> lotPrices = new LinkedHashMap<>();
    private final boolean lotsApart;
    private final Set<String> seen = new HashSet<>();

    Reading(MaterialTable base) {
      this(base, base.prices().currency(), new ProblemLog(), false);
    }

    /**
     * A reading over a table.
     *
     * @param lotsApart whether a material with a lot stands beside the grade of its id and not in
     *     its place
     */
    Reading(MaterialTable base, String currency, ProblemLog log, boolean lotsApart) {
      this.base = Objects.requireNonNull(base, "base");
      this.log = log;
      this.lotsApart = lotsApart;
      List<Map.Entry<String, Range>> actives = new ArrayList<>();
      for (Material m : base.materials()) {
        m.constituents().stream()
            .filter(Constituent::isActive)
            .findFirst()
            .ifPresent(c -> actives.add(Map.entry(m.family().name(), c.percent())));
      }
      rows = new MaterialRows(base.families(), base.acids(), actives, base.materials());
      prices = new PriceFile.Collector(base, currency);
    }

    void take(Row row, MaterialRows.More more) {
      Material material = rows.build(row, more);
      double price = row.number("price_per_kg", 0, PriceFile.MOST, "per kg as supplied");
      String id = row.word("id");
      boolean apart = lotsApart && row.has("lot");
      String key = apart ? id + " lot " + row.word("lot") : id;
      if (!id.isEmpty() && !seen.add(key)) {
        row.error(
            ProblemCodes.DUPLICATE_ID,
            "id",
            Row.quoted(key),
            "an id that no earlier row has",
            (materials.containsKey(key)
                    ? "the earlier row is kept"
                    : "the earlier row has a fault, so neither is kept")
                + ": give this one an id of its own, or remove one of the two");
      }
      if (material == null || row.failed()) {
        return;
      }
      materials.put(key, material);
      if (Double.isNaN(price)) {
        return;
      }
      PriceFile.Collector.warnOfNothing(row, price, PriceFile.Collector.isWater(material));
      if (apart) {
        lotPrices.put(material, price);
      } else {
        prices.put(row, "id", material.id(), price);
      }
    }

    MaterialTable table() {
      return priced(base.with(materials.values()), base.prices());
    }

    /** The table with prices and, over them, those that came with the materials. */
    MaterialTable priced(MaterialTable laid, PriceList under) {
      PriceList own = prices.list();
      if (own.materialIds().isEmpty()) {
        return laid.priced(under);
      }
      Map<String, Double> merged = new TreeMap<>();
      for (String id : under.materialIds()) {
        merged.put(id, under.pricePerKg(id).orElseThrow());
      }
      for (String id : own.materialIds()) {
        merged.put(id, own.pricePerKg(id).orElseThrow());
      }
      return laid.priced(PriceList.of(own.currency(), merged));
    }
  }

  private static Reading csv(Input input, MaterialTable base) {
    Reading reading = new Reading(base);
    for (Row row : CsvTable.read(input, COLUMNS, MaterialRows.REQUIRED, reading.log)) {
      if (reading.log.isFull()) {
        break;
      }
      reading.take(
          row,
          new MaterialRows.More(
              PartText.constituents(row, "constituents"),
              PartText.groups(row, "groups", reading.rows.acids()),
              null,
              PartText.sources(row, "other_sources"),
              PartText.list(row.text("caveats"))));
    }
    return reading;
  }

  private static Reading json(Input input, MaterialTable base) {
    Reading reading = new Reading(base);
    JsonNode root = JsonDocument.parse(input, reading.log);
    if (root == null) {
      return reading;
    }
    String name = input.name();
    JsonNode list = root;
    String path = "$";
    if (root.isObject()) {
      // One pass over the outer object reports the fields it should not have.
      Row outer =
          JsonDocument.row(
              name,
              path,
              root,
              new JsonDocument.Fields(Map.of(), Set.of(), Set.of("version", "kind", "materials")),
              reading.log);
      Question.envelope(new JsonPart(name, path, root, reading.log), "materials", false);
      list = root.path("materials");
      path = "$.materials";
      if (list.isMissingNode()) {
        outer.error(ProblemCodes.MISSING_VALUE, "", "no materials", "a list named materials", "");
        return reading;
      }
    }
    materials(reading, name, path, list);
    return reading;
  }

  /** Takes up the materials of a list. */
  static void materials(Reading reading, String name, String path, JsonNode list) {
    if (!list.isArray()) {
      reading.log.add(
          Problem.error(
              ProblemCodes.JSON_TYPE,
              Place.in(name, path),
              JsonDocument.kind(list),
              "a list of materials",
              ""));
      return;
    }
    if (list.isEmpty()) {
      reading.log.add(
          Problem.warning(
              ProblemCodes.NO_ROWS,
              Place.in(name, path),
              "an empty list",
              "one object per material",
              ""));
    }
    for (int i = 0; i < list.size() && !reading.log.isFull(); i++) {
      if (i >= Input.MOST_ROWS) {
        reading.log.add(
            Problem.error(
                ProblemCodes.TOO_MANY_ROWS,
                Place.in(name, path),
                list.size() + " materials",
                "at most " + Input.MOST_ROWS,
                "split the document"));
        break;
      }
      material(reading, name, path + "[" + i + "]", list.get(i));
    }
  }

  /** The weak groups of a list; those with an error are left out. */
  static List<AcidBaseGroup> groups(JsonPart part, String field, Map<String, AcidBase> acids) {
    List<AcidBaseGroup> groups = new ArrayList<>();
    JsonNode items = part.items(field, false, MOST_PARTS, "groups");
    for (Row row :
        JsonDocument.rows(part.source(), part.at(field), items, GROUP_FIELDS, part.log())) {
      AcidBaseGroup group = Parts.group(row, acids);
      if (group != null) {
        groups.add(group);
      }
    }
    return groups;
  }

  private static void material(Reading reading, String name, String path, JsonNode node) {
    if (!node.isObject()) {
      reading.log.add(
          Problem.error(
              ProblemCodes.JSON_TYPE,
              Place.in(name, path),
              JsonDocument.kind(node),
              "an object",
              ""));
      return;
    }
    Row row = JsonDocument.row(name, path, node, MATERIAL_FIELDS, reading.log);
    Map<String, String> sources = new TreeMap<>();
    List<Constituent> constituents = new ArrayList<>();
    for (Row inner : list(row, name, path, node, "constituents", CONSTITUENT_FIELDS)) {
      Constituent c = Parts.constituent(inner);
      if (c == null) {
        row.fail();
      } else {
        constituents.add(c);
        if (inner.has("source")) {
          sources.put("constituent " + c.inciName(), inner.text("source"));
        }
      }
    }
    List<AcidBaseGroup> groups = new ArrayList<>();
    for (Row inner : list(row, name, path, node, "groups", GROUP_FIELDS)) {
      AcidBaseGroup g = Parts.group(inner, reading.rows.acids());
      if (g == null) {
        row.fail();
      } else {
        groups.add(g);
        if (inner.has("source")) {
          sources.put("group " + g.name(), inner.text("source"));
        }
      }
    }
    for (Map.Entry<String, JsonNode> entry : object(row, node, "sources").properties()) {
      if (entry.getValue().isTextual() && !entry.getKey().isBlank()) {
        row.checkCharacters("sources", entry.getKey() + entry.getValue().asText());
        sources.put(entry.getKey().strip(), entry.getValue().asText());
      } else {
        wrongKind(row, "sources", JsonDocument.kind(entry.getValue()), "source ids as text");
      }
    }
    List<String> caveats = new ArrayList<>();
    for (JsonNode item : array(row, node, "caveats")) {
      if (item.isTextual() && !item.asText().isBlank()) {
        row.checkCharacters("caveats", item.asText());
        caveats.add(item.asText());
      } else {
        wrongKind(row, "caveats", JsonDocument.kind(item), "sentences as text");
      }
    }
    reading.take(row, new MaterialRows.More(constituents, groups, null, sources, caveats));
  }

  private static void wrongKind(Row row, String field, String found, String allowed) {
    row.error(ProblemCodes.JSON_TYPE, field, found, allowed, "");
  }

  private static JsonNode object(Row row, JsonNode node, String field) {
    JsonNode value = node.path(field);
    if (!value.isObject() && !value.isMissingNode()) {
      wrongKind(row, field, JsonDocument.kind(value), "an object");
    }
    return value.isObject() ? value : JsonDocument.object();
  }

  private static JsonNode array(Row row, JsonNode node, String field) {
    JsonNode value = node.path(field);
    if (!value.isArray() && !value.isMissingNode()) {
      wrongKind(row, field, JsonDocument.kind(value), "a list");
    }
    return value.isArray() ? value : JsonDocument.object();
  }

  private static List<Row> list(
      Row row, String name, String path, JsonNode node, String field, JsonDocument.Fields fields) {
    JsonNode items = array(row, node, field);
    if (items.size() > MOST_PARTS) {
      row.error(
          ProblemCodes.TOO_MANY_ROWS,
          field,
          items.size() + " of them",
          "at most " + MOST_PARTS + " in one material",
          "");
      return List.of();
    }
    List<Row> rows = JsonDocument.rows(name, path + "." + field, items, fields, row.log());
    if (rows.size() < items.size() || rows.stream().anyMatch(Row::failed)) {
      row.fail();
    }
    return rows;
  }

  private static JsonDocument.Fields materialFields() {
    Map<String, String> columns = new LinkedHashMap<>();
    columns.put("id", "id");
    columns.put("inciName", "inci_name");
    columns.put("grade", "grade");
    columns.put("chargeClass", "charge_class");
    columns.put("family", "family");
    columns.put("lot", "lot");
    range(columns, "activePercent", "active_min_pct", "active_typ_pct", "active_max_pct");
    range(
        columns,
        "dryResiduePercent",
        "dry_residue_min_pct",
        "dry_residue_typ_pct",
        "dry_residue_max_pct");
    columns.put("ph.low", "ph_low");
    columns.put("ph.typical", "ph_typ");
    columns.put("ph.high", "ph_high");
    columns.put("ph.dilutionPercent", "ph_dilution_pct");
    columns.put("ph.basisCertain", "ph_basis_certain");
    columns.put("ph.basisNote", "ph_basis_note");
    range(columns, "saltPercent", "salt_min_pct", "salt_typ_pct", "salt_max_pct");
    columns.put("waterPercent", "water_pct");
    columns.put("molarMass", "molar_mass_g_per_mol");
    columns.put("naturalOriginPercent", "natural_origin_pct");
    columns.put("maxUsePercent", "max_use_pct");
    range(
        columns,
        "strongIonEqPerKg",
        "strong_ion_min_eq_per_kg",
        "strong_ion_typ_eq_per_kg",
        "strong_ion_max_eq_per_kg");
    range(
        columns,
        "titratedAcidEqPerKg",
        "titrated_acid_min_eq_per_kg",
        "titrated_acid_typ_eq_per_kg",
        "titrated_acid_max_eq_per_kg");
    columns.put("pricePerKg", "price_per_kg");
    columns.put("currency", "currency");
    columns.put("notes", "notes");
    return new JsonDocument.Fields(
        columns, Set.of(), Set.of("constituents", "groups", "sources", "caveats"));
  }

  private static JsonDocument.Fields constituentFields() {
    Map<String, String> columns = new LinkedHashMap<>();
    columns.put("inciName", "inci_name");
    range(columns, "percent", "min_pct", "typ_pct", "max_pct");
    columns.put("chargeClass", "charge_class");
    columns.put("molarMass", "molar_mass_g_per_mol");
    columns.put("source", "source");
    return new JsonDocument.Fields(columns, Set.of(), Set.of());
  }

  private static JsonDocument.Fields groupFields() {
    Map<String, String> columns = new LinkedHashMap<>();
    columns.put("name", "group");
    columns.put("acid", "acid");
    columns.put("acidName", "acid_name");
    columns.put("charge", "charge_of_acid_form");
    columns.put("pKa", "pka_steps");
    columns.put("enthalpies", "enthalpies_kj_per_mol");
    columns.put("heatCapacities", "heat_capacities_j_per_k_per_mol");
    range(columns, "pKaRange", "pka_low", "pka_typ", "pka_high");
    range(columns, "amount", "amount_min", "amount_typ", "amount_max");
    columns.put("amountBasis", "amount_basis");
    columns.put("apparent", "apparent");
    columns.put("onActive", "on_active");
    columns.put("source", "source");
    return new JsonDocument.Fields(
        columns, Set.of("pKa", "enthalpies", "heatCapacities"), Set.of());
  }

  private static void range(
      Map<String, String> columns, String field, String low, String typical, String high) {
    columns.put(field + ".low", low);
    columns.put(field + ".typical", typical);
    columns.put(field + ".high", high);
    columns.put(field, typical);
  }

  /**
   * Writes materials as CSV that {@link #readCsv} reads back as the same materials, as long as
   * their families are in the base and their figures do not contradict each other, and that a
   * spreadsheet can open without running anything: a cell that begins with =, +, -, @, tab or
   * carriage return gets an apostrophe in front, which the reader takes off; numbers excepted.
   *
   * @param materials the materials
   * @param base the table whose families and acids they use
   * @return the CSV text, with line feeds; columns that no material needs are left out
   * @throws NullPointerException if an argument is null
   * @throws IllegalArgumentException if a name or caveat holds a character that separates items
   *     within a cell, such as a semicolon; JSON can hold those
   */
  public static String writeCsv(Collection<Material> materials, MaterialTable base) {
    Map<String, AcidBase> acids = base.acids();
    List<Map<String, String>> rows = new ArrayList<>();
    Set<String> used = new LinkedHashSet<>(MaterialRows.REQUIRED);
    for (Material m : materials) {
      MaterialCells split = MaterialCells.of(m);
      Map<String, String> cells = new LinkedHashMap<>(split.cells());
      cells.put("constituents", PartText.ofConstituents(split.rest()));
      cells.put("groups", PartText.ofGroups(m.ownGroups(), acids));
      cells.put("other_sources", PartText.ofSources(split.otherSources()));
      cells.put("caveats", PartText.ofList("caveat", m.ownCaveats()));
      cells.values().removeIf(String::isEmpty);
      used.addAll(cells.keySet());
      rows.add(cells);
    }
    return CsvText.of(MaterialRows.COLUMNS.stream().filter(used::contains).toList(), rows);
  }

  /**
   * Writes materials as JSON that {@link #readJson} reads back as the same materials, as long as
   * their families are in the base and their figures do not contradict each other.
   *
   * @param materials the materials
   * @param base the table whose families and acids they use
   * @return the JSON text, with line feeds
   * @throws NullPointerException if an argument is null
   */
  public static String writeJson(Collection<Material> materials, MaterialTable base) {
    ObjectNode root = Question.document("materials");
    ArrayNode list = root.putArray("materials");
    for (Material m : materials) {
      list.add(json(m, base.acids()));
    }
    return JsonDocument.write(root);
  }

  static ObjectNode json(Material m, Map<String, AcidBase> acids) {
    MaterialCells split = MaterialCells.of(m);
    ObjectNode node = JsonDocument.object();
    MATERIAL_FIELDS
        .columns()
        .forEach(
            (field, column) -> {
              String cell = split.cells().get(column);
              boolean shorthand = MATERIAL_FIELDS.columns().containsKey(field + ".typical");
              if (cell == null || cell.isEmpty() || shorthand) {
                return;
              }
              int dot = field.indexOf('.');
              ObjectNode at = dot < 0 ? node : node.withObjectProperty(field.substring(0, dot));
              String name = field.substring(dot + 1);
              if (column.equals("ph_basis_certain")) {
                at.put(name, cell.equals("yes"));
              } else if (column.endsWith("_pct")
                  || column.endsWith("_per_kg")
                  || column.endsWith("_per_mol")
                  || column.equals("ph_low")
                  || column.equals("ph_typ")
                  || column.equals("ph_high")) {
                at.put(name, new BigDecimal(cell));
              } else {
                at.put(name, cell);
              }
            });
    if (!split.rest().isEmpty()) {
      ArrayNode list = node.putArray("constituents");
      for (Constituent c : split.rest()) {
        ObjectNode item = list.addObject().put("inciName", c.inciName());
        item.set("percent", JsonDocument.range(c.percent()));
        c.chargeClass().ifPresent(k -> item.put("chargeClass", k.label()));
        c.molarMass().ifPresent(v -> item.put("molarMass", JsonDocument.number(v)));
      }
    }
    if (!m.ownGroups().isEmpty()) {
      ArrayNode list = node.putArray("groups");
      m.ownGroups().forEach(g -> list.add(json(g, acids)));
    }
    if (!m.sources().isEmpty()) {
      ObjectNode sources = node.putObject("sources");
      new TreeMap<>(m.sources()).forEach(sources::put);
    }
    if (!m.ownCaveats().isEmpty()) {
      ArrayNode list = node.putArray("caveats");
      m.ownCaveats().forEach(list::add);
    }
    return node;
  }

  static ObjectNode json(AcidBaseGroup g, Map<String, AcidBase> acids) {
    Map<String, String> cells = PartText.cells(g, acids);
    ObjectNode node = JsonDocument.object().put("name", g.name());
    for (String field : List.of("acid", "acidName")) {
      String cell = cells.get(Objects.requireNonNull(GROUP_FIELDS.columns().get(field)));
      if (cell != null) {
        node.put(field, cell);
      }
    }
    if (!cells.containsKey("acid")) {
      node.put("charge", g.acid().chargeOfMostProtonatedForm());
      ArrayNode steps = node.putArray("pKa");
      g.acid().steps().forEach(s -> steps.add(JsonDocument.number(s.pKa25())));
      if (cells.containsKey("enthalpies_kj_per_mol")) {
        ArrayNode enthalpies = node.putArray("enthalpies");
        ArrayNode heatCapacities = node.putArray("heatCapacities");
        for (AcidBase.Step s : g.acid().steps()) {
          enthalpies.add(JsonDocument.number(s.enthalpyKjPerMol()));
          heatCapacities.add(JsonDocument.number(s.heatCapacityJPerKPerMol()));
        }
      }
    }
    @Nullable Range pKa = g.pKa();
    if (pKa != null) {
      node.set("pKaRange", JsonDocument.range(pKa));
    }
    node.set("amount", JsonDocument.range(g.amount()));
    node.put("amountBasis", g.perMoleActive() ? Parts.PER_MOL_ACTIVE : Parts.PER_KG);
    node.put("apparent", g.acid().apparent());
    node.put("onActive", g.onActive());
    return node;
  }
}
