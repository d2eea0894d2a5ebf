package org.surfactantblend.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.surfactantblend.Blends;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.testing.Recheck;

/**
 * Briefs that name no materials choose among the whole shipped table, and most of them cannot be
 * met by every lot: the answer, reasons and all, comes in seconds. Each of the first four took
 * minutes or more before sets of surfactants were searched in boxes of ionic strength; a time limit
 * far above the usual 20 ms tells the one from the other on a busy machine.
 */
class WholeTableTest {
  private static final MaterialTable TABLE = Blends.starterTable();
  private static final Duration LIMIT = Duration.ofSeconds(60);

  private static Brief.Builder everyLot(double total, double tolerance, double low, double high) {
    return Brief.named("whole table")
        .totalActive(total, tolerance)
        .startingPh(low, high)
        .everyLotWithinSpecification();
  }

  static Stream<Brief> briefs() {
    return Stream.concat(
        Stream.of(
            everyLot(9, 1, 6, 7).build(),
            everyLot(17, 0.5, 7, 8).salt(0, 0.632717).build(),
            everyLot(9, 0.5, 8, 8.5).share(ChargeClass.ANIONIC, 20, 60).build(),
            everyLot(16, 0.5, 6, 8).share(ChargeClass.CATIONIC, 5, 10).build()),
        IntStream.range(0, 12).mapToObj(WholeTableTest::random));
  }

  private static Brief random(int seed) {
    Random r = new Random(seed);
    double ph = 3.5 + r.nextInt(10) * 0.5;
    Brief.Builder b =
        everyLot(6 + r.nextInt(14), r.nextInt(3) * 0.5, ph, ph + 0.5 + r.nextInt(5) * 0.5);
    switch (r.nextInt(4)) {
      case 0 -> b.share(ChargeClass.ANIONIC, 20, 60);
      case 1 -> b.share(ChargeClass.AMPHOTERIC, 30, 70).atMostSurfactants(3);
      case 2 -> b.salt(0, 0.3 + r.nextDouble());
      default -> b.share(ChargeClass.CATIONIC, 3, 10);
    }
    return (r.nextBoolean() ? b : b.typicalLots()).build();
  }

  @ParameterizedTest
  @MethodSource("briefs")
  void anAnswerComesWithItsReasons(Brief brief) {
    BlendResult result = assertTimeoutPreemptively(LIMIT, () -> BlendSolver.solve(brief, TABLE));
    Recheck.result(result, TABLE.prices());
    if (result instanceof NoBlend none) {
      assertFalse(none.conflict().isEmpty(), none::summary);
    }
  }

  @Test
  void aChangeThatIsToldHelpsAndAStepLessDoesNot() {
    Brief brief = everyLot(9, 0.5, 8, 8.5).share(ChargeClass.ANIONIC, 20, 60).build();
    NoBlend none =
        BlendSolver.solve(brief, TABLE)
            .fold(
                s -> {
                  throw new AssertionError(s.toString());
                },
                n -> n);
    assertEquals(2, none.conflict().size(), none::summary);
    for (ConflictPart part : none.conflict()) {
      Bound bound = part.bound().orElseThrow();
      double enough = part.enoughAt().orElseThrow();
      double low = bound.upper() ? 8 : enough;
      double high = bound.upper() ? enough : 8.5;
      BlendResult looser = BlendSolver.solve(with(low, high), TABLE);
      Recheck.result(looser, TABLE.prices());
      assertTrue(looser.isSolved(), part::toString);
      BlendResult less =
          BlendSolver.solve(bound.upper() ? with(low, high - 0.01) : with(low + 0.01, high), TABLE);
      assertFalse(less.isSolved(), part::toString);
    }
  }

  private static Brief with(double low, double high) {
    return everyLot(9, 0.5, low, high).share(ChargeClass.ANIONIC, 20, 60).build();
  }

  @Test
  void ofThousandsOfEquallyGoodSetsTheSmallestComeFirst() {
    Brief brief =
        Brief.named("equally good")
            .totalActive(14, 0)
            .startingPh(5, 5.1)
            .share(ChargeClass.ANIONIC, 20, 60)
            .nearestToShares(Map.of(ChargeClass.AMPHOTERIC, 45.0, ChargeClass.NONIONIC, 30.0))
            .build();
    Alternatives all =
        assertTimeoutPreemptively(
            LIMIT, () -> BlendSolver.alternatives(brief, TABLE, 5, 1, SearchBudget.none()));
    assertEquals(5, all.blends().size());
    for (SolvedBlend s : all.blends()) {
      Recheck.result(s, TABLE.prices());
      assertEquals(0, s.wishValue(), 1e-6);
      long surfactants =
          s.blend().lines().stream().filter(l -> l.material().isSurfactant()).count();
      assertEquals(3, surfactants, s::toString);
    }
  }
}
