package org.surfactantblend;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.MaterialTable;

/**
 * Facts of the trade: common practice, no source. A betaine with two alkaline glucosides starts far
 * below the glucosides alone, near neutral for many lots, and little citric acid brings it to skin
 * pH.
 */
class TradeFactsReferenceTest {
  private final MaterialTable table = Blends.starterTable();

  /** Betaine, decyl and coco glucoside 4 : 3 : 3 by active matter, 9 % active in all. */
  private Blend.Builder fourThreeThree() {
    return glucosides().line(table.get("cocamidopropyl-betaine-30"), 3.6 / 0.30);
  }

  private Blend.Builder glucosides() {
    return Blend.named("betaine and glucosides")
        .line(table.get("decyl-glucoside-52"), 2.7 / 0.52)
        .line(table.get("coco-glucoside-52"), 2.7 / 0.52);
  }

  @Test
  void startsNearNeutralForManyLotsAndNamesTheGlucosidesAlkali() {
    Blend blend = fourThreeThree().upToHundredWith(table.get("water"));
    assertEquals(9.0, blend.totalActive().value(), 1e-9);
    StartingPh start = StartingPh.of(blend);
    assertTrue(start.guaranteed().contains(7.1), start.summary());
    StartingPh alone = StartingPh.of(glucosides().upToHundredWith(table.get("water")));
    assertTrue(start.typical() <= alone.typical() - 1, start.summary() + alone.summary());
    assertEquals("the alkali of decyl-glucoside-52 and coco-glucoside-52", start.causeInWords());
  }

  @Test
  void lessThanHalfAPercentOfCitricAcidBringsItToSkinPh() {
    double low = 0;
    double high = 0.5;
    for (int i = 0; i < 40; i++) {
      double middle = (low + high) / 2;
      Blend acidified =
          fourThreeThree()
              .line(table.get("citric-acid-anhydrous"), middle)
              .upToHundredWith(table.get("water"));
      if (StartingPh.of(acidified).typical() > 5.25) {
        low = middle;
      } else {
        high = middle;
      }
    }
    assertTrue(high < 0.5, "citric acid " + high + " %");
    Blend done =
        fourThreeThree()
            .line(table.get("citric-acid-anhydrous"), high)
            .upToHundredWith(table.get("water"));
    assertEquals(5.25, StartingPh.of(done).typical(), 0.25);
  }
}
