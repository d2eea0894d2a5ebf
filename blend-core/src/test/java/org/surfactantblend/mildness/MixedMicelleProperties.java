package org.surfactantblend.mildness;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;

/** Laws of mixed micelles, whatever the surfactants. */
class MixedMicelleProperties {
  private static final String TEST = "drawn";

  /** CMCs [mmol/L], amounts [mol, any size] and a symmetric matrix of parameters. */
  static final class Mixture {
    private final double[] cmc;
    private final double[] amounts;
    private final double[][] beta;

    Mixture(double[] cmc, double[] amounts, double[][] beta) {
      this.cmc = cmc;
      this.amounts = amounts;
      this.beta = beta;
    }

    double[] cmc() {
      return cmc;
    }

    double[] amounts() {
      return amounts;
    }

    double[][] beta() {
      return beta;
    }

    @Override
    public String toString() {
      return "CMC "
          + Arrays.toString(cmc)
          + ", amounts "
          + Arrays.toString(amounts)
          + ", beta "
          + Arrays.deepToString(beta);
    }

    int n() {
      return cmc.length;
    }

    MixedMicelleModel model() {
      List<MicelleComponent> components = new ArrayList<>();
      InteractionTable table = InteractionTable.EMPTY;
      for (int i = 0; i < n(); i++) {
        components.add(MicelleComponent.pure("s" + i, cmc[i], HeadGroup.SUGAR));
        for (int j = 0; j < i; j++) {
          table = table.with("s" + i, "s" + j, Interaction.constant(beta[i][j], TEST));
        }
      }
      return MixedMicelleModel.regular(components, table);
    }

    double[] fractions() {
      double sum = 0;
      for (double amount : amounts) {
        sum += amount;
      }
      double[] fractions = new double[n()];
      for (int i = 0; i < n(); i++) {
        fractions[i] = amounts[i] / sum;
      }
      return fractions;
    }

    double[] at(double total) {
      double[] concentrations = fractions();
      for (int i = 0; i < n(); i++) {
        concentrations[i] *= total;
      }
      return concentrations;
    }

    /** ln f_i in the pairwise form that Holland and Rubingh print. */
    double lnActivity(int i, double[] x) {
      double sum = 0;
      for (int j = 0; j < n(); j++) {
        sum += beta[i][j] * x[j] * x[j];
        for (int k = 0; k < j; k++) {
          if (j != i && k != i) {
            sum += (beta[i][j] + beta[i][k] - beta[j][k]) * x[j] * x[k];
          }
        }
      }
      return sum;
    }

    /** The free energy whose least value is the logarithm of the mixture CMC. */
    double freeEnergyAtCmc(double[] x) {
      double[] alpha = fractions();
      double sum = 0;
      for (int i = 0; i < n(); i++) {
        sum += x[i] * Math.log(x[i] * cmc[i] / alpha[i]);
        for (int j = 0; j < i; j++) {
          sum += beta[i][j] * x[i] * x[j];
        }
      }
      return sum;
    }

    /** What a trace of micelles of another composition, made of the monomers, would change. */
    double gainOfAnotherMicelle(MixedMicelle state, double[] x) {
      double sum = 0;
      for (int i = 0; i < n(); i++) {
        sum += x[i] * Math.log(x[i] * cmc[i] / state.monomerMmolPerL(i));
        for (int j = 0; j < i; j++) {
          sum += beta[i][j] * x[i] * x[j];
        }
      }
      return sum;
    }

    /** The free energy of monomers and micelles, for micellised amounts. */
    double freeEnergy(double[] total, double[] micellised) {
      double m = 0;
      for (double amount : micellised) {
        m += amount;
      }
      double sum = 0;
      for (int i = 0; i < n(); i++) {
        double free = total[i] - micellised[i];
        sum += free * (Math.log(free / cmc[i]) - 1) + micellised[i] * Math.log(micellised[i] / m);
        for (int j = 0; j < i; j++) {
          sum += beta[i][j] * micellised[i] * micellised[j] / m;
        }
      }
      return sum;
    }
  }

  @Provide
  Arbitrary<Mixture> attractive() {
    return mixtures(-14, 0);
  }

  @Provide
  Arbitrary<Mixture> any() {
    return mixtures(-14, 4);
  }

