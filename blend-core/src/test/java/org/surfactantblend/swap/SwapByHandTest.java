package org.surfactantblend.swap;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.testing.RandomBlends;
import org.surfactantblend.testing.Says;
import org.surfactantblend.testing.Shop;

/** Swaps of invented grades, with every figure worked out by hand. */
class SwapByHandTest {
  private static final Material WATER = RandomBlends.WATER;
  private static final Material GLYCERIN = RandomBlends.pure("glycerin", "Glycerin");
  private static final Material DECYL =
      surfactant("decyl", "Decyl Glucoside", ChargeClass.NONIONIC, 50);
  private static final Material BETAINE =
      surfactant("betaine", "Betaine", ChargeClass.AMPHOTERIC, 30, holds("Sodium Chloride", 5));
  private static final Material STRONGER =
      surfactant(
          "stronger",
          "Betaine",
          ChargeClass.AMPHOTERIC,
          36,
          holds("Sodium Chloride", 6),
          holds("Glycerin", 3));
  private static final Material SARCOSINATE =
      surfactant("sarcosinate", "Sarcosinate", ChargeClass.ANIONIC, 30);

  /** 3.5 + 2.7 + 1.2 = 7.4 % active, 0.45 % salt, 76.55 % water to weigh. */
  private static final Blend WASH =
      Blend.named("wash")
          .line(DECYL, 7)
          .line(BETAINE, 9)
          .line(SARCOSINATE, 4)
          .line(GLYCERIN, 3.45)
          .upToHundredWith(WATER);

  private static Material surfactant(
      String id, String inci, ChargeClass c, double active, Constituent... others) {
    Material.Builder b =
        Material.builder(id)
            .inciName(inci)
            .strongIonEqPerKg(Range.ZERO)
            .constituent(
                Constituent.active(inci, Range.exactly(active), c, OptionalDouble.of(350)));
    for (Constituent o : others) {
      b.constituent(o);
    }
    return b.build();
  }

  private static Constituent holds(String inci, double percent) {
    return Constituent.other(inci, Range.exactly(percent));
  }

  private static SwapReport swapped(Blend blend, String id, Material lot) {
    return SupplierSwap.in(blend).replace(id).with(lot).report();
  }

  private static SwapFigure figure(SwapReport report, String name) {
    return report.figure(name).orElseThrow();
  }

  private static void refused(String message, Executable call) {
    assertEquals(message, assertThrows(IllegalArgumentException.class, call).getMessage());
  }

  /** 9 x 30 / 36 = 7.5 % of the stronger lot; water takes the 1.5 %. */
  @Test
  void everyFigureOfASwap() {
    SwapReport report = swapped(WASH, "betaine", STRONGER);
    assertEquals(
        List.of(
            "total active 7.400 -> 7.400 % active, held",
            "anionic active 1.200 -> 1.200 % active, held",
            "amphoteric active 2.700 -> 2.700 % active, held",
            "nonionic active 3.500 -> 3.500 % active, held",
            "Decyl Glucoside 3.500 -> 3.500 % active, held",
            "Betaine 2.700 -> 2.700 % active, held",
            "Sarcosinate 1.200 -> 1.200 % active, held",
            "water to weigh 76.550 -> 78.050 % as supplied, moved",
            // 100 less 7.4 active, 3.45 glycerin, 0.45 salt; 0.225 glycerin more after.
            "water from all sources 88.700 -> 88.475 % m/m, moved",
            "sodium chloride 0.4500 -> 0.4500 % m/m, held",
            "carried Glycerin 3.4500 -> 3.6750 % m/m, moved",
            // 12 g of anionic matter of 350 g/mol in a kilogram.
            "anionic to amphoteric, moles 0.444 -> 0.444, held"),
        report.figures().stream()
            .filter(f -> !f.name().contains(" pH"))
            .map(SwapFigure::toString)
            .toList());
    assertTrue(report.holdsEverything());
    assertTrue(report.obstacle().isEmpty());
    assertEquals(List.of(), report.newOnLabel());
    assertEquals(List.of(), report.offLabel());
    assertFalse(report.noChangeNeeded());
    // 9 % of 36 % instead of 30: 0.54 of 7.4 % more.
    assertEquals(100 * 0.54 / 7.4, report.gramForGramErrorPercent(), 1e-9);
    assertEquals(5, report.neverHeld().size());
  }

