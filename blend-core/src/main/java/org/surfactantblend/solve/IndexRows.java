package org.surfactantblend.solve;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.IrritationScore;
import org.surfactantblend.material.IrritationScores;
import org.surfactantblend.material.Material;
import org.surfactantblend.mildness.BlendedIndex;
import org.surfactantblend.mildness.MixingCredit;
import org.surfactantblend.quantity.Range;

/**
 * The irritation indexes of the columns of a programme: what a material adds to an index by the
 * high figures of its scores, and the tangents of the blended index.
 */
final class IndexRows {
  /** A high score with the content it belongs to [% active as supplied]. */
  private record Part(double high, Range percent) {}

  private final List<List<Part>> parts = new ArrayList<>();

  /** High score times typical content, and typical content [% active as supplied]. */
  final double[] load;

  final double[] active;

  /** Whether a column brings active matter of which some has no score. */
  final boolean[] unscored;

  private final @Nullable BlendedIndex blended;
  private final int[] blendedColumns;

  IndexRows(
      List<Material> columns,
      IrritationScores scores,
      @Nullable MixingCredit credit,
      Conditions conditions) {
    int n = columns.size();
    load = new double[n];
    active = new double[n];
    unscored = new boolean[n];
    List<Material> surfactants = new ArrayList<>();
    List<Integer> at = new ArrayList<>();
    for (int j = 0; j < n; j++) {
      Material m = columns.get(j);
      List<Part> own = new ArrayList<>();
      for (Constituent c : m.constituents()) {
        if (c.isActive()) {
          Optional<IrritationScore> score = scores.find(m, c);
          unscored[j] |= score.isEmpty();
          double high = score.map(s -> s.score().high()).orElse(0.0);
          own.add(new Part(high, c.percent()));
          load[j] += high * c.percent().typical();
          active[j] += c.percent().typical();
        }
      }
      parts.add(own);
      if (active[j] > 0 && !unscored[j]) {
        surfactants.add(m);
        at.add(j);
      }
    }
    blendedColumns = at.stream().mapToInt(Integer::intValue).toArray();
    if (credit == null || surfactants.isEmpty()) {
      blended = null;
    } else {
      double[] high = new double[surfactants.size()];
      for (int i = 0; i < high.length; i++) {
        high[i] = load[blendedColumns[i]] / active[blendedColumns[i]];
      }
      blended = credit.index(high, surfactants, conditions);
    }
  }

  /**
   * What a column adds to the index less a limit, times the active matter. For every lot, each
   * content stands at the end that is worst for the limit.
   *
   * @param upper whether the limit is an upper one
   */
  double coefficient(int j, double limit, boolean upper, boolean everyLot) {
    if (!everyLot) {
      return load[j] - limit * active[j];
    }
    double sum = 0;
    for (Part p : parts.get(j)) {
      double above = p.high() - limit;
      sum += above * (above > 0 == upper ? p.percent().high() : p.percent().low());
    }
    return sum;
  }

  /** The blended index of a blend; 0 without active matter. */
  double blendedAt(double[] w) {
    double[] actives = actives(w);
    return blended == null || sum(actives) <= 0 ? 0 : blended.at(blended.shares(actives));
  }

  /**
   * The tangent of the blended index at a blend, in the columns: times the mass fractions it is at
   * most the index times the active matter, and equal to it at this blend; null without active
   * matter.
   */
  double @Nullable [] tangent(double[] w) {
    double[] actives = actives(w);
    if (blended == null || sum(actives) <= 0) {
      return null;
    }
    double[] g = blended.tangent(blended.shares(actives));
    double[] row = new double[w.length];
    for (int i = 0; i < g.length; i++) {
      row[blendedColumns[i]] = g[i] * active[blendedColumns[i]];
    }
    return row;
  }

  private double[] actives(double[] w) {
    double[] actives = new double[blendedColumns.length];
    for (int i = 0; i < actives.length; i++) {
      actives[i] = w[blendedColumns[i]] * active[blendedColumns[i]];
    }
    return actives;
  }

  private static double sum(double[] values) {
    double sum = 0;
    for (double v : values) {
      sum += v;
    }
    return sum;
  }
}
