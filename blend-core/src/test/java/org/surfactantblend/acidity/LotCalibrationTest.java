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
import java.util.Locale;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.CertificateOfAnalysis;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Scale;
import org.surfactantblend.testing.Shop;

/** What a small titration finds of a lot: what it is made of here, worked out by hand. */
class LotCalibrationTest {
  private static final Meter METER = Meter.accurateTo(0.05);
  private static final Titrant CITRIC = Titrant.of(Shop.CITRIC);
  private static final double TARGET = 5.5;

  private static Titration glucoside() {
    Blend sample =
        Blend.named("lot in water")
            .line(TestTable.get("decyl-glucoside-52"), 20)
            .upToHundredWith(Shop.WATER);
    return AcidDose.of(sample).to(TARGET).with(CITRIC).forBatch(Mass.grams(100)).begin(METER);
  }

  @Test
  void whatWasFoundIsPartOfTheCertificateAndOfTheLot() {
    Titration t = glucoside().reading(11.6).dosed(0.3).reading(9.6).dosed(0.3).reading(7.6);
    LotCalibration c = LotCalibration.of(t);
    CertificateOfAnalysis certificate = c.certificate("D-9").activePercent(51.4).build();
    assertEquals(c.endPoint(), certificate.titration().orElseThrow());
    assertEquals(c.buffers(), certificate.buffers());
    Material lot = certificate.appliedTo(c.grade()).orElseThrow();
    assertEquals("decyl-glucoside-52 lot D-9", lot.toString());
    assertEquals(51.4, lot.activePercent().typical());
    for (AcidBaseGroup g : c.buffers()) {
      assertTrue(lot.groups().contains(g), g::toString);
    }
    assertEquals(c.grade().groups().size(), groupsOfTheGradeIn(c, lot));
    // The lot by itself reads what was read, doses included.
    Blend sample = Blend.named("lot").line(lot, 20).upToHundredWith(Shop.WATER);
    AcidDose again = AcidDose.of(sample).to(TARGET).with(CITRIC).forBatch(Mass.grams(100));
    assertEquals(11.6, again.startPh(), 0.1);
    assertEquals(9.6, again.phAfter(Mass.grams(0.3)), 0.1);
    assertEquals(7.6, again.phAfter(Mass.grams(0.6)), 0.1);
    assertTrue(c.summary().startsWith("decyl-glucoside-52, 3 readings in 20 % of it\n  acid to"));
    c.summary().lines().forEach(l -> assertTrue(l.length() <= 80, l));
  }

  private static long groupsOfTheGradeIn(LotCalibration c, Material lot) {
    return c.grade().groups().stream()
        .filter(g -> lot.groups().stream().anyMatch(own -> own.name().equals(g.name())))
        .count();
  }

  @Test
  void groupsBeyondTheReadingsKeepTheirRanges() {
    Material grade = TestTable.get("cocamidopropyl-betaine-30");
    Blend sample = Blend.named("betaine").line(grade, 20).upToHundredWith(Shop.WATER);
    Titration t =
        AcidDose.of(sample)
            .to(8)
            .with(Titrant.sodiumHydroxide(2))
            .forBatch(Mass.grams(100))
            .begin(METER)
            .reading(5.1)
            .dosed(0.5)
            .reading(6.9);
    LotCalibration c = LotCalibration.of(t);
    Material lot = c.certificate("B-2").build().appliedTo(grade).orElseThrow();
    assertEquals(group(grade, "betaine carboxyl"), group(lot, "betaine carboxyl"));
    assertTrue(c.endPoint().addedAcidEqPerKg().typical() < 0, "base was needed");
    assertTrue(c.summary().contains("base to pH 6.9"), c::summary);
  }

  private static AcidBaseGroup group(Material m, String name) {
    return m.groups().stream().filter(g -> g.name().equals(name)).findFirst().orElseThrow();
  }

