package org.surfactantblend.swap;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/**
 * The largest batch of a blend that a stock allows, every active percentage held, and what limits
 * it. Lots of one material are used up in the order in which they are listed: the oldest first.
 *
 * <p>Immutable and thread-safe.
 */
public final class LargestBatch {
  private final Blend blend;
  private final double grams;
  private final String limitedBy;
  private final Map<Stock, Double> used;
  private final List<String> notCounted;

  private LargestBatch(
      Blend blend,
      double grams,
      String limitedBy,
      Map<Stock, Double> used,
      List<String> notCounted) {
    this.blend = blend;
    this.grams = grams;
    this.limitedBy = limitedBy;
    this.used = Collections.unmodifiableMap(used);
    this.notCounted = List.copyOf(notCounted);
  }

  /**
   * Works out the largest batch.
   *
   * @param blend what to make
   * @param stock what there is; lines of the blend without any are taken as bought in
   * @return the batch
   * @throws IllegalArgumentException if no line of the blend has a stock
   */
  public static LargestBatch of(Blend blend, List<Stock> stock) {
    Map<String, Double> contentPerGram = contents(blend);
    double most = Double.POSITIVE_INFINITY;
    String limit = "";
    List<String> notCounted = new ArrayList<>();
    for (Map.Entry<String, Double> e : contentPerGram.entrySet()) {
      double content = 0;
      boolean any = false;
      for (Stock s : stock) {
        if (s.lot().id().equals(e.getKey())) {
          content += s.mass().inGrams() * contentOf(s.lot());
          any = true;
        }
      }
      if (!any) {
        notCounted.add(e.getKey());
      } else if (e.getValue() > 0 && content / e.getValue() < most) {
        most = content / e.getValue();
        limit = e.getKey();
      }
    }
    if (limit.isEmpty()) {
      throw new IllegalArgumentException(
          "stock was of none of the lines, allowed is a stock of at least one line of "
              + blend.name());
    }
    double byWater = mostByWater(blend, contentPerGram, stock, most);
    if (byWater < most) {
      most = byWater;
      limit = "water: the lots are too weak for more";
    }
    return new LargestBatch(blend, most, limit, uses(contentPerGram, stock, most), notCounted);
  }

  /** What is held for each material: its active matter, or its main content, per gram of batch. */
  private static Map<String, Double> contents(Blend blend) {
    Map<String, Double> all = new LinkedHashMap<>();
    for (BlendLine l : blend.lines()) {
      Material m = l.material();
      if (!m.constituents().isEmpty()) {
        all.merge(m.id(), l.massFraction() * contentOf(m), Double::sum);
      }
    }
    return all;
  }

  private static double contentOf(Material m) {
    double content = SupplierSwap.content(m, m.isSurfactant());
    return content > 0 ? content : 100;
  }

  private static Map<Stock, Double> uses(
      Map<String, Double> contentPerGram, List<Stock> stock, double batch) {
    Map<Stock, Double> all = new LinkedHashMap<>();
    Map<String, Double> open = new LinkedHashMap<>();
    contentPerGram.forEach((id, perGram) -> open.put(id, perGram * batch));
    for (Stock s : stock) {
      Double need = open.get(s.lot().id());
      if (need != null) {
        double take = Math.min(s.mass().inGrams(), need / contentOf(s.lot()));
        all.put(s, take);
        open.put(s.lot().id(), Math.max(0, need - take * contentOf(s.lot())));
      }
    }
    return all;
  }