  @Test
  void theReportInWords() {
    SwapReport report = swapped(WASH, "betaine", STRONGER);
    String text = report.summary();
    assertEquals(text, report.toString());
    assertTrue(text.startsWith("Swap in wash\n  betaine -> stronger\n\n"), text);
    Says.lines(
        text,
        "  betaine                                              9.000      0.000",
        "  stronger                                             0.000      7.500",
        "  glycerin                                             3.450      3.450",
        "  water                                               76.550     78.050",
        "  total active                               7.400     7.400  held",
        "  carried Glycerin                          3.4500    3.6750  moved",
        "  With the old weights the total active would be 7.940 %, off by 7.30 %.");
    assertTrue(text.contains("  net anionic charge at pH 5.5, mmol/kg "), text);
    report.neverHeld().forEach(n -> assertTrue(text.contains("    " + n + "\n"), n));
    assertFalse(text.contains("label"), text);
    assertFalse(text.contains("No change needed"), text);
  }

  @Test
  void theLabelChangesWithWhatALotBrings() {
    Material other =
        surfactant("other", "Betaine", ChargeClass.AMPHOTERIC, 30, holds("Phenoxyethanol", 1));
    SwapReport report = swapped(WASH, "betaine", other);
    assertEquals(List.of("Phenoxyethanol"), report.newOnLabel());
    assertEquals(List.of("Sodium Chloride"), report.offLabel());
    assertTrue(report.summary().contains("  New on the label: Phenoxyethanol\n"));
    assertTrue(report.summary().contains("  Off the label: Sodium Chloride\n"));
    // The active matter is as before, the list of ingredients is not.
    assertFalse(report.noChangeNeeded());
    assertEquals(Verdict.OUTSIDE_TOLERANCE, figure(report, "sodium chloride").verdict());
    assertEquals(
        "carried Phenoxyethanol 0.0000 -> 0.0900 % m/m, moved",
        figure(report, "carried Phenoxyethanol").toString());
  }

  /** The threshold is 2 % of the active; decyl glucoside is 3.5 of 7.4 %. */
  @Test
  void smallMovesNeedNoChange() {
    Material two = surfactant("decyl", "Decyl Glucoside", ChargeClass.NONIONIC, 52);
    // 4 % of 47.3 % is 1.89 %.
    SwapReport report = swapped(WASH, "decyl", two);
    assertTrue(report.noChangeNeeded());
    assertTrue(report.summary().contains("No change needed: weigh as before and note the lot."));
    Material three = surfactant("decyl", "Decyl Glucoside", ChargeClass.NONIONIC, 52.2);
    assertFalse(swapped(WASH, "decyl", three).noChangeNeeded());
    // 1.89 % from one and 0.24 % from the other are too much together.
    Material one =
        surfactant("betaine", "Betaine", ChargeClass.AMPHOTERIC, 29.8, holds("Sodium Chloride", 5));
    assertTrue(swapped(WASH, "betaine", one).noChangeNeeded());
    assertFalse(
        SupplierSwap.in(WASH)
            .replace("decyl")
            .with(two)
            .replace("betaine")
            .with(one)
            .report()
            .noChangeNeeded());
    // 9 % of a lot with 0.6 points more salt: 0.054 points.
    Material salty =
        surfactant("betaine", "Betaine", ChargeClass.AMPHOTERIC, 30, holds("Sodium Chloride", 5.6));
    assertFalse(swapped(WASH, "betaine", salty).noChangeNeeded());
    // A humectant has no active matter to judge by.
    assertFalse(swapped(WASH, "glycerin", GLYCERIN).noChangeNeeded());
  }

  @Test
  void moneyBeforeAndAfter() {
    PriceList prices =
        PriceList.of(
            "cu",
            Map.of(
                "decyl", 5.0, "betaine", 2.0, "sarcosinate", 3.0, "glycerin", 1.0, "water", 0.1));
    SwapReport report =
        SupplierSwap.in(WASH).priced(prices).replace("betaine").with(STRONGER, 2.2).report();
    // 0.35 + 0.18 + 0.12 + 0.0345 + 0.07655, then 7.5 % at 2.2 and 78.05 % of water.
    double before = 0.76105;
    double after = 0.35 + 0.165 + 0.12 + 0.0345 + 0.07805;
    assertEquals("cu per kg", figure(report, "cost").unit());
    assertEquals(before, figure(report, "cost").before(), 1e-12);
    assertEquals(after, figure(report, "cost").after(), 1e-12);
    SwapFigure active = figure(report, "cost of the active");
    assertEquals(before / 0.074, active.before(), 1e-9);
    assertEquals(after / 0.074, active.after(), 1e-9);
    assertEquals("cu per kg active", active.unit());
    SwapReport unpriced =
        SupplierSwap.in(WASH).priced(prices).replace("betaine").with(STRONGER).report();
    assertTrue(unpriced.figure("cost").isEmpty());
    assertTrue(unpriced.figure("cost of the active").isEmpty());
    Blend plain = Blend.named("plain").line(GLYCERIN, 10).upToHundredWith(WATER);
    SwapReport none =
        SupplierSwap.in(plain).priced(prices).replace("glycerin").with(GLYCERIN).report();
    assertEquals(0.1 + 0.09, figure(none, "cost").after(), 1e-12);
    assertTrue(none.figure("cost of the active").isEmpty());
    assertEquals(0, none.gramForGramErrorPercent());
  }

