package org.surfactantblend.acidity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.quantity.Mass;

class ScaleUpTest {
  private static final Blend WASH =
      TestTable.blend(
          "Wash",
          "cocamidopropyl-betaine-30",
          14.9,
          "decyl-glucoside-52",
          8.7,
          "sodium-benzoate",
          0.5);
  private static final Mass BATCH = Mass.kilograms(20);

  /** A trial of 400 g that behaves as the typical blend does but for its start. */
  private static Titration trial() {
    AcidDose truth = AcidDose.of(WASH).to(5.5).startingAt(8.3).forBatch(Mass.grams(400));
    Titration t = AcidDose.of(WASH).to(5.5).forBatch(Mass.grams(400)).begin(Meter.accurateTo(0.05));
    double step = truth.total().inGrams() / 3;
    for (int i = 0; i <= 3; i++) {
      t = (i == 0 ? t : t.dosed(step)).reading(truth.phAfter(Mass.grams(step * i)));
    }
    return t;
  }

  @Test
  void sameLotsNeedFiftyTimesWhatTheTrialTook() {
    Titration trial = trial();
    ScaleUp s = ScaleUp.sameLots(trial, BATCH);
    double took = AcidDose.of(WASH).to(5.5).startingAt(8.3).forBatch(BATCH).total().inGrams();
    assertEquals(took, s.expected().inGrams(), 0.05 * took);
    assertTrue(s.likelyGrams().contains(took), s::summary);
    assertTrue(s.firstAddition().inGrams() <= 0.8 * s.expected().inGrams() + 1e-9);
    assertTrue(s.firstAddition().inGrams() > 0.4 * s.expected().inGrams(), s::summary);
    assertTrue(s.maximum().inGrams() > s.likelyGrams().high());
    assertEquals(s.byTheTrial(), s.expected());
    assertTrue(s.isSameLots());
  }

  @Test
  void aTrialThatEndedWithABaseNamesTheAcidThatItBeganWith() {
    Titration mended = trial().with(Titrant.sodiumHydroxide(10));
    String text = ScaleUp.sameLots(mended, BATCH).summary().replaceAll("\\s+", " ");
    assertTrue(
        text.contains(
            "or the opposite kind is needed, such as citric acid 20 % m/m, with which the trial"
                + " began."),
        text);
    assertTrue(
        ScaleUp.sameLots(mended, BATCH).with(Titrant.citricAcid(20)).expected().inGrams() > 0);
  }

  /** Held back: so much that the whole expected dose is right even for the least need. */
  @Test
  void theHeldBackProductMendsTheLeastLikelyNeed() {
    ScaleUp s = ScaleUp.sameLots(trial(), BATCH);
    double expected = s.expected().inGrams();
    double least = expected - (s.maximum().inGrams() - expected);
    double dosed = BATCH.inGrams() - s.holdBack().inGrams();
    // The expected dose for the dosed part is what the whole batch needs at the least.
    assertEquals(least, expected * dosed / BATCH.inGrams(), 1e-6 * expected);
    assertTrue(s.holdBack().inGrams() < 0.25 * BATCH.inGrams());
  }

  @Test
  void newLotsAreDosedByTheirSheets() {
    ScaleUp s = ScaleUp.newLots(trial(), WASH, BATCH);
    AcidDose sheets = AcidDose.of(WASH).to(5.5).forBatch(BATCH);
    assertEquals(sheets.total(), s.expected());
    assertEquals(sheets.firstAddition(), s.firstAddition());
    assertEquals(sheets.guaranteedGrams().high(), s.maximum().inGrams(), 1e-9);
    assertTrue(s.holdBack().inGrams() >= 0.1 * BATCH.inGrams());
    assertTrue(s.holdBack().inGrams() <= 0.25 * BATCH.inGrams());
    assertTrue(
        s.likelyGrams().width() > 3 * ScaleUp.sameLots(trial(), BATCH).likelyGrams().width());
    assertTrue(s.summary().contains("by the trial"), s::summary);
    assertFalse(s.isSameLots());
  }

  @Test
  void aStrongerSolutionIsLess() {
    ScaleUp twenty = ScaleUp.sameLots(trial(), BATCH);
    ScaleUp fifty = twenty.with(Titrant.citricAcid(50));
    assertEquals(0.4, fifty.expected().inGrams() / twenty.expected().inGrams(), 0.001);
    String text = fifty.summary();
    assertTrue(text.contains("Caution: concentrated acid"), text);
    assertTrue(text.contains("Assumed: same lots"), text);
    text.lines().forEach(l -> assertTrue(l.length() <= 80, l));
  }

  @Test
  void whereNothingIsNeededNothingIsHeldBack() {
    ScaleUp base = ScaleUp.sameLots(trial(), BATCH).with(Titrant.sodiumHydroxide(10));
    assertEquals(0, base.expected().inGrams());
    assertEquals(0, base.holdBack().inGrams());
    assertTrue(base.summary().contains("No dose: by the trial no dose"), base::summary);
    ScaleUp wrong = ScaleUp.newLots(trial(), WASH, BATCH).with(Titrant.sodiumHydroxide(10));
    assertTrue(wrong.summary().contains("an acid is needed"), wrong::summary);
  }

  @Test
  void aTrialWithoutReadingsIsRefused() {
    Titration none =
        AcidDose.of(WASH).to(5.5).forBatch(Mass.grams(400)).begin(Meter.accurateTo(0.05));
    assertThrows(IllegalArgumentException.class, () -> ScaleUp.sameLots(none, BATCH));
    assertThrows(IllegalArgumentException.class, () -> ScaleUp.sameLots(trial(), Mass.grams(0)));
  }
}
