package org.surfactantblend.mildness;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.surfactantblend.mildness.DataRows.number;
import static org.surfactantblend.mildness.DataRows.text;

import java.nio.file.Files;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.surfactantblend.material.Evidence;
import org.surfactantblend.material.IrritationScore;
import org.surfactantblend.quantity.Range;

/** The shipped tables of this room: every row is usable and every figure has a source. */
class MildnessTablesTest {
  @ParameterizedTest
  @ValueSource(
      strings = {
        "irritation.csv",
        "cmc.csv",
        "interaction.csv",
        "eye.csv",
        "salt-from-synthesis.csv",
        "checks/rubingh-sles.csv",
        "checks/cmc-mixtures-binary.csv",
        "checks/cmc-mixture-errors.csv",
        "checks/charge-and-molar-mass.csv"
      })
  void everyFigureHasASource(String file) {
    Set<String> known = new HashSet<>();
    for (String sources : List.of("sources.csv")) {
      if (Files.exists(DataRows.DATA.resolve(sources))) {
        for (Map<String, String> row : DataRows.of(sources)) {
          known.add(text(row, "id"));
        }
      }
    }
    List<Map<String, String>> rows = DataRows.of(file);
    assertTrue(!rows.isEmpty(), file);
    for (Map<String, String> row : rows) {
      assertTrue(known.contains(text(row, "source")), () -> file + ": " + row);
    }
  }

  @Test
  void everyScoreIsUsableAndOnlyThreeRestOnNumbers() {
    Set<String> names = new HashSet<>();
    int measured = 0;
    for (Map<String, String> row : DataRows.of("irritation.csv")) {
      IrritationScore score = score(row);
      assertTrue(names.add(text(row, "inci_name") + "|" + text(row, "grade")), "twice: " + row);
      measured += score.evidence() == Evidence.MEASURED ? 1 : 0;
    }
    assertEquals(3, measured);
  }

  @Test
  void everyUsedCmcIsASingleOne() {
    Set<String> used = new HashSet<>();
    for (Map<String, String> row : DataRows.of("cmc.csv")) {
      if (text(row, "used").equals("yes")) {
        assertTrue(used.add(text(row, "name")), "twice: " + row);
        assertEquals(
            number(row, "cmc_mmol_per_l"),
            ShippedMicelles.component(text(row, "name")).cmcMmolPerL());
      }
    }
    assertTrue(used.size() > 30, () -> used.size() + " CMCs");
  }

  @Test
  void everyInteractionIsUsable() {
    InteractionTable table = ShippedMicelles.interactions();
    for (Map<String, String> row : DataRows.of("interaction.csv")) {
      boolean byGroup = text(row, "level").equals("head_group");
      HeadGroup a = byGroup ? HeadGroup.parse(text(row, "first")).orElseThrow() : HeadGroup.SUGAR;
      HeadGroup b = byGroup ? HeadGroup.parse(text(row, "second")).orElseThrow() : HeadGroup.SUGAR;
      String first = byGroup ? "any" : text(row, "first");
      String second = byGroup ? "other" : text(row, "second");
      Interaction found =
          table
              .find(MicelleComponent.pure(first, 1, a), MicelleComponent.pure(second, 1, b))
              .orElseThrow();
      assertEquals(number(row, "intercept"), found.intercept(), () -> "twice? " + row);
    }
  }

  @Test
  void everyEyeLimitIsUsable() {
    for (Map<String, String> row : DataRows.of("eye.csv")) {
      EyeHazardLimit limit = limit(row);
      assertTrue(limit.irritatingFromPercent() < limit.seriousFromPercent(), row::toString);
    }
  }

  static IrritationScore score(Map<String, String> row) {
    return new IrritationScore(
        Range.of(number(row, "low"), number(row, "mid"), number(row, "high")),
        Evidence.parse(text(row, "evidence")).orElseThrow(),
        text(row, "source"));
  }

  static EyeHazardLimit limit(Map<String, String> row) {
    return new EyeHazardLimit(
        number(row, "serious_from_pct"), number(row, "irritating_from_pct"), text(row, "source"));
  }
}
