package org.surfactantblend.aqueous;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.quantity.Require;

/**
 * One weak acid-base system: its most protonated form and the protons it can lose, one after the
 * other.
 *
 * <p>The constants are thermodynamic ones, at 25 C and zero ionic strength, unless the system is
 * {@linkplain #apparent() apparent}. Their change with temperature follows
 *
 * <pre>
 * pK(T) = pK - dH/(R ln 10) (1/298.15 - 1/T) - dCp/(R ln 10) (298.15/T - 1 + ln(T/298.15))
 * </pre>
 *
 * <p>with the enthalpy and heat capacity of ionisation, the form used by Goldberg, Kishore and
 * Lennen, J. Phys. Chem. Ref. Data 31 (2002) 231.
 *
 * <p>Immutable and thread-safe; equality by value.
 */
public final class AcidBase {
  private static final double WATER_PKW_25 = 13.995;
  private static final double WATER_ENTHALPY = 55.81;
  private static final double WATER_HEAT_CAPACITY = -224;

  private final String name;
  private final int chargeOfMostProtonatedForm;
  private final List<Step> steps;
  private final boolean apparent;
  private final @Nullable Limit limit;
  private final double[] pKa25;
  private final double[] enthalpy;
  private final double[] heatCapacity;

  private AcidBase(
      String name,
      int chargeOfMostProtonatedForm,
      List<Step> steps,
      boolean apparent,
      @Nullable Limit limit) {
    this.name = Require.text("name", name);
    if (chargeOfMostProtonatedForm < -6 || chargeOfMostProtonatedForm > 6) {
      throw new IllegalArgumentException(
          "charge of the most protonated form of "
              + this.name
              + " was "
              + chargeOfMostProtonatedForm
              + ", allowed is -6 to 6");
    }
    this.chargeOfMostProtonatedForm = chargeOfMostProtonatedForm;
    this.steps = List.copyOf(steps);
    if (this.steps.isEmpty() || this.steps.size() > 12) {
      throw new IllegalArgumentException(
          "number of steps of " + this.name + " was " + steps.size() + ", allowed is 1 to 12");
    }
    this.apparent = apparent;
    this.limit = limit;
    pKa25 = new double[steps.size()];
    enthalpy = new double[steps.size()];
    heatCapacity = new double[steps.size()];
    for (int i = 0; i < pKa25.length; i++) {
      Step step = this.steps.get(i);
      pKa25[i] = step.pKa25();
      enthalpy[i] = step.enthalpyKjPerMol();
      heatCapacity[i] = step.heatCapacityJPerKPerMol();
    }
  }

  /** A molality above which a solution says that the model leaves something out. */
  record Limit(double molality, String why) {}

  /**
   * The loss of one proton.
   *
   * @param pKa25 the constant at 25 C, -5 to 20
   * @param enthalpyKjPerMol the enthalpy of ionisation at 25 C [kJ/mol], -200 to 200; 0 when not
   *     known, which keeps the constant the same at every temperature
   * @param heatCapacityJPerKPerMol the heat capacity change of ionisation [J/(K mol)], -1000 to
   *     1000; 0 when not known
   */
  public record Step(double pKa25, double enthalpyKjPerMol, double heatCapacityJPerKPerMol) {
    /**
     * Checks the ranges.
     *
     * @param pKa25 the constant at 25 C, -5 to 20
     * @param enthalpyKjPerMol the enthalpy of ionisation at 25 C [kJ/mol], -200 to 200; 0 when not
     *     known, which keeps the constant the same at every temperature
     * @param heatCapacityJPerKPerMol the heat capacity change of ionisation [J/(K mol)], -1000 to
     *     1000; 0 when not known
     * @throws IllegalArgumentException if a figure is NaN or outside its range
     */
    public Step {
      pKa25 = Require.inRange("pKa", pKa25, -5, 20, "");
      enthalpyKjPerMol =
          Require.inRange("enthalpy of ionisation", enthalpyKjPerMol, -200, 200, "kJ/mol");
      heatCapacityJPerKPerMol =
          Require.inRange(
              "heat capacity of ionisation", heatCapacityJPerKPerMol, -1000, 1000, "J/(K mol)");
    }

    /**
     * A step whose constant does not change with temperature.
     *
     * @param pKa25 the constant, -5 to 20
     * @return the step
     * @throws IllegalArgumentException if the constant is NaN or outside its range
     */
    public static Step of(double pKa25) {
      return new Step(pKa25, 0, 0);
    }
  }

  /**
   * A system with everything stated.
   *
   * @param name what it is, such as {@code citric acid}
   * @param chargeOfMostProtonatedForm the charge of the form with all its protons, -6 to 6: 0 for
   *     an uncharged acid, 1 for the conjugate acid of an amine
   * @param steps the losses of a proton in the order in which they happen, 1 to 12 of them
   * @return the system
   * @throws NullPointerException if an argument is null
   * @throws IllegalArgumentException if the name is blank or a figure outside its range
   */
  public static AcidBase of(String name, int chargeOfMostProtonatedForm, List<Step> steps) {
    return new AcidBase(name, chargeOfMostProtonatedForm, steps, false, null);
  }

  /**
   * An acid whose most protonated form is uncharged, with constants taken as the same at every
   * temperature.
   *
   * @param name what it is
   * @param pKa the constants in the order in which the protons leave, -5 to 20
   * @return the system
   * @throws NullPointerException if an argument is null
   * @throws IllegalArgumentException if the name is blank, there is no constant, or one is outside
   *     its range
   */
  public static AcidBase acid(String name, double... pKa) {
    return of(name, 0, Arrays.stream(pKa).mapToObj(Step::of).toList());
  }