  @Test
  void readingsThatWereHeldBackAreLeftOut() {
    Titration good = glucoside().reading(11.6).dosed(0.3).reading(9.6).dosed(0.3).reading(7.6);
    Titration slip =
        glucoside().reading(11.6).dosed(0.3).reading(9.6).reading(8.6).dosed(0.3).reading(7.6);
    assertTrue(slip.flags().get(0).held());
    LotCalibration c = LotCalibration.of(slip);
    assertEquals(3, c.readings());
    assertEquals(
        LotCalibration.of(good).endPoint().addedAcidEqPerKg(), c.endPoint().addedAcidEqPerKg());
  }

  @Test
  void tooLittleToLearnFromIsRefused() {
    assertEquals(
        "readings of lot were 1 without a dose between, allowed is at least 2 with a dose between",
        assertThrows(
                IllegalArgumentException.class, () -> LotCalibration.of(glucoside().reading(11.6)))
            .getMessage());
    assertThrows(
        IllegalArgumentException.class,
        () -> LotCalibration.of(glucoside().reading(11.6).reading(11.58)));
    Blend two = TestTable.blend("two", "decyl-glucoside-52", 10, "cocamidopropyl-betaine-30", 10);
    Titration t = AcidDose.of(two).to(TARGET).forBatch(Mass.grams(100)).begin(METER);
    assertEquals(
        "materials that move a pH in two were 2, allowed is 1, in water",
        assertThrows(IllegalArgumentException.class, () -> LotCalibration.of(t)).getMessage());
    assertThrows(
        IllegalArgumentException.class,
        () -> LotCalibration.of(glucoside().reading(11.6).freshProduct(5).reading(11.6)));
  }

  private static final Range STRONG = Range.of(0.2, 0.3, 0.5);

  private static AcidBaseGroup group(String name, double pKa, @Nullable Range range, Range amount) {
    return new AcidBaseGroup(name, AcidBase.acid(name, pKa), range, amount, false, false);
  }

  private static Material grade(Range strong, AcidBaseGroup... groups) {
    Material.Builder b = Material.builder("grade").inciName("Invented").strongIonEqPerKg(strong);
    for (AcidBaseGroup g : groups) {
      b.group(g);
    }
    return b.build();
  }

  private static Titration sample(Material grade, Titrant titrant, double meter) {
    return sample(grade, titrant, meter, 0.0001);
  }

  private static Titration sample(Material grade, Titrant titrant, double meter, double step) {
    Blend sample = Blend.named("sample").line(grade, 20).upToHundredWith(Shop.WATER);
    return AcidDose.of(sample)
        .to(4)
        .with(titrant)
        .under(IDEAL)
        .forBatch(Mass.grams(100))
        .begin(Meter.accurateTo(meter), DosingRules.usual().on(Scale.of(step, 100)));
  }

  /** The charge of a lot of acetic acid, a fifth in water, but for its strong ions [eq/kg]. */
  private static double charge(double acetic, double pKa, double ph) {
    return -0.2 * acetic / (1 + Math.pow(10, pKa - ph)) + Math.pow(10, -ph) - Math.pow(10, ph - 14);
  }

  /** Reads a hidden lot at these pH and doses what leads from each to the next. */
  private static Titration read(Titration t, double acetic, double pKa, double... phs) {
    Titration now = t.reading(phs[0]);
    for (int i = 1; i < phs.length; i++) {
      double eqPerKg = 0.2 * Math.abs(acid(acetic, pKa, phs[i - 1], phs[i]));
      now = now.dosed(eqPerKg * 100).reading(phs[i]);
    }
    assertFalse(now.flags().stream().anyMatch(ReadingFlag::held), now::summary);
    return now;
  }

  private static double amount(LotCalibration c, String name) {
    return c.buffers().stream()
        .filter(g -> g.name().equals(name))
        .findFirst()
        .orElseThrow(() -> new AssertionError(c.summary()))
        .amount()
        .typical();
  }

