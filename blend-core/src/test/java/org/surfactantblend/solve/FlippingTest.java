package org.surfactantblend.solve;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Briefs in which the loop on ionic strength flips between two sets of surfactants, or whose answer
 * hangs on dust: found by {@link LongRun}, each once answered with less than a known blend, with a
 * pair that was not complete, with a change larger than needed, with a limit that another one's
 * size loosened, or not at all.
 */
class FlippingTest {
  @ParameterizedTest
  @CsvSource({
    "400962, 2",
    "405657, 7",
    "406302, 5",
    "409325, 0",
    "409814, 7",
    "409973, 5",
    "412052, 6",
    "800203, 2",
    "900834, 0",
    "300118, 2",
    "409234, 7",
    "412962, 6",
    "501881, 2",
    "1000196, 7",
    "1014028, 4",
    "10009700, 2",
    "40066177, 7",
    "50334492, 4",
    "70018411, 5",
    "70023123, 6"
  })
  void theAnswerStandsUpToTheRecheck(long seed, int brief) {
    assertDoesNotThrow(() -> LongRun.repeat(seed, brief));
  }
}
