package org.surfactantblend.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.surfactantblend.Blends;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.mildness.IrritationIndex;
import org.surfactantblend.mildness.MixingCredit;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.problem.ProblemsException;
import org.surfactantblend.testing.Conflicts;
import org.surfactantblend.testing.Recheck;

/** Examples and messages of requirements and wishes about mildness. */
class MildnessSolveTest {
  private final MaterialTable table = Blends.starterTable().priced(Blends.demoPrices());

  private static Brief.Builder shampoo() {
    return Brief.named("Nettle shampoo")
        .totalActive(12, 0.5)
        .share(ChargeClass.ANIONIC, 40, 80)
        .choosingFrom(
            "sodium-laureth-sulfate-27",
            "cocamidopropyl-betaine-30",
            "decyl-glucoside-52",
            "lauryl-hydroxysultaine-30");
  }

  @Test
  void theIndexRequirementHoldsOnTheHighFigure() {
    BlendResult result =
        BlendSolver.solve(
            shampoo().irritationIndexAtMost(45).cheapest().build(),
            table.priced(table.prices().with("lauryl-hydroxysultaine-30", 1)));
    Recheck.result(result, table.priced(table.prices().with("lauryl-hydroxysultaine-30", 1)));
    SolvedBlend solved = (SolvedBlend) result;
    RequirementReport report = solved.report(Requirement.Kind.IRRITATION_INDEX);
    assertEquals(45, report.reached().typical(), 1e-6);
    assertTrue(report.bindingHigh(), "ether sulfate is the cheapest active");
    assertTrue(report.gainPerPoint().orElseThrow() > 0);
    assertEquals(45, solved.irritationIndex().range().orElseThrow().high(), 1e-6);
    // By arithmetic: with a share y of ether sulfate at 73 the rest stands at 35 (betaine) or 15.
    Blend blend = solved.blend();
    double y = blend.share(ChargeClass.ANIONIC).value() / 100;
    double b = blend.share(ChargeClass.AMPHOTERIC).value() / 100;
    assertEquals(45, 73 * y + 35 * b + 15 * (1 - y - b), 1e-6);
  }

  @Test
  void aMaterialWithoutScoreIsLeftOutAndNamed() {
    SolvedBlend solved =
        (SolvedBlend) BlendSolver.solve(shampoo().irritationIndexAtMost(60).build(), table);
    assertEquals(List.of("lauryl-hydroxysultaine-30"), solved.leftOutWithoutFigures());
    assertTrue(
        solved
            .summary()
            .contains(
                "Left out, without irritation score or molar mass: lauryl-hydroxysultaine-30"),
        solved::summary);
    assertTrue(solved.summary().contains("  irritation     index "), solved::summary);
    Recheck.result(solved, table);
  }

  @Test
  void anIndexThatIsNotAskedForIsReportedOrNamedAsNotGiven() {
    SolvedBlend solved =
        (SolvedBlend)
            BlendSolver.solve(
                Brief.named("x")
                    .totalActive(9, 0)
                    .choosingFrom("lauryl-hydroxysultaine-30", "decyl-glucoside-52")
                    .mustUse("lauryl-hydroxysultaine-30")
                    .build(),
                table);
    assertEquals(
        "not given: no score of lauryl-hydroxysultaine-30", solved.irritationIndex().text());
    assertTrue(solved.summary().contains("index not given: no score of"), solved::summary);
    assertEquals(List.of(), solved.leftOutWithoutFigures());
  }

  @Test
  void aLineThatHasToBeInNeedsAScore() {
    List<Problem> problems =
        BlendSolver.check(
            shampoo().mustUse("lauryl-hydroxysultaine-30").irritationIndexAtMost(40).build(),
            table);
    assertEquals(
        List.of(
            "error irritation-score-missing at brief \"Nettle shampoo\" irritation index: found no"
                + " irritation score of lauryl-hydroxysultaine-30; allowed: irritation score of"
                + " every surfactant that has to be in, and of one to choose from. Maybe: give it"
                + " in a row of your own, or ask for another measure"),
        problems.stream().map(Problem::toString).toList());
  }

  @Test
  void aTableWithoutScoresIsAProblemNotAnEmptyIndex() {
    MaterialTable bare = MaterialTable.of(Blends.starterTable().materials());
    assertThrows(
        ProblemsException.class, () -> BlendSolver.solve(shampoo().mildest().build(), bare));
  }

