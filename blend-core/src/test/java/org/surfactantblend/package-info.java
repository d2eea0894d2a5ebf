/** Tests that reach across the rooms. */
@NullMarked
package org.surfactantblend;

import org.jspecify.annotations.NullMarked;
