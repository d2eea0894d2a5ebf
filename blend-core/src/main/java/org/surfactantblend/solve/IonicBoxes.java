package org.surfactantblend.solve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;
import java.util.Queue;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.AqueousState;
import org.surfactantblend.optimise.NumericBreakdownException;
import org.surfactantblend.solve.IonicLoop.Closed;
import org.surfactantblend.solve.IonicLoop.Solver;
import org.surfactantblend.solve.PhEnd.IonicRange;
import org.surfactantblend.solve.Programme.Objective;
import org.surfactantblend.solve.Programme.Row;

/**
 * The best mass fractions anywhere: covers all ionic strengths that blends can have with boxes. A
 * box whose relaxed programme has no answer, or none better than what is known, is done; the others
 * are split.
 */
final class IonicBoxes {
  private static final double SMALLEST = 1e-7;
  private static final int MOST_ROUNDS = 6;

  private final IonicLoop loop;
  private final Programme programme;
  private final List<PhEnd> ph;
  private final Minimiser minimiser;

  /**
   * Boxes over the ionic strengths of a loop's blends.
   *
   * @param loop what has to be met, and the loop that is tried inside a box
   * @param minimiser finds how far the ionic strengths reach
   */
  IonicBoxes(IonicLoop loop, Minimiser minimiser) {
    this.loop = loop;
    this.programme = loop.programme();
    this.ph = loop.ph();
    this.minimiser = minimiser;
  }

  /**
   * A box of ionic strengths, one interval for each pH bound.
   *
   * @param wish what no blend in it can go below
   * @param depth how often it was split
   */
  @SuppressWarnings("ArrayRecordComponent")
  private record Box(double wish, int depth, double[] least, double[] greatest) {
    /** The most promising first; among equals the smallest. */
    static final Comparator<Box> PROMISING =
        Comparator.comparingDouble(Box::wish).thenComparing(Box::depth, Comparator.reverseOrder());

    double width(int side) {
      return greatest[side] - least[side];
    }

    int widest() {
      int widest = 0;
      for (int i = 1; i < least.length; i++) {
        if (width(i) > width(widest)) {
          widest = i;
        }
      }
      return widest;
    }

    boolean isSmallest() {
      return width(widest()) <= SMALLEST;
    }

    double[] nearest(double[] ionicStrength) {
      double[] inside = new double[least.length];
      for (int i = 0; i < inside.length; i++) {
        inside[i] = Math.min(greatest[i], Math.max(least[i], ionicStrength[i]));
      }
      return inside;
    }

    List<Box> halves(int side, double bound) {
      double middle = (least[side] + greatest[side]) / 2;
      double[] upperStart = least.clone();
      double[] lowerEnd = greatest.clone();
      upperStart[side] = middle;
      lowerEnd[side] = middle;
      return List.of(
          new Box(bound, depth + 1, least, lowerEnd),
          new Box(bound, depth + 1, upperStart, greatest));
    }
  }

  /**
   * Searches for mass fractions better than those known.
   *
   * @param known mass fractions that meet the bounds, or null
   * @param solver finds the best mass fractions of a box's rows
   * @param mostBoxes how many boxes may be looked at
   * @param goesOn asked before each box; on false the best so far is given
   */
  Closed cover(
      Objective objective,
      double @Nullable [] known,
      Solver solver,
      int mostBoxes,
      BooleanSupplier goesOn) {
    double[] best = known;
    if (best == null && !objective.isNothing()) {
      Objective nothing = Objective.plain(new double[programme.columns.size()]);
      Closed any = cover(nothing, null, solver, mostBoxes, goesOn);
      best = any.w();
      if (best == null) {
        return any;
      }
    }
    IonicRange[] within = worthwhile(objective, best);
    if (within == null) {
      return new Closed(best, true);
    }
    double[] least = Arrays.stream(within).mapToDouble(IonicRange::least).toArray();
    double[] most = Arrays.stream(within).mapToDouble(IonicRange::greatest).toArray();
    Queue<Box> open = new PriorityQueue<>(Box.PROMISING);
    open.add(new Box(Double.NEGATIVE_INFINITY, 0, least, most));
    for (int boxes = 1; !open.isEmpty() && boxes <= mostBoxes && goesOn.getAsBoolean(); boxes++) {
      Box box = open.remove();
      if (!programme.isBetter(objective, box.wish(), best)) {
        break;
      }
      double[] w;
      try {
        w = solver.solve(rows(box), objective);
      } catch (NumericBreakdownException e) {
        // Neither shown empty nor shown full: a smaller box will tell.
        if (!box.isSmallest()) {
          open.addAll(box.halves(box.widest(), box.wish()));
        }
        continue;
      }
      double wish = w == null ? 0 : programme.objectiveValue(objective, w);
      if (w == null || !programme.isBetter(objective, wish, best)) {
        continue;
      }
      if (loop.meets(w)) {
        best = w;
        continue;
      }
      if (Integer.bitCount(boxes) == 1) {
        double[] closed = loop.close(objective, w, box.nearest(loop.own(w)), solver).w();
        if (closed != null && programme.isBetter(objective, closed, best)) {
          best = closed;
        }
      }
      if (programme.isBetter(objective, wish, best) && !box.isSmallest()) {
        open.addAll(box.halves(mostMissed(box, w), wish));
      }
    }
    boolean isDone = open.isEmpty() || !programme.isBetter(objective, open.element().wish(), best);
    return new Closed(best, isDone);
  }

