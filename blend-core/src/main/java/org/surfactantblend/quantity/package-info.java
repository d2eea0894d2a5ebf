/** Numbers with their unit and basis. Nothing here knows a material. */
@NullMarked
package org.surfactantblend.quantity;

import org.jspecify.annotations.NullMarked;
