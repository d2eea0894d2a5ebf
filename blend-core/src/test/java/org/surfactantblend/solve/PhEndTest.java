package org.surfactantblend.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.solve.PhEnd.IonicRange;
import org.surfactantblend.solve.Programme.Row;
import org.surfactantblend.testing.Recheck;
import org.surfactantblend.testing.RecheckedPh;
import org.surfactantblend.testing.RecheckedPh.Balance;
import org.surfactantblend.testing.RecheckedPh.Water;
import org.surfactantblend.testing.Shop;

/** A pH as a row, judged by a charge balance written a second time ({@link RecheckedPh}). */
class PhEndTest {
  private static final int SHOPS = 40;

  /** A random shop's programme with its known blend. */
  private record Known(Programme programme, Blend blend, double[] w) {
    static List<Known> some(long from) {
      List<Known> all = new ArrayList<>();
      for (long seed = from; seed < from + SHOPS; seed++) {
        RandomTask task = new RandomTask(seed);
        Brief brief = task.brief(0).toReachPh(3.5, Shop.CITRIC.id(), 50).build();
        Programme p = new Programme(brief, task.table);
        double[] w = new double[p.columns.size()];
        task.known.lines().forEach(l -> w[p.indexOf(l.material().id())] += l.massFraction());
        all.add(new Known(p, task.known, w));
      }
      return all;
    }

    PhEnd end(Requirement.Kind kind, double ph, boolean upper) {
      return programme.phEnd(new Bound(Requirement.of(kind, "", ph, ph), upper));
    }

    PhEnd start(double ph, boolean upper) {
      return end(Requirement.Kind.STARTING_PH, ph, upper);
    }

    Requirement reach(double ph, double percent) {
      return new Requirement(
          Requirement.Kind.TO_REACH_PH, Shop.CITRIC.id(), Double.NEGATIVE_INFINITY, percent, ph);
    }

    Balance balance() {
      return Balance.typical(blend, Water.at25());
    }
  }

  private static double distance(Known k) {
    return Math.max(1e-3, Math.abs(k.balance().charge(3, 0.1)));
  }

  @Test
  void theChargeOfARowIsTheChargeOfTheBlend() {
    for (Known k : Known.some(1)) {
      for (double ph = 3; ph <= 11; ph += 1) {
        for (double ionicStrength : new double[] {0.003, 0.1, 0.9}) {
          double expected = k.balance().charge(ph, ionicStrength);
          Row row = k.start(ph, true).row(IonicRange.exactly(ionicStrength), k.programme.upper);
          assertEquals(expected, Programme.dot(row.coefficients(), k.w), 1e-9 * distance(k));
          assertEquals(Double.NEGATIVE_INFINITY, row.low());
          assertEquals(0, row.high());
          Row least = k.start(ph, false).row(IonicRange.exactly(ionicStrength), k.programme.upper);
          assertEquals(0, least.low());
          assertEquals(Double.POSITIVE_INFINITY, least.high());
        }
      }
    }
  }

  @Test
  void theStateOfABlendIsItsOwn() {
    for (Known k : Known.some(100)) {
      for (double ph = 3; ph <= 11; ph += 2) {
        double expected = k.balance().ionicStrength(ph);
        double own = k.start(ph, true).state(k.w).ionicStrength();
        assertEquals(expected, own, 1e-9 * Math.max(1, expected));
      }
    }
  }

  @Test
  void aMissIsToldInPhUnitsOnTheSideThatWasAsked() {
    for (Known k : Known.some(200)) {
      double ph = k.balance().ph();
      for (double off : new double[] {-0.01, 0.01}) {
        // A blend above an upper end misses it; the same blend keeps a lower end there.
        assertEquals(-off, k.start(ph + off, true).miss(k.w), 0.002);
        assertEquals(off, k.start(ph + off, false).miss(k.w), 0.002);
      }
      assertEquals(0, k.start(ph, true).miss(k.w), 1e-6);
    }
  }

