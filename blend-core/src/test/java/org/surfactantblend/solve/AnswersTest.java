package org.surfactantblend.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.surfactantblend.Blends;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.quantity.PhWindow;
import org.surfactantblend.testing.Recheck;
import org.surfactantblend.testing.Says;
import org.surfactantblend.testing.Shop;

/** What answers say, and figures of small briefs worked out by hand. */
class AnswersTest {
  private static final MaterialTable TABLE = Shop.table();

  private static Brief.Builder wash() {
    return Brief.named("wash").totalActive(9, 0).choosingFrom("decyl", "beta");
  }

  private static SolvedBlend solved(Brief brief) {
    BlendResult result = BlendSolver.solve(brief, TABLE);
    Recheck.result(result, TABLE.prices());
    return result.fold(
        s -> s,
        none -> {
          throw new AssertionError(none.summary());
        });
  }

  private static Blend twoLines() {
    return Blend.named("two").line(Shop.DECYL, 6).line(Shop.BETA, 12.5).upToHundredWith(Shop.WATER);
  }

  @Test
  void aTradeOffInWords() {
    TradeOff.Corner corner = new TradeOff.Corner(twoLines(), 0.65, 37.5);
    TradeOff front =
        new TradeOff(
            wash().build(), Measure.COST, Measure.ANIONIC_SHARE, List.of(corner), true, true);
    assertEquals(
        "wash: "
            + Measure.COST.label()
            + " against "
            + Measure.ANIONIC_SHARE.label()
            + "\n\n"
            + "  "
            + right(Measure.COST.label(), 16)
            + right(Measure.ANIONIC_SHARE.label(), 24)
            + "\n"
            + "  "
            + right(Measure.COST.unit(), 16)
            + right(Measure.ANIONIC_SHARE.unit(), 24)
            + "   surfactants, % as supplied\n"
            + "  "
            + right(fixed(0.65, Measure.COST), 16)
            + right(fixed(37.5, Measure.ANIONIC_SHARE), 24)
            + "     6.00 decyl\n"
            + " ".repeat(45)
            + " 12.50 beta\n",
        front.table());
    assertEquals(front.table(), front.toString());
    List<TradeOff.Corner> two = List.of(corner, new TradeOff.Corner(twoLines(), 0.7, 30));
    TradeOff mixed =
        new TradeOff(wash().build(), Measure.COST, Measure.ANIONIC_SHARE, two, true, true);
    assertTrue(
        mixed.table().endsWith("  Mixtures of two neighbours are on the front as well.\n"),
        mixed.table());
    TradeOff stopped =
        new TradeOff(wash().build(), Measure.COST, Measure.ANIONIC_SHARE, two, false, false);
    assertTrue(
        stopped
            .toString()
            .endsWith(
                "  Between two neighbours there is no promise: the choice changes.\n"
                    + "  The search was stopped: corners may be missing.\n"),
        stopped.toString());
    TradeOff none =
        new TradeOff(wash().build(), Measure.COST, Measure.ANIONIC_SHARE, List.of(), true, true);
    assertTrue(none.table().endsWith("\n\n  no blend meets the brief\n"), none.table());
  }

  private static String right(String text, int width) {
    return String.format(java.util.Locale.ROOT, "%" + width + "s", text);
  }

  private static String fixed(double value, Measure measure) {
    return String.format(java.util.Locale.ROOT, "%." + measure.decimals() + "f", value);
  }

  @Test
  void aSensitivityInWords() {
    Requirement share = wash().share(ChargeClass.NONIONIC, 40, 60).build().requirements().get(1);
    Sensitivity s =
        new Sensitivity(
            wash().build(),
            List.of(new Sensitivity.Loosening(new Bound(share, true), 0.0025, 10, 0.07)),
            List.of(
                new Sensitivity.EntryPrice("coco", 4.9, OptionalDouble.of(4.25), 6.5),
                new Sensitivity.EntryPrice("glut", 3.4, OptionalDouble.empty(), 0)),
            OptionalDouble.of(0.0125));
    String text = s.table();
    assertEquals(text, s.toString());
    Says.lines(
        text,
        "wash: what would change the answer",
        "  share of nonionic at most 60 % of the active      0.0025      10.00   0.0700",
        "  one surfactant more buys 0.0125",
        "  coco                                           4.90             4.250   6.50 %",
        "  glut                                           3.40       at no price         ");
    Sensitivity none =
        new Sensitivity(wash().build(), List.of(), List.of(), OptionalDouble.empty());
    assertTrue(none.table().endsWith("  no end of a requirement costs anything\n"), none.table());
  }

  @Test
  void aGainThatGoesOnIsToldToTheLastTraceOfActive() {
    Brief brief = Brief.named("one").totalActive(9, 0).choosingFrom("decyl").cheapest().build();
    Sensitivity s = solved(brief).sensitivity();
    assertEquals(1, s.loosenings().size(), s::table);
    Sensitivity.Loosening l = s.loosenings().get(0);
    assertFalse(l.bound().upper());
    // Each point less active saves so much decyl at 5.4 and takes as much water at 0.04 per kg.
    double perPoint = 0.1 / 52 * (5.4 - 0.04);
    assertEquals(perPoint, l.gainPerPoint(), 1e-9);
    assertEquals(0.1, l.holdsTo(), 1e-9);
    assertEquals(89 * perPoint, l.gainThere(), 1e-9);
  }

