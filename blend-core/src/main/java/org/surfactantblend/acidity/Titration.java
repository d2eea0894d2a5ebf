package org.surfactantblend.acidity;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.acidity.BlendCharge.Addition;
import org.surfactantblend.acidity.CurvePosterior.Equation;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.PhWindow;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/**
 * A titration that learns: read, dose, read, and so on; each step gives a new value.
 *
 * <p>It begins with what the table's ranges say about the blend's charge curve. Each reading is one
 * linear equation, {@code Z(r) + x z(r) = 0}, and narrows that curve by linear Bayesian regression.
 *
 * <p>The next dose is the largest that goes past the target by more than the tolerance with at most
 * the given risk, and never more than the middle estimate of what is left. The first dose of new
 * lots is no more than what every amount at its low end takes up. From the second dose on it is at
 * least 0.36 of what is left, and half of it as long as that is at most four times the risk: too
 * small a dose teaches too little. It stops on the estimate from all readings, not on the last raw
 * one.
 *
 * <p>A reading that contradicts the doses or the model is flagged and kept out until a second
 * reading confirms it. To resume a titration, begin it again and give it the same {@linkplain
 * #steps() steps}.
 *
 * <p>Immutable and thread-safe.
 */
public final class Titration {
  private static final double NINETY = 1.6448536269514722;
  private static final double DISAGREE = 3 * 1.4142135623730951;
  private static final double FAR = 3.5;
  private static final double NEAR = 2;

  /** So many readings without a dose between them outweigh what was expected of them. */
  private static final int ENOUGH = 3;

  private static final double DRIFT_OVER_THREE = 0.1;

  /** From the second dose on: this share of what is left, unless that is too great a risk. */
  private static final double SHORTCUT_SHARE = 0.5;

  private static final double SHORTCUT_RISK = 4;

  /** From the second dose on: at least this share of what is left. */
  private static final double LEAST_SHARE = 0.36;

  private final Setting setting;
  private final CurvePosterior posterior;
  private final List<TitrationStep> steps;
  private final List<ReadingFlag> flags;
  private final List<Equation> equations;
  private final Titrant titrant;
  private final double[] titrantCharge;
  private final double[] dosedEq;
  private final double productFactor;
  private final List<Addition> additions;
  private final int doses;

  /** The last reading when it is held back, as an equation. */
  private final @Nullable Equation held;

  private Titration(Draft d) {
    setting = d.setting;
    posterior = d.posterior;
    steps = List.copyOf(d.steps);
    flags = List.copyOf(d.flags);
    equations = List.copyOf(d.equations);
    titrant = d.titrant;
    titrantCharge = d.titrantCharge;
    dosedEq = d.dosedEq;
    productFactor = d.productFactor;
    additions = List.copyOf(d.additions);
    doses = d.doses;
    held = d.held;
  }

  /** What no step changes. */
  private record Setting(
      AcidDose dose, Meter meter, DosingRules rules, CurvePrior prior, PhWindow sheets) {
    double[] chargeOf(Titrant titrant) {
      return prior.chargeOf(titrant, dose.plan().conditions());
    }
  }

  /** The next value under construction. */
  private static final class Draft {
    final Setting setting;
    CurvePosterior posterior;
    final List<TitrationStep> steps;
    final List<ReadingFlag> flags;
    final List<Equation> equations;
    Titrant titrant;
    double[] titrantCharge;
    double[] dosedEq;
    double productFactor;
    final List<Addition> additions;
    int doses;
    @Nullable Equation held;

    Draft(Setting setting) {
      this.setting = setting;
      titrant = setting.dose.plan().titrant();
      posterior = CurvePosterior.of(setting.prior, List.of());
      steps = new ArrayList<>();
      flags = new ArrayList<>();
      equations = new ArrayList<>();
      titrantCharge = setting.chargeOf(titrant);
      dosedEq = new double[CurvePrior.POINTS];
      productFactor = 1;
      additions = new ArrayList<>();
    }

