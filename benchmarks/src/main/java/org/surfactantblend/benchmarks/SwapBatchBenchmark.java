package org.surfactantblend.benchmarks;

import java.util.List;
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
import org.surfactantblend.batch.AsWeighed;
import org.surfactantblend.batch.BatchSheet;
import org.surfactantblend.batch.Correction;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.material.CertificateOfAnalysis;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Scale;
import org.surfactantblend.solve.BlendResult;
import org.surfactantblend.swap.SupplierSwap;
import org.surfactantblend.swap.SwapReport;

/**
 * Another drum and a real batch: a swap report with pH, acid dose, cost and every verdict; a sheet
 * of twelve lines; a correction; the same brief for typical lots and for every lot.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 4, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class SwapBatchBenchmark {
  private MaterialTable table;
  private Blend blend;
  private SupplierSwap swap;
  private List<Scale> scales;
  private AsWeighed faulty;
  private Brief typical;
  private Brief everyLot;

  /** Lays out a shampoo of twelve lines and two briefs. */
  @Setup
  public void setUp() {
    table = Blends.starterTable().priced(Blends.demoPrices());
    blend =
        Blend.named("shampoo of twelve lines")
            .line(table.get("sodium-laureth-sulfate-27"), 25)
            .line(table.get("cocamidopropyl-betaine-30"), 12)
            .line(table.get("decyl-glucoside-52"), 5)
            .line(table.get("disodium-cocoyl-glutamate-27"), 4)
            .line(table.get("glycerin"), 2)
            .line(table.get("tetrasodium-glutamate-diacetate-38"), 0.2)
            .line(table.get("sodium-benzoate"), 0.45)
            .line(table.get("potassium-sorbate"), 0.25)
            .line(table.get("oat-extract-glycerin-60"), 1)
            .line(table.get("sodium-chloride"), 1)
            .line(table.get("citric-acid-20"), 1)
            .upToHundredWith(table.get("water"));
    Material lot =
        CertificateOfAnalysis.ofLot("B-12")
            .activePercent(30.6)
            .saltPercent(5.1)
            .ph(5.2, 10)
            .build()
            .appliedTo(table.get("cocamidopropyl-betaine-30"))
            .orElseThrow();
    swap =
        SupplierSwap.in(blend)
            .priced(table.prices())
            .correctedWith(table.get("citric-acid-20"), 5.2)
            .replace("cocamidopropyl-betaine-30")
            .with(lot)
            .holdingSalt("sodium-chloride");
    scales = List.of(Scale.of(0.01, 200), Scale.of(0.1, 2000), Scale.of(1, 30000));
    faulty =
        AsWeighed.of(BatchSheet.of(blend).mass(Mass.kilograms(5)).on(scales)).missed("glycerin");
    Brief.Builder b =
        Brief.named("benchmark")
            .totalActive(10, 0.8)
            .share(ChargeClass.AMPHOTERIC, 20, 45)
            .salt(0, 1.2)
            .startingPh(4.0, 8.5)
            .choosingFrom(
                "sodium-laureth-sulfate-27",
                "sodium-laureth-sulfate-70",
                "cocamidopropyl-betaine-30",
                "cocamidopropyl-betaine-37",
                "decyl-glucoside-52-neutralised",
                "caprylyl-capryl-glucoside-60")
            .cheapest();
    typical = b.build();
    everyLot = typical.toBuilder().everyLotWithinSpecification().build();
    solveTypical().orElseThrow();
    solveEveryLot().orElseThrow();
  }

  /** A swap with everything that it reports, curves of both lots known. */
  @Benchmark
  public SwapReport swapReport() {
    return swap.report();
  }

  /** A sheet of twelve lines on three scales. */
  @Benchmark
  public BatchSheet batchSheet() {
    return BatchSheet.of(blend).mass(Mass.kilograms(5)).on(scales);
  }

  /** The same with the rounding that keeps the total. */
  @Benchmark
  public BatchSheet batchSheetKeepingTotal() {
    return BatchSheet.of(blend).mass(Mass.kilograms(5)).keepingTotal().on(scales);
  }

  /** The additions for a line that was left out. */
  @Benchmark
  public Correction correction() {
    return faulty.correction();
  }

  /** The brief for typical lots. */
  @Benchmark
  public BlendResult solveTypical() {
    return Blends.solve(typical, table);
  }

  /** The same brief for every lot. */
  @Benchmark
  public BlendResult solveEveryLot() {
    return Blends.solve(everyLot, table);
  }
}
