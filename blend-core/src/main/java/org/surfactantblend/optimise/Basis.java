package org.surfactantblend.optimise;

/**
 * Where a solve ended: which variables and rows are basic and which of the others sit at their
 * upper bound. Indices run over the variables first and the rows after them. Immutable; a start for
 * a similar programme of the same shape.
 */
public final class Basis {

  final int variables;
  final int[] basic;
  private final long[] atUpper;

  Basis(int variables, int[] basic, long[] atUpper) {
    this.variables = variables;
    this.basic = basic;
    this.atUpper = atUpper;
  }

  /** One index per row: a variable (below n), or n plus the index of a row. */
  public int[] basic() {
    return basic.clone();
  }

  /**
   * Whether a variable (below n) or a row (n plus its index) that is not basic sits at its upper
   * bound.
   */
  public boolean atUpper(int index) {
    return (atUpper[index >> 6] >> (index & 63) & 1) != 0;
  }
}
