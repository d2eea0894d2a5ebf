package org.surfactantblend.aqueous;

import java.util.Arrays;
import java.util.Objects;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/**
 * The net charge of a liquid against its pH, at one ionic strength and temperature: strong ions,
 * weak groups with their amounts, and water's own ions.
 *
 * <pre>
 * Z(pH) = S + sum of n q(pH) + W (h - oh)
 * </pre>
 *
 * <p>with S the strong-ion difference, n the amount and q the mean charge of each weak system, and
 * W the mass of water. Z falls strictly as the pH rises; the liquid's pH is where it is zero. Give
 * the amounts per kilogram of water, or per any other quantity together with the water in it.
 *
 * <p>Immutable and thread-safe; made by {@link #at}.
 */
public final class ChargeBalance {
  private static final double RESCALE_ABOVE = 1e150;
  private static final double START_H = 1e-7;
  private static final double LEAST_H = 1e-16;
  private static final double MOST_H = 1e2;
  private static final double STEP_THAT_SETTLES = 3e-5;
  private static final int FREE_STEPS = 40;

  private final double strongCharge;
  private final double water;
  private final double protonWeight;
  private final double hydroxideWeight;

  /** The charge of all weak systems in their most protonated form. */
  private final double protonatedCharge;

  /** Half the sum of amount and squared charge, in the most protonated form. */
  private final double protonatedStrength;

  private final double mostLost;

  /** Systems with one step: constant, amount, and change of the ionic strength on losing it. */
  private final double[] k;

  private final double[] amount;
  private final double[] strength;

  /** Systems with several steps, their constants one after the other. */
  private final double[] manyK;

  private final int[] manySteps;
  private final double[] manyAmount;
  private final double[] manyStrength;
  private final double[] manyCharge;

  private ChargeBalance(Builder from) {
    strongCharge = from.strongCharge;
    water = from.water;
    double gammaTerm = from.term;
    protonWeight = water * Conditions.power(gammaTerm);
    hydroxideWeight = water * Conditions.power(gammaTerm - from.conditions.pKw());
    protonatedCharge = from.protonatedCharge;
    protonatedStrength = from.protonatedStrength;
    mostLost = from.mostLost;
    k = Arrays.copyOf(from.k, from.singles);
    amount = Arrays.copyOf(from.amount, from.singles);
    strength = Arrays.copyOf(from.strength, from.singles);
    manyK = Arrays.copyOf(from.manyK, from.constants);
    manySteps = Arrays.copyOf(from.manySteps, from.manies);
    manyAmount = Arrays.copyOf(from.manyAmount, from.manies);
    manyStrength = Arrays.copyOf(from.manyStrength, from.manies);
    manyCharge = Arrays.copyOf(from.manyCharge, from.manies);
  }

  private ChargeBalance(ChargeBalance from, double strongCharge) {
    this.strongCharge = strongCharge;
    water = from.water;
    protonWeight = from.protonWeight;
    hydroxideWeight = from.hydroxideWeight;
    protonatedCharge = from.protonatedCharge;
    protonatedStrength = from.protonatedStrength;
    mostLost = from.mostLost;
    k = from.k;
    amount = from.amount;
    strength = from.strength;
    manyK = from.manyK;
    manySteps = from.manySteps;
    manyAmount = from.manyAmount;
    manyStrength = from.manyStrength;
    manyCharge = from.manyCharge;
  }

  /**
   * Starts a balance.
   *
   * @param conditions the temperature, activity model and ionic product of water
   * @param ionicStrength the ionic strength at which every constant is read [mol/kg water]
   * @return a builder for one balance, with one kilogram of water and nothing in it
   * @throws NullPointerException if the conditions are null
   * @throws IllegalArgumentException if the ionic strength is NaN or negative
   */
  public static Builder at(Conditions conditions, double ionicStrength) {
    return new Builder(conditions, ionicStrength);
  }

  /** Collects what is in a liquid. Not thread-safe. */
  public static final class Builder {
    private final Conditions conditions;
    private final double term;
    private double strongCharge;
    private double water = 1;
    private double protonatedCharge;
    private double protonatedStrength;
    private double mostLost;
    private double[] k = new double[8];
    private double[] amount = new double[8];
    private double[] strength = new double[8];
    private int singles;
    private double[] manyK = new double[8];
    private int constants;
    private int[] manySteps = new int[4];
    private double[] manyAmount = new double[4];
    private double[] manyStrength = new double[4];
    private double[] manyCharge = new double[4];
    private int manies;

