package org.surfactantblend.testing;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Family.Trait;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.material.SheetPh;
import org.surfactantblend.quantity.PhWindow;
import org.surfactantblend.quantity.Range;

/** An invented shop: a few materials of every kind with ranges, and random ones by seed. */
public final class Shop {
  private static final Family GLUCOSIDE =
      family(
          "glucoside",
          ChargeClass.NONIONIC,
          0,
          null,
          Set.of(Trait.CAUSTIC),
          group("alkaline buffer", acid(8.6), Range.of(8.2, 8.6, 9.2), Range.of(.005, .02, .05)));
  private static final Family BETAINE =
      family(
          "betaine",
          ChargeClass.AMPHOTERIC,
          1,
          null,
          Set.of(),
          new AcidBaseGroup(
              "carboxylate", AcidBase.acid("carboxylate", 1.9), null, Range.exactly(1), true, true),
          group("fatty acid", acid(5.6), Range.of(5, 5.6, 6.4), Range.of(.01, .024, .04)),
          group("free amine", base(9), Range.of(8.6, 9, 9.5), Range.of(.002, .008, .015)));
  private static final Family SULFATE = family("sulfate", ChargeClass.ANIONIC, -1, null, Set.of());
  private static final Family GLUTAMATE =
      family(
          "glutamate",
          ChargeClass.ANIONIC,
          -1,
          PhWindow.of(4.5, 10),
          Set.of(),
          new AcidBaseGroup(
              "carboxyl", acid(4.9), Range.of(4.6, 4.9, 5.3), Range.of(.95, 1, 1.05), true, true));
  private static final Family ISETHIONATE =
      family(
          "isethionate",
          ChargeClass.ANIONIC,
          -1,
          PhWindow.of(5, 8),
          Set.of(Trait.ESTER),
          group("fatty acid", acid(5.8), Range.of(5.2, 5.8, 6.6), Range.of(.1, .25, .4)));
  private static final Family QUAT = family("quat", ChargeClass.CATIONIC, 1, null, Set.of());

  /** A caustic glucoside of about 52 % active. */
  public static final Material DECYL =
      surfactant("decyl", GLUCOSIDE, Range.of(50, 52, 54), 390).sheetPh(at(11.5, 12.3, 10)).build();

  /** Another caustic glucoside, of about 50 % active. */
  public static final Material COCO =
      surfactant("coco", GLUCOSIDE, Range.of(48, 50, 53), 415).sheetPh(at(11.2, 12.5, 20)).build();

  /** A betaine of about 30 % active and 5 % sodium chloride. */
  public static final Material BETA =
      surfactant("beta", BETAINE, Range.of(29, 30, 31.5), 342)
          .constituent(Constituent.other(Constituent.SODIUM_CHLORIDE, Range.of(4.5, 5.1, 6)))
          .sheetPh(at(4.5, 5.8, 10))
          .build();

  /** An ether sulfate of about 27 % active. */
  public static final Material SULF =
      surfactant("sulf", SULFATE, Range.of(26, 27, 28.5), 384)
          .constituent(Constituent.other(Constituent.SODIUM_CHLORIDE, Range.of(0, .2, .4)))
          .sheetPh(at(6.5, 8.5, 10))
          .build();

  /** A glutamate of about 29 % active. */
  public static final Material GLUT =
      surfactant("glut", GLUTAMATE, Range.of(27, 29, 30), 395).sheetPh(at(8.5, 10.5, 5)).build();

  /** An isethionate powder: an ester, which lasts at pH 5 to 8. */
  public static final Material ISET =
      surfactant("iset", ISETHIONATE, Range.of(82, 84, 87), 340).sheetPh(at(4.6, 6, 10)).build();

  /** A cationic conditioner of about 28 % active. */
  public static final Material QUAR =
      surfactant("quar", QUAT, Range.of(25, 28, 30), 320).sheetPh(at(4, 6.5, 10)).build();

  /** Water. */
  public static final Material WATER =
      Material.builder("water").inciName("Aqua").family(Family.inert("water")).build();

  /** Glycerin, which touches no pH. */
  public static final Material GLYCERIN =
      Material.builder("glycerin")
          .inciName("Glycerin")
          .family(Family.inert("humectant"))
          .constituent(Constituent.other("Glycerin", Range.exactly(99.5)))
          .build();

  /** A 20 % citric acid solution. */
  public static final Material CITRIC =
      Material.builder("citric")
          .inciName("Citric Acid")
          .family(Family.inert("acid"))
          .constituent(Constituent.other("Citric Acid", Range.exactly(20)))
          .group(
              new AcidBaseGroup(
                  "citric acid",
                  AcidBase.acid("citric acid", 3.13, 4.76, 6.40),
                  null,
                  Range.exactly(200 / 192.12),
                  false,
                  false))
          .strongIonEqPerKg(Range.ZERO)
          .build();

  /** Sodium benzoate. */
  public static final Material BENZOATE =
      Material.builder("benzoate")
          .inciName("Sodium Benzoate")
          .family(Family.inert("preservative"))
          .constituent(Constituent.other("Sodium Benzoate", Range.exactly(100)))
          .group(
              new AcidBaseGroup(
                  "benzoic acid",
                  AcidBase.acid("benzoic acid", 4.20),
                  null,
                  Range.exactly(1000 / 144.11),
                  false,
                  false))
          .strongIonEqPerKg(Range.exactly(1000 / 144.11))
          .build();

