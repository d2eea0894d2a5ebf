package org.surfactantblend.batch;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Scale;
import org.surfactantblend.testing.WorkedCase;

class BatchRoomTest {
  private static final WorkedCase CASE = WorkedCase.number(7);

  private static BatchSheet trial() {
    return BatchSheet.of(CASE.blend(Map.of(), CASE.others()))
        .mass(Mass.grams(250))
        .batchNumber("T-7")
        .formulaVersion("3")
        .on(Scale.of(1, 5000), Scale.of(0.1, 500));
  }

  @Test
  void linesBelowFiftyDivisionsGetAPremix() {
    BatchLine oil = trial().line("EOROS").orElseThrow();
    assertTrue(oil.isTooSmall());
    Premix p = oil.premix().orElseThrow();
    // 0.75 g is 7.5 divisions of 0.1 g; ten times as much of a 10 % premix is 75.
    assertEquals(10, p.strengthPercent());
    assertEquals(7.5, p.toWeighGrams());
    assertEquals(5, p.materialGrams());
    assertEquals(45, p.liquidGrams(), 1e-9);
    assertEquals(6.75, p.liquidBroughtGrams(), 1e-9);
    assertFalse(trial().line("SCI1").orElseThrow().isTooSmall());
  }

  @Test
  void whatIsNotedOfAMaterialStandsOnTheSheetOnce() {
    Material gels =
        CASE.grade("CB1").toBuilder()
            .notes("gels when thinned to 30-60 %; warm gently; sheet pH: two sheets; they differ")
            .build();
    BatchSheet sheet =
        BatchSheet.of(
                Blend.named("wash")
                    .line(gels, 12)
                    .line(gels.toBuilder().lot("L2").build(), 3)
                    .upToHundredWith(CASE.grade("WATER")))
            .mass(Mass.grams(500))
            .on(Scale.of(0.1, 500));
    assertEquals(List.of("CB1: gels when thinned to 30-60 %; warm gently"), sheet.notes());
    String note = "  Note: CB1: gels when thinned to 30-60 %; warm gently\n";
    assertEquals(2, sheet.text().split(note, -1).length, sheet.text());
  }

  @Test
  void aBatchAsWeighedSaysHowMuchIsInTheKettle() {
    AsWeighed batch = AsWeighed.of(trial()).evaporated(Mass.grams(10));
    assertEquals(
        trial().blend().name() + ", " + batch.mass() + " in the kettle of 250 g planned",
        batch.toString());
  }

  @Test
  void phasesComeInTheirOrder() {
    Material powder =
        Material.builder("allantoin")
            .inciName("Allantoin")
            .family(Family.inert("active ingredient"))
            .constituent(
                org.surfactantblend.material.Constituent.other(
                    "Allantoin", org.surfactantblend.quantity.Range.exactly(100)))
            .build();
    Blend blend =
        Blend.named("phases")
            .line(CASE.grade("CB1"), 12)
            .line(powder, 0.3)
            .line(CASE.grade("CIT20"), 0.5)
            .upToHundredWith(CASE.grade("WATER"));
    BatchSheet sheet =
        BatchSheet.of(blend)
            .mass(Mass.kilograms(1))
            .phase("CIT20", Phase.PH)
            .on(Scale.of(0.01, 2000));
    assertEquals(
        List.of(Phase.WATER, Phase.POWDERS, Phase.SURFACTANTS, Phase.PH),
        new ArrayList<>(sheet.orderOfAddition().keySet()));
    assertThrows(
        IllegalArgumentException.class, () -> BatchSheet.of(blend).phase("none", Phase.PH));
  }

  @Test
  void theTextFitsEightyColumnsAndPromisesNothing() {
    String text = trial().text();
    assertTrue(text.lines().allMatch(l -> l.length() <= 80), text);
    assertTrue(text.contains("batch number T-7"));
    assertFalse(text.toLowerCase(java.util.Locale.ROOT).contains("safe"));
  }

