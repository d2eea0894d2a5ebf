package org.surfactantblend.material;

import java.util.Objects;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Require;

/**
 * How one surfactant scores on a scale where sodium lauryl sulfate is 100 and water 0. Published
 * methods disagree by up to 40 points for the same surfactant, so a score is a range.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param score low, middle and high figure [sodium lauryl sulfate = 100], 0 to 200
 * @param evidence what stands behind it
 * @param source the id of the source
 */
public record IrritationScore(Range score, Evidence evidence, String source) {
  /**
   * Checks the values.
   *
   * @param score low, middle and high figure [sodium lauryl sulfate = 100], 0 to 200
   * @param evidence what stands behind it
   * @param source the id of the source
   * @throws IllegalArgumentException if the score is outside 0 to 200 or the source is blank
   */
  public IrritationScore {
    Objects.requireNonNull(score, "irritation score");
    Require.inRange("irritation score", score.low(), 0, 200, "(sodium lauryl sulfate = 100)");
    Require.inRange("irritation score", score.high(), 0, 200, "(sodium lauryl sulfate = 100)");
    Objects.requireNonNull(evidence, "evidence");
    source = Require.text("source of the irritation score", source);
  }
}
