package org.surfactantblend.io;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Text;

/**
 * One object of a JSON document. Whoever reads it asks for each field by name and says what it may
 * hold; what is wrong is reported at its path, and {@link #done} reports what nobody asked for.
 *
 * <p>After an error a number comes back as NaN and anything else as null or empty, so that reading
 * goes on; {@link #made} then builds nothing.
 */
final class JsonPart {
  private final String source;
  private final String path;
  private final JsonNode node;
  private final ProblemLog log;
  private final int errorsBefore;
  private final TreeSet<String> asked = new TreeSet<>();

  JsonPart(String source, String path, JsonNode node, ProblemLog log) {
    this.source = source;
    this.path = path;
    this.node = node;
    this.log = log;
    errorsBefore = log.errors();
  }

  String source() {
    return source;
  }

  String path() {
    return path;
  }

  ProblemLog log() {
    return log;
  }

  /** Whether this part, or anything read since it was begun, had an error. */
  boolean failed() {
    return log.errors() > errorsBefore;
  }

  /** Whether a field is there. */
  boolean has(String field) {
    asked.add(field);
    return node.has(field);
  }

  /** The raw value of a field; missing when it is not there. */
  JsonNode node(String field) {
    asked.add(field);
    return node.path(field);
  }

  String at(String field) {
    return path + "." + Row.shown(field);
  }

  void error(String code, String field, String found, String allowed, String advice) {
    log.add(Problem.error(code, place(field), found, allowed, advice));
  }

  void warning(String code, String field, String found, String allowed, String advice) {
    log.add(Problem.warning(code, place(field), found, allowed, advice));
  }

  private Place place(String field) {
    return Place.in(source, field.isEmpty() ? path : at(field));
  }

  /** Says that a field holds something of the wrong kind, or nothing. */
  private void wrong(String field, JsonNode value, String allowed) {
    if (value.isMissingNode()) {
      error(ProblemCodes.MISSING_VALUE, field, "nothing", allowed, "");
    } else {
      error(
          ProblemCodes.JSON_TYPE,
          field,
          JsonDocument.kind(value),
          allowed,
          value.isNull() ? "leave the field out" : "");
    }
  }

  /** Builds something out of what was read, unless there was an error; a refusal is reported. */
  <T> @Nullable T made(Supplier<T> maker) {
    return failed() ? null : tried(maker);
  }

  /** Builds something out of parts that are known to be good; a refusal is reported. */
  <T> @Nullable T tried(Supplier<T> maker) {
    return tried("", maker);
  }

  /** The same where a refusal is due to one field. */
  <T> @Nullable T tried(String field, Supplier<T> maker) {
    try {
      return maker.get();
    } catch (IllegalArgumentException e) {
      error(
          ProblemCodes.NUMBER_RANGE,
          field,
          String.valueOf(e.getMessage()),
          "figures that fit together",
          "");
      return null;
    }
  }

  /** Reports every field that nobody asked for. */
  void done() {
    for (Map.Entry<String, JsonNode> entry : node.properties()) {
      String name = entry.getKey();
      if (!asked.contains(name)) {
        warning(
            ProblemCodes.UNKNOWN_FIELD,
            name,
            Row.quoted(name),
            "one of " + String.join(", ", asked) + "; this one is not read",
            Nearest.to(name, asked));
      }
    }
  }

  double number(String field, double least, double most, String unit) {
    return number(field, node(field), least, most, unit);
  }

  double numberOr(String field, double least, double most, String unit, double otherwise) {
    return has(field) ? number(field, least, most, unit) : otherwise;
  }

  private double number(String field, JsonNode value, double least, double most, String unit) {
    String allowed = Row.allowed(least, most, unit);
    if (value.isTextual()) {
      // The row knows decimal commas, percent signs and the like.
      Row row = new Row(Map.of(), column -> place(field), log);
      if (value.asText().isBlank()) {
        wrong(field, value, allowed);
      } else if (JsonDocument.isNumber(row, field, value) && !row.failed()) {
        row.parse(field, Row.trim(value.asText()), least, most, unit);
      }
      return Double.NaN;
    }
    if (!value.isNumber()) {
      wrong(field, value, allowed);
      return Double.NaN;
    }
    double d = value.doubleValue() + 0.0;
    if (!(d >= least && d <= most) || Double.isInfinite(d)) {
      error(ProblemCodes.NUMBER_RANGE, field, Row.quoted(value.toString()), allowed, "");
      return Double.NaN;
    }
    return d;
  }

