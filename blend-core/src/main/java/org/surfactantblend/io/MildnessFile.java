package org.surfactantblend.io;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import org.surfactantblend.material.Evidence;
import org.surfactantblend.material.IrritationScore;
import org.surfactantblend.material.IrritationScores;
import org.surfactantblend.mildness.EyeHazardLimit;
import org.surfactantblend.mildness.HeadGroup;
import org.surfactantblend.mildness.Interaction;
import org.surfactantblend.mildness.InteractionTable;
import org.surfactantblend.mildness.MicelleComponent;
import org.surfactantblend.mildness.MildnessTables;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.quantity.Range;

/**
 * The tables behind the measures of mildness as CSV, the shipped ones and a shop's own. Columns not
 * named here are for people and may be left out.
 *
 * <table>
 * <caption>Columns</caption>
 * <tr><th>table</th><th>columns</th></tr>
 * <tr><td>irritation scores</td><td>inci_name, grade (words of the material's grade, may be empty),
 *     low, mid, high [sodium lauryl sulfate = 100, 0 to 200], evidence (measured, ranked or
 *     estimated; estimated when empty), source</td></tr>
 * <tr><td>critical micelle concentrations</td><td>name, head_group, cmc_mmol_per_l, technical_grade
 *     (yes or no), used (no = the row is for people only), evidence, source</td></tr>
 * <tr><td>interactions</td><td>level (head_group or surfactant), first, second, intercept, slope,
 *     lowest, highest [RT, -40 to 40], anionic_share_from, anionic_share_to [mol/mol], evidence
 *     (assumption = nobody measured such a pair), source; a constant needs its intercept only</td></tr>
 * <tr><td>eye-hazard limits</td><td>applies_to (family or inci_name), group, serious_from_pct,
 *     irritating_from_pct [% active], source</td></tr>
 * <tr><td>salt from synthesis</td><td>family, nacl_g_per_g_active [g/g]</td></tr>
 * </table>
 *
 * <p>A reader gives the rows it could use and every problem; lay them over the shipped tables with
 * {@code with}.
 */
public final class MildnessFile {
  private static final String NO_SOURCE = "not given";

  private MildnessFile() {}

  /**
   * Reads irritation scores.
   *
   * @param input the CSV text
   * @return the scores that could be read, and every problem
   * @throws NullPointerException if the input is null
   */
  public static Loaded<IrritationScores> readScores(Input input) {
    IrritationScores.Builder scores = new IrritationScores.Builder();
    List<String> words = new ArrayList<>();
    for (Evidence evidence : Evidence.values()) {
      words.add(evidence.label());
    }
    return read(
        input,
        "inci_name grade low mid high evidence source basis",
        "inci_name mid",
        row -> {
          String name = row.requiredWord("inci_name", "an INCI name");
          Range range = row.range("low", "mid", "high", 0, 200, "(sodium lauryl sulfate = 100)");
          Optional<String> evidence = row.choice("evidence", words, ProblemCodes.CHOICE);
          required(row, "mid", range == null, "a score from 0 to 200");
          String grade = row.word("grade");
          if (range != null && !row.failed() && !twice(row, scores.has(name, grade), "inci_name")) {
            scores.add(
                name,
                grade,
                new IrritationScore(
                    range,
                    evidence.flatMap(Evidence::parse).orElse(Evidence.ESTIMATED),
                    source(row)));
          }
        },
        scores::build);
  }

