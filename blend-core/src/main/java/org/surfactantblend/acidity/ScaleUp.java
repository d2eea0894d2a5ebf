package org.surfactantblend.acidity;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/**
 * From a titrated trial to a batch: what to have ready, what to put in first, and how much product
 * to hold back.
 *
 * <p>With the <em>same lots</em> the trial's readings say what the batch needs per kilogram, and
 * the interval is what they leave open. With <em>new lots</em> they do not: the sheets of the new
 * lots say it, with their whole ranges, and the trial's figure only stands beside it.
 *
 * <p>Immutable and thread-safe.
 */
public final class ScaleUp {
  private static final double NINETY = 1.6448536269514722;
  private static final double TWO_PERCENT = 2.0537489106318225;
  private static final double PAST = 0.1;

  /** Common practice, no source: four fifths of the estimate when the lots are known. */
  private static final double KNOWN_SHARE = 0.8;

  /** Common practice, no source: a tenth is kept back while the lots are new. */
  private static final double HOLD_BACK_NEW = 0.1;

  private static final double HOLD_BACK_AT_MOST = 0.25;

  private final Titration trial;
  private final Blend product;
  private final boolean sameLots;
  private final Titrant titrant;
  private final Mass batch;
  private final Range likely;
  private final double first;
  private final double maximum;
  private final double holdBack;
  private final double trialGrams;
  private final String reason;
  private final String trouble;

  private ScaleUp(Titration trial, Blend product, boolean sameLots, Titrant titrant, Mass batch) {
    this.trial = Objects.requireNonNull(trial, "trial");
    this.product = Objects.requireNonNull(product, "product");
    this.sameLots = sameLots;
    this.titrant = Objects.requireNonNull(titrant, "titrant");
    this.batch = batch;
    Require.positive("batch", batch.inGrams(), "g");
    if (trial.steps().stream().noneMatch(s -> s instanceof PhReading)) {
      throw new IllegalArgumentException(
          "readings of the trial were 0, allowed is at least 1: a trial without readings says"
              + " nothing about a batch");
    }
    AcidDose.Plan plan = trial.dose().plan();
    double target = plan.target();
    Need known = need(target);
    trialGrams = known.grams(known.mean);
    double share;
    if (sameLots) {
      double sd = known.deviation;
      likely =
          Range.of(
              known.grams(known.mean - NINETY * sd),
              known.grams(known.mean),
              known.grams(known.mean + NINETY * sd));
      Need past = need(target + (known.push > 0 ? -PAST : PAST));
      double safe = past.grams(past.mean - TWO_PERCENT * past.deviation);
      double four = KNOWN_SHARE * likely.typical();
      first = Math.min(safe, four);
      reason =
          first == four
              ? "four fifths of what the trial needed, because a big batch mixes and reads worse"
              : "so much goes more than 0.1 past the target with 2 % probability at most";
      maximum = known.grams(known.mean + TWO_PERCENT * sd);
      share = 1 - Math.min(1, known.grams(known.mean - TWO_PERCENT * sd) / likely.typical());
      trouble = likely.typical() > 0 ? "" : needNone(target, plan.titrant());
    } else {
      AcidDose dose =
          AcidDose.of(product).to(target).with(titrant).under(plan.conditions()).forBatch(batch);
      likely = dose.likelyGrams();
      first = dose.firstAddition().inGrams();
      reason = dose.reason();
      maximum = dose.guaranteedGrams().high();
      share = Math.max(HOLD_BACK_NEW, 1 - likely.low() / Math.max(1e-12, likely.typical()));
      trouble =
          dose.verdict() == AcidDose.Verdict.ALREADY_THERE
              ? "by the sheets it is there already: read the pH first"
              : dose.needed().orElse("");
    }
    holdBack =
        trouble.isEmpty() ? Math.min(HOLD_BACK_AT_MOST, Math.max(0, share)) * batch.inGrams() : 0;
  }

  private String needNone(double target, Titrant began) {
    return "by the trial no dose of this titrant leads to pH "
        + Text.fixed(target, 2)
        + ": the lots stand there already, or the opposite kind is needed"
        + (began.name().equals(titrant.name())
            ? ""
            : ", such as " + began + ", with which the trial began");
  }

  /** What the trial learned at a pH, counted so that more needs more [eq/kg of product]. */
  private Need need(double ph) {
    AcidDose dose = trial.dose();
    double push = -titrant.chargeEqPerKg(dose.plan().conditions(), ph, dose.ionicStrength());
    Range r = trial.alkalinityMeqPerKg(ph);
    double sign = push < 0 ? -1 : 1;
    return new Need(
        sign * r.typical() / 1000, r.width() / (2 * NINETY * 1000), push, batch.inGrams());
  }

  private record Need(double mean, double deviation, double push, double batchGrams) {
    double grams(double need) {
      return Math.max(0, need) / Math.abs(push) * batchGrams;
    }
  }

