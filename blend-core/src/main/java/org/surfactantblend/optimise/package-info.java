/**
 * Small dense linear programmes, the choice of a few variables out of many, and the exact trade-off
 * between two linear measures. Plain arrays go in and come out; nothing here knows a material, a
 * unit or a brief.
 *
 * <p>Start at {@link org.surfactantblend.optimise.LinearProgram} and {@link
 * org.surfactantblend.optimise.DualSimplex}. This package is not part of the public API.
 */
@NullMarked
package org.surfactantblend.optimise;

import org.jspecify.annotations.NullMarked;
