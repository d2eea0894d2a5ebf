package org.surfactantblend.conformance;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.aqueous.PhRoot;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.ChargeCurve;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Family.Trait;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.SheetPh;
import org.surfactantblend.material.Source;
import org.surfactantblend.quantity.PhWindow;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Text;

/** The checks of one material or lot. Limits without a source are common practice. */
final class MaterialChecks {
  private static final double SALT_G_PER_MOL = 58.44;

  /** How far an end of the range of active matter may be from the typical figure, as a part. */
  private static final double WIDEST_ACTIVE = 0.3;

  /** Grades with a wider window than this on their sheet do not exist [pH]. */
  private static final double WIDEST_PH = 4;

  /** Methods and volatile matter: dry residue against the sum of the constituents [% m/m]. */
  private static final double DRYING = 2;

  /** Salt of a zwitterion against the salt that its synthesis forms, as parts. */
  private static final double LEAST_SALT = 0.6;

  private static final double MOST_SALT = 1.8;

  /** Sheets that stop short of the stability window by less than this are let pass [pH]. */
  private static final double WINDOW_SLACK = 0.5;

  /** A grade is sold as caustic from here, and no other surfactant reads higher [pH]. */
  private static final double CAUSTIC_FROM = 10.5;

  private static final double HIGHEST_NOT_CAUSTIC = 12;

  private static final double LOWEST = 2;

  /** Declared figures are rounded: how far the model may miss a declared window [pH]. */
  private static final double PH_ROUNDING = 0.02;

  /** How far an amount of acid may be from the mass of the substance that carries it, as a part. */
  private static final double ACID_AMOUNT = 0.1;

  private static final double ROUNDING = 1e-9;

  /** Surfactants are sold at tens of percent; a figure up to this is a share of 1 [% active]. */
  private static final double LEAST_SOLD = 1;

  private final Material m;
  private final String subject;
  private final @Nullable Map<String, Source> known;
  private final Arithmetic arithmetic;
  private final List<Check> checks = new ArrayList<>();

  private MaterialChecks(Material m, @Nullable Map<String, Source> known, Arithmetic arithmetic) {
    this.m = m;
    this.known = known;
    this.arithmetic = arithmetic;
    subject = m.toString();
  }

  /** What can be asked of every material; what does not apply to it finds nothing. */
  static List<Check> of(Material m, @Nullable Map<String, Source> known, Arithmetic arithmetic) {
    MaterialChecks c = new MaterialChecks(m, known, arithmetic);
    c.add("active-spread", "its active matter is above 0 and its range one of a grade", c::spread);
    c.add("range-end", "every end of a range leaves room for the other constituents", c::ends);
    c.add("dry-residue", "its dry residue is what its constituents add up to", c::dryResidue);
    c.add("salt-of-synthesis", "its sodium chloride is what its synthesis leaves", c::salt);
    c.add("molar-mass", "its molar mass is one of its family", c::molarMass);
    c.add("class-of-family", "its charge class is the one of its family", c::chargeClass);
    c.add("ph-stated", "its pH is given with the dilution of the sample", c::phStated);
    c.add("ph-of-family", "its pH is one at which its family is sold", c::phOfFamily);
    c.add("ph-spread", "the range of its pH is one of a grade", c::phSpread);
    c.add("ph-reproduced", "the model reads the declared pH at the declared dilution", c::ph);
    c.add("curve-falls", "its charge never rises with the pH and stays in its range", c::curve);
    c.add("acid-amount", "its acids fit the mass of the substances that carry them", c::acids);
    if (m.lot().isEmpty()) {
      c.add("source", "every figure has a source", c::sources);
    }
    c.add("swap-with-itself", "swapping it with itself changes nothing", c::swap);
    c.add("linear-in-water", "blending it with water dilutes every content alike", c::water);
    c.add("active-conserved", "mixing it keeps all active matter", c::mixing);
    return c.checks;
  }

