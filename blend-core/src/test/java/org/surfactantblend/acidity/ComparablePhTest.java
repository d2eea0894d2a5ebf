package org.surfactantblend.acidity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.testing.Shop;

class ComparablePhTest {
  private static final Blend BUFFERED =
      Blend.named("buffered")
          .line(Shop.BENZOATE, 1)
          .line(Shop.CITRIC, 1)
          .upToHundredWith(Shop.WATER);

  /** A few mmol/kg of free alkali in water, nothing else. */
  private static final Blend ALKALI =
      Blend.named("alkali")
          .line(
              Material.builder("weak-lye")
                  .inciName("Sodium Hydroxide")
                  .strongIonEqPerKg(Range.exactly(0.1))
                  .build(),
              1)
          .upToHundredWith(Shop.WATER);

  private static final Blend AMINE =
      TestTable.blend("amine", "tea-lauryl-sulfate-40", 20, "triethanolamine-99", 0.5);

  @Test
  void aPlainReadingIsWorthWhatItSays() {
    ComparablePh c = ComparablePh.of(BUFFERED, PhReading.of(5.2));
    assertEquals(5.2, c.ph(), 1e-9);
    assertEquals(0, c.likely().width(), 1e-9);
    assertEquals(List.of(), c.advice());
  }

  /** Free alkali dilutes: 1 mmol/kg reads 11 neat and 10 at 10 % (common practice, arithmetic). */
  @Test
  void freeAlkaliFallsByOneUnitInATenfoldDilution() {
    double neat = StartingPh.of(ALKALI).typical();
    assertEquals(11, neat, 0.03);
    ComparablePh diluted = ComparablePh.inOtherState(ALKALI, neat, 25, 10);
    assertEquals(10, diluted.ph(), 0.03);
    // And back: the diluted reading is worth the neat one.
    assertEquals(neat, ComparablePh.of(ALKALI, PhReading.of(diluted.ph()).diluted(10)).ph(), 1e-6);
    assertTrue(diluted.likely().width() > 0.6, "three tenths of a unit each way, and more");
    assertTrue(
        diluted.advice().get(0).contains("read again neat at 20 to 25 C"),
        diluted.advice()::toString);
  }

  /** A product buffered near 5 hardly moves: 0 to 0.2 (common practice, no source). */
  @Test
  void aBufferedProductHardlyMoves() {
    ComparablePh c = ComparablePh.inOtherState(BUFFERED, 5.2, 25, 10);
    assertTrue(Math.abs(c.ph() - 5.2) < 0.2, c::toString);
    ComparablePh hot = ComparablePh.inOtherState(BUFFERED, 5.2, 45, 100);
    assertTrue(Math.abs(hot.ph() - 5.2) < 0.05, hot::toString);
  }

  /** Triethanolamine falls by about 0.02 per degree: 33.6 kJ/mol over 2.303 R T^2. */
  @Test
  void anAmineFallsWhenItIsHot() {
    double neat = StartingPh.of(AMINE).typical();
    ComparablePh hot = ComparablePh.inOtherState(AMINE, neat, 45, 100);
    double byHand = 33600 / (2.302585 * 8.31446) * (1 / 298.15 - 1 / 318.15);
    assertEquals(neat - byHand, hot.ph(), 0.05);
    assertEquals(neat, ComparablePh.of(AMINE, PhReading.of(hot.ph()).at(45)).ph(), 1e-6);
    // The same by the starting pH under other conditions.
    assertEquals(
        StartingPh.of(AMINE, Conditions.standard().withTemperature(45)).typical(), hot.ph(), 0.01);
  }

  /** Where the table knows no enthalpy of an amine, 0.02 to 0.03 per degree is taken. */
  @Test
  void anAmineWithoutEnthalpyWidensTheInterval() {
    Blend b = TestTable.blend("amphoacetate", "sodium-cocoamphoacetate-32", 20);
    double neat = StartingPh.of(b).typical();
    ComparablePh hot = ComparablePh.inOtherState(b, neat, 45, 100);
    assertTrue(hot.ph() < neat - 0.1, hot::toString);
    assertTrue(hot.likely().contains(hot.ph()));
    assertTrue(
        hot.advice()
            .contains("amines carry part of its buffer: they fall by 0.02 to 0.03 per degree"),
        hot::toString);
  }

  @Test
  void figuresOutOfRangeAreRefused() {
    assertThrows(
        IllegalArgumentException.class, () -> ComparablePh.inOtherState(AMINE, 7, 70, 100));
    assertThrows(
        IllegalArgumentException.class, () -> ComparablePh.inOtherState(AMINE, 7, 25, 0.05));
    assertThrows(
        IllegalArgumentException.class, () -> ComparablePh.inOtherState(AMINE, 15, 25, 10));
  }
}