    Draft(Titration t) {
      setting = t.setting;
      posterior = t.posterior;
      steps = new ArrayList<>(t.steps);
      flags = new ArrayList<>(t.flags);
      equations = new ArrayList<>(t.equations);
      titrant = t.titrant;
      titrantCharge = t.titrantCharge;
      dosedEq = t.dosedEq;
      productFactor = t.productFactor;
      additions = new ArrayList<>(t.additions);
      doses = t.doses;
      held = t.held;
    }
  }

  static Titration begin(AcidDose dose, Meter meter, DosingRules rules) {
    Objects.requireNonNull(meter, "meter");
    Objects.requireNonNull(rules, "rules");
    AcidDose.Plan plan = dose.plan();
    CurvePrior prior = new CurvePrior(dose.charge(), plan, dose.ionicStrength());
    PhWindow sheets = SheetContradiction.possible(plan.blend(), plan.conditions());
    return new Titration(new Draft(new Setting(dose, meter, rules, prior, sheets)));
  }

  /**
   * A reading in the neat product at 20 to 25 C.
   *
   * @param ph what the meter showed, 0 to 14
   * @return the titration with that reading
   * @throws IllegalArgumentException if it is out of range
   */
  public Titration reading(double ph) {
    return reading(PhReading.of(ph));
  }

  /**
   * A reading.
   *
   * @param reading what was read, and in which state
   * @return the titration with that reading
   */
  public Titration reading(PhReading reading) {
    Draft d = new Draft(this);
    int index = steps.size();
    d.steps.add(reading);
    double deviation = setting.meter.accuracy();
    double ph = reading.ph();
    if (!reading.isPlain()) {
      ComparablePh worth =
          ComparablePh.of(setting.prior.charge(), setting.dose.plan().blend(), additions, reading);
      ph = Math.max(0, Math.min(14, worth.ph()));
      double half = worth.likely().width() / 2;
      deviation = Math.sqrt(deviation * deviation + half * half);
      d.flags.add(
          new ReadingFlag(
              index,
              ReadingFlag.Kind.NOT_COMPARABLE,
              reading + " is " + String.join("; ", worth.advice()),
              false));
    }
    Equation equation = new Equation(ph, deviation, dosedEq, weighing(ph));
    if (held != null && Math.abs(ph - held.ph()) <= DISAGREE * deviation) {
      d.equations.add(held);
      return accepted(d, equation, index);
    }
    Optional<ReadingFlag> flag = judge(equation, index);
    if (flag.isPresent()) {
      d.flags.add(flag.get());
      d.held = equation;
      return new Titration(d);
    }
    return accepted(d, equation, index);
  }

  private Titration accepted(Draft d, Equation equation, int index) {
    accept(d, equation, index);
    Optional<ReadingFlag> outvoted = new Titration(d).outvoted(index);
    outvoted.ifPresent(d.flags::add);
    return new Titration(d);
  }

  /** Readings without a dose between them that agree with each other and not with the curve. */
  private Optional<ReadingFlag> outvoted(int index) {
    List<Equation> here = equations.stream().filter(e -> e.dosed() == dosedEq).toList();
    double mean = here.stream().mapToDouble(Equation::ph).average().orElse(Double.NaN);
    double deviation =
        here.stream().mapToDouble(Equation::deviation).average().orElse(Double.NaN)
            / Math.sqrt(here.size());
    if (here.size() < ENOUGH || Math.abs(mean - phNow()) <= FAR * deviation) {
      return Optional.empty();
    }
    return Optional.of(
        new ReadingFlag(
            index,
            ReadingFlag.Kind.CONTRADICTS_THE_MODEL,
            "the last "
                + here.size()
                + " readings agree on pH "
                + two(mean)
                + ", the curve from all of them on "
                + two(phNow())
                + ": check the weight and strength of the dose, the materials, and the meter's"
                + " buffers; go by the meter once its buffers read right",
            false));
  }

