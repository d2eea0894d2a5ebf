package org.surfactantblend.mildness;

import java.util.Objects;
import org.surfactantblend.quantity.Require;

/**
 * The interaction parameter beta of two surfactants in a mixed micelle, in units of RT
 * [dimensionless], and how far it may be trusted. Negative is attraction: the mixture forms
 * micelles at a lower concentration than ideal mixing says.
 *
 * <p>For most pairs one constant is enough. An anionic with a betaine or an amine oxide needs
 *
 * <pre>  beta = intercept + slope * s,   held between lowest and highest,</pre>
 *
 * where s is the anionic share [mol/mol] of the anionic and zwitterionic surfactants of the whole
 * mixture, not of the micelle. That form interpolates measured mixture CMCs and is not consistent
 * with the Gibbs-Duhem equation; it says nothing outside the shares it was fitted to.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param intercept beta at share 0, or the constant itself
 * @param slope change of beta from share 0 to share 1; 0 for a constant
 * @param lowest the most attractive value used
 * @param highest the least attractive value used
 * @param fromShare the lowest anionic share among the measurements behind it [mol/mol]
 * @param toShare the highest anionic share among the measurements behind it [mol/mol]
 * @param assumed true when no measurement of this kind of pair stands behind the figure
 * @param source the id of the source
 */
public record Interaction(
    double intercept,
    double slope,
    double lowest,
    double highest,
    double fromShare,
    double toShare,
    boolean assumed,
    String source) {
  /** The largest size of an interaction parameter that is accepted. */
  static final double LARGEST = 40;

  /**
   * Checks the values.
   *
   * @param intercept beta at share 0, or the constant itself
   * @param slope change of beta from share 0 to share 1; 0 for a constant
   * @param lowest the most attractive value used
   * @param highest the least attractive value used
   * @param fromShare the lowest anionic share among the measurements behind it [mol/mol]
   * @param toShare the highest anionic share among the measurements behind it [mol/mol]
   * @param assumed true when no measurement of this kind of pair stands behind the figure
   * @param source the id of the source
   * @throws IllegalArgumentException if a parameter is outside -40 to 40, a share outside 0 to 1, a
   *     range is upside down, or the source is blank
   */
  public Interaction {
    intercept = Require.inRange("interaction intercept", intercept, -LARGEST, LARGEST, "RT");
    slope = Require.inRange("interaction slope", slope, -LARGEST, LARGEST, "RT");
    lowest = Require.inRange("lowest interaction", lowest, -LARGEST, LARGEST, "RT");
    highest = Require.inRange("highest interaction", highest, lowest, LARGEST, "RT");
    fromShare = Require.inRange("lowest anionic share", fromShare, 0, 1, "mol/mol");
    toShare = Require.inRange("highest anionic share", toShare, fromShare, 1, "mol/mol");
    source = Require.text("interaction source", source);
  }

  /**
   * A constant parameter that rests on measurements.
   *
   * @param beta the parameter [RT], -40 to 40
   * @param source the id of the source
   * @return the interaction
   * @throws IllegalArgumentException if the parameter is out of range or the source blank
   */
  public static Interaction constant(double beta, String source) {
    return new Interaction(beta, 0, beta, beta, 0, 1, false, source);
  }

  /**
   * A constant parameter that nobody measured for this kind of pair.
   *
   * @param beta the parameter [RT], -40 to 40
   * @param source why this value
   * @return the interaction
   * @throws IllegalArgumentException if the parameter is out of range or the source blank
   */
  public static Interaction assumed(double beta, String source) {
    return new Interaction(beta, 0, beta, beta, 0, 1, true, source);
  }

  /**
   * Whether the parameter changes with the composition of the mixture.
   *
   * @return true when it has a slope
   */
  public boolean dependsOnShare() {
    return slope != 0;
  }

  /**
   * The parameter in a mixture.
   *
   * @param anionicShare anionic over anionic plus zwitterionic surfactant [mol/mol], 0 to 1
   * @return beta [RT]
   */
  public double at(double anionicShare) {
    if (slope == 0) {
      return intercept;
    }
    return Math.max(lowest, Math.min(highest, intercept + slope * anionicShare)) + 0.0;
  }

  /**
   * Whether a mixture lies inside the measurements behind the parameter.
   *
   * @param anionicShare anionic over anionic plus zwitterionic surfactant [mol/mol], 0 to 1
   * @return true when it does
   */
  public boolean covers(double anionicShare) {
    return !dependsOnShare() || (anionicShare >= fromShare && anionicShare <= toShare);
  }

  /** Orders two names so that a pair is found whichever comes first. */
  record Pair(String first, String second) {
    static Pair of(String a, String b) {
      Objects.requireNonNull(a, "first of the pair");
      Objects.requireNonNull(b, "second of the pair");
      return a.compareTo(b) <= 0 ? new Pair(a, b) : new Pair(b, a);
    }
  }
}
