package org.surfactantblend.brief;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.mildness.MixingCredit;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.problem.ProblemsException;
import org.surfactantblend.quantity.Require;

/**
 * What a shop wants of a blend.
 *
 * <p>Percentages of active matter, of the active and as supplied are told apart by the names of the
 * builder's methods. Water fills up to 100 %.
 *
 * <p>Immutable and thread-safe; the builder is neither.
 */
public final class Brief {
  /** Which lots of each material a blend has to serve. */
  public enum Lots {
    /** The typical figures of every material. */
    TYPICAL,
    /** Every lot whose figures lie inside the declared ranges. */
    EVERY_LOT_WITHIN_SPECIFICATION
  }

  /**
   * Two materials bound to each other.
   *
   * @param first a material id
   * @param second a material id
   */
  public record Pair(String first, String second) {}

  private final String name;
  private final List<Requirement> requirements;
  private final Map<String, Double> fixed;
  private final Set<String> candidates;
  private final Set<String> leftOut;
  private final Wish wish;
  private final Lots lots;
  private final int mostSurfactants;
  private final int fewestSurfactants;
  private final Map<ChargeClass, Integer> mostOfClass;
  private final double minimumUsePercent;
  private final Set<String> mustUse;
  private final List<Pair> notTogether;
  private final List<Pair> onlyIf;
  private final String guardOffReason;
  private final String water;
  private final Conditions conditions;
  private final @Nullable MixingCredit mixingCredit;

  private Brief(Builder b) {
    name = b.name;
    requirements = List.copyOf(b.requirements);
    fixed = Collections.unmodifiableMap(new LinkedHashMap<>(b.fixed));
    candidates = Collections.unmodifiableSet(new LinkedHashSet<>(b.candidates));
    leftOut = Collections.unmodifiableSet(new LinkedHashSet<>(b.leftOut));
    wish = b.wish;
    lots = b.lots;
    mostSurfactants = b.mostSurfactants;
    fewestSurfactants = b.fewestSurfactants;
    mostOfClass = Collections.unmodifiableMap(new EnumMap<>(b.mostOfClass));
    minimumUsePercent = b.minimumUsePercent;
    mustUse = Collections.unmodifiableSet(new LinkedHashSet<>(b.mustUse));
    notTogether = List.copyOf(b.notTogether);
    onlyIf = List.copyOf(b.onlyIf);
    guardOffReason = b.guardOffReason;
    water = b.water;
    conditions = b.conditions;
    mixingCredit = b.mixingCredit;
  }

  /**
   * Starts a brief.
   *
   * @param name what to call the product
   * @return a builder
   */
  public static Builder named(String name) {
    return new Builder(Require.text("name", name));
  }

  /**
   * A builder that starts from this brief.
   *
   * @return the builder
   */
  public Builder toBuilder() {
    Builder b = new Builder(name);
    b.from = this;
    b.requirements.addAll(requirements);
    b.fixed.putAll(fixed);
    b.candidates.addAll(candidates);
    b.leftOut.addAll(leftOut);
    b.wish = wish;
    b.lots = lots;
    b.mostSurfactants = mostSurfactants;
    b.fewestSurfactants = fewestSurfactants;
    b.mostOfClass.putAll(mostOfClass);
    b.minimumUsePercent = minimumUsePercent;
    b.mustUse.addAll(mustUse);
    b.notTogether.addAll(notTogether);
    b.onlyIf.addAll(onlyIf);
    b.guardOffReason = guardOffReason;
    b.water = water;
    b.conditions = conditions;
    b.mixingCredit = mixingCredit;
    return b;
  }

  /**
   * This brief with one requirement in place of another.
   *
   * @param index which one, as in {@link #requirements()}
   * @param replacement what takes its place
   * @return the changed brief
   * @throws IndexOutOfBoundsException if there is no such requirement
   */
  public Brief withRequirement(int index, Requirement replacement) {
    Builder b = toBuilder();
    b.requirements.set(index, Objects.requireNonNull(replacement, "replacement"));
    return new Brief(b);
  }

  /**
   * What to call the product.
   *
   * @return the name
   */
  public String name() {
    return name;
  }

