package org.surfactantblend.acidity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.surfactantblend.acidity.ByHand.ACETIC;
import static org.surfactantblend.acidity.ByHand.IDEAL;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.SheetPh;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.PhWindow;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Scale;
import org.surfactantblend.testing.Says;
import org.surfactantblend.testing.Shop;

/** Figures of titrants, doses and texts worked out by hand. */
class AcidityByHandTest {
  private static void refused(String message, Executable call) {
    assertEquals(message, assertThrows(IllegalArgumentException.class, call).getMessage());
  }

  private static Titrant.Builder vinegar() {
    return Titrant.named("vinegar")
        .group(ACETIC, 0.8)
        .strongIonEqPerKg(-0.1)
        .waterPercent(95)
        .content("Acetic Acid", 5)
        .caution("smells")
        .remark("weak")
        .minutesToAct(7);
  }

  @Test
  void theChargeOfATitrantIsTheSumOfItsParts() {
    Titrant t = vinegar().build();
    // At pH = pKa half of the acid is dissociated.
    double water = 0.95 * (Math.pow(10, -4.756) - Math.pow(10, 4.756 - 14));
    assertEquals(-0.1 - 0.4 + water, t.chargeEqPerKg(IDEAL, 4.756, 0), 1e-12);
    assertEquals(0.05 + 0.2, t.ionsMolPerKg(IDEAL, 4.756, 0), 1e-12);
  }

  @Test
  void thinningKeepsWhatIsSaid() {
    Titrant t = vinegar().build().thinned(4);
    assertEquals("vinegar, thinned 1 to 4", t.name());
    assertEquals(0.2, t.groups().get(0).molPerKg(), 1e-15);
    assertEquals(-0.025, t.strongChargeEqPerKg(), 1e-15);
    assertEquals(0.9875, t.waterKgPerKg(), 1e-12);
    assertEquals(1.25, t.contents().get("Acetic Acid"), 1e-12);
    assertEquals(List.of("smells"), t.cautions());
    assertEquals(List.of("weak"), t.remarks());
    assertEquals(7, t.minutesToAct());
    assertSame(t, t.thinned(1));
    refused("parts was 0.9, allowed is 1.0 to 1000.0 by mass", () -> t.thinned(0.9));
  }

  @Test
  void titrantsDifferByEveryPart() {
    Titrant t = vinegar().build();
    assertEquals(t, vinegar().build());
    assertEquals(t.hashCode(), vinegar().build().hashCode());
    for (Titrant other :
        List.of(
            vinegar().group(ACETIC, 0.1).build(),
            vinegar().strongIonEqPerKg(-0.2).build(),
            vinegar().waterPercent(94).build(),
            vinegar().content("Acetic Acid", 1).build(),
            vinegar().caution("more").build(),
            vinegar().remark("more").build(),
            vinegar().minutesToAct(8).build())) {
      assertNotEquals(t, other);
    }
    assertNotEquals(t, "vinegar");
    assertNotEquals(t, t.thinned(2));
  }

  @Test
  void titrantsRefuse() {
    refused(
        "titrant water held nothing that moves a pH, allowed is at least one group",
        () -> Titrant.named("water").waterPercent(100).build());
    refused(
        "strong-ion charge was 51.0, allowed is -50.0 to 50.0 eq/kg",
        () -> vinegar().strongIonEqPerKg(51));
    refused("water was 101.0, allowed is 0.0 to 100.0 % m/m", () -> vinegar().waterPercent(101));
    refused(
        "percent of Honey was -1.0, allowed is 0.0 to 100.0 % m/m",
        () -> vinegar().content("Honey", -1));
    refused(
        "time to act was -1.0, allowed is 0.0 to 10000.0 min", () -> vinegar().minutesToAct(-1));
    refused(
        "amount of acetic acid was 61.0, allowed is 0.0 to 60.0 mol/kg",
        () -> vinegar().group(ACETIC, 61));
    for (double strength : new double[] {-1, 101}) {
      assertThrows(IllegalArgumentException.class, () -> Titrant.citricAcid(strength));
      assertThrows(IllegalArgumentException.class, () -> Titrant.lacticAcid(strength));
      assertThrows(IllegalArgumentException.class, () -> Titrant.sodiumHydroxide(strength));
      assertThrows(IllegalArgumentException.class, () -> Titrant.potassiumHydroxide(strength));
      assertThrows(IllegalArgumentException.class, () -> Titrant.triethanolamine(strength));
    }
  }

  /** Molar masses: citric acid 192.124, lactic acid 90.08, triethanolamine 149.19 g/mol. */
  @Test
  void strengthsOfTheNamedOnes() {
    assertEquals(800 / 90.08 * 0.9, Titrant.lacticAcid(80).groups().get(0).molPerKg(), 1e-9);
    assertEquals(499 / 90.08, Titrant.lacticAcid(49.9).groups().get(0).molPerKg(), 1e-9);
    assertEquals(500 / 90.08 * 0.9, Titrant.lacticAcid(50).groups().get(0).molPerKg(), 1e-9);
    assertEquals(0.2, Titrant.lacticAcid(80).waterKgPerKg(), 1e-12);
    assertEquals(80, Titrant.lacticAcid(80).contents().get("Lactic Acid"));
    assertEquals(List.of(), Titrant.lacticAcid(49.9).remarks());
    assertEquals(List.of(), Titrant.lacticAcid(29).cautions());
    assertEquals(1, Titrant.lacticAcid(30).cautions().size());
    assertEquals(List.of(), Titrant.citricAcid(29.9).cautions());
    assertEquals(1, Titrant.citricAcid(30).cautions().size());
    assertEquals(1000 / 178.14, Titrant.gluconolactone().groups().get(0).molPerKg(), 1e-9);
    assertEquals(100, Titrant.gluconolactone().contents().get("Gluconolactone"));
    assertEquals(850 / 149.19, Titrant.triethanolamine(85).groups().get(0).molPerKg(), 1e-9);
    assertEquals(0.15, Titrant.triethanolamine(85).waterKgPerKg(), 1e-12);
    assertEquals(85, Titrant.triethanolamine(85).contents().get("Triethanolamine"));
    assertTrue(Titrant.triethanolamine(85).remarks().get(0).contains("0.02 per degree"));
    // Sodium citrate dihydrate, 294.10 g/mol: three sodium ions, 36.03 g of water.
    Titrant citrate = Titrant.sodiumCitrate();
    assertEquals(3000 / 294.10, citrate.strongChargeEqPerKg(), 1e-9);
    assertEquals(1000 / 294.10, citrate.groups().get(0).molPerKg(), 1e-9);
    assertEquals(36.03 / 294.10, citrate.waterKgPerKg(), 1e-9);
    assertEquals(100 - 3603 / 294.10, citrate.contents().get("Sodium Citrate"), 1e-9);
    assertTrue(citrate.remarks().get(0).startsWith("adds buffer"));
    // The monohydrate, 210.14 g/mol.
    Titrant crystals = Titrant.citricAcidMonohydrate();
    assertEquals(1000 / 210.14, crystals.groups().get(0).molPerKg(), 1e-9);
    assertEquals(18.015 / 210.14, crystals.waterKgPerKg(), 1e-9);
    assertEquals(19212.4 / 210.14, crystals.contents().get("Citric Acid"), 1e-9);
    assertTrue(crystals.remarks().get(0).contains("dissolve them first"));
    assertEquals(10, Titrant.sodiumHydroxide(10).contents().get("Sodium Hydroxide"));
    assertTrue(Titrant.sodiumHydroxide(10).remarks().get(0).contains("carbon dioxide"));
    // Solid hydroxide would make 45 g of water from 100 g.
    assertEquals(18.015 / 40.00, Titrant.sodiumHydroxide(100).waterKgPerKg(), 1e-9);
  }

