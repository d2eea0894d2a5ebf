package org.surfactantblend.io;

import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.exc.StreamConstraintsException;
import com.fasterxml.jackson.dataformat.csv.CsvFactory;
import com.fasterxml.jackson.dataformat.csv.CsvParser;
import com.fasterxml.jackson.dataformat.csv.CsvSchema;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;

/**
 * Takes a CSV text apart into rows of named cells. A row that breaks the quoting or a limit is
 * reported and left out, and reading goes on in the next line.
 */
final class CsvTable {
  private static final int MOST_BROKEN_ROWS = 20;
  private static final int MOST_CHARACTERS_IN_A_ROW = 200_000;
  private static final String SEPARATORS = ",;\t|";
  private static final CsvFactory FACTORY =
      CsvFactory.builder()
          .streamReadConstraints(
              StreamReadConstraints.builder()
                  .maxStringLength(Input.MOST_CHARACTERS_IN_A_CELL)
                  .build())
          .enable(CsvParser.Feature.WRAP_AS_ARRAY)
          .build();

  private final Input input;
  private final ProblemLog log;
  private final List<Row> rows = new ArrayList<>();
  private final Set<String> known;
  private final Set<String> required;
  private List<String> header = List.of();
  private int brokenRows;
  private boolean hasBody;

  private CsvTable(Input input, Set<String> known, Set<String> required, ProblemLog log) {
    this.input = input;
    this.known = known;
    this.required = required;
    this.log = log;
  }

  /** The rows of a table; empty when the header rules them all out. */
  static List<Row> read(Input input, Set<String> known, Set<String> required, ProblemLog log) {
    CsvTable table = new CsvTable(input, known, required, log);
    table.read();
    return table.rows;
  }

  private void read() {
    Problem unread = input.problem();
    if (unread != null) {
      log.add(unread);
      return;
    }
    String text = input.text();
    if (text.isBlank()) {
      error(ProblemCodes.EMPTY_INPUT, 1, "", "no text", "a header and rows", "");
      return;
    }
    char separator = separator(text);
    int offset = 0;
    int line = 1;
    while (offset < text.length() && !log.isFull()) {
      int brokenAt = readFrom(text.substring(offset), line, separator);
      if (brokenAt == 0) {
        break;
      }
      brokenRows++;
      if (brokenRows >= MOST_BROKEN_ROWS) {
        error(
            ProblemCodes.TOO_MANY_PROBLEMS,
            brokenAt,
            "",
            MOST_BROKEN_ROWS + " rows that cannot be taken apart",
            "fewer than " + MOST_BROKEN_ROWS,
            "look whether this is a table of comma-separated values");
        return;
      }
      for (; line <= brokenAt; line++) {
        offset = nextLine(text, offset);
      }
    }
    if (header.isEmpty()) {
      if (brokenRows == 0 && !log.isFull()) {
        error(ProblemCodes.EMPTY_INPUT, 1, "", "blank cells only", "a header and rows", "");
      }
      return;
    }
    if (!hasBody && brokenRows == 0 && hasRequired()) {
      log.add(
          Problem.warning(
              ProblemCodes.NO_ROWS,
              Place.cell(input.name(), 1, ""),
              "a header without rows",
              "one row per material",
              ""));
    }
  }

