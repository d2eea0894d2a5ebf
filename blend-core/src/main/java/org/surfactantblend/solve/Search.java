package org.surfactantblend.solve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.optimise.LinearProgram;
import org.surfactantblend.optimise.LpSolution;
import org.surfactantblend.optimise.NumericBreakdownException;
import org.surfactantblend.optimise.SearchSettings;
import org.surfactantblend.optimise.SupportProblem;
import org.surfactantblend.optimise.SupportResult;
import org.surfactantblend.optimise.SupportSearch;
import org.surfactantblend.solve.IonicLoop.Closed;
import org.surfactantblend.solve.IonicLoop.Solver;
import org.surfactantblend.solve.PhEnd.IonicRange;
import org.surfactantblend.solve.Programme.Objective;
import org.surfactantblend.solve.Programme.Row;

/**
 * Finds the best mass fractions for a set of bounds, closing the loop on ionic strength.
 *
 * <p>A pH bound is an exact row only at a known ionic strength, which the blend itself decides. So:
 * solve, take the ionic strength of the answer, solve again, until the answer lies inside its
 * window at its own ionic strength. A verdict that nothing exists is never taken from one ionic
 * strength: the whole attainable range is covered by boxes, each shown empty by a relaxed programme
 * or split.
 */
final class Search {
  /** Far below what a scale shows [kg/kg]. */
  private static final double TRACE = 1e-12;

  /** Sets that may fail at their own ionic strength before all sets are searched in boxes of it. */
  private static final int MOST_REFUSALS = 30;

  private static final int MOST_BOXES = 16_000;

  /** Boxes for one set among many, before all sets are searched in boxes. */
  private static final int FEW_BOXES = 10;

  private static final int BOXES_OF_SETS = 2000;

  /** How exactly a blended index is met [sodium lauryl sulfate = 100]. */
  static final double INDEX_TOLERANCE = 1e-6;

  private static final int MOST_CUTS = 400;

  private final Programme programme;
  private final SearchBudget budget;
  private final List<Row> held;
  private final boolean proving;

  /** Tangents of the blended index, valid for every blend and every limit. */
  private final List<double[]> tangents = new ArrayList<>();

  private final Minimiser minimiser;

  private boolean complete = true;

  /** What no set of those that the budget left undecided can go below. */
  private double undecided = Double.POSITIVE_INFINITY;

  private double bound = Double.NEGATIVE_INFINITY;

  Search(Programme programme) {
    this(programme, SearchBudget.none(), List.of());
  }

  /**
   * A search that can be stopped.
   *
   * @param budget how long it may go on
   * @param held rows that have to hold beside all bounds
   */
  Search(Programme programme, SearchBudget budget, List<Row> held) {
    this(programme, budget, held, true);
  }

  private Search(Programme programme, SearchBudget budget, List<Row> held, boolean proving) {
    this.programme = programme;
    this.minimiser = new Minimiser(programme);
    this.budget = budget;
    this.held = held;
    this.proving = proving;
  }

  /**
   * A search that gives up where the loop on ionic strength does not close at once: what it finds
   * is right, that it finds nothing says little.
   */
  static Search withoutProof(Programme programme) {
    return new Search(programme, SearchBudget.none(), List.of(), false);
  }

  /** Whether no search for a set was stopped by the budget so far. */
  boolean isComplete() {
    return complete;
  }

  /** What no set of surfactants that the last search did not bring can go below. */
  double bound() {
    return bound;
  }

  /**
   * The best mass fractions.
   *
   * @param bounds what has to be met
   * @param objective what to make small
   * @param choice which sets of surfactants are allowed
   * @return the fractions, or null when none exist
   */
  double @Nullable [] best(List<Bound> bounds, Objective objective, Choice choice) {
    double[] w = bestAtTangents(bounds, objective, choice);
    for (int cut = 0; w != null && isCut(bounds, objective, w, cut); cut++) {
      w = bestAtTangents(bounds, objective, choice);
    }
    return w;
  }

