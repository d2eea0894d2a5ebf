/** Tests of the measures of mildness. */
@NullMarked
package org.surfactantblend.mildness;

import org.jspecify.annotations.NullMarked;