  private static Arbitrary<Mixture> mixtures(double lowest, double highest) {
    return Arbitraries.integers()
        .between(2, 5)
        .flatMap(
            n ->
                Combinators.combine(
                        logarithms(-4.6, 4.6).list().ofSize(n),
                        logarithms(-6.9, 0).list().ofSize(n),
                        Arbitraries.doubles()
                            .between(lowest, highest)
                            .list()
                            .ofSize(n * (n - 1) / 2))
                    .as(MixedMicelleProperties::mixture));
  }

  private static Arbitrary<Double> logarithms(double from, double to) {
    return Arbitraries.doubles().between(from, to).ofScale(6);
  }

  private static Mixture mixture(List<Double> lnCmc, List<Double> lnAmount, List<Double> betas) {
    int n = lnCmc.size();
    double[] cmc = new double[n];
    double[] amounts = new double[n];
    double[][] beta = new double[n][n];
    int next = 0;
    for (int i = 0; i < n; i++) {
      cmc[i] = Math.exp(lnCmc.get(i));
      amounts[i] = Math.exp(lnAmount.get(i));
      for (int j = 0; j < i; j++) {
        beta[i][j] = betas.get(next++) + 0.0;
        beta[j][i] = beta[i][j];
      }
    }
    return new Mixture(cmc, amounts, beta);
  }

  @Property(tries = 1000, seed = "4711")
  void attractionNeverRaisesTheCmc(@ForAll("attractive") Mixture mixture) {
    MixedMicelle state = mixture.model().atCmc(mixture.amounts());
    double largest = 0;
    for (double cmc : mixture.cmc()) {
      largest = Math.max(largest, cmc);
    }
    double cmc = state.mixtureCmcMmolPerL();
    assertTrue(cmc <= largest * (1 + 1e-12), () -> cmc + " above every pure CMC");
    assertTrue(cmc <= state.idealCmcMmolPerL() * (1 + 1e-12), () -> cmc + " above the ideal one");
  }

  @Property(tries = 500, seed = "4712")
  void strongerAttractionLowersTheCmc(
      @ForAll("any") Mixture mixture, @ForAll @DoubleRange(min = 0.01, max = 5) double more) {
    double before = mixture.model().atCmc(mixture.amounts()).mixtureCmcMmolPerL();
    double[][] beta = new double[mixture.n()][mixture.n()];
    for (int i = 0; i < mixture.n(); i++) {
      for (int j = 0; j < mixture.n(); j++) {
        beta[i][j] = i == j ? 0 : mixture.beta()[i][j] - more;
      }
    }
    Mixture stronger = new Mixture(mixture.cmc(), mixture.amounts(), beta);
    double after = stronger.model().atCmc(mixture.amounts()).mixtureCmcMmolPerL();
    assertTrue(after <= before * (1 + 1e-12), () -> before + " then " + after);
  }

  @Property(tries = 1000, seed = "4713")
  void theEquationsHoldAtTheCmc(@ForAll("any") Mixture mixture) {
    MixedMicelle state = mixture.model().atCmc(mixture.amounts());
    double[] x = micelle(state, mixture.n());
    double[] alpha = mixture.fractions();
    double sum = 0;
    for (int i = 0; i < mixture.n(); i++) {
      double f = Math.exp(mixture.lnActivity(i, x));
      double left = alpha[i] * state.mixtureCmcMmolPerL();
      assertEquals(left, x[i] * f * mixture.cmc()[i], 1e-9 * left, "surfactant " + i);
      assertEquals(f, state.activityCoefficient(i), 1e-9 * f);
      sum += x[i];
    }
    assertEquals(1, sum, 1e-12);
  }

  @Property(tries = 1000, seed = "4714")
  void theEquationsAndTheMassBalanceHoldAboveTheCmc(
      @ForAll("any") Mixture mixture, @ForAll @DoubleRange(min = 0, max = 7) double lnFold) {
    double cmc = mixture.model().atCmc(mixture.amounts()).mixtureCmcMmolPerL();
    double total = cmc * Math.exp(lnFold);
    MixedMicelle state = mixture.model().at(mixture.at(total));
    double[] x = micelle(state, mixture.n());
    double free = 0;
    for (int i = 0; i < mixture.n(); i++) {
      double monomer = state.monomerMmolPerL(i);
      free += monomer;
      double here = mixture.at(total)[i];
      assertEquals(here, x[i] * state.micellisedMmolPerL() + monomer, 1e-9 * total, "balance " + i);
      if (state.micellisedMmolPerL() > 0) {
        double f = Math.exp(mixture.lnActivity(i, x));
        assertEquals(monomer, x[i] * f * mixture.cmc()[i], 1e-9 * monomer, "equation " + i);
      }
    }
    assertEquals(total, state.micellisedMmolPerL() + free, 1e-9 * total);
  }

