package org.surfactantblend.testing;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.SheetPh;
import org.surfactantblend.quantity.Range;

/**
 * The pH of a blend from its weights and the figures of its materials, by the full charge balance
 * and plain bisection. Written a second time on purpose: it shares no code with the library's own
 * chemistry, only the data of the materials.
 *
 * <p>Charges are in eq per kg, ionic strengths in mol per kg of water.
 */
public final class RecheckedPh {
  private static final double LOWEST = -2;
  private static final double HIGHEST = 16;

  private RecheckedPh() {}

  /** Slope of the activity term, its linear coefficient, and the ionic product of water. */
  public record Water(double slope, double linear, double pKw) {
    /** Permittivity of water at 25 C: Malmberg and Maryott, J. Res. NBS 56 (1956) 1. */
    private static final double PERMITTIVITY_25 = 78.30334375;

    /** Density of water at 25 C [kg/l]: Kell, J. Chem. Eng. Data 20 (1975) 97. */
    private static final double DENSITY_25 = 0.9970448954;

    /** pKw at 25 C, molal: Bandura and Lvov, J. Phys. Chem. Ref. Data 35 (2006) 15. */
    private static final double PKW_25 = 13.995;

    /** Davies, J. Chem. Soc. 1938, 2093: the linear coefficient 0.2. */
    private static final double DAVIES_1938 = 0.2;

    /** Water at 25 C with the term of Davies. */
    public static Water at25() {
      double slope = 1.824829e6 * Math.sqrt(DENSITY_25) / Math.pow(PERMITTIVITY_25 * 298.15, 1.5);
      return new Water(slope, DAVIES_1938, PKW_25);
    }

    /** No activity term, for arithmetic worked by hand. */
    public static Water ideal(double pKw) {
      return new Water(0, 0, pKw);
    }

    /** The water that a brief asks for; only the two kinds above are known here. */
    static Water of(Brief brief) {
      var asked = brief.conditions();
      String text = asked.toString();
      if (text.startsWith("ideal")) {
        return ideal(asked.pKw());
      }
      if (text.equals("Davies, C = 0.2 at 25.0 C")) {
        return at25();
      }
      throw new AssertionError("the recheck knows no water such as " + text);
    }

    double term(double ionicStrength) {
      // Beyond 1 mol/kg the term is held, as the library documents.
      double held = Math.min(ionicStrength, 1);
      double root = Math.sqrt(held);
      return slope * (root / (1 + root) - linear * held);
    }

    double h(double ph, double ionicStrength) {
      return Math.pow(10, term(ionicStrength) - ph);
    }

    double oh(double ph, double ionicStrength) {
      return Math.pow(10, term(ionicStrength) + ph - pKw);
    }
  }

  /** One weak group with its figures settled: amount [mol/kg], constants, what it sits on. */
  record Group(double amount, double[] pKa, int topCharge, boolean apparent, boolean onActive) {
    /** Mean charge and mean squared charge per mole. */
    double[] charges(Water water, double ph, double ionicStrength) {
      double t = apparent ? 0 : water.term(ionicStrength);
      int forms = pKa.length + 1;
      double[] exponent = new double[forms];
      double largest = 0;
      for (int lost = 1; lost < forms; lost++) {
        int acidCharge = topCharge - lost + 1;
        int baseCharge = acidCharge - 1;
        // log10 of the ratio of molalities, from pH = pKa + log(gamma_b m_b / (gamma_a m_a)).
        exponent[lost] =
            exponent[lost - 1]
                + ph
                - pKa[lost - 1]
                + t * (baseCharge * baseCharge - acidCharge * acidCharge);
        largest = Math.max(largest, exponent[lost]);
      }
      double all = 0;
      double first = 0;
      double second = 0;
      for (int lost = 0; lost < forms; lost++) {
        double weight = Math.pow(10, exponent[lost] - largest);
        double z = (double) topCharge - lost;
        all += weight;
        first += z * weight;
        second += z * z * weight;
      }
      return new double[] {first / all, second / all};
    }
  }

  /** A line's material with every figure settled: one lot. All amounts per kg as supplied. */
  public static final class Lot {
    private static final Draw TYPICAL = Range::typical;

    private final double waterKg;
    private final double saltMol;
    private final double permanent;
    private final double strong;
    private final double sampleIonicStrength;
    private final List<Group> groups;

