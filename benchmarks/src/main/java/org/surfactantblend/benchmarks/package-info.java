/** What solving costs, next to general-purpose solvers on the same problems in the same run. */
@NullMarked
package org.surfactantblend.benchmarks;

import org.jspecify.annotations.NullMarked;