  @Test
  void aTangentFollowsTheBlendsOwnIonicStrength() {
    Random random = new Random(5);
    double tangents = 0;
    double plain = 0;
    for (Known k : Known.some(300)) {
      double ph = Math.max(3, Math.min(11, k.balance().ph()));
      PhEnd end = k.start(ph, true);
      double[] near = k.w.clone();
      double moved = 0.01 * k.w[k.programme.water()];
      int to = random.nextInt(k.programme.candidates);
      near[to] += moved;
      near[k.programme.water()] -= moved;
      double here = end.charge(k.w, end.state(k.w));
      double there = end.charge(near, end.state(near));
      Row tangent = end.tangent(k.w, k.programme.upper);
      assertEquals(here, Programme.dot(tangent.coefficients(), k.w), 1e-9 * distance(k));
      tangents += Math.abs(there - Programme.dot(tangent.coefficients(), near)) / distance(k);
      IonicRange own = IonicRange.exactly(end.state(k.w).ionicStrength());
      Row row = end.row(own, k.programme.upper);
      plain += Math.abs(there - Programme.dot(row.coefficients(), near)) / distance(k);
    }
    assertTrue(tangents < plain / 20, tangents + " by tangents, " + plain + " by plain rows");
  }

  @Test
  void aRowForSeveralIonicStrengthsNeverRefusesWhatOneOfThemAllows() {
    for (Known k : Known.some(400)) {
      for (double ph = 3; ph <= 11; ph += 1) {
        IonicRange range = new IonicRange(0.02, 0.9);
        double most = k.start(ph, true).row(range, k.programme.upper).coefficients()[0];
        double least = k.start(ph, false).row(range, k.programme.upper).coefficients()[0];
        double greatestSeen = Double.NEGATIVE_INFINITY;
        double leastSeen = Double.POSITIVE_INFINITY;
        for (double i = 0.02; i <= 0.9; i += 0.02) {
          double exact =
              k.start(ph, true).row(IonicRange.exactly(i), k.programme.upper).coefficients()[0];
          greatestSeen = Math.max(greatestSeen, exact);
          leastSeen = Math.min(leastSeen, exact);
        }
        double room = 1e-4 * Math.abs(greatestSeen);
        assertTrue(most <= leastSeen + 1e-12 && most >= leastSeen - room);
        assertTrue(least >= greatestSeen - 1e-12 && least <= greatestSeen + room);
      }
    }
  }

  @Test
  void whatCannotBeUsedIsNotLookedAt() {
    Known k = Known.some(500).get(0);
    double[] high = k.programme.upper.clone();
    high[0] = 0;
    Row row = k.start(5, true).row(IonicRange.exactly(0.1), high);
    assertEquals(0, row.coefficients()[0]);
    assertEquals(0, k.start(5, true).tangent(k.w, high).coefficients()[0]);
  }

  @Test
  void theAcidToReachAPhBringsTheBlendThere() {
    int reached = 0;
    for (Known k : Known.some(600)) {
      double start = k.balance().ph();
      double target = start - 1;
      Range percent = PhEnd.percentToReach(k.programme, k.w, k.reach(target, 50));
      assertTrue(percent.low() <= percent.typical() && percent.typical() <= percent.high());
      if (percent.typical() > k.blend.asSupplied("water").value() / 2 || target < 3) {
        continue;
      }
      reached++;
      Blend finished = Recheck.finished(k.blend, k.programme.brief, Shop.CITRIC, percent.typical());
      assertEquals(target, RecheckedPh.of(finished, Water.at25()), 1e-5);
      PhEnd enough = k.programme.phEnd(new Bound(k.reach(target, percent.typical()), true));
      assertEquals(0, enough.miss(k.w), 1e-6);
      PhEnd little = k.programme.phEnd(new Bound(k.reach(target, percent.typical() / 2), true));
      assertTrue(little.miss(k.w) > 0, "half of the acid misses it");
      PhEnd much = k.programme.phEnd(new Bound(k.reach(target, 2 * percent.typical()), true));
      assertTrue(much.miss(k.w) < 0, "twice the acid is enough");
    }
    assertTrue(reached > 20, reached + " reached");
  }

  @Test
  void noAcidIsNeededForAPhThatIsThere() {
    for (Known k : Known.some(700)) {
      Range none = PhEnd.percentToReach(k.programme, k.w, k.reach(k.balance().ph() + 1, 50));
      assertEquals(0, none.typical());
    }
  }

  @Test
  void askedOfTheSurfactantsAloneAllElseCountsAsWater() {
    for (Known k : Known.some(800)) {
      Blend.Builder alone = Blend.named("alone");
      k.blend.lines().stream()
          .filter(l -> l.material().isSurfactant())
          .forEach(l -> alone.line(l.material(), l.amount().value()));
      double ph = RecheckedPh.of(alone.upToHundredWith(Shop.WATER), Water.at25());
      Requirement.Kind kind = Requirement.Kind.STARTING_PH_OF_SURFACTANTS;
      assertEquals(0, k.end(kind, ph, true).miss(k.w), 1e-6);
      assertEquals(0, k.end(kind, ph, false).miss(k.w), 1e-6);
    }
  }
}
