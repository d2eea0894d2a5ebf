package org.surfactantblend.acidity;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.aqueous.AcidBase.Step;
import org.surfactantblend.aqueous.ChargeBalance;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.ChargeCurve;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/**
 * What is weighed into a product to move its pH: an acid, a base, or a buffer salt, as it stands in
 * the bottle.
 *
 * <p>Strengths are percent by mass of the bottle's content (w/w, never w/v). Constants: citric acid
 * and triethanolamine from Goldberg, Kishore and Lennen, J. Phys. Chem. Ref. Data 31 (2002) 231
 * (recalled, the citric ones read again elsewhere); lactic and gluconic acid from memory.
 *
 * <p>Immutable and thread-safe; equality by value.
 */
public final class Titrant {
  private static final double CITRIC_G_PER_MOL = 192.124;
  private static final double CITRIC_MONOHYDRATE_G_PER_MOL = 210.14;
  private static final double LACTIC_G_PER_MOL = 90.08;
  private static final double LACTIC_AT_ONCE = 0.9;
  private static final double LACTONE_G_PER_MOL = 178.14;
  private static final double NAOH_G_PER_MOL = 40.00;
  private static final double KOH_G_PER_MOL = 56.11;
  private static final double CITRATE_DIHYDRATE_G_PER_MOL = 294.10;
  private static final double TEA_G_PER_MOL = 149.19;
  private static final double WATER_G_PER_MOL = 18.015;

  private static final AcidBase CITRIC =
      AcidBase.of(
          "citric acid",
          0,
          List.of(
              new Step(3.128, 4.07, -131),
              new Step(4.761, 2.23, -178),
              new Step(6.396, -3.38, -254)));
  private static final AcidBase LACTIC =
      AcidBase.of("lactic acid", 0, List.of(new Step(3.86, -0.33, 0)));
  private static final AcidBase GLUCONIC = AcidBase.acid("gluconic acid", 3.76);
  private static final AcidBase TEA =
      AcidBase.of("triethanolamine", 1, List.of(new Step(7.762, 33.6, 50)));

  /** Where only strong alkali still takes up acid. */
  private static final double CAUSTIC_PH = 11;

  /** As much alkali as 0.5 % sodium hydroxide, which irritates (from memory). */
  private static final double CAUSTIC_EQ_PER_KG = 0.12;

  private static final String USUAL =
      ": wear gloves and goggles, follow the supplier's safety sheet and your local rules";
  private static final String CAUSTIC =
      "strong alkali, corrosive to skin and eyes" + USUAL + "; add it to water, never water to it";
  private static final String CONCENTRATED_ACID =
      "concentrated acid, irritates or burns eyes and skin" + USUAL;

  private static final String AMINE =
      "strong amine base" + USUAL + "; keep it away from nitrosating agents";

  /** As much acid or amine as a material must hold to count as concentrated. */
  private static final double STRONG_MOL_PER_KG = 4;

  private final String name;
  private final List<Group> groups;
  private final double strong;
  private final double water;
  private final Map<String, Double> contents;
  private final List<String> cautions;
  private final List<String> remarks;
  private final double minutesToAct;

  private Titrant(Builder b) {
    name = b.name;
    groups = List.copyOf(b.groups);
    strong = b.strong;
    water = b.water;
    contents = java.util.Collections.unmodifiableMap(new LinkedHashMap<>(b.contents));
    cautions = List.copyOf(b.cautions);
    remarks = List.copyOf(b.remarks);
    minutesToAct = b.minutesToAct;
  }

  /**
   * A weak acid or base in a titrant.
   *
   * @param acid its constants
   * @param molPerKg how much [mol/kg of titrant], 0 to 60
   */
  public record Group(AcidBase acid, double molPerKg) {
    /**
     * Checks the figures.
     *
     * @param acid its constants
     * @param molPerKg how much [mol/kg of titrant], 0 to 60
     * @throws NullPointerException if the acid is null
     * @throws IllegalArgumentException if the amount is out of range
     */
    public Group {
      Objects.requireNonNull(acid, "acid");
      molPerKg = Require.inRange("amount of " + acid.name(), molPerKg, 0, 60, "mol/kg");
    }
  }