  @Test
  void verdictsByTheDigitsThatAreShown() {
    assertEquals(Verdict.HELD, SwapFigure.of("x", "", 3, 10, 10.0004, 1).verdict());
    assertEquals(Verdict.MOVED, SwapFigure.of("x", "", 3, 10, 10.0006, 1).verdict());
    // Never blind to more than half of the tolerance.
    assertEquals(Verdict.HELD, SwapFigure.of("x", "", 3, 10, 10.00009, 0.0002).verdict());
    assertEquals(Verdict.MOVED, SwapFigure.of("x", "", 3, 10, 9.99985, 0.0002).verdict());
    assertEquals(Verdict.OUTSIDE_TOLERANCE, SwapFigure.of("x", "", 3, 10, 10.0003, 2e-4).verdict());
    // The tolerance itself is allowed.
    assertEquals(Verdict.MOVED, SwapFigure.of("x", "", 3, 10, 11, 1).verdict());
    assertEquals(Verdict.OUTSIDE_TOLERANCE, SwapFigure.of("x", "", 3, 10, 11.001, 1).verdict());
    // Rounding of large numbers is no change.
    assertEquals(Verdict.HELD, SwapFigure.of("x", "", 8, 1e6, 1e6 + 5e-5, 1e-9).verdict());
    assertEquals("x 10.00 -> 11.00, moved", SwapFigure.of("x", "", 2, 10, 11, 1).toString());
    assertEquals(-0.5, SwapFigure.of("x", "", 2, 10, 9.5, 1).change());
  }

  @Test
  void tolerancesAreTheShopsOwn() {
    Material lot =
        surfactant("lot", "Betaine", ChargeClass.AMPHOTERIC, 30, holds("Sodium Chloride", 6));
    SupplierSwap swap = SupplierSwap.in(WASH).replace("betaine").with(lot);
    assertEquals(Verdict.OUTSIDE_TOLERANCE, figure(swap.report(), "sodium chloride").verdict());
    SwapReport wide = swap.judgedBy(new SwapTolerances(1, 0.1, 0.3, 2, 0.05)).report();
    assertEquals(Verdict.MOVED, figure(wide, "sodium chloride").verdict());
    // 2 % of 7.4 % active may be missing.
    Material limited = STRONGER.toBuilder().maxUsePercent(7.1).build();
    SwapReport less =
        SupplierSwap.in(WASH)
            .replace("betaine")
            .with(limited)
            .judgedBy(new SwapTolerances(2, 0.1, 0.3, 2, 0.05))
            .report();
    assertEquals(0.148, figure(less, "total active").tolerance(), 1e-9);
    // 0.144 points are.
    assertEquals(7.256, figure(less, "total active").after(), 1e-9);
    assertEquals(Verdict.MOVED, figure(less, "total active").verdict());
    assertEquals(Verdict.OUTSIDE_TOLERANCE, figure(less, "Betaine").verdict());
  }