  private void accept(Draft d, Equation equation, int index) {
    if (d.equations.isEmpty() && additions.isEmpty()) {
      SheetContradiction found =
          SheetContradiction.check(
              setting.dose.plan().blend(),
              setting.sheets,
              equation.ph(),
              setting.meter,
              setting.dose.plan().conditions());
      if (found.found()) {
        d.flags.add(
            new ReadingFlag(index, ReadingFlag.Kind.CONTRADICTS_A_SHEET, found.toString(), false));
      }
    }
    d.equations.add(equation);
    d.held = null;
    d.posterior = CurvePosterior.of(setting.prior, d.equations);
  }

  private double weighing(double ph) {
    double step =
        setting.rules.scale().resolutionGrams()
            / setting.dose.batch().inGrams()
            * CurvePrior.at(titrantCharge, ph);
    return doses * step * step / 12;
  }

  /** Why a reading is to be held back, if it is. */
  private Optional<ReadingFlag> judge(Equation e, int index) {
    double ph = e.ph();
    double far = Math.abs(distance(e, ph));
    if (far > FAR) {
      for (double unit : new double[] {1, -1}) {
        if (ph + unit >= 0 && ph + unit <= 14 && Math.abs(distance(e, ph + unit)) < NEAR) {
          return hold(
              index,
              ReadingFlag.Kind.TYPING_ERROR,
              "pH " + two(ph) + " does not fit, " + two(ph + unit) + " would: a slip of one unit?");
        }
      }
    }
    if (!equations.isEmpty()) {
      Equation last = equations.get(equations.size() - 1);
      double moved = ph - last.ph();
      boolean jumped = Math.abs(moved) > DISAGREE * e.deviation();
      String move = "pH went from " + two(last.ph()) + " to " + two(ph);
      if (last.dosed() == dosedEq) {
        if (jumped) {
          return hold(
              index,
              ReadingFlag.Kind.DRIFTING,
              move + " without a dose: stir, wait until it moves less than 0.02 in a minute");
        }
        if (creeps(moved, e.deviation())) {
          return hold(
              index,
              ReadingFlag.Kind.DRIFTING,
              move + ", the third reading without a dose that moved the same way: not settled yet");
        }
      } else if (jumped
          && moved * (CurvePrior.at(dosedEq, ph) - CurvePrior.at(last.dosed(), ph)) < 0) {
        return hold(
            index,
            ReadingFlag.Kind.AGAINST_THE_DOSE,
            move + ", against the dose: not stirred, electrode not settled, or the wrong bottle");
      }
    }
    if (far <= FAR) {
      return Optional.empty();
    }
    PhWindow expected = window(dosedEq, e.deviation());
    return hold(
        index,
        ReadingFlag.Kind.CONTRADICTS_THE_MODEL,
        "pH "
            + two(ph)
            + " is far from the expected "
            + two(expected.low())
            + " to "
            + two(expected.high())
            + ": check the weight and strength of the dose, the materials, and the meter's buffers");
  }

  /** Whether the last three readings without a dose between them moved one way by too much. */
  private boolean creeps(double moved, double deviation) {
    int n = equations.size();
    if (n < 2 || equations.get(n - 2).dosed() != dosedEq) {
      return false;
    }
    double earlier = equations.get(n - 1).ph() - equations.get(n - 2).ph();
    return earlier * moved > 0
        && Math.abs(earlier + moved) > Math.max(DRIFT_OVER_THREE, DISAGREE * deviation / 2);
  }

  private static Optional<ReadingFlag> hold(int index, ReadingFlag.Kind kind, String cause) {
    return Optional.of(new ReadingFlag(index, kind, cause + "; read again", true));
  }

  private static String two(double ph) {
    return Text.fixed(ph, 2);
  }

