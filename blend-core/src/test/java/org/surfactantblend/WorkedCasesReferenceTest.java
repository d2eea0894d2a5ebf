package org.surfactantblend;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.ActivePercent;
import org.surfactantblend.solve.BlendResult;
import org.surfactantblend.solve.BlendSolver;
import org.surfactantblend.testing.Recheck;
import org.surfactantblend.testing.WorkedCase;

/**
 * The worked cases of {@code data/cases}: five products of a small workshop, worked by hand outside
 * this library.
 *
 * <p>Source of every expected figure: the case file itself, hand arithmetic on <em>invented</em>
 * grades and prices. They check arithmetic, not chemistry: nothing here says that a real drum
 * behaves so. Tolerances are those the files state: 0.06 % relative for figures given with four
 * digits, 0.02 for a pH given with two decimals.
 *
 * <p>The files' acid-base convention takes 1 kg of product as 1 kg of solvent; the library counts
 * the water only. Under the ideal model the difference is the missing solvent times (h - oh): below
 * 2e-6 eq/kg in every case used, against 1e-3 eq/kg of acid and alkali, and nil at pH 7 where h
 * equals oh; well inside the 0.02.
 */
class WorkedCasesReferenceTest {
  private static final double RELATIVE = 0.0006;
  private static final double FLOOR = 6e-6;
  private static final double PH = 0.02;

