package org.surfactantblend.mildness;

import java.util.Locale;
import java.util.Optional;

/**
 * The head group of a surfactant, as far as it decides how it mixes with others in a micelle. Finer
 * than a charge class: a sulfate and an ether sulfate are both anionic, yet take up a betaine with
 * different strength.
 */
public enum HeadGroup {
  /** Alkyl sulfate. */
  SULFATE(Charge.ANIONIC),
  /** Alkyl ether sulfate. */
  ETHER_SULFATE(Charge.ANIONIC),
  /** Olefin, alkane or alkylbenzene sulfonate. */
  SULFONATE(Charge.ANIONIC),
  /** Soap, acyl amino acid salt, ether carboxylate. */
  CARBOXYLATE(Charge.ANIONIC),
  /** Alkyl, amidopropyl or sulfo betaine. */
  BETAINE(Charge.ZWITTERIONIC),
  /** Amphoacetate and amphodiacetate. */
  AMPHOACETATE(Charge.ZWITTERIONIC),
  /** Amine oxide in its neutral form, which it has above about pH 6. */
  AMINE_OXIDE(Charge.ZWITTERIONIC),
  /** Glucoside, maltoside, glucamide. */
  SUGAR(Charge.NONIONIC),
  /** Fatty alcohol ethoxylate and other polyoxyethylene nonionics. */
  ETHOXYLATE(Charge.NONIONIC),
  /** Alkanolamide. */
  ALKANOLAMIDE(Charge.NONIONIC),
  /** Quaternary ammonium. */
  QUATERNARY_AMMONIUM(Charge.CATIONIC);

  private enum Charge {
    ANIONIC,
    ZWITTERIONIC,
    NONIONIC,
    CATIONIC
  }

  private final Charge charge;

  HeadGroup(Charge charge) {
    this.charge = charge;
  }

  /**
   * Whether it carries a negative charge.
   *
   * @return true for sulfates, sulfonates and carboxylates
   */
  public boolean isAnionic() {
    return charge == Charge.ANIONIC;
  }

  /**
   * Whether it carries both charges, or a dipole that takes up a proton beside an anionic head.
   *
   * @return true for betaines, amphoacetates and amine oxides
   */
  public boolean isZwitterionic() {
    return charge == Charge.ZWITTERIONIC;
  }

  /**
   * Whether it carries a positive charge.
   *
   * @return true for quaternary ammonium
   */
  public boolean isCationic() {
    return charge == Charge.CATIONIC;
  }

  /**
   * The name as tables write it.
   *
   * @return for instance {@code ether_sulfate}
   */
  public String label() {
    return name().toLowerCase(Locale.ROOT);
  }

  /**
   * The head group of that name.
   *
   * @param text a name in any case
   * @return the head group, or empty when there is none of that name
   */
  public static Optional<HeadGroup> parse(String text) {
    String wanted = text.strip().toLowerCase(Locale.ROOT);
    for (HeadGroup group : values()) {
      if (group.label().equals(wanted)) {
        return Optional.of(group);
      }
    }
    return Optional.empty();
  }
}