  /**
   * Citric acid solution.
   *
   * @param percent anhydrous citric acid [% m/m of the solution], more than 0 to 100; 59 dissolve
   *     at 20 C
   * @return the titrant
   * @throws IllegalArgumentException if the strength is out of range
   */
  public static Titrant citricAcid(double percent) {
    strength(percent);
    if (percent == 100) {
      return citricAcidAnhydrous();
    }
    Builder b =
        named("citric acid " + Text.number(percent) + " % m/m")
            .group(CITRIC, percent * 10 / CITRIC_G_PER_MOL)
            .waterPercent(100 - percent)
            .content("Citric Acid", percent);
    return (percent >= 30 ? b.caution(CONCENTRATED_ACID) : b).build();
  }

  /**
   * Citric acid as anhydrous crystals.
   *
   * @return the titrant
   */
  public static Titrant citricAcidAnhydrous() {
    return named("citric acid, anhydrous")
        .group(CITRIC, 1000 / CITRIC_G_PER_MOL)
        .content("Citric Acid", 100)
        .caution(CONCENTRATED_ACID)
        .remark("crystals act where they fall: dissolve them first, 10 to 20 % for small batches")
        .build();
  }

  /**
   * Citric acid as monohydrate crystals, 8.6 % of them water.
   *
   * @return the titrant
   */
  public static Titrant citricAcidMonohydrate() {
    double anhydrous = CITRIC_G_PER_MOL / CITRIC_MONOHYDRATE_G_PER_MOL * 100;
    return named("citric acid, monohydrate")
        .group(CITRIC, 1000 / CITRIC_MONOHYDRATE_G_PER_MOL)
        .waterPercent(WATER_G_PER_MOL / CITRIC_MONOHYDRATE_G_PER_MOL * 100)
        .content("Citric Acid", anhydrous)
        .caution(CONCENTRATED_ACID)
        .remark("crystals act where they fall: dissolve them first, 10 to 20 % for small batches")
        .build();
  }

  /**
   * Lactic acid of a grade. Of a strong one nine tenths act at once: 15 to 30 % of its acid is
   * lactoyl lactate, which gives half of it later (from memory).
   *
   * @param percent lactic acid with its esters, as the grade states [% m/m], more than 0 to 100
   * @return the titrant
   * @throws IllegalArgumentException if the strength is out of range
   */
  public static Titrant lacticAcid(double percent) {
    strength(percent);
    boolean strong = percent >= 50;
    Builder b =
        named("lactic acid " + Text.number(percent) + " % m/m")
            .group(LACTIC, percent * 10 / LACTIC_G_PER_MOL * (strong ? LACTIC_AT_ONCE : 1))
            .waterPercent(100 - percent)
            .content("Lactic Acid", percent);
    if (strong) {
      b.remark(
          "a strong grade holds part of its acid as lactoyl lactate: nine tenths are counted, the"
              + " rest opens slowly after dilution and lowers the pH further: read again after a"
              + " day");
    }
    return (percent >= 30 ? b.caution(CONCENTRATED_ACID) : b).build();
  }

  /**
   * Gluconolactone powder, which turns to gluconic acid over hours.
   *
   * @return the titrant
   */
  public static Titrant gluconolactone() {
    return named("gluconolactone")
        .group(GLUCONIC, 1000 / LACTONE_G_PER_MOL)
        .content("Gluconolactone", 100)
        .remark(
            "slow: half of it opens in 50 to 90 minutes at pH 3-5 and 25 C; do not judge the pH"
                + " before 4 to 6 hours")
        .minutesToAct(360)
        .build();
  }