    private Builder(Conditions conditions, double ionicStrength) {
      this.conditions = Objects.requireNonNull(conditions, "conditions");
      term = conditions.unitTerm(ionicStrength);
    }

    /**
     * Sets the strong-ion difference: the charge of all ions that neither take up nor lose protons.
     *
     * @param eq the charge [eq], -1000 to 1000
     * @return this builder
     * @throws IllegalArgumentException if the charge is NaN or outside its range
     */
    public Builder strongCharge(double eq) {
      strongCharge = Require.inRange("strong-ion difference", eq, -1000, 1000, "eq");
      return this;
    }

    /**
     * Sets the water that the amounts are dissolved in.
     *
     * @param kg the mass of water [kg], more than 0 and at most 1000
     * @return this builder
     * @throws IllegalArgumentException if the mass is NaN or outside its range
     */
    public Builder water(double kg) {
      Require.positive("water", kg, "kg");
      water = Require.inRange("water", kg, 0, 1000, "kg");
      return this;
    }

    /**
     * Adds a weak system.
     *
     * @param acid the system
     * @param mol how much of it, all forms together [mol], 0 to 1000
     * @return this builder
     * @throws NullPointerException if the system is null
     * @throws IllegalArgumentException if the amount is NaN or outside its range
     */
    public Builder add(AcidBase acid, double mol) {
      double n = Require.inRange("amount of " + acid.name(), mol, 0, 1000, "mol");
      double counted = acid.apparent() ? 0 : n / 2;
      double groupTerm = acid.apparent() ? 0 : term;
      int z = acid.chargeOfMostProtonatedForm();
      int steps = acid.stepCount();
      protonatedCharge += n * z;
      protonatedStrength += counted * z * z;
      mostLost += n * steps;
      if (steps == 1) {
        if (singles == k.length) {
          k = Arrays.copyOf(k, 2 * singles);
          amount = Arrays.copyOf(amount, 2 * singles);
          strength = Arrays.copyOf(strength, 2 * singles);
        }
        k[singles] = Conditions.power(-conditions.mixedPka(acid, 0, groupTerm));
        amount[singles] = n;
        strength[singles] = counted * (1 - 2 * z);
        singles++;
        return this;
      }
      if (manies == manySteps.length) {
        manySteps = Arrays.copyOf(manySteps, 2 * manies);
        manyAmount = Arrays.copyOf(manyAmount, 2 * manies);
        manyStrength = Arrays.copyOf(manyStrength, 2 * manies);
        manyCharge = Arrays.copyOf(manyCharge, 2 * manies);
      }
      if (constants + steps > manyK.length) {
        manyK = Arrays.copyOf(manyK, 2 * (constants + steps));
      }
      for (int step = 0; step < steps; step++) {
        manyK[constants++] = Conditions.power(-conditions.mixedPka(acid, step, groupTerm));
      }
      manySteps[manies] = steps;
      manyAmount[manies] = n;
      manyStrength[manies] = counted;
      manyCharge[manies] = z;
      manies++;
      return this;
    }

    /**
     * The finished balance.
     *
     * @return the balance
     */
    public ChargeBalance build() {
      return new ChargeBalance(this);
    }

    @Override
    public String toString() {
      return "charge balance, strong ions " + Text.number(strongCharge) + " eq, not built yet";
    }
  }

  /**
   * The same liquid with another strong-ion difference; everything else is shared.
   *
   * @param eq the charge [eq], -1000 to 1000
   * @return the changed balance
   * @throws IllegalArgumentException if the charge is NaN or outside its range
   */
  public ChargeBalance withStrongCharge(double eq) {
    return new ChargeBalance(this, Require.inRange("strong-ion difference", eq, -1000, 1000, "eq"));
  }

  /**
   * The strong-ion difference.
   *
   * @return the charge [eq]
   */
  public double strongCharge() {
    return strongCharge;
  }

  /**
   * The net charge at a pH.
   *
   * @param pH the pH, -2 to 16
   * @return the net charge [eq]
   * @throws IllegalArgumentException if the pH is NaN or outside its range
   */
  public double netCharge(double pH) {
    return charge(Conditions.power(-Conditions.checkedPh(pH)));
  }

