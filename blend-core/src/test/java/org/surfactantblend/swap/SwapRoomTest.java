package org.surfactantblend.swap;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.surfactantblend.Blends;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.CertificateOfAnalysis;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.testing.RandomBlends;

class SwapRoomTest {
  private static final Material WATER = RandomBlends.WATER;
  private static final Material GLYCERIN = RandomBlends.pure("glycerin", "Glycerin");
  private static final Material BENZOATE = RandomBlends.pure("benzoate", "Sodium Benzoate");

  private static Material surfactant(
      String id, String inci, ChargeClass c, Range active, Constituent... others) {
    Material.Builder b =
        Material.builder(id)
            .inciName(inci)
            .strongIonEqPerKg(Range.ZERO)
            .constituent(Constituent.active(inci, active, c, OptionalDouble.of(350)));
    for (Constituent o : others) {
      b.constituent(o);
    }
    return b.build();
  }

  private static Material surfactant(
      String id, String inci, ChargeClass c, double active, Constituent... others) {
    return surfactant(id, inci, c, Range.exactly(active), others);
  }

  private static Constituent holds(String inci, double percent) {
    return Constituent.other(inci, Range.exactly(percent));
  }

  private static final Material DECYL_50 =
      surfactant("decyl-50", "Decyl Glucoside", ChargeClass.NONIONIC, 50);
  private static final Material DECYL_53 =
      surfactant("decyl-53", "Decyl Glucoside", ChargeClass.NONIONIC, 53);
  private static final Material BETAINE_30 =
      surfactant(
          "betaine-30",
          "Cocamidopropyl Betaine",
          ChargeClass.AMPHOTERIC,
          30,
          holds(Constituent.SODIUM_CHLORIDE, 5));
  private static final Material BETAINE_34 =
      surfactant(
          "betaine-34",
          "Cocamidopropyl Betaine",
          ChargeClass.AMPHOTERIC,
          34.5,
          holds(Constituent.SODIUM_CHLORIDE, 5.6),
          holds("Glycerin", 2.5),
          holds("Sodium Benzoate", 0.4));
  private static final Material SARCOSINATE_30 =
      surfactant("sarcosinate-30", "Sodium Lauroyl Sarcosinate", ChargeClass.ANIONIC, 30);
  private static final Material SARCOSINATE_29 =
      surfactant("sarcosinate-29", "Sodium Lauroyl Sarcosinate", ChargeClass.ANIONIC, 29);

  private static final Blend TEACHER =
      Blend.named("Teacher's face wash")
          .line(DECYL_50, 7)
          .line(BETAINE_30, 9)
          .line(SARCOSINATE_30, 4)
          .line(GLYCERIN, 3)
          .line(BENZOATE, 0.45)
          .upToHundredWith(WATER);

  /** A hand-worked conversion between invented grades: 3.5, 2.7 and 1.2 % active. */
  @Test
  void aTeachersRecipeForAFollowersGrades() {
    RecipeConversion c =
        ContentRecipe.of(TEACHER)
            .toGrades(WATER)
            .using(List.of(DECYL_53, BETAINE_34, SARCOSINATE_29, GLYCERIN, BENZOATE))
            .convert();
    assertEquals(6.604, c.blend().asSupplied("decyl-53").value(), 0.0005);
    assertEquals(7.4, c.blend().totalActive().value(), 1e-12);
    assertEquals(3 - 0.1957, c.blend().asSupplied("glycerin").value(), 0.00005);
    assertEquals(0.45 - 0.0313, c.blend().asSupplied("benzoate").value(), 0.00005);
    assertEquals(7.975, c.gramForGram().totalActive().value(), 0.0005);
    assertEquals(
        List.of(Constituent.SODIUM_CHLORIDE),
        c.notHeld().stream().map(h -> h.content().inciName()).toList());
    assertEquals("carried by raw materials, floats", c.notHeld().get(0).remark());
  }