  /** A number above zero. */
  double positive(String field, double most, String unit) {
    double d = number(field, 0, most, unit);
    if (d == 0) {
      error(ProblemCodes.NUMBER_RANGE, field, "0", "above 0 " + unit, "");
      return Double.NaN;
    }
    return d;
  }

  int count(String field, int least, int most) {
    double d = number(field, least, most, "");
    if (Double.isNaN(d)) {
      return least;
    }
    if (d != Math.rint(d)) {
      error(
          ProblemCodes.NUMBER_RANGE,
          field,
          Row.quoted(node.path(field).toString()),
          "a whole number, " + least + " to " + most,
          "");
    }
    return (int) d;
  }

  int countOr(String field, int least, int most, int otherwise) {
    return has(field) ? count(field, least, most) : otherwise;
  }

  String text(String field) {
    return text(field, node(field));
  }

  String textOr(String field, String otherwise) {
    return has(field) ? text(field) : otherwise;
  }

  private String text(String field, JsonNode value) {
    if (!value.isTextual() || value.asText().isBlank()) {
      wrong(
          field,
          value,
          value.isNumber() ? "a text, in quotation marks" : "a text of at least one character");
      return "";
    }
    Row row = new Row(Map.of(), column -> place(field), log);
    row.checkCharacters(field, value.asText());
    return row.failed() ? "" : value.asText().strip();
  }

  boolean yesNo(String field, boolean otherwise) {
    JsonNode value = node(field);
    if (value.isMissingNode()) {
      return otherwise;
    }
    if (!value.isBoolean()) {
      wrong(field, value, "true or false, without quotation marks");
    }
    return value.asBoolean();
  }

  /** One of several words; empty after an error. */
  String choice(String field, List<String> words) {
    JsonNode value = node(field);
    String word = value.asText("");
    if (value.isTextual() && words.contains(word)) {
      return word;
    }
    if (value.isTextual()) {
      error(
          ProblemCodes.CHOICE,
          field,
          Row.quoted(word),
          String.join(", ", words),
          Nearest.to(word, words));
    } else {
      wrong(field, value, String.join(", ", words));
    }
    return "";
  }

  String choiceOr(String field, List<String> words, String otherwise) {
    return has(field) ? choice(field, words) : otherwise;
  }

  /** A number, or an object with low, typical and high; null when missing or wrong. */
  @Nullable Range range(String field, double least, double most, String unit) {
    JsonNode value = node(field);
    if (value.isMissingNode()) {
      return null;
    }
    if (!value.isObject()) {
      double exact = number(field, least, most, unit);
      return Double.isNaN(exact) ? null : Range.exactly(exact);
    }
    JsonPart inner = new JsonPart(source, at(field), value, log);
    double low = inner.number("low", least, most, unit);
    double high = inner.number("high", least, most, unit);
    double typical = inner.numberOr("typical", least, most, unit, low + (high - low) / 2);
    inner.done();
    if (!inner.failed() && !(low <= typical && typical <= high)) {
      inner.error(
          ProblemCodes.RANGE_ORDER,
          "",
          Text.number(low) + ", " + Text.number(typical) + ", " + Text.number(high),
          "low, typical and high in rising order",
          "");
    }
    return inner.failed() ? null : Range.of(low, typical, high);
  }

  /** A day written as year-month-day; null when missing or wrong. */
  @Nullable LocalDate day(String field) {
    if (!has(field)) {
      return null;
    }
    String day = text(field);
    try {
      return day.isEmpty() ? null : LocalDate.parse(day);
    } catch (DateTimeParseException e) {
      error(
          ProblemCodes.TEXT_FORMAT,
          field,
          Row.quoted(day),
          "a day as year-month-day, such as 2026-03-31",
          "");
      return null;
    }
  }

