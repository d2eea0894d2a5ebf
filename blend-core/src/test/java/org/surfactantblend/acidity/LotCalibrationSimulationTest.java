package org.surfactantblend.acidity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.CertificateOfAnalysis;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.testing.RecheckedPh.Balance;
import org.surfactantblend.testing.RecheckedPh.Lot;
import org.surfactantblend.testing.RecheckedPh.Water;
import org.surfactantblend.testing.Shop;

/**
 * Lots drawn from the table's ranges are hidden, titrated, and then asked for the dose of a blend.
 * The truth comes from chemistry that shares no code with the library.
 */
class LotCalibrationSimulationTest {
  private static final Water WATER = Water.at25();
  private static final Meter METER = Meter.accurateTo(0.05);
  private static final Titrant CITRIC = Titrant.of(Shop.CITRIC);
  private static final Lot CITRIC_LOT = Lot.typical(Shop.CITRIC, WATER);
  private static final Lot PLAIN_WATER = Lot.typical(Shop.WATER, WATER);
  private static final double[] SAMPLE = {0.2, 0.8};
  private static final int LOTS = 40;
  private static final double TARGET = 5.5;

  private static Balance with(double[] fractions, List<Lot> lots, double citric) {
    double[] all = Arrays.copyOf(fractions, fractions.length + 1);
    all[fractions.length] = citric;
    List<Lot> more = new ArrayList<>(lots);
    more.add(CITRIC_LOT);
    return new Balance(WATER, all, more);
  }

  /** The true dose: a division, repeated until the ionic strength belongs to it [kg/kg]. */
  private static double trueDose(double[] fractions, List<Lot> lots, double target) {
    double dose = 0;
    for (int pass = 0; pass < 8; pass++) {
      Balance b = with(fractions, lots, dose);
      double ionic = b.ionicStrength(target);
      double one = with(fractions, lots, dose + 1).charge(target, ionic) - b.charge(target, ionic);
      dose -= b.charge(target, ionic) / one;
    }
    return dose;
  }

  /** Equal doses down to about pH 5.4, read with the meter's error before and after each. */
  private static Titration titrated(Material grade, Lot hidden, int readings, Random error) {
    Blend sample = Blend.named("20 g in water").line(grade, 20).upToHundredWith(Shop.WATER);
    List<Lot> lots = List.of(hidden, PLAIN_WATER);
    double each = trueDose(SAMPLE, lots, TARGET - 0.1) / (readings - 1);
    Titration t =
        AcidDose.of(sample).to(TARGET).with(CITRIC).forBatch(Mass.grams(100)).begin(METER);
    for (int i = 0; i < readings; i++) {
      double ph = with(SAMPLE, lots, each * i).ph() + METER.accuracy() * error.nextGaussian();
      t = (i == 0 ? t : t.dosed(each * 100)).reading(ph);
    }
    return t;
  }

  private record Outcome(double sheetPh, double lotPh, double sheetWidth, double lotWidth, int in) {
    String row(String name, int readings) {
      return String.format(
          Locale.ROOT,
          "%-28s %d   %.3f   %.3f    %6.2f   %5.2f    %d of %d",
          name,
          readings,
          sheetPh,
          lotPh,
          sheetWidth,
          lotWidth,
          in,
          LOTS);
    }
  }

  /** Doses a wash of the hidden lot by its grade's sheet and by its certificate. */
  private static Outcome outcome(String id, int readings) {
    Material grade = TestTable.get(id);
    Material betaine = TestTable.get("cocamidopropyl-betaine-30");
    Material benzoate = TestTable.get("sodium-benzoate");
    double[] fractions = {0.12, 0.12, 0.005, 0.755};
    double bySheet = 0;
    double byLot = 0;
    double sheetWidth = 0;
    double lotWidth = 0;
    int in = 0;
    for (int seed = 0; seed < LOTS; seed++) {
      Random random = new Random(seed);
      Lot hidden = Lot.drawn(grade, WATER, Lot.triangular(random), Double.NaN);
      List<Lot> lots =
          List.of(hidden, Lot.typical(betaine, WATER), Lot.typical(benzoate, WATER), PLAIN_WATER);
      LotCalibration c = LotCalibration.of(titrated(grade, hidden, readings, random));
      assertEquals(readings, c.readings());
      CertificateOfAnalysis certificate = c.certificate("L-" + seed).build();
      AcidDose sheet = dose(grade, betaine, benzoate);
      AcidDose lot = dose(certificate.appliedTo(grade).orElseThrow(), betaine, benzoate);
      bySheet += square(with(fractions, lots, sheet.total().inKilograms()).ph() - TARGET);
      byLot += square(with(fractions, lots, lot.total().inKilograms()).ph() - TARGET);
      sheetWidth += sheet.likelyGrams().width() / LOTS;
      lotWidth += lot.likelyGrams().width() / LOTS;
      double truth = trueDose(fractions, lots, TARGET) * 1000;
      in += lot.guaranteedGrams().contains(truth) ? 1 : 0;
    }
    return new Outcome(
        Math.sqrt(bySheet / LOTS), Math.sqrt(byLot / LOTS), sheetWidth, lotWidth, in);
  }

  private static double square(double x) {
    return x * x;
  }

  private static AcidDose dose(Material lot, Material betaine, Material benzoate) {
    Blend b =
        Blend.named("wash")
            .line(lot, 12)
            .line(betaine, 12)
            .line(benzoate, 0.5)
            .upToHundredWith(Shop.WATER);
    return AcidDose.of(b).to(TARGET).with(CITRIC).forBatch(Mass.kilograms(1));
  }

  @Test
  void aTitratedLotForeseesTheDoseOfItsBlend() {
    StringBuilder table =
        new StringBuilder(
            "rms pH after the whole dose, mean width of the likely dose [g/kg], dose in range\n"
                + "lot                   readings   sheet   lot     sheet    lot      in range\n");
    for (String id :
        List.of(
            "decyl-glucoside-52", "sodium-cocoamphoacetate-32", "disodium-cocoyl-glutamate-27")) {
      for (int readings : new int[] {2, 4}) {
        Outcome o = outcome(id, readings);
        table.append(o.row(id, readings)).append('\n');
        // The meter reads to 0.05: nothing learned from it can do much better.
        assertTrue(o.lotPh() < 0.075 && o.lotPh() < 0.4 * o.sheetPh(), table::toString);
        assertTrue(o.lotWidth() < 0.5 * o.sheetWidth(), table::toString);
        assertTrue(o.in() >= 0.9 * LOTS, table::toString);
      }
    }
    System.out.println(table);
  }
}
