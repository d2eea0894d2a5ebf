package org.surfactantblend.examples.mymaterials;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.surfactantblend.Blends;
import org.surfactantblend.conformance.KnownDeviation;
import org.surfactantblend.io.Input;
import org.surfactantblend.io.MaterialFile;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Problem;

/**
 * The CSV that was named with {@code -Dmaterials=}, or the shelf of an invented shop.
 *
 * @param rows the materials of the file that could be read
 * @param table those rows alone, with the families and acids of the shipped table, its water, and
 *     the file's prices
 * @param problems what was wrong with the text
 */
record MyMaterials(List<Material> rows, MaterialTable table, List<Problem> problems) {
  static MyMaterials read() {
    Input input = input();
    MaterialTable shipped = Blends.starterTable();
    var rows = MaterialFile.materialsFromCsv(input, shipped);
    List<Material> withWater = new ArrayList<>(rows.value());
    withWater.removeIf(m -> m.id().equals("water"));
    withWater.add(shipped.get("water"));
    return new MyMaterials(
        rows.value(),
        MaterialTable.of(shipped.acids(), shipped.families().values(), withWater)
            .priced(MaterialFile.readCsv(input, shipped).value().prices()),
        rows.problems());
  }

  List<Material> surfactants() {
    return rows.stream().filter(Material::isSurfactant).toList();
  }

  Material water() {
    return table.get("water");
  }

  private static Input input() {
    String named = System.getProperty("materials", "");
    try {
      if (!named.isBlank()) {
        return Input.file(path(named));
      }
      try (InputStream shelf = MyMaterials.class.getResourceAsStream("/my-shelf.csv")) {
        return Input.stream("my-shelf.csv", Objects.requireNonNull(shelf));
      }
    } catch (IOException e) {
      throw new UncheckedIOException("the table of materials cannot be read: " + e, e);
    }
  }

  /** A path as it was typed: from where Maven was started. */
  private static Path path(String typed) {
    return Path.of(System.getProperty("started.in", "")).resolve(typed);
  }

  /**
   * Findings that the shop looked at and accepts: the file named with {@code -Ddeviations=}, a line
   * each: id of the material; code of the finding; reason.
   */
  static List<KnownDeviation> deviations() {
    String named = System.getProperty("deviations", "");
    if (named.isBlank()) {
      return List.of();
    }
    try {
      return Files.readAllLines(path(named)).stream()
          .filter(line -> !line.isBlank())
          .map(line -> line.split(";", 3))
          .map(
              part -> {
                if (part.length < 3) {
                  throw new IllegalArgumentException(
                      "deviation was '" + part[0] + "', allowed is: id; code; reason");
                }
                return new KnownDeviation(part[0], part[1], part[2]);
              })
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException("the deviations cannot be read: " + e, e);
    }
  }
}