  private void add(String code, String sentence, Consumer<Findings> question) {
    checks.add(Findings.check(code, subject, sentence, question));
  }

  private void spread(Findings f) {
    Range a = m.activePercent();
    if (!m.isSurfactant()) {
      return;
    }
    if (a.typical() <= 0) {
      f.error("active matter", "0 % active", "more than 0 % active", "");
    } else if (a.low() < a.typical() * (1 - WIDEST_ACTIVE)
        || a.high() > a.typical() * (1 + WIDEST_ACTIVE)) {
      f.warning(
          "active matter",
          Findings.span(a, "% active") + " around " + Text.number(a.typical()),
          "ends within " + Text.number(WIDEST_ACTIVE * 100) + " % of the typical figure",
          "look for a shifted decimal point; two grades are two rows");
    }
    if (a.typical() > 0 && a.typical() <= LEAST_SOLD) {
      f.warning(
          "active matter",
          Text.number(a.typical()) + " % active",
          "more than " + Text.number(LEAST_SOLD) + " % active, as any grade is sold",
          Text.number(100 * a.typical()) + ", if a share of 1 was meant");
    }
  }

  private void ends(Findings f) {
    double low = 0;
    for (Constituent c : m.constituents()) {
      low += c.percent().low();
    }
    for (Constituent c : m.constituents()) {
      double others = low - c.percent().low();
      if (c.percent().high() + others > 100 + ROUNDING) {
        f.error(
            c.inciName(),
            "up to " + Text.number(c.percent().high()) + " % m/m",
            "at most " + Text.number(100 - others) + " % beside the least of all others",
            "narrow its range or that of another constituent");
      }
    }
  }

  private void dryResidue(Findings f) {
    Range dry = m.dryResiduePercent().orElse(null);
    if (dry == null) {
      return;
    }
    double sum = 0;
    for (Constituent c : m.constituents()) {
      sum += c.percent().typical();
    }
    if (sum > dry.high() + DRYING || sum < dry.low() - DRYING) {
      f.error(
          "dry residue",
          Findings.span(dry, "% m/m")
              + " against "
              + Text.number(sum)
              + " % of constituents, "
              + Text.number(m.activePercent().typical())
              + " % of them active",
          "a dry residue within " + Text.number(DRYING) + " % of their sum",
          sum > dry.high()
              ? "the active matter may be the dry residue: it counts salt and other solids"
              : "a constituent may be missing");
    }
  }

  private void salt(Findings f) {
    FamilyFacts facts = FamilyFacts.of(m.family());
    double perMole = facts.saltPerMole();
    OptionalDouble mass = mainMolarMass();
    if (perMole == 0 || mass.isEmpty() || !facts.holds(mass.getAsDouble())) {
      return;
    }
    double formed = main().percent().typical() / mass.getAsDouble() * perMole * SALT_G_PER_MOL;
    Range salt = m.saltPercent();
    if (salt.high() < formed * LEAST_SALT || salt.low() > formed * MOST_SALT) {
      f.warning(
          "sodium chloride",
          Findings.span(salt, "% m/m"),
          "about " + Text.fixed(formed, 2) + " %, which its synthesis forms",
          "a grade freed of salt is right as it stands");
    }
  }

  private Constituent main() {
    return m.constituents().stream()
        .filter(Constituent::isActive)
        .findFirst()
        .orElseThrow(() -> new IllegalStateException(m + " has no active constituent"));
  }

  private OptionalDouble mainMolarMass() {
    return m.isSurfactant() ? main().molarMass() : OptionalDouble.empty();
  }