  @Test
  void readingsInWords() {
    assertEquals("pH 6.50", PhReading.of(6.5).toString());
    assertEquals(
        "pH 6.50 at 30 C in 10 % of product", PhReading.of(6.5).at(30).diluted(10).toString());
    assertTrue(PhReading.of(6.5).isPlain());
    assertTrue(PhReading.of(6.5).at(30).isPlain());
    assertTrue(PhReading.of(6.5).at(20).isPlain());
    assertFalse(PhReading.of(6.5).at(30.1).isPlain());
    assertFalse(PhReading.of(6.5).diluted(99).isPlain());
    refused("reading was 14.1, allowed is 0.0 to 14.0 pH", () -> PhReading.of(14.1));
    refused(
        "temperature of the sample was 61.0, allowed is 0.0 to 60.0 C",
        () -> PhReading.of(7).at(61));
    refused(
        "product in the sample was 0.0, allowed is 0.1 to 100.0 % m/m",
        () -> PhReading.of(7).diluted(0));
  }

  @Test
  void rulesChangeOneAtATime() {
    DosingRules usual = DosingRules.usual();
    Scale scale = Scale.of(0.1, 500);
    assertEquals(new DosingRules(0.1, 0.02, scale, true), usual.on(scale));
    assertEquals(new DosingRules(0.2, 0.02, usual.scale(), true), usual.within(0.2));
    assertEquals(new DosingRules(0.1, 0.05, usual.scale(), true), usual.risking(0.05));
    assertEquals(new DosingRules(0.1, 0.02, usual.scale(), false), usual.knownLots());
    refused("tolerance was 0.01, allowed is 0.02 to 1.0 pH", () -> usual.within(0.01));
    refused("accuracy of the meter was 2.0, allowed is 0.001 to 1.0 pH", () -> Meter.accurateTo(2));
    assertEquals(0.05, Meter.accurateTo(0.05).accuracy());
  }

  @ParameterizedTest
  @EnumSource(NextDose.Action.class)
  void nextDosesInWords(NextDose.Action action) {
    NextDose next =
        new NextDose(
            action,
            Titrant.citricAcid(20),
            Mass.grams(1.25),
            7.1,
            PhWindow.of(7, 7.25),
            6.2,
            PhWindow.of(6, 6.5),
            Range.of(2, 2.5, 3),
            "because",
            List.of("wear gloves"));
    String what =
        switch (action) {
          case DOSE ->
              "Weigh in 1.25 g of citric acid 20 % m/m, stir, wait, read.\n"
                  + "  Expect pH 6.20 (likely 6.00 to 6.50); in all 2.50 g are left (2.00 to 3.00).";
          case READ -> "Read the pH.";
          case READ_AGAIN -> "Read again.";
          case FINISHED -> "Stop here.";
          case OVERSHOT -> "Past the target.";
          case WEAKER_SOLUTION -> "Use a weaker solution.";
          case OTHER_TITRANT -> "Use the opposite kind of titrant.";
          case OUT_OF_REACH -> "This titrant cannot reach the target.";
        };
    assertEquals(
        "Now pH 7.10 (likely 7.00 to 7.25). " + what + "\n  because.\n  Caution: wear gloves.\n",
        next.toString());
  }

  @Test
  void correctionsInWords() {
    Map<String, Double> adds = new LinkedHashMap<>();
    adds.put("Sodium Hydroxide", 0.0123);
    OvershootRepair.Correction c =
        new OvershootRepair.Correction(
            "soda",
            Mass.grams(1.5),
            Range.of(1.2, 1.5, 1.9),
            adds,
            3.25,
            Map.of("Citric Acid", 0.075),
            8.95,
            9.01,
            List.of("wear gloves"));
    assertEquals(
        "soda: 1.500 g (likely 1.200 to 1.900 g); Sodium Hydroxide +0.012 %; sodium or potassium"
            + " +3.25 mmol/kg; Citric Acid too much, stays as its salt: 0.075 %; total active"
            + " 8.950 % instead of 9.010 % Caution: wear gloves.",
        c.toString().strip().replaceAll("\\s+", " "));
    OvershootRepair.Correction plain =
        new OvershootRepair.Correction(
            "product", Mass.grams(2), Range.exactly(2), Map.of(), 0, Map.of(), 9, 9, List.of());
    assertEquals("product: 2.000 g; total active 9.000 % instead of 9.000 %\n", plain.toString());
  }

  @Test
  void contradictionsInWords() {
    SheetContradiction none = new SheetContradiction(7, PhWindow.of(6, 8), List.of());
    assertFalse(none.found());
    assertEquals("start pH 7.00 agrees with the sheets", none.toString());
    SheetContradiction.Explanation high =
        new SheetContradiction.Explanation("decyl", PhWindow.of(11.5, 12), 12.75);
    SheetContradiction.Explanation low =
        new SheetContradiction.Explanation("beta", PhWindow.of(4.5, 5.5), 4);
    assertEquals(0.75, high.outside());
    assertEquals(0.5, low.outside());
    SheetContradiction two = new SheetContradiction(9, PhWindow.of(6, 8), List.of(low, high));
    assertTrue(two.found());
    assertEquals(
        "start pH 9.00 lies outside what the sheets allow (6.00 to 8.00): it contradicts the sheet"
            + " pH of beta, 4.5 to 5.5, whose lot would need 4.00 or more; or that of decyl (it"
            + " would need 12.75)",
        two.toString());
  }

