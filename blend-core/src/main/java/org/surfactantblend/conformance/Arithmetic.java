package org.surfactantblend.conformance;

import java.util.OptionalDouble;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.swap.SupplierSwap;

/** The library's sums that the laws are checked on; a test puts a wrong one in their place. */
class Arithmetic {
  static final Material WATER =
      Material.builder("water").inciName("Aqua").family(Family.inert("water")).build();

  /** What a material is mixed with. */
  static final Material PARTNER =
      Material.builder("partner")
          .inciName("Partner")
          .constituent(
              Constituent.active(
                  "Partner", Range.of(48, 50, 51), ChargeClass.ANIONIC, OptionalDouble.empty()))
          .strongIonEqPerKg(Range.ZERO)
          .build();

  /** A blend of two materials and water [% m/m as supplied]. */
  Blend mix(Material one, double oneAmount, Material other, double otherAmount) {
    return Blend.named("mix of " + one + " and " + other)
        .line(one, oneAmount)
        .line(other, otherAmount)
        .upToHundredWith(WATER);
  }

  /** The blend after a material of it was swapped with itself. */
  Blend swappedWithItself(Blend blend, Material material) {
    return SupplierSwap.in(blend).replace(material.id()).with(material).report().after();
  }

  /** Charge of a material [eq/kg as supplied]. */
  double charge(Material material, double ph, double ionicStrength) {
    return material.chargeCurve(Conditions.standard()).chargeEqPerKg(ph, ionicStrength);
  }

  /** Mean charge of an acid. */
  double charge(AcidBase acid, double ph, double ionicStrength) {
    return Conditions.standard().meanCharge(acid, ph, ionicStrength);
  }

  /** Parts of the forms of an acid, the one with all protons first. */
  double[] forms(AcidBase acid, double ph, double ionicStrength) {
    return Conditions.standard().fractions(acid, ph, ionicStrength);
  }
}
