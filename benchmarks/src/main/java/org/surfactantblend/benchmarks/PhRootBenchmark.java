package org.surfactantblend.benchmarks;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.aqueous.ChargeBalance;
import org.surfactantblend.aqueous.Conditions;

/**
 * The pH of a liquid with ten weak groups: the library's root, a Halley iteration tuned by hand on
 * bare arrays, and the Brent solver of Commons Math on the library's own net charge.
 *
 * <p>Every method solves the same {@value #LIQUIDS} liquids, whose strong ions put the pH anywhere
 * from 1.7 to 12.2, and starts without knowing the answer. The figure is the time of one root;
 * compare medians, which other load on the machine moves least.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(2)
public class PhRootBenchmark {
  private static final int LIQUIDS = 256;
  private static final int GROUPS = 10;
  private static final double IONIC_STRENGTH = 0.1;
  private static final double LN_10 = Math.log(10);

  private final ChargeBalance[] balances = new ChargeBalance[LIQUIDS];
  private final double[][] constants = new double[LIQUIDS][GROUPS];
  private final double[][] amounts = new double[LIQUIDS][GROUPS];
  private final double[] charges = new double[LIQUIDS];
  private double protonWeight;
  private double hydroxideWeight;

  /** Makes the liquids and checks that the three methods agree on them. */
  @Setup
  public void makeLiquids() {
    SplittableRandom random = new SplittableRandom(20261125);
    Conditions conditions = Conditions.standard();
    protonWeight = conditions.h(7, IONIC_STRENGTH) * 1e7;
    hydroxideWeight = conditions.oh(7, IONIC_STRENGTH) * 1e-7;
    for (int i = 0; i < LIQUIDS; i++) {
      ChargeBalance.Builder builder = ChargeBalance.at(conditions, IONIC_STRENGTH);
      List<AcidBase> groups = new ArrayList<>();
      double protonated = 0;
      for (int g = 0; g < GROUPS; g++) {
        boolean base = random.nextInt(3) == 0;
        double pKa = 2 + 9 * random.nextDouble();
        AcidBase group = base ? AcidBase.base("group " + g, pKa) : AcidBase.acid("group " + g, pKa);
        groups.add(group);
        amounts[i][g] = Math.pow(10, -4 + 3 * random.nextDouble());
        builder.add(group, amounts[i][g]);
        protonated += base ? amounts[i][g] : 0;
        // At pH pKa the group's own ratio is 1 but for the activity term.
        double[] share = conditions.fractions(group, pKa, IONIC_STRENGTH);
        constants[i][g] = share[1] / share[0] * Math.pow(10, -pKa);
      }
      double total = 0;
      for (double amount : amounts[i]) {
        total += amount;
      }
      double strong = -protonated + total * (1.2 * random.nextDouble() - 0.1);
      charges[i] = strong + protonated;
      balances[i] = builder.strongCharge(strong).build();
      double own = balances[i].ph();
      check(own, bare(constants[i], amounts[i], charges[i], protonWeight, hydroxideWeight));
      check(own, brent(balances[i]));
    }
  }

  private static void check(double own, double other) {
    if (!(Math.abs(own - other) < 1e-9)) {
      throw new IllegalStateException(own + " and " + other);
    }
  }

  /** The library's own root. */
  @Benchmark
  @OperationsPerInvocation(LIQUIDS)
  public double library() {
    double sum = 0;
    for (ChargeBalance balance : balances) {
      sum += balance.ph();
    }
    return sum;
  }

  /** Halley's iteration without objects, checks or a proven bracket. */
  @Benchmark
  @OperationsPerInvocation(LIQUIDS)
  public double handTunedHalley() {
    double sum = 0;
    for (int i = 0; i < LIQUIDS; i++) {
      sum += bare(constants[i], amounts[i], charges[i], protonWeight, hydroxideWeight);
    }
    return sum;
  }

  /** Brent's solver of Commons Math on the library's net charge. */
  @Benchmark
  @OperationsPerInvocation(LIQUIDS)
  public double commonsMathBrent() {
    double sum = 0;
    for (ChargeBalance balance : balances) {
      sum += brent(balance);
    }
    return sum;
  }

  private static double brent(ChargeBalance balance) {
    return new BrentSolver(1e-11).solve(200, balance::netCharge, -2, 16);
  }

  private static double bare(double[] k, double[] n, double charge, double hw, double ow) {
    double x = -7 * LN_10;
    while (true) {
      double h = Math.exp(x);
      double acidity = hw * h;
      double alkalinity = ow / h;
      double f = charge + acidity - alkalinity;
      double first = acidity + alkalinity;
      double second = acidity - alkalinity;
      for (int i = 0; i < k.length; i++) {
        double a = k[i] / (k[i] + h);
        double na = n[i] * a;
        double slope = na * (1 - a);
        f -= na;
        first += slope;
        second += slope * (2 * a - 1);
      }
      double curvature = 2 * first * first - f * second;
      double step = curvature > 0 ? -2 * f * first / curvature : -f / first;
      step = Math.max(-4, Math.min(4, step));
      x += step;
      if (Math.abs(step) < 3e-5) {
        return -x / LN_10;
      }
    }
  }
}