  @Test
  void aLongDemandIsNotCutOff() {
    Material sci =
        Material.builder("sodium-cocoyl-isethionate-85")
            .inciName("Sodium Cocoyl Isethionate")
            .family(Family.inert("powder"))
            .constituent(
                org.surfactantblend.material.Constituent.active(
                    "Sodium Cocoyl Isethionate",
                    org.surfactantblend.quantity.Range.exactly(85),
                    ChargeClass.ANIONIC,
                    OptionalDouble.of(346)))
            .build();
    MaterialTable table = TABLE.with(List.of(sci));
    Brief brief =
        Brief.named("bar")
            .totalActive(9, 0)
            .choosingFrom(sci.id(), "beta")
            .asSupplied(sci.id(), 0.5, 12.5)
            .build();
    BlendResult result = BlendSolver.solve(brief, table);
    Recheck.result(result, table.prices());
    String text = result.fold(SolvedBlend::toString, NoBlend::summary);
    assertTrue(
        text.contains(
            "  "
                + brief.requirements().get(1)
                + "\n"
                + " ".repeat(46)
                + right(fixed3(result.orElseThrow().asSupplied(sci.id()).value()), 10)),
        text);
  }

  private static String fixed3(double value) {
    return String.format(java.util.Locale.ROOT, "%.3f", value);
  }

  @Test
  void alternativesInWords() {
    Brief brief = wash().cheapest().share(ChargeClass.NONIONIC, 40, 60).build();
    SolvedBlend best = solved(brief);
    Alternatives all = new Alternatives(brief, List.of(best), true, Double.NEGATIVE_INFINITY);
    assertEquals(0, all.gap().orElseThrow());
    // 40 % of 9 % from decyl, the rest from beta: 6.923 and 18 % as supplied.
    double cost = (9 * 0.4 / 0.52 * 5.4 + 18 * 2.3 + (100 - 9 * 0.4 / 0.52 - 18) * 0.04) / 100;
    assertEquals(
        "wash: "
            + brief.wish()
            + "\n\n"
            + "          wish   surfactants, % as supplied\n"
            + right(String.format(java.util.Locale.ROOT, "%.4f", cost), 14)
            + "    18.00 beta\n"
            + " ".repeat(17)
            + "  6.92 decyl\n",
        all.table());
    assertEquals(all.table(), all.toString());
    Alternatives stopped = new Alternatives(brief, List.of(best), false, cost - 0.01);
    assertEquals(0.01, stopped.gap().orElseThrow(), 1e-9);
    assertTrue(
        stopped
            .table()
            .endsWith(
                "  The search was stopped; none is better than the first by more than 0.0100.\n"),
        stopped.table());
    Alternatives unknown = new Alternatives(brief, List.of(best), false, Double.NEGATIVE_INFINITY);
    assertTrue(unknown.gap().isEmpty());
    assertTrue(unknown.table().endsWith("  The search was stopped.\n"), unknown.table());
    // A bound above what was found is no gap below zero.
    assertEquals(0, new Alternatives(brief, List.of(best), false, cost + 1).gap().orElseThrow());
    Alternatives none = new Alternatives(brief, List.of(), true, 0);
    assertTrue(none.gap().isEmpty());
    assertTrue(
        none.table().endsWith("  no blend meets the brief; solving it tells why\n"), none.table());
    assertTrue(
        new Alternatives(brief, List.of(), false, 0)
            .table()
            .contains("  none found before the stop\n"));
  }

  @Test
  void theSearchTellsHowFarItIsAndStopsWhenAsked() {
    Brief brief =
        wash().choosingFrom("coco", "glut", "sulf").atMostSurfactants(2).cheapest().build();
    List<SearchProgress> told = new ArrayList<>();
    Alternatives all =
        BlendSolver.alternatives(brief, TABLE, 3, 1, SearchBudget.none().telling(told::add));
    assertTrue(all.complete());
    assertEquals(3, all.blends().size());
    assertFalse(told.isEmpty());
    for (SearchProgress p : told) {
      assertEquals(p.found() == 0, Double.isNaN(p.best()), p.toString());
    }
    SearchProgress last = told.get(told.size() - 1);
    assertTrue(last.steps() > 0);
    // Blends come best first and each is a blend of its own.
    for (int i = 1; i < 3; i++) {
      assertTrue(all.blends().get(i - 1).wishValue() <= all.blends().get(i).wishValue() + 1e-9);
    }
    Alternatives stopped =
        BlendSolver.alternatives(brief, TABLE, 3, 1, SearchBudget.none().goingOnWhile(() -> false));
    assertFalse(stopped.complete());
    assertThrows(NullPointerException.class, () -> SearchBudget.none().telling(null));
    assertThrows(NullPointerException.class, () -> SearchBudget.none().goingOnWhile(null));
    assertEquals(
        "count of alternatives was 0.0, allowed is 1.0 to 1000.0",
        assertThrows(
                IllegalArgumentException.class,
                () -> BlendSolver.alternatives(brief, TABLE, 0, 1, SearchBudget.none()))
            .getMessage()
            .strip());
    assertEquals(
        "count of differing surfactants was 21.0, allowed is 1.0 to 20.0",
        assertThrows(
                IllegalArgumentException.class,
                () -> BlendSolver.alternatives(brief, TABLE, 3, 21, SearchBudget.none()))
            .getMessage()
            .strip());
  }

  @Test
  void aTradeOffIsBetweenTwoMeasures() {
    assertEquals(
        "second measure was " + Measure.COST.label() + ", allowed is another one than the first",
        assertThrows(
                IllegalArgumentException.class,
                () ->
                    BlendSolver.tradeOff(
                        wash().build(), TABLE, Measure.COST, Measure.COST, SearchBudget.none()))
            .getMessage());
  }

  private static Material with(Material m, Family.Trait trait) {
    Family f = m.family();
    return m.toBuilder()
        .id("changed")
        .family(
            new Family(
                f.name(),
                f.usualClass(),
                f.permanentCharge(),
                f.stableWindow().orElse(null),
                java.util.Set.of(trait),
                f.groups()))
        .build();
  }

