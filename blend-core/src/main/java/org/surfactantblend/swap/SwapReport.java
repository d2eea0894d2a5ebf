package org.surfactantblend.swap;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.acidity.BlendCharge;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.ChargeCurve;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Text;
import org.surfactantblend.solve.Rebalance;

/**
 * What a swap does: the new blend, every figure before and after with a verdict, and what no
 * arithmetic can hold.
 *
 * <p>Immutable and thread-safe.
 */
public final class SwapReport {
  private static final double ANY = Double.POSITIVE_INFINITY;

  /** The ionic strength at which charges on the active are counted [mol/kg water]. */
  private static final double NOMINAL_IONIC_STRENGTH = 0.1;

  private static final List<String> NEVER_HELD =
      List.of(
          "chain length distribution and degree of ethoxylation or polymerisation",
          "odour and colour",
          "viscosity and the response to salt: take a new salt curve",
          "by-products such as free amine, free fatty matter and residual alkali",
          "foam, feel and clarity in the cold: make 400 g and look at it");

  private final SupplierSwap swap;
  private final Blend after;
  private final Optional<String> obstacle;
  private final List<Rebalance.Reached> gaveWay;
  private final Blend gramForGram;
  private final List<SwapFigure> figures;
  private final boolean noChangeNeeded;
  private final List<String> newOnLabel;
  private final List<String> offLabel;

  SwapReport(
      SupplierSwap swap, Blend after, Optional<String> obstacle, List<Rebalance.Reached> gaveWay) {
    this.swap = swap;
    this.after = after;
    this.obstacle = obstacle;
    this.gaveWay = List.copyOf(gaveWay);
    gramForGram = swap.gramForGram();
    Map<String, Double> substancesBefore = swap.blend.inciAmounts();
    Map<String, Double> substancesAfter = after.inciAmounts();
    figures = List.copyOf(new Figures(substancesBefore, substancesAfter).all());
    newOnLabel = missingIn(substancesBefore, substancesAfter);
    offLabel = missingIn(substancesAfter, substancesBefore);
    noChangeNeeded = weighAsBefore();
  }

  private static List<String> missingIn(Map<String, Double> these, Map<String, Double> those) {
    List<String> names = new ArrayList<>();
    for (String name : those.keySet()) {
      if (!these.containsKey(name)) {
        names.add(name);
      }
    }
    return List.copyOf(names);
  }

  private boolean weighAsBefore() {
    double total = swap.blend.totalActive().value();
    double moved = 0;
    for (Map.Entry<String, LotMix> change : swap.changes.entrySet()) {
      for (BlendLine l : swap.blend.lines()) {
        Material old = l.material();
        if (old.id().equals(change.getKey())) {
          if (!old.isSurfactant()) {
            return false;
          }
          double ratio =
              change.getValue().activePercent().typical() / old.activePercent().typical();
          double share = l.massFraction() * old.activePercent().typical() / total;
          moved += Math.abs(ratio - 1) * share * 100;
        }
      }
    }
    double salt = gramForGram.saltPercent().typical() - swap.blend.saltPercent().typical();
    return moved < swap.tolerances.noChangeActivePercent()
        && Math.abs(salt) < swap.tolerances.noChangeSaltPoints()
        && newOnLabel.isEmpty()
        && offLabel.isEmpty();
  }

  /**
   * The blend before.
   *
   * @return the blend
   */
  public Blend before() {
    return swap.blend;
  }

  /**
   * The blend after: with every active percentage held, or the nearest one where that is
   * impossible.
   *
   * @return the blend
   */
  public Blend after() {
    return after;
  }

  /**
   * Whether everything that was to be held is held.
   *
   * @return false when {@link #gaveWay()} names something
   */
  public boolean holdsEverything() {
    return gaveWay.isEmpty();
  }

  /**
   * Why plain holding was impossible.
   *
   * @return for instance a water line below zero; empty when plain holding was possible
   */
  public Optional<String> obstacle() {
    return obstacle;
  }

  /**
   * What gave way in the nearest blend.
   *
   * @return wanted and reached contents [% m/m of the product]; empty when everything is held
   */
  public List<Rebalance.Reached> gaveWay() {
    return gaveWay;
  }

