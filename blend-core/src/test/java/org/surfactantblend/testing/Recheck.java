package org.surfactantblend.testing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.surfactantblend.Blends;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Family.Trait;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.solve.BlendResult;
import org.surfactantblend.solve.NoBlend;
import org.surfactantblend.solve.SolvedBlend;
import org.surfactantblend.testing.RecheckedPh.Balance;
import org.surfactantblend.testing.RecheckedPh.Lot;
import org.surfactantblend.testing.RecheckedPh.Water;

/**
 * The one assertion that every blend in every test goes through: everything a brief asks is worked
 * out again from the weights and the materials' figures alone. It imports nothing of the library's
 * chemistry or optimiser; {@code RecheckTest} makes sure of that.
 */
public final class Recheck {
  /** Weights may be off by rounding of sums only [% m/m]. */
  private static final double WEIGHT = 1e-9;

  /** Figures in per cent, share points, mmol/kg: rounding times the slope of the row. */
  private static final double FIGURE = 2e-6;

  /** What the brief promises of a starting pH. */
  private static final double PH = 1e-6;

  private static final int RANDOM_LOTS = 12;

  private Recheck() {}

  /**
   * Rechecks an answer: a blend against its brief and against what the library predicts of it, or
   * the form of an explanation. {@code Conflicts} goes on to verify an explanation by solving.
   */
  public static void result(BlendResult result, MaterialTable table) {
    if (result instanceof SolvedBlend solved) {
      Blend blend = solved.blend();
      blend(blend, solved.brief(), table, PH);
      Water water = Water.of(solved.brief());
      var predicted = solved.startingPh();
      assertEquals(
          RecheckedPh.of(blend, water), predicted.typical(), PH, "predicted pH of " + blend);
      assertEquals(wish(blend, solved.brief(), table), solved.wishValue(), 1e-6, "wish value");
    } else if (result instanceof NoBlend none) {
      assertFalse(none.conflict().isEmpty(), "a refusal names its conflict");
      none.conflict()
          .forEach(
              p -> {
                assertFalse(p.demand().isBlank());
                assertFalse(p.change().isBlank());
              });
    }
  }

  /** Rechecks an answer of a table without irritation scores. */
  public static void result(BlendResult result, PriceList prices) {
    result(result, with(prices));
  }

  /** Rechecks a solved or refused brief without prices. */
  public static void result(BlendResult result) {
    result(result, PriceList.EMPTY);
  }

  /** Only prices and scores of a table are read here. */
  private static MaterialTable with(PriceList prices) {
    return MaterialTable.of(List.of()).priced(prices);
  }

  /** Rechecks a blend against a brief that names no cost. */
  public static void blend(Blend blend, Brief brief) {
    blend(blend, brief, PriceList.EMPTY);
  }

  /** Rechecks a blend against a brief. */
  public static void blend(Blend blend, Brief brief, PriceList prices) {
    blend(blend, brief, prices, PH);
  }

  /** Rechecks a blend that was not solved for, whose starting pH may be off by so much. */
  public static void blend(Blend blend, Brief brief, PriceList prices, double phTolerance) {
    blend(blend, brief, with(prices), phTolerance);
  }

  /** Rechecks a blend by the prices and scores of a table. */
  public static void blend(Blend blend, Brief brief, MaterialTable table, double phTolerance) {
    lines(blend, brief);
    choice(blend, brief);
    if (brief.guardOffReason().isEmpty()) {
      guard(blend, brief);
    }
    for (Requirement r : brief.requirements()) {
      requirement(blend, brief, table, r, phTolerance);
    }
  }

  private static void lines(Blend blend, Brief brief) {
    double sum = 0;
    Set<String> ids = new HashSet<>();
    for (BlendLine l : blend.lines()) {
      double w = l.amount().value();
      assertTrue(w >= 0 && w <= 100, () -> l + " is no percentage");
      assertTrue(ids.add(l.material().id()), () -> l.material().id() + " has two lines");
      sum += w;
    }
    assertEquals(100, sum, WEIGHT, "lines of " + blend);
    brief
        .fixed()
        .forEach((id, w) -> assertEquals(w, weight(blend, id), WEIGHT, "fixed line " + id));
  }

  private static double weight(Blend blend, String id) {
    return blend.lines().stream()
        .filter(l -> l.material().id().equals(id))
        .mapToDouble(l -> l.amount().value())
        .sum();
  }