  /** 0.5 % sodium benzoate, 144.11 g/mol, is 0.4237 % benzoic acid, 122.12 g/mol. */
  @Test
  void acidFormByHand() {
    Blend blend =
        Blend.named("kept")
            .line(Shop.BENZOATE, 0.5)
            .line(Shop.GLYCERIN, 3)
            .upToHundredWith(Shop.WATER);
    AcidForm form = AcidForm.of(blend, 4.2, 5.2, IDEAL);
    AcidForm.Share share = form.shares().get(0);
    double total = 0.5 * 122.12 / 144.11;
    assertEquals("benzoic acid", share.name());
    assertEquals(total, share.totalPercent(), 1e-12);
    assertEquals(0.5, share.shareAtFinalPh(), 1e-12);
    assertEquals(1 / 11.0, share.shareAfterDrift(), 1e-12);
    assertEquals(total / 2, share.percentAtFinalPh(), 1e-12);
    assertEquals(total / 11, share.percentAfterDrift(), 1e-12);
    String text = form.summary();
    assertEquals(text, form.toString());
    assertTrue(text.startsWith("Acid form of the weak acids in kept\n"), text);
    assertTrue(
        text.contains("  benzoic acid            0.4237    50.0 % 0.2119 %     9.1 % 0.0385 %\n"),
        text);
    assertFalse(text.contains("none found"), text);
    // Twice as much from two lines; an acid that the list does not know is added by its name.
    Blend two =
        Blend.named("two")
            .line(Shop.BENZOATE, 0.25)
            .line(Shop.BENZOATE.toBuilder().lot("2").build(), 0.25)
            .line(Shop.CITRIC, 1)
            .upToHundredWith(Shop.WATER);
    AcidForm more = AcidForm.of(two, 4.2, 5.2, IDEAL).alsoOf("citric acid", 192.12);
    assertEquals(total, more.shares().get(0).totalPercent(), 1e-12);
    assertEquals(0.2, more.shares().get(1).totalPercent(), 1e-12);
    assertEquals(1, AcidForm.of(two, 4.2, 5.2, IDEAL).shares().size());
    AcidForm none = AcidForm.of(Blend.named("none").upToHundredWith(Shop.WATER), 5, 5.5);
    assertEquals(List.of(), none.shares());
    assertTrue(none.summary().contains("  none found\n"), none.summary());
    refused(
        "molar mass of x was 10.0, allowed is 20.0 to 2000.0 g/mol", () -> form.alsoOf("x", 10));
    refused("final pH was 15.0, allowed is 0.0 to 14.0", () -> AcidForm.of(blend, 15, 5));
    refused("drifted pH was -1.0, allowed is 0.0 to 14.0", () -> AcidForm.of(blend, 5, -1));
  }

  private static Blend alkaline() {
    return Blend.named("wash")
        .line(Shop.DECYL, 8)
        .line(Shop.BETA, 15)
        .line(Shop.GLYCERIN, 3)
        .upToHundredWith(Shop.WATER);
  }

  /** The dose takes the charge of the blend at the target away. */
  @ParameterizedTest
  @CsvSource({"5, 250", "5.5, 1000", "6.5, 1000"})
  void theDoseIsADivision(double target, double grams) {
    AcidDose dose = AcidDose.of(alkaline()).to(target).forBatch(Mass.grams(grams));
    assertEquals(AcidDose.Verdict.DOSE, dose.verdict());
    assertEquals(target, dose.phAfter(dose.total()), 1e-6);
    assertTrue(dose.phAfter(dose.firstAddition()) > target);
    assertEquals(
        dose.total().inGrams(), dose.firstAddition().inGrams() + dose.remainder().inGrams(), 1e-9);
    // What is needed, per kilogram, is what a gram of titrant brings times the grams.
    assertEquals(
        dose.neededMeqPerKg(),
        dose.titrantMeqPerGram() * dose.total().inGrams() / grams * 1000,
        1e-9);
    double sum = dose.meqPerKgByMaterial().values().stream().mapToDouble(x -> x).sum();
    // The dose itself moves the ionic strength a little.
    assertEquals(dose.neededMeqPerKg(), sum, 2e-3 * sum);
    // 20 % m/m in what is added, of a total that grows by it.
    double all = grams + dose.total().inGrams();
    assertEquals(20 * dose.total().inGrams() / all, dose.adds().get("Citric Acid"), 1e-9);
    assertEquals(80 * dose.total().inGrams() / all, dose.adds().get("Aqua"), 1e-9);
    assertTrue(dose.guaranteedGrams().low() <= dose.likelyGrams().low() + 1e-9);
    assertTrue(dose.guaranteedGrams().high() >= dose.likelyGrams().high() - 1e-9);
    assertTrue(dose.likelyGrams().contains(dose.total().inGrams()));
  }

