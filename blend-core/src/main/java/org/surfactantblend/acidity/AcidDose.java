package org.surfactantblend.acidity;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.surfactantblend.acidity.BlendCharge.Addition;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.ChargeCurve;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/**
 * How much of a titrant brings a blend to a pH.
 *
 * <p>At a fixed pH the charge balance is linear in the amounts, so the dose is a plain division:
 * {@code dose = -Z(target) / z(target)} with Z the net charge of the blend and z that of the
 * titrant, both per kilogram. The water and ions that the titrant brings are counted.
 *
 * <p>Three figures are given: at the typical contents; <em>likely</em>, the central 90 % with all
 * contents independent and triangular; <em>guaranteed</em>, the range over every lot inside the
 * declared ranges, within the model's constants. None of them replaces the meter: the answer is
 * split into a first addition and a remainder after measuring.
 *
 * <p>Immutable and thread-safe.
 */
public final class AcidDose {
  /** How close a start counts as being there already [pH]. */
  private static final double THERE = 0.005;

  private static final double MOST_KG_PER_KG = 1;
  private static final double NINETY = 1.6448536269514722;
  private static final double TWO_PERCENT = 2.0537489106318225;
  private static final double PAST = 0.1;
  private static final double MODEL_SHARE = 0.8;
  private static final double QUICK_MINUTES = 60;

  private final Plan plan;
  private final Mass batch;
  private final BlendCharge charge;
  private final double level;
  private final double start;
  private final double ionicStrength;
  private final double titrantCharge;
  private final Verdict verdict;
  private final double gramsPerGram;
  private final Range likely;
  private final Range guaranteed;
  private final double first;
  private final String reason;

  /** What the answer is. */
  public enum Verdict {
    /** A dose of this titrant reaches the target. */
    DOSE,
    /** The blend reads the target already: the dose is zero. */
    ALREADY_THERE,
    /** The target lies on the other side of the start: the opposite kind of titrant is needed. */
    OTHER_SIDE,
    /** The titrant is not acid or base enough to reach the target with less than its own weight. */
    OUT_OF_REACH
  }

  /** A blend whose target pH is still to be named. Immutable and thread-safe. */
  public static final class Aim {
    private final Blend blend;

    private Aim(Blend blend) {
      this.blend = blend;
    }

    /**
     * Names the target.
     *
     * @param ph the target pH, 2 to 12
     * @return a plan with 20 % citric acid at 25 C, which can be changed
     * @throws IllegalArgumentException if the pH is out of range
     */
    public Plan to(double ph) {
      return new Plan(
          blend,
          Require.inRange("target pH", ph, 2, 12, ""),
          Titrant.citricAcid(20),
          OptionalDouble.empty(),
          Conditions.standard());
    }

    @Override
    public String toString() {
      return "dose for " + blend.name() + ", target pH not named yet";
    }
  }

  /**
   * A dose that waits for its batch.
   *
   * @param blend the blend
   * @param target the target pH
   * @param titrant what is weighed in
   * @param measuredStart the pH read before any addition, if it was read
   * @param conditions temperature and activity model
   */
  public record Plan(
      Blend blend,
      double target,
      Titrant titrant,
      OptionalDouble measuredStart,
      Conditions conditions) {
    /**
     * Checks that nothing is missing.
     *
     * @param blend the blend
     * @param target the target pH
     * @param titrant what is weighed in
     * @param measuredStart the pH read before any addition, if it was read
     * @param conditions temperature and activity model
     * @throws IllegalArgumentException if a pH is out of range
     */
    public Plan {
      Objects.requireNonNull(blend, "blend");
      Require.inRange("target pH", target, 2, 12, "");
      Objects.requireNonNull(titrant, "titrant");
      measuredStart.ifPresent(p -> Require.inRange("measured start pH", p, 0, 14, ""));
      Objects.requireNonNull(conditions, "conditions");
    }

    /**
     * With another titrant.
     *
     * @param other the titrant
     * @return the changed plan
     */
    public Plan with(Titrant other) {
      return new Plan(blend, target, other, measuredStart, conditions);
    }

    /**
     * From a pH that the meter showed before any addition, in place of the predicted one.
     *
     * @param ph the reading, 0 to 14
     * @return the changed plan
     * @throws IllegalArgumentException if the pH is out of range
     */
    public Plan startingAt(double ph) {
      return new Plan(blend, target, titrant, OptionalDouble.of(ph), conditions);
    }

    /**
     * Under other conditions.
     *
     * @param other temperature and activity model
     * @return the changed plan
     */
    public Plan under(Conditions other) {
      return new Plan(blend, target, titrant, measuredStart, other);
    }

    /**
     * For a batch.
     *
     * @param batch the mass of the product before the addition, more than 0
     * @return the dose
     * @throws IllegalArgumentException if the mass is zero
     */
    public AcidDose forBatch(Mass batch) {
      return new AcidDose(this, batch);
    }
  }

