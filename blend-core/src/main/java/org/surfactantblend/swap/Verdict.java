package org.surfactantblend.swap;

/** What became of a figure in a swap. */
public enum Verdict {
  /** The same as before. */
  HELD("held"),
  /** Changed, by no more than its tolerance or without one. */
  MOVED("moved"),
  /** Changed by more than its tolerance. */
  OUTSIDE_TOLERANCE("outside tolerance");

  private final String label;

  Verdict(String label) {
    this.label = label;
  }

  /**
   * The verdict in words.
   *
   * @return words in lower case
   */
  public String label() {
    return label;
  }
}
