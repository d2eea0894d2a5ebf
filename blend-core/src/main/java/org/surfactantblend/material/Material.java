package org.surfactantblend.material;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Require;

/**
 * A raw material as it is bought: its constituents, the pH on its sheet, and its acid-base make-up.
 *
 * <p>Immutable and thread-safe. Equality is identity; two rows are compared by their {@link #id()}.
 */
public final class Material {
  /**
   * How far active matter and salt together may seem to exceed the dry residue, because the methods
   * differ [% m/m].
   */
  public static final double RESIDUE_TOLERANCE = 1;

  private static final String UNDOCUMENTED_CAVEAT =
      "nothing is known of its acids and bases: a small buffer of unknown pKa stands in";

  private final String id;
  private final String inciName;
  private final String grade;
  private final Family family;
  private final List<Constituent> constituents;
  private final @Nullable Range dryResidue;
  private final @Nullable SheetPh statedPh;
  private final @Nullable SheetPh sheetPh;
  private final @Nullable Range strongIons;
  private final List<AcidBaseGroup> ownGroups;
  private final List<AcidBaseGroup> groups;
  private final double naturalOriginPercent;
  private final double maxUsePercent;
  private final String notes;
  private final String lot;
  private final Map<String, String> sources;
  private final List<String> ownCaveats;
  private final List<String> caveats;
  private final Range water;
  private final Range activeMolPerKg;
  private final Optional<ChargeClass> chargeClass;
  private final Range active;
  private final Map<ChargeClass, Range> activeOfClass;
  private final Range salt;
  // A memo of a pure function of the final fields; a race at worst computes the same curve twice.
  private volatile @Nullable ChargeCurve standardCurve;

  private Material(Builder b) {
    id = b.id;
    inciName = b.inciName;
    grade = b.grade;
    family = b.family;
    constituents = List.copyOf(b.constituents);
    dryResidue = b.dryResidue;
    strongIons = b.strongIons;
    naturalOriginPercent = b.naturalOriginPercent;
    maxUsePercent = b.maxUsePercent;
    notes = b.notes;
    lot = b.lot;
    sources = Map.copyOf(b.sources);
    ownCaveats = List.copyOf(b.caveats);

    double low = 0;
    double typical = 0;
    double high = 0;
    Range moles = Range.ZERO;
    Range mainMoles = null;
    Range allActive = Range.ZERO;
    Range allSalt = Range.ZERO;
    ChargeClass first = null;
    boolean surfactant = false;
    boolean charged = false;
    boolean salty = false;
    activeOfClass = new EnumMap<>(ChargeClass.class);
    for (ChargeClass own : ChargeClass.values()) {
      activeOfClass.put(own, Range.ZERO);
    }
    for (Constituent c : constituents) {
      low += c.percent().low();
      typical += c.percent().typical();
      high += c.percent().high();
      if (c.isActive() && c.molarMass().isPresent()) {
        Range own = c.percent().times(10 / c.molarMass().getAsDouble());
        moles = moles.plus(own);
        mainMoles = mainMoles == null ? own : mainMoles;
      }
      if (c.isActive()) {
        surfactant = true;
        allActive = allActive.plus(c.percent());
      }
      ChargeClass own = c.chargeClass().orElse(null);
      if (own != null) {
        first = first == null ? own : first;
        charged |= own != ChargeClass.NONIONIC;
        activeOfClass.put(own, activeOfClass.getOrDefault(own, Range.ZERO).plus(c.percent()));
      }
      if (c.inciName().equalsIgnoreCase(Constituent.SODIUM_CHLORIDE)) {
        salty = true;
        allSalt = allSalt.plus(c.percent());
      }
    }
    if (typical > 100 + 1e-9) {
      throw new IllegalArgumentException(
          "constituents of " + id + " added up to " + typical + ", allowed is at most 100 % m/m");
    }
    water =
        Range.of(
            Math.min(Math.max(0, 100 - high), Math.max(0, 100 - typical)),
            Math.max(0, 100 - typical),
            Math.max(Math.max(0, 100 - low), Math.max(0, 100 - typical)));
    activeMolPerKg = moles;
    chargeClass = Optional.ofNullable(first);
    active = allActive;
    salt = allSalt;

    statedPh = b.sheetPh;
    ownGroups = List.copyOf(b.groups);
    List<String> notesOnData = new ArrayList<>(ownCaveats);
    boolean silent = surfactant && b.sheetPh == null && strongIons == null;
    List<AcidBaseGroup> all = new ArrayList<>();
    Map<String, AcidBaseGroup> byName = new LinkedHashMap<>();
    for (AcidBaseGroup group : family.groups()) {
      byName.put(group.name(), group);
    }
    for (AcidBaseGroup group : b.groups) {
      byName.put(group.name(), group);
    }
    boolean undocumented =
        surfactant && (family.is(Family.Trait.UNDOCUMENTED) && b.groups.isEmpty());
    if (undocumented) {
      byName.put("unknown buffer", unknownBuffer());
      notesOnData.add(UNDOCUMENTED_CAVEAT);
    }
    Range main = mainMoles == null ? Range.ZERO : mainMoles;
    for (AcidBaseGroup group : byName.values()) {
      all.add(group.resolved(main));
    }
    groups = List.copyOf(all);
    if (silent) {
      sheetPh = classDefaultPh();
      notesOnData.add("its sheet gives no pH: the usual window of its class stands in");
    } else {
      sheetPh = b.sheetPh;
    }
    if (charged && !salty) {
      notesOnData.add("its sheet gives no salt: none is counted");
    }
    if (sheetPh != null && !sheetPh.basisCertain() && !silent) {
      notesOnData.add(
          "the dilution behind its sheet pH is not certain: the range is widened by "
              + SheetPh.WIDENING
              + " at each end");
    }
    if (sheetPh != null && strongIons == null && sheetPh.effective().high() >= 11) {
      notesOnData.add(
          "alkali worked back from a pH of 11 or more is ill-conditioned: titrate 20 g of the lot");
    }
    caveats = List.copyOf(notesOnData);
  }