  /** Acid in sum for a kilogram of the lot from the first of some pH to the last. */
  private static double acid(double acetic, double pKa, double from, double to) {
    return (charge(acetic, pKa, to) - charge(acetic, pKa, from)) / 0.2;
  }

  @Test
  void aBufferIsFoundFromWhatItTookUp() {
    Material grade = grade(STRONG, group("acetic acid", PKA, null, Range.of(0.3, 0.5, 0.8)));
    LotCalibration c =
        LotCalibration.of(read(sample(grade, ACID, 0.001), 0.45, PKA, 5.3, 5, 4.5, 4));
    assertEquals(4, c.readings());
    assertEquals(0.45, amount(c, "acetic acid"), 0.01);
    assertEquals(4, c.endPoint().ph().typical());
    assertEquals(20, c.endPoint().dilutionPercent());
    Range acid = c.endPoint().addedAcidEqPerKg();
    assertEquals(acid(0.45, PKA, 5.3, 4), acid.typical(), 5e-4);
    assertEquals(acid.typical(), (acid.low() + acid.high()) / 2, 1e-12);
    assertEquals(grade, c.grade());
    // A reading half as sure leaves about twice as much open.
    double fine = width(grade, 0.02);
    double rough = width(grade, 0.04);
    assertEquals(2, rough / fine, 0.3);
    // 0.04 pH of a curve that falls by some 0.2 eq/kg per pH, in both directions, at 2.45 of it.
    double slope = acid(0.45, PKA, 4.05, 3.95) / 0.1;
    assertEquals(2 * 2.449 * 0.04 * slope, rough, 0.35 * rough);
    String text = c.summary();
    assertEquals(text, c.toString());
    assertTrue(
        text.startsWith(
            String.format(
                Locale.ROOT,
                "grade, 4 readings in 20 %% of it\n  acid to pH 4.00   %.1f mmol/kg as supplied, %.1f"
                    + " to %.1f\n",
                acid.typical() * 1000,
                acid.low() * 1000,
                acid.high() * 1000)),
        text);
    assertTrue(
        text.contains(
            String.format(
                Locale.ROOT,
                "  acetic acid                                  pKa about 4.8 %8.1f mmol/kg\n",
                amount(c, "acetic acid") * 1000)),
        text);
  }

  private static double width(Material grade, double meter) {
    return LotCalibration.of(read(sample(grade, ACID, meter), 0.45, PKA, 5.3, 5, 4.5, 4))
        .endPoint()
        .addedAcidEqPerKg()
        .width();
  }

  /** A constant with a range is sought at five places in it. */
  @Test
  void aConstantIsFoundWithinItsRange() {
    Material grade =
        grade(STRONG, group("acetic acid", PKA, Range.of(4.2, PKA, 5.4), Range.of(0.3, 0.5, 0.8)));
    LotCalibration c =
        LotCalibration.of(read(sample(grade, ACID, 0.001), 0.45, 4.56, 5.3, 5, 4.7, 4.4, 4.1, 3.8));
    double sum = 0;
    double mean = 0;
    for (AcidBaseGroup g : c.buffers()) {
      double pKa = g.acid().steps().get(0).pKa25();
      if (g.name().startsWith("acetic acid")) {
        assertTrue(
            g.name().equals("acetic acid")
                ? Math.abs(pKa - 4.32) < 1e-9
                : g.name().equals(String.format(Locale.ROOT, "acetic acid, part at pKa %.2f", pKa)),
            g.name());
        assertTrue(g.amount().typical() >= 0 && g.amount().isExact());
        sum += g.amount().typical();
        mean += g.amount().typical() * pKa;
      }
    }
    assertEquals(0.45, sum, 0.02, c.summary());
    assertEquals(4.56, mean / sum, 0.06, c.summary());
    // All parts are one line of the summary.
    assertEquals(1, c.summary().lines().filter(l -> l.contains("  acetic acid")).count());
    assertTrue(c.summary().contains(" pKa about 4."), c.summary());
  }

