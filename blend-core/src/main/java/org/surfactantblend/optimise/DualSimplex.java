package org.surfactantblend.optimise;

import java.util.Arrays;
import java.util.Objects;

/**
 * Dense bounded dual simplex for programmes of few rows, with the explicit inverse of the basis.
 *
 * <p>The own variable of a row with room is basic, and nothing but that variable's 1 stands in the
 * row's column of the inverse. So only the columns of the tight rows are kept: as many as there are
 * variables in the basis, often fewer than half of the rows.
 *
 * <p>An instance is a workspace that is reused from solve to solve and grows as needed. It belongs
 * to one thread; the results are immutable and keep no tie to it. The same programme gives the same
 * bits whatever was solved before.
 *
 * <p>Tolerances: a bound of a variable, or of a row divided by its largest coefficient, is kept to
 * 1e-9 of the {@linkplain LinearProgram#magnitude() magnitude} of the programme at worst; to
 * rounding wherever no hair's breadth decides. INFEASIBLE is only answered with a certificate whose
 * gap is larger than the rounding error of evaluating it.
 */
public final class DualSimplex {

  static final int OPTIMAL = 0;
  static final int INFEASIBLE = 1;
  static final int CUTOFF = 2;

  private static final double LOOSE = 1e-9;
  private static final double TIGHT = 1e-11;
  private static final double DUAL = 1e-11;
  private static final double ROUNDING = 1e-14;
  private static final double[] NONE = {};

  LinearProgram lp;
  int n;
  int m;
  int total;
  double[][] a;
  double[] rowMax;

  /** 1 over rowMax; the inverse and all vectors of one entry per row are of the rows times this. */
  private double[] perRow = NONE;

  // One entry per variable, then one per row (a row's own variable is its activity over rowMax).
  double[] lo = NONE;
  double[] up = NONE;

  /** Value of what is not basic; what is basic has its last corrected one. */
  double[] x = NONE;

  double[] d = NONE;

  /** +1 at the lower bound, -1 at the upper bound, 0 when basic or fixed. */
  double[] dir = NONE;

  /** Place in the basis, -1 when not basic. */
  int[] pos = {};

  // One entry per place in the basis.
  int[] head = {};
  double[] xB = NONE;
  double[] loB = NONE;
  double[] upB = NONE;

  /** The rows whose own variable is not basic, in no order; the first so many count. */
  private int[] tight = {};

  private int tights;

  /** For each tight row its column of the inverse, one entry per place in the basis. */
  private double[][] w = {};

  /** Cost of the present basic point. */
  double z;

  int pivots;

  /**
   * The variables that may move and then all rows, when most variables are held at 0 and need no
   * prices; unused while {@link #liveVariables} is negative.
   */
  private int[] live = {};

  private int liveVariables = -1;

  private double[] alpha = NONE;

  /** By how much the violation falls per unit that a variable moves off its bound. */
  private double[] gain = NONE;

  /** The variables that the ratio test passed by: they flip. */
  private int[] passed = {};

  private int passedCount;

  /** The variables that are basic or not at 0, as of the last look at the point. */
  private int[] nonzero = {};

  private int nonzeroCount;
  private double[] col = NONE;
  private double[] pend = NONE;
  private double[] y = NONE;

  /** What takes part in a combination of rows and the costs, and how much of each. */
  private double[][] combined = new double[1][];

  private double[] weights = new double[1];
  private boolean pending;
  private double tol;
  private double dualTol;
  private int sinceRefactor;
  private int refactorEvery;
  private boolean bland;
  private int pivotLimit;
  private double[] certificate = NONE;

  /** What recomputing found wrong: in the prices of what is basic, and in the basic values. */
  private double priceDrift;

  private double pointDrift;

  /** An empty workspace. */
  public DualSimplex() {
    lp = LinearProgram.of(new double[1], new double[0][], NONE, NONE, new double[1], new double[1]);
    a = lp.a;
    rowMax = lp.rowMax;
  }

  /**
   * Solves from the start that the costs suggest.
   *
   * @throws NumericBreakdownException if neither an optimum nor a certificate can be reached
   */
  public LpSolution solve(LinearProgram program) {
    load(Objects.requireNonNull(program, "program"));
    coldStart();
    return solution(solveLoaded());
  }

