package org.surfactantblend.acidity;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.surfactantblend.acidity.BlendCharge.Addition;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.CertificateOfAnalysis;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.SheetPh;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Text;

/**
 * What a small titration says about one lot: its alkalinity and its buffers, for its certificate.
 *
 * <p>Some 20 g of the lot in 80 g of water, two readings or more with doses between them. The
 * unknowns are the charge of the strong ions, which the readings alone settle, the amounts of the
 * weak groups, each spread over its range of pKa, and small buffers that no sheet declares. They
 * are found by linear Bayesian regression on the charge balance at each reading, with the grade's
 * ranges as prior; amounts that would fall below zero are held at zero.
 *
 * <p>In the lot that comes out, groups that the readings reached have the amounts found; what is
 * left open stands as a range of the acid to the last reading, about which their errors cancel.
 * Groups that the readings did not reach keep the grade's ranges.
 *
 * <p>Immutable and thread-safe.
 */
public final class LotCalibration {
  private static final double WIDENING = 1.15 * 1.15;

  /** So wide that the readings alone settle the strong ions [eq/kg as supplied]. */
  private static final double FREE_STRONG = 1;

  private static final int PKA_POINTS = 5;
  private static final double LEAST_UNDECLARED_PKA = 4;
  private static final int UNDECLARED = 7;
  private static final double UNDECLARED_EQ_PER_KG = 2e-3;
  private static final double TRACE = 1e-6;
  private static final double REACH = 0.5;
  private static final double NOTHING = 1e-6;

  /** The half width of a symmetric triangle over its standard deviation. */
  private static final double TRIANGLE = 2.449489742783178;

  private static final double NEUTRAL = 7;
  private static final double SLOPE_STEP = 0.02;
  private static final String PART = ", part at pKa ";

  private final Titration titration;
  private final Material grade;
  private final SheetPh endPoint;
  private final List<AcidBaseGroup> buffers;
  private final int readings;

  private LotCalibration(
      Titration titration,
      Material grade,
      SheetPh endPoint,
      List<AcidBaseGroup> buffers,
      int readings) {
    this.titration = titration;
    this.grade = grade;
    this.endPoint = endPoint;
    this.buffers = List.copyOf(buffers);
    this.readings = readings;
  }

  /**
   * Learns a lot from its titration.
   *
   * @param titration of a blend that holds one material in water, two readings or more and a dose
   *     between them; readings that were held back are left out
   * @return what was learned
   * @throws IllegalArgumentException if the blend holds another number of materials that move a pH,
   *     or there are too few readings
   */
  public static LotCalibration of(Titration titration) {
    return new Fit(Objects.requireNonNull(titration, "titration")).result();
  }

  /** An unknown amount: a group at one pKa. */
  private record Unknown(AcidBase acid, AcidBaseGroup group, boolean declared) {}

  /**
   * A reading as an equation, with the fall of its doses' charge per pH and their weighing error.
   */
  @SuppressWarnings("ArrayRecordComponent")
  private record Equation(
      double[] row, double value, double ph, double deviation, double dosedSlope, double weigh) {}

  private static final class Fit {
    private final Titration titration;
    private final Conditions conditions;
    private final BlendCharge charge;
    private final Material grade;
    private final double fraction;
    private final List<Unknown> unknowns = new ArrayList<>();
    private final ArrayRealVector mean;
    private final Array2DRowRealMatrix covariance;
    private final List<Equation> equations = new ArrayList<>();