  /**
   * What has to be met.
   *
   * @return in the order in which they were asked for
   */
  public List<Requirement> requirements() {
    return requirements;
  }

  /**
   * Lines that are not to be chosen.
   *
   * @return amounts by material id [% m/m as supplied]
   */
  public Map<String, Double> fixed() {
    return fixed;
  }

  /**
   * The materials to choose from.
   *
   * @return ids; empty means every surfactant of the table
   */
  public Set<String> candidates() {
    return candidates;
  }

  /**
   * The materials not to choose.
   *
   * @return ids
   */
  public Set<String> leftOut() {
    return leftOut;
  }

  /**
   * What to prefer.
   *
   * @return the wish
   */
  public Wish wish() {
    return wish;
  }

  /**
   * Which lots to serve.
   *
   * @return typical lots unless asked otherwise
   */
  public Lots lots() {
    return lots;
  }

  /**
   * How many surfactants may be chosen.
   *
   * @return the greatest count, or empty when not limited
   */
  public OptionalInt mostSurfactants() {
    return mostSurfactants < 0 ? OptionalInt.empty() : OptionalInt.of(mostSurfactants);
  }

  /**
   * How many surfactants have to be chosen.
   *
   * @return the least count, 0 when not limited
   */
  public int fewestSurfactants() {
    return fewestSurfactants;
  }

  /**
   * How many surfactants of a class may be chosen.
   *
   * @return greatest counts by class
   */
  public Map<ChargeClass, Integer> mostOfClass() {
    return mostOfClass;
  }

  /**
   * How little of a chosen surfactant is still worth a line.
   *
   * @return percent by mass as supplied, 0 when any amount will do
   */
  public double minimumUsePercent() {
    return minimumUsePercent;
  }

  /**
   * The surfactants that have to be in.
   *
   * @return ids
   */
  public Set<String> mustUse() {
    return mustUse;
  }

  /**
   * The pairs that must not be in one blend.
   *
   * @return pairs of ids
   */
  public List<Pair> notTogether() {
    return notTogether;
  }

  /**
   * The pairs of which the first may be in only if the second is.
   *
   * @return pairs of ids
   */
  public List<Pair> onlyIf() {
    return onlyIf;
  }

  /**
   * Why the clash guard is off.
   *
   * @return the reason, or empty when the guard is on
   */
  public Optional<String> guardOffReason() {
    return guardOffReason.isEmpty() ? Optional.empty() : Optional.of(guardOffReason);
  }

  /**
   * The material that fills up to 100 %.
   *
   * @return its id
   */
  public String water() {
    return water;
  }

  /**
   * Temperature and activity model of the pH.
   *
   * @return the conditions, 25 degC with the Davies term unless asked otherwise
   */
  public Conditions conditions() {
    return conditions;
  }

  /**
   * What mixing takes off a blended irritation index.
   *
   * @return the credit, or empty when none was set: there is no default
   */
  public Optional<MixingCredit> mixingCredit() {
    return Optional.ofNullable(mixingCredit);
  }

  /**
   * Whether the choice of surfactants is restricted beyond amounts.
   *
   * @return true if a number of surfactants, a least use, a must or a clash is asked for
   */
  public boolean choosesSupport() {
    return mostSurfactants >= 0
        || fewestSurfactants > 0
        || minimumUsePercent > 0
        || !mostOfClass.isEmpty()
        || !mustUse.isEmpty()
        || !notTogether.isEmpty()
        || !onlyIf.isEmpty();
  }

  @Override
  public String toString() {
    StringBuilder s = new StringBuilder(name).append('\n');
    requirements.forEach(r -> s.append("  ").append(r).append('\n'));
    fixed.forEach((id, p) -> s.append("  fixed ").append(id).append(' ').append(p).append(" %\n"));
    return s.append("  wish: ").append(wish).append('\n').toString();
  }

  /**
   * Builds a {@link Brief}. Figures outside their range are refused at once; contradictions between
   * settings are collected and thrown together by {@link #build()}. Not thread-safe.
   */
  public static final class Builder {
    private static final double NONE_BELOW = Double.NEGATIVE_INFINITY;