    private Lot(
        double waterKg,
        double saltMol,
        double permanent,
        double strong,
        double sampleIonicStrength,
        List<Group> groups) {
      this.waterKg = waterKg;
      this.saltMol = saltMol;
      this.permanent = permanent;
      this.strong = strong;
      this.sampleIonicStrength = sampleIonicStrength;
      this.groups = groups;
    }

    /** The lot with every figure at its typical value. */
    public static Lot typical(Material m, Water water) {
      return drawn(m, water, TYPICAL, Double.NaN);
    }

    /** Picks a value inside a range. */
    public interface Draw {
      double from(Range range);
    }

    /** Uniform inside the ranges. */
    public static Draw uniform(Random random) {
      return r -> r.low() + random.nextDouble() * (r.high() - r.low());
    }

    /** One end or the other. */
    public static Draw ends(Random random) {
      return r -> random.nextBoolean() ? r.low() : r.high();
    }

    /** Triangular on least, typical and greatest. */
    public static Draw triangular(Random random) {
      return r -> {
        double width = r.high() - r.low();
        if (width == 0) {
          return r.typical();
        }
        double u = random.nextDouble();
        double peak = (r.typical() - r.low()) / width;
        return u < peak
            ? r.low() + Math.sqrt(u * width * (r.typical() - r.low()))
            : r.high() - Math.sqrt((1 - u) * width * (r.high() - r.typical()));
      };
    }

    /**
     * A lot whose group amounts, constants, sheet pH and declared strong ions are drawn; its
     * strong-ion charge is worked back from its own sheet pH.
     *
     * @param sampleIonicStrength the ionic strength of the sheet's sample [mol/kg water]; NaN to
     *     work it out from the drawn lot itself
     */
    public static Lot drawn(Material m, Water water, Draw draw, double sampleIonicStrength) {
      double waterKg = m.waterPercent().typical() / 100;
      double saltMol = m.saltPercent().typical() * 10 / 58.44;
      double permanent = m.family().permanentCharge() * m.activeMolPerKg().typical();
      List<Group> groups = new ArrayList<>();
      for (AcidBaseGroup g : m.groups()) {
        var acid = g.acid();
        double[] pKa = acid.steps().stream().mapToDouble(s -> s.pKa25()).toArray();
        Range uncertain = g.pKa();
        if (uncertain != null && draw != TYPICAL) {
          pKa[0] = draw.from(uncertain);
        }
        groups.add(
            new Group(
                draw.from(g.amount()),
                pKa,
                acid.chargeOfMostProtonatedForm(),
                acid.apparent(),
                g.onActive()));
      }
      if (m.strongIonEqPerKg().isPresent() || m.sheetPh().isEmpty()) {
        double declared = m.strongIonEqPerKg().map(draw::from).orElse(0.0);
        return new Lot(waterKg, saltMol, permanent, declared + permanent, 0, groups);
      }
      SheetPh sheet = m.sheetPh().orElseThrow();
      double ph = draw.from(sheet.effective());
      double sampleWater = Math.max(0.01, waterKg + 100 / sheet.dilutionPercent() - 1);
      double ionic = Double.isNaN(sampleIonicStrength) ? 0 : sampleIonicStrength;
      double strong = 0;
      for (int pass = 0; pass < 200; pass++) {
        strong = -sampleWater * (water.h(ph, ionic) - water.oh(ph, ionic));
        double weak = 0;
        for (Group g : groups) {
          double[] z = g.charges(water, ph, ionic);
          strong -= g.amount() * z[0];
          weak += g.onActive() || g.apparent() ? 0 : g.amount() * z[1] / 2;
        }
        if (!Double.isNaN(sampleIonicStrength)) {
          break;
        }
        double next = (saltMol + Math.abs(strong - permanent) / 2 + weak) / sampleWater;
        if (Math.abs(next - ionic) < 1e-15) {
          break;
        }
        ionic = next;
      }
      return new Lot(waterKg, saltMol, permanent, strong, ionic, groups);
    }

    /** The ionic strength of the sheet's sample [mol/kg water]. */
    public double sampleIonicStrength() {
      return sampleIonicStrength;
    }

    /** Net charge without the ions of water [eq/kg as supplied]. */
    double charge(Water water, double ph, double ionicStrength) {
      double sum = strong;
      for (Group g : groups) {
        sum += g.amount() * g.charges(water, ph, ionicStrength)[0];
      }
      return sum;
    }

    /** Charge on the surface-active molecules [eq/kg as supplied]. */
    double chargeOnActive(Water water, double ph, double ionicStrength) {
      double sum = permanent;
      for (Group g : groups) {
        sum += g.onActive() ? g.amount() * g.charges(water, ph, ionicStrength)[0] : 0;
      }
      return sum;
    }