  /**
   * Every figure before and after.
   *
   * @return in a fixed order; figures that cannot be known, such as cost without prices, are left
   *     out
   */
  public List<SwapFigure> figures() {
    return figures;
  }

  /**
   * The figure of a name.
   *
   * @param name the name, as in {@link SwapFigure#name()}
   * @return the figure, or empty
   */
  public Optional<SwapFigure> figure(String name) {
    return figures.stream().filter(f -> f.name().equals(name)).findFirst();
  }

  /**
   * The mistake of keeping the old weights with the new materials.
   *
   * @return the blend that would come out
   */
  public Blend gramForGram() {
    return gramForGram;
  }

  /**
   * By how much the total active would be off with the old weights.
   *
   * @return [% of the total active before], positive when too strong
   */
  public double gramForGramErrorPercent() {
    double total = swap.blend.totalActive().value();
    return total == 0 ? 0 : (gramForGram.totalActive().value() - total) / total * 100;
  }

  /**
   * Whether the old weights may stand: only surfactants are swapped, the changes of active matter
   * and salt are both below the thresholds of {@link SwapTolerances} and the list of ingredients
   * stays the same.
   *
   * @return true when nothing needs to be changed, only noted
   */
  public boolean noChangeNeeded() {
    return noChangeNeeded;
  }

  /**
   * Substances that were not in the product before.
   *
   * @return INCI names
   */
  public List<String> newOnLabel() {
    return newOnLabel;
  }

  /**
   * Substances that are no longer in the product.
   *
   * @return INCI names
   */
  public List<String> offLabel() {
    return offLabel;
  }

  /**
   * What a swap can never hold, whatever the figures say.
   *
   * @return phrases for people
   */
  public List<String> neverHeld() {
    return NEVER_HELD;
  }

  /**
   * The starting pH of the new blend with its intervals, before any correction.
   *
   * @return the prediction
   */
  public StartingPh startingPhAfter() {
    return StartingPh.of(withoutAcid(after), swap.conditions);
  }

  /**
   * The starting pH of the old blend with its intervals, before any correction.
   *
   * @return the prediction
   */
  public StartingPh startingPhBefore() {
    return StartingPh.of(withoutAcid(swap.blend), swap.conditions);
  }

  /**
   * What to know beside the figures: what is noted of a new material and was not of the old one,
   * how a reckoned acid dose goes with a line of that acid, and what limits the trust in the
   * starting pH.
   *
   * @return sentences and clauses for people
   */
  public List<String> notes() {
    Set<String> all = new LinkedHashSet<>();
    swap.changes.forEach(
        (id, mix) -> {
          List<String> known = swap.blend.line(id).orElseThrow().material().benchNotes();
          for (Material lot : mix.lots()) {
            List<String> own = new ArrayList<>(lot.benchNotes());
            own.removeAll(known);
            if (!own.isEmpty()) {
              all.add(lot.id() + ": " + String.join("; ", own));
            }
          }
        });
    if (swap.acid != null && figure("acid dose").isPresent()) {
      all.add(
          "acid dose is all the "
              + swap.acid.id()
              + " that pH "
              + Text.number(swap.targetPh)
              + " needs"
              + (swap.blend.line(swap.acid.id()).isPresent()
                  ? ", the line of it above included; the swap leaves that line as it was, so put"
                      + " the dose in its place; the starting pH above is that without this line"
                  : "; no line above has it, so it takes the place of water"));
    }
    all.addAll(startingPhAfter().caveats());
    return List.copyOf(all);
  }

  /**
   * Compares with another swap, line by line.
   *
   * @param other the other report
   * @return the amounts and figures after the swap that differ, in order; empty when none does
   */
  public List<FigureDifference> differencesFrom(SwapReport other) {
    Map<String, SwapFigure> mine = byName();
    Map<String, SwapFigure> theirs = other.byName();
    Set<String> names = new LinkedHashSet<>(mine.keySet());
    names.addAll(theirs.keySet());
    List<FigureDifference> all = new ArrayList<>();
    for (String name : names) {
      SwapFigure a = mine.get(name);
      SwapFigure b = theirs.get(name);
      SwapFigure any = Objects.requireNonNull(a != null ? a : b);
      if (a == null || b == null || differ(a.after(), b.after())) {
        all.add(new FigureDifference(name, any.unit(), value(a), value(b)));
      }
    }
    return all;
  }