  /** Two buffers of one constant: what they hold in sum is found, the split is the grade's. */
  @Test
  void theSplitAmongLikeBuffersIsTheGrades() {
    // Means 0.2 and 0.2, variances 0.09 / 18 each: what is found beyond is shared evenly.
    Material even =
        grade(
            STRONG,
            group("one", PKA, null, Range.of(0.1, 0.1, 0.4)),
            group("two", PKA, null, Range.of(0, 0.3, 0.3)));
    LotCalibration c =
        LotCalibration.of(read(sample(even, ACID, 0.001), 0.5, PKA, 5.2, 4.8, 4.4, 4));
    assertEquals(0.25, amount(c, "one"), 0.01);
    assertEquals(0.25, amount(c, "two"), 0.01);
    // A known one leaves all to the other; twice the range takes up four times as much.
    Material known =
        grade(
            STRONG,
            group("one", PKA, null, Range.exactly(0.2)),
            group("two", PKA, null, Range.of(0.1, 0.2, 0.3)));
    LotCalibration all =
        LotCalibration.of(read(sample(known, ACID, 0.001), 0.5, PKA, 5.2, 4.8, 4.4, 4));
    assertEquals(0.2, amount(all, "one"), 1e-6);
    assertEquals(0.3, amount(all, "two"), 0.01);
    Material wider =
        grade(
            STRONG,
            group("one", PKA, null, Range.of(0.1, 0.2, 0.3)),
            group("two", PKA, null, Range.of(0, 0.2, 0.4)));
    LotCalibration four =
        LotCalibration.of(read(sample(wider, ACID, 0.001), 0.5, PKA, 5.2, 4.8, 4.4, 4));
    assertEquals(0.22, amount(four, "one"), 0.005);
    assertEquals(0.28, amount(four, "two"), 0.01);
  }

  /** Half a unit beyond the readings is as far as they reach. */
  @Test
  void onlyWhatTheReadingsReachedIsReplaced() {
    Range amount = Range.of(0, 0.1, 0.4);
    Material grade =
        grade(
            STRONG,
            group("far above", 5.85, null, amount),
            group("above", 5.75, null, amount),
            group("below", 3.55, null, amount),
            group("far below", 3.45, null, amount));
    LotCalibration c = LotCalibration.of(read(sample(grade, ACID, 0.05), 0.1, PKA, 5.3, 4.7, 4));
    List<String> names = c.buffers().stream().map(AcidBaseGroup::name).toList();
    assertEquals(List.of("above", "below"), names.subList(0, 2));
    assertTrue(names.subList(2, names.size()).stream().allMatch(n -> n.startsWith("undeclared")));
  }

  /** Free alkali alone: no amount falls below nothing, and the acid is that of the alkali. */
  @Test
  void whereNoBufferIsNoneIsFound() {
    Material grade = grade(STRONG, group("acetic acid", PKA, null, Range.of(0, 0.02, 0.1)));
    double start = 14 + Math.log10(0.05);
    LotCalibration c =
        LotCalibration.of(
            read(sample(grade, ACID, 0.01), 0, PKA, start, 12.4, 11.5, 7.2, 4.5, 3.6));
    for (AcidBaseGroup g : c.buffers()) {
      assertTrue(g.amount().typical() >= 0 && g.amount().typical() < 5e-3, g.toString());
    }
    assertEquals(acid(0, PKA, start, 3.6), c.endPoint().addedAcidEqPerKg().typical(), 2e-3);
    assertEquals("acetic acid", c.buffers().get(0).name(), "in place of the grade's, if empty");
  }

