package org.surfactantblend.acidity;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.ChargeCurve;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Range;

/**
 * What is known of a blend's charge curve before any reading: its mean and covariance over the
 * whole pH scale, on a grid fine enough that a cubic between four points is exact to 1e-4 meq/kg.
 *
 * <p>Three parts: the materials' declared ranges (a little widened, because ranges of typical
 * grades are not limits), small buffers that no sheet declares, and a free level of strong ions,
 * which the first reading settles.
 *
 * <p>Two things go beyond one mean and one covariance. The apparent constant that the way to the
 * target depends on most is cut into slices of its range, one component each, because a single
 * normal distribution describes the whole range poorly. And the carboxyls of a surfactant whose
 * range is wide do not share one constant: they fill a micelle of their own, so half of them keep
 * to the slice and half have a constant of their own from the range, with more room for both.
 *
 * <p>Immutable.
 */
final class CurvePrior {
  static final double LOW = -0.5;
  static final double STEP = 0.1;
  static final int POINTS = 151;

  private static final double WIDENING = 1.15;
  private static final int SLICES = 5;

  /** How far the slices reach beyond either end of the range, as a share of it. */
  private static final double BEYOND = 0.05;

  /** The least width of a carboxyl's range that stands for a spread within one drum [pH]. */
  private static final double WIDE = 1 - 1e-9;

  private static final double MICELLE_WIDENING = 1.7;
  private static final double FREE_LEVEL = 30e-3;
  private static final double UNASSIGNED = 2e-3;
  private static final double UNASSIGNED_BESIDE_STRONG_ACIDS = 0.5e-3;
  private static final double LEAST_UNASSIGNED_PKA = 4;
  private static final double GREATEST_UNASSIGNED_PKA = 10;
  private static final double MOST_IONIC_STRENGTH = 1;

  private final BlendCharge charge;
  private final double[] ionicStrength = new double[POINTS];
  private final double[] waterSlope = new double[POINTS];
  private final List<Component> components;

  /**
   * The curve for one slice; all slices are equally probable.
   *
   * @param mean over the grid [eq/kg of product]
   * @param covariance over the grid [(eq/kg of product)^2]
   */
  @SuppressWarnings("ArrayRecordComponent")
  record Component(double[] mean, double[][] covariance) {
    /** The covariance of the curve at one pH with itself over the grid. */
    double[] row(double ph) {
      Weights w = new Weights(ph);
      double[] row = new double[POINTS];
      for (int a = 0; a < 4; a++) {
        double[] from = covariance[w.first + a];
        double weight = w.weight(a);
        for (int k = 0; k < POINTS; k++) {
          row[k] += weight * from[k];
        }
      }
      return row;
    }
  }

  /** The constant that the way to the target depends on most. */
  private record Leading(int line, AcidBaseGroup group, Range pKa) {}

  CurvePrior(BlendCharge charge, AcidDose.Plan plan, double ionicStrengthAtTarget) {
    Blend blend = plan.blend();
    this.charge = charge;
    double[] ph = new double[POINTS];
    double[] common = new double[POINTS];
    for (int k = 0; k < POINTS; k++) {
      ph[k] = LOW + k * STEP;
      ionicStrength[k] =
          Math.min(MOST_IONIC_STRENGTH, charge.doseTo(ph[k], plan.titrant(), 0).ionicStrength());
      waterSlope[k] = charge.waterSlope(ph[k], ionicStrength[k]);
      // The spread is worked out at one ionic strength; the typical curve knows each pH's own.
      common[k] =
          charge.chargeEqPerKg(ph[k], ionicStrength[k])
              - charge.chargeEqPerKg(ph[k], ionicStrengthAtTarget)
              + charge.waterCharge(ph[k], ionicStrengthAtTarget);
    }
    Component base = new Component(common, undeclared(blend, ph));
    Leading leading = leading(plan);
    List<BlendLine> lines = blend.lines();
    for (int i = 0; i < lines.size(); i++) {
      if (leading == null || i != leading.line()) {
        add(base, lines.get(i), spread(lines.get(i).material()), ph, ionicStrengthAtTarget);
      }
    }
    if (leading == null) {
      components = List.of(base);
      return;
    }
    BlendLine line = lines.get(leading.line());
    List<Component> all = new ArrayList<>();
    for (int s = 0; s < SLICES; s++) {
      Component slice = copy(base);
      add(slice, line, sliced(line.material(), leading, s), ph, ionicStrengthAtTarget);
      all.add(slice);
    }
    components = List.copyOf(all);
  }

