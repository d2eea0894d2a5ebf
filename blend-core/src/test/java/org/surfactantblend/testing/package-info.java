/** What every test of a blend shares: checks worked out anew, from the weights alone. */
@NullMarked
package org.surfactantblend.testing;

import org.jspecify.annotations.NullMarked;