  @Test
  void mildestTakesTheLeastActiveMatterOfARange() {
    SolvedBlend solved = (SolvedBlend) BlendSolver.solve(shampoo().mildest().build(), table);
    Recheck.result(solved, table);
    // 40 % ether sulfate at 73 and the rest glucoside at 15.
    assertEquals(0.4 * 73 + 0.6 * 15, solved.wishValue(), 1e-6);
    assertEquals(11.5, solved.blend().totalActive().value(), 1e-6);
    assertTrue(
        solved.summary().contains("wish: lowest irritation index, reached 38.200"),
        solved::summary);
  }

  @Test
  void anIndexOutOfReachIsAConflictWithTheSmallestChange() {
    Brief brief = shampoo().irritationIndexAtMost(30).build();
    BlendResult result = BlendSolver.solve(brief, table);
    assertFalse(result.isSolved());
    Conflicts.verify(result, table);
    assertEquals(
        List.of("lauryl-hydroxysultaine-30"),
        result.fold(s -> List.of(), NoBlend::leftOutWithoutFigures));
    assertTrue(
        result
            .summary()
            .contains(
                "Left out, without irritation score or molar mass: lauryl-hydroxysultaine-30\n"),
        result::summary);
    assertTrue(
        result.summary().contains("alone enough: irritation index (high) at most 38.2"),
        result::summary);
    assertTrue(
        result.summary().contains("alone enough: share of anionic at least 25.86"),
        result::summary);
  }

  @Test
  void theChargeShareMovesWithPh() {
    for (double ph : new double[] {4, 5.5, 8}) {
      Brief brief =
          Brief.named("glutamate wash")
              .totalActive(10, 0)
              .netAnionicChargeShare(40, 45, ph)
              .choosingFrom("sodium-cocoyl-glutamate-27", "decyl-glucoside-52")
              .build();
      BlendResult result = BlendSolver.solve(brief, table);
      Recheck.result(result, table);
      assertTrue(result.isSolved());
    }
    Brief one =
        Brief.named("x")
            .totalActive(10, 0)
            .netAnionicChargeShare(0, 150, 4)
            .choosingFrom("sodium-cocoyl-glutamate-27")
            .build();
    assertTrue(BlendSolver.solve(one, table).isSolved(), "about one charge at pH 4");
    BlendResult high =
        BlendSolver.solve(
            one.withRequirement(
                1, new Requirement(Requirement.Kind.NET_ANIONIC_CHARGE_SHARE, "", 0, 150, 8)),
            table);
    assertFalse(high.isSolved(), "about two at pH 8");
    Conflicts.verify(high, table);
  }

  @Test
  void aBlendedIndexNeedsACredit() {
    assertEquals(
        "mixing-credit-missing",
        assertThrows(ProblemsException.class, () -> shampoo().blendedIndexAtMost(30).build())
            .problems()
            .get(0)
            .code());
  }

  @Test
  void creditsThatAreNotConvexAreRefusedWithTheNames() {
    Brief brief =
        shampoo()
            .mixingCredit(MixingCredit.ofPair("anionic", "amphoteric", -80))
            .blendedIndexAtMost(40)
            .build();
    List<Problem> problems = BlendSolver.check(brief, table);
    assertEquals("index-not-convex", problems.get(0).code());
    assertEquals(
        "the index is not convex: the credit of surfactants sodium-laureth-sulfate-27 and"
            + " cocamidopropyl-betaine-30 was -80.00, allowed is 0.000 to 0 beside their credits"
            + " with surfactant decyl-glucoside-52",
        problems.get(0).found());
    Brief convex =
        brief.toBuilder()
            .mixingCredit(
                MixingCredit.ofPair("anionic", "amphoteric", -80)
                    .andPair("anionic", "nonionic", -80))
            .build();
    assertEquals(List.of(), BlendSolver.check(convex, table));
    Recheck.result(BlendSolver.solve(convex, table), table);
  }

  @Test
  void aBlendedIndexForEveryLotIsRefused() {
    Brief brief =
        shampoo()
            .mixingCredit(MixingCredit.ofChargeVariance(40, 5.5))
            .blendedIndexAtMost(40)
            .everyLotWithinSpecification()
            .build();
    assertEquals("blended-index-every-lot", BlendSolver.check(brief, table).get(0).code());
  }

