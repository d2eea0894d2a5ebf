package org.surfactantblend.mildness;

/** What limits the trust in a mixed-micelle state. */
public enum MicelleCaveat {
  /** A parameter that changes with composition was used. */
  INTERPOLATED(
      "the interaction of anionic and zwitterionic surfactant interpolates measured mixture CMCs"
          + " and is not thermodynamically consistent"),
  /** A parameter was used outside the compositions it was fitted to. */
  OUTSIDE_DATA("the anionic share lies outside the measurements behind an interaction parameter"),
  /** A parameter was used that nobody measured for this kind of pair. */
  ASSUMED_INTERACTION("an interaction parameter is an assumption without a measurement"),
  /**
   * A constant parameter below -5: over a range of compositions such constants missed measured
   * mixture CMCs by 45 to 62 % (root mean square of the logarithm).
   */
  STRONG_CONSTANT(
      "a constant interaction parameter below -5 misses measured mixture CMCs by a factor of up to"
          + " two or three"),
  /** Anionic and cationic surfactant are both present. */
  CHARGE_COMPENSATION(
      "anionic and cationic surfactant neutralise each other and may precipitate, which the model"
          + " does not know"),
  /** The parameters allow two kinds of micelle side by side. */
  DEMIXING(
      "these parameters allow two kinds of micelle side by side, but one composition is reported"),
  /** A CMC belongs to a technical grade. */
  TECHNICAL_GRADE("a CMC belongs to a technical mixture of chain lengths with its salt");

  private final String text;

  MicelleCaveat(String text) {
    this.text = text;
  }

  /**
   * The caveat for a reader.
   *
   * @return one clause, without a full stop
   */
  public String text() {
    return text;
  }
}