  /**
   * Solves from where a similar programme ended. The answer is the same as that of {@link
   * #solve(LinearProgram)} up to rounding and the choice among equally good points; only the work
   * differs.
   *
   * @param start the end of a solve of a programme with as many variables and rows
   * @throws NumericBreakdownException if neither an optimum nor a certificate can be reached
   */
  public LpSolution solve(LinearProgram program, Basis start) {
    load(Objects.requireNonNull(program, "program"));
    if (start.variables != n || start.basic.length != m) {
      throw new IllegalArgumentException(
          "start is for "
              + start.variables
              + " variables and "
              + start.basic.length
              + " rows; allowed: "
              + n
              + " and "
              + m);
    }
    if (!warmStart(start)) {
      coldStart();
    }
    return solution(solveLoaded());
  }

  /** Takes the programme's numbers in; a start has to follow. */
  void load(LinearProgram program) {
    lp = program;
    n = program.n;
    m = program.m;
    total = n + m;
    a = program.a;
    rowMax = program.rowMax;
    if (lo.length < total) {
      lo = new double[total];
      up = new double[total];
      x = new double[total];
      d = new double[total];
      dir = new double[total];
      pos = new int[total];
      alpha = new double[total];
      gain = new double[total];
      passed = new int[total];
      nonzero = new int[total];
    }
    if (head.length < m) {
      head = new int[m];
      w = new double[m][m];
      xB = new double[m];
      loB = new double[m];
      upB = new double[m];
      col = new double[m];
      pend = new double[m];
      y = new double[m];
      tight = new int[m];
      combined = new double[m + 1][];
      weights = new double[m + 1];
      perRow = new double[m];
    }
    System.arraycopy(program.lower, 0, lo, 0, n);
    System.arraycopy(program.upper, 0, up, 0, n);
    for (int i = 0; i < m; i++) {
      perRow[i] = 1 / rowMax[i];
      lo[n + i] = program.rowLower[i] * perRow[i];
      up[n + i] = program.rowUpper[i] * perRow[i];
    }
    tol = TIGHT * program.magnitude;
    dualTol = DUAL * program.costMax;
    pivots = 0;
    pivotLimit = 500 + 20 * total;
    refactorEvery = 50;
    bland = false;
    liveVariables = -1;
  }

  /**
   * Leaves all but these variables out of the work until {@link #restore(Snapshot)}. All others
   * must be held at 0 by both bounds.
   */
  void restrictTo(int[] variables, int count) {
    if (live.length < count + m) {
      live = new int[total];
    }
    System.arraycopy(variables, 0, live, 0, count);
    for (int i = 0; i < m; i++) {
      live[count + i] = n + i;
    }
    liveVariables = count;
  }

  /**
   * All rows basic and each variable at the bound that its cost prefers: dual feasible without
   * further work.
   */
  void coldStart() {
    System.arraycopy(lp.cost, 0, d, 0, n);
    Arrays.fill(xB, 0, m, 0);
    z = 0;
    for (int j = 0; j < n; j++) {
      pos[j] = -1;
      double low = lo[j];
      double high = up[j];
      double c = d[j];
      boolean atLower = c > 0 || (c == 0 && Math.abs(low) <= Math.abs(high));
      double v = atLower ? low : high;
      x[j] = v;
      dir[j] = low == high ? 0 : atLower ? 1 : -1;
      if (v != 0) {
        z += c * v;
        for (int i = 0; i < m; i++) {
          xB[i] += a[i][j] * perRow[i] * v;
        }
      }
    }
    for (int i = 0; i < m; i++) {
      int k = n + i;
      pos[k] = i;
      head[i] = k;
      dir[k] = 0;
      d[k] = 0;
      loB[i] = lo[k];
      upB[i] = up[k];
    }
    tights = 0;
    sinceRefactor = 0;
    pending = false;
  }

  private boolean warmStart(Basis start) {
    int[] basic = start.basic;
    Arrays.fill(pos, 0, total, -1);
    for (int i = 0; i < m; i++) {
      if (pos[basic[i]] >= 0) {
        throw new IllegalArgumentException("start holds index " + basic[i] + " twice");
      }
      head[i] = basic[i];
      pos[basic[i]] = i;
    }
    for (int k = 0; k < total; k++) {
      if (pos[k] >= 0) {
        dir[k] = 0;
      } else {
        boolean upper = start.atUpper(k);
        if ((upper ? up[k] : lo[k])
            == (upper ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY)) {
          upper = !upper;
        }
        x[k] = upper ? up[k] : lo[k];
        if (Double.isInfinite(x[k])) {
          return false;
        }
        dir[k] = lo[k] == up[k] ? 0 : upper ? -1 : 1;
      }
    }
    return refactor();
  }