    private final String name;
    private final List<Requirement> requirements = new ArrayList<>();
    private final Map<String, Double> fixed = new LinkedHashMap<>();
    private final Set<String> candidates = new LinkedHashSet<>();
    private final Set<String> leftOut = new LinkedHashSet<>();
    private Wish wish = Wish.of(Wish.Aim.LEAST_SURFACTANT);
    private Lots lots = Lots.TYPICAL;
    private int mostSurfactants = -1;
    private int fewestSurfactants;
    private final Map<ChargeClass, Integer> mostOfClass = new EnumMap<>(ChargeClass.class);
    private double minimumUsePercent;
    private final Set<String> mustUse = new LinkedHashSet<>();
    private final List<Pair> notTogether = new ArrayList<>();
    private final List<Pair> onlyIf = new ArrayList<>();
    private String guardOffReason = "";
    private String water = "water";
    private Conditions conditions = Conditions.standard();
    private @Nullable MixingCredit mixingCredit;
    private @Nullable Brief from;
    private final List<Problem> problems = new ArrayList<>();

    private Builder(String name) {
      this.name = name;
    }

    private Builder require(Requirement r) {
      for (int i = 0; i < requirements.size(); i++) {
        Requirement old = requirements.get(i);
        if (old.kind() == r.kind()
            && old.subject().equals(r.subject())
            && Double.compare(old.atPh(), r.atPh()) == 0) {
          problems.add(
              Problem.error(
                  "asked-twice",
                  Place.in(name, r.label()),
                  r.allowed() + " after " + old.allowed(),
                  "one requirement for each figure",
                  from != null && i < from.requirements.size()
                      ? "to replace what the brief asks: brief.withRequirement("
                          + i
                          + ", ...), and toBuilder() of that for the rest"
                      : "keep the tighter one"));
          return this;
        }
      }
      requirements.add(r);
      return this;
    }

    /**
     * Asks for any requirement, for callers that hold it as data.
     *
     * @param requirement the requirement
     * @return this builder
     */
    public Builder requirement(Requirement requirement) {
      return require(Objects.requireNonNull(requirement, "requirement"));
    }

    /**
     * Asks for a total of active matter.
     *
     * @param activePercent the target [% active of the product], 0 to 100
     * @param tolerance how far it may be off either way [% active of the product], 0 or more
     * @return this builder
     * @throws IllegalArgumentException if a figure is out of range
     */
    public Builder totalActive(double activePercent, double tolerance) {
      Require.inRange("total active", activePercent, 0, 100, "% active");
      Require.inRange("tolerance of the total active", tolerance, 0, 100, "% active");
      return require(
          Requirement.of(
              Requirement.Kind.TOTAL_ACTIVE,
              "",
              Math.max(0, activePercent - tolerance),
              Math.min(100, activePercent + tolerance)));
    }

    /**
     * Asks for a share of a charge class.
     *
     * @param chargeClass the class
     * @param lowPercent the least share [% of the active], 0 to 100
     * @param highPercent the greatest share [% of the active], lowPercent to 100
     * @return this builder
     * @throws IllegalArgumentException if a figure is out of range
     */
    public Builder share(ChargeClass chargeClass, double lowPercent, double highPercent) {
      return require(
          Requirement.of(
              Requirement.Kind.CLASS_SHARE,
              chargeClass.label(),
              Require.inRange("least share", lowPercent, 0, 100, "% of the active"),
              Require.inRange("greatest share", highPercent, lowPercent, 100, "% of the active")));
    }

    /**
     * Asks for a share of one material.
     *
     * @param materialId the material
     * @param lowPercent the least share [% of the active], 0 to 100
     * @param highPercent the greatest share [% of the active], lowPercent to 100
     * @return this builder
     * @throws IllegalArgumentException if a figure is out of range
     */
    public Builder shareOf(String materialId, double lowPercent, double highPercent) {
      return require(
          Requirement.of(
              Requirement.Kind.MATERIAL_SHARE,
              Require.text("material id", materialId),
              Require.inRange("least share", lowPercent, 0, 100, "% of the active"),
              Require.inRange("greatest share", highPercent, lowPercent, 100, "% of the active")));
    }