  @Test
  void aGreatestUseStandsInTheWay() {
    Material limited = STRONGER.toBuilder().id("limited").maxUsePercent(7).build();
    SwapReport report = swapped(WASH, "betaine", limited);
    assertEquals(
        "limited would be 7.500 % as supplied, above its greatest use of 7 %",
        report.obstacle().orElseThrow());
    assertFalse(report.holdsEverything());
    assertEquals(1, report.gaveWay().size());
    assertEquals(7, report.after().asSupplied("limited").value(), 1e-9);
    assertEquals(7, report.after().asSupplied("decyl").value(), 1e-9);
    assertEquals(78.55, report.after().asSupplied("water").value(), 1e-9);
    assertTrue(
        report
            .summary()
            .contains("  Gave way: active of limited, wanted 2.700, nearest 2.520 % m/m\n"),
        report.summary());
    // Just enough is no obstacle.
    Material enough = STRONGER.toBuilder().maxUsePercent(7.5).build();
    assertTrue(swapped(WASH, "betaine", enough).obstacle().isEmpty());
    // Half of a mix is 9 x 30 / 33 / 2 = 4.091 %.
    Material small = STRONGER.toBuilder().id("small").maxUsePercent(4).build();
    SupplierSwap mixed =
        SupplierSwap.in(WASH)
            .replace("betaine")
            .with(LotMix.of(BETAINE, Mass.grams(50), small, Mass.grams(50)));
    assertEquals(
        "small would be 4.091 % as supplied, above its greatest use of 4 %",
        mixed.report().obstacle().orElseThrow());
    // Other proportions of the two lots still hold everything.
    assertTrue(mixed.report().holdsEverything());
    assertEquals(2.7, mixed.report().after().active(ChargeClass.AMPHOTERIC).value(), 1e-9);
  }

  @Test
  void anotherStrengthOfAHumectant() {
    Material weak =
        Material.builder("glycerin-86")
            .inciName("GLYCERIN")
            .constituent(holds("Glycerin", 86.25))
            .build();
    SwapReport report = swapped(WASH, "glycerin", weak);
    assertEquals(4, report.after().asSupplied("glycerin-86").value(), 1e-9);
    assertEquals(3.45, report.after().percentOf("Glycerin").typical(), 1e-9);
    Material limited = weak.toBuilder().maxUsePercent(2).build();
    SwapReport less = swapped(WASH, "glycerin", limited);
    assertEquals("content of glycerin-86", less.gaveWay().get(0).held().name());
    assertEquals(2 * 0.8625, less.gaveWay().get(0).percent(), 1e-9);
    refused(
        "replacement of glycerin was betaine, allowed is another grade of Glycerin",
        () -> SupplierSwap.in(WASH).replace("glycerin").with(BETAINE));
    refused(
        "replacement of glycerin was phenoxyethanol, allowed is another grade of Glycerin",
        () ->
            SupplierSwap.in(WASH)
                .replace("glycerin")
                .with(RandomBlends.pure("phenoxyethanol", "Phenoxyethanol")));
  }

  @Test
  void whatElseIsHeldIsHeldFromAllSources() {
    SwapReport report =
        SupplierSwap.in(WASH)
            .replace("betaine")
            .with(STRONGER)
            .holding("Glycerin", "glycerin")
            .report();
    assertEquals(3.45 - 0.225, report.after().asSupplied("glycerin").value(), 1e-9);
    Material limited = STRONGER.toBuilder().maxUsePercent(7).build();
    SwapReport less =
        SupplierSwap.in(WASH)
            .replace("betaine")
            .with(limited)
            .holding("Glycerin", "glycerin")
            .report();
    assertEquals(3.45 - 0.21, less.after().asSupplied("glycerin").value(), 1e-9);
    assertEquals(
        List.of("active of stronger"), less.gaveWay().stream().map(r -> r.held().name()).toList());
    refused(
        "material was 'none', allowed is a line of wash",
        () -> SupplierSwap.in(WASH).holding("Glycerin", "none"));
    refused(
        "material was 'none', allowed is a line of wash",
        () -> SupplierSwap.in(WASH).replace("none"));
    refused(
        "blend dry had no line of water, allowed is one that has",
        () -> SupplierSwap.in(Blend.named("dry").line(DECYL, 100).build()));
  }

