package org.surfactantblend.mildness;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.IrritationScores;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Require;

/**
 * The measures of mildness of one blend side by side, each with what stands behind it. There is no
 * published number that is "the mildness of a blend", so there is none here; what a measure lacks
 * is named, and nothing missing counts as zero.
 *
 * <p>All figures are at the typical contents of the materials unless they are ranges.
 *
 * <p>Immutable and thread-safe; each {@code with} and {@code at} gives a new one.
 */
public final class BlendMildness {
  /** The pH of the charges when none is named. */
  public static final double USUAL_PH = 5.5;

  /** The use dilution when none is named. */
  public static final double USUAL_DILUTION = 10;

  private final Blend blend;
  private final IrritationScores scores;
  private final MildnessTables tables;
  private final double atPh;
  private final double fold;
  private final @Nullable MixingCredit credit;
  private final Map<String, Double> polymers;

  private BlendMildness(
      Blend blend,
      IrritationScores scores,
      MildnessTables tables,
      double atPh,
      double fold,
      @Nullable MixingCredit credit,
      Map<String, Double> polymers) {
    this.blend = blend;
    this.scores = scores;
    this.tables = tables;
    this.atPh = atPh;
    this.fold = fold;
    this.credit = credit;
    this.polymers = polymers;
  }

  /**
   * The measures of a blend, charges at pH 5.5 and use at ten times the volume.
   *
   * @param blend the blend
   * @param scores the irritation scores, such as those of the table of materials
   * @param tables the other figures
   * @return the measures
   */
  public static BlendMildness of(Blend blend, IrritationScores scores, MildnessTables tables) {
    return new BlendMildness(
        Objects.requireNonNull(blend, "blend"),
        Objects.requireNonNull(scores, "scores"),
        Objects.requireNonNull(tables, "tables"),
        USUAL_PH,
        USUAL_DILUTION,
        null,
        Map.of());
  }

  /**
   * The same with charges at another pH.
   *
   * @param ph the pH, 0 to 14
   * @return the measures
   * @throws IllegalArgumentException if it is out of range
   */
  public BlendMildness atPh(double ph) {
    Require.inRange("pH", ph, 0, 14, "");
    return new BlendMildness(blend, scores, tables, ph, fold, credit, polymers);
  }

  /**
   * The same with another use dilution.
   *
   * @param times how many times its volume the product is brought to, 1 to 1000
   * @return the measures
   * @throws IllegalArgumentException if it is out of range
   */
  public BlendMildness atDilution(double times) {
    Require.inRange("use dilution", times, 1, 1000, "fold");
    return new BlendMildness(blend, scores, tables, atPh, times, credit, polymers);
  }

  /**
   * The same with a blended index.
   *
   * @param newCredit what mixing takes off
   * @return the measures
   */
  public BlendMildness withCredit(MixingCredit newCredit) {
    return new BlendMildness(
        blend, scores, tables, atPh, fold, Objects.requireNonNull(newCredit, "credit"), polymers);
  }

  /**
   * The same with the charge of a cationic polymer from its sheet.
   *
   * @param materialId the polymer
   * @param meqPerGram its charge [meq/g as supplied], 0 to 20
   * @return the measures
   * @throws IllegalArgumentException if it is out of range
   */
  public BlendMildness withPolymerCharge(String materialId, double meqPerGram) {
    Map<String, Double> all = new LinkedHashMap<>(polymers);
    all.put(
        Require.text("material id", materialId),
        Require.inRange("charge of " + materialId, meqPerGram, 0, 20, "meq/g as supplied"));
    return new BlendMildness(blend, scores, tables, atPh, fold, credit, Map.copyOf(all));
  }

  /**
   * The blend.
   *
   * @return the blend
   */
  public Blend blend() {
    return blend;
  }

  /**
   * The part of amphoteric and nonionic surfactant in the active matter.
   *
   * @return the share [% of the active]
   */
  public double secondarySharePercent() {
    return blend.share(ChargeClass.AMPHOTERIC).value() + blend.share(ChargeClass.NONIONIC).value();
  }

