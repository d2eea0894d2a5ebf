package org.surfactantblend.acidity;

import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.aqueous.Conditions;

/** Ideal water, one weak acid and two strong titrants: every figure can be worked out by hand. */
final class ByHand {
  static final Conditions IDEAL = Conditions.ideal(14);
  static final double PKA = 4.756;
  static final AcidBase ACETIC = AcidBase.acid("acetic acid", PKA);
  static final Titrant ACID =
      Titrant.named("acid").strongIonEqPerKg(-1).group(ACETIC, 1e-6).build();
  static final Titrant BASE = Titrant.named("base").strongIonEqPerKg(1).group(ACETIC, 1e-6).build();

  private ByHand() {}
}