  @Test
  void aDoseInWords() {
    AcidDose dose = AcidDose.of(alkaline()).to(5.5).forBatch(Mass.grams(1000));
    String text = dose.summary();
    assertEquals(text, dose.toString());
    Says.parts(
        text,
        "Dose of citric acid 20 % m/m for 1000 g of wash\n",
        "(predicted), target pH 5.50\n",
        "  then stir and wait,\n",
        "  it adds                  Citric Acid ",
        "most of it goes to ",
        " of "
            + String.format(java.util.Locale.ROOT, "%.2f", dose.neededMeqPerKg())
            + " meq/kg net",
        "Assumed: strong ions worked back from the materials' sheet pH",
        "    " + dose.reason().substring(0, 30),
        "  Measure the pH before you release.");
    assertFalse(text.contains("No dose"), text);
    String read =
        AcidDose.of(alkaline()).to(5.5).startingAt(9).forBatch(Mass.grams(1000)).summary();
    assertTrue(read.contains("  start pH 9.00 (read), target pH 5.50\n"), read);
    assertTrue(read.contains("strong ions set so that the blend reads the measured start"), read);
    String slow =
        AcidDose.of(alkaline())
            .to(5.5)
            .with(Titrant.gluconolactone())
            .forBatch(Mass.grams(1000))
            .summary();
    assertTrue(slow.contains("  then wait 6 hours,\n"), slow);
    AcidDose there = AcidDose.of(alkaline()).to(5.5).startingAt(5.504).forBatch(Mass.grams(10));
    assertEquals(AcidDose.Verdict.ALREADY_THERE, there.verdict());
    assertEquals(0, there.neededMeqPerKg());
    assertTrue(there.needed().isEmpty());
    assertTrue(there.summary().contains("  It is there already: add nothing.\n"), there.summary());
    AcidDose other = AcidDose.of(alkaline()).to(5.5).startingAt(5).forBatch(Mass.grams(10));
    assertEquals(AcidDose.Verdict.OTHER_SIDE, other.verdict());
    assertEquals(
        "the target lies above the start: a base is needed, such as sodium hydroxide 10 %",
        other.needed().orElseThrow());
    AcidDose base =
        AcidDose.of(alkaline())
            .to(5.5)
            .startingAt(9)
            .with(Titrant.sodiumHydroxide(10))
            .forBatch(Mass.grams(10));
    assertEquals(
        "the target lies below the start: an acid is needed, such as citric acid 20 %",
        base.needed().orElseThrow());
    AcidDose weak =
        AcidDose.of(alkaline())
            .to(5.5)
            .with(Titrant.citricAcid(20).thinned(1000))
            .forBatch(Mass.grams(10));
    assertEquals(AcidDose.Verdict.OUT_OF_REACH, weak.verdict());
    assertEquals(
        "citric acid 20 % m/m, thinned 1 to 1000 is too weak for pH 5.50: take a stronger acid",
        weak.needed().orElseThrow());
    AcidDose weakBase =
        AcidDose.of(alkaline())
            .to(11.5)
            .startingAt(8)
            .with(Titrant.sodiumHydroxide(1).thinned(1000))
            .forBatch(Mass.grams(10));
    assertEquals(
        "sodium hydroxide 1 % m/m, thinned 1 to 1000 is too weak for pH 11.50: take a stronger base",
        weakBase.needed().orElseThrow());
    refused("target pH was 1.0, allowed is 2.0 to 12.0", () -> AcidDose.of(alkaline()).to(1));
    refused(
        "measured start pH was 15.0, allowed is 0.0 to 14.0",
        () -> AcidDose.of(alkaline()).to(5).startingAt(15));
  }

  /** A reading twice as large a batch needs twice the dose. */
  @Test
  void theSameLotsScaleByMass() {
    AcidDose dose = AcidDose.of(alkaline()).to(5.5).forBatch(Mass.grams(200));
    Titration trial =
        dose.begin(Meter.accurateTo(0.05))
            .reading(dose.startPh())
            .dosed(dose.total().inGrams() / 2);
    refused(
        "readings of the trial were 0, allowed is at least 1: a trial without readings says nothing"
            + " about a batch",
        () -> ScaleUp.sameLots(dose.begin(Meter.accurateTo(0.05)), Mass.kilograms(5)));
    ScaleUp five = ScaleUp.sameLots(trial, Mass.kilograms(5));
    ScaleUp ten = ScaleUp.sameLots(trial, Mass.kilograms(10));
    assertEquals(2 * five.expected().inGrams(), ten.expected().inGrams(), 1e-6);
    assertEquals(2 * five.firstAddition().inGrams(), ten.firstAddition().inGrams(), 1e-6);
    assertEquals(2 * five.maximum().inGrams(), ten.maximum().inGrams(), 1e-6);
    assertEquals(2 * five.holdBack().inGrams(), ten.holdBack().inGrams(), 1e-6);
    assertEquals(five.expected().inGrams(), five.byTheTrial().inGrams(), 1e-9);
    assertTrue(five.firstAddition().inGrams() <= 0.8 * five.expected().inGrams() + 1e-9);
    assertTrue(five.maximum().inGrams() >= five.likelyGrams().high());
    assertTrue(five.holdBack().inGrams() <= 1250);
    String text = five.summary();
    assertEquals(text, five.toString());
    Says.parts(
        text,
        "From 200 g to 5000 g of wash, same lots: citric acid 20 % m/m to pH 5.50\n",
        "  maximum          ",
        ", beyond it stop and find out why\n",
        "  Assumed: same lots, same percentages, same order of work as in the trial.\n",
        "  Read the pH after every addition; decide by the meter.");
    assertFalse(text.contains("by the trial"), text);
    ScaleUp fresh = ScaleUp.newLots(trial, alkaline(), Mass.kilograms(5));
    assertFalse(fresh.isSameLots());
    AcidDose bySheets = AcidDose.of(alkaline()).to(5.5).forBatch(Mass.kilograms(5));
    assertEquals(bySheets.total().inGrams(), fresh.expected().inGrams(), 1e-9);
    assertEquals(bySheets.guaranteedGrams().high(), fresh.maximum().inGrams(), 1e-9);
    assertTrue(fresh.summary().contains("  by the trial     "), fresh.summary());
    assertTrue(fresh.summary().contains("new lots inside their declared ranges"), fresh.summary());
    // Half as strong a titrant: about twice as much.
    ScaleUp half = five.with(Titrant.citricAcid(10));
    assertEquals(2, half.expected().inGrams() / five.expected().inGrams(), 0.01, half.summary());
  }

  @Test
  void stepsAndFlagsInWords() {
    assertEquals(
        "1.25 g of citric acid 20 % m/m",
        new TitrationStep.Dosed(Titrant.citricAcid(20), 1.25).toString());
    assertEquals("20 g of unacidified product", new TitrationStep.FreshProduct(20).toString());
    assertEquals(
        "drifts", new ReadingFlag(1, ReadingFlag.Kind.DRIFTING, "drifts", false).toString());
  }

  /** The start that was read is where the blend stands without any dose. */
  @Test
  void aMeasuredStartIsWhereTheBlendStands() {
    AcidDose dose = AcidDose.of(alkaline()).to(5.5).startingAt(9).forBatch(Mass.grams(1000));
    assertEquals(9, dose.phAfter(Mass.grams(0)), 1e-6);
    assertEquals(5.5, dose.phAfter(dose.total()), 1e-6);
    AcidDose predicted = AcidDose.of(alkaline()).to(5.5).forBatch(Mass.grams(1000));
    assertEquals(predicted.startPh(), predicted.phAfter(Mass.grams(0)), 1e-6);
    // A lower start leaves less to do; and less is unknown when the start was read.
    assertTrue(dose.total().inGrams() < predicted.total().inGrams());
    assertTrue(dose.likelyGrams().width() < predicted.likelyGrams().width());
  }

  private static void rangesEncloseTheDose(AcidDose dose) {
    double grams = dose.total().inGrams();
    Range likely = dose.likelyGrams();
    Range all = dose.guaranteedGrams();
    String text = dose.summary();
    assertTrue(all.low() <= likely.low() && likely.low() < grams, text);
    assertTrue(grams < likely.high() && likely.high() <= all.high(), text);
    assertTrue(dose.firstAddition().inGrams() <= 0.8 * grams + 1e-9, text);
    assertTrue(dose.firstAddition().inGrams() <= all.low() + 1e-9, text);
  }

