package org.surfactantblend.acidity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.surfactantblend.acidity.NextDose.Action;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Scale;
import org.surfactantblend.testing.Shop;

/** What a titration says at the bench, and the figures that it says it with. */
class TitrationWordsTest {
  private static final Blend BLEND =
      Blend.named("face wash").line(Shop.GLUT, 12).line(Shop.BETA, 12).upToHundredWith(Shop.WATER);
  private static final double START = StartingPh.of(BLEND).typical();

  private static Titration begin(Titrant titrant, DosingRules rules) {
    return AcidDose.of(BLEND)
        .to(5.5)
        .with(titrant)
        .forBatch(Mass.grams(500))
        .begin(Meter.accurateTo(0.05), rules);
  }

  private static Titration begin() {
    return begin(Titrant.citricAcid(20), DosingRules.usual());
  }

  private static ReadingFlag last(Titration t) {
    return t.flags().get(t.flags().size() - 1);
  }

  private static double round(double ph) {
    return Math.round(ph * 100) / 100.0;
  }

  @Test
  void theTableHasEveryStep() {
    Titration t = begin().reading(round(START)).dosed(1.5);
    double then = round(t.phNow());
    t = t.reading(then).dosed(0.25).freshProduct(20);
    String text = t.summary();
    assertEquals(text, t.toString());
    String[] lines = text.split("\n", -1);
    assertEquals("Titration of 500 g of face wash to pH 5.50", lines[0]);
    assertEquals("  step   dosed, g   in all, g   read    held", lines[1]);
    assertEquals(String.format(java.util.Locale.ROOT, "     1%30.2f", round(START)), lines[2]);
    assertEquals("     2      1.500       1.500           citric acid 20 % m/m", lines[3]);
    assertEquals(String.format(java.util.Locale.ROOT, "     3%30.2f", then), lines[4]);
    assertEquals("     4      0.250       1.750           citric acid 20 % m/m", lines[5]);
    assertEquals("     5   20 g of unacidified product", lines[6]);
    assertTrue(lines[7].startsWith("Now pH "), lines[7]);
    assertTrue(text.endsWith("nothing was read since the last step.\n"), text);
    assertEquals(List.of(), t.flags());
  }

  @Test
  void heldReadingsAreMarked() {
    Titration t = begin().reading(round(START)).reading(round(START) - 0.5);
    assertTrue(t.lastReadingIsHeld());
    assertTrue(
        t.summary()
            .contains(
                String.format(java.util.Locale.ROOT, "     2%30.2f    yes%n", round(START) - 0.5)),
        t.summary());
    String flag =
        String.format(
            java.util.Locale.ROOT,
            "pH went from %.2f to %.2f without a dose: stir, wait until it moves less than 0.02 in"
                + " a minute; read again",
            round(START),
            round(START) - 0.5);
    assertEquals(flag, last(t).text());
    assertTrue(t.summary().contains("  Flag: " + flag + ".\n"), t.summary());
    assertEquals(flag, t.next().reason());
    assertEquals(1, last(t).step());
  }

  @Test
  void threeReadingsThatCreepAreNamed() {
    double first = round(START);
    Titration t = begin().reading(first).reading(round(first - 0.1)).reading(round(first - 0.2));
    assertEquals(
        String.format(
            java.util.Locale.ROOT,
            "pH went from %.2f to %.2f, the third reading without a dose that moved the same way:"
                + " not settled yet; read again",
            first - 0.1,
            first - 0.2),
        last(t).text());
    // Back and forth, or with a dose between, is no creeping.
    assertEquals(
        List.of(), begin().reading(first).reading(round(first - 0.1)).reading(first).flags());
  }

  @Test
  void againstTheDoseIsNamed() {
    double first = round(START);
    Titration t = begin().reading(first).dosed(0.2).reading(round(first + 0.3));
    assertEquals(ReadingFlag.Kind.AGAINST_THE_DOSE, last(t).kind());
    assertEquals(
        String.format(
            java.util.Locale.ROOT,
            "pH went from %.2f to %.2f, against the dose: not stirred, electrode not settled, or"
                + " the wrong bottle; read again",
            first,
            first + 0.3),
        last(t).text());
  }

  @Test
  void whatIsLeftBecomesSureWithReadings() {
    Titration t = begin().reading(round(START));
    Range before = t.remainingGrams();
    double right = AcidDose.of(BLEND).to(5.5).forBatch(Mass.grams(500)).total().inGrams();
    assertTrue(before.contains(right), before + " " + right);
    Titration further = t.dosed(right / 2);
    Range after = further.reading(round(further.phNow())).remainingGrams();
    assertEquals(t.remainingGrams().typical() - right / 2, after.typical(), 0.15 * right);
    assertTrue(after.width() < before.width());
    // All of it: nothing is left, and the estimate is at the target.
    Titration all = t.dosed(t.remainingGrams().typical());
    assertEquals(5.5, all.phNow(), 0.02);
    assertEquals(0, all.remainingGrams().typical(), 0.02 * right);
  }

  @Test
  void freshProductThinsTheDose() {
    Titration t = begin().reading(round(START)).dosed(4);
    assertEquals(500, t.product().inGrams());
    Titration more = t.freshProduct(500);
    assertEquals(1000, more.product().inGrams());
    // The same acid in twice the product is as half of it in once.
    assertEquals(begin().reading(round(START)).dosed(2).phNow(), more.phNow(), 1e-3);
    assertTrue(more.phNow() > t.phNow());
  }

