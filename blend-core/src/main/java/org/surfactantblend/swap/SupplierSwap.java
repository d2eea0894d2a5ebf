package org.surfactantblend.swap;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;
import org.surfactantblend.solve.Rebalance;

/**
 * The replacement of one or several materials of a blend by other lots, by other grades of the same
 * INCI name, or by other surfactants of the same charge class.
 *
 * <p>Every active percentage is held, water takes the difference. Contents that a material carries
 * beside its active matter (salt, humectant, preservative) can be held as well when the blend has a
 * line of its own for them. Describe the swap, then ask for {@link #report()}:
 *
 * <pre>
 * SwapReport report = SupplierSwap.in(blend)
 *     .replace("cocamidopropyl-betaine-30").with(lot)
 *     .holdingSalt("sodium-chloride")
 *     .report();
 * </pre>
 *
 * <p>Immutable and thread-safe; every step returns a new description.
 */
public final class SupplierSwap {
  final Blend blend;
  final Map<String, LotMix> changes;
  final Map<String, String> holds;
  final PriceList prices;
  final Map<Material, Double> newPrices;
  final @Nullable Material acid;
  final double targetPh;
  final SwapTolerances tolerances;
  final Conditions conditions;
  final Material water;

  private SupplierSwap(Steps s) {
    blend = s.blend;
    changes = Collections.unmodifiableMap(s.changes);
    holds = Collections.unmodifiableMap(s.holds);
    prices = s.prices;
    newPrices = Collections.unmodifiableMap(s.newPrices);
    acid = s.acid;
    targetPh = s.targetPh;
    tolerances = s.tolerances;
    conditions = s.conditions;
    water = s.water;
  }

  /** The same fields, open to change by one step. */
  private static final class Steps {
    private final Blend blend;
    private final Map<String, LotMix> changes;
    private final Map<String, String> holds;
    private PriceList prices;
    private final Map<Material, Double> newPrices;
    private @Nullable Material acid;
    private double targetPh;
    private SwapTolerances tolerances;
    private Conditions conditions;
    private final Material water;

    Steps(Blend blend, Material water) {
      this.blend = blend;
      this.water = water;
      changes = new LinkedHashMap<>();
      holds = new LinkedHashMap<>();
      prices = PriceList.EMPTY;
      newPrices = new LinkedHashMap<>();
      targetPh = 5.5;
      tolerances = SwapTolerances.USUAL;
      conditions = Conditions.standard();
    }

    Steps(SupplierSwap from) {
      blend = from.blend;
      water = from.water;
      changes = new LinkedHashMap<>(from.changes);
      holds = new LinkedHashMap<>(from.holds);
      prices = from.prices;
      newPrices = new LinkedHashMap<>(from.newPrices);
      acid = from.acid;
      targetPh = from.targetPh;
      tolerances = from.tolerances;
      conditions = from.conditions;
    }
  }

  /**
   * Starts a swap.
   *
   * @param blend the blend as it was made so far; it needs a line of water, which takes up the
   *     difference
   * @return the swap, with nothing replaced yet
   * @throws IllegalArgumentException if the blend has no line of water
   */
  public static SupplierSwap in(Blend blend) {
    Material water = null;
    for (BlendLine l : blend.lines()) {
      if (l.material().constituents().isEmpty()) {
        water = l.material();
      }
    }
    if (water == null) {
      throw new IllegalArgumentException(
          "blend " + blend.name() + " had no line of water, allowed is one that has");
    }
    return new SupplierSwap(new Steps(blend, water));
  }

  /**
   * Names a material to replace; {@link Replacing#with} then says by what.
   *
   * @param materialId the id of a line of the blend
   * @return the step to complete
   * @throws IllegalArgumentException if the blend has no such line
   */
  public Replacing replace(String materialId) {
    requireLine(materialId);
    return new Replacing(materialId);
  }