  /** Runs to the end with the final check; answers OPTIMAL or INFEASIBLE. */
  int solveLoaded() {
    try {
      return runAndCheck();
    } catch (Stuck first) {
      return solveCarefully();
    }
  }

  /**
   * Pivots from the present basis, and a second time from the start if that leads nowhere. No final
   * check.
   */
  int runSafely(double cutoff) {
    pivots = 0;
    try {
      return run(cutoff);
    } catch (Stuck first) {
      int status = solveCarefully();
      return status == OPTIMAL && z >= cutoff ? CUTOFF : status;
    }
  }

  /** The final check of a basic point at which {@link #runSafely(double)} answered OPTIMAL. */
  int checkSafely() {
    try {
      return runAndCheck();
    } catch (Stuck first) {
      return solveCarefully();
    }
  }

  /**
   * Second try: from the first basis again, with the rule that cannot cycle and frequent fresh
   * inverses.
   */
  int solveCarefully() {
    int spent = pivots;
    // The bounds in lo and up are kept: they may have been changed since loading.
    tol = TIGHT * lp.magnitude;
    pivots = 0;
    pivotLimit = 20_000 + 100 * total;
    refactorEvery = 8;
    bland = true;
    coldStart();
    try {
      int status = runAndCheck();
      pivots += spent;
      return status;
    } catch (Stuck second) {
      throw new NumericBreakdownException(
          "linear programme of " + n + " variables and " + m + " rows: " + second.getMessage(), lp);
    }
  }

  /**
   * Pivots to the end, then recomputes point and reduced costs from the original numbers until they
   * stand.
   */
  private int runAndCheck() {
    for (int attempt = 0; attempt < 12; attempt++) {
      if (run(Double.POSITIVE_INFINITY) == INFEASIBLE) {
        return INFEASIBLE;
      }
      if (polish()) {
        return OPTIMAL;
      }
      if (attempt == 3) {
        tol = LOOSE * lp.magnitude;
      }
    }
    throw new Stuck("the optimum does not stand when recomputed");
  }

  /**
   * Dual simplex from the present basis until optimal, infeasible, or not below the cutoff. No
   * final check.
   */
  int run(double cutoff) {
    while (true) {
      if (pending) {
        applyPending();
      }
      if (z >= cutoff) {
        return CUTOFF;
      }
      int r = bland ? lowestViolatedRow() : steepestRow();
      if (r < 0) {
        return OPTIMAL;
      }
      if (pivots >= pivotLimit) {
        throw new Stuck("no end after " + pivots + " pivots");
      }
      if (sinceRefactor >= refactorEvery) {
        if (!refactor()) {
          throw new Stuck("the basis became singular");
        }
        continue;
      }
      double value = xB[r];
      boolean above = value > upB[r];
      double bound = above ? upB[r] : loB[r];
      double sign = above ? 1 : -1;
      combineRows(rowOfInverse(r), alpha);
      double norm = head[r] < n ? 0 : 1;
      for (int c = 0; c < tights; c++) {
        int i = tight[c];
        double v = -w[c][r];
        alpha[n + i] = v;
        norm += v * v;
      }
      double least = 1e-12 * Math.sqrt(norm);
      int q = entering(sign, least, Math.abs(value - bound));
      if (q < 0) {
        if (certify(r, sign)) {
          return INFEASIBLE;
        }
        loosenOrFail();
        continue;
      }
      pivot(r, q, bound, above);
    }
  }

  private void loosenOrFail() {
    if (tol < LOOSE * lp.magnitude) {
      tol = LOOSE * lp.magnitude;
    } else if (sinceRefactor > 0) {
      if (!refactor()) {
        throw new Stuck("the basis became singular");
      }
    } else {
      throw new Stuck("a row is violated by more than the tolerance, yet rounding hides the proof");
    }
  }

  /**
   * The violated place with the largest violation per unit length of its row of the inverse; -1
   * when none.
   */
  private int steepestRow() {
    int best = -1;
    double most = 0;
    for (int i = 0; i < m; i++) {
      double v = xB[i];
      double violation = v > upB[i] ? v - upB[i] : loB[i] - v;
      if (violation > tol) {
        double norm = head[i] < n ? 0 : 1;
        for (int c = 0; c < tights; c++) {
          double e = w[c][i];
          norm += e * e;
        }
        double merit = violation * violation / norm;
        if (merit > most) {
          most = merit;
          best = i;
        }
      }
    }
    return best;
  }

