package org.surfactantblend.acidity;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.aqueous.PhRoot;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.Material;
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
  private final double typical;
  private final PhWindow likely;
  private final PhWindow guaranteed;
  private final double ionicStrength;
  private final double buffering;
  private final List<Contribution> contributions;
  private final List<String> caveats;

  /**
   * What one line does to the pH.
   *
   * @param line the line
   * @param meqPerKg the charge it brings at the typical pH of the blend [meq/kg of product];
   *     positive for alkali, negative for acid
   * @param swing where the pH goes when this line alone runs through its ranges
   */
  public record Contribution(BlendLine line, double meqPerKg, PhWindow swing) {}

  private StartingPh(Blend blend, Conditions conditions) {
    this.blend = blend;
    BlendCharge charge = BlendCharge.of(blend, conditions);
    typical = charge.ph();
    ionicStrength = charge.ionicStrength(typical);
    double low = PhRoot.ofFalling(charge::leastChargeEqPerKg, -2, 16);
    double high = PhRoot.ofFalling(charge::greatestChargeEqPerKg, -2, 16);
    guaranteed = PhWindow.of(Math.min(low, typical), Math.max(high, typical));
    likely = likely(charge, guaranteed);
    double step = 0.05;
    buffering =
        (charge.chargeEqPerKg(typical - step) - charge.chargeEqPerKg(typical + step))
            / (2 * step)
            * 1000;
    List<Contribution> all = new ArrayList<>();
    Map<String, Set<String>> shared = new LinkedHashMap<>();
    for (int i = 0; i < blend.lines().size(); i++) {
      int line = i;
      Material m = blend.lines().get(i).material();
      double down =
          PhRoot.ofFalling(p -> charge.chargeWithLineAtItsEnd(line, p, false), -2, typical);
      double up = PhRoot.ofFalling(p -> charge.chargeWithLineAtItsEnd(line, p, true), typical, 16);
      all.add(
          new Contribution(
              blend.lines().get(i),
              charge.lineCharge(i, typical) * 1000,
              PhWindow.of(Math.min(down, typical), Math.max(up, typical))));
      m.caveats().forEach(c -> shared.computeIfAbsent(c, k -> new LinkedHashSet<>()).add(m.id()));
    }
    List<String> remarks = new ArrayList<>();
    shared.forEach((c, ids) -> remarks.add(String.join(", ", ids) + ": " + c));
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
    contributions = List.copyOf(all);
    caveats = List.copyOf(remarks);
  }

  private static PhWindow likely(BlendCharge charge, PhWindow within) {
    double low =
        PhRoot.ofFalling(p -> standardised(charge, p) - NINETY, within.low(), within.high());
    double high =
        PhRoot.ofFalling(p -> standardised(charge, p) + NINETY, within.low(), within.high());
    return PhWindow.of(Math.min(low, high), Math.max(low, high));
  }

  private static double standardised(BlendCharge charge, double ph) {
    var moments = charge.moments(ph);
    double sd = Math.sqrt(Math.max(0, moments.covariance()[0][0]));
    double mean = moments.mean()[0];
    return sd < 1e-15 ? Math.signum(mean) * 1e3 : Math.max(-1e3, Math.min(1e3, mean / sd));
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
    return likely;
  }

  /**
   * The interval that holds for every lot inside the declared ranges.
   *
   * @return the guaranteed interval
   */
  public PhWindow guaranteed() {
    return guaranteed;
  }

  /**
   * The ionic strength at the typical pH.
   *
   * @return the ionic strength [mol/kg water]
   */
  public double ionicStrength() {
    return ionicStrength;
  }

  /**
   * How much strong acid or base moves the typical pH by one unit there.
   *
   * @return the buffer value [meq/kg of product per pH unit]
   */
  public double bufferingMeqPerKgPerPh() {
    return buffering;
  }

  /**
   * What each line does.
   *
   * @return in the order of the blend's lines
   */
  public List<Contribution> contributions() {
    return contributions;
  }

  /**
   * The line whose ranges spread the pH most.
   *
   * @return the line, or empty when no line has a range
   */
  public Optional<Contribution> mainCauseOfSpread() {
    return contributions.stream()
        .filter(c -> c.swing().width() > 0)
        .max(Comparator.comparingDouble(c -> c.swing().width()));
  }

  /**
   * What is uncertain beyond the intervals.
   *
   * @return sentences without a full stop
   */
  public List<String> caveats() {
    return caveats;
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
    s.append("  likely (central 90 %)    ").append(range(likely)).append('\n');
    s.append("  guaranteed (every lot)   ").append(range(guaranteed)).append('\n');
    s.append("  buffering                ")
        .append(Text.fixed(buffering, 1))
        .append(" meq/kg per pH unit\n");
    s.append("  line                                     meq/kg   pH over its own range\n");
    for (Contribution c : contributions) {
      s.append("  ")
          .append(Text.left(c.line().material().toString(), 38))
          .append(Text.right(Text.fixed(c.meqPerKg(), 2), 9))
          .append("   ")
          .append(range(c.swing()))
          .append('\n');
    }
    mainCauseOfSpread()
        .ifPresent(
            c ->
                s.append("  The spread comes mostly from ")
                    .append(c.line().material().id())
                    .append(".\n"));
    caveats.forEach(c -> s.append("  Note: ").append(c).append(".\n"));
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
