package org.surfactantblend.acidity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.surfactantblend.acidity.NextDose.Action;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.SheetPh;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Scale;

/** How a titration behaves at the bench: steps, flags, rules and what it says. */
class TitrationTest {
  private static final Blend BLEND =
      TestTable.blend(
          "face wash", "sodium-cocoyl-glutamate-27", 10, "cocamidopropyl-betaine-30", 12);
  private static final Meter METER = Meter.accurateTo(0.05);

  private static Titration begin(DosingRules rules) {
    return AcidDose.of(BLEND)
        .to(5.2)
        .with(Titrant.citricAcid(20))
        .forBatch(Mass.grams(500))
        .begin(METER, rules);
  }

  private static Titration begin() {
    return begin(DosingRules.usual());
  }

  /** Reads what is expected after the recommended dose. */
  private static Titration further(Titration t) {
    NextDose next = t.next();
    return t.dosed(next.dose().inGrams()).reading(round(next.expectedReading()));
  }

  private static double round(double ph) {
    return Math.round(ph * 100) / 100.0;
  }

  private static ReadingFlag lastFlag(Titration t) {
    return t.flags().get(t.flags().size() - 1);
  }

  @Test
  void everyStepIsANewValue() {
    Titration start = begin();
    Titration read = start.reading(6.2);
    String before = read.summary();
    Titration dosed = read.dosed(2);
    dosed.reading(5.9).with(Titrant.citricAcid(5)).freshProduct(20);
    assertTrue(start.steps().isEmpty());
    assertEquals(Action.READ, start.next().action());
    assertEquals(before, read.summary());
    assertEquals(1, read.steps().size());
    assertEquals(Action.READ, dosed.next().action());
    assertThrows(UnsupportedOperationException.class, () -> read.steps().clear());
  }

  @Test
  void theSameStepsGiveTheSameTitration() {
    Titration t =
        begin()
            .reading(6.2)
            .dosed(2)
            .reading(5.95)
            .with(Titrant.citricAcid(5))
            .dosed(3)
            .reading(5.8);
    Titration again = begin();
    for (TitrationStep step : t.steps()) {
      again = again.step(step);
    }
    assertEquals(t.summary(), again.summary());
    assertEquals(t.next(), again.next());
  }

  @Test
  void readingsAgainstTheDoseAreHeldBackUntilTheyAreConfirmed() {
    Titration before = begin().reading(6.2).dosed(2);
    Titration odd = before.reading(6.55);
    assertEquals(ReadingFlag.Kind.AGAINST_THE_DOSE, lastFlag(odd).kind());
    assertTrue(lastFlag(odd).held());
    assertEquals(Action.READ_AGAIN, odd.next().action());
    assertEquals(before.phNow(), odd.phNow(), "a held reading teaches nothing");
    assertEquals(before.reading(6.0).phNow(), odd.reading(6.0).phNow(), "and is left out for good");
    Titration confirmed = odd.reading(6.53);
    assertFalse(confirmed.lastReadingIsHeld());
    assertTrue(confirmed.phNow() > 6.3, confirmed.summary());
    assertEquals(1, confirmed.flags().size());
    assertTrue(confirmed.summary().contains("against the dose"), confirmed.summary());
  }

  @Test
  void aReadingThatDriftsIsFlagged() {
    Titration t = begin().reading(6.2);
    Titration jump = t.reading(5.8);
    assertEquals(ReadingFlag.Kind.DRIFTING, lastFlag(jump).kind());
    assertEquals(t.phNow(), jump.phNow());
    Titration creep = t.reading(6.1).reading(6.0);
    assertEquals(ReadingFlag.Kind.DRIFTING, lastFlag(creep).kind());
    assertTrue(lastFlag(creep).held());
    assertTrue(t.reading(6.25).reading(6.18).flags().isEmpty(), "noise is no drift");
  }

  @Test
  void aSlipOfOneUnitIsNamed() {
    Titration dosed = further(further(begin().reading(6.2))).dosed(0.5);
    double expected = round(dosed.phNow());
    for (double slip : new double[] {-1, 1}) {
      Titration t = dosed.reading(expected + slip);
      assertEquals(ReadingFlag.Kind.TYPING_ERROR, lastFlag(t).kind(), t.summary());
      assertTrue(lastFlag(t).text().contains("a slip of one unit"));
      assertEquals(dosed.phNow(), t.phNow(), "not fitted");
      assertTrue(
          t.reading(expected).flags().size() == 1 && !t.reading(expected).lastReadingIsHeld());
    }
  }

  @Test
  void aReadingFarFromAllExpectationIsHeldBack() {
    Titration t = further(begin().reading(6.2)).dosed(0.1).reading(3.2);
    assertEquals(ReadingFlag.Kind.CONTRADICTS_THE_MODEL, lastFlag(t).kind());
    assertTrue(lastFlag(t).text().contains("check the weight and strength of the dose"));
    assertEquals(Action.READ_AGAIN, t.next().action());
  }

