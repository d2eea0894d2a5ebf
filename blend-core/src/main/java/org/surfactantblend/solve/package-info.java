/**
 * From a brief and a table to a blend, or to the reason why there is none. Start with {@link
 * org.surfactantblend.solve.BlendSolver#solve}.
 */
@NullMarked
package org.surfactantblend.solve;

import org.jspecify.annotations.NullMarked;
