package org.surfactantblend.mildness;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Require;

/**
 * What mixing takes off the weighted mean of the irritation scores, for a {@link BlendedIndex}: by
 * the spread of charge in the blend, or by pairs that a shop has measured.
 *
 * <p>There is no default. That mixtures fall below the weighted mean is published, how far is not;
 * whoever uses a credit owns its size.
 *
 * <p>Immutable and thread-safe.
 */
public final class MixingCredit {
  private final double perChargeVariance;
  private final double atPh;
  private final Map<Interaction.Pair, Double> pairs;

  private MixingCredit(double perChargeVariance, double atPh, Map<Interaction.Pair, Double> pairs) {
    this.perChargeVariance = perChargeVariance;
    this.atPh = atPh;
    this.pairs = pairs;
  }

  /**
   * A credit of k times the variance of charge over the active matter. It is convex for every
   * blend. A surfactant without a molar mass counts with the charge of its class, -1 or 0.
   *
   * @param k the credit for a variance of one [sodium lauryl sulfate = 100], 0 to 1000; half of one
   *     surfactant with charge -1 and half with charge 0 have the variance 0.25
   * @param atPh the pH at which the charges are counted, 0 to 14
   * @return the credit
   * @throws IllegalArgumentException if a figure is out of range
   */
  public static MixingCredit ofChargeVariance(double k, double atPh) {
    Require.inRange("credit for charge variance", k, 0, 1000, "(sodium lauryl sulfate = 100)");
    return new MixingCredit(k, Require.inRange("pH", atPh, 0, 14, ""), Map.of());
  }

  /**
   * A credit for one pair; {@link #andPair} adds more. A pair of material ids goes before a pair of
   * charge classes, and a pair that is not named has no credit. Not every set of credits is convex:
   * roughly, none may exceed what two others suggest, as with squared distances.
   *
   * @param first a material id, or the name of a charge class
   * @param second another
   * @param credit what mixing takes off, times the product of the two shares [sodium lauryl sulfate
   *     = 100], -100000 to 0; -80 takes 20 off a blend of equal halves
   * @return the credit
   * @throws IllegalArgumentException if a name is blank or the credit is out of range
   */
  public static MixingCredit ofPair(String first, String second, double credit) {
    return new MixingCredit(0, 7, Map.of()).andPair(first, second, credit);
  }

  /**
   * This credit with one for a pair, in place of an earlier one of that pair.
   *
   * @param first a material id, or the name of a charge class
   * @param second another
   * @param credit what mixing takes off, as in {@link #ofPair}
   * @return the new credit
   * @throws IllegalArgumentException if a name is blank or the credit is out of range
   */
  public MixingCredit andPair(String first, String second, double credit) {
    Map<Interaction.Pair, Double> all = new LinkedHashMap<>(pairs);
    all.put(
        Interaction.Pair.of(
            Require.text("first of the pair", first), Require.text("second of the pair", second)),
        Require.inRange(
            "credit of " + first + " and " + second,
            credit,
            -100_000,
            0,
            "(sodium lauryl sulfate = 100)"));
    return new MixingCredit(perChargeVariance, atPh, Map.copyOf(all));
  }

  /**
   * The credits of all pairs of some materials.
   *
   * @param materials surfactants
   * @param conditions temperature and activity model of their charges
   * @return a symmetric matrix with zero diagonal, nowhere above 0
   */
  public double[][] credits(List<Material> materials, Conditions conditions) {
    int n = materials.size();
    double[] charges = charges(materials, conditions);
    double[][] credits = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < i; j++) {
        double difference = charges[i] - charges[j];
        double credit =
            0.0
                - perChargeVariance * difference * difference
                + pair(materials.get(i), materials.get(j));
        credits[i][j] = credit;
        credits[j][i] = credit;
      }
    }
    return credits;
  }

  private double[] charges(List<Material> materials, Conditions conditions) {
    double[] charges = new double[materials.size()];
    for (int i = 0; i < charges.length && perChargeVariance > 0; i++) {
      OptionalDouble charge = ChargeShare.chargePerMole(materials.get(i), atPh, conditions);
      charges[i] =
          charge.orElse(
              materials.get(i).chargeClass().filter(c -> c == ChargeClass.ANIONIC).isPresent()
                  ? -1
                  : 0);
    }
    return charges;
  }

  /**
   * The blended index of some materials.
   *
   * @param scores the high score of each [sodium lauryl sulfate = 100], 0 to 200
   * @param materials surfactants, as many
   * @param conditions temperature and activity model of their charges
   * @return the index
   * @throws IllegalArgumentException if the index would not be convex; ask {@link #refusal} first
   */
  public BlendedIndex index(double[] scores, List<Material> materials, Conditions conditions) {
    return pairs.isEmpty()
        ? BlendedIndex.ofChargeVariance(scores, charges(materials, conditions), perChargeVariance)
        : BlendedIndex.ofPairs(scores, credits(materials, conditions));
  }

  private double pair(Material a, Material b) {
    Double own = pairs.get(Interaction.Pair.of(a.id(), b.id()));
    if (own == null && a.chargeClass().isPresent() && b.chargeClass().isPresent()) {
      own =
          pairs.get(
              Interaction.Pair.of(a.chargeClass().get().label(), b.chargeClass().get().label()));
    }
    return own == null ? 0 : own;
  }

  /**
   * Why the credits cannot be used for some materials because the index would not be convex.
   *
   * @param materials surfactants
   * @param conditions temperature and activity model of their charges
   * @return the reason with the names of the materials, or empty when the index is convex
   */
  public Optional<String> refusal(List<Material> materials, Conditions conditions) {
    return pairs.isEmpty()
        ? Optional.empty()
        : BlendedIndex.refusal(
            credits(materials, conditions), materials.stream().map(Material::id).toList());
  }

  @Override
  public String toString() {
    List<String> parts = new ArrayList<>();
    if (perChargeVariance > 0) {
      parts.add(
          String.format(
              Locale.ROOT, "%.4g for a charge variance of 1 at pH %.4g", perChargeVariance, atPh));
    }
    pairs.entrySet().stream()
        .map(
            e ->
                String.format(
                    Locale.ROOT,
                    "%.4g for %s with %s",
                    e.getValue(),
                    e.getKey().first(),
                    e.getKey().second()))
        .sorted()
        .forEach(parts::add);
    return "mixing credit: " + (parts.isEmpty() ? "none" : String.join(", ", parts));
  }
}
