package org.surfactantblend.acidity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import org.surfactantblend.acidity.TitrationSimulation.Rule;
import org.surfactantblend.acidity.TitrationSimulation.Stress;
import org.surfactantblend.acidity.TitrationSimulation.Tally;

/**
 * The bars of the simulation: a short run by default, the whole one with {@code
 * -Dtitrations=10000}. A bar gives way by two standard errors of a share found in so many runs, so
 * that at 10,000 runs it stands where it was set.
 */
class TitrationSimulationTest {
  private static final int RUNS = Integer.getInteger("titrations", 640);
  private static final ExecutorService TWO = Executors.newFixedThreadPool(2);

  @AfterAll
  static void stop() {
    TWO.shutdown();
  }

  private static Map<String, Tally> run(Rule rule, Stress stress, int runs) {
    return TitrationSimulation.run(rule, stress, runs, DosingRules.usual(), TWO);
  }

  /** Two standard errors of a share [percent]; none in a whole run. */
  private static double slack(double percent, int runs) {
    return RUNS >= 10_000 ? 0 : 2 * Math.sqrt(percent * (100 - percent) / runs);
  }

  private static void atMost(double bar, double found, int runs, String what) {
    assertTrue(found <= bar + slack(bar, runs), what);
  }

  @Test
  void hiddenLotsReachTheirTargetInFewDosesAndRarelyGoPastIt() {
    Map<String, Tally> all = run(Rule.LEARNING, Stress.NONE, RUNS);
    String table = TitrationSimulation.table(all);
    System.out.println(table);
    assertTrue(all.size() - 1 >= 12);
    all.forEach((name, t) -> atMost(3, t.percent(t.overshot), t.runs, name + "\n" + table));
    Tally sum = all.get("all");
    assertEquals(RUNS, sum.runs);
    atMost(1.5, sum.percent(sum.overshot), RUNS, table);
    atMost(1, 100 - sum.percent(sum.atMostFour), RUNS, table);
    atMost(10, 100 - sum.percent(sum.atMostThree), RUNS, table);
    assertTrue(sum.coverage() >= 88 && sum.coverage() <= 96, table);
    atMost(3, 100 - sum.percent(sum.finishedWithin), RUNS, table);
  }

  @Test
  void handRulesGoPastTheTargetFarMoreOften() {
    Tally habit = run(Rule.HABIT, Stress.NONE, RUNS).get("all");
    Tally secant = run(Rule.HALF_THEN_SECANT, Stress.NONE, RUNS).get("all");
    assertTrue(habit.percent(habit.overshot) > 50, habit::toString);
    assertTrue(secant.percent(secant.overshot) > 20, secant::toString);
  }

  @Test
  void theNumberOfThreadsDoesNotMatter() {
    ExecutorService one = Executors.newSingleThreadExecutor();
    try {
      assertEquals(
          TitrationSimulation.table(
              TitrationSimulation.run(Rule.LEARNING, Stress.NONE, 64, DosingRules.usual(), one)),
          TitrationSimulation.table(run(Rule.LEARNING, Stress.NONE, 64)));
    } finally {
      one.shutdown();
    }
  }
}