  private double @Nullable [] bestAtTangents(
      List<Bound> bounds, Objective objective, Choice choice) {
    if (choice.isPlain()) {
      return best(bounds, objective, programme.lower, programme.upper);
    }
    // The best blend without the choice is the best with it when it happens to obey it.
    double[] free = best(bounds, objective, programme.lower, programme.upper);
    if (free == null || choice.allows(programme, free)) {
      return free;
    }
    SearchSettings one = SearchSettings.best(1);
    Patience patience = new Patience(MOST_REFUSALS, FEW_BOXES);
    List<double[]> found =
        choicesAtTangents(bounds, objective, choice, one.withAnyOfEqualCost(), patience);
    double[] w = found.isEmpty() ? null : found.get(0);
    return patience.isOver() ? bestSetInBoxes(bounds, objective, choice, w) : w;
  }

  /**
   * The best mass fractions of any allowed set, with every pH row at one ionic strength or in one
   * box of them for all sets: where sets by the thousand pass the rows relaxed over all ionic
   * strengths and fail at their own.
   */
  double @Nullable [] bestSetInBoxes(
      List<Bound> bounds, Objective asked, Choice choice, double @Nullable [] known) {
    Objective objective = atTangents(asked);
    IonicLoop loop = loop(bounds, programme.lower, programme.upper);
    Solver solver =
        (rows, o) ->
            minimiser.minimise(rows, o, loop.low(), loop.high(), p -> bestOfSets(p, o, choice));
    Closed closed = loop.close(objective, null, loop.usual(), solver);
    if (loop.ph().isEmpty() || (closed.w() != null && objective.isNothing())) {
      return closed.w();
    }
    // Sets take turns far more often than amounts do: that the loop settled says little here.
    double[] best = closed.w();
    if (best == null
        || (known != null
            && programme.objectiveValue(objective, known)
                < programme.objectiveValue(objective, best))) {
      best = known;
    }
    return told(cover(loop, objective, best, solver, BOXES_OF_SETS));
  }

  /** What the boxes brought; when they did not come to an end, nor did the search. */
  private double @Nullable [] told(Closed covered) {
    complete &= covered.isBest();
    return covered.w();
  }

  private Closed cover(
      IonicLoop loop,
      Objective objective,
      double @Nullable [] known,
      Solver solver,
      int mostBoxes) {
    return proving
        ? new IonicBoxes(loop, minimiser)
            .cover(objective, known, solver, mostBoxes, budget.keepGoing())
        : new Closed(known, true);
  }

  private @Nullable LpSolution bestOfSets(LinearProgram all, Objective objective, Choice choice) {
    SearchSettings one = SearchSettings.best(1);
    SupportResult result =
        new SupportSearch()
            .search(
                choice.problem(programme, all),
                budget.applyTo(one.withAnyOfEqualCost(), objective.isRatio()));
    complete &= result.complete();
    return result.choices().isEmpty() ? null : result.choices().get(0).solution();
  }

  /**
   * Whether an answer misses the blended index that its tangents only bound from below; then the
   * tangent there joins them, and the answer is cut off.
   */
  private boolean isCut(List<Bound> bounds, Objective objective, double[] w, int cuts) {
    boolean missed = (objective.blended() && !meetsFloors(w)) || isMissed(bounds, w);
    double[] tangent = missed ? programme.index().tangent(w) : null;
    if (tangent == null) {
      return false;
    }
    if (cuts >= MOST_CUTS) {
      throw new IllegalStateException(
          "the blended index was not met after " + cuts + " cuts, for " + programme.brief);
    }
    tangents.add(tangent);
    return true;
  }

