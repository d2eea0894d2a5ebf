package org.surfactantblend.material;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.AqueousState;
import org.surfactantblend.aqueous.ChargeBalance;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.quantity.Range;

/**
 * The net charge of one raw material against pH: the one place where a material's row in the charge
 * balance is worked out.
 *
 * <p>Per kilogram as supplied, {@code z(pH, I) = S + sum over groups of n * q(pH, I)} [eq/kg],
 * where S is the charge of its strong ions and of the surfactant's permanent charges, n the amount
 * of a weak group [mol/kg] and q its mean charge. Water's own h - oh is not included: the balance
 * of a blend adds it once, times the blend's water.
 *
 * <p>S is worked back from the sheet pH at its stated dilution and 25 C, so that the model gives
 * that pH for the material alone; the end point of a titration counts the acid added in the same
 * way, and a declared strong-ion charge overrides both.
 *
 * <p>Two spreads are offered. The <em>guaranteed</em> bounds take every amount, pKa and the sheet
 * pH at whichever end is worst; they are exact because z rises with the sheet pH and is linear in
 * each amount, and its dependence on one pKa has its extremes at the ends or midway between the two
 * pH values. The <em>likely</em> moments take the same inputs as independent and triangular on
 * least / typical / greatest.
 *
 * <p>Immutable and thread-safe.
 */
public final class ChargeCurve {
  private static final int MAX_PASSES = 50;
  private static final double SETTLED = 1e-13;

  /** Sheets and certificates state the pH at 20 to 25 C (common practice). */
  private static final double SHEET_C = 25;

  private static final double SALT_G_PER_MOL = 58.44;

  private final Conditions conditions;
  private final List<AcidBaseGroup> groups;
  private final Weak[] weak;
  private final double permanent;
  private final double waterKg;
  private final double saltMolPerKg;
  private final boolean calibrated;
  private final double sampleWaterKg;
  private final double typicalCharge;

  /** The declared strong charge or, for a calibrated one, the acid added before the reading. */
  private final Range given;

  private final AqueousState sampleLow;
  private final AqueousState sampleHigh;

  /** The sheet pH that the strong charge is calibrated to; null when it is declared. */
  private final @Nullable Range sheetPh;

  /** Only the likely moments need it. */
  private volatile @Nullable Quadrature quadrature;

  /** A pH of the sheet with its weight in the likely moments. */
  private record Start(AqueousState state, double weight) {}

  private record Node(double x, double weight) {}

  /** The sheet pH and, by weak group, the constants over which the likely moments are summed. */
  private static final class Quadrature {
    final List<Start> starts = new ArrayList<>();
    final double[][] constants;
    final double[][] weights;

    Quadrature(ChargeCurve curve) {
      if (curve.sheetPh == null) {
        starts.add(new Start(curve.sampleLow, 1));
      } else {
        Conditions atSheet = curve.conditions.withTemperature(SHEET_C);
        for (Node n : triangular(curve.sheetPh)) {
          starts.add(new Start(atSheet.at(n.x, curve.sampleLow.ionicStrength()), n.weight));
        }
      }
      constants = new double[curve.weak.length][];
      weights = new double[curve.weak.length][];
      for (int i = 0; i < constants.length; i++) {
        Range pKa = curve.groups.get(i).pKa();
        if (pKa == null || !curve.weak[i].ranged) {
          constants[i] = new double[] {curve.weak[i].constants[0]};
          weights[i] = new double[] {1};
          continue;
        }
        List<Node> nodes = triangular(pKa);
        constants[i] = new double[nodes.size()];
        weights[i] = new double[nodes.size()];
        for (int node = 0; node < constants[i].length; node++) {
          constants[i][node] = power(-nodes.get(node).x);
          weights[i][node] = nodes.get(node).weight;
        }
      }
    }
  }

