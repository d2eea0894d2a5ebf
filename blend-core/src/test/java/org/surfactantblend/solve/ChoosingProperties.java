package org.surfactantblend.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.testing.Recheck;
import org.surfactantblend.testing.Shop;

/** Laws of choosing among many: alternatives, limits on the choice, trade-offs. */
class ChoosingProperties {
  private static final double USE = 0.5;

  private static Set<String> set(Blend blend) {
    return blend.lines().stream()
        .filter(l -> l.material().isSurfactant() && l.amount().value() > 1e-9)
        .map(l -> l.material().id())
        .collect(Collectors.toCollection(TreeSet::new));
  }

  private static double tolerance(double value) {
    return 1e-6 * Math.max(1, Math.abs(value));
  }

  /** Every set of surfactants solved as a brief of its own, best first. */
  private static List<Double> everySet(RandomTask p, Brief free, int most) {
    List<Double> wishes = new ArrayList<>();
    int n = p.ids.size();
    for (int set = 1; set < 1 << n; set++) {
      if (Integer.bitCount(set) > most) {
        continue;
      }
      Brief.Builder own = free.toBuilder();
      for (int j = 0; j < n; j++) {
        if ((set >> j & 1) == 0) {
          own.leavingOut(p.ids.get(j));
        } else {
          own.asSupplied(p.ids.get(j), USE, 100);
        }
      }
      BlendResult alone = BlendSolver.solve(own.build(), p.table);
      Recheck.result(alone, p.table.prices());
      if (alone instanceof SolvedBlend s) {
        wishes.add(s.wishValue());
      }
    }
    wishes.sort(null);
    return wishes;
  }

  @Property(tries = 40, seed = "41")
  void alternativesAreTheBestOfAllSetsInOrderAndDistinct(@ForAll long seed) {
    RandomTask p = new RandomTask(seed);
    Brief.Builder b = p.brief(0);
    p.wish(b);
    Brief free = b.build();
    if (free.requirements().stream().anyMatch(r -> p.ids.contains(r.subject()))) {
      return; // such a brief asks something of a material that a set may leave out
    }
    int most = 1 + p.random.nextInt(3);
    int count = 1 + p.random.nextInt(12);
    Brief brief = free.toBuilder().atMostSurfactants(most).minimumUse(USE).build();
    Alternatives found = BlendSolver.alternatives(brief, p.table, count, 1, SearchBudget.none());
    List<Double> all = everySet(p, free, most);
    assertTrue(found.complete());
    assertEquals(Math.min(count, all.size()), found.blends().size(), brief::toString);
    Set<Set<String>> sets = new HashSet<>();
    for (int i = 0; i < found.blends().size(); i++) {
      SolvedBlend s = found.blends().get(i);
      Recheck.result(s, p.table.prices());
      assertTrue(sets.add(set(s.blend())), () -> "twice the same set:\n" + found);
      assertEquals(all.get(i), s.wishValue(), tolerance(s.wishValue()), found::toString);
    }
  }

  @Property(tries = 40, seed = "42")
  void differentEnoughMeansDifferentEnough(@ForAll long seed) {
    RandomTask p = new RandomTask(seed);
    Brief.Builder b = p.brief(0);
    p.wish(b);
    int differing = 1 + p.random.nextInt(3);
    Brief brief = b.atMostSurfactants(3).minimumUse(USE).build();
    Alternatives found =
        BlendSolver.alternatives(brief, p.table, 6, differing, SearchBudget.none());
    for (int i = 0; i < found.blends().size(); i++) {
      Set<String> one = set(found.blends().get(i).blend());
      Recheck.result(found.blends().get(i), p.table.prices());
      for (int j = 0; j < i; j++) {
        Set<String> other = set(found.blends().get(j).blend());
        long shared = one.stream().filter(other::contains).count();
        assertTrue(Math.max(one.size(), other.size()) - shared >= differing, found::toString);
        assertTrue(
            found.blends().get(j).wishValue()
                <= found.blends().get(i).wishValue() + tolerance(found.blends().get(i).wishValue()),
            found::toString);
      }
    }
  }

