/**
 * Data in and out: the tables that ship with the library, a shop's own materials and prices as CSV
 * or JSON. The only room that knows Jackson. Start with {@link
 * org.surfactantblend.io.MaterialFile}, {@link org.surfactantblend.io.PriceFile} and {@link
 * org.surfactantblend.io.Input}; {@link org.surfactantblend.io.Requests} answers tools that are not
 * written in Java.
 *
 * <p>Nothing that people typed makes a method throw: every fault is a {@link
 * org.surfactantblend.problem.Problem} with a code of {@link org.surfactantblend.io.ProblemCodes},
 * and the rows without fault stay usable. Only a file that cannot be read at all gives an {@link
 * java.io.IOException}.
 */
@NullMarked
package org.surfactantblend.io;

import org.jspecify.annotations.NullMarked;
