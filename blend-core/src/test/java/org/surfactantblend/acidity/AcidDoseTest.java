package org.surfactantblend.acidity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.testing.RecheckedPh.Balance;
import org.surfactantblend.testing.RecheckedPh.Lot;
import org.surfactantblend.testing.RecheckedPh.Water;
import org.surfactantblend.testing.Shop;

class AcidDoseTest {
  /** A buffered wash whose every lot starts well above 5.5. */
  private static final Blend SOAPY =
      TestTable.blend(
          "Soapy wash",
          "sodium-cocoamphoacetate-32",
          15,
          "decyl-glucoside-52",
          6,
          "sodium-benzoate",
          0.5);

  private static final Blend WASH =
      Blend.named("Wash")
          .line(Shop.BETA, 14.9)
          .line(Shop.DECYL, 8.7)
          .line(Shop.BENZOATE, 0.5)
          .upToHundredWith(Shop.WATER);

  private static AcidDose dose(Blend blend, double target) {
    return AcidDose.of(blend).to(target).forBatch(Mass.grams(400));
  }

  @Test
  void theDoseIsSplitAndTheSplitHasAReason() {
    AcidDose d = dose(SOAPY, 5.5);
    assertEquals(AcidDose.Verdict.DOSE, d.verdict());
    assertTrue(d.firstAddition().inGrams() > 0);
    assertTrue(d.firstAddition().inGrams() <= d.guaranteedGrams().low() + 1e-9);
    assertTrue(d.firstAddition().inGrams() <= 0.8 * d.total().inGrams() + 1e-9);
    assertEquals(d.total().inGrams(), d.firstAddition().inGrams() + d.remainder().inGrams(), 1e-9);
    assertEquals("the least that any lot inside the declared ranges needs", d.reason());
    assertTrue(d.needed().isEmpty());
    Range likely = d.likelyGrams();
    Range every = d.guaranteedGrams();
    assertTrue(every.low() <= likely.low() && likely.high() <= every.high(), d::summary);
    assertTrue(likely.contains(d.total().inGrams()));
  }

  @Test
  void aBlendThatMayBeThereAlreadyIsReadFirst() {
    Blend wide =
        TestTable.blend("wide", "cocamidopropyl-betaine-30", 14.9, "decyl-glucoside-52", 8.7);
    AcidDose d = dose(wide, 5.5);
    assertEquals(0, d.firstAddition().inGrams());
    assertEquals(
        "by the sheets alone this blend may be there already: read the pH first", d.reason());
    AcidDose read = AcidDose.of(wide).to(5.5).startingAt(8.4).forBatch(Mass.grams(400));
    assertEquals(8.4, read.startPh());
    assertTrue(read.firstAddition().inGrams() > 0, "a reading makes a first addition possible");
    assertTrue(read.guaranteedGrams().width() < 0.7 * d.guaranteedGrams().width());
  }

  /** Where every range is a point only the model's constants are left, and four fifths go in. */
  @Test
  void withoutRangesFourFifthsGoInFirst() {
    Blend exact = Blend.named("benzoate").line(Shop.BENZOATE, 1).upToHundredWith(Shop.WATER);
    AcidDose d = dose(exact, 4.5);
    assertEquals(0.8 * d.total().inGrams(), d.firstAddition().inGrams(), 1e-9);
    assertEquals(
        "four fifths of the expected dose, because the model's constants are not exact",
        d.reason());
    assertEquals(0, d.guaranteedGrams().width(), 1e-9);
  }

  @Test
  void everyHiddenLotNeedsADoseInsideTheGuaranteedRange() {
    AcidDose d = dose(SOAPY, 5.5);
    AcidDose down = AcidDose.of(SOAPY).to(5.5).with(Titrant.of(Shop.CITRIC)).forBatch(KILO);
    Water water = Water.at25();
    Random random = new Random(41);
    int likely = 0;
    for (int i = 0; i < 100; i++) {
      Lot.Draw draw = i % 2 == 0 ? Lot.triangular(random) : Lot.ends(random);
      Balance lots = Balance.typical(SOAPY, water).redrawn(SOAPY, draw);
      // At the target the dose is a division; both constants at the ionic strength of the answer.
      double charge = lots.charge(5.5, down.ionicStrength());
      double citric =
          new Balance(water, new double[] {1}, List.of(Lot.typical(Shop.CITRIC, water)))
              .charge(5.5, down.ionicStrength());
      double grams = -charge / citric * 1000;
      assertTrue(
          grams >= down.guaranteedGrams().low() - 1e-6
              && grams <= down.guaranteedGrams().high() + 1e-6,
          grams + " outside\n" + down);
      likely += i % 2 == 0 && down.likelyGrams().contains(grams) ? 1 : 0;
    }
    assertTrue(likely >= 40, "of 50 lots the likely range held " + likely);
    assertTrue(d.total().inGrams() > 0);
  }

