package org.surfactantblend.solve;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.IrritationScores;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.mildness.IrritationIndex;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Text;

/**
 * The blend that meets a brief and serves its wish best, with how it stands against each
 * requirement.
 *
 * <p>Immutable and thread-safe.
 */
public final class SolvedBlend implements BlendResult {
  /** By less than this no final pH is passed: a meter shows hardly more [pH]. */
  private static final double PAST = 0.05;

  private final Brief brief;
  private final Blend blend;
  private final PriceList prices;
  private final IrritationScores scores;
  private final List<String> withoutFigures;
  private final Supplier<List<RequirementReport>> reporter;
  // Worked out when first asked for; a race at worst works the same reports out twice.
  private volatile @Nullable List<RequirementReport> reports;
  private final Supplier<Sensitivity> sensitivity;
  private final double wishValue;
  private final List<Clash> excluded;
  private final StartingPh startingPh;

  SolvedBlend(
      Brief brief,
      Blend blend,
      MaterialTable table,
      List<String> withoutFigures,
      Supplier<List<RequirementReport>> reporter,
      Supplier<Sensitivity> sensitivity,
      double wishValue,
      List<Clash> excluded,
      StartingPh startingPh) {
    this.brief = brief;
    this.blend = blend;
    this.prices = table.prices();
    this.scores = table.scores();
    this.withoutFigures = List.copyOf(withoutFigures);
    this.reporter = reporter;
    this.sensitivity = sensitivity;
    this.wishValue = wishValue;
    this.excluded = List.copyOf(excluded);
    this.startingPh = startingPh;
  }

  @Override
  public Brief brief() {
    return brief;
  }

  /**
   * The blend.
   *
   * @return surfactants first, fixed lines next, water last
   */
  public Blend blend() {
    return blend;
  }

  /**
   * How it stands against each requirement.
   *
   * @return in the order of the brief
   */
  public List<RequirementReport> reports() {
    List<RequirementReport> known = reports;
    if (known == null) {
      known = List.copyOf(reporter.get());
      reports = known;
    }
    return known;
  }

