package org.surfactantblend.material;

import java.util.Locale;
import java.util.Optional;

/** What stands behind an irritation score, best first. */
public enum Evidence {
  /** Published numbers. */
  MEASURED,
  /** A published order beside materials with numbers, or numbers at second hand. */
  RANKED,
  /** No number retrieved: a design score. */
  ESTIMATED;

  /**
   * The name as tables write it.
   *
   * @return for instance {@code ranked}
   */
  public String label() {
    return name().toLowerCase(Locale.ROOT);
  }

  /**
   * The evidence of that name.
   *
   * @param text a name in any case
   * @return the evidence, or empty when there is none of that name
   */
  public static Optional<Evidence> parse(String text) {
    String wanted = text.strip().toLowerCase(Locale.ROOT);
    for (Evidence evidence : values()) {
      if (evidence.label().equals(wanted)) {
        return Optional.of(evidence);
      }
    }
    return Optional.empty();
  }
}