  private static final Mass KILO = Mass.kilograms(1);

  @Test
  void aTargetOnTheOtherSideNamesTheTitrantThatIsNeeded() {
    AcidDose up = dose(SOAPY, 11.5);
    assertEquals(AcidDose.Verdict.OTHER_SIDE, up.verdict());
    assertEquals(
        "the target lies above the start: a base is needed, such as sodium hydroxide 10 %",
        up.needed().orElseThrow());
    assertEquals(0, up.total().inGrams());
    assertTrue(up.summary().contains("No dose of this titrant"));
    AcidDose down =
        AcidDose.of(SOAPY).to(5.5).with(Titrant.sodiumHydroxide(10)).forBatch(Mass.grams(400));
    assertEquals(
        "the target lies below the start: an acid is needed, such as citric acid 20 %",
        down.needed().orElseThrow());
  }

  @Test
  void aTitrantThatIsTooWeakSaysSo() {
    AcidDose d = AcidDose.of(SOAPY).to(2).with(Titrant.gluconolactone()).forBatch(KILO);
    assertEquals(AcidDose.Verdict.OUT_OF_REACH, d.verdict());
    assertEquals(
        "gluconolactone is too weak for pH 2.00: take a stronger acid", d.needed().orElseThrow());
  }

  @Test
  void alreadyThereIsADoseOfZero() {
    double start = StartingPh.of(WASH).typical();
    AcidDose d = dose(WASH, start);
    assertEquals(AcidDose.Verdict.ALREADY_THERE, d.verdict());
    assertEquals(0, d.total().inGrams());
    assertEquals(0, d.firstAddition().inGrams());
    assertEquals(0, d.neededMeqPerKg());
    assertTrue(d.summary().contains("It is there already: add nothing."));
    assertEquals(
        AcidDose.Verdict.ALREADY_THERE,
        AcidDose.of(WASH).to(5.5).startingAt(5.5).forBatch(KILO).verdict());
  }

  /** Lines that were weighed with other amounts than the recipe's count as weighed. */
  @Test
  void aFixedLineIsPartOfTheDose() {
    Blend without =
        Blend.named("without")
            .line(Shop.BETA, 14.9)
            .line(Shop.DECYL, 8.7)
            .upToHundredWith(Shop.WATER);
    AcidDose with = AcidDose.of(WASH).to(5).forBatch(KILO);
    AcidDose bare = AcidDose.of(without).to(5).forBatch(KILO);
    // By hand, activities left out: 5 g/kg of benzoate is 34.7 mmol, of which a share of 1/(1 +
    // 10^0.8) takes a proton; with the activity term somewhat less.
    double byHand = 0.5 * 10 / 144.11 / (1 + Math.pow(10, 0.8)) * 1000;
    double found = with.neededMeqPerKg() - bare.neededMeqPerKg();
    assertTrue(found > 0.7 * byHand && found < byHand, found + " against " + byHand);
    assertEquals(found, with.meqPerKgByMaterial().get("benzoate"), 0.1);
    assertTrue(with.summary().contains("most of it goes to"), with::summary);
  }

