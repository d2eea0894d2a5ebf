package org.surfactantblend.solve;

/**
 * How far a search for sets of surfactants is.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param steps steps so far
 * @param found how many sets the list holds
 * @param best the wish's figure of the best so far; NaN when there is none, or when the wish is a
 *     share of the active, which is found by several searches
 * @param bound no set that is still to come has a figure below this; minus infinity when that is
 *     not known
 */
public record SearchProgress(long steps, int found, double best, double bound) {}