  /** The object in a field; null when missing or wrong, which is an error only if it is needed. */
  @Nullable JsonPart part(String field, boolean needed) {
    JsonNode value = node(field);
    if (value.isObject()) {
      return new JsonPart(source, at(field), value, log);
    }
    if (needed || !value.isMissingNode()) {
      wrong(field, value, "an object");
    }
    return null;
  }

  /** What each object of a list gives; what gives null is left out. */
  <T> List<T> list(String field, boolean needed, int most, Function<JsonPart, @Nullable T> each) {
    List<T> all = new ArrayList<>();
    JsonNode items = items(field, needed, most, "objects");
    for (int i = 0; i < items.size() && !log.isFull(); i++) {
      String here = at(field) + "[" + i + "]";
      JsonNode item = items.get(i);
      if (item.isObject()) {
        // Begun only now, so that its failures are its own.
        T one = each.apply(new JsonPart(source, here, item, log));
        if (one != null) {
          all.add(one);
        }
      } else {
        wrongItem(here, item, "an object");
      }
    }
    return all;
  }

  /** The texts of a list; empty when missing or wrong. */
  List<String> texts(String field, boolean needed, int most) {
    return texts(at(field), items(field, needed, most, "texts"));
  }

  private List<String> texts(String here, JsonNode items) {
    List<String> texts = new ArrayList<>();
    for (int i = 0; i < items.size(); i++) {
      JsonNode item = items.get(i);
      if (item.isTextual() && !item.asText().isBlank()) {
        texts.add(item.asText().strip());
      } else {
        wrongItem(here + "[" + i + "]", item, "a text");
      }
    }
    return texts;
  }

  /** The pairs of texts of a list; empty when missing or wrong. */
  List<List<String>> pairs(String field, int most) {
    List<List<String>> pairs = new ArrayList<>();
    JsonNode items = items(field, false, most, "pairs of texts");
    for (int i = 0; i < items.size(); i++) {
      String here = at(field) + "[" + i + "]";
      JsonNode item = items.get(i);
      if (item.isArray() && item.size() == 2) {
        List<String> pair = texts(here, item);
        if (pair.size() == 2) {
          pairs.add(pair);
        }
      } else {
        wrongItem(here, item, "a list of two texts");
      }
    }
    return pairs;
  }

  private void wrongItem(String here, JsonNode item, String allowed) {
    log.add(
        Problem.error(
            ProblemCodes.JSON_TYPE, Place.in(source, here), JsonDocument.kind(item), allowed, ""));
  }

  /** The items of a list; none when missing or wrong. */
  JsonNode items(String field, boolean needed, int most, String what) {
    JsonNode list = node(field);
    if (!list.isArray()) {
      if (needed || !list.isMissingNode()) {
        wrong(field, list, "a list of " + what);
      }
      return JsonDocument.object();
    }
    if (needed && list.isEmpty()) {
      error(ProblemCodes.MISSING_VALUE, field, "an empty list", "at least one of them", "");
    }
    if (list.size() > most) {
      error(ProblemCodes.TOO_MANY_ROWS, field, list.size() + " of them", "at most " + most, "");
      return JsonDocument.object();
    }
    return list;
  }

  /** The names of the fields, for an object in which names are free. */
  List<String> names() {
    List<String> names = new ArrayList<>();
    for (Map.Entry<String, JsonNode> e : node.properties()) {
      asked.add(e.getKey());
      if (e.getKey().isBlank()) {
        error(ProblemCodes.MISSING_VALUE, "", "a blank name", "a name", "");
      } else {
        Row row = new Row(Map.of(), column -> place(e.getKey()), log);
        row.checkCharacters("", e.getKey());
        names.add(e.getKey());
      }
    }
    return names;
  }

  /** Numbers by name. */
  Map<String, Double> numbers(
      String field, boolean needed, double least, double most, String unit) {
    Map<String, Double> all = new LinkedHashMap<>();
    JsonPart inner = part(field, needed);
    if (inner != null) {
      for (String name : inner.names()) {
        all.put(name.strip(), inner.number(name, least, most, unit));
      }
    }
    return all;
  }
}