  private static boolean differ(double a, double b) {
    return Math.abs(a - b) > 1e-10 * Math.max(1, Math.abs(a));
  }

  private static OptionalDouble value(@Nullable SwapFigure f) {
    return f == null ? OptionalDouble.empty() : OptionalDouble.of(f.after());
  }

  private Map<String, SwapFigure> byName() {
    Map<String, SwapFigure> all = new LinkedHashMap<>();
    for (BlendLine l : after.lines()) {
      String name = "amount of " + l.material();
      all.put(name, SwapFigure.of(name, "% as supplied", 3, 0, l.amount().value(), ANY));
    }
    figures.forEach(f -> all.put(f.name(), f));
    return all;
  }

  private Blend withoutAcid(Blend b) {
    if (swap.acid == null || b.line(swap.acid.id()).isEmpty()) {
      return b;
    }
    Blend.Builder rest = Blend.named(b.name());
    for (BlendLine l : b.lines()) {
      if (!l.material().id().equals(swap.acid.id()) && l.material() != swap.water) {
        rest.line(l.material(), l.amount().value());
      }
    }
    return rest.upToHundredWith(swap.water);
  }

  /** Works the figures out, in order. */
  private final class Figures {
    private final List<SwapFigure> all = new ArrayList<>();
    private final Map<String, Double> substancesBefore;
    private final Map<String, Double> substancesAfter;

    Figures(Map<String, Double> substancesBefore, Map<String, Double> substancesAfter) {
      this.substancesBefore = substancesBefore;
      this.substancesAfter = substancesAfter;
    }

    private void add(String name, String unit, int decimals, double x, double y, double tolerance) {
      all.add(SwapFigure.of(name, unit, decimals, x, y, tolerance));
    }

    private void active(String name, double x, double y) {
      add(name, "% active", 3, x, y, swap.tolerances.activePercent() / 100 * x);
    }

    List<SwapFigure> all() {
      Blend old = swap.blend;
      active("total active", old.totalActive().value(), after.totalActive().value());
      for (ChargeClass c : ChargeClass.values()) {
        double x = old.active(c).value();
        double y = after.active(c).value();
        if (x > 0 || y > 0) {
          active(c.label() + " active", x, y);
        }
      }
      Set<String> actives = new LinkedHashSet<>();
      collectActives(old, actives);
      collectActives(after, actives);
      Set<String> names = new LinkedHashSet<>(substancesBefore.keySet());
      names.addAll(substancesAfter.keySet());
      for (String name : names) {
        if (actives.contains(name)) {
          active(name, amount(substancesBefore, name), amount(substancesAfter, name));
        }
      }
      add(
          "water to weigh",
          "% as supplied",
          3,
          old.asSupplied(swap.water.id()).value(),
          after.asSupplied(swap.water.id()).value(),
          ANY);
      add("water from all sources", "% m/m", 3, old.waterPercent(), after.waterPercent(), ANY);
      add(
          "sodium chloride",
          "% m/m",
          4,
          old.saltPercent().typical(),
          after.saltPercent().typical(),
          swap.tolerances.saltPoints());
      for (String name : names) {
        double x = amount(substancesBefore, name);
        double y = amount(substancesAfter, name);
        if (!actives.contains(name)
            && !name.equals(Constituent.WATER)
            && !name.equalsIgnoreCase(Constituent.SODIUM_CHLORIDE)
            && differ(x, y)) {
          add("carried " + name, "% m/m", 4, x, y, ANY);
        }
      }
      acidBase(old);
      money(old);
      return all;
    }