  /** Common practice, no source. */
  @Test
  void whatClashes() {
    assertEquals(
        "quar with sulf: a cationic surfactant precipitates with an anionic one"
            + " (common practice, no source)",
        Clash.between(Shop.SULF, Shop.QUAR).orElseThrow().toString());
    assertEquals(
        "iset with decyl: a caustic grade cleaves an ester surfactant unless it is neutralised"
            + " first (common practice, no source)",
        Clash.between(Shop.DECYL, Shop.ISET).orElseThrow().toString());
    Material ammonium = with(Shop.SULF, Family.Trait.AMMONIUM);
    assertEquals(
        "changed with coco: a caustic grade sets ammonia free (common practice, no source)",
        Clash.between(Shop.COCO, ammonium).orElseThrow().toString());
    assertEquals(Optional.empty(), Clash.between(Shop.BETA, Shop.SULF));
    assertEquals(Optional.empty(), Clash.between(ammonium, Shop.ISET));
    List<Clash> all = Clash.among(List.of(Shop.QUAR, Shop.BETA, Shop.SULF, Shop.GLUT));
    assertEquals(List.of("sulf", "glut"), all.stream().map(Clash::second).toList(), all.toString());
    assertEquals(List.of(), Clash.among(List.of(Shop.BETA, Shop.SULF)));
  }

  @Test
  void aClashIsToldOfTheOneThatIsLeftOut() {
    Clash c = Clash.between(Shop.SULF, Shop.QUAR).orElseThrow();
    assertEquals("sulf", c.toldOf(Shop.SULF).first());
    assertEquals("quar", c.toldOf(Shop.SULF).second());
    assertEquals(c, c.toldOf(Shop.QUAR));
  }

  /** An isethionate lasts at pH 5 to 8. */
  @ParameterizedTest
  @CsvSource({"8.1, 9, true", "8, 9, false", "3, 4.9, true", "3, 5, false", "4, 9, false"})
  void anAskedPhOutsideOfWhatLasts(double low, double high, boolean clash) {
    Brief brief = wash().startingPh(low, high).build();
    assertEquals(clash, Clash.withAskedPh(Shop.ISET, brief).isPresent());
    assertTrue(Clash.withAskedPh(Shop.BETA, brief).isEmpty());
    assertTrue(Clash.withAskedPh(Shop.ISET, wash().build()).isEmpty());
    if (clash) {
      String text = Clash.withAskedPh(Shop.ISET, brief).orElseThrow().toString();
      assertTrue(
          text.startsWith("iset: an isethionate lasts at ") && text.contains("the brief asks for "),
          text);
      assertFalse(text.contains("soap") || text.contains("fatty acid below"), text);
    }
  }

  @Test
  void soapTurnsToFattyAcid() {
    Family f = Shop.GLUT.family();
    Material soap =
        Shop.GLUT.toBuilder()
            .id("soap")
            .family(
                new Family(
                    "soap",
                    f.usualClass(),
                    f.permanentCharge(),
                    PhWindow.of(9, 11),
                    java.util.Set.of(Family.Trait.SOAP),
                    f.groups()))
            .build();
    String text = Clash.withAskedPh(soap, wash().startingPh(5, 6).build()).orElseThrow().toString();
    assertTrue(text.contains(" and turns to fatty acid below, the brief asks for "), text);
  }

  @Test
  void aBoundSaysItsEndAndKnowsHowFarItCanGo() {
    List<Requirement> asked =
        wash()
            .share(ChargeClass.NONIONIC, 40, 60)
            .startingPh(5, 6)
            .costAtMost(0.8)
            .netAnionicCharge(40, 60, 7)
            .netAnionicChargeShare(10, 30, 7)
            .irritationIndexAtMost(30)
            .build()
            .requirements();
    double[][] ends = {{8.9, 91}, {40, 40}, {5, 8}, {0, 1e6}, {1e5, 1e5}, {10, 370}, {0, 170}};
    for (int i = 0; i < ends.length; i++) {
      Requirement r = asked.get(i);
      Bound high = new Bound(r, true);
      assertEquals(r.high(), high.value());
      assertEquals(ends[i][1], high.mostLoosening(), 1e-9, r.toString());
      assertEquals(r.high() + 0.25, high.loosened(0.25).value(), 1e-9);
      if (r.hasLow()) {
        Bound low = new Bound(r, false);
        assertEquals(r.low(), low.value());
        assertEquals(ends[i][0], low.mostLoosening(), 1e-9, r.toString());
        assertEquals(r.low() - 0.25, low.loosened(0.25).value(), 1e-9);
        assertEquals(r.low() - ends[i][0], low.loosest().value(), 1e-9);
      }
    }
    assertEquals(
        "share of nonionic at most 60 % of the active", new Bound(asked.get(1), true).toString());
    assertEquals("starting pH at least 5", new Bound(asked.get(2), false).toString());
    assertEquals("starting pH at least 4.5", new Bound(asked.get(2), false).withValue(4.5));
  }

  @Test
  void aConflictNamesTheSmallestChanges() {
    // 9 % active of 52 % and 30 % needs at least 17.3 % as supplied: water 82.7 % at most.
    BlendResult result = BlendSolver.solve(wash().asSupplied("water", 85, 100).build(), TABLE);
    NoBlend none = result.fold(s -> null, n -> n);
    String text = none.summary();
    assertEquals(text, none.toString());
    assertTrue(
        text.startsWith("No blend meets \"wash\".\nThese demands cannot hold together:\n"), text);
    assertTrue(text.contains("  - amount of water at least 85 % as supplied\n"), text);
    // All from decyl: 9 / 0.52 = 17.308 %, so 82.692 % of water; or 15 x 0.52 = 7.8 % active.
    assertTrue(
        text.contains("alone enough: amount of water at least 82.692 % as supplied\n"), text);
    assertTrue(text.contains("alone enough: total active at least 7.8 % active\n"), text);
    assertEquals(List.of(), none.excludedByGuard());
    assertTrue(none.withTypicalLots().isEmpty());
    for (ConflictPart p : none.conflict()) {
      assertTrue(p.isEnoughAlone());
    }
  }