  /**
   * Reads critical micelle concentrations.
   *
   * @param input the CSV text
   * @return tables with those that could be read and nothing else, and every problem
   * @throws NullPointerException if the input is null
   */
  public static Loaded<MildnessTables> readCmcs(Input input) {
    Tables tables = new Tables();
    Set<String> names = new HashSet<>();
    return read(
        input,
        "name compound head_group cmc_mmol_per_l temperature_c medium technical_grade used evidence"
            + " source note",
        "name head_group cmc_mmol_per_l",
        row -> {
          String name = row.requiredWord("name", "an INCI name or compound");
          HeadGroup head = headGroup(row, "head_group");
          double cmc = row.number("cmc_mmol_per_l", 1e-6, 1000, "mmol/L");
          required(row, "cmc_mmol_per_l", Double.isNaN(cmc), "a CMC above 0 to 1000 mmol/L");
          boolean technical = row.yesNo("technical_grade", false);
          if (!row.yesNo("used", true) || row.failed()) {
            return;
          }
          if (!twice(row, !names.add(name.toLowerCase(Locale.ROOT)), "name")) {
            tables.value =
                tables.value.withCmc(
                    new MildnessTables.Cmc(
                        new MicelleComponent(name, cmc, head, technical),
                        row.has("evidence") ? row.word("evidence") : NO_SOURCE,
                        source(row)));
          }
        },
        () -> tables.value);
  }

  /**
   * Reads interaction parameters.
   *
   * @param input the CSV text
   * @return tables with those that could be read and nothing else, and every problem
   * @throws NullPointerException if the input is null
   */
  public static Loaded<MildnessTables> readInteractions(Input input) {
    Tables tables = new Tables();
    Set<String> pairs = new HashSet<>();
    return read(
        input,
        "level first second intercept slope lowest highest anionic_share_from anionic_share_to"
            + " evidence source conditions",
        "level first second intercept",
        row -> {
          boolean byGroup =
              row.choice("level", List.of("head_group", "surfactant"), ProblemCodes.CHOICE)
                  .orElse("")
                  .equals("head_group");
          required(row, "level", !row.has("level"), "head_group or surfactant");
          String first = row.requiredWord("first", "a head group or surfactant");
          String second = row.requiredWord("second", "a head group or surfactant");
          double intercept = row.number("intercept", -40, 40, "RT");
          required(row, "intercept", Double.isNaN(intercept), "a number from -40 to 40 RT");
          double slope = or(row.number("slope", -40, 40, "RT"), 0);
          double lowest = or(row.number("lowest", -40, 40, "RT"), slope == 0 ? intercept : -40);
          double highest = or(row.number("highest", -40, 40, "RT"), slope == 0 ? intercept : 40);
          double from = or(row.number("anionic_share_from", 0, 1, "mol/mol"), 0);
          double to = or(row.number("anionic_share_to", 0, 1, "mol/mol"), 1);
          ordered(row, "lowest", lowest, highest);
          ordered(row, "anionic_share_from", from, to);
          HeadGroup a = byGroup ? headGroup(row, "first") : HeadGroup.SUGAR;
          HeadGroup b = byGroup ? headGroup(row, "second") : HeadGroup.SUGAR;
          if (row.failed()) {
            return;
          }
          String pair = first.compareTo(second) <= 0 ? first + "|" + second : second + "|" + first;
          if (twice(row, !pairs.add(byGroup + pair.toLowerCase(Locale.ROOT)), "first")) {
            return;
          }
          Interaction interaction =
              new Interaction(
                  intercept,
                  slope,
                  lowest,
                  highest,
                  from,
                  to,
                  row.word("evidence").equals("assumption"),
                  source(row));
          tables.value =
              tables.value.withInteractions(
                  byGroup
                      ? InteractionTable.EMPTY.with(a, b, interaction)
                      : InteractionTable.EMPTY.with(first, second, interaction));
        },
        () -> tables.value);
  }