    private void acidBase(Blend old) {
      Conditions k = swap.conditions;
      Blend baseBefore = withoutAcid(old);
      Blend baseAfter = withoutAcid(after);
      BlendCharge x = BlendCharge.of(baseBefore, k);
      BlendCharge y = BlendCharge.of(baseAfter, k);
      add("starting pH", "", 2, x.ph(), y.ph(), swap.tolerances.ph());
      add(
          "starting pH of surfactants and water",
          "",
          2,
          BlendCharge.of(old.surfactantsOnly(swap.water), k).ph(),
          BlendCharge.of(after.surfactantsOnly(swap.water), k).ph(),
          swap.tolerances.ph());
      if (swap.acid != null) {
        double doseBefore = dose(swap.acid, baseBefore, x);
        double doseAfter = dose(swap.acid, baseAfter, y);
        if (doseBefore >= 0 && doseAfter >= 0) {
          add("acid dose", "% as supplied", 4, doseBefore, doseAfter, ANY);
        }
      }
      add(
          "net anionic charge at pH " + Text.number(swap.targetPh),
          "mmol/kg",
          2,
          netAnionic(old),
          netAnionic(after),
          ANY);
      OptionalDouble anionicBefore = old.activeMmolPerKg(ChargeClass.ANIONIC);
      OptionalDouble anionicAfter = after.activeMmolPerKg(ChargeClass.ANIONIC);
      OptionalDouble otherBefore = old.activeMmolPerKg(ChargeClass.AMPHOTERIC);
      OptionalDouble otherAfter = after.activeMmolPerKg(ChargeClass.AMPHOTERIC);
      if (anionicBefore.orElse(0) > 0
          && anionicAfter.orElse(0) > 0
          && otherBefore.orElse(0) > 0
          && otherAfter.orElse(0) > 0) {
        add(
            "anionic to amphoteric, moles",
            "",
            3,
            anionicBefore.orElse(0) / otherBefore.orElse(1),
            anionicAfter.orElse(0) / otherAfter.orElse(1),
            ANY);
      }
    }

    private double netAnionic(Blend b) {
      double sum = 0;
      for (BlendLine l : b.lines()) {
        sum -=
            l.massFraction()
                * l.material()
                    .chargeCurve(swap.conditions)
                    .chargeOnActiveEqPerKg(swap.targetPh, NOMINAL_IONIC_STRENGTH);
      }
      return sum * 1000;
    }

    /** The acid in place of water that makes the charge at the target zero; negative: none. */
    private double dose(Material acid, Blend base, BlendCharge charge) {
      double ph = swap.targetPh;
      double ionicStrength = charge.ionicStrength(ph);
      ChargeCurve curve = acid.chargeCurve(swap.conditions);
      double ions = swap.conditions.h(ph, ionicStrength) - swap.conditions.oh(ph, ionicStrength);
      double perKg = curve.chargeEqPerKg(ph, ionicStrength) - (1 - curve.waterKgPerKg()) * ions;
      if (perKg >= 0) {
        return -1;
      }
      double x = -charge.chargeEqPerKg(ph) / perKg;
      double room = base.asSupplied(swap.water.id()).value() / 100;
      for (int pass = 0; pass < 3 && x > 0 && x < room; pass++) {
        Blend.Builder b = Blend.named(base.name());
        for (BlendLine l : base.lines()) {
          if (l.material() != swap.water) {
            b.line(l.material(), l.amount().value());
          }
        }
        Blend dosed = b.line(acid, x * 100).upToHundredWith(swap.water);
        double left = BlendCharge.of(dosed, swap.conditions).chargeEqPerKg(ph);
        x -= left / perKg;
        // A ten-millionth of an equivalent is a thousandth of a gram of citric acid in 100 kg.
        if (Math.abs(left) < 1e-7) {
          break;
        }
      }
      return x * 100;
    }

    private void money(Blend old) {
      OptionalDouble x = old.costPerKg(swap.prices);
      OptionalDouble y = costAfter();
      if (x.isPresent() && y.isPresent()) {
        add("cost", perKg(), 4, x.getAsDouble(), y.getAsDouble(), ANY);
        double before = old.totalActive().value();
        double now = after.totalActive().value();
        if (before > 0 && now > 0) {
          add(
              "cost of the active",
              perKg() + " active",
              3,
              x.getAsDouble() / before * 100,
              y.getAsDouble() / now * 100,
              ANY);
        }
      }
    }

    private String perKg() {
      return swap.prices.currency() + " per kg";
    }

