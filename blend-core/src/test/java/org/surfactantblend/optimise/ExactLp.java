package org.surfactantblend.optimise;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import org.jspecify.annotations.Nullable;

/**
 * The oracle: a dual simplex in exact whole-number arithmetic on the very numbers of a programme
 * (every double is a fraction with a power of two below). Started from the basis where the solver
 * under test ended, it either confirms it with no exchange at all or finds the true answer.
 */
final class ExactLp {

  private static final MathContext DIGITS = new MathContext(60);

  private final LinearProgram lp;
  private final int n;
  private final int m;
  private final BigInteger[][] tableau;
  private final int[] head;
  private final int[] pos;
  private final boolean[] upper;
  private final @Nullable BigInteger[] low;
  private final @Nullable BigInteger[] high;
  private final int boundShift;
  private final int costShift;
  private BigInteger det = BigInteger.ONE;
  int exchanges;
  private int conflictPlace = -1;
  private int conflictSign;

  private ExactLp(LinearProgram lp) {
    this.lp = lp;
    n = lp.variables();
    m = lp.rows();
    tableau = new BigInteger[m + 1][n + m];
    head = new int[m];
    pos = new int[n + m];
    upper = new boolean[n + m];
    low = new BigInteger[n + m];
    high = new BigInteger[n + m];
    int bounds = 0;
    int costs = 0;
    int[] rowShift = new int[m];
    for (int j = 0; j < n; j++) {
      bounds = Math.max(bounds, Math.max(places(lp.lower(j)), places(lp.upper(j))));
      costs = Math.max(costs, places(lp.cost(j)));
    }
    for (int i = 0; i < m; i++) {
      for (int j = 0; j < n; j++) {
        rowShift[i] = Math.max(rowShift[i], places(lp.coefficient(i, j)));
      }
      bounds = Math.max(bounds, places(lp.rowLower(i)) - rowShift[i]);
      bounds = Math.max(bounds, places(lp.rowUpper(i)) - rowShift[i]);
    }
    boundShift = bounds;
    costShift = costs;
    for (int j = 0; j < n; j++) {
      low[j] = whole(lp.lower(j), bounds);
      high[j] = whole(lp.upper(j), bounds);
      tableau[m][j] = whole(lp.cost(j), costs);
      for (int i = 0; i < m; i++) {
        tableau[i][j] = whole(lp.coefficient(i, j), rowShift[i]).negate();
      }
    }
    for (int i = 0; i < m; i++) {
      tableau[m][n + i] = BigInteger.ZERO;
      for (int k = 0; k < m; k++) {
        tableau[k][n + i] = i == k ? BigInteger.ONE : BigInteger.ZERO;
      }
      low[n + i] =
          Double.isInfinite(lp.rowLower(i)) ? null : whole(lp.rowLower(i), bounds + rowShift[i]);
      high[n + i] =
          Double.isInfinite(lp.rowUpper(i)) ? null : whole(lp.rowUpper(i), bounds + rowShift[i]);
    }
  }

  /** The exact answer; {@code start} only shortens the way to it. */
  static Answer solve(LinearProgram lp, @Nullable Basis start) {
    ExactLp exact = new ExactLp(lp);
    if (start == null || !exact.moveTo(start)) {
      exact = new ExactLp(lp);
      exact.placeAll(null);
    }
    return exact.run();
  }

  private boolean moveTo(Basis start) {
    resetPositions();
    boolean[] wanted = new boolean[n + m];
    for (int k : start.basic()) {
      wanted[k] = true;
    }
    for (int k : start.basic()) {
      if (pos[k] < 0) {
        int r = -1;
        for (int i = 0; i < m; i++) {
          if (!wanted[head[i]] && tableau[i][k].signum() != 0) {
            r = i;
            break;
          }
        }
        if (r < 0) {
          return false;
        }
        exchange(r, k);
      }
    }
    return placeAll(start);
  }

  private void resetPositions() {
    java.util.Arrays.fill(pos, -1);
    for (int i = 0; i < m; i++) {
      head[i] = n + i;
      pos[n + i] = i;
    }
  }

  private boolean placeAll(@Nullable Basis start) {
    if (start == null) {
      resetPositions();
    }
    for (int k = 0; k < n + m; k++) {
      if (pos[k] < 0) {
        int sign = tableau[m][k].signum();
        upper[k] = sign < 0 || (sign == 0 && start != null && start.atUpper(k));
        if (sign == 0 && (upper[k] ? high[k] : low[k]) == null) {
          upper[k] = !upper[k];
        }
        if ((upper[k] ? high[k] : low[k]) == null) {
          return false;
        }
      }
    }
    return true;
  }