  /** The dose in place of water takes the blend to the target. */
  @Test
  void theAcidDoseReachesItsTarget() {
    Blend blend =
        Blend.named("with acid")
            .line(Shop.DECYL, 9)
            .line(Shop.SULF, 12)
            .line(Shop.BETA, 10)
            .line(Shop.CITRIC, 1)
            .upToHundredWith(Shop.WATER);
    Material lot = Shop.SULF.toBuilder().lot("new").build();
    for (double target : new double[] {4.8, 5.5, 6.5}) {
      SwapReport report =
          SupplierSwap.in(blend)
              .replace("sulf")
              .with(lot)
              .correctedWith(Shop.CITRIC, target)
              .report();
      double dose = figure(report, "acid dose").before();
      Blend.Builder dosed = Blend.named("dosed");
      Blend.Builder bare = Blend.named("bare");
      for (BlendLine l : blend.lines()) {
        if (l.material() != Shop.CITRIC && l.material() != Shop.WATER) {
          dosed.line(l.material(), l.amount().value());
          bare.line(l.material(), l.amount().value());
        }
      }
      Blend withDose = dosed.line(Shop.CITRIC, dose).upToHundredWith(Shop.WATER);
      assertEquals(target, StartingPh.of(withDose).typical(), 1e-5);
      assertEquals(dose, figure(report, "acid dose").after(), 1e-9);
      Blend withoutAcid = bare.upToHundredWith(Shop.WATER);
      String needs = "acid dose is all the citric that pH " + target + " needs";
      assertEquals(
          needs
              + ", the line of it above included; the swap leaves that line as it was, so put the"
              + " dose in its place; the starting pH above is that without this line",
          report.notes().get(0));
      assertTrue(report.summary().contains("Note: " + needs), report.summary());
      assertEquals(
          needs + "; no line above has it, so it takes the place of water",
          SupplierSwap.in(withoutAcid)
              .replace("sulf")
              .with(lot)
              .correctedWith(Shop.CITRIC, target)
              .report()
              .notes()
              .get(0));
      // The starting pH is that before the acid.
      double start = StartingPh.of(withoutAcid).typical();
      assertEquals(start, figure(report, "starting pH").before(), 1e-9);
      assertEquals(start, report.startingPhBefore().typical(), 1e-9);
      assertEquals(start, report.startingPhAfter().typical(), 1e-9);
      // 12 % of a lot with 27 % of 384 g/mol, less the little charge of the betaine.
      double sulfate = 0.12 * 0.27 / 384 * 1e6;
      SwapFigure net = figure(report, "net anionic charge at pH " + target);
      assertTrue(net.before() < sulfate && net.before() > sulfate - 0.5, net.toString());
      assertEquals("mmol/kg", net.unit());
    }
    // What is no acid at the target has no dose.
    SwapReport none =
        SupplierSwap.in(blend).replace("sulf").with(lot).correctedWith(Shop.DECYL, 5.5).report();
    assertTrue(none.figure("acid dose").isEmpty());
    assertEquals(none.startingPhAfter().caveats(), none.notes());
  }

  @Test
  void differencesAreSaid() {
    SwapReport one = swapped(WASH, "betaine", STRONGER);
    SwapReport two = swapped(WASH, "betaine", BETAINE);
    List<String> all = one.differencesFrom(two).stream().map(FigureDifference::toString).toList();
    assertTrue(all.contains("amount of stronger 7.5 | - % as supplied"), all.toString());
    assertTrue(all.contains("amount of betaine - | 9 % as supplied"), all.toString());
    assertTrue(all.contains("water to weigh 78.05 | 76.55 % as supplied"), all.toString());
    assertEquals(
        "ratio 0.5 | -",
        new FigureDifference("ratio", "", OptionalDouble.of(0.5), OptionalDouble.empty())
            .toString());
  }

  @Test
  void mixesSayWhatTheyAreMadeOf() {
    assertEquals("betaine", LotMix.of(BETAINE).toString());
    LotMix mix = LotMix.of(BETAINE, Mass.grams(300), STRONGER, Mass.grams(100));
    assertEquals("75.0 % betaine + 25.0 % stronger", mix.toString());
    assertEquals(31.5, mix.activePercent().typical(), 1e-12);
    assertEquals(0.75, mix.percentOf("Glycerin").typical(), 1e-12);
  }

  @Test
  void theLargestBatchInWords() {
    Stock few = new Stock(BETAINE, Mass.grams(450));
    Stock more = new Stock(STRONGER.toBuilder().id("betaine").lot("2").build(), Mass.grams(1000));
    Stock decyl = new Stock(DECYL, Mass.grams(350));
    Stock spare = new Stock(DECYL.toBuilder().lot("3").build(), Mass.grams(0));
    // 350 g at 7 % are 5000 g; they take 450 g of the betaine line.
    LargestBatch b = LargestBatch.of(WASH, List.of(few, more, decyl, spare));
    assertEquals(5000, b.mass().inGrams(), 1e-9);
    assertEquals(
        "Largest batch of wash: 5000 g, limited by decyl\n"
            + "  betaine                                      450.0 g, left 0.0 g\n"
            + "  betaine lot 2                                  0.0 g, left 1000.0 g\n"
            + "  decyl                                        350.0 g, left 0.0 g\n"
            + "  decyl lot 3                                    0.0 g, left 0.0 g\n",
        b.toString());
    assertEquals(
        List.of("betaine", "decyl", "sarcosinate", "glycerin", "water"),
        b.blend(WATER).lines().stream().map(l -> l.material().toString()).toList());
    assertEquals(9, b.blend(WATER).asSupplied("betaine").value(), 1e-9);
    refused(
        "stock was of none of the lines, allowed is a stock of at least one line of wash",
        () -> LargestBatch.of(WASH, List.of(new Stock(Shop.SULF, Mass.grams(1)))));
  }