  @Test
  void anAcidLotTakesBase() {
    Material grade =
        grade(Range.of(-0.1, 0, 0.2), group("acetic acid", PKA, null, Range.exactly(0.45)));
    LotCalibration c =
        LotCalibration.of(read(sample(grade, BASE, 0.01), 0.45, PKA, 4.212, 4.6, 5, 5.4));
    Range acid = c.endPoint().addedAcidEqPerKg();
    assertEquals(acid(0.45, PKA, 4.212, 5.4), acid.typical(), 2e-3);
    assertTrue(acid.high() < 0);
    assertTrue(
        c.summary()
            .contains(
                String.format(
                    Locale.ROOT,
                    "  base to pH 5.40   %.1f mmol/kg as supplied, %.1f to %.1f\n",
                    -acid.typical() * 1000,
                    -acid.high() * 1000,
                    -acid.low() * 1000)),
        c.summary());
  }

  /** Read thinned or warm it teaches the same, less surely. */
  @Test
  void aReadingInAnotherStateIsBroughtBack() {
    Material grade = grade(STRONG, group("acetic acid", PKA, null, Range.of(0.3, 0.5, 0.8)));
    Titration t = sample(grade, ACID, 0.01);
    double thinned =
        ComparablePh.inOtherState(t.dose().plan().blend(), t.dose().startPh(), 25, 10).ph();
    LotCalibration plain = LotCalibration.of(t.reading(t.dose().startPh()).dosed(2).reading(4.7));
    LotCalibration other =
        LotCalibration.of(t.reading(PhReading.of(thinned).diluted(10)).dosed(2).reading(4.7));
    assertEquals(
        plain.endPoint().addedAcidEqPerKg().typical(),
        other.endPoint().addedAcidEqPerKg().typical(),
        0.01);
    assertEquals(2, other.readings());
  }

  @Test
  void doseAndReadingsHaveTheirOrder() {
    Titration t = glucoside();
    assertEquals(
        "readings of lot were 2 without a dose between, allowed is at least 2 with a dose between",
        assertThrows(
                IllegalArgumentException.class,
                () -> LotCalibration.of(t.dosed(0.3).reading(9.6).reading(9.58)))
            .getMessage());
    assertEquals(
        "step 2 was 5 g of unacidified product, allowed are readings and doses",
        assertThrows(
                IllegalArgumentException.class,
                () -> LotCalibration.of(t.reading(11.6).freshProduct(5).dosed(0.3).reading(9.6)))
            .getMessage());
    // What does not move a pH, or is not in, may stand beside the lot.
    Blend beside =
        Blend.named("beside")
            .line(TestTable.get("decyl-glucoside-52"), 20)
            .line(Shop.GLYCERIN, 5)
            .line(Shop.BETA, 0)
            .upToHundredWith(Shop.WATER);
    LotCalibration c =
        LotCalibration.of(
            AcidDose.of(beside)
                .to(TARGET)
                .with(CITRIC)
                .forBatch(Mass.grams(100))
                .begin(METER)
                .reading(11.6)
                .dosed(0.3)
                .reading(9.6));
    assertEquals("decyl-glucoside-52", c.grade().id());
  }

  /** Four thousandths of a mole at pKa 6 that the sheet of a surfactant does not tell of. */
  @Test
  void aBufferThatNoSheetDeclaresIsFound() {
    Material surfactant =
        grade(Range.of(-0.01, 0.004, 0.02)).toBuilder()
            .family(Family.inert("amide"))
            .constituent(
                Constituent.active(
                    "Invented", Range.exactly(30), ChargeClass.NONIONIC, OptionalDouble.empty()))
            .build();
    LotCalibration c =
        LotCalibration.of(
            read(sample(surfactant, ACID, 0.02), 0.004, 6, 7.5, 6.8, 6.2, 5.8, 5.3, 4.6));
    double sum = 0;
    double mean = 0;
    for (AcidBaseGroup g : c.buffers()) {
      double pKa = g.acid().steps().get(0).pKa25();
      assertEquals(String.format(Locale.ROOT, "undeclared buffer at pKa %.0f", pKa), g.name());
      assertTrue(pKa >= 4 && pKa <= 10);
      sum += g.amount().typical();
      mean += g.amount().typical() * pKa;
    }
    assertEquals(0.004, sum, 1e-3, c.summary());
    assertEquals(6, mean / sum, 0.4, c.summary());
  }