  @Test
  void rangesLieAroundTheDose() {
    Blend sour =
        Blend.named("sour").line(Shop.BETA, 20).line(Shop.GLUT, 5).upToHundredWith(Shop.WATER);
    rangesEncloseTheDose(AcidDose.of(alkaline()).to(5.5).forBatch(Mass.grams(500)));
    rangesEncloseTheDose(AcidDose.of(alkaline()).to(5.5).startingAt(8).forBatch(Mass.grams(500)));
    AcidDose.Plan up = AcidDose.of(sour).to(9.5).with(Titrant.sodiumHydroxide(10));
    rangesEncloseTheDose(up.forBatch(Mass.grams(500)));
    rangesEncloseTheDose(up.startingAt(5).forBatch(Mass.grams(500)));
    AcidDose base = up.forBatch(Mass.grams(500));
    assertTrue(base.neededMeqPerKg() < 0, "base is needed");
    assertEquals(9.5, base.phAfter(base.total()), 1e-6);
  }

  @Test
  void aRepairTakesTheSurplusAway() {
    for (AcidDose dose :
        List.of(
            AcidDose.of(alkaline()).to(5.5).forBatch(Mass.grams(400)),
            AcidDose.of(alkaline()).to(5.5).startingAt(9).forBatch(Mass.grams(400)))) {
      OvershootRepair r = dose.overshotWith(Mass.grams(1.5 * dose.total().inGrams()));
      assertEquals(dose.neededMeqPerKg() / 2, r.surplusMeqPerKg(), 1e-3 * dose.neededMeqPerKg());
      assertEquals(200, r.withUnacidified().orElseThrow().mass().inGrams(), 0.5);
    }
  }

  @Test
  void likelyRepairsScaleWithTheTitrant() {
    AcidDose dose = AcidDose.of(alkaline()).to(5.5).forBatch(Mass.grams(400));
    double given = 1.5 * dose.total().inGrams();
    Titration t =
        dose.begin(Meter.accurateTo(0.05))
            .reading(dose.startPh())
            .dosed(given)
            .reading(dose.phAfter(Mass.grams(given)));
    OvershootRepair.Correction strong = t.repair().with(Titrant.sodiumHydroxide(10)).orElseThrow();
    OvershootRepair.Correction weak = t.repair().with(Titrant.sodiumHydroxide(5)).orElseThrow();
    for (OvershootRepair.Correction c : List.of(strong, weak)) {
      Range likely = c.likelyGrams();
      assertTrue(likely.low() > 0, c.toString());
      assertEquals(c.mass().inGrams(), (likely.low() + likely.high()) / 2, 1e-9);
    }
    assertEquals(2, weak.mass().inGrams() / strong.mass().inGrams(), 1e-2);
    assertEquals(
        strong.likelyGrams().width() / strong.mass().inGrams(),
        weak.likelyGrams().width() / weak.mass().inGrams(),
        1e-9);
  }

  /** Mean and deviation of the need follow from the likely range; 2.0537 is the 2 % point. */
  @Test
  void scaleUpKeepsToItsRules() {
    AcidDose dose = AcidDose.of(alkaline()).to(5.5).forBatch(Mass.grams(200));
    Titration rough = dose.begin(Meter.accurateTo(0.1)).reading(dose.startPh());
    Titration fine =
        dose.begin(Meter.accurateTo(0.01))
            .reading(dose.startPh())
            .dosed(dose.total().inGrams())
            .reading(5.5);
    for (Titration trial : List.of(rough, fine)) {
      ScaleUp s = ScaleUp.sameLots(trial, Mass.grams(1000));
      double mean = s.likelyGrams().typical();
      double deviation = (s.likelyGrams().high() - mean) / 1.6448536;
      assertEquals(mean + 2.0537489 * deviation, s.maximum().inGrams(), 1e-5);
      double share = Math.min(1, 2.0537489 * deviation / mean);
      assertEquals(1000 * Math.min(0.25, share), s.holdBack().inGrams(), 1e-3);
      double fourFifths = 0.8 * mean;
      assertTrue(s.firstAddition().inGrams() <= fourFifths + 1e-9);
      assertEquals(
          Math.abs(s.firstAddition().inGrams() - fourFifths) < 1e-9,
          s.summary().contains("four fifths of what the trial needed"),
          s.summary());
      ScaleUp fresh = ScaleUp.newLots(trial, alkaline(), Mass.grams(1000));
      double loose = 1 - fresh.likelyGrams().low() / fresh.likelyGrams().typical();
      assertEquals(1000 * Math.min(0.25, Math.max(0.1, loose)), fresh.holdBack().inGrams(), 1e-6);
    }
  }

  /** Without amines the shift may be wrong by 0.3 of itself, and 0.05 at least. */
  @Test
  void aWarmReadingIsWorthLess() {
    Blend plain = Blend.named("plain").line(Shop.GLUT, 20).upToHundredWith(Shop.WATER);
    for (PhReading r : List.of(PhReading.of(6).at(40), PhReading.of(6).diluted(10))) {
      ComparablePh c = ComparablePh.of(plain, r);
      double half = 0.05 + 0.3 * Math.abs(c.ph() - 6);
      assertEquals(c.ph() - half, c.likely().low(), 1e-9);
      assertEquals(c.ph() + half, c.likely().high(), 1e-9);
      assertTrue(c.advice().get(0).startsWith("worth "), c.toString());
    }
    ComparablePh same = ComparablePh.of(plain, PhReading.of(6));
    assertEquals(6, same.ph(), 1e-6);
    assertEquals(0, same.likely().width(), 1e-9);
    assertEquals(List.of(), same.advice());
    // There and back again.
    double there = ComparablePh.inOtherState(plain, 6, 40, 100).ph();
    assertEquals(6, ComparablePh.of(plain, PhReading.of(there).at(40)).ph(), 1e-6);
  }