  private static Component copy(Component c) {
    double[][] covariance = new double[POINTS][];
    for (int k = 0; k < POINTS; k++) {
      covariance[k] = c.covariance()[k].clone();
    }
    return new Component(c.mean().clone(), covariance);
  }

  private void add(Component to, BlendLine line, Material m, double[] ph, double ionicStrength) {
    ChargeCurve.Moments own = m.chargeCurve(charge.conditions()).moments(ph, ionicStrength);
    double w = line.massFraction();
    double widening = WIDENING * (hasWideCarboxyl(line.material()) ? MICELLE_WIDENING : 1);
    double square = square(w * widening);
    for (int k = 0; k < POINTS; k++) {
      to.mean()[k] += w * own.mean()[k];
      for (int l = 0; l < POINTS; l++) {
        to.covariance()[k][l] += square * own.covariance()[k][l];
      }
    }
  }

  private static double[][] undeclared(Blend blend, double[] ph) {
    double level = 0;
    double unassigned = 0;
    for (BlendLine line : blend.lines()) {
      if (line.material().isSurfactant()) {
        if (!isTitrated(line.material())) {
          level += square(line.massFraction() * FREE_LEVEL);
        }
        unassigned += square(line.massFraction() * unassignedEqPerKg(line.material()));
      }
    }
    double[][] covariance = new double[POINTS][POINTS];
    for (double[] row : covariance) {
      Arrays.fill(row, level);
    }
    double[] share = new double[POINTS];
    for (double pKa = LEAST_UNASSIGNED_PKA; pKa <= GREATEST_UNASSIGNED_PKA; pKa++) {
      for (int k = 0; k < POINTS; k++) {
        share[k] = 1 / (1 + StrictMath.pow(10, pKa - ph[k]));
      }
      for (int k = 0; k < POINTS; k++) {
        for (int l = 0; l < POINTS; l++) {
          covariance[k][l] += unassigned * share[k] * share[l];
        }
      }
    }
    return covariance;
  }

  /** Whether the strong ions were measured, so that no sheet pH can be outside its row. */
  private static boolean isTitrated(Material m) {
    return m.strongIonEqPerKg().isPresent()
        || m.sheetPh().map(s -> !s.addedAcidEqPerKg().equals(Range.ZERO)).orElse(false);
  }

  /** The standard deviation of a buffer that no sheet declares [eq/kg as supplied]. */
  private static double unassignedEqPerKg(Material m) {
    String family = m.family().name();
    return family.contains("sulfate") || family.contains("sulfonate")
        ? UNASSIGNED_BESIDE_STRONG_ACIDS
        : UNASSIGNED;
  }

  private static @Nullable Leading leading(AcidDose.Plan plan) {
    Conditions at = plan.conditions();
    double target = plan.target();
    double from = target + (plan.titrant().chargeEqPerKg(at, target, 0.1) < 0 ? 2 : -2);
    double most = 0;
    Leading found = null;
    List<BlendLine> lines = plan.blend().lines();
    for (int i = 0; i < lines.size(); i++) {
      BlendLine line = lines.get(i);
      for (AcidBaseGroup g : line.material().groups()) {
        Range pKa = g.pKa();
        if (pKa != null && !pKa.isExact() && g.acid().steps().size() == 1) {
          double swing =
              Math.abs(
                  shift(g, pKa.low(), target, from, at) - shift(g, pKa.high(), target, from, at));
          swing *= line.massFraction() * g.amount().typical();
          if (swing > most) {
            most = swing;
            found = new Leading(i, g, pKa);
          }
        }
      }
    }
    return found;
  }

  private static double shift(
      AcidBaseGroup g, double pKa, double target, double from, Conditions at) {
    return at.meanCharge(g.acid().withPka(0, pKa), target, 0.1)
        - at.meanCharge(g.acid().withPka(0, pKa), from, 0.1);
  }