  @Test
  void aMissingGradeAndAStandInAreReported() {
    RecipeConversion c =
        ContentRecipe.of(TEACHER)
            .toGrades(WATER)
            .using(List.of(DECYL_53, GLYCERIN))
            .insteadOf(
                "Sodium Lauroyl Sarcosinate",
                surfactant("glutamate", "Disodium Cocoyl Glutamate", ChargeClass.ANIONIC, 29))
            .convert();
    assertEquals(1.2, c.blend().active(ChargeClass.ANIONIC).value(), 1e-12);
    assertTrue(
        c.notHeld().stream()
            .anyMatch(
                h ->
                    h.content().inciName().equals("Cocamidopropyl Betaine")
                        && h.remark().equals("no grade of it was given")));
    assertThrows(
        IllegalArgumentException.class,
        () ->
            ContentRecipe.of(TEACHER)
                .toGrades(WATER)
                .insteadOf("Sodium Lauroyl Sarcosinate", DECYL_53));
  }

  @Test
  void whatIsNotedOfTheNewMaterialAndWasNotOfTheOldIsTold() {
    Material old = DECYL_50.toBuilder().notes("hazy in the cold").build();
    Material fresh = DECYL_53.toBuilder().notes("gels when thinned; hazy in the cold").build();
    Blend wash = Blend.named("wash").line(old, 10).upToHundredWith(WATER);
    SwapReport report = SupplierSwap.in(wash).replace("decyl-50").with(fresh).report();
    assertEquals("decyl-53: gels when thinned", report.notes().get(0));
    assertTrue(report.summary().contains("  Note: decyl-53: gels when thinned\n"));
    Material lot = old.toBuilder().lot("L7").build();
    SwapReport same = SupplierSwap.in(wash).replace("decyl-50").with(lot).report();
    assertEquals(same.startingPhAfter().caveats(), same.notes());
  }

  @Test
  void aSwapSaysWhatIsReplacedByWhat() {
    SupplierSwap none = SupplierSwap.in(TEACHER);
    assertEquals("swap in " + TEACHER.name() + ": nothing replaced yet", none.toString());
    assertEquals(
        "swap in " + TEACHER.name() + ": decyl-50 -> decyl-53, betaine-30 -> betaine-34",
        none.replace("decyl-50").with(DECYL_53).replace("betaine-30").with(BETAINE_34).toString());
  }

  @Test
  void aRecipeWithoutGradesHasIntervals() {
    MaterialTable table =
        MaterialTable.of(
            List.of(
                surfactant(
                    "decyl-a", "Decyl Glucoside", ChargeClass.NONIONIC, Range.of(50, 52, 55)),
                surfactant(
                    "betaine-a",
                    "Cocamidopropyl Betaine",
                    ChargeClass.AMPHOTERIC,
                    Range.of(29, 30, 31)),
                surfactant(
                    "betaine-b",
                    "Cocamidopropyl Betaine",
                    ChargeClass.AMPHOTERIC,
                    Range.of(35, 36, 37))));
    ContentRecipe r =
        ContentRecipe.withoutGrades(
            "From a page without grades",
            Map.of("Decyl Glucoside", 8.0, "Cocamidopropyl Betaine", 10.0, "Glycerin", 3.0),
            table);
    assertEquals(0.08 * 50 + 0.10 * 29, r.totalActive().low(), 1e-12);
    assertEquals(0.08 * 55 + 0.10 * 37, r.totalActive().high(), 1e-12);
    assertEquals(0.08 * 52 + 0.10 * 30, r.totalActive().typical(), 1e-12);
    assertTrue(
        r.assumptions().stream().anyMatch(a -> a.contains("2 grades, 29..30..37 %")),
        r.assumptions().toString());
  }