  private boolean meetsFloors(double[] w) {
    double active = Programme.dot(programme.index().active, w);
    double floor = Double.NEGATIVE_INFINITY;
    for (double[] t : tangents) {
      floor = Math.max(floor, Programme.dot(t, w));
    }
    return programme.index().blendedAt(w) <= floor / active + INDEX_TOLERANCE / 2;
  }

  private static boolean isBlended(Bound b) {
    return b.requirement().kind() == Requirement.Kind.BLENDED_INDEX;
  }

  /**
   * An objective with the tangents known so far in place of the blended index; the index without
   * credit when there are none.
   */
  private Objective atTangents(Objective objective) {
    if (!objective.blended()) {
      return objective;
    }
    return tangents.isEmpty()
        ? new Objective(objective.cost(), objective.per(), List.of())
        : objective.over(tangents);
  }

  /**
   * Among the blends of the same surfactants whose wish is no worse, the one with the least active
   * matter: for a wish that is a share, which says nothing of how much.
   *
   * @param w the best blend
   * @return the blend, or the given one where there is none with less
   */
  double[] leastActive(List<Bound> bounds, Objective objective, Choice choice, double[] w) {
    double[] low = programme.lower.clone();
    double[] high = programme.upper.clone();
    for (int j = 0; j < programme.candidates; j++) {
      high[j] = w[j] > 0 ? high[j] : 0;
      low[j] = w[j] > 0 && !choice.isPlain() ? Math.min(w[j], choice.leastUse()) : low[j];
    }
    double limit = programme.objectiveValue(objective, w) + INDEX_TOLERANCE / 10;
    List<Row> rows = new ArrayList<>(held);
    for (double[] sum : objective.blended() ? tangents : List.of(objective.cost())) {
      double[] c = sum.clone();
      for (int j = 0; j < c.length; j++) {
        c[j] -= limit * objective.per()[j];
      }
      rows.add(new Row(c, Double.NEGATIVE_INFINITY, 0));
    }
    Search within = new Search(programme, budget, rows);
    within.tangents.addAll(tangents);
    double[] less;
    try {
      less = within.best(bounds, Objective.plain(objective.per()), low, high);
    } catch (NumericBreakdownException e) {
      return w;
    }
    return less == null
            || programme.objectiveValue(objective, less) > limit + INDEX_TOLERANCE
            || isMissed(bounds, less)
        ? w
        : less;
  }

  private boolean isMissed(List<Bound> bounds, double[] w) {
    return bounds.stream()
        .anyMatch(
            b -> isBlended(b) && programme.value(w, b.requirement()) > b.value() + INDEX_TOLERANCE);
  }

  /**
   * The best mass fractions of each of the best sets of surfactants, best first.
   *
   * @param bounds what has to be met
   * @param objective what to make small
   * @param choice which sets of surfactants are allowed
   * @param settings how many sets, and how they have to differ
   * @return the fractions, empty when none exist
   */
  List<double[]> bestChoices(
      List<Bound> bounds, Objective objective, Choice choice, SearchSettings settings) {
    Patience endless = new Patience(Integer.MAX_VALUE, MOST_BOXES);
    List<double[]> found = choicesAtTangents(bounds, objective, choice, settings, endless);
    boolean cut = true;
    for (int cuts = 0; cut; cuts++) {
      cut = false;
      for (double[] w : found) {
        cut |= isCut(bounds, objective, w, cuts);
      }
      found = cut ? choicesAtTangents(bounds, objective, choice, settings, endless) : found;
    }
    return found;
  }