  private static int nextLine(String text, int from) {
    for (int i = from; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c == '\n') {
        return i + 1;
      }
      if (c == '\r') {
        return i + 1 < text.length() && text.charAt(i + 1) == '\n' ? i + 2 : i + 1;
      }
    }
    return text.length();
  }

  private char separator(String text) {
    String first = text.substring(0, nextLine(text, 0));
    char best = ',';
    int most = 0;
    for (int i = 0; i < SEPARATORS.length(); i++) {
      char candidate = SEPARATORS.charAt(i);
      int count = 0;
      for (int at = first.indexOf(candidate); at >= 0; at = first.indexOf(candidate, at + 1)) {
        count++;
      }
      if (count > most) {
        most = count;
        best = candidate;
      }
    }
    if (best != ',') {
      log.add(
          Problem.warning(
              ProblemCodes.SEPARATOR,
              Place.cell(input.name(), 1, ""),
              best == ';'
                  ? "cells separated by semicolons"
                  : best == '\t' ? "cells separated by tabs" : "cells separated by bars",
              "cells separated by commas",
              "the rows are read all the same; numbers still need a decimal point"));
    }
    return best;
  }

  /** Reads to the end, or to a broken row whose line number it returns; 0 at the end. */
  private int readFrom(String text, int firstLine, char separator) {
    int start = firstLine;
    try (CsvParser parser = FACTORY.createParser(text)) {
      parser.setSchema(CsvSchema.emptySchema().withColumnSeparator(separator));
      parser.nextToken();
      while (parser.nextToken() == JsonToken.START_ARRAY) {
        start = firstLine - 1 + parser.currentLocation().getLineNr();
        if (rows.size() + 1 >= Input.MOST_ROWS) {
          error(
              ProblemCodes.TOO_MANY_ROWS,
              start,
              "",
              "more than " + Input.MOST_ROWS + " rows",
              "at most " + Input.MOST_ROWS + " rows",
              "split the table");
          return 0;
        }
        List<String> cells = cells(parser, start);
        if (cells != null) {
          take(cells, start);
        }
        if (log.isFull() || (!header.isEmpty() && !hasRequired())) {
          return 0;
        }
      }
      return 0;
    } catch (StreamConstraintsException e) {
      error(
          ProblemCodes.CELL_TOO_LONG,
          start,
          "",
          "a cell of more than " + Input.MOST_CHARACTERS_IN_A_CELL + " characters",
          "at most " + Input.MOST_CHARACTERS_IN_A_CELL + " characters in a cell",
          "a quotation mark that never closes swallows the rows below it");
      return start;
    } catch (IOException e) {
      error(
          ProblemCodes.UNBALANCED_QUOTE,
          start,
          "",
          "a cell whose quotation marks do not match",
          "a cell in quotes that ends before the next separator; inner quotes doubled",
          "look for a single \" in this row");
      return start;
    }
  }

  private @Nullable List<String> cells(CsvParser parser, int line) throws IOException {
    List<String> cells = new ArrayList<>();
    long characters = 0;
    boolean tooMany = false;
    for (JsonToken t = parser.nextToken();
        t != null && t != JsonToken.END_ARRAY;
        t = parser.nextToken()) {
      String cell = parser.getText();
      characters += cell.length();
      tooMany |= cells.size() >= Input.MOST_COLUMNS && !cell.isEmpty();
      if (cells.size() < Input.MOST_COLUMNS && characters <= MOST_CHARACTERS_IN_A_ROW) {
        cells.add(cell);
      }
    }
    if (tooMany || characters > MOST_CHARACTERS_IN_A_ROW) {
      error(
          tooMany ? ProblemCodes.TOO_MANY_COLUMNS : ProblemCodes.CELL_TOO_LONG,
          line,
          "",
          tooMany ? "more than " + Input.MOST_COLUMNS + " cells" : characters + " characters",
          "at most "
              + Input.MOST_COLUMNS
              + " cells and "
              + MOST_CHARACTERS_IN_A_ROW
              + " characters in a row",
          "");
      return null;
    }
    return cells;
  }

  private void take(List<String> cells, int line) {
    if (areBlank(cells)) {
      return;
    }
    if (header.isEmpty()) {
      takeHeader(cells, line);
      return;
    }
    hasBody = true;
    for (int i = header.size(); i < cells.size(); i++) {
      if (!Row.trim(cells.get(i)).isEmpty()) {
        error(
            ProblemCodes.EXTRA_CELLS,
            line,
            "",
            cells.size() + " cells",
            "as many cells as the header has, " + header.size(),
            "a decimal comma, or a comma inside a text without quotes around it");
        return;
      }
    }
    Map<String, String> named = new LinkedHashMap<>();
    Row row = new Row(named, column -> Place.cell(input.name(), line, column), log);
    for (int i = 0; i < Math.min(header.size(), cells.size()); i++) {
      String column = header.get(i);
      if (!known.contains(column) || named.containsKey(column)) {
        continue;
      }
      String cell = cells.get(i);
      row.checkCharacters(column, cell);
      named.put(column, isGuarded(cell) ? cell.substring(1) : cell);
    }
    rows.add(row);
  }

  private static boolean areBlank(List<String> cells) {
    for (String cell : cells) {
      if (!Row.trim(cell).isEmpty()) {
        return false;
      }
    }
    return true;
  }

  /** Apostrophes before a character with which a spreadsheet would begin a formula. */
  private static boolean isGuarded(String cell) {
    int apostrophes = 0;
    while (apostrophes < cell.length() && cell.charAt(apostrophes) == '\'') {
      apostrophes++;
    }
    return apostrophes > 0
        && apostrophes < cell.length()
        && "=+-@\t\r".indexOf(cell.charAt(apostrophes)) >= 0;
  }

  private void takeHeader(List<String> cells, int line) {
    List<String> names = new ArrayList<>();
    for (String cell : cells) {
      String name = Row.trim(cell).toLowerCase(Locale.ROOT);
      if (name.isEmpty()) {
        names.add(name);
        continue;
      }
      if (names.contains(name)) {
        error(
            ProblemCodes.DUPLICATE_COLUMN,
            line,
            Row.shown(name),
            "a second column of this name",
            "each column once",
            "only the first is read: rename or remove the second");
      } else if (!known.contains(name)) {
        String near = Nearest.to(name, known);
        log.add(
            Problem.warning(
                ProblemCodes.UNKNOWN_COLUMN,
                Place.cell(input.name(), line, Row.shown(name)),
                Row.quoted(name),
                "a column of the table; this one is not read",
                near));
      }
      names.add(name);
    }
    header = names;
    for (String column : new TreeSet<>(required)) {
      if (!names.contains(column)) {
        error(
            ProblemCodes.MISSING_COLUMN,
            line,
            column,
            "no such column",
            "a header with the columns " + String.join(", ", new TreeSet<>(required)),
            "");
      }
    }
  }

  private boolean hasRequired() {
    return header.containsAll(required);
  }

  private void error(
      String code, int line, String column, String found, String allowed, String advice) {
    log.add(Problem.error(code, Place.cell(input.name(), line, column), found, allowed, advice));
  }
}