  private void requireLine(String materialId) {
    if (blend.line(materialId).isEmpty()) {
      throw new IllegalArgumentException(
          "material was '" + materialId + "', allowed is a line of " + blend.name());
    }
  }

  @Override
  public String toString() {
    StringBuilder s = new StringBuilder("swap in ").append(blend.name()).append(": ");
    changes.forEach((id, mix) -> s.append(id).append(" -> ").append(mix).append(", "));
    return changes.isEmpty()
        ? s.append("nothing replaced yet").toString()
        : s.substring(0, s.length() - 2);
  }

  /** A replacement that still needs to be told what comes in. */
  public final class Replacing {
    private final String materialId;

    private Replacing(String materialId) {
      this.materialId = materialId;
    }

    /**
     * Replaces by a lot or grade.
     *
     * @param lot what comes in
     * @return the swap
     * @throws IllegalArgumentException if it cannot take the place of what goes out: a surfactant
     *     needs one of the same charge class, anything else the same INCI name
     */
    public SupplierSwap with(Material lot) {
      return with(LotMix.of(lot));
    }

    /**
     * Replaces by a lot at a price of its own, as a certificate may carry.
     *
     * @param lot what comes in
     * @param pricePerKg its price [currency per kg as supplied], 0 or more
     * @return the swap
     * @throws IllegalArgumentException as for {@link #with(Material)}, or if the price is negative
     */
    public SupplierSwap with(Material lot, double pricePerKg) {
      Steps s = new Steps(with(lot));
      s.newPrices.put(
          lot, Require.inRange("price of " + lot, pricePerKg, 0, Double.MAX_VALUE, "per kg"));
      return new SupplierSwap(s);
    }

    /**
     * Replaces by several lots in given parts.
     *
     * @param mix what comes in
     * @return the swap
     * @throws IllegalArgumentException as for {@link #with(Material)}
     */
    public SupplierSwap with(LotMix mix) {
      Material old = blend.line(materialId).orElseThrow().material();
      for (Material m : mix.lots()) {
        boolean fits =
            old.isSurfactant()
                ? m.chargeClass().equals(old.chargeClass())
                : !m.isSurfactant() && m.inciName().equalsIgnoreCase(old.inciName());
        if (!fits) {
          throw new IllegalArgumentException(
              "replacement of "
                  + materialId
                  + " was "
                  + m.id()
                  + ", allowed is "
                  + old.chargeClass()
                      .map(c -> "a surfactant that is " + c.label())
                      .orElse("another grade of " + old.inciName()));
        }
        Require.positive("content of " + m, content(m, old.isSurfactant()), "% m/m");
      }
      Steps s = new Steps(SupplierSwap.this);
      s.changes.put(materialId, mix);
      return new SupplierSwap(s);
    }

    @Override
    public String toString() {
      return "swap in " + blend.name() + ": " + materialId + " -> not named yet";
    }
  }

  static double content(Material m, boolean surfactant) {
    return surfactant ? m.activePercent().typical() : m.percentOf(m.inciName()).typical();
  }

  /**
   * Holds the sodium chloride from all sources, by giving the blend more or less of its own line.
   *
   * @param lineId the line of salt that gives way
   * @return the swap
   * @throws IllegalArgumentException if the blend has no such line or it holds no sodium chloride
   */
  public SupplierSwap holdingSalt(String lineId) {
    return holding(Constituent.SODIUM_CHLORIDE, lineId);
  }

  /**
   * Holds a substance from all sources, by giving the blend more or less of a line.
   *
   * @param inciName the substance, such as a humectant that the new lot carries
   * @param lineId the line that gives way
   * @return the swap
   * @throws IllegalArgumentException if the blend has no such line or it does not hold the
   *     substance
   */
  public SupplierSwap holding(String inciName, String lineId) {
    requireLine(lineId);
    Require.positive(
        inciName + " in " + lineId,
        blend.line(lineId).orElseThrow().material().percentOf(inciName).typical(),
        "% m/m");
    Steps s = new Steps(this);
    s.holds.put(inciName, lineId);
    return new SupplierSwap(s);
  }