    Fit(Titration titration) {
      this.titration = titration;
      AcidDose.Plan plan = titration.dose().plan();
      conditions = plan.conditions();
      charge = BlendCharge.of(plan.blend(), conditions);
      BlendLine line = only(plan.blend());
      grade = line.material();
      fraction = line.massFraction();
      for (AcidBaseGroup g : grade.groups()) {
        for (double pKa : points(g)) {
          AcidBase acid = Double.isNaN(pKa) ? g.acid() : g.acid().withPka(0, pKa);
          unknowns.add(new Unknown(acid, g, true));
        }
      }
      for (int i = 0; i < UNDECLARED; i++) {
        double pKa = LEAST_UNDECLARED_PKA + i;
        String name = "undeclared buffer at pKa " + Text.number(pKa);
        AcidBase acid = AcidBase.acid(name, pKa).asApparent();
        unknowns.add(
            new Unknown(
                acid, new AcidBaseGroup(name, acid, null, Range.ZERO, false, false), false));
      }
      int n = unknowns.size() + 1;
      mean = new ArrayRealVector(n);
      covariance = new Array2DRowRealMatrix(n, n);
      prior();
      read();
    }

    private static BlendLine only(Blend blend) {
      List<BlendLine> all =
          blend.lines().stream()
              .filter(l -> l.massFraction() > 0)
              .filter(
                  l ->
                      l.material().sheetPh().isPresent()
                          || l.material().strongIonEqPerKg().isPresent()
                          || !l.material().groups().isEmpty())
              .toList();
      if (all.size() != 1) {
        throw new IllegalArgumentException(
            "materials that move a pH in "
                + blend.name()
                + " were "
                + all.size()
                + ", allowed is 1, in water");
      }
      return all.get(0);
    }

    /** The pKa values over which a group is spread; NaN for its own constants. */
    private static double[] points(AcidBaseGroup g) {
      Range pKa = g.pKa();
      if (pKa == null || pKa.isExact() || g.acid().steps().size() > 1) {
        return new double[] {Double.NaN};
      }
      double[] all = new double[PKA_POINTS];
      for (int i = 0; i < PKA_POINTS; i++) {
        all[i] = pKa.low() + (i + 0.5) * pKa.width() / PKA_POINTS;
      }
      return all;
    }

    /** Triangular weights of those values. */
    private static double[] weights(AcidBaseGroup g) {
      double[] points = points(g);
      Range pKa = g.pKa();
      if (points.length == 1 || pKa == null) {
        return new double[] {1};
      }
      double[] w = new double[points.length];
      double sum = 0;
      for (int i = 0; i < w.length; i++) {
        double p = points[i];
        w[i] =
            p < pKa.typical()
                ? (p - pKa.low()) / (pKa.typical() - pKa.low())
                : (pKa.high() - p) / (pKa.high() - pKa.typical());
        sum += w[i];
      }
      for (int i = 0; i < w.length; i++) {
        w[i] /= sum;
      }
      return w;
    }

    private void prior() {
      mean.setEntry(0, grade.chargeCurve(conditions).strongChargeEqPerKg());
      covariance.setEntry(0, 0, FREE_STRONG * FREE_STRONG);
      int at = 1;
      for (AcidBaseGroup g : grade.groups()) {
        Range r = g.amount();
        double m = (r.low() + r.typical() + r.high()) / 3;
        double a = r.low();
        double b = r.typical();
        double c = r.high();
        double square = m * m + (a * a + b * b + c * c - a * b - a * c - b * c) / 18;
        double[] w = weights(g);
        // The amount times one pKa out of several: the moments of that product.
        for (int i = 0; i < w.length; i++) {
          mean.setEntry(at + i, m * w[i]);
          for (int j = 0; j < w.length; j++) {
            double cov = (i == j ? square * w[i] : 0) - m * m * w[i] * w[j];
            covariance.setEntry(at + i, at + j, WIDENING * cov);
          }
        }
        at += w.length;
      }
      for (; at <= unknowns.size(); at++) {
        covariance.setEntry(at, at, UNDECLARED_EQ_PER_KG * UNDECLARED_EQ_PER_KG);
      }
    }

