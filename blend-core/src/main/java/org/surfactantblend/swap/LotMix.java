package org.surfactantblend.swap;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/**
 * Lots of one material poured together, or weighed one after the other into the same batch.
 *
 * <p>Immutable and thread-safe.
 *
 * @param lots the lots
 * @param parts how much of each, as parts of the mix by mass; they add up to 1
 */
public record LotMix(List<Material> lots, List<Double> parts) {
  /**
   * Checks the parts and brings their sum to 1.
   *
   * @param lots the lots
   * @param parts how much of each, as parts of the mix by mass; they add up to 1
   * @throws IllegalArgumentException if there are no lots, the counts differ, a part is negative,
   *     or all are zero
   */
  public LotMix {
    lots = List.copyOf(lots);
    if (lots.isEmpty() || lots.size() != parts.size()) {
      throw new IllegalArgumentException(
          "parts were " + parts.size() + ", allowed is one for each of " + lots.size() + " lots");
    }
    double sum = 0;
    for (double part : parts) {
      sum += Require.inRange("part of a lot", part, 0, Double.MAX_VALUE, "");
    }
    Require.positive("sum of the parts", sum, "");
    List<Double> scaled = new ArrayList<>();
    for (double part : parts) {
      scaled.add(part / sum);
    }
    parts = List.copyOf(scaled);
  }

  /**
   * A single lot.
   *
   * @param lot the lot
   * @return the mix of it alone
   */
  public static LotMix of(Material lot) {
    return new LotMix(List.of(Objects.requireNonNull(lot, "lot")), List.of(1.0));
  }

  /**
   * Two lots in given masses.
   *
   * @param first a lot
   * @param ofFirst its mass
   * @param second another lot
   * @param ofSecond its mass
   * @return the mix
   */
  public static LotMix of(Material first, Mass ofFirst, Material second, Mass ofSecond) {
    Objects.requireNonNull(first, "first lot");
    Objects.requireNonNull(second, "second lot");
    return new LotMix(List.of(first, second), List.of(ofFirst.inGrams(), ofSecond.inGrams()));
  }

  /**
   * Two lots in the proportion that gives a wanted active matter: {@code part of the first =
   * (wanted - second) / (first - second)}, the rule of alligation.
   *
   * @param first a lot
   * @param second another lot, weaker or stronger
   * @param activePercent the wanted active matter of the mix [% active], between those of the lots
   * @return the mix
   * @throws IllegalArgumentException if the wanted active matter is not between those of the lots
   */
  public static LotMix toActive(Material first, Material second, double activePercent) {
    double a = first.activePercent().typical();
    double b = second.activePercent().typical();
    Require.inRange(
        "active matter of the mix", activePercent, Math.min(a, b), Math.max(a, b), "% active");
    double part = a == b ? 1 : (activePercent - b) / (a - b);
    return new LotMix(List.of(first, second), List.of(part, 1 - part));
  }

  /**
   * The active matter of the mix.
   *
   * @return the guaranteed range and typical value [% active, by mass as supplied]
   */
  public Range activePercent() {
    Range sum = Range.ZERO;
    for (int i = 0; i < lots.size(); i++) {
      sum = sum.plus(lots.get(i).activePercent().times(parts.get(i)));
    }
    return sum;
  }

  /**
   * How much of a constituent is in the mix.
   *
   * @param inciName its INCI name
   * @return the guaranteed range and typical value [% m/m as supplied]
   */
  public Range percentOf(String inciName) {
    Range sum = Range.ZERO;
    for (int i = 0; i < lots.size(); i++) {
      sum = sum.plus(lots.get(i).percentOf(inciName).times(parts.get(i)));
    }
    return sum;
  }

  @Override
  public String toString() {
    StringBuilder s = new StringBuilder();
    for (int i = 0; i < lots.size(); i++) {
      s.append(i == 0 ? "" : " + ")
          .append(lots.size() == 1 ? "" : Text.fixed(parts.get(i) * 100, 1) + " % ")
          .append(lots.get(i));
    }
    return s.toString();
  }
}