  /**
   * A base that takes up one proton, with a constant taken as the same at every temperature.
   *
   * @param name what it is
   * @param pKaOfConjugateAcid the constant of its protonated form, -5 to 20
   * @return the system
   * @throws NullPointerException if the name is null
   * @throws IllegalArgumentException if the name is blank or the constant outside its range
   */
  public static AcidBase base(String name, double pKaOfConjugateAcid) {
    return of(name, 1, List.of(Step.of(pKaOfConjugateAcid)));
  }

  /**
   * A metal ion that takes up one hydroxide ion, such as calcium, which is a good part CaOH+ in
   * lime water. Written as an acid: the ion is the protonated form, its pair with hydroxide has
   * lost one proton, and {@code pKa = pKw - log K}, with water's own constant, enthalpy and heat
   * capacity of ionisation added.
   *
   * @param name what it is, such as {@code calcium ion}
   * @param charge the charge of the free ion, 1 to 6
   * @param log10Association the decimal logarithm of the association constant at 25 C and zero
   *     ionic strength [kg water/mol], -6 to 18
   * @param enthalpyKjPerMol the enthalpy of association [kJ/mol], -140 to 140
   * @return the system
   * @throws NullPointerException if the name is null
   * @throws IllegalArgumentException if the name is blank or a figure outside its range
   */
  public static AcidBase hydroxidePair(
      String name, int charge, double log10Association, double enthalpyKjPerMol) {
    if (charge < 1 || charge > 6) {
      throw new IllegalArgumentException("charge was " + charge + ", allowed is 1 to 6");
    }
    double logK = Require.inRange("log K of the hydroxide pair", log10Association, -6, 18, "");
    double dH = Require.inRange("enthalpy of association", enthalpyKjPerMol, -140, 140, "kJ/mol");
    return of(
        name,
        charge,
        List.of(new Step(WATER_PKW_25 - logK, WATER_ENTHALPY + dH, WATER_HEAT_CAPACITY)));
  }

  /** Water, whose one step is its ionic product. */
  static AcidBase water() {
    return of("water", 0, List.of(new Step(WATER_PKW_25, WATER_ENTHALPY, WATER_HEAT_CAPACITY)));
  }

  /**
   * The same system with its constants read as apparent ones: values that hold in the blend as it
   * is, for groups that sit in micelles. They are used as they stand, without an activity term, and
   * the group's own ions do not count towards the ionic strength.
   *
   * @return the apparent system
   */
  public AcidBase asApparent() {
    return apparent ? this : new AcidBase(name, chargeOfMostProtonatedForm, steps, true, limit);
  }

  /**
   * The same system with a molality above which it is more than simple steps, such as boric acid,
   * which joins into larger ions above 0.05 mol/kg. A {@link Solution} that holds more says so.
   *
   * @param molality the molality [mol/kg water], more than 0
   * @param why what happens above it, in plain words
   * @return the system with that limit
   * @throws NullPointerException if the reason is null
   * @throws IllegalArgumentException if the molality is not a number above 0 or the reason is blank
   */
  public AcidBase withCaveatAbove(double molality, String why) {
    return new AcidBase(
        name,
        chargeOfMostProtonatedForm,
        steps,
        apparent,
        new Limit(
            Require.positive("molality", molality, "mol/kg water"), Require.text("why", why)));
  }

  /**
   * The same system with another constant at 25 C for one step.
   *
   * @param step which step, 0 for the first proton lost
   * @param pKa25 the constant, -5 to 20
   * @return the changed system
   * @throws IllegalArgumentException if there is no such step or the constant is outside its range
   */
  public AcidBase withPka(int step, double pKa25) {
    if (step < 0 || step >= steps.size()) {
      throw new IllegalArgumentException(
          "step of " + name + " was " + step + ", allowed is 0 to " + (steps.size() - 1));
    }
    Step old = steps.get(step);
    List<Step> changed = new ArrayList<>(steps);
    changed.set(step, new Step(pKa25, old.enthalpyKjPerMol(), old.heatCapacityJPerKPerMol()));
    return new AcidBase(name, chargeOfMostProtonatedForm, changed, apparent, limit);
  }

  /**
   * What it is.
   *
   * @return the name, not blank
   */
  public String name() {
    return name;
  }

  /**
   * The charge of the form that has all its protons.
   *
   * @return the charge, in units of the proton's
   */
  public int chargeOfMostProtonatedForm() {
    return chargeOfMostProtonatedForm;
  }

  /**
   * The losses of a proton, first to last.
   *
   * @return the steps, at least one
   */
  public List<Step> steps() {
    return steps;
  }

  /**
   * Whether the constants are apparent ones, used as they stand.
   *
   * @return true for a group in micelles
   */
  public boolean apparent() {
    return apparent;
  }

  /** The constant of a step, given the two factors that depend on temperature only. */
  double pKa(int step, double enthalpyFactor, double heatCapacityFactor) {
    return pKa25[step] - enthalpy[step] * enthalpyFactor - heatCapacity[step] * heatCapacityFactor;
  }

  @Nullable Limit limit() {
    return limit;
  }

  int stepCount() {
    return pKa25.length;
  }

  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof AcidBase that
        && name.equals(that.name)
        && chargeOfMostProtonatedForm == that.chargeOfMostProtonatedForm
        && steps.equals(that.steps)
        && apparent == that.apparent
        && Objects.equals(limit, that.limit);
  }

  @Override
  public int hashCode() {
    return Objects.hash(name, chargeOfMostProtonatedForm, steps, apparent, limit);
  }

  @Override
  public String toString() {
    StringBuilder text = new StringBuilder(name).append(apparent ? " (apparent pKa" : " (pKa");
    for (double pKa : pKa25) {
      text.append(' ').append(pKa);
    }
    return text.append(')').toString();
  }
}