  /**
   * Sodium hydroxide solution.
   *
   * @param percent sodium hydroxide [% m/m of the solution], more than 0 to 100
   * @return the titrant
   * @throws IllegalArgumentException if the strength is out of range
   */
  public static Titrant sodiumHydroxide(double percent) {
    strength(percent);
    return alkali("sodium hydroxide", "Sodium Hydroxide", percent, NAOH_G_PER_MOL);
  }

  /**
   * Potassium hydroxide solution.
   *
   * @param percent potassium hydroxide [% m/m of the solution], more than 0 to 100
   * @return the titrant
   * @throws IllegalArgumentException if the strength is out of range
   */
  public static Titrant potassiumHydroxide(double percent) {
    strength(percent);
    return alkali("potassium hydroxide", "Potassium Hydroxide", percent, KOH_G_PER_MOL);
  }

  private static Titrant alkali(String name, String inci, double percent, double gramsPerMol) {
    return named(name + " " + Text.number(percent) + " % m/m")
        .strongIonEqPerKg(percent * 10 / gramsPerMol)
        // The hydroxide turns to water when it meets acid: one mole for each.
        .waterPercent(Math.min(100, 100 - percent * (1 - WATER_G_PER_MOL / gramsPerMol)))
        .content(inci, percent)
        .caution(CAUSTIC)
        .remark("takes up carbon dioxide and weakens on standing: make it fresh or check it")
        .build();
  }

  /**
   * Trisodium citrate dihydrate, a mild base below pH 7 that adds buffer.
   *
   * @return the titrant
   */
  public static Titrant sodiumCitrate() {
    double mol = 1000 / CITRATE_DIHYDRATE_G_PER_MOL;
    return named("sodium citrate, dihydrate")
        .group(CITRIC, mol)
        .strongIonEqPerKg(3 * mol)
        .waterPercent(2 * WATER_G_PER_MOL / CITRATE_DIHYDRATE_G_PER_MOL * 100)
        .content("Sodium Citrate", 100 - 2 * WATER_G_PER_MOL / CITRATE_DIHYDRATE_G_PER_MOL * 100)
        .remark("adds buffer: every later correction needs more acid or base")
        .build();
  }

  /**
   * Triethanolamine.
   *
   * @param percent triethanolamine [% m/m], more than 0 to 100; the rest is taken as water
   * @return the titrant
   * @throws IllegalArgumentException if the strength is out of range
   */
  public static Titrant triethanolamine(double percent) {
    strength(percent);
    return named("triethanolamine " + Text.number(percent) + " % m/m")
        .group(TEA, percent * 10 / TEA_G_PER_MOL)
        .waterPercent(100 - percent)
        .content("Triethanolamine", percent)
        .caution(AMINE)
        .remark("its pH falls by about 0.02 per degree: read at 20 to 25 C")
        .build();
  }

  /**
   * A material of the table as titrant, at its typical figures.
   *
   * @param material the material
   * @return the titrant
   */
  public static Titrant of(Material material) {
    ChargeCurve curve = material.chargeCurve(Conditions.standard());
    Builder b = named(material.toString()).strongIonEqPerKg(curve.strongChargeEqPerKg());
    double capacity = Math.abs(curve.strongChargeEqPerKg());
    double amine = 0;
    for (AcidBaseGroup g : material.groups()) {
      b.group(g.acid(), g.amount().typical());
      capacity += g.amount().typical() * g.acid().steps().size();
      boolean base = g.acid().chargeOfMostProtonatedForm() == 1 && g.acid().steps().size() == 1;
      amine += base ? g.amount().typical() : 0;
    }
    boolean lactone =
        material.constituents().stream()
            .anyMatch(c -> c.inciName().equalsIgnoreCase("Gluconolactone"));
    for (Constituent c : material.constituents()) {
      b.content(c.inciName(), c.percent().typical());
    }
    b.waterPercent(material.waterPercent().typical());
    if (curve.chargeEqPerKg(CAUSTIC_PH, 0.1) >= CAUSTIC_EQ_PER_KG) {
      b.caution(CAUSTIC);
    } else if (amine >= STRONG_MOL_PER_KG) {
      b.caution(AMINE);
    } else if (!lactone && curve.chargeEqPerKg(7, 0.1) < 0 && capacity >= STRONG_MOL_PER_KG) {
      b.caution(CONCENTRATED_ACID);
    }
    if (!material.notes().isEmpty()) {
      b.remark(material.notes());
    }
    return (lactone ? b.minutesToAct(360) : b).build();
  }

