package org.surfactantblend.acidity;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Text;

/**
 * What brings a batch back that went past its target: the opposite titrant, or product held back
 * before the titration.
 *
 * <p>The surplus at the target is what was dosed less what was needed, again a plain division. A
 * correction can overshoot too: add half, read, add the rest.
 *
 * <p>Immutable and thread-safe.
 */
public final class OvershootRepair {
  private static final double NINETY = 1.6448536269514722;

  private final Blend blend;
  private final Mass batch;
  private final double target;
  private final double phNow;
  private final Conditions conditions;
  private final double ionicStrength;
  private final double curve;
  private final double doses;
  private final double deviation;
  private final double dosedKgPerKg;

  /**
   * One way back.
   *
   * @param what what is added
   * @param mass how much in all
   * @param likelyGrams the central 90 % of it [g]; without width when no reading was learned from
   * @param adds what it brings, by INCI name [% m/m of the mended product]; empty for product held
   *     back
   * @param activePercentAfter the total active matter of the mended product [% m/m]
   * @param cautions for whoever weighs it, and what it does to the product
   */
  public record Correction(
      String what,
      Mass mass,
      Range likelyGrams,
      Map<String, Double> adds,
      double activePercentAfter,
      List<String> cautions) {
    /**
     * Copies the collections.
     *
     * @param what what is added
     * @param mass how much in all
     * @param likelyGrams the central 90 % of it [g]; without width when no reading was learned from
     * @param adds what it brings, by INCI name [% m/m of the mended product]; empty for product
     *     held back
     * @param activePercentAfter the total active matter of the mended product [% m/m]
     * @param cautions for whoever weighs it, and what it does to the product
     */
    public Correction {
      adds = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(adds));
      cautions = List.copyOf(cautions);
    }

    @Override
    public String toString() {
      StringBuilder s = new StringBuilder(what);
      s.append(": ").append(Text.fixed(mass.inGrams(), 3)).append(" g");
      if (!likelyGrams.isExact()) {
        s.append(" (likely ")
            .append(Text.fixed(likelyGrams.low(), 3))
            .append(" to ")
            .append(Text.fixed(likelyGrams.high(), 3))
            .append(" g)");
      }
      adds.forEach(
          (inci, p) ->
              s.append("; ").append(inci).append(" +").append(Text.fixed(p, 3)).append(" %"));
      s.append("; total active then ").append(Text.fixed(activePercentAfter, 3)).append(" %\n");
      cautions.forEach(c -> s.append("  Caution: ").append(c).append(".\n"));
      return s.toString();
    }
  }

  OvershootRepair(
      Blend blend,
      Mass batch,
      double target,
      double phNow,
      Conditions conditions,
      double ionicStrength,
      double curve,
      double doses,
      double deviation,
      double dosedKgPerKg) {
    this.blend = blend;
    this.batch = batch;
    this.target = target;
    this.phNow = phNow;
    this.conditions = conditions;
    this.ionicStrength = ionicStrength;
    this.curve = curve;
    this.doses = doses;
    this.deviation = deviation;
    this.dosedKgPerKg = dosedKgPerKg;
  }

  static OvershootRepair typical(AcidDose dose, Mass given) {
    double target = dose.plan().target();
    double perKg = given.inGrams() / dose.batch().inGrams();
    Conditions conditions = dose.plan().conditions();
    double ionicStrength = dose.ionicStrength();
    return new OvershootRepair(
        dose.plan().blend(),
        dose.batch(),
        target,
        dose.phAfter(given),
        conditions,
        ionicStrength,
        dose.charge().chargeEqPerKg(target, ionicStrength) + dose.level(),
        perKg * dose.plan().titrant().chargeEqPerKg(conditions, target, ionicStrength),
        0,
        perKg);
  }

  /**
   * Where the batch stands.
   *
   * @return the pH, predicted or learned
   */
  public double phNow() {
    return phNow;
  }

  /**
   * How much too much went in at the target.
   *
   * @return the surplus [meq/kg of product]; above zero for acid, below zero for base
   */
  public double surplusMeqPerKg() {
    return -(curve + doses) * 1000;
  }

  /**
   * The way back with a titrant of the opposite kind.
   *
   * @param titrant such as sodium hydroxide 10 %
   * @return the correction, or empty when this titrant pushes the wrong way
   */
  public Optional<Correction> with(Titrant titrant) {
    double push = titrant.chargeEqPerKg(conditions, target, ionicStrength);
    double perKg = -(curve + doses) / push;
    if (!(perKg > 0) || perKg > 1) {
      return Optional.empty();
    }
    double spread = NINETY * deviation / Math.abs(push);
    List<String> cautions = new ArrayList<>(titrant.cautions());
    cautions.add("add half, stir, read, then the rest: a correction overshoots too");
    cautions.add("it leaves more salt in the product, which moves the viscosity");
    return Optional.of(
        new Correction(
            titrant.name(),
            grams(perKg),
            range(perKg, spread),
            AcidDose.adds(titrant, perKg / (1 + dosedKgPerKg)),
            blend.totalActive().value() / (1 + dosedKgPerKg + perKg),
            cautions));
  }

  /**
   * The way back with product held back before the titration.
   *
   * @return the correction, or empty when no amount of it reaches the target
   */
  public Optional<Correction> withUnacidified() {
    double perKg = -(curve + doses) / curve;
    if (!(perKg > 0) || perKg > 20) {
      return Optional.empty();
    }
    // Half of the spread's effect is in the curve itself: the ratio doses/curve.
    double spread = NINETY * deviation * Math.abs(doses) / (curve * curve);
    return Optional.of(
        new Correction(
            "product held back before the titration",
            grams(perKg),
            range(perKg, spread),
            Map.of(),
            blend.totalActive().value() * (1 + perKg) / (1 + perKg + dosedKgPerKg),
            List.of("add half, stir, read, then the rest")));
  }

  private Mass grams(double perKg) {
    return Mass.grams(perKg * batch.inGrams());
  }

  private Range range(double perKg, double spread) {
    return Range.of(Math.max(0, perKg - spread), perKg, perKg + spread).times(batch.inGrams());
  }

  @Override
  public String toString() {
    return "pH "
        + Text.fixed(phNow, 2)
        + ", target "
        + Text.fixed(target, 2)
        + ": "
        + Text.fixed(Math.abs(surplusMeqPerKg()), 2)
        + " meq/kg of "
        + (surplusMeqPerKg() >= 0 ? "acid" : "base")
        + " too much";
  }
}