  /**
   * The largest batch, up to a given one, whose water is not negative. The water changes linearly
   * with the batch between the sizes at which a lot runs out, so only those need to be looked at.
   */
  private static double mostByWater(
      Blend blend, Map<String, Double> contentPerGram, List<Stock> stock, double most) {
    List<Double> sizes = new ArrayList<>(List.of(most));
    Set<String> ids = new LinkedHashSet<>(contentPerGram.keySet());
    for (String id : ids) {
      double content = 0;
      for (Stock s : stock) {
        if (s.lot().id().equals(id)) {
          content += s.mass().inGrams() * contentOf(s.lot());
          double perGram = contentPerGram.getOrDefault(id, 0.0);
          if (perGram > 0 && content / perGram < most) {
            sizes.add(content / perGram);
          }
        }
      }
    }
    sizes.sort(Collections.reverseOrder());
    double above = Double.NaN;
    double waterAbove = Double.NaN;
    for (double size : sizes) {
      double water = water(blend, contentPerGram, stock, size);
      if (water >= -1e-9 * size) {
        return Double.isNaN(above)
            ? size
            : size + (above - size) * Math.max(0, water) / (Math.max(0, water) - waterAbove);
      }
      above = size;
      waterAbove = water;
    }
    return 0;
  }

  private static double water(
      Blend blend, Map<String, Double> contentPerGram, List<Stock> stock, double batch) {
    double rest = batch;
    Map<String, Double> open = new LinkedHashMap<>();
    contentPerGram.forEach((id, perGram) -> open.put(id, perGram * batch));
    for (Map.Entry<Stock, Double> u : uses(contentPerGram, stock, batch).entrySet()) {
      rest -= u.getValue();
      open.remove(u.getKey().lot().id());
    }
    for (BlendLine l : blend.lines()) {
      rest -= open.containsKey(l.material().id()) ? l.massFraction() * batch : 0;
    }
    return rest;
  }

  /**
   * The mass of the batch.
   *
   * @return the mass
   */
  public Mass mass() {
    return Mass.grams(grams);
  }

  /**
   * What limits it.
   *
   * @return the id of a material, or a phrase that begins with {@code water}
   */
  public String limitedBy() {
    return limitedBy;
  }

  /**
   * How much of each lot goes in.
   *
   * @return masses [g] in the order of the stock; lots the blend does not use are left out
   */
  public Map<Stock, Double> used() {
    return used;
  }

  /**
   * What stays of a lot.
   *
   * @param stock one of the lots given
   * @return the mass
   */
  public Mass leftOf(Stock stock) {
    double take = used.getOrDefault(stock, 0.0);
    return Mass.grams(Math.max(0, stock.mass().inGrams() - take));
  }

  /**
   * The lines without a stock, which were taken as bought in.
   *
   * @return their ids
   */
  public List<String> notCounted() {
    return notCounted;
  }

  /**
   * The blend as it comes out of these lots.
   *
   * @param water the material that fills up to 100 %
   * @return the blend, with one line for each lot used
   * @throws IllegalArgumentException if the largest batch is nothing
   */
  public Blend blend(Material water) {
    Require.positive("largest batch", grams, "g");
    Blend.Builder b = Blend.named(blend.name());
    Set<String> fromStock = new LinkedHashSet<>();
    used.forEach(
        (s, g) -> {
          fromStock.add(s.lot().id());
          if (g > 0) {
            b.line(s.lot(), g / grams * 100);
          }
        });
    for (BlendLine l : blend.lines()) {
      if (!fromStock.contains(l.material().id()) && !l.material().constituents().isEmpty()) {
        b.line(l.material(), l.amount().value());
      }
    }
    return b.upToHundredWith(water);
  }

  @Override
  public String toString() {
    StringBuilder s =
        new StringBuilder("Largest batch of ")
            .append(blend.name())
            .append(": ")
            .append(Text.number(grams))
            .append(" g, limited by ")
            .append(limitedBy)
            .append('\n');
    used.forEach(
        (stock, g) ->
            s.append("  ")
                .append(Text.left(stock.lot().toString(), 40))
                .append(Text.right(Text.fixed(g, 1), 10))
                .append(" g, left ")
                .append(Text.fixed(leftOf(stock).inGrams(), 1))
                .append(" g\n"));
    return s.toString();
  }
}
