@NullMarked
package org.surfactantblend.blend;

import org.jspecify.annotations.NullMarked;