  private AcidDose(Plan plan, Mass batch) {
    this.plan = plan;
    this.batch = batch;
    Require.positive("batch", batch.inGrams(), "g");
    charge = BlendCharge.of(plan.blend(), plan.conditions());
    double target = plan.target();
    Titrant titrant = plan.titrant();
    start = plan.measuredStart().isPresent() ? plan.measuredStart().getAsDouble() : charge.ph();
    level = plan.measuredStart().isPresent() ? -charge.chargeEqPerKg(start) : 0;
    BlendCharge.Solved solved = charge.doseTo(target, titrant, level);
    ionicStrength = solved.ionicStrength();
    titrantCharge = solved.titrantCharge();
    double dose = solved.kgPerKg();
    if (Math.abs(start - target) <= THERE) {
      verdict = Verdict.ALREADY_THERE;
    } else if (dose > 0 && dose <= MOST_KG_PER_KG) {
      verdict = Verdict.DOSE;
    } else {
      double there = titrant.chargeEqPerKg(plan.conditions(), start, ionicStrength);
      boolean rightKind = start > target ? there < 0 : there > 0;
      verdict = rightKind ? Verdict.OUT_OF_REACH : Verdict.OTHER_SIDE;
    }
    if (verdict != Verdict.DOSE) {
      gramsPerGram = 0;
      likely = Range.ZERO;
      guaranteed = Range.ZERO;
      first = 0;
      reason = "";
      return;
    }
    gramsPerGram = dose;
    double push = Math.abs(titrantCharge);
    boolean down = titrantCharge < 0;
    double low;
    double high;
    if (plan.measuredStart().isPresent()) {
      low = charge.extremeShift(start, target, ionicStrength, -1);
      high = charge.extremeShift(start, target, ionicStrength, 1);
    } else {
      low = charge.leastChargeEqPerKg(target, ionicStrength);
      high = charge.greatestChargeEqPerKg(target, ionicStrength);
    }
    guaranteed = around(dose, (down ? low : -high) / push, (down ? high : -low) / push);
    Spread at = spread(target, down);
    likely =
        around(
            dose,
            (at.mean - NINETY * at.deviation) / push,
            (at.mean + NINETY * at.deviation) / push);
    double past = target + (down ? -PAST : PAST);
    Spread beyond = spread(past, down);
    double pushPast = Math.abs(titrant.chargeEqPerKg(plan.conditions(), past, ionicStrength));
    double safe = Math.max(0, (beyond.mean - TWO_PERCENT * beyond.deviation) / pushPast);
    double model = MODEL_SHARE * dose;
    first = Math.min(Math.min(guaranteed.low(), safe), model);
    reason = reason(safe, model);
  }

  private record Spread(double mean, double deviation) {}

  /** What the titrant has to make up for at a pH, counted so that more needs more. */
  private Spread spread(double ph, boolean down) {
    double mean;
    double variance;
    if (plan.measuredStart().isPresent()) {
      ChargeCurve.Moments m = charge.momentsAt(ionicStrength, start, ph);
      mean = m.mean()[1] - m.mean()[0];
      variance = m.covariance()[0][0] + m.covariance()[1][1] - 2 * m.covariance()[0][1];
    } else {
      ChargeCurve.Moments m = charge.momentsAt(ionicStrength, ph);
      mean = m.mean()[0];
      variance = m.covariance()[0][0];
    }
    return new Spread(down ? mean : -mean, Math.sqrt(Math.max(0, variance)));
  }

