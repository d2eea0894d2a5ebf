package org.surfactantblend.examples;

import org.surfactantblend.Blends;
import org.surfactantblend.acidity.AcidDose;
import org.surfactantblend.acidity.AcidForm;
import org.surfactantblend.acidity.Meter;
import org.surfactantblend.acidity.ScaleUp;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.acidity.Titrant;
import org.surfactantblend.acidity.Titration;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.quantity.Mass;

/** The beaker reads too high: how much acid now, how much next, and how much for the big batch? */
public final class DoseToTarget {
  private DoseToTarget() {}

  /**
   * Brings a trial of an invented hand wash to pH 5.2 by its meter readings.
   *
   * @param args none
   */
  public static void main(String[] args) {
    MaterialTable table = Blends.starterTable();
    Blend wash =
        Blend.named("Linden hand wash")
            .line(table.get("cocamidopropyl-betaine-30"), 14.9) // % m/m as supplied
            .line(table.get("decyl-glucoside-52"), 8.7)
            .line(table.get("glycerin"), 3.0)
            .line(table.get("sodium-benzoate"), 0.5)
            .upToHundredWith(table.get("water"));
    System.out.println("start " + StartingPh.of(wash).likely() + " by the sheets alone");

    AcidDose dose =
        AcidDose.of(wash).to(5.2).with(Titrant.citricAcid(20)).forBatch(Mass.grams(400));
    Titration trial = dose.begin(Meter.accurateTo(0.05)).reading(7.6);
    System.out.print(trial.next());

    trial = trial.dosed(0.82).reading(5.97);
    System.out.print(trial.next());

    trial = trial.dosed(0.78).reading(5.27);
    System.out.print(trial.summary());

    System.out.print(ScaleUp.sameLots(trial, Mass.kilograms(20)).summary());
    System.out.print(AcidForm.of(wash, 5.2, 5.7).summary());
  }
}
