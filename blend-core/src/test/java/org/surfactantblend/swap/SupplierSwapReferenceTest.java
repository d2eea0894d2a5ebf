package org.surfactantblend.swap;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.surfactantblend.acidity.BlendCharge;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.testing.WorkedCase;

/**
 * The swaps of the worked cases in {@code data/cases}: hand arithmetic on invented grades and
 * prices. Tolerances are those the files state: 0.06 % relative for four digits (floor 6e-6), 0.02
 * for a pH; a difference of two figures is judged by the floor of its last printed digit.
 */
class SupplierSwapReferenceTest {
  private static final Conditions BY_HAND = Conditions.ideal(14.00);

  private static void close(double expected, double actual, String what) {
    assertEquals(expected, actual, Math.max(6e-6, Math.abs(expected) * 0.0006), what);
  }

  private static Material citric(WorkedCase c) {
    // 20 % w/w anhydrous, 192.12 g/mol, pKa 3.13 / 4.76 / 6.40: the conventions of the cases.
    double mol = 0.2 / 0.19212;
    return c.grade(WorkedCase.ACID).toBuilder()
        .group(
            new AcidBaseGroup(
                "citric acid",
                AcidBase.acid("citric acid", 3.13, 4.76, 6.40),
                null,
                Range.exactly(mol),
                false,
                false))
        .build();
  }

  private static SupplierSwap swap(WorkedCase c) {
    Blend blend = c.blend(Map.of(), c.others());
    SupplierSwap swap = SupplierSwap.in(blend).priced(c.prices()).under(BY_HAND);
    for (Map.Entry<String, JsonNode> e : c.inputs().get("swap").get("replace").properties()) {
      swap = swap.replace(e.getKey()).with(c.grade(e.getValue().asText()));
    }
    return c.inputs().get("swap").get("rule").asText().contains("total sodium chloride")
        ? swap.holdingSalt("NACL")
        : swap;
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 4, 5, 7})
  void theSwapOfEveryCase(int number) {
    WorkedCase c = WorkedCase.number(number);
    JsonNode expected = c.expected().get("swap");
    SwapReport report = swap(c).report();
    for (Map.Entry<String, JsonNode> e : expected.get("as_supplied_pct").properties()) {
      close(e.getValue().asDouble(), report.after().asSupplied(e.getKey()).value(), e.getKey());
    }
    SwapFigure water = report.figure("water to weigh").orElseThrow();
    close(expected.get("water_qs_pct").asDouble(), water.after(), "water");
    close(expected.get("water_change_pct_points").asDouble(), water.change(), "water change");
    close(
        expected.get("total_active_pct").asDouble(),
        report.after().totalActive().value(),
        "total active");
    close(
        expected.get("sodium_chloride_pct_all_sources").asDouble(),
        report.figure("sodium chloride").orElseThrow().after(),
        "salt");
    SwapFigure cost = report.figure("cost").orElseThrow();
    close(expected.get("raw_cost_per_kg").asDouble(), cost.after(), "cost");
    close(expected.get("raw_cost_change_per_kg").asDouble(), cost.change(), "cost change");
    close(
        expected.get("total_active_if_swapped_gram_for_gram").asDouble(),
        report.gramForGram().totalActive().value(),
        "gram for gram");
    close(
        expected.get("active_error_if_gram_for_gram_pct_relative").asDouble(),
        report.gramForGramErrorPercent(),
        "gram for gram, error");
    assertTrue(report.holdsEverything());
  }

  @Test
  void startingPhAndAcidDoseOfTheFaceWash() {
    WorkedCase c = WorkedCase.number(1);
    Material acid = citric(c);
    double target = c.inputs().get("ideal_acid_base").get("target_pH").asDouble();
    SwapReport report = swap(c).correctedWith(acid, target).report();
    JsonNode model = c.expected().get("ideal_acid_base");
    SwapFigure surfactants = report.figure("starting pH of surfactants and water").orElseThrow();
    assertEquals(model.get("start_pH_surfactants_only").asDouble(), surfactants.before(), 0.02);
    assertEquals(
        c.expected().get("swap").get("start_pH_surfactants_only_after_swap").asDouble(),
        surfactants.after(),
        0.02);
    assertEquals(
        model.get("start_pH_before_acid").asDouble(),
        report.figure("starting pH").orElseThrow().before(),
        0.02);
    SwapFigure dose = report.figure("acid dose").orElseThrow();
    close(model.get("citric_solution_20pct_pct").asDouble(), dose.before(), "acid before");
    close(
        c.expected().get("swap").get("citric_solution_20pct_pct_after_swap").asDouble(),
        dose.after(),
        "acid after");

    SwapReport other =
        SupplierSwap.in(c.blend(Map.of(), c.others()))
            .under(BY_HAND)
            .correctedWith(acid, target)
            .replace("DG1")
            .with(c.grade("DG2"))
            .report();
    assertEquals(
        model.get("start_pH_surfactants_only_if_DG2_replaces_DG1").asDouble(),
        other.figure("starting pH of surfactants and water").orElseThrow().after(),
        0.02);
    close(
        model.get("citric_solution_20pct_pct_if_DG2_replaces_DG1").asDouble(),
        other.figure("acid dose").orElseThrow().after(),
        "acid with the other glucoside");
  }

  @Test
  void saltThatTheShampooNeedsAfterTheSwap() {
    WorkedCase c = WorkedCase.number(2);
    JsonNode salt = c.expected().get("salt");
    Blend before = c.blend(Map.of(), c.others());
    SwapReport report = swap(c).report();
    close(salt.get("total_pct").asDouble(), before.saltPercent().typical(), "total");
    close(
        salt.get("carried_by_raw_materials_pct").asDouble(),
        before.saltPercent().typical() - before.asSupplied("NACL").value(),
        "carried before");
    close(
        salt.get("added_after_swap_pct").asDouble(),
        report.after().asSupplied("NACL").value(),
        "added after");
    close(
        salt.get("carried_after_swap_pct").asDouble(),
        report.after().saltPercent().typical() - report.after().asSupplied("NACL").value(),
        "carried after");
    assertEquals(Verdict.HELD, report.figure("sodium chloride").orElseThrow().verdict());
    close(
        c.expected().get("anionic_to_amphoteric_mole_ratio").asDouble(),
        report.figure("anionic to amphoteric, moles").orElseThrow().after(),
        "mole ratio");
  }

  @Test
  void theBabyWashWithTheMoreAlkalineGlucoside() {
    WorkedCase c = WorkedCase.number(5);
    Blend surfactants = c.blend(Map.of(), Map.of());
    Blend same =
        SupplierSwap.in(surfactants)
            .under(BY_HAND)
            .replace("CG1")
            .with(c.grade("CG2"))
            .report()
            .after();
    assertEquals(
        c.expected().get("solve").get("start_pH_if_CG2_replaces_CG1_unchanged_shares").asDouble(),
        BlendCharge.of(same, BY_HAND).ph(),
        0.02);
  }
}
