package org.surfactantblend.acidity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Mass;

class TitrantTest {
  private static final Conditions AT_25 = Conditions.standard();

  private static double at(Titrant t, double ph) {
    return t.chargeEqPerKg(AT_25, ph, 0.1);
  }

  @Test
  void aGramOfAnhydrousCitricAcidIsWorthMoreThanOneOfMonohydrate() {
    // 210.14 / 192.124, molar masses of the hydrate and the acid.
    double ratio =
        at(Titrant.citricAcidAnhydrous(), 5.5) / at(Titrant.citricAcidMonohydrate(), 5.5);
    assertEquals(1.0938, ratio, 2e-4);
    assertEquals(Titrant.citricAcidAnhydrous(), Titrant.citricAcid(100));
    assertEquals(0.0857, Titrant.citricAcidMonohydrate().waterKgPerKg(), 1e-4);
  }

  @Test
  void strengthIsPercentByMass() {
    // 50 % m/m is 2.603 mol/kg; taken as weight in volume it would be a quarter more.
    assertEquals(2.6025, Titrant.citricAcid(50).groups().get(0).molPerKg(), 1e-4);
    assertEquals(0.5, Titrant.citricAcid(50).waterKgPerKg(), 1e-12);
    assertEquals(2.5, Titrant.sodiumHydroxide(10).strongChargeEqPerKg(), 1e-12);
    assertEquals(100 / 56.11, Titrant.potassiumHydroxide(10).strongChargeEqPerKg(), 1e-12);
    // Hydroxide turns to water: 2.5 mol/kg make 45 g.
    assertEquals(0.945, Titrant.sodiumHydroxide(10).waterKgPerKg(), 1e-4);
  }

  /** Every titrant pushes its own way at the pH of use. */
  @ParameterizedTest
  @CsvSource({
    "citric acid, 5.5, -1",
    "lactic acid, 5.5, -1",
    "gluconolactone, 5.5, -1",
    "sodium hydroxide, 5.5, 1",
    "potassium hydroxide, 5.5, 1",
    "sodium citrate, 5.5, 1",
    "triethanolamine, 5.5, 1"
  })
  void pushesItsWay(String kind, double ph, int sign) {
    Titrant t =
        switch (kind) {
          case "citric acid" -> Titrant.citricAcid(20);
          case "lactic acid" -> Titrant.lacticAcid(80);
          case "gluconolactone" -> Titrant.gluconolactone();
          case "sodium hydroxide" -> Titrant.sodiumHydroxide(10);
          case "potassium hydroxide" -> Titrant.potassiumHydroxide(10);
          case "sodium citrate" -> Titrant.sodiumCitrate();
          default -> Titrant.triethanolamine(85);
        };
    assertEquals(sign, (int) Math.signum(at(t, ph)), t + " at pH " + ph);
  }

  @Test
  void gluconolactoneIsSlowAndSaysSo() {
    Titrant t = Titrant.gluconolactone();
    assertEquals(360, t.minutesToAct());
    assertTrue(t.remarks().get(0).startsWith("slow: half of it opens in 50 to 90 minutes"));
    assertEquals(List.of(), t.cautions());
    assertEquals(360, Titrant.of(TestTable.get("gluconolactone")).minutesToAct());
    assertTrue(Titrant.lacticAcid(80).remarks().get(0).contains("lactoyl lactate"));
  }

  /** Named titrants and the table's materials of the same strength do the same. */
  @ParameterizedTest
  @CsvSource({
    "citric-acid-20, 5.5",
    "citric-acid-50, 5.5",
    "citric-acid-anhydrous, 5.5",
    "citric-acid-monohydrate, 5.5",
    "lactic-acid-80, 5.5",
    "gluconolactone, 5.5",
    "sodium-hydroxide-10, 6",
    "potassium-hydroxide-45, 6",
    "trisodium-citrate-dihydrate, 5",
    "triethanolamine-99, 7"
  })
  void materialsOfTheTableAreTitrants(String id, double ph) {
    Material m = TestTable.get(id);
    Titrant named =
        switch (id) {
          case "citric-acid-20" -> Titrant.citricAcid(20);
          case "citric-acid-50" -> Titrant.citricAcid(50);
          case "citric-acid-anhydrous" -> Titrant.citricAcidAnhydrous();
          case "citric-acid-monohydrate" -> Titrant.citricAcidMonohydrate();
          case "lactic-acid-80" -> Titrant.lacticAcid(80);
          case "gluconolactone" -> Titrant.gluconolactone();
          case "sodium-hydroxide-10" -> Titrant.sodiumHydroxide(10);
          case "potassium-hydroxide-45" -> Titrant.potassiumHydroxide(45);
          case "trisodium-citrate-dihydrate" -> Titrant.sodiumCitrate();
          default -> Titrant.triethanolamine(99);
        };
    // The grades' purities are within 0.6 % of the round figures.
    assertEquals(1, at(Titrant.of(m), ph) / at(named, ph), 0.012, id);
  }

