/**
 * What is bought: raw materials with their constituents and acid-base make-up, families, lots,
 * prices, and the table that holds them. Start with {@link
 * org.surfactantblend.material.MaterialTable} and {@link org.surfactantblend.material.Material}.
 */
@NullMarked
package org.surfactantblend.material;

import org.jspecify.annotations.NullMarked;
