package org.surfactantblend.io;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.IrritationScores;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.material.Source;
import org.surfactantblend.mildness.MildnessTables;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.quantity.PhWindow;
import org.surfactantblend.quantity.Range;

/**
 * The tables that the library ships, read from CSV: the starter table of raw materials, the sources
 * of its figures and the invented prices of the examples.
 *
 * <p>Seven files make up the table: {@code acids.csv}, {@code families.csv}, {@code groups.csv},
 * {@code materials.csv}, {@code constituents.csv}, {@code irritation.csv} and {@code sources.csv};
 * four more hold the other figures of mildness. They are read by the same code as a shop's own, and
 * none may give a problem.
 */
public final class ShippedData {
  private static final String FOLDER = "/org/surfactantblend/data/";

  private ShippedData() {}

  /**
   * The starter table, read anew.
   *
   * @return the table, without prices, and what was wrong in it: nothing, in a sound build
   */
  public static Loaded<MaterialTable> starterTable() {
    return starterTable(ShippedData::shipped);
  }

  /**
   * The sources of the figures by id, read anew.
   *
   * @return the sources in the order of their file, and what was wrong
   */
  public static Loaded<Map<String, Source>> sources() {
    ProblemLog log = new ProblemLog();
    Map<String, Source> sources = sources(shipped("sources.csv"), log);
    return new Loaded<>(sources, log.problems());
  }

  /**
   * The invented prices of the examples, read anew.
   *
   * @param table the table whose materials they are for
   * @return the prices, and what was wrong
   */
  public static Loaded<PriceList> demoPrices(MaterialTable table) {
    return PriceFile.readCsv(shipped("demo-prices.csv"), table);
  }

  /**
   * The figures behind the measures of mildness that are only reported, read anew.
   *
   * @return the tables, and what was wrong in them: nothing, in a sound build
   */
  public static Loaded<MildnessTables> mildnessTables() {
    MildnessTables tables = MildnessTables.EMPTY;
    List<Problem> problems = new ArrayList<>();
    for (Loaded<MildnessTables> part :
        List.of(
            MildnessFile.readCmcs(shipped("cmc.csv")),
            MildnessFile.readInteractions(shipped("interaction.csv")),
            MildnessFile.readEyeLimits(shipped("eye.csv")),
            MildnessFile.readSaltFromSynthesis(shipped("salt-from-synthesis.csv")))) {
      tables = tables.with(part.value());
      problems.addAll(part.problems());
    }
    return new Loaded<>(tables, problems);
  }

