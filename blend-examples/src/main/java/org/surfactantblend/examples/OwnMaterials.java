package org.surfactantblend.examples;

import java.io.IOException;
import java.nio.file.Path;
import org.surfactantblend.Blends;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.io.Input;
import org.surfactantblend.io.MaterialFile;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Loaded;

/** How do I use the drums on my own shelf? Lay my CSV over the shipped table. */
public final class OwnMaterials {
  private static final String SHELF =
      """
      id,inci_name,grade,charge_class,family,active_min_pct,active_typ_pct,active_max_pct,ph_low,ph_high,ph_dilution_pct,salt_min_pct,salt_max_pct,molar_mass_g_per_mol,price_per_kg
      betaine-drum-7,Cocamidopropyl Betaine,drum 7,amphoteric,amidopropyl betaine,30.8,31.2,31.6,5.0,5.4,10,5.0,5.4,350,2.10
      glucoside-drum-3,Decyl Glucoside,drum 3,nonionic,alkaline alkyl polyglucoside,51,51.5,52,11.6,11.9,20,0,0.1,400,4.60
      mystery-paste,Sodium Laureth Sulfate,no sheet,anionik,alkyl ether sulfate,,"70,5",,7,8,,,,384,1.90
      """;

  private OwnMaterials() {}

  /**
   * Reads materials, prints every problem, and solves a brief with the good rows.
   *
   * @param args a CSV file, or none for the built-in shelf
   * @throws IOException if the file cannot be read
   */
  public static void main(String[] args) throws IOException {
    Input input = args.length > 0 ? Input.file(Path.of(args[0])) : Input.text("shelf.csv", SHELF);
    MaterialTable shipped = Blends.starterTable().priced(Blends.demoPrices());
    Loaded<MaterialTable> mine = MaterialFile.readCsv(input, shipped);
    mine.problems().forEach(System.out::println);
    if (args.length > 0) {
      return;
    }

    Brief brief =
        Brief.named("Fragrance-free body wash from my shelf")
            .totalActive(12, 0.2)
            .share(ChargeClass.AMPHOTERIC, 50, 70)
            .choosingFrom("betaine-drum-7", "glucoside-drum-3")
            .cheapest()
            .build();
    System.out.print(Blends.solve(brief, mine.value()).summary());
  }
}
