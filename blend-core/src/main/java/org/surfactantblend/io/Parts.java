package org.surfactantblend.io;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.quantity.Range;

/** Builds constituents, weak groups and charge classes from rows of named cells. */
final class Parts {
  static final String PER_MOL_ACTIVE = "mol_per_mol_active";
  static final String PER_KG = "mol_per_kg_as_supplied";

  /** The columns of a constituent. */
  static final Set<String> CONSTITUENT_COLUMNS =
      Set.of(
          "material_id",
          "inci_name",
          "min_pct",
          "typ_pct",
          "max_pct",
          "active",
          "charge_class",
          "molar_mass_g_per_mol",
          "source",
          "note");

  /** The columns of a weak group; the last five only where its acid is not one of the table. */
  static final Set<String> GROUP_COLUMNS =
      Set.of(
          "scope",
          "key",
          "group",
          "acid",
          "charge_of_acid_form",
          "pka_low",
          "pka_typ",
          "pka_high",
          "amount_min",
          "amount_typ",
          "amount_max",
          "amount_basis",
          "apparent",
          "on_active",
          "source",
          "note",
          "acid_name",
          "pka_steps",
          "enthalpies_kj_per_mol",
          "heat_capacities_j_per_k_per_mol");

  private static final List<String> CLASSES =
      List.of("anionic", "amphoteric", "nonionic", "cationic", "none");
  private static final Map<String, String> OTHER_NAMES =
      Map.of(
          "zwitterionic", "amphoteric",
          "zwitterion", "amphoteric",
          "neutral", "nonionic",
          "uncharged", "nonionic",
          "negative", "anionic",
          "positive", "cationic");

  private Parts() {}

  /**
   * The charge class in a column: empty for {@code none}, for an empty cell, and, with a problem,
   * for an unknown word.
   */
  static Optional<ChargeClass> chargeClass(Row row, String column) {
    String word = row.word(column).toLowerCase(Locale.ROOT);
    if (word.isEmpty() || word.equals("none")) {
      return Optional.empty();
    }
    Optional<ChargeClass> parsed = ChargeClass.parse(word);
    if (parsed.isEmpty()) {
      String other = OTHER_NAMES.get(word);
      row.error(
          ProblemCodes.UNKNOWN_CLASS,
          column,
          Row.quoted(word),
          String.join(", ", CLASSES),
          other == null ? Nearest.to(word, CLASSES) : other);
    }
    return parsed;
  }

  /** A constituent, or null with a problem. */
  static @Nullable Constituent constituent(Row row) {
    String name = row.requiredWord("inci_name", "an INCI name");
    Range percent = row.range("min_pct", "typ_pct", "max_pct", 0, 100, "% m/m");
    if (percent == null && !row.failed()) {
      row.error(ProblemCodes.MISSING_VALUE, "typ_pct", "nothing", "0 to 100 % m/m", "");
    }
    double molarMass = row.number("molar_mass_g_per_mol", 10, 100_000, "g/mol");
    Optional<ChargeClass> chargeClass = chargeClass(row, "charge_class");
    boolean active = row.yesNo("active", chargeClass.isPresent());
    if (isWater(name)) {
      row.error(
          ProblemCodes.WATER_LISTED,
          "inci_name",
          Row.quoted(name),
          "anything but water, which is what the other constituents leave of 100 %",
          "leave this constituent out");
    }
    if (active != chargeClass.isPresent() && !row.failed()) {
      row.error(
          active ? ProblemCodes.MISSING_VALUE : ProblemCodes.ACTIVE_WITHOUT_CLASS,
          active ? "charge_class" : "active",
          active ? "nothing" : "no, with a charge class",
          active ? String.join(", ", CLASSES) : "yes for what has a charge class",
          "");
    }
    if (row.failed() || percent == null) {
      return null;
    }
    OptionalDouble mass =
        Double.isNaN(molarMass) ? OptionalDouble.empty() : OptionalDouble.of(molarMass);
    return chargeClass.isPresent()
        ? Constituent.active(name, percent, chargeClass.get(), mass)
        : Constituent.other(name, percent, mass);
  }

  static boolean isWater(String inciName) {
    return inciName.equalsIgnoreCase("Aqua") || inciName.equalsIgnoreCase("Water");
  }