  @Test
  void waterRunsOutBesideLinesThatAreNotInStock() {
    Blend paste = Blend.named("paste").line(BETAINE, 60).line(GLYCERIN, 30).upToHundredWith(WATER);
    Material weak = surfactant("betaine", "Betaine", ChargeClass.AMPHOTERIC, 20);
    // 600 g of 30 % and y of 20 %: 600 + y + 0.3 M = M and 180 + 0.2 y = 0.18 M.
    LargestBatch b =
        LargestBatch.of(
            paste, List.of(new Stock(BETAINE, Mass.grams(600)), new Stock(weak, Mass.grams(5000))));
    assertEquals(1500, b.mass().inGrams(), 1e-6);
    assertEquals("water: the lots are too weak for more", b.limitedBy());
    assertEquals(List.of("glycerin"), b.notCounted());
    assertEquals(0, b.blend(WATER).asSupplied("water").value(), 1e-9);
  }

  @Test
  void waterRunsOutWithTheThirdLot() {
    Blend paste = Blend.named("paste").line(BETAINE, 90).upToHundredWith(WATER);
    Material second = surfactant("betaine", "Betaine", ChargeClass.AMPHOTERIC, 28);
    Material third = surfactant("betaine", "Betaine", ChargeClass.AMPHOTERIC, 20);
    // 1800 + y = M and 270 + 252 + 0.2 y = 0.27 M.
    double y = (522 - 0.27 * 1800) / 0.07;
    LargestBatch b =
        LargestBatch.of(
            paste,
            List.of(
                new Stock(BETAINE, Mass.grams(900)),
                new Stock(second, Mass.grams(900)),
                new Stock(third, Mass.grams(5000))));
    assertEquals(1800 + y, b.mass().inGrams(), 1e-6);
    assertEquals(27, b.blend(WATER).totalActive().value(), 1e-9);
  }

  @Test
  void aRecipeSaysItsContents() {
    ContentRecipe r = ContentRecipe.of(WASH);
    assertEquals("wash", r.name());
    assertEquals(
        "wash [Decyl Glucoside 3.5 %, Betaine 2.7 %, Sodium Chloride 0.45 %, Sarcosinate 1.2 %,"
            + " Glycerin 3.45 %]",
        r.toString());
    assertEquals(2.7, r.active(ChargeClass.AMPHOTERIC).typical(), 1e-12);
    assertEquals(0, r.active(ChargeClass.CATIONIC).typical());
    assertEquals(ChargeClass.ANIONIC, r.content("sarcosinate").orElseThrow().classOrNull());
    // Two sources of glycerin, one of them its own line: still wanted, and added up.
    ContentRecipe two =
        ContentRecipe.of(
            Blend.named("two").line(STRONGER, 10).line(GLYCERIN, 3).upToHundredWith(WATER));
    assertEquals(3.3, two.content("Glycerin").orElseThrow().percent().typical(), 1e-12);
    assertTrue(two.content("Glycerin").orElseThrow().wanted());
    assertFalse(two.content("Sodium Chloride").orElseThrow().wanted());
    // Two grades of the same surfactant keep their class.
    ContentRecipe grades =
        ContentRecipe.of(
            Blend.named("g").line(BETAINE, 10).line(STRONGER, 10).upToHundredWith(WATER));
    assertEquals(6.6, grades.active(ChargeClass.AMPHOTERIC).typical(), 1e-12);
  }