    private double ions(Water water, double ph, double ionicStrength) {
      double sum = saltMol + Math.abs(strong - permanent) / 2;
      for (Group g : groups) {
        sum +=
            g.onActive() || g.apparent()
                ? 0
                : g.amount() * g.charges(water, ph, ionicStrength)[1] / 2;
      }
      return sum;
    }
  }

  /** Lots with their mass fractions: what the balance is taken over. */
  public static final class Balance {
    private final Water water;
    private final double[] fractions;
    private final List<Lot> lots;
    private final double waterKg;

    public Balance(Water water, double[] fractions, List<Lot> lots) {
      this.water = water;
      this.fractions = fractions.clone();
      this.lots = List.copyOf(lots);
      double sum = 0;
      for (int i = 0; i < fractions.length; i++) {
        sum += fractions[i] * lots.get(i).waterKg;
      }
      waterKg = Math.max(sum, 1e-3);
    }

    /** The balance of a blend at typical figures. */
    public static Balance typical(Blend blend, Water water) {
      return new Balance(
          water,
          blend.lines().stream().mapToDouble(BlendLine::massFraction).toArray(),
          blend.lines().stream().map(l -> Lot.typical(l.material(), water)).toList());
    }

    /** The same amounts of lots drawn inside the ranges, each with its own ionic strengths. */
    public static Balance drawn(Blend blend, Water water, Lot.Draw draw) {
      return new Balance(
          water,
          blend.lines().stream().mapToDouble(BlendLine::massFraction).toArray(),
          blend.lines().stream()
              .map(l -> Lot.drawn(l.material(), water, draw, Double.NaN))
              .toList());
    }

    /**
     * The same amounts of lots drawn inside the ranges, with the sheet samples at the ionic
     * strength of the typical lots: the constants of the guaranteed interval.
     */
    public Balance redrawn(Blend blend, Lot.Draw draw) {
      List<Lot> other = new ArrayList<>();
      for (int i = 0; i < lots.size(); i++) {
        other.add(
            Lot.drawn(
                blend.lines().get(i).material(), water, draw, lots.get(i).sampleIonicStrength));
      }
      return new Balance(water, fractions, other);
    }

    /** The ionic strength that belongs to the blend at a pH [mol/kg water]. */
    public double ionicStrength(double ph) {
      double ionic = 0;
      for (int pass = 0; pass < 200; pass++) {
        double sum = 0;
        for (int i = 0; i < fractions.length; i++) {
          sum += fractions[i] * lots.get(i).ions(water, ph, ionic);
        }
        double next = sum / waterKg + (water.h(ph, ionic) + water.oh(ph, ionic)) / 2;
        if (Math.abs(next - ionic) < 1e-14) {
          return next;
        }
        ionic = next;
      }
      return ionic;
    }

    /** Net charge at a pH and an ionic strength [eq/kg of product]. */
    public double charge(double ph, double ionicStrength) {
      double sum = waterKg * (water.h(ph, ionicStrength) - water.oh(ph, ionicStrength));
      for (int i = 0; i < fractions.length; i++) {
        sum += fractions[i] * lots.get(i).charge(water, ph, ionicStrength);
      }
      return sum;
    }

    /** Net anionic charge on the surfactants at a pH [mmol/kg of product]. */
    double netAnionicMmol(double ph, double ionicStrength) {
      double sum = 0;
      for (int i = 0; i < fractions.length; i++) {
        sum -= 1000 * fractions[i] * lots.get(i).chargeOnActive(water, ph, ionicStrength);
      }
      return sum;
    }

    /** Where the net charge is zero. */
    public double ph() {
      return root(this);
    }

    /** Where the net charge is zero with the ionic strength of another balance. */
    public double phAtIonicStrengthOf(Balance other) {
      return root(other);
    }

    private double root(Balance ions) {
      double low = LOWEST;
      double high = HIGHEST;
      for (int i = 0; i < 100 && high - low > 1e-14; i++) {
        double middle = (low + high) / 2;
        if (charge(middle, ions.ionicStrength(middle)) > 0) {
          low = middle;
        } else {
          high = middle;
        }
      }
      return (low + high) / 2;
    }
  }

  /** The pH of a blend at typical figures. */
  public static double of(Blend blend, Water water) {
    return Balance.typical(blend, water).ph();
  }
}
