package org.surfactantblend.examples;

import org.surfactantblend.Blends;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.solve.BlendResult;

/** What happens when a brief cannot be met? The demands that contradict each other are named. */
public final class ImpossibleBrief {
  private ImpossibleBrief() {}

  /**
   * Asks for too much and prints why it is too much.
   *
   * @param args none
   */
  public static void main(String[] args) {
    Brief brief =
        Brief.named("Nettle shampoo")
            .totalActive(14, 0.3)
            .share(ChargeClass.ANIONIC, 50, 60)
            .share(ChargeClass.AMPHOTERIC, 30, 40)
            .salt(0, 0.5) // % m/m from all sources
            .choosingFrom(
                "sodium-laureth-sulfate-27", "cocamidopropyl-betaine-30", "decyl-glucoside-52")
            .build();
    BlendResult result = Blends.solve(brief, Blends.starterTable());
    System.out.print(result.summary());
  }
}
