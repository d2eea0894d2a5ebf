package org.surfactantblend.batch;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Scale;
import org.surfactantblend.testing.WorkedCase;

/**
 * The batches, fills and orders of the worked cases in {@code data/cases}: hand arithmetic on
 * invented grades. Weighed grams and counts are exact; other masses within 0.15 g, as the files
 * state; exact grams to half of their last printed digit.
 */
class BatchSheetReferenceTest {
  private static List<Scale> scales(JsonNode batch) {
    List<Scale> all = new ArrayList<>();
    for (JsonNode s : batch.get("scales")) {
      all.add(Scale.of(s.get("resolution_g").asDouble(), s.get("capacity_g").asDouble()));
    }
    return all;
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 4, 5, 7})
  void everyBatchToTheGram(int number) {
    WorkedCase c = WorkedCase.number(number);
    JsonNode batches = c.inputs().get("batches");
    for (int k = 0; k < batches.size(); k++) {
      JsonNode expected = c.expected().get("batches").get(k);
      double mass = batches.get(k).get("batch_g").asDouble();
      BatchSheet sheet =
          BatchSheet.of(c.blend(Map.of(), c.others()))
              .mass(Mass.grams(mass))
              .on(scales(batches.get(k)));
      assertEquals(expected.get("weigh").size(), sheet.lines().size());
      for (JsonNode w : expected.get("weigh")) {
        String id = w.get("material").asText();
        BatchLine line = sheet.line(id).orElseThrow();
        String what = number + " " + mass + " g " + id;
        assertEquals(w.get("weigh_g").asDouble(), line.weighGrams(), what);
        assertEquals(w.get("scale_resolution_g").asDouble(), line.scale().resolutionGrams(), what);
        assertEquals(w.get("exact_g").asDouble(), line.exactGrams(), 0.00051, what);
        assertEquals(
            w.get("rounding_error_pct").asDouble(),
            line.errorPercent(),
            Math.max(6e-6, Math.abs(w.get("rounding_error_pct").asDouble()) * 0.0006),
            what);
      }
      WaterLine water = sheet.water().orElseThrow();
      assertEquals(expected.get("water_residual_g").asDouble(), water.residualGrams(), 1e-9);
      assertEquals(expected.get("water_weigh_g").asDouble(), water.weighGrams());
      assertEquals(
          expected.get("water_scale_resolution_g").asDouble(),
          water.pours().get(0).scale().resolutionGrams());
      BatchLine worst = sheet.worstLine().orElseThrow();
      assertEquals(
          expected.get("worst_rounding_error_pct").asDouble(),
          Math.abs(worst.errorPercent()),
          Math.max(6e-6, Math.abs(worst.errorPercent()) * 0.0006));
      assertEquals(expected.get("worst_rounding_material").asText(), worst.material().id());
      Set<String> over = new HashSet<>();
      expected.get("materials_over_1_pct_rounding").forEach(n -> over.add(n.asText()));
      Set<String> found = new HashSet<>();
      sheet.linesOffByMoreThan(1).forEach(l -> found.add(l.material().id()));
      assertEquals(over, found);
    }
  }

  @Test
  void theHandWashFromOrderToBatch() {
    WorkedCase c = WorkedCase.number(4);
    JsonNode in = c.inputs().get("order");
    JsonNode out = c.expected().get("order");
    BatchOrder order =
        BatchOrder.density(in.get("density_g_per_ml").asDouble())
            .container(
                "pump bottle 300 ml",
                300,
                in.get("bottles_300_ml").asInt(),
                in.get("retained_300_ml").asInt())
            .container("refill 500 ml", 500, in.get("refills_500_ml").asInt(), 0)
            .sample(Mass.grams(in.get("qc_sample_g").asDouble()))
            .lossPercent(in.get("loss_pct").asDouble())
            .meanOverfillPercent(in.get("mean_overfill_pct").asDouble())
            .roundUpTo(Mass.grams(in.get("round_batch_up_to_g").asDouble()))
            .build();
    BatchOrder.Container small = order.containers().get(0);
    BatchOrder.Container large = order.containers().get(1);
    assertEquals(out.get("fill_300_ml_g").asDouble(), order.fillGrams(small), 0.006);
    assertEquals(out.get("fill_500_ml_g").asDouble(), order.fillGrams(large), 0.006);
    assertEquals(out.get("product_needed_g").asDouble(), order.productGrams(), 0.15);
    assertEquals(out.get("batch_needed_g").asDouble(), order.neededGrams(), 0.15);
    assertEquals(out.get("batch_made_g").asDouble(), order.batch().inGrams());
    assertEquals(out.get("surplus_after_fill_g").asDouble(), order.surplusGrams(), 0.15);
    assertEquals(
        out.get("extra_300_ml_bottles_from_surplus").asInt(), order.moreFromSurplus(small));
    assertEquals(out.get("tolerable_negative_error_300_ml_ml").asDouble(), small.toleranceMl());
    assertEquals(out.get("tolerable_negative_error_500_ml_ml").asDouble(), large.toleranceMl());
    assertEquals(out.get("lower_limit_300_ml_g").asDouble(), order.lowerLimitGrams(small), 0.15);
    assertEquals(out.get("lower_limit_500_ml_g").asDouble(), order.lowerLimitGrams(large), 0.15);
    assertEquals(
        out.get("absolute_min_300_ml_g").asDouble(), order.absoluteLimitGrams(small), 0.15);
    assertEquals(
        out.get("absolute_min_500_ml_g").asDouble(), order.absoluteLimitGrams(large), 0.15);

    BatchSheet sheet =
        BatchSheet.of(c.blend(Map.of(), c.others()))
            .mass(order)
            .on(scales(c.inputs().get("batches").get(0)));
    JsonNode byScale = c.expected().get("weighing_order_by_scale");
    List<String> expected = new ArrayList<>();
    byScale.forEach(scale -> scale.forEach(id -> expected.add(id.asText())));
    assertEquals(expected, sheet.weighingOrder().stream().map(l -> l.material().id()).toList());
    BatchSheet swapped =
        BatchSheet.of(c.blend(Map.of("AOS1", "AOS2"), c.others()))
            .mass(order)
            .on(scales(c.inputs().get("batches").get(0)));
    assertEquals(
        c.expected().get("swap").get("AOS2_weigh_g_on_5_g_scale").asDouble(),
        swapped.line("AOS2").orElseThrow().weighGrams());
  }

  @ParameterizedTest
  @ValueSource(ints = {2, 7})
  void bottlesFromABatch(int number) {
    WorkedCase c = WorkedCase.number(number);
    JsonNode in = c.inputs().get("fill");
    JsonNode out = c.expected().get("fill");
    BatchOrder order =
        BatchOrder.filledFrom(
            Mass.grams(in.get("batch_g").asDouble()),
            in.get("loss_pct").asDouble(),
            Mass.grams(in.get("qc_sample_g").asDouble()),
            in.get("nominal_ml").asDouble(),
            in.get("density_g_per_ml").asDouble(),
            in.get("retained_full_bottles").asInt());
    BatchOrder.Container bottle = order.containers().get(0);
    assertEquals(out.get("fill_mass_g").asDouble(), order.fillGrams(bottle), 0.15);
    assertEquals(out.get("bottles_filled").asInt(), bottle.filled());
    assertEquals(out.get("bottles_for_sale").asInt(), bottle.forSale());
    assertEquals(out.get("leftover_g").asDouble(), order.surplusGrams(), 0.15);
    assertEquals(out.get("tolerable_negative_error_ml").asDouble(), bottle.toleranceMl());
    if (out.has("min_for_97_5_pct_of_bottles_g")) {
      assertEquals(
          out.get("min_for_97_5_pct_of_bottles_g").asDouble(), order.lowerLimitGrams(bottle), 0.15);
      assertEquals(out.get("absolute_min_g").asDouble(), order.absoluteLimitGrams(bottle), 0.15);
    }
    assertTrue(order.batch().inGrams() >= order.neededGrams() - 1e-9);
  }
}
