/**
 * Another drum, another grade, somebody else's recipe: what changes and what can be held. Start
 * with {@link org.surfactantblend.swap.SupplierSwap} and {@link
 * org.surfactantblend.swap.RecipeConversion}.
 */
@NullMarked
package org.surfactantblend.swap;

import org.jspecify.annotations.NullMarked;
