package org.surfactantblend.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.junit.jupiter.api.Test;
import org.surfactantblend.Blends;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.solve.BlendResult;

class ScreeningInParallelTest {
  private static String bits(BlendResult result) {
    StringBuilder s = new StringBuilder(result.summary());
    for (BlendLine l : result.orElseThrow().lines()) {
      s.append(l.material().id()).append(Double.toHexString(l.amount().value()));
    }
    return s.toString();
  }

  @Test
  void manyThreadsGiveTheBitsOfOne() {
    MaterialTable table = Blends.starterTable().priced(Blends.demoPrices());
    List<Brief> briefs = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      briefs.addAll(ScreeningInParallel.briefs(table));
    }
    ExecutorService executor = Executors.newFixedThreadPool(16);
    try {
      List<BlendResult> answers = ScreeningInParallel.screen(briefs, table, executor);
      assertEquals(briefs.size(), answers.size());
      for (int i = 0; i < 9; i++) {
        String alone = bits(Blends.solve(briefs.get(i), table));
        assertTrue(alone.length() > 200);
        for (int k = i; k < answers.size(); k += 9) {
          assertEquals(alone, bits(answers.get(k)));
        }
      }
    } finally {
      executor.shutdown();
    }
  }
}
