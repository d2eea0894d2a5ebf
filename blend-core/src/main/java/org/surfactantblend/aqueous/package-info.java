/**
 * Acid-base chemistry of dilute aqueous solutions: composition in, pH out. It knows no blends.
 *
 * <p>Start with {@link org.surfactantblend.aqueous.Solution} for the pH of a composition, with
 * {@link org.surfactantblend.aqueous.Conditions} for the charge of a weak group at a known pH, and
 * with {@link org.surfactantblend.aqueous.ChargeBalance} when many pH values are wanted at one
 * ionic strength.
 *
 * <p>pH is minus the decimal logarithm of the hydrogen-ion <em>activity</em>, as meters read it;
 * amounts are molalities [mol/kg water].
 */
@NullMarked
package org.surfactantblend.aqueous;

import org.jspecify.annotations.NullMarked;
