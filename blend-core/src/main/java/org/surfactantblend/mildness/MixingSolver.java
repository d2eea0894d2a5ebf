package org.surfactantblend.mildness;

import java.util.Arrays;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * Finds the micelles that minimise the free energy of mixing, for fixed interaction parameters.
 *
 * <p>With ln f_i = (beta x)_i - x'beta x / 2 the conditions of Holland and Rubingh are those of a
 * minimum, so the equations are solved by descent and not by a root search:
 *
 * <ul>
 *   <li>at the CMC: ln C* = min over x of F(x) = sum x_i ln(x_i C_i / alpha_i) + x'beta x / 2;
 *   <li>above it: the micellised amounts n_i minimise G(n) = sum m_i (ln m_i - 1) + sum n_i (ln x_i
 *       + ln C_i) + M x'beta x / 2, with m_i = alpha_i C - n_i and M = sum n_i.
 * </ul>
 *
 * <p>Both use Newton steps in the logarithms, scaled so that the second derivative is the unit
 * matrix plus the interaction part. Where that is not positive definite the unit part is enlarged
 * until it is, which turns the step towards plain fixed-point iteration.
 *
 * <p>One instance serves one thread and one mixture; it holds the work space.
 */
final class MixingSolver {
  private static final int MOST_STEPS = 1000;
  private static final double RESIDUAL = 1e-13;

  /** After a full Newton step this small in the logarithms the next one is below rounding. */
  private static final double LAST_STEP = 1e-8;

  /** Micelles closer than this in every mole fraction are one. */
  private static final double SAME_COMPOSITION = 1e-3;

  private final int n;

  /** ln CMC [CMC in mmol/L]. */
  private final double[] lnCmc;

  /** Row by row, symmetric, zero diagonal. */
  private final double[] beta;

  private final double[] betaX;
  private final double[] residual;
  private final double[] root;
  private final double[] step;
  private final double[] trial;

  /** Micellised and free share of the total, above the CMC. */
  private final double[] bound;

  private final double[] free;
  private final double[] matrix;
  private final double[] factor;

  MixingSolver(double[] lnCmc, double[] beta) {
    this.n = lnCmc.length;
    this.lnCmc = lnCmc;
    this.beta = beta;
    betaX = new double[n];
    residual = new double[n];
    root = new double[n];
    step = new double[n];
    trial = new double[n];
    bound = new double[n];
    free = new double[n];
    matrix = new double[n * n];
    factor = new double[n * n];
  }

  /** A micelle in balance with its monomers. */
  static final class Micelle {
    /** ln of the mixture CMC [mmol/L]; meaningless above it. */
    final double lnCmc;

    /** Micellised over total concentration. */
    final double micellised;

    final double[] x;
    final double[] lnActivity;

    /** Whether a micelle of another composition is a minimum too. */
    final boolean severalMinima;

    Micelle(
        double lnCmc, double micellised, double[] x, double[] lnActivity, boolean severalMinima) {
      this.lnCmc = lnCmc;
      this.micellised = micellised;
      this.x = x;
      this.lnActivity = lnActivity;
      this.severalMinima = severalMinima;
    }
  }

  /**
   * The lowest concentration at which any micelle is stable.
   *
   * @param alpha mole fractions of the mixture, all above zero
   */
  Micelle atCmc(double[] alpha) {
    double[] c = new double[n];
    double[] lnX = new double[n];
    for (int i = 0; i < n; i++) {
      c[i] = lnCmc[i] - FastMath.log(alpha[i]);
      lnX[i] = -c[i];
    }
    double[] best = new double[n];
    double least = descend(c, lnX, best, null);
    boolean several = false;
    if (!convexEverywhere()) {
      boolean stable = convexAt(best);
      double[] other = new double[n];
      for (int k = 0; k < n; k++) {
        nearlyPure(k, lnX);
        double value = descend(c, lnX, other, stable ? best : null);
        if ((stable && same(best, other)) || !convexAt(other)) {
          continue;
        }
        several |= stable;
        if (!stable || value < least) {
          least = value;
          System.arraycopy(other, 0, best, 0, n);
          stable = true;
        }
      }
      several |= !stable;
    }
    double[] lnActivity = new double[n];
    lnActivity(best, lnActivity);
    return new Micelle(least, 0, best, lnActivity, several);
  }

