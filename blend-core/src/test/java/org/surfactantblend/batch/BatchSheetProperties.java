package org.surfactantblend.batch;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Scale;
import org.surfactantblend.testing.RandomBlends;

class BatchSheetProperties {
  private static List<Scale> scales(Random random) {
    List<List<Scale>> shops =
        List.of(
            List.of(Scale.of(0.01, 200), Scale.of(0.1, 2000), Scale.of(5, 30000)),
            List.of(Scale.of(0.1, 600), Scale.of(1, 10000)),
            List.of(Scale.of(1, 5000)),
            List.of(Scale.of(0.02, 120), Scale.of(0.5, 4000), Scale.of(20, 60000)));
    return shops.get(random.nextInt(shops.size()));
  }

  private static BatchSheet sheet(long seed, boolean keepingTotal) {
    Random random = new Random(seed);
    BatchSheet.Plan plan =
        BatchSheet.of(RandomBlends.blend(seed)).mass(Mass.grams(100 + random.nextInt(20000)));
    return (keepingTotal ? plan.keepingTotal() : plan).on(scales(random));
  }

  @Property(tries = 300, seed = "20261125")
  void linesAndTheExactRestSumToTheBatch(@ForAll long seed) {
    BatchSheet s = sheet(seed, false);
    double sum = s.water().orElseThrow().residualGrams();
    for (BatchLine l : s.lines()) {
      sum += l.weighGrams();
      double off = Math.abs(l.weighGrams() - l.exactGrams());
      assertTrue(off <= l.scale().resolutionGrams() * (0.5 + 1e-6), l.toString());
    }
    assertEquals(s.mass().inGrams(), sum, 1e-9 * s.mass().inGrams());
  }

  @Property(tries = 300, seed = "20261125")
  void withTheOptionTheWeighedGramsSumToTheBatch(@ForAll long seed) {
    BatchSheet s = sheet(seed, true);
    double sum = s.water().orElseThrow().weighGrams();
    for (BatchLine l : s.lines()) {
      sum += l.weighGrams();
      double off = Math.abs(l.weighGrams() - l.exactGrams());
      assertTrue(off <= l.scale().resolutionGrams() * (1 + 1e-6), l.toString());
    }
    assertEquals(s.mass().inGrams(), sum, 1e-9 * s.mass().inGrams());
  }

  @Property(tries = 300, seed = "20261125")
  void theRealisedActiveStaysWithinTheBoundOnTheSheet(
      @ForAll long seed, @ForAll boolean keepingTotal) {
    BatchSheet s = sheet(seed, keepingTotal);
    // Summed anew from the grams on the sheet.
    double active = 0;
    double total = s.water().orElseThrow().weighGrams();
    for (BatchLine l : s.lines()) {
      active += l.weighGrams() * l.material().activePercent().typical();
      total += l.weighGrams();
    }
    double realised = active / total;
    assertEquals(realised, s.realised().totalActive().value(), 1e-9);
    double off = Math.abs(realised - s.blend().totalActive().value());
    assertTrue(off <= s.activeErrorBound() + 1e-12, off + " > " + s.activeErrorBound());
  }

  @Property(tries = 300, seed = "20261125")
  void theOptionNeverMakesTheGramsOfActiveWorse(@ForAll long seed) {
    BatchSheet plain = sheet(seed, false);
    BatchSheet kept = sheet(seed, true);
    assertTrue(Math.abs(activeOff(kept)) <= Math.abs(activeOff(plain)) + 1e-9);
  }

  private static double activeOff(BatchSheet s) {
    double off = 0;
    for (BatchLine l : s.lines()) {
      off += (l.weighGrams() - l.exactGrams()) * l.material().activePercent().typical() / 100;
    }
    return off;
  }

  @Property(tries = 300, seed = "20261125")
  void anySingleFaultIsCorrectedOrExplained(@ForAll long seed) {
    Random random = new Random(seed);
    BatchSheet s = sheet(seed, false);
    Blend plan = s.blend();
    BatchLine line = s.lines().get(random.nextInt(s.lines().size()));
    if (line.weighGrams() == 0) {
      return;
    }
    String id = line.material().id();
    AsWeighed faulty =
        switch (random.nextInt(5)) {
          case 0 -> AsWeighed.of(s).missed(id);
          case 1 -> AsWeighed.of(s).doubled(id);
          case 2 ->
              AsWeighed.of(s).evaporated(Mass.grams(s.water().orElseThrow().weighGrams() * 0.1));
          case 3 ->
              AsWeighed.of(s).weighed(id, Mass.grams(line.weighGrams() * random.nextDouble() * 3));
          default ->
              AsWeighed.of(s)
                  .fromLot("surfactant-0", RandomBlends.lot(random, 0, "not the planned one"));
        };
    if (random.nextInt(4) == 0) {
      faulty = faulty.kettle(Mass.grams(faulty.mass().inGrams() * 1.05));
    }
    Correction c = faulty.correction();
    Blend after = c.contents();
    if (c.repairsEverything()) {
      for (String inci : plan.inciAmounts().keySet()) {
        if (!inci.equals("Aqua")) {
          double wanted = plan.percentOf(inci).typical();
          assertEquals(wanted, after.percentOf(inci).typical(), 1e-6 * wanted + 1e-9, inci);
        }
      }
    } else {
      for (Correction.NotRepaired n : c.notRepaired()) {
        assertTrue(n.reason().length() > 10);
        assertEquals(n.reachedPercent(), after.percentOf(n.name()).typical(), 1e-6);
      }
      assertTrue(c.finalMass().inGrams() <= 1.051 * faulty.mass().inGrams());
    }
  }
}
