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
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.quantity.PhWindow;
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

  /** The columns that hold text; all others hold numbers, or yes or no. */
  private static final Set<String> TEXTS =
      Set.of(
          "id",
          "inci_name",
          "grade",
          "charge_class",
          "family",
          "lot",
          "ph_basis_note",
          "currency",
          "notes",
          "source",
          "group",
          "acid",
          "acid_name",
          "amount_basis");

  private static final Set<String> YES_NO = Set.of("ph_basis_certain", "apparent", "on_active");

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

  /** An enum constant as a word of a document. */
  static String word(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  static ObjectNode window(PhWindow window) {
    return object().put("low", number(window.low())).put("high", number(window.high()));
  }

  static void texts(ObjectNode at, String field, Collection<String> texts) {
    ArrayNode list = at.putArray(field);
    texts.forEach(list::add);
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
      if (fields.nested().contains(field)) {
        continue;
      }
      if (column == null && !deeper) {
        unknown(row, paths, here, prefix, entry.getKey(), fields);
      } else if (deeper && value.isObject()) {
        take(row, cells, paths, here, field + ".", value, fields);
      } else if (column != null && fields.lists().contains(field) && value.isArray()) {
        List<String> items = new ArrayList<>();
        paths.put(column, here);
        for (JsonNode item : value) {
          if (isNumber(row, column, item)) {
            items.add(item.asText());
          }
        }
        cells.put(column, String.join(" ", items));
      } else if (column != null
          && value.isValueNode()
          && !value.isNull()
          && !fields.lists().contains(field)) {
        paths.put(column, here);
        if (isCell(row, column, value)) {
          cells.put(column, value.asText());
        }
      } else {
        String probe = column == null ? field : column;
        paths.put(probe, here);
        row.error(
            ProblemCodes.JSON_TYPE,
            probe,
            kind(value),
            fields.lists().contains(field)
                ? "a list of numbers"
                : deeper
                    ? "an object, or a number where there is no range"
                    : isText(column) ? "a text" : "a number",
            value.isNull() ? "leave the field out" : "");
      }
    }
  }

  private static boolean isText(@Nullable String column) {
    return column != null && TEXTS.contains(column);
  }

  /** Whether a value may be read as the cell of a column; what is odd about it is reported. */
  private static boolean isCell(Row row, String column, JsonNode value) {
    if (isText(column)) {
      row.checkCharacters(column, value.asText());
      if (!value.isTextual()) {
        row.error(
            ProblemCodes.JSON_TYPE,
            column,
            kind(value),
            "a text, in quotation marks",
            "\"" + value.asText() + "\"");
      }
      return value.isTextual();
    }
    if (YES_NO.contains(column)) {
      if (!value.isBoolean()) {
        row.error(ProblemCodes.JSON_TYPE, column, kind(value), "true or false, without quotes", "");
      }
      return value.isBoolean();
    }
    return isNumber(row, column, value);
  }

  /**
   * Whether a value may be read as a number. One in quotation marks is reported but read, and text
   * that is no number is read too, because the row has the better advice.
   */
  static boolean isNumber(Row row, String column, JsonNode value) {
    if (!value.isNumber() && !(value.isTextual() && !value.asText().isBlank())) {
      row.error(
          ProblemCodes.JSON_TYPE,
          column,
          kind(value),
          "a number",
          value.isNull() ? "leave the field out" : "");
      return false;
    }
    row.checkCharacters(column, value.asText());
    if (value.isTextual() && Row.isPlainNumber(value.asText())) {
      row.error(
          ProblemCodes.NUMBER_FORMAT,
          column,
          Row.quoted(value.asText()),
          "a number without quotation marks",
          Row.trim(value.asText()));
    }
    return true;
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
        ProblemCodes.UNKNOWN_FIELD,
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