  private int lowestViolatedRow() {
    int best = -1;
    for (int i = 0; i < m; i++) {
      if (Math.max(loB[i] - xB[i], xB[i] - upB[i]) > tol && (best < 0 || head[i] < head[best])) {
        best = i;
      }
    }
    return best;
  }

  /**
   * Ratio test with bound flipping among the variables whose gain is above {@code least}. On return
   * those in {@link #passed} are to flip; answers the entering index, or -1 when even flipping all
   * leaves the row violated.
   */
  private int entering(double sign, double least, double violation) {
    double tie = 1e-14 * lp.costMax;
    double slope = violation;
    double largest = 0;
    int moving = liveVariables < 0 ? total : liveVariables + m;
    setGains(sign, moving);
    passedCount = 0;
    while (true) {
      int q = nearest(least, tie, moving);
      boolean end = q < 0;
      if (end) {
        if (passedCount == 0 || slope > tol) {
          return -1;
        }
        q = passed[--passedCount];
      }
      double pace = Math.abs(alpha[q]);
      double next = end ? slope : slope - pace * (up[q] - lo[q]);
      if (bland || next <= 0 || end) {
        if (pace >= 1e-7 * largest) {
          return q;
        }
        // A steadier exchange earlier on the way is as valid: it only leaves more to do.
        for (int c = passedCount - 1; c >= 0; c--) {
          if (Math.abs(alpha[passed[c]]) >= 1e-3 * largest) {
            passedCount = c;
            return passed[c];
          }
        }
      }
      if (end) {
        return -1;
      }
      slope = next;
      largest = Math.max(largest, pace);
      passed[passedCount++] = q;
      gain[q] = 0;
    }
  }

  private void setGains(double sign, int moving) {
    if (liveVariables < 0) {
      for (int j = 0; j < moving; j++) {
        gain[j] = alpha[j] * dir[j] * sign;
      }
    } else {
      for (int c = 0; c < moving; c++) {
        int j = live[c];
        gain[j] = alpha[j] * dir[j] * sign;
      }
    }
  }

  /**
   * The variable whose price is the first to reach 0, the largest gain among equals; -1 if none.
   */
  private int nearest(double least, double tie, int moving) {
    boolean all = liveVariables < 0;
    int q = -1;
    double ratio = Double.POSITIVE_INFINITY;
    double limit = ratio;
    double most = 0;
    for (int c = 0; c < moving; c++) {
      int j = all ? c : live[c];
      double v = gain[j];
      double price = d[j] * dir[j];
      // Seldom true: no price is below 0 but by rounding, and few gains are that near.
      if (price < limit * v && v > least) {
        double r = price > 0 ? price / v : 0;
        if (r < ratio - tie || (bland ? j < q : v > most)) {
          q = j;
          ratio = r;
          limit = r + tie;
          most = v;
        }
      }
    }
    return q;
  }

  private void pivot(int r, int q, double bound, boolean above) {
    if (passedCount > 0) {
      for (int c = 0; c < passedCount; c++) {
        flip(passed[c]);
      }
      applyPending();
    }
    double change = columnOf(q, r);
    double step = (xB[r] - bound) / change;
    double theta = d[q] / change;
    z += d[q] * step;
    for (int i = 0; i < m; i++) {
      xB[i] -= col[i] * step;
    }
    int p = head[r];
    if (theta != 0 && liveVariables < 0) {
      subtractMultiple(d, theta, alpha, total);
    } else if (theta != 0) {
      for (int c = 0; c < liveVariables + m; c++) {
        d[live[c]] -= theta * alpha[live[c]];
      }
    }
    d[p] = -theta;
    d[q] = 0;
    x[p] = bound;
    pos[p] = -1;
    dir[p] = lo[p] == up[p] ? 0 : above ? -1 : 1;
    xB[r] = x[q] + step;
    head[r] = q;
    pos[q] = r;
    dir[q] = 0;
    loB[r] = lo[q];
    upB[r] = up[q];
    exchange(r, p, q);
    pivots++;
    sinceRefactor++;
  }

