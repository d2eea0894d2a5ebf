package org.surfactantblend.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.testing.Conflicts;
import org.surfactantblend.testing.Recheck;
import org.surfactantblend.testing.RecheckedPh;
import org.surfactantblend.testing.RecheckedPh.Water;

/** Laws that hold for random briefs over random shops. */
class SolveProperties {
  @Property(tries = 150, seed = "21")
  void aBriefDrawnAroundABlendIsSolvedAtLeastAsWell(@ForAll long seed) {
    RandomTask p = new RandomTask(seed);
    Brief.Builder b = p.brief(0);
    p.wish(b);
    Brief brief = b.build();
    Recheck.blend(p.known, brief, p.table.prices());
    BlendResult result = BlendSolver.solve(brief, p.table);
    Recheck.result(result, p.table.prices());
    SolvedBlend solved =
        result.fold(
            s -> s,
            none -> {
              throw new AssertionError("a blend is known:\n" + p.known + brief + none);
            });
    double own = Recheck.wish(p.known, brief, p.table.prices());
    assertTrue(
        solved.wishValue() <= own + 1e-6 * Math.max(1, own),
        () -> own + " is known, got " + solved.wishValue() + " for\n" + brief + p.known);
  }

  @Property(tries = 100, seed = "22")
  void noRandomNeighbourThatMeetsTheBriefIsBetter(@ForAll long seed) {
    RandomTask p = new RandomTask(seed);
    Brief.Builder b = p.brief(0);
    p.wish(b);
    Brief brief = b.build();
    BlendResult result = BlendSolver.solve(brief, p.table);
    Recheck.result(result, p.table.prices());
    if (!(result instanceof SolvedBlend solved)) {
      throw new AssertionError("a blend is known");
    }
    int met = 0;
    for (int i = 0; i < 400; i++) {
      // Between the answer and blends nearby and far, and mixtures with the known one.
      Blend other = p.mixture(solved.blend());
      if (meets(other, brief, p.table)) {
        met++;
        double wish = Recheck.wish(other, brief, p.table.prices());
        assertTrue(
            wish >= solved.wishValue() - 1e-5 * Math.max(1, Math.abs(wish)),
            () -> wish + " beats " + solved.wishValue() + ":\n" + other + brief);
      }
    }
    assertTrue(met > 0, "mixtures with the known blend meet it");
  }

  private static boolean meets(Blend blend, Brief brief, MaterialTable table) {
    try {
      Recheck.blend(blend, brief, table.prices());
      return true;
    } catch (AssertionError e) {
      return false;
    }
  }

  @Property(tries = 80, seed = "23")
  void whatCannotBeMetIsExplainedTruly(@ForAll long seed) {
    RandomTask p = new RandomTask(seed);
    Brief brief = p.brief(2).build();
    BlendResult result = BlendSolver.solve(brief, p.table);
    if (result.isSolved()) {
      Recheck.result(result, p.table.prices());
    } else {
      Conflicts.verify(result, p.table);
    }
  }

  @Property(tries = 80, seed = "24")
  void anotherRequirementNeverImprovesTheWish(@ForAll long seed) {
    RandomTask p = new RandomTask(seed);
    Brief.Builder b = p.brief(0.3);
    p.wish(b);
    Brief brief = b.build();
    BlendResult loose = BlendSolver.solve(brief, p.table);
    Recheck.result(loose, p.table.prices());
    int n = brief.requirements().size();
    Brief.Builder more = brief.toBuilder();
    String id = p.ids.get(p.random.nextInt(p.ids.size()));
    more.shareOf(id, RandomTask.clip(40 * p.random.nextDouble()), 60 + 40 * p.random.nextDouble());
    more.startingPhOfSurfactants(4 + p.random.nextDouble(), 8 + 4 * p.random.nextDouble());
    Brief tight = more.build();
    assertEquals(n + 2, tight.requirements().size());
    BlendResult result = BlendSolver.solve(tight, p.table);
    Recheck.result(result, p.table.prices());
    if (result instanceof SolvedBlend s) {
      assertTrue(loose.isSolved(), "a tighter brief was met and a looser one not");
      double before = loose.fold(SolvedBlend::wishValue, none -> Double.NaN);
      assertTrue(s.wishValue() >= before - 1e-6 * Math.max(1, Math.abs(before)));
    }
  }

