package org.surfactantblend.solve;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.function.Predicate;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.brief.Wish;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.mildness.ChargeShare;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.quantity.Text;

/** Finds what is wrong with a brief for a table before anything is solved. */
final class BriefCheck {
  /** The least charge of a titrant at the pH it is to reach [eq/kg]. */
  private static final double LEAST_PUSH = 0.01;

  private final Brief brief;
  private final MaterialTable table;
  private final List<Problem> problems = new ArrayList<>();

  BriefCheck(Brief brief, MaterialTable table, Measure... measures) {
    this.brief = Objects.requireNonNull(brief, "brief");
    this.table = Objects.requireNonNull(table, "table");
    Set<Measure> asked = new LinkedHashSet<>();
    for (Measure m : measures) {
      asked.add(Objects.requireNonNull(m, "measure"));
    }
    known("choosing from", brief.candidates());
    known("leaving out", brief.leftOut());
    known("fixed", brief.fixed().keySet());
    known("must use", brief.mustUse());
    known("filling up with", Set.of(brief.water()));
    brief.notTogether().forEach(p -> known("not together", List.of(p.first(), p.second())));
    brief.onlyIf().forEach(p -> known("only if", List.of(p.first(), p.second())));
    requirements();
    if (problems.isEmpty()) {
      lines();
      boolean cost = brief.requirements().stream().anyMatch(r -> r.kind() == Requirement.Kind.COST);
      if (cost
          || (asked.isEmpty()
              ? brief.wish().aim() == Wish.Aim.CHEAPEST
              : asked.contains(Measure.COST))) {
        given(
            m -> table.prices().pricePerKg(m.id()).isPresent(),
            "price-missing",
            "price list",
            "price",
            "give the missing prices, or name only materials that have one");
      }
      if (asked.contains(Measure.NOT_OF_NATURAL_ORIGIN)) {
        given(
            m -> m.naturalOriginPercent().isPresent(),
            "natural-origin-missing",
            "natural origin",
            "natural origin",
            "give it in rows of your own, or name only materials that have it");
      }
      if (asked.contains(Measure.IRRITATION_INDEX)) {
        given(
            this::isScored,
            "irritation-score-missing",
            "irritation index",
            "irritation score",
            "give it in a row of your own, or name only materials that have it");
      }
      if ((asked.contains(Measure.ANIONIC_SHARE) || asked.contains(Measure.IRRITATION_INDEX))
          && Programme.onlyTotalActive(brief).isEmpty()) {
        add(
            "total-active-open",
            "total active",
            "a range or nothing",
            "one value without tolerance, so that the measure is linear",
            "one total of active matter with a tolerance of 0");
      }
      sharesOfNothing();
      mildness();
      guardedFixedLines();
    }
  }

  /** Without active matter every share would be met. */
  private void sharesOfNothing() {
    for (Requirement total : brief.requirements()) {
      for (Requirement share : brief.requirements()) {
        boolean asked =
            (share.kind() == Requirement.Kind.CLASS_SHARE
                    || share.kind() == Requirement.Kind.MATERIAL_SHARE)
                && share.low() > 0;
        if (total.kind() == Requirement.Kind.TOTAL_ACTIVE && total.low() <= 0 && asked) {
          add(
              "total-active-zero",
              share.label(),
              "a share of a total that may be 0",
              "a total of active matter above 0 %",
              "a smaller tolerance of the total of active matter");
          return;
        }
      }
    }
  }

  private void mildness() {
    for (Requirement r : brief.requirements()) {
      if (r.kind() == Requirement.Kind.NET_ANIONIC_CHARGE_SHARE) {
        needed(
            m ->
                !m.isSurfactant()
                    || ChargeShare.chargePerMole(m, r.atPh(), brief.conditions()).isPresent(),
            "molar-mass-missing",
            r.label(),
            "molar mass");
      }
      if (r.kind() == Requirement.Kind.BLENDED_INDEX) {
        blended(r);
      }
    }
    if (brief.wish().needsScores()
        || brief.requirements().stream().anyMatch(r -> Programme.isIndex(r.kind()))) {
      needed(this::isScored, "irritation-score-missing", "irritation index", "irritation score");
    }
    boolean blended =
        brief.wish().aim() == Wish.Aim.MILDEST_BLENDED
            || brief.requirements().stream()
                .anyMatch(r -> r.kind() == Requirement.Kind.BLENDED_INDEX);
    if (blended && problems.isEmpty()) {
      List<Material> all = new ArrayList<>(mayComeIn());
      all.removeIf(m -> !m.isSurfactant() || !isScored(m));
      brief
          .mixingCredit()
          .flatMap(c -> c.refusal(all, brief.conditions()))
          .ifPresent(
              reason ->
                  add(
                      "index-not-convex",
                      "mixing credit",
                      reason,
                      "credits with which the index is convex",
                      "irritationIndexAtMost, which needs no credit and is an upper bound"));
    }
  }

  private void blended(Requirement r) {
    if (r.hasLow()) {
      add(
          "index-not-convex",
          r.label(),
          "a lower end",
          "an upper end only: above a least value the blends are not convex",
          "");
    }
    if (brief.lots() == Brief.Lots.EVERY_LOT_WITHIN_SPECIFICATION) {
      add(
          "blended-index-every-lot",
          r.label(),
          "a blended index for every lot",
          "a blended index for typical lots",
          "irritationIndexAtMost, which holds for every lot");
    }
  }

  private boolean isScored(Material m) {
    return m.constituents().stream()
        .allMatch(c -> !c.isActive() || table.scores().find(m, c).isPresent());
  }

