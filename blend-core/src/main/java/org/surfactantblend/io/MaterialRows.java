package org.surfactantblend.io;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
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
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.SheetPh;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Text;

/** Builds materials from rows of named cells; the one place that knows what a row must hold. */
final class MaterialRows {
  /** The figures that have a column for their source. */
  static final List<String> SOURCED =
      List.of("active", "dry_residue", "ph", "salt", "molar_mass", "natural_origin", "max_use");

  /** Every column of a table of materials. */
  static final List<String> COLUMNS =
      List.of(
          "id",
          "inci_name",
          "grade",
          "charge_class",
          "family",
          "lot",
          "active_min_pct",
          "active_typ_pct",
          "active_max_pct",
          "active_source",
          "dry_residue_min_pct",
          "dry_residue_typ_pct",
          "dry_residue_max_pct",
          "dry_residue_source",
          "ph_low",
          "ph_typ",
          "ph_high",
          "ph_dilution_pct",
          "ph_basis_certain",
          "ph_basis_note",
          "ph_source",
          "salt_min_pct",
          "salt_typ_pct",
          "salt_max_pct",
          "salt_source",
          "water_pct",
          "molar_mass_g_per_mol",
          "molar_mass_source",
          "natural_origin_pct",
          "natural_origin_source",
          "max_use_pct",
          "max_use_source",
          "strong_ion_min_eq_per_kg",
          "strong_ion_typ_eq_per_kg",
          "strong_ion_max_eq_per_kg",
          "titrated_acid_min_eq_per_kg",
          "titrated_acid_typ_eq_per_kg",
          "titrated_acid_max_eq_per_kg",
          "constituents",
          "groups",
          "price_per_kg",
          "currency",
          "other_sources",
          "caveats",
          "notes");

  /** Without these no row can be read. */
  static final Set<String> REQUIRED = Set.of("id", "inci_name");

  /** The dilution taken when a sheet pH comes without one [% m/m]. */
  static final double USUAL_DILUTION = 10;

  private static final String UNSPECIFIED = "unspecified";
  private static final String AND = " (and) ";
  private static final double MOST_MOL_PER_KG = 50;
  private static final double SUM_TOLERANCE = 0.5;

  private final Map<String, Family> families;
  private final Map<String, AcidBase> acids;
  private final Map<String, Spread> spreads;
  private final Collection<Material> peers;

  /** What a material holds beside the cells of its row. */
  record More(
      List<Constituent> constituents,
      List<AcidBaseGroup> groups,
      @Nullable Range strongIons,
      Map<String, String> sources,
      List<String> caveats) {}

  /** How far the members of a family spread around their typical active matter. */
  private record Spread(double low, double high, int members) {
    Spread plus(Range active) {
      return new Spread(
          low + active.low() / active.typical(),
          high + active.high() / active.typical(),
          members + 1);
    }
  }

  /**
   * Rows over given families and acids.
   *
   * @param actives the family name and the range of active matter of what is already known, for
   *     rows without a range
   * @param peers known materials, to tell a dry residue from active matter
   */
  MaterialRows(
      Map<String, Family> families,
      Map<String, AcidBase> acids,
      List<Map.Entry<String, Range>> actives,
      Collection<Material> peers) {
    this.families = families;
    this.acids = acids;
    this.peers = peers;
    spreads = new HashMap<>();
    for (Map.Entry<String, Range> active : actives) {
      Range range = active.getValue();
      if (!range.isExact() && range.typical() > 0) {
        spreads.merge(
            active.getKey(),
            new Spread(0, 0, 0).plus(range),
            (old, one) -> new Spread(old.low + one.low, old.high + one.high, old.members + 1));
      }
    }
  }

  Map<String, AcidBase> acids() {
    return acids;
  }

