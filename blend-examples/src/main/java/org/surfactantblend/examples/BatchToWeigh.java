package org.surfactantblend.examples;

import org.surfactantblend.Blends;
import org.surfactantblend.batch.BatchSheet;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Scale;

/** Five kilograms on two scales: what to weigh, in which order, and what rounding does. */
public final class BatchToWeigh {
  private BatchToWeigh() {}

  /**
   * Prints a batch sheet.
   *
   * @param args none
   */
  public static void main(String[] args) {
    MaterialTable table = Blends.starterTable();
    Blend linden =
        Blend.named("Linden hand wash")
            .line(table.get("cocamidopropyl-betaine-30"), 12.0)
            .line(table.get("decyl-glucoside-52-neutralised"), 8.0)
            .line(table.get("glycerin"), 3.0)
            .line(table.get("sodium-benzoate"), 0.5)
            .upToHundredWith(table.get("water"));

    System.out.print(
        BatchSheet.of(linden)
            .mass(Mass.kilograms(5))
            .batchNumber("LHW-031")
            .on(Scale.of(0.1, 600), Scale.of(5, 30_000))
            .text());
  }
}
