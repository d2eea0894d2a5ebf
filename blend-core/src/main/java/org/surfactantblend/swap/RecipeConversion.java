package org.surfactantblend.swap;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.DecompositionSolver;
import org.apache.commons.math3.linear.LUDecomposition;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Text;
import org.surfactantblend.solve.Rebalance;

/**
 * A recipe made with somebody's own grades: the same contents, carried humectants and preservatives
 * counted in, water last; and what could not be held.
 *
 * <p>Every substance that the recipe is about is held by the grade of that name. What a grade only
 * carries (salt, unreacted matter) floats and is reported.
 *
 * <p>Immutable and thread-safe.
 */
public final class RecipeConversion {
  private static final double SAME = 1e-9;

  private final ContentRecipe recipe;
  private final Blend blend;
  private final List<Held> contents;
  private final Blend gramForGram;

  /**
   * A content of the recipe with what became of it.
   *
   * @param content what the recipe holds
   * @param reached what the blend holds [% m/m of the product]
   * @param isHeld whether the typical figures agree
   * @param remark why it is not held, or what stands in for it; empty when there is nothing to say
   */
  public record Held(RecipeContent content, Range reached, boolean isHeld, String remark) {}

  private RecipeConversion(Builder b) {
    recipe = b.recipe;
    List<RecipeContent> wanted = new ArrayList<>();
    List<Material> grades = new ArrayList<>();
    List<String> names = new ArrayList<>();
    for (RecipeContent c : recipe.contents()) {
      Material m = b.grades.get(ContentRecipe.key(c.inciName()));
      if (c.wanted() && m != null) {
        wanted.add(c);
        grades.add(m);
        names.add(b.standIns.getOrDefault(ContentRecipe.key(c.inciName()), c.inciName()));
      }
    }
    double[] x = exact(wanted, grades, names);
    String trouble = trouble(x, grades);
    blend = trouble.isEmpty() ? blend(x, grades, b.water) : nearest(wanted, grades, names, b.water);
    contents = List.copyOf(judge(wanted, names, trouble));
    gramForGram = gramForGram(wanted, grades, b.water);
  }

  /** How much of each grade holds every wanted content: one equation for each [% as supplied]. */
  private static double[] exact(
      List<RecipeContent> wanted, List<Material> grades, List<String> names) {
    int n = wanted.size();
    if (n == 0) {
      return new double[0];
    }
    double[][] a = new double[n][n];
    double[] right = new double[n];
    for (int i = 0; i < n; i++) {
      right[i] = wanted.get(i).percent().typical();
      for (int j = 0; j < n; j++) {
        a[i][j] = grades.get(j).percentOf(names.get(i)).typical() / 100;
      }
    }
    DecompositionSolver lu = new LUDecomposition(new Array2DRowRealMatrix(a, false)).getSolver();
    return lu.isNonSingular() ? lu.solve(new ArrayRealVector(right)).toArray() : new double[0];
  }

  private static String trouble(double[] x, List<Material> grades) {
    if (x.length != grades.size()) {
      return "two contents come from the same grades only";
    }
    double sum = 0;
    for (int j = 0; j < x.length; j++) {
      sum += x[j];
      if (x[j] < -SAME) {
        return grades.get(j).id() + " would be " + Text.fixed(x[j], 3) + " % as supplied";
      }
    }
    return sum > 100 + SAME ? "water would be " + Text.fixed(100 - sum, 3) + " %" : "";
  }

  private Blend blend(double[] x, List<Material> grades, Material water) {
    Blend.Builder b = Blend.named(recipe.name());
    for (int j = 0; j < x.length; j++) {
      b.line(grades.get(j), Math.max(0, x[j]));
    }
    return b.upToHundredWith(water);
  }