  /** Takes into the inverse that q, whose transformed column is in col, replaces p at place r. */
  private void exchange(int r, int p, int q) {
    if (q >= n) {
      int c = 0;
      while (tight[c] != q - n) {
        c++;
      }
      tights--;
      tight[c] = tight[tights];
      double[] gone = w[c];
      w[c] = w[tights];
      w[tights] = gone;
    }
    double inverse = 1 / col[r];
    for (int c = 0; c < tights; c++) {
      double[] wc = w[c];
      double f = wc[r] * inverse;
      if (f != 0) {
        subtractMultiple(wc, f, col, m);
        wc[r] = f;
      }
    }
    if (p >= n) {
      int k = p - n;
      double[] wc = w[tights];
      set(wc, inverse, col, m);
      wc[r] = -inverse;
      tight[tights++] = k;
    }
  }

  /** Lists the rows of A that row r of the inverse combines; answers how many. */
  private int rowOfInverse(int r) {
    int count = 0;
    for (int c = 0; c < tights; c++) {
      double v = w[c][r];
      if (v != 0) {
        combined[count] = a[tight[c]];
        weights[count++] = v * perRow[tight[c]];
      }
    }
    int k = head[r] - n;
    if (k >= 0) {
      combined[count] = a[k];
      weights[count++] = -perRow[k];
    }
    return count;
  }

  /** out = inverse . v */
  private void transform(double[] v, double[] out) {
    for (int i = 0; i < m; i++) {
      int k = head[i] - n;
      out[i] = k < 0 ? 0 : -v[k];
    }
    int c = 0;
    for (; c + 3 < tights; c += 4) {
      add(
          out,
          v[tight[c]],
          w[c],
          v[tight[c + 1]],
          w[c + 1],
          v[tight[c + 2]],
          w[c + 2],
          v[tight[c + 3]],
          w[c + 3],
          m);
    }
    for (; c < tights; c++) {
      subtractMultiple(out, -v[tight[c]], w[c], m);
    }
  }

  /** Puts the transformed column of q into col and answers its entry at place r. */
  private double columnOf(int q, int r) {
    if (q >= n) {
      int c = 0;
      while (tight[c] != q - n) {
        c++;
      }
      set(col, -1, w[c], m);
    } else {
      for (int k = 0; k < m; k++) {
        y[k] = a[k][q] * perRow[k];
      }
      transform(y, col);
    }
    return col[r];
  }

  /** Moves a variable that is not basic to its other bound. */
  private void flip(int j) {
    double target = dir[j] > 0 ? up[j] : lo[j];
    dir[j] = -dir[j];
    move(j, target);
  }

  private void move(int j, double target) {
    double change = target - x[j];
    x[j] = target;
    if (change != 0) {
      z += d[j] * change;
      addToPending(j, change);
    }
  }

  private void addToPending(int j, double change) {
    if (!pending) {
      pending = true;
      Arrays.fill(pend, 0, m, 0);
    }
    if (j >= n) {
      pend[j - n] -= change;
    } else {
      for (int i = 0; i < m; i++) {
        pend[i] += a[i][j] * perRow[i] * change;
      }
    }
  }

  private void applyPending() {
    pending = false;
    transform(pend, y);
    for (int i = 0; i < m; i++) {
      xB[i] -= y[i];
    }
  }

  /**
   * Changes the bounds of a variable (or, from n on, of a row over its rowMax) and keeps the basis
   * dual feasible.
   */
  void changeBounds(int j, double low, double high) {
    lo[j] = low;
    up[j] = high;
    int place = pos[j];
    if (place >= 0) {
      loB[place] = low;
      upB[place] = high;
    } else {
      boolean atLower = d[j] > 0 || (d[j] == 0 && dir[j] >= 0);
      if (low == high) {
        dir[j] = 0;
        move(j, low);
      } else {
        dir[j] = atLower ? 1 : -1;
        move(j, atLower ? low : high);
      }
    }
  }

  /** The value of a variable at the present basic point. */
  double value(int j) {
    int place = pos[j];
    return place >= 0 ? xB[place] : x[j];
  }

  /**
   * What has to be kept to come back to the present basic point; the bounds are the caller's to put
   * back.
   */
  void save(Snapshot into) {
    if (pending) {
      applyPending();
    }
    into.fit(n, m);
    System.arraycopy(x, 0, into.x, 0, total);
    System.arraycopy(d, 0, into.d, 0, total);
    System.arraycopy(dir, 0, into.dir, 0, total);
    System.arraycopy(head, 0, into.head, 0, m);
    System.arraycopy(xB, 0, into.xB, 0, m);
    System.arraycopy(tight, 0, into.tight, 0, tights);
    for (int c = 0; c < tights; c++) {
      System.arraycopy(w[c], 0, into.w[c], 0, m);
    }
    into.tights = tights;
    into.z = z;
    into.sinceRefactor = sinceRefactor;
  }

