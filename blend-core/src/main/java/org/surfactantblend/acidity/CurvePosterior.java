package org.surfactantblend.acidity;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.surfactantblend.aqueous.PhRoot;

/**
 * What is known of a blend's charge curve after readings: linear Bayesian regression on the charge
 * balance at each of them.
 *
 * <p>A reading r after a dose x says {@code Z(r) + x z(r) = 0} but for the meter's error, which
 * counts as the curve's slope times the error of the pH. All readings are kept and the regression
 * is done afresh from the prior, so their order does not matter. Immutable.
 */
final class CurvePosterior {
  /** A trace of mischance in every equation [eq/kg]. */
  private static final double TRACE = 1e-5;

  /** How many standard deviations of noise are allowed for where the product stands now. */
  private static final double NOISE = 2;

  /** The weight below which a slice does not count. */
  private static final double NEGLIGIBLE = 1e-6;

  /** How finely what is left is resolved [eq/kg]. */
  private static final double RESOLVED = 1e-7;

  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);

  private final CurvePrior prior;
  private final double[] weights;
  private final double[][] means;
  private final double[][] variances;
  private final double[] mean;
  private final double[] variance;

  /**
   * One reading as an equation.
   *
   * @param ph what was read, brought to the neat product at the reference temperature
   * @param deviation of that reading [pH]
   * @param dosed the charge of all doses over the grid [eq/kg of product]
   * @param weighing the variance of the doses by the scale's steps, at that pH [(eq/kg)^2]
   */
  @SuppressWarnings("ArrayRecordComponent")
  record Equation(double ph, double deviation, double[] dosed, double weighing) {}

  private CurvePosterior(
      CurvePrior prior, double[] weights, double[][] means, double[][] variances) {
    this.prior = prior;
    this.weights = weights;
    this.means = means;
    this.variances = variances;
    if (weights.length == 1) {
      mean = means[0];
      variance = variances[0];
      return;
    }
    mean = new double[CurvePrior.POINTS];
    variance = new double[CurvePrior.POINTS];
    for (int k = 0; k < CurvePrior.POINTS; k++) {
      for (int c = 0; c < weights.length; c++) {
        mean[k] += weights[c] * means[c][k];
      }
      for (int c = 0; c < weights.length; c++) {
        double off = means[c][k] - mean[k];
        variance[k] += weights[c] * (variances[c][k] + off * off);
      }
    }
  }

  static CurvePosterior of(CurvePrior prior, List<Equation> equations) {
    List<CurvePrior.Component> components = prior.components();
    int count = components.size();
    double[] evidence = new double[count];
    double[][] means = new double[count][];
    double[][] variances = new double[count][];
    double best = Double.NEGATIVE_INFINITY;
    for (int c = 0; c < count; c++) {
      means[c] = components.get(c).mean().clone();
      variances[c] = new double[CurvePrior.POINTS];
      for (int k = 0; k < CurvePrior.POINTS; k++) {
        variances[c][k] = components.get(c).covariance()[k][k];
      }
      if (!equations.isEmpty()) {
        evidence[c] = learn(prior, components.get(c), equations, means[c], variances[c]);
      }
      best = Math.max(best, evidence[c]);
    }
    double sum = 0;
    for (int c = 0; c < count; c++) {
      evidence[c] = StrictMath.exp(evidence[c] - best);
      sum += evidence[c];
    }
    for (int c = 0; c < count; c++) {
      evidence[c] /= sum;
    }
    return new CurvePosterior(prior, evidence, means, variances);
  }

  /** Updates mean and variance in place and gives the logarithm of the evidence. */
  private static double learn(
      CurvePrior prior,
      CurvePrior.Component component,
      List<Equation> equations,
      double[] mean,
      double[] variance) {
    int n = equations.size();
    double[][] rows = new double[n][];
    double[][] among = new double[n][n];
    double[] innovation = new double[n];
    for (int i = 0; i < n; i++) {
      rows[i] = component.row(equations.get(i).ph());
    }
    for (int i = 0; i < n; i++) {
      Equation e = equations.get(i);
      for (int j = 0; j < n; j++) {
        among[i][j] = CurvePrior.at(rows[i], equations.get(j).ph());
      }
      double slope = slope(prior, component.mean(), e);
      among[i][i] +=
          (slope * slope + slopeVariance(component, e.ph())) * e.deviation() * e.deviation()
              + e.weighing()
              + TRACE * TRACE;
      innovation[i] = -CurvePrior.at(component.mean(), e.ph()) - CurvePrior.at(e.dosed(), e.ph());
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < i; j++) {
        double both = (among[i][j] + among[j][i]) / 2;
        among[i][j] = both;
        among[j][i] = both;
      }
    }
    CholeskyDecomposition cholesky =
        new CholeskyDecomposition(new Array2DRowRealMatrix(among, false), 1e-6, 1e-30);
    RealMatrix gain = cholesky.getSolver().solve(new Array2DRowRealMatrix(rows, false));
    double[] weighed = cholesky.getSolver().solve(new ArrayRealVector(innovation, false)).toArray();
    double evidence = -StrictMath.log(cholesky.getDeterminant()) / 2;
    for (int i = 0; i < n; i++) {
      evidence -= innovation[i] * weighed[i] / 2;
      double[] g = gain.getRow(i);
      for (int k = 0; k < CurvePrior.POINTS; k++) {
        mean[k] += g[k] * innovation[i];
        variance[k] -= g[k] * rows[i][k];
      }
    }
    return evidence;
  }

  /** The slope of blend and doses at a reading, at least that of water alone. */
  private static double slope(CurvePrior prior, double[] mean, Equation e) {
    double own = -CurvePrior.slope(mean, e.ph()) - CurvePrior.slope(e.dosed(), e.ph());
    return Math.max(own, prior.waterSlope(e.ph()));
  }

  /** How much the slope itself is uncertain before the readings [(eq/kg per pH)^2]. */
  private static double slopeVariance(CurvePrior.Component component, double ph) {
    double h = CurvePrior.STEP;
    double[] low = component.row(ph - h);
    double[] high = component.row(ph + h);
    return Math.max(
        0,
        (CurvePrior.at(low, ph - h) + CurvePrior.at(high, ph + h) - 2 * CurvePrior.at(low, ph + h))
            / (4 * h * h));
  }

  /** The standard deviation of the curve within one slice [eq/kg of product]. */
  double deviationWithin(int slice, double ph) {
    return Math.sqrt(Math.max(0, CurvePrior.at(variances[slice], ph)));
  }

  /** The mean of the curve at a pH [eq/kg of product]. */
  double mean(double ph) {
    return CurvePrior.at(mean, ph);
  }

  /** The standard deviation of the curve at a pH [eq/kg of product]. */
  double deviation(double ph) {
    return Math.sqrt(Math.max(0, CurvePrior.at(variance, ph)));
  }

  /**
   * What is left to take up on the way to a pH lies below this with a given probability.
   *
   * <p>It is a positive amount but for the noise of where the product stands now, so its lower tail
   * is that of a lognormal distribution that begins two standard deviations of that noise below
   * zero. A normal tail would give up long before the target wherever little is known yet.
   *
   * @param dosed the charge of the doses over the grid [eq/kg of product]
   * @param ph the pH to reach
   * @param now the estimate of the present pH
   * @param side 1 on the way down, -1 on the way up
   * @param probability above 0, below 1
   * @return the amount [eq/kg of product]
   */
  double need(double[] dosed, double ph, double now, int side, double probability) {
    double charge = CurvePrior.at(dosed, ph);
    double normal = NORMAL.inverseCumulativeProbability(probability);
    List<Tail> tails = new ArrayList<>();
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int c = 0; c < weights.length; c++) {
      if (weights[c] > NEGLIGIBLE) {
        Tail tail =
            Tail.of(
                weights[c],
                side * (CurvePrior.at(means[c], ph) + charge),
                Math.max(TRACE, deviationWithin(c, ph)),
                NOISE * Math.max(TRACE, deviationWithin(c, now)));
        tails.add(tail);
        low = Math.min(low, tail.quantile(normal));
        high = Math.max(high, tail.quantile(normal));
      }
    }
    while (high - low > RESOLVED) {
      double x = (low + high) / 2;
      double below = 0;
      for (Tail tail : tails) {
        below += tail.weight() * NORMAL.cumulativeProbability(tail.normalAt(x));
      }
      if (below < probability) {
        low = x;
      } else {
        high = x;
      }
    }
    return (low + high) / 2;
  }

  /**
   * A lognormal distribution that begins at {@code -shift}; a normal one where its mean lies below.
   */
  private record Tail(double weight, double middle, double deviation, double shift, boolean skew) {
    static Tail of(double weight, double mean, double deviation, double shift) {
      double from = mean + shift;
      if (from <= 0) {
        return new Tail(weight, mean, deviation, 0, false);
      }
      double variance = StrictMath.log1p(deviation * deviation / (from * from));
      return new Tail(
          weight, StrictMath.log(from) - variance / 2, Math.sqrt(variance), shift, true);
    }

    double quantile(double normal) {
      double x = middle + normal * deviation;
      return skew ? StrictMath.exp(x) - shift : x;
    }

    double normalAt(double x) {
      if (!skew) {
        return (x - middle) / deviation;
      }
      return x + shift <= 0
          ? Double.NEGATIVE_INFINITY
          : (StrictMath.log(x + shift) - middle) / deviation;
    }
  }

  /** The slope of the mean curve with what was dosed, positive, at least that of water alone. */
  double slopeWith(double[] dosed, double ph) {
    double own = -CurvePrior.slope(mean, ph) - CurvePrior.slope(dosed, ph);
    return Math.max(own, prior.waterSlope(ph));
  }

  /**
   * The pH at which the curve with what was dosed crosses zero, or lies so many standard deviations
   * beside it.
   *
   * @param dosed the charge of the doses over the grid
   * @param deviations 0 for the middle; above zero for a lower pH
   * @param meter the standard deviation of a reading to be included [pH], 0 for the true pH
   * @return the pH
   */
  double ph(double[] dosed, double deviations, double meter) {
    int last = CurvePrior.POINTS - 1;
    // From the low end to the first crossing and from the high end to the last: where the learned
    // curve is not monotone the two differ, and the outer one is the honest end of an interval.
    int from = 0;
    while (from < last && excessAt(dosed, deviations, meter, from + 1) > 0) {
      from++;
    }
    if (from == last) {
      return grid(last);
    }
    int to = last;
    while (to > from + 1 && excessAt(dosed, deviations, meter, to - 1) <= 0) {
      to--;
    }
    double first = cross(dosed, deviations, meter, from);
    if (to == from + 1 || deviations > 0) {
      return first;
    }
    double second = cross(dosed, deviations, meter, to - 1);
    return deviations < 0 ? second : (first + second) / 2;
  }

  private double cross(double[] dosed, double deviations, double meter, int point) {
    return PhRoot.ofFalling(p -> excess(dosed, deviations, meter, p), grid(point), grid(point + 1));
  }

  private static double grid(int k) {
    return CurvePrior.LOW + k * CurvePrior.STEP;
  }

  /** The same at a point of the grid, read off where nothing has to be interpolated. */
  private double excessAt(double[] dosed, double deviations, double meter, int k) {
    return meter > 0
        ? excess(dosed, deviations, meter, grid(k))
        : mean[k] + dosed[k] - deviations * Math.sqrt(Math.max(0, variance[k]));
  }

  private double excess(double[] dosed, double deviations, double meter, double ph) {
    double value = mean(ph) + CurvePrior.at(dosed, ph);
    if (deviations == 0) {
      return value;
    }
    double own = Math.max(0, CurvePrior.at(variance, ph));
    if (meter > 0) {
      double slope = slopeWith(dosed, ph) * meter;
      own += slope * slope;
    }
    return value - deviations * Math.sqrt(own);
  }
}
