package org.surfactantblend.solve;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.AqueousState;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.material.ChargeCurve;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.solve.Programme.Row;

/**
 * One end of a pH as a row over the mass fractions: a charge that has to be at least or at most
 * zero at that pH. Exact at a known ionic strength.
 *
 * <p>Charges are in eq, ions in mol and water in kg, each per kg of product.
 */
final class PhEnd {
  /** Water below this is counted as this [kg/kg of product]. */
  static final double LEAST_WATER = 1e-3;

  private static final int PASSES = 60;

  private final ChargeCurve[] curves;
  private final Conditions conditions;
  private final double ph;

  /** The columns that count as water, because only surfactants are asked about. */
  private final boolean[] asWater;

  /** What is added to every kilogram before its pH is judged; null when nothing is. */
  private final @Nullable ChargeCurve titrant;

  private final double added;
  private final boolean littleCharge;
  private final Lots lots;

  /** Which lots a charge is counted for. */
  private enum Lots {
    OF_LEAST_CHARGE,
    TYPICAL,
    OF_MOST_CHARGE
  }

  /**
   * One end of a pH.
   *
   * @param curves of the columns
   * @param robust whether it has to hold for the worst lots
   * @param titrant of a final pH, else null
   */
  PhEnd(
      Bound bound,
      List<Material> columns,
      ChargeCurve[] curves,
      Conditions conditions,
      boolean robust,
      @Nullable ChargeCurve titrant) {
    Requirement r = bound.requirement();
    boolean isFinal = r.kind() == Requirement.Kind.TO_REACH_PH;
    this.curves = curves;
    this.conditions = conditions;
    this.titrant = isFinal ? Objects.requireNonNull(titrant, "titrant") : null;
    ph = isFinal ? r.atPh() : bound.value();
    added = isFinal ? bound.value() / 100 : 0;
    asWater = new boolean[curves.length];
    for (int j = 0; j < asWater.length; j++) {
      asWater[j] =
          r.kind() == Requirement.Kind.STARTING_PH_OF_SURFACTANTS && !columns.get(j).isSurfactant();
    }
    littleCharge =
        this.titrant == null
            ? bound.upper()
            : this.titrant.chargeEqPerKg(ph, Programme.NOMINAL_IONIC_STRENGTH) < 0;
    lots = !robust ? Lots.TYPICAL : littleCharge ? Lots.OF_MOST_CHARGE : Lots.OF_LEAST_CHARGE;
  }

  /** The least and greatest ionic strength a pH row has to allow for [mol/kg water]. */
  record IonicRange(double least, double greatest) {
    static IonicRange exactly(double value) {
      return new IonicRange(value, value);
    }

    boolean isExact() {
      return least == greatest;
    }

    double width() {
      return greatest - least;
    }

    IonicRange within(IonicRange other) {
      double low = Math.max(least, other.least);
      return new IonicRange(low, Math.max(low, Math.min(greatest, other.greatest)));
    }
  }

  /** The ionic strength at which the activity term is greatest [mol/kg water]. */
  double activityPeak() {
    return conditions.activity().ionicStrengthOfLowestActivity();
  }

  /** The state at this pH at a given ionic strength. */
  AqueousState stateAt(double ionicStrength) {
    return conditions.at(ph, ionicStrength);
  }

  /**
   * The row.
   *
   * @param ionicStrength the ionic strengths between which the row has to hold in the most generous
   *     reading; equal ones for an exact row
   * @param high the greatest mass fractions; the coefficients of columns that cannot be used are 0
   */
  Row row(IonicRange ionicStrength, double[] high) {
    double[] c = new double[curves.length];
    AqueousState[] states = states(ionicStrength);
    for (int i = 0; i < states.length; i++) {
      double extra = addedCharge(states[i]);
      for (int j = 0; j < c.length; j++) {
        if (high[j] != 0) {
          double here = charge(j, states[i], lots) + extra;
          // Charge of at most zero: generous is the least; of at least zero: the greatest.
          c[j] = i == 0 ? here : littleCharge ? Math.min(c[j], here) : Math.max(c[j], here);
        }
      }
    }
    return new Row(
        c,
        littleCharge ? Double.NEGATIVE_INFINITY : 0,
        littleCharge ? 0 : Double.POSITIVE_INFINITY);
  }

