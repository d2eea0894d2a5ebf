package org.surfactantblend.acidity;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.surfactantblend.Blends;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;

/** Blends of the shipped table, and the published check tables, for these tests. */
final class TestTable {
  static final Path CHECKS = Path.of("..", "data", "checks");
  private static final MaterialTable TABLE = Blends.starterTable();

  private TestTable() {}

  static Material get(String id) {
    return TABLE.get(id);
  }

  /** A blend from pairs of id and percent as supplied, filled up with water. */
  static Blend blend(String name, Object... idAndPercent) {
    Blend.Builder b = Blend.named(name);
    for (int i = 0; i < idAndPercent.length; i += 2) {
      b.line(get((String) idAndPercent[i]), ((Number) idAndPercent[i + 1]).doubleValue());
    }
    return b.upToHundredWith(get("water"));
  }

  /** The rows of a CSV file by column name. */
  static List<Map<String, String>> rows(Path file) {
    try {
      List<List<String>> lines =
          Files.readAllLines(file, StandardCharsets.UTF_8).stream()
              .filter(l -> !l.isEmpty())
              .map(TestTable::cells)
              .toList();
      List<Map<String, String>> all = new ArrayList<>();
      for (List<String> cells : lines.subList(1, lines.size())) {
        Map<String, String> row = new LinkedHashMap<>();
        for (int i = 0; i < lines.get(0).size(); i++) {
          row.put(lines.get(0).get(i), i < cells.size() ? cells.get(i) : "");
        }
        all.add(row);
      }
      return all;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static List<String> cells(String line) {
    List<String> cells = new ArrayList<>();
    StringBuilder cell = new StringBuilder();
    boolean quoted = false;
    for (int i = 0; i < line.length(); i++) {
      char c = line.charAt(i);
      if (c == '"') {
        quoted = !quoted;
      } else if (c == ',' && !quoted) {
        cells.add(cell.toString());
        cell.setLength(0);
      } else {
        cell.append(c);
      }
    }
    cells.add(cell.toString());
    return cells;
  }
}