    /**
     * Asks for the pH of the whole product before any correction.
     *
     * @param low the lowest pH, 0 to 14
     * @param high the highest pH, low to 14
     * @return this builder
     * @throws IllegalArgumentException if a figure is out of range
     */
    public Builder startingPh(double low, double high) {
      return require(
          Requirement.of(
              Requirement.Kind.STARTING_PH,
              "",
              Require.inRange("lowest starting pH", low, 0, 14, ""),
              Require.inRange("highest starting pH", high, low, 14, "")));
    }

    /**
     * Asks for the pH of the surfactants alone, with water in place of every other line.
     *
     * @param low the lowest pH, 0 to 14
     * @param high the highest pH, low to 14
     * @return this builder
     * @throws IllegalArgumentException if a figure is out of range
     */
    public Builder startingPhOfSurfactants(double low, double high) {
      return require(
          Requirement.of(
              Requirement.Kind.STARTING_PH_OF_SURFACTANTS,
              "",
              Require.inRange("lowest starting pH", low, 0, 14, ""),
              Require.inRange("highest starting pH", high, low, 14, "")));
    }

    /**
     * Keeps an acid or a base in reserve for the last step: so much of it at most, in place of
     * water, brings the product to its final pH. A product that is there already, or past it, needs
     * none.
     *
     * @param ph the final pH, 0 to 14
     * @param titrantId the acid or base, by its id in the table
     * @param atMostPercent the most that may be needed [% m/m as supplied of the final product], 0
     *     to 50
     * @return this builder
     * @throws IllegalArgumentException if a figure is out of range
     */
    public Builder toReachPh(double ph, String titrantId, double atMostPercent) {
      return require(
          new Requirement(
              Requirement.Kind.TO_REACH_PH,
              Require.text("titrant", titrantId),
              NONE_BELOW,
              Require.inRange("most to reach a pH", atMostPercent, 0, 50, "% m/m as supplied"),
              Require.inRange("final pH", ph, 0, 14, "")));
    }

    /**
     * Limits a material, if it is in at all or at any rate: water included.
     *
     * @param materialId the material
     * @param lowPercent the least amount [% m/m as supplied], 0 to 100
     * @param highPercent the greatest amount [% m/m as supplied], lowPercent to 100
     * @return this builder
     * @throws IllegalArgumentException if a figure is out of range
     */
    public Builder asSupplied(String materialId, double lowPercent, double highPercent) {
      return require(
          Requirement.of(
              Requirement.Kind.AS_SUPPLIED,
              Require.text("material id", materialId),
              Require.inRange("least amount", lowPercent, 0, 100, "% as supplied"),
              Require.inRange("greatest amount", highPercent, lowPercent, 100, "% as supplied")));
    }

    /**
     * Limits sodium chloride from all sources.
     *
     * @param lowPercent the least amount [% m/m], 0 to 100
     * @param highPercent the greatest amount [% m/m], lowPercent to 100
     * @return this builder
     * @throws IllegalArgumentException if a figure is out of range
     */
    public Builder salt(double lowPercent, double highPercent) {
      return require(
          Requirement.of(
              Requirement.Kind.SALT,
              "",
              Require.inRange("least sodium chloride", lowPercent, 0, 100, "% m/m"),
              Require.inRange("greatest sodium chloride", highPercent, lowPercent, 100, "% m/m")));
    }

    /**
     * Asks for the charge on the surfactants: negative less positive ones.
     *
     * @param lowMmolPerKg the least net anionic charge [mmol/kg of product]
     * @param highMmolPerKg the greatest net anionic charge [mmol/kg of product]
     * @param atPh the pH at which the charges are counted, 0 to 14
     * @return this builder
     * @throws IllegalArgumentException if a figure is out of range
     */
    public Builder netAnionicCharge(double lowMmolPerKg, double highMmolPerKg, double atPh) {
      return require(
          new Requirement(
              Requirement.Kind.NET_ANIONIC_CHARGE,
              "",
              Require.inRange("least net anionic charge", lowMmolPerKg, -1e5, 1e5, "mmol/kg"),
              Require.inRange(
                  "greatest net anionic charge", highMmolPerKg, lowMmolPerKg, 1e5, "mmol/kg"),
              Require.inRange("pH", atPh, 0, 14, "")));
    }

