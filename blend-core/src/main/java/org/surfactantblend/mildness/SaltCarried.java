package org.surfactantblend.mildness;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Range;

/**
 * The sodium chloride in a blend from all its materials. Where the sheet of a betaine or
 * amphoacetate gives none, the salt that forms when it is made is reckoned and named as such.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param percent sodium chloride with the guaranteed range of what the sheets say [% m/m of the
 *     product]
 * @param estimatedPercent how much of it is reckoned from synthesis [% m/m of the product]
 * @param estimatedFor the materials for which it is
 * @param unknownFor charged surfactants without a figure, which may carry salt that is not counted
 */
public record SaltCarried(
    Range percent, double estimatedPercent, List<String> estimatedFor, List<String> unknownFor) {
  /**
   * Copies the lists.
   *
   * @param percent sodium chloride with the guaranteed range of what the sheets say [% m/m of the
   *     product]
   * @param estimatedPercent how much of it is reckoned from synthesis [% m/m of the product]
   * @param estimatedFor the materials for which it is
   * @param unknownFor charged surfactants without a figure, which may carry salt that is not
   *     counted
   */
  public SaltCarried {
    estimatedFor = List.copyOf(estimatedFor);
    unknownFor = List.copyOf(unknownFor);
  }

  /**
   * The salt of a blend.
   *
   * @param blend the blend
   * @param tables for the salt from synthesis
   * @return the salt
   */
  public static SaltCarried of(Blend blend, MildnessTables tables) {
    double estimated = 0;
    List<String> estimatedFor = new ArrayList<>();
    List<String> unknownFor = new ArrayList<>();
    for (BlendLine l : blend.lines()) {
      Material m = l.material();
      boolean charged = m.chargeClass().filter(c -> c != ChargeClass.NONIONIC).isPresent();
      boolean told =
          m.constituents().stream()
              .anyMatch(c -> c.inciName().equalsIgnoreCase(Constituent.SODIUM_CHLORIDE));
      if (charged && !told && l.massFraction() > 0) {
        OptionalDouble perGram = tables.saltFromSynthesis(m);
        if (perGram.isPresent()) {
          estimatedFor.add(m.id());
          estimated += l.massFraction() * m.activePercent().typical() * perGram.getAsDouble();
        } else {
          unknownFor.add(m.id());
        }
      }
    }
    return new SaltCarried(
        blend.saltPercent().plus(Range.exactly(estimated)), estimated, estimatedFor, unknownFor);
  }
}