  @Test
  void theCreditLetsMoreSulfateIn() {
    Brief linear = shampoo().irritationIndexAtMost(38.2).build();
    Brief blended =
        shampoo()
            .mixingCredit(MixingCredit.ofChargeVariance(40, 5.5))
            .blendedIndexAtMost(38.2)
            .share(ChargeClass.AMPHOTERIC, 20, 60)
            .build();
    SolvedBlend one = (SolvedBlend) BlendSolver.solve(linear, table);
    SolvedBlend two = (SolvedBlend) BlendSolver.solve(blended, table);
    Recheck.result(one, table);
    Recheck.result(two, table);
    assertTrue(
        two.irritationIndex().range().orElseThrow().high()
            > one.irritationIndex().range().orElseThrow().high() + 1);
    assertTrue(IrritationIndex.BASIS.contains("upper bound"));
  }

  @Test
  void whatWouldMakeItMilderLeavesOutWhatBuysNothing() {
    // No amphoteric is offered, so asking for none of it holds and costs nothing.
    SolvedBlend solved =
        (SolvedBlend)
            BlendSolver.solve(
                Brief.named("Baby wash")
                    .totalActive(6, 0.3)
                    .share(ChargeClass.AMPHOTERIC, 0, 0)
                    .share(ChargeClass.ANIONIC, 0, 40)
                    .startingPh(4.5, 6.5)
                    .choosingFrom("coco-glucoside-52", "sodium-cocoyl-glutamate-27")
                    .fixed("sodium-benzoate", 0.5)
                    .mildest()
                    .build(),
                table);
    assertEquals(
        List.of("starting pH at most 6.5"),
        solved.sensitivity().loosenings().stream().map(l -> l.bound().toString()).toList());
  }

  /** High scores: ether sulfate 73, betaine 35, glucoside 15. */
  @Test
  void theIndexOfEveryLotStandsAtTheWorstContents() {
    Brief brief =
        Brief.named("every lot")
            .totalActive(12, 1)
            .choosingFrom("sodium-laureth-sulfate-27", "decyl-glucoside-52")
            .irritationIndexAtMost(45)
            .everyLotWithinSpecification()
            .cheapest()
            .build();
    BlendResult result = BlendSolver.solve(brief, table);
    Recheck.result(result, table);
    Blend blend = result.orElseThrow();
    double sulfate = blend.asSupplied("sodium-laureth-sulfate-27").value();
    double glucoside = blend.asSupplied("decyl-glucoside-52").value();
    double most = table.get("sodium-laureth-sulfate-27").activePercent().high();
    double least = table.get("decyl-glucoside-52").activePercent().low();
    assertEquals((73 - 45) * most * sulfate, (45 - 15) * least * glucoside, 1e-3);
    // A least index stands at the other ends.
    Brief rough =
        Brief.named("rough")
            .totalActive(12, 1)
            .choosingFrom("sodium-laureth-sulfate-27", "decyl-glucoside-52")
            .requirement(Requirement.of(Requirement.Kind.IRRITATION_INDEX, "", 45, 100))
            .everyLotWithinSpecification()
            .build();
    BlendResult lower = BlendSolver.solve(rough, table);
    Recheck.result(lower, table);
    sulfate = lower.orElseThrow().asSupplied("sodium-laureth-sulfate-27").value();
    glucoside = lower.orElseThrow().asSupplied("decyl-glucoside-52").value();
    most = table.get("decyl-glucoside-52").activePercent().high();
    least = table.get("sodium-laureth-sulfate-27").activePercent().low();
    assertEquals((73 - 45) * least * sulfate, (45 - 15) * most * glucoside, 1e-3);
  }