  @Property(tries = 40, seed = "43")
  void moreSurfactantsNeverCostMore(@ForAll long seed) {
    RandomTask p = new RandomTask(seed);
    Brief free = p.brief(0).cheapest().build();
    double before = Double.POSITIVE_INFINITY;
    for (int most = 1; most <= 5; most++) {
      BlendResult result =
          BlendSolver.solve(
              free.toBuilder().atMostSurfactants(most).minimumUse(USE).build(), p.table);
      Recheck.result(result, p.table.prices());
      double cost = result.fold(SolvedBlend::wishValue, none -> Double.POSITIVE_INFINITY);
      assertTrue(cost <= before + 1e-6, free::toString);
      before = cost;
    }
  }

  @Property(tries = 40, seed = "44")
  void aStoppedSearchProvesItsGap(@ForAll long seed) {
    RandomTask p = new RandomTask(seed);
    Brief brief = p.brief(0).cheapest().atMostSurfactants(2).minimumUse(USE).build();
    Alternatives whole = BlendSolver.alternatives(brief, p.table, 1, 1, SearchBudget.none());
    assertEquals(0, whole.gap().orElse(0));
    for (int steps = 0; steps < 40; steps += 3) {
      int[] left = {steps};
      List<SearchProgress> told = new ArrayList<>();
      Alternatives some =
          BlendSolver.alternatives(
              brief,
              p.table,
              1,
              1,
              SearchBudget.none().goingOnWhile(() -> left[0]-- > 0).telling(told::add));
      if (some.complete()) {
        assertEquals(whole.blends().isEmpty(), some.blends().isEmpty());
        continue;
      }
      assertTrue(told.size() >= some.blends().size());
      if (!whole.blends().isEmpty()) {
        double best = whole.blends().get(0).wishValue();
        assertTrue(some.bound() <= best + tolerance(best), () -> some + "\n" + whole);
        if (!some.blends().isEmpty()) {
          Recheck.result(some.blends().get(0), p.table.prices());
          double gap = some.gap().orElseThrow();
          assertTrue(some.blends().get(0).wishValue() - gap <= best + tolerance(best));
        }
      }
    }
  }

  private static double measured(Blend blend, Measure m, RandomTask p) {
    return switch (m) {
      case COST -> blend.costPerKg(p.table.prices()).orElseThrow();
      case SALT -> blend.saltPercent().typical();
      case SURFACTANT_AS_SUPPLIED ->
          blend.lines().stream()
              .filter(l -> l.material().isSurfactant())
              .mapToDouble(l -> l.amount().value())
              .sum();
      case SURFACTANT_COUNT -> set(blend).size();
      default -> throw new IllegalArgumentException(m.label());
    };
  }

  private static final List<Measure> MEASURES =
      List.of(Measure.COST, Measure.SALT, Measure.SURFACTANT_AS_SUPPLIED, Measure.SURFACTANT_COUNT);

  @Property(tries = 60, seed = "45")
  void everyCornerMeetsTheBriefAndNoneIsDominated(@ForAll long seed) {
    RandomTask p = new RandomTask(seed);
    Brief.Builder b = p.brief(0.3);
    if (p.random.nextBoolean()) {
      p.choice(b);
    }
    Brief brief = b.build();
    Measure first = MEASURES.get(p.random.nextInt(4));
    Measure second = MEASURES.get((MEASURES.indexOf(first) + 1 + p.random.nextInt(3)) % 4);
    TradeOff front = BlendSolver.tradeOff(brief, p.table, first, second, SearchBudget.none());
    assertEquals(
        BlendSolver.solve(brief, p.table).isSolved(), !front.corners().isEmpty(), brief::toString);
    for (int i = 0; i < front.corners().size(); i++) {
      TradeOff.Corner c = front.corners().get(i);
      Recheck.blend(c.blend(), brief, p.table.prices());
      assertEquals(measured(c.blend(), first, p), c.first(), 1e-6);
      assertEquals(measured(c.blend(), second, p), c.second(), 1e-6);
      if (i > 0) {
        assertTrue(c.first() > front.corners().get(i - 1).first(), front::toString);
        assertTrue(c.second() < front.corners().get(i - 1).second(), front::toString);
      }
    }
  }