  /**
   * Reckons cost with a shop's prices.
   *
   * @param newPrices the prices
   * @return the swap
   */
  public SupplierSwap priced(PriceList newPrices) {
    Steps s = new Steps(this);
    s.prices = Objects.requireNonNull(newPrices, "prices");
    return new SupplierSwap(s);
  }

  /**
   * Reckons the acid that brings the product to a pH. Lines of that acid already in the blend are
   * taken as a reserve that is not yet in when the starting pH is read.
   *
   * @param acidMaterial the acid as it is dosed
   * @param target the pH to reach, 0 to 14
   * @return the swap
   * @throws IllegalArgumentException if the pH is out of range
   */
  public SupplierSwap correctedWith(Material acidMaterial, double target) {
    Steps s = new Steps(this);
    s.acid = Objects.requireNonNull(acidMaterial, "acid");
    s.targetPh = Require.inRange("target pH", target, 0, 14, "");
    return new SupplierSwap(s);
  }

  /**
   * Judges by other tolerances than the usual ones.
   *
   * @param newTolerances the tolerances
   * @return the swap
   */
  public SupplierSwap judgedBy(SwapTolerances newTolerances) {
    Steps s = new Steps(this);
    s.tolerances = Objects.requireNonNull(newTolerances, "tolerances");
    return new SupplierSwap(s);
  }

  /**
   * Reckons pH under other conditions than 25 degC with the Davies term.
   *
   * @param newConditions the conditions
   * @return the swap
   */
  public SupplierSwap under(Conditions newConditions) {
    Steps s = new Steps(this);
    s.conditions = Objects.requireNonNull(newConditions, "conditions");
    return new SupplierSwap(s);
  }

  /**
   * Works the swap out.
   *
   * @return the new blend and everything that moved
   */
  public SwapReport report() {
    double[] amounts = closedForm();
    String obstacle = obstacle(amounts);
    if (obstacle == null) {
      return new SwapReport(this, blend(amounts), Optional.empty(), List.of());
    }
    return nearest(obstacle);
  }

  /** The new blend without any re-balancing: the old percentages with the new materials. */
  Blend gramForGram() {
    Blend.Builder b = Blend.named(blend.name());
    for (BlendLine l : blend.lines()) {
      LotMix mix = changes.get(l.material().id());
      if (mix == null) {
        b.line(l.material(), l.amount().value());
      } else {
        for (int i = 0; i < mix.lots().size(); i++) {
          b.line(mix.lots().get(i), l.amount().value() * mix.parts().get(i));
        }
      }
    }
    return b.build();
  }

  /** Percentages as supplied in the order of the blend's lines, a mix counted as one. */
  private double[] closedForm() {
    List<BlendLine> lines = blend.lines();
    double[] x = new double[lines.size()];
    int waterLine = -1;
    for (int i = 0; i < x.length; i++) {
      Material m = lines.get(i).material();
      x[i] = lines.get(i).amount().value();
      LotMix mix = changes.get(m.id());
      if (mix != null) {
        x[i] *= content(m, m.isSurfactant()) / mixContent(mix, m.isSurfactant());
      }
      if (m == water) {
        waterLine = i;
      }
    }
    for (Map.Entry<String, String> hold : holds.entrySet()) {
      double missing = blend.percentOf(hold.getKey()).typical();
      int line = -1;
      for (int i = 0; i < x.length; i++) {
        missing -= x[i] / 100 * percentOf(lines.get(i).material(), hold.getKey());
        line = lines.get(i).material().id().equals(hold.getValue()) ? i : line;
      }
      x[line] += missing * 100 / percentOf(lines.get(line).material(), hold.getKey());
    }
    double sum = 0;
    for (int i = 0; i < x.length; i++) {
      sum += i == waterLine ? 0 : x[i];
    }
    x[waterLine] = 100 - sum;
    return x;
  }