  private Blend nearest(
      List<RecipeContent> wanted, List<Material> grades, List<String> names, Material water) {
    List<Rebalance.Amount> available = new ArrayList<>();
    grades.forEach(m -> available.add(new Rebalance.Amount(m, 100)));
    available.add(new Rebalance.Amount(water, 100));
    List<Rebalance.Held> held = new ArrayList<>();
    for (int i = 0; i < wanted.size(); i++) {
      String name = names.get(i);
      held.add(
          new Rebalance.Held(
              name, m -> m.percentOf(name).typical(), wanted.get(i).percent().typical()));
    }
    Rebalance.Answer answer = new Rebalance(List.of(), available, held, 100, 100).solve();
    Blend.Builder b = Blend.named(recipe.name());
    for (int j = 0; j < grades.size(); j++) {
      b.line(grades.get(j), answer.additions().get(j));
    }
    return b.upToHundredWith(water);
  }

  private List<Held> judge(List<RecipeContent> wanted, List<String> names, String trouble) {
    List<Held> all = new ArrayList<>();
    for (RecipeContent c : recipe.contents()) {
      int i = wanted.indexOf(c);
      String name = i < 0 ? c.inciName() : names.get(i);
      Range reached = blend.percentOf(name);
      double want = c.percent().typical();
      boolean held = Math.abs(reached.typical() - want) <= SAME * Math.max(1, want);
      String remark = "";
      if (!name.equalsIgnoreCase(c.inciName())) {
        remark = name + " stands in: check mole ratio, pH and salt response; the label changes";
      } else if (!held) {
        remark =
            i >= 0
                ? trouble
                : c.wanted() ? "no grade of it was given" : "carried by raw materials, floats";
      }
      all.add(new Held(c, reached, held, remark));
    }
    for (String inci : blend.inciAmounts().keySet()) {
      if (recipe.content(inci).isEmpty()
          && names.stream().noneMatch(inci::equalsIgnoreCase)
          && !inci.equalsIgnoreCase("Aqua")) {
        all.add(
            new Held(
                new RecipeContent(inci, Range.ZERO, null, false),
                blend.percentOf(inci),
                false,
                "not in the recipe, comes along with the grades"));
      }
    }
    return all;
  }

  private Blend gramForGram(List<RecipeContent> wanted, List<Material> grades, Material water) {
    Blend.Builder b = Blend.named(recipe.name());
    for (int i = 0; i < wanted.size(); i++) {
      b.line(grades.get(i), recipe.asSupplied(wanted.get(i).inciName()));
    }
    return b.upToHundredWith(water);
  }

  /**
   * What was converted.
   *
   * @return the recipe
   */
  public ContentRecipe recipe() {
    return recipe;
  }

  /**
   * The recipe in the follower's grades.
   *
   * @return the blend, or the nearest one when {@link #notHeld()} names a wanted content
   */
  public Blend blend() {
    return blend;
  }

  /**
   * Every content with what became of it.
   *
   * @return the recipe's contents, then what comes along with the grades
   */
  public List<Held> contents() {
    return contents;
  }

  /**
   * What could not be held.
   *
   * @return the contents with a remark
   */
  public List<Held> notHeld() {
    return contents.stream().filter(h -> !h.isHeld()).toList();
  }

  /**
   * The mistake of keeping the teacher's weights with the follower's grades.
   *
   * @return the blend that would come out
   */
  public Blend gramForGram() {
    return gramForGram;
  }

  /**
   * The starting pH with the follower's grades, which no conversion holds.
   *
   * @return the prediction
   */
  public StartingPh startingPh() {
    return StartingPh.of(blend);
  }