  private void molarMass(Findings f) {
    if (!m.isSurfactant()) {
      return;
    }
    FamilyFacts facts = FamilyFacts.of(m.family());
    String allowed =
        Text.number(facts.lightest())
            + " to "
            + Text.number(facts.heaviest())
            + " g/mol for "
            + m.family().name();
    OptionalDouble mass = mainMolarMass();
    if (mass.isEmpty()) {
      f.warning("molar mass", "nothing", allowed, "without it no amount in moles can be given");
    } else if (!facts.holds(mass.getAsDouble())) {
      f.error(
          "molar mass",
          Text.number(mass.getAsDouble()) + " g/mol",
          allowed,
          "the mean of the main surfactant, without water and salt");
    }
  }

  private void chargeClass(Findings f) {
    ChargeClass usual = m.family().usualClass();
    ChargeClass own = m.chargeClass().orElse(null);
    if (own == null && usual != null) {
      f.error(
          "charge class", "none", usual.label() + " for " + m.family().name(), "enter its actives");
    } else if (own != null && usual == null) {
      f.warning(
          "family",
          m.family().name() + ", which has no charge class",
          "a family of " + own.label() + " surfactants",
          "without one nothing is known of its acids and bases");
    } else if (own != null && own != usual) {
      f.error(
          "charge class",
          own.label(),
          (usual == null ? "none" : usual.label()) + " for " + m.family().name(),
          "check the class and the family");
    }
  }

  private void phStated(Findings f) {
    SheetPh ph = m.statedPh().orElse(null);
    if (ph == null) {
      if (m.isSurfactant() && m.strongIonEqPerKg().isEmpty()) {
        f.warning("pH", "nothing", "a pH with the dilution of the sample", "ask for the sheet");
      }
      return;
    }
    if (!ph.basisCertain() && m.notes().isEmpty() && m.ownCaveats().isEmpty()) {
      f.warning(
          "pH",
          "a pH whose dilution is not certain, without a word on it",
          "a certain dilution, or a note on what is known",
          "ask for the dilution; until then the range is widened by " + SheetPh.WIDENING);
    }
    if (ph.dilutionPercent() < 1) {
      f.warning(
          "dilution of the pH",
          Text.number(ph.dilutionPercent()) + " % m/m",
          "1 to 100 % m/m of the material as supplied",
          "10 means 10 g in 100 g; 0.1 may have been meant as a fraction");
    }
  }

  private void phOfFamily(Findings f) {
    SheetPh ph = m.statedPh().orElse(null);
    // The end point of a titration says nothing of the pH of the lot.
    if (ph == null || !m.isSurfactant() || !ph.addedAcidEqPerKg().equals(Range.ZERO)) {
      return;
    }
    boolean caustic = m.family().is(Trait.CAUSTIC);
    PhWindow stable = m.family().stableWindow().orElse(PhWindow.of(0, 14));
    double least = caustic ? CAUSTIC_FROM : Math.max(LOWEST, stable.low() - WINDOW_SLACK);
    double most = caustic ? 14 : Math.min(HIGHEST_NOT_CAUSTIC, stable.high() + WINDOW_SLACK);
    double typical = ph.ph().typical();
    if (typical < least || typical > most) {
      f.error(
          "pH",
          Findings.span(ph.ph(), ""),
          Text.number(least) + " to " + Text.number(most) + " for " + m.family().name(),
          caustic
              ? "a neutralised grade has a family of its own"
              : "check the figure, and its row");
    }
  }

  private void phSpread(Findings f) {
    m.statedPh()
        .filter(ph -> ph.ph().width() > WIDEST_PH + ROUNDING)
        .ifPresent(
            ph ->
                f.warning(
                    "pH",
                    Findings.span(ph.ph(), ""),
                    "a window of at most " + Text.number(WIDEST_PH),
                    "an end of it may be another grade or a slip of the pen"));
  }

  private void ph(Findings f) {
    SheetPh sheet = m.sheetPh().orElse(null);
    if (sheet == null) {
      return;
    }
    double read = readByModel(sheet);
    Range declared = sheet.effective();
    if (!(read >= declared.low() - PH_ROUNDING && read <= declared.high() + PH_ROUNDING)) {
      f.error(
          "pH",
          "pH "
              + Text.number(read)
              + " by the model at "
              + Text.number(sheet.dilutionPercent())
              + " % m/m",
          Findings.span(declared, "") + " by the sheet",
          "the declared strong ions or a group do not belong to this pH");
    }
  }