  @Test
  void aHotOrDilutedReadingIsWorthLess() {
    Titration plain = begin().reading(6.2);
    Titration diluted = begin().reading(PhReading.of(6.2).diluted(10));
    assertEquals(ReadingFlag.Kind.NOT_COMPARABLE, diluted.flags().get(0).kind());
    assertFalse(diluted.flags().get(0).held());
    assertTrue(diluted.likelyPhNow().width() > plain.likelyPhNow().width());
  }

  @Test
  void belowOneStepOfTheScaleAWeakerSolutionIsAskedFor() {
    Titration t = begin(DosingRules.usual().on(Scale.of(5, 500))).reading(5.45);
    NextDose next = t.next();
    assertEquals(Action.WEAKER_SOLUTION, next.action());
    assertTrue(next.toString().contains("use a weaker solution, thinned 1 to"), next.toString());
    assertEquals(Action.DOSE, t.with(t.titrant().thinned(30)).next().action());
  }

  @Test
  void theFirstDoseOfNewLotsStaysBelowWhatTheLeanestTakeUp() {
    for (double start : new double[] {6.0, 6.4, 6.8}) {
      NextDose careful = begin().reading(start).next();
      NextDose known = begin(DosingRules.usual().knownLots()).reading(start).next();
      Titration t = begin().reading(start);
      double tolerated = 5.1;
      double lean =
          BlendCharge.of(BLEND, Conditions.standard()).leanShift(t.phNow(), tolerated, 0.1);
      double given = careful.dose().inGrams() / 500 * -t.titrantCharge(tolerated);
      assertTrue(given <= lean * 1.02, given + " of " + lean);
      assertTrue(careful.dose().compareTo(known.dose()) <= 0);
    }
    NextDose capped =
        AcidDose.of(
                TestTable.blend("b", "cocamidopropyl-betaine-30", 15, "decyl-glucoside-52", 8.7))
            .to(5.5)
            .with(Titrant.citricAcid(10))
            .forBatch(Mass.grams(500))
            .begin(METER)
            .reading(9.5)
            .next();
    assertTrue(capped.reason().startsWith("the lots are new"), capped.reason());
  }

  @Test
  void theCallersSettingsCount() {
    DosingRules usual = DosingRules.usual().knownLots();
    double middle = begin(usual).reading(6.4).next().dose().inGrams();
    assertTrue(begin(usual.risking(0.001)).reading(6.4).next().dose().inGrams() < middle);
    assertTrue(begin(usual.within(0.05)).reading(6.4).next().dose().inGrams() < middle);
    assertTrue(begin(usual.within(0.3)).reading(6.4).next().dose().inGrams() > middle);
    Titration coarse = begin(usual.on(Scale.of(0.5, 100))).reading(6.4);
    double steps = coarse.next().dose().inGrams() / 0.5;
    assertEquals(Math.rint(steps), steps, 1e-9);
    assertEquals(2, begin(usual.on(Scale.of(0.01, 2))).reading(6.4).next().dose().inGrams(), 1e-9);
    assertEquals(Action.FINISHED, begin(usual.within(0.5)).reading(5.6).next().action());
    assertTrue(begin(usual).reading(6.4).next().reason().contains("at most 2 % probability"));
  }

  @Test
  void itStopsOnTheEstimateAndNeverAimsPastTheTarget() {
    Titration t = begin().reading(6.4);
    int doses = 0;
    while (t.next().action() == Action.DOSE) {
      assertTrue(t.next().expectedReading() >= 5.2 - 1e-3, t.summary());
      t = further(t);
      doses++;
    }
    assertEquals(Action.FINISHED, t.next().action());
    assertTrue(doses <= 3, t.summary());
    assertEquals(5.2, t.phNow(), 0.1);
    assertTrue(t.next().reason().contains("read again after 24 hours"));
  }

  @Test
  void pastTheTargetItSaysSoAndOffersARepair() {
    Titration t = begin().reading(6.2).dosed(40).reading(4.6);
    t = t.lastReadingIsHeld() ? t.reading(4.6) : t;
    assertEquals(Action.OVERSHOT, t.next().action());
    assertTrue(t.repair().toString().length() > 0);
    Titration base = t.with(Titrant.sodiumHydroxide(10));
    assertEquals(Action.DOSE, base.next().action(), base.summary());
    assertEquals(Action.OTHER_TITRANT, begin().reading(4.6).next().action());
  }