  @Test
  void aLineTooHeavyForEveryScaleIsWeighedInPortions() {
    BatchSheet sheet =
        BatchSheet.of(CASE.blend(Map.of(), CASE.others()))
            .mass(Mass.kilograms(5))
            .on(Scale.of(0.1, 500));
    assertEquals(2, sheet.line("SMCT1").orElseThrow().portions());
    assertEquals(7, sheet.water().orElseThrow().pours().get(0).portions());
  }

  @Test
  void evaporatedWaterIsMadeUp() {
    // An open pot that loses 120 g of 5000 is 2.46 % stronger: common practice, plain arithmetic.
    WorkedCase c = WorkedCase.number(1);
    BatchSheet sheet =
        BatchSheet.of(c.blend(Map.of(), c.others()))
            .mass(Mass.kilograms(5))
            .keepingTotal()
            .on(Scale.of(0.01, 6000));
    AsWeighed pot = AsWeighed.of(sheet).evaporated(Mass.grams(120));
    assertEquals(9.221, pot.contents().totalActive().value(), 0.001);
    Correction fix = pot.correction();
    assertTrue(fix.isNeeded());
    assertTrue(fix.repairsEverything());
    assertEquals(5000, fix.finalMass().inGrams(), 0.1);
    assertEquals(120, fix.additions().getOrDefault(c.grade("WATER"), 0.0), 0.1);
  }

  @Test
  void aDoubledLineNeedsABatchOfTwiceTheSizeOrSaysWhyNot() {
    WorkedCase c = WorkedCase.number(2);
    BatchSheet sheet =
        BatchSheet.of(c.blend(Map.of(), c.others()))
            .mass(Mass.kilograms(1))
            .on(Scale.of(0.01, 3000));
    AsWeighed faulty = AsWeighed.of(sheet).doubled("SLES1");
    Correction all = faulty.correction();
    assertTrue(all.repairsEverything());
    assertEquals(2000, all.finalMass().inGrams(), 0.2);
    Correction limited = faulty.kettle(Mass.grams(1600)).correction();
    assertFalse(limited.repairsEverything());
    Correction.NotRepaired sles =
        limited.notRepaired().stream()
            .filter(n -> n.name().equals("Sodium Laureth Sulfate"))
            .findFirst()
            .orElseThrow();
    assertTrue(sles.reason().startsWith("there is too much of it"), sles.reason());
    assertTrue(limited.text().lines().allMatch(l -> l.length() <= 80));
    assertThrows(IllegalArgumentException.class, () -> faulty.kettle(Mass.grams(100)));
  }

  @Test
  void aWeakLotTakenByMistake() {
    WorkedCase c = WorkedCase.number(1);
    BatchSheet sheet =
        BatchSheet.of(c.blend(Map.of(), c.others()))
            .mass(Mass.kilograms(5))
            .on(Scale.of(0.1, 6000));
    AsWeighed faulty = AsWeighed.of(sheet).fromLot("CB1", c.grade("CB4"));
    // 14.90 % of a 27.6 % lot instead of a 30.2 % one: 4.5 x 27.6 / 30.2 = 4.1126 % active of it.
    assertEquals(4.5 + 4.5 * 27.6 / 30.2, faulty.contents().totalActive().value(), 0.001);
    Correction fix = faulty.correction();
    assertTrue(fix.isNeeded());
    assertTrue(fix.repairsEverything());
    assertEquals(9, fix.contents().totalActive().value(), 1e-6);
    assertFalse(AsWeighed.of(sheet).correction().isNeeded());
  }

  @Test
  void whatIsMissingIsSaid() {
    assertEquals(
        "mass of the batch was not set, allowed is more than 0 g before scales are named",
        assertThrows(
                IllegalStateException.class,
                () -> BatchSheet.of(CASE.blend(Map.of(), CASE.others())).on(Scale.of(0.1, 500)))
            .getMessage());
    assertThrows(
        IllegalArgumentException.class,
        () -> BatchSheet.of(CASE.blend(Map.of(), CASE.others())).mass(Mass.grams(0)));
  }
}