  /** How far a reading lies from what is expected [standard deviations]. */
  private double distance(Equation e, double ph) {
    double value = posterior.mean(ph) + CurvePrior.at(e.dosed(), ph);
    double deviation = posterior.deviation(ph);
    double slope = posterior.slopeWith(e.dosed(), ph) * e.deviation();
    return value / Math.sqrt(deviation * deviation + slope * slope + e.weighing());
  }

  private boolean lastIsReading() {
    return !steps.isEmpty() && steps.get(steps.size() - 1) instanceof PhReading;
  }

  /**
   * A dose of the titrant in use.
   *
   * @param grams how much went in, as the scale showed it [g], 0 or more
   * @return the titration with that dose
   * @throws IllegalArgumentException if the mass is negative or not finite
   */
  public Titration dosed(double grams) {
    return step(new TitrationStep.Dosed(titrant, grams));
  }

  /**
   * Product of the same batch, held back before the titration, stirred in.
   *
   * @param grams how much [g], 0 or more
   * @return the titration with that addition
   * @throws IllegalArgumentException if the mass is negative or not finite
   */
  public Titration freshProduct(double grams) {
    return step(new TitrationStep.FreshProduct(grams));
  }

  /**
   * Goes on with another titrant: a weaker solution, or a base after an overshoot.
   *
   * @param other the titrant
   * @return the titration with that titrant in use
   */
  public Titration with(Titrant other) {
    Draft d = new Draft(this);
    use(d, other);
    return new Titration(d);
  }

  private void use(Draft d, Titrant other) {
    if (!other.equals(d.titrant)) {
      d.titrant = other;
      d.titrantCharge = setting.chargeOf(other);
    }
  }

  /**
   * Any step, as for resuming.
   *
   * @param step what was done
   * @return the titration with that step
   */
  public Titration step(TitrationStep step) {
    if (step instanceof PhReading r) {
      return reading(r);
    }
    Draft d = new Draft(this);
    d.steps.add(Objects.requireNonNull(step, "step"));
    d.held = null;
    if (step instanceof TitrationStep.Dosed dosed) {
      use(d, dosed.titrant());
      double perKg = dosed.grams() / setting.dose.batch().inGrams() / productFactor;
      d.dosedEq = combined(dosedEq, 1, d.titrantCharge, perKg);
      d.additions.add(new Addition(dosed.titrant(), perKg));
      d.doses = doses + 1;
    } else if (step instanceof TitrationStep.FreshProduct fresh) {
      double factor = productFactor + fresh.grams() / setting.dose.batch().inGrams();
      double thinner = productFactor / factor;
      d.productFactor = factor;
      d.dosedEq = combined(dosedEq, thinner, dosedEq, 0);
      d.additions.clear();
      additions.forEach(a -> d.additions.add(new Addition(a.titrant(), a.kgPerKg() * thinner)));
    }
    return new Titration(d);
  }

  private static double[] combined(double[] a, double factor, double[] b, double times) {
    double[] sum = new double[a.length];
    for (int k = 0; k < sum.length; k++) {
      sum[k] = factor * a[k] + times * b[k];
    }
    return sum;
  }

  /**
   * The dose it began with.
   *
   * @return blend, target, first titrant and batch
   */
  public AcidDose dose() {
    return setting.dose;
  }

  /**
   * The meter.
   *
   * @return how well the pH is read
   */
  public Meter meter() {
    return setting.meter;
  }

  /**
   * The setting.rules.
   *
   * @return tolerance, risk and scale
   */
  public DosingRules rules() {
    return setting.rules;
  }

  /**
   * The titrant in use.
   *
   * @return the titrant
   */
  public Titrant titrant() {
    return titrant;
  }

  /**
   * Everything that was done, in order.
   *
   * @return readings, doses and additions of product
   */
  public List<TitrationStep> steps() {
    return steps;
  }

  /**
   * The readings that do not fit.
   *
   * @return the flags in the order in which they were raised
   */
  public List<ReadingFlag> flags() {
    return flags;
  }