  @Test
  void causticAndConcentratedOnesCarryCautions() {
    for (Titrant t :
        List.of(
            Titrant.sodiumHydroxide(10),
            Titrant.potassiumHydroxide(5),
            Titrant.of(TestTable.get("sodium-hydroxide-10")),
            Titrant.of(TestTable.get("sodium-hydroxide-pearls")))) {
      assertTrue(t.cautions().get(0).startsWith("strong alkali, corrosive"), t::toString);
      assertTrue(t.cautions().get(0).contains("your local rules"), t::toString);
    }
    for (Titrant t :
        List.of(
            Titrant.citricAcid(50),
            Titrant.citricAcidAnhydrous(),
            Titrant.lacticAcid(80),
            Titrant.of(TestTable.get("citric-acid-50")),
            Titrant.of(TestTable.get("lactic-acid-80")))) {
      assertTrue(t.cautions().get(0).startsWith("concentrated acid"), t::toString);
    }
    assertTrue(Titrant.of(TestTable.get("triethanolamine-99")).cautions().get(0).contains("amine"));
    for (String mild :
        List.of("citric-acid-20", "trisodium-citrate-dihydrate", "sodium-bicarbonate")) {
      assertEquals(List.of(), Titrant.of(TestTable.get(mild)).cautions(), mild);
    }
    assertEquals(List.of(), Titrant.citricAcid(20).cautions());
  }

  @Test
  void aShopsOwnIsItsGroups() {
    Titrant own =
        Titrant.named("vinegar 5 % m/m")
            .group(AcidBase.acid("acetic acid", 4.756), 50 / 60.05)
            .waterPercent(95)
            .content("Acetic Acid", 5)
            .remark("smells")
            .build();
    // Half of it is dissociated at pH = pKa, but for the activity term.
    assertEquals(-0.5 * 50 / 60.05, own.chargeEqPerKg(Conditions.ideal(14), 4.756, 0), 1e-4);
    assertEquals("vinegar 5 % m/m", own.toString());
    assertEquals(5, own.contents().get("Acetic Acid"));
    assertEquals(5, own.minutesToAct(), "acts at once, five minutes to stir");
    assertThrows(IllegalArgumentException.class, () -> Titrant.named("water").build());
    assertThrows(IllegalArgumentException.class, () -> Titrant.citricAcid(0));
    assertThrows(IllegalArgumentException.class, () -> Titrant.citricAcid(101));
  }

  @Test
  void thinnedOnceDoesAHalf() {
    Titrant whole = Titrant.citricAcid(20);
    Titrant half = whole.thinned(2);
    assertEquals(Titrant.citricAcid(10).groups(), half.groups());
    assertEquals(0.9, half.waterKgPerKg(), 1e-12);
    AcidDose.Plan plan = AcidDose.of(TestTable.blend("b", "decyl-glucoside-52", 10)).to(6);
    double one = plan.with(whole).forBatch(Mass.grams(100)).total().inGrams();
    double two = plan.with(half).forBatch(Mass.grams(100)).total().inGrams();
    assertEquals(2, two / one, 0.01, "but for the water it brings");
    assertEquals(whole, whole.thinned(1));
    assertNotEquals(whole, half);
  }

  @Test
  void equalByValue() {
    assertEquals(Titrant.sodiumHydroxide(10), Titrant.sodiumHydroxide(10));
    assertEquals(Titrant.sodiumHydroxide(10).hashCode(), Titrant.sodiumHydroxide(10).hashCode());
    assertFalse(Titrant.sodiumHydroxide(10).equals(Titrant.sodiumHydroxide(11)));
  }
}