    /** Gathers the readings that were not held back. */
    private void read() {
      double batch = titration.dose().batch().inGrams();
      List<Addition> additions = new ArrayList<>();
      boolean dosed = false; // since the first reading
      boolean dosedBetween = false;
      for (int i = 0; i < titration.steps().size(); i++) {
        int index = i;
        TitrationStep step = titration.steps().get(i);
        if (step instanceof TitrationStep.Dosed d) {
          additions.add(new Addition(d.titrant(), d.grams() / batch));
          dosed = !equations.isEmpty();
        } else if (step instanceof PhReading r) {
          if (titration.flags().stream().noneMatch(f -> f.step() == index && f.held())) {
            dosedBetween |= dosed;
            equations.add(equation(r, additions));
          }
        } else {
          throw new IllegalArgumentException(
              "step " + (i + 1) + " was " + step + ", allowed are readings and doses");
        }
      }
      if (equations.size() < 2 || !dosedBetween) {
        throw new IllegalArgumentException(
            "readings of lot were "
                + equations.size()
                + (dosedBetween ? "" : " without a dose between")
                + ", allowed is at least 2 with a dose between");
      }
    }

    private Equation equation(PhReading reading, List<Addition> additions) {
      double ph = reading.ph();
      double deviation = titration.meter().accuracy();
      if (!reading.isPlain()) {
        ComparablePh worth =
            ComparablePh.of(charge, titration.dose().plan().blend(), additions, reading);
        ph = Math.max(0, Math.min(14, worth.ph()));
        deviation = Math.hypot(deviation, worth.likely().width() / 2);
      }
      double ionicStrength = ionicStrength(ph);
      double value = -water(ph, ionicStrength);
      double step =
          titration.rules().scale().resolutionGrams() / titration.dose().batch().inGrams();
      double weigh = 0;
      double slope = 0;
      for (Addition a : additions) {
        double z = a.titrant().chargeEqPerKg(conditions, ph, ionicStrength);
        value -= a.kgPerKg() * z;
        weigh += step * step * z * z / 12;
        slope +=
            a.kgPerKg()
                * (a.titrant().chargeEqPerKg(conditions, ph - SLOPE_STEP, ionicStrength)
                    - a.titrant().chargeEqPerKg(conditions, ph + SLOPE_STEP, ionicStrength))
                / (2 * SLOPE_STEP);
      }
      return new Equation(row(ph, ionicStrength), value, ph, deviation, slope, weigh);
    }

    private double ionicStrength(double ph) {
      return charge.doseTo(ph, titration.dose().plan().titrant(), 0).ionicStrength();
    }

    private double water(double ph, double ionicStrength) {
      return charge.waterKgPerKg()
          * (conditions.h(ph, ionicStrength) - conditions.oh(ph, ionicStrength));
    }

    /** What each unknown adds to the charge of the sample at a pH. */
    private double[] row(double ph, double ionicStrength) {
      double[] row = new double[unknowns.size() + 1];
      row[0] = fraction;
      for (int i = 0; i < unknowns.size(); i++) {
        row[i + 1] = fraction * conditions.meanCharge(unknowns.get(i).acid(), ph, ionicStrength);
      }
      return row;
    }

    LotCalibration result() {
      RealVector estimate = mean;
      List<Integer> zero = new ArrayList<>();
      RealMatrix open = covariance;
      // Twice, so that the slope at each reading is that of what was found.
      for (int pass = 0; pass < 2; pass++) {
        double[] noise = new double[equations.size()];
        for (int i = 0; i < noise.length; i++) {
          Equation e = equations.get(i);
          double slope = slope(estimate, e.ph()) + e.dosedSlope();
          noise[i] = slope * slope * e.deviation() * e.deviation() + e.weigh() + TRACE * TRACE;
        }
        zero.clear();
        while (true) {
          Solved s = solve(noise, zero);
          estimate = s.mean;
          open = s.covariance;
          int worst = mostNegative(estimate);
          if (worst < 0) {
            break;
          }
          zero.add(worst);
        }
      }
      return lot(estimate, open);
    }

    private double slope(RealVector estimate, double ph) {
      double up = curve(estimate, ph + SLOPE_STEP);
      double down = curve(estimate, ph - SLOPE_STEP);
      double ionicStrength = ionicStrength(ph);
      return Math.max((down - up) / (2 * SLOPE_STEP), charge.waterSlope(ph, ionicStrength));
    }