  /**
   * Whether the last reading waits for a second one.
   *
   * @return true when it is kept out of the learning
   */
  public boolean lastReadingIsHeld() {
    return held != null;
  }

  /**
   * The estimate of the true pH after everything that was done, from all readings together.
   *
   * @return the pH
   */
  public double phNow() {
    return posterior.ph(dosedEq, 0, 0);
  }

  /**
   * The central 90 % of the true pH. Never wider than the meter's own error where the last reading
   * was taken after the last dose and agrees with the estimate.
   *
   * @return the interval
   */
  public PhWindow likelyPhNow() {
    PhWindow byTheCurve = window(dosedEq, 0);
    if (equations.isEmpty()) {
      return byTheCurve;
    }
    // Where little buffers, the learned curve stays near zero over units of pH; the meter does not.
    Equation last = equations.get(equations.size() - 1);
    double half = NINETY * last.deviation();
    return last.dosed() != dosedEq
            || byTheCurve.width() <= 2 * half
            || Math.abs(phNow() - last.ph()) > half
        ? byTheCurve
        : PhWindow.of(
            Math.max(byTheCurve.low(), last.ph() - half),
            Math.min(byTheCurve.high(), last.ph() + half));
  }

  /**
   * The pH after more of the titrant in use.
   *
   * @param grams how much more [g], 0 or more
   * @return the estimate
   * @throws IllegalArgumentException if the mass is negative or not finite
   */
  public double phAfter(double grams) {
    return posterior.ph(after(grams), 0, 0);
  }

  /**
   * The central 90 % of the true pH after more of the titrant in use.
   *
   * @param grams how much more [g], 0 or more
   * @return the interval
   * @throws IllegalArgumentException if the mass is negative or not finite
   */
  public PhWindow likelyPhAfter(double grams) {
    return window(after(grams), 0);
  }

  /**
   * The central 90 % of what the meter would show after more of the titrant in use: that of the
   * true pH and the meter's own error together.
   *
   * @param grams how much more [g], 0 or more
   * @return the interval
   * @throws IllegalArgumentException if the mass is negative or not finite
   */
  public PhWindow likelyReadingAfter(double grams) {
    return window(after(grams), setting.meter.accuracy());
  }

  private double[] after(double grams) {
    Require.inRange("dose", grams, 0, 1e9, "g");
    return combined(
        dosedEq, 1, titrantCharge, grams / setting.dose.batch().inGrams() / productFactor);
  }

  private PhWindow window(double[] dosed, double deviation) {
    double middle = posterior.ph(dosed, 0, 0);
    return PhWindow.of(
        Math.min(middle, posterior.ph(dosed, NINETY, deviation)),
        Math.max(middle, posterior.ph(dosed, -NINETY, deviation)));
  }

  /**
   * What is learned of the untreated product at a pH.
   *
   * @param ph the pH, 0 to 14
   * @return the acid it takes to bring the untreated product there, middle and central 90 %
   *     [meq/kg]; below zero where base is needed
   * @throws IllegalArgumentException if the pH is out of range
   */
  public Range alkalinityMeqPerKg(double ph) {
    Require.inRange("pH", ph, 0, 14, "");
    double mean = posterior.mean(ph) * 1000;
    double half = NINETY * posterior.deviation(ph) * 1000;
    return Range.of(mean - half, mean, mean + half);
  }

  /**
   * How much acid or base moves the pH by one unit.
   *
   * @param ph where, 0 to 14
   * @return the estimate [meq/kg per pH unit]
   * @throws IllegalArgumentException if the pH is out of range
   */
  public double bufferingMeqPerKgPerPh(double ph) {
    Require.inRange("pH", ph, 0, 14, "");
    return posterior.slopeWith(dosedEq, ph) * 1000;
  }

  CurvePrior prior() {
    return setting.prior;
  }

  /** The charge of all doses at a pH [eq/kg of product]. */
  double dosedCharge(double ph) {
    return CurvePrior.at(dosedEq, ph);
  }

