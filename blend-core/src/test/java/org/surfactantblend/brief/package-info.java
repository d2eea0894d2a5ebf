@NullMarked
package org.surfactantblend.brief;

import org.jspecify.annotations.NullMarked;
