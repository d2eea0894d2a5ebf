/**
 * Named checks for a new material, a lot, a table or an acid, without a test framework.
 *
 * <p>Start at {@link org.surfactantblend.conformance.Conformance}.
 */
@NullMarked
package org.surfactantblend.conformance;

import org.jspecify.annotations.NullMarked;