  /** The lines that were chosen: neither fixed nor what fills up. */
  private static List<BlendLine> chosen(Blend blend, Brief brief) {
    return blend.lines().stream()
        .filter(
            l ->
                !l.material().id().equals(brief.water())
                    && !brief.fixed().containsKey(l.material().id()))
        .toList();
  }

  private static void choice(Blend blend, Brief brief) {
    List<BlendLine> chosen = chosen(blend, brief);
    List<String> ids = new ArrayList<>();
    for (BlendLine l : chosen) {
      String id = l.material().id();
      ids.add(id);
      assertTrue(l.material().isSurfactant(), () -> id + " was chosen and is no surfactant");
      assertTrue(l.amount().value() > 0, () -> id + " has an empty line");
      assertFalse(brief.leftOut().contains(id), () -> id + " was to be left out");
      assertTrue(
          brief.candidates().isEmpty()
              || brief.candidates().contains(id)
              || brief.mustUse().contains(id),
          () -> id + " was not among those to choose from");
      assertTrue(
          l.amount().value() >= brief.minimumUsePercent() - WEIGHT,
          () -> l + " is below the minimum use");
    }
    assertTrue(ids.size() >= brief.fewestSurfactants(), () -> "too few surfactants: " + ids);
    assertTrue(
        brief.mostSurfactants().isEmpty() || ids.size() <= brief.mostSurfactants().getAsInt(),
        () -> "too many surfactants: " + ids);
    for (Map.Entry<ChargeClass, Integer> e : brief.mostOfClass().entrySet()) {
      long count =
          chosen.stream()
              .filter(l -> l.material().chargeClass().orElseThrow() == e.getKey())
              .count();
      assertTrue(count <= e.getValue(), () -> "too many of " + e.getKey() + ": " + ids);
    }
    assertTrue(ids.containsAll(brief.mustUse()), () -> "must use " + brief.mustUse() + ": " + ids);
    // What goes with what is asked of all that is in, fixed lines among them.
    List<String> in =
        blend.lines().stream()
            .filter(l -> l.amount().value() > 0)
            .map(l -> l.material().id())
            .toList();
    for (Brief.Pair p : brief.notTogether()) {
      assertFalse(in.contains(p.first()) && in.contains(p.second()), () -> p + " in " + in);
    }
    for (Brief.Pair p : brief.onlyIf()) {
      assertTrue(!in.contains(p.first()) || in.contains(p.second()), () -> p + " in " + in);
    }
  }

  private static void guard(Blend blend, Brief brief) {
    List<Material> all = blend.lines().stream().map(BlendLine::material).toList();
    for (Material a : all) {
      for (Material b : all) {
        boolean precipitates =
            a.activePercent(ChargeClass.CATIONIC).high() > 0
                && b.activePercent(ChargeClass.ANIONIC).high() > 0;
        boolean decays =
            (a.family().is(Trait.ESTER) || a.family().is(Trait.AMMONIUM))
                && b.family().is(Trait.CAUSTIC);
        // A single grade that holds both is not the guard's business.
        assertFalse(
            a != b && (precipitates || decays),
            () -> "the guard let " + a.id() + " meet " + b.id());
      }
    }
    for (Requirement r : brief.requirements()) {
      boolean isFinal = r.kind() == Requirement.Kind.TO_REACH_PH;
      if (isFinal || r.kind() == Requirement.Kind.STARTING_PH) {
        double low = isFinal ? r.atPh() : r.low();
        double high = isFinal ? r.atPh() : r.high();
        for (BlendLine l : chosen(blend, brief)) {
          l.material()
              .family()
              .stableWindow()
              .filter(w -> !brief.mustUse().contains(l.material().id()))
              .ifPresent(
                  w ->
                      assertTrue(
                          w.high() >= low && w.low() <= high,
                          () -> l.material().id() + " lasts at " + w + " only"));
        }
      }
    }
  }

