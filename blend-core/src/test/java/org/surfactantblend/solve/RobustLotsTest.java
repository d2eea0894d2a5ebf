package org.surfactantblend.solve;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.Function;
import org.junit.jupiter.api.Test;
import org.surfactantblend.Blends;
import org.surfactantblend.acidity.BlendCharge;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.SheetPh;
import org.surfactantblend.quantity.Range;

/**
 * A blend promised for every lot is made of real lots: each a material of its own with every figure
 * at an end of its range, or anywhere inside, and audited as any other blend.
 */
class RobustLotsTest {
  private static final MaterialTable TABLE = Blends.starterTable();
  private static final int RANDOM_LOTS = 1000;

  /**
   * How far a lot's own ionic strength may take a pH past its bound. The rows are worst cases at
   * the ionic strength of the typical blend; a lot with more salt reads its acids a little
   * differently.
   */
  private static final double OWN_IONIC_STRENGTH = 0.005;

  /** A figure of a material, as the next one of a sequence of positions in its range, 0 to 1. */
  private static double at(Range r, double position) {
    return position == 0 ? r.low() : position == 1 ? r.high() : r.low() + position * r.width();
  }

  private static int dimensions(Material m) {
    int[] count = {0};
    lot(
        m,
        r -> {
          count[0]++;
          return 0.0;
        });
    return count[0];
  }

  /** A lot whose figures are asked for one after the other, only those that have a range. */
  private static Material lot(Material m, Function<Range, Double> position) {
    return lot(m, position, false);
  }

  /**
   * As above; with {@code bystanders} also those constituents that are neither active nor salt and
   * touch no demand but through the water they displace.
   */
  private static Material lot(Material m, Function<Range, Double> position, boolean bystanders) {
    Function<Range, Range> pick = r -> r.isExact() ? r : Range.exactly(at(r, position.apply(r)));
    Material.Builder b = m.toBuilder().lot("made up");
    for (Constituent c : m.constituents()) {
      boolean counts =
          c.isActive() || c.inciName().equals(Constituent.SODIUM_CHLORIDE) || bystanders;
      b.constituent(counts ? c.withPercent(pick.apply(c.percent())) : c);
    }
    m.sheetPh()
        .ifPresent(
            s -> b.sheetPh(new SheetPh(pick.apply(s.effective()), s.dilutionPercent(), true)));
    m.strongIonEqPerKg().ifPresent(s -> b.strongIonEqPerKg(pick.apply(s)));
    for (AcidBaseGroup g : m.groups()) {
      Range amount = pick.apply(g.amount());
      Range pKa = g.pKa() == null ? null : pick.apply(g.pKa());
      b.group(
          new AcidBaseGroup(
              g.name(),
              pKa == null ? g.acid() : g.acid().withPka(0, pKa.typical()),
              null,
              amount,
              false,
              g.onActive()));
    }
    return b.build();
  }

  private static void holds(Brief brief, Blend blend, String what) {
    for (Requirement r : brief.requirements()) {
      double value;
      double slack = 1e-7;
      switch (r.kind()) {
        case TOTAL_ACTIVE -> value = blend.totalActive().value();
        case CLASS_SHARE ->
            value = blend.share(ChargeClass.parse(r.subject()).orElseThrow()).value();
        case SALT -> value = blend.saltPercent().typical();
        case STARTING_PH -> {
          value = BlendCharge.of(blend, Conditions.standard()).ph();
          slack = OWN_IONIC_STRENGTH;
        }
        default -> throw new IllegalArgumentException(r.kind().name());
      }
      assertTrue(
          value >= r.low() - slack && value <= r.high() + slack,
          () -> r + " reached " + value + " at " + what);
    }
  }

  private static Blend madeOf(Blend blend, List<Material> lots) {
    Blend.Builder b = Blend.named(blend.name());
    for (int i = 0; i < lots.size(); i++) {
      b.line(lots.get(i), blend.lines().get(i).amount().value());
    }
    return b.build();
  }

  private static void check(Brief brief, int fewestVertices) {
    Blend blend = BlendSolver.solve(brief, TABLE).orElseThrow();
    List<List<Material>> ends = new ArrayList<>();
    long vertices = 1;
    for (BlendLine l : blend.lines()) {
      List<Material> own = new ArrayList<>();
      int d = dimensions(l.material());
      for (int corner = 0; corner < 1 << d; corner++) {
        int[] bits = {corner};
        own.add(
            lot(
                l.material(),
                r -> {
                  double end = bits[0] & 1;
                  bits[0] >>= 1;
                  return end;
                }));
      }
      ends.add(own);
      vertices *= own.size();
    }
    assertTrue(vertices >= fewestVertices, vertices + " vertices");
    for (long k = 0; k < vertices; k++) {
      List<Material> lots = new ArrayList<>();
      long rest = k;
      for (List<Material> own : ends) {
        lots.add(own.get((int) (rest % own.size())));
        rest /= own.size();
      }
      holds(brief, madeOf(blend, lots), "vertex " + k);
    }
    Random random = new Random(20261125);
    for (int k = 0; k < RANDOM_LOTS; k++) {
      List<Material> lots = new ArrayList<>();
      blend.lines().forEach(l -> lots.add(lot(l.material(), r -> random.nextDouble(), true)));
      holds(brief, madeOf(blend, lots), "random lot " + k);
    }
  }

  @Test
  void etherSulfateAndBetaine() {
    check(
        Brief.named("every lot 1")
            .totalActive(10, 0.8)
            .share(ChargeClass.AMPHOTERIC, 20, 45)
            .salt(0, 1.2)
            .startingPh(4.17, 7.99)
            .choosingFrom("sodium-laureth-sulfate-27", "cocamidopropyl-betaine-30")
            .everyLotWithinSpecification()
            .build(),
        256);
  }

  @Test
  void olefinSulfonateAndBetaine() {
    check(
        Brief.named("every lot 2")
            .totalActive(12, 1)
            .share(ChargeClass.ANIONIC, 55, 80)
            .startingPh(4.165, 11.09)
            .choosingFrom("sodium-c14-16-olefin-sulfonate-40", "cocamidopropyl-betaine-30")
            .everyLotWithinSpecification()
            .build(),
        256);
  }

  @Test
  void aNarrowWindowForEveryLotIsRefusedWithWhatWouldDo() {
    Brief narrow =
        Brief.named("every lot 3")
            .totalActive(9, 0.8)
            .startingPh(6.9, 7.1)
            .choosingFrom("decyl-glucoside-52", "cocamidopropyl-betaine-30")
            .everyLotWithinSpecification()
            .build();
    BlendResult result = BlendSolver.solve(narrow, TABLE);
    assertFalse(result.isSolved());
    assertTrue(result.summary().contains("pH"), result.summary());
  }
}