  @Test
  void aTargetAtWhichALineDoesNotLastIsNoted() {
    Blend soap =
        TestTable.blend("Soap", "potassium-cocoate-38", 20, "cocamidopropyl-betaine-30", 10);
    String note =
        "potassium-cocoate-38: its family, soap, lasts at pH 9.00 to 14.00 and turns to fatty acid"
            + " below; the target is outside";
    assertTrue(dose(soap, 5.5).notes().contains(note), dose(soap, 5.5)::summary);
    assertFalse(dose(soap, 9.0).notes().contains(note), dose(soap, 9.0)::summary);
    Blend ester = TestTable.blend("Ester", "sodium-lauroyl-lactylate-100", 5, "glycerin", 3);
    assertTrue(
        dose(ester, 4).notes().stream()
            .anyMatch(n -> n.endsWith(" lasts at pH 4.50 to 7.00; the target is outside")),
        dose(ester, 4)::summary);
  }

  @Test
  void cautionsAndAssumptionsAreInTheText() {
    AcidDose d = AcidDose.of(SOAPY).to(5.5).with(Titrant.citricAcid(50)).forBatch(KILO);
    String text = d.summary();
    assertTrue(text.contains("Caution: concentrated acid"), text);
    d.assumptions().forEach(a -> assertTrue(flat(text).contains("Assumed: " + a + "."), a));
    d.notes().forEach(n -> assertTrue(flat(text).contains("Note: " + n + "."), n));
    assertTrue(text.endsWith("Measure the pH before you release.\n"));
    text.lines().forEach(l -> assertTrue(l.length() <= 80, l));
    for (String word : List.of("preserved", "safe to", "hypoallergenic", "non-irritating")) {
      assertFalse(text.contains(word));
    }
    assertTrue(
        AcidDose.of(SOAPY)
            .to(5.5)
            .with(Titrant.gluconolactone())
            .forBatch(KILO)
            .summary()
            .contains("then wait 6 hours,"));
  }

  private static String flat(String text) {
    return text.replaceAll("\\s+", " ");
  }

  @Test
  void whatItAddsIsCountedInTheFinishedProduct() {
    AcidDose d = AcidDose.of(SOAPY).to(5.5).with(Titrant.citricAcid(20)).forBatch(KILO);
    double grams = d.total().inGrams();
    assertEquals(
        grams * 0.2 / (1000 + grams) * 100, d.adds().getOrDefault("Citric Acid", 0.0), 1e-9);
    assertEquals(grams * 0.8 / (1000 + grams) * 100, d.adds().getOrDefault("Aqua", 0.0), 1e-9);
  }

  @Test
  void whatItAddsIsTheMassOfTheDoseAndNoMore() {
    for (Titrant titrant :
        List.of(
            Titrant.citricAcid(20),
            Titrant.sodiumHydroxide(10),
            Titrant.potassiumHydroxide(45),
            Titrant.sodiumHydroxide(100))) {
      AcidDose d =
          AcidDose.of(SOAPY)
              .to(titrant.strongChargeEqPerKg() > 0 ? 9.5 : 5.5)
              .with(titrant)
              .startingAt(7.5)
              .forBatch(KILO);
      double grams = d.total().inGrams();
      assertTrue(grams > 0, titrant.name());
      double added = d.adds().values().stream().mapToDouble(p -> p).sum();
      assertEquals(grams / (1000 + grams) * 100, added, 1e-9, titrant.name());
    }
  }

  @Test
  void theTemperatureOfTheTargetCounts() {
    Blend tea = TestTable.blend("tea", "tea-lauryl-sulfate-40", 20, "triethanolamine-99", 1);
    AcidDose cold = AcidDose.of(tea).to(7.5).forBatch(KILO);
    AcidDose warm =
        AcidDose.of(tea).to(7.5).under(Conditions.standard().withTemperature(40)).forBatch(KILO);
    assertTrue(warm.total().inGrams() < 0.95 * cold.total().inGrams(), "amines read lower warm");
  }

  @Test
  void figuresOutOfRangeAreRefused() {
    assertEquals(
        "target pH was 1.5, allowed is 2.0 to 12.0",
        assertThrows(IllegalArgumentException.class, () -> AcidDose.of(WASH).to(1.5)).getMessage());
    assertThrows(IllegalArgumentException.class, () -> AcidDose.of(WASH).to(5.5).startingAt(15));
    assertThrows(
        IllegalArgumentException.class, () -> AcidDose.of(WASH).to(5.5).forBatch(Mass.grams(0)));
    assertThrows(NullPointerException.class, () -> AcidDose.of(null));
  }
}