  /**
   * Starts a titrant of one's own.
   *
   * @param name what to call it, with its strength
   * @return a builder
   */
  public static Builder named(String name) {
    return new Builder(name);
  }

  private static void strength(double percent) {
    Require.positive("strength", percent, "% m/m");
    Require.inRange("strength", percent, 0, 100, "% m/m");
  }

  /**
   * The same titrant thinned with water.
   *
   * @param parts how many parts of the finished weaker solution one part of this makes, by mass, 1
   *     to 1000
   * @return the weaker titrant
   * @throws IllegalArgumentException if the figure is out of range
   */
  public Titrant thinned(double parts) {
    Require.inRange("parts", parts, 1, 1000, "by mass");
    if (parts == 1) {
      return this;
    }
    Builder b =
        named(name + ", thinned 1 to " + Text.number(parts))
            .strongIonEqPerKg(strong / parts)
            .waterPercent(100 - (100 - water * 100) / parts)
            .minutesToAct(minutesToAct);
    groups.forEach(g -> b.group(g.acid(), g.molPerKg() / parts));
    contents.forEach((inci, percent) -> b.content(inci, percent / parts));
    cautions.forEach(b::caution);
    remarks.forEach(b::remark);
    return b.build();
  }

  /**
   * What it is called.
   *
   * @return the name with its strength
   */
  public String name() {
    return name;
  }

  /**
   * Its weak acids and bases.
   *
   * @return the groups
   */
  public List<Group> groups() {
    return groups;
  }

  /**
   * The charge of its strong ions, cations less anions.
   *
   * @return the charge [eq/kg of titrant]
   */
  public double strongChargeEqPerKg() {
    return strong;
  }

  /**
   * The water it brings.
   *
   * @return the water [kg/kg of titrant]
   */
  public double waterKgPerKg() {
    return water;
  }

  /**
   * What else it brings, by INCI name.
   *
   * @return percent by mass of the titrant
   */
  public Map<String, Double> contents() {
    return contents;
  }

  /**
   * The usual cautions for whoever weighs it.
   *
   * @return sentences without a full stop
   */
  public List<String> cautions() {
    return cautions;
  }

  /**
   * What to know about its strength and speed.
   *
   * @return sentences without a full stop
   */
  public List<String> remarks() {
    return remarks;
  }

  /**
   * How long to wait before its effect can be read.
   *
   * @return the time [min]; 5 for what acts at once and only has to be stirred in
   */
  public double minutesToAct() {
    return minutesToAct;
  }

  /**
   * Its net charge at a pH, with its water's own ions: below zero it pushes the pH down, above zero
   * up.
   *
   * @param conditions temperature and activity model
   * @param ph the pH
   * @param ionicStrength the ionic strength [mol/kg water]
   * @return the charge [eq/kg of titrant]
   */
  public double chargeEqPerKg(Conditions conditions, double ph, double ionicStrength) {
    double sum =
        strong + water * (conditions.h(ph, ionicStrength) - conditions.oh(ph, ionicStrength));
    for (Group g : groups) {
      sum += g.molPerKg() * conditions.meanCharge(g.acid(), ph, ionicStrength);
    }
    return sum;
  }

  /** What it adds to the ionic strength, without hydrogen and hydroxide ions [mol/kg]. */
  double ionsMolPerKg(Conditions conditions, double ph, double ionicStrength) {
    double sum = Math.abs(strong) / 2;
    for (Group g : groups) {
      sum += g.molPerKg() * conditions.meanSquareCharge(g.acid(), ph, ionicStrength) / 2;
    }
    return sum;
  }

