package org.surfactantblend.solve;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.optimise.SearchSettings;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.problem.ProblemsException;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Require;

/**
 * Solves briefs: exactly, without sampling, and with the same answer for the same input.
 *
 * <p>Thread-safe; it keeps no state.
 */
public final class BlendSolver {
  private BlendSolver() {}

  /**
   * Solves a brief.
   *
   * @param brief what is asked
   * @param table what there is
   * @return the best blend, or the reason why there is none
   * @throws ProblemsException if the brief does not fit the table; it carries all problems of
   *     {@link #check}
   */
  public static BlendResult solve(Brief brief, MaterialTable table) {
    Programme programme = programme(check(brief, table), brief, table);
    Search search = new Search(programme);
    Programme.Objective objective = programme.objective();
    List<Bound> bounds = bounds(brief);
    Choice choice = Choice.of(programme);
    double[] w = search.best(bounds, objective, choice);
    if (w != null && brief.wish().needsScores()) {
      w = search.leastActive(bounds, objective, choice, w);
    }
    return w == null
        ? new Explanation(programme, search, bounds).noBlend()
        : solved(programme, objective, bounds, w);
  }

  /**
   * The best distinct sets of surfactants for a brief, each with its best amounts.
   *
   * @param brief what is asked; sets are told apart by which surfactants are used at least at the
   *     brief's minimum use, 0.1 % as supplied unless set
   * @param table what there is
   * @param count how many sets at most, 1 to 1000
   * @param differing how many surfactants any two sets have to differ by at least, 1 to 20
   * @param budget how long to search; when it stops the search, the best so far come with their
   *     proven gap
   * @return blends in order of the wish, best first; of equally good ones the smaller set first
   * @throws ProblemsException if the brief does not fit the table
   * @throws IllegalArgumentException if a count is out of range
   */
  public static Alternatives alternatives(
      Brief brief, MaterialTable table, int count, int differing, SearchBudget budget) {
    Require.inRange("count of alternatives", count, 1, 1000, "");
    Require.inRange("count of differing surfactants", differing, 1, 20, "");
    Objects.requireNonNull(budget, "budget");
    Programme programme = programme(check(brief, table), brief, table);
    Search search = new Search(programme, budget, List.of());
    Programme.Objective objective = programme.objective();
    List<Bound> bounds = bounds(brief);
    List<SolvedBlend> all = new ArrayList<>();
    for (double[] w :
        search.bestChoices(
            bounds,
            objective,
            Choice.of(programme),
            SearchSettings.best(count).withDiffering(differing))) {
      double[] own =
          brief.wish().needsScores()
              ? search.leastActive(bounds, objective, Choice.of(programme), w)
              : w;
      all.add(solved(programme, objective, bounds, own));
    }
    return new Alternatives(brief, all, search.isComplete(), search.bound());
  }

  /**
   * The trade-off between two measures among all blends that meet a brief.
   *
   * @param brief what is asked; its wish does not count
   * @param table what there is
   * @param first a measure wanted small
   * @param second another measure wanted small
   * @param budget how long to search; it counts where the brief limits the choice of surfactants
   * @return the front, without corners when no blend meets the brief
   * @throws ProblemsException if the brief does not fit the table, or a measure is not given for
   *     every material that may come in
   * @throws IllegalArgumentException if the measures are the same
   */
  public static TradeOff tradeOff(
      Brief brief, MaterialTable table, Measure first, Measure second, SearchBudget budget) {
    Objects.requireNonNull(budget, "budget");
    if (first == second) {
      throw new IllegalArgumentException(
          "second measure was " + second.label() + ", allowed is another one than the first");
    }
    Programme programme =
        programme(new BriefCheck(brief, table, first, second).problems(), brief, table);
    return new Front(programme, budget).between(first, second);
  }

  private static Programme programme(List<Problem> problems, Brief brief, MaterialTable table) {
    if (problems.stream().anyMatch(Problem::isError)) {
      throw new ProblemsException(problems);
    }
    return new Programme(brief, table);
  }

  private static SolvedBlend solved(
      Programme programme, Programme.Objective objective, List<Bound> bounds, double[] w) {
    Brief brief = programme.brief;
    double value = programme.objectiveValue(objective, w);
    Blend blend = blend(programme, w);
    StartingPh startingPh = StartingPh.of(blend, brief.conditions());
    return new SolvedBlend(
        brief,
        blend,
        programme.table,
        programme.withoutFigures(),
        () -> {
          Search again = new Search(programme);
          return brief.requirements().stream()
              .map(r -> report(programme, again, objective, bounds, w, value, blend, startingPh, r))
              .toList();
        },
        () -> new SensitivityFinder(programme, objective, bounds, w).find(),
        value,
        programme.excluded,
        startingPh);
  }

