package org.surfactantblend.optimise;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * The trade-off between two linear measures, both wanted small: the corners of the set of points at
 * which neither can be bettered without giving up on the other.
 *
 * <p>Found by weighted sums that split the stretch between two known corners until none lies below
 * it, so nothing is sampled: over a convex set every mixture of two neighbours is on the front as
 * well; over a choice of supports the corners are those points that are best for some weighting.
 */
public final class TradeOffFront {
  private TradeOffFront() {}

  /** Finds best points of whatever set the front is drawn over. */
  public interface Minimiser {
    /**
     * A point of least cost.
     *
     * @param cost per unit of each variable
     * @return the point, or null when the set is empty
     */
    double @Nullable [] least(double[] cost);

    /**
     * A point of least cost among those at which another measure is small enough.
     *
     * @param cost per unit of each variable
     * @param held the other measure per unit of each variable
     * @param limit the greatest value of that measure
     * @return the point, or null when there is none
     */
    double @Nullable [] least(double[] cost, double[] held, double limit);
  }

  /**
   * A corner of the front.
   *
   * @param x the variables
   * @param first the first measure
   * @param second the second measure
   */
  @SuppressWarnings("ArrayRecordComponent")
  public record Corner(double[] x, double first, double second) {}

  /**
   * The corners by rising first measure, falling second.
   *
   * @param best finds best points
   * @param first the first measure per unit of each variable, finite
   * @param second the second measure per unit of each variable, finite
   * @param precision points closer than this share of the range of both measures count as one, and
   *     corners that lie less than this below the line of their neighbours as none; above 0
   * @return empty when the set is empty
   */
  public static List<Corner> of(Minimiser best, double[] first, double[] second, double precision) {
    Objects.requireNonNull(best, "best");
    double[] least = best.least(first);
    double[] other = best.least(second);
    if (least == null || other == null) {
      return List.of();
    }
    Corner left = atEnd(best, least, first, second, first, second, precision);
    Corner right = atEnd(best, other, second, first, first, second, precision);
    double width = right.first - left.first;
    double height = left.second - right.second;
    double none = precision * Math.max(Math.abs(left.first), Math.abs(right.first));
    double noneUp = precision * Math.max(Math.abs(left.second), Math.abs(right.second));
    if (width <= none || height <= noneUp) {
      // One point is best in both.
      return List.of(width <= none && height > noneUp ? right : left);
    }
    List<Corner> corners = new ArrayList<>();
    corners.add(left);
    new Stretch(best, first, second, width, height, precision).split(left, right, corners);
    corners.add(right);
    return withoutCollinear(corners, width, height, precision);
  }

  /** Among the points that are best in one measure, the one that is best in the other. */
  private static Corner atEnd(
      Minimiser best,
      double[] point,
      double[] held,
      double[] cost,
      double[] first,
      double[] second,
      double precision) {
    double value = dot(held, point);
    double largest = 0;
    for (double c : held) {
      largest = Math.max(largest, Math.abs(c));
    }
    // Far below the precision, so that the room itself buys nothing worth having.
    double room = 1e-3 * precision * Math.max(Math.abs(value), 1e-3 * largest);
    double[] better = best.least(cost, held, value + room);
    double other = dot(cost, point);
    return corner(
        better != null && dot(cost, better) < other - precision * Math.abs(other) ? better : point,
        first,
        second);
  }

  private static Corner corner(double[] x, double[] first, double[] second) {
    return new Corner(x, dot(first, x), dot(second, x));
  }

  private record Stretch(
      Minimiser best,
      @SuppressWarnings("ArrayRecordComponent") double[] first,
      @SuppressWarnings("ArrayRecordComponent") double[] second,
      double width,
      double height,
      double precision) {

    /** Adds all corners strictly between two, in order. */
    void split(Corner a, Corner b, List<Corner> corners) {
      double u = (a.second - b.second) / height;
      double v = (b.first - a.first) / width;
      if (u <= precision && v <= precision) {
        return;
      }
      double norm = u + v;
      double[] cost = new double[first.length];
      for (int j = 0; j < cost.length; j++) {
        cost[j] = u / norm * (first[j] / width) + v / norm * (second[j] / height);
      }
      double[] x = best.least(cost);
      if (x == null || dot(cost, a.x) - dot(cost, x) <= precision) {
        return;
      }
      Corner p = corner(x, first, second);
      if (p.first <= a.first
          || p.first >= b.first
          || p.second >= a.second
          || p.second <= b.second) {
        return; // better than the line only by what the minimiser leaves open
      }
      split(a, p, corners);
      corners.add(p);
      split(p, b, corners);
    }
  }

  private static List<Corner> withoutCollinear(
      List<Corner> corners, double width, double height, double precision) {
    List<Corner> kept = new ArrayList<>();
    for (Corner p : corners) {
      while (kept.size() > 1
          && !isBelow(
              kept.get(kept.size() - 2), kept.get(kept.size() - 1), p, width, height, precision)) {
        kept.remove(kept.size() - 1);
      }
      kept.add(p);
    }
    return List.copyOf(kept);
  }

  /** Whether the middle point lies below the line of its neighbours. */
  private static boolean isBelow(
      Corner a, Corner p, Corner b, double width, double height, double precision) {
    double ux = (p.first - a.first) / width;
    double uy = (p.second - a.second) / height;
    double vx = (b.first - a.first) / width;
    double vy = (b.second - a.second) / height;
    return ux * vy - uy * vx > precision * Math.hypot(vx, vy);
  }

  private static double dot(double[] weights, double[] x) {
    double sum = 0;
    for (int j = 0; j < weights.length; j++) {
      sum += weights[j] * x[j];
    }
    return sum;
  }
}
