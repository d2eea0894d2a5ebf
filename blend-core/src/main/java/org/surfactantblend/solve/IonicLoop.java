package org.surfactantblend.solve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.AqueousState;
import org.surfactantblend.optimise.NumericBreakdownException;
import org.surfactantblend.solve.PhEnd.IonicRange;
import org.surfactantblend.solve.Programme.Objective;
import org.surfactantblend.solve.Programme.Row;

/**
 * Solves again and again until the answer meets its pH bounds at its own ionic strength.
 *
 * @param linear the rows that hold at any ionic strength
 * @param ph the ends of pH, each an exact row at a known ionic strength only
 * @param low the least mass fractions
 * @param high the greatest mass fractions
 */
@SuppressWarnings("ArrayRecordComponent")
record IonicLoop(
    Programme programme, List<Row> linear, List<PhEnd> ph, double[] low, double[] high) {

  /** How exactly an answer has to meet a pH bound [pH units]. */
  static final double PH_TOLERANCE = 2e-7;

  /** Within this much of each other two mass fractions are the same [kg/kg]. */
  private static final double SAME = 1e-8;

  /** Where to begin [mol/kg of water]. */
  private static final double USUAL_IONIC_STRENGTH = 0.1;

  /** That of a blend with hardly any salt [mol/kg of water]. */
  private static final double LOW_IONIC_STRENGTH = 0.003;

  private static final int PASSES = 12;
  private static final int MOST_PASSES = 48;

  /** Finds the best mass fractions for an objective under some rows; null when there are none. */
  interface Solver {
    double @Nullable [] solve(List<Row> rows, Objective objective);
  }

  /**
   * Where a loop ended.
   *
   * @param w mass fractions that meet the bounds, null when none were found
   * @param isBest whether nothing better is left to look for
   * @param restsOnPh whether a pH bound holds a settled answer where it is
   */
  record Closed(double @Nullable [] w, boolean isBest, boolean restsOnPh) {
    Closed(double @Nullable [] w, boolean isBest) {
      this(w, isBest, false);
    }
  }

  /** The usual ionic strength for each pH bound [mol/kg of water]. */
  double[] usual() {
    double[] ionicStrength = new double[ph.size()];
    Arrays.fill(ionicStrength, USUAL_IONIC_STRENGTH);
    return ionicStrength;
  }

  /** The ionic strength of mass fractions at each pH bound [mol/kg of water]. */
  double[] own(double[] w) {
    return ph.stream().mapToDouble(end -> end.state(w).ionicStrength()).toArray();
  }

  /**
   * Solves with the pH rows that touch their limits at the answer before, until the answer stays
   * where it is: only then is it the best one at its own ionic strength. Rows that touched where a
   * bound was missed are kept, so that answers do not flip between two vertices; what rests on such
   * a row may not be the best. Where that fails, rows at a damped ionic strength find an answer
   * that meets the bounds.
   *
   * @param start the answer to begin with, null to begin at the ionic strengths
   * @param from the ionic strength at each pH bound to begin with [mol/kg of water]
   */
  Closed close(Objective objective, double @Nullable [] start, double[] from, Solver solver) {
    if (ph.isEmpty()) {
      return new Closed(solver.solve(linear, objective), true);
    }
    double[] ionicStrength = from.clone();
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
        rows = tangents(before);
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
        rows = rowsAt(ionicStrength);
        w = settled(solver, rows, objective);
      }
      if (w == null) {
        return new Closed(bestMet, false);
      }
      boolean met = true;
      double steepest = 0;
      for (int k = 0; k < ph.size(); k++) {
        PhEnd end = ph.get(k);
        AqueousState state = end.state(w);
        double slope = end.slope(w, state);
        steepest = Math.max(steepest, slope);
        missed[k] = end.miss(w, state, slope) > PH_TOLERANCE;
        met &= !missed[k];
        // An answer that flips between two vertices would chase its own ionic strength for ever.
        double own = state.ionicStrength();
        ionicStrength[k] = pass < PASSES / 2 ? own : (own + ionicStrength[k]) / 2;
      }
      boolean rests = false;
      for (Row row : rows.subList(firstKept, rows.size())) {
        rests |= touches(row, w, steepest);
      }
      boolean binds = false;
      for (Row row : rows.subList(linear.size(), firstKept)) {
        binds |= touches(row, w, steepest);
      }
      boolean stays = before != null && isNear(w, before);
      if (met && (anyWill || (!rests && (!binds || stays)))) {
        return new Closed(w, true, binds);
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

  /** Whether mass fractions meet all pH bounds at their own ionic strength. */
  boolean meets(double[] w) {
    return ph.stream().allMatch(end -> end.miss(w) <= PH_TOLERANCE);
  }

  /**
   * Whether another ionic strength may hold a better answer than the one where the loop settled:
   * looks from far away, where the rows of that ionic strength would let it be better.
   *
   * @param w a settled answer that rests on a pH bound
   * @return a better one, null when none was found
   */
  double @Nullable [] fromFar(Objective objective, double[] w, Solver solver) {
    double[] far = own(w);
    for (int k = 0; k < far.length; k++) {
      far[k] = far[k] < USUAL_IONIC_STRENGTH / 3 ? 3 * USUAL_IONIC_STRENGTH : LOW_IONIC_STRENGTH;
    }
    double[] there = settled(solver, rowsAt(far), objective);
    if (there == null || !programme.isBetter(objective, there, w)) {
      return null;
    }
    double[] closed = close(objective, there, far, solver).w();
    return closed != null && programme.isBetter(objective, closed, w) ? closed : null;
  }

  private List<Row> rowsAt(double[] ionicStrength) {
    List<Row> rows = new ArrayList<>(linear);
    for (int k = 0; k < ph.size(); k++) {
      rows.add(ph.get(k).row(IonicRange.exactly(ionicStrength[k]), high));
    }
    return rows;
  }

  private List<Row> tangents(double[] w) {
    List<Row> rows = new ArrayList<>(linear);
    ph.forEach(end -> rows.add(end.tangent(w, high)));
    return rows;
  }

  private static boolean touches(Row row, double[] w, double slope) {
    double terms = 0;
    for (int j = 0; j < w.length; j++) {
      terms += Math.abs(row.coefficients()[j]) * w[j];
    }
    return Math.abs(Programme.dot(row.coefficients(), w)) <= PH_TOLERANCE * slope + 1e-9 * terms;
  }

  private static boolean isNear(double[] w, double[] other) {
    for (int j = 0; j < w.length; j++) {
      if (Math.abs(w[j] - other[j]) > SAME) {
        return false;
      }
    }
    return true;
  }

  /** The answer of a solver, or null when rounding hides whether there is one. */
  private static double @Nullable [] settled(Solver solver, List<Row> rows, Objective objective) {
    try {
      return solver.solve(rows, objective);
    } catch (NumericBreakdownException e) {
      return null;
    }
  }
}
