package org.surfactantblend.acidity;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/**
 * How much of the weak acids that a product holds against microbes is in the acid form, at the
 * final pH and after it has drifted.
 *
 * <p>The acid form does most of the work, and half a unit of pH divides it by about three. All
 * figures are on the basis of the acid, whether acid or salt was weighed, and from every source:
 * what an extract brings counts too. Micelles take up part of the acid form, so the shares are an
 * upper bound. Nothing here says whether a product withstands microbes: that takes a challenge test
 * of the finished product.
 *
 * <p>Immutable and thread-safe.
 */
public final class AcidForm {
  /** Molar masses of the acids [g/mol], by the name of the group in the table; IUPAC masses. */
  private static final Map<String, Double> USUAL =
      Map.of(
          "benzoic acid", 122.12,
          "sorbic acid", 112.13,
          "dehydroacetic acid", 168.15,
          "salicylic acid", 138.12,
          "levulinic acid", 116.12,
          "p-anisic acid", 152.15);

  private final Blend blend;
  private final double finalPh;
  private final double driftedPh;
  private final Conditions conditions;
  private final Map<String, Double> gramsPerMol;
  private final List<Share> shares;

  /**
   * One acid.
   *
   * @param name the acid
   * @param totalPercent all of it, as acid [% m/m of the product]
   * @param shareAtFinalPh the part in the acid form at the final pH, 0 to 1
   * @param shareAfterDrift the part in the acid form at the drifted pH, 0 to 1
   */
  public record Share(
      String name, double totalPercent, double shareAtFinalPh, double shareAfterDrift) {
    /**
     * The acid form at the final pH.
     *
     * @return [% m/m of the product]
     */
    public double percentAtFinalPh() {
      return totalPercent * shareAtFinalPh;
    }

    /**
     * The acid form at the drifted pH.
     *
     * @return [% m/m of the product]
     */
    public double percentAfterDrift() {
      return totalPercent * shareAfterDrift;
    }
  }

  private AcidForm(
      Blend blend,
      double finalPh,
      double driftedPh,
      Conditions conditions,
      Map<String, Double> gramsPerMol) {
    this.blend = Objects.requireNonNull(blend, "blend");
    this.finalPh = Require.inRange("final pH", finalPh, 0, 14, "");
    this.driftedPh = Require.inRange("drifted pH", driftedPh, 0, 14, "");
    this.conditions = Objects.requireNonNull(conditions, "conditions");
    this.gramsPerMol = Map.copyOf(gramsPerMol);
    BlendCharge charge = BlendCharge.of(blend, conditions);
    Map<String, AcidBase> acids = new LinkedHashMap<>();
    Map<String, Double> percent = new LinkedHashMap<>();
    for (BlendLine line : blend.lines()) {
      for (AcidBaseGroup g : line.material().groups()) {
        Double molar = gramsPerMol.get(g.name());
        if (molar != null && line.massFraction() > 0) {
          acids.putIfAbsent(g.name(), g.acid());
          percent.merge(
              g.name(), line.massFraction() * g.amount().typical() * molar / 10, Double::sum);
        }
      }
    }
    List<Share> all = new ArrayList<>();
    acids.forEach(
        (name, acid) ->
            all.add(
                new Share(
                    name,
                    Objects.requireNonNull(percent.get(name)),
                    share(acid, finalPh, charge),
                    share(acid, driftedPh, charge))));
    shares = List.copyOf(all);
  }

  private double share(AcidBase acid, double ph, BlendCharge charge) {
    return conditions.undissociatedShare(acid, ph, charge.ionicStrength(ph));
  }

  /**
   * The acid form of benzoic, sorbic, dehydroacetic, salicylic, levulinic and p-anisic acid and of
   * their salts, at 25 C.
   *
   * @param blend the product
   * @param finalPh the pH it was brought to, 0 to 14
   * @param driftedPh the pH to reckon with later, 0 to 14
   * @return the shares
   * @throws IllegalArgumentException if a pH is out of range
   */
  public static AcidForm of(Blend blend, double finalPh, double driftedPh) {
    return of(blend, finalPh, driftedPh, Conditions.standard());
  }

  /**
   * The same under other conditions.
   *
   * @param blend the product
   * @param finalPh the pH it was brought to, 0 to 14
   * @param driftedPh the pH to reckon with later, 0 to 14
   * @param conditions temperature and activity model
   * @return the shares
   * @throws IllegalArgumentException if a pH is out of range
   */
  public static AcidForm of(Blend blend, double finalPh, double driftedPh, Conditions conditions) {
    return new AcidForm(blend, finalPh, driftedPh, conditions, USUAL);
  }

  /**
   * The same with one more acid, known to the materials as a group.
   *
   * @param groupName the name of the group
   * @param gramsPerMol the molar mass of the acid [g/mol], 20 to 2000
   * @return the shares with that acid
   * @throws IllegalArgumentException if the molar mass is out of range
   */
  public AcidForm alsoOf(String groupName, double gramsPerMol) {
    Map<String, Double> all = new LinkedHashMap<>(this.gramsPerMol);
    all.put(
        Require.text("group", groupName),
        Require.inRange("molar mass of " + groupName, gramsPerMol, 20, 2000, "g/mol"));
    return new AcidForm(blend, finalPh, driftedPh, conditions, all);
  }

  /**
   * The acids found.
   *
   * @return in the order of the product's lines; empty when it holds none
   */
  public List<Share> shares() {
    return shares;
  }

  /**
   * The whole answer in at most 80 columns.
   *
   * @return several lines
   */
  public String summary() {
    StringBuilder s = new StringBuilder();
    s.append("Acid form of the weak acids in ").append(blend.name()).append('\n');
    s.append("  acid                 % as acid   at pH ")
        .append(Text.fixed(finalPh, 2))
        .append("           at pH ")
        .append(Text.fixed(driftedPh, 2))
        .append('\n');
    for (Share a : shares) {
      s.append("  ")
          .append(Text.left(a.name(), 20))
          .append(Text.right(Text.fixed(a.totalPercent(), 4), 10))
          .append(column(a.shareAtFinalPh(), a.percentAtFinalPh()))
          .append(column(a.shareAfterDrift(), a.percentAfterDrift()))
          .append('\n');
    }
    if (shares.isEmpty()) {
      s.append("  none found\n");
    }
    s.append("  Micelles take up part of it: these figures are an upper bound.\n");
    s.append("  Whether the product withstands microbes is for a challenge test to say.\n");
    return Text.wrapped(s, 80);
  }

  private static String column(double share, double percent) {
    return Text.right(Text.fixed(share * 100, 1), 8) + " % " + Text.fixed(percent, 4) + " %";
  }

  @Override
  public String toString() {
    return summary();
  }
}