  @Property(tries = 1000, seed = "4715")
  void theFirstMicelleHasTheLeastFreeEnergy(
      @ForAll("any") Mixture mixture, @ForAll @LongRange(min = 0, max = 1_000_000) long seed) {
    MixedMicelle state = mixture.model().atCmc(mixture.amounts());
    double least = Math.log(state.mixtureCmcMmolPerL());
    assertEquals(least, mixture.freeEnergyAtCmc(micelle(state, mixture.n())), 1e-9);
    Random random = new Random(seed);
    for (int trial = 0; trial < 60; trial++) {
      double[] other = randomComposition(mixture.n(), random);
      double energy = mixture.freeEnergyAtCmc(other);
      assertTrue(energy >= least - 1e-9, () -> energy + " below " + least);
    }
  }

  @Property(tries = 1000, seed = "4716")
  void aboveTheCmcTheStateIsAMinimumOrWarns(
      @ForAll("any") Mixture mixture,
      @ForAll @DoubleRange(min = 0.05, max = 7) double lnFold,
      @ForAll @LongRange(min = 0, max = 1_000_000) long seed) {
    MixedMicelleModel model = mixture.model();
    double cmc = model.atCmc(mixture.amounts()).mixtureCmcMmolPerL();
    double[] total = mixture.at(cmc * Math.exp(lnFold));
    MixedMicelle state = model.at(total);
    double[] micellised = new double[mixture.n()];
    for (int i = 0; i < mixture.n(); i++) {
      micellised[i] = total[i] - state.monomerMmolPerL(i);
    }
    double least = mixture.freeEnergy(total, micellised);
    double[] other = new double[mixture.n()];
    Random random = new Random(seed);
    boolean beaten = false;
    for (int trial = 0; trial < 100; trial++) {
      double[] shares = randomComposition(mixture.n(), random);
      double part = random.nextDouble();
      boolean near = trial % 2 == 0;
      for (int i = 0; i < mixture.n(); i++) {
        double nearby = micellised[i] * (1 + 0.02 * (random.nextDouble() - 0.5));
        double anywhere = total[i] * (1 - part * shares[i]);
        other[i] = Math.min(near ? nearby : anywhere, total[i] * (1 - 1e-12));
      }
      beaten |= mixture.freeEnergy(total, other) < least - 1e-9 * cmc;
      beaten |= mixture.gainOfAnotherMicelle(state, shares) < -1e-9;
    }
    assertTrue(
        !beaten || state.caveats().contains(MicelleCaveat.DEMIXING), "lower state, no warning");
  }

  @Property(tries = 500, seed = "4717")
  void twoNamesOfOneSurfactantAreOne(
      @ForAll("any") Mixture mixture,
      @ForAll @DoubleRange(min = 0.01, max = 0.99) double part,
      @ForAll @DoubleRange(min = 0.1, max = 6) double lnFold) {
    Mixture split = splitLast(mixture, part);
    MixedMicelle one = mixture.model().atCmc(mixture.amounts());
    MixedMicelle two = split.model().atCmc(split.amounts());
    assertEquals(
        one.mixtureCmcMmolPerL(), two.mixtureCmcMmolPerL(), 1e-9 * one.mixtureCmcMmolPerL());
    if (one.caveats().contains(MicelleCaveat.DEMIXING)) {
      return; // with two kinds of micelle, which one is reported above the CMC is not defined
    }
    double total = one.mixtureCmcMmolPerL() * Math.exp(lnFold);
    MixedMicelle oneAbove = mixture.model().at(mixture.at(total));
    MixedMicelle twoAbove = split.model().at(split.at(total));
    int last = mixture.n() - 1;
    for (int i = 0; i < last; i++) {
      assertEquals(oneAbove.monomerMmolPerL(i), twoAbove.monomerMmolPerL(i), 1e-9 * total);
    }
    assertEquals(
        oneAbove.monomerMmolPerL(last),
        twoAbove.monomerMmolPerL(last) + twoAbove.monomerMmolPerL(last + 1),
        1e-9 * total);
  }