  @Test
  void aRecipeFromAPage() {
    Map<String, Double> page = new LinkedHashMap<>();
    page.put("Betaine", 10.0);
    page.put("Honey", 2.0);
    page.put("Aqua", 88.0);
    ContentRecipe r =
        ContentRecipe.withoutGrades("page", page, MaterialTable.of(List.of(BETAINE, STRONGER)));
    assertEquals(
        List.of(
            "Betaine: 2 grades, 30..30..36 %; reckoned with betaine",
            "Honey: not in the table, taken as 100 % pure"),
        r.assumptions());
    assertEquals(2, r.content("Honey").orElseThrow().percent().typical());
    assertTrue(r.content("Honey").orElseThrow().wanted());
    assertTrue(r.content("Betaine").orElseThrow().wanted());
    // Some grades bring glycerin, so it may be there.
    RecipeContent glycerin = r.content("Glycerin").orElseThrow();
    assertEquals(0, glycerin.percent().low());
    assertEquals(0, glycerin.percent().typical());
    assertEquals(0.3, glycerin.percent().high(), 1e-12);
    assertFalse(glycerin.wanted());
    assertEquals(3.0, r.active(ChargeClass.AMPHOTERIC).low(), 1e-12);
    page.put("Water lily", 12.1);
    assertThrows(
        IllegalArgumentException.class,
        () -> ContentRecipe.withoutGrades("page", page, MaterialTable.of(List.of(BETAINE))));
  }

  @Test
  void aConversionInWords() {
    RecipeConversion c =
        ContentRecipe.of(WASH)
            .toGrades(WATER)
            .using(List.of(DECYL, STRONGER, SARCOSINATE, GLYCERIN))
            .convert();
    String text = c.summary();
    assertEquals(text, c.toString());
    Says.lines(
        text,
        "wash for your grades",
        "  stronger                                            7.500 % as supplied",
        "  glycerin                                            3.225 % as supplied",
        "  total active 7.400 %",
        "  with the weights as written it would be 7.940 %",
        "  Starting pH, viscosity, odour and colour are not held: make a trial first.");
    // 7.5 % with 6 % salt is 0.45 % again.
    assertEquals(List.of(), c.notHeld());
    assertEquals(5, c.contents().size());
    assertTrue(c.contents().stream().allMatch(RecipeConversion.Held::isHeld));
    Map<String, Double> page = new LinkedHashMap<>();
    page.put("Betaine", 10.0);
    RecipeConversion from =
        ContentRecipe.withoutGrades("page", page, MaterialTable.of(List.of(BETAINE, STRONGER)))
            .toGrades(WATER)
            .using(STRONGER)
            .convert();
    assertTrue(
        from.summary().contains("total active 3.000 %, the recipe may mean 3.00 to 3.60 %\n"),
        from.summary());
    assertTrue(
        from.summary().contains("  assumed: Betaine: 2 grades, 30..30..36 %; reckoned with"),
        from.summary());
  }

  private static String remark(RecipeConversion c, String inci) {
    return c.notHeld().stream()
        .filter(h -> h.content().inciName().equals(inci))
        .findFirst()
        .orElseThrow()
        .remark();
  }

  @Test
  void whatCannotBeConvertedIsSaid() {
    // The stronger lot alone brings 0.225 % glycerin, the recipe holds 0.1 %.
    Blend little =
        Blend.named("little").line(BETAINE, 9).line(GLYCERIN, 0.1).upToHundredWith(WATER);
    RecipeConversion c =
        ContentRecipe.of(little).toGrades(WATER).using(List.of(STRONGER, GLYCERIN)).convert();
    assertEquals("glycerin would be -0.125 % as supplied", remark(c, "Glycerin"));
    assertEquals(0, c.blend().asSupplied("glycerin").value(), 1e-9);
    // Too weak: 60 % of 30 % needs 120 % of 15 %.
    Material weak = surfactant("weak", "Betaine", ChargeClass.AMPHOTERIC, 15);
    Blend strong = Blend.named("strong").line(BETAINE, 60).line(DECYL, 10).upToHundredWith(WATER);
    RecipeConversion w =
        ContentRecipe.of(strong).toGrades(WATER).using(List.of(weak, DECYL)).convert();
    assertEquals("water would be -30.000 %", remark(w, "Betaine"));
    // All contents fall short in the same proportion: 120 + 10 % have to fit into 100.
    assertEquals(18 / 1.3, w.blend().percentOf("Betaine").typical(), 1e-5);
    assertEquals(5 / 1.3, w.blend().percentOf("Decyl Glucoside").typical(), 1e-5);
    assertEquals(60 * 0.15 + 5, w.gramForGram().totalActive().value(), 1e-9);
    // What comes along is named.
    Material other =
        surfactant("other", "Betaine", ChargeClass.AMPHOTERIC, 30, holds("Phenoxyethanol", 1));
    RecipeConversion o = ContentRecipe.of(WASH).toGrades(WATER).using(other).convert();
    assertEquals("not in the recipe, comes along with the grades", remark(o, "Phenoxyethanol"));
    assertEquals("carried by raw materials, floats", remark(o, "Sodium Chloride"));
    assertEquals("no grade of it was given", remark(o, "Glycerin"));
    assertEquals(4, o.notHeld().size() - 1);
    assertTrue(
        o.summary().contains("  not held: Phenoxyethanol 0.0000 -> 0.0900 %; not in the recipe"),
        o.summary());
  }

