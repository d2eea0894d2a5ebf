package org.surfactantblend.blend;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.quantity.ActivePercent;
import org.surfactantblend.quantity.AsSuppliedPercent;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.ShareOfActive;
import org.surfactantblend.quantity.Text;

/**
 * A recipe: materials in percent by mass as supplied that add up to 100, and what is really in it.
 *
 * <p>Every figure is worked out from the lines; nothing is stored beside them. The figures here are
 * at the typical contents of the materials; the ones that return a {@link Range} give the
 * guaranteed spread over the materials' ranges.
 *
 * <p>Immutable and thread-safe.
 */
public final class Blend {
  /** How far the lines may be from 100 % before a blend is refused [% m/m]. */
  public static final double SUM_TOLERANCE = 1e-6;

  private final String name;
  private final List<BlendLine> lines;

  private Blend(String name, List<BlendLine> lines) {
    this.name = name;
    this.lines = List.copyOf(lines);
    double sum = lines.stream().mapToDouble(l -> l.amount().value()).sum();
    if (Math.abs(sum - 100) > SUM_TOLERANCE) {
      throw new IllegalArgumentException(sumOf(name, sum) + ", allowed is 100: " + sumAdvice(sum));
    }
  }

  private static String sumOf(String name, double sum) {
    return "lines of " + name + " added up to " + Text.number(sum) + " % m/m as supplied";
  }

  private static String sumAdvice(double sum) {
    return sum > 100
        ? "take "
            + Text.number(sum - 100)
            + " off, or divide every line by "
            + Text.number(sum / 100)
            + " to keep their proportions"
        : "fill up the "
            + Text.number(100 - sum)
            + " that are missing, usually with water (upToHundredWith)";
  }

  /**
   * Starts a blend.
   *
   * @param name what to call it
   * @return a builder
   */
  public static Builder named(String name) {
    return new Builder(Objects.requireNonNull(name, "name"));
  }

  /**
   * What it is called.
   *
   * @return the name
   */
  public String name() {
    return name;
  }

  /**
   * Its lines.
   *
   * @return in the order in which they were added
   */
  public List<BlendLine> lines() {
    return lines;
  }

  /**
   * The amount of a material.
   *
   * @param materialId the id
   * @return percent by mass as supplied, 0 when it is not in the blend
   */
  public AsSuppliedPercent asSupplied(String materialId) {
    double sum = 0;
    for (BlendLine l : lines) {
      if (l.material().id().equals(materialId)) {
        sum += l.amount().value();
      }
    }
    return new AsSuppliedPercent(sum);
  }

  private double total(ToDoubleFunction<Material> perKg) {
    double sum = 0;
    for (BlendLine l : lines) {
      sum += l.massFraction() * perKg.applyAsDouble(l.material());
    }
    return sum;
  }

  private Range totalRange(java.util.function.Function<Material, Range> perKg) {
    Range sum = Range.ZERO;
    for (BlendLine l : lines) {
      sum = sum.plus(perKg.apply(l.material()).times(l.massFraction()));
    }
    return sum;
  }

  /**
   * The total active matter at the typical contents.
   *
   * @return the active matter of the product
   */
  public ActivePercent totalActive() {
    return new ActivePercent(total(m -> m.activePercent().typical()));
  }

  /**
   * The guaranteed range of the total active matter.
   *
   * @return the range [% active of the product]
   */
  public Range totalActiveRange() {
    return totalRange(Material::activePercent);
  }

  /**
   * The active matter of one charge class.
   *
   * @param chargeClass the class
   * @return the active matter of the product
   */
  public ActivePercent active(ChargeClass chargeClass) {
    return new ActivePercent(total(m -> m.activePercent(chargeClass).typical()));
  }

  /**
   * The part of one charge class in the active matter.
   *
   * @param chargeClass the class
   * @return its share, 0 for a blend without active matter
   */
  public ShareOfActive share(ChargeClass chargeClass) {
    double all = totalActive().value();
    return new ShareOfActive(all == 0 ? 0 : Math.min(100, active(chargeClass).value() / all * 100));
  }

