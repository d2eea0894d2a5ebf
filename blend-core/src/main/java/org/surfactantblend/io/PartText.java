package org.surfactantblend.io;

import java.util.Arrays;
import java.util.List;

/** Lists of constituents and groups in one cell. */
final class PartText {
  private PartText() {}

  /** The items of a cell, separated by semicolons. */
  static List<String> list(String cell) {
    return Arrays.stream(cell.split(";")).map(String::strip).filter(s -> !s.isEmpty()).toList();
  }
}
