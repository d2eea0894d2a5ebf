package org.surfactantblend.mildness;

import java.util.Collections;
import java.util.List;
import java.util.Set;
import org.surfactantblend.quantity.Text;

/**
 * The state of a surfactant mixture at one concentration: what floats singly and what sits in
 * micelles. Symbols and sources are with {@link MixedMicelleModel}.
 *
 * <p>Surfactants are addressed by their position in {@link #components}. One that is absent has
 * micelle fraction, monomer and activity coefficient 0.
 *
 * <p>Immutable and thread-safe.
 */
public final class MixedMicelle {
  private final List<MicelleComponent> components;
  private final double[] totals;
  private final double mixtureCmc;
  private final double idealCmc;
  private final double micellised;
  private final double[] fractions;
  private final double[] activity;
  private final double[] monomers;
  private final Set<MicelleCaveat> caveats;

  MixedMicelle(
      List<MicelleComponent> components,
      double[] totals,
      double mixtureCmc,
      double idealCmc,
      double micellised,
      double[] fractions,
      double[] activity,
      double[] monomers,
      Set<MicelleCaveat> caveats) {
    this.components = components;
    this.totals = totals;
    this.mixtureCmc = mixtureCmc;
    this.idealCmc = idealCmc;
    this.micellised = micellised;
    this.fractions = fractions;
    this.activity = activity;
    this.monomers = monomers;
    this.caveats = Collections.unmodifiableSet(caveats);
  }

  /**
   * The surfactants.
   *
   * @return in the order of the positions used here
   */
  public List<MicelleComponent> components() {
    return components;
  }

  private static double at(double[] figures, int i) {
    if (i < 0 || i >= figures.length) {
      throw new IllegalArgumentException(
          "position was " + i + ", allowed is 0 to " + (figures.length - 1));
    }
    return figures[i];
  }

  /**
   * The total concentration of one surfactant.
   *
   * @param i its position
   * @return [mmol/L]
   * @throws IllegalArgumentException if there is no such position
   */
  public double totalMmolPerL(int i) {
    return at(totals, i);
  }

  /**
   * The CMC of the mixture.
   *
   * @return [mmol/L]
   */
  public double mixtureCmcMmolPerL() {
    return mixtureCmc;
  }

  /**
   * The CMC that ideal mixing would give.
   *
   * @return [mmol/L]
   */
  public double idealCmcMmolPerL() {
    return idealCmc;
  }

  /**
   * The concentration of surfactant in micelles.
   *
   * @return [mmol/L], 0 at or below the mixture CMC
   */
  public double micellisedMmolPerL() {
    return micellised;
  }

  /**
   * The mole fraction of one surfactant in the micelle; at or below the CMC, in the first micelle
   * that would form.
   *
   * @param i its position
   * @return [mol/mol]
   * @throws IllegalArgumentException if there is no such position
   */
  public double micelleFraction(int i) {
    return at(fractions, i);
  }

  /**
   * The activity coefficient of one surfactant in the micelle.
   *
   * @param i its position
   * @return f_i, 1 for ideal mixing, below 1 for attraction
   * @throws IllegalArgumentException if there is no such position
   */
  public double activityCoefficient(int i) {
    return at(activity, i);
  }

  /**
   * The concentration of one surfactant that is not in micelles.
   *
   * @param i its position
   * @return [mmol/L]
   * @throws IllegalArgumentException if there is no such position
   */
  public double monomerMmolPerL(int i) {
    return at(monomers, i);
  }

  /**
   * The monomer of all anionic surfactants together.
   *
   * @return [mmol/L]
   */
  public double anionicMonomerMmolPerL() {
    double sum = 0;
    for (int i = 0; i < monomers.length; i++) {
      if (components.get(i).headGroup().isAnionic()) {
        sum += monomers[i];
      }
    }
    return sum;
  }

  /**
   * What limits the trust in this state.
   *
   * @return the caveats, in their declared order; empty when none applies
   */
  public Set<MicelleCaveat> caveats() {
    return caveats;
  }

  @Override
  public String toString() {
    return components.size()
        + " surfactants, mixture CMC "
        + Text.number(mixtureCmc)
        + " mmol/L, in micelles "
        + Text.number(micellised)
        + " mmol/L";
  }
}