  void addGroups(ChargeBalance.Builder balance, double kg) {
    for (Group g : groups) {
      balance.add(g.acid(), g.molPerKg() * kg);
    }
  }

  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof Titrant t
        && t.name.equals(name)
        && t.groups.equals(groups)
        && t.strong == strong
        && t.water == water
        && t.contents.equals(contents)
        && t.cautions.equals(cautions)
        && t.remarks.equals(remarks)
        && t.minutesToAct == minutesToAct;
  }

  @Override
  public int hashCode() {
    return Objects.hash(name, groups, strong, water);
  }

  @Override
  public String toString() {
    return name;
  }

  /** Builds a {@link Titrant}; not thread-safe. */
  public static final class Builder {
    private final String name;
    private final List<Group> groups = new ArrayList<>();
    private double strong;
    private double water;
    private final Map<String, Double> contents = new LinkedHashMap<>();
    private final List<String> cautions = new ArrayList<>();
    private final List<String> remarks = new ArrayList<>();
    private double minutesToAct = 5;

    private Builder(String name) {
      this.name = Require.text("titrant", name);
    }

    /**
     * Adds a weak acid or base.
     *
     * @param acid its constants
     * @param molPerKg how much [mol/kg of titrant], 0 to 60
     * @return this builder
     * @throws IllegalArgumentException if the amount is out of range
     */
    public Builder group(AcidBase acid, double molPerKg) {
      groups.add(new Group(acid, molPerKg));
      return this;
    }

    /**
     * Sets the charge of the strong ions: sodium and potassium less chloride and the like.
     *
     * @param eqPerKg the charge [eq/kg of titrant], -50 to 50
     * @return this builder
     * @throws IllegalArgumentException if the charge is out of range
     */
    public Builder strongIonEqPerKg(double eqPerKg) {
      strong = Require.inRange("strong-ion charge", eqPerKg, -50, 50, "eq/kg");
      return this;
    }

    /**
     * Sets the water.
     *
     * @param percent the water [% m/m of titrant], 0 to 100
     * @return this builder
     * @throws IllegalArgumentException if the percentage is out of range
     */
    public Builder waterPercent(double percent) {
      water = Require.inRange("water", percent, 0, 100, "% m/m") / 100;
      return this;
    }

    /**
     * Names a substance it brings into the product.
     *
     * @param inciName the INCI name
     * @param percent how much [% m/m of titrant], 0 to 100
     * @return this builder
     * @throws IllegalArgumentException if the percentage is out of range
     */
    public Builder content(String inciName, double percent) {
      contents.merge(
          Require.text("INCI name", inciName),
          Require.inRange("percent of " + inciName, percent, 0, 100, "% m/m"),
          Double::sum);
      return this;
    }

    /**
     * Adds a caution for whoever weighs it.
     *
     * @param sentence without a full stop
     * @return this builder
     */
    public Builder caution(String sentence) {
      cautions.add(Require.text("caution", sentence));
      return this;
    }

    /**
     * Adds a remark about its strength or speed.
     *
     * @param sentence without a full stop
     * @return this builder
     */
    public Builder remark(String sentence) {
      remarks.add(Require.text("remark", sentence));
      return this;
    }

    /**
     * Sets how long to wait before its effect can be read.
     *
     * @param minutes the time [min], 0 to 10000
     * @return this builder
     * @throws IllegalArgumentException if the time is out of range
     */
    public Builder minutesToAct(double minutes) {
      minutesToAct = Require.inRange("time to act", minutes, 0, 10000, "min");
      return this;
    }

    /**
     * Builds the titrant.
     *
     * @return the titrant
     * @throws IllegalArgumentException if it holds neither a group nor strong ions
     */
    public Titrant build() {
      if (groups.isEmpty() && strong == 0) {
        throw new IllegalArgumentException(
            "titrant " + name + " held nothing that moves a pH, allowed is at least one group");
      }
      return new Titrant(this);
    }

    @Override
    public String toString() {
      return name + ", not built yet";
    }
  }
}
