package org.surfactantblend.acidity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.testing.RecheckedPh;
import org.surfactantblend.testing.RecheckedPh.Balance;
import org.surfactantblend.testing.RecheckedPh.Lot;
import org.surfactantblend.testing.RecheckedPh.Water;
import org.surfactantblend.testing.Shop;

/** Laws of the dose for any blend. */
class DoseProperties {
  private static final Water WATER = Water.at25();
  private static final Titrant CITRIC = Titrant.of(Shop.CITRIC);

  private static Blend blend(long seed) {
    Random random = new Random(seed);
    return Shop.randomBlend(random, Shop.random(random, 6), 4);
  }

  /** A dose of an acid or base, whichever the blend needs, to a target up to 3 units away. */
  private static AcidDose dose(long seed, double grams) {
    Random random = new Random(seed ^ 0xd05e);
    Blend b = blend(seed);
    double start = StartingPh.of(b).typical();
    boolean down = random.nextBoolean() && start > 4.5;
    double target =
        Math.max(3.5, Math.min(11, start + (down ? -1 : 1) * (0.2 + 2.8 * random.nextDouble())));
    Titrant t =
        target < start
            ? new Titrant[] {CITRIC, Titrant.lacticAcid(20), Titrant.gluconolactone()}
                [random.nextInt(3)]
            : random.nextBoolean() ? Titrant.sodiumHydroxide(10) : Titrant.potassiumHydroxide(5);
    return AcidDose.of(b).to(target).with(t).forBatch(Mass.grams(grams));
  }

  /** A target that 20 % citric acid reaches from a start, up to 1.4 units lower. */
  private static double below(double start) {
    return Math.min(11.5, start - 0.4 * Math.min(3.5, start - 2));
  }

  @Property(tries = 150, seed = "21")
  void moreOfAMoreAcidTitrantNeverRaisesThePh(@ForAll long seed) {
    Blend b = blend(seed);
    AcidDose d = AcidDose.of(b).to(7).with(CITRIC).forBatch(Mass.grams(100));
    double own = RecheckedPh.of(Blend.named("acid").line(Shop.CITRIC, 100).build(), WATER);
    double before = d.startPh();
    assertTrue(before > own, "the product is less acid than the titrant");
    for (double grams : new double[] {0.001, 0.01, 0.1, 0.3, 1, 3, 10, 30, 100}) {
      double after = d.phAfter(Mass.grams(grams));
      assertTrue(after <= before + 1e-9, () -> b + " rose with " + grams + " g");
      assertTrue(after > own - 0.05, "never past the titrant itself");
      before = after;
    }
  }

  @Property(tries = 150, seed = "22")
  void theWholeDoseIsPredictedToReachTheTarget(@ForAll long seed) {
    AcidDose d = dose(seed, 400);
    if (d.verdict() == AcidDose.Verdict.DOSE) {
      assertEquals(d.plan().target(), d.phAfter(d.total()), 1e-6, d::summary);
    } else {
      assertEquals(0, d.total().inGrams(), d::summary);
    }
  }

  /** The same by the full balance, written a second time, with the dose as one more line. */
  @Property(tries = 150, seed = "23")
  void theWholeDoseReachesTheTargetInTheFullBalance(@ForAll long seed) {
    Blend b = blend(seed);
    double start = StartingPh.of(b).typical();
    double target = below(start);
    AcidDose d = AcidDose.of(b).to(target).with(CITRIC).forBatch(Mass.grams(1));
    assertEquals(AcidDose.Verdict.DOSE, d.verdict(), d::summary);
    assertEquals(target, RecheckedPh.of(with(b, Shop.CITRIC, d.total().inGrams()), WATER), 1e-6);
  }