  @Test
  void aSummaryHasTheFiguresOfTheBlend() {
    SolvedBlend s =
        solved(wash().shareOf("decyl", 40, 100).cheapest().fixed("glycerin", 3).build());
    String text = s.summary();
    assertEquals(text, s.toString());
    for (String line :
        List.of(
            "  beta                                         18.000      5.400          60.0",
            "  decyl                                         6.923      3.600          40.0",
            "  glycerin                                      3.000",
            "  shares         amphoteric 60.0 % nonionic 40.0 %",
            // 18 x 2.3 + 6.923 x 5.4 + 3 x 1.6 + 72.077 x 0.04, in hundredths.
            "  cost           0.865 cu per kg, 9.61 cu per kg active",
            "  wish: cheapest, reached 0.865 cu per kg")) {
      assertTrue(text.lines().anyMatch(l -> l.stripTrailing().equals(line)), line + " in\n" + text);
    }
    RequirementReport share = s.report(Requirement.Kind.MATERIAL_SHARE);
    assertTrue(share.bindingLow());
    assertFalse(share.bindingHigh());
    assertEquals(40, share.reached().typical(), 1e-9);
    assertEquals(60, share.roomAbove(), 1e-6);
    // One point less of decyl: 0.09 % active from beta at 2.26 over water instead of 5.36.
    assertEquals(
        0.09 / 100 * (5.36 / 0.52 - 2.26 / 0.30), share.gainPerPoint().orElseThrow(), 1e-7);
    assertEquals(s.wishValue(), s.costPerKg().orElseThrow(), 1e-12);
    assertEquals(s.wishValue() / 0.09, s.costPerKgActive().orElseThrow(), 1e-9);
    SolvedBlend unpriced =
        BlendSolver.solve(wash().build(), TABLE.priced(PriceList.EMPTY))
            .fold(
                x -> x,
                none -> {
                  throw new AssertionError(none.summary());
                });
    assertTrue(unpriced.costPerKg().isEmpty());
    assertFalse(unpriced.summary().contains("  cost "), unpriced.summary());
    assertTrue(unpriced.summary().contains(" % as supplied"), unpriced.summary());
  }

  @Test
  void everyWishHasItsUnit() {
    Map<String, Brief> units =
        Map.of(
            " % as supplied ", wash().build(),
            " % of the active ", wash().leastAnionicShare().build(),
            " points of % as supplied, summed ", wash().leastChangeFrom(twoLines()).build(),
            " share points, summed ",
                wash().nearestToShares(Map.of(ChargeClass.NONIONIC, 50.0)).build());
    units.forEach(
        (unit, brief) -> {
          SolvedBlend s = solved(brief);
          String text = s.summary().replaceAll("\\s+", " ");
          int wish = text.indexOf(" wish: " + brief.wish() + ", reached ");
          assertTrue(wish > 0, text);
          assertTrue(text.indexOf(unit, wish) > 0, unit + " in " + text);
        });
    // 9 % from decyl alone is the least as supplied.
    assertEquals(9 / 0.52, solved(wash().build()).wishValue(), 1e-9);
    // 6 % of decyl and 12.5 % of beta are 6.87 % active; decyl alone changes most per percent, and
    // water gives way by as much.
    assertEquals(
        2 * (9 - 6.87) / 0.52,
        solved(wash().leastChangeFrom(twoLines()).build()).wishValue(),
        1e-9);
  }

  @Test
  void aSummarySaysWhichEndsBind() {
    SolvedBlend s =
        solved(wash().shareOf("decyl", 40, 100).salt(0, 3).fixed("glycerin", 3).cheapest().build());
    // A point of active is 0.1 %: 0.06 % of it from beta, 0.04 % from decyl, in place of water.
    double point = (0.06 / 0.30 * (2.3 - 0.04) + 0.04 / 0.52 * (5.4 - 0.04)) / 100;
    for (String line :
        List.of(
            "  total active 9 % active                          9.000    both"
                + right(String.format(java.util.Locale.ROOT, "%.3f", point), 15),
            "  share of decyl 40 to 100 % of the active         40.00   below          0.002",
            "  sodium chloride 0 to 3 % m/m                     0.918       -              -",
            "  The spread of the pH comes mostly from the alkali of decyl: titrate 20 g of",
            "  Note: decyl: alkali worked back from a pH of 11 or more is ill-conditioned:")) {
      assertTrue(s.summary().contains(line + "\n"), line + " in\n" + s.summary());
    }
    assertFalse(s.report(Requirement.Kind.SALT).isBinding());
    assertTrue(s.report(Requirement.Kind.MATERIAL_SHARE).isBinding());
    SolvedBlend above = solved(wash().share(ChargeClass.NONIONIC, 20, 40).build());
    // A point of the share: 0.09 % active at 30 instead of 52 % strength.
    double share = 0.09 / 0.30 - 0.09 / 0.52;
    assertTrue(
        above
            .summary()
            .contains(
                "  share of nonionic 20 to 40 % of the active       40.00   above"
                    + right(String.format(java.util.Locale.ROOT, "%.3f", share), 15)
                    + "\n"),
        above.summary());
    assertTrue(above.report(Requirement.Kind.CLASS_SHARE).isBinding());
    // Of a sulfate and a betaine the pH spreads little in this window; nothing is to titrate.
    SolvedBlend narrow =
        solved(Brief.named("narrow").totalActive(9, 0).choosingFrom("beta").build());
    assertEquals(
        narrow.startingPh().guaranteed().width() > 1,
        narrow.summary().contains("The spread of the pH"),
        narrow.summary());
  }