  @Test
  void whereWaterRunsOutTheNearestBlendSaysWhatGaveWay() {
    Material weak = surfactant("betaine-20", "Cocamidopropyl Betaine", ChargeClass.AMPHOTERIC, 20);
    Blend concentrate =
        Blend.named("Concentrate").line(BETAINE_30, 60).line(DECYL_50, 35).upToHundredWith(WATER);
    SwapReport report = SupplierSwap.in(concentrate).replace("betaine-30").with(weak).report();
    assertFalse(report.holdsEverything());
    assertEquals("water would be -25.000 % as supplied", report.obstacle().orElseThrow());
    // All that fits beside 35 % of the glucoside is 65 % of the weak lot: 13 instead of 18 %.
    assertEquals(13, report.gaveWay().get(0).percent(), 1e-9);
    assertEquals(18, report.gaveWay().get(0).held().percent(), 1e-9);
    assertEquals(35, report.after().asSupplied("decyl-50").value(), 1e-9);
    assertTrue(report.summary().contains("Plain holding is impossible"));
  }

  @Test
  void twoResultsAreComparedLineByLine() {
    SupplierSwap swap = SupplierSwap.in(TEACHER);
    SwapReport one = swap.replace("betaine-30").with(BETAINE_34).report();
    SwapReport two =
        swap.replace("betaine-30").with(BETAINE_34).holding("Glycerin", "glycerin").report();
    List<String> names = one.differencesFrom(two).stream().map(FigureDifference::name).toList();
    assertTrue(names.contains("amount of glycerin"), names.toString());
    assertTrue(names.contains("water to weigh"), names.toString());
    assertFalse(names.contains("total active"), names.toString());
    assertEquals(List.of(), one.differencesFrom(one));
    assertEquals(3, two.after().percentOf("Glycerin").typical(), 1e-12);
    assertTrue(one.summary().lines().allMatch(l -> l.length() <= 80), one.summary());
  }

  @Test
  void aSmallMoveNeedsNoChange() {
    Material nearly =
        surfactant(
            "betaine-30",
            "Cocamidopropyl Betaine",
            ChargeClass.AMPHOTERIC,
            30.4,
            holds(Constituent.SODIUM_CHLORIDE, 5.1));
    assertTrue(
        SupplierSwap.in(TEACHER).replace("betaine-30").with(nearly).report().noChangeNeeded());
    assertFalse(
        SupplierSwap.in(TEACHER).replace("betaine-30").with(BETAINE_34).report().noChangeNeeded());
  }

  @Test
  void onlyTheSameClassMayTakeThePlace() {
    IllegalArgumentException e =
        assertThrows(
            IllegalArgumentException.class,
            () -> SupplierSwap.in(TEACHER).replace("betaine-30").with(DECYL_50));
    assertEquals(
        "replacement of betaine-30 was decyl-50, allowed is a surfactant that is amphoteric",
        e.getMessage());
  }

  /**
   * Examples of alligation and dilution as in Ansel and Stoklosa, Pharmaceutical Calculations (from
   * memory; the arithmetic is closed form): 95 % and 50 % make 70 % in the proportion 20 : 25; 1800
   * g of a 28 % solution make 5040 g at 10 %.
   */
  @Test
  void alligationAndDilutionOfTheHandbook() {
    Material strong = surfactant("alcohol", "Alcohol", ChargeClass.NONIONIC, 95);
    Material weak = surfactant("alcohol", "Alcohol", ChargeClass.NONIONIC, 50);
    LotMix mix = LotMix.toActive(strong, weak, 70);
    assertEquals(20.0 / 45, mix.parts().get(0), 1e-12);
    assertEquals(25.0 / 45, mix.parts().get(1), 1e-12);

    Material ammonia = surfactant("ammonia", "Ammonia", ChargeClass.NONIONIC, 28);
    Blend tenPercent = Blend.named("ten percent").line(ammonia, 10 / 0.28).upToHundredWith(WATER);
    LargestBatch batch = LargestBatch.of(tenPercent, List.of(new Stock(ammonia, Mass.grams(1800))));
    assertEquals(5040, batch.mass().inGrams(), 1e-9);
    assertThrows(IllegalArgumentException.class, () -> LotMix.toActive(strong, weak, 96));
  }

