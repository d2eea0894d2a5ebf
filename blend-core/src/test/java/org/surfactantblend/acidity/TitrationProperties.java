package org.surfactantblend.acidity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.surfactantblend.acidity.CurvePosterior.Equation;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Range;

/** Laws of the learning titration over blends of the shipped table and any readings. */
class TitrationProperties {
  private static final List<String> SURFACTANTS =
      List.of(
          "cocamidopropyl-betaine-30",
          "decyl-glucoside-52",
          "sodium-laureth-sulfate-27",
          "disodium-cocoyl-glutamate-27",
          "potassium-cocoyl-glycinate-30",
          "sodium-cocoamphoacetate-32",
          "lauramine-oxide-30",
          "sodium-benzoate");

  private static Titration begin(SplittableRandom random) {
    Blend.Builder b = Blend.named("any");
    int at = random.nextInt(SURFACTANTS.size());
    for (int i = 0; i < 3; i++) {
      String id = SURFACTANTS.get((at + i * 3) % SURFACTANTS.size());
      b.line(TestTable.get(id), id.equals("sodium-benzoate") ? 0.5 : 3 + 10 * random.nextDouble());
    }
    return AcidDose.of(b.upToHundredWith(TestTable.get("water")))
        .to(4.5 + 2 * random.nextDouble())
        .with(Titrant.citricAcid(20))
        .forBatch(Mass.grams(500))
        .begin(Meter.accurateTo(0.05));
  }

  /** A titration of so many readings about the estimate, each after a dose. */
  private static Titration read(Titration t, int readings, SplittableRandom random) {
    Titration now = t.reading(round(7 + 2 * random.nextDouble()));
    for (int i = 1; i < readings; i++) {
      now = now.dosed(1 + 2 * random.nextDouble());
      now = now.reading(round(now.phNow() + 0.1 * random.nextGaussian()));
    }
    return now;
  }

  private static double round(double ph) {
    return Math.round(Math.max(2, Math.min(12, ph)) * 100) / 100.0;
  }

  /** Within each slice of the leading constant, where the law is exact. */
  @Property(tries = 40, seed = "31")
  void thePosteriorIsNeverWiderThanThePrior(@ForAll long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Titration t = begin(random);
    CurvePrior prior = t.prior();
    double[] dosed = new double[CurvePrior.POINTS];
    List<Equation> equations =
        List.of(
            new Equation(4 + 6 * random.nextDouble(), 0.05, dosed, 0),
            new Equation(4 + 6 * random.nextDouble(), 0.05, dosed, 0),
            new Equation(4 + 6 * random.nextDouble(), 0.05, dosed, 0));
    CurvePosterior before = CurvePosterior.of(prior, List.of());
    for (int n = 1; n <= 3; n++) {
      CurvePosterior after = CurvePosterior.of(prior, equations.subList(0, n));
      for (int slice = 0; slice < prior.components().size(); slice++) {
        // On the grid: between its points a variance that dips at a reading is only a cubic.
        for (int k = 0; k < CurvePrior.POINTS; k++) {
          double ph = CurvePrior.LOW + k * CurvePrior.STEP;
          assertTrue(
              after.deviationWithin(slice, ph) <= before.deviationWithin(slice, ph) + 1e-8,
              "pH " + ph);
        }
      }
      before = after;
    }
  }

  @Property(tries = 25, seed = "32")
  void whatIsLearnedDoesNotDependOnTheOrder(@ForAll long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    CurvePrior prior = begin(random).prior();
    double[] none = new double[CurvePrior.POINTS];
    Equation a = new Equation(5 + 4 * random.nextDouble(), 0.05, none, 0);
    Equation b = new Equation(5 + 4 * random.nextDouble(), 0.1, none, 0);
    CurvePosterior forward = CurvePosterior.of(prior, List.of(a, b));
    CurvePosterior backward = CurvePosterior.of(prior, List.of(b, a));
    for (double ph = 4; ph <= 10; ph += 0.5) {
      assertEquals(forward.mean(ph), backward.mean(ph), 1e-9);
      assertEquals(forward.deviation(ph), backward.deviation(ph), 1e-9);
    }
  }

  @Property(tries = 40, seed = "33")
  void aDoseIsWholeStepsAndNeverAimsPastTheTarget(@ForAll long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Titration t = read(begin(random), 1 + random.nextInt(3), random);
    NextDose next = t.next();
    if (next.action() == NextDose.Action.DOSE) {
      double steps = next.dose().inGrams() / t.rules().scale().resolutionGrams();
      assertEquals(Math.rint(steps), steps, 1e-6);
      assertTrue(t.phAfter(next.dose().inGrams()) >= t.dose().plan().target() - 0.02, t::summary);
    }
    assertTrue(next.likelyPhNow().contains(next.phNow()), t::summary);
    assertTrue(next.likelyReading().contains(next.expectedReading()), t::summary);
  }

  @Property(tries = 40, seed = "34")
  void moreAcidNeverRaisesThePhAndTwoHalvesAreOneWhole(@ForAll long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Titration t = read(begin(random), 2, random);
    double before = t.phNow();
    for (double grams = 0.5; grams <= 4; grams += 0.5) {
      double after = t.phAfter(grams);
      assertTrue(after <= before + 1e-9, t::summary);
      before = after;
    }
    assertEquals(t.dosed(2).phNow(), t.dosed(1).dosed(1).phNow(), 1e-9);
    assertEquals(t.phAfter(2), t.dosed(2).phNow(), 1e-9);
  }

  @Property(tries = 20, seed = "35")
  void theDoseIsLinearInTheBatch(@ForAll long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Titration small = begin(random);
    Titration large =
        small
            .dose()
            .plan()
            .forBatch(Mass.grams(5000))
            .begin(small.meter(), small.rules())
            .reading(8.2);
    Range one = small.reading(8.2).remainingGrams();
    Range ten = large.remainingGrams();
    assertEquals(10 * one.typical(), ten.typical(), 1e-6 * (1 + ten.typical()));
    assertEquals(10 * one.high(), ten.high(), 1e-6 * (1 + ten.high()));
  }
}
