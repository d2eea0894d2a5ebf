package org.surfactantblend.examples;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.surfactantblend.Blends;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.quantity.Text;
import org.surfactantblend.solve.BlendResult;
import org.surfactantblend.solve.SolvedBlend;

/** A whole line of products at once, on the caller's own threads. */
public final class ScreeningInParallel {
  private ScreeningInParallel() {}

  /**
   * The same brief from 6 to 14 % active matter.
   *
   * @param table the table with its prices
   * @return the briefs
   */
  static List<Brief> briefs(MaterialTable table) {
    List<Brief> all = new ArrayList<>();
    Brief model = ChoosingAmongMany.brief(table);
    for (int active = 6; active <= 14; active++) {
      Requirement total = Requirement.of(Requirement.Kind.TOTAL_ACTIVE, "", active - 0.2, active);
      all.add(model.withRequirement(0, total));
    }
    return all;
  }

  /**
   * Solves many briefs. Table and briefs are immutable and a solve keeps no state, so nothing has
   * to be locked and the answers are the same bits as one after the other.
   *
   * @param briefs what is asked
   * @param table what there is
   * @param executor where to work; it stays open
   * @return the answers in the order of the briefs
   */
  static List<BlendResult> screen(
      List<Brief> briefs, MaterialTable table, ExecutorService executor) {
    List<Future<BlendResult>> running = new ArrayList<>();
    for (Brief brief : briefs) {
      running.add(executor.submit(() -> Blends.solve(brief, table)));
    }
    List<BlendResult> answers = new ArrayList<>();
    for (Future<BlendResult> f : running) {
      try {
        answers.add(f.get());
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new IllegalStateException("interrupted while screening", e);
      } catch (ExecutionException e) {
        throw new IllegalStateException("a brief could not be solved", e.getCause());
      }
    }
    return answers;
  }

  /**
   * Prints a line for each product.
   *
   * @param args none
   */
  public static void main(String[] args) {
    MaterialTable table = Blends.starterTable().priced(Blends.demoPrices());
    ExecutorService executor =
        Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors());
    try {
      for (BlendResult result : screen(briefs(table), table, executor)) {
        System.out.println(
            Text.right(Text.number(result.brief().requirements().get(0).high()), 3)
                + " % active, "
                + result.fold(
                    ScreeningInParallel::line, none -> "none: " + none.conflict().get(0).demand()));
      }
    } finally {
      executor.shutdown();
    }
  }

  private static String line(SolvedBlend s) {
    StringBuilder line = new StringBuilder(Text.fixed(s.wishValue(), 3)).append(" per kg:");
    s.blend().lines().stream()
        .filter(l -> l.material().isSurfactant())
        .forEach(
            l ->
                line.append(' ')
                    .append(Text.fixed(l.amount().value(), 1))
                    .append(' ')
                    .append(l.material().id()));
    return line.toString();
  }
}
