package org.surfactantblend.mildness;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.surfactantblend.material.Evidence;
import org.surfactantblend.material.IrritationScore;
import org.surfactantblend.quantity.Range;

/** Examples and messages of the irritation index and the eye-hazard sum. */
class IrritationIndexTest {
  private static final IrritationScore ETHER_SULFATE =
      new IrritationScore(Range.of(40, 55, 73), Evidence.RANKED, "drawn");
  private static final IrritationScore GLUCOSIDE =
      new IrritationScore(Range.of(3, 8, 15), Evidence.ESTIMATED, "drawn");

  @Test
  void weightsByShareOfTheActive() {
    IrritationIndex index =
        IrritationIndex.of(List.of(part("a", 6, ETHER_SULFATE), part("b", 2, GLUCOSIDE)));
    Range range = index.range().orElseThrow();
    assertEquals((6 * 40 + 2 * 3) / 8.0, range.low(), 1e-12);
    assertEquals((6 * 55 + 2 * 8) / 8.0, range.typical(), 1e-12);
    assertEquals((6 * 73 + 2 * 15) / 8.0, range.high(), 1e-12);
    assertEquals(Optional.of(Evidence.ESTIMATED), index.weakestEvidence());
  }

  @Test
  void missingScoreIsNamedAndNeverZero() {
    IrritationIndex index =
        IrritationIndex.of(
            List.of(
                part("a", 6, ETHER_SULFATE),
                new IrritationIndex.Part("unknown", 0.01, Optional.empty()),
                new IrritationIndex.Part("not in it", 0, Optional.empty())));
    assertEquals(Optional.empty(), index.range());
    assertEquals(List.of("unknown"), index.withoutScore());
  }

  @Test
  void nothingActiveHasNoIndex() {
    assertEquals(Optional.empty(), IrritationIndex.of(List.of()).range());
  }

  @Test
  void scoreOutsideTheScaleIsRefused() {
    assertEquals(
        "irritation score was 300.0, allowed is 0.0 to 200.0 (sodium lauryl sulfate = 100)",
        assertThrows(
                IllegalArgumentException.class,
                () -> new IrritationScore(Range.of(1, 2, 300), Evidence.RANKED, "drawn"))
            .getMessage());
  }

  @Test
  void eyeHazardNamesWhatItDoesNotKnow() {
    EyeHazardSum sum =
        EyeHazardSum.of(
            List.of(
                new EyeHazardSum.Part(
                    "ether sulfate", 4, Optional.of(new EyeHazardLimit(10, 5, "drawn"))),
                new EyeHazardSum.Part("glucoside", 20, Optional.empty())));
    assertEquals(0.4, sum.serious(), 1e-12);
    assertEquals(0.8, sum.irritating(), 1e-12);
    assertEquals(List.of("glucoside"), sum.withoutLimit());
    assertFalse(sum.callsForCaution());
  }

  @Test
  void eyeLimitsKeepTheirOrder() {
    assertEquals(
        "limit of eye irritation was 12.0, allowed is 0.0 to 10.0 % active",
        assertThrows(IllegalArgumentException.class, () -> new EyeHazardLimit(10, 12, "drawn"))
            .getMessage());
  }

  private static IrritationIndex.Part part(String name, double active, IrritationScore score) {
    return new IrritationIndex.Part(name, active, Optional.of(score));
  }
}