  @Property(tries = 60, seed = "25")
  void theOrderOfMaterialsChangesNothingButTies(@ForAll long seed) {
    RandomTask p = new RandomTask(seed);
    Brief.Builder b = p.brief(0.3);
    p.wish(b);
    Brief brief = b.build();
    List<Material> shuffled = new ArrayList<>(p.table.materials());
    Collections.shuffle(shuffled, p.random);
    List<String> names = new ArrayList<>(p.ids);
    Collections.shuffle(names, p.random);
    BlendResult one = BlendSolver.solve(brief, p.table);
    BlendResult two = BlendSolver.solve(brief, MaterialTable.of(shuffled).priced(p.table.prices()));
    Recheck.result(one, p.table.prices());
    Recheck.result(two, p.table.prices());
    assertEquals(one.isSolved(), two.isSolved(), brief::toString);
    if (one instanceof SolvedBlend first && two instanceof SolvedBlend second) {
      assertEquals(
          first.wishValue(), second.wishValue(), 1e-6 * Math.max(1, Math.abs(first.wishValue())));
    }
  }

  @Property(tries = 60, seed = "26")
  void theSameInputGivesTheSameBits(@ForAll long seed) {
    String first = bits(seed);
    assertEquals(first, bits(seed));
  }

  private static String bits(long seed) {
    RandomTask p = new RandomTask(seed);
    Brief.Builder b = p.brief(0.5);
    p.wish(b);
    BlendResult result = BlendSolver.solve(b.build(), p.table);
    Recheck.result(result, p.table.prices());
    StringBuilder s = new StringBuilder(result.summary());
    if (result instanceof SolvedBlend solved) {
      for (BlendLine l : solved.blend().lines()) {
        s.append(l.material().id())
            .append(Double.toHexString(l.amount().value()))
            .append(Double.toHexString(solved.wishValue()));
      }
    }
    return s.toString();
  }

  @Property(tries = 60, seed = "27")
  void briefsForEveryLotHoldForHiddenLots(@ForAll long seed) {
    RandomTask p = new RandomTask(seed);
    Brief.Builder b =
        Brief.named("every lot")
            .totalActive(p.known.totalActive().value(), 0.2 + 0.08 * p.known.totalActive().value())
            .choosingFrom(p.ids.toArray(String[]::new))
            .withoutClashGuard("invented materials")
            .everyLotWithinSpecification();
    double ph = RecheckedPh.of(p.known, Water.at25());
    b.startingPh(Math.max(0, ph - 3 * p.random.nextDouble()), Math.min(14, ph + 3));
    double share = p.known.share(ChargeClass.AMPHOTERIC).value();
    b.share(ChargeClass.AMPHOTERIC, RandomTask.clip(share - 15), RandomTask.clip(share + 15));
    p.wish(b);
    BlendResult result = BlendSolver.solve(b.build(), p.table);
    Recheck.result(result, p.table.prices());
    if (!result.isSolved()) {
      Conflicts.verify(result, p.table);
    }
  }

  @Property(tries = 60, seed = "28")
  void limitsOnTheChoiceHold(@ForAll long seed) {
    RandomTask p = new RandomTask(seed);
    Brief.Builder b = p.brief(0.5);
    p.wish(b);
    p.choice(b);
    Brief brief = b.build();
    BlendResult result = BlendSolver.solve(brief, p.table);
    Recheck.result(result, p.table.prices());
    if (!result.isSolved()) {
      Conflicts.verify(result, p.table);
    }
  }

  /** The best of every subset of the candidates, each solved as a brief of its own. */
  @Property(tries = 25, seed = "29")
  void theChoiceIsTheBestOfAllSubsets(@ForAll long seed) {
    RandomTask p = new RandomTask(seed);
    Brief.Builder b = p.brief(0);
    p.wish(b);
    Brief free = b.build();
    int most = 1 + p.random.nextInt(3);
    double use = 1;
    BlendResult result =
        BlendSolver.solve(
            free.toBuilder().atMostSurfactants(most).minimumUse(use).build(), p.table);
    Recheck.result(result, p.table.prices());
    double best = Double.POSITIVE_INFINITY;
    int n = p.ids.size();
    for (int set = 1; set < 1 << n; set++) {
      if (Integer.bitCount(set) <= most) {
        Brief.Builder own = free.toBuilder();
        boolean possible = true;
        for (int j = 0; j < n; j++) {
          String id = p.ids.get(j);
          if ((set >> j & 1) == 0) {
            own.leavingOut(id);
          } else {
            possible &= free.requirements().stream().noneMatch(r -> r.subject().equals(id));
            own.asSupplied(id, use, 100);
          }
        }
        if (!possible) {
          return;
        }
        BlendResult alone = BlendSolver.solve(own.build(), p.table);
        Recheck.result(alone, p.table.prices());
        best = Math.min(best, alone.fold(SolvedBlend::wishValue, none -> Double.MAX_VALUE));
      }
    }
    assertEquals(best < Double.MAX_VALUE, result.isSolved(), () -> free + result.summary());
    if (result instanceof SolvedBlend s) {
      assertEquals(best, s.wishValue(), 1e-6 * Math.max(1, Math.abs(best)), free::toString);
    }
  }
}
