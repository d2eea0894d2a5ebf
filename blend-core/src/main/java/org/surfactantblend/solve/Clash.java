package org.surfactantblend.solve;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.PhWindow;
import org.surfactantblend.quantity.Text;

/**
 * Two materials, or a material and a pH, that do not go together, with the reason and its source.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param first a material id
 * @param second another material id; empty when the clash is with the asked pH
 * @param reason why
 * @param source where that is said
 */
public record Clash(String first, String second, String reason, String source) {
  private static final String TRADE = "common practice, no source";

  /**
   * The clash between two materials, if there is one.
   *
   * @param a a material
   * @param b another material
   * @return the clash, or empty
   */
  public static Optional<Clash> between(Material a, Material b) {
    return oneWay(a, b).or(() -> oneWay(b, a));
  }

  private static Optional<Clash> oneWay(Material a, Material b) {
    if (has(a, ChargeClass.CATIONIC) && has(b, ChargeClass.ANIONIC)) {
      return Optional.of(
          new Clash(
              a.id(), b.id(), "a cationic surfactant precipitates with an anionic one", TRADE));
    }
    if (b.family().is(Family.Trait.CAUSTIC)) {
      if (a.family().is(Family.Trait.ESTER)) {
        return Optional.of(
            new Clash(
                a.id(),
                b.id(),
                "a caustic grade cleaves an ester surfactant unless it is neutralised first",
                TRADE));
      }
      if (a.family().is(Family.Trait.AMMONIUM)) {
        return Optional.of(new Clash(a.id(), b.id(), "a caustic grade sets ammonia free", TRADE));
      }
    }
    return Optional.empty();
  }

  /** The same clash with a material of the pair named first. */
  Clash toldOf(Material m) {
    return second.equals(m.id())
        ? new Clash(/* first= */ second, /* second= */ first, reason, source)
        : this;
  }

  private static boolean has(Material m, ChargeClass c) {
    return m.activePercent(c).high() > 0;
  }

  /**
   * The clash between a material and the pH a brief asks for, at the start or in the end, if there
   * is one: no pH that is asked for lies in the window in which the material's family lasts.
   *
   * @param m the material
   * @param brief the brief
   * @return the clash, or empty
   */
  static Optional<Clash> withAskedPh(Material m, Brief brief) {
    Optional<PhWindow> stable = m.family().stableWindow();
    if (stable.isEmpty()) {
      return Optional.empty();
    }
    for (Requirement r : brief.requirements()) {
      boolean isFinal = r.kind() == Requirement.Kind.TO_REACH_PH;
      double low = isFinal ? r.atPh() : r.low();
      double high = isFinal ? r.atPh() : r.high();
      if ((isFinal || r.kind() == Requirement.Kind.STARTING_PH)
          && (high < stable.get().low() || low > stable.get().high())) {
        return Optional.of(
            new Clash(
                m.id(),
                "",
                ("aeio".indexOf(m.family().name().charAt(0)) >= 0 ? "an " : "a ")
                    + m.family().name()
                    + " "
                    + m.family().lasting()
                    + ", the brief asks "
                    + (isFinal ? "to reach pH " + Text.number(high) : "for " + r.allowed()),
                m.sources().getOrDefault("family", TRADE)));
      }
    }
    return Optional.empty();
  }

  /**
   * Every clash inside a list of materials.
   *
   * @param materials the materials
   * @return all clashing pairs, in the order of the list
   */
  public static List<Clash> among(List<Material> materials) {
    BitSet starts = new BitSet();
    for (int i = 0; i < materials.size(); i++) {
      Material m = materials.get(i);
      starts.set(i, has(m, ChargeClass.CATIONIC) || m.family().is(Family.Trait.CAUSTIC));
    }
    List<Clash> found = new ArrayList<>();
    for (int i = 0; i < materials.size() && !starts.isEmpty(); i++) {
      // Every pair that clashes holds one of these.
      int j = starts.get(i) ? i + 1 : starts.nextSetBit(i + 1);
      while (j > 0 && j < materials.size()) {
        between(materials.get(i), materials.get(j)).ifPresent(found::add);
        j = starts.get(i) ? j + 1 : starts.nextSetBit(j + 1);
      }
    }
    return found;
  }

  @Override
  public String toString() {
    return (second.isEmpty() ? first : first + " with " + second)
        + ": "
        + reason
        + " ("
        + source
        + ")";
  }
}
