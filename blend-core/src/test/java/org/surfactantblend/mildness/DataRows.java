package org.surfactantblend.mildness;

import com.fasterxml.jackson.databind.MappingIterator;
import com.fasterxml.jackson.dataformat.csv.CsvMapper;
import com.fasterxml.jackson.dataformat.csv.CsvSchema;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;

/** Rows of the tables under {@code data/}, by column name. */
final class DataRows {
  static final Path DATA = Path.of("..", "data");

  private DataRows() {}

  static List<Map<String, String>> of(String file) {
    try (MappingIterator<Map<String, String>> rows =
        new CsvMapper()
            .readerForMapOf(String.class)
            .with(CsvSchema.emptySchema().withHeader())
            .readValues(Files.readString(DATA.resolve(file)))) {
      return rows.readAll();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static String text(Map<String, String> row, String column) {
    String value = row.get(column);
    if (value == null) {
      throw new IllegalArgumentException("no column " + column + " in " + row);
    }
    return value;
  }

  static double number(Map<String, String> row, String column) {
    return Double.parseDouble(text(row, column));
  }
}
