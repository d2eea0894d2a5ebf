package org.surfactantblend.optimise;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;

/**
 * The best few choices of variables to use, out of many, for a {@link SupportProblem}.
 *
 * <p>Depth first over "in use" and "not in use", each node bounded by the programme in which the
 * undecided may take any amount from 0 up. An instance is a workspace for one thread, reused from
 * search to search; results keep no tie to it.
 */
public final class SupportSearch {

  private static final byte UNDECIDED = 0;
  private static final byte IN = 1;
  private static final byte OUT = 2;

  private final DualSimplex kernel = new DualSimplex();
  private final DualSimplex leafKernel = new DualSimplex();
  private final List<DualSimplex.Snapshot> snapshots = new ArrayList<>();

  /** An empty workspace. */
  public SupportSearch() {}

  /**
   * Searches.
   *
   * @throws NumericBreakdownException if a programme on the way can neither be solved nor proved
   *     infeasible
   */
  public SupportResult search(SupportProblem problem, SearchSettings settings) {
    Objects.requireNonNull(problem, "problem");
    Objects.requireNonNull(settings, "settings");
    if (settings.differing() == 1) {
      Run run = new Run(problem, settings, settings.alternatives(), List.of());
      run.start();
      return run.result();
    }
    List<SupportResult.Choice> choices = new ArrayList<>();
    long nodes = 0;
    long pivots = 0;
    while (true) {
      Run run = new Run(problem, settings, 1, choices);
      run.start();
      SupportResult one = run.result();
      nodes += one.nodes();
      pivots += one.pivots();
      choices.addAll(one.choices());
      if (!one.complete() || one.choices().isEmpty() || choices.size() == settings.alternatives()) {
        return new SupportResult(choices, one.complete(), one.bound(), nodes, pivots);
      }
    }
  }

  private DualSimplex.Snapshot snapshot(int depth) {
    while (snapshots.size() <= depth) {
      snapshots.add(new DualSimplex.Snapshot());
    }
    return snapshots.get(depth);
  }

  /** One search. */
  private final class Run {

    private final SupportProblem problem;
    private final SearchSettings settings;
    private final LinearProgram lp;
    private final int wanted;
    private final List<SupportResult.Choice> before;
    private final List<SupportProblem.Count> counts;
    private final boolean[] disjoint;
    private final int[][] countsOf;
    private final int size;
    private final int[] variable;
    private final double[] minimum;
    private final byte[] decision;
    private final int[] trail;

    /** Everything to choose from, the undecided first; the decided in reverse order of decision. */
    private final int[] order;

    /** Where each stands in the order. */
    private final int[] place;

    private final int[] positive;
    private final boolean[] member;
    private final int[] in;
    private final int[] open;
    private final int[] used;

    /** The variables that are not to choose from, and room for a support after them. */
    private final int[] live;

    private final int always;
    private final List<SupportResult.Choice> choices = new ArrayList<>();
    private final double zero;
    private final double scale;

    private int trailSize;
    private int propagated;
    private int inCount;
    private int openCount;
    private long version;
    private long versions;
    private boolean stopped;
    private double rootCost = Double.NEGATIVE_INFINITY;
    private long nodes;
    private long pivots;

    Run(
        SupportProblem problem,
        SearchSettings settings,
        int wanted,
        List<SupportResult.Choice> before) {
      this.problem = problem;
      this.settings = settings;
      this.wanted = wanted;
      this.before = before;
      lp = problem.programme;
      variable = problem.choosable;
      minimum = problem.minimumUse;
      size = variable.length;
      decision = new byte[size];
      trail = new int[size];
      order = new int[size];
      place = new int[size];
      for (int s = 0; s < size; s++) {
        order[s] = s;
        place[s] = s;
      }
      positive = new int[size];
      member = new boolean[size];
      openCount = size;
      live = new int[lp.n];
      always = lp.n - size;
      for (int j = 0, s = 0, others = 0; others < always; j++) {
        if (s < size && variable[s] == j) {
          s++;
        } else {
          live[others++] = j;
        }
      }
      counts = new ArrayList<>(problem.counts);
      for (SupportResult.Choice other : before) {
        int[] places = new int[other.members().length];
        for (int i = 0; i < places.length; i++) {
          places[i] = Arrays.binarySearch(variable, other.members()[i]);
        }
        int shared = Math.max(problem.atMost, places.length) - settings.differing();
        counts.add(new SupportProblem.Count(places, 0, shared));
      }
      in = new int[counts.size()];
      open = new int[counts.size()];
      used = new int[counts.size()];
      disjoint = new boolean[counts.size()];
      countsOf = countsOf();
      double least = Double.POSITIVE_INFINITY;
      for (double use : minimum) {
        least = Math.min(least, use);
      }
      zero = Math.min(1e-9 * lp.magnitude, 0.25 * least);
      scale = lp.costMax * lp.magnitude;
      current.version = -1;
    }