  /** A weak group as numbers: constants as powers of ten at zero ionic strength. */
  private static final class Weak {
    final int charge;
    final double[] constants;
    final boolean apparent;
    final boolean small;
    final boolean onActive;
    final Range amount;
    final double lowPkaConstant;
    final double highPkaConstant;
    final boolean ranged;

    /** The same group at the temperature of the sheet. */
    final Weak inSample;

    /**
     * Its charges in the sample at the least and greatest sheet pH, at the least and greatest pKa.
     */
    double lowSampleLowPka;

    double lowSampleHighPka;
    double highSampleLowPka;
    double highSampleHighPka;

    Weak(AcidBaseGroup g, Conditions conditions, Conditions sheet) {
      inSample = sheet.equals(conditions) ? this : new Weak(g, sheet, sheet);
      charge = g.acid().chargeOfMostProtonatedForm();
      constants = new double[g.acid().steps().size()];
      for (int step = 0; step < constants.length; step++) {
        constants[step] = power(-conditions.pKa(g.acid(), step));
      }
      apparent = g.acid().apparent();
      onActive = g.onActive();
      small = !apparent && !onActive;
      amount = g.amount();
      Range pKa = g.pKa();
      ranged = pKa != null && constants.length == 1;
      if (pKa == null || constants.length > 1) {
        lowPkaConstant = constants[0];
        highPkaConstant = constants[0];
      } else {
        lowPkaConstant = power(-pKa.low());
        highPkaConstant = power(-pKa.high());
      }
    }

    void readIn(AqueousState low, AqueousState high) {
      lowSampleLowPka = inSample.charge(low, inSample.lowPkaConstant);
      lowSampleHighPka = inSample.charge(low, inSample.highPkaConstant);
      highSampleLowPka = inSample.charge(high, inSample.lowPkaConstant);
      highSampleHighPka = inSample.charge(high, inSample.highPkaConstant);
    }

    double charge(AqueousState s) {
      return constants.length == 1 ? charge(s, constants[0]) : chargeOfMany(s);
    }

    /** The charge of a group of one step with a given constant. */
    double charge(AqueousState s, double constant) {
      if (constants.length > 1) {
        return chargeOfMany(s);
      }
      double k = constant * factor(s, 0);
      return charge - k / (s.activityOfHydrogen() + k);
    }

    double factor(AqueousState s, int step) {
      return apparent ? 1 : s.constantFactor(charge - step);
    }

    private double chargeOfMany(AqueousState s) {
      double h = s.activityOfHydrogen();
      double term = 1;
      double sum = 1;
      double lost = 0;
      for (int step = 0; step < constants.length; step++) {
        term *= constants[step] * factor(s, step) / h;
        sum += term;
        lost += (step + 1) * term;
        if (term > 1e150) {
          term /= 1e150;
          sum /= 1e150;
          lost /= 1e150;
        }
      }
      return charge - lost / sum;
    }

    double squareCharge(AqueousState s) {
      double h = s.activityOfHydrogen();
      double term = 1;
      double sum = 1;
      double square = (double) charge * charge;
      for (int step = 0; step < constants.length; step++) {
        term *= constants[step] * factor(s, step) / h;
        double z = (double) charge - step - 1;
        sum += term;
        square += z * z * term;
        if (term > 1e150) {
          term /= 1e150;
          sum /= 1e150;
          square /= 1e150;
        }
      }
      return square / sum;
    }
  }

