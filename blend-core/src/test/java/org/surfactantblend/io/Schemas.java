package org.surfactantblend.io;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SpecVersion;
import com.networknt.schema.ValidationMessage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;

/** The JSON Schemas and examples of {@code data}, judged by an independent validator. */
final class Schemas {
  static final Path SCHEMAS = Path.of("..", "data", "schemas");
  static final Path EXAMPLES = Path.of("..", "data", "examples");

  static final ObjectMapper MAPPER =
      JsonMapper.builder().enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS).build();

  private static final JsonSchemaFactory FACTORY =
      JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012);
  private static final Map<String, JsonSchema> KNOWN = new ConcurrentHashMap<>();

  private Schemas() {}

  static JsonSchema schema(String name) {
    return KNOWN.computeIfAbsent(
        name,
        n -> FACTORY.getSchema(SchemaLocation.of(SCHEMAS.resolve(n + ".json").toUri().toString())));
  }

  static JsonNode tree(String json) {
    try {
      return MAPPER.readTree(json);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static Set<ValidationMessage> faults(String schema, JsonNode document) {
    return schema(schema).validate(document);
  }

  /** The schema of a document by its kind. */
  static String of(JsonNode document) {
    String kind = document.path("kind").asText();
    if (kind.endsWith("-answer")) {
      return kind.substring(0, kind.length() - "-answer".length()) + ".answer";
    }
    return Requests.kinds().contains(kind) ? kind + ".request" : kind;
  }

  static void assertValid(String json) {
    JsonNode document = tree(json);
    assertEquals(Set.of(), faults(of(document), document), json);
  }

  /** Every example, by the name of its file. */
  static List<String> examples() {
    try (Stream<Path> files = Files.list(EXAMPLES)) {
      List<String> names = new ArrayList<>();
      files
          .map(p -> String.valueOf(p.getFileName()))
          .filter(n -> n.endsWith(".json"))
          .map(n -> n.substring(0, n.length() - ".json".length()))
          .sorted()
          .forEach(names::add);
      return names;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static String example(String name) {
    try {
      return Files.readString(EXAMPLES.resolve(name + ".json"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