  private static AcidBaseGroup unknownBuffer() {
    return new AcidBaseGroup(
        "unknown buffer",
        AcidBase.acid("unknown buffer", 6.5).asApparent(),
        Range.of(4.5, 6.5, 9),
        Range.of(0, 0.03, 0.1),
        false,
        false);
  }

  private SheetPh classDefaultPh() {
    ChargeClass c = chargeClass().orElse(ChargeClass.NONIONIC);
    Range usual =
        switch (c) {
          case ANIONIC -> Range.of(5.5, 7, 9);
          case AMPHOTERIC -> Range.of(4.5, 6, 9);
          case NONIONIC -> Range.of(5, 7, 8);
          case CATIONIC -> Range.of(4, 6, 8);
        };
    return new SheetPh(usual, 10, false);
  }

  /**
   * Starts a material.
   *
   * @param id its key in the table: lower-case words with hyphens that name INCI and grade
   * @return a builder; INCI name and family still have to be given
   */
  public static Builder builder(String id) {
    return new Builder(id);
  }

  /**
   * A builder that starts from this material.
   *
   * @return the builder
   */
  public Builder toBuilder() {
    Builder b = new Builder(id).inciName(inciName).grade(grade).family(family);
    b.constituents.addAll(constituents);
    b.dryResidue = dryResidue;
    b.sheetPh = statedPh;
    b.strongIons = strongIons;
    b.groups.addAll(ownGroups);
    b.naturalOriginPercent = naturalOriginPercent;
    b.maxUsePercent = maxUsePercent;
    b.notes = notes;
    b.lot = lot;
    b.sources.putAll(sources);
    b.caveats.addAll(ownCaveats);
    return b;
  }

  /**
   * The key in the table.
   *
   * @return lower-case words with hyphens
   */
  public String id() {
    return id;
  }

  /**
   * The INCI name of the main constituent.
   *
   * @return the name
   */
  public String inciName() {
    return inciName;
  }

  /**
   * The grade in words.
   *
   * @return the grade; empty when there is only one
   */
  public String grade() {
    return grade;
  }