  /** Works out the curve of a material. */
  ChargeCurve(Material material, Conditions conditions) {
    this.conditions = conditions;
    groups = material.groups();
    Conditions atSheet = conditions.withTemperature(SHEET_C);
    weak = new Weak[groups.size()];
    for (int i = 0; i < weak.length; i++) {
      weak[i] = new Weak(groups.get(i), conditions, atSheet);
    }
    waterKg = material.waterPercent().typical() / 100;
    saltMolPerKg = material.saltPercent().typical() * 10 / SALT_G_PER_MOL;
    permanent = material.family().permanentCharge() * material.activeMolPerKg().typical();
    SheetPh sheet = material.sheetPh().orElse(null);
    Range strong = material.strongIonEqPerKg().orElse(null);
    if (strong == null && sheet != null) {
      calibrated = true;
      given = sheet.addedAcidEqPerKg();
      Range ph = sheet.effective();
      // A powder measured "as it is" has no water of its own; a trace keeps the balance defined.
      sampleWaterKg = Math.max(0.01, waterKg + 100 / sheet.dilutionPercent() - 1);
      AqueousState sample = atSheet.at(ph.typical(), 0);
      for (int pass = 0; pass < MAX_PASSES; pass++) {
        double charge = calibratedCharge(sample);
        double next =
            (saltMolPerKg
                    + (Math.abs(charge - permanent) + Math.abs(given.typical())) / 2
                    + weakIonicStrengthInSample(sample))
                / sampleWaterKg;
        boolean settled = Math.abs(next - sample.ionicStrength()) < SETTLED;
        sample = sample.withIonicStrength(next);
        if (settled) {
          break;
        }
      }
      double ionicStrength = sample.ionicStrength();
      typicalCharge = calibratedCharge(sample);
      sampleLow = atSheet.at(ph.low(), ionicStrength);
      sampleHigh = atSheet.at(ph.high(), ionicStrength);
      for (Weak g : weak) {
        g.readIn(sampleLow, sampleHigh);
      }
      sheetPh = ph;
    } else {
      calibrated = false;
      sampleWaterKg = 0;
      given = strong == null ? Range.ZERO : strong;
      typicalCharge = given.typical() + permanent;
      sampleLow = conditions.at(7, 0);
      sampleHigh = sampleLow;
      sheetPh = null;
    }
  }

  private static double power(double exponent) {
    return StrictMath.exp(exponent * StrictMath.log(10));
  }

  private double calibratedCharge(AqueousState sample) {
    double sum = sampleWaterKg * sample.hydrogenLessHydroxide() - given.typical();
    for (Weak g : weak) {
      sum += g.amount.typical() * g.inSample.charge(sample);
    }
    return -sum;
  }

  /**
   * The charge of its strong ions and permanent charges at the typical figures.
   *
   * @return the charge [eq/kg as supplied]
   */
  public double strongChargeEqPerKg() {
    return typicalCharge;
  }

  /**
   * The water it brings.
   *
   * @return the water [kg/kg as supplied]
   */
  public double waterKgPerKg() {
    return waterKg;
  }

  /**
   * Its net charge at the typical figures, without water's own ions.
   *
   * @param ph the pH
   * @param ionicStrength the ionic strength of the blend [mol/kg water]
   * @return the net charge [eq/kg as supplied]
   */
  public double chargeEqPerKg(double ph, double ionicStrength) {
    return chargeEqPerKg(conditions.at(ph, ionicStrength));
  }

  /**
   * Its net charge at the typical figures, without water's own ions.
   *
   * @param state pH and ionic strength of the blend, under this curve's conditions
   * @return the net charge [eq/kg as supplied]
   */
  public double chargeEqPerKg(AqueousState state) {
    double sum = typicalCharge;
    for (Weak g : weak) {
      sum += g.amount.typical() * g.charge(state);
    }
    return sum;
  }

  /**
   * Adds its weak groups at their typical amounts to a charge balance.
   *
   * @param balance where to add them
   * @param kg how much of the material as supplied [kg per kg of product]
   */
  public void addGroups(ChargeBalance.Builder balance, double kg) {
    for (AcidBaseGroup g : groups) {
      balance.add(g.acid(), g.amount().typical() * kg);
    }
  }

  /**
   * The charge on its surface-active molecules: permanent charges and weak groups that sit on them.
   *
   * @param ph the pH
   * @param ionicStrength the ionic strength of the blend [mol/kg water]
   * @return the charge [eq/kg as supplied], negative for anionic matter
   */
  public double chargeOnActiveEqPerKg(double ph, double ionicStrength) {
    AqueousState state = conditions.at(ph, ionicStrength);
    double sum = permanent;
    for (Weak g : weak) {
      if (g.onActive) {
        sum += g.amount.typical() * g.charge(state);
      }
    }
    return sum;
  }

