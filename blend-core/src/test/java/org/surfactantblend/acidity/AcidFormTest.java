package org.surfactantblend.acidity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Range;

class AcidFormTest {
  /** Salt and extract both bring benzoic acid; all of it counts, as acid. */
  @Test
  void everySourceCountsOnTheAcidBasis() {
    Blend b =
        TestTable.blend(
            "b", "sodium-benzoate", 0.5, "potassium-sorbate", 0.2, "oat-extract-glycerin-60", 3);
    AcidForm form = AcidForm.of(b, 5.2, 5.7);
    AcidForm.Share benzoic = form.shares().get(0);
    assertEquals("benzoic acid", benzoic.name());
    // By hand: 0.5 % of 99.5 % salt and 3 % of an extract with 0.4 % salt, times 122.12/144.11.
    double byHand = (0.5 * 0.995 + 0.03 * 0.4) * 122.12 / 144.11;
    assertEquals(byHand, benzoic.totalPercent(), 0.002 * byHand);
    assertEquals("sorbic acid", form.shares().get(1).name());
    assertEquals(0.2 * 0.995 * 112.13 / 150.22, form.shares().get(1).totalPercent(), 2e-4);
    assertEquals(
        benzoic.totalPercent() * benzoic.shareAtFinalPh(), benzoic.percentAtFinalPh(), 1e-12);
    // Half a unit divides the acid form by about three.
    assertEquals(2.98, benzoic.percentAtFinalPh() / benzoic.percentAfterDrift(), 0.1);
  }

  @Test
  void acidAndSaltAreTheSameAcid() {
    AcidForm.Share acid =
        AcidForm.of(TestTable.blend("a", "dehydroacetic-acid", 0.3), 5, 5.5).shares().get(0);
    AcidForm.Share salt =
        AcidForm.of(TestTable.blend("s", "sodium-dehydroacetate", 0.3), 5, 5.5).shares().get(0);
    assertEquals("dehydroacetic acid", acid.name());
    assertEquals("dehydroacetic acid", salt.name());
    assertEquals(0.8844, salt.totalPercent() / acid.totalPercent(), 0.002);
  }

  @Test
  void aShopsOwnAcidIsCountedWhenItIsNamed() {
    Material own =
        Material.builder("own-acid")
            .inciName("Undecylenic Acid")
            .group(
                new AcidBaseGroup(
                    "undecylenic acid",
                    AcidBase.acid("undecylenic acid", 5),
                    null,
                    Range.exactly(1000 / 184.28),
                    false,
                    false))
            .strongIonEqPerKg(Range.ZERO)
            .build();
    Blend b =
        Blend.named("b")
            .line(own, 0.2)
            .line(TestTable.get("sodium-benzoate"), 0.5)
            .upToHundredWith(TestTable.get("water"));
    assertEquals(1, AcidForm.of(b, 5, 5.5).shares().size());
    AcidForm form = AcidForm.of(b, 5, 5.5).alsoOf("undecylenic acid", 184.28);
    assertEquals(2, form.shares().size());
    assertEquals(0.2, form.shares().get(0).totalPercent(), 1e-9);
    assertThrows(IllegalArgumentException.class, () -> form.alsoOf("x", 1));
  }

  @Test
  void theTextPromisesNothing() {
    String text = AcidForm.of(TestTable.blend("b", "sodium-benzoate", 0.5), 5.2, 5.7).summary();
    assertTrue(text.contains("challenge test"), text);
    assertFalse(text.contains("preserved"), text);
    assertFalse(text.contains("safe"), text);
    text.lines().forEach(l -> assertTrue(l.length() <= 80, l));
    assertTrue(
        AcidForm.of(TestTable.blend("none", "glycerin", 5), 5, 5).summary().contains("none found"));
    assertThrows(
        IllegalArgumentException.class,
        () -> AcidForm.of(TestTable.blend("none", "glycerin", 5), 15, 5));
  }
}
