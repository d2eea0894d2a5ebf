package org.surfactantblend.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.surfactantblend.Blends;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.acidity.Titration;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.problem.ProblemsException;
import org.surfactantblend.solve.BlendResult;
import org.surfactantblend.testing.Recheck;

/**
 * What holds for every reader and any bytes whatever: no exception but the documented ones, a
 * reason for every refusal, the same answer twice, and what was written reads back the same. Both
 * the fuzz targets ({@code src/fuzz}) and the run over the kept inputs ({@link CorpusTest}) end
 * here.
 *
 * <p>A new reader gets a constant here and a folder of inputs of the same name under {@code
 * src/fuzz/inputs}; {@link CorpusTest} fails until it has both.
 */
enum ReaderLaws {
  /** Materials in CSV. */
  materialsCsv("MaterialFile.materialsFromCsv", "MaterialFile.readCsv") {
    @Override
    void check(Input input) {
      Loaded<List<Material>> read =
          twice(input, i -> MaterialFile.materialsFromCsv(i, TABLE), List::isEmpty);
      refusedForAReason(input, i -> MaterialFile.readCsv(i, TABLE), t -> t == TABLE);
      materials(read.value());
      again(read.value());
    }
  },

  /** Materials in JSON. */
  materialsJson("MaterialFile.materialsFromJson", "MaterialFile.readJson") {
    @Override
    void check(Input input) {
      Loaded<List<Material>> read =
          twice(input, i -> MaterialFile.materialsFromJson(i, TABLE), List::isEmpty);
      refusedForAReason(input, i -> MaterialFile.readJson(i, TABLE), t -> t == TABLE);
      materials(read.value());
      again(read.value());
    }
  },

  /** Prices in CSV. */
  pricesCsv("PriceFile.readCsv") {
    @Override
    void check(Input input) {
      prices(twice(input, i -> PriceFile.readCsv(i, TABLE), ReaderLaws::noPrices).value());
    }
  },

  /** Prices in JSON. */
  pricesJson("PriceFile.readJson") {
    @Override
    void check(Input input) {
      prices(twice(input, i -> PriceFile.readJson(i, TABLE), ReaderLaws::noPrices).value());
    }
  },

  /** A brief in JSON, and the answer to it. */
  solveRequest("SolveFile.read") {
    @Override
    void check(Input input) {
      Loaded<Optional<SolveFile.Request>> read =
          twice(input, i -> SolveFile.read(i, TABLE), Optional::isEmpty);
      read.value().ifPresent(ReaderLaws::answered);
    }
  },

  /** A request of any kind, and the answer to it. */
  requests(
      "BatchSheetFile.read",
      "ConformanceFile.read",
      "ConversionFile.read",
      "CorrectionFile.read",
      "DoseFile.read",
      "StartingPhFile.read",
      "SwapFile.read",
      "TitrationFile.read") {
    @Override
    void check(Input input) {
      Requests.Answer answer = Requests.answer(input, TABLE);
      assertEquals(answer, Requests.answer(input, TABLE), "the same answer again");
      Schemas.assertValid(answer.json());
      TitrationFile.read(input, TABLE)
          .value()
          .ifPresent(
              t -> {
                String saved = TitrationFile.save(t, TABLE);
                Titration back =
                    TitrationFile.read(Input.text("again", saved), TABLE)
                        .orElseThrow()
                        .orElseThrow();
                assertEquals(t.next(), back.next(), saved);
              });
    }
  },

  /** A recipe with its lots. */
  recipe("RecipeFile.read") {
    @Override
    void check(Input input) {
      writtenAgain(
          input, i -> RecipeFile.read(i, TABLE), b -> RecipeFile.write(b.orElseThrow(), TABLE));
    }
  },

  /** The certificate of a lot. */
  certificate("CertificateFile.read") {
    @Override
    void check(Input input) {
      writtenAgain(
          input,
          i -> CertificateFile.read(i, TABLE),
          c ->
              CertificateFile.write(c.orElseThrow().grade(), c.orElseThrow().certificate(), TABLE));
    }
  },

  /** What is left of which lot. */
  stock("StockFile.read") {
    @Override
    void check(Input input) {
      writtenAgain(input, i -> StockFile.read(i, TABLE), s -> StockFile.write(s, TABLE));
    }
  };

  private static final MaterialTable TABLE = Blends.starterTable().priced(Blends.demoPrices());
  private static final Pattern CODE = Pattern.compile("[a-z0-9]+(-[a-z0-9]+)*");

  private final List<String> reads;

  ReaderLaws(String... reads) {
    this.reads = List.of(reads);
  }

  /** The readers that this covers. */
  List<String> reads() {
    return reads;
  }

  abstract void check(Input input);

