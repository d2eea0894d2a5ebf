package org.example.workshop;

import org.surfactantblend.Blends;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.io.Input;
import org.surfactantblend.io.SolveFile;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.solve.BlendResult;

/** A program of somebody else: solves a blend with the packaged library and prints it. */
public final class Workshop {
  private static final String ASKED =
      """
      {"version": 1, "kind": "solve", "name": "Barley shampoo",
       "totalActive": {"percent": 12, "tolerance": 0.3},
       "choosingFrom": ["cocamidopropyl-betaine-30", "decyl-glucoside-52"]}
      """;

  private Workshop() {}

  /** Solves one brief built in Java and one read from JSON. */
  public static void main(String[] arguments) {
    MaterialTable table = Blends.starterTable().priced(Blends.demoPrices());
    Brief brief =
        Brief.named("Linden hand wash")
            .totalActive(9.0, 0.2)
            .share(ChargeClass.AMPHOTERIC, 40, 60)
            .choosingFrom("cocamidopropyl-betaine-30", "decyl-glucoside-52")
            .cheapest()
            .build();
    BlendResult result = Blends.solve(brief, table);
    System.out.print(result.summary());
    SolveFile.Request read =
        SolveFile.read(Input.text("asked", ASKED), table).orElseThrow().orElseThrow();
    System.out.print(SolveFile.write(Blends.solve(read.brief(), table), table));
    System.err.print(Blends.class.getModule().getName());
  }
}