  /** A weak group, or null with a problem. */
  static @Nullable AcidBaseGroup group(Row row, Map<String, AcidBase> acids) {
    String name = row.requiredWord("group", "the name of a group");
    Range amount = amount(row);
    Range pKa = row.range("pka_low", "pka_typ", "pka_high", -5, 20, "");
    boolean apparent = row.yesNo("apparent", false);
    boolean onActive = row.yesNo("on_active", false);
    Optional<String> basis =
        row.choice("amount_basis", List.of(PER_MOL_ACTIVE, PER_KG), ProblemCodes.CHOICE);
    if (basis.isEmpty() && !row.failed()) {
      row.error(
          ProblemCodes.MISSING_VALUE,
          "amount_basis",
          "nothing",
          PER_MOL_ACTIVE + " or " + PER_KG,
          "");
    }
    AcidBase acid =
        row.has("acid") ? acidOfTable(row, acids) : row.failed() ? null : ownAcid(row, name, pKa);
    if (row.failed() || amount == null || acid == null || basis.isEmpty()) {
      return null;
    }
    return new AcidBaseGroup(
        name,
        apparent ? acid.asApparent() : acid,
        pKa,
        amount,
        basis.get().equals(PER_MOL_ACTIVE),
        onActive);
  }

  private static @Nullable Range amount(Row row) {
    Range amount = row.range("amount_min", "amount_typ", "amount_max", 0, 50, "mol");
    if (amount == null && !row.failed()) {
      row.error(ProblemCodes.MISSING_VALUE, "amount_typ", "nothing", "0 to 50 mol", "");
    }
    return amount;
  }

  private static @Nullable AcidBase acidOfTable(Row row, Map<String, AcidBase> acids) {
    String key = row.word("acid");
    AcidBase acid = acids.get(key);
    if (acid == null) {
      row.error(
          ProblemCodes.UNKNOWN_ACID,
          "acid",
          Row.quoted(key),
          "a key of the acids of the table",
          Nearest.to(key, acids.keySet()));
      return null;
    }
    int charge = row.integer("charge_of_acid_form", -6, 6, acid.chargeOfMostProtonatedForm());
    if (charge != acid.chargeOfMostProtonatedForm()) {
      row.error(
          ProblemCodes.ACID_CHARGE,
          "charge_of_acid_form",
          String.valueOf(charge),
          "the charge of " + key + " with all its protons, " + acid.chargeOfMostProtonatedForm(),
          "leave the cell empty");
    }
    return acid;
  }

  private static @Nullable AcidBase ownAcid(Row row, String name, @Nullable Range pKa) {
    int charge = row.integer("charge_of_acid_form", -6, 6, 0);
    if (!row.has("charge_of_acid_form")) {
      row.error(
          ProblemCodes.MISSING_VALUE,
          "charge_of_acid_form",
          "nothing",
          "-6 to 6: 0 for an acid, 1 for an amine",
          "");
    }
    double[] steps = numbers(row, "pka_steps", -5, 20);
    double[] enthalpy = numbers(row, "enthalpies_kj_per_mol", -200, 200);
    double[] heatCapacity = numbers(row, "heat_capacities_j_per_k_per_mol", -1000, 1000);
    if (row.failed()) {
      return null;
    }
    if (steps.length == 0 && pKa != null) {
      steps = new double[] {pKa.typical()};
    }
    if (steps.length < 1 || steps.length > 12) {
      row.error(
          ProblemCodes.MISSING_VALUE,
          "pka_typ",
          steps.length + " constants",
          "an acid of the table, or 1 to 12 pKa",
          "");
      return null;
    }
    if ((enthalpy.length != 0 && enthalpy.length != steps.length)
        || (heatCapacity.length != 0 && heatCapacity.length != steps.length)) {
      row.error(
          ProblemCodes.TEXT_FORMAT,
          "enthalpies_kj_per_mol",
          enthalpy.length + " enthalpies and " + heatCapacity.length + " heat capacities",
          "none, or one for each of the " + steps.length + " pKa",
          "");
      return null;
    }
    List<AcidBase.Step> list = new ArrayList<>();
    for (int i = 0; i < steps.length; i++) {
      list.add(
          new AcidBase.Step(
              steps[i],
              enthalpy.length == 0 ? 0 : enthalpy[i],
              heatCapacity.length == 0 ? 0 : heatCapacity[i]));
    }
    String acidName = row.word("acid_name");
    return AcidBase.of(acidName.isEmpty() ? name : acidName, charge, list);
  }

  private static double[] numbers(Row row, String column, double least, double most) {
    String list = row.word(column);
    if (list.isEmpty()) {
      return new double[0];
    }
    String[] items = list.split(" ", -1);
    double[] values = new double[items.length];
    for (int i = 0; i < items.length; i++) {
      values[i] = row.parse(column, items[i], least, most, "");
    }
    return values;
  }
}
