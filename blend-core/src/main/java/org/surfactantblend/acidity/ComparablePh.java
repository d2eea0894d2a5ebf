package org.surfactantblend.acidity;

import java.util.ArrayList;
import java.util.List;
import org.surfactantblend.acidity.BlendCharge.Addition;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.quantity.PhWindow;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/**
 * What a reading that was taken hot or in a dilution is worth in the neat product at 25 C, and what
 * a neat product would read in another state.
 *
 * <p>Free alkali dilutes: a drop of 1 unit for a tenfold dilution. A buffered product hardly moves.
 * Amines fall by 0.02 to 0.03 per degree; where the table gives no enthalpy for an amine in
 * micelles, 0.02 is taken and 0.03 is the end of the interval (an assumption from amines in water).
 * The meter's own temperature compensation is taken to be on.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param ph the pH
 * @param likely an interval of it: 0.05, three tenths of the shift by temperature and dilution, and
 *     what the amines leave open; without width where nothing is shifted. The meter's own error
 *     comes on top
 * @param advice what the figure is worth, without a full stop
 */
public record ComparablePh(double ph, PhWindow likely, List<String> advice) {
  private static final double AMINE_PER_DEGREE = 0.02;
  private static final double AMINE_AT_MOST_PER_DEGREE = 0.03;
  private static final double NEVER_BETTER = 0.05;
  private static final double SHARE_OF_SHIFT = 0.3;

  /**
   * Copies the list.
   *
   * @param ph the pH
   * @param likely an interval of it: what the shift by temperature and dilution leaves open,
   *     together with 0.1 where only dilution or temperature is involved at all
   * @param advice what the figure is worth, without a full stop
   */
  public ComparablePh {
    advice = List.copyOf(advice);
  }

  /**
   * What a reading is worth in the neat product at 25 C.
   *
   * @param blend the product
   * @param reading what was read
   * @return the comparable pH
   */
  public static ComparablePh of(Blend blend, PhReading reading) {
    return of(BlendCharge.of(blend, Conditions.standard()), blend, List.of(), reading);
  }

  /**
   * What a product that reads a pH neat at 25 C would read in another state.
   *
   * @param blend the product
   * @param neatPh its pH neat at 25 C, 0 to 14
   * @param temperatureC the other temperature [C], 0 to 60
   * @param dilutionPercent product in the sample [% m/m], 0.1 to 100
   * @return the pH in that state
   * @throws IllegalArgumentException if a figure is out of range
   */
  public static ComparablePh inOtherState(
      Blend blend, double neatPh, double temperatureC, double dilutionPercent) {
    PhReading from = PhReading.of(neatPh);
    PhReading to = new PhReading(7, temperatureC, dilutionPercent);
    BlendCharge charge = BlendCharge.of(blend, Conditions.standard());
    return shift(charge, blend, List.of(), from, to);
  }

  static ComparablePh of(
      BlendCharge charge, Blend blend, List<Addition> additions, PhReading reading) {
    return shift(charge, blend, additions, reading, PhReading.of(7));
  }

  private static ComparablePh shift(
      BlendCharge charge, Blend blend, List<Addition> additions, PhReading from, PhReading to) {
    double degrees = to.temperatureC() - from.temperatureC();
    double plain = read(charge, additions, from, to);
    double amine = amineShare(blend, plain);
    double likelier = plain - AMINE_PER_DEGREE * degrees * amine;
    double further = plain - AMINE_AT_MOST_PER_DEGREE * degrees * amine;
    double open = Math.abs(further - likelier) + SHARE_OF_SHIFT * Math.abs(likelier - from.ph());
    double half =
        degrees == 0 && from.dilutionPercent() == to.dilutionPercent() ? 0 : NEVER_BETTER + open;
    List<String> advice = new ArrayList<>();
    if (half > 0) {
      advice.add(
          "worth "
              + Text.fixed(likelier, 2)
              + " give or take "
              + Text.fixed(half, 2)
              + (half > 0.15 ? ": read again neat at 20 to 25 C before you dose on it" : ""));
    }
    if (amine > 0.05 && degrees != 0) {
      advice.add("amines carry part of its buffer: they fall by 0.02 to 0.03 per degree");
    }
    return new ComparablePh(
        clamp(likelier), PhWindow.of(clamp(likelier - half), clamp(likelier + half)), advice);
  }

  private static double clamp(double ph) {
    return Math.max(-2, Math.min(16, ph));
  }

  private static double read(
      BlendCharge charge, List<Addition> additions, PhReading from, PhReading to) {
    Conditions there = charge.conditions().withTemperature(from.temperatureC());
    double level = charge.chargeToRead(from.ph(), additions, water(from), there);
    return charge.phWith(
        additions, level, water(to), charge.conditions().withTemperature(to.temperatureC()));
  }

  private static double water(PhReading r) {
    return 100 / Require.inRange("dilution", r.dilutionPercent(), 0.1, 100, "% m/m") - 1;
  }

  /** The part of the buffer at a pH that sits in amines whose enthalpy is not known, 0 to 1. */
  private static double amineShare(Blend blend, double ph) {
    double amines = 0;
    double all = 1e-9;
    Conditions at = Conditions.standard();
    double p = Math.max(-1, Math.min(15, ph));
    for (BlendLine line : blend.lines()) {
      for (AcidBaseGroup g : line.material().groups()) {
        double buffer =
            line.massFraction()
                * g.amount().typical()
                * (at.meanCharge(g.acid(), p - 0.05, 0.1) - at.meanCharge(g.acid(), p + 0.05, 0.1));
        all += buffer;
        if (g.name().contains("amin")
            && !g.name().contains("oxide")
            && g.acid().steps().get(0).enthalpyKjPerMol() == 0) {
          amines += buffer;
        }
      }
    }
    return amines / all;
  }
}
