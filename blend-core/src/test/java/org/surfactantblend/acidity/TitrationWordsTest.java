package org.surfactantblend.acidity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.surfactantblend.acidity.ByHand.ACETIC;
import static org.surfactantblend.acidity.ByHand.ACID;
import static org.surfactantblend.acidity.ByHand.BASE;
import static org.surfactantblend.acidity.ByHand.IDEAL;
import static org.surfactantblend.acidity.ByHand.PKA;

import java.util.List;
import java.util.OptionalDouble;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.surfactantblend.acidity.NextDose.Action;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.SheetPh;
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
    assertEquals(1, t.summary().lines().filter(l -> l.endsWith("    yes")).count());
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
      assertEquals(Math.round((p.likelyPh().low() - 2) * 4), bar.length() - bar.strip().length());
      assertEquals(Math.round((p.likelyPh().high() - 2) * 4), bar.length() - 1, lines[i + 1]);
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

  private static final double LN_10 = Math.log(10);

  /** The deviations below which a normal figure lies with that chance. */
  private static final double ONE_IN_FIFTY = -2.05375;

  /** Ranges of typical grades are not limits: their spread counts this much more. */
  private static final double WIDENED = 1.15;

  private static Titration ofHalf(
      Titrant titrant, double meter, DosingRules rules, Range strong, Range acetic) {
    Material lot =
        Material.builder("lot")
            .inciName("Invented lot")
            .strongIonEqPerKg(strong)
            .group(new AcidBaseGroup("acetic acid", ACETIC, null, acetic, false, false))
            .build();
    return ofHalf(lot, titrant, meter, rules);
  }

  private static Titration ofHalf(Material lot, Titrant titrant, double meter, DosingRules rules) {
    return AcidDose.of(Blend.named("half").line(lot, 50).upToHundredWith(Shop.WATER))
        .to(4.2)
        .with(titrant)
        .under(IDEAL)
        .forBatch(Mass.grams(100))
        .begin(Meter.accurateTo(meter), rules.on(Scale.of(0.0001, 100)));
  }

  private static double dissociated(double ph) {
    return 1 / (1 + Math.pow(10, PKA - ph));
  }

  private static double ions(double ph) {
    return Math.pow(10, -ph) - Math.pow(10, ph - 14);
  }

  /** The typical charge of half a kilogram of strong ions and half a mole of acetic acid. */
  private static double charge(double strong, double ph) {
    return 0.5 * (strong - 0.5 * dissociated(ph)) + ions(ph);
  }

  /** How that falls with the pH. */
  private static double slope(double ph) {
    double a = dissociated(ph);
    return LN_10 * (0.25 * a * (1 - a) + Math.pow(10, -ph) + Math.pow(10, ph - 14));
  }

  /** What is known of the strong ions, as charge of the product, by precision. */
  private static final class Known {
    double mean = 0.15;
    double precision = 1 / Math.pow(0.5 * WIDENED * 0.1 / Math.sqrt(6), 2);

    /** A reading after so much strong acid [eq/kg]. */
    void read(double ph, double meter, double dosed) {
      double says = 0.25 * dissociated(ph) - ions(ph) + dosed;
      double own = 1 / (Math.pow(slope(ph) * meter, 2) + 1e-10);
      mean = (mean * precision + says * own) / (precision + own);
      precision += own;
    }

    double deviation() {
      return 1 / Math.sqrt(precision);
    }

    double charge(double ph) {
      return TitrationWordsTest.charge(mean / 0.5, ph);
    }

    /** What is left to a pH with one chance in fifty, or another: a lognormal lower tail. */
    double need(double ph, double dosed, double normal) {
      double shift = 2 * deviation();
      double from = charge(ph) - dosed + shift;
      double variance = Math.log1p(Math.pow(deviation() / from, 2));
      return Math.exp(Math.log(from) - variance / 2 + normal * Math.sqrt(variance)) - shift;
    }

    Doses doses(double dosed) {
      return new Doses(
          100 * (charge(4.2) - dosed),
          100 * need(4.1, dosed, ONE_IN_FIFTY),
          100 * need(4.1, dosed, -1.40507));
    }
  }

  /**
   * Grams of strong acid for 100 g that go to pH 4.2 in the middle, and past 4.1 with one chance in
   * fifty or, where that teaches too little, 8 in a hundred.
   */
  private record Doses(double middle, double safe, double shortcut) {
    double least() {
      return Math.max(0.36 * middle, Math.min(0.5 * middle, shortcut));
    }

    double told() {
      return Math.min(middle, Math.max(safe, least()));
    }
  }

  private static final Range STRONG = Range.of(0.2, 0.3, 0.4);
  private static final Range ACETATE = Range.exactly(0.5);

  private static void assertKnown(Known known, Titration t) {
    for (double ph : new double[] {4, 4.75, 5.5}) {
      Range meq = t.alkalinityMeqPerKg(ph);
      assertEquals(1000 * known.charge(ph), meq.typical(), 0.05, "pH " + ph);
      assertEquals(2 * 1.64485 * 1000 * known.deviation(), meq.width(), 0.05, "pH " + ph);
    }
  }

  /** Half a mole of acetic acid and 0.3 of strong ions, both sure: pH 4.72 after 0.03 eq/kg. */
  @Test
  void readingsThatAgreeAgainstASureCurveAreTold() {
    Titration t =
        ofHalf(ACID, 0.05, DosingRules.usual(), Range.of(0.2999, 0.3, 0.3001), ACETATE)
            .reading(4.93)
            .dosed(3);
    double expected = PKA + Math.log10(0.24 / 0.26);
    assertEquals(expected, t.phNow(), 2e-3);
    // 0.13 is 2.6 standard deviations of the meter: once or twice it may happen.
    t = t.reading(4.85).reading(4.85);
    assertEquals(List.of(), t.flags());
    // Three of them are 4.5 of their mean.
    t = t.reading(4.85);
    assertEquals(1, t.flags().size(), t::summary);
    ReadingFlag flag = t.flags().get(0);
    assertEquals(ReadingFlag.Kind.CONTRADICTS_THE_MODEL, flag.kind());
    assertFalse(flag.held());
    assertEquals(
        "the last 3 readings agree on pH 4.85, the curve from all of them on 4.72: check the weight"
            + " and strength of the dose, the materials, and the meter's buffers; go by the meter"
            + " once its buffers read right",
        flag.text());
  }

  /** With one unknown the regression is a mean weighted by precision. */
  @Test
  void readingsAreWeighed() {
    Titration t = ofHalf(ACID, 0.05, DosingRules.usual(), STRONG, ACETATE);
    Known known = new Known();
    assertKnown(known, t);
    t = t.reading(4.8);
    known.read(4.8, 0.05, 0);
    assertKnown(known, t);
    // Henderson and Hasselbalch at what the strong ions are now, and at 1.645 deviations of them.
    double strong = known.mean / 0.5;
    double off = 1.64485 * known.deviation() / 0.5;
    assertEquals(PKA + Math.log10(strong / (0.5 - strong)), t.phNow(), 1e-3);
    assertEquals(
        PKA + Math.log10((strong - off) / (0.5 - strong + off)), t.likelyPhNow().low(), 1e-3);
    assertEquals(
        PKA + Math.log10((strong + off) / (0.5 - strong - off)), t.likelyPhNow().high(), 1e-3);
    // A reading has the meter's error on top.
    double both = Math.hypot(known.deviation() / slope(t.phNow()), 0.05);
    assertEquals(2 * 1.64485 * both, t.likelyReadingAfter(0).width(), 0.01);
    assertEquals(1000 * slope(4.5), t.bufferingMeqPerKgPerPh(4.5), 0.5);
    // 3 g of the acid in 100 g are 0.03 eq/kg.
    t = t.dosed(3).reading(4.5);
    known.read(4.5, 0.05, 0.03);
    assertKnown(known, t);
    assertEquals(known.charge(t.phNow()), 0.03, 1e-4);
    assertEquals(t.phNow(), t.phAfter(0), 1e-12);
    assertEquals(known.charge(t.phAfter(2)), 0.05, 1e-4);
    double left = (known.charge(4.2) - 0.03) * 100;
    Range remaining = t.remainingGrams();
    assertEquals(left, remaining.typical(), 5e-3);
    assertEquals(2 * 164.485 * known.deviation(), remaining.width(), 5e-3);
    assertEquals(left, (remaining.low() + remaining.high()) / 2, 5e-3);
  }

  /** A coarse scale: half a gram in a hundred, evenly spread, has a variance of a twelfth of it. */
  @Test
  void theScaleCounts() {
    Titration t = ofHalf(ACID, 0.001, DosingRules.usual(), STRONG, ACETATE);
    Titration coarse =
        t.dose().begin(t.meter(), DosingRules.usual().on(Scale.of(0.5, 100))).dosed(3).dosed(3);
    double own = Math.pow(slope(4.4) * 0.001, 2) + 1e-10 + 2 * 0.005 * 0.005 / 12;
    double precision = new Known().precision + 1 / own;
    assertEquals(
        2 * 1644.85 / Math.sqrt(precision),
        coarse.reading(4.4).alkalinityMeqPerKg(5).width(),
        0.01);
  }

  @Test
  void theLargestDoseThatIsSafe() {
    Titration t = ofHalf(ACID, 0.05, DosingRules.usual(), STRONG, ACETATE);
    t = t.reading(4.9).dosed(2).reading(4.75);
    Known known = new Known();
    known.read(4.9, 0.05, 0);
    known.read(4.75, 0.05, 0.02);
    NextDose next = t.next();
    assertEquals(
        "the largest dose that goes past 4.10 with at most 2 % probability", next.reason());
    assertEquals(100 * known.need(4.1, 0.02, ONE_IN_FIFTY), next.dose().inGrams(), 2e-3);
    assertEquals(t.phAfter(next.dose().inGrams()), next.expectedReading(), 1e-9);
    assertEquals(t.phNow(), next.phNow(), 1e-12);
    // At one chance in ten it is more.
    Titration bold = ofHalf(ACID, 0.05, DosingRules.usual().risking(0.1), STRONG, ACETATE);
    NextDose more = bold.reading(4.9).dosed(2).reading(4.75).next();
    double wanted = 100 * known.need(4.1, 0.02, -1.28155);
    double middle = 100 * (known.charge(4.2) - 0.02);
    assertEquals(Math.min(wanted, middle), more.dose().inGrams(), 2e-3);
  }

  /** Where little is known: 0.36 of what is left, up to half of it at four times the risk. */
  @Test
  void aGoodPartOfWhatIsLeft() {
    boolean little = false;
    for (double meter : new double[] {0.3, 0.5, 0.7, 0.9}) {
      Titration t = ofHalf(ACID, meter, DosingRules.usual(), Range.of(0, 0.3, 0.6), ACETATE);
      t = t.reading(4.9).dosed(2).reading(4.75);
      Known known = new Known();
      known.precision /= 9;
      known.read(4.9, meter, 0);
      known.read(4.75, meter, 0.02);
      Doses by = known.doses(0.02);
      NextDose next = t.next();
      assertEquals(by.told(), next.dose().inGrams(), 5e-3, meter + "\n" + t);
      assertEquals(
          by.safe < by.least(),
          next.reason()
              .equals(
                  "a good part of what is left, at a greater risk than asked for: a smaller dose"
                      + " teaches too little"),
          next.reason());
      assertTrue(by.safe < by.least(), "the rule is needed at " + meter);
      little |= by.shortcut < 0.36 * by.middle;
    }
    assertTrue(little, "once even the greater risk gave too little");
  }

  /** Amounts of 0.3 to 0.7: new lots get no more than the leanest takes up. */
  @Test
  void theFirstDoseByHand() {
    Range amounts = Range.of(0.3, 0.5, 0.7);
    for (boolean down : new boolean[] {true, false}) {
      double read = down ? 5 : 3.95;
      Range strong = Range.exactly(down ? 0.3 : 0.1);
      Titration t =
          ofHalf(down ? ACID : BASE, 0.01, DosingRules.usual(), strong, amounts).reading(read);
      double tolerated = down ? 4.1 : 4.3;
      double lean =
          0.15 * (dissociated(t.phNow()) - dissociated(tolerated))
              + ions(tolerated)
              - ions(t.phNow());
      NextDose next = t.next();
      assertEquals(
          "the lots are new: no more than what every amount at its low end takes up",
          next.reason());
      assertEquals(100 * Math.abs(lean), next.dose().inGrams(), 2e-3);
      NextDose known =
          ofHalf(down ? ACID : BASE, 0.01, DosingRules.usual().knownLots(), strong, amounts)
              .reading(read)
              .next();
      assertTrue(known.dose().inGrams() > next.dose().inGrams(), known.toString());
    }
    // With amounts that are sure no lot takes up less than the middle: that is the dose.
    NextDose sure = ofHalf(ACID, 0.05, DosingRules.usual(), STRONG, ACETATE).reading(4.9).next();
    assertEquals("the middle estimate of what is left", sure.reason());
    // A range of the constant takes up at least what its least favourable end does.
    Material spread =
        Material.builder("lot")
            .inciName("Invented lot")
            .strongIonEqPerKg(Range.of(0.2, 0.3, 0.4))
            .group(
                new AcidBaseGroup(
                    "acetic acid", ACETIC, Range.of(3.6, PKA, 5.8), ACETATE, false, false))
            .build();
    Titration wide = ofHalf(spread, ACID, 0.5, DosingRules.usual().risking(0.001)).reading(4.9);
    NextDose least = wide.next();
    assertEquals("no lot inside its ranges takes up less", least.reason(), least.toString());
    double now = wide.phNow();
    double end =
        Math.min(
            1 / (1 + Math.pow(10, 3.6 - now)) - 1 / (1 + Math.pow(10, 3.6 - 4.1)),
            1 / (1 + Math.pow(10, 5.8 - now)) - 1 / (1 + Math.pow(10, 5.8 - 4.1)));
    assertEquals(100 * (0.25 * end + ions(4.1) - ions(now)), least.dose().inGrams(), 2e-3);
  }

  /** What no sheet declares: buffers of 2 meq/kg of surfactant at pKa 4 to 10, and its alkali. */
  @Test
  void aSurfactantHasMoreThanItsSheetSays() {
    double shares = 0;
    for (int pKa = 4; pKa <= 10; pKa++) {
      shares += Math.pow(1 + Math.pow(10, pKa - 7), -2);
    }
    double own = 0.5 * Math.sqrt(shares);
    for (String family : List.of("amide", "ether sulfate", "olefin sulfonate")) {
      Material.Builder lot =
          Material.builder("lot")
              .inciName("Invented lot")
              .family(Family.inert(family))
              .constituent(
                  Constituent.active(
                      "Invented lot",
                      Range.exactly(30),
                      ChargeClass.NONIONIC,
                      OptionalDouble.empty()));
      double buffer = family.equals("amide") ? 2 : 0.5;
      Titration titrated =
          ofHalf(lot.strongIonEqPerKg(Range.exactly(0.1)).build(), ACID, 0.05, DosingRules.usual());
      assertEquals(
          2 * 1.64485 * buffer * own, titrated.alkalinityMeqPerKg(7).width(), 1e-3, family);
      Material endPoint =
          Material.builder("lot")
              .inciName("Invented lot")
              .family(Family.inert(family))
              .constituent(
                  Constituent.active(
                      "Invented lot",
                      Range.exactly(30),
                      ChargeClass.NONIONIC,
                      OptionalDouble.empty()))
              .sheetPh(SheetPh.endPoint(7, 10, Range.exactly(0.05)))
              .build();
      assertEquals(
          2 * 1.64485 * buffer * own,
          ofHalf(endPoint, ACID, 0.05, DosingRules.usual()).alkalinityMeqPerKg(7).width(),
          1e-3,
          family);
      // The alkali that a sheet pH shows may be 30 meq/kg more or less.
      Material sheet =
          endPoint.toBuilder().sheetPh(new SheetPh(Range.exactly(7), 10, true)).build();
      assertEquals(
          2 * 1.64485 * Math.hypot(buffer * own, 15),
          ofHalf(sheet, ACID, 0.05, DosingRules.usual()).alkalinityMeqPerKg(7).width(),
          1e-3,
          family);
    }
  }

  /** A constant is taken as evenly spread over its range and a twentieth of it beyond each end. */
  @Test
  void aConstantIsCutIntoSlices() {
    Material spread =
        Material.builder("lot")
            .inciName("Invented lot")
            .strongIonEqPerKg(Range.exactly(0.3))
            .group(
                new AcidBaseGroup(
                    "acetic acid", ACETIC, Range.of(4.4, PKA, 5.4), ACETATE, false, false))
            .build();
    Titration t = ofHalf(spread, ACID, 0.01, DosingRules.usual());
    for (double ph : new double[] {4, 4.5, 5, 5.5, 6}) {
      double low = Math.log1p(Math.pow(10, 4.35 - ph));
      double high = Math.log1p(Math.pow(10, 5.45 - ph));
      double mean = 1 - (high - low) / LN_10 / 1.1;
      assertEquals(
          1000 * (0.15 - 0.25 * mean + ions(ph)), t.alkalinityMeqPerKg(ph).typical(), 0.5, "" + ph);
    }
    assertEquals(5, t.prior().components().size());
    // Readings on the way find it: a lot of 5.2, which starts where 0.6 of the acid is dissociated.
    Titration learned = t.reading(5.2 + Math.log10(0.6 / 0.4));
    for (double ph : new double[] {5.2, 5, 4.8, 4.6}) {
      double grams = 25 * (0.6 - 1 / (1 + Math.pow(10, 5.2 - ph)));
      learned = learned.dosed(grams - dosedGrams(learned)).reading(ph);
    }
    double left = 25 * (1 / (1 + Math.pow(10, 0.6)) - 1 / (1 + Math.pow(10, 1)));
    assertEquals(left, learned.remainingGrams().typical(), 0.1 * left, learned.summary());
  }

  private static double dosedGrams(Titration t) {
    return t.steps().stream()
        .mapToDouble(s -> s instanceof TitrationStep.Dosed d ? d.grams() : 0)
        .sum();
  }

  /** Mean and variance of what is dissociated at a pH over a triangle of constants. */
  private static double[] moments(double low, double typical, double high, double ph) {
    double sum = 0;
    double mean = 0;
    double square = 0;
    int parts = 4000;
    for (int i = 0; i < parts; i++) {
      double pKa = low + (i + 0.5) * (high - low) / parts;
      double weight =
          pKa < typical ? (pKa - low) / (typical - low) : (high - pKa) / (high - typical);
      double a = 1 / (1 + Math.pow(10, pKa - ph));
      sum += weight;
      mean += weight * a;
      square += weight * a * a;
    }
    mean /= sum;
    return new double[] {mean, square / sum - mean * mean};
  }

  /** The same for the middle one of five slices, which reach a twentieth beyond either end. */
  private static double[] middleSlice(double low, double high, double ph) {
    double middle = (low + high) / 2;
    double half = (high - low) * 1.1 / 10;
    return moments(middle - half, middle, middle + half, ph);
  }

  private static Material carrying(String id, AcidBaseGroup group) {
    return Material.builder(id)
        .inciName("Invented " + id)
        .strongIonEqPerKg(Range.exactly(0.3))
        .group(group)
        .build();
  }

  private static AcidBaseGroup acetate(Range pKa, double molPerKg, boolean onActive) {
    AcidBase acid = ACETIC.withPka(0, pKa.typical());
    return new AcidBaseGroup("carboxyl", acid, pKa, Range.exactly(molPerKg), false, onActive);
  }

  private static double within(Titration t, double ph) {
    return CurvePosterior.of(t.prior(), List.of()).deviationWithin(2, ph);
  }

  /** In one drum a carboxyl of a wide range has not one constant: half keeps to the slice. */
  @Test
  void wideCarboxylsOfASurfactantSpread() {
    Range wide = Range.of(4, 4.5, 5);
    double[] whole = moments(4, 4.5, 5, 4.6);
    double[] slice = middleSlice(4, 5, 4.6);
    Titration spread =
        ofHalf(carrying("lot", acetate(wide, 0.5, true)), ACID, 0.05, DosingRules.usual());
    double half = 0.5 * 0.25 * WIDENED * 1.7;
    assertEquals(half * Math.sqrt(whole[1] + slice[1]), within(spread, 4.6), 2e-4);
    // A narrower one, or one that is not on the surfactant, has.
    Titration small =
        ofHalf(carrying("lot", acetate(wide, 0.5, false)), ACID, 0.05, DosingRules.usual());
    assertEquals(0.25 * WIDENED * Math.sqrt(slice[1]), within(small, 4.6), 2e-4);
    double[] narrow = middleSlice(4.02, 4.98, 4.6);
    Titration narrower =
        ofHalf(
            carrying("lot", acetate(Range.of(4.02, 4.5, 4.98), 0.5, true)),
            ACID,
            0.05,
            DosingRules.usual());
    assertEquals(0.25 * WIDENED * Math.sqrt(narrow[1]), within(narrower, 4.6), 2e-4);
    assertEquals(
        1, ofHalf(ACID, 0.05, DosingRules.usual(), STRONG, ACETATE).prior().components().size());
  }

  /** Of two ranges the one is cut that the way to the target depends on most. */
  @Test
  void theLeadingConstantIsCut() {
    double[] slice = middleSlice(4.4, 5.2, 4.6);
    double[] whole = moments(4.4, 4.8, 5.2, 4.6);
    Range pKa = Range.of(4.4, 4.8, 5.2);
    for (boolean first : new boolean[] {true, false}) {
      Material more = carrying("more", acetate(pKa, 0.5, false));
      Material less = carrying("less", acetate(pKa, 0.2, false));
      Titration t = ofTwo(first ? more : less, first ? less : more, ACID);
      assertEquals(
          0.4 * WIDENED * Math.sqrt(0.25 * slice[1] + 0.04 * whole[1]), within(t, 4.6), 2e-4);
    }
    // On the way down from above the weaker acid counts, on the way up the stronger one.
    Material weak = carrying("weak", acetate(Range.of(5.2, 5.6, 6), 0.5, false));
    Material strong = carrying("strong", acetate(Range.of(2.4, 2.8, 3.2), 0.5, false));
    for (double ph : new double[] {5.4, 3}) {
      double wholeWeak = moments(5.2, 5.6, 6, ph)[1];
      double wholeStrong = moments(2.4, 2.8, 3.2, ph)[1];
      assertEquals(
          0.4 * WIDENED * 0.5 * Math.sqrt(middleSlice(5.2, 6, ph)[1] + wholeStrong),
          within(ofTwo(weak, strong, ACID), ph),
          2e-4);
      assertEquals(
          0.4 * WIDENED * 0.5 * Math.sqrt(wholeWeak + middleSlice(2.4, 3.2, ph)[1]),
          within(ofTwo(weak, strong, BASE), ph),
          2e-4);
    }
  }

  private static Titration ofTwo(Material a, Material b, Titrant titrant) {
    return AcidDose.of(Blend.named("two").line(a, 40).line(b, 40).upToHundredWith(Shop.WATER))
        .to(4.2)
        .with(titrant)
        .under(IDEAL)
        .forBatch(Mass.grams(100))
        .begin(Meter.accurateTo(0.05));
  }

  @Test
  void aTitrantThatStopsShortOfTheTarget() {
    // Half neutralised it stands at its own pH of 4.76.
    Titrant buffer = Titrant.named("buffer").group(ACETIC, 1).strongIonEqPerKg(0.5).build();
    NextDose next = ofHalf(buffer, 0.05, DosingRules.usual(), STRONG, ACETATE).reading(4.95).next();
    assertEquals(Action.OUT_OF_REACH, next.action());
    assertEquals("buffer itself does not reach the target", next.reason());
    assertEquals(0, next.dose().inGrams());
    assertEquals(next.phNow(), next.expectedReading());
  }

  @Test
  void theScaleIsToldOf() {
    Known known = new Known();
    known.read(4.9, 0.05, 0);
    double middle = 100 * known.charge(4.2);
    for (double step : new double[] {0.5, 1, 2}) {
      NextDose next =
          ofHalf(ACID, 0.05, DosingRules.usual(), STRONG, ACETATE)
              .dose()
              .begin(Meter.accurateTo(0.05), DosingRules.usual().on(Scale.of(step, 100)))
              .reading(4.9)
              .next();
      double dose = Math.floor(middle / step) * step;
      assertEquals(dose, next.dose().inGrams(), 1e-9);
      String caution =
          "one step of the scale is "
              + Math.round(step / dose * 100)
              + " % of this dose: a weaker solution is easier to weigh";
      assertEquals(
          dose < 10 * step ? List.of(caution) : List.of(), next.cautions(), "step " + step);
    }
    for (double step : new double[] {12, 50}) {
      NextDose weaker =
          ofHalf(ACID, 0.05, DosingRules.usual(), STRONG, ACETATE)
              .dose()
              .begin(Meter.accurateTo(0.05), DosingRules.usual().on(Scale.of(step, 100)))
              .reading(4.9)
              .next();
      assertEquals(Action.WEAKER_SOLUTION, weaker.action());
      // Ten steps of the scale are to be one dose.
      String thinned = "thinned 1 to " + Math.round(Math.ceil(10 * step / middle));
      assertTrue(weaker.reason().endsWith(thinned), weaker.reason() + ", not " + thinned);
    }
  }

  @Test
  void whatWentPastIsBroughtBackByHand() {
    Titration t = ofHalf(ACID, 0.05, DosingRules.usual(), STRONG, ACETATE);
    t = t.reading(4.9).dosed(11).reading(3.75);
    Known known = new Known();
    known.read(4.9, 0.05, 0);
    known.read(3.75, 0.05, 0.11);
    assertEquals(Action.OVERSHOT, t.next().action());
    double surplus = 0.11 - known.charge(4.2);
    assertEquals(1000 * surplus, t.repair().surplusMeqPerKg(), 0.05);
    OvershootRepair.Correction base = t.repair().with(BASE).orElseThrow();
    assertEquals(100 * surplus, base.mass().inGrams(), 0.01);
    assertEquals(2 * 164.485 * known.deviation(), base.likelyGrams().width(), 0.01);
    // Another titrant's curve counts its own doses.
    Titration back = t.with(BASE).dosed(1);
    assertEquals(t.phNow(), back.curve(2, 3).get(0).ph(), 1e-9);
    assertEquals(back.phNow(), back.curve(2, 3).get(1).ph(), 1e-9);
    assertEquals(back.phAfter(1), back.curve(2, 3).get(2).ph(), 1e-9);
    assertEquals(t.phNow(), t.curve(22, 3).get(1).ph(), 1e-9);
    assertEquals(100, t.product().inGrams(), 1e-12);
    assertEquals(0.11, t.dosedKgPerKg(), 1e-12);
    assertEquals(0.055, t.freshProduct(100).dosedKgPerKg(), 1e-12);
    // Half as acid in twice the product, and twice as many grams are left for it.
    Titration twice = t.freshProduct(100);
    assertEquals(known.charge(twice.phNow()), 0.055, 1e-4);
    assertEquals(200 * (known.charge(4.2) - 0.055), twice.remainingGrams().typical(), 0.01);
    assertEquals(twice.phAfter(2), twice.dosed(2).phNow(), 1e-9);
    assertEquals(known.charge(twice.phAfter(2)), 0.065, 1e-4);
    assertEquals(twice.phNow(), twice.curve(22, 3).get(1).ph(), 1e-9);
  }

  /** Two equivalents to the kilogram: half the grams, and a step of the scale weighs double. */
  @Test
  void theStrengthOfTheTitrantCounts() {
    Titrant strong = Titrant.named("strong").strongIonEqPerKg(-2).group(ACETIC, 1e-6).build();
    Titration t = ofHalf(strong, 0.05, DosingRules.usual(), STRONG, ACETATE);
    Titration learned = t.reading(4.9).dosed(1).reading(4.75);
    Known known = new Known();
    known.read(4.9, 0.05, 0);
    known.read(4.75, 0.05, 0.02);
    Range left = learned.remainingGrams();
    assertEquals(50 * (known.charge(4.2) - 0.02), left.typical(), 5e-3);
    assertEquals(164.485 * known.deviation(), left.width(), 5e-3);
    Titration coarse =
        t.dose()
            .begin(Meter.accurateTo(0.001), DosingRules.usual().on(Scale.of(0.5, 100)))
            .dosed(3);
    double own = Math.pow(slope(4.4) * 0.001, 2) + 1e-10 + 0.01 * 0.01 / 12;
    assertEquals(
        2 * 1644.85 / Math.sqrt(new Known().precision + 1 / own),
        coarse.reading(4.4).alkalinityMeqPerKg(5).width(),
        0.01);
  }

  /** A buffer hardly moves when it is thinned, but the reading is less sure: 0.05 on top. */
  @Test
  void aThinnedReadingCountsLess() {
    Titration t =
        ofHalf(ACID, 0.05, DosingRules.usual(), STRONG, ACETATE)
            .reading(PhReading.of(4.8).diluted(10));
    Known known = new Known();
    known.read(4.8, Math.hypot(0.05, 0.05), 0);
    Range meq = t.alkalinityMeqPerKg(5);
    assertEquals(2 * 1644.85 * known.deviation(), meq.width(), 0.02 * meq.width());
    assertEquals(1000 * known.charge(5), meq.typical(), 1);
    assertEquals(ReadingFlag.Kind.NOT_COMPARABLE, last(t).kind());
    assertTrue(last(t).text().startsWith("pH 4.80 in 10 % of product is "), last(t).text());
  }

  @Test
  void aSlipIsToldWithWhatWouldFit() {
    Titration t =
        ofHalf(ACID, 0.05, DosingRules.usual(), STRONG, ACETATE)
            .reading(4.9)
            .dosed(2)
            .reading(4.75);
    for (double slip : new double[] {-1, 1}) {
      Titration slipped = t.dosed(1).reading(4.68 + slip);
      assertEquals(ReadingFlag.Kind.TYPING_ERROR, last(slipped).kind());
      assertEquals(
          String.format(
              java.util.Locale.ROOT,
              "pH %.2f does not fit, 4.68 would: a slip of one unit?; read again",
              4.68 + slip),
          last(slipped).text());
    }
  }

  /** Back with a base after an acid: the pH rises, as it should. */
  @Test
  void theDoseSinceTheLastReadingTellsTheWay() {
    Titration t = ofHalf(ACID, 0.05, DosingRules.usual(), STRONG, ACETATE).reading(4.9).dosed(9);
    Titration down = t.reading(round(t.phNow()));
    Titration up = down.with(BASE).dosed(5);
    Titration read = up.reading(round(up.phNow()));
    assertTrue(read.phNow() > down.phNow() + 0.25, read.summary());
    assertEquals(List.of(), read.flags());
    Titration wrong = up.reading(round(down.phNow() - 0.4));
    assertEquals(ReadingFlag.Kind.AGAINST_THE_DOSE, last(wrong).kind());
  }

  /** Half of what is left where four times the risk allows more. */
  @Test
  void noMoreThanHalfAtAGreaterRisk() {
    boolean halved = false;
    for (double meter = 0.16; meter < 0.3; meter += 0.02) {
      Titration t = ofHalf(ACID, meter, DosingRules.usual(), Range.of(0.1, 0.3, 0.5), ACETATE);
      t = t.reading(4.9).dosed(5).reading(4.5);
      Known known = new Known();
      known.precision /= 4;
      known.read(4.9, meter, 0);
      known.read(4.5, meter, 0.05);
      Doses by = known.doses(0.05);
      assertEquals(by.told(), t.next().dose().inGrams(), 0.01, "" + meter);
      halved |= by.safe < by.least() && by.shortcut > 0.5 * by.middle;
    }
    assertTrue(halved, "the half was the limit once");
  }

  /** Where the amounts are open so is the slope, and a rough reading says the less. */
  @Test
  void anOpenSlopeMakesAReadingLessSure() {
    double read = 4.9;
    Titration t =
        ofHalf(ACID, 0.5, DosingRules.usual(), Range.exactly(0.3), Range.of(0.05, 0.5, 0.95))
            .reading(read);
    double amounts = Math.pow(0.5 * WIDENED * 0.45, 2) / 6;
    double steep = (dissociated(read + 0.1) - dissociated(read - 0.1)) / 0.2;
    double error = (Math.pow(slope(read), 2) + amounts * steep * steep) * 0.25 + 1e-10;
    double there = amounts * Math.pow(dissociated(read), 2);
    for (double ph : new double[] {4.2, 5, 6}) {
      double own = amounts * Math.pow(dissociated(ph), 2);
      double both = amounts * dissociated(ph) * dissociated(read);
      assertEquals(
          2 * 1644.85 * Math.sqrt(own - both * both / (there + error)),
          t.alkalinityMeqPerKg(ph).width(),
          0.1,
          "pH " + ph);
      assertEquals(
          1000 * (charge(0.3, ph) - both / (there + error) * charge(0.3, read)),
          t.alkalinityMeqPerKg(ph).typical(),
          0.05,
          "pH " + ph);
    }
  }

  /** Over all slices together the need lies below what is told with the probability asked for. */
  @Test
  void theNeedOfAllSlices() {
    Material spread =
        carrying("lot", acetate(Range.of(3.8, 4.6, 5.4), 0.5, false)).toBuilder()
            .strongIonEqPerKg(Range.of(0.2, 0.3, 0.4))
            .build();
    CurvePrior prior = ofHalf(spread, ACID, 0.05, DosingRules.usual()).prior();
    CurvePosterior p = CurvePosterior.of(prior, List.of());
    double[] dosed = new double[CurvePrior.POINTS];
    NormalDistribution normal = new NormalDistribution(null, 0, 1);
    for (double probability : new double[] {0.02, 0.2, 0.5}) {
      double need = p.need(dosed, 4.1, 4.9, 1, probability);
      double below = 0;
      for (int slice = 0; slice < 5; slice++) {
        double shift = 2 * p.deviationWithin(slice, 4.9);
        double from = CurvePrior.at(prior.components().get(slice).mean(), 4.1) + shift;
        double variance = Math.log1p(Math.pow(p.deviationWithin(slice, 4.1) / from, 2));
        below +=
            normal.cumulativeProbability(
                    (Math.log(need + shift) - Math.log(from) + variance / 2) / Math.sqrt(variance))
                / 5;
      }
      assertEquals(probability, below, 1e-4);
    }
  }
}
