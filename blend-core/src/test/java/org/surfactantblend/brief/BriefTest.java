package org.surfactantblend.brief;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.problem.ProblemsException;

class BriefTest {
  private static Brief.Builder wash() {
    return Brief.named("wash").totalActive(9, 0.2);
  }

  /** A setting with one figure outside its range, and what has to be said of it. */
  static Stream<Arguments> refused() {
    return Stream.of(
        refused(
            b -> b.totalActive(101, 0), "total active was 101.0, allowed is 0.0 to 100.0 % active"),
        refused(
            b -> b.totalActive(9, -1),
            "tolerance of the total active was -1.0, allowed is 0.0 to 100.0 % active"),
        refused(
            b -> b.totalActive(Double.NaN, 1),
            "total active was NaN, allowed is 0.0 to 100.0 % active"),
        refused(
            b -> b.share(ChargeClass.ANIONIC, 60, 40),
            "greatest share was 40.0, allowed is 60.0 to 100.0 % of the active"),
        refused(
            b -> b.shareOf("x", -1, 40),
            "least share was -1.0, allowed is 0.0 to 100.0 % of the active"),
        refused(
            b -> b.shareOf(" ", 1, 40), "material id was blank, allowed is at least one character"),
        refused(b -> b.startingPh(7, 6), "highest starting pH was 6.0, allowed is 7.0 to 14.0"),
        refused(
            b -> b.startingPhOfSurfactants(-1, 6),
            "lowest starting pH was -1.0, allowed is 0.0 to 14.0"),
        refused(
            b -> b.asSupplied("x", 0, 101),
            "greatest amount was 101.0, allowed is 0.0 to 100.0 % as supplied"),
        refused(
            b -> b.salt(2, 1), "greatest sodium chloride was 1.0, allowed is 2.0 to 100.0 % m/m"),
        refused(
            b -> b.netAnionicCharge(5, 1, 7),
            "greatest net anionic charge was 1.0, allowed is 5.0 to 100000.0 mmol/kg"),
        refused(b -> b.netAnionicCharge(1, 5, 15), "pH was 15.0, allowed is 0.0 to 14.0"),
        refused(b -> b.costAtMost(-1), "cost was -1.0, allowed is 0.0 per kg or more"),
        refused(b -> b.fixed("x", 0), "amount of x was 0.0, allowed is more than 0 % as supplied"),
        refused(
            b -> b.atMostSurfactants(0), "count of surfactants was 0.0, allowed is 1.0 to 20.0"),
        refused(
            b -> b.minimumUse(51), "minimum use was 51.0, allowed is 0.0 to 50.0 % as supplied"),
        refused(
            b -> b.withoutClashGuard(" "), "reason was blank, allowed is at least one character"),
        refused(
            b -> b.nearestToShares(Map.of()), "shares was empty, allowed is at least one class"));
  }

  private static Arguments refused(UnaryOperator<Brief.Builder> setting, String message) {
    return Arguments.of(setting, message);
  }

  @ParameterizedTest
  @MethodSource
  void refused(UnaryOperator<Brief.Builder> setting, Object message) {
    IllegalArgumentException e =
        assertThrows(
            IllegalArgumentException.class, () -> setting.apply(Brief.named("wash")).build());
    assertEquals(message, e.getMessage());
  }

  @Test
  void aTotalOfActiveIsNeeded() {
    List<Problem> problems = problems(Brief.named("wash").share(ChargeClass.ANIONIC, 0, 50));
    assertEquals(List.of("total-active-missing"), codes(problems));
    assertEquals("totalActive(9.0, 0.2)", problems.get(0).advice());
  }

  @Test
  void whatIsAskedTwiceIsToldTogether() {
    List<Problem> problems =
        problems(
            wash()
                .totalActive(10, 0.2)
                .share(ChargeClass.ANIONIC, 0, 50)
                .share(ChargeClass.ANIONIC, 10, 40)
                .startingPh(5, 6)
                .startingPh(6, 7)
                .fixed("glycerin", 3)
                .fixed("glycerin", 2)
                .netAnionicCharge(1, 2, 7)
                .netAnionicCharge(1, 3, 7));
    assertEquals(
        List.of("asked-twice", "asked-twice", "asked-twice", "asked-twice", "asked-twice"),
        codes(problems));
    assertEquals("9.8 to 10.2 % active after 8.8 to 9.2 % active", problems.get(0).found());
    assertTrue(problems.get(1).place().toString().contains("share of anionic"));
    assertEquals("keep the tighter one", problems.get(0).advice());
    assertEquals("add the two amounts", problems.get(3).advice());
  }