  /** The states at which the row is read: one when it is exact, else its ends and its extreme. */
  private AqueousState[] states(IonicRange range) {
    AqueousState least = stateAt(range.least());
    if (range.isExact()) {
      return new AqueousState[] {least};
    }
    // The charge depends on I only through the activity term, which has one extreme between the
    // ends at most; both ends and that place bracket it.
    double peak = Math.min(range.greatest(), Math.max(range.least(), activityPeak()));
    return new AqueousState[] {
      least, least.withIonicStrength(range.greatest()), least.withIonicStrength(peak)
    };
  }

  /**
   * The row that touches its limit where a blend lies: unlike the row at one ionic strength it also
   * counts how the blend's own ionic strength changes with the amounts. Charge grows in proportion
   * to the amounts and ionic strength does not grow with them, so this row, too, has zero for its
   * limit, and at that blend it says the same as the other.
   *
   * @param w where it touches
   * @param high the greatest mass fractions
   */
  Row tangent(double[] w, double[] high) {
    AqueousState state = state(w);
    double ionicStrength = state.ionicStrength();
    double step = 1e-5 + 1e-4 * ionicStrength;
    AqueousState more = state.withIonicStrength(ionicStrength + step);
    double ions = ions(w, state);
    double water = water(w);
    double feedback =
        ((ions(w, more) - ions) / water + more.ownIonicStrength() - state.ownIonicStrength())
            / step;
    double perIonicStrength =
        (charge(w, more) - charge(w, state)) / step / Math.max(0.1, 1 - feedback);
    Row row = row(IonicRange.exactly(ionicStrength), high);
    double extraIons = addedIons(state);
    double extraWater = addedWater();
    for (int j = 0; j < curves.length; j++) {
      if (high[j] != 0) {
        row.coefficients()[j] +=
            perIonicStrength
                * (ions(j, state) + extraIons - ions / water * (water(j) + extraWater))
                / water;
      }
    }
    return row;
  }

  /** The state of a blend: this pH at the blend's own ionic strength. */
  AqueousState state(double[] w) {
    AqueousState state = stateAt(0.1);
    double water = water(w);
    for (int pass = 0; pass < PASSES; pass++) {
      double next = ions(w, state) / water + state.ownIonicStrength();
      boolean settled = Math.abs(next - state.ionicStrength()) <= 1e-11;
      state = state.withIonicStrength(next);
      if (settled) {
        break;
      }
    }
    return state;
  }

  /** The charge of a blend in a state, as the row counts it. */
  double charge(double[] w, AqueousState state) {
    return charge(w, state, lots);
  }

  private double charge(double[] w, AqueousState state, Lots of) {
    double extra = addedCharge(state);
    double sum = 0;
    for (int j = 0; j < w.length; j++) {
      sum += w[j] == 0 ? 0 : w[j] * (charge(j, state, of) + extra);
    }
    return sum;
  }

  /** A material's charge and that of its water. */
  private double charge(int j, AqueousState state, Lots of) {
    double perWater = state.hydrogenLessHydroxide();
    if (asWater[j]) {
      return perWater;
    }
    ChargeCurve curve = curves[j];
    double z =
        switch (of) {
          case TYPICAL -> curve.chargeEqPerKg(state);
          case OF_MOST_CHARGE -> curve.greatestChargeEqPerKg(state);
          case OF_LEAST_CHARGE -> curve.leastChargeEqPerKg(state);
        };
    return z + curve.waterKgPerKg() * perWater;
  }

  /** What is added to every kilogram is a part of every material's row: the fractions sum to 1. */
  private double addedCharge(AqueousState state) {
    return titrant == null ? 0 : added * chargeInPlaceOfWater(titrant, state);
  }

  private static double chargeInPlaceOfWater(ChargeCurve titrant, AqueousState state) {
    return titrant.chargeEqPerKg(state)
        + (titrant.waterKgPerKg() - 1) * state.hydrogenLessHydroxide();
  }