    private double curve(RealVector estimate, double ph) {
      double ionicStrength = ionicStrength(ph);
      return water(ph, ionicStrength)
          + estimate.dotProduct(new ArrayRealVector(row(ph, ionicStrength), false));
    }

    private static int mostNegative(RealVector estimate) {
      int worst = -1;
      double least = -1e-9;
      for (int i = 1; i < estimate.getDimension(); i++) {
        if (estimate.getEntry(i) < least) {
          least = estimate.getEntry(i);
          worst = i;
        }
      }
      return worst;
    }

    private record Solved(RealVector mean, RealMatrix covariance) {}

    /** The regression, with some amounts held at zero as if they had been measured so. */
    private Solved solve(double[] noise, List<Integer> zero) {
      int n = unknowns.size() + 1;
      int m = equations.size() + zero.size();
      Array2DRowRealMatrix rows = new Array2DRowRealMatrix(m, n);
      ArrayRealVector off = new ArrayRealVector(m);
      for (int i = 0; i < equations.size(); i++) {
        rows.setRow(i, equations.get(i).row());
        off.setEntry(i, equations.get(i).value());
      }
      for (int k = 0; k < zero.size(); k++) {
        rows.setEntry(equations.size() + k, zero.get(k), 1);
      }
      RealVector innovation = off.subtract(rows.operate(mean));
      RealMatrix across = rows.multiply(covariance);
      RealMatrix among = across.multiply(rows.transpose());
      for (int i = 0; i < m; i++) {
        among.addToEntry(i, i, i < noise.length ? noise[i] : TRACE * TRACE);
        for (int j = 0; j < i; j++) {
          double both = (among.getEntry(i, j) + among.getEntry(j, i)) / 2;
          among.setEntry(i, j, both);
          among.setEntry(j, i, both);
        }
      }
      RealMatrix gain =
          new CholeskyDecomposition(among, 1e-6, 1e-30).getSolver().solve(across).transpose();
      return new Solved(
          mean.add(gain.operate(innovation)), covariance.subtract(gain.multiply(across)));
    }

    private LotCalibration lot(RealVector estimate, RealMatrix open) {
      double low = equations.stream().mapToDouble(Equation::ph).min().orElseThrow();
      double high = equations.stream().mapToDouble(Equation::ph).max().orElseThrow();
      double last = equations.get(equations.size() - 1).ph();
      List<AcidBaseGroup> found = new ArrayList<>();
      int at = 1;
      for (AcidBaseGroup g : grade.groups()) {
        int count = points(g).length;
        if (reached(g, low, high)) {
          for (int i = 0; i < count; i++) {
            Unknown u = unknowns.get(at + i - 1);
            String name = i == 0 ? g.name() : g.name() + PART + pKa(u.acid());
            add(found, name, u, estimate.getEntry(at + i), i == 0);
          }
        }
        at += count;
      }
      for (; at <= unknowns.size(); at++) {
        Unknown u = unknowns.get(at - 1);
        add(found, u.group().name(), u, estimate.getEntry(at), false);
      }
      double acid = curve(estimate, last) / fraction;
      double half = TRIANGLE * Math.max(deviation(open, last), between(open, low, high)) / fraction;
      Range range = Range.of(acid - half, acid, acid + half);
      return new LotCalibration(
          titration, grade, SheetPh.endPoint(last, fraction * 100, range), found, equations.size());
    }

    private static String pKa(AcidBase acid) {
      return Text.fixed(acid.steps().get(0).pKa25(), 2);
    }

    private static boolean reached(AcidBaseGroup g, double low, double high) {
      return g.acid().steps().stream()
          .anyMatch(step -> step.pKa25() >= low - REACH && step.pKa25() <= high + REACH);
    }

