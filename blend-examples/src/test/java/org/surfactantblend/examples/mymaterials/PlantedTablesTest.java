package org.surfactantblend.examples.mymaterials;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.platform.engine.discovery.DiscoverySelectors.selectClass;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.platform.launcher.core.LauncherDiscoveryRequestBuilder;
import org.junit.platform.launcher.core.LauncherFactory;
import org.junit.platform.launcher.listeners.SummaryGeneratingListener;

/** One wrong cell in the demo table at a time: the shop's own command finds it and says where. */
class PlantedTablesTest {
  @TempDir Path folder;

  @Test
  void theTableWithoutAFaultPasses() throws IOException {
    assertEquals(List.of(), run(shelf(), "7"));
  }

  @ParameterizedTest(name = "{4}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          brook-betaine-31  | active_typ_pct       | 36.5       | range-order         | typical above greatest
          brook-betaine-31  | active_max_pct       | 44         | active-spread       | greatest active matter misread
          quay-sulfate-28   | active_typ_pct       | 0.28       | range-order         | active matter as a fraction
          mill-glucoside-50 | active_max_pct       | 100        | active-spread       | a glucoside without water
          brook-betaine-31  | dry_residue_max_pct  | 390        | number-range        | more dry than everything
          quay-sulfate-28   | salt_min_pct         |            | half-range          | half a range
          quay-sulfate-28   | dry_residue_min_pct  | 38         | range-order         | ends changed over
          brook-betaine-31  | salt_max_pct         | 56         | dry-residue         | salt with its point shifted
          mill-glucoside-50 | ph_typ               | 7.1        | range-order         | a pH outside its own range
          hill-glutamate-29 | ph_low               | 2.2        | ph-spread           | the pH of the acid form
          quay-sulfate-28   | ph_dilution_pct      | 0.1        | ph-stated           | dilution as a fraction
          hill-glutamate-29 | ph_dilution_pct      |            | ph-without-dilution | no dilution
          quay-sulfate-28   | molar_mass_g_per_mol | 38.2       | molar-mass          | molar mass with its point shifted
          quay-sulfate-28   | charge_class         | nonionic   | class-family        | another charge class
          quay-sulfate-28   | family               | acyl soap  | unknown-family      | a family that is not there
          hill-glutamate-29 | ph_source            |            | source              | a figure without a source
          brook-betaine-31  | constituents         | Sodium Glycolate 40..80 | range-end | glycolate with its point shifted
          hill-lactic-80    | price_per_kg         | -3         | number-range        | a price below nothing
          hill-lactic-80    | id                   | brook-betaine-31 | duplicate-id  | one id twice
          hill-glutamate-29 | inci_name            |            | missing-value       | no name
          """)
  void aWrongCellIsFound(String id, String column, String wrong, String code, String what)
      throws IOException {
    List<String> failures = run(planted(id, column, wrong == null ? "" : wrong), "7");
    assertTrue(
        failures.stream().anyMatch(f -> f.contains(code)),
        () -> what + " is not found as " + code + " among " + failures);
  }

  /**
   * A glutamate whose soap may be 70 %: the counterexample is one line of it, otherwise typical.
   */
  @Test
  void aCounterexampleIsShrunkToTheFigureThatIsWrong() throws IOException {
    ByteArrayOutputStream heard = new ByteArrayOutputStream();
    List<String> table = planted("hill-glutamate-29", "constituents", "Sodium Cocoate 0..10..70");
    run(table, "200", new PrintStream(heard, true, StandardCharsets.UTF_8));
    String text = heard.toString(StandardCharsets.UTF_8).replace("\r", "");
    String smallest =
        """
          made:
            random blend
              hill-glutamate-29                               0.500 % as supplied
              water                                          99.500 % as supplied
              total active 0.145 %
              lot of hill-glutamate-29: Sodium Cocoyl Glutamate 29 %, Sodium Chloride 5 %, \
        Sodium Cocoate 70 %, pH 5.8
        """;
    assertTrue(text.contains(smallest), text);
  }

  private List<String> run(List<String> table, String tries) throws IOException {
    return run(
        table,
        tries,
        new PrintStream(PrintStream.nullOutputStream(), false, StandardCharsets.UTF_8));
  }

  private static List<String> shelf() throws IOException {
    try (var in =
        Objects.requireNonNull(PlantedTablesTest.class.getResourceAsStream("/my-shelf.csv"))) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().toList();
    }
  }

  private static List<String> planted(String id, String column, String wrong) throws IOException {
    List<String> lines = new ArrayList<>(shelf());
    int at = List.of(lines.get(0).split(",", -1)).indexOf(column);
    assertTrue(at >= 0, column);
    for (int i = 1; i < lines.size(); i++) {
      if (lines.get(i).startsWith(id + ",")) {
        String[] cells = lines.get(i).split(",", -1);
        cells[at] = wrong;
        lines.set(i, String.join(",", cells));
      }
    }
    assertTrue(!lines.equals(shelf()), "something was changed");
    return lines;
  }

  /** What the documented command runs, in this machine; the texts of all failures. */
  private List<String> run(List<String> table, String tries, PrintStream told) throws IOException {
    Path file = folder.resolve("planted.csv");
    Files.write(file, table);
    System.setProperty("materials", file.toString());
    System.setProperty("tries", tries);
    PrintStream out = System.out;
    System.setOut(told);
    try {
      SummaryGeneratingListener heard = new SummaryGeneratingListener();
      LauncherFactory.create()
          .execute(
              LauncherDiscoveryRequestBuilder.request()
                  .selectors(
                      selectClass(MyMaterialsTest.class), selectClass(MyMaterialsProperties.class))
                  .build(),
              heard);
      assertTrue(heard.getSummary().getTestsStartedCount() > 9, "the laws were run");
      return heard.getSummary().getFailures().stream()
          .map(f -> f.getTestIdentifier().getDisplayName() + ": " + f.getException())
          .toList();
    } finally {
      System.setOut(out);
      System.clearProperty("materials");
      System.clearProperty("tries");
    }
  }
}