  /**
   * A batch of the very lots that the trial was made of.
   *
   * @param trial the titrated trial, with at least one reading
   * @param batch the mass of the batch before the addition, more than 0
   * @return the scale-up with the titrant of the trial
   * @throws IllegalArgumentException if the trial has no reading or the mass is zero
   */
  public static ScaleUp sameLots(Titration trial, Mass batch) {
    return new ScaleUp(trial, trial.dose().plan().blend(), true, trial.titrant(), batch);
  }

  /**
   * A batch of other lots.
   *
   * @param trial the titrated trial, with at least one reading
   * @param product the batch with its own lots
   * @param batch the mass of the batch before the addition, more than 0
   * @return the scale-up with the titrant of the trial
   * @throws IllegalArgumentException if the trial has no reading or the mass is zero
   */
  public static ScaleUp newLots(Titration trial, Blend product, Mass batch) {
    return new ScaleUp(trial, product, false, trial.titrant(), batch);
  }

  /**
   * The same batch with another titrant, such as a stronger solution.
   *
   * @param other the titrant
   * @return the changed scale-up
   */
  public ScaleUp with(Titrant other) {
    return new ScaleUp(trial, product, sameLots, other, batch);
  }

  /**
   * The trial.
   *
   * @return what was titrated
   */
  public Titration trial() {
    return trial;
  }

  /**
   * Whether the batch is made of the trial's lots.
   *
   * @return true when it is
   */
  public boolean isSameLots() {
    return sameLots;
  }

  /**
   * The batch.
   *
   * @return its mass before the addition
   */
  public Mass batch() {
    return batch;
  }

  /**
   * The titrant.
   *
   * @return what is weighed in
   */
  public Titrant titrant() {
    return titrant;
  }

  /**
   * The whole dose that is expected.
   *
   * @return the mass of titrant
   */
  public Mass expected() {
    return Mass.grams(likely.typical());
  }

  /**
   * The central 90 % of the whole dose.
   *
   * @return the range [g of titrant]
   */
  public Range likelyGrams() {
    return likely;
  }

  /**
   * What to weigh in before the pH is read again.
   *
   * @return the mass of titrant
   */
  public Mass firstAddition() {
    return Mass.grams(first);
  }

  /**
   * The most to have ready: if the batch asks for more, stop and find out why. With the same lots
   * it is passed with 2 % probability; with new ones no lot inside its declared ranges needs more.
   *
   * @return the mass of titrant
   */
  public Mass maximum() {
    return Mass.grams(maximum);
  }

  /**
   * The product to hold back without titrant: as much as mends the batch when all of the expected
   * dose went in and the lots needed only the least that is likely. At least a tenth of the batch
   * while lots are new (common practice, no source), a quarter at most.
   *
   * @return the mass of product
   */
  public Mass holdBack() {
    return Mass.grams(holdBack);
  }

  /**
   * What the batch would need if it behaved like the trial.
   *
   * @return the mass of titrant
   */
  public Mass byTheTrial() {
    return Mass.grams(trialGrams);
  }

  /**
   * What the figures rest on.
   *
   * @return sentences without a full stop
   */
  public List<String> assumptions() {
    List<String> all = new ArrayList<>();
    all.add(
        sameLots
            ? "same lots, same percentages, same order of work as in the trial"
            : "new lots inside their declared ranges; the trial says nothing about them");
    all.add("titrant of the strength that its name says, weighed, not measured by volume");
    return List.copyOf(all);
  }

  /**
   * The whole answer in at most 80 columns.
   *
   * @return several lines
   */
  public String summary() {
    List<String> lines = new ArrayList<>();
    lines.add(
        "From "
            + trial.dose().batch()
            + " to "
            + batch
            + " of "
            + product.name()
            + ", "
            + (sameLots ? "same lots" : "new lots")
            + ": "
            + titrant
            + " to pH "
            + Text.fixed(trial.dose().plan().target(), 2));
    if (!trouble.isEmpty()) {
      lines.add("  No dose: " + trouble + ".");
    } else {
      lines.add("  expected         " + grams(likely.typical()));
      lines.add("  likely           " + grams(likely.low()) + " to " + grams(likely.high()));
      lines.add("  first addition   " + grams(first));
      lines.add("    " + reason);
      lines.add("  maximum          " + grams(maximum) + ", beyond it stop and find out why");
      lines.add("  hold back        " + grams(holdBack) + " of product without titrant");
    }
    if (!sameLots) {
      lines.add(
          "  by the trial     "
              + grams(trialGrams)
              + (likely.contains(trialGrams) ? "" : ", which is outside the likely range"));
    }
    titrant.cautions().forEach(c -> lines.add("  Caution: " + c + "."));
    assumptions().forEach(a -> lines.add("  Assumed: " + a + "."));
    lines.add("  Read the pH after every addition; decide by the meter.");
    return Text.wrapped(String.join("\n", lines) + "\n", 80);
  }

  private static String grams(double g) {
    return Text.fixed(g, g < 100 ? 2 : 1) + " g";
  }

  @Override
  public String toString() {
    return summary();
  }
}
