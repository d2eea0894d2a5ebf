package org.surfactantblend.material;

import java.util.Locale;
import java.util.Optional;

/** The charge class of a surfactant, as the trade sorts them. */
public enum ChargeClass {
  /** Negative head group: sulfates, sulfonates, carboxylates. */
  ANIONIC,
  /** Both charges, or a charge that comes and goes with pH: betaines, amphoacetates, oxides. */
  AMPHOTERIC,
  /** No charge: glucosides, ethoxylates, esters. */
  NONIONIC,
  /** Positive head group: quaternary ammonium. */
  CATIONIC;

  /**
   * The name in lower case, as tables write it.
   *
   * @return for instance {@code anionic}
   */
  public String label() {
    return name().toLowerCase(Locale.ROOT);
  }

  /**
   * The class of that name.
   *
   * @param text a name in any case
   * @return the class, or empty when there is none of that name
   */
  public static Optional<ChargeClass> parse(String text) {
    for (ChargeClass c : values()) {
      if (c.label().equals(text.strip().toLowerCase(Locale.ROOT))) {
        return Optional.of(c);
      }
    }
    return Optional.empty();
  }
}
