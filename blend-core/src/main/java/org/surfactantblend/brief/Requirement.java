package org.surfactantblend.brief;

import java.util.Objects;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/**
 * One thing a blend must meet: a figure between a least and a greatest value.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param kind which figure
 * @param subject the charge class or material id it is about; empty when it is about the blend
 * @param low the least allowed value, in the unit of the kind; minus infinity when there is none
 * @param high the greatest allowed value, in the unit of the kind; infinity when there is none
 * @param atPh the pH at which a charge is counted, or to which a titrant has to bring the blend;
 *     NaN for kinds that need none
 */
public record Requirement(Kind kind, String subject, double low, double high, double atPh) {
  /** The figures a requirement can be about. */
  public enum Kind {
    /** Active matter of all classes [% active of the product]. */
    TOTAL_ACTIVE("total active", "% active", 0.1, 3),
    /** Active matter of one class against all [% of the active]. */
    CLASS_SHARE("share", "% of the active", 1, 2),
    /** Active matter of one material against all [% of the active]. */
    MATERIAL_SHARE("share", "% of the active", 1, 2),
    /** The pH of the whole product before any correction. */
    STARTING_PH("starting pH", "", 0.1, 2),
    /** The pH of the surfactants with water in place of everything else. */
    STARTING_PH_OF_SURFACTANTS("starting pH of surfactants and water", "", 0.1, 2),
    /** An acid or a base in place of water that brings the product to a pH [% m/m as supplied]. */
    TO_REACH_PH("to reach a pH", "% as supplied", 0.1, 3),
    /** One material [% m/m as supplied]. */
    AS_SUPPLIED("amount", "% as supplied", 0.1, 3),
    /** Sodium chloride from all sources [% m/m]. */
    SALT("sodium chloride", "% m/m", 0.1, 3),
    /** Negative less positive charge on the surfactants at a stated pH [mmol/kg of product]. */
    NET_ANIONIC_CHARGE("net anionic charge", "mmol/kg", 1, 2),
    /** Negative charge on the surfactants at a stated pH [mol charge per 100 mol of surfactant]. */
    NET_ANIONIC_CHARGE_SHARE("net anionic charge share", "% of the moles", 1, 2),
    /**
     * High figures of the irritation scores, weighted by share of the active [sodium lauryl sulfate
     * = 100].
     */
    IRRITATION_INDEX("irritation index (high)", "", 1, 2),
    /**
     * The same less the brief's credit for mixing; at most, and for typical lots only [sodium
     * lauryl sulfate = 100].
     */
    BLENDED_INDEX("blended irritation index (high)", "", 1, 2),
    /** Raw-material cost [currency per kg of product]. */
    COST("cost", "per kg", 0.01, 4);

    private final String label;
    private final String unit;
    private final double point;
    private final int decimals;

    Kind(String label, String unit, double point, int decimals) {
      this.label = label;
      this.unit = unit;
      this.point = point;
      this.decimals = decimals;
    }

    /**
     * What the figure is called.
     *
     * @return words in lower case
     */
    public String label() {
      return label;
    }

    /**
     * The unit of its figures.
     *
     * @return the unit with its basis; empty for pH
     */
    public String unit() {
      return unit;
    }

    /**
     * One point: the step by which loosening is judged.
     *
     * @return the step, in the unit of the kind
     */
    public double point() {
      return point;
    }

    /**
     * How many decimals its figures are shown with.
     *
     * @return the decimals
     */
    public int decimals() {
      return decimals;
    }
  }

  /**
   * Checks the bounds.
   *
   * @param kind which figure
   * @param subject the charge class or material id it is about; empty when it is about the blend
   * @param low the least allowed value, in the unit of the kind; minus infinity when there is none
   * @param high the greatest allowed value, in the unit of the kind; infinity when there is none
   * @param atPh the pH at which a charge is counted, or to which a titrant has to bring the blend;
   *     NaN for kinds that need none
   * @throws IllegalArgumentException if there is no bound, a bound is NaN, or low is above high
   */
  public Requirement {
    Objects.requireNonNull(kind, "kind");
    Objects.requireNonNull(subject, "subject");
    if (Double.isNaN(low) || Double.isNaN(high) || low > high) {
      throw new IllegalArgumentException(
          kind.label()
              + " was "
              + low
              + " to "
              + high
              + ", allowed is a lower end not above the"
              + " upper one");
    }
    if (Double.isInfinite(low) && Double.isInfinite(high)) {
      throw new IllegalArgumentException(
          kind.label() + " had no bound, allowed is a lower end, an upper end or both");
    }
    low = low + 0.0;
    high = high + 0.0;
    if (!Double.isNaN(atPh)) {
      Require.inRange("pH", atPh, -2, 16, "");
    }
  }

  /**
   * A requirement without a pH of its own.
   *
   * @param kind which figure
   * @param subject what it is about; empty for the blend
   * @param low the least value, or minus infinity
   * @param high the greatest value, or infinity
   * @return the requirement
   */
  public static Requirement of(Kind kind, String subject, double low, double high) {
    return new Requirement(kind, subject, low, high, Double.NaN);
  }

  /**
   * Whether it has a lower end.
   *
   * @return true when low is finite
   */
  public boolean hasLow() {
    return !Double.isInfinite(low);
  }

  /**
   * Whether it has an upper end.
   *
   * @return true when high is finite
   */
  public boolean hasHigh() {
    return !Double.isInfinite(high);
  }

  /**
   * The same requirement with its lower end moved down.
   *
   * @param by how far, 0 or more, in the unit of the kind
   * @return the looser requirement
   */
  public Requirement loosenedLow(double by) {
    return new Requirement(kind, subject, low - by, high, atPh);
  }

  /**
   * The same requirement with its upper end moved up.
   *
   * @param by how far, 0 or more, in the unit of the kind
   * @return the looser requirement
   */
  public Requirement loosenedHigh(double by) {
    return new Requirement(kind, subject, low, high + by, atPh);
  }

  /**
   * What it is about, in words.
   *
   * @return for instance {@code share of amphoteric}
   */
  public String label() {
    if (kind == Kind.TO_REACH_PH) {
      return subject + " to reach pH " + Text.number(atPh);
    }
    return subject.isEmpty() ? kind.label() : kind.label() + " of " + subject;
  }

  /**
   * The allowed values, in words.
   *
   * @return for instance {@code 40 to 60 % of the active}
   */
  public String allowed() {
    String unit = kind.unit().isEmpty() ? "" : " " + kind.unit();
    if (!hasHigh()) {
      return "at least " + Text.number(low) + unit;
    }
    if (!hasLow()) {
      return "at most " + Text.number(high) + unit;
    }
    return low == high
        ? Text.number(low) + unit
        : Text.number(low) + " to " + Text.number(high) + unit;
  }

  @Override
  public String toString() {
    return label() + " " + allowed();
  }
}