  /**
   * The chemical family.
   *
   * @return the family
   */
  public Family family() {
    return family;
  }

  /**
   * Everything but water that is inside.
   *
   * @return the constituents, main one first
   */
  public List<Constituent> constituents() {
    return constituents;
  }

  /**
   * Whether it brings active matter.
   *
   * @return true when at least one constituent is surface-active
   */
  public boolean isSurfactant() {
    return chargeClass().isPresent();
  }

  /**
   * The charge class of its first active constituent.
   *
   * @return the class, or empty when it is no surfactant
   */
  public Optional<ChargeClass> chargeClass() {
    return chargeClass;
  }

  /**
   * All active matter in it.
   *
   * @return the range [% active, by mass as supplied]
   */
  public Range activePercent() {
    return active;
  }

  /**
   * Its active matter of one charge class.
   *
   * @param chargeClass the class
   * @return the range [% active, by mass as supplied], zero when it has none
   */
  public Range activePercent(ChargeClass chargeClass) {
    return activeOfClass.getOrDefault(
        Objects.requireNonNull(chargeClass, "charge class"), Range.ZERO);
  }

  /**
   * How much of a constituent is in it.
   *
   * @param inci the INCI name, compared without regard to case; {@code Aqua} gives the water
   * @return the range [% m/m as supplied], zero when it has none
   */
  public Range percentOf(String inci) {
    if (inci.equalsIgnoreCase(Constituent.WATER)) {
      return water;
    }
    Range total = Range.ZERO;
    for (Constituent c : constituents) {
      if (c.inciName().equalsIgnoreCase(inci)) {
        total = total.plus(c.percent());
      }
    }
    return total;
  }

  /**
   * The sodium chloride in it.
   *
   * @return the range [% m/m as supplied]
   */
  public Range saltPercent() {
    return salt;
  }

  /**
   * The water in it: what the constituents leave.
   *
   * @return the range [% m/m as supplied]
   */
  public Range waterPercent() {
    return water;
  }

  /**
   * The amount of active substance, as far as molar masses are known.
   *
   * @return the range [mol/kg as supplied]
   */
  public Range activeMolPerKg() {
    return activeMolPerKg;
  }

  /**
   * The dry residue on its sheet.
   *
   * @return the range [% m/m], or empty when not given
   */
  public Optional<Range> dryResiduePercent() {
    return Optional.ofNullable(dryResidue);
  }

  /**
   * The pH to reckon with: that of its sheet, or its class's usual window (see {@link #caveats()}).
   *
   * @return the pH with its dilution, or empty for a material whose strong ions are declared or
   *     that is taken as neutral
   */
  public Optional<SheetPh> sheetPh() {
    return Optional.ofNullable(sheetPh);
  }

  /**
   * The charge of its strong ions, where it is declared or measured rather than worked back from a
   * pH: cations such as sodium less anions such as chloride.
   *
   * @return the range [eq/kg as supplied], or empty
   */
  public Optional<Range> strongIonEqPerKg() {
    return Optional.ofNullable(strongIons);
  }

  /**
   * The weak acid-base groups it carries, each with its amount in mol per kg as supplied.
   *
   * @return the groups
   */
  public List<AcidBaseGroup> groups() {
    return groups;
  }

  /**
   * The part of natural origin.
   *
   * @return percent by mass of the raw material without its water, or empty when not given
   */
  public OptionalDouble naturalOriginPercent() {
    return optional(naturalOriginPercent);
  }

  /**
   * The greatest use that its owner or a survey names.
   *
   * @return percent by mass of the product as supplied, or empty when not given
   */
  public OptionalDouble maxUsePercent() {
    return optional(maxUsePercent);
  }

  private static OptionalDouble optional(double v) {
    return Double.isNaN(v) ? OptionalDouble.empty() : OptionalDouble.of(v);
  }

  /**
   * Remarks for people.
   *
   * @return free text, may be empty; several remarks are separated by a semicolon and a space
   */
  public String notes() {
    return notes;
  }