  private double readByModel(SheetPh sheet) {
    Conditions conditions = Conditions.standard();
    ChargeCurve curve = m.chargeCurve(conditions);
    double acid = sheet.addedAcidEqPerKg().typical();
    // A powder measured as it is has no water of its own; a trace keeps the balance defined.
    double water = Math.max(0.01, curve.waterKgPerKg() + 100 / sheet.dilutionPercent() - 1);
    double ph = 7;
    double strength = 0;
    for (int pass = 0; pass < 60; pass++) {
      double at = strength;
      ph =
          PhRoot.ofFalling(
              p ->
                  curve.chargeEqPerKg(p, at)
                      - acid
                      + water * (conditions.h(p, at) - conditions.oh(p, at)),
              -2,
              16);
      strength = (curve.ionicStrengthMolPerKg(ph, at) + Math.abs(acid) / 2) / water;
      if (Math.abs(strength - at) < 1e-12) {
        break;
      }
    }
    return ph;
  }

  private void curve(Findings f) {
    ChargeCurve ends = m.chargeCurve(Conditions.standard());
    for (double strength : new double[] {0, 0.1, 1}) {
      double before = Double.POSITIVE_INFINITY;
      for (double ph = 0; ph <= 14; ph += 0.125) {
        double now = arithmetic.charge(m, ph, strength);
        if (!(now <= before + ROUNDING)) {
          f.error(
              "charge",
              "a rise to " + Text.number(now) + " eq/kg at pH " + Text.number(ph),
              "a charge that falls as the pH rises",
              "");
          return;
        }
        double least = ends.leastChargeEqPerKg(ph, strength);
        double greatest = ends.greatestChargeEqPerKg(ph, strength);
        if (!(now >= least - ROUNDING && now <= greatest + ROUNDING)) {
          f.error(
              "charge",
              Text.number(now) + " eq/kg at pH " + Text.number(ph),
              Text.number(least) + " to " + Text.number(greatest) + " eq/kg over its ranges",
              "");
          return;
        }
        before = now;
      }
    }
  }

  private void acids(Findings f) {
    for (AcidBaseGroup g : m.ownGroups()) {
      if (g.perMoleActive()) {
        continue;
      }
      for (Constituent c : m.constituents()) {
        if (c.inciName().equalsIgnoreCase(g.name()) && c.molarMass().isPresent()) {
          Range moles = c.percent().times(10 / c.molarMass().getAsDouble());
          if (g.amount().high() < moles.low() * (1 - ACID_AMOUNT)
              || g.amount().low() > moles.high() * (1 + ACID_AMOUNT)) {
            f.error(
                "group " + g.name(),
                Findings.span(g.amount(), "mol/kg"),
                Findings.span(moles, "mol/kg") + " by its percentage and molar mass",
                "an amount per kilogram as supplied");
          }
        }
      }
    }
  }