  private static final List<Material> ALL =
      List.of(DECYL, COCO, BETA, SULF, GLUT, ISET, QUAR, WATER, GLYCERIN, CITRIC, BENZOATE);

  private Shop() {}

  /** Everything the shop has, with invented prices. */
  public static MaterialTable table() {
    return MaterialTable.of(ALL).priced(prices());
  }

  /** Invented prices of everything. */
  public static PriceList prices() {
    return PriceList.of(
        "cu",
        Map.ofEntries(
            Map.entry("decyl", 5.4),
            Map.entry("coco", 4.9),
            Map.entry("beta", 2.3),
            Map.entry("sulf", 1.1),
            Map.entry("glut", 3.4),
            Map.entry("iset", 6.8),
            Map.entry("quar", 4.2),
            Map.entry("water", 0.04),
            Map.entry("glycerin", 1.6),
            Map.entry("citric", 0.55),
            Map.entry("benzoate", 3.2)));
  }

  /**
   * A table of random surfactants named s0, s1, ..., with the shop's other materials and prices.
   */
  public static MaterialTable random(Random random, int surfactants) {
    List<Material> all = new ArrayList<>();
    Map<String, Double> price = new LinkedHashMap<>();
    for (int i = 0; i < surfactants; i++) {
      Material m = randomSurfactant(random, "s" + i);
      all.add(m);
      price.put(m.id(), 1 + 7 * random.nextDouble());
    }
    for (Material m : List.of(GLYCERIN, CITRIC, BENZOATE, WATER)) {
      all.add(m);
      price.put(m.id(), prices().pricePerKg(m.id()).orElseThrow());
    }
    return MaterialTable.of(all).priced(PriceList.of("cu", price));
  }

  /** Random amounts of some random surfactants of a table, with or without other lines. */
  public static Blend randomBlend(Random random, MaterialTable table, int most) {
    List<Material> some = new ArrayList<>(table.surfactants());
    java.util.Collections.shuffle(some, random);
    Blend.Builder b = Blend.named("random");
    int count = 1 + random.nextInt(Math.min(most, some.size()));
    for (Material m : some.subList(0, count)) {
      double active = (0.5 + random.nextDouble() * 14) / count;
      b.line(m, Math.min(60.0 / count, active / m.activePercent().typical() * 100));
    }
    if (random.nextBoolean()) {
      b.line(GLYCERIN, 3);
    }
    if (random.nextBoolean()) {
      b.line(BENZOATE, 0.4);
    }
    if (random.nextBoolean()) {
      b.line(CITRIC, 0.2 + random.nextDouble());
    }
    return b.upToHundredWith(WATER);
  }

  private static Material randomSurfactant(Random random, String id) {
    Family[] kinds = {GLUCOSIDE, GLUCOSIDE, BETAINE, BETAINE, SULFATE, GLUTAMATE, ISETHIONATE};
    Family kind = kinds[random.nextInt(kinds.length)];
    double typical = kind == ISETHIONATE ? 84 : 25 + 30 * random.nextDouble();
    Range active = Range.of(typical * 0.96, typical, typical * (1.01 + 0.04 * random.nextDouble()));
    Material.Builder b = surfactant(id, kind, active, 290 + 150 * random.nextDouble());
    if (random.nextInt(3) == 0) {
      double salt = 6 * random.nextDouble();
      b.constituent(
          Constituent.other(Constituent.SODIUM_CHLORIDE, Range.of(salt * 0.9, salt, salt * 1.15)));
    }
    double low =
        kind == GLUCOSIDE
            ? 11.2 + 0.6 * random.nextDouble()
            : kind == GLUTAMATE
                ? 8.5 + random.nextDouble()
                : kind == SULFATE ? 6.4 + random.nextDouble() : 4.5 + 0.7 * random.nextDouble();
    double dilution = new double[] {1, 5, 10, 20, 100}[random.nextInt(kind == ISETHIONATE ? 4 : 5)];
    b.sheetPh(at(low, low + 0.2 + 1.2 * random.nextDouble(), dilution));
    return b.build();
  }

  private static SheetPh at(double low, double high, double dilution) {
    return SheetPh.of(low, high, dilution);
  }

  private static Material.Builder surfactant(String id, Family f, Range active, double molarMass) {
    return Material.builder(id)
        .inciName("Invented " + id)
        .family(f)
        .constituent(
            Constituent.active(
                "Invented " + id,
                active,
                java.util.Objects.requireNonNull(f.usualClass()),
                OptionalDouble.of(molarMass)));
  }

  private static Family family(
      String name,
      ChargeClass c,
      double charge,
      @org.jspecify.annotations.Nullable PhWindow stable,
      Set<Trait> traits,
      AcidBaseGroup... groups) {
    return new Family(name, c, charge, stable, traits, List.of(groups));
  }

  private static AcidBaseGroup group(String name, AcidBase acid, Range pKa, Range molPerKg) {
    return new AcidBaseGroup(name, acid, pKa, molPerKg, false, false);
  }

  private static AcidBase acid(double pKa) {
    return AcidBase.acid("acid " + pKa, pKa).asApparent();
  }

  private static AcidBase base(double pKa) {
    return AcidBase.base("base " + pKa, pKa);
  }
}
