package org.surfactantblend.blend;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.testing.Shop;

class BlendTest {
  private static final Blend WASH =
      Blend.named("wash")
          .line(Shop.DECYL, 8)
          .line(Shop.BETA, 15)
          .line(Shop.GLYCERIN, 3)
          .upToHundredWith(Shop.WATER);

  /** One drum with two actives, salt, glycerin and a preservative. */
  private static final Material BASE =
      Material.builder("base")
          .inciName("Invented base")
          .family(Family.inert("base"))
          .constituent(active("Sulfate", Range.of(19, 20, 21), ChargeClass.ANIONIC, 400))
          .constituent(active("Betaine", Range.of(9, 10, 12), ChargeClass.AMPHOTERIC, 350))
          .constituent(Constituent.other("Sodium Chloride", Range.of(2, 3, 5)))
          .constituent(Constituent.other("Glycerin", Range.exactly(2)))
          .build();

  private static Constituent active(String inci, Range percent, ChargeClass c, double molarMass) {
    return Constituent.active(inci, percent, c, OptionalDouble.of(molarMass));
  }

  @Test
  void totalsComeFromEveryLine() {
    assertEquals(8 * 0.52 + 15 * 0.30, WASH.totalActive().value(), 1e-12);
    assertEquals(8 * 0.50 + 15 * 0.29, WASH.totalActiveRange().low(), 1e-12);
    assertEquals(8 * 0.54 + 15 * 0.315, WASH.totalActiveRange().high(), 1e-12);
    assertEquals(15 * 0.051, WASH.saltPercent().typical(), 1e-12);
    assertEquals(74 + 8 * 0.48 + 15 * 0.649 + 3 * 0.005, WASH.waterPercent(), 1e-12);
  }

  @Test
  void aDrumWithTwoActivesCountsInBothClasses() {
    Blend b = Blend.named("b").line(BASE, 40).upToHundredWith(Shop.WATER);
    assertEquals(12, b.totalActive().value(), 1e-12);
    assertEquals(200.0 / 3, b.share(ChargeClass.ANIONIC).value(), 1e-12);
    assertEquals(100.0 / 3, b.share(ChargeClass.AMPHOTERIC).value(), 1e-12);
    assertEquals(
        40 * 0.1 * 10 / 350 * 1000, b.activeMmolPerKg(ChargeClass.AMPHOTERIC).orElseThrow(), 1e-9);
    // At the ends one class is low and the other high: 19 against 12, and 21 against 9.
    assertEquals(1900.0 / 31, b.shareRange(ChargeClass.ANIONIC).low(), 1e-9);
    assertEquals(2100.0 / 30, b.shareRange(ChargeClass.ANIONIC).high(), 1e-9);
    assertEquals(100, b.shareOfMaterial("base").value(), 1e-12);
  }

  @Test
  void percentOfASubstanceCountsAllSourcesInAnyCase() {
    Blend b = Blend.named("b").line(BASE, 50).line(Shop.GLYCERIN, 2).upToHundredWith(Shop.WATER);
    assertEquals(50 * 0.02 + 2 * 0.995, b.percentOf("glycerin").typical(), 1e-12);
    assertEquals(b.percentOf("Glycerin"), b.percentOf("GLYCERIN"));
    assertEquals(b.waterPercent(), b.percentOf("aqua").typical());
    assertEquals(100, b.inciAmounts().values().stream().mapToDouble(v -> v).sum(), 1e-9);
  }

  @Test
  void inciAmountsAreLargestFirstAndEqualOnesByName() {
    Blend b = Blend.named("b").line(Shop.BENZOATE, 2).line(BASE, 20).upToHundredWith(Shop.WATER);
    assertEquals(
        List.of("Aqua", "Sulfate", "Betaine", "Sodium Benzoate", "Sodium Chloride", "Glycerin"),
        List.copyOf(b.inciAmounts().keySet()));
  }

  @Test
  void costIsEmptyWhenAPriceIsMissing() {
    assertEquals(
        0.08 * 5.4 + 0.15 * 2.3 + 0.03 * 1.6 + 0.74 * 0.04,
        WASH.costPerKg(Shop.prices()).orElseThrow(),
        1e-12);
    assertEquals(
        WASH.costPerKg(Shop.prices()).orElseThrow() / 0.0866,
        WASH.costPerKgActive(Shop.prices()).orElseThrow(),
        1e-9);
    assertTrue(WASH.costPerKg(PriceList.of("cu", Map.of("decyl", 1.0))).isEmpty());
    assertTrue(
        Blend.named("w").upToHundredWith(Shop.WATER).costPerKgActive(Shop.prices()).isEmpty());
  }

  @Test
  void aSecondLineOfAMaterialIsAddedToTheFirst() {
    Blend b = Blend.named("b").line(Shop.BETA, 10).line(Shop.BETA, 5).upToHundredWith(Shop.WATER);
    assertEquals(2, b.lines().size());
    assertEquals(15, b.asSupplied("beta").value(), 1e-12);
    assertEquals(0, b.asSupplied("sulf").value());
    assertTrue(b.line("sulf").isEmpty());
  }

  @Test
  void linesMustAddUpToAHundred() {
    assertEquals(
        "lines of b added up to 105 % m/m as supplied, allowed is at most 100: take 5 off, or divide"
            + " every line by 1.05 to keep their proportions",
        message(
            () ->
                Blend.named("b")
                    .line(Shop.BETA, 60)
                    .line(Shop.SULF, 45)
                    .upToHundredWith(Shop.WATER)));
    assertEquals(
        "lines of b added up to 60 % m/m as supplied, allowed is 100: fill up the 40 that are missing,"
            + " usually with water (upToHundredWith)",
        message(() -> Blend.named("b").line(Shop.BETA, 60).build()));
    assertTrue(
        message(() -> Blend.named("b").line(Shop.BETA, 50).line(Shop.SULF, 50.00001).build())
            .contains("take 0.00001 off"));
    assertEquals(
        "as-supplied percent was -1.0, allowed is 0.0 to 100.0 % m/m as supplied",
        message(() -> Blend.named("b").line(Shop.BETA, -1)));
    assertTrue(
        message(() -> Blend.named("b").line(Shop.BETA, Double.NaN)).startsWith("as-supplied"));
  }

  @Test
  void surfactantsOnlyKeepsTheirAmountsAndFillsWithWater() {
    Blend only = WASH.surfactantsOnly(Shop.WATER);
    assertEquals(List.of("decyl", "beta", "water"), ids(only));
    assertEquals(77, only.asSupplied("water").value(), 1e-12);
    assertEquals(WASH.totalActive(), only.totalActive());
  }

  @Test
  void sharesOfABlendWithoutActiveAreZero() {
    Blend b = Blend.named("w").line(Shop.GLYCERIN, 3).upToHundredWith(Shop.WATER);
    assertEquals(0, b.share(ChargeClass.ANIONIC).value());
    assertEquals(0, b.shareOfMaterial("beta").value());
    assertEquals(Range.ZERO, b.shareRange(ChargeClass.ANIONIC));
    assertEquals(0, b.activeMmolPerKg(ChargeClass.ANIONIC).orElseThrow());
  }

  private static List<String> ids(Blend b) {
    return b.lines().stream().map(l -> l.material().id()).toList();
  }

  private static String message(org.junit.jupiter.api.function.Executable action) {
    return String.valueOf(assertThrows(IllegalArgumentException.class, action).getMessage());
  }
}