  /**
   * Whether the monomers in balance with a micelle would rather form another: with ln(C_i / m_i) in
   * place of ln(C_i / alpha_i), F is 0 at the micelle and must be negative nowhere.
   *
   * @param lnMonomers ln of the monomer concentrations [mmol/L]
   * @param x the micelle they are in balance with
   */
  boolean anotherMicelleForms(double[] lnMonomers, double[] x) {
    if (convexEverywhere()) {
      return false;
    }
    if (!convexAt(x)) {
      return true;
    }
    double[] c = new double[n];
    for (int i = 0; i < n; i++) {
      c[i] = lnCmc[i] - lnMonomers[i];
    }
    double[] lnX = new double[n];
    double[] other = new double[n];
    for (int k = 0; k < n; k++) {
      nearlyPure(k, lnX);
      if (descend(c, lnX, other, x) < -1e-9 && !same(x, other)) {
        return true;
      }
    }
    return false;
  }

  /**
   * Monomers and micelles above the CMC.
   *
   * @param alpha mole fractions of the mixture, all above zero
   * @param total total concentration [mmol/L], above the mixture CMC
   * @param start the micelles at the CMC
   */
  Micelle above(double[] alpha, double total, Micelle start) {
    double lnTotal = FastMath.log(total);
    double[] relativeLnCmc = new double[n];
    for (int i = 0; i < n; i++) {
      relativeLnCmc[i] = lnCmc[i] - lnTotal;
    }
    double[] x = new double[n];
    double[] w = bestStart(alpha, relativeLnCmc, start, x);
    double value = evaluateAbove(alpha, relativeLnCmc, w, x);
    for (int count = 0; count < MOST_STEPS; count++) {
      if (largest(residual) <= RESIDUAL) {
        return above(x);
      }
      for (int i = 0; i < n; i++) {
        root[i] = Math.sqrt(bound[i] * free[i] / alpha[i]);
      }
      double slope = newtonStep(x, 1 / sum(bound), 1);
      double largest = largest(step);
      double length = Math.min(1, 10 / largest);
      double slack = 1e-14 * (1 + Math.abs(value));
      double nextValue;
      while (true) {
        for (int i = 0; i < n; i++) {
          trial[i] = w[i] + length * step[i];
        }
        nextValue = evaluateAbove(alpha, relativeLnCmc, trial, x);
        if (nextValue <= value + 1e-4 * length * slope + slack || length < 1e-10) {
          break;
        }
        length *= 0.5;
      }
      System.arraycopy(trial, 0, w, 0, n);
      value = nextValue;
      if (length == 1 && largest < LAST_STEP) {
        return above(x);
      }
    }
    throw notFound(alpha);
  }

  private Micelle above(double[] x) {
    double[] lnActivity = new double[n];
    lnActivity(x, lnActivity);
    return new Micelle(Double.NaN, sum(bound), x, lnActivity, false);
  }

  /** ln f_i = (beta x)_i - x'beta x / 2. */
  void lnActivity(double[] x, double[] into) {
    double half = 0.5 * interaction(x);
    for (int i = 0; i < n; i++) {
      into[i] = betaX[i] - half;
    }
  }

  /** Whether the free energy of mixing curves upward at x in every direction that keeps the sum. */
  private boolean convexAt(double[] x) {
    double q = interaction(x);
    for (int i = 0; i < n; i++) {
      root[i] = Math.sqrt(x[i]);
    }
    fillMatrix(q, 1, 0, 1);
    return factorise();
  }

