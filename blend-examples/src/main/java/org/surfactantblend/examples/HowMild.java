package org.surfactantblend.examples;

import java.util.List;
import org.surfactantblend.Blends;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.mildness.BlendMildness;

/** Three shampoos of the same strength side by side: the cheapest, a limited one, the mildest. */
public final class HowMild {
  private HowMild() {}

  /**
   * Prints the measures of mildness of the three.
   *
   * @param args not used
   */
  public static void main(String[] args) {
    MaterialTable table = Blends.starterTable().priced(Blends.demoPrices());
    Blend cheapest = Blends.solve(shampoo("Cheapest").build(), table).orElseThrow();
    Blend limited =
        Blends.solve(shampoo("Index at most 45").irritationIndexAtMost(45).build(), table)
            .orElseThrow();
    Blend mildest = Blends.solve(shampoo("Mildest").mildest().build(), table).orElseThrow();
    System.out.print(
        BlendMildness.table(
            List.of(
                Blends.mildness(cheapest, table),
                Blends.mildness(limited, table),
                Blends.mildness(mildest, table))));
  }

  private static Brief.Builder shampoo(String name) {
    return Brief.named(name)
        .totalActive(12, 0) // an index knows nothing of dose
        .share(ChargeClass.ANIONIC, 40, 80)
        .share(ChargeClass.AMPHOTERIC, 10, 40)
        .choosingFrom(
            "sodium-laureth-sulfate-27", "cocamidopropyl-betaine-30", "decyl-glucoside-52")
        .cheapest();
  }
}
