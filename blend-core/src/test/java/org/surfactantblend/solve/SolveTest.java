package org.surfactantblend.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.brief.Requirement.Kind;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.problem.ProblemsException;
import org.surfactantblend.testing.Conflicts;
import org.surfactantblend.testing.Recheck;
import org.surfactantblend.testing.Shop;

class SolveTest {
  private static final MaterialTable TABLE = Shop.table();

  private static Brief.Builder wash() {
    return Brief.named("wash").totalActive(9, 0.2).choosingFrom("decyl", "coco", "beta", "glut");
  }

  private static SolvedBlend solved(Brief brief) {
    BlendResult result = BlendSolver.solve(brief, TABLE);
    Recheck.result(result, TABLE.prices());
    return result.fold(
        s -> s,
        none -> {
          throw new AssertionError(none.summary());
        });
  }

  /** One requirement of each kind that the cheapest or smallest blend would not meet by itself. */
  static Stream<Arguments> kinds() {
    return Stream.of(
        kind("class share", b -> b.share(ChargeClass.AMPHOTERIC, 55, 60)),
        kind("another class", b -> b.share(ChargeClass.NONIONIC, 0, 20)),
        kind("material share", b -> b.shareOf("glut", 30, 40)),
        kind("starting pH", b -> b.startingPh(6.5, 7)),
        kind("one exact pH", b -> b.startingPh(7, 7)),
        kind("pH of surfactants", b -> b.startingPhOfSurfactants(6, 6.5).fixed("citric", 0.3)),
        kind("both pH", b -> b.startingPh(4, 5).startingPhOfSurfactants(6, 8).fixed("citric", 1)),
        kind("as supplied", b -> b.asSupplied("decyl", 2, 5)),
        kind("water", b -> b.asSupplied("water", 0, 75)),
        kind("salt", b -> b.salt(0.5, 0.6)),
        kind("net anionic charge", b -> b.netAnionicCharge(40, 60, 7)),
        kind("cost", b -> b.costAtMost(0.9)));
  }