  /**
   * Comes back to a basic point. {@link #bindBounds()} has to follow once the bounds are as they
   * were.
   */
  void restore(Snapshot from) {
    pending = false;
    System.arraycopy(from.x, 0, x, 0, total);
    System.arraycopy(from.d, 0, d, 0, total);
    System.arraycopy(from.dir, 0, dir, 0, total);
    for (int i = 0; i < m; i++) {
      pos[head[i]] = -1;
    }
    System.arraycopy(from.head, 0, head, 0, m);
    System.arraycopy(from.xB, 0, xB, 0, m);
    for (int i = 0; i < m; i++) {
      pos[head[i]] = i;
    }
    tights = from.tights;
    System.arraycopy(from.tight, 0, tight, 0, tights);
    for (int c = 0; c < tights; c++) {
      System.arraycopy(from.w[c], 0, w[c], 0, m);
    }
    z = from.z;
    sinceRefactor = from.sinceRefactor;
    tol = TIGHT * lp.magnitude;
    bland = false;
    refactorEvery = 50;
    liveVariables = -1;
  }

  /** Takes the bounds of what is basic from the bounds of all. */
  void bindBounds() {
    for (int i = 0; i < m; i++) {
      loB[i] = lo[head[i]];
      upB[i] = up[head[i]];
    }
  }

  /** A basic point to come back to. */
  static final class Snapshot {
    double[] x = NONE;
    double[] d = NONE;
    double[] dir = NONE;
    int[] head = {};
    double[] xB = NONE;
    int[] tight = {};
    int tights;
    double[][] w = {};
    double z;
    int sinceRefactor;
    long version;

    private void fit(int n, int m) {
      if (x.length < n + m) {
        x = new double[n + m];
        d = new double[n + m];
        dir = new double[n + m];
      }
      if (head.length < m) {
        head = new int[m];
        xB = new double[m];
        tight = new int[m];
        w = new double[m][m];
      }
    }
  }

  /**
   * Fresh inverse, point and reduced costs from the original numbers; false if the basis is
   * singular.
   */
  private boolean refactor() {
    int count = 0;
    for (int i = 0; i < m; i++) {
      if (head[i] < n) {
        passed[count++] = head[i];
      }
    }
    for (int i = 0; i < m; i++) {
      head[i] = n + i;
    }
    tights = 0;
    for (int c = 0; c < count; c++) {
      int q = passed[c];
      columnOf(q, 0);
      int r = -1;
      double most = 1e-14;
      for (int i = 0; i < m; i++) {
        // A place is to give up its row when the row's own variable is not to be basic.
        double size = Math.abs(col[i]);
        if (size > most && head[i] >= n && pos[n + i] < 0) {
          most = size;
          r = i;
        }
      }
      if (r < 0) {
        return false;
      }
      exchange(r, n + r, q);
      head[r] = q;
    }
    for (int i = 0; i < m; i++) {
      pos[head[i]] = i;
    }
    bindBounds();
    sinceRefactor = 0;
    if (!recomputeReducedCosts()) {
      return false;
    }
    pending = false;
    Arrays.fill(xB, 0, m, 0);
    correctPoint();
    correctPoint();
    return true;
  }

  /** The most by which the point misses the own variable of a row. */
  private double residual() {
    double most = 0;
    for (int i = 0; i < m; i++) {
      double sum = 0;
      for (int c = 0; c < nonzeroCount; c++) {
        sum += a[i][nonzero[c]] * x[nonzero[c]];
      }
      most = Math.max(most, Math.abs(sum * perRow[i] - x[n + i]));
    }
    return most;
  }

  /** Basic values after what they leave of each row, taken back through the inverse. */
  private void correctPoint() {
    for (int k = 0; k < m; k++) {
      x[head[k]] = xB[k];
    }
    int count = 0;
    int moving = liveVariables < 0 ? n : liveVariables;
    for (int c = 0; c < moving; c++) {
      int j = liveVariables < 0 ? c : live[c];
      if (x[j] != 0 || pos[j] >= 0) {
        nonzero[count++] = j;
      }
    }
    nonzeroCount = count;
    for (int i = 0; i < m; i++) {
      double[] ai = a[i];
      double sum = 0;
      for (int c = 0; c < count; c++) {
        int j = nonzero[c];
        sum += ai[j] * x[j];
      }
      pend[i] = sum * perRow[i] - x[n + i];
    }
    transform(pend, y);
    pointDrift = 0;
    for (int k = 0; k < m; k++) {
      double error = Math.abs(y[k]);
      if (!(error <= pointDrift)) {
        pointDrift = error;
      }
      xB[k] -= y[k];
      x[head[k]] = xB[k];
    }
    z = 0;
    for (int c = 0; c < count; c++) {
      int j = nonzero[c];
      z += lp.cost[j] * x[j];
    }
  }

