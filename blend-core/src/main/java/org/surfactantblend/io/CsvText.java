package org.surfactantblend.io;

import com.fasterxml.jackson.dataformat.csv.CsvFactory;
import com.fasterxml.jackson.dataformat.csv.CsvGenerator;
import com.fasterxml.jackson.dataformat.csv.CsvSchema;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;

/** Writes a table that a spreadsheet can open without running anything in it. */
final class CsvText {
  private static final CsvFactory FACTORY =
      CsvFactory.builder().enable(CsvGenerator.Feature.STRICT_CHECK_FOR_QUOTING).build();
  private static final Pattern ACTIVE = Pattern.compile("(?s)'*[=+\\-@\\t\\r].*");
  private static final Pattern NUMBER =
      Pattern.compile("[+-]?[0-9]*\\.?[0-9]+(?:[eE][+-]?[0-9]+)?");

  private CsvText() {}

  /** The table of the given rows; a cell that a row does not have stays empty. */
  static String of(List<String> columns, List<Map<String, String>> rows) {
    StringWriter out = new StringWriter();
    try (CsvGenerator generator = FACTORY.createGenerator(out)) {
      generator.setSchema(CsvSchema.emptySchema().withLineSeparator("\n"));
      row(generator, columns);
      for (Map<String, String> row : rows) {
        row(generator, columns.stream().map(c -> guarded(row.getOrDefault(c, ""))).toList());
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toString();
  }

  private static void row(CsvGenerator generator, List<String> cells) throws IOException {
    generator.writeStartArray();
    for (String cell : cells) {
      generator.writeString(cell);
    }
    generator.writeEndArray();
  }

  /**
   * A spreadsheet takes a cell that begins with =, +, -, @, tab or carriage return for a formula;
   * an apostrophe before it stops that. The reader takes it off again.
   */
  private static String guarded(String cell) {
    return ACTIVE.matcher(cell).matches() && !NUMBER.matcher(cell).matches() ? "'" + cell : cell;
  }
}
