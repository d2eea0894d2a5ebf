package org.surfactantblend.examples;

import org.surfactantblend.Blends;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.swap.SupplierSwap;

/** The next drum of betaine is the stronger grade: what keeps the product the same? */
public final class AnotherDrum {
  private AnotherDrum() {}

  /**
   * Prints a swap report.
   *
   * @param args none
   */
  public static void main(String[] args) {
    MaterialTable table = Blends.starterTable().priced(Blends.demoPrices());
    Blend linden =
        Blend.named("Linden hand wash")
            .line(table.get("cocamidopropyl-betaine-30"), 12.0)
            .line(table.get("decyl-glucoside-52-neutralised"), 8.0)
            .line(table.get("glycerin"), 3.0)
            .upToHundredWith(table.get("water"));

    System.out.print(
        SupplierSwap.in(linden)
            .replace("cocamidopropyl-betaine-30")
            .with(table.get("cocamidopropyl-betaine-37"))
            .priced(table.prices())
            .correctedWith(table.get("citric-acid-20"), 5.5)
            .report());
  }
}
