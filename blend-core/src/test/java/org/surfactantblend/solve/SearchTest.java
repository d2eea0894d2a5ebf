package org.surfactantblend.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.optimise.SearchSettings;
import org.surfactantblend.solve.Programme.Objective;
import org.surfactantblend.testing.Recheck;

/**
 * The search for sets of surfactants against every set solved by itself. The seeds are of random
 * briefs with limits on the choice whose sets fail at their own ionic strength, one after the
 * other, so that all sets have to be searched together in boxes of it, or whose loop does not
 * settle for a set.
 */
class SearchTest {
  /** One brief with everything that a search of it takes. */
  private static final class Case {
    final RandomTask task;
    final Brief brief;
    final Programme programme;
    final List<Bound> bounds;
    final Objective objective;
    final Choice choice;

    Case(long seed) {
      task = new RandomTask(seed);
      Brief.Builder b = task.brief(0);
      task.wish(b);
      task.choice(b);
      brief = b.build();
      programme = new Programme(brief, task.table);
      bounds = BlendSolver.bounds(brief);
      objective = programme.objective();
      choice = Choice.of(programme);
    }

    double wish(double[] w) {
      return programme.objectiveValue(objective, w);
    }

    double tolerance(double wish) {
      return 5e-6 * Math.max(1, Math.abs(wish));
    }

    void recheck(double[] w) {
      Recheck.blend(BlendSolver.blend(programme, w), brief, task.table.prices());
    }

    /** The best amounts of one set, null when the set is not allowed or has none. */
    double @Nullable [] alone(int set) {
      double[] low = programme.lower.clone();
      double[] high = programme.upper.clone();
      for (int j = 0; j < programme.candidates; j++) {
        boolean in = (set >> j & 1) == 1;
        low[j] = in ? choice.leastUse() : 0;
        high[j] = in ? high[j] : 0;
      }
      return choice.allows(programme, low)
          ? new Search(programme).best(bounds, objective, low, high)
          : null;
    }

    /** The wish of every set that has a blend, best first. */
    List<Double> everySet() {
      List<Double> all = new ArrayList<>();
      for (int set = 0; set < 1 << programme.candidates; set++) {
        double[] w = alone(set);
        if (w != null) {
          all.add(wish(w));
        }
      }
      all.sort(null);
      return all;
    }
  }

  @ParameterizedTest
  @ValueSource(
      longs = {
        62, 73, 88, 92, 143, 151, 188, 207, 239, 256, 262, 292, 304, 336, 376, 386, 393, 406, 416,
        511, 603, 652, 761, 780, 1041, 1055, 1117
      })
  void theBestSetIsTheBestOfAll(long seed) {
    Case c = new Case(seed);
    List<Double> all = c.everySet();
    double[] best = new Search(c.programme).best(c.bounds, c.objective, c.choice);
    double[] boxes = new Search(c.programme).bestSetInBoxes(c.bounds, c.objective, c.choice, null);
    if (all.isEmpty()) {
      assertNull(best, c.brief::toString);
      assertNull(boxes, c.brief::toString);
    } else {
      double wish = all.get(0);
      c.recheck(best);
      assertEquals(wish, c.wish(best), c.tolerance(wish), c.brief::toString);
      assertTrue(c.choice.allows(c.programme, best));
      c.recheck(boxes);
      assertEquals(wish, c.wish(boxes), c.tolerance(wish), c.brief::toString);
      assertTrue(c.choice.allows(c.programme, boxes));
    }
  }

  @ParameterizedTest
  @ValueSource(
      longs = {57, 62, 78, 88, 92, 95, 131, 151, 182, 201, 259, 311, 331, 341, 358, 375, 376, 385})
  void theBestFewAreTheBestOfAllInTheirOrder(long seed) {
    Case c = new Case(seed);
    List<Double> all = c.everySet();
    Search search = new Search(c.programme);
    List<double[]> few =
        search.bestChoices(c.bounds, c.objective, c.choice, SearchSettings.best(4));
    assertEquals(Math.min(4, all.size()), few.size(), c.brief::toString);
    Set<List<Integer>> sets = new HashSet<>();
    for (int i = 0; i < few.size(); i++) {
      double[] w = few.get(i);
      c.recheck(w);
      assertEquals(all.get(i), c.wish(w), c.tolerance(all.get(i)), c.brief::toString);
      assertTrue(
          sets.add(
              IntStream.range(0, c.programme.candidates).filter(j -> w[j] > 0).boxed().toList()));
    }
    assertTrue(search.isComplete());
    if (few.size() == 4 && !c.objective.isRatio()) {
      assertEquals(c.wish(few.get(3)), search.bound(), c.tolerance(search.bound()));
    }
  }

  @Test
  void aKnownBlendThatIsTheBestIsKept() {
    Case c = new Case(62);
    double[] best = new Search(c.programme).best(c.bounds, c.objective, c.choice);
    double[] again = new Search(c.programme).bestSetInBoxes(c.bounds, c.objective, c.choice, best);
    assertTrue(c.wish(again) <= c.wish(best));
    c.recheck(again);
  }
}