  @Test
  void aRatioHasNoBoundToTell() {
    List<SearchProgress> told = new ArrayList<>();
    Brief open =
        Brief.named("open")
            .totalActive(9, 0.5)
            .choosingFrom("decyl", "beta", "glut", "coco")
            .shareOf("glut", 10, 60)
            .atMostSurfactants(2)
            .leastAnionicShare()
            .build();
    BlendSolver.alternatives(open, TABLE, 2, 1, SearchBudget.none().telling(told::add));
    for (SearchProgress p : told) {
      assertTrue(Double.isNaN(p.best()), p.toString());
      assertEquals(Double.NEGATIVE_INFINITY, p.bound(), p.toString());
    }
    told.clear();
    Brief linear =
        Brief.named("linear")
            .totalActive(9, 0.5)
            .choosingFrom("decyl", "beta", "glut", "coco")
            .atMostSurfactants(2)
            .cheapest()
            .build();
    BlendSolver.alternatives(linear, TABLE, 2, 1, SearchBudget.none().telling(told::add));
    assertTrue(told.stream().anyMatch(p -> Double.isFinite(p.bound())), told.toString());
  }

  @Test
  void whereTheGuardLeavesNoSurfactantTheGuardIsNamed() {
    MaterialTable table = Blends.starterTable();
    Brief.Builder soap =
        Brief.named("soap").totalActive(4, 0.3).choosingFrom("potassium-cocoate-38");
    NoBlend none = none(BlendSolver.solve(soap.startingPh(4, 5).build(), table));
    assertEquals(
        List.of("total active at least 3.7 % active", "clash guard: potassium-cocoate-38 left out"),
        none.conflict().stream().map(ConflictPart::demand).toList());
    assertFalse(none.conflict().get(1).isEnoughAlone(), "no soap reads pH 5");
    NoBlend nearly =
        none(
            BlendSolver.solve(
                Brief.named("alkaline")
                    .totalActive(4, 0.3)
                    .choosingFrom("sodium-cocoyl-isethionate-85")
                    .fixed("sodium-hydroxide-10", 1)
                    .startingPh(9, 12.5)
                    .build(),
                table));
    assertEquals("doing without it", nearly.conflict().get(1).change());
  }

  @Test
  void oneDemandAloneIsNotSaidToBeSeveral() {
    NoBlend none =
        none(
            BlendSolver.solve(
                Brief.named("wash").totalActive(90, 0).choosingFrom("beta").build(), TABLE));
    assertEquals(1, none.conflict().size());
    assertTrue(none.summary().contains("\nThis demand cannot be met:\n"), none::summary);
  }

  private static NoBlend none(BlendResult result) {
    return result.fold(
        s -> {
          throw new AssertionError(s.summary());
        },
        n -> n);
  }

  // What the active of each costs in place of water [cu per kg of active].
  private static final double DECYL_ACTIVE = (5.4 - 0.04) / 0.52;
  private static final double BETA_ACTIVE = (2.3 - 0.04) / 0.30;

  private static void assertLoosening(
      Sensitivity.Loosening l, String end, double perPoint, double to, double gain) {
    assertEquals(end, l.bound().toString());
    assertEquals(perPoint, l.gainPerPoint(), 1e-6 * perPoint, l.toString());
    assertEquals(to, l.holdsTo(), 1e-5, l.toString());
    assertEquals(gain, l.gainThere(), 1e-6, l.toString());
  }

  @Test
  void whatChangesAnAnswerByHand() {
    // 40 % decyl, the rest beta. In place of beta, coco of 50 % would do; "none" says it may not.
    Sensitivity s =
        solved(
                wash()
                    .choosingFrom("coco", "glut")
                    .shareOf("decyl", 40, 100)
                    .shareOf("glut", 0, 0)
                    .cheapest()
                    .build())
            .sensitivity();
    assertEquals(2, s.loosenings().size(), s.table());
    // A point of the total is 0.1 %; no less than 0.1 % can be asked for.
    double perActive = 0.4 * DECYL_ACTIVE + 0.6 * BETA_ACTIVE;
    assertLoosening(
        s.loosenings().get(0),
        "total active at least 9 % active",
        0.001 * perActive,
        0.1,
        0.089 * perActive);
    // Down to nothing of decyl: a point of the share is 0.09 % of the product.
    double perPoint = 0.0009 * (DECYL_ACTIVE - BETA_ACTIVE);
    assertLoosening(
        s.loosenings().get(1),
        "share of decyl at least 40 % of the active",
        perPoint,
        0,
        40 * perPoint);
    assertTrue(s.gainOfOneMore().isEmpty());
    assertEquals(
        List.of("coco", "glut"),
        s.entryPrices().stream().map(Sensitivity.EntryPrice::materialId).toList());
    Sensitivity.EntryPrice coco = s.entryPrices().get(0);
    assertEquals(4.9, coco.price());
    // At the price at which its active costs what that of beta does; 5.4 % active of it.
    assertEquals(0.04 + 0.5 * BETA_ACTIVE, coco.entersAt().orElseThrow(), 1e-5);
    assertEquals(5.4 / 0.50, coco.asSupplied(), 1e-6);
    Sensitivity.EntryPrice glut = s.entryPrices().get(1);
    assertEquals(3.4, glut.price());
    assertTrue(glut.entersAt().isEmpty());
    assertEquals(0, glut.asSupplied());
  }