  private static void requirement(
      Blend blend, Brief brief, MaterialTable table, Requirement r, double phTolerance) {
    boolean everyLot = brief.lots() == Brief.Lots.EVERY_LOT_WITHIN_SPECIFICATION;
    Water water = Water.of(brief);
    switch (r.kind()) {
      case TOTAL_ACTIVE ->
          inside(r, figure(blend, everyLot, m -> m.activePercent(), m -> Range.ZERO, false));
      case CLASS_SHARE -> {
        ChargeClass c = ChargeClass.valueOf(r.subject().toUpperCase(Locale.ROOT));
        share(
            blend,
            r,
            figure(blend, everyLot, m -> actives(m, c, true), m -> actives(m, c, false), true));
      }
      case MATERIAL_SHARE ->
          share(
              blend,
              r,
              figure(
                  blend,
                  everyLot,
                  m -> m.id().equals(r.subject()) ? m.activePercent() : Range.ZERO,
                  m -> m.id().equals(r.subject()) ? Range.ZERO : m.activePercent(),
                  true));
      case SALT -> inside(r, figure(blend, everyLot, Recheck::salt, m -> Range.ZERO, false));
      case TO_REACH_PH -> reserve(blend, brief, water, r, everyLot, phTolerance);
      case AS_SUPPLIED -> inside(r, Range.exactly(weight(blend, r.subject())));
      case COST -> inside(r, Range.exactly(cost(blend, table.prices())));
      case NET_ANIONIC_CHARGE ->
          inside(r, Range.exactly(Balance.typical(blend, water).netAnionicMmol(r.atPh(), 0.1)));
      case NET_ANIONIC_CHARGE_SHARE ->
          inside(r, RecheckedIndex.chargeShare(blend, water, r.atPh(), everyLot));
      case IRRITATION_INDEX -> inside(r, RecheckedIndex.high(blend, table.scores(), everyLot));
      case BLENDED_INDEX ->
          inside(r, Range.exactly(RecheckedIndex.blended(blend, brief, table.scores())));
      case STARTING_PH -> startingPh(blend, water, r, everyLot, phTolerance);
      case STARTING_PH_OF_SURFACTANTS ->
          startingPh(surfactantsAndWater(blend, brief), water, r, everyLot, phTolerance);
    }
  }

  private static Range actives(Material m, ChargeClass c, boolean own) {
    Range sum = Range.ZERO;
    for (Constituent k : m.constituents()) {
      if (k.chargeClass().isPresent() && (k.chargeClass().get() == c) == own) {
        sum = sum.plus(k.percent());
      }
    }
    return sum;
  }

  private static Range salt(Material m) {
    Range sum = Range.ZERO;
    for (Constituent k : m.constituents()) {
      if (k.inciName().equalsIgnoreCase("Sodium Chloride")) {
        sum = sum.plus(k.percent());
      }
    }
    return sum;
  }

  /** Reads one content of a material. */
  private interface Content {
    Range of(Material m);
  }

  /**
   * The extremes of a sum, or of a part of the active, over lots: for every lot, the part at one
   * end with the rest at the other, which no random lot can pass.
   */
  private static Range figure(
      Blend blend, boolean everyLot, Content part, Content rest, boolean share) {
    double[] a = new double[3];
    double[] b = new double[3];
    for (BlendLine l : blend.lines()) {
      double w = l.massFraction();
      Range p = part.of(l.material());
      Range q = rest.of(l.material());
      a[0] += w * p.low();
      a[1] += w * p.typical();
      a[2] += w * p.high();
      b[0] += w * q.low();
      b[1] += w * q.typical();
      b[2] += w * q.high();
    }
    double typical = share ? percent(a[1], b[1]) : a[1];
    if (!everyLot) {
      return Range.exactly(typical);
    }
    double low = share ? percent(a[0], b[2]) : a[0];
    double high = share ? percent(a[2], b[0]) : a[2];
    return Range.of(Math.min(low, typical), typical, Math.max(high, typical));
  }

  private static double percent(double part, double rest) {
    return part + rest == 0 ? 0 : 100 * part / (part + rest);
  }

  private static void inside(Requirement r, Range figure) {
    inside(r, figure, 0);
  }

  /** A share of little active matter: a mass fraction may be off by the programme's own 1e-9. */
  private static void share(Blend blend, Requirement r, Range figure) {
    double total = blend.totalActive().value();
    inside(r, figure, total > 0 ? 1e-9 * 100 * 100 / total : 0);
  }

  private static void inside(Requirement r, Range figure, double least) {
    double tolerance =
        Math.max(least, FIGURE * Math.max(1, Math.max(finite(r.low()), finite(r.high())) / 100));
    assertTrue(
        figure.low() >= r.low() - tolerance && figure.high() <= r.high() + tolerance,
        () -> "asked " + r + ", weights give " + figure.low() + " to " + figure.high());
  }

  private static double finite(double v) {
    return Double.isInfinite(v) ? 0 : Math.abs(v);
  }

  private static double cost(Blend blend, PriceList prices) {
    double sum = 0;
    for (BlendLine l : blend.lines()) {
      sum += l.massFraction() * prices.pricePerKg(l.material().id()).orElseThrow();
    }
    return sum;
  }

