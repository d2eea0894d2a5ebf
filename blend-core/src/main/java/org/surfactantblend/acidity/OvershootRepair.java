package org.surfactantblend.acidity;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
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

  private final AcidDose dose;
  private final Mass batch;
  private final double phNow;
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
   * @param cationsMmolPerKg the sodium or potassium it brings [mmol/kg of mended product]
   * @param leaves what stays in the product, as salt, of the titrant that was too much, by INCI
   *     name [% m/m of the mended product]; empty for product held back, which needs it
   * @param activePercentAfter the total active matter of the mended product [% m/m]
   * @param activePercentOnTarget the total active matter had the dose stopped at the target [% m/m]
   * @param cautions for whoever weighs it, and what it does to the product
   */
  public record Correction(
      String what,
      Mass mass,
      Range likelyGrams,
      Map<String, Double> adds,
      double cationsMmolPerKg,
      Map<String, Double> leaves,
      double activePercentAfter,
      double activePercentOnTarget,
      List<String> cautions) {
    /**
     * Copies the collections.
     *
     * @param cationsMmolPerKg the sodium or potassium it brings [mmol/kg of mended product]
     * @param leaves what stays in the product, as salt, of the titrant that was too much, by INCI
     *     name [% m/m of the mended product]; empty for product held back, which needs it
     * @param activePercentOnTarget the total active matter had the dose stopped at the target [%
     *     m/m]
     * @param what what is added
     * @param mass how much in all
     * @param likelyGrams the central 90 % of it [g]; without width when no reading was learned from
     * @param adds what it brings, by INCI name [% m/m of the mended product]; empty for product
     *     held back
     * @param activePercentAfter the total active matter of the mended product [% m/m]
     * @param cautions for whoever weighs it, and what it does to the product
     */
    public Correction {
      adds = Collections.unmodifiableMap(new LinkedHashMap<>(adds));
      leaves = Collections.unmodifiableMap(new LinkedHashMap<>(leaves));
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
      if (cationsMmolPerKg != 0) {
        s.append("; sodium or potassium +")
            .append(Text.fixed(cationsMmolPerKg, 2))
            .append(" mmol/kg");
      }
      leaves.forEach(
          (inci, p) ->
              s.append("; ")
                  .append(inci)
                  .append(" too much, stays as its salt: ")
                  .append(Text.fixed(p, 3))
                  .append(" %"));
      s.append("; total active ")
          .append(Text.fixed(activePercentAfter, 3))
          .append(" % instead of ")
          .append(Text.fixed(activePercentOnTarget, 3))
          .append(" %\n");
      cautions.forEach(c -> s.append("  Caution: ").append(c).append(".\n"));
      return Text.wrapped(s, 80);
    }
  }

  /**
   * A batch that stands beside its target.
   *
   * @param dose what was asked
   * @param batch the product in the vessel, without titrants
   * @param phNow where it stands
   * @param ionicStrength the ionic strength at the target [mol/kg water]
   * @param curve the charge of the untreated product at the target [eq/kg of product]
   * @param doses the charge of everything dosed at the target [eq/kg of product]
   * @param deviation the standard deviation of {@code curve} [eq/kg of product]
   * @param dosedKgPerKg everything dosed [kg/kg of product]
   */
  OvershootRepair(
      AcidDose dose,
      Mass batch,
      double phNow,
      double ionicStrength,
      double curve,
      double doses,
      double deviation,
      double dosedKgPerKg) {
    this.dose = dose;
    this.batch = batch;
    this.phNow = phNow;
    this.ionicStrength = ionicStrength;
    this.curve = curve;
    this.doses = doses;
    this.deviation = deviation;
    this.dosedKgPerKg = dosedKgPerKg;
  }

  static OvershootRepair typical(AcidDose dose, Mass given) {
    double target = dose.plan().target();
    double perKg = given.inGrams() / dose.batch().inGrams();
    return new OvershootRepair(
        dose,
        dose.batch(),
        dose.phAfter(given),
        dose.ionicStrength(),
        dose.charge().chargeEqPerKg(target, dose.ionicStrength()) + dose.level(),
        perKg * charge(dose, dose.plan().titrant(), dose.ionicStrength()),
        0,
        perKg);
  }

  private static double charge(AcidDose dose, Titrant titrant, double ionicStrength) {
    return titrant.chargeEqPerKg(dose.plan().conditions(), dose.plan().target(), ionicStrength);
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
    double push = charge(dose, titrant, ionicStrength);
    double perKg = -(curve + doses) / push;
    if (!(perKg > 0) || perKg > 1) {
      return Optional.empty();
    }
    double spread = NINETY * deviation / Math.abs(push);
    List<String> cautions = new ArrayList<>(titrant.cautions());
    cautions.add("add half, stir, read, then the rest: a correction overshoots too");
    cautions.add("it leaves more salt in the product, which moves the viscosity");
    double mended = 1 + dosedKgPerKg + perKg;
    Map<String, Double> leaves = new LinkedHashMap<>();
    dose.plan().titrant().contents().forEach((inci, p) -> leaves.put(inci, p * excess() / mended));
    return Optional.of(
        new Correction(
            titrant.name(),
            grams(perKg),
            range(perKg, spread),
            AcidDose.adds(titrant, perKg / (1 + dosedKgPerKg)),
            titrant.strongChargeEqPerKg() * perKg / mended * 1000,
            leaves,
            active() / mended,
            onTarget(),
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
            0,
            Map.of(),
            active() * (1 + perKg) / (1 + perKg + dosedKgPerKg),
            onTarget(),
            List.of("add half, stir, read, then the rest")));
  }

  /** How much of the first titrant is too much [kg/kg of product]. */
  private double excess() {
    return Math.max(0, (curve + doses) / charge(dose, dose.plan().titrant(), ionicStrength));
  }

  private double active() {
    return dose.plan().blend().totalActive().value();
  }

  private double onTarget() {
    return active() / (1 + dosedKgPerKg - excess());
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
        + Text.fixed(dose.plan().target(), 2)
        + ": "
        + Text.fixed(Math.abs(surplusMeqPerKg()), 2)
        + " meq/kg of "
        + (surplusMeqPerKg() >= 0 ? "acid" : "base")
        + " too much";
  }
}
