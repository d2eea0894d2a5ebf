/** What is weighed: lines in percent by mass as supplied, and the audit of any recipe. */
@NullMarked
package org.surfactantblend.blend;

import org.jspecify.annotations.NullMarked;