    private int[][] countsOf() {
      int[][] of = new int[size][];
      Arrays.fill(of, new int[0]);
      boolean[] taken = new boolean[size];
      for (int g = 0; g < counts.size(); g++) {
        int[] members = counts.get(g).members;
        open[g] = members.length;
        boolean free = counts.get(g).atLeast > 0;
        for (int s : members) {
          of[s] = Arrays.copyOf(of[s], of[s].length + 1);
          of[s][of[s].length - 1] = g;
          free &= !taken[s];
        }
        disjoint[g] = free;
        if (free) {
          for (int s : members) {
            taken[s] = true;
          }
        }
      }
      return of;
    }

    void start() {
      kernel.load(lp);
      kernel.coldStart();
      for (int s = 0; s < size; s++) {
        if (lp.upper[variable[s]] < minimum[s] && !decide(s, OUT)) {
          return;
        }
      }
      for (int s : problem.mustUse) {
        if (!decide(s, IN)) {
          return;
        }
      }
      for (SupportProblem.Count count : counts) {
        if (count.atMost < 0) {
          return;
        }
      }
      explore(0, false);
    }

    SupportResult result() {
      double bound;
      if (stopped) {
        bound = rootCost;
      } else {
        bound =
            choices.size() < wanted
                ? Double.POSITIVE_INFINITY
                : choices.get(choices.size() - 1).cost();
      }
      return new SupportResult(choices, !stopped, bound, nodes, pivots);
    }

    /** Two costs closer than this count as equal. */
    private double tie(double cost) {
      return 1e-10 * Math.max(Math.abs(cost), 1e-6 * scale);
    }

    /** A node whose bound reaches this has nothing more to give. */
    private double cutoff() {
      if (choices.size() < wanted) {
        return Double.POSITIVE_INFINITY;
      }
      double last = choices.get(choices.size() - 1).cost();
      return settings.exactTies() ? last + tie(last) : last - tie(last);
    }

    /**
     * Explores all supports that the decisions leave open.
     *
     * @param judged whether the support of the present basic point has been judged already
     */
    private void explore(int depth, boolean judged) {
      while (true) {
        if (stopped || !settings.keepGoing().getAsBoolean()) {
          stopped = true;
          return;
        }
        nodes++;
        double costBefore = kernel.z;
        if (!propagate()) {
          return;
        }
        if (solve()) {
          judged = false;
        }
        if (status != DualSimplex.OPTIMAL) {
          return;
        }
        if (kernel.z != costBefore) {
          judged = false;
        }
        if (depth == 0) {
          rootCost = kernel.z;
        }
        if ((nodes & 255) == 0) {
          report();
        }
        double cut = cutoff();
        if (kernel.z >= cut) {
          return;
        }
        int decidedBefore = trailSize;
        scan(cut);
        if (trailSize != decidedBefore) {
          int fixed = trailSize;
          if (!propagate()) {
            return;
          }
          if (trailSize != fixed) {
            continue;
          }
        }
        if (!judged && amountsFit && isSupport(positiveCount)) {
          double cost = kernel.z;
          leaf(depth, positiveCount);
          judged = true;
          if (stopped || cost >= cutoff()) {
            return;
          }
        }
        if (openCount == 0) {
          return;
        }
        if (inCount == problem.atMost) {
          if (!judged && isSupport(0)) {
            leaf(depth, 0);
          }
          return;
        }
        if (choices.size() == wanted && !canPrecede()) {
          return;
        }
        boolean branchIsPositive = positiveCount > 0;
        int s = branchIsPositive ? largest : cheapest;
        if (s < 0) {
          return;
        }
        int mark = trailSize;
        DualSimplex.Snapshot saved = saved(depth);
        if (decide(s, IN)) {
          explore(depth + 1, judged && branchIsPositive);
        }
        if (stopped) {
          return;
        }
        back(saved, mark);
        judged = judged && !branchIsPositive;
        decide(s, OUT);
      }
    }