  /**
   * The conversion in at most 80 columns.
   *
   * @return several lines
   */
  public String summary() {
    StringBuilder s = new StringBuilder(recipe.name()).append(" for your grades\n");
    for (BlendLine l : blend.lines()) {
      s.append("  ")
          .append(Text.left(l.material().toString(), 48))
          .append(Text.right(Text.fixed(l.amount().value(), 3), 9))
          .append(" % as supplied\n");
    }
    Range active = recipe.totalActive();
    s.append("  total active ").append(Text.fixed(blend.totalActive().value(), 3)).append(" %");
    if (!active.isExact()) {
      s.append(", the recipe may mean ")
          .append(Text.fixed(active.low(), 2))
          .append(" to ")
          .append(Text.fixed(active.high(), 2))
          .append(" %");
    }
    s.append('\n');
    s.append("  with the weights as written it would be ")
        .append(Text.fixed(gramForGram.totalActive().value(), 3))
        .append(" %\n");
    for (Held h : notHeld()) {
      s.append("  not held: ")
          .append(h.content().inciName())
          .append(' ')
          .append(Text.fixed(h.content().percent().typical(), 4))
          .append(" -> ")
          .append(Text.fixed(h.reached().typical(), 4))
          .append(" %; ")
          .append(h.remark())
          .append('\n');
    }
    for (Held h : contents()) {
      if (h.isHeld() && !h.remark().isEmpty()) {
        s.append("  ").append(h.content().inciName()).append(": ").append(h.remark()).append('\n');
      }
    }
    recipe.assumptions().forEach(a -> s.append("  assumed: ").append(a).append('\n'));
    s.append("  Starting pH, viscosity, odour and colour are not held: make a trial first.\n");
    return Text.wrapped(s, 80);
  }

  @Override
  public String toString() {
    return summary();
  }

  /** Collects the follower's grades; not thread-safe. */
  public static final class Builder {
    private final ContentRecipe recipe;
    private final Material water;
    private final Map<String, Material> grades = new LinkedHashMap<>();
    private final Map<String, String> standIns = new LinkedHashMap<>();

    Builder(ContentRecipe recipe, Material water) {
      this.recipe = recipe;
      this.water = water;
    }

    /**
     * Adds a grade or lot, which then brings the substance of its INCI name.
     *
     * @param grade the grade
     * @return this builder
     * @throws IllegalArgumentException if the recipe does not hold that substance, or the grade
     *     does not
     */
    public Builder using(Material grade) {
      return put(grade.inciName(), grade, ", or this grade instead of one of them");
    }

    /**
     * Adds several grades.
     *
     * @param all the grades
     * @return this builder
     * @throws IllegalArgumentException as for {@link #using(Material)}
     */
    public Builder using(List<Material> all) {
      all.forEach(this::using);
      return this;
    }

    /**
     * Lets another surfactant of the same charge class stand in for one that cannot be had.
     *
     * @param inciName the surfactant of the recipe
     * @param grade what stands in for it, at the same active percentage
     * @return this builder
     * @throws IllegalArgumentException if the recipe does not hold that surfactant or the class
     *     differs
     */
    public Builder insteadOf(String inciName, Material grade) {
      RecipeContent c = content(inciName, "");
      if (!c.chargeClass().equals(grade.chargeClass())) {
        throw new IllegalArgumentException(
            "stand-in for "
                + inciName
                + " was "
                + grade.id()
                + ", allowed is "
                + c.chargeClass().map(k -> "a surfactant that is " + k.label()).orElse("none"));
      }
      standIns.put(ContentRecipe.key(inciName), grade.inciName());
      return put(inciName, grade, "");
    }

    private Builder put(String inciName, Material grade, String otherwise) {
      RecipeContent c = content(inciName, otherwise);
      if (grade.percentOf(grade.inciName()).typical() <= 0) {
        throw new IllegalArgumentException(
            "grade was " + grade.id() + ", allowed is one that holds " + grade.inciName());
      }
      grades.put(ContentRecipe.key(c.inciName()), grade);
      return this;
    }

    private RecipeContent content(String inciName, String otherwise) {
      return recipe
          .content(inciName)
          .orElseThrow(
              () ->
                  new IllegalArgumentException(
                      "substance was '"
                          + inciName
                          + "', allowed is one of "
                          + recipe.contents().stream().map(RecipeContent::inciName).toList()
                          + otherwise));
    }

    /**
     * Works the conversion out.
     *
     * @return the blend and what could not be held
     */
    public RecipeConversion convert() {
      return new RecipeConversion(this);
    }

    @Override
    public String toString() {
      return recipe.name() + ", grades so far: " + grades.size();
    }
  }
}
