package org.surfactantblend.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.testing.Recheck;

/** What an answer says of its own change is true of the briefs and prices it speaks of. */
class SensitivityProperties {
  private static Brief with(Brief brief, Bound bound, double end) {
    Requirement r = bound.requirement();
    Requirement changed =
        bound.upper()
            ? new Requirement(r.kind(), r.subject(), r.low(), end, r.atPh())
            : new Requirement(r.kind(), r.subject(), end, r.high(), r.atPh());
    return brief.withRequirement(brief.requirements().indexOf(r), changed);
  }

  private static double wish(Brief brief, MaterialTable table) {
    BlendResult result = BlendSolver.solve(brief, table);
    Recheck.result(result, table.prices());
    return result.fold(SolvedBlend::wishValue, none -> Double.NaN);
  }

  @Property(tries = 40, seed = "51")
  void looseningBuysWhatIsSaid(@ForAll long seed) {
    RandomTask p = new RandomTask(seed);
    Brief.Builder b = p.brief(0);
    p.wish(b);
    if (p.random.nextInt(3) == 0) {
      p.choice(b);
    }
    Brief brief = b.build();
    if (!(BlendSolver.solve(brief, p.table) instanceof SolvedBlend s)) {
      return;
    }
    Recheck.result(s, p.table.prices());
    for (Sensitivity.Loosening l : s.sensitivity().loosenings()) {
      double before = s.wishValue();
      double there = wish(with(brief, l.bound(), l.holdsTo()), p.table);
      double size = 1e-6 * Math.max(1, Math.abs(before));
      assertEquals(before - there, l.gainThere(), size, () -> l + "\n" + brief);
      double little = 2e-3 * l.bound().requirement().kind().point();
      double way = Math.abs(l.holdsTo() - l.bound().value());
      if (way > little) {
        double end = l.bound().value() + (l.bound().upper() ? little : -little);
        double gain = before - wish(with(brief, l.bound(), end), p.table);
        assertEquals(l.gainPerPoint() * 2e-3, gain, size + 0.02 * gain, () -> l + "\n" + brief + s);
      }
    }
  }

  @Property(tries = 30, seed = "52")
  void aMaterialComesInJustBelowItsEntryPrice(@ForAll long seed) {
    RandomTask p = new RandomTask(seed);
    Brief.Builder b = p.brief(0).cheapest();
    if (p.random.nextInt(3) == 0) {
      b.atMostSurfactants(2).minimumUse(0.5);
    }
    Brief brief = b.build();
    if (!(BlendSolver.solve(brief, p.table) instanceof SolvedBlend s)) {
      return;
    }
    Recheck.result(s, p.table.prices());
    for (Sensitivity.EntryPrice e : s.sensitivity().entryPrices()) {
      assertEquals(0, s.blend().asSupplied(e.materialId()).value());
      double below = e.entersAt().orElse(0);
      BlendResult cheaper =
          BlendSolver.solve(brief, p.table.priced(p.table.prices().with(e.materialId(), below)));
      double used = cheaper.orElseThrow().asSupplied(e.materialId()).value();
      assertEquals(e.asSupplied(), used, 1e-9, () -> e + "\n" + brief);
      assertEquals(e.entersAt().isPresent(), used > 0, () -> e + "\n" + brief);
      if (e.entersAt().isPresent()) {
        double above = below + 1e-5 * e.price();
        BlendResult dearer =
            BlendSolver.solve(brief, p.table.priced(p.table.prices().with(e.materialId(), above)));
        assertTrue(above <= e.price() * 1.0001);
        assertEquals(
            0, dearer.orElseThrow().asSupplied(e.materialId()).value(), () -> e + "\n" + brief);
      }
    }
  }
}