  /** The material of a row, or null when the row has an error. */
  @Nullable Material build(Row row, More more) {
    String id = row.requiredWord("id", "lower-case words with hyphens that name INCI and grade");
    checkId(row, id);
    String inci = row.requiredWord("inci_name", "the INCI name of the main constituent");
    Optional<ChargeClass> chargeClass = Parts.chargeClass(row, "charge_class");
    Range active =
        row.range("active_min_pct", "active_typ_pct", "active_max_pct", 0, 100, "% active");
    boolean surfactant =
        chargeClass.isPresent() || active != null || hasActive(more.constituents());
    Family family = family(row, chargeClass, surfactant);
    if (chargeClass.isEmpty() && !row.has("charge_class") && active != null) {
      chargeClass = Optional.ofNullable(family.usualClass());
    }
    checkActive(row, chargeClass, active);
    if (family.usualClass() != null
        && chargeClass.isPresent()
        && chargeClass.get() != family.usualClass()) {
      row.warning(
          ProblemCodes.CLASS_FAMILY,
          "charge_class",
          chargeClass.get().label(),
          "the usual class of " + family.name() + ", " + family.usualClass().label(),
          "look again at the class and at the family");
    }
    double molarMass = row.number("molar_mass_g_per_mol", 10, 100_000, "g/mol");
    Range salt = row.range("salt_min_pct", "salt_typ_pct", "salt_max_pct", 0, 100, "% m/m");
    Range dry =
        row.range(
            "dry_residue_min_pct", "dry_residue_typ_pct", "dry_residue_max_pct", 0, 100, "% m/m");
    Range strong =
        row.range(
            "strong_ion_min_eq_per_kg",
            "strong_ion_typ_eq_per_kg",
            "strong_ion_max_eq_per_kg",
            -50,
            50,
            "eq/kg");
    SheetPh sheet = sheetPh(row);
    double natural = row.number("natural_origin_pct", 0, 100, "% m/m");
    double maxUse = row.number("max_use_pct", 0, 100, "% m/m as supplied");
    double water = row.number("water_pct", 0, 100, "% m/m");

    List<String> caveats = new ArrayList<>(more.caveats());
    List<Constituent> inside = new ArrayList<>();
    if (active != null && chargeClass.isPresent() && !inci.isEmpty()) {
      if (Parts.isWater(main(inci))) {
        row.error(
            ProblemCodes.WATER_LISTED,
            "inci_name",
            Row.quoted(inci),
            "the INCI name of the surfactant",
            "");
        return null;
      }
      Range spread = spread(row, caveats, family, active);
      OptionalDouble mass =
          Double.isNaN(molarMass) ? OptionalDouble.empty() : OptionalDouble.of(molarMass);
      inside.add(Constituent.active(main(inci), spread, chargeClass.get(), mass));
    }
    if (salt != null) {
      add(row, inside, Constituent.other(Constituent.SODIUM_CHLORIDE, salt));
    }
    for (Constituent c : more.constituents()) {
      add(row, inside, c);
    }
    double sum = inside.stream().mapToDouble(c -> c.percent().typical()).sum();
    checkSum(row, sum, water);
    checkDryResidue(row, inci, family, active, salt, dry);
    checkGroups(row, family, inside, more.groups());
    if (row.failed()) {
      return null;
    }

    Material.Builder b =
        Material.builder(id)
            .inciName(inci)
            .grade(row.text("grade"))
            .family(family)
            .lot(row.word("lot"))
            .notes(notes(row));
    for (Constituent c : inside) {
      b.constituent(c);
    }
    for (String caveat : caveats) {
      b.caveat(caveat);
    }
    double rest = 100 - sum - water;
    if (rest > 0.05) {
      String name = "(undeclared)";
      while (holds(inside, name)) {
        name = "(" + name + ")";
      }
      b.constituent(Constituent.other(name, Range.exactly(rest)));
    }
    if (inside.isEmpty() && Double.isNaN(water) && !isWater(inci, family)) {
      row.warning(
          ProblemCodes.NO_CONSTITUENTS,
          "constituents",
          "nothing",
          "what is inside, such as Glycerin 99.5",
          "it is taken as 100 % " + main(inci) + ", without water");
      b.constituent(Constituent.other(main(inci), Range.exactly(100)));
    }
    for (AcidBaseGroup group : more.groups()) {
      b.group(group);
    }
    if (dry != null) {
      b.dryResiduePercent(dry);
    }
    if (sheet != null) {
      b.sheetPh(sheet);
    }
    if (strong != null) {
      b.strongIonEqPerKg(strong);
    } else if (sheet == null && more.strongIons() != null) {
      b.strongIonEqPerKg(more.strongIons());
    }
    if (!Double.isNaN(natural)) {
      b.naturalOriginPercent(natural);
    }
    if (!Double.isNaN(maxUse)) {
      b.maxUsePercent(maxUse);
    }
    for (String figure : SOURCED) {
      String ids = row.text(figure + "_source");
      if (!ids.isEmpty()) {
        b.source(figure, ids);
      }
    }
    for (Map.Entry<String, String> source : more.sources().entrySet()) {
      b.source(source.getKey(), source.getValue());
    }
    return b.build();
  }

