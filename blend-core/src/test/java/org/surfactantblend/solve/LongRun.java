package org.surfactantblend.solve;

import org.surfactantblend.brief.Brief;
import org.surfactantblend.testing.Conflicts;
import org.surfactantblend.testing.Recheck;

/**
 * Solves random briefs over random shops for as long as it is told, and rechecks every answer from
 * its weights. A violation is printed with its seed, which alone repeats it; the program then ends
 * with 1.
 *
 * <p>Arguments: the first seed, and how many minutes.
 */
public final class LongRun {
  /** Explanations are verified by many more solves, so only one refusal in so many is. */
  private static final int VERIFY_ONE_IN = 50;

  /** Briefs drawn over the same shop. */
  private static final int BRIEFS = 8;

  private final int verifyOneIn;
  private long briefs;
  private long solved;
  private long refused;
  private long verified;
  private long violations;

  private LongRun(int verifyOneIn) {
    this.verifyOneIn = verifyOneIn;
  }

  /**
   * Runs.
   *
   * @param arguments the first seed, and how many minutes
   */
  public static void main(String[] arguments) {
    long seed = Long.parseLong(arguments[0]);
    double minutes = Double.parseDouble(arguments[1]);
    LongRun run = new LongRun(VERIFY_ONE_IN);
    long start = System.nanoTime();
    long told = start;
    while (System.nanoTime() - start < minutes * 60e9) {
      run.shop(seed++);
      if (System.nanoTime() - told > 60e9) {
        told = System.nanoTime();
        System.out.println(run + "next seed " + seed);
      }
    }
    System.out.println(run + "next seed " + seed);
    System.exit(run.violations == 0 ? 0 : 1);
  }

  private void shop(long seed) {
    RandomTask task = new RandomTask(seed);
    for (int i = 0; i < BRIEFS; i++) {
      Draw draw = Draw.next(task);
      briefs++;
      try {
        answer(task, draw);
      } catch (RuntimeException | AssertionError e) {
        violations++;
        System.out.println(
            "violation: seed " + seed + ", brief " + i + ": " + e + "\n" + draw.brief());
      }
    }
  }

  /** Answers and rechecks one brief of one shop; throws where there is a violation. */
  static void repeat(long seed, int brief) {
    RandomTask task = new RandomTask(seed);
    Draw draw = Draw.next(task);
    for (int i = 0; i < brief; i++) {
      draw = Draw.next(task);
    }
    new LongRun(1).answer(task, draw);
  }

  /**
   * A brief drawn over a shop.
   *
   * @param known whether the shop's known blend meets it
   */
  private record Draw(Brief brief, boolean known) {
    static Draw next(RandomTask task) {
      int kind = task.random.nextInt(6);
      Brief.Builder b = task.brief(kind < 3 ? 0 : kind < 5 ? 0.4 : 2);
      task.wish(b);
      boolean known = kind < 3;
      if (task.random.nextInt(4) == 0) {
        task.choice(b);
        known = false;
      }
      if (task.random.nextInt(8) == 0) {
        b.everyLotWithinSpecification();
        known = false;
      }
      return new Draw(b.build(), known);
    }
  }

  private void answer(RandomTask task, Draw draw) {
    Brief brief = draw.brief();
    BlendResult result = BlendSolver.solve(brief, task.table);
    Recheck.result(result, task.table.prices());
    if (result instanceof SolvedBlend s) {
      solved++;
      if (draw.known()) {
        double own = Recheck.wish(task.known, brief, task.table.prices());
        if (s.wishValue() > own + 1e-6 * Math.max(1, own)) {
          throw new AssertionError("a better blend is known: " + own + " to " + s.wishValue());
        }
      }
    } else {
      refused++;
      if (draw.known()) {
        throw new AssertionError("refused, but a blend is known");
      }
      if (refused % verifyOneIn == 0) {
        Conflicts.verify(result, task.table);
        verified++;
      }
    }
  }

  @Override
  public String toString() {
    return briefs
        + " briefs: "
        + solved
        + " solved, "
        + refused
        + " refused ("
        + verified
        + " explanations verified), "
        + violations
        + " violations; ";
  }
}
