package org.surfactantblend.optimise;

import java.util.List;

/**
 * What a support search found. Immutable.
 *
 * @param choices the supports in order of cost, equal costs by size and then by sorted list of
 *     indices
 * @param complete whether the search ran to its end: there is then no better list
 * @param bound no support that is not listed costs less than this; when complete, the cost of the
 *     last choice, or positive infinity when the list holds all there are
 * @param nodes nodes looked at
 * @param pivots exchanges of a basic variable
 */
public record SupportResult(
    List<Choice> choices, boolean complete, double bound, long nodes, long pivots) {

  /** Keeps a copy of the list. */
  public SupportResult {
    choices = List.copyOf(choices);
  }

  /** One support and its optimum. */
  public static final class Choice {

    private final int[] support;
    private final LpSolution solution;

    Choice(int[] support, LpSolution solution) {
      this.support = support;
      this.solution = solution;
    }

    /** The variables in use, ascending. */
    public int[] support() {
      return support.clone();
    }

    /**
     * The optimum for this support: members between minimum use and upper bound, the others to
     * choose from at 0.
     */
    public LpSolution solution() {
      return solution;
    }

    /** Its cost. */
    public double cost() {
      return solution.objective();
    }

    int[] members() {
      return support;
    }
  }
}