    private OptionalDouble costAfter() {
      double sum = 0;
      for (BlendLine l : after.lines()) {
        Double own = swap.newPrices.get(l.material());
        OptionalDouble price =
            own != null ? OptionalDouble.of(own) : swap.prices.pricePerKg(l.material().id());
        if (price.isEmpty()) {
          return OptionalDouble.empty();
        }
        sum += l.massFraction() * price.getAsDouble();
      }
      return OptionalDouble.of(sum);
    }
  }

  private static double amount(Map<String, Double> amounts, String name) {
    return amounts.getOrDefault(name, 0.0);
  }

  private static void collectActives(Blend b, Set<String> names) {
    for (BlendLine l : b.lines()) {
      for (Constituent c : l.material().constituents()) {
        if (c.isActive()) {
          names.add(c.inciName());
        }
      }
    }
  }

  /**
   * The whole report in at most 80 columns.
   *
   * @return several lines
   */
  public String summary() {
    StringBuilder s = new StringBuilder("Swap in ").append(swap.blend.name()).append('\n');
    swap.changes.forEach(
        (id, mix) -> s.append("  ").append(id).append(" -> ").append(mix).append('\n'));
    if (noChangeNeeded) {
      s.append("  No change needed: weigh as before and note the lot.\n");
    }
    obstacle.ifPresent(o -> s.append("  Plain holding is impossible: ").append(o).append(".\n"));
    for (Rebalance.Reached r : gaveWay) {
      s.append("  Gave way: ")
          .append(r.held().name())
          .append(", wanted ")
          .append(Text.fixed(r.held().percent(), 3))
          .append(", nearest ")
          .append(Text.fixed(r.percent(), 3))
          .append(" % m/m\n");
    }
    s.append("\n  material                                % as supplied before      after\n");
    amounts()
        .forEach(
            (name, pair) ->
                s.append("  ")
                    .append(Text.left(name, 44))
                    .append(Text.right(number(pair[0]), 14))
                    .append(Text.right(number(pair[1]), 11))
                    .append('\n'));
    s.append("\n  figure, % m/m of the product              before     after  verdict\n");
    for (SwapFigure f : figures) {
      s.append("  ")
          .append(Text.left(f.name() + otherUnit(f.unit()), 38))
          .append(Text.right(Text.fixed(f.before(), f.decimals()), 10))
          .append(Text.right(Text.fixed(f.after(), f.decimals()), 10))
          .append("  ")
          .append(f.verdict().label())
          .append('\n');
    }
    s.append("\n  With the old weights the total active would be ")
        .append(Text.fixed(gramForGram.totalActive().value(), 3))
        .append(" %, off by ")
        .append(Text.fixed(gramForGramErrorPercent(), 2))
        .append(" %.\n");
    if (!newOnLabel.isEmpty()) {
      s.append("  New on the label: ").append(String.join(", ", newOnLabel)).append('\n');
    }
    if (!offLabel.isEmpty()) {
      s.append("  Off the label: ").append(String.join(", ", offLabel)).append('\n');
    }
    notes().forEach(n -> s.append("  Note: ").append(n).append('\n'));
    s.append("  No swap holds:\n");
    NEVER_HELD.forEach(n -> s.append("    ").append(n).append('\n'));
    return Text.wrapped(s.append("  Compare certificates, make a trial, measure its pH.\n"), 80);
  }

  /** The unit behind a name, where it is no percentage of the product. */
  private static String otherUnit(String unit) {
    return unit.isEmpty() || unit.startsWith("%") ? "" : ", " + unit;
  }

  private static String number(double v) {
    return Double.isNaN(v) ? "-" : Text.fixed(v, 3);
  }

  private Map<String, double[]> amounts() {
    Map<String, double[]> all = new LinkedHashMap<>();
    for (BlendLine l : swap.blend.lines()) {
      double[] pair = all.computeIfAbsent(l.material().toString(), n -> new double[] {0, 0});
      pair[0] += l.amount().value();
    }
    for (BlendLine l : after.lines()) {
      double[] pair = all.computeIfAbsent(l.material().toString(), n -> new double[] {0, 0});
      pair[1] += l.amount().value();
    }
    return all;
  }

  @Override
  public String toString() {
    return summary();
  }
}
