@NullMarked
package org.surfactantblend.examples;

import org.jspecify.annotations.NullMarked;
