package org.surfactantblend.optimise;

import java.util.Arrays;

/**
 * What a linear programme came to: an optimum with its duals, or a proof that no point meets all
 * rows. Immutable.
 */
public final class LpSolution {

  /** The two answers. */
  public enum Status {
    /** A point of least cost. */
    OPTIMAL,
    /** No point meets all rows and bounds. */
    INFEASIBLE
  }

  private final LinearProgram lp;
  private final Status status;
  private final double[] x;
  private final double objective;
  private final double[] rowDuals;
  private final double[] certificate;
  private final int pivots;
  private final Basis basis;

  LpSolution(
      LinearProgram lp,
      Status status,
      double[] x,
      double objective,
      double[] rowDuals,
      double[] certificate,
      int pivots,
      Basis basis) {
    this.lp = lp;
    this.status = status;
    this.x = x;
    this.objective = objective;
    this.rowDuals = rowDuals;
    this.certificate = certificate;
    this.pivots = pivots;
    this.basis = basis;
  }

  /** Optimal or infeasible. */
  public Status status() {
    return status;
  }

  /** Whether there is an optimum. */
  public boolean isOptimal() {
    return status == Status.OPTIMAL;
  }

  /** The optimum, one value per variable, each within its bounds. */
  public double[] x() {
    return optimal(x).clone();
  }

  /** The optimal value of one variable. */
  public double x(int variable) {
    return optimal(x)[variable];
  }

  /** The least cost, computed from {@link #x()}. */
  public double objective() {
    optimal(x);
    return objective;
  }

  /** A x, one value per row. */
  public double[] rowActivity() {
    double[] point = optimal(x);
    double[] activity = new double[lp.m];
    for (int i = 0; i < activity.length; i++) {
      double[] row = lp.a[i];
      double sum = 0;
      for (int j = 0; j < point.length; j++) {
        if (point[j] != 0) {
          sum += row[j] * point[j];
        }
      }
      activity[i] = sum;
    }
    return activity;
  }

  /**
   * For each row the change of the least cost per unit by which its binding bound is raised: not
   * negative where the lower bound binds, not positive where the upper bound binds, 0 where the row
   * has room.
   */
  public double[] rowDuals() {
    return optimal(rowDuals).clone();
  }

  /**
   * For each variable the change of the least cost per unit by which it is forced off its bound:
   * not negative at a lower bound, not positive at an upper bound, 0 in between. A variable at 0
   * enters once its cost falls by more than this.
   */
  public double[] reducedCosts() {
    double[] y = optimal(rowDuals);
    double[] reduced = lp.cost.clone();
    for (int i = 0; i < y.length; i++) {
      if (y[i] != 0) {
        double[] row = lp.a[i];
        for (int j = 0; j < reduced.length; j++) {
          reduced[j] -= y[i] * row[j];
        }
      }
    }
    for (int k : basis.basic) {
      if (k < reduced.length) {
        reduced[k] = 0;
      }
    }
    return reduced;
  }

  /**
   * Proof that no point exists: multipliers y of the rows such that, for every x within its bounds,
   * y . A x is larger than y . r for every r within the row bounds. A positive multiplier uses the
   * row's upper bound, a negative one its lower.
   */
  public double[] certificate() {
    return infeasible(certificate).clone();
  }

  /** The rows that take part in the {@linkplain #certificate() proof}, ascending. */
  public int[] conflictRows() {
    double[] y = infeasible(certificate);
    int[] rows = new int[y.length];
    int count = 0;
    for (int i = 0; i < y.length; i++) {
      if (y[i] != 0) {
        rows[count++] = i;
      }
    }
    return Arrays.copyOf(rows, count);
  }

  /** Exchanges of a basic variable that it took. */
  public int pivots() {
    return pivots;
  }

  /** Where the solve ended, as a start for the next one. */
  public Basis basis() {
    return basis;
  }

  private double[] optimal(double[] values) {
    if (status != Status.OPTIMAL) {
      throw new IllegalStateException("no optimum: status is " + status);
    }
    return values;
  }

  private double[] infeasible(double[] values) {
    if (status != Status.INFEASIBLE) {
      throw new IllegalStateException("no proof of infeasibility: status is " + status);
    }
    return values;
  }
}
