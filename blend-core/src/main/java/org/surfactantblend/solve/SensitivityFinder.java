package org.surfactantblend.solve;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.brief.Wish;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.optimise.NumericBreakdownException;
import org.surfactantblend.solve.Programme.Objective;

/** Finds what would change an answer by solving again and again. */
final class SensitivityFinder {
  /** How exactly an end or a price is found, as a share of the stretch searched. */
  private static final int HALVINGS = 40;

  private final Programme programme;
  private final Search search;
  private final Objective objective;
  private final List<Bound> bounds;
  private final Choice choice;
  private final double[] w;
  private final double value;

  SensitivityFinder(Programme programme, Objective objective, List<Bound> bounds, double[] w) {
    this.programme = programme;
    this.objective = objective;
    this.bounds = bounds;
    this.w = w;
    search = new Search(programme);
    choice = Choice.of(programme);
    value = programme.objectiveValue(objective, w);
  }

  Sensitivity find() {
    List<Sensitivity.Loosening> loosenings = new ArrayList<>();
    for (Bound b : bounds) {
      if (b.mostLoosening() > 0 && search.holds(b, w)) {
        Sensitivity.Loosening l = loosening(b);
        if (l != null) {
          loosenings.add(l);
        }
      }
    }
    List<Sensitivity.EntryPrice> prices = new ArrayList<>();
    if (programme.brief.wish().aim() == Wish.Aim.CHEAPEST) {
      for (int j = 0; j < programme.candidates; j++) {
        if (w[j] == 0) {
          prices.add(entryPrice(j));
        }
      }
    }
    OptionalDouble one = OptionalDouble.empty();
    if (choice.most() >= 0) {
      double[] more = search.best(bounds, objective, choice.withMost(choice.most() + 1));
      double gain = more == null ? 0 : value - programme.objectiveValue(objective, more);
      one = gain > noise() ? OptionalDouble.of(gain) : OptionalDouble.empty();
    }
    return new Sensitivity(programme.brief, loosenings, prices, one);
  }

  /** A wish with scores may have given up this much for less active matter. */
  private double noise() {
    return programme.brief.wish().needsScores()
        ? 2 * Search.INDEX_TOLERANCE
        : 1e-9 * Math.max(1, Math.abs(value));
  }

  private Sensitivity.@Nullable Loosening loosening(Bound b) {
    double most = b.mostLoosening();
    double point = b.requirement().kind().point();
    double little = Math.min(most, 1e-3 * point);
    double[] first = best(b, little);
    if (first == null || gain(first) <= noise()) {
      return null;
    }
    BitSet pattern = pattern(b, first);
    double same = little;
    double[] there = first;
    double changed = most;
    for (double by = Math.min(most, point); same < most; by = Math.min(most, 2 * by)) {
      double[] next = best(b, by);
      if (next == null || !pattern(b, next).equals(pattern)) {
        changed = by;
        break;
      }
      same = by;
      there = next;
    }
    for (int i = 0; i < HALVINGS && changed - same > 1e-6 * point; i++) {
      double middle = (same + changed) / 2;
      double[] next = best(b, middle);
      if (next != null && pattern(b, next).equals(pattern)) {
        same = middle;
        there = next;
      } else {
        changed = middle;
      }
    }
    return new Sensitivity.Loosening(
        b,
        gain(first) / little * point,
        b.upper() ? b.value() + same : b.value() - same,
        gain(there));
  }

  private double gain(double[] other) {
    return value - programme.objectiveValue(objective, other);
  }

  private double @Nullable [] best(Bound b, double loosening) {
    List<Bound> changed = new ArrayList<>(bounds);
    changed.set(changed.indexOf(b), b.loosened(loosening));
    try {
      return search.best(changed, objective, choice);
    } catch (NumericBreakdownException e) {
      return null;
    }
  }

  /** Which surfactants are used and which other ends bind. */
  private BitSet pattern(Bound moved, double[] other) {
    BitSet set = new BitSet();
    for (int j = 0; j < programme.columns.size(); j++) {
      set.set(j, other[j] > 1e-9);
    }
    for (int k = 0; k < bounds.size(); k++) {
      set.set(
          programme.columns.size() + k,
          !bounds.get(k).equals(moved) && search.holds(bounds.get(k), other));
    }
    return set;
  }

  private Sensitivity.EntryPrice entryPrice(int j) {
    String id = programme.columns.get(j).id();
    double now = programme.price(j);
    double used = usedAt(j, 0);
    if (used == 0) {
      return new Sensitivity.EntryPrice(id, now, OptionalDouble.empty(), 0);
    }
    double in = 0;
    double out = now;
    for (int i = 0; i < HALVINGS && out - in > 1e-6 * out; i++) {
      double middle = (in + out) / 2;
      double amount = usedAt(j, middle);
      if (amount > 0) {
        in = middle;
        used = amount;
      } else {
        out = middle;
      }
    }
    return new Sensitivity.EntryPrice(id, now, OptionalDouble.of(in), used * 100);
  }

  /** How much of a candidate the best blend uses at another price [kg/kg]. */
  private double usedAt(int j, double price) {
    MaterialTable table =
        programme.table.priced(programme.table.prices().with(programme.columns.get(j).id(), price));
    Programme other = new Programme(programme.brief, table);
    try {
      double[] best = new Search(other).best(bounds, other.objective(), choice);
      return best == null ? 0 : best[j];
    } catch (NumericBreakdownException e) {
      return 0;
    }
  }
}