  @Test
  void theReasonsOfNextDoses() {
    assertEquals("nothing was read since the last step", begin().next().reason());
    Titration near = begin().reading(5.55);
    assertEquals(Action.FINISHED, near.next().action());
    assertEquals(
        "the estimate from all readings is within 0.1 of the target; read again after 24 hours",
        near.next().reason());
    Titration coarse =
        begin(Titrant.citricAcid(20), DosingRules.usual().on(Scale.of(50, 500)))
            .reading(round(START));
    assertEquals(Action.WEAKER_SOLUTION, coarse.next().action());
    assertTrue(
        coarse
            .next()
            .reason()
            .matches(
                "the right dose is [0-9.]+ g, less than one step of the scale: use a weaker"
                    + " solution, thinned 1 to [0-9]+"),
        coarse.next().reason());
    NextDose slow =
        begin(Titrant.gluconolactone(), DosingRules.usual()).reading(round(START)).next();
    assertEquals(Action.DOSE, slow.action());
    assertTrue(
        slow.cautions().contains("slow titrant: wait 6 hours before you read"), slow.toString());
    NextDose strong =
        begin(Titrant.citricAcid(50), DosingRules.usual()).reading(round(START)).next();
    assertTrue(strong.cautions().get(0).startsWith("concentrated acid"), strong.toString());
    NextDose fewSteps =
        begin(Titrant.citricAcid(20), DosingRules.usual().on(Scale.of(1, 500)))
            .reading(round(START))
            .next();
    if (fewSteps.action() == Action.DOSE && fewSteps.dose().inGrams() < 10) {
      assertTrue(
          fewSteps.cautions().stream()
              .anyMatch(
                  c ->
                      c.startsWith("one step of the scale is ")
                          && c.endsWith(" % of this dose: a weaker solution is easier to weigh")),
          fewSteps.toString());
    }
    assertTrue(
        begin().reading(round(START)).next().cautions().isEmpty(), "nothing to be careful about");
    Titration low = begin().reading(5.2);
    assertEquals(Action.OTHER_TITRANT, low.next().action());
    assertEquals(
        "the target lies above the start: a base is needed, such as sodium hydroxide 10 %",
        low.next().reason());
    Titration base = begin(Titrant.sodiumHydroxide(10), DosingRules.usual()).reading(round(START));
    assertEquals(
        "the target lies below the start: an acid is needed, such as citric acid 20 %",
        base.next().reason());
    double all = AcidDose.of(BLEND).to(5.5).forBatch(Mass.grams(500)).total().inGrams();
    Titration past = begin().reading(round(START)).dosed(2 * all);
    past = past.reading(round(past.phNow()));
    assertEquals(Action.OVERSHOT, past.next().action());
    assertEquals(
        "past the target: bring it back with product held back, or with a base",
        past.next().reason());
  }

  @Test
  void theFirstDoseIsWhatItSays() {
    NextDose next = begin().reading(round(START)).next();
    assertEquals(Action.DOSE, next.action());
    assertTrue(next.expectedReading() > 5.4 - 1e-9);
    assertTrue(next.likelyReading().contains(next.expectedReading()));
    assertTrue(next.likelyPhNow().contains(next.phNow()));
    // The expected reading is the estimate after that dose.
    Titration t = begin().reading(round(START)).dosed(next.dose().inGrams());
    assertEquals(t.phNow(), next.expectedReading(), 1e-9);
    double steps = next.dose().inGrams() / 0.01;
    assertEquals(Math.rint(steps), steps, 1e-6);
  }

  @Test
  void theCurveTableDrawsItsFigures() {
    Titration t = begin().reading(round(START)).dosed(2);
    t = t.reading(round(t.phNow()));
    List<Titration.CurvePoint> points = t.curve(10, 3);
    assertEquals(
        List.of(0.0, 5.0, 10.0), points.stream().map(Titration.CurvePoint::grams).toList());
    String[] lines = t.curveTable(10, 3).split("\n", -1);
    assertEquals("  dose, g     pH   likely (central 90 %)", lines[0]);
    for (int i = 0; i < 3; i++) {
      Titration.CurvePoint p = points.get(i);
      String figures =
          String.format(
              java.util.Locale.ROOT,
              "%9.3f%7.2f%8.2f to %.2f  ",
              p.grams(),
              p.ph(),
              p.likelyPh().low(),
              p.likelyPh().high());
      assertTrue(lines[i + 1].startsWith(figures), lines[i + 1] + "\n" + figures);
      String bar = lines[i + 1].substring(figures.length());
      // A quarter of a pH per character, from pH 2.
      assertEquals(Math.round((p.ph() - 2) * 4), bar.indexOf('*'), lines[i + 1]);
      assertTrue(bar.matches(" *-*\\*-*"), bar);
    }
    Titration curve = t;
    assertEquals(
        "points was 1.0, allowed is 2.0 to 1000.0",
        String.valueOf(
                assertThrows(IllegalArgumentException.class, () -> curve.curve(10, 1)).getMessage())
            .strip());
  }

  @Test
  void theAssumptionsNameMeterAndScale() {
    List<String> all = begin().assumptions();
    assertTrue(
        all.contains(
            "meter error 0.05 as a standard deviation, independent from reading to reading: a"
                + " constant offset of the meter cannot be learned"),
        all.toString());
    assertTrue(all.contains("titrant strength as named, doses as the scale showed them"));
    assertTrue(all.containsAll(begin().dose().assumptions()));
    assertFalse(begin().flags().stream().anyMatch(ReadingFlag::held));
  }
}
