package org.surfactantblend.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.surfactantblend.Blends;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.problem.Severity;
import org.surfactantblend.quantity.Range;

class MaterialJsonTest {
  private static final String GOOD =
      """
      {"id": "b", "inciName": "Cocamidopropyl Betaine", "family": "amidopropyl betaine",
       "activePercent": {"low": 29, "typical": 30, "high": 31}, "saltPercent": 5,
       "ph": {"low": 4.5, "high": 6, "dilutionPercent": 10},
       "constituents": [{"inciName": "Glycerin", "percent": {"low": 2, "high": 3}, "source": "COM"}],
       "groups": [{"name": "soap", "charge": 0, "pKa": [6.9],
                   "pKaRange": {"low": 6.3, "typical": 6.9, "high": 7.5}, "amount": 0.04,
                   "amountBasis": "mol_per_kg_as_supplied", "apparent": true, "source": "EST"}],
       "sources": {"active": "COM"}, "caveats": ["smells of amine"], "pricePerKg": 2.5}
      """;

  private final MaterialTable base = Blends.starterTable();

  private Loaded<List<Material>> read(String text) {
    return MaterialFile.materialsFromJson(Input.text("mine.json", text), base);
  }

  private static Problem only(Loaded<?> loaded) {
    assertEquals(1, loaded.problems().size(), () -> loaded.problems().toString());
    return loaded.problems().get(0);
  }

  private static void assertProblem(
      Loaded<?> loaded, String code, Severity severity, String path, String found) {
    Problem p = only(loaded);
    assertEquals(code, p.code());
    assertEquals(severity, p.severity());
    assertEquals(path, p.place().field());
    assertEquals(0, p.place().row());
    assertEquals(found, p.found());
  }

  @Test
  void aListOrAnObjectWithMaterials() {
    for (String text : List.of("[" + GOOD + "]", "{\"materials\": [" + GOOD + "]}")) {
      Material m = read(text).orElseThrow().get(0);
      assertEquals(Range.of(29, 30, 31), m.activePercent());
      assertEquals(Range.exactly(5), m.saltPercent());
      assertEquals(Range.of(2, 2.5, 3), m.percentOf("Glycerin"));
      assertEquals(Range.of(6.3, 6.9, 7.5), m.ownGroups().get(0).pKa());
      assertEquals("COM", m.sources().get("constituent Glycerin"));
      assertEquals("EST", m.sources().get("group soap"));
      assertEquals(List.of("smells of amine"), m.ownCaveats());
      assertEquals(List.of(), read(text).problems());
    }
    MaterialTable table =
        MaterialFile.readJson(Input.text("mine.json", "[" + GOOD + "]"), base).orElseThrow();
    assertEquals(2.5, table.prices().pricePerKg("b").orElseThrow());
  }

  @Test
  void aFaultInsideIsPlacedByItsPath() {
    assertProblem(
        read("[" + GOOD.replace("\"typical\": 30,", "\"typical\": \"30,5\",") + "]"),
        "decimal-comma",
        Severity.ERROR,
        "$[0].activePercent.typical",
        "'30,5'");
    assertProblem(
        read("{\"materials\": [" + GOOD.replace("\"low\": 2,", "\"low\": \"2 %\",") + "]}"),
        "percent-sign",
        Severity.ERROR,
        "$.materials[0].constituents[0].percent.low",
        "'2 %'");
    assertProblem(
        read("[" + GOOD.replace("\"saltPercent\": 5", "\"saltPercent\": 1e400") + "]"),
        "number-range",
        Severity.ERROR,
        "$[0].saltPercent",
        "'1E+400'");
    assertProblem(
        read("[" + GOOD.replace("\"amount\": 0.04", "\"amount\": -1") + "]"),
        "number-range",
        Severity.ERROR,
        "$[0].groups[0].amount",
        "'-1'");
  }

  @Test
  void theOtherMaterialsStayUsable() {
    Loaded<List<Material>> loaded =
        read(
            "["
                + GOOD
                + ", 7, "
                + GOOD.replace("\"b\"", "\"c\"").replace("30", "\"x\"")
                + ", "
                + GOOD.replace("\"b\"", "\"d\"")
                + "]");
    assertEquals(List.of("b", "d"), loaded.value().stream().map(Material::id).toList());
    assertEquals(
        List.of("json-type $[1]", "number-format $[2].activePercent.typical"),
        loaded.problems().stream().map(p -> p.code() + " " + p.place().field()).toList());
  }

