/**
 * Measures of how mild a surfactant mix may be, each with its source, range and caveat.
 *
 * <p>There is no published number that is "the mildness of a blend", so nothing here offers one.
 * What can be defended is offered side by side: the share of net anionic charge, an irritation
 * index by share of the active ({@link org.surfactantblend.mildness.IrritationIndex}), the mixed
 * micelles of the blend ({@link org.surfactantblend.mildness.MixedMicelleModel}) and, for
 * concentrates, the eye-hazard sum ({@link org.surfactantblend.mildness.EyeHazardSum}). They are
 * screening indicators; assessment by a qualified person is still required.
 */
@NullMarked
package org.surfactantblend.mildness;

import org.jspecify.annotations.NullMarked;