  private static Range around(double typical, double low, double high) {
    return Range.of(
        Math.min(typical, Math.max(0, low)), typical, Math.max(typical, Math.max(0, high)));
  }

  private String reason(double safe, double model) {
    if (first <= 0) {
      return plan.measuredStart().isPresent()
          ? "lots inside their ranges may need next to nothing: begin with the least your scale"
              + " weighs, or with a weaker solution"
          : "by the sheets alone this blend may be there already: read the pH first";
    }
    if (first == model) {
      return "four fifths of the expected dose, because the model's constants are not exact";
    }
    return first == safe
        ? "so much goes more than 0.1 past the target in 2 % of lots at most"
        : "the least that any lot inside the declared ranges needs";
  }

  /**
   * Starts a dose.
   *
   * @param blend the whole product before the addition, fixed lines such as preservatives included;
   *     for a batch that was weighed, what was really weighed
   * @return what waits for its target pH
   */
  public static Aim of(Blend blend) {
    return new Aim(Objects.requireNonNull(blend, "blend"));
  }

  /**
   * What was asked.
   *
   * @return blend, target, titrant and conditions
   */
  public Plan plan() {
    return plan;
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
   * The kind of answer.
   *
   * @return the verdict
   */
  public Verdict verdict() {
    return verdict;
  }

  /**
   * The pH before the addition: the measured one, else the one at typical figures.
   *
   * @return the pH
   */
  public double startPh() {
    return start;
  }

  /**
   * The whole dose at the typical figures.
   *
   * @return the mass of titrant as it stands in the bottle; zero unless the verdict is {@link
   *     Verdict#DOSE}
   */
  public Mass total() {
    return grams(gramsPerGram);
  }

  /**
   * The central 90 % of the whole dose.
   *
   * @return the range [g of titrant]
   */
  public Range likelyGrams() {
    return likely.times(batch.inGrams());
  }

  /**
   * The whole dose over every lot inside the declared ranges.
   *
   * @return the range [g of titrant]
   */
  public Range guaranteedGrams() {
    return guaranteed.times(batch.inGrams());
  }

  /**
   * What to weigh in before the pH is read again.
   *
   * @return the mass of titrant
   */
  public Mass firstAddition() {
    return grams(first);
  }

  /**
   * Why the first addition is what it is.
   *
   * @return a sentence without a full stop; empty unless the verdict is {@link Verdict#DOSE}
   */
  public String reason() {
    return reason;
  }

  /**
   * What is expected to be left after the first addition; decide on it by the meter.
   *
   * @return the mass of titrant
   */
  public Mass remainder() {
    return grams(gramsPerGram - first);
  }

  private Mass grams(double perGram) {
    return Mass.grams(perGram * batch.inGrams());
  }

  /**
   * The alkali or acid to make up for.
   *
   * @return what the blend takes up on its way to the target [meq/kg of product], above zero for
   *     acid
   */
  public double neededMeqPerKg() {
    return verdict == Verdict.DOSE ? -gramsPerGram * titrantCharge * 1000 : 0;
  }

  /**
   * Where the dose goes: what each line holds at the target for the titrant to make up for. With
   * water's own ions and, from a measured start, what corrects the lines to it, this adds up to
   * {@link #neededMeqPerKg()}.
   *
   * @return by material id, in the order of the lines [meq/kg of product], above zero for what
   *     takes acid
   */
  public Map<String, Double> meqPerKgByMaterial() {
    Map<String, Double> all = new LinkedHashMap<>();
    for (int i = 0; i < plan.blend().lines().size(); i++) {
      all.merge(
          plan.blend().lines().get(i).material().id(),
          charge.lineCharge(i, plan.target()) * 1000,
          Double::sum);
    }
    return Collections.unmodifiableMap(all);
  }

  /** The line that takes most of the titrant, in words; empty when none does. */
  private Optional<String> mostGoesTo() {
    double side = start > plan.target() ? 1 : -1;
    return meqPerKgByMaterial().entrySet().stream()
        .filter(e -> side * e.getValue() > 0)
        .max(Comparator.comparingDouble(e -> side * e.getValue()))
        .map(
            e ->
                "most of it goes to "
                    + e.getKey()
                    + ", "
                    + Text.fixed(side * e.getValue(), 2)
                    + " of "
                    + Text.fixed(side * neededMeqPerKg(), 2)
                    + " meq/kg net");
  }

  /**
   * How much one gram of the titrant does at the target.
   *
   * @return the acid it gives [meq/g], below zero for a base
   */
  public double titrantMeqPerGram() {
    return -titrantCharge;
  }

  /**
   * The pH at typical figures after an amount of the titrant.
   *
   * @param added the mass of titrant in this batch
   * @return the predicted pH
   */
  public double phAfter(Mass added) {
    return charge.phWith(
        List.of(new Addition(plan.titrant(), added.inGrams() / batch.inGrams())),
        level,
        0,
        plan.conditions());
  }

  /**
   * What the whole dose brings into the product.
   *
   * @return by INCI name [% m/m of the finished product]
   */
  public Map<String, Double> adds() {
    return adds(plan.titrant(), gramsPerGram);
  }

  static Map<String, Double> adds(Titrant titrant, double kgPerKg) {
    Map<String, Double> all = new LinkedHashMap<>();
    titrant.contents().forEach((inci, p) -> all.put(inci, p * kgPerKg / (1 + kgPerKg)));
    // An alkali counts the water that its hydroxide turns to; here it is still hydroxide.
    double named = titrant.contents().values().stream().mapToDouble(p -> p).sum();
    double water = Math.min(titrant.waterKgPerKg() * 100, 100 - named);
    if (water > 0) {
      all.merge("Aqua", water * kgPerKg / (1 + kgPerKg), Double::sum);
    }
    return Collections.unmodifiableMap(all);
  }

  /**
   * Which kind of titrant is needed when this one pushes the wrong way.
   *
   * @return a sentence without a full stop, or empty when this one is right
   */
  public Optional<String> needed() {
    return switch (verdict) {
      case DOSE, ALREADY_THERE -> Optional.empty();
      case OTHER_SIDE -> Optional.of(neededKind(start, plan.target()));
      case OUT_OF_REACH ->
          Optional.of(
              plan.titrant()
                  + " is too weak for pH "
                  + Text.fixed(plan.target(), 2)
                  + ": take a stronger "
                  + (start > plan.target() ? "acid" : "base"));
    };
  }

  static String neededKind(double start, double target) {
    return start > target
        ? "the target lies below the start: an acid is needed, such as citric acid 20 %"
        : "the target lies above the start: a base is needed, such as sodium hydroxide 10 %";
  }

  /**
   * Begins a titration with a scale of 0.01 g and the usual rules.
   *
   * @param meter the pH meter
   * @return a titration without readings
   */
  public Titration begin(Meter meter) {
    return begin(meter, DosingRules.usual());
  }

  /**
   * Begins a titration.
   *
   * @param meter the pH meter
   * @param rules tolerance, risk, scale and whether the lots are new
   * @return a titration without readings; a measured start of the plan is not taken as its first
   *     reading
   */
  public Titration begin(Meter meter, DosingRules rules) {
    return Titration.begin(this, meter, rules);
  }

  /**
   * What brings the batch back when too much went in, at the typical figures.
   *
   * @param given the mass of titrant that went in
   * @return the repair
   */
  public OvershootRepair overshotWith(Mass given) {
    return OvershootRepair.typical(this, given);
  }

  BlendCharge charge() {
    return charge;
  }

  double level() {
    return level;
  }

  double ionicStrength() {
    return ionicStrength;
  }

  /**
   * The usual cautions for whoever weighs.
   *
   * @return sentences without a full stop
   */
  public List<String> cautions() {
    return plan.titrant().cautions();
  }

  /**
   * What the figures rest on.
   *
   * @return sentences without a full stop
   */
  public List<String> assumptions() {
    List<String> all = new ArrayList<>();
    all.add("amounts as supplied, titrant as it stands in the bottle, percent by mass");
    all.add(
        plan.conditions().activity()
            + " at "
            + Text.number(plan.conditions().temperatureC())
            + " C; pH as a calibrated meter reads it in the neat product");
    all.add(
        plan.measuredStart().isPresent()
            ? "strong ions set so that the blend reads the measured start"
            : "strong ions worked back from the materials' sheet pH");
    all.add("no carbon dioxide is lost or taken up, nothing hydrolyses");
    return List.copyOf(all);
  }

  /**
   * What to know beside the figures: materials that do not last at the target, how the titrant
   * behaves and what the materials' data leave open.
   *
   * @return sentences without a full stop
   */
  public List<String> notes() {
    List<String> all = new ArrayList<>();
    for (BlendLine line : plan.blend().lines()) {
      Material m = line.material();
      m.family()
          .stableWindow()
          .filter(window -> !window.contains(plan.target()))
          .ifPresent(
              window ->
                  all.add(
                      m
                          + ": its family, "
                          + m.family().name()
                          + ", "
                          + m.family().lasting()
                          + "; the target is outside"));
    }
    all.addAll(plan.titrant().remarks());
    all.addAll(StartingPh.of(plan.blend(), plan.conditions()).caveats());
    return List.copyOf(all);
  }

  /**
   * The whole answer in at most 80 columns.
   *
   * @return several lines
   */
  public String summary() {
    List<String> lines = new ArrayList<>();
    lines.add("Dose of " + plan.titrant() + " for " + batch + " of " + plan.blend().name());
    lines.add(
        "  start pH "
            + Text.fixed(start, 2)
            + (plan.measuredStart().isPresent() ? " (read)" : " (predicted)")
            + ", target pH "
            + Text.fixed(plan.target(), 2));
    if (verdict == Verdict.ALREADY_THERE) {
      lines.add("  It is there already: add nothing.");
    }
    needed().ifPresent(n -> lines.add("  No dose of this titrant: " + n + "."));
    if (verdict == Verdict.DOSE) {
      lines.add("  first addition           " + Text.fixed(firstAddition().inGrams(), 3) + " g");
      lines.add("    " + reason);
      lines.add(
          plan.titrant().minutesToAct() > QUICK_MINUTES
              ? "  then wait " + Text.number(plan.titrant().minutesToAct() / 60) + " hours,"
              : "  then stir and wait,");
      lines.add("  read the pH; then left   " + Text.fixed(remainder().inGrams(), 3) + " g or so");
      lines.add("  whole dose, typical      " + Text.fixed(total().inGrams(), 3) + " g");
      lines.add("  likely (central 90 %)    " + range(likelyGrams()));
      lines.add("  guaranteed (every lot)   " + range(guaranteedGrams()));
      StringBuilder adds = new StringBuilder("  it adds                 ");
      adds()
          .forEach(
              (inci, p) ->
                  adds.append(' ').append(inci).append(' ').append(Text.fixed(p, 3)).append(" %"));
      lines.add(adds.toString());
      mostGoesTo().ifPresent(m -> lines.add("  " + m));
    }
    cautions().forEach(c -> lines.add("  Caution: " + c + "."));
    assumptions().forEach(a -> lines.add("  Assumed: " + a + "."));
    notes().forEach(n -> lines.add("  Note: " + n + "."));
    lines.add("  Measure the pH before you release.");
    return Text.wrapped(String.join("\n", lines) + "\n", 80);
  }

  private static String range(Range r) {
    return Text.fixed(r.low(), 3) + " to " + Text.fixed(r.high(), 3) + " g";
  }

  @Override
  public String toString() {
    return summary();
  }
}