  @Test
  void aStartOutsideTheSheetsNamesTheSheet() {
    Titration t = begin().reading(7.4);
    assertEquals(ReadingFlag.Kind.CONTRADICTS_A_SHEET, lastFlag(t).kind());
    assertTrue(lastFlag(t).text().contains("sheet pH of sodium-cocoyl-glutamate-27"));
    assertEquals(Action.DOSE, t.next().action());
    SheetContradiction low = SheetContradiction.check(BLEND, 3.9, METER, Conditions.standard());
    assertTrue(low.found());
    assertTrue(low.explanations().get(0).needed() < low.explanations().get(0).sheet().low());
    assertFalse(SheetContradiction.check(BLEND, 6.0, METER, Conditions.standard()).found());
  }

  @Test
  void aTitratedLotIsKnownByItsEndPoint() {
    Material grade = TestTable.get("decyl-glucoside-52");
    Material lot = grade.toBuilder().sheetPh(SheetPh.endPoint(7, 10, Range.exactly(0.12))).build();
    Material loose =
        grade.toBuilder().sheetPh(SheetPh.endPoint(7, 10, Range.between(0.08, 0.16))).build();
    Range exact = ofTenPercent(lot).alkalinityMeqPerKg(7);
    assertEquals(12, exact.typical(), 0.02, "a tenth of the acid that the lot took");
    Range wide = ofTenPercent(loose).alkalinityMeqPerKg(7);
    assertEquals(12, wide.typical(), 0.02);
    // Triangular between 8 and 16: standard deviation 4 / sqrt(6), widened by 1.15.
    assertEquals(1.645 * 1.15 * 4 / Math.sqrt(6), wide.width() / 2, 0.1);
    Range plain = ofTenPercent(grade).alkalinityMeqPerKg(7);
    assertTrue(exact.width() < plain.width() / 5, exact + " against " + plain);
  }

  private static Titration ofTenPercent(Material m) {
    Blend blend = Blend.named("one").line(m, 10).upToHundredWith(TestTable.get("water"));
    return AcidDose.of(blend).to(5.5).forBatch(Mass.grams(500)).begin(METER);
  }

  @Test
  void theCurveFallsAndCarriesItsBand() {
    Titration t = begin().reading(6.2).dosed(2).reading(5.95);
    List<Titration.CurvePoint> curve = t.curve(10, 11);
    for (int i = 0; i < curve.size(); i++) {
      Titration.CurvePoint p = curve.get(i);
      assertTrue(p.likelyPh().contains(p.ph()));
      assertTrue(p.likelyReading().width() > p.likelyPh().width());
      assertTrue(i == 0 || p.ph() < curve.get(i - 1).ph());
    }
    assertEquals(t.phNow(), curve.get(2).ph(), 1e-9);
    assertEquals(12, t.curveTable(10, 11).lines().count());
    assertTrue(t.curveTable(10, 11).lines().allMatch(l -> l.length() <= 80));
    assertTrue(t.assumptions().stream().anyMatch(a -> a.contains("offset of the meter")));
  }

  @Test
  void whatTheMeterJustSaidIsNotDoubtedForUnitsOfPh() {
    // Between pH 8.5 and 11.3 this shampoo hardly buffers, and the learned curve stays near zero.
    Blend shampoo =
        TestTable.blend(
            "shampoo",
            "sodium-laureth-sulfate-27",
            22,
            "sodium-cocoamphoacetate-32",
            9,
            "coco-glucoside-52",
            5);
    Titration t = AcidDose.of(shampoo).to(5.3).forBatch(Mass.kilograms(3)).begin(METER);
    for (double read : new double[] {7.5, 8.5, 9.0, 9.5, 10.5, 11.5}) {
      Titration once = t.reading(read);
      assertEquals(read, once.phNow(), 0.02);
      // The central 90 % of a normal error.
      assertTrue(once.likelyPhNow().low() >= read - 1.645 * 0.05 - 1e-9, once::summary);
      assertTrue(once.likelyPhNow().high() <= read + 1.645 * 0.05 + 1e-9, once::summary);
      assertEquals(once.likelyPhNow(), once.next().likelyPhNow());
      Titration dosed = once.dosed(1);
      assertEquals(dosed.likelyPhAfter(0), dosed.likelyPhNow(), "nothing read since");
    }
  }

  @Test
  void outOfRangeIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> begin().reading(14.5));
    assertThrows(IllegalArgumentException.class, () -> begin().dosed(-1));
    assertThrows(IllegalArgumentException.class, () -> begin().curve(0, 5));
    assertThrows(IllegalArgumentException.class, () -> Meter.accurateTo(0));
    assertThrows(IllegalArgumentException.class, () -> DosingRules.usual().risking(0.6));
    assertEquals(
        "tolerance was 2.0, allowed is 0.02 to 1.0 pH",
        assertThrows(IllegalArgumentException.class, () -> DosingRules.usual().within(2))
            .getMessage());
  }
}