  private List<double[]> choicesAtTangents(
      List<Bound> bounds,
      Objective asked,
      Choice choice,
      SearchSettings settings,
      Patience patience) {
    Objective objective = atTangents(asked);
    IonicLoop loop = loop(bounds, programme.lower, programme.upper);
    IonicRange[] attainable = new IonicBoxes(loop, minimiser).attainable();
    if (attainable == null) {
      return List.of();
    }
    Question question = new Question(bounds, loop, attainable, objective, choice, patience);
    if (!objective.isRatio()) {
      return choices(question, 0, settings, List.of());
    }
    if (settings.differing() == 1) {
      return bestByRatio(question, settings, List.of());
    }
    List<double[]> all = new ArrayList<>();
    SearchSettings one = SearchSettings.best(1).withDiffering(settings.differing());
    while (all.size() < settings.alternatives()) {
      List<double[]> next = bestByRatio(question, one, all);
      if (next.isEmpty()) {
        break;
      }
      all.addAll(next);
    }
    return all;
  }

  /** What is searched for, with what has been worked out once for all passes. */
  @SuppressWarnings("ArrayRecordComponent")
  private record Question(
      List<Bound> bounds,
      IonicLoop loop,
      IonicRange[] attainable,
      Objective objective,
      Choice choice,
      Patience patience) {}

  /** How long sets are tried one by one. */
  private static final class Patience {
    /** Boxes of ionic strength for each set. */
    final int boxes;

    /** Sets that may still fail at their own ionic strength. */
    private int refusals;

    Patience(int refusals, int boxes) {
      this.refusals = refusals;
      this.boxes = boxes;
    }

    boolean isOver() {
      return refusals <= 0;
    }

    void refuse() {
      refusals--;
    }

    /** After a set that its boxes did not decide, unless no set gets more. */
    boolean end() {
      if (boxes == MOST_BOXES) {
        return false;
      }
      refusals = 0;
      return true;
    }
  }

  /**
   * The sets with the least ratios. A set's least ratio is at most r just when the least of its
   * numerator less r times its denominator is at most zero; so the sets that come first at the
   * ratio of the last of them are the ones wanted.
   */
  private List<double[]> bestByRatio(
      Question question, SearchSettings settings, List<double[]> before) {
    Objective objective = question.objective;
    double ratio = 0;
    List<double[]> found = List.of();
    for (int pass = 0; pass < 60; pass++) {
      List<double[]> next = new ArrayList<>();
      double last = Double.NEGATIVE_INFINITY;
      for (double[] w : choices(question, ratio, settings, before)) {
        double[] own = bestOfItsSet(question, w);
        next.add(own);
        last = Math.max(last, programme.objectiveValue(objective, own));
      }
      if (next.isEmpty()) {
        return found;
      }
      next.sort(Comparator.comparingDouble(w -> programme.objectiveValue(objective, w)));
      boolean settled = pass > 0 && last >= ratio - 1e-12 * Math.max(1, Math.abs(ratio));
      if (!settled || found.isEmpty()) {
        found = next;
      }
      if (settled || next.size() < settings.alternatives()) {
        return found;
      }
      ratio = last;
    }
    return found;
  }

  /** The best amounts of the surfactants that a blend uses. */
  private double[] bestOfItsSet(Question question, double[] w) {
    double[] low = programme.lower.clone();
    double[] high = programme.upper.clone();
    for (int j = 0; j < programme.candidates; j++) {
      if (w[j] > 0) {
        low[j] = question.choice.leastUse();
      } else {
        high[j] = 0;
      }
    }
    double[] own = best(question.bounds, question.objective, low, high);
    return own != null
            && programme.objectiveValue(question.objective, own)
                < programme.objectiveValue(question.objective, w)
        ? own
        : w;
  }

