package org.surfactantblend.solve;

import java.util.Objects;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import org.surfactantblend.optimise.SearchSettings;

/**
 * How long a search for sets of surfactants may go on and who is told how far it is.
 *
 * <p>The library reads no clock: a caller who has only so much time asks his own in {@link
 * #goingOnWhile}. Without a budget a search runs to its end, with the same answer every time.
 *
 * <p>Immutable; as thread-safe as the functions it was given.
 */
public final class SearchBudget {
  private static final SearchBudget NONE = new SearchBudget(() -> true, p -> {});

  private final BooleanSupplier keepGoing;
  private final Consumer<SearchProgress> watcher;

  private SearchBudget(BooleanSupplier keepGoing, Consumer<SearchProgress> watcher) {
    this.keepGoing = keepGoing;
    this.watcher = watcher;
  }

  /**
   * No budget and nobody watching.
   *
   * @return the budget
   */
  public static SearchBudget none() {
    return NONE;
  }

  /**
   * This budget with a check that ends the search.
   *
   * @param check asked before each step of a search, a look at sets or at one range of ionic
   *     strength; on false the search stops with the best so far. It may count its calls to allow
   *     so many steps
   * @return the budget
   */
  public SearchBudget goingOnWhile(BooleanSupplier check) {
    return new SearchBudget(Objects.requireNonNull(check, "check"), watcher);
  }

  /**
   * This budget with somebody who is told of the progress.
   *
   * @param newWatcher told of each set that enters the list, and every 256 steps
   * @return the budget
   */
  public SearchBudget telling(Consumer<SearchProgress> newWatcher) {
    return new SearchBudget(keepGoing, Objects.requireNonNull(newWatcher, "watcher"));
  }

  BooleanSupplier keepGoing() {
    return keepGoing;
  }

  SearchSettings applyTo(SearchSettings settings, boolean ratio) {
    return settings
        .withKeepGoing(keepGoing)
        .withProgress(
            p ->
                watcher.accept(
                    new SearchProgress(
                        p.nodes(),
                        p.found(),
                        ratio || p.found() == 0 ? Double.NaN : p.best(),
                        ratio ? Double.NEGATIVE_INFINITY : p.bound())));
  }

  @Override
  public String toString() {
    return this == NONE ? "no search budget" : "search budget of the caller";
  }
}