    /**
     * A group with the amount found; a first part is kept even if empty, in place of the grade's.
     */
    private static void add(
        List<AcidBaseGroup> all, String name, Unknown u, double amount, boolean always) {
      if (always || amount > NOTHING) {
        all.add(
            new AcidBaseGroup(
                name,
                u.acid(),
                null,
                Range.exactly(Math.max(0, amount)),
                false,
                u.group().onActive()));
      }
    }

    /** The deviation at neutral, as far as it was titrated. */
    private double between(RealMatrix open, double low, double high) {
      return deviation(open, Math.max(low, Math.min(high, NEUTRAL)));
    }

    private double deviation(RealMatrix open, double ph) {
      ArrayRealVector row = new ArrayRealVector(row(ph, ionicStrength(ph)), false);
      return Math.sqrt(Math.max(0, open.operate(row).dotProduct(row)));
    }
  }

  /**
   * The titration it was learned from.
   *
   * @return the titration
   */
  public Titration titration() {
    return titration;
  }

  /**
   * The grade whose ranges were the starting point.
   *
   * @return the material as it was titrated
   */
  public Material grade() {
    return grade;
  }

  /**
   * The acid from the untouched sample to the last reading, with what is left open.
   *
   * @return its pH, dilution and acid [eq/kg as supplied], negative for base
   */
  public SheetPh endPoint() {
    return endPoint;
  }

  /**
   * The weak groups that were found.
   *
   * @return in mol per kg as supplied
   */
  public List<AcidBaseGroup> buffers() {
    return buffers;
  }

  /**
   * How many readings were used.
   *
   * @return 2 or more
   */
  public int readings() {
    return readings;
  }

  /**
   * Begins the lot's certificate with what was found; active matter and salt can be added.
   *
   * @param lot the lot, as it stands on the drum
   * @return a builder
   * @throws IllegalArgumentException if the name is blank
   */
  public CertificateOfAnalysis.Builder certificate(String lot) {
    return CertificateOfAnalysis.ofLot(lot).titration(endPoint, buffers);
  }

  /**
   * The whole answer in at most 80 columns.
   *
   * @return several lines
   */
  public String summary() {
    StringBuilder s = new StringBuilder();
    Range acid = endPoint.addedAcidEqPerKg();
    boolean takesAcid = acid.typical() >= 0;
    double low = takesAcid ? acid.low() : -acid.high();
    double high = takesAcid ? acid.high() : -acid.low();
    s.append(grade)
        .append(", ")
        .append(readings)
        .append(" readings in ")
        .append(Text.number(endPoint.dilutionPercent()))
        .append(" % of it\n  ")
        .append(takesAcid ? "acid" : "base")
        .append(" to pH ")
        .append(Text.fixed(endPoint.ph().typical(), 2))
        .append("   ")
        .append(Text.fixed(Math.abs(acid.typical()) * 1000, 1))
        .append(" mmol/kg as supplied, ")
        .append(Text.fixed(low * 1000, 1))
        .append(" to ")
        .append(Text.fixed(high * 1000, 1))
        .append('\n');
    Map<String, double[]> sums = new LinkedHashMap<>();
    for (AcidBaseGroup g : buffers) {
      double pKa = g.acid().steps().get(0).pKa25();
      double amount = g.amount().typical();
      int part = g.name().indexOf(PART);
      double[] sum =
          sums.computeIfAbsent(
              part < 0 ? g.name() : g.name().substring(0, part), k -> new double[2]);
      sum[0] += amount;
      sum[1] += amount * pKa;
    }
    sums.forEach(
        (name, sum) -> {
          if (sum[0] > NOTHING) {
            s.append("  ")
                .append(Text.left(name, 44))
                .append(" pKa about ")
                .append(Text.fixed(sum[1] / sum[0], 1))
                .append(Text.right(Text.fixed(sum[0] * 1000, 1), 9))
                .append(" mmol/kg\n");
          }
        });
    s.append("  Assumed: the titrant has the strength its name says; the split among buffers of")
        .append(" like pKa is the grade's.\n");
    return Text.wrapped(s, 80);
  }

  @Override
  public String toString() {
    return summary();
  }
}