  @Test
  void aGainGoesOnUntilAnotherSurfactantLeaves() {
    // 18 % of beta brings 0.918 % of salt, which is all that may be.
    Brief.Builder b = wash().salt(0, 0.918).cheapest();
    Sensitivity s = solved(b.build()).sensitivity();
    // 0.1 % of salt lets in 0.1 / 5.1 of beta; at 30 % of beta no decyl is left.
    assertLoosening(
        s.loosenings().get(s.loosenings().size() - 1),
        "sodium chloride at most 0.918 % m/m",
        0.1 / 5.1 * 0.30 * (DECYL_ACTIVE - BETA_ACTIVE),
        1.53,
        (0.09 - 0.054) * (DECYL_ACTIVE - BETA_ACTIVE));
    assertEquals(List.of(), s.entryPrices());
    // Where a fifth of decyl is asked for, more salt buys nothing beyond 24 % of beta.
    Sensitivity fifth =
        solved(wash().salt(0, 0.918).shareOf("decyl", 20, 100).cheapest().build()).sensitivity();
    assertLoosening(
        fifth.loosenings().get(1),
        "sodium chloride at most 0.918 % m/m",
        0.1 / 5.1 * 0.30 * (DECYL_ACTIVE - BETA_ACTIVE),
        1.224,
        (0.072 - 0.054) * (DECYL_ACTIVE - BETA_ACTIVE));
    // One alone has to be decyl; a second one takes over 5.4 of its 9 %.
    Sensitivity one = solved(b.atMostSurfactants(1).build()).sensitivity();
    assertEquals(0.054 * (DECYL_ACTIVE - BETA_ACTIVE), one.gainOfOneMore().orElseThrow(), 1e-6);
    // A third one changes nothing. Prices count for a wish about cost alone.
    assertTrue(solved(b.atMostSurfactants(2).build()).sensitivity().gainOfOneMore().isEmpty());
    assertEquals(
        List.of(),
        solved(wash().choosingFrom("glut").leastAnionicShare().build())
            .sensitivity()
            .entryPrices());
  }

  private static TradeOff front(Brief brief, Measure first, Measure second) {
    TradeOff front = BlendSolver.tradeOff(brief, TABLE, first, second, SearchBudget.none());
    front.corners().forEach(c -> Recheck.blend(c.blend(), brief, TABLE.prices()));
    assertTrue(front.complete());
    return front;
  }

  private static void assertCorners(TradeOff front, double[]... corners) {
    assertEquals(corners.length, front.corners().size(), front.table());
    for (int i = 0; i < corners.length; i++) {
      assertEquals(corners[i][0], front.corners().get(i).first(), 1e-6, front.table());
      assertEquals(corners[i][1], front.corners().get(i).second(), 1e-6, front.table());
    }
  }

  @Test
  void aFrontByHand() {
    // Beta alone is the cheaper one and brings 5.1 % of salt for 30 % active.
    double beta = 0.04 + 0.09 * BETA_ACTIVE;
    double decyl = 0.04 + 0.09 * DECYL_ACTIVE;
    Brief.Builder b = wash();
    TradeOff free = front(b.build(), Measure.COST, Measure.SALT);
    assertCorners(free, new double[] {beta, 1.53}, new double[] {decyl, 0});
    assertTrue(free.between());
    assertCorners(
        front(b.build(), Measure.SALT, Measure.COST),
        new double[] {0, decyl},
        new double[] {1.53, beta});
    // Mixtures of the two obey a limit of two; not one of one, nor any least use.
    TradeOff two = front(wash().atMostSurfactants(2).build(), Measure.COST, Measure.SALT);
    assertCorners(two, new double[] {beta, 1.53}, new double[] {decyl, 0});
    assertTrue(two.between());
    for (Brief limited :
        List.of(wash().atMostSurfactants(1).build(), wash().minimumUse(2).build())) {
      TradeOff one = front(limited, Measure.COST, Measure.SALT);
      assertCorners(one, new double[] {beta, 1.53}, new double[] {decyl, 0});
      assertFalse(one.between(), one.table());
    }
    // Where one blend is best in both there is nothing between.
    TradeOff point =
        front(wash().minimumUse(2).build(), Measure.SURFACTANT_AS_SUPPLIED, Measure.SALT);
    assertCorners(point, new double[] {9 / 0.52, 0});
    assertTrue(point.between());
    // A sulfate alone is the cheapest, all of it anionic.
    assertCorners(
        front(wash().choosingFrom("sulf").build(), Measure.COST, Measure.ANIONIC_SHARE),
        new double[] {0.04 + 0.09 * (1.1 - 0.04) / 0.27, 100},
        new double[] {beta, 0});
  }

  @Test
  void aFrontAgainstTheNumberOfSurfactants() {
    double one = 0.04 + 0.09 * DECYL_ACTIVE;
    double two = 0.04 + 0.036 * DECYL_ACTIVE + 0.054 * BETA_ACTIVE;
    Brief salt = wash().choosingFrom("coco").shareOf("coco", 0, 0).salt(0, 0.918).build();
    TradeOff front = front(salt, Measure.SURFACTANT_COUNT, Measure.COST);
    assertCorners(front, new double[] {1, one}, new double[] {2, two});
    assertFalse(front.between());
    assertCorners(
        front(salt, Measure.COST, Measure.SURFACTANT_COUNT),
        new double[] {two, 2},
        new double[] {one, 1});
    // Not beyond what the brief allows, nor below what it wants.
    assertCorners(
        front(
            salt.toBuilder().atMostSurfactants(1).build(), Measure.SURFACTANT_COUNT, Measure.COST),
        new double[] {1, one});
    assertCorners(
        front(
            salt.toBuilder().exactlySurfactants(2).build(), Measure.SURFACTANT_COUNT, Measure.COST),
        new double[] {2, two});
    TradeOff none = front(wash().costAtMost(0.5).build(), Measure.SURFACTANT_COUNT, Measure.COST);
    assertCorners(none);
    TradeOff stopped =
        BlendSolver.tradeOff(
            salt,
            TABLE,
            Measure.SURFACTANT_COUNT,
            Measure.COST,
            SearchBudget.none().goingOnWhile(() -> false));
    assertFalse(stopped.complete());
  }

