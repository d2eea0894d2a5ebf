package org.surfactantblend.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.surfactantblend.material.Material;
import org.surfactantblend.solve.Rebalance.Amount;
import org.surfactantblend.solve.Rebalance.Answer;
import org.surfactantblend.solve.Rebalance.Held;
import org.surfactantblend.solve.Rebalance.Reached;
import org.surfactantblend.testing.Shop;

/** Tasks worked out by hand: sulf is 27 % active, beta 30 %, decyl 52 %. */
class RebalanceTest {
  private static final Held SULF = active(Shop.SULF, 5.4);
  private static final Held BETA = active(Shop.BETA, 3);

  private static Held active(Material of, double percent) {
    return new Held(
        "active of " + of.id(), m -> m == of ? m.activePercent().typical() : 0, percent);
  }

  private static Amount of(Material m, double mass) {
    return new Amount(m, mass);
  }

  private static void refused(String message, Executable call) {
    assertEquals(
        message,
        String.valueOf(assertThrows(IllegalArgumentException.class, call).getMessage()).strip());
  }

  private static void assertAdded(Answer answer, double... grams) {
    assertEquals(grams.length, answer.additions().size());
    for (int j = 0; j < grams.length; j++) {
      assertEquals(grams[j], answer.additions().get(j), 1e-5, answer.toString());
    }
  }

  @Test
  void fromNothingToTheTotal() {
    Answer a =
        new Rebalance(
                List.of(),
                List.of(of(Shop.SULF, 1000), of(Shop.BETA, 1000), of(Shop.WATER, 1000)),
                List.of(SULF, BETA),
                1000,
                1000)
            .solve();
    // 54 g of active from 27 %, 30 g from 30 %.
    assertAdded(a, 200, 100, 700);
    assertEquals(1000, a.total(), 1e-9);
    assertTrue(a.holdsAll());
    assertEquals(List.of(SULF, BETA), a.reached().stream().map(Reached::held).toList());
  }

  @Test
  void whatIsThereIsTopppedUpToTheSmallestTotal() {
    // 300 g of sulf hold 81 g of active, which 5.4 % of 1500 g are.
    Rebalance task =
        new Rebalance(
            List.of(of(Shop.SULF, 300)),
            List.of(of(Shop.SULF, 2000), of(Shop.BETA, 2000), of(Shop.WATER, 2000)),
            List.of(SULF, BETA),
            1000,
            2000);
    Answer a = task.solve();
    assertAdded(a, 0, 150, 1050);
    assertEquals(1500, a.total(), 1e-6);
    // Nothing more is needed where all is there.
    Answer none =
        new Rebalance(
                List.of(of(Shop.SULF, 200), of(Shop.BETA, 100), of(Shop.WATER, 700)),
                List.of(of(Shop.SULF, 2000), of(Shop.WATER, 2000)),
                List.of(SULF, BETA),
                500,
                2000)
            .solve();
    assertAdded(none, 0, 0);
    assertEquals(1000, none.total(), 1e-9);
    assertTrue(none.holdsAll());
  }

  @Test
  void tooMuchInTooSmallAKettleGivesWay() {
    Answer a =
        new Rebalance(
                List.of(of(Shop.SULF, 300)),
                List.of(of(Shop.SULF, 2000), of(Shop.BETA, 2000), of(Shop.WATER, 2000)),
                List.of(SULF, BETA),
                1000,
                1200)
            .solve();
    assertFalse(a.holdsAll());
    // 81 g in 1200 g: a quarter too much; beta can still be held.
    assertEquals(6.75, a.reached().get(0).percent(), 1e-6);
    assertFalse(a.reached().get(0).isHeld());
    assertEquals(3, a.reached().get(1).percent(), 1e-4);
    assertEquals(1200, a.total(), 1e-6);
    assertEquals(0, a.additions().get(0), 1e-9);
  }

  @Test
  void aShortSupplyGivesWayAlone() {
    Answer a =
        new Rebalance(
                List.of(),
                List.of(of(Shop.SULF, 100), of(Shop.BETA, 1000), of(Shop.WATER, 1000)),
                List.of(SULF, BETA),
                1000,
                1000)
            .solve();
    assertAdded(a, 100, 100, 800);
    assertEquals(2.7, a.reached().get(0).percent(), 1e-6);
    assertEquals(
        List.of(false, true), a.reached().stream().map(Reached::isHeld).toList(), a.toString());
  }