  private static Arguments kind(String name, UnaryOperator<Brief.Builder> setting) {
    return Arguments.of(name, setting);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("kinds")
  void everyKindOfRequirementIsMetAndReported(String name, UnaryOperator<Brief.Builder> setting) {
    SolvedBlend s = solved(setting.apply(wash()).build());
    assertEquals(s.brief().requirements().size(), s.reports().size(), name);
    for (RequirementReport r : s.reports()) {
      Requirement q = r.requirement();
      assertTrue(r.reached().typical() >= q.low() - 2e-6, name + ": " + r);
      assertTrue(r.reached().typical() <= q.high() + 2e-6, name + ": " + r);
      if (q.hasLow()) {
        assertEquals(r.reached().typical() - q.low(), r.roomBelow(), 2e-6, name);
      }
      if (q.hasHigh()) {
        assertEquals(q.high() - r.reached().typical(), r.roomAbove(), 2e-6, name);
      }
      assertTrue(!r.bindingLow() || r.roomBelow() < 1e-5, name + ": " + r);
      assertTrue(!r.bindingHigh() || r.roomAbove() < 1e-5, name + ": " + r);
      assertEquals(r.isBinding(), r.gainPerPoint().isPresent(), name);
    }
  }

  static Stream<Arguments> wishes() {
    Blend before =
        Blend.named("before")
            .line(Shop.DECYL, 6)
            .line(Shop.BETA, 14)
            .line(Shop.SULF, 8)
            .upToHundredWith(Shop.WATER);
    return Stream.of(
        kind("least surfactant", b -> b),
        kind("cheapest", Brief.Builder::cheapest),
        kind("least anionic share", b -> b.shareOf("glut", 10, 50).leastAnionicShare()),
        kind("least change", b -> b.leastChangeFrom(before)),
        kind(
            "nearest shares",
            b ->
                b.nearestToShares(
                    Map.of(ChargeClass.AMPHOTERIC, 50.0, ChargeClass.ANIONIC, 20.0))));
  }

  /** The gain of one point is what solving again with that end moved gives. */
  @ParameterizedTest(name = "{0}")
  @MethodSource("wishes")
  void everyWishIsServedAndItsGainsAreTrue(String name, UnaryOperator<Brief.Builder> wish) {
    Brief brief =
        wish.apply(
                wash()
                    .share(ChargeClass.AMPHOTERIC, 40, 60)
                    .startingPh(6.2, 7.5)
                    .salt(0, 0.9)
                    .fixed("glycerin", 3))
            .build();
    SolvedBlend s = solved(brief);
    int gains = 0;
    for (int i = 0; i < brief.requirements().size(); i++) {
      RequirementReport r = s.reports().get(i);
      if (r.gainPerPoint().isPresent()) {
        double point = r.requirement().kind().point();
        double best = s.wishValue();
        if (r.bindingLow()) {
          Requirement q = r.requirement();
          best =
              Math.min(
                  best,
                  solved(brief.withRequirement(i, q.loosenedLow(Math.min(point, q.low()))))
                      .wishValue());
        }
        if (r.bindingHigh()) {
          best =
              Math.min(
                  best,
                  solved(brief.withRequirement(i, r.requirement().loosenedHigh(point)))
                      .wishValue());
        }
        assertEquals(s.wishValue() - best, r.gainPerPoint().getAsDouble(), 1e-6, name + ": " + r);
        assertTrue(r.gainPerPoint().getAsDouble() >= -1e-9, name + ": " + r);
        gains++;
      }
    }
    assertTrue(gains > 0 || s.wishValue() < 1e-6, name + " is held back by something");
  }

  @Test
  void theCheapestOfTwoIsWhatHandArithmeticSays() {
    // At 9 % active from the cheaper active alone: beta costs 2.3/0.30 = 7.67 per kg of active,
    // decyl 5.4/0.52 = 10.4; the share keeps at least 40 % decyl. 8.8 % is the least asked.
    Brief b =
        wash()
            .choosingFrom("decyl", "beta")
            .leavingOut("coco", "glut")
            .shareOf("decyl", 40, 100)
            .cheapest()
            .build();
    SolvedBlend s = solved(b);
    double decyl = 8.8 * 0.4 / 0.52;
    double beta = 8.8 * 0.6 / 0.30;
    assertEquals(decyl, s.blend().asSupplied("decyl").value(), 1e-9);
    assertEquals(beta, s.blend().asSupplied("beta").value(), 1e-9);
    assertEquals(
        (decyl * 5.4 + beta * 2.3 + (100 - decyl - beta) * 0.04) / 100, s.wishValue(), 1e-9);
  }

  static Stream<Arguments> impossible() {
    return Stream.of(
        kind(
            "shares over 100",
            b -> b.share(ChargeClass.AMPHOTERIC, 70, 100).share(ChargeClass.NONIONIC, 40, 100)),
        kind("too much active", b -> b.asSupplied("water", 90, 100)),
        kind("glucoside at pH 5", b -> b.share(ChargeClass.NONIONIC, 80, 100).startingPh(5, 6)),
        kind("salt and betaine", b -> b.share(ChargeClass.AMPHOTERIC, 60, 100).salt(0, 0.5)),
        kind("cost", b -> b.costAtMost(0.5)),
        kind("charge", b -> b.netAnionicCharge(600, 700, 7)),
        kind("pH of surfactants", b -> b.startingPhOfSurfactants(3, 4)),
        kind(
            "one surfactant",
            b -> b.atMostSurfactants(1).startingPh(6.5, 7.5).share(ChargeClass.AMPHOTERIC, 10, 90)),
        kind(
            "needs each other",
            b -> b.mustUse("glut").onlyIf("glut", "coco").atMostOfClass(ChargeClass.NONIONIC, 0)),
        kind(
            "one class of two",
            b ->
                b.atMostOfClass(ChargeClass.ANIONIC, 0)
                    .atMostOfClass(ChargeClass.NONIONIC, 0)
                    .share(ChargeClass.NONIONIC, 20, 100)),
        kind(
            "one pair of two",
            b ->
                b.mustUse("beta", "decyl")
                    .notTogether("coco", "glut")
                    .notTogether("beta", "decyl")),
        kind(
            "one need of two",
            b ->
                b.mustUse("beta")
                    .onlyIf("coco", "glut")
                    .onlyIf("beta", "decyl")
                    .leavingOut("decyl")),
        kind("three of much", b -> b.exactlySurfactants(3).minimumUse(10)),
        kind("more than allowed", b -> b.exactlySurfactants(4).atMostSurfactants(2)),
        kind("kept apart", b -> b.mustUse("glut", "beta").notTogether("beta", "glut")),
        kind(
            "minimum use",
            b ->
                b.minimumUse(20)
                    .share(ChargeClass.NONIONIC, 20, 60)
                    .share(ChargeClass.AMPHOTERIC, 40, 80)),
        kind(
            "every lot",
            b ->
                b.everyLotWithinSpecification()
                    .startingPh(6.9, 7.1)
                    .share(ChargeClass.AMPHOTERIC, 40, 60)
                    .share(ChargeClass.NONIONIC, 40, 60)),
        kind("no charge at all", b -> b.leavingOut("glut").netAnionicCharge(200, 500, 7)));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("impossible")
  void whatCannotBeMetNamesTrueCausesAndTrueChanges(
      String name, UnaryOperator<Brief.Builder> setting) {
    BlendResult result = BlendSolver.solve(setting.apply(wash()).build(), TABLE);
    assertFalse(result.isSolved(), name);
    Conflicts.verify(result, TABLE);
    NoBlendException e = assertThrows(NoBlendException.class, result::orElseThrow);
    assertEquals(result.summary(), e.getMessage());
    for (String line : result.summary().split("\n", -1)) {
      assertTrue(line.length() <= 80, line);
    }
  }

  @Test
  void theClashGuardKeepsClashesApartAndSaysSo() {
    Brief.Builder b = Brief.named("conditioner").totalActive(5, 0.1).fixed("quar", 3).cheapest();
    SolvedBlend s = solved(b.build());
    assertEquals(
        List.of("sulf", "glut", "iset"), s.excludedByGuard().stream().map(Clash::first).toList());
    SolvedBlend free = solved(b.withoutClashGuard("a test").build());
    assertTrue(free.blend().asSupplied("sulf").value() > 0);
    assertTrue(free.summary().contains("The clash guard is off: a test"));
  }

  @Test
  void candidatesThatClashAreNeverChosenTogether() {
    Brief.Builder b =
        Brief.named("bar")
            .totalActive(9, 0.2)
            .choosingFrom("iset", "decyl", "beta")
            .share(ChargeClass.NONIONIC, 10, 90)
            .nearestToShares(Map.of(ChargeClass.ANIONIC, 50.0));
    SolvedBlend s = solved(b.build());
    assertEquals(0, s.blend().asSupplied("iset").value());
    BlendResult both = BlendSolver.solve(b.mustUse("iset").build(), TABLE);
    Conflicts.verify(both, TABLE);
    assertTrue(both.summary().contains("clash guard"), both::summary);
  }

  @Test
  void anEsterIsLeftOutWhereItWouldNotLast() {
    SolvedBlend s =
        solved(
            Brief.named("strong")
                .totalActive(9, 0.2)
                .choosingFrom("iset", "decyl", "beta")
                .startingPh(9, 10)
                .build());
    assertEquals(List.of("iset"), s.excludedByGuard().stream().map(Clash::first).toList());
  }

  @Test
  void problemsAreSaidBeforeSolvingAllTogether() {
    Brief b =
        Brief.named("bad")
            .totalActive(9, 0.2)
            .choosingFrom("decil", "glycerin", "water")
            .fixed("betaa", 3)
            .shareOf("nothing", 1, 2)
            .cheapest()
            .build();
    ProblemsException e = assertThrows(ProblemsException.class, () -> BlendSolver.solve(b, TABLE));
    List<String> codes = new ArrayList<>();
    e.problems().forEach(p -> codes.add(p.code()));
    assertEquals(3, codes.stream().filter("unknown-material"::equals).count(), codes::toString);
    assertTrue(String.valueOf(e.getMessage()).contains("beta"), e::getMessage);
  }

  @Test
  void aMissingPriceIsAProblemAndNotACost() {
    Brief b = wash().cheapest().build();
    MaterialTable some =
        TABLE.priced(PriceList.of("cu", Map.of("decyl", 5.0, "beta", 2.0, "water", 0.01)));
    ProblemsException e = assertThrows(ProblemsException.class, () -> BlendSolver.solve(b, some));
    assertEquals("price-missing", e.problems().get(0).code());
    assertTrue(e.problems().get(0).found().contains("coco"));
    assertTrue(e.problems().get(0).found().contains("glut"));
  }

  @Test
  void theIdealModelIsSolvedWithItsOwnWater() {
    SolvedBlend s = solved(wash().conditions(Conditions.ideal(14)).startingPh(7, 7).build());
    assertEquals(7, s.startingPh().typical(), 1e-6);
    assertEquals(7, s.report(Kind.STARTING_PH).reached().typical(), 1e-6);
    assertThrows(IllegalArgumentException.class, () -> s.report(Kind.SALT));
  }

  @Test
  void everyLineOfAnAnswerFitsEightyColumns() {
    SolvedBlend s =
        solved(
            wash()
                .share(ChargeClass.AMPHOTERIC, 40, 60)
                .startingPh(6, 7.5)
                .salt(0, 2)
                .cheapest()
                .build());
    for (String line : s.summary().split("\n", -1)) {
      assertTrue(line.length() <= 80, line);
    }
  }
}
