package org.surfactantblend.mildness;

import java.util.Objects;
import org.surfactantblend.quantity.Require;

/**
 * One surfactant as the mixed-micelle model sees it.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param name the INCI name or compound, by which interaction tables know it
 * @param cmcMmolPerL the critical micelle concentration of the surfactant alone [mmol/L], more than
 *     0 and at most 1000
 * @param headGroup its head group
 * @param technicalGrade whether the CMC belongs to a technical mixture of chain lengths that also
 *     carries salt, both of which lower it
 */
public record MicelleComponent(
    String name, double cmcMmolPerL, HeadGroup headGroup, boolean technicalGrade) {
  /**
   * Checks the values.
   *
   * @param name the INCI name or compound, by which interaction tables know it
   * @param cmcMmolPerL the critical micelle concentration of the surfactant alone [mmol/L], more
   *     than 0 and at most 1000
   * @param headGroup its head group
   * @param technicalGrade whether the CMC belongs to a technical mixture of chain lengths that also
   *     carries salt, both of which lower it
   * @throws IllegalArgumentException if the name is blank or the CMC is out of range
   */
  public MicelleComponent {
    name = Require.text("component name", name);
    Require.positive("CMC of " + name, cmcMmolPerL, "mmol/L");
    cmcMmolPerL = Require.inRange("CMC of " + name, cmcMmolPerL, 0, 1000, "mmol/L");
    Objects.requireNonNull(headGroup, "head group");
  }

  /**
   * A surfactant whose CMC was measured on the pure compound in water.
   *
   * @param name the INCI name or compound
   * @param cmcMmolPerL its CMC [mmol/L], more than 0 and at most 1000
   * @param headGroup its head group
   * @return the component
   * @throws IllegalArgumentException if the name is blank or the CMC is out of range
   */
  public static MicelleComponent pure(String name, double cmcMmolPerL, HeadGroup headGroup) {
    return new MicelleComponent(name, cmcMmolPerL, headGroup, false);
  }
}