  private Answer run() {
    while (true) {
      int r = -1;
      int side = 0;
      for (int i = 0; i < m; i++) {
        if (r >= 0 && head[i] > head[r]) {
          continue;
        }
        BigInteger v = basicValue(i);
        BigInteger l = low[head[i]];
        BigInteger u = high[head[i]];
        if (l != null && v.compareTo(l.multiply(det)) < 0) {
          r = i;
          side = -1;
        } else if (u != null && v.compareTo(u.multiply(det)) > 0) {
          r = i;
          side = 1;
        }
      }
      if (r < 0) {
        return new Answer(true, objective(), exchanges);
      }
      int q = -1;
      for (int j = 0; j < n + m; j++) {
        if (pos[j] >= 0) {
          continue;
        }
        BigInteger l = low[j];
        BigInteger u = high[j];
        if (l != null && u != null && l.equals(u)) {
          continue;
        }
        int s = tableau[r][j].signum() * side * (upper[j] ? -1 : 1);
        if (s > 0 && (q < 0 || lessRatio(r, j, q))) {
          q = j;
        }
      }
      if (q < 0) {
        conflictPlace = r;
        conflictSign = side;
        return new Answer(false, conflictMargin(), exchanges);
      }
      int p = head[r];
      exchange(r, q);
      upper[p] = side > 0;
      exchanges++;
    }
  }

  private boolean lessRatio(int r, int j, int q) {
    return tableau[m][j]
            .abs()
            .multiply(tableau[r][q].abs())
            .compareTo(tableau[m][q].abs().multiply(tableau[r][j].abs()))
        < 0;
  }

  /** det times the value of the basic variable at place i, in bound units. */
  private BigInteger basicValue(int i) {
    BigInteger sum = BigInteger.ZERO;
    for (int j = 0; j < n + m; j++) {
      if (pos[j] < 0 && tableau[i][j].signum() != 0) {
        sum = sum.subtract(tableau[i][j].multiply(value(j)));
      }
    }
    return sum;
  }

  private BigInteger value(int j) {
    return java.util.Objects.requireNonNull(upper[j] ? high[j] : low[j]);
  }

  private BigDecimal objective() {
    BigInteger sum = BigInteger.ZERO;
    for (int j = 0; j < n; j++) {
      BigInteger v = pos[j] < 0 ? value(j).multiply(det) : basicValue(pos[j]);
      sum = sum.add(v.multiply(whole(lp.cost(j), costShift)));
    }
    return new BigDecimal(sum)
        .divide(new BigDecimal(det.shiftLeft(costShift + boundShift)), DIGITS);
  }

  /**
   * Gap of the certificate over the sum of its multipliers, rows divided by their largest
   * coefficient.
   */
  private BigDecimal conflictMargin() {
    int i = conflictPlace;
    int p = head[i];
    BigInteger limit =
        java.util.Objects.requireNonNull(conflictSign > 0 ? high[p] : low[p]).multiply(det);
    BigDecimal gap =
        new BigDecimal(basicValue(i).subtract(limit).abs())
            .divide(new BigDecimal(BigInteger.ONE.shiftLeft(boundShift)), DIGITS);
    BigDecimal norm = BigDecimal.ZERO;
    for (int k = 0; k < m; k++) {
      int shift = 0;
      for (int j = 0; j < n; j++) {
        shift = Math.max(shift, places(lp.coefficient(k, j)));
      }
      norm =
          norm.add(
              new BigDecimal(tableau[i][n + k].abs())
                  .multiply(new BigDecimal(BigInteger.ONE.shiftLeft(shift)))
                  .multiply(new BigDecimal(lp.rowMax(k))));
    }
    return gap.divide(norm, DIGITS);
  }

  private void exchange(int r, int q) {
    BigInteger p = tableau[r][q];
    for (int i = 0; i <= m; i++) {
      if (i == r) {
        continue;
      }
      BigInteger f = tableau[i][q];
      for (int j = 0; j < n + m; j++) {
        BigInteger t = tableau[i][j];
        if (t.signum() == 0 && (f.signum() == 0 || tableau[r][j].signum() == 0)) {
          continue;
        }
        tableau[i][j] = t.multiply(p).subtract(f.multiply(tableau[r][j])).divide(det);
      }
    }
    det = p;
    if (det.signum() < 0) {
      det = det.negate();
      for (BigInteger[] row : tableau) {
        for (int j = 0; j < n + m; j++) {
          row[j] = row[j].negate();
        }
      }
    }
    pos[head[r]] = -1;
    head[r] = q;
    pos[q] = r;
  }

  /** Binary places after the point. */
  private static int places(double v) {
    if (v == 0 || Double.isInfinite(v)) {
      return 0;
    }
    int exponent = Math.getExponent(v) - 52;
    long bits = (Double.doubleToRawLongBits(v) & 0xfffffffffffffL) | 0x10000000000000L;
    return Math.max(0, -(exponent + Long.numberOfTrailingZeros(bits)));
  }

  private static BigInteger whole(double v, int shift) {
    return new BigDecimal(v)
        .multiply(new BigDecimal(BigInteger.ONE.shiftLeft(shift)))
        .toBigIntegerExact();
  }

  /**
   * The exact answer.
   *
   * @param feasible whether any point exists
   * @param value the exact least cost; without a point, a lower bound of the scaled violation that
   *     every point has
   * @param exchanges how many exchanges it took from the start
   */
  record Answer(boolean feasible, BigDecimal value, int exchanges) {}
}
