package org.surfactantblend.solve;

/** Thrown when a caller insists on a blend where none exists; carries the explanation. */
public final class NoBlendException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient NoBlend result;

  NoBlendException(NoBlend result) {
    super(result.summary());
    this.result = result;
  }

  /**
   * Why there is no blend.
   *
   * @return the explanation
   */
  public NoBlend result() {
    return result;
  }
}
