package org.surfactantblend.problem;

import java.util.Objects;

/**
 * Where something stands: in which source, in which row, and in which column, path or setting.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param source the name of the file or object, as the caller gave it
 * @param row the row of a file, counted from 1 with the header as row 1; 0 when rows do not apply
 * @param field the column, JSON path or setting; empty when the whole row or source is meant
 */
public record Place(String source, int row, String field) {
  /**
   * Checks that nothing is missing.
   *
   * @param source the name of the file or object, as the caller gave it
   * @param row the row of a file, counted from 1 with the header as row 1; 0 when rows do not apply
   * @param field the column, JSON path or setting; empty when the whole row or source is meant
   * @throws NullPointerException if an argument is null
   * @throws IllegalArgumentException if the row is negative
   */
  public Place {
    Objects.requireNonNull(source, "source");
    Objects.requireNonNull(field, "field");
    if (row < 0) {
      throw new IllegalArgumentException("row was " + row + ", allowed is 0 or more");
    }
  }

  /**
   * A place in a table.
   *
   * @param source the file
   * @param row the row, from 1
   * @param column the column; empty for the whole row
   * @return the place
   */
  public static Place cell(String source, int row, String column) {
    return new Place(source, row, column);
  }

  /**
   * A place in a document or object.
   *
   * @param source the file or object
   * @param path the JSON path or the name of the setting; empty for the whole
   * @return the place
   */
  public static Place in(String source, String path) {
    return new Place(source, 0, path);
  }

  @Override
  public String toString() {
    return source
        + (row == 0 ? "" : " row " + row)
        + (field.isEmpty() ? "" : (row == 0 ? " " : " column ") + field);
  }
}
