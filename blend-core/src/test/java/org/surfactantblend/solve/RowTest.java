package org.surfactantblend.solve;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.surfactantblend.solve.Programme.Row;

/** What a row says of fractions that sum to 1, before anything is solved. */
class RowTest {
  private static Row row(double low, double high, double... coefficients) {
    return new Row(coefficients, low, high);
  }

  @ParameterizedTest
  @CsvSource({
    "-Infinity, 3, true",
    "-Infinity, 2.9, false",
    "1, Infinity, true",
    "1.1, Infinity, false",
    "0, 4, true",
    "-Infinity, 0, false"
  })
  void aLimitThatNoBlendReachesIsKeptByAll(double low, double high, boolean kept) {
    assertEquals(kept, row(low, high, 1, 3, 2).isKeptByAll());
  }

  @ParameterizedTest
  @CsvSource({
    // no salt: what has some is closed, but for a line that has to be in
    "-Infinity, 0, 1, 0, 2, 0, 1, 0",
    "-Infinity, -0.1, 1, 0, 2, 0, 1, 0",
    "-Infinity, 0.1, 1, 0, 2, 1, 1, 1",
    // terms of either sign may cancel
    "-Infinity, 0, 1, -1, 2, 1, 1, 1",
    "0, Infinity, -1, 0, -2, 0, 1, 0",
    "-0.1, Infinity, -1, 0, -2, 1, 1, 1",
    "0, Infinity, -1, 1, -2, 1, 1, 1",
    "0, Infinity, 1, 0, 2, 1, 1, 1"
  })
  void aSumOfOneSignThatHasToBeZeroClosesItsColumns(
      double low, double high, double a, double b, double c, double x, double y, double z) {
    double[] greatest = {1, 1, 1};
    row(low, high, a, b, c).closeUnusable(new double[3], greatest);
    assertArrayEquals(new double[] {x, y, z}, greatest);
  }

  @ParameterizedTest
  @CsvSource({"0, 0", "0.01, 1"})
  void aLineThatHasToBeInStaysOpenAndAClosedColumnHasNoSay(double least, double first) {
    double[] greatest = {1, 0, 1};
    row(Double.NEGATIVE_INFINITY, 0, 1, -1, 0).closeUnusable(new double[] {least, 0, 0}, greatest);
    assertArrayEquals(new double[] {first, 0, 1}, greatest);
  }
}