  /**
   * What is wrong with a brief for a table, before any solving.
   *
   * @param brief what is asked
   * @param table what there is
   * @return all problems, empty when it can be solved or explained
   */
  public static List<Problem> check(Brief brief, MaterialTable table) {
    Objects.requireNonNull(brief, "brief");
    Objects.requireNonNull(table, "table");
    return new BriefCheck(brief, table).problems();
  }

  static List<Bound> bounds(Brief brief) {
    List<Bound> all = new ArrayList<>();
    for (Requirement r : brief.requirements()) {
      if (r.hasLow()) {
        all.add(new Bound(r, false));
      }
      if (r.hasHigh()) {
        all.add(new Bound(r, true));
      }
    }
    return all;
  }

  static Blend blend(Programme programme, double[] w) {
    Blend.Builder b = Blend.named(programme.brief.name());
    List<Integer> order = new ArrayList<>();
    for (int j = 0; j < programme.candidates; j++) {
      if (w[j] > 0) {
        order.add(j);
      }
    }
    order.sort(Comparator.<Integer>comparingDouble(j -> -w[j]).thenComparing(j -> j));
    for (int j : order) {
      b.line(programme.columns.get(j), w[j] * 100);
    }
    for (int j = programme.candidates; j < programme.water(); j++) {
      b.line(programme.columns.get(j), programme.lower[j] * 100);
    }
    return b.upToHundredWith(programme.columns.get(programme.water()));
  }

  private static RequirementReport report(
      Programme programme,
      Search search,
      Programme.Objective objective,
      List<Bound> bounds,
      double[] w,
      double value,
      Blend blend,
      StartingPh whole,
      Requirement r) {
    Range reached = reached(programme, w, blend, whole, r);
    boolean low = r.hasLow() && search.holds(new Bound(r, false), w);
    boolean high = r.hasHigh() && search.holds(new Bound(r, true), w);
    OptionalDouble gain = OptionalDouble.empty();
    if (low || high) {
      double best = value;
      if (low) {
        best =
            Math.min(
                best, loosened(programme, search, objective, bounds, new Bound(r, false), value));
      }
      if (high) {
        best =
            Math.min(
                best, loosened(programme, search, objective, bounds, new Bound(r, true), value));
      }
      gain = OptionalDouble.of(value - best);
    }
    return new RequirementReport(
        r,
        reached,
        r.hasLow() ? Math.max(0, reached.typical() - r.low()) : Double.POSITIVE_INFINITY,
        r.hasHigh() ? Math.max(0, r.high() - reached.typical()) : Double.POSITIVE_INFINITY,
        low,
        high,
        gain);
  }

  private static double loosened(
      Programme programme,
      Search search,
      Programme.Objective objective,
      List<Bound> bounds,
      Bound bound,
      double value) {
    double by = Math.min(bound.requirement().kind().point(), bound.mostLoosening());
    if (by <= 0) {
      return value;
    }
    List<Bound> changed = new ArrayList<>(bounds);
    changed.set(changed.indexOf(bound), bound.loosened(by));
    double[] w = search.best(changed, objective, Choice.of(programme));
    return w == null ? value : programme.objectiveValue(objective, w);
  }

  private static Range reached(
      Programme programme, double[] w, Blend blend, StartingPh whole, Requirement r) {
    switch (r.kind()) {
      case STARTING_PH -> {
        return range(whole);
      }
      case STARTING_PH_OF_SURFACTANTS -> {
        Material water = programme.columns.get(programme.water());
        return range(StartingPh.of(blend.surfactantsOnly(water), programme.brief.conditions()));
      }
      case TO_REACH_PH -> {
        return PhEnd.percentToReach(programme, w, r);
      }
      case TOTAL_ACTIVE -> {
        return blend.totalActiveRange();
      }
      case CLASS_SHARE -> {
        return blend.shareRange(ChargeClass.parse(r.subject()).orElseThrow());
      }
      case SALT -> {
        return blend.saltPercent();
      }
      default -> {
        return Range.exactly(programme.value(w, r));
      }
    }
  }

  private static Range range(StartingPh ph) {
    return Range.of(ph.guaranteed().low(), ph.typical(), ph.guaranteed().high());
  }

  static Place place(Brief brief, String setting) {
    return Place.in("brief \"" + brief.name() + "\"", setting);
  }
}