  private List<Material> mayComeIn() {
    List<Material> all = Programme.candidates(brief, table);
    brief.fixed().keySet().forEach(id -> all.add(table.get(id)));
    return all;
  }

  /** A figure that lines which have to be in must have, and one candidate at least. */
  private void needed(Predicate<Material> has, String code, String setting, String figure) {
    Set<String> missing = new LinkedHashSet<>();
    for (String id : brief.fixed().keySet()) {
      if (!has.test(table.get(id))) {
        missing.add(id);
      }
    }
    for (String id : brief.mustUse()) {
      if (!has.test(table.get(id))) {
        missing.add(id);
      }
    }
    if (missing.isEmpty() && brief.candidates().stream().noneMatch(id -> has.test(table.get(id)))) {
      List<Material> candidates = Programme.candidates(brief, table);
      if (candidates.stream().noneMatch(has)) {
        candidates.forEach(m -> missing.add(m.id()));
      }
    }
    if (!missing.isEmpty()) {
      add(
          code,
          setting,
          "no " + figure + " of " + String.join(", ", missing),
          figure + " of every surfactant that has to be in, and of one to choose from",
          "give it in a row of your own, or ask for another measure");
    }
  }

  List<Problem> problems() {
    return problems;
  }

  private void known(String setting, Iterable<String> ids) {
    for (String id : ids) {
      if (table.find(id).isEmpty()) {
        String advice = "";
        try {
          table.get(id);
        } catch (IllegalArgumentException e) {
          String text = String.valueOf(e.getMessage());
          int at = text.indexOf("Maybe: ");
          advice = at < 0 ? "" : text.substring(at + 7);
        }
        add("unknown-material", setting, "'" + id + "'", "an id of the table", advice);
      }
    }
  }

  private void requirements() {
    for (Requirement r : brief.requirements()) {
      switch (r.kind()) {
        case MATERIAL_SHARE, AS_SUPPLIED -> known(r.label(), List.of(r.subject()));
        case TO_REACH_PH -> titrant(r);
        case CLASS_SHARE -> {
          if (ChargeClass.parse(r.subject()).isEmpty()) {
            add(
                "unknown-charge-class",
                r.label(),
                "'" + r.subject() + "'",
                "anionic, amphoteric, nonionic or cationic",
                "");
          }
        }
        default -> {
          // The other kinds are about the blend and name nothing.
        }
      }
    }
  }

  /** An acid or a base that still pushes at the pH it is to reach. */
  private void titrant(Requirement r) {
    known(r.label(), List.of(r.subject()));
    table
        .find(r.subject())
        .ifPresent(
            m -> {
              double charge = m.chargeCurve(brief.conditions()).chargeEqPerKg(r.atPh(), 0.1);
              if (m.isSurfactant() || Math.abs(charge) < LEAST_PUSH) {
                add(
                    "not-a-titrant",
                    r.label(),
                    "'" + r.subject() + "', " + Text.fixed(charge * 1000, 1) + " meq/kg there",
                    "an acid or a base of at least 10 meq/kg at that pH",
                    "citric-acid-20, or sodium-hydroxide-10 to raise the pH");
              }
            });
  }

  private void lines() {
    for (String id : brief.fixed().keySet()) {
      if (brief.candidates().contains(id)) {
        add(
            "fixed-and-chosen",
            "fixed",
            "'" + id + "' both as a fixed line and among those to choose from",
            "one of the two",
            "drop it from those to choose from");
      }
    }
    if (brief.candidates().contains(brief.water()) || brief.fixed().containsKey(brief.water())) {
      add(
          "water-chosen",
          "filling up with",
          "'" + brief.water() + "' also as a line of its own",
          "water only as what fills up",
          "limit it with asSupplied");
    }
    surfactants("choosing from", brief.candidates());
    surfactants("must use", brief.mustUse());
    if (brief.mostSurfactants().isPresent()
        && brief.mustUse().size() > brief.mostSurfactants().getAsInt()) {
      add(
          "must-use-too-many",
          "must use",
          brief.mustUse().size() + " materials",
          "at most " + brief.mostSurfactants().getAsInt(),
          "allow more surfactants");
    }
  }

  private void surfactants(String setting, Set<String> ids) {
    for (String id : ids) {
      if (!table.get(id).isSurfactant()) {
        add(
            "not-a-surfactant",
            setting,
            "'" + id + "', which has no active matter",
            "surfactants",
            "make it a fixed line");
      }
    }
  }

  /** Every material that may come in has a figure. */
  private void given(
      Predicate<Material> has, String code, String setting, String name, String advice) {
    List<Material> all = mayComeIn();
    all.add(table.get(brief.water()));
    Set<String> missing = new LinkedHashSet<>();
    for (Material m : all) {
      if (!has.test(m)) {
        missing.add(m.id());
      }
    }
    if (!missing.isEmpty()) {
      add(
          code,
          setting,
          "no " + name + " of " + String.join(", ", missing),
          name + " of every material that may come in",
          advice);
    }
  }

  private void guardedFixedLines() {
    if (brief.guardOffReason().isPresent()) {
      return;
    }
    List<Material> fixed = new ArrayList<>();
    brief.fixed().keySet().forEach(id -> fixed.add(table.get(id)));
    brief.mustUse().forEach(id -> fixed.add(table.get(id)));
    for (Clash c : Clash.among(fixed)) {
      add(
          "clash",
          "fixed",
          c.first() + " with " + c.second(),
          "lines that go together",
          c.reason() + "; if you know better, turn the clash guard off with a reason");
    }
  }

  private void add(String code, String setting, String found, String allowed, String advice) {
    problems.add(Problem.error(code, BlendSolver.place(brief, setting), found, allowed, advice));
  }
}
