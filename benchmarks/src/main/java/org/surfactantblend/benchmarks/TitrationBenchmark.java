package org.surfactantblend.benchmarks;

import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.surfactantblend.Blends;
import org.surfactantblend.acidity.AcidDose;
import org.surfactantblend.acidity.Meter;
import org.surfactantblend.acidity.NextDose;
import org.surfactantblend.acidity.Titrant;
import org.surfactantblend.acidity.Titration;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.quantity.Mass;

/** A titration at the bench, two doses and three readings in: what it costs to go on. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 4, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class TitrationBenchmark {
  private AcidDose dose;
  private Meter meter;
  private Titration read;
  private Titration dosed;

  /** Lays out a betaine and glutamate product of the shipped table with a preservative. */
  @Setup
  public void setUp() {
    MaterialTable table = Blends.starterTable();
    Blend blend =
        Blend.named("face wash")
            .line(table.get("disodium-cocoyl-glutamate-27"), 12)
            .line(table.get("cocamidopropyl-betaine-30"), 12)
            .line(table.get("sodium-benzoate"), 0.5)
            .upToHundredWith(table.get("water"));
    meter = Meter.accurateTo(0.05);
    dose = AcidDose.of(blend).to(5.3).with(Titrant.citricAcid(20)).forBatch(Mass.grams(500));
    read = dose.begin(meter).reading(7.1).dosed(5).reading(6.3).dosed(2).reading(6.02);
    if (read.next().action() != NextDose.Action.DOSE) {
      throw new IllegalStateException(read.summary());
    }
    dosed = read.dosed(3);
  }

  /** The next dose with its expected reading, intervals and reason. */
  @Benchmark
  public NextDose next() {
    return read.next();
  }

  /** One more reading: judged, learned from. */
  @Benchmark
  public Titration reading() {
    return dosed.reading(5.6);
  }

  /** A titration without readings: the prior over the whole curve. */
  @Benchmark
  public Titration begin() {
    return dose.begin(meter);
  }
}