  private double charge(double h) {
    double lost = 0;
    for (int i = 0; i < k.length; i++) {
      lost += amount[i] * (k[i] / (k[i] + h));
    }
    double perH = 1 / h;
    int next = 0;
    for (int i = 0; i < manySteps.length; i++) {
      double weight = 1;
      double sum = 1;
      double first = 0;
      for (int j = 1; j <= manySteps[i]; j++) {
        weight *= manyK[next++] * perH;
        sum += weight;
        first += j * weight;
        if (weight > RESCALE_ABOVE) {
          weight /= RESCALE_ABOVE;
          sum /= RESCALE_ABOVE;
          first /= RESCALE_ABOVE;
        }
      }
      lost += manyAmount[i] * (first / sum);
    }
    return strongCharge + protonatedCharge - lost + (protonWeight * h - hydroxideWeight * perH);
  }

  /**
   * How fast the net charge changes with the pH: minus the buffer capacity.
   *
   * @param pH the pH, -2 to 16
   * @return the derivative of the net charge [eq per pH unit], below zero
   * @throws IllegalArgumentException if the pH is NaN or outside its range
   */
  public double slope(double pH) {
    double h = Conditions.power(-Conditions.checkedPh(pH));
    double perH = 1 / h;
    double sum = protonWeight * h + hydroxideWeight * perH;
    for (int i = 0; i < k.length; i++) {
      double a = k[i] / (k[i] + h);
      sum += amount[i] * a * (h / (k[i] + h));
    }
    int next = 0;
    for (int i = 0; i < manySteps.length; i++) {
      // The spread of the protons lost, summed over pairs of forms: no difference of large terms.
      double weight = 1;
      double total = 1;
      double first = 0;
      double spread = 0;
      for (int j = 1; j <= manySteps[i]; j++) {
        weight *= manyK[next++] * perH;
        double pairs = weight / (total + weight);
        double gap = j - first;
        total += weight;
        first += gap * pairs;
        spread = (spread + gap * gap * pairs) * (1 - pairs);
        if (weight > RESCALE_ABOVE) {
          weight /= RESCALE_ABOVE;
          total /= RESCALE_ABOVE;
        }
      }
      sum += manyAmount[i] * spread;
    }
    return -Conditions.LN_10 * sum;
  }

  /**
   * What the weak systems and water's own ions add to the ionic strength at a pH. Strong ions are
   * the caller's to add; apparent systems do not count.
   *
   * @param pH the pH, -2 to 16
   * @return half the sum of amount times squared charge [mol], to be divided by the mass of water
   * @throws IllegalArgumentException if the pH is NaN or outside its range
   */
  public double weakIonicStrength(double pH) {
    double h = Conditions.power(-Conditions.checkedPh(pH));
    double perH = 1 / h;
    double sum = protonatedStrength + (protonWeight * h + hydroxideWeight * perH) / 2;
    for (int i = 0; i < k.length; i++) {
      sum += strength[i] * (k[i] / (k[i] + h));
    }
    int next = 0;
    for (int i = 0; i < manySteps.length; i++) {
      double z = manyCharge[i];
      double weight = 1;
      double total = 1;
      double change = 0;
      for (int j = 1; j <= manySteps[i]; j++) {
        weight *= manyK[next++] * perH;
        total += weight;
        change += j * (j - 2 * z) * weight;
        if (weight > RESCALE_ABOVE) {
          weight /= RESCALE_ABOVE;
          total /= RESCALE_ABOVE;
          change /= RESCALE_ABOVE;
        }
      }
      sum += manyStrength[i] * (change / total);
    }
    return sum;
  }

  /**
   * The pH at which the net charge is zero.
   *
   * @return the pH, -2 to 16
   * @throws ArithmeticException if the net charge keeps one sign from pH -2 to 16
   */
  public double ph() {
    return root(START_H);
  }

  /**
   * The pH at which the net charge is zero, found faster from a pH close to it. The result does not
   * depend on the start by more than rounding.
   *
   * @param near where to start, -2 to 16
   * @return the pH, -2 to 16
   * @throws IllegalArgumentException if the start is NaN or outside its range
   * @throws ArithmeticException if the net charge keeps one sign from pH -2 to 16
   */
  public double phNear(double near) {
    return root(Conditions.power(-Conditions.checkedPh(near)));
  }