  private void sources(Findings f) {
    Map<String, @Nullable String> needed = new LinkedHashMap<>();
    for (Constituent c : m.constituents()) {
      boolean main = c.isActive() && c.equals(main());
      String figure =
          main
              ? "active"
              : c.inciName().equalsIgnoreCase(Constituent.SODIUM_CHLORIDE)
                  ? "salt"
                  : "constituent " + c.inciName();
      needed.put(figure, m.sources().get(figure));
      if (main && c.molarMass().isPresent()) {
        needed.put("molar_mass", m.sources().get("molar_mass"));
      }
    }
    m.dryResiduePercent().ifPresent(r -> needed.put("dry_residue", m.sources().get("dry_residue")));
    m.statedPh().ifPresent(p -> needed.put("ph", m.sources().get("ph")));
    m.naturalOriginPercent()
        .ifPresent(n -> needed.put("natural_origin", m.sources().get("natural_origin")));
    m.maxUsePercent().ifPresent(u -> needed.put("max_use", m.sources().get("max_use")));
    m.ownGroups()
        .forEach(g -> needed.put("group " + g.name(), m.sources().get("group " + g.name())));
    List<String> bare = new ArrayList<>();
    needed.forEach(
        (figure, ids) -> {
          if (ids == null || ids.isBlank()) {
            bare.add(figure);
          }
        });
    if (m.strongIonEqPerKg().isPresent()
        && m.sources().keySet().stream()
            .noneMatch(k -> k.startsWith("strong_ion") || k.startsWith("group strong"))) {
      bare.add("strong_ion");
    }
    if (!bare.isEmpty()) {
      f.warning(
          "sources",
          "no source for " + String.join(", ", bare),
          "a source id for each",
          "the sheet or certificate it was copied from");
    }
    Map<String, Source> ids = known;
    if (ids != null) {
      new java.util.TreeMap<>(m.sources())
          .forEach(
              (figure, list) -> {
                for (String id : list.split(";", -1)) {
                  if (!id.isBlank() && !ids.containsKey(id.strip())) {
                    f.error("source of " + figure, id.strip(), "an id of the sources", "");
                  }
                }
              });
    }
  }

  private void swap(Findings f) {
    double content =
        m.isSurfactant() ? m.activePercent().typical() : m.percentOf(m.inciName()).typical();
    if (m.constituents().isEmpty() || content == 0) {
      return;
    }
    double amount = Math.min(20, m.maxUsePercent().orElse(20));
    Blend before = arithmetic.mix(m, amount, Arithmetic.WATER, 0);
    Blend after = arithmetic.swappedWithItself(before, m);
    double now = after.asSupplied(m.id()).value();
    if (Math.abs(now - amount) > ROUNDING) {
      f.error(
          "swap",
          Text.number(now) + " % as supplied after " + Text.number(amount),
          "the same amount",
          "");
    }
  }

  private void water(Findings f) {
    if (m.constituents().isEmpty()) {
      return;
    }
    for (double amount : new double[] {1, 12.5, 50, 100}) {
      Blend b = arithmetic.mix(m, amount, Arithmetic.WATER, 0);
      for (Constituent c : m.constituents()) {
        Range found = b.percentOf(c.inciName());
        Range wanted = c.percent().times(amount / 100);
        if (apart(found.low(), wanted.low())
            || apart(found.typical(), wanted.typical())
            || apart(found.high(), wanted.high())) {
          f.error(
              c.inciName(),
              Findings.span(found, "% m/m") + " at " + Text.number(amount) + " % as supplied",
              Findings.span(wanted, "% m/m"),
              "");
          return;
        }
      }
    }
  }

  private void mixing(Findings f) {
    Material other = Arithmetic.PARTNER;
    for (double own : new double[] {0.5, 20, 70}) {
      Blend b = arithmetic.mix(m, own, other, 30);
      double sum = 0;
      double wanted = 0.3 * other.activePercent().typical();
      for (ChargeClass c : ChargeClass.values()) {
        sum += b.active(c).value();
      }
      for (Constituent c : m.constituents()) {
        wanted += c.isActive() ? own / 100 * c.percent().typical() : 0;
      }
      if (apart(b.totalActive().value(), wanted) || apart(sum, wanted)) {
        f.error(
            "active matter",
            Text.number(b.totalActive().value())
                + " %, by class "
                + Text.number(sum)
                + " %, at "
                + Text.number(own)
                + " % as supplied",
            Text.number(wanted) + " % active",
            "");
        return;
      }
    }
  }

  private static boolean apart(double a, double b) {
    return !(Math.abs(a - b) <= ROUNDING);
  }
}