    private int status;

    /** Solves the present node; true if the basic point moved. */
    private boolean solve() {
      status = kernel.runSafely(cutoff());
      pivots += kernel.pivots;
      if (kernel.pivots > 0) {
        version = ++versions;
        return true;
      }
      return false;
    }

    private DualSimplex.Snapshot current = snapshot(0);

    private DualSimplex.Snapshot saved(int depth) {
      if (current.version != version) {
        version = ++versions;
        current = snapshot(depth);
        kernel.save(current);
        current.version = version;
      }
      return current;
    }

    private void back(DualSimplex.Snapshot saved, int mark) {
      while (trailSize > mark) {
        int s = trail[--trailSize];
        boolean was = decision[s] == IN;
        decision[s] = UNDECIDED;
        openCount++;
        if (was) {
          inCount--;
        }
        for (int g : countsOf[s]) {
          open[g]++;
          if (was) {
            in[g]--;
          }
        }
        kernel.lo[variable[s]] = 0;
        kernel.up[variable[s]] = lp.upper[variable[s]];
      }
      propagated = Math.min(propagated, mark);
      kernel.restore(saved);
      kernel.bindBounds();
      current = saved;
      version = saved.version;
    }

    private boolean decide(int s, byte what) {
      if (decision[s] != UNDECIDED) {
        return decision[s] == what;
      }
      decision[s] = what;
      trail[trailSize++] = s;
      openCount--;
      int last = order[openCount];
      order[place[s]] = last;
      place[last] = place[s];
      order[openCount] = s;
      place[s] = openCount;
      for (int g : countsOf[s]) {
        open[g]--;
        if (what == IN) {
          in[g]++;
        }
      }
      int v = variable[s];
      if (kernel.pos[v] < 0) {
        version = ++versions;
      }
      if (what == IN) {
        inCount++;
        kernel.changeBounds(v, minimum[s], Math.max(minimum[s], lp.upper[v]));
      } else {
        exclude(v);
      }
      return true;
    }

    private void exclude(int v) {
      if (kernel.pos[v] < 0 && kernel.x[v] == 0) {
        kernel.up[v] = 0;
        kernel.dir[v] = 0;
      } else {
        kernel.changeBounds(v, 0, 0);
      }
    }

    /** What follows from the decisions; false if they contradict each other. */
    private boolean propagate() {
      while (true) {
        while (propagated < trailSize) {
          int s = trail[propagated++];
          if (decision[s] == IN) {
            if (!decideAll(problem.notTogether[s], OUT) || !decideAll(problem.needs[s], IN)) {
              return false;
            }
          } else if (!decideAll(problem.neededBy[s], OUT)) {
            return false;
          }
        }
        int before = trailSize;
        if (!countUp()) {
          return false;
        }
        if (trailSize == before) {
          return true;
        }
      }
    }

    private boolean decideAll(int[] places, byte what) {
      for (int s : places) {
        if (!decide(s, what)) {
          return false;
        }
      }
      return true;
    }

    private boolean countUp() {
      if (inCount > problem.atMost || inCount + openCount < problem.atLeast) {
        return false;
      }
      if (openCount > 0 && inCount + openCount == problem.atLeast) {
        for (int s = 0; s < size; s++) {
          if (decision[s] == UNDECIDED) {
            decide(s, IN);
          }
        }
        return inCount <= problem.atMost;
      }
      int needed = 0;
      int decidedBefore = trailSize;
      for (int g = 0; g < counts.size(); g++) {
        SupportProblem.Count count = counts.get(g);
        if (in[g] > count.atMost || in[g] + open[g] < count.atLeast) {
          return false;
        }
        if (open[g] > 0 && in[g] == count.atMost) {
          decideOpen(count.members, OUT);
        } else if (open[g] > 0 && in[g] + open[g] == count.atLeast) {
          decideOpen(count.members, IN);
        }
        if (disjoint[g]) {
          needed += Math.max(0, count.atLeast - in[g]);
        }
      }
      if (trailSize != decidedBefore) {
        return true; // counted again with what has just been decided
      }
      int free = problem.atMost - inCount;
      if (needed > free) {
        return false;
      }
      if (needed == free && needed > 0) {
        // Every free place is spoken for.
        for (int s = 0; s < size; s++) {
          if (decision[s] == UNDECIDED && !isNeeded(s)) {
            decide(s, OUT);
          }
        }
      }
      return true;
    }

