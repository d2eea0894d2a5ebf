package org.surfactantblend.acidity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.surfactantblend.acidity.OvershootRepair.Correction;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.testing.RecheckedPh.Balance;
import org.surfactantblend.testing.RecheckedPh.Lot;
import org.surfactantblend.testing.RecheckedPh.Water;
import org.surfactantblend.testing.Shop;

class OvershootRepairTest {
  private static final Water WATER = Water.at25();
  private static final Blend WASH =
      Blend.named("Wash")
          .line(Shop.BETA, 14.9)
          .line(Shop.DECYL, 8.7)
          .line(Shop.BENZOATE, 0.5)
          .upToHundredWith(Shop.WATER);
  private static final AcidDose DOSE =
      AcidDose.of(WASH).to(5.5).with(Titrant.of(Shop.CITRIC)).forBatch(Mass.grams(400));
  private static final double GIVEN = DOSE.total().inGrams() * 1.5;
  private static final OvershootRepair REPAIR = DOSE.overshotWith(Mass.grams(GIVEN));

  /** The pH after the acid and after more, by chemistry that shares no code with the library. */
  private static double truth(double product, double acid, double soda) {
    Lot hydroxide = Lot.typical(TestTable.get("sodium-hydroxide-10"), WATER);
    double[] fractions = new double[WASH.lines().size() + 2];
    java.util.ArrayList<Lot> lots = new java.util.ArrayList<>();
    for (int i = 0; i < WASH.lines().size(); i++) {
      fractions[i] = WASH.lines().get(i).massFraction() * product;
      lots.add(Lot.typical(WASH.lines().get(i).material(), WATER));
    }
    fractions[fractions.length - 2] = acid;
    fractions[fractions.length - 1] = soda;
    lots.add(Lot.typical(Shop.CITRIC, WATER));
    lots.add(hydroxide);
    return new Balance(WATER, fractions, lots).ph();
  }

  @Test
  void theBatchStandsWhereTheFullBalanceSays() {
    assertEquals(truth(400, GIVEN, 0), REPAIR.phNow(), 1e-6);
    assertTrue(REPAIR.phNow() < 5.3);
    assertTrue(REPAIR.surplusMeqPerKg() > 0);
    assertTrue(REPAIR.toString().endsWith("meq/kg of acid too much"), REPAIR::toString);
  }

  @Test
  void sodaBringsItBackAndSaysWhatItLeaves() {
    Correction c = REPAIR.with(Titrant.of(TestTable.get("sodium-hydroxide-10"))).orElseThrow();
    double soda = c.mass().inGrams();
    // The ionic strength is that of the right dose: worth a few thousandths of a pH.
    assertEquals(5.5, truth(400, GIVEN, soda), 0.01);
    double mended = 400 + GIVEN + soda;
    assertEquals(2.5 * soda / mended * 1000, c.cationsMmolPerKg(), 1e-9);
    double surplus = GIVEN - DOSE.total().inGrams();
    assertEquals(
        surplus * 20 / mended, c.leaves().getOrDefault("Citric Acid", 0.0), 1e-4, "citrate left");
    assertEquals(
        9 * soda / mended * 10, c.adds().getOrDefault("Aqua", 0.0), 0.5 * soda / mended * 10);
    assertEquals(
        WASH.totalActive().value() * 400 / mended, c.activePercentAfter(), 1e-9, "diluted");
    assertEquals(
        WASH.totalActive().value() * 400 / (400 + DOSE.total().inGrams()),
        c.activePercentOnTarget(),
        1e-4);
    assertTrue(c.activePercentAfter() < c.activePercentOnTarget());
    assertTrue(c.toString().contains("Caution: strong alkali"), c::toString);
    assertTrue(c.toString().contains("Citric Acid too much, stays as its salt"), c::toString);
    assertTrue(c.likelyGrams().isExact(), "nothing was learned from readings");
  }

  @Test
  void productHeldBackBringsItBackWithoutAnythingElse() {
    Correction c = REPAIR.withUnacidified().orElseThrow();
    // Half too much acid is right for half more product.
    assertEquals(200, c.mass().inGrams(), 1e-4);
    assertEquals(5.5, truth(600, GIVEN, 0), 1e-6);
    assertEquals(c.activePercentOnTarget(), c.activePercentAfter(), 1e-9);
    assertEquals(0, c.cationsMmolPerKg());
    assertTrue(c.adds().isEmpty() && c.leaves().isEmpty());
  }

  @Test
  void theWrongKindIsNoRepair() {
    assertFalse(REPAIR.with(Titrant.citricAcid(20)).isPresent());
    OvershootRepair under = DOSE.overshotWith(Mass.grams(DOSE.total().inGrams() * 0.5));
    assertFalse(under.with(Titrant.sodiumHydroxide(10)).isPresent());
    assertFalse(under.withUnacidified().isPresent());
  }

  @Test
  void aTooAlkalineBatchIsBroughtBackWithAcid() {
    Blend mild = Blend.named("mild").line(Shop.BETA, 20).upToHundredWith(Shop.WATER);
    AcidDose up =
        AcidDose.of(mild).to(7).with(Titrant.sodiumHydroxide(10)).forBatch(Mass.kilograms(1));
    OvershootRepair r = up.overshotWith(Mass.grams(up.total().inGrams() * 1.3));
    assertTrue(r.surplusMeqPerKg() < 0);
    assertTrue(r.toString().endsWith("of base too much"));
    Correction c = r.with(Titrant.citricAcid(20)).orElseThrow();
    assertTrue(c.adds().containsKey("Citric Acid"));
    assertEquals(0, c.cationsMmolPerKg());
    assertEquals(
        0.3 * up.total().inGrams(),
        r.withUnacidified().orElseThrow().mass().inGrams() * up.total().inGrams() / 1000,
        1e-6);
  }

  @Test
  void readingsGiveTheRepairAnInterval() {
    Titration t =
        AcidDose.of(WASH)
            .to(5.5)
            .with(Titrant.of(Shop.CITRIC))
            .forBatch(Mass.grams(400))
            .begin(Meter.accurateTo(0.05))
            .reading(StartingPh.of(WASH).typical())
            .dosed(GIVEN)
            .reading(REPAIR.phNow());
    List<ReadingFlag> held = t.flags().stream().filter(ReadingFlag::held).toList();
    assertEquals(List.of(), held);
    Correction c = t.repair().with(Titrant.sodiumHydroxide(10)).orElseThrow();
    assertTrue(c.likelyGrams().width() > 0);
    assertTrue(
        c.likelyGrams()
            .contains(REPAIR.with(Titrant.sodiumHydroxide(10)).orElseThrow().mass().inGrams()),
        c::toString);
    Correction fresh = t.repair().withUnacidified().orElseThrow();
    assertTrue(fresh.likelyGrams().contains(200), fresh::toString);
  }
}
