package org.surfactantblend.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.surfactantblend.Blends;
import org.surfactantblend.acidity.AcidDose;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.acidity.Titrant;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.ProblemsException;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Text;
import org.surfactantblend.testing.Conflicts;
import org.surfactantblend.testing.Recheck;

/** The final pH as part of a brief: an acid or a base kept in reserve. */
class FinalPhTest {
  private static final MaterialTable TABLE = Blends.starterTable().priced(Blends.demoPrices());

  private static Brief.Builder faceWash() {
    return Brief.named("Barley face wash")
        .totalActive(9, 0.2)
        .share(ChargeClass.AMPHOTERIC, 20, 60)
        .choosingFrom("cocamidopropyl-betaine-30", "decyl-glucoside-52", "coco-glucoside-52")
        .fixed("sodium-benzoate", 0.5)
        .cheapest();
  }

  private static Blend solved(Brief brief) {
    BlendResult result = BlendSolver.solve(brief, TABLE);
    Recheck.result(result, TABLE.prices());
    return result.orElseThrow();
  }

  @Test
  void aSmallReserveIsKeptAndJustReaches() {
    Brief free = faceWash().build();
    Brief brief = faceWash().toReachPh(5, "citric-acid-20", 0.7).build();
    Blend blend = solved(brief);
    Blend finished = Recheck.finished(blend, brief, TABLE.get("citric-acid-20"), 0.7);
    // The reserve costs something, so it binds: with all of it the product is at pH 5 exactly.
    assertEquals(5, StartingPh.of(finished).typical(), 1e-6);
    Blend freely = solved(free);
    Blend tooAlkaline = Recheck.finished(freely, free, TABLE.get("citric-acid-20"), 0.7);
    assertTrue(StartingPh.of(tooAlkaline).typical() > 5.1);
  }

  @Test
  void theReportSaysHowMuchIsNeededWithItsRange() {
    Brief brief = faceWash().toReachPh(5, "citric-acid-20", 3).build();
    BlendResult result = BlendSolver.solve(brief, TABLE);
    Recheck.result(result, TABLE.prices());
    RequirementReport report = ((SolvedBlend) result).report(Requirement.Kind.TO_REACH_PH);
    assertFalse(report.isBinding());
    double needed = report.reached().typical();
    assertTrue(report.reached().low() < needed && report.reached().high() > needed);
    Blend finished =
        Recheck.finished(result.orElseThrow(), brief, TABLE.get("citric-acid-20"), needed);
    assertEquals(5, StartingPh.of(finished).typical(), 1e-6);
    assertTrue(result.summary().contains("citric-acid-20 to reach pH 5"), result.summary());
  }

  @Test
  void aBaseRaisesThePh() {
    Brief brief =
        Brief.named("Amino acid wash")
            .totalActive(8, 0)
            .choosingFrom("sodium-cocoyl-glutamate-27", "cocamidopropyl-betaine-30")
            .share(ChargeClass.ANIONIC, 50, 90)
            .toReachPh(6.5, "sodium-hydroxide-10", 1.7)
            .build();
    Blend blend = solved(brief);
    Blend finished = Recheck.finished(blend, brief, TABLE.get("sodium-hydroxide-10"), 1.7);
    assertTrue(StartingPh.of(finished).typical() >= 6.5 - 1e-6);
    assertTrue(StartingPh.of(blend).typical() < 6.5);
  }

  @Test
  void aProductPastItsFinalPhNeedsNone() {
    Brief brief = faceWash().toReachPh(10, "citric-acid-20", 0).build();
    BlendResult result = BlendSolver.solve(brief, TABLE);
    Recheck.result(result, TABLE.prices());
    assertEquals(
        0, ((SolvedBlend) result).report(Requirement.Kind.TO_REACH_PH).reached().typical());
  }

  @Test
  void tooSmallAReserveIsExplainedWithWhatWouldDo() {
    Brief brief = faceWash().toReachPh(5, "citric-acid-20", 0.2).build();
    BlendResult result = BlendSolver.solve(brief, TABLE);
    assertFalse(result.isSolved());
    Conflicts.verify(result, TABLE);
    assertTrue(result.summary().contains("citric-acid-20 to reach pH 5 at most"), result.summary());
  }