  /**
   * Reads eye-hazard limits.
   *
   * @param input the CSV text
   * @return tables with those that could be read and nothing else, and every problem
   * @throws NullPointerException if the input is null
   */
  public static Loaded<MildnessTables> readEyeLimits(Input input) {
    Tables tables = new Tables();
    Set<String> groups = new HashSet<>();
    return read(
        input,
        "applies_to group serious_from_pct irritating_from_pct evidence source note",
        "applies_to group serious_from_pct irritating_from_pct",
        row -> {
          String to =
              row.choice("applies_to", List.of("family", "inci_name"), ProblemCodes.CHOICE)
                  .orElse("");
          required(row, "applies_to", !row.has("applies_to"), "family or inci_name");
          String group = row.requiredWord("group", "the name of a family, or an INCI name");
          double serious = row.number("serious_from_pct", 1e-3, 100, "% active");
          double irritating = row.number("irritating_from_pct", 1e-3, 100, "% active");
          required(row, "serious_from_pct", Double.isNaN(serious), "above 0 to 100 % active");
          required(row, "irritating_from_pct", Double.isNaN(irritating), "above 0 to 100 % active");
          ordered(row, "irritating_from_pct", irritating, serious);
          if (row.failed()
              || twice(row, !groups.add(to + " " + group.toLowerCase(Locale.ROOT)), "group")) {
            return;
          }
          EyeHazardLimit limit = new EyeHazardLimit(serious, irritating, source(row));
          tables.value =
              to.equals("family")
                  ? tables.value.withEyeLimitOfFamily(group, limit)
                  : tables.value.withEyeLimit(group, limit);
        },
        () -> tables.value);
  }

  /**
   * Reads the sodium chloride that is formed when surfactants are made.
   *
   * @param input the CSV text
   * @return tables with the figures that could be read and nothing else, and every problem
   * @throws NullPointerException if the input is null
   */
  public static Loaded<MildnessTables> readSaltFromSynthesis(Input input) {
    Tables tables = new Tables();
    Set<String> families = new HashSet<>();
    return read(
        input,
        "family name mol_nacl_per_mol_active molar_mass_active_g_per_mol nacl_g_per_g_active source",
        "family nacl_g_per_g_active",
        row -> {
          String family = row.requiredWord("family", "the name of a family");
          double salt = row.number("nacl_g_per_g_active", 0, 2, "g/g");
          required(row, "nacl_g_per_g_active", Double.isNaN(salt), "0 to 2 g/g");
          if (!row.failed()
              && !twice(row, !families.add(family.toLowerCase(Locale.ROOT)), "family")) {
            tables.value = tables.value.withSaltFromSynthesis(family, salt);
          }
        },
        () -> tables.value);
  }

  /** Holds what a reader lays together row by row. */
  private static final class Tables {
    MildnessTables value = MildnessTables.EMPTY;
  }

  private interface Built<T> {
    T get();
  }

  private static <T> Loaded<T> read(
      Input input, String columns, String required, Consumer<Row> use, Built<T> result) {
    ProblemLog log = new ProblemLog();
    for (Row row : CsvTable.read(input, words(columns), words(required), log)) {
      if (!log.isFull() && !row.failed()) {
        use.accept(row);
      }
    }
    return new Loaded<>(result.get(), log.problems());
  }

  private static Set<String> words(String text) {
    return Set.of(text.split(" ", -1));
  }

  private static HeadGroup headGroup(Row row, String column) {
    List<String> known = Arrays.stream(HeadGroup.values()).map(HeadGroup::label).toList();
    return row.choice(column, known, ProblemCodes.CHOICE)
        .flatMap(HeadGroup::parse)
        .orElse(HeadGroup.SUGAR);
  }

  private static String source(Row row) {
    return row.has("source") ? row.word("source") : NO_SOURCE;
  }

  private static double or(double value, double whenEmpty) {
    return Double.isNaN(value) ? whenEmpty : value;
  }

  private static void ordered(Row row, String column, double low, double high) {
    if (low > high) {
      row.error(
          ProblemCodes.RANGE_ORDER,
          column,
          PartText.number(low) + " above " + PartText.number(high),
          "the lower figure not above the higher one",
          "swap the two");
    }
  }

  /** Reports a required figure that is missing; a wrong one has been reported already. */
  private static void required(Row row, String column, boolean missing, String allowed) {
    if (missing && !row.has(column)) {
      row.error(ProblemCodes.MISSING_VALUE, column, "nothing", allowed, "");
    }
  }

  private static boolean twice(Row row, boolean known, String column) {
    if (known) {
      row.error(
          ProblemCodes.DUPLICATE_ID,
          column,
          Row.quoted(row.word(column)),
          "each entry once",
          "leave out one of the two rows");
    }
    return known;
  }
}
