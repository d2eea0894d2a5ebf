/**
 * Weighing: order to batch, batch to grams on real scales, and what to do about a batch that went
 * wrong. Start with {@link org.surfactantblend.batch.BatchSheet} and {@link
 * org.surfactantblend.batch.AsWeighed}.
 */
@NullMarked
package org.surfactantblend.batch;

import org.jspecify.annotations.NullMarked;
