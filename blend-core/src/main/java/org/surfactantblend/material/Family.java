package org.surfactantblend.material;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.quantity.PhWindow;
import org.surfactantblend.quantity.Require;

/**
 * A chemical family of raw materials: what all its members share.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param name the family, such as {@code alkyl polyglucoside}
 * @param usualClass the charge class of its surfactants, or null when it holds none
 * @param permanentCharge the charge of the surface-active ion that no pH changes [mol/mol]: -1 for
 *     a sulfate, +1 for the quaternary nitrogen of a betaine
 * @param stable the pH window in which its members last, or null when none is documented
 * @param traits what matters when it meets other materials
 * @param groups the weak groups its members usually carry
 */
public record Family(
    String name,
    @Nullable ChargeClass usualClass,
    double permanentCharge,
    @Nullable PhWindow stable,
    Set<Trait> traits,
    List<AcidBaseGroup> groups) {
  /** What matters when a member of the family meets other materials. */
  public enum Trait {
    /** Sold strongly alkaline, pH 11 or more. */
    CAUSTIC,
    /** An ester that acid or alkali cleaves. */
    ESTER,
    /** An ammonium salt, which gives off ammonia when made alkaline. */
    AMMONIUM,
    /** A soap, which turns to insoluble fatty acid when its pH falls. */
    SOAP,
    /** Nothing is known of its acids and bases, so the class default stands in. */
    UNDOCUMENTED
  }

  /**
   * Copies the collections and checks the figures.
   *
   * @param name the family, such as {@code alkyl polyglucoside}
   * @param usualClass the charge class of its surfactants, or null when it holds none
   * @param permanentCharge the charge of the surface-active ion that no pH changes [mol/mol]: -1
   *     for a sulfate, +1 for the quaternary nitrogen of a betaine
   * @param stable the pH window in which its members last, or null when none is documented
   * @param traits what matters when it meets other materials
   * @param groups the weak groups its members usually carry
   */
  public Family {
    name = Require.text("family", name);
    permanentCharge = Require.inRange("permanent charge", permanentCharge, -4, 4, "mol/mol");
    traits = Set.copyOf(traits);
    groups = List.copyOf(groups);
  }

  /**
   * A family without weak groups, charge or traits, for what does not touch the pH.
   *
   * @param name the name
   * @return the family
   */
  public static Family inert(String name) {
    return new Family(name, null, 0, null, Set.of(), List.of());
  }

  /**
   * Whether the family has a trait.
   *
   * @param trait the trait
   * @return true when it has
   */
  public boolean is(Trait trait) {
    return traits.contains(Objects.requireNonNull(trait, "trait"));
  }

  /**
   * The pH window in which its members last.
   *
   * @return the window, or empty when none is documented
   */
  public Optional<PhWindow> stableWindow() {
    return Optional.ofNullable(stable);
  }

  /**
   * What {@link #stableWindow()} says, as the rest of a sentence.
   *
   * @return such as "lasts at pH 5 to 8"; empty when no window is documented
   */
  public String lasting() {
    return stable == null
        ? ""
        : "lasts at " + stable + (is(Trait.SOAP) ? " and turns to fatty acid below" : "");
  }
}
