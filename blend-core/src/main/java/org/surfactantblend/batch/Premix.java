package org.surfactantblend.batch;

/**
 * A dilution made first because a line is too small for the scale, in water or in another liquid of
 * the recipe in which the material dissolves.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param strengthPercent how much of the material the premix holds [% m/m]
 * @param materialGrams how much of the material to weigh for it [g]
 * @param liquidGrams how much liquid to add to that [g]
 * @param toWeighGrams how much of the premix to put into the batch [g]
 * @param liquidBroughtGrams how much of the liquid line to leave out for it [g]
 */
public record Premix(
    double strengthPercent,
    double materialGrams,
    double liquidGrams,
    double toWeighGrams,
    double liquidBroughtGrams) {}
