package org.surfactantblend.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.solve.IonicLoop.Closed;
import org.surfactantblend.solve.PhEnd.IonicRange;
import org.surfactantblend.solve.Programme.Objective;
import org.surfactantblend.solve.Programme.Row;
import org.surfactantblend.testing.Recheck;

/**
 * The loop on ionic strength and the boxes over it, each by itself: two ways to the same blend,
 * neither of which may need the other to be right. Random shops and briefs, all from their seeds.
 */
class IonicBoxesTest {
  private static final int BOXES = 4000;

  /** One brief, ready for either way. */
  private static final class Case {
    final Brief brief;
    final MaterialTable table;
    final Blend known;
    final Programme programme;
    final Objective objective;
    final Minimiser minimiser;
    final IonicLoop loop;
    int solves;

    static Case drawn(long seed, double hardness) {
      RandomTask task = new RandomTask(seed);
      Brief.Builder b = task.brief(hardness);
      task.wish(b);
      if (hardness > 0 && seed % 5 == 0) {
        b.everyLotWithinSpecification();
      }
      return new Case(b.build(), task.table, task.known);
    }

    Case(Brief brief, MaterialTable table, Blend known) {
      this.brief = brief;
      this.table = table;
      this.known = known;
      programme = new Programme(brief, table);
      objective = programme.objective();
      minimiser = new Minimiser(programme);
      loop =
          new Search(programme).loop(BlendSolver.bounds(brief), programme.lower, programme.upper);
    }

    double @Nullable [] solve(List<Row> rows, Objective o) {
      solves++;
      return minimiser.minimise(rows, o, programme.lower, programme.upper);
    }

    Closed closed() {
      return loop.close(objective, null, loop.usual(), this::solve);
    }

    Closed covered(double @Nullable [] known, int boxes) {
      return new IonicBoxes(loop, minimiser)
          .cover(objective, known, this::solve, boxes, () -> true);
    }

    /** The blend with the most active matter that meets all but the upper end of it. */
    double[] mostActive() {
      double[] less = activePercent(this);
      for (int j = 0; j < less.length; j++) {
        less[j] = -less[j];
      }
      Case free = withActive(0.2, 90);
      IonicLoop open = free.loop;
      double[] w =
          new IonicBoxes(open, minimiser)
              .cover(Objective.plain(less), null, this::solve, BOXES, () -> true)
              .w();
      assertNotNull(w);
      return w;
    }

    Case withLeastActive(double least) {
      return withActive(least, 90);
    }

    private Case withActive(double least, double most) {
      for (int i = 0; i < brief.requirements().size(); i++) {
        Requirement r = brief.requirements().get(i);
        if (r.kind() == Requirement.Kind.TOTAL_ACTIVE) {
          Requirement other = Requirement.of(r.kind(), r.subject(), least, most);
          return new Case(brief.withRequirement(i, other), table, known);
        }
      }
      throw new AssertionError("no total active in " + brief);
    }

    double wish(double[] w) {
      return programme.objectiveValue(objective, w);
    }

    void recheck(double[] w) {
      Recheck.blend(BlendSolver.blend(programme, w), brief, table.prices());
    }
  }

  private static List<Case> withPh(long from, int count, double hardness) {
    List<Case> all = new ArrayList<>();
    for (long seed = from; all.size() < count; seed++) {
      Case c = Case.drawn(seed, hardness);
      if (!c.loop.ph().isEmpty()) {
        all.add(c);
      }
    }
    return all;
  }

  @Test
  void theBoxesAloneFindWhatTheLoopFinds() {
    int compared = 0;
    for (Case c : withPh(1, 150, 0)) {
      Closed loop = c.closed();
      Closed boxes = c.covered(null, BOXES);
      double[] found = boxes.w();
      assertNotNull(found, () -> "no blend in the boxes of " + c.brief);
      c.recheck(found);
      assertTrue(boxes.isBest());
      if (loop.isBest()) {
        compared++;
        double[] w = loop.w();
        assertNotNull(w);
        c.recheck(w);
        double wish = c.wish(w);
        assertEquals(wish, c.wish(found), 5e-6 * Math.max(1, Math.abs(wish)), c.brief::toString);
      }
    }
    assertTrue(compared > 95, "the loop settled for " + compared);
  }