  private List<double[]> choices(
      Question question, double ratio, SearchSettings settings, List<double[]> before) {
    Objective objective = question.objective.at(ratio);
    List<PhEnd> ph = question.loop.ph();
    List<Row> relaxed = new ArrayList<>(question.loop.linear());
    for (int k = 0; k < ph.size(); k++) {
      relaxed.add(ph.get(k).row(question.attainable[k], question.loop.high()));
    }
    LinearProgram programmeOfAll =
        programme.model(relaxed, objective, question.loop.low(), question.loop.high());
    SupportProblem problem = question.choice.problem(programme, programmeOfAll);
    SearchSettings judged = budget.applyTo(settings, question.objective.isRatio());
    if (!before.isEmpty()) {
      judged = judged.withDiffering(1);
    }
    if (!ph.isEmpty() || !before.isEmpty()) {
      judged =
          judged.withLeafCheck(
              leaf -> {
                if (!differs(leaf.support(), before, settings.differing())) {
                  return null;
                }
                LpSolution own = ph.isEmpty() ? leaf.solution() : judge(leaf, question, objective);
                if (own == null) {
                  question.patience.refuse();
                }
                return own;
              });
      BooleanSupplier goesOn = judged.keepGoing();
      judged = judged.withKeepGoing(() -> !question.patience.isOver() && goesOn.getAsBoolean());
    }
    SupportResult result = new SupportSearch().search(problem, judged);
    complete &= result.complete() || question.patience.isOver();
    bound =
        question.objective.isRatio()
            ? Double.NEGATIVE_INFINITY
            : Math.min(undecided, result.bound());
    List<double[]> all = new ArrayList<>();
    result.choices().forEach(c -> all.add(programme.fractions(c.solution().x())));
    return all;
  }

  private boolean differs(int[] set, List<double[]> before, int differing) {
    for (double[] other : before) {
      int shared = 0;
      int size = 0;
      for (int j : set) {
        shared += other[j] > 0 ? 1 : 0;
      }
      for (int j = 0; j < programme.candidates; j++) {
        size += other[j] > 0 ? 1 : 0;
      }
      if (Math.max(set.length, size) - shared < differing) {
        return false;
      }
    }
    return true;
  }

  /** Closes the loop on ionic strength for one set of surfactants. */
  private @Nullable LpSolution judge(
      SearchSettings.Leaf leaf, Question question, Objective objective) {
    IonicLoop all = question.loop;
    double[] low = all.low().clone();
    double[] high = all.high().clone();
    Arrays.fill(high, 0, programme.candidates, 0);
    for (int j : leaf.support()) {
      low[j] = question.choice.leastUse();
      high[j] = all.high()[j];
    }
    IonicLoop loop = new IonicLoop(programme, all.linear(), all.ph(), low, high);
    int plain = all.linear().size() + all.ph().size();
    IdentityHashMap<double[], LpSolution> solutions = new IdentityHashMap<>();
    Solver solver =
        (rows, o) -> {
          LpSolution s =
              rows.size() == plain
                  ? leaf.resolve(programme.model(rows, o, all.low(), all.high()))
                  : minimiser.solve(programme.model(rows, o, low, high));
          if (!s.isOptimal()) {
            return null;
          }
          double[] fractions = programme.fractions(s.x());
          solutions.put(fractions, s);
          return fractions;
        };
    double[] own = loop.own(programme.fractions(leaf.solution().x()));
    Closed closed = loop.close(objective, null, own, solver);
    Closed covered =
        closed.isBest()
            ? closed
            : cover(
                loop,
                objective,
                closed.w(),
                (rows, o) -> minimiser.minimise(rows, o, low, high),
                question.patience.boxes);
    if (!covered.isBest()) {
      if (question.patience.end()) {
        return null;
      }
      complete = false;
      undecided = Math.min(undecided, leaf.solution().objective());
    }
    double[] found = covered.w();
    if (found == null) {
      return null;
    }
    LpSolution solved = solutions.get(found);
    return solved != null
        ? solved
        : minimiser.solve(programme.model(exactly(found), objective, all.low(), all.high()));
  }

  /** Rows that leave no choice but one blend. */
  private static List<Row> exactly(double[] w) {
    List<Row> rows = new ArrayList<>();
    for (int j = 0; j < w.length; j++) {
      double[] one = new double[w.length];
      one[j] = 1;
      rows.add(new Row(one, w[j] - TRACE, w[j] + TRACE));
    }
    return rows;
  }

