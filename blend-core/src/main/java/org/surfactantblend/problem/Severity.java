package org.surfactantblend.problem;

/** How bad a problem is. */
public enum Severity {
  /** The figure or row cannot be used. */
  ERROR,
  /** The figure is used, but somebody should look at it. */
  WARNING
}
