package org.surfactantblend.swap;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.Material;
import org.surfactantblend.testing.RandomBlends;

class SupplierSwapProperties {
  private static void sameLines(Blend expected, Blend actual, double tolerance) {
    assertEquals(expected.lines().size(), actual.lines().size());
    for (int i = 0; i < expected.lines().size(); i++) {
      BlendLine e = expected.lines().get(i);
      BlendLine a = actual.lines().get(i);
      assertEquals(e.material(), a.material());
      assertEquals(e.amount().value(), a.amount().value(), tolerance);
    }
  }

  private static Material first(Blend b) {
    return b.lines().get(0).material();
  }

  @Property(tries = 300, seed = "20261125")
  void thereAndBackIsTheIdentity(@ForAll long seed) {
    Blend blend = RandomBlends.blend(seed);
    Material other = RandomBlends.lot(new Random(~seed), 0, "second");
    SwapReport there =
        SupplierSwap.in(blend)
            .replace("surfactant-0")
            .with(other)
            .holdingSalt("sodium-chloride")
            .report();
    if (there.holdsEverything()) {
      SwapReport back =
          SupplierSwap.in(there.after())
              .replace("surfactant-0")
              .with(first(blend))
              .holdingSalt("sodium-chloride")
              .report();
      sameLines(blend, back.after(), 1e-11);
    } else {
      assertTrue(there.obstacle().isPresent());
    }
  }

  @Property(tries = 200, seed = "20261125")
  void aLotForItselfChangesNothing(@ForAll long seed) {
    Blend blend = RandomBlends.blend(seed);
    SwapReport report =
        SupplierSwap.in(blend)
            .replace("surfactant-0")
            .with(first(blend))
            .holdingSalt("sodium-chloride")
            .report();
    sameLines(blend, report.after(), 1e-12);
    assertTrue(report.noChangeNeeded());
    for (SwapFigure f : report.figures()) {
      assertEquals(Verdict.HELD, f.verdict(), f.toString());
    }
  }

  @Property(tries = 300, seed = "20261125")
  void totalActiveIsHeld(@ForAll long seed) {
    Blend blend = RandomBlends.blend(seed);
    Random random = new Random(seed + 1);
    SupplierSwap swap = SupplierSwap.in(blend);
    for (BlendLine l : blend.lines()) {
      if (l.material().isSurfactant() && random.nextBoolean()) {
        int number = Integer.parseInt(l.material().id().substring("surfactant-".length()));
        swap = swap.replace(l.material().id()).with(RandomBlends.lot(random, number, "second"));
      }
    }
    SwapReport report = swap.report();
    double before = blend.totalActive().value();
    if (report.holdsEverything()) {
      assertEquals(before, report.after().totalActive().value(), 1e-12 * before);
    } else {
      assertTrue(report.after().totalActive().value() < before);
    }
  }

  @Property(tries = 200, seed = "20261125")
  void alligationMeetsTheWantedActive(@ForAll long seed) {
    Random random = new Random(seed);
    Material a = RandomBlends.lot(random, 0, "first");
    Material b = RandomBlends.lot(random, 0, "second");
    double t = random.nextDouble();
    double wanted = t * a.activePercent().typical() + (1 - t) * b.activePercent().typical();
    LotMix mix = LotMix.toActive(a, b, wanted);
    assertEquals(wanted, mix.activePercent().typical(), 1e-12 * wanted);
    assertEquals(1, mix.parts().get(0) + mix.parts().get(1), 1e-15);
  }
}
