package org.surfactantblend.mildness;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.quantity.Require;

/**
 * The mixed micelles of a blend as it is and diluted for use, by {@link MixedMicelleModel#regular}
 * at the typical contents. A figure for reports only.
 *
 * <p>Every active surfactant needs a molar mass, a CMC, and an interaction parameter with every
 * other; where one is missing there is no figure, and what is missing is named. A kilogram of
 * product is taken as a litre.
 *
 * <p>Immutable and thread-safe.
 */
public final class BlendMicelles {
  private final double fold;
  private final List<String> missing;
  private final Optional<MixedMicelle> product;
  private final Optional<MixedMicelle> diluted;
  private final OptionalDouble ratio;
  private final List<String> caveats;
  private final Set<String> sources;

  private BlendMicelles(
      double fold,
      List<String> missing,
      Optional<MixedMicelle> product,
      Optional<MixedMicelle> diluted,
      OptionalDouble ratio,
      List<String> caveats,
      Set<String> sources) {
    this.fold = fold;
    this.missing = List.copyOf(missing);
    this.product = product;
    this.diluted = diluted;
    this.ratio = ratio;
    this.caveats = List.copyOf(caveats);
    this.sources = sources;
  }

  /**
   * The micelles of a blend.
   *
   * @param blend the blend
   * @param tables CMCs and interaction parameters
   * @param fold how many times its volume the product is brought to in use, 1 to 1000
   * @return the micelles, or what is missing
   * @throws IllegalArgumentException if the dilution is out of range
   */
  public static BlendMicelles of(Blend blend, MildnessTables tables, double fold) {
    Require.inRange("use dilution", fold, 1, 1000, "fold");
    Set<String> missing = new LinkedHashSet<>();
    Set<String> sources = new LinkedHashSet<>();
    Map<MicelleComponent, Double> amounts = new LinkedHashMap<>();
    for (BlendLine l : blend.lines()) {
      for (Constituent c : l.material().constituents()) {
        double percent = l.massFraction() * c.percent().typical();
        if (!c.isActive() || percent == 0) {
          continue;
        }
        Optional<MildnessTables.Cmc> cmc = tables.cmc(c.inciName());
        if (cmc.isEmpty()) {
          missing.add("no CMC of " + c.inciName());
        }
        if (c.molarMass().isEmpty()) {
          missing.add("no molar mass of " + c.inciName());
        }
        if (cmc.isPresent() && c.molarMass().isPresent()) {
          amounts.merge(
              cmc.get().component(),
              percent * 10 / c.molarMass().getAsDouble() * 1000,
              Double::sum);
          sources.add(cmc.get().source());
        }
      }
    }
    List<MicelleComponent> components = List.copyOf(amounts.keySet());
    InteractionTable interactions = tables.interactions();
    MixedMicelleModel.missingPairs(components, interactions)
        .forEach(pair -> missing.add("no interaction of " + pair));
    if (!missing.isEmpty() || components.isEmpty()) {
      if (components.isEmpty() && missing.isEmpty()) {
        missing.add("no surfactant");
      }
      return new BlendMicelles(
          fold,
          List.copyOf(missing),
          Optional.empty(),
          Optional.empty(),
          OptionalDouble.empty(),
          List.of(),
          Set.of());
    }
    for (MicelleComponent a : components) {
      for (MicelleComponent b : components) {
        if (!a.equals(b)) {
          sources.add(interactions.find(a, b).orElseThrow().source());
        }
      }
    }
    double[] mmolPerL = amounts.values().stream().mapToDouble(Double::doubleValue).toArray();
    MixedMicelleModel model = MixedMicelleModel.regular(components, interactions);
    MixedMicelle product = model.at(mmolPerL);
    MixedMicelle diluted = model.atDilution(mmolPerL, fold);
    double[] inUse = mmolPerL.clone();
    for (int i = 0; i < inUse.length; i++) {
      inUse[i] /= fold;
    }
    Optional<Double> ratio = model.anionicMonomerRatio(inUse);
    Set<MicelleCaveat> said = new LinkedHashSet<>(product.caveats());
    said.addAll(diluted.caveats());
    List<String> caveats = new ArrayList<>();
    said.forEach(c -> caveats.add(c.text()));
    if (blend.saltPercent().typical() > 0) {
      caveats.add(
          "the CMCs are those in water: sodium chloride in the product lowers those of anionic"
              + " surfactants");
    }
    return new BlendMicelles(
        fold,
        List.of(),
        Optional.of(product),
        Optional.of(diluted),
        ratio.isPresent() ? OptionalDouble.of(ratio.get()) : OptionalDouble.empty(),
        caveats,
        Set.copyOf(sources));
  }

  /**
   * The use dilution.
   *
   * @return how many times its volume the product is brought to
   */
  public double fold() {
    return fold;
  }

  /**
   * What keeps the figures from being given.
   *
   * @return such as {@code no CMC of Coco-Glucoside}; empty when they are given
   */
  public List<String> missing() {
    return missing;
  }

  /**
   * The state of the product as it is.
   *
   * @return the state, or empty when something is missing
   */
  public Optional<MixedMicelle> product() {
    return product;
  }

  /**
   * The state at the use dilution.
   *
   * @return the state, or empty when something is missing
   */
  public Optional<MixedMicelle> diluted() {
    return diluted;
  }

  /**
   * The anionic monomer at the use dilution against that of the same anionic surfactants alone.
   *
   * @return the ratio, or empty when something is missing or there is no anionic surfactant
   */
  public OptionalDouble anionicMonomerRatio() {
    return ratio;
  }

  /**
   * What limits the trust in the figures.
   *
   * @return clauses without a full stop
   */
  public List<String> caveats() {
    return caveats;
  }

  /**
   * The sources of the CMCs and interaction parameters used.
   *
   * @return source ids
   */
  public Set<String> sources() {
    return sources;
  }

  @Override
  public String toString() {
    return product.map(MixedMicelle::toString).orElse(String.join(", ", missing));
  }
}