  private static void assertLines(Brief brief, Map<String, Double> percents) {
    SolvedBlend s = solved(brief);
    percents.forEach(
        (id, percent) ->
            assertEquals(percent, s.blend().asSupplied(id).value(), 1e-3, id + "\n" + s));
  }

  /** Beta holds 29 to 31.5 % active and 4.5 to 6 % salt, decyl 50 to 54 %. */
  @Test
  void everyLotStandsAtItsWorstEnds() {
    Brief.Builder any =
        Brief.named("wash")
            .totalActive(9, 0.8)
            .choosingFrom("decyl", "beta")
            .everyLotWithinSpecification();
    // At least 40 % of the leanest decyl beside the strongest beta, and 8.2 % of the leanest lots:
    // 50 x 0.6 = 31.5 y 0.4, 50 x + 29 y = 8.2.
    Map<String, Double> least = Map.of("beta", 16.4, "decyl", 6.888);
    assertLines(any.build().toBuilder().shareOf("decyl", 40, 100).cheapest().build(), least);
    assertLines(
        any.build().toBuilder().share(ChargeClass.NONIONIC, 40, 100).cheapest().build(), least);
    assertLines(
        any.build().toBuilder().share(ChargeClass.AMPHOTERIC, 0, 60).cheapest().build(), least);
    // At most 40 % of the strongest decyl beside the leanest beta: 54 x 0.6 = 29 y 0.4.
    double beta = 8.2 / (50 * 29 * 0.4 / (54 * 0.6) + 29) * 100;
    Map<String, Double> most = Map.of("beta", beta, "decyl", beta * 29 * 0.4 / (54 * 0.6));
    assertLines(any.build().toBuilder().shareOf("decyl", 0, 40).build(), most);
    assertLines(any.build().toBuilder().share(ChargeClass.NONIONIC, 0, 40).build(), most);
    assertLines(any.build().toBuilder().share(ChargeClass.AMPHOTERIC, 60, 100).build(), most);
    // The saltiest beta may bring 0.9 %, the least salty has to bring 0.45 %.
    assertLines(any.build().toBuilder().salt(0, 0.9).cheapest().build(), Map.of("beta", 15.0));
    assertLines(any.build().toBuilder().salt(0.45, 3).build(), Map.of("beta", 10.0));
    // No more than 9.8 % of the strongest lots, where as much as can be is wanted.
    assertLines(
        any.build().toBuilder().asSupplied("beta", 0, 0).asSupplied("water", 0, 82).build(),
        Map.of("decyl", 18.0));
    BlendResult tooMuch =
        BlendSolver.solve(
            any.build().toBuilder().asSupplied("beta", 0, 0).asSupplied("water", 0, 81.8).build(),
            TABLE);
    assertFalse(tooMuch.isSolved(), "18.2 % of 54 % are more than 9.8 %");
  }

  /** The sulfate has one charge and 384 g/mol, the betaine none and 342 g/mol. */
  @Test
  void chargesByHand() {
    Brief.Builder b = Brief.named("wash").totalActive(9, 0).choosingFrom("sulf", "beta").cheapest();
    // 60 % of the moles: a / 384 = 1.5 b / 342.
    double beta = 9 / (1 + 1.5 * 384 / 342);
    assertLines(
        b.build().toBuilder().netAnionicChargeShare(0, 60, 7).build(),
        Map.of("beta", beta / 0.30, "sulf", (9 - beta) / 0.27));
    // 100 mmol/kg are 38.4 g/kg of the sulfate.
    assertLines(
        b.build().toBuilder().netAnionicCharge(0, 100, 7).build(),
        Map.of("sulf", 3.84 / 0.27, "beta", 5.16 / 0.30));
    // The lean sulfate is dear enough to be wanted little, were it not for the least charge.
    MaterialTable dear = TABLE.priced(TABLE.prices().with("sulf", 9));
    for (Brief asked :
        List.of(
            b.build().toBuilder().netAnionicChargeShare(60, 100, 7).build(),
            b.build().toBuilder().netAnionicCharge((9 - beta) * 10 / 0.384, 500, 7).build())) {
      BlendResult result = BlendSolver.solve(asked, dear);
      Recheck.result(result, dear.prices());
      assertEquals(
          (9 - beta) / 0.27,
          result.orElseThrow().asSupplied("sulf").value(),
          1e-3,
          asked.toString());
    }
  }

  private static List<List<String>> sets(Alternatives all) {
    all.blends().forEach(s -> Recheck.result(s, TABLE.prices()));
    return all.blends().stream()
        .map(
            s ->
                s.blend().lines().stream()
                    .filter(l -> l.material().isSurfactant())
                    .map(l -> l.material().id())
                    .sorted()
                    .toList())
        .toList();
  }