  /**
   * The ionic strengths that blends inside the linear rows can have at each pH bound; null when
   * there is no such blend.
   */
  IonicRange @Nullable [] attainable() {
    IonicRange[] ranges = new IonicRange[ph.size()];
    for (int k = 0; k < ranges.length; k++) {
      IonicRange range = attainable(loop.linear(), ph.get(k));
      if (range == null) {
        return null;
      }
      ranges[k] = range;
    }
    return ranges;
  }

  private @Nullable IonicRange attainable(List<Row> rows, PhEnd end) {
    AqueousState ideal = end.stateAt(0);
    AqueousState strongest = end.stateAt(end.activityPeak());
    double driest = leastOf(rows, end.water());
    double fewest = leastOf(rows, end.ions(ideal, loop.high()));
    double most =
        -leastOf(rows, Arrays.stream(end.ions(strongest, loop.high())).map(x -> -x).toArray());
    if (Double.isInfinite(driest) || Double.isInfinite(fewest) || Double.isInfinite(most)) {
      return null;
    }
    return new IonicRange(
        Math.max(0, fewest),
        most / Math.max(PhEnd.LEAST_WATER, driest) + strongest.ownIonicStrength() + 1e-9);
  }

  private double leastOf(List<Row> rows, double[] sum) {
    return minimiser.leastOf(rows, sum, loop.low(), loop.high());
  }

  /**
   * The ionic strengths that blends can have that are better than a known one, as far as that shows
   * from the rows of these ionic strengths again; null when there are none.
   */
  private IonicRange @Nullable [] worthwhile(Objective objective, double @Nullable [] best) {
    IonicRange[] ranges = attainable();
    for (int round = 0; ranges != null && round < MOST_ROUNDS; round++) {
      List<Row> rows = new ArrayList<>(loop.linear());
      if (best != null && objective.isLinear()) {
        double wish = programme.objectiveValue(objective, best);
        double[] better = objective.at(wish).cost();
        rows.add(new Row(better, Double.NEGATIVE_INFINITY, objective.isRatio() ? 0 : wish));
      }
      for (int k = 0; k < ranges.length; k++) {
        rows.add(ph.get(k).row(ranges[k], loop.high()));
      }
      boolean narrower = false;
      for (int k = 0; k < ranges.length; k++) {
        IonicRange now = attainable(rows, ph.get(k));
        if (now == null) {
          return null;
        }
        narrower |= now.width() < 0.8 * ranges[k].width();
        ranges[k] = now.within(ranges[k]);
      }
      if (!narrower) {
        break;
      }
    }
    return ranges;
  }

  /** The pH bound that a relaxed answer misses most: narrowing the others would tell nothing. */
  private int mostMissed(Box box, double[] w) {
    int worst = box.widest();
    double most = 0;
    for (int i = 0; i < ph.size(); i++) {
      double miss = ph.get(i).miss(w);
      if (miss > most && box.width(i) > SMALLEST) {
        most = miss;
        worst = i;
      }
    }
    return worst;
  }

  private List<Row> rows(Box box) {
    List<Row> rows = new ArrayList<>(loop.linear());
    for (int i = 0; i < ph.size(); i++) {
      IonicRange side = new IonicRange(box.least()[i], box.greatest()[i]);
      rows.add(ph.get(i).row(side, loop.high()));
      addIonicRows(rows, ph.get(i), side, loop.high());
    }
    return rows;
  }

  /** Rows that keep the ionic strength of a blend inside an interval. */
  private static void addIonicRows(List<Row> rows, PhEnd end, IonicRange side, double[] usable) {
    double slack = 1e-9;
    // Ions grow with the activity term, which rises to one peak: the least is at an end.
    AqueousState low = end.stateAt(side.least());
    AqueousState high = end.stateAt(side.greatest());
    AqueousState most =
        end.stateAt(Math.max(side.least(), Math.min(side.greatest(), end.activityPeak())));
    double atMost =
        side.greatest() - Math.min(low.ownIonicStrength(), high.ownIonicStrength()) + slack;
    double atLeast = side.least() - most.ownIonicStrength() - slack;
    double[] water = end.water();
    double[] ionsLow = end.ions(low, usable);
    double[] ionsHigh = end.ions(high, usable);
    double[] notMore = new double[water.length];
    double[] notLess = end.ions(most, usable);
    for (int j = 0; j < water.length; j++) {
      if (usable[j] != 0) {
        notMore[j] = Math.min(ionsLow[j], ionsHigh[j]) - atMost * water[j];
        notLess[j] -= atLeast * water[j];
      }
    }
    rows.add(new Row(notMore, Double.NEGATIVE_INFINITY, 0));
    rows.add(new Row(notLess, 0, Double.POSITIVE_INFINITY));
  }
}