  /** Where the readings say next to nothing the amounts stand as the triangle of the range does. */
  @Test
  void withoutReadingsToSpeakOfTheTriangleStays() {
    Material grade =
        grade(STRONG, group("acetic acid", 4.5, Range.of(4.2, 4.5, 5.4), Range.exactly(0.5)));
    LotCalibration c = LotCalibration.of(read(sample(grade, ACID, 1), 0.5, 4.7, 4.9, 4.8));
    double[] weights = {0.4, 0.84 / 0.9, 0.6 / 0.9, 0.36 / 0.9, 0.12 / 0.9};
    String[] names = {
      "", ", part at pKa 4.56", ", part at pKa 4.80", ", part at pKa 5.04", ", part at pKa 5.28"
    };
    double sum = java.util.Arrays.stream(weights).sum();
    for (int i = 0; i < 5; i++) {
      assertEquals(0.5 * weights[i] / sum, amount(c, "acetic acid" + names[i]), 0.01, names[i]);
    }
  }

  /** Free alkali reads a unit less when it is thinned tenfold; it is the same alkali. */
  @Test
  void aThinnedReadingOfAlkali() {
    double start = 14 + Math.log10(0.05);
    Titration t = sample(grade(Range.of(0.2, 0.25, 0.3)), ACID, 0.01);
    Titration plain = read(t, 0, PKA, start, 12.4, 11.5, 7.2, 4.5, 3.6);
    Titration thinned = t.reading(PhReading.of(start - 1).diluted(10));
    for (TitrationStep s : plain.steps().subList(1, plain.steps().size())) {
      thinned = thinned.step(s);
    }
    Range one = LotCalibration.of(plain).endPoint().addedAcidEqPerKg();
    Range other = LotCalibration.of(thinned).endPoint().addedAcidEqPerKg();
    assertEquals(acid(0, PKA, start, 3.6), one.typical(), 2e-3);
    assertEquals(one.typical(), other.typical(), 5e-3);
    Material buffer = grade(STRONG, group("acetic acid", PKA, null, Range.of(0.3, 0.5, 0.8)));
    Titration first = sample(buffer, ACID, 0.01);
    double here = first.dose().startPh();
    Range sure =
        LotCalibration.of(first.reading(here).dosed(2).reading(4.7)).endPoint().addedAcidEqPerKg();
    Range unsure =
        LotCalibration.of(first.reading(PhReading.of(here).diluted(10)).dosed(2).reading(4.7))
            .endPoint()
            .addedAcidEqPerKg();
    assertTrue(unsure.width() > 2 * sure.width(), sure + " " + unsure);
  }

  /** A step of the scale is worth twice as much of a titrant twice as strong. */
  @Test
  void theScaleLeavesSomethingOpen() {
    Titrant strong = Titrant.named("strong").strongIonEqPerKg(-2).group(ACETIC, 1e-6).build();
    Material grade = grade(STRONG, group("acetic acid", PKA, null, Range.of(0.3, 0.5, 0.8)));
    double fine = scaleWidth(grade, ACID, 0.0001, 2.6);
    double one = scaleWidth(grade, ACID, 0.5, 2.6);
    double two = scaleWidth(grade, strong, 0.5, 1.3);
    assertTrue(one > 3 * fine, one + " " + fine);
    assertEquals(2, two / one, 0.3);
    // One dose, its step spread evenly: a twelfth of its square, by 2.45 each way, in a fifth.
    assertEquals(2 * 2.449 * 0.005 / Math.sqrt(12) / 0.2, one, 0.1 * one);
  }

  private static double scaleWidth(Material grade, Titrant titrant, double step, double grams) {
    return LotCalibration.of(
            sample(grade, titrant, 0.001, step).reading(5.1).dosed(grams).reading(4.75))
        .endPoint()
        .addedAcidEqPerKg()
        .width();
  }
}