  private static boolean isWideCarboxyl(AcidBaseGroup g) {
    Range pKa = g.pKa();
    return g.onActive()
        && pKa != null
        && pKa.width() >= WIDE
        && g.acid().steps().size() == 1
        && g.acid().chargeOfMostProtonatedForm() == 0;
  }

  private static boolean hasWideCarboxyl(Material m) {
    return m.groups().stream().anyMatch(CurvePrior::isWideCarboxyl);
  }

  /** Half of every wide carboxyl with a constant of its own. */
  private static Material spread(Material m) {
    if (!hasWideCarboxyl(m)) {
      return m;
    }
    Material.Builder b = m.toBuilder();
    for (AcidBaseGroup g : m.groups()) {
      if (isWideCarboxyl(g)) {
        b.group(part(g, g.name(), g.pKa()));
        b.group(part(g, g.name() + ", other half", g.pKa()));
      }
    }
    return b.build();
  }

  private static Material sliced(Material m, Leading leading, int slice) {
    Range whole = leading.pKa();
    double width = whole.width() * (1 + 2 * BEYOND) / SLICES;
    double low = whole.low() - BEYOND * whole.width() + slice * width;
    Range pKa = Range.between(low, low + width);
    AcidBaseGroup g = leading.group();
    if (isWideCarboxyl(g)) {
      return spread(m).toBuilder().group(part(g, g.name(), pKa)).build();
    }
    return spread(m).toBuilder()
        .group(
            new AcidBaseGroup(
                g.name(), g.acid().withPka(0, pKa.typical()), pKa, g.amount(), false, g.onActive()))
        .build();
  }

  private static AcidBaseGroup part(AcidBaseGroup g, String name, @Nullable Range pKa) {
    return new AcidBaseGroup(
        name,
        pKa == null ? g.acid() : g.acid().withPka(0, pKa.typical()),
        pKa,
        g.amount().times(0.5),
        false,
        true);
  }

  private static double square(double x) {
    return x * x;
  }

  BlendCharge charge() {
    return charge;
  }

  List<Component> components() {
    return components;
  }

  /** The steepest fall that the model allows nowhere to be undercut [eq/kg per pH unit]. */
  double waterSlope(double ph) {
    return at(waterSlope, ph);
  }

  double ionicStrength(double ph) {
    return at(ionicStrength, ph);
  }

  /** The charge of a titrant over the grid, each at the ionic strength that goes with the pH. */
  double[] chargeOf(Titrant titrant, Conditions conditions) {
    double[] z = new double[POINTS];
    for (int k = 0; k < POINTS; k++) {
      z[k] = titrant.chargeEqPerKg(conditions, LOW + k * STEP, ionicStrength[k]);
    }
    return z;
  }

  /** A value between the points of a grid. */
  static double at(double[] grid, double ph) {
    Weights w = new Weights(ph);
    return w.w0 * grid[w.first]
        + w.w1 * grid[w.first + 1]
        + w.w2 * grid[w.first + 2]
        + w.w3 * grid[w.first + 3];
  }

  /** The slope between the points of a grid [per pH unit]. */
  static double slope(double[] grid, double ph) {
    return (at(grid, ph + STEP / 2) - at(grid, ph - STEP / 2)) / STEP;
  }

  /** The four points around a pH with their weights in the cubic through them. */
  private static final class Weights {
    final int first;
    final double w0;
    final double w1;
    final double w2;
    final double w3;

    Weights(double ph) {
      double x = (ph - LOW) / STEP;
      first = Math.max(0, Math.min(POINTS - 4, (int) Math.floor(x) - 1));
      double t = x - first;
      w0 = -(t - 1) * (t - 2) * (t - 3) / 6;
      w1 = t * (t - 2) * (t - 3) / 2;
      w2 = -t * (t - 1) * (t - 3) / 2;
      w3 = t * (t - 1) * (t - 2) / 6;
    }

    double weight(int i) {
      return switch (i) {
        case 0 -> w0;
        case 1 -> w1;
        case 2 -> w2;
        default -> w3;
      };
    }
  }
}