  @Test
  void whoeverVariesABriefIsToldHowARequirementIsReplaced() {
    Brief brief = wash().share(ChargeClass.ANIONIC, 0, 50).fixed("glycerin", 3).build();
    List<Problem> problems =
        problems(
            brief.toBuilder()
                .share(ChargeClass.ANIONIC, 10, 40)
                .startingPh(5, 6)
                .startingPh(6, 7)
                .fixed("glycerin", 2));
    assertEquals(
        List.of(
            "to replace what the brief asks: brief.withRequirement(1, ...), and toBuilder() of that"
                + " for the rest",
            "keep the tighter one",
            "a fixed line of a finished brief stays: build a new brief to change it"),
        problems.stream().map(Problem::advice).toList());
    Requirement other = Requirement.of(Requirement.Kind.CLASS_SHARE, "anionic", 10, 40);
    assertEquals(other, brief.withRequirement(1, other).toBuilder().build().requirements().get(1));
  }

  @Test
  void theSameFigureAtAnotherPhOrOfAnotherClassIsNotTwice() {
    Brief b =
        wash()
            .share(ChargeClass.ANIONIC, 0, 50)
            .share(ChargeClass.AMPHOTERIC, 0, 50)
            .netAnionicCharge(1, 200, 5)
            .netAnionicCharge(1, 200, 8)
            .build();
    assertEquals(5, b.requirements().size());
  }

  @Test
  void contradictingSettingsAreToldTogether() {
    List<Problem> problems =
        problems(
            Brief.named("wash")
                .fixed("a", 60)
                .fixed("b", 50)
                .mustUse("x", "y")
                .leavingOut("x", "y"));
    assertEquals(
        Set.of("total-active-missing", "fixed-over-100", "must-and-left-out"),
        Set.copyOf(codes(problems)));
    assertEquals(4, problems.size());
  }

  @Test
  void aBuilderFromABriefKeepsEverySetting() {
    Brief b =
        wash()
            .share(ChargeClass.ANIONIC, 0, 50)
            .fixed("glycerin", 3)
            .choosingFrom("a", "b")
            .leavingOut("c")
            .atMostSurfactants(3)
            .atMostOfClass(ChargeClass.NONIONIC, 1)
            .minimumUse(1)
            .mustUse("a")
            .notTogether("a", "b")
            .onlyIf("b", "a")
            .everyLotWithinSpecification()
            .cheapest()
            .withoutClashGuard("tested")
            .fillingUpWith("hydrolate")
            .build();
    Brief same = b.toBuilder().build();
    assertEquals(b.toString(), same.toString());
    assertEquals(b.requirements(), same.requirements());
    assertEquals(b.fixed(), same.fixed());
    assertEquals(b.candidates(), same.candidates());
    assertEquals(b.leftOut(), same.leftOut());
    assertEquals(b.mostSurfactants(), same.mostSurfactants());
    assertEquals(b.mostOfClass(), same.mostOfClass());
    assertEquals(b.minimumUsePercent(), same.minimumUsePercent());
    assertEquals(b.mustUse(), same.mustUse());
    assertEquals(b.notTogether(), same.notTogether());
    assertEquals(b.onlyIf(), same.onlyIf());
    assertEquals(b.lots(), same.lots());
    assertEquals(b.wish().aim(), same.wish().aim());
    assertEquals(b.guardOffReason(), same.guardOffReason());
    assertEquals(b.water(), same.water());
    assertEquals(b.conditions(), same.conditions());
    assertTrue(same.choosesSupport());
    assertFalse(wash().build().choosesSupport());
  }

  @Test
  void aBriefDoesNotChangeWithItsBuilder() {
    Brief.Builder builder = wash();
    Brief before = builder.build();
    builder.startingPh(5, 6).fixed("glycerin", 3);
    assertEquals(1, before.requirements().size());
    assertTrue(before.fixed().isEmpty());
    assertThrows(UnsupportedOperationException.class, () -> before.fixed().put("x", 1.0));
    assertThrows(UnsupportedOperationException.class, () -> before.requirements().clear());
  }

  @Test
  void aTotalNearAnEndIsCutThere() {
    Requirement r = Brief.named("x").totalActive(0.1, 1).build().requirements().get(0);
    assertEquals(0, r.low());
    assertEquals("0 to 1.1 % active", r.allowed());
    assertEquals(0, Double.compare(0.0, r.low()));
  }

  private static List<Problem> problems(Brief.Builder b) {
    return assertThrows(ProblemsException.class, b::build).problems();
  }

  private static List<String> codes(List<Problem> problems) {
    return problems.stream().map(Problem::code).toList();
  }
}
