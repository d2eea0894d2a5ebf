package org.surfactantblend.acidity;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.aqueous.PhRoot;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.quantity.PhWindow;
import org.surfactantblend.quantity.Text;

/**
 * The pH a blend starts at before any correction, with how sure that is and what causes it.
 *
 * <p>Worked out from the table alone; nobody may release a product on it. The <em>guaranteed</em>
 * interval holds for every lot inside the declared ranges, within the model's constants; the
 * <em>likely</em> one is the central 90 % with all inputs independent and triangular on least /
 * typical / greatest.
 *
 * <p>Immutable and thread-safe.
 */
public final class StartingPh {
  /** Distance from the median to an end of the central 90 % of a normal variable. */
  private static final double NINETY = 1.6448536269514722;

  private static final double HIGH_IONIC_STRENGTH = 0.3;

  private final Blend blend;
  private final BlendCharge charge;
  private final double typical;
  // Worked out when first asked for; a race at worst works the same figures out twice.
  private volatile @Nullable Spread spread;

  /**
   * What one line does to the pH.
   *
   * @param line the line
   * @param meqPerKg the charge it brings at the typical pH of the blend [meq/kg of product];
   *     positive for alkali, negative for acid
   * @param spreadMeqPerKg how far that charge can be apart within the line's ranges [meq/kg]
   * @param swing where the pH goes when this line alone runs through its ranges
   */
  public record Contribution(
      BlendLine line, double meqPerKg, double spreadMeqPerKg, PhWindow swing) {}

  private record Spread(PhWindow likely, PhWindow guaranteed, List<Contribution> contributions) {}

  private StartingPh(Blend blend, Conditions conditions) {
    this.blend = blend;
    charge = BlendCharge.of(blend, conditions);
    typical = charge.ph();
  }

  private Spread spread() {
    Spread known = spread;
    if (known == null) {
      known = workOut();
      spread = known;
    }
    return known;
  }

  private Spread workOut() {
    double low = PhRoot.ofFalling(charge::leastChargeEqPerKg, -2, 16);
    double high = PhRoot.ofFalling(charge::greatestChargeEqPerKg, -2, 16);
    PhWindow guaranteed = PhWindow.of(Math.min(low, typical), Math.max(high, typical));
    List<Contribution> all = new ArrayList<>();
    for (int i = 0; i < blend.lines().size(); i++) {
      int line = i;
      double down =
          PhRoot.ofFalling(
              p -> charge.chargeWithLineAtItsEnd(line, p, false), guaranteed.low(), typical);
      double up =
          PhRoot.ofFalling(
              p -> charge.chargeWithLineAtItsEnd(line, p, true), typical, guaranteed.high());
      all.add(
          new Contribution(
              blend.lines().get(i),
              charge.lineCharge(i, typical) * 1000,
              charge.lineSpread(i, typical) * 1000,
              PhWindow.of(Math.min(down, typical), Math.max(up, typical))));
    }
    return new Spread(likely(charge, guaranteed), guaranteed, List.copyOf(all));
  }

  private static PhWindow likely(BlendCharge charge, PhWindow within) {
    double low =
        PhRoot.ofFalling(p -> charge.chargeQuantile(p, -NINETY), within.low(), within.high());
    double high =
        PhRoot.ofFalling(p -> charge.chargeQuantile(p, NINETY), within.low(), within.high());
    return PhWindow.of(Math.min(low, high), Math.max(low, high));
  }

  /**
   * The starting pH of a blend at 25 degC.
   *
   * @param blend the whole product, or what {@link Blend#surfactantsOnly} leaves of it
   * @return the starting pH
   */
  public static StartingPh of(Blend blend) {
    return of(blend, Conditions.standard());
  }

  /**
   * The starting pH of a blend under given conditions.
   *
   * @param blend the blend
   * @param conditions temperature and activity model
   * @return the starting pH
   */
  public static StartingPh of(Blend blend, Conditions conditions) {
    return new StartingPh(blend, conditions);
  }

  /**
   * The blend it is about.
   *
   * @return the blend
   */
  public Blend blend() {
    return blend;
  }

  /**
   * The pH at the typical figures of every material.
   *
   * @return the pH
   */
  public double typical() {
    return typical;
  }

  /**
   * The central 90 %.
   *
   * @return the likely interval
   */
  public PhWindow likely() {
    return spread().likely;
  }

  /**
   * The interval that holds for every lot inside the declared ranges.
   *
   * @return the guaranteed interval
   */
  public PhWindow guaranteed() {
    return spread().guaranteed;
  }

  /**
   * The ionic strength at the typical pH.
   *
   * @return the ionic strength [mol/kg water]
   */
  public double ionicStrength() {
    return charge.ionicStrength(typical);
  }

