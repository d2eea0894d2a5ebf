/** What is wrong with data that people typed: collected, placed, and thrown only when asked. */
@NullMarked
package org.surfactantblend.problem;

import org.jspecify.annotations.NullMarked;