  /**
   * A sufficient condition for one minimum only: since sum(x) = 1, the second derivative along d
   * with sum(d) = 0 is at least (sum |d|)^2 + d'beta d, and (sum |d|)^2 is at least 2 d'd, so it is
   * enough that beta + 2 is positive definite on those directions. For two components that is beta
   * below 2, the exact limit.
   */
  private boolean convexEverywhere() {
    double all = 0;
    for (int i = 0; i < n; i++) {
      betaX[i] = 0;
      for (int j = 0; j < n; j++) {
        betaX[i] += beta[i * n + j] / n;
      }
      all += betaX[i] / n;
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        matrix[i * n + j] = beta[i * n + j] - betaX[i] - betaX[j] + all + (i == j ? 2 : 0);
      }
    }
    return factorise();
  }

  /**
   * Moves ln x, and x with it, to a minimum of F or close to a known one; returns F there.
   *
   * @param lnX where to start, up to a common shift
   */
  private double descend(double[] c, double[] lnX, double[] x, double @Nullable [] known) {
    normalise(lnX, x);
    double value = evaluateAtCmc(c, lnX, x);
    for (int count = 0; count < MOST_STEPS; count++) {
      if (largest(residual) <= RESIDUAL || (known != null && same(known, x))) {
        return value;
      }
      for (int i = 0; i < n; i++) {
        root[i] = Math.sqrt(x[i]);
      }
      double slope = newtonStep(x, 1, 0);
      double largest = largest(step);
      double length = Math.min(1, 20 / largest);
      double slack = 1e-14 * (1 + Math.abs(value));
      double nextValue;
      while (true) {
        for (int i = 0; i < n; i++) {
          trial[i] = lnX[i] + length * step[i];
        }
        normalise(trial, x);
        nextValue = evaluateAtCmc(c, trial, x);
        if (nextValue <= value + 1e-4 * length * slope + slack || length < 1e-10) {
          break;
        }
        length *= 0.5;
      }
      System.arraycopy(trial, 0, lnX, 0, n);
      value = nextValue;
      if (length == 1 && largest < LAST_STEP) {
        return value;
      }
    }
    throw notFound(c);
  }

  private double evaluateAtCmc(double[] c, double[] lnX, double[] x) {
    double q = interaction(x);
    double mean = 0;
    for (int i = 0; i < n; i++) {
      residual[i] = lnX[i] + c[i] + betaX[i];
      mean += x[i] * residual[i];
    }
    for (int i = 0; i < n; i++) {
      residual[i] -= mean;
    }
    return mean - 0.5 * q;
  }

  /** Sets x, bound, free and residual for w = ln(bound over free); returns G. */
  private double evaluateAbove(double[] alpha, double[] relativeLnCmc, double[] w, double[] x) {
    double value = 0;
    for (int i = 0; i < n; i++) {
      double small = FastMath.exp(-Math.abs(w[i]));
      double larger = alpha[i] / (1 + small);
      bound[i] = w[i] > 0 ? larger : larger * small;
      free[i] = w[i] > 0 ? larger * small : larger;
      value += alpha[i] * FastMath.log(free[i]) - free[i];
    }
    double micellised = sum(bound);
    for (int i = 0; i < n; i++) {
      x[i] = bound[i] / micellised;
    }
    double half = 0.5 * interaction(x);
    double lnMicellised = FastMath.log(micellised);
    for (int i = 0; i < n; i++) {
      residual[i] = w[i] - lnMicellised + betaX[i] - half + relativeLnCmc[i];
      value += bound[i] * residual[i];
    }
    return value;
  }

  /**
   * Of three states the one with the least free energy. The first, micelles of the composition at
   * the CMC in an amount that surely pays, lies below the state without micelles, so that descent
   * can never lose the micelles again. The others are good further up: activities as at the CMC,
   * and all surfactant in micelles.
   */
  private double[] bestStart(double[] alpha, double[] relativeLnCmc, Micelle start, double[] x) {
    double scarcity = 0;
    for (int i = 0; i < n; i++) {
      scarcity = Math.max(scarcity, start.x[i] / alpha[i]);
    }
    // relativeLnCmc is ln(C_i / C), so this is ln(C* / C).
    double lnCmcOverTotal = start.lnCmc - (lnCmc[0] - relativeLnCmc[0]);
    double m = -FastMath.expm1(lnCmcOverTotal) / scarcity;
    double[] best = new double[n];
    for (int i = 0; i < n; i++) {
      double part = m * start.x[i] / alpha[i];
      best[i] = FastMath.log(part) - FastMath.log1p(-part);
    }
    double least = evaluateAbove(alpha, relativeLnCmc, best, x);
    double[] activityFull = new double[n];
    lnActivity(alpha, activityFull);
    for (double[] lnActivity : new double[][] {start.lnActivity, activityFull}) {
      double micellised = micellisedAtFixedActivity(alpha, relativeLnCmc, lnActivity);
      if (micellised <= 0) {
        continue;
      }
      double[] other = new double[n];
      for (int i = 0; i < n; i++) {
        other[i] = FastMath.log(micellised) - lnActivity[i] - relativeLnCmc[i];
      }
      double value = evaluateAbove(alpha, relativeLnCmc, other, x);
      if (value < least) {
        least = value;
        best = other;
      }
    }
    return best;
  }

  /** Solves sum alpha_i / (M + f_i C_i) = 1 for M, the micellised share, from the left. */
  private double micellisedAtFixedActivity(
      double[] alpha, double[] relativeLnCmc, double[] lnActivity) {
    double m = 0;
    for (int count = 0; count < 60; count++) {
      double sum = -1;
      double derivative = 0;
      for (int i = 0; i < n; i++) {
        double quotient = alpha[i] / (m + FastMath.exp(lnActivity[i] + relativeLnCmc[i]));
        sum += quotient;
        derivative += quotient * quotient / alpha[i];
      }
      double change = sum / derivative;
      if (!(change > 1e-3 * m)) {
        break;
      }
      m += change;
    }
    return m;
  }

  /** Sets betaX and returns x'beta x. */
  private double interaction(double[] x) {
    double q = 0;
    for (int i = 0; i < n; i++) {
      double sum = 0;
      for (int j = 0; j < n; j++) {
        sum += beta[i * n + j] * x[j];
      }
      betaX[i] = sum;
      q += x[i] * sum;
    }
    return q;
  }

  /**
   * Sets the step in the logarithms; returns the slope of the free energy along it. Uses residual,
   * root and betaX as the last evaluation left them.
   */
  private double newtonStep(double[] x, double scale, double homogeneity) {
    double q = 0;
    for (int i = 0; i < n; i++) {
      q += x[i] * betaX[i];
    }
    double extra = 0;
    while (true) {
      fillMatrix(q, scale, homogeneity, 1 + extra);
      if (factorise()) {
        break;
      }
      extra = extra == 0 ? 1e-6 : 10 * extra;
      if (!(extra < 1e6)) {
        throw notFound(x);
      }
    }
    for (int i = 0; i < n; i++) {
      double sum = -root[i] * residual[i];
      for (int j = 0; j < i; j++) {
        sum -= factor[i * n + j] * step[j];
      }
      step[i] = sum / factor[i * n + i];
    }
    for (int i = n - 1; i >= 0; i--) {
      double sum = step[i];
      for (int j = i + 1; j < n; j++) {
        sum -= factor[j * n + i] * step[j];
      }
      step[i] = sum / factor[i * n + i];
    }
    double slope = 0;
    for (int i = 0; i < n; i++) {
      slope += root[i] * residual[i] * step[i];
      step[i] /= root[i];
    }
    return slope;
  }

  private void fillMatrix(double q, double scale, double homogeneity, double diagonal) {
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        double curvature = beta[i * n + j] - betaX[i] - betaX[j] + q - homogeneity;
        matrix[i * n + j] = scale * root[i] * root[j] * curvature + (i == j ? diagonal : 0);
      }
    }
  }

  /** Cholesky factor of the lower triangle; false when it is not safely positive definite. */
  private boolean factorise() {
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        double sum = matrix[i * n + j];
        for (int k = 0; k < j; k++) {
          sum -= factor[i * n + k] * factor[j * n + k];
        }
        if (i == j) {
          if (!(sum > 1e-12)) {
            return false;
          }
          factor[i * n + i] = Math.sqrt(sum);
        } else {
          factor[i * n + j] = sum / factor[j * n + j];
        }
      }
    }
    return true;
  }

  private static double largest(double[] values) {
    double largest = 0;
    for (double value : values) {
      largest = Math.max(largest, Math.abs(value));
    }
    return largest;
  }

  private static double sum(double[] values) {
    double sum = 0;
    for (double value : values) {
      sum += value;
    }
    return sum;
  }

  private void nearlyPure(int k, double[] lnX) {
    double rest = n == 1 ? 0 : FastMath.log(0.02 / (n - 1));
    for (int i = 0; i < n; i++) {
      lnX[i] = i == k ? FastMath.log(0.98) : rest;
    }
  }

  private static boolean same(double[] x, double[] y) {
    for (int i = 0; i < x.length; i++) {
      if (Math.abs(x[i] - y[i]) > SAME_COMPOSITION) {
        return false;
      }
    }
    return true;
  }

  private ArithmeticException notFound(double[] mixture) {
    return new ArithmeticException(
        "mixed micelles were not found in "
            + MOST_STEPS
            + " steps for ln CMC "
            + Arrays.toString(lnCmc)
            + ", mixture "
            + Arrays.toString(mixture)
            + ", interactions "
            + Arrays.toString(beta));
  }

  /** Shifts ln x until the sum of x is one, and sets x. */
  private static void normalise(double[] lnX, double[] x) {
    double most = lnX[0];
    for (double value : lnX) {
      most = Math.max(most, value);
    }
    double sum = 0;
    for (int i = 0; i < x.length; i++) {
      x[i] = FastMath.exp(lnX[i] - most);
      sum += x[i];
    }
    double shift = most + FastMath.log(sum);
    for (int i = 0; i < x.length; i++) {
      x[i] /= sum;
      lnX[i] -= shift;
    }
  }
}