  /**
   * The guaranteed range of the share of one charge class: its contents at one end, all others at
   * the other.
   *
   * @param chargeClass the class
   * @return the range [% of the active]
   */
  public Range shareRange(ChargeClass chargeClass) {
    Range own = totalRange(m -> m.activePercent(chargeClass));
    double othersLow = 0;
    double othersHigh = 0;
    for (ChargeClass c : ChargeClass.values()) {
      if (c != chargeClass) {
        Range r = totalRange(m -> m.activePercent(c));
        othersLow += r.low();
        othersHigh += r.high();
      }
    }
    double typical = share(chargeClass).value();
    return Range.of(
        Math.min(typical, percentOf(own.low(), othersHigh)),
        typical,
        Math.max(typical, percentOf(own.high(), othersLow)));
  }

  private static double percentOf(double part, double rest) {
    return part + rest == 0 ? 0 : part / (part + rest) * 100;
  }

  /**
   * The part of one material in the active matter.
   *
   * @param materialId the id
   * @return its share, 0 for a blend without active matter
   */
  public ShareOfActive shareOfMaterial(String materialId) {
    double all = totalActive().value();
    double own = total(m -> m.id().equals(materialId) ? m.activePercent().typical() : 0);
    return new ShareOfActive(all == 0 ? 0 : Math.min(100, own / all * 100));
  }

  /**
   * The amount of active substance of one charge class.
   *
   * @param chargeClass the class
   * @return the amount [mmol/kg of product], or empty when a molar mass is not known
   */
  public OptionalDouble activeMmolPerKg(ChargeClass chargeClass) {
    double sum = 0;
    for (BlendLine l : lines) {
      for (Constituent c : l.material().constituents()) {
        if (c.chargeClass().filter(k -> k == chargeClass).isPresent()) {
          if (c.molarMass().isEmpty()) {
            return OptionalDouble.empty();
          }
          sum += l.massFraction() * c.percent().typical() * 10 / c.molarMass().getAsDouble() * 1000;
        }
      }
    }
    return OptionalDouble.of(sum);
  }

  /**
   * How much of a substance it holds from all sources, by INCI name; {@code Aqua} is all water.
   *
   * @param inciName the INCI name, compared without regard to case
   * @return the guaranteed range and typical value [% m/m of the product]
   */
  public Range percentOf(String inciName) {
    return totalRange(m -> m.percentOf(inciName));
  }

  /**
   * Sodium chloride from all sources.
   *
   * @return the guaranteed range and typical value [% m/m of the product]
   */
  public Range saltPercent() {
    return percentOf(Constituent.SODIUM_CHLORIDE);
  }

  /**
   * Water from all sources, at the typical contents.
   *
   * @return the water [% m/m of the product]
   */
  public double waterPercent() {
    return percentOf(Constituent.WATER).typical();
  }

  /**
   * Every substance with its amount from all sources, at the typical contents, largest first and
   * equal ones by name.
   *
   * @return amounts by INCI name [% m/m of the product]
   */
  public Map<String, Double> inciAmounts() {
    Map<String, Double> sums = new TreeMap<>();
    sums.put(Constituent.WATER, waterPercent());
    for (BlendLine l : lines) {
      for (Constituent c : l.material().constituents()) {
        sums.merge(c.inciName(), l.massFraction() * c.percent().typical(), Double::sum);
      }
    }
    List<Map.Entry<String, Double>> entries = new ArrayList<>(sums.entrySet());
    entries.sort(
        Map.Entry.<String, Double>comparingByValue()
            .reversed()
            .thenComparing(Map.Entry.comparingByKey()));
    Map<String, Double> ordered = new LinkedHashMap<>();
    for (Map.Entry<String, Double> e : entries) {
      if (e.getValue() > 0) {
        ordered.put(e.getKey(), e.getValue());
      }
    }
    return Collections.unmodifiableMap(ordered);
  }