  /**
   * Halley's iteration on ln h inside a bracket, with h itself as the variable so that no pass
   * needs an exponential or a logarithm.
   *
   * <p>All weak systems in their most protonated form, and all in their least, bound what water's
   * own ions have to balance, and so bound the root. A step that leaves the bracket goes to its end
   * the first time, which is the root itself where nothing buffers, and becomes a bisection after
   * that.
   */
  private double root(double start) {
    double most = strongCharge + protonatedCharge;
    double low = waterAlone(-most) * (1 - 1e-9);
    double high = waterAlone(mostLost - most) * (1 + 1e-9);
    if (low < LEAST_H) {
      requireSign(Conditions.MOST_PH, -1);
      low = LEAST_H;
    }
    if (high > MOST_H) {
      requireSign(Conditions.LEAST_PH, 1);
      high = MOST_H;
    }
    boolean lowTried = false;
    boolean highTried = false;
    double h = Math.min(high, Math.max(low, start));
    double before = Double.MAX_VALUE;
    for (int pass = 0; ; pass++) {
      double perH = 1 / h;
      double acidity = protonWeight * h;
      double alkalinity = hydroxideWeight * perH;
      double lost = 0;
      double first = acidity + alkalinity;
      double second = acidity - alkalinity;
      for (int i = 0; i < k.length; i++) {
        double a = k[i] / (k[i] + h);
        double na = amount[i] * a;
        double slope = na * (1 - a);
        lost += na;
        first += slope;
        second += slope * (2 * a - 1);
      }
      int next = 0;
      for (int i = 0; i < manySteps.length; i++) {
        double weight = 1;
        double s0 = 1;
        double s1 = 0;
        double s2 = 0;
        double s3 = 0;
        for (int j = 1; j <= manySteps[i]; j++) {
          weight *= manyK[next++] * perH;
          double w = weight;
          s0 += w;
          w *= j;
          s1 += w;
          w *= j;
          s2 += w;
          s3 += w * j;
          if (weight > RESCALE_ABOVE) {
            weight /= RESCALE_ABOVE;
            s0 /= RESCALE_ABOVE;
            s1 /= RESCALE_ABOVE;
            s2 /= RESCALE_ABOVE;
            s3 /= RESCALE_ABOVE;
          }
        }
        double per = 1 / s0;
        double m1 = s1 * per;
        double m2 = s2 * per;
        double spread = m2 - m1 * m1;
        lost += manyAmount[i] * (s1 / s0);
        first += manyAmount[i] * spread;
        second -= manyAmount[i] * (s3 * per - m1 * (m2 + 2 * spread));
      }
      double f = most - lost + (acidity - alkalinity);
      if (f > 0) {
        high = h;
        highTried = true;
      } else if (f < 0) {
        low = h;
        lowTried = true;
      } else {
        return ph(h, 0);
      }
      double curvature = 2 * first * first - f * second;
      double step = -2 * f * first / curvature;
      if (curvature > 0 && Math.abs(step) < STEP_THAT_SETTLES) {
        // The next error is of the order of the cube of this step.
        return ph(h, step);
      }
      double to = h * growth(step);
      boolean inside = curvature > 0 && to > low && to < high;
      boolean slow = (pass > 2 && Math.abs(step) > before / 2) || pass > FREE_STEPS;
      if (inside && !slow) {
        before = Math.abs(step);
        h = to;
        continue;
      }
      before = Double.MAX_VALUE;
      boolean up = f < 0;
      if (!inside && (up ? !highTried : !lowTried)) {
        h = up ? high : low;
        highTried |= up;
        lowTried |= !up;
      } else {
        double middle = Math.sqrt(low * high);
        if (middle <= low || middle >= high) {
          return ph(h, 0);
        }
        h = middle;
      }
    }
  }

  /** The exponential, near enough for the next place to look. */
  @Override
  public String toString() {
    return "charge balance, strong ions " + Text.number(strongCharge) + " eq";
  }

  private static double growth(double step) {
    if (Math.abs(step) > 1) {
      return StrictMath.exp(Math.max(-40, Math.min(40, step)));
    }
    double even = 12 + step * step;
    return (even + 6 * step) / (even - 6 * step);
  }

  private static double ph(double h, double step) {
    double ph = -(StrictMath.log(h) + step) / Conditions.LN_10;
    return Math.min(Conditions.MOST_PH, Math.max(Conditions.LEAST_PH, ph));
  }

  /** The activity of hydrogen ions at which water's own ions alone carry the given charge. */
  private double waterAlone(double charge) {
    double root = Math.sqrt(charge * charge + 4 * protonWeight * hydroxideWeight);
    return charge > 0
        ? (charge + root) / (2 * protonWeight)
        : 2 * hydroxideWeight / (root - charge);
  }

  private void requireSign(double pH, int sign) {
    double z = netCharge(pH);
    if (z * sign < 0) {
      throw new ArithmeticException(
          "net charge was "
              + z
              + " eq at pH "
              + pH
              + ", so no pH from -2 to 16 balances the charges; strong-ion difference "
              + strongCharge
              + " eq in "
              + water
              + " kg of water");
    }
  }
}