  /**
   * Reduced costs from the original numbers; what stands at the wrong bound is moved. False if that
   * is impossible.
   */
  private boolean recomputeReducedCosts() {
    // Prices of the tight rows; the others have none.
    int count = 0;
    Arrays.fill(d, n, total, 0);
    for (int c = 0; c < tights; c++) {
      double[] wc = w[c];
      double sum = 0;
      for (int k = 0; k < m; k++) {
        if (head[k] < n) {
          sum -= lp.cost[head[k]] * wc[k];
        }
      }
      if (sum != 0) {
        int i = tight[c];
        d[n + i] = -sum;
        combined[count] = a[i];
        weights[count++] = sum * perRow[i];
      }
    }
    combined[count] = lp.cost;
    weights[count++] = 1;
    combineRows(count, d);
    priceDrift = 0;
    for (int k = 0; k < m; k++) {
      priceDrift = Math.max(priceDrift, Math.abs(d[head[k]]));
      d[head[k]] = 0;
    }
    boolean possible = true;
    int moving = liveVariables < 0 ? total : liveVariables + m;
    for (int c = 0; c < moving; c++) {
      int j = liveVariables < 0 ? c : live[c];
      if (d[j] * dir[j] < -dualTol) {
        double target = dir[j] > 0 ? up[j] : lo[j];
        if (Double.isInfinite(target)) {
          // Where costs cancel, as those of a ratio do at its best, a price may be all rounding.
          possible &= Math.abs(d[j]) <= LOOSE * lp.costMax;
          d[j] = 0;
        } else {
          flip(j);
        }
      }
    }
    return possible;
  }

  /**
   * Recomputes all from the original numbers; true if the basis stands, false if there is more to
   * do.
   */
  private boolean polish() {
    if (!settle()) {
      if (!refactor()) {
        throw new Stuck("the basis became singular");
      }
    }
    // Where rows are nearly the same, correcting may not come to an end.
    if (pointDrift > TIGHT * lp.magnitude && residual() > LOOSE * lp.magnitude) {
      return false;
    }
    for (int i = 0; i < m; i++) {
      // Said this way round, so that what is not a number does not stand.
      if (!(Math.max(loB[i] - xB[i], xB[i] - upB[i]) <= tol)) {
        return false;
      }
    }
    return true;
  }

  /**
   * Recomputes prices and point through the present inverse; false if it has gathered too much
   * rounding.
   */
  private boolean settle() {
    if (!recomputeReducedCosts()) {
      throw new Stuck("a row's price has the wrong sign");
    }
    if (pending) {
      applyPending();
    }
    correctPoint();
    return sinceRefactor == 0
        || (priceDrift <= 1e-11 * lp.costMax && pointDrift <= 1e-9 * lp.magnitude);
  }

  /**
   * Proves from the original numbers that the rows combined by row r of the inverse exclude every
   * point. The multipliers may come from an inverse with rounding errors: any multipliers that pass
   * prove it.
   */
  private boolean certify(int r, double sign) {
    double norm = 0;
    Arrays.fill(y, 0, m, 0);
    for (int c = 0; c < tights; c++) {
      y[tight[c]] = -sign * w[c][r] * perRow[tight[c]];
      norm += Math.abs(w[c][r]);
    }
    if (head[r] >= n) {
      y[head[r] - n] = sign * perRow[head[r] - n];
      norm += 1;
    }
    double highest = 0;
    double terms = norm * lp.magnitude;
    for (int i = 0; i < m; i++) {
      if (y[i] != 0) {
        double size = Math.abs(y[i]) * rowMax[i];
        double limit = y[i] > 0 ? up[n + i] : lo[n + i];
        if (size <= 1e-14 * norm || (Double.isInfinite(limit) && size <= 1e-9 * norm)) {
          y[i] = 0;
        } else {
          double term = y[i] * rowMax[i] * limit;
          highest += term;
          terms += Math.abs(term);
        }
      }
    }
    int count = 0;
    for (int i = 0; i < m; i++) {
      if (y[i] != 0) {
        combined[count] = a[i];
        weights[count++] = y[i];
      }
    }
    combineRows(count, alpha);
    double lowest = 0;
    int moving = liveVariables < 0 ? n : liveVariables;
    for (int c = 0; c < moving; c++) {
      int j = liveVariables < 0 ? c : live[c];
      double g = alpha[j];
      double term = g * (g > 0 ? lo[j] : up[j]);
      lowest += term;
      terms += Math.abs(term);
    }
    double gap = lowest - highest;
    double needed =
        tol < LOOSE * lp.magnitude
            ? Math.max(ROUNDING * terms, LOOSE * lp.magnitude * norm)
            : ROUNDING * terms;
    if (!(gap > needed)) {
      return false;
    }
    if (certificate.length != m) {
      certificate = new double[m];
    }
    for (int i = 0; i < m; i++) {
      certificate[i] = y[i] / norm;
    }
    return true;
  }