    private boolean isNeeded(int s) {
      for (int g : countsOf[s]) {
        if (disjoint[g] && in[g] < counts.get(g).atLeast) {
          return true;
        }
      }
      return false;
    }

    private void decideOpen(int[] places, byte what) {
      for (int s : places) {
        if (decision[s] == UNDECIDED) {
          decide(s, what);
        }
      }
    }

    private int positiveCount;
    private boolean amountsFit;
    private int largest;
    private int cheapest;

    /**
     * Reads the basic point: who is used, who would be next; those too dear to be used at all are
     * decided out.
     */
    private void scan(double cut) {
      positiveCount = 0;
      amountsFit = true;
      largest = -1;
      cheapest = -1;
      double most = -1;
      double least = Double.POSITIVE_INFINITY;
      double room = cut - kernel.z;
      double loose = 1e-9 * lp.magnitude;
      // Downwards, because what is decided changes places with the last undecided.
      for (int i = openCount - 1; i >= 0; i--) {
        int s = order[i];
        int v = variable[s];
        double value = kernel.value(v);
        if (value > zero) {
          positive[positiveCount++] = s;
          if (value < minimum[s] - Math.min(loose, 0.5 * minimum[s])) {
            amountsFit = false;
          }
          double merit = value * problem.contribution[s];
          if (merit > most || (merit == most && s < largest)) {
            most = merit;
            largest = s;
          }
        } else {
          double penalty = kernel.pos[v] < 0 ? kernel.d[v] * minimum[s] : 0;
          if (penalty >= room) {
            decide(s, OUT);
          } else if (penalty < least || (penalty == least && s < cheapest)) {
            least = penalty;
            cheapest = s;
          }
        }
      }
    }

    /**
     * Whether what is in, with the first so many of the positive ones, keeps all counts and pairs.
     */
    private boolean isSupport(int positives) {
      int total = inCount + positives;
      if (total > problem.atMost || total < problem.atLeast) {
        return false;
      }
      for (int g = 0; g < in.length; g++) {
        used[g] = in[g];
      }
      for (int i = 0; i < positives; i++) {
        for (int g : countsOf[positive[i]]) {
          used[g]++;
        }
      }
      for (int g = 0; g < used.length; g++) {
        if (used[g] < counts.get(g).atLeast || used[g] > counts.get(g).atMost) {
          return false;
        }
      }
      if (problem.hasPairs || !before.isEmpty()) {
        markMembers(positives);
        return pairsFit() && differsEnough(total);
      }
      return true;
    }

    private boolean pairsFit() {
      for (int s = 0; s < size; s++) {
        if (member[s]) {
          for (int other : problem.notTogether[s]) {
            if (member[other]) {
              return false;
            }
          }
          for (int other : problem.needs[s]) {
            if (!member[other]) {
              return false;
            }
          }
        }
      }
      return true;
    }

    private void markMembers(int positives) {
      for (int s = 0; s < size; s++) {
        member[s] = decision[s] == IN;
      }
      for (int i = 0; i < positives; i++) {
        member[positive[i]] = true;
      }
    }

    private boolean differsEnough(int total) {
      for (SupportResult.Choice other : before) {
        int shared = 0;
        for (int v : other.members()) {
          if (member[Arrays.binarySearch(variable, v)]) {
            shared++;
          }
        }
        if (Math.max(total, other.members().length) - shared < settings.differing()) {
          return false;
        }
      }
      return true;
    }

    /** Solves for exactly the marked members, has the answer judged, and comes back. */
    private void leaf(int depth, int positives) {
      markMembers(positives);
      DualSimplex.Snapshot saved = saved(depth);
      int[] support = new int[inCount + positives];
      int count = 0;
      for (int s = 0; s < size; s++) {
        if (member[s]) {
          support[count++] = variable[s];
        }
      }
      for (int i = 0; i < openCount; i++) {
        int s = order[i];
        int v = variable[s];
        if (member[s]) {
          kernel.changeBounds(v, minimum[s], lp.upper[v]);
        } else {
          exclude(v);
        }
      }
      System.arraycopy(support, 0, live, always, count);
      kernel.restrictTo(live, always + count);
      status = kernel.runSafely(cutoff());
      pivots += kernel.pivots;
      if (status == DualSimplex.OPTIMAL) {
        kernel.pivots = 0;
        status = kernel.checkSafely();
        pivots += kernel.pivots;
        if (status == DualSimplex.OPTIMAL) {
          judge(support, kernel.solution(status));
        }
      }
      for (int i = 0; i < openCount; i++) {
        int v = variable[order[i]];
        kernel.lo[v] = 0;
        kernel.up[v] = lp.upper[v];
      }
      kernel.restore(saved);
      kernel.bindBounds();
      current = saved;
      version = saved.version;
    }