  /**
   * How much strong acid or base moves the typical pH by one unit there.
   *
   * @return the buffer value [meq/kg of product per pH unit]
   */
  public double bufferingMeqPerKgPerPh() {
    double step = 0.05;
    return (charge.chargeEqPerKg(typical - step) - charge.chargeEqPerKg(typical + step))
        / (2 * step)
        * 1000;
  }

  /**
   * What each line does.
   *
   * @return in the order of the blend's lines
   */
  public List<Contribution> contributions() {
    return spread().contributions;
  }

  /**
   * The lines whose ranges spread the pH most: all lines of the family whose charge can be furthest
   * apart, since members of a family vary for the same reason.
   *
   * @return the lines, largest first; empty when no line has a range
   */
  public List<Contribution> mainCauseOfSpread() {
    Map<String, List<Contribution>> families = new LinkedHashMap<>();
    for (Contribution c : contributions()) {
      if (c.spreadMeqPerKg() > 0) {
        families
            .computeIfAbsent(c.line().material().family().name(), k -> new ArrayList<>())
            .add(c);
      }
    }
    Comparator<Contribution> bySpread =
        Comparator.comparingDouble(Contribution::spreadMeqPerKg).reversed();
    return families.values().stream()
        .max(
            Comparator.comparingDouble(
                l -> l.stream().mapToDouble(Contribution::spreadMeqPerKg).sum()))
        .map(l -> l.stream().sorted(bySpread).toList())
        .orElse(List.of());
  }

  /**
   * The main cause of the spread in words.
   *
   * @return for instance {@code the alkali of decyl-glucoside-52 and coco-glucoside-52}; empty when
   *     no line has a range
   */
  public String causeInWords() {
    List<Contribution> cause = mainCauseOfSpread();
    if (cause.isEmpty()) {
      return "";
    }
    String names =
        cause.stream().map(c -> c.line().material().id()).collect(Collectors.joining(" and "));
    double sum = cause.stream().mapToDouble(Contribution::meqPerKg).sum();
    return (sum >= 0 ? "the alkali of " : "the acids of ") + names;
  }

  /**
   * What is uncertain beyond the intervals.
   *
   * @return sentences without a full stop; one that several materials share is told once
   */
  public List<String> caveats() {
    Map<String, Set<String>> shared = new LinkedHashMap<>();
    for (BlendLine l : blend.lines()) {
      for (String c : l.material().caveats()) {
        shared.computeIfAbsent(c, k -> new LinkedHashSet<>()).add(l.material().id());
      }
    }
    List<String> remarks = new ArrayList<>();
    shared.forEach((c, ids) -> remarks.add(String.join(", ", ids) + ": " + c));
    double ionicStrength = ionicStrength();
    if (ionicStrength > HIGH_IONIC_STRENGTH) {
      remarks.add(
          "ionic strength "
              + Text.fixed(ionicStrength, 2)
              + " mol/kg is above 0.3: the activity term is outside its tested range");
    }
    if (charge.waterKgPerKg() < 0.3) {
      remarks.add(
          "less than 30 % water: a pH electrode and this model are both out of their range");
    }
    return List.copyOf(remarks);
  }

  /**
   * The whole answer in at most 80 columns.
   *
   * @return several lines
   */
  public String summary() {
    StringBuilder s = new StringBuilder();
    s.append("Starting pH of ").append(blend.name()).append('\n');
    s.append("  at typical figures       ").append(Text.fixed(typical, 2)).append('\n');
    s.append("  likely (central 90 %)    ").append(range(likely())).append('\n');
    s.append("  guaranteed (every lot)   ").append(range(guaranteed())).append('\n');
    s.append("  buffering                ")
        .append(Text.fixed(bufferingMeqPerKgPerPh(), 1))
        .append(" meq/kg per pH unit\n");
    s.append("  line                                     meq/kg   pH over its own range\n");
    for (Contribution c : contributions()) {
      s.append("  ")
          .append(Text.left(c.line().material().toString(), 38))
          .append(Text.right(Text.fixed(c.meqPerKg(), 2), 9))
          .append("   ")
          .append(range(c.swing()))
          .append('\n');
    }
    if (!causeInWords().isEmpty()) {
      s.append("  The spread comes mostly from ").append(causeInWords()).append(".\n");
    }
    caveats().forEach(c -> s.append("  Note: ").append(c).append(".\n"));
    return Text.wrapped(
        s.append("  A prediction from tables. Measure before you correct or release.\n"), 80);
  }

  private static String range(PhWindow w) {
    return Text.fixed(w.low(), 2) + " to " + Text.fixed(w.high(), 2);
  }

  @Override
  public String toString() {
    return summary();
  }
}
