package org.surfactantblend.solve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.PriorityQueue;
import java.util.Queue;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.AqueousState;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.optimise.DualSimplex;
import org.surfactantblend.optimise.LinearProgram;
import org.surfactantblend.optimise.LpSolution;
import org.surfactantblend.optimise.NumericBreakdownException;
import org.surfactantblend.optimise.SearchSettings;
import org.surfactantblend.optimise.SupportProblem;
import org.surfactantblend.optimise.SupportResult;
import org.surfactantblend.optimise.SupportSearch;
import org.surfactantblend.solve.Programme.IonicRange;
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
  /** How exactly an answer has to meet a pH bound [pH units]. */
  private static final double PH_TOLERANCE = 2e-7;

  /** Within this much of each other two mass fractions are the same [kg/kg]. */
  private static final double SAME = 1e-8;

  /** Far below what a scale shows [kg/kg]. */
  private static final double TRACE = 1e-12;

  /** Sets that may fail at their own ionic strength before all sets are searched in boxes of it. */
  private static final int MOST_REFUSALS = 30;

  /** Where to begin [mol/kg of water]. */
  private static final double USUAL_IONIC_STRENGTH = 0.1;

  private static final int PASSES = 12;
  private static final int MOST_PASSES = 48;
  private static final int MOST_BOXES = 16_000;

  /** Boxes for one set among many, before all sets are searched in boxes. */
  private static final int FEW_BOXES = 10;

  private static final int BOXES_OF_SETS = 2000;
  private static final double SMALLEST_BOX = 1e-7;

  /** How exactly a blended index is met [sodium lauryl sulfate = 100]. */
  static final double INDEX_TOLERANCE = 1e-6;

  private static final int MOST_CUTS = 400;
  private static final int MOST_ROUNDS = 6;

  /** What a better answer has to gain in the wish, as a part of it, to be looked for. */
  private static final double GAIN = 1e-7;

  private final Programme programme;
  private final SearchBudget budget;
  private final List<Row> held;
  private final boolean proving;

  /** Tangents of the blended index, valid for every blend and every limit. */
  private final List<double[]> tangents = new ArrayList<>();

  private double lastRatio;
  private final DualSimplex simplex = new DualSimplex();

  private boolean complete = true;
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
  private double @Nullable [] bestSetInBoxes(
      List<Bound> bounds, Objective asked, Choice choice, double @Nullable [] known) {
    Objective objective = atTangents(asked);
    List<Row> linear = new ArrayList<>(held);
    List<Bound> ph = new ArrayList<>();
    sort(bounds, linear, ph);
    double[] ionicStrength = new double[ph.size()];
    Arrays.fill(ionicStrength, USUAL_IONIC_STRENGTH);
    double[] low = programme.lower;
    double[] high = programme.upper;
    Solver solver = (rows, o) -> minimise(rows, o, low, high, p -> bestOfSets(p, o, choice));
    Closed closed = closeLoop(linear, ph, objective, null, ionicStrength, high, solver);
    if (ph.isEmpty() || (closed.w() != null && objective.isNothing())) {
      return closed.w();
    }
    // Sets take turns far more often than amounts do: that the loop settled says little here.
    double[] best = closed.w();
    if (best == null
        || (known != null
            && isBetter(objective, programme.objectiveValue(objective, known), best))) {
      best = known;
    }
    return cover(linear, ph, objective, low, high, best, solver, BOXES_OF_SETS).w();
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
      less = within.best(bounds, plain(objective.per()), low, high);
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
    List<Row> linear = new ArrayList<>(held);
    List<Bound> ph = new ArrayList<>();
    sort(bounds, linear, ph);
    IonicRange[] attainable = new IonicRange[ph.size()];
    for (int k = 0; k < attainable.length; k++) {
      IonicRange range = attainable(linear, ph.get(k), programme.lower, programme.upper);
      if (range == null) {
        return List.of();
      }
      attainable[k] = range;
    }
    Question question = new Question(bounds, linear, ph, attainable, objective, choice, patience);
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
      List<Row> linear,
      List<Bound> ph,
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
    List<Row> relaxed = new ArrayList<>(question.linear);
    for (int k = 0; k < question.ph.size(); k++) {
      relaxed.add(programme.row(question.ph.get(k), question.attainable[k]));
    }
    LinearProgram programmeOfAll =
        programme.model(relaxed, objective, programme.lower, programme.upper);
    SupportProblem problem = question.choice.problem(programme, programmeOfAll);
    SearchSettings judged = budget.applyTo(settings, question.objective.isRatio());
    if (!before.isEmpty()) {
      judged = judged.withDiffering(1);
    }
    if (!question.ph.isEmpty() || !before.isEmpty()) {
      judged =
          judged.withLeafCheck(
              leaf -> {
                if (!differs(leaf.support(), before, settings.differing())) {
                  return null;
                }
                LpSolution own =
                    question.ph.isEmpty() ? leaf.solution() : judge(leaf, question, objective);
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
    bound = question.objective.isRatio() ? Double.NEGATIVE_INFINITY : result.bound();
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
    List<Row> linear = question.linear;
    List<Bound> ph = question.ph;
    double[] ionicStrength = new double[ph.size()];
    double[] w = programme.fractions(leaf.solution().x());
    for (int k = 0; k < ionicStrength.length; k++) {
      ionicStrength[k] = programme.state(w, ph.get(k)).ionicStrength();
    }
    double[] low = programme.lower.clone();
    double[] high = programme.upper.clone();
    Arrays.fill(high, 0, programme.candidates, 0);
    for (int j : leaf.support()) {
      low[j] = question.choice.leastUse();
      high[j] = programme.upper[j];
    }
    IdentityHashMap<double[], LpSolution> solutions = new IdentityHashMap<>();
    Solver solver =
        (rows, o) -> {
          LpSolution s =
              rows.size() == linear.size() + ph.size()
                  ? leaf.resolve(programme.model(rows, o, programme.lower, programme.upper))
                  : simplex.solve(programme.model(rows, o, low, high));
          if (!s.isOptimal()) {
            return null;
          }
          double[] fractions = programme.fractions(s.x());
          solutions.put(fractions, s);
          return fractions;
        };
    Closed closed = closeLoop(linear, ph, objective, null, ionicStrength, high, solver);
    Closed covered =
        closed.isBest()
            ? closed
            : cover(
                linear,
                ph,
                objective,
                low,
                high,
                closed.w(),
                (rows, o) -> minimise(rows, o, low, high),
                question.patience.boxes);
    if (!covered.isBest() && question.patience.end()) {
      return null;
    }
    double[] found = covered.w();
    if (found == null) {
      return null;
    }
    LpSolution own = solutions.get(found);
    return own != null
        ? own
        : simplex.solve(
            programme.model(exactly(found), objective, programme.lower, programme.upper));
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

  private void sort(List<Bound> bounds, List<Row> linear, List<Bound> ph) {
    for (Bound b : bounds) {
      if (Programme.isPh(b)) {
        ph.add(b);
      } else {
        programme.addRows(linear, b);
        if (isBlended(b)) {
          addCuts(linear, b, 0);
        }
      }
    }
  }

  /**
   * The ionic strengths that blends inside the linear rows can have at a pH bound; null when there
   * is no such blend.
   */
  private @Nullable IonicRange attainable(List<Row> linear, Bound b, double[] low, double[] high) {
    int n = programme.columns.size();
    double[] water = new double[n];
    double[] least = new double[n];
    double[] greatest = new double[n];
    AqueousState ideal = programme.stateAt(b, 0);
    AqueousState strongest = programme.stateAt(b, programme.activityPeak());
    for (int j = 0; j < n; j++) {
      water[j] = programme.waterOf(j, b);
      least[j] = programme.ionicBackground(j, b, ideal);
      greatest[j] = -programme.ionicBackground(j, b, strongest);
    }
    double driest = leastOf(linear, water, low, high);
    double fewest = leastOf(linear, least, low, high);
    double most = -leastOf(linear, greatest, low, high);
    if (Double.isInfinite(driest) || Double.isInfinite(fewest) || Double.isInfinite(most)) {
      return null;
    }
    return new IonicRange(
        Math.max(0, fewest), most / Math.max(1e-3, driest) + strongest.ownIonicStrength() + 1e-9);
  }

  /** The least value of a sum over blends inside some rows, infinite when there are none. */
  private double leastOf(List<Row> rows, double[] sum, double[] low, double[] high) {
    try {
      double[] w = minimise(rows, plain(sum), low, high);
      return w == null ? Double.POSITIVE_INFINITY : Programme.dot(sum, w);
    } catch (NumericBreakdownException e) {
      // Whether there are any hangs on a hair's breadth; fractions sum to 1, so this holds anyway.
      return Arrays.stream(sum).min().orElseThrow();
    }
  }

  private static Objective plain(double[] cost) {
    return new Objective(cost, new double[0], List.of());
  }

  private double @Nullable [] best(
      List<Bound> bounds, Objective asked, double[] low, double[] high) {
    List<Row> linear = new ArrayList<>(held);
    List<Bound> ph = new ArrayList<>();
    sort(bounds, linear, ph);
    int known = tangents.size();
    double[] ionicStrength = new double[ph.size()];
    Arrays.fill(ionicStrength, USUAL_IONIC_STRENGTH);
    Solver solver =
        isBlended(bounds, asked)
            ? (rows, o) -> minimiseWithCuts(rows, bounds, o, known, low, high)
            : (rows, o) -> minimise(rows, o, low, high);
    Closed closed = closeLoop(linear, ph, asked, null, ionicStrength, high, solver);
    return closed.isBest()
        ? closed.w()
        : cover(linear, ph, asked, low, high, closed.w(), solver, MOST_BOXES).w();
  }

  /** Finds the best mass fractions for an objective under some rows; null when there are none. */
  private interface Solver {
    double @Nullable [] solve(List<Row> rows, Objective objective);
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
      double[] w = minimise(all, atTangents(asked), low, high);
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
      return best(bounds, nothing(), choice) != null;
    } catch (NumericBreakdownException e) {
      return false;
    }
  }

  /** Whether a blend sits on a bound. */
  boolean holds(Bound b, double[] w) {
    if (Programme.isPh(b)) {
      return miss(w, b) >= -1e-6;
    }
    if (isBlended(b)) {
      return programme.value(w, b.requirement()) >= b.value() - 10 * INDEX_TOLERANCE;
    }
    Row row = programme.row(b, IonicRange.exactly(0));
    double sum = 0;
    double largest = 1e-300;
    for (int j = 0; j < w.length; j++) {
      sum += row.coefficients()[j] * w[j];
      largest = Math.max(largest, Math.abs(row.coefficients()[j]));
    }
    double end = b.upper() ? row.high() : row.low();
    return Math.abs(sum - end) <= 1e-8 * largest;
  }

  private Objective nothing() {
    return plain(new double[programme.columns.size()]);
  }

  /**
   * Where the loop on ionic strength ended.
   *
   * @param w mass fractions that meet the bounds, null when none were found
   * @param isBest whether nothing better is left to look for
   */
  @SuppressWarnings("ArrayRecordComponent")
  private record Closed(double @Nullable [] w, boolean isBest) {}

  /**
   * Solves again and again with the pH rows that touch their limits at the answer before, until the
   * answer stays where it is: only then is it the best one at its own ionic strength. Rows that
   * touched where a bound was missed are kept, so that answers do not flip between two vertices;
   * what rests on such a row may not be the best. Where that fails, rows at a damped ionic strength
   * find an answer that meets the bounds.
   */
  private Closed closeLoop(
      List<Row> linear,
      List<Bound> ph,
      Objective objective,
      double @Nullable [] start,
      double[] ionicStrength,
      double[] high,
      Solver solver) {
    if (ph.isEmpty()) {
      return new Closed(solver.solve(linear, objective), true);
    }
    boolean anyWill = objective.isNothing();
    int firstKept = linear.size() + ph.size();
    double[] before = start;
    double[] bestMet = null;
    List<Row> kept = new ArrayList<>();
    boolean[] missed = new boolean[ph.size()];
    for (int pass = 0; pass < (kept.isEmpty() ? PASSES : MOST_PASSES); pass++) {
      List<Row> rows = List.of();
      double[] w = null;
      if (before != null && (!kept.isEmpty() || pass < 2 * PASSES / 3)) {
        rows = tangents(linear, ph, before, high);
        rows.addAll(kept);
        w = settled(solver, rows, objective);
        if (w == null && !kept.isEmpty()) {
          kept.clear();
          rows = rows.subList(0, firstKept);
          w = settled(solver, rows, objective);
        }
        for (int k = 0; k < missed.length; k++) {
          if (missed[k]) {
            kept.add(rows.get(linear.size() + k));
          }
        }
      }
      if (w == null) {
        rows = new ArrayList<>(linear);
        for (int k = 0; k < ph.size(); k++) {
          rows.add(programme.row(ph.get(k), IonicRange.exactly(ionicStrength[k]), high));
        }
        w = settled(solver, rows, objective);
      }
      if (w == null) {
        return new Closed(bestMet, false);
      }
      boolean met = true;
      double steepest = 0;
      for (int k = 0; k < ph.size(); k++) {
        Bound b = ph.get(k);
        AqueousState state = programme.state(w, b);
        double slope = slope(w, b, state);
        steepest = Math.max(steepest, slope);
        missed[k] = miss(w, b, state, slope) > PH_TOLERANCE;
        met &= !missed[k];
        // An answer that flips between two vertices would chase its own ionic strength for ever.
        double own = state.ionicStrength();
        ionicStrength[k] = pass < PASSES / 2 ? own : (own + ionicStrength[k]) / 2;
      }
      boolean rests = false;
      for (Row row : rows.subList(firstKept, rows.size())) {
        rests |= holds(row, w, steepest);
      }
      boolean binds = false;
      for (Row row : rows.subList(linear.size(), firstKept)) {
        binds |= holds(row, w, steepest);
      }
      boolean stays = before != null && isNear(w, before);
      if (met && (anyWill || (!rests && (!binds || stays)))) {
        return new Closed(w, true);
      }
      if (met
          && (bestMet == null
              || programme.objectiveValue(objective, w)
                  < programme.objectiveValue(objective, bestMet))) {
        bestMet = w;
      }
      if (stays) {
        break;
      }
      before = w;
    }
    return new Closed(bestMet, false);
  }

  private static boolean holds(Row row, double[] w, double slope) {
    double terms = 0;
    for (int j = 0; j < w.length; j++) {
      terms += Math.abs(row.coefficients()[j]) * w[j];
    }
    return activity(row, w) <= PH_TOLERANCE * slope + 1e-9 * terms;
  }

  private List<Row> tangents(List<Row> linear, List<Bound> ph, double[] w, double[] high) {
    List<Row> rows = new ArrayList<>(linear);
    for (Bound b : ph) {
      rows.add(programme.tangent(b, w, programme.state(w, b), high));
    }
    return rows;
  }

  private static boolean isNear(double[] w, double[] other) {
    for (int j = 0; j < w.length; j++) {
      if (Math.abs(w[j] - other[j]) > SAME) {
        return false;
      }
    }
    return true;
  }

  /** By how much a blend misses a pH bound at its own ionic strength [pH], negative inside. */
  private double miss(double[] w, Bound b) {
    AqueousState state = programme.state(w, b);
    return miss(w, b, state, slope(w, b, state));
  }

  private double miss(double[] w, Bound b, AqueousState state, double slope) {
    double z = programme.charge(w, b, state);
    return (programme.asksForLittleCharge(b) ? z : -z) / slope;
  }

  private double slope(double[] w, Bound b, AqueousState state) {
    double step = 1e-4;
    AqueousState above = programme.brief.conditions().at(state.ph() + step, state.ionicStrength());
    return Math.max(1e-300, (programme.charge(w, b, state) - programme.charge(w, b, above)) / step);
  }

  private static double activity(Row row, double[] w) {
    return Math.abs(Programme.dot(row.coefficients(), w));
  }

  /**
   * The answer of a solver, or null when rounding hides whether there is one: the boxes then
   * decide.
   */
  private static double @Nullable [] settled(Solver solver, List<Row> rows, Objective objective) {
    try {
      return solver.solve(rows, objective);
    } catch (NumericBreakdownException e) {
      return null;
    }
  }

  private double @Nullable [] minimise(
      List<Row> rows, Objective objective, double[] low, double[] high) {
    return minimise(
        rows,
        objective,
        low,
        high,
        p -> {
          LpSolution s = simplex.solve(p);
          return s.isOptimal() ? s : null;
        });
  }

  /** Finds the optimum of one programme; null when it has none. */
  private interface Optimiser {
    @Nullable LpSolution solve(LinearProgram programme);
  }

  private double @Nullable [] minimise(
      List<Row> rows, Objective objective, double[] low, double[] high, Optimiser optimiser) {
    // Any start will do; that of the tangents before is near.
    double ratio = objective.floors().isEmpty() ? 0 : lastRatio;
    double[] best = null;
    for (int pass = 0; pass < 60; pass++) {
      LpSolution s = optimiser.solve(programme.model(rows, objective.at(ratio), low, high));
      if (s == null) {
        return best;
      }
      double[] w = programme.fractions(s.x());
      if (!objective.isRatio()) {
        return w;
      }
      double next = programme.objectiveValue(objective, w);
      if (best != null && next >= ratio - 1e-12 * Math.max(1, Math.abs(ratio))) {
        return best;
      }
      best = w;
      ratio = next;
      lastRatio = next;
    }
    return best;
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

    double widest() {
      int side = widestSide();
      return greatest[side] - least[side];
    }

    int widestSide() {
      int widest = 0;
      for (int i = 1; i < least.length; i++) {
        if (greatest[i] - least[i] > greatest[widest] - least[widest]) {
          widest = i;
        }
      }
      return widest;
    }
  }

  /**
   * The best mass fractions anywhere: covers all ionic strengths that blends can have with boxes. A
   * box whose relaxed programme has no answer, or none better than what is known, is done; the
   * others are split.
   *
   * @param known mass fractions that meet the bounds, or null
   */
  private Closed cover(
      List<Row> linear,
      List<Bound> ph,
      Objective objective,
      double[] low,
      double[] high,
      double @Nullable [] known,
      Solver solver,
      int mostBoxes) {
    if (!proving) {
      return new Closed(known, true);
    }
    double[] best = known;
    if (best == null && !objective.isNothing()) {
      Closed any = cover(linear, ph, nothing(), low, high, null, solver, mostBoxes);
      best = any.w();
      if (best == null) {
        return any;
      }
    }
    IonicRange[] within = worthwhile(linear, ph, objective, low, high, best);
    if (within == null) {
      return new Closed(best, true);
    }
    int k = ph.size();
    double[] least = Arrays.stream(within).mapToDouble(IonicRange::least).toArray();
    double[] most = Arrays.stream(within).mapToDouble(IonicRange::greatest).toArray();
    Queue<Box> open = new PriorityQueue<>(Box.PROMISING);
    open.add(new Box(Double.NEGATIVE_INFINITY, 0, least, most));
    for (int boxes = 1; !open.isEmpty() && boxes <= mostBoxes; boxes++) {
      Box box = open.remove();
      if (!isBetter(objective, box.wish(), best)) {
        break;
      }
      List<Row> rows = new ArrayList<>(linear);
      for (int i = 0; i < k; i++) {
        rows.add(programme.row(ph.get(i), new IonicRange(box.least()[i], box.greatest()[i])));
        addIonicRows(rows, ph.get(i), box.least()[i], box.greatest()[i]);
      }
      double[] w;
      try {
        w = solver.solve(rows, objective);
      } catch (NumericBreakdownException e) {
        // Neither shown empty nor shown full: a smaller box will tell.
        if (box.widest() > SMALLEST_BOX) {
          split(box, box.widestSide(), box.wish(), open);
        }
        continue;
      }
      double wish = w == null ? 0 : programme.objectiveValue(objective, w);
      if (w == null || !isBetter(objective, wish, best)) {
        continue;
      }
      if (meets(w, ph)) {
        best = w;
        continue;
      }
      if (best == null || Integer.bitCount(boxes) == 1) {
        double[] start = new double[k];
        for (int i = 0; i < k; i++) {
          double own = programme.state(w, ph.get(i)).ionicStrength();
          start[i] = Math.min(box.greatest()[i], Math.max(box.least()[i], own));
        }
        Closed closed = closeLoop(linear, ph, objective, w, start, high, solver);
        if (closed.w() != null
            && isBetter(objective, programme.objectiveValue(objective, closed.w()), best)) {
          best = closed.w();
        }
      }
      if (isBetter(objective, wish, best) && box.widest() > SMALLEST_BOX) {
        split(box, worst(box, w, ph), wish, open);
      }
    }
    boolean isDone = open.isEmpty() || !isBetter(objective, open.element().wish(), best);
    return new Closed(best, isDone);
  }

  /**
   * The ionic strengths that blends can have that are better than a known one, as far as that shows
   * from the rows of these ionic strengths again; null when there are none.
   */
  private IonicRange @Nullable [] worthwhile(
      List<Row> linear,
      List<Bound> ph,
      Objective objective,
      double[] low,
      double[] high,
      double @Nullable [] best) {
    IonicRange[] ranges = new IonicRange[ph.size()];
    for (int k = 0; k < ranges.length; k++) {
      IonicRange range = attainable(linear, ph.get(k), low, high);
      if (range == null) {
        return null;
      }
      ranges[k] = range;
    }
    for (int round = 0; round < MOST_ROUNDS; round++) {
      List<Row> rows = new ArrayList<>(linear);
      if (best != null && objective.isLinear()) {
        double wish = programme.objectiveValue(objective, best);
        double[] better = objective.at(wish).cost();
        rows.add(new Row(better, Double.NEGATIVE_INFINITY, objective.isRatio() ? 0 : wish));
      }
      for (int k = 0; k < ranges.length; k++) {
        rows.add(programme.row(ph.get(k), ranges[k]));
      }
      boolean narrower = false;
      for (int k = 0; k < ranges.length; k++) {
        IonicRange now = attainable(rows, ph.get(k), low, high);
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

  /** Whether a wish is better than that of mass fractions by more than can be told. */
  private boolean isBetter(Objective objective, double wish, double @Nullable [] than) {
    if (than == null) {
      return true;
    }
    double before = programme.objectiveValue(objective, than);
    return wish < before - GAIN * Math.max(1, Math.abs(before));
  }

  private boolean meets(double[] w, List<Bound> ph) {
    for (Bound b : ph) {
      if (miss(w, b) > PH_TOLERANCE) {
        return false;
      }
    }
    return true;
  }

  /** The pH bound that a relaxed answer misses most: narrowing the others would tell nothing. */
  private int worst(Box box, double[] w, List<Bound> ph) {
    int worst = box.widestSide();
    double most = 0;
    for (int i = 0; i < ph.size(); i++) {
      double miss = miss(w, ph.get(i));
      if (miss > most && box.greatest()[i] - box.least()[i] > SMALLEST_BOX) {
        most = miss;
        worst = i;
      }
    }
    return worst;
  }

  private static void split(Box box, int side, double wish, Queue<Box> open) {
    double middle = (box.least()[side] + box.greatest()[side]) / 2;
    double[] upperStart = box.least().clone();
    double[] lowerEnd = box.greatest().clone();
    upperStart[side] = middle;
    lowerEnd[side] = middle;
    open.add(new Box(wish, box.depth() + 1, box.least(), lowerEnd));
    open.add(new Box(wish, box.depth() + 1, upperStart, box.greatest()));
  }

  /** Rows that keep the ionic strength of a blend inside an interval. */
  private void addIonicRows(List<Row> rows, Bound b, double least, double greatest) {
    int n = programme.columns.size();
    double[] notMore = new double[n];
    double[] notLess = new double[n];
    // Ions grow with the activity term, which rises to one peak: the least is at an end.
    AqueousState[] ends = {programme.stateAt(b, least), programme.stateAt(b, greatest)};
    double peak = Math.max(least, Math.min(greatest, programme.activityPeak()));
    AqueousState most = programme.stateAt(b, peak);
    double ownAtLeast = Math.min(ends[0].ownIonicStrength(), ends[1].ownIonicStrength());
    double slack = 1e-9;
    for (int j = 0; j < n; j++) {
      double water = programme.waterOf(j, b);
      double fewest =
          Math.min(
              programme.ionicBackground(j, b, ends[0]), programme.ionicBackground(j, b, ends[1]));
      notMore[j] = fewest - (greatest - ownAtLeast + slack) * water;
      notLess[j] =
          programme.ionicBackground(j, b, most) - (least - most.ownIonicStrength() - slack) * water;
    }
    rows.add(new Row(notMore, Double.NEGATIVE_INFINITY, 0));
    rows.add(new Row(notLess, 0, Double.POSITIVE_INFINITY));
  }
}
