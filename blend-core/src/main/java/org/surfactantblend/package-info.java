/**
 * Where a first program starts: {@link org.surfactantblend.Blends} holds the entry points and the
 * defaults.
 */
@NullMarked
package org.surfactantblend;

import org.jspecify.annotations.NullMarked;
