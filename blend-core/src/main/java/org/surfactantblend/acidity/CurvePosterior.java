package org.surfactantblend.acidity;

import java.util.List;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealMatrix;

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

  private final double[] mean;
  private final double[] variance;
  private final CurvePrior prior;

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

  private CurvePosterior(CurvePrior prior, double[] mean, double[] variance) {
    this.prior = prior;
    this.mean = mean;
    this.variance = variance;
  }

  static CurvePosterior of(CurvePrior prior, List<Equation> equations) {
    int n = equations.size();
    int points = CurvePrior.POINTS;
    double[] mean = prior.mean().clone();
    double[] variance = new double[points];
    for (int k = 0; k < points; k++) {
      variance[k] = prior.covariance()[k][k];
    }
    if (n == 0) {
      return new CurvePosterior(prior, mean, variance);
    }
    double[][] rows = new double[n][];
    double[][] among = new double[n][n];
    double[] innovation = new double[n];
    for (int i = 0; i < n; i++) {
      rows[i] = prior.row(equations.get(i).ph());
    }
    for (int i = 0; i < n; i++) {
      Equation e = equations.get(i);
      for (int j = 0; j < n; j++) {
        among[i][j] = CurvePrior.at(rows[i], equations.get(j).ph());
      }
      double slope = slope(prior, prior.mean(), e);
      among[i][i] += slope * slope * e.deviation() * e.deviation() + e.weighing() + TRACE * TRACE;
      innovation[i] = -CurvePrior.at(prior.mean(), e.ph()) - CurvePrior.at(e.dosed(), e.ph());
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < i; j++) {
        double both = (among[i][j] + among[j][i]) / 2;
        among[i][j] = both;
        among[j][i] = both;
      }
    }
    RealMatrix known = new Array2DRowRealMatrix(rows, false);
    RealMatrix gain =
        new CholeskyDecomposition(new Array2DRowRealMatrix(among, false), 1e-6, 1e-30)
            .getSolver()
            .solve(known);
    for (int i = 0; i < n; i++) {
      double[] g = gain.getRow(i);
      for (int k = 0; k < points; k++) {
        mean[k] += g[k] * innovation[i];
        variance[k] -= g[k] * rows[i][k];
      }
    }
    return new CurvePosterior(prior, mean, variance);
  }

  /** The slope of blend and doses at a reading, at least that of water alone. */
  private static double slope(CurvePrior prior, double[] mean, Equation e) {
    double own = -CurvePrior.slope(mean, e.ph()) - CurvePrior.slope(e.dosed(), e.ph());
    return Math.max(own, prior.waterSlope(e.ph()));
  }

  CurvePrior prior() {
    return prior;
  }

  /** The mean of the curve at a pH [eq/kg of product]. */
  double mean(double ph) {
    return CurvePrior.at(mean, ph);
  }

  /** The standard deviation of the curve at a pH [eq/kg of product]. */
  double deviation(double ph) {
    return Math.sqrt(Math.max(0, CurvePrior.at(variance, ph)));
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
    while (from < last && excess(dosed, deviations, meter, grid(from + 1)) > 0) {
      from++;
    }
    if (from == last) {
      return grid(last);
    }
    int to = last;
    while (to > from + 1 && excess(dosed, deviations, meter, grid(to - 1)) <= 0) {
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
    return org.surfactantblend.aqueous.PhRoot.ofFalling(
        p -> excess(dosed, deviations, meter, p), grid(point), grid(point + 1));
  }

  private static double grid(int k) {
    return CurvePrior.LOW + k * CurvePrior.STEP;
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