  private static void close(double expected, double actual, String what) {
    assertEquals(expected, actual, Math.max(FLOOR, Math.abs(expected) * RELATIVE), what);
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 4, 5, 7})
  void asSuppliedPercentagesAndWaterComeFromShares(int number) {
    WorkedCase c = WorkedCase.number(number);
    Blend blend = c.blend(Map.of(), c.others());
    for (JsonNode s : c.expected().get("surfactants")) {
      String grade = s.get("grade").asText();
      close(
          s.get("as_supplied_pct").asDouble(),
          ActivePercent.of(c.totalActive() * s.get("share_of_active").asDouble())
              .asSuppliedAt(ActivePercent.of(c.grade(grade).activePercent().typical()))
              .value(),
          grade);
      close(s.get("share_of_active").asDouble() * 100, blend.shareOfMaterial(grade).value(), grade);
      close(
          s.get("active_pct_in_product").asDouble(),
          blend
              .asSupplied(grade)
              .activeAt(ActivePercent.of(c.grade(grade).activePercent().typical()))
              .value(),
          grade);
    }
    for (Map.Entry<String, JsonNode> e : c.expected().get("formula_pct").properties()) {
      close(e.getValue().asDouble(), blend.asSupplied(e.getKey()).value(), e.getKey());
    }
    close(c.expected().get("total_active_pct").asDouble(), blend.totalActive().value(), "active");
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 4, 5, 7})
  void theAuditAddsUpEverySource(int number) {
    WorkedCase c = WorkedCase.number(number);
    Blend blend = c.blend(Map.of(), c.others());
    JsonNode expected = c.expected();
    close(
        expected.get("total_water_pct_all_sources").asDouble(), blend.waterPercent(), "all water");
    close(
        expected.get("sodium_chloride_pct_all_sources").asDouble(),
        blend.saltPercent().typical(),
        "salt");
    for (Map.Entry<String, JsonNode> e :
        expected.get("charge_class_share_pct_of_active").properties()) {
      ChargeClass k = ChargeClass.parse(e.getKey()).orElseThrow();
      close(e.getValue().asDouble(), blend.share(k).value(), "share of " + k);
      close(
          expected.get("charge_class_mmol_per_kg").get(e.getKey()).asDouble(),
          blend.activeMmolPerKg(k).orElseThrow(),
          "moles of " + k);
    }
    close(
        expected.get("raw_cost_per_kg").asDouble(),
        blend.costPerKg(c.prices()).orElseThrow(),
        "cost");
    for (BlendLine l : blend.lines()) {
      String id = l.material().id();
      close(
          expected.get("raw_cost_by_material_per_kg").get(id).asDouble(),
          l.massFraction() * c.prices().pricePerKg(id).orElseThrow(),
          "cost of " + id);
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 4, 5, 7})
  void inciAmountsMergeEverySourceLargestFirst(int number) {
    WorkedCase c = WorkedCase.number(number);
    Map<String, Double> amounts = c.blend(Map.of(), c.others()).inciAmounts();
    List<String> names = new ArrayList<>();
    for (JsonNode e : c.expected().get("inci_order")) {
      String name = e.get("inci").asText();
      names.add(name);
      close(e.get("pct").asDouble(), amounts.getOrDefault(name, 0.0), name);
    }
    assertEquals(names, List.copyOf(amounts.keySet()));
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 4, 5, 7})
  void aBriefThatNamesTheSharesIsSolvedToTheSameLines(int number) {
    WorkedCase c = WorkedCase.number(number);
    Brief.Builder b =
        Brief.named("case")
            .totalActive(c.totalActive(), 0)
            .choosingFrom(c.shares().keySet().toArray(String[]::new))
            .fillingUpWith(WorkedCase.WATER)
            .conditions(Conditions.ideal(14.00))
            .cheapest();
    c.shares().forEach((grade, share) -> b.shareOf(grade, share * 100, share * 100));
    c.others().forEach(b::fixed);
    BlendResult result = BlendSolver.solve(b.build(), c.table());
    Recheck.result(result, c.prices());
    Blend blend = result.orElseThrow();
    for (Map.Entry<String, JsonNode> e : c.expected().get("formula_pct").properties()) {
      close(e.getValue().asDouble(), blend.asSupplied(e.getKey()).value(), e.getKey());
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 4, 5, 7})
  void anotherGradeAtTheSameActiveMovesWaterSaltAndCost(int number) {
    WorkedCase c = WorkedCase.number(number);
    Map<String, String> replaced = new LinkedHashMap<>();
    for (Map.Entry<String, JsonNode> e : c.inputs().get("swap").get("replace").properties()) {
      replaced.put(e.getKey(), e.getValue().asText());
    }
    JsonNode expected = c.expected().get("swap");
    Blend before = c.blend(Map.of(), c.others());
    Map<String, Double> others = new LinkedHashMap<>(c.others());
    if (number == 2) {
      // This case also holds the sodium chloride: the added salt makes good what the grades carry.
      double carried =
          c.blend(replaced, others).saltPercent().typical() - before.saltPercent().typical();
      others.merge("NACL", -carried, Double::sum);
    }
    Blend after = c.blend(replaced, others);
    for (Map.Entry<String, JsonNode> e : expected.get("as_supplied_pct").properties()) {
      close(e.getValue().asDouble(), after.asSupplied(e.getKey()).value(), e.getKey());
    }
    double water = after.asSupplied(WorkedCase.WATER).value();
    close(expected.get("water_qs_pct").asDouble(), water, "water");
    close(
        expected.get("water_change_pct_points").asDouble(),
        water - before.asSupplied(WorkedCase.WATER).value(),
        "change of water");
    close(expected.get("total_active_pct").asDouble(), after.totalActive().value(), "active");
    close(
        expected.get("sodium_chloride_pct_all_sources").asDouble(),
        after.saltPercent().typical(),
        "salt");
    close(
        expected.get("raw_cost_per_kg").asDouble(),
        after.costPerKg(c.prices()).orElseThrow(),
        "cost");
    double gramForGram = 0;
    for (String grade : c.shares().keySet()) {
      Material m = c.grade(replaced.getOrDefault(grade, grade));
      gramForGram += before.asSupplied(grade).value() * m.activePercent().typical() / 100;
    }
    close(
        expected.get("total_active_if_swapped_gram_for_gram").asDouble(),
        gramForGram,
        "active when weighed as before");
  }

  @Test
  void lindenFaceWashStartsWhereTheHandCalculationSays() {
    WorkedCase c = WorkedCase.number(1);
    JsonNode expected = c.expected().get("ideal_acid_base");
    Map<String, Double> withoutAcid = new LinkedHashMap<>(c.others());
    withoutAcid.remove(WorkedCase.ACID);
    startsAt(expected.get("start_pH_surfactants_only").asDouble(), c.blend(Map.of(), Map.of()));
    startsAt(expected.get("start_pH_before_acid").asDouble(), c.blend(Map.of(), withoutAcid));
    startsAt(
        expected.get("start_pH_surfactants_only_if_DG2_replaces_DG1").asDouble(),
        c.blend(Map.of("DG1", "DG2"), Map.of()));
    startsAt(
        c.expected().get("swap").get("start_pH_surfactants_only_after_swap").asDouble(),
        c.blend(Map.of("CB1", "CB2"), Map.of()));
  }

  @Test
  void oatBabyWashSharesAreSolvedForItsStartingPh() {
    WorkedCase c = WorkedCase.number(5);
    JsonNode solve = c.expected().get("solve");
    Blend first = solved(c, "CG1");
    close(solve.get("share_CG1").asDouble() * 100, first.shareOfMaterial("CG1").value(), "CG1");
    close(solve.get("share_CB1").asDouble() * 100, first.shareOfMaterial("CB1").value(), "CB1");
    startsAt(solve.get("start_pH_check").asDouble(), first);
    startsAt(
        solve.get("start_pH_if_CG2_replaces_CG1_unchanged_shares").asDouble(),
        c.blend(Map.of("CG1", "CG2"), Map.of()));
    Blend second = solved(c, "CG2");
    close(
        solve.get("share_CG2_resolved").asDouble() * 100,
        second.shareOfMaterial("CG2").value(),
        "CG2");
    close(
        solve.get("share_CB1_resolved_with_CG2").asDouble() * 100,
        second.shareOfMaterial("CB1").value(),
        "CB1");
    assertTrue(
        second.shareOfMaterial("CG2").value() < first.shareOfMaterial("CG1").value(),
        "the more alkaline lot gets the smaller share");
  }

  /** Surfactants and water only: the glutamate pinned at a quarter, pH 7.00 exactly. */
  private static Blend solved(WorkedCase c, String glucoside) {
    JsonNode asked = c.inputs().get("solve_for");
    double target = asked.get("target_start_pH").asDouble();
    double pinned = asked.get("fixed_share").get("DCG1").asDouble() * 100;
    Brief brief =
        Brief.named("oat wash")
            .totalActive(asked.get("total_active_pct").asDouble(), 0)
            .shareOf("DCG1", pinned, pinned)
            .startingPh(target, target)
            .choosingFrom(glucoside, "CB1", "DCG1")
            .fillingUpWith(WorkedCase.WATER)
            .conditions(Conditions.ideal(14.00))
            .build();
    BlendResult result = BlendSolver.solve(brief, c.table());
    Recheck.result(result, c.prices());
    return result.orElseThrow();
  }

  private static void startsAt(double expected, Blend blend) {
    assertEquals(expected, StartingPh.of(blend, Conditions.ideal(14.00)).typical(), PH);
  }
}