  @Property(tries = 500, seed = "4718")
  void withoutInteractionItIsIdealMixing(@ForAll("any") Mixture mixture) {
    double[][] zero = new double[mixture.n()][mixture.n()];
    MixedMicelle state =
        new Mixture(mixture.cmc(), mixture.amounts(), zero).model().atCmc(mixture.amounts());
    double inverse = 0;
    for (int i = 0; i < mixture.n(); i++) {
      inverse += mixture.fractions()[i] / mixture.cmc()[i];
    }
    assertEquals(1 / inverse, state.mixtureCmcMmolPerL(), 1e-12 / inverse);
    for (int i = 0; i < mixture.n(); i++) {
      assertEquals(
          mixture.fractions()[i] / mixture.cmc()[i] / inverse, state.micelleFraction(i), 1e-12);
    }
  }

  @Property(tries = 300, seed = "4719")
  void theParameterComesBackFromTheMixtureCmc(
      @ForAll @DoubleRange(min = -25, max = 3) double beta,
      @ForAll @DoubleRange(min = 0.02, max = 0.98) double alpha,
      @ForAll @DoubleRange(min = -4, max = 4) double lnRatio) {
    Mixture mixture =
        new Mixture(
            new double[] {1, Math.exp(lnRatio)},
            new double[] {alpha, 1 - alpha},
            new double[][] {{0, beta + 0.0}, {beta + 0.0, 0}});
    MixedMicelleModel model = mixture.model();
    MixedMicelle state = model.atCmc(mixture.amounts());
    InteractionEstimate back =
        InteractionEstimate.of(
            model.components().get(0),
            model.components().get(1),
            alpha,
            state.mixtureCmcMmolPerL());
    double x = state.micelleFraction(0);
    double allowed = 1e-9 + 1e-11 / (x * (1 - x));
    if (back.beta().isEmpty()) {
      assertTrue(x * (1 - x) < 1e-7, "not determinable although the micelle is mixed");
    } else {
      assertEquals(beta, back.beta().getAsDouble(), allowed);
    }
  }

  @Property(tries = 300, seed = "4720")
  void micellesGrowWithConcentration(
      @ForAll("attractive") Mixture mixture, @ForAll @IntRange(min = 1, max = 60) int step) {
    MixedMicelleModel model = mixture.model();
    double cmc = model.atCmc(mixture.amounts()).mixtureCmcMmolPerL();
    double less = cmc * Math.pow(1.1, step - 10);
    double more = less * 1.1;
    double before = model.at(mixture.at(less)).micellisedMmolPerL();
    double after = model.at(mixture.at(more)).micellisedMmolPerL();
    assertTrue(after >= before, () -> before + " then " + after);
    assertEquals(less > cmc * (1 + 1e-6), before > 0, "micelles from the CMC upward");
  }

  private static Mixture splitLast(Mixture mixture, double part) {
    int n = mixture.n();
    double[] cmc = new double[n + 1];
    double[] amounts = new double[n + 1];
    double[][] beta = new double[n + 1][n + 1];
    for (int i = 0; i <= n; i++) {
      int from = Math.min(i, n - 1);
      cmc[i] = mixture.cmc()[from];
      amounts[i] = mixture.amounts()[from];
      for (int j = 0; j <= n; j++) {
        beta[i][j] = mixture.beta()[from][Math.min(j, n - 1)];
      }
    }
    amounts[n - 1] *= part;
    amounts[n] *= 1 - part;
    return new Mixture(cmc, amounts, beta);
  }

  private static double[] micelle(MixedMicelle state, int n) {
    double[] x = new double[n];
    for (int i = 0; i < n; i++) {
      x[i] = state.micelleFraction(i);
    }
    return x;
  }

  private static double[] randomComposition(int n, Random random) {
    double[] x = new double[n];
    double sum = 0;
    double corner = 1 + 4 * random.nextDouble();
    for (int i = 0; i < n; i++) {
      x[i] = Math.pow(-Math.log(1 - random.nextDouble()), corner) + 1e-9;
      sum += x[i];
    }
    for (int i = 0; i < n; i++) {
      x[i] /= sum;
    }
    return x;
  }
}