  /** Blends near and far that meet the brief: none lies below the line through the corners. */
  @Property(tries = 60, seed = "46")
  void noBlendLiesBelowTheFront(@ForAll long seed) {
    RandomTask p = new RandomTask(seed);
    Brief brief = p.brief(0).build();
    TradeOff front =
        BlendSolver.tradeOff(brief, p.table, Measure.COST, Measure.SALT, SearchBudget.none());
    List<TradeOff.Corner> corners = front.corners();
    assertTrue(front.between() && !corners.isEmpty());
    int met = 0;
    for (int i = 0; i < 300; i++) {
      Blend other = p.mixture(corners.get(p.random.nextInt(corners.size())).blend());
      try {
        Recheck.blend(other, brief, p.table.prices());
      } catch (AssertionError e) {
        continue;
      }
      met++;
      double cost = measured(other, Measure.COST, p);
      double salt = measured(other, Measure.SALT, p);
      double allowed =
          2e-5
              + TradeOff.PRECISION
                  * (corners.get(corners.size() - 1).first() - corners.get(0).first());
      double allowedOfSalt =
          2e-5
              + TradeOff.PRECISION
                  * (corners.get(0).second() - corners.get(corners.size() - 1).second());
      assertTrue(cost >= corners.get(0).first() - allowed);
      assertTrue(salt >= corners.get(corners.size() - 1).second() - allowedOfSalt);
      for (int k = 1; k < corners.size(); k++) {
        TradeOff.Corner a = corners.get(k - 1);
        TradeOff.Corner b = corners.get(k);
        if (cost >= a.first() && cost <= b.first()) {
          double part = (cost - a.first()) / (b.first() - a.first());
          double line = a.second() + part * (b.second() - a.second());
          double slope = (a.second() - b.second()) / (b.first() - a.first());
          assertTrue(
              salt >= line - allowedOfSalt - allowed * slope,
              () -> cost + ", " + salt + " is below\n" + front + other);
        }
      }
    }
    assertTrue(met > 0, "mixtures with the known blend meet the brief");
  }

  /** Halfway between neighbours lies a blend that meets the brief and is on the front. */
  @Property(tries = 60, seed = "47")
  void whatIsPromisedBetweenNeighboursHolds(@ForAll long seed) {
    RandomTask p = new RandomTask(seed);
    Brief brief = p.brief(0).build();
    TradeOff front =
        BlendSolver.tradeOff(
            brief, p.table, Measure.COST, Measure.SURFACTANT_AS_SUPPLIED, SearchBudget.none());
    for (int k = 1; k < front.corners().size(); k++) {
      Blend a = front.corners().get(k - 1).blend();
      Blend b = front.corners().get(k).blend();
      Blend.Builder mixture = Blend.named("halfway");
      double sum = 0;
      for (String id : p.ids) {
        double w = (a.asSupplied(id).value() + b.asSupplied(id).value()) / 2;
        if (w > 0) {
          mixture.line(p.table.get(id), w);
        }
        sum += w;
      }
      assertTrue(sum > 0);
      for (BlendLine l : a.lines()) {
        if (!l.material().isSurfactant() && !l.material().id().equals("water")) {
          mixture.line(l.material(), l.amount().value());
        }
      }
      Blend halfway = mixture.upToHundredWith(Shop.WATER);
      Recheck.blend(halfway, brief, p.table.prices(), 2e-3);
      assertTrue(front.between());
    }
  }
}
