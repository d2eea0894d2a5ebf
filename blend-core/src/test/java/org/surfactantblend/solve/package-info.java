@NullMarked
package org.surfactantblend.solve;

import org.jspecify.annotations.NullMarked;
