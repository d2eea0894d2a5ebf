package org.surfactantblend.testing;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Range;

/** Invented blends for laws that hold whatever is in them; the same seed gives the same blend. */
public final class RandomBlends {
  private static final Family INVENTED = Family.inert("invented grade");

  /** The water of every random blend. */
  public static final Material WATER = Material.builder("water").inciName("Aqua").build();

  private RandomBlends() {}

  /** A lot of a surfactant with random contents. */
  public static Material lot(Random random, int number, String lot) {
    double active = 20 + 75 * random.nextDouble();
    double salt = Math.min(100 - active, 8 * random.nextDouble());
    ChargeClass chargeClass = ChargeClass.values()[number % 3];
    return Material.builder("surfactant-" + number)
        .inciName("Surfactant " + number)
        .family(INVENTED)
        .lot(lot)
        .constituent(
            Constituent.active(
                "Surfactant " + number,
                Range.of(active * 0.97, active, Math.min(100, active * 1.03)),
                chargeClass,
                OptionalDouble.of(250 + 300 * random.nextDouble())))
        .constituent(Constituent.other(Constituent.SODIUM_CHLORIDE, Range.exactly(salt)))
        .strongIonEqPerKg(Range.exactly(0.08 * random.nextDouble() - 0.04))
        .build();
  }

  /** A material of one substance alone. */
  public static Material pure(String id, String inciName) {
    return Material.builder(id)
        .inciName(inciName)
        .family(INVENTED)
        .constituent(Constituent.other(inciName, Range.exactly(100)))
        .build();
  }

  /** A blend of one to five surfactants, glycerin, salt, a preservative and much water. */
  public static Blend blend(long seed) {
    Random random = new Random(seed);
    Blend.Builder b = Blend.named("random blend " + seed);
    for (Material m : surfactants(random)) {
      b.line(m, 0.5 + 9 * random.nextDouble());
    }
    b.line(pure("glycerin", "Glycerin"), 3 * random.nextDouble());
    b.line(pure("sodium-chloride", Constituent.SODIUM_CHLORIDE), 0.6 + 2 * random.nextDouble());
    b.line(pure("preservative", "Phenoxyethanol"), 0.2 + random.nextDouble());
    return b.upToHundredWith(WATER);
  }

  private static List<Material> surfactants(Random random) {
    List<Material> all = new ArrayList<>();
    int n = 1 + random.nextInt(5);
    for (int i = 0; i < n; i++) {
      all.add(lot(random, i, "first"));
    }
    return all;
  }
}