  /** Checks every law for these bytes. */
  void check(byte[] bytes) {
    try {
      check(Input.stream("fuzz", new ByteArrayInputStream(bytes)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static <T> Loaded<T> twice(
      Input input, Function<Input, Loaded<T>> reader, Function<T, Boolean> nothing) {
    List<Problem> first = refusedForAReason(input, reader, nothing).problems();
    Loaded<T> second = reader.apply(input);
    assertEquals(first, second.problems(), "the same problems again");
    return second;
  }

  private static <T> Loaded<T> refusedForAReason(
      Input input, Function<Input, Loaded<T>> reader, Function<T, Boolean> nothing) {
    Loaded<T> loaded = reader.apply(input);
    if (nothing.apply(loaded.value())) {
      assertFalse(loaded.problems().isEmpty(), "nothing read and no reason given");
    }
    for (Problem problem : loaded.problems()) {
      assertTrue(CODE.matcher(problem.code()).matches(), problem.code());
      assertFalse(problem.found().isBlank(), problem::code);
      assertFalse(problem.allowed().isBlank(), problem::code);
      String line = problem.toString();
      assertTrue(
          line.codePoints()
              .allMatch(c -> c == '\n' || !Character.isISOControl(c) && c != 0x2028 && c != 0x2029),
          line);
      assertTrue(line.length() < 2000, line);
    }
    try {
      assertEquals(loaded.value(), loaded.orElseThrow());
    } catch (ProblemsException e) {
      assertTrue(loaded.hasErrors());
      assertEquals(loaded.problems(), e.problems());
    }
    return loaded;
  }

  /** What was read can be used: a tenth of each material in water has a pH. */
  private static void materials(List<Material> materials) {
    for (Material m : materials.subList(0, Math.min(8, materials.size()))) {
      if (TABLE.find("water").isPresent() && !m.id().equals("water")) {
        Blend blend = Blend.named("probe").line(m, 10).upToHundredWith(TABLE.get("water"));
        StartingPh ph = StartingPh.of(blend);
        assertTrue(Double.isFinite(ph.typical()), m::id);
        assertFalse(ph.summary().isBlank(), m::id);
      }
    }
  }

  private static void again(List<Material> materials) {
    String json = MaterialFile.writeJson(materials, TABLE);
    same(materials, MaterialFile.materialsFromJson(Input.text("again", json), TABLE), json);
    String csv;
    try {
      csv = MaterialFile.writeCsv(materials, TABLE);
    } catch (IllegalArgumentException e) {
      // Documented: such a name fits into JSON only.
      assertTrue(String.valueOf(e.getMessage()).contains("in one cell of a table"), e::toString);
      return;
    }
    same(materials, MaterialFile.materialsFromCsv(Input.text("again", csv), TABLE), csv);
  }

  private static void same(List<Material> expected, Loaded<List<Material>> read, String text) {
    if (expected.isEmpty()) {
      assertTrue(read.value().isEmpty());
      return;
    }
    assertFalse(read.hasErrors(), () -> read.problems() + "\n" + text);
    assertEquals(expected.size(), read.value().size(), text);
    for (int i = 0; i < expected.size(); i++) {
      SameMaterial.assertSameMaterial(expected.get(i), read.value().get(i));
    }
  }

  /** What could be read is written as a valid document that reads and writes the same again. */
  private static <T> void writtenAgain(
      Input input, Function<Input, Loaded<T>> reader, Function<T, String> writer) {
    Loaded<T> read = refusedForAReason(input, reader, value -> false);
    assertEquals(read.problems(), reader.apply(input).problems(), "the same problems again");
    if (read.hasErrors()) {
      return;
    }
    String json = writer.apply(read.value());
    Schemas.assertValid(json);
    Loaded<T> back = reader.apply(Input.text("again", json));
    assertFalse(back.hasErrors(), () -> back.problems() + "\n" + json);
    assertEquals(json, writer.apply(back.value()));
  }

  private static boolean noPrices(PriceList prices) {
    return prices.materialIds().isEmpty();
  }

  private static void prices(PriceList prices) {
    samePrices(prices, PriceFile.writeCsv(prices), i -> PriceFile.readCsv(i, TABLE));
    samePrices(prices, PriceFile.writeJson(prices), i -> PriceFile.readJson(i, TABLE));
  }

  private static void samePrices(
      PriceList expected, String text, Function<Input, Loaded<PriceList>> reader) {
    Loaded<PriceList> read = reader.apply(Input.text("again", text));
    assertFalse(read.hasErrors(), () -> read.problems() + "\n" + text);
    assertEquals(figures(expected), figures(read.value()), text);
    if (!noPrices(expected)) {
      assertEquals(expected.currency(), read.value().currency(), text);
    }
  }

  private static Map<String, Double> figures(PriceList prices) {
    Map<String, Double> all = new TreeMap<>();
    prices.materialIds().forEach(id -> all.put(id, prices.pricePerKg(id).orElseThrow()));
    return all;
  }

  private static void answered(SolveFile.Request request) {
    BlendResult result;
    try {
      result = Blends.solve(request.brief(), request.table());
    } catch (ProblemsException e) {
      assertFalse(e.problems().isEmpty());
      return;
    }
    Recheck.result(result, request.table().prices());
    assertFalse(result.summary().isBlank());
    Schemas.assertValid(SolveFile.write(result, request.table()));
  }
}