  @Test
  void twoContentsFromOneGrade() {
    Material both =
        Material.builder("both")
            .inciName("Betaine")
            .constituent(
                Constituent.active(
                    "Betaine", Range.exactly(30), ChargeClass.AMPHOTERIC, OptionalDouble.of(350)))
            .constituent(
                Constituent.active(
                    "Sarcosinate", Range.exactly(10), ChargeClass.ANIONIC, OptionalDouble.of(350)))
            .build();
    Material alsoBoth = both.toBuilder().id("also").inciName("Sarcosinate").build();
    RecipeConversion c =
        ContentRecipe.of(WASH).toGrades(WATER).using(List.of(both, alsoBoth)).convert();
    // 2.7 and 1.2 cannot come in the proportion 3 : 1 of both grades.
    assertTrue(
        c.notHeld().stream()
            .anyMatch(h -> h.remark().equals("two contents come from the same grades only")),
        c.summary());
  }

  @Test
  void standInsAreNamed() {
    Material glutamate = surfactant("glutamate", "Glutamate", ChargeClass.ANIONIC, 24);
    RecipeConversion c =
        ContentRecipe.of(WASH)
            .toGrades(WATER)
            .using(List.of(DECYL, BETAINE, GLYCERIN))
            .insteadOf("Sarcosinate", glutamate)
            .convert();
    assertEquals(5, c.blend().asSupplied("glutamate").value(), 1e-9);
    assertTrue(
        c.contents().stream()
            .anyMatch(
                h ->
                    h.isHeld()
                        && h.remark()
                            .equals(
                                "Glutamate stands in: check mole ratio, pH and salt response; the"
                                    + " label changes")));
    assertEquals(List.of(), c.notHeld());
    assertTrue(
        c.summary()
            .replaceAll("\\s+", " ")
            .contains(
                " Sarcosinate: Glutamate stands in: check mole ratio, pH and salt response; the"
                    + " label changes "),
        c.summary());
    refused(
        "stand-in for Sarcosinate was decyl, allowed is a surfactant that is anionic",
        () -> ContentRecipe.of(WASH).toGrades(WATER).insteadOf("Sarcosinate", DECYL));
    refused(
        "stand-in for Glycerin was decyl, allowed is none",
        () -> ContentRecipe.of(WASH).toGrades(WATER).insteadOf("Glycerin", DECYL));
    refused(
        "substance was 'Glutamate', allowed is one of [Decyl Glucoside, Betaine, Sodium Chloride,"
            + " Sarcosinate, Glycerin], or this grade instead of one of them",
        () -> ContentRecipe.of(WASH).toGrades(WATER).using(glutamate));
    refused(
        "substance was 'Sarcosinat', allowed is one of [Decyl Glucoside, Betaine, Sodium Chloride,"
            + " Sarcosinate, Glycerin]",
        () -> ContentRecipe.of(WASH).toGrades(WATER).insteadOf("Sarcosinat", glutamate));
    Material empty =
        Material.builder("empty").inciName("Glycerin").constituent(holds("Honey", 5)).build();
    refused(
        "grade was empty, allowed is one that holds Glycerin",
        () -> ContentRecipe.of(WASH).toGrades(WATER).using(empty));
  }

  @Test
  void anotherSurfactantOfTheClassIsFollowedByName() {
    Material sultaine = surfactant("sultaine", "Sultaine", ChargeClass.AMPHOTERIC, 45);
    SwapReport report = swapped(WASH, "betaine", sultaine);
    assertEquals(6, report.after().asSupplied("sultaine").value(), 1e-9);
    assertEquals(
        "Betaine 2.700 -> 0.000 % active, outside tolerance", figure(report, "Betaine").toString());
    assertEquals(
        "Sultaine 0.000 -> 2.700 % active, outside tolerance",
        figure(report, "Sultaine").toString());
    assertEquals(Verdict.HELD, figure(report, "amphoteric active").verdict());
    assertTrue(report.figure("carried Betaine").isEmpty());
    assertTrue(report.figure("carried Sultaine").isEmpty());
    assertEquals(List.of("Sultaine"), report.newOnLabel());
    assertEquals(List.of("Betaine", "Sodium Chloride"), report.offLabel());
  }
}