  /**
   * Anionic over amphoteric active matter, both by mass of active.
   *
   * @return the ratio, or empty when there is no amphoteric surfactant
   */
  public OptionalDouble anionicToAmphoteric() {
    double amphoteric = blend.active(ChargeClass.AMPHOTERIC).value();
    return amphoteric > 0
        ? OptionalDouble.of(blend.active(ChargeClass.ANIONIC).value() / amphoteric)
        : OptionalDouble.empty();
  }

  /**
   * The negative charge on the surfactants.
   *
   * @return the charge at this report's pH
   */
  public NetAnionicCharge netAnionicCharge() {
    return NetAnionicCharge.of(blend, atPh, Conditions.standard());
  }

  /**
   * The irritation index, an upper bound; show the total of active matter beside it.
   *
   * @return the index, or the materials that lack a score
   */
  public IrritationIndex irritationIndex() {
    return IrritationIndex.of(blend, scores);
  }

  /**
   * The irritation index by the high figures less the credit for mixing.
   *
   * @return the index [sodium lauryl sulfate = 100], or empty when no credit was set, a score is
   *     missing or the index would not be convex
   */
  public OptionalDouble blendedIndex() {
    IrritationIndex linear = irritationIndex();
    if (credit == null || linear.range().isEmpty()) {
      return OptionalDouble.empty();
    }
    List<Material> surfactants = new ArrayList<>();
    List<Double> high = new ArrayList<>();
    List<Double> actives = new ArrayList<>();
    for (BlendLine l : blend.lines()) {
      double active = 0;
      double load = 0;
      for (Constituent c : l.material().constituents()) {
        if (c.isActive()) {
          active += c.percent().typical();
          load += c.percent().typical() * scores.find(l.material(), c).orElseThrow().score().high();
        }
      }
      if (active > 0) {
        surfactants.add(l.material());
        high.add(load / active);
        actives.add(l.massFraction() * active);
      }
    }
    if (credit.refusal(surfactants, Conditions.standard()).isPresent()) {
      return OptionalDouble.empty();
    }
    BlendedIndex index = credit.index(array(high), surfactants, Conditions.standard());
    return OptionalDouble.of(index.at(index.shares(array(actives))));
  }

  private static double[] array(List<Double> values) {
    return values.stream().mapToDouble(Double::doubleValue).toArray();
  }

  /**
   * The sodium chloride from all materials.
   *
   * @return the salt
   */
  public SaltCarried saltCarried() {
    return SaltCarried.of(blend, tables);
  }

  /**
   * The eye hazard of the blend as it is, undiluted: for concentrates and pre-blends and whoever
   * handles them.
   *
   * @return the sums
   */
  public EyeHazardSum eyeHazard() {
    List<EyeHazardSum.Part> parts = new ArrayList<>();
    for (BlendLine l : blend.lines()) {
      for (Constituent c : l.material().constituents()) {
        if (c.isActive()) {
          parts.add(
              new EyeHazardSum.Part(
                  l.material().id(),
                  l.massFraction() * c.percent().typical(),
                  tables.eyeLimit(c.inciName(), l.material().family())));
        }
      }
    }
    return EyeHazardSum.of(parts);
  }

  /**
   * The charge of cationic polymers against that of the surfactants.
   *
   * @return the ratio, or empty when there is no cationic polymer
   */
  public Optional<PolymerChargeRatio> polymerChargeRatio() {
    return PolymerChargeRatio.of(blend, netAnionicCharge(), polymers);
  }

  /**
   * The mixed micelles as it is and at the use dilution.
   *
   * @return the micelles, or what is missing
   */
  public BlendMicelles micelles() {
    return BlendMicelles.of(blend, tables, fold);
  }

  /**
   * A table of the measures of up to three blends side by side, in at most 80 columns, with what
   * stands behind each measure and what limits it.
   *
   * @param reports one to three reports
   * @return the text, with line feeds
   * @throws IllegalArgumentException if there are none or more than three
   */
  public static String table(List<BlendMildness> reports) {
    if (reports.isEmpty() || reports.size() > 3) {
      throw new IllegalArgumentException(
          "number of blends was " + reports.size() + ", allowed is 1 to 3");
    }
    return new MildnessText(reports).text();
  }

  double ph() {
    return atPh;
  }

  double fold() {
    return fold;
  }

  Optional<MixingCredit> credit() {
    return Optional.ofNullable(credit);
  }

  @Override
  public String toString() {
    return table(List.of(this));
  }
}
