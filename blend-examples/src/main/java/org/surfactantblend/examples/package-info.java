/** Short programs, each with one question. */
@NullMarked
package org.surfactantblend.examples;

import org.jspecify.annotations.NullMarked;
