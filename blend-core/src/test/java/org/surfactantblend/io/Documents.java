package org.surfactantblend.io;

import java.util.List;
import org.surfactantblend.Blends;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Loaded;

/** Reads a document of any kind, for tests that hold for all of them. */
final class Documents {
  static final MaterialTable TABLE = Blends.starterTable();

  /** The kinds of document that ask nothing. */
  static final List<String> PLAIN =
      List.of("recipe", "certificate", "stock", "prices", "materials");

  private Documents() {}

  static Loaded<?> read(String kind, String json) {
    Input input = Input.text(kind + ".json", json);
    return switch (kind) {
      case "recipe" -> RecipeFile.read(input, TABLE);
      case "certificate" -> CertificateFile.read(input, TABLE);
      case "stock" -> StockFile.read(input, TABLE);
      case "prices" -> PriceFile.readJson(input, TABLE);
      case "materials" -> MaterialFile.materialsFromJson(input, TABLE);
      case "solve" -> SolveFile.read(input, TABLE);
      case "alternatives" -> AlternativesFile.QUESTION.read(input, TABLE);
      case "trade-off" -> TradeOffFile.QUESTION.read(input, TABLE);
      case "sensitivity" -> SensitivityFile.QUESTION.read(input, TABLE);
      case "starting-ph" -> StartingPhFile.read(input, TABLE);
      case "dose" -> DoseFile.read(input, TABLE);
      case "titration" -> TitrationFile.read(input, TABLE);
      case "swap" -> SwapFile.read(input, TABLE);
      case "conversion" -> ConversionFile.read(input, TABLE);
      case "batch-sheet" -> BatchSheetFile.read(input, TABLE);
      case "correction" -> CorrectionFile.read(input, TABLE);
      case "largest-batch" -> StockFile.QUESTION.read(input, TABLE);
      case "conformance" -> ConformanceFile.read(input, TABLE);
      default -> throw new IllegalArgumentException(kind);
    };
  }
}
