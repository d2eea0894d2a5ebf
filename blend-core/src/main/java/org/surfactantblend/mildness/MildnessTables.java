package org.surfactantblend.mildness;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Require;

/**
 * The figures behind the measures that are only reported: critical micelle concentrations,
 * interaction parameters, eye-hazard limits and the salt that is formed with a surfactant.
 * Irritation scores, which requirements use, lie over the table of materials instead.
 *
 * <p>A shop's own figures lie over the shipped ones: {@link #with(MildnessTables)}. What is in no
 * table is not known, and no measure takes it as zero.
 *
 * <p>Immutable and thread-safe; each {@code with} gives new tables.
 */
public final class MildnessTables {
  /** Tables without any figure. */
  public static final MildnessTables EMPTY =
      new MildnessTables(Map.of(), InteractionTable.EMPTY, Map.of(), Map.of(), Map.of());

  private final Map<String, Cmc> cmcs;
  private final InteractionTable interactions;
  private final Map<String, EyeHazardLimit> eyeByInci;
  private final Map<String, EyeHazardLimit> eyeByFamily;
  private final Map<String, Double> saltByFamily;

  private MildnessTables(
      Map<String, Cmc> cmcs,
      InteractionTable interactions,
      Map<String, EyeHazardLimit> eyeByInci,
      Map<String, EyeHazardLimit> eyeByFamily,
      Map<String, Double> saltByFamily) {
    this.cmcs = cmcs;
    this.interactions = interactions;
    this.eyeByInci = eyeByInci;
    this.eyeByFamily = eyeByFamily;
    this.saltByFamily = saltByFamily;
  }

  /**
   * The critical micelle concentration of a surfactant with its source.
   *
   * @param component the surfactant with its CMC [mmol/L] and head group
   * @param evidence in a word, such as {@code found} or {@code derived}
   * @param source the id of the source
   */
  public record Cmc(MicelleComponent component, String evidence, String source) {
    /**
     * Checks that nothing is missing.
     *
     * @param component the surfactant with its CMC [mmol/L] and head group
     * @param evidence in a word, such as {@code found} or {@code derived}
     * @param source the id of the source
     * @throws IllegalArgumentException if a text is blank
     */
    public Cmc {
      Objects.requireNonNull(component, "component");
      evidence = Require.text("evidence of the CMC", evidence);
      source = Require.text("source of the CMC", source);
    }
  }

  /**
   * These tables with others laid over them.
   *
   * @param over the figures that go first
   * @return the new tables
   */
  public MildnessTables with(MildnessTables over) {
    return new MildnessTables(
        laid(cmcs, over.cmcs),
        interactions.with(over.interactions),
        laid(eyeByInci, over.eyeByInci),
        laid(eyeByFamily, over.eyeByFamily),
        laid(saltByFamily, over.saltByFamily));
  }

  /**
   * These tables with the CMC of a surfactant, in place of an earlier one.
   *
   * @param cmc the CMC; the name of its component is compared without regard to case
   * @return the new tables
   */
  public MildnessTables withCmc(Cmc cmc) {
    return new MildnessTables(
        laid(cmcs, Map.of(key(cmc.component().name()), cmc)),
        interactions,
        eyeByInci,
        eyeByFamily,
        saltByFamily);
  }

  /**
   * These tables with interaction parameters laid over those they have.
   *
   * @param over the parameters that go first
   * @return the new tables
   */
  public MildnessTables withInteractions(InteractionTable over) {
    return new MildnessTables(cmcs, interactions.with(over), eyeByInci, eyeByFamily, saltByFamily);
  }

  /**
   * These tables with the eye-hazard limit of one surfactant.
   *
   * @param inciName its INCI name, compared without regard to case
   * @param limit the limit
   * @return the new tables
   */
  public MildnessTables withEyeLimit(String inciName, EyeHazardLimit limit) {
    return new MildnessTables(
        cmcs,
        interactions,
        laid(eyeByInci, Map.of(key(inciName), Objects.requireNonNull(limit, "limit"))),
        eyeByFamily,
        saltByFamily);
  }

  /**
   * These tables with the eye-hazard limit of a family.
   *
   * @param family the name of the family
   * @param limit the limit
   * @return the new tables
   */
  public MildnessTables withEyeLimitOfFamily(String family, EyeHazardLimit limit) {
    return new MildnessTables(
        cmcs,
        interactions,
        eyeByInci,
        laid(eyeByFamily, Map.of(key(family), Objects.requireNonNull(limit, "limit"))),
        saltByFamily);
  }

  /**
   * These tables with the sodium chloride that is formed when a family's surfactants are made.
   *
   * @param family the name of the family
   * @param gramPerGramActive sodium chloride [g per g of active], 0 to 2
   * @return the new tables
   * @throws IllegalArgumentException if the figure is out of range
   */
  public MildnessTables withSaltFromSynthesis(String family, double gramPerGramActive) {
    double checked =
        Require.inRange("sodium chloride from synthesis", gramPerGramActive, 0, 2, "g/g active");
    return new MildnessTables(
        cmcs,
        interactions,
        eyeByInci,
        eyeByFamily,
        laid(saltByFamily, Map.of(key(family), checked)));
  }

  /**
   * The CMC of a surfactant.
   *
   * @param inciName its INCI name, compared without regard to case
   * @return the CMC with its source, or empty when the tables have none
   */
  public Optional<Cmc> cmc(String inciName) {
    return Optional.ofNullable(cmcs.get(key(inciName)));
  }

  /**
   * The interaction parameters.
   *
   * @return the table
   */
  public InteractionTable interactions() {
    return interactions;
  }

  /**
   * The eye-hazard limit of a surfactant: its own, else that of its family.
   *
   * @param inciName the INCI name of the surfactant
   * @param family the family of the material it is in
   * @return the limit, or empty when the tables have none
   */
  public Optional<EyeHazardLimit> eyeLimit(String inciName, Family family) {
    EyeHazardLimit own = eyeByInci.get(key(inciName));
    return Optional.ofNullable(own != null ? own : eyeByFamily.get(key(family.name())));
  }

  /**
   * The sodium chloride formed when a material's surfactant is made, where its sheet gives none.
   *
   * @param material the material
   * @return sodium chloride [g per g of active], or empty when the tables have none for its family
   */
  public OptionalDouble saltFromSynthesis(Material material) {
    Double salt = saltByFamily.get(key(material.family().name()));
    return salt == null ? OptionalDouble.empty() : OptionalDouble.of(salt);
  }

  private static String key(String name) {
    return Require.text("name", name).toLowerCase(Locale.ROOT);
  }

  private static <V> Map<String, V> laid(Map<String, V> under, Map<String, V> over) {
    Map<String, V> all = new LinkedHashMap<>(under);
    all.putAll(over);
    return Map.copyOf(all);
  }

  @Override
  public String toString() {
    return cmcs.size()
        + " CMCs, interactions of "
        + interactions
        + ", "
        + (eyeByInci.size() + eyeByFamily.size())
        + " eye-hazard limits, salt from synthesis of "
        + saltByFamily.size()
        + " families";
  }
}
