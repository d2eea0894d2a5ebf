package org.surfactantblend.solve;

/** A figure of a blend that a trade-off wants small. */
public enum Measure {
  /** Raw-material cost, of a table with prices. */
  COST("cost", "per kg", 4),
  /** Surfactants together as supplied. */
  SURFACTANT_AS_SUPPLIED("surfactant", "% as supplied", 3),
  /** How many surfactants are used. */
  SURFACTANT_COUNT("surfactants used", "", 0),
  /** Anionic active against all active, of a brief with one total active and no tolerance. */
  ANIONIC_SHARE("anionic share", "% of the active", 2),
  /**
   * The irritation index by the high figures of the scores, of a brief with one total active and no
   * tolerance that may choose only among materials with a score.
   */
  IRRITATION_INDEX("irritation index", "high figure", 2),
  /** Sodium chloride from all sources. */
  SALT("sodium chloride", "% m/m", 3),
  /**
   * What is not of natural origin, water counted as natural; of materials whose natural origin is
   * given.
   */
  NOT_OF_NATURAL_ORIGIN("not of natural origin", "% m/m", 2);

  private final String label;
  private final String unit;
  private final int decimals;

  Measure(String label, String unit, int decimals) {
    this.label = label;
    this.unit = unit;
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
   * @return the unit with its basis; empty for a count
   */
  public String unit() {
    return unit;
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
