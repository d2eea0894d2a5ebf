package org.surfactantblend.aqueous;

import com.fasterxml.jackson.databind.MappingIterator;
import com.fasterxml.jackson.dataformat.csv.CsvMapper;
import com.fasterxml.jackson.dataformat.csv.CsvSchema;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The check tables of the repository and the shipped acids, for tests. */
final class CheckTables {
  private static final Path DATA = Path.of("..", "data");

  /** CaOH+ (NIST SRD 46): without it lime water comes out 0.06 too high. */
  static final AcidBase CALCIUM = AcidBase.hydroxidePair("calcium ion", 2, 1.30, 8.3);

  private CheckTables() {}

  static List<Map<String, String>> rows(String file) {
    Path path = DATA.resolve(file);
    CsvSchema schema = CsvSchema.emptySchema().withHeader();
    try (var reader = Files.newBufferedReader(path, StandardCharsets.UTF_8);
        MappingIterator<Map<String, String>> rows =
            new CsvMapper().readerForMapOf(String.class).with(schema).readValues(reader)) {
      return rows.readAll();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static Map<String, AcidBase> acids() {
    Map<String, List<AcidBase.Step>> steps = new LinkedHashMap<>();
    Map<String, Integer> charges = new LinkedHashMap<>();
    for (String file : List.of("acids.csv", "checks/buffer-acids.csv")) {
      for (Map<String, String> row : rows(file)) {
        String key = text(row, "key");
        charges.putIfAbsent(key, (int) number(row, "charge_of_acid_form"));
        steps
            .computeIfAbsent(key, k -> new ArrayList<>())
            .add(
                new AcidBase.Step(
                    number(row, "pka_25c"),
                    numberOrZero(row, "enthalpy_kj_per_mol"),
                    numberOrZero(row, "heat_capacity_j_per_k_per_mol")));
      }
    }
    Map<String, AcidBase> acids = new LinkedHashMap<>();
    steps.forEach((key, s) -> acids.put(key, AcidBase.of(key, charge(charges, key), s)));
    return acids;
  }

  private static int charge(Map<String, Integer> charges, String key) {
    return charges.getOrDefault(key, 0);
  }

  /** A composition such as {@code citric:0.05;Na+:0.1;Ca+2:0.01}. */
  static Solution solution(String composition, Map<String, AcidBase> acids) {
    Solution solution = Solution.water();
    for (String part : composition.split(";", -1)) {
      int colon = part.lastIndexOf(':');
      String key = part.substring(0, colon);
      double molality = Double.parseDouble(part.substring(colon + 1));
      AcidBase acid = key.equals("Ca+2") ? CALCIUM : acids.get(key);
      if (acid != null) {
        solution = solution.weak(acid, molality);
      } else {
        int charge =
            switch (key) {
              case "Na+", "K+" -> 1;
              case "Cl-" -> -1;
              default -> throw new IllegalArgumentException("no such ion: " + key);
            };
        solution = solution.strongIon(key, charge, molality);
      }
    }
    return solution;
  }

  static String text(Map<String, String> row, String column) {
    String value = row.get(column);
    if (value == null) {
      throw new IllegalArgumentException("no column " + column);
    }
    return value;
  }

  static double number(Map<String, String> row, String column) {
    return Double.parseDouble(text(row, column));
  }

  private static double numberOrZero(Map<String, String> row, String column) {
    String value = text(row, column);
    return value.isEmpty() ? 0 : Double.parseDouble(value);
  }
}
