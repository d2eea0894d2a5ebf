package org.surfactantblend.optimise;

/**
 * The arithmetic of a programme broke down: neither an optimum nor a proof that there is none could
 * be reached.
 */
public final class NumericBreakdownException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final transient LinearProgram program;

  NumericBreakdownException(String message, LinearProgram program) {
    super(message);
    this.program = program;
  }

  /** The programme that could not be decided, for a report. */
  public LinearProgram program() {
    return program;
  }
}