  /** The charge of the titrant in use at a pH [eq/kg of titrant]. */
  double titrantCharge(double ph) {
    return CurvePrior.at(titrantCharge, ph);
  }

  double dosedKgPerKg() {
    return additions.stream().mapToDouble(Addition::kgPerKg).sum();
  }

  /** The product now in the vessel, without titrants. */
  Mass product() {
    return Mass.grams(setting.dose.batch().inGrams() * productFactor);
  }

  /**
   * What is left to dose of the titrant in use.
   *
   * @return the middle and the central 90 % [g]; zero where nothing is left
   */
  public Range remainingGrams() {
    double t = setting.dose.plan().target();
    double z = titrantCharge(t);
    double need = posterior.mean(t) + dosedCharge(t);
    double perKg = -need / z;
    double half = NINETY * posterior.deviation(t) / Math.abs(z);
    double unit = product().inGrams();
    double middle = Math.max(0, perKg);
    return Range.of(Math.max(0, perKg - half), middle, Math.max(middle, perKg + half)).times(unit);
  }

  /**
   * What to do next.
   *
   * @return a dose that goes past the target by more than the tolerance with at most the given
   *     risk, or why there is none
   */
  public NextDose next() {
    double target = setting.dose.plan().target();
    double now = phNow();
    if (!lastIsReading()) {
      return answer(NextDose.Action.READ, 0, now, "nothing was read since the last step");
    }
    if (held != null) {
      return answer(NextDose.Action.READ_AGAIN, 0, now, flags.get(flags.size() - 1).text());
    }
    double off = now - target;
    if (Math.abs(off) <= setting.rules.tolerance()) {
      return answer(
          NextDose.Action.FINISHED,
          0,
          now,
          "the estimate from all readings is within "
              + Text.number(setting.rules.tolerance())
              + " of the target; read again after 24 hours");
    }
    double z = titrantCharge(target);
    if (off > 0 == z > 0) {
      if (off > 0 != titrantCharge(now) > 0) {
        return answer(
            NextDose.Action.OUT_OF_REACH, 0, now, titrant + " itself does not reach the target");
      }
      return doses > 0
          ? answer(
              NextDose.Action.OVERSHOT,
              0,
              now,
              "past the target: bring it back with product held back, or with "
                  + (off > 0 ? "an acid" : "a base"))
          : answer(NextDose.Action.OTHER_TITRANT, 0, now, AcidDose.neededKind(now, target));
    }
    double unit = product().inGrams();
    double median = -(posterior.mean(target) + dosedCharge(target)) / z * unit;
    double tolerated = target + (z < 0 ? -setting.rules.tolerance() : setting.rules.tolerance());
    int side = z < 0 ? 1 : -1;
    double perGram = Math.abs(titrantCharge(tolerated)) / unit;
    double grams = posterior.need(dosedEq, tolerated, now, side, setting.rules.risk()) / perGram;
    String reason =
        "the largest dose that goes past "
            + Text.fixed(tolerated, 2)
            + " with at most "
            + Text.number(setting.rules.risk() * 100)
            + " % probability";
    if (doses == 0) {
      double ionicStrength = setting.prior.ionicStrength(tolerated);
      BlendCharge charge = setting.dose.charge();
      double lean = side * charge.leanShift(now, tolerated, ionicStrength) / perGram;
      double least = side * charge.extremeShift(now, tolerated, ionicStrength, -side) / perGram;
      if (setting.rules.newLots() && lean < grams) {
        grams = lean;
        reason = "the lots are new: no more than what every amount at its low end takes up";
      }
      if (least > grams) {
        grams = least;
        reason = "no lot inside its ranges takes up less";
      }
    } else {
      double risk = Math.min(0.5, SHORTCUT_RISK * setting.rules.risk());
      double shortcut = posterior.need(dosedEq, tolerated, now, side, risk) / perGram;
      double floor = Math.max(LEAST_SHARE * median, Math.min(SHORTCUT_SHARE * median, shortcut));
      if (floor > grams) {
        grams = floor;
        reason =
            "a good part of what is left, at a greater risk than asked for: a smaller dose teaches"
                + " too little";
      }
    }
    if (grams >= median) {
      grams = median;
      reason = "the middle estimate of what is left";
    }
    double step = setting.rules.scale().resolutionGrams();
    double whole = Math.floor(grams / step + 1e-9);
    if (whole < 1) {
      return answer(
          NextDose.Action.WEAKER_SOLUTION,
          0,
          now,
          "the right dose is "
              + Text.number(Math.max(0, grams))
              + " g, less than one step of the scale: use a weaker solution, thinned 1 to "
              + Text.number(thinning(grams, median, step)));
    }
    return answer(
        NextDose.Action.DOSE,
        Math.min(whole * step, setting.rules.scale().capacityGrams()),
        now,
        reason);
  }

