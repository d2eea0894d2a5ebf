package org.surfactantblend.batch;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Scale;
import org.surfactantblend.quantity.Text;
import org.surfactantblend.solve.Rebalance;

/**
 * What to add to a batch that went wrong, and what no addition repairs.
 *
 * <p>Immutable and thread-safe.
 */
public final class Correction {
  /** Contents within this much of the plan need no correction [% of the content]. */
  public static final double TOLERANCE_PERCENT = 1;

  private final AsWeighed batch;
  private final Map<Material, Double> additions;
  private final double finalGrams;
  private final List<NotRepaired> notRepaired;
  private final boolean needed;

  /**
   * A content that stays off the plan.
   *
   * @param name what it is
   * @param plannedPercent what was planned [% m/m]
   * @param reachedPercent what is reached [% m/m]
   * @param reason why it cannot be repaired
   */
  public record NotRepaired(
      String name, double plannedPercent, double reachedPercent, String reason) {}

  Correction(
      AsWeighed batch,
      Map<Material, Double> additions,
      double finalGrams,
      List<NotRepaired> notRepaired,
      Rebalance.Answer answer) {
    this.batch = batch;
    this.additions = Collections.unmodifiableMap(new LinkedHashMap<>(additions));
    this.finalGrams = finalGrams;
    this.notRepaired = List.copyOf(notRepaired);
    Blend now = batch.contents();
    boolean off = false;
    for (Rebalance.Reached r : answer.reached()) {
      double planned = r.held().percent();
      double is = now.percentOf(r.held().name()).typical();
      off |= Math.abs(is - planned) > planned * TOLERANCE_PERCENT / 100;
    }
    needed = off;
  }

  /**
   * Whether any content is off the plan by more than {@link #TOLERANCE_PERCENT}.
   *
   * @return false when the batch may stand as it is
   */
  public boolean isNeeded() {
    return needed;
  }

  /**
   * What to add, exactly.
   *
   * @return masses by material [g]
   */
  public Map<Material, Double> additions() {
    return additions;
  }

  /**
   * What to add, as the scales of the sheet can weigh it.
   *
   * @return masses by material [g], each on the finest scale that holds it
   */
  public Map<Material, Double> additionsToWeigh() {
    Map<Material, Double> all = new LinkedHashMap<>();
    additions.forEach((m, g) -> all.put(m, batch.scaleFor(g).round(g)));
    return all;
  }

  /**
   * The batch with the additions.
   *
   * @return its mass
   */
  public Mass finalMass() {
    return Mass.grams(finalGrams);
  }

  /**
   * What the batch contains with the exact additions.
   *
   * @return the blend
   */
  public Blend contents() {
    Map<Material, Double> all = new LinkedHashMap<>();
    double before = batch.mass().inGrams();
    batch
        .contents()
        .lines()
        .forEach(l -> all.merge(l.material(), l.massFraction() * before, Double::sum));
    additions.forEach((m, g) -> all.merge(m, g, Double::sum));
    double total = 0;
    for (double g : all.values()) {
      total += g;
    }
    Blend.Builder b = Blend.named(batch.sheet().blend().name() + ", corrected");
    for (Map.Entry<Material, Double> e : all.entrySet()) {
      b.line(e.getKey(), e.getValue() / total * 100);
    }
    return b.build();
  }

  /**
   * Whether the additions bring every content to the plan.
   *
   * @return false when {@link #notRepaired()} names something
   */
  public boolean repairsEverything() {
    return notRepaired.isEmpty();
  }

  /**
   * What stays off the plan.
   *
   * @return the contents with the reason
   */
  public List<NotRepaired> notRepaired() {
    return notRepaired;
  }

  /**
   * The correction in at most 80 columns.
   *
   * @return several lines
   */
  public String text() {
    List<String> lines = new ArrayList<>();
    lines.add(
        "Correction of "
            + batch.sheet().blend().name()
            + ", "
            + Text.number(batch.mass().inGrams())
            + " g in the kettle");
    if (!needed) {
      lines.add("  Every content is within 1 % of the plan: no correction needed.");
    } else {
      additions.forEach(
          (m, g) -> {
            Scale s = batch.scaleFor(g);
            lines.add(
                "  add "
                    + Text.left(m.toString(), 40)
                    + Text.right(BatchSheet.grams(s.round(g), s), 12)
                    + " g");
          });
      lines.add("  final mass " + Text.number(finalGrams) + " g");
    }
    for (NotRepaired n : notRepaired) {
      lines.add(
          "  not repaired: "
              + n.name()
              + " "
              + Text.fixed(n.reachedPercent(), 3)
              + " % instead of "
              + Text.fixed(n.plannedPercent(), 3)
              + " %; "
              + n.reason());
    }
    lines.add("  Mix, read the pH, and dose acid by readings: the old dose no longer applies.");
    return Text.wrapped(String.join("\n", lines) + "\n", 80);
  }

  @Override
  public String toString() {
    return text();
  }
}
