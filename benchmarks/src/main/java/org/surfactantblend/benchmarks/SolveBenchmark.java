package org.surfactantblend.benchmarks;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.surfactantblend.Blends;
import org.surfactantblend.acidity.BlendCharge;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.io.Input;
import org.surfactantblend.io.MaterialFile;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.optimise.DualSimplex;
import org.surfactantblend.optimise.LpSolution;
import org.surfactantblend.optimise.SearchSettings;
import org.surfactantblend.optimise.SupportResult;
import org.surfactantblend.optimise.SupportSearch;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.solve.BlendResult;

/**
 * The main job through the public API: one solve with the loop on ionic strength, one starting pH.
 *
 * <p>The materials are the shipped surfactants, repeated with other prices where more are asked
 * for.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 4, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(1)
public class SolveBenchmark {
  /** How many surfactants there are to choose from. */
  @Param({"12", "60", "200"})
  public int materials;

  private MaterialTable table;
  private Brief plain;
  private Brief atMostThree;
  private Blend blend;
  private String csv;
  private KernelBrief kernel;
  private final DualSimplex simplex = new DualSimplex();
  private final SupportSearch search = new SupportSearch();

  /** Lays out table and briefs. */
  @Setup
  public void setUp() {
    MaterialTable shipped = Blends.starterTable();
    List<Material> surfactants =
        shipped.surfactants().stream()
            .filter(m -> m.chargeClass().orElseThrow() != ChargeClass.CATIONIC)
            .toList();
    List<Material> all = new ArrayList<>();
    Map<String, Double> prices = new LinkedHashMap<>();
    for (int i = 0; i < materials; i++) {
      Material m = surfactants.get((i * 7) % surfactants.size());
      String id = m.id() + "-no" + i;
      all.add(m.toBuilder().id(id).build());
      prices.put(id, 1 + (i * 37 % 101) / 20.0);
    }
    prices.put("water", 0.0);
    prices.put("glycerin", 1.5);
    table = shipped.with(all).priced(PriceList.of("cu", prices));
    Brief.Builder b =
        Brief.named("benchmark")
            .totalActive(10, 0.3)
            .share(ChargeClass.AMPHOTERIC, 25, 50)
            .share(ChargeClass.NONIONIC, 20, 60)
            .startingPh(6, 7.5)
            .salt(0, 1.5)
            .choosingFrom(all.stream().map(Material::id).toArray(String[]::new))
            .fixed("glycerin", 3)
            .withoutClashGuard("one programme, without pairs to keep apart")
            .cheapest();
    plain = b.build();
    atMostThree = b.atMostSurfactants(3).minimumUse(1).build();
    blend = Blends.solve(plain, table).orElseThrow();
    List<Material> columns = new ArrayList<>(all);
    columns.add(table.get("glycerin"));
    columns.add(table.get("water"));
    kernel =
        new KernelBrief(columns, columns.stream().mapToDouble(m -> prices.get(m.id())).toArray());
    double cost = kernelAtMostThree().choices().get(0).cost();
    double through =
        Blends.solve(atMostThree, table).orElseThrow().costPerKg(table.prices()).orElseThrow();
    if (Math.abs(cost - through) > 0.02 * through) {
      throw new IllegalStateException("kernel " + cost + ", public API " + through);
    }
    csv = MaterialFile.writeCsv(shipped.materials(), shipped);
  }

  /** One solve. */
  @Benchmark
  public BlendResult solve() {
    return Blends.solve(plain, table);
  }

  /** One solve with at most three surfactants of at least 1 % each. */
  @Benchmark
  public BlendResult solveAtMostThree() {
    return Blends.solve(atMostThree, table);
  }

  /** The kernel alone on {@link #solve()}, from plain arrays. */
  @Benchmark
  public LpSolution kernel() {
    return simplex.solve(kernel.load());
  }

  /** The kernel alone on {@link #solveAtMostThree()}, from plain arrays. */
  @Benchmark
  public SupportResult kernelAtMostThree() {
    return search.search(kernel.choose(3), SearchSettings.best(1));
  }

  /** The pH of a blend at typical figures, ionic strength included. */
  @Benchmark
  public double typicalPh() {
    return BlendCharge.of(blend, Conditions.standard()).ph();
  }

  /** The pH of a blend with both intervals and every line's swing. */
  @Benchmark
  public double startingPhWithIntervals() {
    return StartingPh.of(blend).guaranteed().low();
  }

  /** Reading the rows of the shipped table from CSV, with every check. */
  @Benchmark
  public Loaded<MaterialTable> readShippedRows() {
    return MaterialFile.readCsv(Input.text("materials.csv", csv), Blends.starterTable());
  }
}