  /**
   * What a kilogram costs in raw materials.
   *
   * @param prices the shop's prices
   * @return the cost [currency per kg of product], or empty when a line has no price
   */
  public OptionalDouble costPerKg(PriceList prices) {
    double sum = 0;
    for (BlendLine l : lines) {
      OptionalDouble price = prices.pricePerKg(l.material().id());
      if (price.isEmpty()) {
        return OptionalDouble.empty();
      }
      sum += l.massFraction() * price.getAsDouble();
    }
    return OptionalDouble.of(sum);
  }

  /**
   * What a kilogram of its active matter costs.
   *
   * @param prices the shop's prices
   * @return the raw-material cost of the product divided by its active matter [currency per kg of
   *     active], or empty when a line has no price or there is no active matter
   */
  public OptionalDouble costPerKgActive(PriceList prices) {
    OptionalDouble cost = costPerKg(prices);
    double active = totalActive().value();
    return cost.isEmpty() || active == 0
        ? OptionalDouble.empty()
        : OptionalDouble.of(cost.getAsDouble() / active * 100);
  }

  /**
   * The blend of its surfactants alone, with water in place of everything else.
   *
   * @param water the material to fill up with
   * @return the reduced blend
   */
  public Blend surfactantsOnly(Material water) {
    Builder b = named(name);
    for (BlendLine l : lines) {
      if (l.material().isSurfactant()) {
        b.line(l.material(), l.amount().value());
      }
    }
    return b.upToHundredWith(water);
  }

  /**
   * The line of a material, if it has one.
   *
   * @param materialId the id
   * @return the first line of that material
   */
  public Optional<BlendLine> line(String materialId) {
    return lines.stream().filter(l -> l.material().id().equals(materialId)).findFirst();
  }

  @Override
  public String toString() {
    StringBuilder s = new StringBuilder(name).append('\n');
    for (BlendLine l : lines) {
      s.append("  ")
          .append(Text.left(l.material().toString(), 44))
          .append(Text.right(Text.fixed(l.amount().value(), 3), 9))
          .append(" % as supplied\n");
    }
    return s.append("  total active ")
        .append(Text.fixed(totalActive().value(), 3))
        .append(" %\n")
        .toString();
  }

  /** Builds a {@link Blend}; not thread-safe. */
  public static final class Builder {
    private final String name;
    private final List<BlendLine> lines = new ArrayList<>();

    private Builder(String name) {
      this.name = name;
    }

    /**
     * Adds a line; a second line of the same material and lot is added to the first.
     *
     * @param material the material or lot
     * @param asSuppliedPercent percent by mass of the product as supplied, 0 to 100
     * @return this builder
     * @throws IllegalArgumentException if the percentage is out of range
     */
    public Builder line(Material material, double asSuppliedPercent) {
      AsSuppliedPercent amount = new AsSuppliedPercent(asSuppliedPercent);
      for (int i = 0; i < lines.size(); i++) {
        if (lines.get(i).material() == material) {
          lines.set(
              i,
              new BlendLine(
                  material, new AsSuppliedPercent(lines.get(i).amount().value() + amount.value())));
          return this;
        }
      }
      lines.add(new BlendLine(material, amount));
      return this;
    }

    /**
     * Fills up to 100 % with a material, usually water, and builds.
     *
     * @param filler the material to fill up with
     * @return the blend
     * @throws IllegalArgumentException if the lines already exceed 100 %
     */
    public Blend upToHundredWith(Material filler) {
      double sum = lines.stream().mapToDouble(l -> l.amount().value()).sum();
      if (sum > 100 + SUM_TOLERANCE) {
        throw new IllegalArgumentException(
            sumOf(name, sum) + ", allowed is at most 100: " + sumAdvice(sum));
      }
      line(filler, Math.max(0, 100 - sum));
      return new Blend(name, lines);
    }

    /**
     * Builds from lines that already add up to 100 %.
     *
     * @return the blend
     * @throws IllegalArgumentException if they do not add up to 100 %
     */
    public Blend build() {
      return new Blend(name, lines);
    }

    @Override
    public String toString() {
      double sum = lines.stream().mapToDouble(l -> l.amount().value()).sum();
      return name + ", lines so far: " + lines.size() + ", " + Text.number(sum) + " %";
    }
  }
}
