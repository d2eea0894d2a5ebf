package org.surfactantblend.benchmarks;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.surfactantblend.Blends;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.io.Input;
import org.surfactantblend.io.MaterialFile;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.solve.BlendResult;

/**
 * What a fresh JVM needs: {@code .ci/footprint} times {@code first} from start to end and searches
 * the least heap in which {@code thousand} runs.
 */
public final class Footprint {
  private static final int MATERIALS = 1000;

  private Footprint() {}

  /**
   * Runs one of three tasks.
   *
   * @param arguments {@code first}: the first solve over the shipped table; {@code write FILE}:
   *     writes 1,000 materials; {@code thousand FILE}: reads them and solves a brief that may
   *     choose from all their surfactants
   * @throws IOException if the file cannot be written or read
   */
  public static void main(String[] arguments) throws IOException {
    switch (arguments[0]) {
      case "first" -> print(solve(Blends.starterTable(), 0));
      case "write" -> write(Path.of(arguments[1]));
      default -> {
        MaterialTable table =
            MaterialFile.readCsv(Input.file(Path.of(arguments[1])), Blends.starterTable())
                .orElseThrow();
        if (table.materials().size() < MATERIALS) {
          throw new IllegalStateException("only " + table.materials().size() + " materials");
        }
        print(solve(table, 5));
      }
    }
  }

  private static void print(BlendResult result) {
    System.out.println(result.orElseThrow());
  }

  private static BlendResult solve(MaterialTable table, int most) {
    Brief.Builder brief =
        Brief.named("Footprint")
            .totalActive(9, 0.2)
            .share(ChargeClass.AMPHOTERIC, 40, 60)
            .startingPh(6, 7.5);
    if (most > 0) {
      brief.atMostSurfactants(most);
    } else {
      brief.choosingFrom(
          "cocamidopropyl-betaine-30", "decyl-glucoside-52", "sodium-cocoyl-glutamate-27");
    }
    return Blends.solve(brief.build(), table);
  }

  /** The shipped rows over and over, each copy under its own id. */
  private static void write(Path file) throws IOException {
    MaterialTable table = Blends.starterTable();
    List<String> shipped = MaterialFile.writeCsv(table.materials(), table).lines().toList();
    List<String> lines = new ArrayList<>(shipped.subList(0, 1));
    for (int copy = 1; lines.size() <= MATERIALS; copy++) {
      for (String row : shipped.subList(1, shipped.size())) {
        lines.add(row.replaceFirst("^([a-z0-9-]+),", "$1-copy-" + copy + ","));
      }
    }
    Files.writeString(file, String.join("\n", lines) + "\n", StandardCharsets.UTF_8);
  }
}
