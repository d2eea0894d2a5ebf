package org.surfactantblend.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.surfactantblend.Blends;
import org.surfactantblend.material.Evidence;
import org.surfactantblend.material.IrritationScore;
import org.surfactantblend.material.IrritationScores;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.mildness.HeadGroup;
import org.surfactantblend.mildness.Interaction;
import org.surfactantblend.mildness.MicelleComponent;
import org.surfactantblend.mildness.MildnessTables;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.quantity.Range;

/** Reading the tables behind the measures of mildness, and what their problems say. */
class MildnessFileTest {
  @Test
  void theShippedTablesHaveNoProblem() {
    assertEquals(List.of(), ShippedData.mildnessTables().problems());
    MildnessTables tables = Blends.mildnessTables();
    MicelleComponent technical = tables.cmc("SODIUM LAURETH SULFATE").orElseThrow().component();
    assertEquals(0.80, technical.cmcMmolPerL());
    assertTrue(technical.technicalGrade());
    assertEquals(Optional.empty(), tables.cmc("Sodium Lauroyl Glutamate"), "two values, not used");
    MaterialTable table = Blends.starterTable();
    assertEquals(
        10.0,
        tables
            .eyeLimit("Sodium Laureth Sulfate", table.get("sodium-laureth-sulfate-27").family())
            .orElseThrow()
            .seriousFromPercent());
    assertEquals(
        0.1706, tables.saltFromSynthesis(table.get("cocamidopropyl-betaine-30")).orElseThrow());
  }

  @Test
  void aScoreWithAGradeFitsWholeWordsOnly() {
    IrritationScores scores = Blends.starterTable().scores();
    assertEquals(
        73,
        scores.find("Sodium Laureth Sulfate", "about 2 EO, C12-14").orElseThrow().score().high());
    assertEquals(Optional.empty(), scores.find("Sodium Laureth Sulfate", "about 12 EO"));
    assertEquals(Optional.empty(), scores.find("Sodium Laureth Sulfate", ""));
    assertEquals(Optional.empty(), scores.find("Ammonium Laureth Sulfate", "about 2 EO"));
  }

  @Test
  void aShopsOwnScoresGoFirstEvenWithoutAGrade() {
    Loaded<IrritationScores> own =
        MildnessFile.readScores(
            Input.text(
                "own.csv",
                "inci_name,low,mid,high,evidence,source\n"
                    + "sodium laureth sulfate,30,50,60,measured,our patch test\n"));
    IrritationScores laid = Blends.starterTable().scores().with(own.orElseThrow());
    assertEquals(
        Optional.of(new IrritationScore(Range.of(30, 50, 60), Evidence.MEASURED, "our patch test")),
        laid.find("Sodium Laureth Sulfate", "about 2 EO, C12-14"));
    assertEquals(15, laid.find("Decyl Glucoside", "").orElseThrow().score().high());
  }

  @Test
  void allProblemsComeAtOnceAndGoodRowsStay() {
    Loaded<IrritationScores> loaded =
        MildnessFile.readScores(
            Input.text(
                "own.csv",
                """
                inci_name,grade,low,mid,high,evidence
                ,,1,2,3,ranked
                Good,,1,2,3,ranked
                Good,,4,5,6,ranked
                Upside Down,,9,5,3,ranked
                Guess,,1,2,3,guessed
                Comma,,"1,5",2,3,ranked
                Beyond,,1,2,300,ranked
                Nothing,,,,,ranked
                Alone,,,7,,
                """));
    assertEquals(
        List.of(
            "missing-value row 2 inci_name",
            "duplicate-id row 4 inci_name",
            "range-order row 5 low",
            "choice row 6 evidence",
            "decimal-comma row 7 low",
            "number-range row 8 high",
            "missing-value row 9 mid"),
        codes(loaded));
    assertEquals(3, loaded.value().find("good", "any").orElseThrow().score().high());
    IrritationScore alone = loaded.value().find("Alone", "").orElseThrow();
    assertEquals(Evidence.ESTIMATED, alone.evidence(), "nothing said is the weakest");
    assertEquals(Range.exactly(7), alone.score());
  }

  @Test
  void cmcProblems() {
    Loaded<MildnessTables> loaded =
        MildnessFile.readCmcs(
            Input.text(
                "cmc.csv",
                """
                name,head_group,cmc_mmol_per_l,used,source
                A,sugr,2,yes,me
                B,sugar,,yes,me
                C,sugar,2000,yes,me
                D,sugar,2,no,me
                E,sugar,2,,me
                e,sugar,3,,me
                """));
    assertEquals(
        List.of(
            "choice row 2 head_group",
            "missing-value row 3 cmc_mmol_per_l",
            "number-range row 4 cmc_mmol_per_l",
            "duplicate-id row 7 name"),
        codes(loaded));
    assertEquals("sugar", loaded.problems().get(0).advice());
    assertEquals(Optional.empty(), loaded.value().cmc("D"));
    assertEquals(2, loaded.value().cmc("E").orElseThrow().component().cmcMmolPerL());
  }

  @Test
  void interactionProblemsAndALaidPair() {
    Loaded<MildnessTables> loaded =
        MildnessFile.readInteractions(
            Input.text(
                "beta.csv",
                """
                level,first,second,intercept,lowest,highest
                head_group,sulfate,betaine,-6,,
                head_group,betaine,sulfate,-7,,
                head,sulfate,sugar,-3,,
                surfactant,A,B,-3,-1,-2
                surfactant,A,C,,,
                """));
    assertEquals(
        List.of(
            "duplicate-id row 3 first",
            "choice row 4 level",
            "range-order row 5 lowest",
            "missing-value row 6 intercept"),
        codes(loaded));
    MildnessTables laid = Blends.mildnessTables().with(loaded.value());
    MicelleComponent sulfate = MicelleComponent.pure("x", 8, HeadGroup.SULFATE);
    MicelleComponent betaine = MicelleComponent.pure("y", 1, HeadGroup.BETAINE);
    MicelleComponent sugar = MicelleComponent.pure("z", 1, HeadGroup.SUGAR);
    Interaction own = laid.interactions().find(sulfate, betaine).orElseThrow();
    assertEquals(-6, own.at(0.5));
    assertFalse(own.dependsOnShare());
    assertEquals(-3, laid.interactions().find(sulfate, sugar).orElseThrow().at(0.5));
  }

  @Test
  void eyeAndSaltProblems() {
    assertEquals(
        List.of(
            "choice row 2 applies_to",
            "range-order row 3 irritating_from_pct",
            "missing-value row 4 group"),
        codes(
            MildnessFile.readEyeLimits(
                Input.text(
                    "eye.csv",
                    """
                    applies_to,group,serious_from_pct,irritating_from_pct
                    famly,x,10,5
                    family,x,5,10
                    inci_name,,10,5
                    """))));
    assertEquals(
        List.of("number-range row 2 nacl_g_per_g_active", "missing-column row 1 family"),
        Stream.concat(
                codes(
                    MildnessFile.readSaltFromSynthesis(
                        Input.text("salt.csv", "family,nacl_g_per_g_active\nx,7\n")))
                    .stream(),
                codes(
                    MildnessFile.readSaltFromSynthesis(
                        Input.text("salt.csv", "nacl_g_per_g_active\n0.1\n")))
                    .stream())
            .toList());
  }

  private static List<String> codes(Loaded<?> loaded) {
    return loaded.problems().stream()
        .map(p -> p.code() + " row " + p.place().row() + " " + p.place().field())
        .toList();
  }
}