  /**
   * The remarks of {@link #notes()} for whoever handles the material: all but those on where a
   * figure comes from, which are one that begins with "highest rinse-off use" and, last, everything
   * from "sheet pH" on.
   *
   * @return one remark each, in their order; empty when there is none
   */
  public List<String> benchNotes() {
    return Stream.of(notes.split("; ", -1))
        .map(String::strip)
        .takeWhile(r -> !r.startsWith("sheet pH"))
        .filter(r -> !r.isEmpty() && !r.startsWith("highest rinse-off use"))
        .toList();
  }

  /**
   * The lot, when the figures are those of one lot.
   *
   * @return the lot's name, or empty for a grade
   */
  public Optional<String> lot() {
    return lot.isEmpty() ? Optional.empty() : Optional.of(lot);
  }

  /**
   * Where its figures come from: source ids by name of figure.
   *
   * @return an immutable map
   */
  public Map<String, String> sources() {
    return sources;
  }

  /**
   * The weak groups that were entered for this material itself, beside those of its family.
   *
   * @return the groups, as entered
   */
  public List<AcidBaseGroup> ownGroups() {
    return ownGroups;
  }

  /**
   * The pH that was entered for it, without the stand-in of {@link #sheetPh()}.
   *
   * @return the pH with its dilution, or empty when none was entered
   */
  public Optional<SheetPh> statedPh() {
    return Optional.ofNullable(statedPh);
  }

  /**
   * What whoever entered it said is uncertain, the first part of {@link #caveats()}.
   *
   * @return sentences without a full stop, may be empty
   */
  public List<String> ownCaveats() {
    return ownCaveats;
  }

  /**
   * What is uncertain about its data beyond the ranges.
   *
   * @return sentences without a full stop, may be empty
   */
  public List<String> caveats() {
    return caveats;
  }

  /**
   * Its charge against pH under given conditions.
   *
   * @param conditions temperature and activity model
   * @return the curve
   */
  public ChargeCurve chargeCurve(Conditions conditions) {
    if (!conditions.equals(Conditions.standard())) {
      return new ChargeCurve(this, conditions);
    }
    ChargeCurve curve = standardCurve;
    if (curve == null) {
      curve = new ChargeCurve(this, conditions);
      standardCurve = curve;
    }
    return curve;
  }

  @Override
  public String toString() {
    return id + (lot.isEmpty() ? "" : " lot " + lot);
  }

  /** Builds a {@link Material}; not thread-safe. */
  public static final class Builder {
    private String id;
    private String inciName = "";
    private String grade = "";
    private Family family = Family.inert("unspecified");
    private final List<Constituent> constituents = new ArrayList<>();
    private @Nullable Range dryResidue;
    private @Nullable SheetPh sheetPh;
    private @Nullable Range strongIons;
    private final List<AcidBaseGroup> groups = new ArrayList<>();
    private double naturalOriginPercent = Double.NaN;
    private double maxUsePercent = Double.NaN;
    private String notes = "";
    private String lot = "";
    private final Map<String, String> sources = new LinkedHashMap<>();
    private final List<String> caveats = new ArrayList<>();

    private Builder(String id) {
      this.id = Require.text("id", id);
    }

    /**
     * Sets another key.
     *
     * @param newId the key
     * @return this builder
     */
    public Builder id(String newId) {
      id = Require.text("id", newId);
      return this;
    }

    /**
     * Sets the INCI name of the main constituent.
     *
     * @param name the name
     * @return this builder
     */
    public Builder inciName(String name) {
      inciName = Require.text("INCI name", name);
      return this;
    }

    /**
     * Sets the grade in words.
     *
     * @param text the grade, may be empty
     * @return this builder
     */
    public Builder grade(String text) {
      grade = text.strip();
      return this;
    }

    /**
     * Sets the family, whose usual groups the material then carries.
     *
     * @param newFamily the family
     * @return this builder
     */
    public Builder family(Family newFamily) {
      family = Objects.requireNonNull(newFamily, "family");
      return this;
    }