  private static double thinning(double grams, double median, double step) {
    double wanted = grams > 0 ? grams : median / 10;
    double parts = 10 * step / Math.max(wanted, 1e-6);
    return Math.max(2, Math.min(100, Math.ceil(parts)));
  }

  private NextDose answer(NextDose.Action action, double grams, double now, String reason) {
    double[] then = grams == 0 ? dosedEq : after(grams);
    double expected = grams == 0 ? now : posterior.ph(then, 0, 0);
    List<String> cautions = new ArrayList<>();
    if (action == NextDose.Action.DOSE) {
      cautions.addAll(titrant.cautions());
      if (titrant.minutesToAct() > 60) {
        cautions.add(
            "slow titrant: wait "
                + Text.number(titrant.minutesToAct() / 60)
                + " hours before you read");
      }
      double division = setting.rules.scale().resolutionGrams();
      if (grams < 10 * division) {
        cautions.add(
            "one step of the scale is "
                + Text.number(Math.round(division / grams * 100))
                + " % of this dose: a weaker solution is easier to weigh");
      }
    }
    return new NextDose(
        action,
        titrant,
        Mass.grams(grams),
        now,
        likelyPhNow(),
        expected,
        window(then, setting.meter.accuracy()),
        remainingGrams(),
        reason,
        cautions);
  }

  /**
   * What brings the batch back when it went past the target.
   *
   * @return the repair, with intervals from what was learned
   */
  public OvershootRepair repair() {
    double target = setting.dose.plan().target();
    return new OvershootRepair(
        setting.dose,
        product(),
        phNow(),
        setting.prior.ionicStrength(target),
        posterior.mean(target),
        dosedCharge(target),
        posterior.deviation(target),
        dosedKgPerKg());
  }

  /**
   * The curve so far and to come: what the meter would show against the dose of the titrant in use,
   * counted from now.
   *
   * @param toGrams the last point [g], more than 0 to 1e9
   * @param points how many, 2 to 1000
   * @return the points, dose rising
   * @throws IllegalArgumentException if a figure is out of range
   */
  public List<CurvePoint> curve(double toGrams, int points) {
    Require.inRange("last point", Require.positive("last point", toGrams, "g"), 0, 1e9, "g");
    Require.inRange("points", points, 2, 1000, "");
    List<CurvePoint> all = new ArrayList<>();
    double base = dosedGrams();
    for (int i = 0; i < points; i++) {
      double grams = toGrams * i / (points - 1);
      double[] then =
          combined(
              combined(
                  dosedEq,
                  1,
                  titrantCharge,
                  -base / setting.dose.batch().inGrams() / productFactor),
              1,
              titrantCharge,
              grams / setting.dose.batch().inGrams() / productFactor);
      all.add(
          new CurvePoint(
              grams,
              posterior.ph(then, 0, 0),
              window(then, 0),
              window(then, setting.meter.accuracy())));
    }
    return List.copyOf(all);
  }