    /**
     * Asks for a share of negative charge on the surfactants, on a mole basis.
     *
     * @param lowPercent the least share [mol charge per 100 mol of surfactant], 0 to 400
     * @param highPercent the greatest share [mol charge per 100 mol of surfactant], lowPercent to
     *     400
     * @param atPh the pH at which the charges are counted, 0 to 14
     * @return this builder
     * @throws IllegalArgumentException if a figure is out of range
     */
    public Builder netAnionicChargeShare(double lowPercent, double highPercent, double atPh) {
      return require(
          new Requirement(
              Requirement.Kind.NET_ANIONIC_CHARGE_SHARE,
              "",
              Require.inRange("least net anionic charge share", lowPercent, 0, 400, "%"),
              Require.inRange(
                  "greatest net anionic charge share", highPercent, lowPercent, 400, "%"),
              Require.inRange("pH", atPh, 0, 14, "")));
    }

    /**
     * Limits the irritation index, by the high figure of every score. Materials without a score
     * cannot be used then; the answer names them.
     *
     * @param index the greatest index [sodium lauryl sulfate = 100], 0 to 200
     * @return this builder
     * @throws IllegalArgumentException if it is out of range
     */
    public Builder irritationIndexAtMost(double index) {
      Require.inRange("irritation index", index, 0, 200, "(sodium lauryl sulfate = 100)");
      return require(Requirement.of(Requirement.Kind.IRRITATION_INDEX, "", NONE_BELOW, index));
    }

    /**
     * Limits the irritation index less the credit for mixing, which {@link #mixingCredit} has to
     * set.
     *
     * @param index the greatest index [sodium lauryl sulfate = 100], 0 to 200
     * @return this builder
     * @throws IllegalArgumentException if it is out of range
     */
    public Builder blendedIndexAtMost(double index) {
      Require.inRange("blended irritation index", index, 0, 200, "(sodium lauryl sulfate = 100)");
      return require(Requirement.of(Requirement.Kind.BLENDED_INDEX, "", NONE_BELOW, index));
    }

    /**
     * Sets what mixing takes off a blended irritation index.
     *
     * @param credit the credit
     * @return this builder
     */
    public Builder mixingCredit(MixingCredit credit) {
      mixingCredit = Objects.requireNonNull(credit, "mixing credit");
      return this;
    }

    /**
     * Limits the raw-material cost.
     *
     * @param pricePerKg the most a kilogram of product may cost [currency of the prices], 0 or more
     * @return this builder
     * @throws IllegalArgumentException if it is negative or not finite
     */
    public Builder costAtMost(double pricePerKg) {
      Require.inRange("cost", pricePerKg, 0, Double.MAX_VALUE, "per kg");
      return require(Requirement.of(Requirement.Kind.COST, "", NONE_BELOW, pricePerKg));
    }

    /**
     * Sets a line that is not to be chosen.
     *
     * @param materialId the material
     * @param asSuppliedPercent its amount [% m/m as supplied], above 0 to 100
     * @return this builder
     * @throws IllegalArgumentException if the amount is out of range
     */
    public Builder fixed(String materialId, double asSuppliedPercent) {
      Require.positive("amount of " + materialId, asSuppliedPercent, "% as supplied");
      Require.inRange("amount of " + materialId, asSuppliedPercent, 0, 100, "% as supplied");
      Double old = fixed.putIfAbsent(Require.text("material id", materialId), asSuppliedPercent);
      if (old != null) {
        problems.add(
            Problem.error(
                "asked-twice",
                Place.in(name, "fixed " + materialId),
                asSuppliedPercent + " after " + old,
                "one amount for each line",
                from != null && from.fixed.containsKey(materialId)
                    ? "a fixed line of a finished brief stays: build a new brief to change it"
                    : "add the two amounts"));
      }
      return this;
    }