  @Test
  void aStartingPhInWords() {
    StartingPh ph = StartingPh.of(alkaline());
    String text = ph.summary();
    assertEquals(text, ph.toString());
    Says.parts(
        text,
        "Starting pH of wash\n",
        String.format(java.util.Locale.ROOT, "  at typical figures       %.2f%n", ph.typical()),
        String.format(
            java.util.Locale.ROOT,
            "  guaranteed (every lot)   %.2f to %.2f%n",
            ph.guaranteed().low(),
            ph.guaranteed().high()),
        "  The spread comes mostly from the alkali of decyl.\n",
        "  Note: decyl: alkali worked back from a pH of 11 or more is ill-conditioned",
        "  A prediction from tables. Measure before you correct or release.");
    assertEquals(4, ph.contributions().size());
    // Charges of the lines and of the water's own ions balance at the starting pH.
    double sum = ph.contributions().stream().mapToDouble(StartingPh.Contribution::meqPerKg).sum();
    Conditions k = Conditions.standard();
    double ions = k.h(ph.typical(), ph.ionicStrength()) - k.oh(ph.typical(), ph.ionicStrength());
    assertEquals(0, sum + alkaline().waterPercent() * 10 * ions, 1e-3);
    Blend sour = Blend.named("sour").line(Shop.CITRIC, 5).upToHundredWith(Shop.WATER);
    assertEquals("", StartingPh.of(sour).causeInWords());
    assertFalse(StartingPh.of(sour).summary().contains("The spread comes mostly"));
  }

  @Test
  void aStartingPhOutsideOfItsModelSaysSo() {
    String strong =
        String.join(
            "\n",
            StartingPh.of(Blend.named("salty").line(Shop.BENZOATE, 10).upToHundredWith(Shop.WATER))
                .caveats());
    assertTrue(strong.contains(" mol/kg is above 0.3: the activity term is outside"), strong);
    String paste =
        String.join(
            "\n",
            StartingPh.of(Blend.named("paste").line(Shop.ISET, 90).upToHundredWith(Shop.WATER))
                .caveats());
    assertTrue(paste.contains("less than 30 % water"), paste);
    String usual = String.join("\n", StartingPh.of(alkaline()).caveats());
    assertFalse(usual.contains("0.3") || usual.contains("30 % water"), usual);
  }

  /** The slope of the charge at the starting pH, by two doses. */
  @Test
  void bufferingIsWhatADoseShows() {
    StartingPh ph = StartingPh.of(alkaline());
    AcidDose dose = AcidDose.of(alkaline()).to(ph.typical() - 0.05).forBatch(Mass.grams(1000));
    AcidDose up =
        AcidDose.of(alkaline())
            .to(ph.typical() + 0.05)
            .with(Titrant.sodiumHydroxide(1))
            .forBatch(Mass.grams(1000));
    double perPh = (dose.neededMeqPerKg() - up.neededMeqPerKg()) / 0.1;
    assertEquals(perPh, ph.bufferingMeqPerKgPerPh(), 0.02 * perPh);
  }

  private static AcidBaseGroup acetate(@Nullable Range pKa, Range molPerKg) {
    return new AcidBaseGroup("acetic acid", ACETIC, pKa, molPerKg, false, false);
  }

  /** Water with strong ions and acetic acid, nothing else. */
  private static Material.Builder lye(String id, Range strongIons) {
    return Material.builder(id)
        .inciName("Invented " + id)
        .family(Family.inert(id))
        .strongIonEqPerKg(strongIons);
  }

  private static Material buffered(Range strongIons, AcidBaseGroup group) {
    return lye("buffered", strongIons).group(group).build();
  }

  private static Blend half(Material m) {
    return Blend.named("half").line(m, 50).upToHundredWith(Shop.WATER);
  }

  /** The part of acetic acid that is dissociated. */
  private static double dissociated(double pKa, double ph) {
    return 1 / (1 + Math.pow(10, pKa - ph));
  }

  private static double ions(double ph) {
    return Math.pow(10, -ph) - Math.pow(10, ph - 14);
  }

  /**
   * Half a mole of acetic acid, of which strong ions take up 0.1 to 0.3: its pH follows at once.
   */
  @Test
  void theStartOfABufferAndItsIntervals() {
    Blend b = half(buffered(Range.of(0.1, 0.2, 0.3), acetate(null, Range.exactly(0.5))));
    StartingPh ph = StartingPh.of(b, IDEAL);
    // Henderson and Hasselbalch, but for the hydrogen ions: below 3e-4 of 0.1.
    assertEquals(4.756 + Math.log10(0.2 / 0.3), ph.typical(), 1e-3);
    assertEquals(4.756 + Math.log10(0.1 / 0.4), ph.guaranteed().low(), 1.5e-3);
    assertEquals(4.756 + Math.log10(0.3 / 0.2), ph.guaranteed().high(), 1e-3);
    // The standard deviation of a triangle of 0.1 each way is 0.1 / sqrt(6).
    double off = 1.6449 * 0.1 / Math.sqrt(6);
    assertEquals(4.756 + Math.log10((0.2 - off) / (0.3 + off)), ph.likely().low(), 1.5e-3);
    assertEquals(4.756 + Math.log10((0.2 + off) / (0.3 - off)), ph.likely().high(), 1e-3);
    assertEquals(ph.typical(), StartingPh.of(b, IDEAL).typical());
    assertSame(b, ph.blend());
    StartingPh.Contribution own = ph.contributions().get(0);
    assertEquals(100, own.spreadMeqPerKg(), 1e-9);
    assertEquals(-1000 * ions(ph.typical()), own.meqPerKg(), 1e-6);
    assertEquals(ph.guaranteed().low(), own.swing().low(), 1e-9);
    assertEquals(ph.guaranteed().high(), own.swing().high(), 1e-9);
    StartingPh.Contribution water = ph.contributions().get(1);
    assertEquals(0, water.spreadMeqPerKg());
    assertEquals(0, water.swing().width(), 1e-9);
  }

  @Test
  void theCauseOfASpreadIsAFamily() {
    Material a =
        lye("a", Range.of(0.07, 0.1, 0.13)).family(Family.inert("lyes")).caveat("weak").build();
    Material b =
        lye("b", Range.of(0.06, 0.1, 0.14)).family(Family.inert("lyes")).caveat("weak").build();
    Material c = lye("c", Range.of(0.05, 0.1, 0.15)).build();
    Material d = lye("d", Range.of(-0.2, -0.1, 0)).group(acetate(null, Range.exactly(1))).build();
    Blend.Builder lyes = Blend.named("lyes").line(a, 10).line(b, 10).line(c, 10);
    StartingPh ph = StartingPh.of(lyes.upToHundredWith(Shop.WATER), IDEAL);
    // 6 and 8 meq/kg of one family are more than 10 of another; the larger one is named first.
    assertEquals("the alkali of b and a", ph.causeInWords());
    assertEquals(
        List.of(8.0, 6.0),
        ph.mainCauseOfSpread().stream()
            .map(x -> Math.rint(x.spreadMeqPerKg() * 1e6) / 1e6)
            .toList());
    // 30 meq/kg of alkali in water: pH 14 + log10 of it.
    assertEquals(14 + Math.log10(0.03), ph.typical(), 1e-6);
    assertEquals("a, b: weak", ph.caveats().get(0));
    assertEquals(1, ph.caveats().size());
    Blend sour = Blend.named("sour").line(a, 10).line(d, 20).upToHundredWith(Shop.WATER);
    assertEquals("the acids of d", StartingPh.of(sour, IDEAL).causeInWords());
    assertEquals("", StartingPh.of(half(Shop.CITRIC)).causeInWords());
    assertEquals(List.of(), StartingPh.of(half(Shop.CITRIC)).mainCauseOfSpread());
  }