  /**
   * What it adds to the ionic strength: small ions in full, surfactant ions not.
   *
   * @param ph the pH
   * @param ionicStrength the ionic strength at which weak groups are read [mol/kg water]
   * @return half the sum of amount times charge squared [mol/kg as supplied], to be divided by the
   *     blend's water per kg
   */
  public double ionicStrengthMolPerKg(double ph, double ionicStrength) {
    return ionicStrengthMolPerKg(conditions.at(ph, ionicStrength));
  }

  /**
   * What it adds to the ionic strength: small ions in full, surfactant ions not.
   *
   * @param state pH and ionic strength of the blend, under this curve's conditions
   * @return half the sum of amount times charge squared [mol/kg as supplied], to be divided by the
   *     blend's water per kg
   */
  public double ionicStrengthMolPerKg(AqueousState state) {
    return saltMolPerKg + Math.abs(typicalCharge - permanent) / 2 + weakIonicStrength(state);
  }

  private double weakIonicStrengthInSample(AqueousState sample) {
    double sum = 0;
    for (Weak g : weak) {
      if (g.small) {
        sum += g.amount.typical() * g.inSample.squareCharge(sample) / 2;
      }
    }
    return sum;
  }

  private double weakIonicStrength(AqueousState state) {
    double sum = 0;
    for (Weak g : weak) {
      if (g.small) {
        sum += g.amount.typical() * g.squareCharge(state) / 2;
      }
    }
    return sum;
  }

  /**
   * The least net charge that any material inside the declared ranges can have.
   *
   * @param ph the pH
   * @param ionicStrength the ionic strength of the blend [mol/kg water]
   * @return the guaranteed least net charge [eq/kg as supplied]
   */
  public double leastChargeEqPerKg(double ph, double ionicStrength) {
    return leastChargeEqPerKg(conditions.at(ph, ionicStrength));
  }

  /**
   * The least net charge that any material inside the declared ranges can have.
   *
   * @param state pH and ionic strength of the blend, under this curve's conditions
   * @return the guaranteed least net charge [eq/kg as supplied]
   */
  public double leastChargeEqPerKg(AqueousState state) {
    return extreme(state, sampleLow, -1);
  }

  /**
   * The greatest net charge that any material inside the declared ranges can have.
   *
   * @param ph the pH
   * @param ionicStrength the ionic strength of the blend [mol/kg water]
   * @return the guaranteed greatest net charge [eq/kg as supplied]
   */
  public double greatestChargeEqPerKg(double ph, double ionicStrength) {
    return greatestChargeEqPerKg(conditions.at(ph, ionicStrength));
  }

  /**
   * The greatest net charge that any material inside the declared ranges can have.
   *
   * @param state pH and ionic strength of the blend, under this curve's conditions
   * @return the guaranteed greatest net charge [eq/kg as supplied]
   */
  public double greatestChargeEqPerKg(AqueousState state) {
    return extreme(state, sampleHigh, 1);
  }

  private double extreme(AqueousState state, AqueousState sample, int sign) {
    double sum =
        (sign > 0 ? given.high() : given.low())
            + (calibrated ? -sampleWaterKg * sample.hydrogenLessHydroxide() : permanent);
    for (Weak g : weak) {
      double best =
          worst(
              g,
              g.charge(state, g.lowPkaConstant)
                  - (sign > 0 ? g.highSampleLowPka : g.lowSampleLowPka),
              sign);
      if (g.lowPkaConstant != g.highPkaConstant) {
        double atHigh =
            worst(
                g,
                g.charge(state, g.highPkaConstant)
                    - (sign > 0 ? g.highSampleHighPka : g.lowSampleHighPka),
                sign);
        best = sign > 0 ? Math.max(best, atHigh) : Math.min(best, atHigh);
        double midway =
            Math.sqrt(
                state.activityOfHydrogen()
                    * sample.activityOfHydrogen()
                    / (g.factor(state, 0) * g.factor(sample, 0)));
        if (midway > g.highPkaConstant && midway < g.lowPkaConstant) {
          double atMiddle = worst(g, shift(g, midway, state, sample), sign);
          best = sign > 0 ? Math.max(best, atMiddle) : Math.min(best, atMiddle);
        }
      }
      sum += best;
    }
    return sum;
  }