    /**
     * Adds a constituent; one of the same INCI name is replaced.
     *
     * @param constituent the constituent
     * @return this builder
     */
    public Builder constituent(Constituent constituent) {
      for (int i = 0; i < constituents.size(); i++) {
        if (constituents.get(i).inciName().equalsIgnoreCase(constituent.inciName())) {
          constituents.set(i, constituent);
          return this;
        }
      }
      constituents.add(constituent);
      return this;
    }

    /**
     * Sets the dry residue.
     *
     * @param percent percent by mass as supplied, 0 to 100
     * @return this builder
     * @throws IllegalArgumentException if it is out of range
     */
    public Builder dryResiduePercent(Range percent) {
      Require.inRange("lowest dry residue", percent.low(), 0, 100, "% m/m");
      Require.inRange("highest dry residue", percent.high(), 0, 100, "% m/m");
      dryResidue = percent;
      return this;
    }

    /**
     * Sets the pH of the sheet or certificate.
     *
     * @param ph the pH with its dilution
     * @return this builder
     */
    public Builder sheetPh(SheetPh ph) {
      sheetPh = Objects.requireNonNull(ph, "sheet pH");
      return this;
    }

    /**
     * Declares the charge of the strong ions, which then takes precedence over the sheet pH.
     *
     * @param eqPerKg cations less anions [eq/kg as supplied], -50 to 50
     * @return this builder
     * @throws IllegalArgumentException if it is out of range
     */
    public Builder strongIonEqPerKg(Range eqPerKg) {
      Require.inRange("lowest strong-ion charge", eqPerKg.low(), -50, 50, "eq/kg");
      Require.inRange("highest strong-ion charge", eqPerKg.high(), -50, 50, "eq/kg");
      strongIons = eqPerKg;
      return this;
    }

    /**
     * Takes back a declared charge of the strong ions, so that the sheet pH counts again.
     *
     * @return this builder
     */
    public Builder strongIonsFromPh() {
      strongIons = null;
      return this;
    }

    /**
     * Adds a weak group; it replaces the family's group of the same name.
     *
     * @param group the group
     * @return this builder
     */
    public Builder group(AcidBaseGroup group) {
      groups.removeIf(g -> g.name().equals(group.name()));
      groups.add(group);
      return this;
    }

    /**
     * Sets the part of natural origin.
     *
     * @param percent 0 to 100 [% m/m without water]
     * @return this builder
     * @throws IllegalArgumentException if it is out of range
     */
    public Builder naturalOriginPercent(double percent) {
      naturalOriginPercent = Require.inRange("natural origin", percent, 0, 100, "% m/m");
      return this;
    }

    /**
     * Sets the greatest use.
     *
     * @param percent 0 to 100 [% m/m of the product as supplied]
     * @return this builder
     * @throws IllegalArgumentException if it is out of range
     */
    public Builder maxUsePercent(double percent) {
      maxUsePercent = Require.inRange("greatest use", percent, 0, 100, "% m/m as supplied");
      return this;
    }

    /**
     * Sets remarks for people.
     *
     * @param text the remarks
     * @return this builder
     */
    public Builder notes(String text) {
      notes = text.strip();
      return this;
    }

    /**
     * Names the lot whose figures these are.
     *
     * @param name the lot; empty for a grade
     * @return this builder
     */
    public Builder lot(String name) {
      lot = name.strip();
      return this;
    }

    /**
     * Says where a figure comes from.
     *
     * @param figure the name of the figure, such as {@code active}
     * @param sourceIds ids of sources, separated by "; "
     * @return this builder
     */
    public Builder source(String figure, String sourceIds) {
      sources.put(Require.text("figure", figure), sourceIds.strip());
      return this;
    }

    /**
     * Says what is uncertain beyond the ranges.
     *
     * @param sentence a sentence without a full stop
     * @return this builder
     */
    public Builder caveat(String sentence) {
      caveats.add(Require.text("caveat", sentence));
      return this;
    }

    /**
     * Builds the material.
     *
     * @return the material
     * @throws IllegalArgumentException if the INCI name is missing or the constituents' typical
     *     percentages add up to more than 100
     */
    public Material build() {
      Require.text("INCI name of " + id, inciName);
      return new Material(this);
    }

    @Override
    public String toString() {
      return id + ", not built yet";
    }
  }
}