  @Test
  void whatABlendCanTakeUpBetweenTwoPh() {
    // From pH 6 to 4 a constant of 5 swings most, those of 4 and 6 by as much as each other.
    AcidBaseGroup wide = acetate(Range.of(4, 4.756, 6), Range.of(0.4, 0.5, 0.6));
    BlendCharge charge = BlendCharge.of(half(buffered(Range.ZERO, wide)), IDEAL);
    double water = ions(4) - ions(6);
    double most = dissociated(5, 6) - dissociated(5, 4);
    double least = dissociated(4, 6) - dissociated(4, 4);
    assertEquals(0.5 * 0.6 * most + water, charge.extremeShift(6, 4, 0, 1), 1e-9);
    assertEquals(0.5 * 0.4 * least + water, charge.extremeShift(6, 4, 0, -1), 1e-9);
    // The other way round it gives off as much.
    assertEquals(-0.5 * 0.6 * most - water, charge.extremeShift(4, 6, 0, -1), 1e-9);
    assertEquals(-0.5 * 0.4 * least - water, charge.extremeShift(4, 6, 0, 1), 1e-9);
    double typical = dissociated(4.756, 6) - dissociated(4.756, 4);
    assertEquals(0.5 * 0.4 * typical + water, charge.leanShift(6, 4, 0), 1e-9);
    // Without a range of its constant a group has its own.
    BlendCharge plain =
        BlendCharge.of(half(buffered(Range.ZERO, acetate(null, Range.of(0.4, 0.5, 0.6)))), IDEAL);
    assertEquals(0.5 * 0.6 * typical + water, plain.extremeShift(6, 4, 0, 1), 1e-9);
    assertEquals(0.5 * 0.4 * typical + water, plain.extremeShift(6, 4, 0, -1), 1e-9);
    // The slope of water's ions is that of a small step.
    BlendCharge paste = BlendCharge.of(half(Shop.ISET), IDEAL);
    for (double ph : new double[] {3, 7, 11}) {
      assertEquals(
          (paste.waterCharge(ph - 1e-4, 0) - paste.waterCharge(ph + 1e-4, 0)) / 2e-4,
          paste.waterSlope(ph, 0),
          1e-6 * paste.waterSlope(ph, 0));
    }
  }

  @Test
  void theMomentsOfACharge() {
    BlendCharge strong =
        BlendCharge.of(half(buffered(Range.of(0.1, 0.1, 0.4), acetate(null, Range.ZERO))), IDEAL);
    // Mean 0.2 and variance 0.3^2 / 18 of that triangle, halved and quartered.
    assertEquals(0.1 + ions(4), strong.moments(4, 5).mean()[0], 1e-9);
    assertEquals(0.1 + ions(5), strong.moments(4, 5).mean()[1], 1e-9);
    for (double[] row : strong.moments(4, 5).covariance()) {
      assertEquals(0.09 / 18 / 4, row[0], 1e-9);
      assertEquals(0.09 / 18 / 4, row[1], 1e-9);
    }
    // One in twenty is below 0.4 - 0.3 sqrt(0.95), and above 0.4 - 0.3 sqrt(0.05).
    double fifth = 0.2 * Math.sqrt(0.09 / 18) / 2;
    assertEquals(
        (0.4 - 0.3 * Math.sqrt(0.95)) / 2 + ions(7), strong.chargeQuantile(7, -1.6449), fifth);
    assertEquals(
        (0.4 - 0.3 * Math.sqrt(0.05)) / 2 + ions(7), strong.chargeQuantile(7, 1.6449), fifth);
    BlendCharge mirrored =
        BlendCharge.of(
            half(buffered(Range.of(-0.4, -0.1, -0.1), acetate(null, Range.ZERO))), IDEAL);
    assertEquals(-strong.chargeQuantile(7, -1.6449), mirrored.chargeQuantile(7, 1.6449), 1e-12);
    // An exact blend has its charge for every quantile.
    BlendCharge exact =
        BlendCharge.of(
            half(buffered(Range.exactly(0.2), acetate(null, Range.exactly(0.5)))), IDEAL);
    double z = 0.1 - 0.25 * dissociated(4.756, 5) + ions(5);
    assertEquals(z, exact.chargeQuantile(5, -1.6449), 1e-9);
    assertEquals(z, exact.chargeEqPerKg(5), 1e-9);
    assertEquals(0, exact.lineSpread(0, 5), 1e-12);
    // The amounts of a group bring a spread in proportion to the charge at each pH.
    BlendCharge group =
        BlendCharge.of(
            half(buffered(Range.exactly(0.2), acetate(null, Range.of(0.2, 0.5, 0.8)))), IDEAL);
    double variance = 0.25 * 0.09 / 6;
    double four = dissociated(4.756, 4);
    double five = dissociated(4.756, 5);
    double[][] both = group.moments(4, 5).covariance();
    assertEquals(variance * four * four, both[0][0], 1e-9);
    assertEquals(variance * four * five, both[0][1], 1e-9);
    assertEquals(variance * five * four, both[1][0], 1e-9);
    assertEquals(variance * five * five, both[1][1], 1e-9);
    assertEquals(0.1 - 0.1 * five + ions(5), group.greatestChargeEqPerKg(5), 1e-9);
    assertEquals(0.1 - 0.4 * five + ions(5), group.leastChargeEqPerKg(5), 1e-9);
    refused("number of pH values was 0, allowed is 1 or more", () -> exact.moments());
  }

