package org.surfactantblend.optimise;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * The exact trade-off between two linear measures, both wanted small: all corner points of the set
 * of points at which neither measure can be bettered without giving up on the other. Between two
 * neighbours every mixture of the two is on the front as well (for a programme; for a choice of
 * supports, only the corners are claimed).
 *
 * <p>Found by weighted sums that split the stretch between two known corners until none is left
 * below it, so nothing is sampled. Two points closer than 1e-9 of the range of both measures count
 * as one. An instance is a workspace for one thread.
 */
public final class TradeOffFront {

  private static final double SAME = 1e-9;
  private static final int[] NONE = {};

  private final DualSimplex simplex = new DualSimplex();
  private final SupportSearch search = new SupportSearch();

  /** An empty workspace. */
  public TradeOffFront() {}

  /**
   * A corner of the front. Immutable.
   *
   * <p>The support is empty for a programme without a choice.
   */
  public static final class Point {
    private final double[] x;
    private final int[] support;
    private final double first;
    private final double second;

    Point(double[] x, int[] support, double[] first, double[] second) {
      this.x = x;
      this.support = support;
      this.first = dot(first, x);
      this.second = dot(second, x);
    }

    /** The variables. */
    public double[] x() {
      return x.clone();
    }

    /** The variables in use, ascending, for a choice of supports. */
    public int[] support() {
      return support.clone();
    }

    /** The first measure. */
    public double first() {
      return first;
    }

    /** The second measure. */
    public double second() {
      return second;
    }
  }

  /**
   * The corners, by rising first measure.
   *
   * @param points empty when no point meets all rows
   * @param complete false only if a search was stopped: then corners may be missing, or not the
   *     best
   */
  public record Front(List<Point> points, boolean complete) {

    /** Keeps a copy of the list. */
    public Front {
      points = List.copyOf(points);
    }
  }

  /**
   * The whole front of a programme, whose own costs do not count.
   *
   * @param first the first measure per unit of each variable, finite
   * @param second the second measure per unit of each variable, finite
   */
  public Front of(LinearProgram programme, double[] first, double[] second) {
    Objects.requireNonNull(programme, "programme");
    LpSolution least = simplex.solve(programme.withCost(first));
    if (!least.isOptimal()) {
      return new Front(List.of(), true);
    }
    LpSolution other = simplex.solve(programme.withCost(second), least.basis());
    LpSolution a = simplex.solve(face(programme, least).withCost(second), least.basis());
    LpSolution b = simplex.solve(face(programme, other).withCost(first), other.basis());
    Point left = new Point((a.isOptimal() ? a : least).x(), NONE, first, second);
    Point right = new Point((b.isOptimal() ? b : other).x(), NONE, first, second);
    Basis[] start = {least.basis()};
    return front(
        left,
        right,
        first,
        second,
        cost -> {
          LpSolution s = simplex.solve(programme.withCost(cost), start[0]);
          start[0] = s.basis();
          return s.isOptimal() ? new Point(s.x(), NONE, first, second) : null;
        });
  }

  /**
   * The corners of the front over all supports that a problem allows: the choices that are best for
   * some weighting of the two measures.
   *
   * @param settings its budget and leaf check count; the leaf check sees programmes whose cost is a
   *     weighting of the two measures
   */
  public Front supported(
      SupportProblem problem, double[] first, double[] second, SearchSettings settings) {
    Objects.requireNonNull(problem, "problem");
    SearchSettings one =
        new SearchSettings(
            1, 1, false, settings.keepGoing(), settings.progress(), settings.leafCheck());
    boolean[] complete = {true};
    Weighted best =
        cost -> point(search.search(problem.withCost(cost), one), first, second, complete);
    Point least = best.at(first);
    if (least == null) {
      return new Front(List.of(), complete[0]);
    }
    Point left = within(problem, first, least.first(), second, one, first, second, complete);
    Point other = best.at(second);
    if (other == null) {
      return new Front(List.of(least), complete[0]);
    }
    Point right = within(problem, second, other.second(), first, one, first, second, complete);
    Front front =
        front(left == null ? least : left, right == null ? other : right, first, second, best);
    return new Front(front.points(), complete[0]);
  }

  /** Least of one measure among those that are best in the other. */
  private @Nullable Point within(
      SupportProblem problem,
      double[] held,
      double limit,
      double[] cost,
      SearchSettings settings,
      double[] first,
      double[] second,
      boolean[] complete) {
    LinearProgram lp = problem.programme;
    double room = SAME * Math.max(Math.abs(limit), 1e-3 * lp.withCost(held).costMax * lp.magnitude);
    SupportProblem narrowed =
        problem.with(lp.plusRow(held, Double.NEGATIVE_INFINITY, limit + room).withCost(cost));
    return point(search.search(narrowed, settings), first, second, complete);
  }