  private static Blend surfactantsAndWater(Blend blend, Brief brief) {
    Material filler =
        blend.lines().stream()
            .map(BlendLine::material)
            .filter(m -> m.id().equals(brief.water()))
            .findFirst()
            .orElseThrow();
    Blend.Builder b = Blend.named(blend.name());
    blend.lines().stream()
        .filter(l -> l.material().isSurfactant())
        .forEach(l -> b.line(l.material(), l.amount().value()));
    return b.upToHundredWith(filler);
  }

  /** With all of the reserve added, the product is at its final pH or past it. */
  private static void reserve(
      Blend blend, Brief brief, Water water, Requirement r, boolean everyLot, double tolerance) {
    if (blend.asSupplied(brief.water()).value() < Math.max(1, r.high())) {
      return; // there is not that much water it could take the place of
    }
    Material titrant = titrant(r.subject());
    Blend finished = finished(blend, brief, titrant, r.high());
    boolean acid =
        RecheckedPh.of(finished(blend, brief, titrant, 1), water) < RecheckedPh.of(blend, water);
    Requirement reached =
        Requirement.of(
            Requirement.Kind.STARTING_PH,
            "",
            acid ? Double.NEGATIVE_INFINITY : r.atPh(),
            acid ? r.atPh() : Double.POSITIVE_INFINITY);
    startingPh(finished, water, reached, everyLot, tolerance);
  }

  private static Material titrant(String id) {
    return Shop.table().find(id).orElseGet(() -> Blends.starterTable().get(id));
  }

  /** A blend with some titrant in place of water. */
  public static Blend finished(Blend blend, Brief brief, Material titrant, double percent) {
    Blend.Builder b = Blend.named(blend.name());
    Material filler = null;
    for (BlendLine l : blend.lines()) {
      if (l.material().id().equals(brief.water())) {
        filler = l.material();
      } else if (!l.material().id().equals(titrant.id())) {
        b.line(l.material(), l.amount().value());
      }
    }
    b.line(titrant, percent + weight(blend, titrant.id()));
    return b.upToHundredWith(filler);
  }

  private static void startingPh(
      Blend blend, Water water, Requirement r, boolean everyLot, double tolerance) {
    Balance typical = Balance.typical(blend, water);
    within(r, typical.ph(), "typical lots of " + blend, tolerance);
    if (everyLot) {
      Random random = new Random(20250607);
      for (int i = 0; i < RANDOM_LOTS; i++) {
        Lot.Draw draw = i % 2 == 0 ? Lot.ends(random) : Lot.uniform(random);
        within(
            r,
            typical.redrawn(blend, draw).phAtIonicStrengthOf(typical),
            "a lot of " + blend,
            tolerance);
      }
    }
  }

  private static void within(Requirement r, double ph, String what, double tolerance) {
    assertTrue(
        ph >= r.low() - tolerance && ph <= r.high() + tolerance,
        () -> what + " has pH " + ph + ", asked " + r);
  }

  /** The figure of the wish, from the weights, in a table without irritation scores. */
  public static double wish(Blend blend, Brief brief, PriceList prices) {
    return wish(blend, brief, with(prices));
  }

  /** The figure of the wish, from the weights. */
  public static double wish(Blend blend, Brief brief, MaterialTable table) {
    return switch (brief.wish().aim()) {
      case LEAST_SURFACTANT ->
          chosen(blend, brief).stream().mapToDouble(l -> l.amount().value()).sum();
      case CHEAPEST -> cost(blend, table.prices());
      case LEAST_ANIONIC_SHARE -> classShare(blend, ChargeClass.ANIONIC);
      case MILDEST -> RecheckedIndex.high(blend, table.scores(), false).typical();
      case MILDEST_BLENDED -> RecheckedIndex.blended(blend, brief, table.scores());
      case LEAST_CHANGE -> {
        Blend from = brief.wish().from().orElseThrow();
        Set<String> ids = new HashSet<>();
        blend.lines().forEach(l -> ids.add(l.material().id()));
        from.lines().forEach(l -> ids.add(l.material().id()));
        yield ids.stream()
            .sorted()
            .mapToDouble(id -> Math.abs(weight(blend, id) - weight(from, id)))
            .sum();
      }
      case NEAREST_SHARES ->
          brief.wish().shares().entrySet().stream()
              .mapToDouble(e -> Math.abs(classShare(blend, e.getKey()) - e.getValue()))
              .sum();
    };
  }

  private static double classShare(Blend blend, ChargeClass c) {
    return figure(blend, false, m -> actives(m, c, true), m -> actives(m, c, false), true)
        .typical();
  }
}