  /** What makes a blend read a pH does so, whatever was added to it and under any conditions. */
  @Test
  void theChargeToReadIsRead() {
    BlendCharge charge = BlendCharge.of(alkaline(), Conditions.standard());
    List<BlendCharge.Addition> added =
        List.of(
            new BlendCharge.Addition(Titrant.citricAcid(20), 0.02),
            new BlendCharge.Addition(Titrant.sodiumHydroxide(10), 0.005));
    Conditions warm = Conditions.standard().withTemperature(40);
    for (double ph : new double[] {4, 6, 9}) {
      for (Conditions at : List.of(Conditions.standard(), warm)) {
        double more = charge.chargeToRead(ph, added, 3, at);
        assertEquals(ph, charge.phWith(added, more, 3, at), 1e-6);
        assertEquals(
            ph, charge.phWith(List.of(), charge.chargeToRead(ph, List.of(), 0, at), 0, at), 1e-6);
      }
    }
  }

  /** A lot whose alkali is 0.1 to 0.4 but mostly near 0.1: two lots in a hundred need much less. */
  @Test
  void theFirstAdditionIsSafeForNinetyEightLotsInAHundred() {
    Titrant acid = Titrant.named("acid").strongIonEqPerKg(-1).group(ACETIC, 0.001).build();
    Titrant base = Titrant.named("base").strongIonEqPerKg(1).group(ACETIC, 0.001).build();
    double deviation = 2.0537489 * Math.sqrt(0.09 / 18);
    for (boolean down : new boolean[] {true, false}) {
      Range strong = down ? Range.of(0.1, 0.1, 0.4) : Range.of(0, 0.3, 0.3);
      double target = down ? 3.5 : 5.5;
      AcidDose dose =
          AcidDose.of(half(buffered(strong, acetate(null, Range.exactly(0.5)))))
              .to(target)
              .with(down ? acid : base)
              .under(IDEAL)
              .forBatch(Mass.grams(1000));
      assertEquals(
          "so much goes more than 0.1 past the target in 2 % of lots at most", dose.reason());
      double past = down ? 3.4 : 5.6;
      double sign = down ? 1 : -1;
      double toGo = 0.2 - 0.5 * dissociated(4.756, past);
      double need = (sign * toGo - deviation) / 2 + sign * ions(past);
      double push = 1 + sign * 0.001 * dissociated(4.756, past);
      assertEquals(1000 * need / push, dose.firstAddition().inGrams(), 0.02 * 1000 * need);
      assertTrue(dose.firstAddition().inGrams() < dose.guaranteedGrams().low());
    }
  }

  private static Blend withSheet(String id, SheetPh sheet) {
    Blend.Builder b = Blend.named("changed");
    for (BlendLine l : alkaline().lines()) {
      Material m = l.material();
      b.line(m.id().equals(id) ? m.toBuilder().sheetPh(sheet).build() : m, l.amount().value());
    }
    return b.build();
  }

  /** With the sheet pH that would explain it, the reading is just possible. */
  @Test
  void aContradictionNamesTheSheetThatWouldExplainIt() {
    Conditions at = Conditions.standard();
    Meter meter = Meter.accurateTo(0.05);
    PhWindow possible = SheetContradiction.possible(alkaline(), at);
    for (double reading : new double[] {possible.high() + 0.2, possible.low() - 0.2}) {
      SheetContradiction c = SheetContradiction.check(alkaline(), reading, meter, at);
      assertTrue(c.found());
      assertEquals(reading, c.reading());
      assertEquals(possible, c.possible());
      double before = 0;
      for (SheetContradiction.Explanation e : c.explanations()) {
        Material m = e.materialId().equals("decyl") ? Shop.DECYL : Shop.BETA;
        SheetPh sheet = m.sheetPh().orElseThrow();
        assertEquals(PhWindow.of(sheet.ph().low(), sheet.ph().high()), e.sheet());
        boolean above = reading > possible.high();
        Range moved =
            above
                ? Range.of(sheet.ph().low(), sheet.ph().typical(), e.needed())
                : Range.of(e.needed(), sheet.ph().typical(), sheet.ph().high());
        PhWindow then =
            SheetContradiction.possible(
                withSheet(m.id(), new SheetPh(moved, sheet.dilutionPercent(), true)), at);
        assertEquals(reading, above ? then.high() : then.low(), 1e-6);
        assertTrue(e.outside() > before, c.toString());
        before = e.outside();
      }
    }
    // The order is that of the distances, not of the lines.
    Blend reversed =
        Blend.named("reversed")
            .line(Shop.GLYCERIN, 3)
            .line(Shop.BETA, 15)
            .line(Shop.DECYL, 8)
            .upToHundredWith(Shop.WATER);
    for (double reading : new double[] {possible.high() + 0.2, possible.low() - 0.2}) {
      List<SheetContradiction.Explanation> order =
          SheetContradiction.check(reversed, reading, meter, at).explanations();
      assertTrue(order.size() == 2 && order.get(0).outside() < order.get(1).outside());
    }
    // Two standard deviations of the meter are allowed for.
    for (double slack : new double[] {0.099, 0.101}) {
      boolean found = slack > 0.1;
      assertEquals(
          found, SheetContradiction.check(alkaline(), possible.high() + slack, meter, at).found());
      assertEquals(
          found, SheetContradiction.check(alkaline(), possible.low() - slack, meter, at).found());
    }
    // What is printed counts, not what is added for a dilution that is not certain.
    SheetPh decyl = Shop.DECYL.sheetPh().orElseThrow();
    for (boolean certain : new boolean[] {true, false}) {
      Blend b = withSheet("decyl", new SheetPh(decyl.ph(), decyl.dilutionPercent(), certain));
      assertEquals(possible, SheetContradiction.possible(b, at));
    }
    // Nobody is blamed who was titrated, has no sheet, is not in, or could not do it anyway.
    Material known = lye("known", Range.exactly(0.1)).build();
    Blend two =
        Blend.named("two")
            .line(known, 10)
            .line(Shop.BETA, 15)
            .line(Shop.SULF, 0)
            .upToHundredWith(Shop.WATER);
    PhWindow ends = SheetContradiction.possible(two, at);
    for (double reading : new double[] {ends.high() + 0.15, ends.low() - 0.15}) {
      assertEquals(
          List.of("beta"),
          SheetContradiction.check(two, reading, meter, at).explanations().stream()
              .map(SheetContradiction.Explanation::materialId)
              .toList());
    }
    // So little betaine would need a sheet beyond the scale.
    Blend thin = Blend.named("thin").line(Shop.BETA, 1).upToHundredWith(Shop.WATER);
    assertEquals(List.of(), SheetContradiction.check(thin, 14, meter, at).explanations());
    assertEquals(List.of(), SheetContradiction.check(thin, 0, meter, at).explanations());
  }
}