  /**
   * What each column adds to the ions of the ionic strength in a state.
   *
   * @param high the greatest mass fractions; columns that cannot be used are not looked at
   */
  double[] ions(AqueousState state, double[] high) {
    double extra = addedIons(state);
    double[] all = new double[curves.length];
    for (int j = 0; j < all.length; j++) {
      all[j] = high[j] == 0 ? 0 : ions(j, state) + extra;
    }
    return all;
  }

  private double ions(double[] w, AqueousState state) {
    double extra = addedIons(state);
    double sum = 0;
    for (int j = 0; j < w.length; j++) {
      sum += w[j] == 0 ? 0 : w[j] * (ions(j, state) + extra);
    }
    return sum;
  }

  private double ions(int j, AqueousState state) {
    return asWater[j] ? 0 : curves[j].ionicStrengthMolPerKg(state);
  }

  private double addedIons(AqueousState state) {
    return titrant == null ? 0 : added * titrant.ionicStrengthMolPerKg(state);
  }

  /** The water each column counts for. */
  double[] water() {
    double extra = addedWater();
    double[] all = new double[curves.length];
    for (int j = 0; j < all.length; j++) {
      all[j] = water(j) + extra;
    }
    return all;
  }

  private double water(double[] w) {
    double extra = addedWater();
    double sum = 0;
    for (int j = 0; j < w.length; j++) {
      sum += w[j] == 0 ? 0 : w[j] * (water(j) + extra);
    }
    return Math.max(sum, LEAST_WATER);
  }

  private double water(int j) {
    return asWater[j] ? 1 : curves[j].waterKgPerKg();
  }

  private double addedWater() {
    return titrant == null ? 0 : added * (titrant.waterKgPerKg() - 1);
  }

  /** By how much a blend misses this end at its own ionic strength [pH], negative inside. */
  double miss(double[] w) {
    AqueousState state = state(w);
    return miss(w, state, slope(w, state));
  }

  /** The same, where the blend's state and the slope there are known. */
  double miss(double[] w, AqueousState state, double slope) {
    double z = charge(w, state);
    return (littleCharge ? z : -z) / slope;
  }

  /** How fast the charge of a blend falls with the pH [eq/kg per pH unit]. */
  double slope(double[] w, AqueousState state) {
    double step = 1e-4;
    AqueousState above = conditions.at(state.ph() + step, state.ionicStrength());
    return Math.max(1e-300, (charge(w, state) - charge(w, above)) / step);
  }

  /**
   * How much of a titrant, in place of water, brings a blend to a pH, typically and with the lots
   * that need least and most [% m/m as supplied].
   *
   * @param programme of a brief that asks for a final pH with this titrant
   * @param w the mass fractions of the blend
   * @param r the final pH
   */
  static Range percentToReach(Programme programme, double[] w, Requirement r) {
    double typical = percentToReach(programme, w, r, Lots.TYPICAL);
    double one = percentToReach(programme, w, r, Lots.OF_LEAST_CHARGE);
    double other = percentToReach(programme, w, r, Lots.OF_MOST_CHARGE);
    return Range.of(
        Math.min(typical, Math.min(one, other)), typical, Math.max(typical, Math.max(one, other)));
  }

  /** At a fixed pH a division, repeated until the ionic strength belongs to its result. */
  private static double percentToReach(Programme programme, double[] w, Requirement r, Lots lots) {
    double percent = 0;
    for (int pass = 0; pass < PASSES; pass++) {
      Requirement with =
          new Requirement(r.kind(), r.subject(), Double.NEGATIVE_INFINITY, percent, r.atPh());
      PhEnd end = programme.phEnd(new Bound(with, true));
      AqueousState state = end.state(w);
      ChargeCurve titrant = Objects.requireNonNull(end.titrant, "titrant");
      double perPercent = chargeInPlaceOfWater(titrant, state) / 100;
      double next = Math.max(0, percent - end.charge(w, state, lots) / perPercent);
      if (Math.abs(next - percent) <= 1e-10) {
        return next;
      }
      percent = next;
    }
    return percent;
  }
}
