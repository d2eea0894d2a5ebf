package org.surfactantblend.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SpecVersion;
import com.networknt.schema.ValidationMessage;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Problem;

/** The JSON Schemas and the readers and writers say the same, by an independent validator. */
class JsonSchemaTest {
  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  /** What is wrong with the shape of a document, whatever its figures mean. */
  private static final Set<String> OF_SHAPE =
      Set.of(
          ProblemCodes.JSON_TYPE,
          ProblemCodes.NUMBER_FORMAT,
          ProblemCodes.DECIMAL_COMMA,
          ProblemCodes.PERCENT_SIGN,
          ProblemCodes.YES_NO,
          ProblemCodes.UNKNOWN_FIELD);

  static List<String> examples() {
    return Schemas.examples();
  }

  @Test
  void everyKindHasItsExampleAndItsSchemas() {
    Set<String> kinds = new TreeSet<>(Requests.kinds());
    kinds.addAll(Documents.PLAIN);
    assertEquals(kinds, new TreeSet<>(examples()));
    Set<String> wanted = new TreeSet<>(List.of("shared", "problems"));
    wanted.addAll(Documents.PLAIN);
    for (String kind : Requests.kinds()) {
      wanted.add(kind + ".request");
      wanted.add(kind + ".answer");
    }
    try (Stream<Path> files = Files.list(Schemas.SCHEMAS)) {
      Set<String> there = new TreeSet<>();
      files.forEach(f -> there.add(String.valueOf(f.getFileName()).replace(".json", "")));
      assertEquals(wanted, there);
    } catch (IOException e) {
      fail(e);
    }
  }

  @Test
  void theSchemasAreSchemas() throws IOException {
    JsonSchema meta =
        JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
            .getSchema(SchemaLocation.of("https://json-schema.org/draft/2020-12/schema"));
    try (Stream<Path> files = Files.list(Schemas.SCHEMAS)) {
      for (Path file : files.sorted().toList()) {
        JsonNode schema = Schemas.MAPPER.readTree(Files.readString(file));
        assertEquals(Set.of(), meta.validate(schema), file::toString);
        assertEquals(
            "https://json-schema.org/draft/2020-12/schema", schema.path("$schema").asText());
      }
    }
  }

  @ParameterizedTest
  @MethodSource("examples")
  void examplesAreValidAndReadWithoutAnyProblem(String name) {
    String json = Schemas.example(name);
    assertEquals(name, Schemas.tree(json).path("kind").asText());
    Schemas.assertValid(json);
    assertEquals(List.of(), Documents.read(name, json).problems());
  }

  @ParameterizedTest
  @MethodSource("examples")
  void answersAreValid(String name) {
    if (Documents.PLAIN.contains(name)) {
      Requests.Answer refused =
          Requests.answer(Input.text(name, Schemas.example(name)), Documents.TABLE);
      assertEquals(Requests.Outcome.NOT_USABLE, refused.outcome());
      Schemas.assertValid(refused.json());
      return;
    }
    Requests.Answer answer =
        Requests.answer(Input.text(name, Schemas.example(name)), Documents.TABLE);
    assertEquals(name + "-answer", Schemas.tree(answer.json()).path("kind").asText());
    Schemas.assertValid(answer.json());
  }

  @ParameterizedTest
  @MethodSource("examples")
  void plantedFaultsAreSeenByBoth(String name) {
    List<JsonNode> damaged = new ArrayList<>();
    damage(Schemas.tree(Schemas.example(name)), damaged);
    int refused = 0;
    for (JsonNode document : damaged) {
      String json = document.toString();
      Set<ValidationMessage> faults = Schemas.faults(name + suffix(name), document);
      Loaded<?> loaded = Documents.read(name, json);
      if (!faults.isEmpty()) {
        refused++;
        boolean onlyUnknown =
            faults.stream()
                .allMatch(
                    f ->
                        List.of("additionalProperties", "unevaluatedProperties")
                            .contains(f.getType()));
        assertTrue(
            loaded.hasErrors() || (onlyUnknown && !loaded.problems().isEmpty()),
            () -> "the schema refuses, the reader does not: " + faults + "\n" + json);
      } else {
        assertEquals(
            List.of(),
            loaded.problems().stream().filter(JsonSchemaTest::isOfShape).toList(),
            () -> "the reader refuses, the schema does not: " + json);
      }
    }
    assertTrue(refused > damaged.size() / 2, name + ": " + refused + " of " + damaged.size());
  }

  private static boolean isOfShape(Problem p) {
    // Which figures a material needs depends on what it is.
    boolean depends = p.place().field().matches(".*(materials|groups).*");
    return OF_SHAPE.contains(p.code()) || (p.code().equals("missing-value") && !depends);
  }

  private static String suffix(String name) {
    return Documents.PLAIN.contains(name) ? "" : ".request";
  }

  /** Every document that differs from a good one in one place. */
  private static void damage(JsonNode good, List<JsonNode> into) {
    damage(good, changed -> into.add(changed));
  }

  private static void damage(JsonNode node, Consumer<JsonNode> use) {
    List<JsonNode> values =
        new ArrayList<>(
            List.of(
                NODES.nullNode(),
                NODES.booleanNode(true),
                NODES.numberNode(-1),
                NODES.numberNode(new BigDecimal("1e300")),
                NODES.textNode(""),
                NODES.textNode("7"),
                NODES.textNode("NaN"),
                NODES.arrayNode(),
                NODES.arrayNode().add(1),
                NODES.objectNode(),
                NODES.objectNode().put("x", 1)));
    values.forEach(use);
    if (node.isObject()) {
      for (String field : fields(node)) {
        ObjectNode without = node.deepCopy();
        without.remove(field);
        use.accept(without);
        damage(
            node.get(field),
            changed -> use.accept(((ObjectNode) node.deepCopy()).set(field, changed)));
      }
      use.accept(((ObjectNode) node.deepCopy()).put("somethingElse", 1));
    } else if (node.isArray()) {
      for (int i = 0; i < node.size(); i++) {
        int at = i;
        ArrayNode without = node.deepCopy();
        without.remove(at);
        use.accept(without);
        damage(
            node.get(i),
            changed -> {
              ArrayNode with = node.deepCopy();
              with.set(at, changed);
              use.accept(with);
            });
      }
    }
  }

  private static List<String> fields(JsonNode node) {
    List<String> names = new ArrayList<>();
    node.fieldNames().forEachRemaining(names::add);
    return names;
  }

  @Test
  void anUnknownFieldIsNamedWithItsPathAndWhatItMayMean() {
    String json =
        Schemas.example("swap")
            .replace("\"correctedWith\"", "\"corectedWith\"")
            .replace("\"saltPercent\"", "\"saltPrecent\"");
    List<Problem> problems = Documents.read("swap", json).problems();
    assertEquals(
        List.of(
            "$.certificates[0].saltPrecent Maybe saltPercent",
            "$.corectedWith Maybe correctedWith"),
        problems.stream().map(p -> p.place().field() + " Maybe " + p.advice()).toList());
    assertTrue(problems.stream().noneMatch(Problem::isError));
    Requests.Answer answer = Requests.answer(Input.text("swap", json), Documents.TABLE);
    Schemas.assertValid(answer.json());
    assertEquals(2, Schemas.tree(answer.json()).path("problems").size());
  }
}