  @Test
  void unknownFieldsAreNamedAtEveryLevel() {
    Loaded<List<Material>> loaded =
        read(
            "{\"versoin\": 1, \"materials\": ["
                + GOOD.replace("\"family\"", "\"famly\"").replace("\"high\": 6", "\"hihg\": 6")
                + "]}");
    List<Problem> unknown =
        loaded.problems().stream().filter(p -> p.code().equals("unknown-field")).toList();
    assertEquals(
        List.of("'versoin'", "'famly'", "'hihg'"), unknown.stream().map(Problem::found).toList());
    assertEquals(
        List.of("version", "family", "high"), unknown.stream().map(Problem::advice).toList());
    assertEquals("$.materials[0].ph.hihg", unknown.get(2).place().field());
  }

  @Test
  void valuesOfTheWrongKind() {
    for (var change :
        List.of(
            List.of("\"id\": \"b\"", "\"id\": [1]", "$[0].id", "a list"),
            List.of("\"saltPercent\": 5", "\"saltPercent\": [5]", "$[0].saltPercent", "a list"),
            List.of("\"pKa\": [6.9]", "\"pKa\": 6.9", "$[0].groups[0].pKa", "'6.9'"),
            List.of("{\"active\": \"COM\"}", "{\"active\": 5}", "$[0].sources", "'5'"),
            List.of("{\"active\": \"COM\"}", "[5]", "$[0].sources", "a list"),
            List.of("[\"smells of amine\"]", "[5]", "$[0].caveats", "'5'"),
            List.of("[\"smells of amine\"]", "\"x\"", "$[0].caveats", "'x'"))) {
      Loaded<List<Material>> loaded = read("[" + GOOD.replace(change.get(0), change.get(1)) + "]");
      Problem p = loaded.problems().get(0);
      assertEquals("json-type", p.code(), () -> loaded.problems().toString());
      assertEquals(change.get(3), p.found());
      assertTrue(loaded.value().isEmpty());
    }
    assertProblem(read("{\"materials\": 5}"), "json-type", Severity.ERROR, "$.materials", "'5'");
    assertProblem(read("5"), "json-type", Severity.ERROR, "$", "'5'");
  }

  @Test
  void whatIsNoJson() {
    for (String text :
        List.of("{", "[}", "[1,]", "nope", "[1] [2]", "[NaN]", "[0x1]", "{'id': 1}", "\0")) {
      Problem p = only(read(text));
      assertEquals("json-syntax", p.code(), text);
      assertTrue(p.found().contains("line 1"), p::found);
    }
    assertEquals("json-syntax", only(read("[{\"id\": 1, \"id\": 2}]")).code());
  }

  @Test
  void beyondTheLimits() {
    assertEquals("json-limit", only(read("[".repeat(100_000))).code());
    assertEquals("json-limit", only(read("[\"" + "x".repeat(10 << 20) + "\"]")).code());
    assertEquals("json-limit", only(read("[" + "9".repeat(5000) + "]")).code());
    assertEquals("json-limit", only(read("{\"" + "x".repeat(500) + "\": 1}")).code());
    assertEquals("json-limit", only(read("[" + "1,".repeat(3_000_000) + "1]")).code());
  }

  @Test
  void emptyText() {
    assertEquals("empty-input", only(read(" \n")).code());
    assertEquals("no-rows", only(read("[]")).code());
    assertEquals("no-rows", only(read("{\"materials\": []}")).code());
    assertEquals("missing-value", only(read("{}")).code());
  }

  @Test
  void aTypeNamedInTheTextIsOnlyAnUnknownField() {
    Loaded<List<Material>> loaded =
        read("[" + GOOD.replace("{\"id\"", "{\"@class\": \"java.lang.Runtime\", \"id\"") + "]");
    assertEquals("unknown-field", only(loaded).code());
    assertEquals(1, loaded.value().size());
  }

  @Test
  void loneSurrogatesAndNulAreRefused() {
    for (String bad : List.of("\\ud800", "\\u0000")) {
      Loaded<List<Material>> loaded =
          read("[" + GOOD.replace("\"Glycerin\"", "\"Gly" + bad + "cerin\"") + "]");
      assertEquals("control-character", loaded.problems().get(0).code());
      assertEquals("$[0].constituents[0].inciName", loaded.problems().get(0).place().field());
      assertTrue(loaded.value().isEmpty());
    }
  }
}