  private static void checkId(Row row, String id) {
    if (!id.isEmpty() && !isPlainId(id)) {
      row.warning(
          ProblemCodes.ID_FORMAT,
          "id",
          Row.quoted(id),
          "lower-case letters and digits with hyphens between them",
          id.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-|-$", ""));
    }
  }

  /** Lower-case letters and digits, with single hyphens between them. */
  private static boolean isPlainId(String id) {
    boolean mayEnd = false;
    for (int i = 0; i < id.length(); i++) {
      char c = id.charAt(i);
      boolean plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
      if (!plain && (c != '-' || !mayEnd)) {
        return false;
      }
      mayEnd = plain;
    }
    return mayEnd;
  }

  private static boolean hasActive(List<Constituent> constituents) {
    for (Constituent c : constituents) {
      if (c.isActive()) {
        return true;
      }
    }
    return false;
  }

  private static void checkActive(
      Row row, Optional<ChargeClass> chargeClass, @Nullable Range active) {
    if (row.failed()) {
      return;
    }
    if (chargeClass.isPresent() && (active == null || active.typical() <= 0)) {
      row.error(
          active == null ? ProblemCodes.MISSING_VALUE : ProblemCodes.NUMBER_RANGE,
          "active_typ_pct",
          active == null ? "nothing" : "0",
          "the active matter of a surfactant, above 0 to 100 % m/m as supplied",
          "");
    }
    if (chargeClass.isEmpty() && active != null) {
      boolean none = row.has("charge_class");
      row.error(
          none ? ProblemCodes.ACTIVE_WITHOUT_CLASS : ProblemCodes.MISSING_VALUE,
          "charge_class",
          none ? "none, with active matter" : "nothing",
          "anionic, amphoteric, nonionic or cationic",
          none ? "leave the active matter empty for what is no surfactant" : "");
    }
  }

  private Family family(Row row, Optional<ChargeClass> chargeClass, boolean surfactant) {
    String name = row.word("family");
    Family known = families.get(name);
    if (known == null) {
      known = families.get(name.toLowerCase(Locale.ROOT));
    }
    if (known != null) {
      return known;
    }
    if (!surfactant && (name.isEmpty() || name.equals(UNSPECIFIED))) {
      return Family.inert(UNSPECIFIED);
    }
    if (name.isEmpty()) {
      row.warning(
          ProblemCodes.MISSING_FAMILY,
          "family",
          "nothing",
          "a family of the table, such as amidopropyl betaine",
          "a default of its charge class stands in for its acids and bases");
    } else {
      String near = Nearest.to(name, families.keySet());
      row.warning(
          ProblemCodes.UNKNOWN_FAMILY,
          "family",
          Row.quoted(name),
          "a family of the table",
          near.isEmpty() ? "nothing is known of its acids and bases" : near);
    }
    return surfactant
        ? undocumented(name.isEmpty() ? UNSPECIFIED : name, chargeClass.orElse(null))
        : Family.inert(name);
  }

  /** A family of which nothing is known, with the permanent charge its class usually has. */
  static Family undocumented(String name, @Nullable ChargeClass chargeClass) {
    double charge =
        chargeClass == ChargeClass.ANIONIC ? -1 : chargeClass == ChargeClass.CATIONIC ? 1 : 0;
    return new Family(
        name, chargeClass, charge, null, Set.of(Family.Trait.UNDOCUMENTED), List.of());
  }

  private static @Nullable SheetPh sheetPh(Row row) {
    Range ph = row.range("ph_low", "ph_typ", "ph_high", 0, 14, "");
    double dilution = row.number("ph_dilution_pct", 0, 100, "% m/m");
    if (dilution == 0) {
      row.error(
          ProblemCodes.NUMBER_RANGE,
          "ph_dilution_pct",
          "0",
          "above 0 to 100 % m/m; 100 = as it is",
          "");
      return null;
    }
    boolean certain = row.yesNo("ph_basis_certain", true);
    Range acid =
        row.range(
            "titrated_acid_min_eq_per_kg",
            "titrated_acid_typ_eq_per_kg",
            "titrated_acid_max_eq_per_kg",
            -50,
            50,
            "eq/kg");
    Range added = acid == null ? Range.ZERO : acid;
    if (ph == null) {
      if (!Double.isNaN(dilution) && !row.failed()) {
        row.warning(
            ProblemCodes.DILUTION_WITHOUT_PH,
            "ph_low",
            "no pH",
            "a pH beside its dilution",
            "the dilution is not used");
      }
      return null;
    }
    if (Double.isNaN(dilution)) {
      if (!row.has("ph_dilution_pct")) {
        row.warning(
            ProblemCodes.PH_WITHOUT_DILUTION,
            "ph_dilution_pct",
            "nothing",
            "the percent of material in the measured sample, above 0 to 100 % m/m; 100 = as it is",
            Text.number(USUAL_DILUTION) + ", which is taken here, with a wider range");
      }
      return new SheetPh(ph, USUAL_DILUTION, false, added);
    }
    return new SheetPh(ph, dilution, certain, added);
  }

  /** The INCI name of the first-named constituent. */
  static String main(String inciName) {
    for (int at = inciName.indexOf(" ("); at >= 0; at = inciName.indexOf(" (", at + 1)) {
      if (inciName.regionMatches(true, at, AND, 0, AND.length())) {
        return inciName.substring(0, at);
      }
    }
    return inciName;
  }

  private static String notes(Row row) {
    String notes = row.text("notes");
    String basis = row.text("ph_basis_note");
    return basis.isEmpty() ? notes : (notes.isEmpty() ? "" : notes + "; ") + "sheet pH: " + basis;
  }

  private Range spread(Row row, List<String> caveats, Family family, Range active) {
    if (!active.isExact()
        || row.has("active_min_pct")
        || row.has("active_max_pct")
        || row.has("lot")) {
      return active;
    }
    Spread spread = spreads.get(family.name());
    if (spread == null) {
      caveats.add("no range of active matter given or known for its family: taken as exact");
      return active;
    }
    double typical = active.typical();
    Range widened =
        Range.of(
            Math.min(typical, typical * spread.low / spread.members),
            typical,
            Math.max(typical, Math.min(100, typical * spread.high / spread.members)));
    caveats.add(
        "no range of active matter given: the usual one of its family is taken, "
            + Text.fixed(widened.low(), 1)
            + " to "
            + Text.fixed(widened.high(), 1)
            + " %");
    return widened;
  }

  private static boolean holds(List<Constituent> inside, String inciName) {
    for (Constituent c : inside) {
      if (c.inciName().equalsIgnoreCase(inciName)) {
        return true;
      }
    }
    return false;
  }

  private static void add(Row row, List<Constituent> inside, Constituent c) {
    if (holds(inside, c.inciName())) {
      row.error(
          ProblemCodes.DUPLICATE_CONSTITUENT,
          "constituents",
          Row.quoted(c.inciName()),
          "each constituent once; the main one and the salt have columns of their own",
          "leave one of them out");
    } else {
      inside.add(c);
    }
  }

  /** No group twice, and no more of one than a kilogram can hold. */
  private static void checkGroups(
      Row row, Family family, List<Constituent> inside, List<AcidBaseGroup> own) {
    double activeMolPerKg = 0;
    for (Constituent c : inside) {
      if (c.isActive() && c.molarMass().isPresent()) {
        activeMolPerKg = c.percent().high() * 10 / c.molarMass().getAsDouble();
        break;
      }
    }
    Map<String, AcidBaseGroup> byName = new HashMap<>();
    for (AcidBaseGroup group : family.groups()) {
      byName.put(group.name(), group);
    }
    Set<String> seen = new HashSet<>();
    for (AcidBaseGroup group : own) {
      byName.put(group.name(), group);
      if (!seen.add(group.name())) {
        row.error(
            ProblemCodes.DUPLICATE_CONSTITUENT,
            "groups",
            Row.quoted(group.name()),
            "each group once",
            "leave one of them out");
      }
    }
    for (AcidBaseGroup group : byName.values()) {
      double most = group.amount().high() * activeMolPerKg;
      if (group.perMoleActive() && most > MOST_MOL_PER_KG) {
        row.error(
            ProblemCodes.NUMBER_RANGE,
            "molar_mass_g_per_mol",
            Text.number(most) + " mol/kg of " + Row.quoted(group.name()),
            "at most " + Text.number(MOST_MOL_PER_KG) + " mol/kg",
            "the molar mass is that of the active matter in g/mol");
      }
    }
  }

  private static void checkSum(Row row, double sum, double water) {
    double total = Double.isNaN(water) ? sum : sum + water;
    if (sum > 100 + 1e-9 || total > 100 + SUM_TOLERANCE) {
      row.error(
          ProblemCodes.OVER_100_PERCENT,
          "",
          Text.number(total)
              + " % of "
              + (Double.isNaN(water)
                  ? "active matter, salt and other constituents"
                  : "active matter, salt, other constituents and water"),
          "at most 100 %",
          "look whether one of them is meant per kilogram, or the active matter is the dry residue");
    }
  }

  private void checkDryResidue(
      Row row,
      String inci,
      Family family,
      @Nullable Range active,
      @Nullable Range salt,
      @Nullable Range dry) {
    if (active == null || active.typical() <= 0) {
      return;
    }
    double here = active.typical();
    if (here <= 1) {
      row.warning(
          ProblemCodes.ACTIVE_AS_FRACTION,
          "active_typ_pct",
          Text.number(here) + " % active",
          "active matter in percent, % m/m as supplied",
          Text.number(100 * here) + ", if a share of 1 was meant");
    }
    if (dry != null) {
      double withSalt = here + (salt == null ? 0 : salt.typical());
      if (withSalt > dry.high() + Material.RESIDUE_TOLERANCE) {
        contradiction(
            row,
            Text.number(here)
                + " % active"
                + (salt == null ? "" : " and " + Text.number(salt.typical()) + " % salt"),
            "at most the dry residue together, " + Text.number(dry.high()) + " %",
            "this is the dry residue; active matter would be about "
                + Text.fixed(Math.max(0, dry.typical() - (salt == null ? 0 : salt.typical())), 1));
        return;
      }
      double usual = usualRatio(family);
      if (salt == null && usual < 0.95 && here / dry.typical() > (1 + usual) / 2) {
        contradiction(
            row,
            Text.number(here) + " % active of " + Text.number(dry.typical()) + " % dry residue",
            "about " + Text.fixed(100 * usual, 0) + " % of the dry residue in this family",
            "this is the dry residue; active matter would be about "
                + Text.fixed(usual * dry.typical(), 1));
      }
      return;
    }
    if (peers.isEmpty()) {
      return;
    }
    List<Material> alike = peers.stream().filter(p -> p.inciName().equalsIgnoreCase(inci)).toList();
    if (alike.isEmpty()) {
      alike = peers.stream().filter(p -> p.family().name().equals(family.name())).toList();
    }
    if (alike.stream().anyMatch(p -> p.activePercent().contains(here))) {
      return;
    }
    for (Material peer : alike) {
      Range residue = peer.dryResiduePercent().orElse(null);
      if (residue != null && residue.contains(here)) {
        row.warning(
            ProblemCodes.DRY_RESIDUE_AS_ACTIVE,
            "active_typ_pct",
            Text.number(here) + " % active",
            "active matter; "
                + Text.number(residue.low())
                + " to "
                + Text.number(residue.high())
                + " % is the dry residue of "
                + peer.id(),
            "about " + Text.number(peer.activePercent().typical()) + "; see the supplier's sheet");
        return;
      }
    }
  }

  /** What was measured of a lot is used as it stands; a grade has to be right. */
  private static void contradiction(Row row, String found, String allowed, String advice) {
    String column = "active_typ_pct";
    if (row.has("lot")) {
      row.warning(ProblemCodes.DRY_RESIDUE_AS_ACTIVE, column, found, allowed, advice);
    } else {
      row.error(ProblemCodes.DRY_RESIDUE_AS_ACTIVE, column, found, allowed, advice);
    }
  }

  /** The highest active matter per dry residue among known members; 1 when none is known. */
  private double usualRatio(Family family) {
    double highest = Double.NEGATIVE_INFINITY;
    for (Material peer : peers) {
      Range residue = peer.dryResiduePercent().orElse(null);
      if (residue != null && peer.family().name().equals(family.name())) {
        highest = Math.max(highest, peer.activePercent().typical() / residue.typical());
      }
    }
    return highest == Double.NEGATIVE_INFINITY ? 1 : highest;
  }

  private static boolean isWater(String inci, Family family) {
    return Parts.isWater(main(inci)) || family.name().equals("water");
  }
}
