package org.surfactantblend.io;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.exc.StreamConstraintsException;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.quantity.Range;

/**
 * Takes JSON text apart into rows of named cells, so that the same code judges tables and JSON. No
 * type is ever chosen by the text.
 */
final class JsonDocument {
  private static final JsonMapper MAPPER =
      JsonMapper.builder(
              JsonFactory.builder()
                  .streamReadConstraints(
                      StreamReadConstraints.builder()
                          .maxNestingDepth(20)
                          .maxStringLength(Input.MOST_CHARACTERS_IN_A_CELL)
                          .maxNameLength(200)
                          .maxNumberLength(100)
                          .maxTokenCount(2_000_000)
                          .build())
                  .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                  .build())
          .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
          .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
          .build();

  private JsonDocument() {}

  /** The whole text as a tree, or null with a problem. */
  static @Nullable JsonNode parse(Input input, ProblemLog log) {
    Problem unread = input.problem();
    if (unread != null) {
      log.add(unread);
      return null;
    }
    Place whole = Place.in(input.name(), "$");
    if (input.text().isBlank()) {
      log.add(Problem.error(ProblemCodes.EMPTY_INPUT, whole, "no text", "a JSON value", ""));
      return null;
    }
    try {
      return MAPPER.readTree(input.text());
    } catch (StreamConstraintsException e) {
      log.add(
          Problem.error(
              ProblemCodes.JSON_LIMIT,
              whole,
              where(e),
              "at most 20 levels, texts of "
                  + Input.MOST_CHARACTERS_IN_A_CELL
                  + " characters, names of 200, numbers of 100 and 2000000 parts in all",
              "split the document"));
    } catch (JsonProcessingException e) {
      log.add(Problem.error(ProblemCodes.JSON_SYNTAX, whole, where(e), "one JSON value", ""));
    } catch (NumberFormatException e) {
      log.add(
          Problem.error(
              ProblemCodes.NUMBER_RANGE,
              whole,
              "a number with an exponent beyond all use",
              "numbers that a calculation can hold",
              ""));
    }
    return null;
  }

  private static String where(JsonProcessingException e) {
    String place =
        e.getLocation() == null
            ? ""
            : " at line "
                + e.getLocation().getLineNr()
                + ", column "
                + e.getLocation().getColumnNr();
    String said = e.getOriginalMessage();
    return Row.quoted(said == null ? "no JSON" : said) + place;
  }

  /** The text of a tree, two spaces for each level, line feeds. */
  static String write(JsonNode node) {
    DefaultIndenter lines = new DefaultIndenter("  ", "\n");
    DefaultPrettyPrinter printer = new DefaultPrettyPrinter();
    printer.indentObjectsWith(lines);
    printer.indentArraysWith(lines);
    try {
      return MAPPER.writer(printer).writeValueAsString(node) + "\n";
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a tree could not be written", e);
    }
  }

  static ObjectNode object() {
    return MAPPER.createObjectNode();
  }

  static BigDecimal number(double value) {
    return new BigDecimal(PartText.number(value));
  }

  static ObjectNode range(Range range) {
    return object()
        .put("low", number(range.low()))
        .put("typical", number(range.typical()))
        .put("high", number(range.high()));
  }

  /**
   * The fields that an object may have.
   *
   * @param columns the column of each scalar field, by its path inside the object; a path may also
   *     stand for an object with longer paths, which allows a plain number in place of a range
   * @param lists paths whose value is a list of numbers
   * @param nested names of fields that the caller reads itself
   */
  record Fields(Map<String, String> columns, Set<String> lists, Set<String> nested) {}

  /** The row of an object; problems with its shape are reported. */
  static Row row(String source, String path, JsonNode node, Fields fields, ProblemLog log) {
    Map<String, String> cells = new HashMap<>();
    Map<String, String> paths = new HashMap<>();
    fields.columns().forEach((field, column) -> paths.putIfAbsent(column, path + "." + field));
    Row row = new Row(cells, column -> Place.in(source, paths.getOrDefault(column, path)), log);
    take(row, cells, paths, path, "", node, fields);
    return row;
  }

  private static void take(
      Row row,
      Map<String, String> cells,
      Map<String, String> paths,
      String path,
      String prefix,
      JsonNode node,
      Fields fields) {
    for (Map.Entry<String, JsonNode> entry : node.properties()) {
      if (row.log().isFull()) {
        return;
      }
      String field = prefix + entry.getKey();
      String here = path + "." + entry.getKey();
      JsonNode value = entry.getValue();
      String column = fields.columns().get(field);
      boolean deeper = fields.columns().keySet().stream().anyMatch(k -> k.startsWith(field + "."));
      if (value.isNull() || fields.nested().contains(field)) {
        continue;
      }
      if (column == null && !deeper) {
        unknown(row, paths, here, prefix, entry.getKey(), fields);
      } else if (deeper && value.isObject()) {
        take(row, cells, paths, here, field + ".", value, fields);
      } else if (column != null && fields.lists().contains(field) && value.isArray()) {
        List<String> items = new ArrayList<>();
        value.forEach(item -> items.add(item.isValueNode() ? item.asText() : "list"));
        paths.put(column, here);
        cells.put(column, String.join(" ", items));
      } else if (column != null && value.isValueNode() && !fields.lists().contains(field)) {
        paths.put(column, here);
        row.checkCharacters(column, value.asText());
        cells.put(column, value.asText());
      } else {
        String probe = column == null ? field : column;
        paths.put(probe, here);
        row.error(
            ProblemCodes.JSON_TYPE,
            probe,
            kind(value),
            fields.lists().contains(field)
                ? "a list of numbers"
                : deeper ? "an object, or a number where there is no range" : "a text or a number",
            "");
      }
    }
  }

  private static void unknown(
      Row row, Map<String, String> paths, String here, String prefix, String name, Fields fields) {
    Set<String> known = new TreeSet<>();
    for (String field : fields.columns().keySet()) {
      if (field.startsWith(prefix)) {
        String rest = field.substring(prefix.length());
        known.add(rest.contains(".") ? rest.substring(0, rest.indexOf('.')) : rest);
      }
    }
    if (prefix.isEmpty()) {
      known.addAll(fields.nested());
    }
    paths.put(" " + name, here.substring(0, here.length() - name.length()) + Row.shown(name));
    row.warning(
        ProblemCodes.UNKNOWN_COLUMN,
        " " + name,
        Row.quoted(name),
        "one of " + String.join(", ", known) + "; this one is not read",
        Nearest.to(name, known));
  }

  static String kind(JsonNode value) {
    return value.isObject()
        ? "an object"
        : value.isArray() ? "a list" : value.isNull() ? "null" : Row.quoted(value.asText());
  }

  /** The objects of a list; everything else in it is reported. */
  static List<Row> rows(String source, String path, JsonNode list, Fields fields, ProblemLog log) {
    List<Row> rows = new ArrayList<>();
    for (int i = 0; i < list.size(); i++) {
      String here = path + "[" + i + "]";
      if (!list.get(i).isObject()) {
        log.add(
            Problem.error(
                ProblemCodes.JSON_TYPE,
                Place.in(source, here),
                kind(list.get(i)),
                "an object",
                ""));
        continue;
      }
      rows.add(row(source, here, list.get(i), fields, log));
    }
    return rows;
  }
}
