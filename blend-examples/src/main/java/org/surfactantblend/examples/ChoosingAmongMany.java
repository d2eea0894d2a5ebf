package org.surfactantblend.examples;

import org.surfactantblend.Blends;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.solve.Measure;
import org.surfactantblend.solve.SolvedBlend;

/** Which three of eight drums, what is next best, what does milder cost? */
public final class ChoosingAmongMany {
  private ChoosingAmongMany() {}

  /**
   * A brief that may choose three of eight drums.
   *
   * @param table the table with its prices
   * @return the brief
   */
  static Brief brief(MaterialTable table) {
    return Brief.named("Harbour hand wash")
        .totalActive(9, 0)
        .share(ChargeClass.ANIONIC, 0, 60)
        .startingPh(6, 7.5)
        .choosingFrom(
            "sodium-laureth-sulfate-70",
            "sodium-c14-16-olefin-sulfonate-40",
            "sodium-cocoyl-glutamate-27",
            "cocamidopropyl-betaine-37",
            "sodium-cocoamphoacetate-32",
            "decyl-glucoside-52-neutralised",
            "coco-glucoside-52",
            "lauramine-oxide-30")
        .atMostSurfactants(3)
        .minimumUse(1)
        .cheapest()
        .build();
  }

  /**
   * Prints alternatives, a trade-off and what would change the answer.
   *
   * @param args none
   */
  public static void main(String[] args) {
    MaterialTable table = Blends.starterTable().priced(Blends.demoPrices());
    Brief brief = brief(table);

    System.out.println(Blends.alternatives(brief, table, 3).table());
    System.out.println(
        Blends.tradeOff(brief, table, Measure.COST, Measure.IRRITATION_INDEX).table());
    SolvedBlend best = Blends.alternatives(brief, table, 1).blends().get(0);
    System.out.print(best.sensitivity().table());
  }
}
