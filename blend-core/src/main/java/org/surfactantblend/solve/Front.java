package org.surfactantblend.solve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.optimise.TradeOffFront;
import org.surfactantblend.solve.Programme.Objective;
import org.surfactantblend.solve.Programme.Row;

/** Draws a trade-off: every point is a search of its own, closed at its own ionic strength. */
final class Front {
  private final Programme programme;
  private final SearchBudget budget;
  private final List<Bound> bounds;
  private final Choice choice;
  private boolean complete = true;

  Front(Programme programme, SearchBudget budget) {
    this.programme = programme;
    this.budget = budget;
    bounds = BlendSolver.bounds(programme.brief);
    choice = Choice.of(programme);
  }

  TradeOff between(Measure first, Measure second) {
    List<TradeOff.Corner> corners = new ArrayList<>();
    if (first == Measure.SURFACTANT_COUNT || second == Measure.SURFACTANT_COUNT) {
      boolean countFirst = first == Measure.SURFACTANT_COUNT;
      double[] other = programme.measure(countFirst ? second : first);
      for (double[] w : byCount(other)) {
        double value = Programme.dot(other, w);
        int count = used(w);
        corners.add(
            countFirst
                ? new TradeOff.Corner(BlendSolver.blend(programme, w), count, value)
                : new TradeOff.Corner(BlendSolver.blend(programme, w), value, count));
      }
      if (!countFirst) {
        Collections.reverse(corners);
      }
      return new TradeOff(programme.brief, first, second, corners, false, complete);
    }
    // The front without the choice is the front with it when it happens to obey it.
    List<TradeOffFront.Corner> points = points(first, second, Choice.free());
    boolean between = obeys(points);
    if (!between) {
      points = points(first, second, choice);
    }
    for (TradeOffFront.Corner c : points) {
      corners.add(new TradeOff.Corner(BlendSolver.blend(programme, c.x()), c.first(), c.second()));
    }
    return new TradeOff(programme.brief, first, second, corners, between, complete);
  }

  private List<TradeOffFront.Corner> points(Measure first, Measure second, Choice among) {
    return TradeOffFront.of(
        new TradeOffFront.Minimiser() {
          @Override
          public double @Nullable [] least(double[] cost) {
            return Front.this.least(cost, List.of(), among);
          }

          @Override
          public double @Nullable [] least(double[] cost, double[] held, double limit) {
            return Front.this.least(
                cost, List.of(new Row(held, Double.NEGATIVE_INFINITY, limit)), among);
          }
        },
        programme.measure(first),
        programme.measure(second),
        TradeOff.PRECISION);
  }

  /** Whether the corners of a front and what lies between them obey the choice. */
  private boolean obeys(List<TradeOffFront.Corner> points) {
    if (choice.minimumUse() > 0 && points.size() > 1) {
      return false;
    }
    for (int i = 0; i < points.size(); i++) {
      double[] own = points.get(i).x();
      double[] next = points.get(Math.min(i + 1, points.size() - 1)).x();
      double[] middle = new double[own.length];
      Arrays.setAll(middle, j -> (own[j] + next[j]) / 2);
      if (!choice.allows(programme, own) || !choice.allows(programme, middle)) {
        return false;
      }
    }
    return true;
  }

  /** The best blend for each number of surfactants that betters the one before. */
  private List<double[]> byCount(double[] cost) {
    List<double[]> all = new ArrayList<>();
    double[] free = least(cost, List.of(), choice);
    if (free == null) {
      return all;
    }
    double least = Programme.dot(cost, free);
    double room = TradeOff.PRECISION * Math.max(1e-3, Math.abs(least));
    double before = Double.POSITIVE_INFINITY;
    int most = choice.most() < 0 ? programme.candidates : choice.most();
    for (int count = Math.max(1, choice.fewest()); count <= most; count++) {
      double[] w = least(cost, List.of(), choice.withMost(count));
      if (w != null && Programme.dot(cost, w) < before - room) {
        before = Programme.dot(cost, w);
        all.add(w);
      }
      if (before <= least + room) {
        break;
      }
    }
    return all;
  }

  private int used(double[] w) {
    int count = 0;
    for (int j = 0; j < programme.candidates; j++) {
      count += w[j] > 0 ? 1 : 0;
    }
    return count;
  }

  private double @Nullable [] least(double[] cost, List<Row> held, Choice among) {
    Search search = new Search(programme, budget, held);
    double[] w = search.best(bounds, new Objective(cost, new double[0], List.of()), among);
    complete &= search.isComplete();
    return w;
  }
}