  @Test
  void forEveryLotTheReserveIsLarger() {
    Brief everyLot =
        Brief.named("Barley face wash, every lot")
            .totalActive(9, 0.9)
            .choosingFrom("cocamidopropyl-betaine-30", "decyl-glucoside-52", "coco-glucoside-52")
            .cheapest()
            .toReachPh(5, "citric-acid-20", 2)
            .everyLotWithinSpecification()
            .build();
    BlendResult result = BlendSolver.solve(everyLot, TABLE);
    Recheck.result(result, TABLE.prices());
    if (result instanceof SolvedBlend s) {
      assertTrue(s.report(Requirement.Kind.TO_REACH_PH).reached().high() <= 2 + 1e-6);
    } else {
      Conflicts.verify(result, TABLE);
    }
  }

  @Test
  void whatDoesNotPushIsNoTitrant() {
    for (String id : new String[] {"glycerin", "cocamidopropyl-betaine-30", "citric-acid-21"}) {
      Brief brief = faceWash().toReachPh(5, id, 1).build();
      ProblemsException e =
          assertThrows(ProblemsException.class, () -> BlendSolver.solve(brief, TABLE));
      assertTrue(e.problems().get(0).toString().contains(id), e.getMessage());
    }
    assertThrows(
        IllegalArgumentException.class, () -> faceWash().toReachPh(15, "citric-acid-20", 1));
  }

  /** What is told of every lot is what a dose of the same blend tells. */
  @Test
  void theRangeOfTheNeedIsThatOfADose() {
    Brief brief = faceWash().toReachPh(5, "citric-acid-20", 3).build();
    BlendResult result = BlendSolver.solve(brief, TABLE);
    Recheck.result(result, TABLE.prices());
    Range need = ((SolvedBlend) result).report(Requirement.Kind.TO_REACH_PH).reached();
    AcidDose dose =
        AcidDose.of(result.orElseThrow())
            .to(5)
            .with(Titrant.of(TABLE.get("citric-acid-20")))
            .forBatch(Mass.grams(100));
    Range grams = dose.guaranteedGrams();
    assertEquals(dose.total().inGrams(), need.typical(), 0.01 * need.typical());
    // A dose has one ionic strength for all lots, here each has its own.
    assertEquals(grams.low(), need.low(), 0.03 * need.typical());
    assertEquals(grams.high(), need.high(), 0.03 * need.high());
  }

  @Test
  void aFinalPhThatIsPassedBeforeAnyBaseIsTold() {
    Brief past = faceWash().toReachPh(6, "sodium-hydroxide-10", 0.5).build();
    BlendResult passed = BlendSolver.solve(past, TABLE);
    Recheck.result(passed, TABLE.prices());
    SolvedBlend solved = (SolvedBlend) passed;
    String start = Text.fixed(solved.startingPh().typical(), 2);
    assertTrue(
        solved
            .notes()
            .contains(
                "pH 6 is passed before any sodium-hydroxide-10 is in: the blend starts at "
                    + start),
        solved::toString);
    assertTrue(Text.wrapped(solved.summary(), 400).contains("Note: pH 6 is passed"));
    BlendResult ahead =
        BlendSolver.solve(faceWash().toReachPh(5, "citric-acid-20", 3).build(), TABLE);
    Recheck.result(ahead, TABLE.prices());
    assertFalse(ahead.summary().contains("is passed"), ahead::summary);
  }

  @Test
  void aSoapIsKeptOutOfAnAcidProductAndNotedWhereItIsInsistedOn() {
    Brief.Builder soapy =
        Brief.named("soap")
            .totalActive(10, 1)
            .choosingFrom("potassium-cocoate-38", "decyl-glucoside-52")
            .toReachPh(5.5, "citric-acid-20", 20);
    BlendResult kept = BlendSolver.solve(soapy.build(), TABLE);
    Recheck.result(kept, TABLE.prices());
    assertEquals(0, kept.orElseThrow().asSupplied("potassium-cocoate-38").value());
    assertTrue(
        kept.summary().contains("Left out by the clash guard: potassium-cocoate-38"),
        kept::summary);
    BlendResult insisted =
        BlendSolver.solve(soapy.build().toBuilder().mustUse("potassium-cocoate-38").build(), TABLE);
    Recheck.result(insisted, TABLE.prices());
    String note = ((SolvedBlend) insisted).notes().get(0);
    assertTrue(note.startsWith("potassium-cocoate-38: a soap lasts at "), note);
    assertTrue(note.endsWith("the brief asks to reach pH 5.5"), note);
    BlendResult off =
        BlendSolver.solve(
            soapy.build().toBuilder()
                .mustUse("potassium-cocoate-38")
                .withoutClashGuard("the soap is meant to turn")
                .build(),
            TABLE);
    Recheck.result(off, TABLE.prices());
    assertFalse(off.summary().contains("lasts at"), off::summary);
  }
}
