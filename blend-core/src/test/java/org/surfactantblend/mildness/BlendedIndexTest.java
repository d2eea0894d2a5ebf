package org.surfactantblend.mildness;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Examples and messages of the index with a credit for mixing. */
class BlendedIndexTest {
  // Arithmetic of the stated formula by hand: f = 100/2 + 20/2 - 80/4 = 40; (B y0) = (-40, -40),
  // Q = -20, so the tangent is (100 - 40 + 20, 20 - 40 + 20).
  @Test
  void tangentAndCutOfTwoSurfactants() {
    BlendedIndex index =
        BlendedIndex.ofPairs(new double[] {100, 20}, new double[][] {{0, -80}, {-80, 0}});
    double[] half = {0.5, 0.5};
    assertEquals(40, index.at(half), 1e-9);
    assertEquals(-20, index.credit(half), 1e-9);
    assertArrayEquals(new double[] {60, -20}, index.gradient(half), 1e-9);
    assertArrayEquals(new double[] {80, 0}, index.tangent(half), 1e-9);
    double[] cut = index.cut(new double[] {7, 7}, 40);
    assertArrayEquals(new double[] {40, -40}, cut, 1e-9);
    assertEquals(0, 7 * cut[0] + 7 * cut[1], 1e-9);
  }

  // Variance of charge by hand: y = 0.6 at -1, 0.4 at 0 gives 0.24; times 50 is 12.
  @Test
  void creditOfChargeVariance() {
    BlendedIndex index =
        BlendedIndex.ofChargeVariance(new double[] {100, 0}, new double[] {-1, 0}, 50);
    assertEquals(-12, index.credit(new double[] {0.6, 0.4}), 1e-9);
    assertEquals(48, index.at(new double[] {0.6, 0.4}), 1e-9);
  }

  @Test
  void creditThatIsNotConvexIsRefusedWithThePair() {
    double[][] credits = {{0, -80, 0}, {-80, 0, 0}, {0, 0, 0}};
    Optional<String> reason = BlendedIndex.refusal(credits);
    assertEquals(
        Optional.of(
            "the index is not convex: the credit of surfactants 0 and 1 was -80.00, allowed is"
                + " 0.000 to 0 beside their credits with surfactant 2"),
        reason);
    IllegalArgumentException refused =
        assertThrows(
            IllegalArgumentException.class,
            () -> BlendedIndex.ofPairs(new double[] {1, 2, 3}, credits));
    assertEquals(reason.orElseThrow(), refused.getMessage());
  }

  // Four points with all triangles in order but no straight-line picture: three at distance 2 of
  // each other and a fourth at distance 1.1 of all (the centre would be at 2/sqrt(3) = 1.155).
  @Test
  void rarerCasesAreRefusedToo() {
    double far = -4;
    double near = -1.21;
    double[][] credits = {
      {0, far, far, near}, {far, 0, far, near}, {far, far, 0, near}, {near, near, near, 0}
    };
    String reason = BlendedIndex.refusal(credits).orElseThrow();
    assertTrue(reason.startsWith("the index is not convex: its least curvature was -"), reason);
    double justConvex = -4.0 / 3 - 1e-9;
    for (int i = 0; i < 3; i++) {
      credits[i][3] = justConvex;
      credits[3][i] = justConvex;
    }
    assertEquals(Optional.empty(), BlendedIndex.refusal(credits));
  }

  @Test
  void refusalsNameValueAndRange() {
    assertEquals(
        "credit of surfactants 0 and 1 was 5.0, allowed is -100000.0 to 0.0 (scale of the scores)",
        assertThrows(
                IllegalArgumentException.class,
                () -> BlendedIndex.refusal(new double[][] {{0, 5}, {5, 0}}))
            .getMessage());
    assertEquals(
        "credit of surfactants 0 and 1 was -5.0, allowed is that of 1 and 0",
        assertThrows(
                IllegalArgumentException.class,
                () -> BlendedIndex.refusal(new double[][] {{0, -5}, {-4, 0}}))
            .getMessage());
    assertEquals(
        "number of charges was 1, allowed is 2",
        assertThrows(
                IllegalArgumentException.class,
                () -> BlendedIndex.ofChargeVariance(new double[2], new double[1], 1))
            .getMessage());
    BlendedIndex index = BlendedIndex.ofChargeVariance(new double[2], new double[2], 0);
    assertEquals(
        "total active amount was 0.0, allowed is more than 0 mass units",
        assertThrows(IllegalArgumentException.class, () -> index.cut(new double[2], 10))
            .getMessage());
  }
}
