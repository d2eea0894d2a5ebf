/**
 * The pH of a blend and what moves it. Start with {@link org.surfactantblend.acidity.StartingPh}.
 */
@NullMarked
package org.surfactantblend.acidity;

import org.jspecify.annotations.NullMarked;