    /**
     * Names the surfactants to choose from; without this every surfactant of the table is one.
     *
     * @param materialIds their ids
     * @return this builder
     */
    public Builder choosingFrom(String... materialIds) {
      for (String id : materialIds) {
        candidates.add(Require.text("material id", id));
      }
      return this;
    }

    /**
     * Names surfactants not to choose.
     *
     * @param materialIds their ids
     * @return this builder
     */
    public Builder leavingOut(String... materialIds) {
      for (String id : materialIds) {
        leftOut.add(Require.text("material id", id));
      }
      return this;
    }

    /**
     * Limits how many surfactants are chosen.
     *
     * @param count the greatest count, 1 to 20
     * @return this builder
     * @throws IllegalArgumentException if the count is out of range
     */
    public Builder atMostSurfactants(int count) {
      Require.inRange("count of surfactants", count, 1, 20, "");
      mostSurfactants = count;
      return this;
    }

    /**
     * Sets how many surfactants are chosen.
     *
     * @param count the count, 1 to 20
     * @return this builder
     * @throws IllegalArgumentException if the count is out of range
     */
    public Builder exactlySurfactants(int count) {
      atMostSurfactants(count);
      fewestSurfactants = count;
      return this;
    }

    /**
     * Limits how many surfactants of a class are chosen.
     *
     * @param chargeClass the class
     * @param count the greatest count, 0 to 20
     * @return this builder
     * @throws IllegalArgumentException if the count is out of range
     */
    public Builder atMostOfClass(ChargeClass chargeClass, int count) {
      Require.inRange("count of surfactants", count, 0, 20, "");
      mostOfClass.put(Objects.requireNonNull(chargeClass, "charge class"), count);
      return this;
    }

    /**
     * Sets how little of a chosen surfactant is still worth a line: each is used at least that much
     * or not at all.
     *
     * @param asSuppliedPercent percent by mass as supplied, 0 to 50
     * @return this builder
     * @throws IllegalArgumentException if it is out of range
     */
    public Builder minimumUse(double asSuppliedPercent) {
      minimumUsePercent = Require.inRange("minimum use", asSuppliedPercent, 0, 50, "% as supplied");
      return this;
    }

    /**
     * Names surfactants that have to be in.
     *
     * @param materialIds their ids
     * @return this builder
     */
    public Builder mustUse(String... materialIds) {
      for (String id : materialIds) {
        mustUse.add(Require.text("material id", id));
      }
      return this;
    }

    /**
     * Forbids two surfactants in one blend.
     *
     * @param first an id
     * @param second another id
     * @return this builder
     */
    public Builder notTogether(String first, String second) {
      notTogether.add(
          new Pair(Require.text("material id", first), Require.text("material id", second)));
      return this;
    }

    /**
     * Allows a surfactant only when another is in.
     *
     * @param materialId the one that depends
     * @param needed the one it needs
     * @return this builder
     */
    public Builder onlyIf(String materialId, String needed) {
      onlyIf.add(
          new Pair(Require.text("material id", materialId), Require.text("material id", needed)));
      return this;
    }

    /**
     * Serves every lot inside the declared ranges, not only typical ones.
     *
     * @return this builder
     */
    public Builder everyLotWithinSpecification() {
      lots = Lots.EVERY_LOT_WITHIN_SPECIFICATION;
      return this;
    }

    /**
     * Serves the typical figures of every material, which is what a brief does unless told
     * otherwise.
     *
     * @return this builder
     */
    public Builder typicalLots() {
      lots = Lots.TYPICAL;
      return this;
    }

    /**
     * Prefers the lowest raw-material cost; every candidate and fixed line then needs a price.
     *
     * @return this builder
     */
    public Builder cheapest() {
      wish = Wish.of(Wish.Aim.CHEAPEST);
      return this;
    }

    /**
     * Prefers the lowest share of anionic active.
     *
     * @return this builder
     */
    public Builder leastAnionicShare() {
      wish = Wish.of(Wish.Aim.LEAST_ANIONIC_SHARE);
      return this;
    }

    /**
     * Prefers the lowest irritation index by the high figures of the scores, and among those of the
     * same index and surfactants the least active matter, since an index knows nothing of dose.
     * Materials without a score are left out.
     *
     * @return this builder
     */
    public Builder mildest() {
      wish = Wish.of(Wish.Aim.MILDEST);
      return this;
    }