  /** How much of the titrant in use went in so far [g]. */
  private double dosedGrams() {
    double sum = 0;
    for (TitrationStep s : steps) {
      if (s instanceof TitrationStep.Dosed d && d.titrant().equals(titrant)) {
        sum += d.grams();
      }
    }
    return sum;
  }

  /**
   * A point of the learned curve.
   *
   * @param grams the whole dose of the titrant in use [g]
   * @param ph the estimate
   * @param likelyPh the central 90 % of the true pH
   * @param likelyReading the central 90 % of a reading
   */
  public record CurvePoint(double grams, double ph, PhWindow likelyPh, PhWindow likelyReading) {}

  /**
   * What the figures rest on.
   *
   * @return sentences without a full stop
   */
  public List<String> assumptions() {
    List<String> all = new ArrayList<>(setting.dose.assumptions());
    all.add(
        "meter error "
            + Text.number(setting.meter.accuracy())
            + " as a standard deviation, independent from reading to reading: a constant offset of"
            + " the meter cannot be learned");
    all.add("titrant strength as named, doses as the scale showed them");
    all.add("small buffers that no sheet declares, about 2 meq per kg of surfactant as supplied");
    return List.copyOf(all);
  }

  /**
   * The titration as a table in at most 80 columns, flags and next step below.
   *
   * @return several lines
   */
  public String summary() {
    StringBuilder s = new StringBuilder();
    s.append("Titration of ")
        .append(setting.dose.batch())
        .append(" of ")
        .append(setting.dose.plan().blend().name())
        .append(" to pH ")
        .append(Text.fixed(setting.dose.plan().target(), 2))
        .append('\n');
    s.append("  step   dosed, g   in all, g   read    held\n");
    double sum = 0;
    int i = 0;
    for (TitrationStep step : steps) {
      int index = i++;
      s.append(Text.right(Integer.toString(index + 1), 6));
      if (step instanceof TitrationStep.Dosed d) {
        sum += d.grams();
        s.append(Text.right(Text.fixed(d.grams(), 3), 11))
            .append(Text.right(Text.fixed(sum, 3), 12))
            .append("           ")
            .append(d.titrant());
      } else if (step instanceof PhReading r) {
        s.append(Text.right(Text.fixed(r.ph(), 2), 30));
        if (flags.stream().anyMatch(f -> f.step() == index && f.held())) {
          s.append("    yes");
        }
      } else {
        s.append("   ").append(step);
      }
      s.append('\n');
    }
    flags.forEach(f -> s.append("  Flag: ").append(f.text()).append(".\n"));
    return s.append(next()).toString();
  }

  /**
   * The learned curve as a table for a plain terminal.
   *
   * @param toGrams the last point [g], more than 0
   * @param points how many, 2 to 1000
   * @return several lines
   * @throws IllegalArgumentException if a figure is out of range
   */
  public String curveTable(double toGrams, int points) {
    StringBuilder s = new StringBuilder("  dose, g     pH   likely (central 90 %)\n");
    for (CurvePoint p : curve(toGrams, points)) {
      s.append(Text.right(Text.fixed(p.grams(), 3), 9))
          .append(Text.right(Text.fixed(p.ph(), 2), 7))
          .append(Text.right(Text.fixed(p.likelyPh().low(), 2), 8))
          .append(" to ")
          .append(Text.fixed(p.likelyPh().high(), 2))
          .append("  ")
          .append(bar(p))
          .append('\n');
    }
    return s.toString();
  }

  private static String bar(CurvePoint p) {
    char[] line = " ".repeat(45).toCharArray();
    for (int c = column(p.likelyPh().low()); c <= column(p.likelyPh().high()); c++) {
      line[c] = '-';
    }
    line[column(p.ph())] = '*';
    return new String(line).stripTrailing();
  }

  private static int column(double ph) {
    return (int) Math.max(0, Math.min(44, Math.round((ph - 2) * 4)));
  }

  @Override
  public String toString() {
    return summary();
  }
}