  private static Input shipped(String name) {
    try (InputStream in = ShippedData.class.getResourceAsStream(FOLDER + name)) {
      if (in == null) {
        throw new IllegalStateException(FOLDER + name + " is not on the class path");
      }
      return Input.stream(name, in);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Reads a table from its seven files. */
  static Loaded<MaterialTable> starterTable(Function<String, Input> files) {
    ProblemLog log = new ProblemLog();
    Map<String, Source> sources = sources(files.apply("sources.csv"), log);
    Map<String, AcidBase> acids = acids(files.apply("acids.csv"), sources, log);
    Map<String, List<Row>> groups = groups(files.apply("groups.csv"), sources, log);
    Map<String, Family> families =
        families(files.apply("families.csv"), groups, acids, sources, log);
    Map<String, List<Row>> constituents =
        constituents(files.apply("constituents.csv"), sources, log);

    List<Row> rows =
        CsvTable.read(
            files.apply("materials.csv"),
            Set.copyOf(MaterialRows.COLUMNS),
            MaterialRows.REQUIRED,
            log);
    List<Map.Entry<String, Range>> actives = new ArrayList<>();
    ProblemLog aside = new ProblemLog();
    for (Row row : rows) {
      Range active =
          row.reportingTo(aside)
              .range("active_min_pct", "active_typ_pct", "active_max_pct", 0, 100, "% active");
      if (active != null) {
        actives.add(Map.entry(row.word("family"), active));
      }
    }
    MaterialRows reader = new MaterialRows(families, acids, actives, List.of());
    Map<String, Material> materials = new LinkedHashMap<>();
    for (Row row : rows) {
      String id = row.word("id");
      for (String figure : MaterialRows.SOURCED) {
        checkSources(row, figure + "_source", sources);
      }
      MaterialRows.More more =
          more(
              constituents.getOrDefault(id, List.of()),
              groups.getOrDefault("material " + id, List.of()),
              acids);
      Material material = reader.build(row, more);
      if (materials.containsKey(id)) {
        row.error(
            ProblemCodes.DUPLICATE_ID, "id", Row.quoted(id), "an id that no other row has", "");
      } else if (material != null) {
        materials.put(id, material);
      }
    }
    for (String id : constituents.keySet()) {
      if (!materials.containsKey(id)) {
        unknown(constituents, id, "material_id");
      }
    }
    for (String key : groups.keySet()) {
      if (key.startsWith("material ") && !materials.containsKey(key.substring(9))) {
        unknown(groups, key, "key");
      }
    }
    Loaded<IrritationScores> scores = MildnessFile.readScores(files.apply("irritation.csv"));
    for (Problem problem : scores.problems()) {
      log.add(problem);
    }
    return new Loaded<>(
        MaterialTable.of(acids, families.values(), materials.values()).scored(scores.value()),
        log.problems());
  }

  private static void unknown(Map<String, List<Row>> byKey, String key, String column) {
    Row row = byKey.getOrDefault(key, List.of()).get(0);
    row.error(
        ProblemCodes.UNKNOWN_MATERIAL,
        column,
        Row.quoted(row.word(column)),
        "an id of materials.csv",
        "");
  }

  private static MaterialRows.More more(
      List<Row> constituentRows, List<Row> groupRows, Map<String, AcidBase> acids) {
    List<Constituent> constituents = new ArrayList<>();
    Map<String, String> figureSources = new LinkedHashMap<>();
    for (Row row : constituentRows) {
      Constituent c = Parts.constituent(row);
      if (c != null) {
        constituents.add(c);
        figureSources.put("constituent " + c.inciName(), row.text("source"));
      }
    }
    List<AcidBaseGroup> groups = new ArrayList<>();
    List<Row> strong = new ArrayList<>();
    for (Row row : groupRows) {
      figureSources.put("group " + row.word("group"), row.text("source"));
      if (row.word("acid").equals("strong")) {
        strong.add(row);
        continue;
      }
      AcidBaseGroup group = Parts.group(row, acids);
      if (group != null) {
        groups.add(group);
      }
    }
    return new MaterialRows.More(
        constituents, groups, strongIons(strong), figureSources, List.of());
  }

  /**
   * The charge of the strong ions. The ions of one material come and go together with its purity,
   * so their least amounts belong together, and a neutral salt stays neutral.
   */
  private static @Nullable Range strongIons(List<Row> rows) {
    if (rows.isEmpty()) {
      return null;
    }
    double a = 0;
    double t = 0;
    double b = 0;
    for (Row row : rows) {
      Range amount = row.range("amount_min", "amount_typ", "amount_max", 0, 50, "mol/kg");
      int charge = row.integer("charge_of_acid_form", -4, 4, 0);
      if (amount == null || charge == 0) {
        row.error(
            ProblemCodes.MISSING_VALUE,
            "charge_of_acid_form",
            "no amount or no charge",
            "a charge of -4 to 4 and an amount in mol/kg as supplied",
            "");
        return null;
      }
      a += charge * amount.low();
      t += charge * amount.typical();
      b += charge * amount.high();
    }
    return Range.of(Math.min(a, b), t, Math.max(a, b));
  }

  private static Map<String, Source> sources(Input input, ProblemLog log) {
    Map<String, Source> sources = new LinkedHashMap<>();
    Set<String> columns = Set.of("id", "citation", "kind", "note");
    for (Row row : CsvTable.read(input, columns, Set.of("id", "citation", "kind"), log)) {
      String id = row.requiredWord("id", "a short name");
      String citation = row.requiredWord("citation", "what it stands for");
      String kind = row.requiredWord("kind", "what kind of source it is");
      if (row.failed()) {
        continue;
      }
      if (sources.putIfAbsent(id, new Source(id, citation, kind, row.text("note"))) != null) {
        row.error(
            ProblemCodes.DUPLICATE_ID, "id", Row.quoted(id), "an id that no other row has", "");
      }
    }
    return Collections.unmodifiableMap(sources);
  }

  private static void checkSources(Row row, String column, Map<String, Source> sources) {
    for (String id : PartText.list(row.text(column))) {
      if (!sources.containsKey(id)) {
        row.error(
            ProblemCodes.UNKNOWN_SOURCE,
            column,
            Row.quoted(id),
            "an id of sources.csv",
            Nearest.to(id, sources.keySet()));
      }
    }
  }

  private static Map<String, AcidBase> acids(
      Input input, Map<String, Source> sources, ProblemLog log) {
    Set<String> columns =
        Set.of(
            "key",
            "inci_name",
            "step",
            "charge_of_acid_form",
            "pka_25c",
            "enthalpy_kj_per_mol",
            "heat_capacity_j_per_k_per_mol",
            "uncertainty",
            "source_id",
            "note");
    Map<String, List<Row>> byKey = new LinkedHashMap<>();
    for (Row row :
        CsvTable.read(
            input, columns, Set.of("key", "inci_name", "charge_of_acid_form", "pka_25c"), log)) {
      checkSources(row, "source_id", sources);
      add(byKey, row.requiredWord("key", "a short name"), row);
    }
    Map<String, AcidBase> acids = new LinkedHashMap<>();
    for (Map.Entry<String, List<Row>> entry : byKey.entrySet()) {
      AcidBase acid = acid(entry.getValue());
      if (acid != null) {
        acids.put(entry.getKey(), acid);
      }
    }
    return acids;
  }

  private static @Nullable AcidBase acid(List<Row> rows) {
    Row first = rows.get(0);
    int charge = first.integer("charge_of_acid_form", -6, 6, 0);
    List<AcidBase.Step> steps = new ArrayList<>();
    for (Row row : rows) {
      int step = steps.size() + 1;
      if (row.integer("step", 1, 12, step) != step
          || row.integer("charge_of_acid_form", -12, 6, 0) != charge - step + 1) {
        row.error(
            ProblemCodes.ACID_CHARGE,
            "charge_of_acid_form",
            row.text("charge_of_acid_form") + " at step " + row.text("step"),
            "steps from 1 up, each form one charge below the one before",
            "");
      }
      double pKa = row.number("pka_25c", -5, 20, "");
      if (Double.isNaN(pKa)) {
        row.error(ProblemCodes.MISSING_VALUE, "pka_25c", "no pKa", "-5 to 20", "");
        return null;
      }
      steps.add(
          new AcidBase.Step(
              pKa,
              zero(row.number("enthalpy_kj_per_mol", -200, 200, "kJ/mol")),
              zero(row.number("heat_capacity_j_per_k_per_mol", -1000, 1000, "J/(K mol)"))));
    }
    return AcidBase.of(first.requiredWord("inci_name", "an INCI name"), charge, steps);
  }

  private static double zero(double value) {
    return Double.isNaN(value) ? 0 : value;
  }

  private static Map<String, List<Row>> groups(
      Input input, Map<String, Source> sources, ProblemLog log) {
    Map<String, List<Row>> byKey = new LinkedHashMap<>();
    for (Row row :
        CsvTable.read(input, Parts.GROUP_COLUMNS, Set.of("scope", "key", "group"), log)) {
      checkSources(row, "source", sources);
      String scope =
          row.choice("scope", List.of("family", "material"), ProblemCodes.CHOICE).orElse("");
      add(byKey, scope + " " + row.word("key"), row);
    }
    return byKey;
  }

  private static Map<String, List<Row>> constituents(
      Input input, Map<String, Source> sources, ProblemLog log) {
    Map<String, List<Row>> byMaterial = new LinkedHashMap<>();
    for (Row row :
        CsvTable.read(input, Parts.CONSTITUENT_COLUMNS, Set.of("material_id", "inci_name"), log)) {
      checkSources(row, "source", sources);
      add(byMaterial, row.word("material_id"), row);
    }
    return byMaterial;
  }

  private static void add(Map<String, List<Row>> byKey, String key, Row row) {
    byKey.computeIfAbsent(key, k -> new ArrayList<>()).add(row);
  }

  private static Map<String, Family> families(
      Input input,
      Map<String, List<Row>> groups,
      Map<String, AcidBase> acids,
      Map<String, Source> sources,
      ProblemLog log) {
    Map<String, String> traitColumns =
        Map.of(
            "caustic_alkaline", "CAUSTIC",
            "ester", "ESTER",
            "ammonium", "AMMONIUM",
            "soap", "SOAP");
    Set<String> columns =
        Set.of(
            "family",
            "charge_class",
            "fixed_charge_per_mol_active",
            "stable_ph_low",
            "stable_ph_high",
            "caustic_alkaline",
            "ester",
            "ammonium",
            "soap",
            "hydrolysis_note",
            "source");
    Map<String, Family> families = new LinkedHashMap<>();
    for (Row row : CsvTable.read(input, columns, Set.of("family", "charge_class"), log)) {
      checkSources(row, "source", sources);
      String name = row.requiredWord("family", "the name of a family");
      ChargeClass usual = Parts.chargeClass(row, "charge_class").orElse(null);
      double charge = zero(row.number("fixed_charge_per_mol_active", -4, 4, "mol/mol"));
      double low = row.number("stable_ph_low", 0, 14, "");
      double high = row.number("stable_ph_high", 0, 14, "");
      Set<Family.Trait> traits = new TreeSet<>();
      for (Map.Entry<String, String> trait : traitColumns.entrySet()) {
        if (row.yesNo(trait.getKey(), false)) {
          traits.add(Family.Trait.valueOf(trait.getValue()));
        }
      }
      List<AcidBaseGroup> own = new ArrayList<>();
      for (Row groupRow : groups.getOrDefault("family " + name, List.of())) {
        AcidBaseGroup group = Parts.group(groupRow, acids);
        if (group != null) {
          own.add(group);
        }
      }
      if (row.failed()) {
        continue;
      }
      PhWindow stable =
          Double.isNaN(low) && Double.isNaN(high)
              ? null
              : PhWindow.of(Double.isNaN(low) ? 0 : low, Double.isNaN(high) ? 14 : high);
      if (families.putIfAbsent(name, new Family(name, usual, charge, stable, traits, own))
          != null) {
        row.error(ProblemCodes.DUPLICATE_ID, "family", Row.quoted(name), "each family once", "");
      }
    }
    for (String key : new TreeSet<>(groups.keySet())) {
      if (!key.startsWith("family ") || families.containsKey(key.substring(7))) {
        continue;
      }
      Row row = groups.getOrDefault(key, List.of()).get(0);
      row.error(
          ProblemCodes.UNKNOWN_FAMILY,
          "key",
          Row.quoted(row.word("key")),
          "a family of families.csv",
          Nearest.to(row.word("key"), families.keySet()));
    }
    return families;
  }
}
