package org.surfactantblend.swap;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Require;

/**
 * A recipe held as what is in it, so that anybody can make it with other grades: active matter and
 * every other substance, from all sources. Water is what they leave.
 *
 * <p>Immutable and thread-safe.
 */
public final class ContentRecipe {
  private final String name;
  private final List<RecipeContent> contents;
  private final Map<String, Double> asSupplied;
  private final List<String> assumptions;

  private ContentRecipe(
      String name,
      Collection<RecipeContent> contents,
      Map<String, Double> asSupplied,
      List<String> assumptions) {
    this.name = name;
    this.contents = List.copyOf(contents);
    this.asSupplied = new LinkedHashMap<>(asSupplied);
    this.assumptions = List.copyOf(assumptions);
  }

  /**
   * The contents of a blend whose grades are known.
   *
   * @param blend the teacher's blend
   * @return the recipe; the ranges of the grades carry over
   */
  public static ContentRecipe of(Blend blend) {
    Map<String, RecipeContent> all = new LinkedHashMap<>();
    Map<String, Double> lines = new LinkedHashMap<>();
    for (BlendLine l : blend.lines()) {
      Material m = l.material();
      for (Constituent c : m.constituents()) {
        add(
            all,
            new RecipeContent(
                c.inciName(),
                c.percent().times(l.massFraction()),
                c.chargeClass().orElse(null),
                c.isActive() || isMain(m, c)));
      }
      if (!m.constituents().isEmpty()) {
        lines.merge(key(m.inciName()), l.amount().value(), Double::sum);
      }
    }
    return new ContentRecipe(blend.name(), all.values(), lines, List.of());
  }

  private static boolean isMain(Material m, Constituent c) {
    return c.inciName().equalsIgnoreCase(m.inciName());
  }

  private static void add(Map<String, RecipeContent> all, RecipeContent c) {
    all.merge(
        key(c.inciName()),
        c,
        (a, b) ->
            new RecipeContent(
                a.inciName(),
                a.percent().plus(b.percent()),
                a.classOrNull() == null ? b.classOrNull() : a.classOrNull(),
                a.wanted() || b.wanted()));
  }

  static String key(String inciName) {
    return inciName.toLowerCase(Locale.ROOT);
  }

  /**
   * The contents of a recipe that names materials without grades: each line may be any grade of
   * that name in the table, so the contents are intervals.
   *
   * @param name what to call it
   * @param asSupplied percent as supplied by INCI name [% m/m of the product]; water may be left
   *     out
   * @param table where the grades are looked up
   * @return the recipe; {@link #assumptions()} says which grades were counted
   * @throws IllegalArgumentException if a percentage is negative or they add up to more than 100
   */
  public static ContentRecipe withoutGrades(
      String name, Map<String, Double> asSupplied, MaterialTable table) {
    Map<String, RecipeContent> all = new LinkedHashMap<>();
    Map<String, Double> lines = new LinkedHashMap<>();
    List<String> assumptions = new ArrayList<>();
    double sum = 0;
    for (Map.Entry<String, Double> e : asSupplied.entrySet()) {
      String inci = Require.text("INCI name", e.getKey());
      double percent = Require.inRange(inci, e.getValue(), 0, 100, "% m/m as supplied");
      sum += percent;
      if (inci.equalsIgnoreCase(Constituent.WATER)) {
        continue;
      }
      lines.merge(key(inci), percent, Double::sum);
      List<Material> grades =
          table.materials().stream().filter(m -> m.inciName().equalsIgnoreCase(inci)).toList();
      if (grades.isEmpty()) {
        assumptions.add(inci + ": not in the table, taken as 100 % pure");
        add(all, new RecipeContent(inci, Range.exactly(percent), null, true));
        continue;
      }
      Map<String, RecipeContent> own = anyOf(grades);
      RecipeContent main = Objects.requireNonNull(own.values().iterator().next());
      assumptions.add(
          inci
              + ": "
              + (grades.size() == 1 ? "one grade" : grades.size() + " grades")
              + ", "
              + main.percent()
              + " %; reckoned with "
              + grades.get(0).id());
      own.values()
          .forEach(
              c ->
                  add(
                      all,
                      new RecipeContent(
                          c.inciName(),
                          c.percent().times(percent / 100),
                          c.classOrNull(),
                          c.wanted())));
    }
    Require.inRange("sum of " + name, sum, 0, 100 + 1e-9, "% m/m as supplied");
    return new ContentRecipe(name, all.values(), lines, assumptions);
  }

  /** The constituents that any of several grades may have, main one first. */
  private static Map<String, RecipeContent> anyOf(List<Material> grades) {
    Map<String, RecipeContent> all = new LinkedHashMap<>();
    for (Material m : grades) {
      for (Constituent c : m.constituents()) {
        all.putIfAbsent(
            key(c.inciName()),
            new RecipeContent(
                c.inciName(),
                anyOf(grades, c.inciName()),
                c.chargeClass().orElse(null),
                c.isActive() || isMain(m, c)));
      }
    }
    return all;
  }

  private static Range anyOf(List<Material> grades, String inciName) {
    double low = Double.POSITIVE_INFINITY;
    double high = 0;
    for (Material m : grades) {
      low = Math.min(low, m.percentOf(inciName).low());
      high = Math.max(high, m.percentOf(inciName).high());
    }
    return Range.of(low, grades.get(0).percentOf(inciName).typical(), high);
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
   * Everything in it but water.
   *
   * @return the contents, in the order of the lines
   */
  public List<RecipeContent> contents() {
    return contents;
  }

  /**
   * The content of a substance.
   *
   * @param inciName its INCI name, in any case
   * @return the content, or empty
   */
  public Optional<RecipeContent> content(String inciName) {
    return contents.stream().filter(c -> c.inciName().equalsIgnoreCase(inciName)).findFirst();
  }

  /**
   * All active matter.
   *
   * @return the guaranteed range and typical value [% active of the product]
   */
  public Range totalActive() {
    Range sum = Range.ZERO;
    for (RecipeContent c : contents) {
      sum = c.classOrNull() != null ? sum.plus(c.percent()) : sum;
    }
    return sum;
  }

  /**
   * The active matter of one charge class.
   *
   * @param chargeClass the class
   * @return the guaranteed range and typical value [% active of the product]
   */
  public Range active(ChargeClass chargeClass) {
    Range sum = Range.ZERO;
    for (RecipeContent c : contents) {
      sum = c.classOrNull() == chargeClass ? sum.plus(c.percent()) : sum;
    }
    return sum;
  }

  /** The line of a main substance as its writer weighed it [% m/m as supplied], 0 for none. */
  double asSupplied(String inciName) {
    return asSupplied.getOrDefault(key(inciName), 0.0);
  }

  /**
   * What had to be assumed about grades that were not named.
   *
   * @return one sentence a line; empty when the grades were known
   */
  public List<String> assumptions() {
    return assumptions;
  }

  /**
   * Starts the way to somebody's own grades.
   *
   * @param water the material that fills up to 100 %
   * @return the conversion, with no grades yet
   */
  public RecipeConversion.Builder toGrades(Material water) {
    return new RecipeConversion.Builder(this, Objects.requireNonNull(water, "water"));
  }

  @Override
  public String toString() {
    return name + " " + contents;
  }
}