  private double percentOf(Material old, String inciName) {
    LotMix mix = changes.get(old.id());
    return mix == null ? old.percentOf(inciName).typical() : mix.percentOf(inciName).typical();
  }

  private static double mixContent(LotMix mix, boolean surfactant) {
    double sum = 0;
    for (int i = 0; i < mix.lots().size(); i++) {
      sum += mix.parts().get(i) * content(mix.lots().get(i), surfactant);
    }
    return sum;
  }

  private @Nullable String obstacle(double[] x) {
    List<BlendLine> lines = blend.lines();
    for (int i = 0; i < x.length; i++) {
      Material m = lines.get(i).material();
      if (x[i] < -1e-9) {
        return m.id() + " would be " + Text.fixed(x[i], 3) + " % as supplied";
      }
      LotMix mix = changes.get(m.id());
      if (mix != null) {
        for (int k = 0; k < mix.lots().size(); k++) {
          Material lot = mix.lots().get(k);
          double most = lot.maxUsePercent().orElse(100);
          if (x[i] * mix.parts().get(k) > most + 1e-9) {
            return lot.id()
                + " would be "
                + Text.fixed(x[i] * mix.parts().get(k), 3)
                + " % as supplied, above its greatest use of "
                + Text.number(most)
                + " %";
          }
        }
      }
    }
    return null;
  }

  private Blend blend(double[] x) {
    Blend.Builder b = Blend.named(blend.name());
    for (int i = 0; i < x.length; i++) {
      Material m = blend.lines().get(i).material();
      LotMix mix = changes.get(m.id());
      double amount = Math.min(100, Math.max(0, x[i]));
      if (mix == null) {
        b.line(m, amount);
      } else {
        for (int k = 0; k < mix.lots().size(); k++) {
          b.line(mix.lots().get(k), amount * mix.parts().get(k));
        }
      }
    }
    return b.build();
  }

  private SwapReport nearest(String obstacle) {
    List<Rebalance.Amount> present = new ArrayList<>();
    List<Rebalance.Amount> available = new ArrayList<>();
    List<Rebalance.Held> held = new ArrayList<>();
    for (BlendLine l : blend.lines()) {
      Material m = l.material();
      LotMix mix = changes.get(m.id());
      if (mix != null) {
        boolean surfactant = m.isSurfactant();
        for (Material lot : mix.lots()) {
          available.add(new Rebalance.Amount(lot, lot.maxUsePercent().orElse(100)));
        }
        held.add(
            new Rebalance.Held(
                (surfactant ? "active of " : "content of ") + mix,
                p -> mix.lots().contains(p) ? content(p, surfactant) : 0,
                l.massFraction() * content(m, surfactant)));
      } else if (m == water || holds.containsValue(m.id())) {
        available.add(new Rebalance.Amount(m, 100));
      } else if (l.amount().value() > 0) {
        present.add(new Rebalance.Amount(m, l.amount().value()));
      }
    }
    for (String inci : holds.keySet()) {
      held.add(
          new Rebalance.Held(
              inci + " from all sources",
              p -> p.percentOf(inci).typical(),
              blend.percentOf(inci).typical()));
    }
    Rebalance.Answer answer = new Rebalance(present, available, held, 100, 100).solve();
    Blend.Builder b = Blend.named(blend.name());
    for (int j = 0; j < available.size(); j++) {
      if (available.get(j).material() != water && answer.additions().get(j) > 0) {
        b.line(available.get(j).material(), answer.additions().get(j));
      }
    }
    present.forEach(p -> b.line(p.material(), p.mass()));
    return new SwapReport(
        this,
        b.upToHundredWith(water),
        Optional.of(obstacle),
        answer.reached().stream().filter(r -> !r.isHeld()).toList());
  }
}
