package org.surfactantblend.examples;

import org.surfactantblend.Blends;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.MaterialTable;

/** Which drums, and how much of each, make an oat face wash with 9 % active matter? */
public final class FirstBlend {
  private FirstBlend() {}

  /**
   * Solves one brief on the shipped table with the demo prices and prints the answer.
   *
   * @param args none
   */
  public static void main(String[] args) {
    MaterialTable table = Blends.starterTable().priced(Blends.demoPrices());

    Brief brief =
        Brief.named("Oat face wash")
            .totalActive(9.0, 0.2) // % active matter of the product
            .share(ChargeClass.AMPHOTERIC, 40, 60) // % of the active matter
            .startingPh(6.0, 7.5)
            .choosingFrom(
                "cocamidopropyl-betaine-30",
                "decyl-glucoside-52",
                "coco-glucoside-52",
                "sodium-cocoyl-glutamate-27")
            .fixed("glycerin", 3.0) // % m/m as supplied
            .fixed("sodium-benzoate", 0.5)
            .atMostSurfactants(3)
            .cheapest()
            .build();

    System.out.print(Blends.solve(brief, table).summary());
  }
}