  private static @Nullable Point point(
      SupportResult result, double[] first, double[] second, boolean[] complete) {
    complete[0] &= result.complete();
    if (result.choices().isEmpty()) {
      return null;
    }
    SupportResult.Choice choice = result.choices().get(0);
    return new Point(choice.solution().x(), choice.support(), first, second);
  }

  @FunctionalInterface
  private interface Weighted {
    @Nullable Point at(double[] cost);
  }

  private static Front front(
      Point left, Point right, double[] first, double[] second, Weighted best) {
    List<Point> corners = new ArrayList<>();
    double width = right.first - left.first;
    double height = left.second - right.second;
    double size = SAME * Math.max(magnitude(left.first, right.first), Double.MIN_NORMAL);
    double sizeUp = SAME * Math.max(magnitude(left.second, right.second), Double.MIN_NORMAL);
    if (width <= size || height <= sizeUp) {
      // One point is best in both.
      corners.add(width <= size && height > sizeUp ? right : left);
      return new Front(corners, true);
    }
    corners.add(left);
    split(left, right, width, height, first, second, best, corners);
    corners.add(right);
    return new Front(withoutCollinear(corners, width, height), true);
  }

  private static double magnitude(double a, double b) {
    return Math.max(Math.abs(a), Math.abs(b));
  }

  /** Adds all corners strictly between two, in order. */
  private static void split(
      Point a,
      Point b,
      double width,
      double height,
      double[] first,
      double[] second,
      Weighted best,
      List<Point> corners) {
    double u = (a.second - b.second) / height;
    double v = (b.first - a.first) / width;
    if (u <= SAME && v <= SAME) {
      return;
    }
    double norm = u + v;
    double[] cost = new double[first.length];
    for (int j = 0; j < cost.length; j++) {
      cost[j] = u / norm * (first[j] / width) + v / norm * (second[j] / height);
    }
    Point p = best.at(cost);
    if (p == null || dot(cost, a.x) - dot(cost, p.x) <= SAME) {
      return;
    }
    split(a, p, width, height, first, second, best, corners);
    corners.add(p);
    split(p, b, width, height, first, second, best, corners);
  }

  private static List<Point> withoutCollinear(List<Point> corners, double width, double height) {
    List<Point> kept = new ArrayList<>();
    for (Point p : corners) {
      while (kept.size() > 1
          && !isBelow(kept.get(kept.size() - 2), kept.get(kept.size() - 1), p, width, height)) {
        kept.remove(kept.size() - 1);
      }
      kept.add(p);
    }
    return kept;
  }

  /** Whether the middle point lies below the line of its neighbours. */
  private static boolean isBelow(Point a, Point p, Point b, double width, double height) {
    double ux = (p.first - a.first) / width;
    double uy = (p.second - a.second) / height;
    double vx = (b.first - a.first) / width;
    double vy = (b.second - a.second) / height;
    return ux * vy - uy * vx > SAME * Math.hypot(vx, vy);
  }

  /**
   * The programme narrowed to the points that are as good as a given optimum: what has a price
   * stays at its bound.
   */
  private static LinearProgram face(LinearProgram lp, LpSolution optimum) {
    double[] reduced = optimum.reducedCosts();
    double[] duals = optimum.rowDuals();
    double[] lower = lp.lower.clone();
    double[] upper = lp.upper.clone();
    double[] rowLower = lp.rowLower.clone();
    double[] rowUpper = lp.rowUpper.clone();
    double largest = 0;
    for (double r : reduced) {
      largest = Math.max(largest, Math.abs(r));
    }
    for (int i = 0; i < duals.length; i++) {
      largest = Math.max(largest, Math.abs(duals[i]) * lp.rowMax[i]);
    }
    double none = 1e-10 * largest;
    for (int j = 0; j < reduced.length; j++) {
      if (reduced[j] > none) {
        upper[j] = lower[j];
      } else if (reduced[j] < -none) {
        lower[j] = upper[j];
      }
    }
    for (int i = 0; i < duals.length; i++) {
      if (duals[i] * lp.rowMax[i] > none) {
        rowUpper[i] = rowLower[i];
      } else if (duals[i] * lp.rowMax[i] < -none) {
        rowLower[i] = rowUpper[i];
      }
    }
    return lp.withBounds(lower, upper).withRowBounds(rowLower, rowUpper);
  }

  private static double dot(double[] weights, double[] x) {
    double sum = 0;
    for (int j = 0; j < x.length; j++) {
      sum += weights[j] * x[j];
    }
    return sum;
  }
}