  /** What bounds and held rows ask between some ends. */
  IonicLoop loop(List<Bound> bounds, double[] low, double[] high) {
    List<Row> linear = new ArrayList<>(held);
    List<PhEnd> ph = new ArrayList<>();
    for (Bound b : bounds) {
      if (Programme.isPh(b)) {
        ph.add(programme.phEnd(b));
      } else {
        programme.addRows(linear, b);
        if (isBlended(b)) {
          addCuts(linear, b, 0);
        }
      }
    }
    double[] usable = high.clone();
    linear.forEach(row -> row.closeUnusable(low, usable));
    return new IonicLoop(programme, linear, ph, low, usable);
  }

  double @Nullable [] best(List<Bound> bounds, Objective asked, double[] low, double[] high) {
    IonicLoop loop = loop(bounds, low, high);
    int known = tangents.size();
    Solver solver =
        isBlended(bounds, asked)
            ? (rows, o) -> minimiseWithCuts(rows, bounds, o, known, low, loop.high())
            : (rows, o) -> minimiser.minimise(rows, o, low, loop.high());
    Closed closed = loop.close(asked, null, loop.usual(), solver);
    if (!closed.isBest()) {
      return told(cover(loop, asked, closed.w(), solver, MOST_BOXES));
    }
    double[] w = closed.w();
    double[] other =
        w == null || asked.isNothing() || !closed.restsOnPh()
            ? null
            : loop.fromFar(asked, w, solver);
    return other == null ? w : told(cover(loop, asked, other, solver, MOST_BOXES));
  }

  private static boolean isBlended(List<Bound> bounds, Objective objective) {
    return objective.blended() || bounds.stream().anyMatch(Search::isBlended);
  }

  /** Solves a programme again with each new tangent of the blended index that its answer misses. */
  private double @Nullable [] minimiseWithCuts(
      List<Row> rows, List<Bound> bounds, Objective asked, int known, double[] low, double[] high) {
    for (int cuts = 0; ; cuts++) {
      List<Row> all = new ArrayList<>(rows);
      for (Bound b : bounds) {
        if (isBlended(b)) {
          addCuts(all, b, known);
        }
      }
      double[] w = minimiser.minimise(all, atTangents(asked), low, high);
      if (w == null || !isCut(bounds, asked, w, cuts)) {
        return w;
      }
    }
  }

  /** The rows of the tangents from one on, for the limit of a bound. */
  private void addCuts(List<Row> rows, Bound b, int from) {
    for (double[] t : tangents.subList(from, tangents.size())) {
      double[] c = t.clone();
      for (int j = 0; j < c.length; j++) {
        c[j] -= b.value() * programme.index().active[j];
      }
      rows.add(new Row(c, Double.NEGATIVE_INFINITY, 0));
    }
  }

  /** Whether any mass fractions meet the bounds; not when it hangs on a hair's breadth. */
  boolean isFeasible(List<Bound> bounds, Choice choice) {
    try {
      return best(bounds, Objective.plain(new double[programme.columns.size()]), choice) != null;
    } catch (NumericBreakdownException e) {
      return false;
    }
  }

  /** Whether a blend sits on a bound. */
  boolean holds(Bound b, double[] w) {
    if (Programme.isPh(b)) {
      return programme.phEnd(b).miss(w) >= -1e-6;
    }
    if (isBlended(b)) {
      return programme.value(w, b.requirement()) >= b.value() - 10 * INDEX_TOLERANCE;
    }
    Row row = programme.row(b);
    double sum = 0;
    double largest = 1e-300;
    for (int j = 0; j < w.length; j++) {
      sum += row.coefficients()[j] * w[j];
      largest = Math.max(largest, Math.abs(row.coefficients()[j]));
    }
    double end = b.upper() ? row.high() : row.low();
    return Math.abs(sum - end) <= 1e-8 * largest;
  }
}