  @Test
  void aFrontOfCostAndIndex() {
    Brief brief =
        Brief.named("front")
            .totalActive(12, 0)
            .choosingFrom("sodium-laureth-sulfate-27", "decyl-glucoside-52")
            .build();
    TradeOff front =
        BlendSolver.tradeOff(
            brief, table, Measure.IRRITATION_INDEX, Measure.COST, SearchBudget.none());
    assertEquals(2, front.corners().size(), front.table());
    assertEquals(15, front.corners().get(0).first(), 1e-6);
    assertEquals(73, front.corners().get(1).first(), 1e-6);
    for (TradeOff.Corner c : front.corners()) {
      Recheck.blend(c.blend(), brief, table.prices());
      assertEquals(c.blend().costPerKg(table.prices()).orElseThrow(), c.second(), 1e-6);
    }
    List<Problem> open =
        assertThrows(
                ProblemsException.class,
                () ->
                    BlendSolver.tradeOff(
                        brief.toBuilder().mustUse("lauryl-hydroxysultaine-30").build(),
                        table,
                        Measure.IRRITATION_INDEX,
                        Measure.COST,
                        SearchBudget.none()))
            .problems();
    assertTrue(
        open.stream().anyMatch(p -> p.code().equals("irritation-score-missing")), open.toString());
  }

  /** A pair's credit of 80 lowers 73 y + 15 (1 - y) by 80 y (1 - y). */
  @Test
  void theBlendedIndexByHand() {
    MixingCredit credit =
        MixingCredit.ofPair("anionic", "amphoteric", -80).andPair("anionic", "nonionic", -80);
    Brief.Builder two =
        Brief.named("two")
            .totalActive(12, 0)
            .choosingFrom("sodium-laureth-sulfate-27", "decyl-glucoside-52")
            .mixingCredit(credit);
    SolvedBlend mild = (SolvedBlend) BlendSolver.solve(two.mildestBlended().build(), table);
    Recheck.result(mild, table);
    // Flat where 58 = 80 (1 - 2 y).
    double y = (1 - 58.0 / 80) / 2;
    assertEquals(100 * y, mild.blend().share(ChargeClass.ANIONIC).value(), 0.05);
    assertEquals(15 + 58 * y - 80 * y * (1 - y), mild.wishValue(), 1e-5);
    // In a range of totals the least active matter that is as mild, with a limited choice, too.
    Brief.Builder range =
        Brief.named("range")
            .totalActive(12, 0.5)
            .choosingFrom("sodium-laureth-sulfate-27", "decyl-glucoside-52")
            .mixingCredit(credit)
            .mildestBlended();
    for (Brief open :
        List.of(range.build(), range.build().toBuilder().exactlySurfactants(2).build())) {
      SolvedBlend least = (SolvedBlend) BlendSolver.solve(open, table);
      Recheck.result(least, table);
      assertEquals(mild.wishValue(), least.wishValue(), 1e-5);
      assertEquals(11.5, least.blend().totalActive().value(), 0.02);
    }
    // The sulfate is the cheaper one, and stops where the index is 35.
    SolvedBlend cheap =
        (SolvedBlend) BlendSolver.solve(two.cheapest().blendedIndexAtMost(35).build(), table);
    Recheck.result(cheap, table);
    RequirementReport report = cheap.report(Requirement.Kind.BLENDED_INDEX);
    assertEquals(35, report.reached().typical(), 1e-5);
    assertTrue(report.bindingHigh());
    assertTrue(report.gainPerPoint().orElseThrow() > 0);
    double share = cheap.blend().share(ChargeClass.ANIONIC).value() / 100;
    assertEquals(35, 15 + 58 * share - 80 * share * (1 - share), 1e-4);
    // Among several choices as well, and in a conflict.
    Alternatives all =
        BlendSolver.alternatives(
            shampoo().mixingCredit(credit).blendedIndexAtMost(35).atMostSurfactants(2).build(),
            table,
            3,
            1,
            SearchBudget.none());
    assertFalse(all.blends().isEmpty());
    all.blends().forEach(s -> Recheck.result(s, table));
    BlendResult none =
        BlendSolver.solve(shampoo().mixingCredit(credit).blendedIndexAtMost(12).build(), table);
    Conflicts.verify(none, table);
  }

  private List<String> problems(Brief brief) {
    return BlendSolver.check(brief, table).stream().map(Problem::toString).toList();
  }