  /** What {@link #solveLoaded()} or {@link #checkSafely()} came to, with all that goes with it. */
  LpSolution solution(int status) {
    long[] atUpper = new long[(total + 63) >> 6];
    for (int k = 0; k < total; k++) {
      if (dir[k] < 0) {
        atUpper[k >> 6] |= 1L << (k & 63);
      }
    }
    Basis basis = new Basis(n, Arrays.copyOf(head, m), atUpper);
    if (status == INFEASIBLE) {
      return new LpSolution(
          lp, LpSolution.Status.INFEASIBLE, NONE, 0, NONE, certificate.clone(), pivots, basis);
    }
    double[] point = new double[n];
    double cost = 0;
    for (int c = 0; c < nonzeroCount; c++) {
      int j = nonzero[c];
      double v = Math.max(lo[j], Math.min(up[j], x[j])) + 0.0; // no negative zero
      point[j] = v;
      cost += lp.cost[j] * v;
    }
    double[] duals = new double[m];
    for (int i = 0; i < m; i++) {
      duals[i] = d[n + i] * perRow[i] + 0.0;
    }
    return new LpSolution(lp, LpSolution.Status.OPTIMAL, point, cost, duals, NONE, pivots, basis);
  }

  /**
   * out = the first so many of the weights times what is combined; several at a time, so that the
   * sums pass through memory less often.
   */
  private void combineRows(int count, double[] out) {
    if (liveVariables >= 0) {
      for (int c = 0; c < liveVariables; c++) {
        int j = live[c];
        double sum = 0;
        for (int e = 0; e < count; e++) {
          sum += weights[e] * combined[e][j];
        }
        out[j] = sum;
      }
      return;
    }
    int first = count & 3;
    if (first == 0) {
      Arrays.fill(out, 0, n, 0);
    } else if (first == 1) {
      set(out, weights[0], combined[0], n);
    } else {
      set(out, weights[0], combined[0], weights[1], combined[1], n);
      if (first == 3) {
        subtractMultiple(out, -weights[2], combined[2], n);
      }
    }
    for (int g = first; g < count; g += 4) {
      add(
          out,
          weights[g],
          combined[g],
          weights[g + 1],
          combined[g + 1],
          weights[g + 2],
          combined[g + 2],
          weights[g + 3],
          combined[g + 3],
          n);
    }
  }

  private static void set(double[] out, double s, double[] p, int length) {
    for (int j = 0; j < length; j++) {
      out[j] = s * p[j];
    }
  }

  private static void set(double[] out, double s, double[] p, double t, double[] q, int length) {
    for (int j = 0; j < length; j++) {
      out[j] = s * p[j] + t * q[j];
    }
  }

  private static void add(
      double[] out,
      double s,
      double[] p,
      double t,
      double[] q,
      double u,
      double[] v,
      double e,
      double[] f,
      int length) {
    for (int j = 0; j < length; j++) {
      out[j] += (s * p[j] + t * q[j]) + (u * v[j] + e * f[j]);
    }
  }

  private static void subtractMultiple(double[] out, double factor, double[] p, int length) {
    for (int j = 0; j < length; j++) {
      out[j] -= factor * p[j];
    }
  }

  /** The present way leads nowhere; the careful way may. */
  static final class Stuck extends RuntimeException {
    private static final long serialVersionUID = 1L;

    Stuck(String message) {
      super(message, null, false, false);
    }
  }
}
