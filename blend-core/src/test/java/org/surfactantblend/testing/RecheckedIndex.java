package org.surfactantblend.testing;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.IrritationScore;
import org.surfactantblend.material.IrritationScores;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.testing.RecheckedPh.Lot;
import org.surfactantblend.testing.RecheckedPh.Water;

/** Indexes and charge shares of a blend from its weights and the figures of its materials alone. */
final class RecheckedIndex {
  private RecheckedIndex() {}

  /** A figure and how much of it there is. */
  private record Part(double figure, Range amount) {}

  /** The index by the high figures; over all lots when asked. A missing score fails. */
  static Range high(Blend blend, IrritationScores scores, boolean everyLot) {
    List<Part> parts = new ArrayList<>();
    for (BlendLine l : blend.lines()) {
      for (Constituent c : l.material().constituents()) {
        if (c.isActive()) {
          parts.add(
              new Part(
                  score(l.material(), c, scores).score().high(),
                  c.percent().times(l.massFraction())));
        }
      }
    }
    return mean(parts, everyLot);
  }

  private static IrritationScore score(Material m, Constituent c, IrritationScores scores) {
    return scores
        .find(m, c)
        .orElseThrow(() -> new AssertionError(m.id() + " was used and has no score"));
  }

  /** Negative charge per 100 mol of surfactant; over all lots' contents when asked. */
  static Range chargeShare(Blend blend, Water water, double ph, boolean everyLot) {
    List<Part> parts = new ArrayList<>();
    for (BlendLine l : blend.lines()) {
      Material m = l.material();
      if (m.isSurfactant()) {
        assertTrue(
            m.constituents().stream().noneMatch(c -> c.isActive() && c.molarMass().isEmpty()),
            () -> m.id() + " was used and has no molar mass");
        double charge =
            Lot.typical(m, water).chargeOnActive(water, ph, 0.1) / m.activeMolPerKg().typical();
        parts.add(new Part(100 * Math.max(0, -charge), m.activeMolPerKg().times(l.massFraction())));
      }
    }
    return mean(parts, everyLot);
  }

  /** The index less the credit of the brief, at typical contents. */
  static double blended(Blend blend, Brief brief, IrritationScores scores) {
    List<Material> surfactants =
        blend.lines().stream().map(BlendLine::material).filter(Material::isSurfactant).toList();
    double[][] credits =
        brief.mixingCredit().orElseThrow().credits(surfactants, brief.conditions());
    double total = 0;
    double[] active = new double[surfactants.size()];
    for (int i = 0; i < active.length; i++) {
      Material m = surfactants.get(i);
      for (BlendLine l : blend.lines()) {
        active[i] += l.material() == m ? l.massFraction() * m.activePercent().typical() : 0;
      }
      total += active[i];
    }
    double credit = 0;
    for (int i = 0; i < active.length; i++) {
      for (int j = 0; j < i; j++) {
        credit += credits[i][j] * active[i] / total * active[j] / total;
      }
    }
    return high(blend, scores, false).typical() + credit;
  }

  /**
   * A weighted mean and its extremes over the ranges of the weights. At an extreme all figures
   * above some threshold stand at one end of their weights and all others at the other end, so
   * trying every figure as the threshold finds it.
   */
  private static Range mean(List<Part> parts, boolean everyLot) {
    double typical = mean(parts, Double.NaN, false);
    double low = typical;
    double high = typical;
    for (Part p : everyLot ? parts : List.<Part>of()) {
      low = Math.min(low, mean(parts, p.figure, false));
      high = Math.max(high, mean(parts, p.figure, true));
    }
    return Range.of(low, typical, high);
  }

  private static double mean(List<Part> parts, double threshold, boolean highest) {
    double sum = 0;
    double all = 0;
    for (Part p : parts) {
      double amount =
          Double.isNaN(threshold)
              ? p.amount.typical()
              : (p.figure >= threshold) == highest ? p.amount.high() : p.amount.low();
      sum += p.figure * amount;
      all += amount;
    }
    return all == 0 ? 0 : sum / all;
  }
}
