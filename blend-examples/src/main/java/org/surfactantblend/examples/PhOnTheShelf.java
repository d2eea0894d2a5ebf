package org.surfactantblend.examples;

import org.surfactantblend.Blends;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.MaterialTable;

/** Which pH will what I have on the shelf start at, and how sure is that? */
public final class PhOnTheShelf {
  private PhOnTheShelf() {}

  /**
   * Predicts the starting pH of a recipe as supplied.
   *
   * @param args none
   */
  public static void main(String[] args) {
    MaterialTable table = Blends.starterTable();
    Blend linden =
        Blend.named("Linden hand wash")
            .line(table.get("cocamidopropyl-betaine-30"), 12.0)
            .line(table.get("decyl-glucoside-52"), 5.2)
            .line(table.get("coco-glucoside-52"), 5.2)
            .line(table.get("glycerin"), 3.0)
            .upToHundredWith(table.get("water"));
    System.out.print(StartingPh.of(linden).summary());
  }
}
