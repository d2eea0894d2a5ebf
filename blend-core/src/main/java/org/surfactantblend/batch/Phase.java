package org.surfactantblend.batch;

import org.surfactantblend.material.Material;

/**
 * A step in the making of a batch, in the usual order of a cold or gently warmed liquid cleanser.
 * Common practice, no source.
 */
public enum Phase {
  /** Water and chelator. */
  WATER("water phase", "a little water is held back to make up the mass at the end"),
  /** Powders that dissolve in water. */
  POWDERS("powders", "they dissolve in thin, still foam-free water; check that all is clear"),
  /** Humectants, with any gum dispersed in them. */
  HUMECTANTS("humectants and gums", "a gum wetted with glycerin makes no lumps in the water"),
  /** Preservatives that dissolve in water. */
  PRESERVATIVE("preservative", "early enough to be spread through the whole batch, not too warm"),
  /** Surfactants. */
  SURFACTANTS(
      "surfactants",
      "late and slowly, under the surface: air beaten into a thick batch stays for days and"
          + " falsifies fill, viscosity and pH"),
  /** Thickeners other than salt. */
  THICKENER("thickener", "waxy ones need warmth and time; added late they are easily judged"),
  /** Fragrance, oils, extracts and other actives that dislike heat. */
  DELICATE("fragrance, extracts and actives", "cool, oils first mixed with part of the surfactant"),
  /** Acid or base. */
  PH("pH correction", "last, stepwise, when everything that has a pH of its own is in"),
  /** Salt that thickens. */
  SALT("salt", "only when the pH is right, because viscosity follows pH; then read the pH again");

  private final String label;
  private final String reason;

  Phase(String label, String reason) {
    this.label = label;
    this.reason = reason;
  }

  /**
   * What it is called.
   *
   * @return words in lower case
   */
  public String label() {
    return label;
  }

  /**
   * Why it comes where it comes.
   *
   * @return a phrase for people
   */
  public String reason() {
    return reason;
  }

  /**
   * The usual phase of a material, by what it is.
   *
   * @param material the material
   * @return the phase
   */
  public static Phase usualFor(Material material) {
    if (material.isSurfactant()) {
      return SURFACTANTS;
    }
    if (material.constituents().isEmpty()) {
      return WATER;
    }
    return switch (material.family().name()) {
      case "water", "chelator" -> WATER;
      case "humectant", "gum" -> HUMECTANTS;
      case "preservative" -> PRESERVATIVE;
      case "acid", "base", "buffer" -> PH;
      case "thickener" -> THICKENER;
      case "salt" -> SALT;
      case "active ingredient" -> material.waterPercent().typical() < 5 ? POWDERS : DELICATE;
      case "fragrance", "extract", "solubiliser", "protein", "colourant" -> DELICATE;
      default -> POWDERS;
    };
  }
}
