package org.surfactantblend.batch;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Scale;
import org.surfactantblend.quantity.Text;

/**
 * A blend as grams on real scales.
 *
 * <p>Every line is weighed on the finest scale that holds it, or in up to 4 portions on the next
 * finer one where it has too few steps of that, and rounded half up to its step; water takes the
 * rest and is rounded last. {@link #realised()} is worked out from the rounded grams.
 *
 * <pre>
 * BatchSheet sheet = BatchSheet.of(blend).mass(Mass.kilograms(5)).on(fine, coarse);
 * </pre>
 *
 * <p>Immutable and thread-safe.
 */
public final class BatchSheet {
  /** Surfactant lines whose rounding is chosen together at most. */
  private static final int MOST_CHOSEN_TOGETHER = 16;

  private final Blend blend;
  private final Mass mass;
  private final Optional<BatchOrder> order;
  private final String batchNumber;
  private final String formulaVersion;
  private final boolean keepsTotal;
  private final List<Scale> scales;
  private final List<BatchLine> lines;
  private final @Nullable WaterLine water;
  private final Blend realised;
  private final double realisedGrams;
  private final double activeErrorBound;

  private BatchSheet(Plan plan, Mass mass, Scales scales) {
    blend = plan.blend;
    this.mass = mass;
    order = Optional.ofNullable(plan.order);
    batchNumber = plan.batchNumber;
    formulaVersion = plan.formulaVersion;
    keepsTotal = plan.keepsTotal;
    this.scales = scales.list();
    double batch = mass.inGrams();
    List<BlendLine> blendLines = blend.lines();
    int waterLine = -1;
    for (int i = 0; i < blendLines.size(); i++) {
      waterLine = blendLines.get(i).material().constituents().isEmpty() ? i : waterLine;
    }
    int n = blendLines.size();
    double[] exact = new double[n];
    double[] active = new double[n];
    double[] weigh = new double[n];
    Scale[] scale = new Scale[n];
    for (int i = 0; i < n; i++) {
      exact[i] = blendLines.get(i).amount().value() * batch / 100;
      active[i] = blendLines.get(i).material().activePercent().typical() / 100;
      scale[i] = scales.forLine(exact[i]);
      weigh[i] = scale[i].round(exact[i]);
    }
    double totalActive = 0;
    for (int i = 0; i < n; i++) {
      totalActive += active[i] * exact[i];
    }
    if (keepsTotal) {
      chooseRounding(exact, active, weigh, scale);
    }
    double rounded = 0;
    double activeBound = 0;
    List<BatchLine> all = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      if (i != waterLine) {
        Material m = blendLines.get(i).material();
        rounded += weigh[i];
        activeBound += active[i] * scale[i].resolutionGrams() * (keepsTotal ? 1 : 0.5);
        all.add(
            new BatchLine(
                m,
                blendLines.get(i).amount().value(),
                exact[i],
                weigh[i],
                scale[i],
                Scales.portions(scale[i], exact[i]),
                plan.phases.getOrDefault(m.id(), Phase.usualFor(m)),
                Premix.forLine(exact[i], scale[i], scales, largestOther(exact, i))));
      }
    }
    lines = List.copyOf(all);
    double totalOff = 0;
    if (waterLine >= 0) {
      double residual = batch - rounded;
      if (residual < 0) {
        // Rounding up can leave less than no water only where there is next to none.
        residual = 0;
      }
      BlendLine w = blendLines.get(waterLine);
      List<BatchLine> pours = pours(w, exact[waterLine], residual, scales);
      water = new WaterLine(w.material(), w.amount().value(), exact[waterLine], residual, pours);
      totalOff = pours.get(pours.size() - 1).scale().resolutionGrams() / 2;
    } else {
      water = null;
      for (int i = 0; i < n; i++) {
        totalOff += scale[i].resolutionGrams() * (keepsTotal ? 1 : 0.5);
      }
    }
    realisedGrams = rounded + (water == null ? 0 : water.weighGrams());
    if (realisedGrams <= 0) {
      throw new IllegalArgumentException(
          "batch was " + mass + ", allowed is one that gives at least one step on a scale");
    }
    realised = realised(blendLines, weigh, waterLine);
    // Off by the lines' own roundings, and by the total the water leaves.
    activeErrorBound =
        (activeBound + totalActive / batch * totalOff)
            / Math.max(batch - totalOff, realisedGrams)
            * 100;
  }

  private static double largestOther(double[] exact, int line) {
    return IntStream.range(0, exact.length)
        .filter(i -> i != line)
        .mapToDouble(i -> exact[i])
        .max()
        .orElse(0);
  }

  private Blend realised(List<BlendLine> blendLines, double[] weigh, int waterLine) {
    Blend.Builder b = Blend.named(blend.name() + ", as weighed");
    for (int i = 0; i < weigh.length; i++) {
      double grams = i == waterLine && water != null ? water.weighGrams() : weigh[i];
      b.line(blendLines.get(i).material(), grams / realisedGrams * 100);
    }
    return b.build();
  }

  /** Rounds surfactant lines up or down so that the error of the total active is smallest. */
  private static void chooseRounding(
      double[] exact, double[] active, double[] weigh, Scale[] scale) {
    List<Integer> free = new ArrayList<>();
    double fixed = 0;
    for (int i = 0; i < exact.length; i++) {
      if (active[i] > 0) {
        double down = scale[i].roundDown(exact[i]);
        if (exact[i] - down > 1e-9 && down > 0) {
          free.add(i);
        } else {
          fixed += active[i] * (weigh[i] - exact[i]);
        }
      }
    }
    // Beyond sixteen lines the ones with the smallest steps of active keep their half-up rounding.
    free.sort(Comparator.comparingDouble(i -> -active[i] * scale[i].resolutionGrams()));
    while (free.size() > MOST_CHOSEN_TOGETHER) {
      int i = free.remove(free.size() - 1);
      fixed += active[i] * (weigh[i] - exact[i]);
    }
    int k = free.size();
    double[] down = new double[k];
    double[] up = new double[k];
    for (int j = 0; j < k; j++) {
      int i = free.get(j);
      down[j] = scale[i].roundDown(exact[i]);
      up[j] = scale[i].round(down[j] + scale[i].resolutionGrams());
    }
    int best = 0;
    double bestError = Double.POSITIVE_INFINITY;
    double bestSpread = Double.POSITIVE_INFINITY;
    for (int choice = 0; choice < 1 << k; choice++) {
      double error = fixed;
      double spread = 0;
      for (int j = 0; j < k; j++) {
        int i = free.get(j);
        double off = ((choice >> j & 1) == 0 ? down[j] : up[j]) - exact[i];
        error += active[i] * off;
        spread += Math.abs(active[i] * off);
      }
      double size = Math.abs(error);
      if (size < bestError - 1e-12 || (size <= bestError + 1e-12 && spread < bestSpread - 1e-12)) {
        best = choice;
        bestError = size;
        bestSpread = spread;
      }
    }
    for (int j = 0; j < k; j++) {
      weigh[free.get(j)] = (best >> j & 1) == 0 ? down[j] : up[j];
    }
  }

  private List<BatchLine> pours(BlendLine w, double exact, double residual, Scales on) {
    Scale own = on.forMass(residual);
    double once = own.round(residual);
    if (!keepsTotal || own.equals(on.finest()) || Math.abs(once - residual) < 1e-9) {
      return List.of(whole(w, exact, once, own));
    }
    double most = own.roundDown(residual);
    double rest = on.finest().round(residual - most);
    return rest == 0
        ? List.of(whole(w, exact, most, own))
        : most == 0
            ? List.of(whole(w, exact, rest, on.finest()))
            : List.of(part(w, most, most, own), part(w, residual - most, rest, on.finest()));
  }

  /** Water that is weighed at once has the recipe's figures, like every other line. */
  private static BatchLine whole(BlendLine w, double exact, double weigh, Scale scale) {
    return pour(w, w.amount().value(), exact, weigh, scale);
  }

  private BatchLine part(BlendLine w, double exact, double weigh, Scale scale) {
    return pour(w, exact / mass.inGrams() * 100, exact, weigh, scale);
  }

  private static BatchLine pour(
      BlendLine w, double percent, double exact, double weigh, Scale scale) {
    return new BatchLine(
        w.material(),
        percent,
        exact,
        weigh,
        scale,
        Scales.portions(scale, weigh),
        Phase.WATER,
        null);
  }

  /**
   * Starts a sheet.
   *
   * @param blend what to make
   * @return the plan, which still needs a mass and scales
   */
  public static Plan of(Blend blend) {
    return new Plan(Objects.requireNonNull(blend, "blend"));
  }

  /**
   * What is made.
   *
   * @return the blend
   */
  public Blend blend() {
    return blend;
  }

  /**
   * How much is made.
   *
   * @return the mass of the batch
   */
  public Mass mass() {
    return mass;
  }

  /**
   * The order behind the mass.
   *
   * @return the order, or empty when the mass was given
   */
  public Optional<BatchOrder> order() {
    return order;
  }

  /**
   * The number under which the batch can be traced.
   *
   * @return the number; empty when none was given
   */
  public String batchNumber() {
    return batchNumber;
  }

  /**
   * The version of the formula.
   *
   * @return the version; empty when none was given
   */
  public String formulaVersion() {
    return formulaVersion;
  }

  /**
   * The scales.
   *
   * @return finest first
   */
  public List<Scale> scales() {
    return scales;
  }

  /**
   * Whether the weighed grams are made to add up to the batch.
   *
   * @return true when that option is on
   */
  public boolean keepsTotal() {
    return keepsTotal;
  }

  /**
   * Every line but the water.
   *
   * @return in the order of the blend
   */
  public List<BatchLine> lines() {
    return lines;
  }

  /**
   * The line of a material.
   *
   * @param materialId the id
   * @return the first such line, or empty
   */
  public Optional<BatchLine> line(String materialId) {
    return lines.stream().filter(l -> l.material().id().equals(materialId)).findFirst();
  }

  /**
   * The water, which takes the rest.
   *
   * @return the water, or empty when the blend has no line of water
   */
  public Optional<WaterLine> water() {
    return Optional.ofNullable(water);
  }

  /**
   * The lines in the order of weighing: finest scale first, small amounts before large ones on
   * each.
   *
   * @return the lines without water
   */
  public List<BatchLine> weighingOrder() {
    return lines.stream().sorted(Comparator.comparingDouble(BatchLine::exactGrams)).toList();
  }

  /**
   * The lines in the order of addition, by phases; water first.
   *
   * @return the lines of every phase that has any
   */
  public Map<Phase, List<BatchLine>> orderOfAddition() {
    Map<Phase, List<BatchLine>> all = new LinkedHashMap<>();
    for (Phase p : Phase.values()) {
      List<BatchLine> own = new ArrayList<>();
      if (p == Phase.WATER && water != null) {
        own.addAll(water.pours());
      }
      lines.stream().filter(l -> l.phase() == p).forEach(own::add);
      if (!own.isEmpty()) {
        all.put(p, List.copyOf(own));
      }
    }
    return all;
  }

  /**
   * The lines whose rounding error is above a limit.
   *
   * @param percent the limit [% of the line], 0 or more
   * @return the lines
   */
  public List<BatchLine> linesOffByMoreThan(double percent) {
    return lines.stream().filter(l -> Math.abs(l.errorPercent()) > percent).toList();
  }

  /**
   * The line with the largest rounding error.
   *
   * @return the line, or empty when there is none but water
   */
  public Optional<BatchLine> worstLine() {
    BatchLine worst = null;
    for (BatchLine l : lines) {
      if (worst == null || Math.abs(l.errorPercent()) > Math.abs(worst.errorPercent()) + 1e-9) {
        worst = l;
      }
    }
    return Optional.ofNullable(worst);
  }

  /**
   * What the rounded grams make, worked out from those grams alone.
   *
   * @return the blend as weighed
   */
  public Blend realised() {
    return realised;
  }

  /**
   * The sum of all rounded grams.
   *
   * @return the mass
   */
  public Mass realisedMass() {
    return Mass.grams(realisedGrams);
  }

  /**
   * How far rounding can take the total active from the recipe at most, whatever the amounts.
   *
   * @return the bound [% active of the product, either way]
   */
  public double activeErrorBound() {
    return activeErrorBound;
  }

  /**
   * What is noted of the materials for the bench.
   *
   * @return one text for each material that has notes: its id, a colon and its remarks
   */
  public List<String> notes() {
    return blend.lines().stream()
        .map(BlendLine::material)
        .filter(m -> !m.benchNotes().isEmpty())
        .map(m -> m.id() + ": " + String.join("; ", m.benchNotes()))
        .distinct()
        .toList();
  }

  /**
   * The sheet in at most 80 columns.
   *
   * @return several lines
   */
  public String text() {
    return BatchText.of(this);
  }

  @Override
  public String toString() {
    return text();
  }

  /** What is still open before a sheet can be written; not thread-safe. */
  public static final class Plan {
    private final Blend blend;
    private @Nullable Mass mass;
    private @Nullable BatchOrder order;
    private String batchNumber = "";
    private String formulaVersion = "";
    private boolean keepsTotal;
    private final Map<String, Phase> phases = new LinkedHashMap<>();

    private Plan(Blend blend) {
      this.blend = blend;
    }

    /**
     * Sets the mass to make.
     *
     * @param batch the mass, more than 0
     * @return this plan
     * @throws IllegalArgumentException if the mass is 0
     */
    public Plan mass(Mass batch) {
      Require.positive("mass of the batch", batch.inGrams(), "g");
      mass = batch;
      return this;
    }

    /**
     * Makes what an order needs.
     *
     * @param bottles the order
     * @return this plan
     */
    public Plan mass(BatchOrder bottles) {
      order = bottles;
      return mass(bottles.batch());
    }

    /**
     * Sets the number under which the batch can be traced.
     *
     * @param number the number
     * @return this plan
     */
    public Plan batchNumber(String number) {
      batchNumber = number.strip();
      return this;
    }

    /**
     * Sets the version of the formula.
     *
     * @param version the version
     * @return this plan
     */
    public Plan formulaVersion(String version) {
      formulaVersion = version.strip();
      return this;
    }

    /**
     * Puts a material into another phase than the usual one.
     *
     * @param materialId a line of the blend
     * @param phase the phase
     * @return this plan
     * @throws IllegalArgumentException if the blend has no such line
     */
    public Plan phase(String materialId, Phase phase) {
      if (blend.line(materialId).isEmpty()) {
        throw new IllegalArgumentException(
            "material was '" + materialId + "', allowed is a line of " + blend.name());
      }
      phases.put(materialId, Objects.requireNonNull(phase, "phase"));
      return this;
    }

    /**
     * Rounds so that the weighed grams add up to the batch and the error of the total active is as
     * small as up or down on every surfactant line can make it. The water is weighed in two pours
     * where one scale cannot keep the total. A batch that is no whole number of steps of the finest
     * scale is kept to half such a step.
     *
     * @return this plan
     */
    public Plan keepingTotal() {
      keepsTotal = true;
      return this;
    }

    /**
     * Writes the sheet.
     *
     * @param scales the scales of the shop, at least one
     * @return the sheet
     * @throws IllegalArgumentException if there is no scale
     * @throws IllegalStateException if no mass was set
     */
    public BatchSheet on(Scale... scales) {
      return on(List.of(scales));
    }

    /**
     * Writes the sheet.
     *
     * @param scales the scales of the shop, at least one
     * @return the sheet
     * @throws IllegalArgumentException if there is no scale
     * @throws IllegalStateException if no mass was set
     */
    public BatchSheet on(List<Scale> scales) {
      Mass batch = mass;
      if (batch == null) {
        throw new IllegalStateException(
            "mass of the batch was not set, allowed is more than 0 g before scales are named");
      }
      return new BatchSheet(this, batch, new Scales(scales));
    }

    @Override
    public String toString() {
      return "batch sheet of " + blend.name() + ", scales not named yet";
    }
  }

  /** A mass in grams with the decimals of a scale. */
  static String grams(double grams, Scale scale) {
    int decimals = 0;
    double step = scale.resolutionGrams();
    while (decimals < 6 && Math.abs(step - Math.rint(step)) > 1e-9) {
      step *= 10;
      decimals++;
    }
    return Text.fixed(grams, decimals);
  }
}