    private void judge(int[] support, LpSolution solution) {
      if (!enters(support, solution.objective())) {
        return;
      }
      LpSolution judged = settings.leafCheck().judge(new JudgedLeaf(problem, support, solution));
      if (judged == null || !enters(support, judged.objective())) {
        return;
      }
      SupportResult.Choice choice = new SupportResult.Choice(support, judged);
      int at = choices.size();
      while (at > 0 && precedes(support, judged.objective(), choices.get(at - 1))) {
        at--;
      }
      choices.add(at, choice);
      if (choices.size() > wanted) {
        choices.remove(wanted);
      }
      report();
    }

    private boolean enters(int[] support, double cost) {
      for (SupportResult.Choice choice : choices) {
        if (Arrays.equals(choice.members(), support)) {
          return false;
        }
      }
      return choices.size() < wanted || precedes(support, cost, choices.get(wanted - 1));
    }

    private boolean precedes(int[] support, double cost, SupportResult.Choice other) {
      double difference = cost - other.cost();
      return Math.abs(difference) <= tie(cost)
          ? isSimpler(support, other.members())
          : difference < 0;
    }

    private static boolean isSimpler(int[] support, int[] other) {
      return support.length == other.length
          ? Arrays.compare(support, other) < 0
          : support.length < other.length;
    }

    /**
     * Whether, at a cost equal to the last choice's, a support that comes before it because it is
     * smaller, or by its indices, is still open.
     */
    private boolean canPrecede() {
      SupportResult.Choice last = choices.get(choices.size() - 1);
      if (kernel.z < last.cost() - tie(last.cost())) {
        return true;
      }
      if (isOnlyPoint()) {
        return false; // it has been judged
      }
      if (inCount < last.members().length) {
        return true;
      }
      int[] decided = new int[inCount];
      int k = 0;
      for (int s = 0; s < size; s++) {
        if (decision[s] == IN) {
          decided[k++] = variable[s];
        }
      }
      return isSimpler(decided, last.members());
    }

    /** Whether every other point of the present node costs more: nothing may move for nothing. */
    private boolean isOnlyPoint() {
      double free = 1e-7 * lp.costMax;
      for (int k = 0; k < kernel.total; k++) {
        if (kernel.dir[k] != 0 && Math.abs(kernel.d[k]) <= free) {
          return false;
        }
      }
      return true;
    }

    private void report() {
      settings
          .progress()
          .accept(
              new SearchSettings.Progress(
                  nodes,
                  before.size() + choices.size(),
                  choices.isEmpty() ? Double.POSITIVE_INFINITY : choices.get(0).cost(),
                  rootCost));
    }
  }

  private final class JudgedLeaf implements SearchSettings.Leaf {

    private final SupportProblem problem;
    private final int[] support;
    private final LpSolution solution;

    JudgedLeaf(SupportProblem problem, int[] support, LpSolution solution) {
      this.problem = problem;
      this.support = support;
      this.solution = solution;
    }

    @Override
    public int[] support() {
      return support.clone();
    }

    @Override
    public LinearProgram programme() {
      return problem.programme;
    }

    @Override
    public LpSolution solution() {
      return solution;
    }

    @Override
    public LpSolution resolve(LinearProgram changed) {
      double[] lower = changed.lower.clone();
      double[] upper = changed.upper.clone();
      for (int s = 0; s < problem.choosable.length; s++) {
        int v = problem.choosable[s];
        if (Arrays.binarySearch(support, v) >= 0) {
          lower[v] = problem.minimumUse[s];
        } else {
          lower[v] = 0;
          upper[v] = 0;
        }
      }
      return leafKernel.solve(changed.withBounds(lower, upper), solution.basis());
    }
  }
}
