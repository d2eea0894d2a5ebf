package org.surfactantblend.optimise;

import java.util.Objects;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * What a support search is to bring and how it may be watched and stopped.
 *
 * @param alternatives how many supports to bring, 1 or more
 * @param differing in how many members any two of them must differ at least, 1 or more: of the
 *     larger of what the one has and the other has not, and the reverse. Above 1 the list is built
 *     one by one, each the best that differs enough from all before
 * @param exactTies whether supports of equal cost are all looked at, so that ties are settled by
 *     their size, the smaller first, and then by the sorted list of indices; without it one of them
 *     is taken, always the same one
 * @param keepGoing asked before each node; on false the search stops with the best so far
 * @param progress told of each support that enters the list, and every 256 nodes
 * @param leafCheck asked for each support that would enter the list
 */
public record SearchSettings(
    int alternatives,
    int differing,
    boolean exactTies,
    BooleanSupplier keepGoing,
    Consumer<Progress> progress,
    LeafCheck leafCheck) {

  /** Checks the numbers. */
  public SearchSettings {
    if (alternatives < 1) {
      throw new IllegalArgumentException(
          "alternatives is " + alternatives + "; allowed: 1 or more");
    }
    if (differing < 1) {
      throw new IllegalArgumentException("differing is " + differing + "; allowed: 1 or more");
    }
    Objects.requireNonNull(keepGoing, "keepGoing");
    Objects.requireNonNull(progress, "progress");
    Objects.requireNonNull(leafCheck, "leafCheck");
  }

  /** The best so many, ties settled exactly, with no budget. */
  public static SearchSettings best(int alternatives) {
    return new SearchSettings(alternatives, 1, true, () -> true, p -> {}, Leaf::solution);
  }

  /** These settings with supports that differ from each other in at least so many members. */
  public SearchSettings withDiffering(int members) {
    return new SearchSettings(alternatives, members, exactTies, keepGoing, progress, leafCheck);
  }

  /** These settings with one of equally good supports taken. */
  public SearchSettings withAnyOfEqualCost() {
    return new SearchSettings(alternatives, differing, false, keepGoing, progress, leafCheck);
  }

  /** These settings with a budget. */
  public SearchSettings withKeepGoing(BooleanSupplier check) {
    return new SearchSettings(alternatives, differing, exactTies, check, progress, leafCheck);
  }

  /** These settings with a watcher. */
  public SearchSettings withProgress(Consumer<Progress> watcher) {
    return new SearchSettings(alternatives, differing, exactTies, keepGoing, watcher, leafCheck);
  }

  /** These settings with a check of each support. */
  public SearchSettings withLeafCheck(LeafCheck check) {
    return new SearchSettings(alternatives, differing, exactTies, keepGoing, progress, check);
  }

  /**
   * How far a search is.
   *
   * @param nodes nodes so far
   * @param found supports in the list
   * @param best cost of the best so far, positive infinity when none
   * @param bound no support that is not in the list and still to come costs less than this
   */
  public record Progress(long nodes, int found, double best, double bound) {}

  /**
   * Asked whether a support is acceptable, where the programme is only a relaxation of what is
   * wanted.
   */
  @FunctionalInterface
  public interface LeafCheck {

    /**
     * Judges one support.
     *
     * <p>The search stays exact as long as no answer costs less than the leaf's own solution. A
     * cheaper answer is listed with its cost, but supports that were cut off before are not looked
     * at again.
     *
     * @return the leaf's own solution to accept it, another optimal solution for the same support
     *     to take that one with its cost, or null to reject the support
     */
    @Nullable LpSolution judge(Leaf leaf);
  }

  /** A support with the optimum of the programme for it. Valid only while it is judged. */
  public interface Leaf {

    /** The variables in use, ascending. */
    int[] support();

    /** The programme that the search works on, to change a few rows of. */
    LinearProgram programme();

    /** The optimum for this support, with duals and reduced costs. */
    LpSolution solution();

    /**
     * Solves a changed programme for this support, starting from where this leaf ended: members
     * between minimum use and upper bound, the others to choose from at 0. For a few changed rows
     * or costs.
     *
     * @param changed a programme of the same shape; its own bounds count for the variables that are
     *     not to choose from, and its upper bounds for the members
     */
    LpSolution resolve(LinearProgram changed);
  }
}