  /**
   * The report on one kind of requirement.
   *
   * @param kind the kind
   * @return the first report of that kind
   * @throws IllegalArgumentException if the brief asks for nothing of that kind
   */
  public RequirementReport report(Requirement.Kind kind) {
    return reports().stream()
        .filter(r -> r.requirement().kind() == kind)
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "kind was " + kind + ", allowed is a kind the brief asks for"));
  }

  /**
   * What would change this answer, and from where on. Worked out anew at every call, by some
   * hundred solves.
   *
   * @return the gains of loosening what binds, and the prices at which others would come in
   */
  public Sensitivity sensitivity() {
    return sensitivity.get();
  }

  /**
   * The figure the wish makes small: cost per kg, percent as supplied, share, or sum of changes.
   *
   * @return the figure, in the unit of the wish
   */
  public double wishValue() {
    return wishValue;
  }

  /**
   * The predicted pH of the whole product before any correction.
   *
   * @return the prediction with its intervals
   */
  public StartingPh startingPh() {
    return startingPh;
  }

  /**
   * The raw-material cost.
   *
   * @return the cost [currency per kg of product], or empty when a line has no price
   */
  public OptionalDouble costPerKg() {
    return blend.costPerKg(prices);
  }

  /**
   * The raw-material cost for the active matter.
   *
   * @return the cost [currency per kg of active], or empty when a line has no price
   */
  public OptionalDouble costPerKgActive() {
    return blend.costPerKgActive(prices);
  }

  /**
   * The candidates the clash guard took out before the search.
   *
   * @return the clashes, may be empty
   */
  public List<Clash> excludedByGuard() {
    return excluded;
  }

  /**
   * The irritation index by the scores of the table: a screening indicator and an upper bound, see
   * {@link IrritationIndex#BASIS}. It knows nothing of dose: show the total of active matter beside
   * it.
   *
   * @return the index, or the materials that lack a score
   */
  public IrritationIndex irritationIndex() {
    return IrritationIndex.of(blend, scores);
  }

  /**
   * The candidates that could not be used because an index or a charge share that the brief asks
   * for needs a score or a molar mass they do not have.
   *
   * @return ids, may be empty
   */
  public List<String> leftOutWithoutFigures() {
    return withoutFigures;
  }

  /**
   * What to know beside the figures: a material that the brief insists on although it does not last
   * at the asked pH, a final pH that the blend has passed before any acid or alkali is in, and what
   * limits the trust in the starting pH.
   *
   * @return sentences and clauses for people, may be empty
   */
  public List<String> notes() {
    List<String> all = new ArrayList<>();
    if (brief.guardOffReason().isEmpty()) {
      for (BlendLine l : blend.lines()) {
        Clash.withAskedPh(l.material(), brief)
            .ifPresent(c -> all.add(c.first() + ": " + c.reason()));
      }
    }
    for (RequirementReport r : reports()) {
      double ph = r.requirement().atPh();
      if (r.requirement().kind() == Requirement.Kind.TO_REACH_PH
          && r.reached().typical() == 0
          && Math.abs(startingPh.typical() - ph) > PAST) {
        all.add(
            "pH "
                + Text.number(ph)
                + " is passed before any "
                + r.requirement().subject()
                + " is in: the blend starts at "
                + Text.fixed(startingPh.typical(), 2));
      }
    }
    all.addAll(startingPh.caveats());
    return List.copyOf(all);
  }

  @Override
  public String summary() {
    StringBuilder s = new StringBuilder(brief.name()).append("\n\n");
    s.append("  material                              % as supplied   % active   % of active\n");
    for (BlendLine l : blend.lines()) {
      double active = l.amount().value() * l.material().activePercent().typical() / 100;
      s.append("  ")
          .append(Text.left(l.material().toString(), 36))
          .append(Text.right(Text.fixed(l.amount().value(), 3), 15))
          .append(Text.right(l.material().isSurfactant() ? Text.fixed(active, 3) : "", 11));
      if (l.material().isSurfactant()) {
        s.append(Text.right(Text.fixed(blend.shareOfMaterial(l.material().id()).value(), 1), 14));
      }
      s.append('\n');
    }
    Range active = blend.totalActiveRange();
    s.append("\n  total active   ")
        .append(Text.fixed(active.typical(), 2))
        .append(" %, every lot ")
        .append(Text.fixed(active.low(), 2))
        .append(" to ")
        .append(Text.fixed(active.high(), 2))
        .append(" %\n  shares        ");
    for (ChargeClass c : ChargeClass.values()) {
      double share = blend.share(c).value();
      if (share > 0) {
        s.append(' ').append(c.label()).append(' ').append(Text.fixed(share, 1)).append(" %");
      }
    }
    s.append("\n  water          ")
        .append(Text.fixed(blend.waterPercent(), 2))
        .append(" % from all sources, sodium chloride ")
        .append(Text.fixed(blend.saltPercent().typical(), 2))
        .append(" %\n  starting pH    ")
        .append(Text.fixed(startingPh.typical(), 2))
        .append(" typical, likely ")
        .append(Text.fixed(startingPh.likely().low(), 1))
        .append(" to ")
        .append(Text.fixed(startingPh.likely().high(), 1))
        .append(", every lot ")
        .append(Text.fixed(startingPh.guaranteed().low(), 1))
        .append(" to ")
        .append(Text.fixed(startingPh.guaranteed().high(), 1))
        .append("\n  irritation     index ")
        .append(irritationIndex().text())
        .append('\n');
    if (costPerKg().isPresent()) {
      s.append("  cost           ")
          .append(Text.fixed(costPerKg().getAsDouble(), 3))
          .append(' ')
          .append(prices.currency())
          .append(" per kg, ")
          .append(Text.fixed(costPerKgActive().orElse(0), 2))
          .append(' ')
          .append(prices.currency())
          .append(" per kg active\n");
    }
    s.append("\n  asked                                          reached   binds   1 point buys\n");
    for (RequirementReport r : reports()) {
      String asked = r.requirement().toString();
      // A long one gets a line of its own, so that no end of it is cut off.
      boolean fits = asked.length() <= 44;
      s.append("  ")
          .append(fits ? Text.left(asked, 44) : asked + "\n" + " ".repeat(46))
          .append(
              Text.right(Text.fixed(r.reached().typical(), r.requirement().kind().decimals()), 10))
          .append(
              Text.right(
                  r.bindingLow() && r.bindingHigh()
                      ? "both"
                      : r.bindingLow() ? "below" : r.bindingHigh() ? "above" : "-",
                  8))
          .append(
              Text.right(
                  r.gainPerPoint().isPresent()
                      ? Text.fixed(r.gainPerPoint().getAsDouble(), 3)
                      : "-",
                  15))
          .append('\n');
    }
    s.append("  wish: ")
        .append(brief.wish())
        .append(", reached ")
        .append(Text.fixed(wishValue, 3))
        .append(wishUnit())
        .append('\n');
    if (startingPh.guaranteed().width() > 1) {
      s.append("  The spread of the pH comes mostly from ")
          .append(startingPh.causeInWords())
          .append(": titrate 20 g of the lot before the batch.\n");
    }
    if (!withoutFigures.isEmpty()) {
      s.append("  Left out, without irritation score or molar mass: ")
          .append(String.join(", ", withoutFigures))
          .append('\n');
    }
    for (Clash c : excluded) {
      s.append("  Left out by the clash guard: ").append(c.first()).append(": ").append(c.reason());
      s.append('\n');
    }
    brief
        .guardOffReason()
        .ifPresent(r -> s.append("  The clash guard is off: ").append(r).append('\n'));
    notes().forEach(n -> s.append("  Note: ").append(n).append('\n'));
    return Text.wrapped(s, 80);
  }

  /** Appends the surfactants of a blend, the first on the line as it stands, one to a line. */
  static void appendSurfactants(StringBuilder s, Blend blend, int column) {
    String gap = "   ";
    for (BlendLine l : blend.lines()) {
      if (l.material().isSurfactant()) {
        s.append(gap)
            .append(Text.right(Text.fixed(l.amount().value(), 2), 6))
            .append(' ')
            .append(l.material().id())
            .append('\n');
        gap = " ".repeat(column);
      }
    }
  }

  private String wishUnit() {
    return switch (brief.wish().aim()) {
      case CHEAPEST -> " " + prices.currency() + " per kg";
      case LEAST_SURFACTANT -> " % as supplied";
      case LEAST_ANIONIC_SHARE -> " % of the active";
      case MILDEST, MILDEST_BLENDED -> " (sodium lauryl sulfate = 100)";
      case LEAST_CHANGE -> " points of % as supplied, summed";
      case NEAREST_SHARES -> " share points, summed";
    };
  }

  @Override
  public String toString() {
    return summary();
  }
}