  @Test
  void whatTheIndexesNeed() {
    String found =
        "error irritation-score-missing at brief \"Nettle shampoo\" irritation index: found no"
            + " irritation score of ";
    String allowed =
        "; allowed: irritation score of every surfactant that has to be in, and of one to choose"
            + " from. Maybe: give it in a row of your own, or ask for another measure";
    // A fixed line has to have one, and one of those to choose from.
    Brief.Builder fixed =
        Brief.named("Nettle shampoo")
            .totalActive(12, 0.5)
            .choosingFrom("decyl-glucoside-52")
            .fixed("lauryl-hydroxysultaine-30", 2);
    assertEquals(
        List.of(found + "lauryl-hydroxysultaine-30" + allowed),
        problems(fixed.irritationIndexAtMost(40).build()));
    assertEquals(
        List.of(found + "lauryl-hydroxysultaine-30" + allowed),
        problems(
            Brief.named("Nettle shampoo")
                .totalActive(12, 0.5)
                .choosingFrom("lauryl-hydroxysultaine-30")
                .mildest()
                .build()));
    assertEquals(List.of(), problems(shampoo().irritationIndexAtMost(40).build()));
    assertEquals(List.of(), problems(shampoo().mildest().fixed("glycerin", 3).build()));
    // A blended index has an upper end only, and does not stand for every lot.
    Brief.Builder credited = shampoo().mixingCredit(MixingCredit.ofChargeVariance(40, 5.5));
    assertEquals(
        List.of(
            "error index-not-convex at brief \"Nettle shampoo\" blended irritation index (high):"
                + " found a lower end; allowed: an upper end only: above a least value the blends"
                + " are not convex."),
        problems(
                credited.build().toBuilder()
                    .requirement(Requirement.of(Requirement.Kind.BLENDED_INDEX, "", 20, 40))
                    .build())
            .stream()
            .map(String::strip)
            .toList());
    assertEquals(List.of(), problems(credited.build().toBuilder().blendedIndexAtMost(40).build()));
    assertEquals(
        List.of("blended-index-every-lot"),
        BlendSolver.check(
                credited.build().toBuilder()
                    .blendedIndexAtMost(40)
                    .everyLotWithinSpecification()
                    .build(),
                table)
            .stream()
            .map(Problem::code)
            .toList());
    // As a measure it wants one total.
    ProblemsException open =
        assertThrows(
            ProblemsException.class,
            () ->
                BlendSolver.tradeOff(
                    Brief.named("open")
                        .totalActive(12, 0.5)
                        .choosingFrom("decyl-glucoside-52", "sodium-laureth-sulfate-27")
                        .build(),
                    table,
                    Measure.COST,
                    Measure.IRRITATION_INDEX,
                    SearchBudget.none()));
    assertEquals(
        List.of("total-active-open"), open.problems().stream().map(Problem::code).toList());
  }

  /** Beside a rough line that is fixed, more of a mild surfactant is milder. */
  @Test
  void theMildestOfARangeOfTotals() {
    Brief.Builder b =
        Brief.named("fixed")
            .totalActive(12, 0.5)
            .choosingFrom("decyl-glucoside-52", "cocamidopropyl-betaine-30")
            .fixed("sodium-laureth-sulfate-27", 5)
            .mildest();
    double rough = 0.05 * table.get("sodium-laureth-sulfate-27").activePercent().typical();
    SolvedBlend free = (SolvedBlend) BlendSolver.solve(b.build(), table);
    Recheck.result(free, table);
    assertEquals((73 * rough + 15 * (12.5 - rough)) / 12.5, free.wishValue(), 1e-6);
    assertEquals(12.5, free.blend().totalActive().value(), 1e-6);
    // One per cent of the betaine at 35 has to be in as well.
    SolvedBlend two =
        (SolvedBlend)
            BlendSolver.solve(
                b.build().toBuilder().exactlySurfactants(2).minimumUse(1).build(), table);
    Recheck.result(two, table);
    double betaine = 0.01 * table.get("cocamidopropyl-betaine-30").activePercent().typical();
    assertEquals(
        (73 * rough + 35 * betaine + 15 * (12.5 - rough - betaine)) / 12.5, two.wishValue(), 1e-6);
    // The next best set has the betaine alone.
    Alternatives all =
        BlendSolver.alternatives(
            b.build().toBuilder().atMostSurfactants(1).build(), table, 5, 1, SearchBudget.none());
    all.blends().forEach(s -> Recheck.result(s, table));
    assertEquals(2, all.blends().size());
    assertEquals(free.wishValue(), all.blends().get(0).wishValue(), 1e-6);
    assertEquals((73 * rough + 35 * (12.5 - rough)) / 12.5, all.blends().get(1).wishValue(), 1e-6);
  }
}
