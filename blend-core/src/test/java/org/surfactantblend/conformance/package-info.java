/** Tests of the named checks. */
@NullMarked
package org.surfactantblend.conformance;

import org.jspecify.annotations.NullMarked;