  @Test
  void theLargestBatchUsesTheOldLotFirst() {
    Material old = BETAINE_30.toBuilder().lot("old").build();
    Material fresh =
        surfactant("betaine-30", "Cocamidopropyl Betaine", ChargeClass.AMPHOTERIC, 32).toBuilder()
            .lot("fresh")
            .build();
    Stock oldStock = new Stock(old, Mass.grams(300));
    Stock freshStock = new Stock(fresh, Mass.grams(2000));
    Stock decyl = new Stock(DECYL_50, Mass.grams(700));
    LargestBatch b = LargestBatch.of(TEACHER, List.of(oldStock, freshStock, decyl));
    assertEquals("decyl-50", b.limitedBy());
    assertEquals(10000, b.mass().inGrams(), 1e-9);
    assertEquals(0, b.leftOf(oldStock).inGrams(), 1e-9);
    // 270 g of active are needed, the old lot brings 90.
    assertEquals(180 / 0.32, b.used().getOrDefault(freshStock, 0.0), 1e-9);
    assertEquals(List.of("sarcosinate-30", "glycerin", "benzoate"), b.notCounted());
    Blend made = b.blend(WATER);
    assertEquals(TEACHER.totalActive().value(), made.totalActive().value(), 1e-12);

    // Weak lots in a concentrate: water runs out before the stock does.
    Blend paste = Blend.named("paste").line(BETAINE_30, 90).upToHundredWith(WATER);
    Material weak = surfactant("betaine-30", "Cocamidopropyl Betaine", ChargeClass.AMPHOTERIC, 20);
    LargestBatch limited =
        LargestBatch.of(
            paste, List.of(new Stock(old, Mass.grams(900)), new Stock(weak, Mass.grams(5000))));
    assertTrue(limited.limitedBy().startsWith("water"));
    // By hand: 900 g of the old lot and y of the weak one fill M: 270 + 0.2 y = 0.27 (900 + y).
    double y = (270 - 0.27 * 900) / 0.07;
    assertEquals(900 + y, limited.mass().inGrams(), 1e-6);
  }

  @Test
  void severalLotsMayComeInTogether() {
    Material old = BETAINE_30.toBuilder().lot("old").build();
    LotMix mix = LotMix.of(old, Mass.grams(300), BETAINE_34, Mass.grams(100));
    SwapReport report = SupplierSwap.in(TEACHER).replace("betaine-30").with(mix).report();
    assertEquals(7.4, report.after().totalActive().value(), 1e-12);
    assertEquals(
        3 * report.after().asSupplied("betaine-34").value(),
        report.after().asSupplied("betaine-30").value(),
        1e-12);
  }

  @Test
  void whatIsDoubtfulInALotIsSaidInTheReport() {
    Material lot =
        CertificateOfAnalysis.ofLot("K-77")
            .activePercent(36)
            .ph(5.1, 10)
            .build()
            .appliedTo(Blends.starterTable().get("cocamidopropyl-betaine-30"))
            .orElseThrow();
    Blend wash =
        Blend.named("wash")
            .line(Blends.starterTable().get("cocamidopropyl-betaine-30"), 15)
            .upToHundredWith(Blends.starterTable().get("water"));
    String text =
        SupplierSwap.in(wash).replace("cocamidopropyl-betaine-30").with(lot).report().summary();
    assertTrue(
        text.contains(
            "  Note: cocamidopropyl-betaine-30: active matter of lot K-77, 36 %, may be its\n"
                + "      dry residue, which counts salt and other solids: ask\n"),
        text);
    assertTrue(text.lines().allMatch(l -> l.length() <= 80), text);
  }
}