  /** 20 mmol/kg take 7.68 g/kg of the sulfate, and half as much of the glutamate's two charges. */
  @Test
  void theLeastSharesOfSeveralSets() {
    Brief brief =
        Brief.named("charged")
            .totalActive(9, 0.2)
            .choosingFrom("sulf", "glut", "decyl")
            .netAnionicCharge(20, 500, 9)
            .atMostSurfactants(2)
            .leastAnionicShare()
            .build();
    Alternatives all = BlendSolver.alternatives(brief, TABLE, 2, 1, SearchBudget.none());
    assertEquals(List.of(List.of("decyl", "glut"), List.of("decyl", "sulf")), sets(all));
    assertEquals(2.0 * 395 / 2 / 9.2 / 10, all.blends().get(0).wishValue(), 0.01);
    assertEquals(0.768 / 9.2 * 100, all.blends().get(1).wishValue(), 1e-6);
    // Every other set has no more than one of decyl: all of its active is anionic.
    Alternatives more = BlendSolver.alternatives(brief, TABLE, 9, 1, SearchBudget.none());
    assertEquals(5, more.blends().size(), more.table());
    for (SolvedBlend s : more.blends().subList(2, 5)) {
      assertEquals(100, s.wishValue(), 1e-6);
    }
    // Sets that differ by two share none of their two.
    Alternatives apart = BlendSolver.alternatives(brief, TABLE, 9, 2, SearchBudget.none());
    assertEquals(List.of(List.of("decyl", "glut"), List.of("sulf")), sets(apart));
    assertEquals(100, apart.blends().get(1).wishValue(), 1e-6);
  }

  @Test
  void setsThatDifferByTwo() {
    // By cost of the active: sulf 3.93, beta 7.53, coco 9.72, decyl 10.31; two are to be used.
    Brief brief =
        wash().choosingFrom("sulf", "coco").exactlySurfactants(2).minimumUse(1).cheapest().build();
    assertEquals(
        List.of(
            List.of("beta", "sulf"),
            List.of("coco", "sulf"),
            List.of("decyl", "sulf"),
            List.of("beta", "coco"),
            List.of("beta", "decyl"),
            List.of("coco", "decyl")),
        sets(BlendSolver.alternatives(brief, TABLE, 20, 1, SearchBudget.none())));
    assertEquals(
        List.of(List.of("beta", "sulf"), List.of("coco", "decyl")),
        sets(BlendSolver.alternatives(brief, TABLE, 20, 2, SearchBudget.none())));
    assertEquals(
        List.of(List.of("beta", "sulf")),
        sets(BlendSolver.alternatives(brief, TABLE, 20, 3, SearchBudget.none())));
    // With a window of pH each set is closed at its own ionic strength.
    Brief ph = brief.toBuilder().startingPh(6, 9).build();
    Alternatives closed = BlendSolver.alternatives(ph, TABLE, 20, 2, SearchBudget.none());
    assertTrue(closed.complete());
    for (int i = 1; i < closed.blends().size(); i++) {
      List<String> own = new ArrayList<>(sets(closed).get(i));
      for (int j = 0; j < i; j++) {
        own.removeAll(sets(closed).get(j));
      }
      assertEquals(2, own.size(), closed.table());
    }
  }

  /** The sulfate holds 26 to 28.5 % at 384 g/mol, the betaine 29 to 31.5 % at 342 g/mol. */
  @Test
  void theChargeShareOfEveryLot() {
    Brief.Builder b =
        Brief.named("wash")
            .totalActive(9, 0.8)
            .choosingFrom("sulf", "beta")
            .everyLotWithinSpecification()
            .cheapest();
    double ratio = 60 * 29 / 342.0 / (40 * 28.5 / 384);
    double beta = 8.2 / (26 * ratio + 29) * 100;
    assertLines(
        b.build().toBuilder().netAnionicChargeShare(0, 60, 7).build(),
        Map.of("beta", beta, "sulf", ratio * beta));
    double least = 60 * 31.5 / 342 / (40 * 26 / 384.0);
    double other = 8.2 / (26 * least + 29) * 100;
    MaterialTable dear = TABLE.priced(TABLE.prices().with("sulf", 9));
    BlendResult result =
        BlendSolver.solve(b.build().toBuilder().netAnionicChargeShare(60, 100, 7).build(), dear);
    Recheck.result(result, dear.prices());
    assertEquals(least * other, result.orElseThrow().asSupplied("sulf").value(), 1e-3);
  }

  /** Without a list of candidates a fixed surfactant is none; it stays as it was fixed. */
  @Test
  void aFixedSurfactantIsNotChosenAgain() {
    SolvedBlend s =
        solved(Brief.named("wash").totalActive(9, 0).fixed("sulf", 3).cheapest().build());
    assertEquals(3, s.blend().asSupplied("sulf").value(), 1e-12);
    assertEquals(1, s.blend().lines().stream().filter(l -> l.material() == Shop.SULF).count());
    // 0.81 % of the nine are there; the rest comes from the cheapest active, the betaine.
    assertEquals(8.19 / 0.30, s.blend().asSupplied("beta").value(), 1e-6);
  }

  /** 7.68 g/kg of the sulfate are the least; their share is least in the most active matter. */
  @Test
  void aShareIsLeastInTheLargestTotal() {
    Brief.Builder b =
        Brief.named("charged")
            .totalActive(9, 2)
            .choosingFrom("sulf", "decyl")
            .netAnionicCharge(20, 500, 9)
            .leastAnionicShare();
    for (Brief brief :
        List.of(
            b.build(),
            b.build().toBuilder().atMostSurfactants(2).build(),
            b.build().toBuilder().exactlySurfactants(2).minimumUse(2).build())) {
      SolvedBlend s = solved(brief);
      assertEquals(11, s.blend().totalActive().value(), 1e-6, brief.toString());
      assertEquals(0.768 / 11 * 100, s.wishValue(), 1e-6, brief.toString());
    }
    // The distance from wanted shares is told in points of the share, in any total.
    SolvedBlend near =
        solved(
            Brief.named("near")
                .totalActive(9, 2)
                .choosingFrom("decyl", "beta")
                .shareOf("decyl", 60, 100)
                .nearestToShares(Map.of(ChargeClass.NONIONIC, 50.0))
                .build());
    assertEquals(10, near.wishValue(), 1e-6);
  }
}