  @Test
  void fewProgrammesAreEnough() {
    int loops = 0;
    int boxes = 0;
    int empty = 0;
    for (Case c : withPh(1000, 200, 0)) {
      c.closed();
      loops += c.solves;
      c.solves = 0;
      c.covered(null, BOXES);
      boxes += c.solves;
    }
    for (Case c : withPh(5000, 1000, 0.05)) {
      if (c.covered(null, BOXES).w() == null) {
        empty += c.solves;
      }
    }
    assertTrue(loops <= 450, loops + " programmes for 200 loops");
    assertTrue(boxes <= 2900, boxes + " programmes for the boxes of 200 briefs");
    assertTrue(empty <= 20, empty + " programmes to show that there is no blend");
  }

  @Test
  void whatTheBoxesRefuseTheLoopDoesNotFind() {
    int refused = 0;
    for (Case c : withPh(2000, 150, 2)) {
      Closed boxes = c.covered(null, BOXES);
      double[] w = c.closed().w();
      if (boxes.w() == null) {
        refused++;
        assertTrue(boxes.isBest(), "a refusal is a proof");
        assertNull(w, c.brief::toString);
      } else {
        c.recheck(boxes.w());
      }
    }
    assertTrue(refused > 40 && refused < 110, refused + " refused");
  }

  @Test
  void aKnownBestBlendIsKept() {
    int settled = 0;
    for (Case c : withPh(3000, 60, 0)) {
      Closed loop = c.closed();
      if (loop.isBest() && loop.w() != null) {
        settled++;
        Closed boxes = c.covered(loop.w(), BOXES);
        assertTrue(boxes.isBest());
        assertTrue(c.wish(boxes.w()) <= c.wish(loop.w()) + 1e-12);
      }
    }
    assertTrue(settled > 40);
  }

  @Test
  void withTooFewBoxesNothingIsSaidToBeProved() {
    int open = 0;
    for (Case c : withPh(4000, 60, 0)) {
      Closed enough = c.covered(null, BOXES);
      int needed = c.solves;
      Closed one = c.covered(null, 1);
      assertTrue(c.solves - needed <= needed);
      if (one.w() == null) {
        assertFalse(one.isBest());
        open++;
      } else {
        c.recheck(one.w());
        if (one.isBest()) {
          assertEquals(c.wish(enough.w()), c.wish(one.w()), 5e-6 * Math.max(1, c.wish(enough.w())));
        } else {
          open++;
        }
      }
    }
    assertTrue(open > 3, open + " left open");
  }

  @Test
  void everyBlendsIonicStrengthIsAttainable() {
    for (Case c : withPh(6000, 60, 0)) {
      IonicRange[] attainable = new IonicBoxes(c.loop, c.minimiser).attainable();
      assertNotNull(attainable);
      double[] own = c.loop.own(fractions(c));
      for (int k = 0; k < own.length; k++) {
        assertTrue(
            own[k] >= attainable[k].least() - 1e-9 && own[k] <= attainable[k].greatest() + 1e-9);
      }
    }
  }

  @Test
  void aHairBeyondTheMostThatCanBeReachedIsRefused() {
    int solves = 0;
    for (Case c : withPh(7000, 60, 0)) {
      double[] most = new Case(c.brief, c.table, c.known).mostActive();
      double reach = Programme.dot(activePercent(c), most);
      Case inside = c.withLeastActive(reach * (1 - 1e-6));
      assertNotNull(inside.covered(null, BOXES).w(), c.brief::toString);
      Case beyond = c.withLeastActive(reach * (1 + 1e-6));
      Closed none = beyond.covered(null, BOXES);
      assertNull(none.w(), c.brief::toString);
      assertTrue(none.isBest());
      solves += inside.solves + beyond.solves;
    }
    assertTrue(solves <= 9000, solves + " programmes");
  }

  private static double[] activePercent(Case c) {
    return c.programme.columns.stream().mapToDouble(m -> m.activePercent().typical()).toArray();
  }

  private static double[] fractions(Case c) {
    double[] w = new double[c.programme.columns.size()];
    c.known.lines().forEach(l -> w[c.programme.indexOf(l.material().id())] += l.massFraction());
    return w;
  }
}