    /**
     * Prefers the lowest irritation index less the credit for mixing, which {@link #mixingCredit}
     * has to set; otherwise as {@link #mildest}.
     *
     * @return this builder
     */
    public Builder mildestBlended() {
      wish = Wish.of(Wish.Aim.MILDEST_BLENDED);
      return this;
    }

    /**
     * Prefers the smallest sum of absolute changes from a given blend.
     *
     * @param blend the blend to stay close to
     * @return this builder
     */
    public Builder leastChangeFrom(Blend blend) {
      wish = Wish.leastChangeFrom(blend);
      return this;
    }

    /**
     * Prefers class shares close to given ones, by the sum of absolute distances.
     *
     * @param shares wanted shares by class [% of the active], 0 to 100 each
     * @return this builder
     * @throws IllegalArgumentException if a share is out of range or none is given
     */
    public Builder nearestToShares(Map<ChargeClass, Double> shares) {
      if (shares.isEmpty()) {
        throw new IllegalArgumentException("shares was empty, allowed is at least one class");
      }
      shares.forEach(
          (c, s) -> Require.inRange("share of " + c.label(), s, 0, 100, "% of the active"));
      wish = Wish.nearestTo(shares);
      return this;
    }

    /**
     * Switches the clash guard off; the reason is kept and printed with the answer.
     *
     * @param reason why it may be off
     * @return this builder
     */
    public Builder withoutClashGuard(String reason) {
      guardOffReason = Require.text("reason", reason);
      return this;
    }

    /**
     * Names the material that fills up to 100 %.
     *
     * @param materialId its id, {@code water} unless set
     * @return this builder
     */
    public Builder fillingUpWith(String materialId) {
      water = Require.text("material id", materialId);
      return this;
    }

    /**
     * Sets temperature and activity model of the pH.
     *
     * @param newConditions the conditions
     * @return this builder
     */
    public Builder conditions(Conditions newConditions) {
      conditions = Objects.requireNonNull(newConditions, "conditions");
      return this;
    }

    /**
     * Builds the brief.
     *
     * @return the brief
     * @throws ProblemsException if settings contradict each other; it carries all of them
     */
    public Brief build() {
      List<Problem> all = new ArrayList<>(problems);
      Place here = Place.in(name, "");
      if (requirements.stream().noneMatch(r -> r.kind() == Requirement.Kind.TOTAL_ACTIVE)) {
        all.add(
            Problem.error(
                "total-active-missing",
                here,
                "no total active",
                "a total of active matter with its tolerance",
                "totalActive(9.0, 0.2)"));
      }
      boolean blended =
          wish.aim() == Wish.Aim.MILDEST_BLENDED
              || requirements.stream().anyMatch(r -> r.kind() == Requirement.Kind.BLENDED_INDEX);
      if (blended && mixingCredit == null) {
        all.add(
            Problem.error(
                "mixing-credit-missing",
                Place.in(name, Requirement.Kind.BLENDED_INDEX.label()),
                "no credit for mixing",
                "a credit whose size you can defend; there is no default",
                "mixingCredit(MixingCredit.ofChargeVariance(40, 5.5)), or irritationIndexAtMost"));
      }
      double fixedSum = fixed.values().stream().mapToDouble(Double::doubleValue).sum();
      if (fixedSum > 100) {
        all.add(
            Problem.error(
                "fixed-over-100",
                Place.in(name, "fixed"),
                "fixed lines that add up to " + fixedSum,
                "at most 100 % m/m",
                "check the amounts"));
      }
      for (String id : mustUse) {
        if (leftOut.contains(id)) {
          all.add(
              Problem.error(
                  "must-and-left-out",
                  Place.in(name, id),
                  "a material that must be used and is left out",
                  "one of the two",
                  "drop one of the two settings"));
        }
      }
      if (!all.isEmpty()) {
        throw new ProblemsException(all);
      }
      return new Brief(this);
    }

    @Override
    public String toString() {
      return name + ", requirements so far: " + requirements.size();
    }
  }
}