  @Property(tries = 100, seed = "24")
  void theDoseIsLinearInTheBatch(@ForAll long seed) {
    AcidDose one = dose(seed, 100);
    AcidDose seven = dose(seed, 700);
    assertEquals(one.verdict(), seven.verdict());
    assertEquals(7 * one.total().inGrams(), seven.total().inGrams(), 1e-9);
    assertEquals(7 * one.firstAddition().inGrams(), seven.firstAddition().inGrams(), 1e-9);
    assertEquals(7 * one.likelyGrams().high(), seven.likelyGrams().high(), 1e-9);
    assertEquals(7 * one.guaranteedGrams().low(), seven.guaranteedGrams().low(), 1e-9);
    assertEquals(one.adds(), seven.adds());
  }

  /** One half as a line of the product, the other dosed into it. */
  @Property(tries = 150, seed = "25")
  void twoHalfDosesEqualOne(@ForAll long seed) {
    Blend b = blend(seed);
    double target = below(StartingPh.of(b).typical());
    AcidDose d = AcidDose.of(b).to(target).with(CITRIC).forBatch(Mass.grams(100));
    double half = d.total().inGrams() / 2;
    Blend after = with(b, Shop.CITRIC, half / 100);
    AcidDose rest = AcidDose.of(after).to(target).with(CITRIC).forBatch(Mass.grams(100 + half));
    assertEquals(half, rest.total().inGrams(), 1e-6 * (1 + half));
    assertEquals(d.phAfter(Mass.grams(half)), rest.startPh(), 1e-7);
    assertEquals(target, rest.phAfter(Mass.grams(half)), 1e-6);
  }

  /** With the constants of the typical answer: no lot inside the ranges needs another dose. */
  @Property(tries = 60, seed = "26")
  void everyLotNeedsADoseInsideTheGuaranteedRange(@ForAll long seed) {
    Blend b = blend(seed);
    double target = below(StartingPh.of(b).typical());
    AcidDose d = AcidDose.of(b).to(target).with(CITRIC).forBatch(Mass.kilograms(1));
    Balance typical = Balance.typical(b, WATER);
    double citric =
        new Balance(WATER, new double[] {1}, List.of(Lot.typical(Shop.CITRIC, WATER)))
            .charge(target, d.ionicStrength());
    Random random = new Random(seed ^ 0x10f5);
    for (int i = 0; i < 20; i++) {
      Lot.Draw draw = i % 2 == 0 ? Lot.ends(random) : Lot.uniform(random);
      double need =
          Math.max(0, -typical.redrawn(b, draw).charge(target, d.ionicStrength()) / citric * 1000);
      assertTrue(
          need >= d.guaranteedGrams().low() - 1e-6 && need <= d.guaranteedGrams().high() + 1e-6,
          () -> need + " outside\n" + d);
    }
    assertTrue(d.firstAddition().inGrams() <= d.guaranteedGrams().low() + 1e-9);
  }

  /** The mending with held-back product always leads back to the target. */
  @Property(tries = 100, seed = "27")
  void productHeldBackMendsEveryOvershoot(@ForAll long seed) {
    Blend b = blend(seed);
    double target = below(StartingPh.of(b).typical());
    AcidDose d = AcidDose.of(b).to(target).with(CITRIC).forBatch(Mass.grams(100));
    double given = d.total().inGrams() * 1.4;
    OvershootRepair r = d.overshotWith(Mass.grams(given));
    assertTrue(r.phNow() < target);
    double fresh = r.withUnacidified().orElseThrow().mass().inGrams();
    assertEquals(target, RecheckedPh.of(with(b, Shop.CITRIC, given / (100 + fresh)), WATER), 1e-6);
  }

  /** The product with so much of a material per gram of it. */
  private static Blend with(Blend b, Material m, double perGram) {
    Blend.Builder more = Blend.named(b.name());
    List<BlendLine> lines = new ArrayList<>(b.lines());
    for (BlendLine l : lines) {
      more.line(l.material(), l.amount().value() / (1 + perGram));
    }
    return more.line(m, 100 * perGram / (1 + perGram)).build();
  }
}