  /** Where all have to give way, the largest relative miss is as small as can be. */
  @Test
  void theLackIsShared() {
    Held much = active(Shop.SULF, 16.2);
    Held more = active(Shop.BETA, 18);
    // 60 % and 60 % have to fit into 100: five sixths of each.
    Answer a =
        new Rebalance(
                List.of(),
                List.of(of(Shop.SULF, 100), of(Shop.BETA, 100), of(Shop.WATER, 100)),
                List.of(much, more),
                100,
                100)
            .solve();
    assertAdded(a, 50, 50, 0);
    assertEquals(16.2 / 1.2, a.reached().get(0).percent(), 1e-6);
    assertEquals(18 / 1.2, a.reached().get(1).percent(), 1e-6);
  }

  /** Whatever can be held is held, whatever the masses are counted in. */
  @Test
  void theUnitOfMassDoesNotMatter() {
    Random random = new Random(20261125);
    for (int i = 0; i < 40; i++) {
      double sulf = 1 + 8 * random.nextDouble();
      double beta = 1 + 8 * random.nextDouble();
      List<Held> held = List.of(active(Shop.SULF, sulf), active(Shop.BETA, beta));
      double there = 400 * random.nextDouble();
      double[] totals = new double[2];
      for (int k = 0; k < 2; k++) {
        double unit = k == 0 ? 1 : 1e-3;
        Answer a =
            new Rebalance(
                    List.of(of(Shop.SULF, there * unit)),
                    List.of(
                        of(Shop.SULF, 9000 * unit),
                        of(Shop.BETA, 9000 * unit),
                        of(Shop.WATER, 9000 * unit)),
                    held,
                    500 * unit,
                    20000 * unit)
                .solve();
        assertTrue(a.holdsAll(), a.toString());
        totals[k] = a.total() / unit;
        double all = there * unit;
        for (double g : a.additions()) {
          assertTrue(g >= 0);
          all += g;
        }
        assertEquals(all, a.total(), 1e-9 * all);
      }
      // The smallest total in which what is there is not too much.
      double smallest = Math.max(500, there * 27 / sulf);
      assertEquals(smallest, totals[0], 1e-4 * smallest);
      assertEquals(totals[0], totals[1], 1e-6 * totals[0]);
    }
  }

  @Test
  void heldIsJudgedByTheContent() {
    Held one = active(Shop.SULF, 1);
    assertTrue(new Reached(one, 1 + 0.9e-8).isHeld());
    assertFalse(new Reached(one, 1 + 1.1e-8).isHeld());
    assertFalse(new Reached(one, 1 - 1.1e-8).isHeld());
    Held none = active(Shop.SULF, 0);
    assertTrue(new Reached(none, 0.9e-11).isHeld());
    assertFalse(new Reached(none, 1.1e-11).isHeld());
  }

  @Test
  void whatIsRefused() {
    List<Amount> water = List.of(of(Shop.WATER, 1));
    refused("mass of water was -1.0, allowed is 0.0 or more", () -> of(Shop.WATER, -1));
    refused(
        "active of sulf was 101.0, allowed is 0.0 to 100.0 % m/m", () -> active(Shop.SULF, 101));
    refused(
        "least total was 2.0, allowed is 0.0 to 1.0",
        () -> new Rebalance(List.of(), water, List.of(), 2, 1));
    assertThrows(
        IllegalArgumentException.class, () -> new Rebalance(List.of(), water, List.of(), 0, 0));
    assertTrue(
        assertThrows(
                IllegalArgumentException.class,
                () -> new Rebalance(List.of(of(Shop.SULF, 3)), water, List.of(), 1, 2))
            .getMessage()
            .startsWith("mass already there was 3.0, allowed is 0.0 to 2"));
    // One gram of water cannot make up a hundred.
    refused(
        "greatest total was 100.0, allowed is one that what is there and what is available can make"
            + " up",
        () -> new Rebalance(List.of(), water, List.of(SULF), 100, 100).solve());
  }
}
