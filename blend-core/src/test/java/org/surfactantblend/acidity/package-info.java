@NullMarked
package org.surfactantblend.acidity;

import org.jspecify.annotations.NullMarked;