  /** The amount of a group at whichever end makes its charge the least or the greatest. */
  private static double worst(Weak g, double chargePerMole, int sign) {
    double low = g.amount.low() * chargePerMole;
    double high = g.amount.high() * chargePerMole;
    return sign > 0 ? Math.max(low, high) : Math.min(low, high);
  }

  /** The charge of one mole of a group, less its charge in the sheet's sample if there is one. */
  private double shift(Weak g, double constant, AqueousState state, AqueousState sample) {
    double q = g.charge(state, constant);
    if (!calibrated) {
      return q;
    }
    return q - (g.ranged ? g.charge(sample, constant) : g.inSample.charge(sample));
  }

  /**
   * The mean and covariances of the net charge at several pH, its inputs taken as independent and
   * triangular on least / typical / greatest; by product quadrature, without sampling.
   *
   * @param ph the pH values
   * @param ionicStrength the ionic strength of the blend [mol/kg water]
   * @return the moments at those pH values, in that order
   */
  public Moments moments(double[] ph, double ionicStrength) {
    int n = ph.length;
    AqueousState[] states = new AqueousState[n];
    for (int i = 0; i < n; i++) {
      states[i] = conditions.at(ph[i], ionicStrength);
    }
    double[] mean = new double[n];
    double[][] second = new double[n][n];
    double[] here = new double[n];
    double[] q = new double[n];
    double[] first = new double[n];
    double[][] product = new double[n][n];
    Quadrature over = quadrature();
    for (Start start : over.starts) {
      Arrays.fill(
          here,
          mean(given)
              + (calibrated ? -sampleWaterKg * start.state.hydrogenLessHydroxide() : permanent));
      addToAll(second, start.weight * variance(given));
      for (int group = 0; group < weak.length; group++) {
        Weak g = weak[group];
        double[] constants = over.constants[group];
        Arrays.fill(first, 0);
        for (double[] row : product) {
          Arrays.fill(row, 0);
        }
        for (int node = 0; node < constants.length; node++) {
          double weight = over.weights[group][node];
          for (int i = 0; i < n; i++) {
            q[i] = shift(g, constants[node], states[i], start.state);
            first[i] += weight * q[i];
          }
          for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
              product[i][j] += weight * q[i] * q[j];
            }
          }
        }
        double amount = mean(g.amount);
        double square = amount * amount + variance(g.amount);
        for (int i = 0; i < n; i++) {
          here[i] += amount * first[i];
          for (int j = 0; j < n; j++) {
            second[i][j] +=
                start.weight * (square * product[i][j] - amount * amount * first[i] * first[j]);
          }
        }
      }
      for (int i = 0; i < n; i++) {
        mean[i] += start.weight * here[i];
        for (int j = 0; j < n; j++) {
          second[i][j] += start.weight * here[i] * here[j];
        }
      }
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        second[i][j] -= mean[i] * mean[j];
      }
    }
    return new Moments(mean, second);
  }

  /**
   * Mean, variance and third central moment of the net charge at one pH, its inputs taken as in
   * {@link #moments}.
   *
   * @param state pH and ionic strength of the blend, under this curve's conditions
   * @return the three moments [eq/kg as supplied, and its square and cube]
   */
  public double[] skewedMoments(AqueousState state) {
    double mean = 0;
    double second = 0;
    double third = 0;
    Quadrature over = quadrature();
    for (Start start : over.starts) {
      double here =
          mean(given)
              + (calibrated ? -sampleWaterKg * start.state.hydrogenLessHydroxide() : permanent);
      double variance = variance(given);
      double skew = thirdCentral(given);
      for (int group = 0; group < weak.length; group++) {
        Weak g = weak[group];
        double[] weights = over.weights[group];
        double q1 = 0;
        double q2 = 0;
        double q3 = 0;
        for (int node = 0; node < weights.length; node++) {
          double q = shift(g, over.constants[group][node], state, start.state);
          q1 += weights[node] * q;
          q2 += weights[node] * q * q;
          q3 += weights[node] * q * q * q;
        }
        double n1 = mean(g.amount);
        double spread = variance(g.amount);
        double n2 = spread + n1 * n1;
        double n3 = thirdCentral(g.amount) + 3 * n1 * spread + n1 * n1 * n1;
        double m1 = n1 * q1;
        double m2 = n2 * q2;
        here += m1;
        variance += m2 - m1 * m1;
        skew += n3 * q3 - 3 * m1 * m2 + 2 * m1 * m1 * m1;
      }
      // Raw moments of the mixture over the sheet pH are gathered about zero.
      mean += start.weight * here;
      second += start.weight * (variance + here * here);
      third += start.weight * (skew + 3 * here * variance + here * here * here);
    }
    double variance = second - mean * mean;
    return new double[] {mean, variance, third - 3 * mean * variance - mean * mean * mean};
  }

  private static double thirdCentral(Range r) {
    double a = r.low();
    double c = r.typical();
    double b = r.high();
    return (a + b - 2 * c) * (2 * a - b - c) * (a - 2 * b + c) / 270;
  }

  private static void addToAll(double[][] matrix, double value) {
    for (double[] row : matrix) {
      for (int j = 0; j < row.length; j++) {
        row[j] += value;
      }
    }
  }

  private static double mean(Range r) {
    return (r.low() + r.typical() + r.high()) / 3;
  }

  private static double variance(Range r) {
    double a = r.low();
    double b = r.typical();
    double c = r.high();
    return (a * a + b * b + c * c - a * b - a * c - b * c) / 18;
  }

  private Quadrature quadrature() {
    Quadrature known = quadrature;
    if (known == null) {
      known = new Quadrature(this);
      quadrature = known;
    }
    return known;
  }

  private static final class Gauss {
    static final GaussIntegratorFactory RULES = new GaussIntegratorFactory();
  }

  /** Gauss nodes for the triangular density, three on each side of its peak. */
  private static List<Node> triangular(Range r) {
    if (r.isExact()) {
      return List.of(new Node(r.typical(), 1));
    }
    List<Node> nodes = new ArrayList<>();
    double[] ends = {r.low(), r.typical(), r.high()};
    for (int side = 0; side < 2; side++) {
      double from = ends[side];
      double to = ends[side + 1];
      if (to > from) {
        GaussIntegrator rule;
        // The factory keeps a cache of rules that is not safe for several threads.
        synchronized (Gauss.RULES) {
          rule = Gauss.RULES.legendre(3, from, to);
        }
        for (int i = 0; i < rule.getNumberOfPoints(); i++) {
          double x = rule.getPoint(i);
          double height = side == 0 ? (x - from) / (to - from) : (to - x) / (to - from);
          nodes.add(new Node(x, rule.getWeight(i) * height * 2 / r.width()));
        }
      }
    }
    return nodes;
  }

  /**
   * Means and covariances of a material's net charge at several pH.
   *
   * @param mean the means [eq/kg as supplied]
   * @param covariance the covariances [(eq/kg as supplied) squared]
   */
  @SuppressWarnings("ArrayRecordComponent")
  public record Moments(double[] mean, double[][] covariance) {}

  @Override
  public String toString() {
    return "charge curve with "
        + groups.size()
        + " weak groups, strong ions "
        + (sheetPh == null ? "declared" : "from the sheet pH " + sheetPh);
  }
}
