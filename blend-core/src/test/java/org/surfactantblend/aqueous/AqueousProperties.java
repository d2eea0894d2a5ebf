package org.surfactantblend.aqueous;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import org.apache.commons.math3.analysis.solvers.BrentSolver;

class AqueousProperties {
  /** What a made-up solution holds; the strong-ion difference is sodium or chloride alone. */
  record Mixture(List<Solution.WeakSystem> weak, double strongCharge) {
    Solution solution() {
      Solution bare = Solution.of(List.of(), weak);
      return strongCharge >= 0
          ? bare.strongIon("Na+", 1, strongCharge)
          : bare.strongIon("Cl-", -1, -strongCharge);
    }

    Mixture withStrongCharge(double charge) {
      return new Mixture(weak, charge);
    }
  }

  @Provide
  Arbitrary<AcidBase> acids() {
    Arbitrary<List<AcidBase.Step>> steps =
        Arbitraries.doubles()
            .between(0, 14)
            .list()
            .ofMinSize(1)
            .ofMaxSize(4)
            .map(pKa -> pKa.stream().sorted().map(AcidBase.Step::of).toList());
    return Combinators.combine(
            Arbitraries.integers().between(-1, 2), steps, Arbitraries.of(true, false))
        .as(
            (charge, s, apparent) -> {
              AcidBase acid = AcidBase.of("acid", charge, s);
              return apparent ? acid.asApparent() : acid;
            });
  }

  @Provide
  Arbitrary<Mixture> mixtures() {
    Arbitrary<Double> amounts = Arbitraries.doubles().between(-5, -1).map(e -> Math.pow(10, e));
    Arbitrary<List<Solution.WeakSystem>> weak =
        Combinators.combine(acids(), amounts).as(Solution.WeakSystem::new).list().ofMaxSize(6);
    Arbitrary<Double> strong =
        Combinators.combine(amounts, Arbitraries.of(-1.0, 1.0)).as((n, sign) -> n * sign);
    return Combinators.combine(weak, strong).as(Mixture::new);
  }

  @Property(tries = 1000, seed = "11")
  void netChargeFallsWithPh(
      @ForAll("mixtures") Mixture mixture,
      @ForAll @DoubleRange(min = -2, max = 15.9) double ph,
      @ForAll @DoubleRange(min = 0, max = 0.6) double ionicStrength) {
    ChargeBalance balance = mixture.solution().balance(Conditions.standard(), ionicStrength);
    assertTrue(balance.netCharge(ph) > balance.netCharge(ph + 0.1));
    double slope =
        (balance.netCharge(ph + 1e-4) - balance.netCharge(ph - Math.min(1e-4, ph + 2)))
            / (1e-4 + Math.min(1e-4, ph + 2));
    assertEquals(slope, balance.slope(ph), 1e-3 * Math.abs(slope) + 1e-9);
  }

  @Property(tries = 1000, seed = "12")
  void balanceAgreesWithTheChargesOneByOne(
      @ForAll("mixtures") Mixture mixture,
      @ForAll @DoubleRange(min = -2, max = 16) double ph,
      @ForAll @DoubleRange(min = 0, max = 0.6) double ionicStrength) {
    Conditions conditions = Conditions.standard();
    double charge =
        mixture.strongCharge() + conditions.h(ph, ionicStrength) - conditions.oh(ph, ionicStrength);
    double strength = (conditions.h(ph, ionicStrength) + conditions.oh(ph, ionicStrength)) / 2;
    double scale = strength + Math.abs(mixture.strongCharge());
    for (Solution.WeakSystem weak : mixture.weak()) {
      charge += weak.molality() * conditions.meanCharge(weak.acid(), ph, ionicStrength);
      strength += weak.molality() * conditions.meanSquareCharge(weak.acid(), ph, ionicStrength) / 2;
      scale += 20 * weak.molality();
    }
    ChargeBalance balance = mixture.solution().balance(conditions, ionicStrength);
    assertEquals(charge, balance.netCharge(ph), 1e-13 * scale);
    assertEquals(strength, balance.weakIonicStrength(ph), 1e-13 * scale);
  }

  /** The oracle is the Brent solver of Commons Math on the same function. */
  @Property(tries = 1000, seed = "13")
  void rootIsThatOfBrent(
      @ForAll("mixtures") Mixture mixture,
      @ForAll @DoubleRange(min = 0, max = 0.6) double ionicStrength,
      @ForAll @DoubleRange(min = -2, max = 16) double start) {
    ChargeBalance balance = mixture.solution().balance(Conditions.standard(), ionicStrength);
    double brent = new BrentSolver(1e-15, 1e-13, 1e-18).solve(500, balance::netCharge, -2, 16);
    // Where nothing buffers, rounding of the charges themselves moves the crossing.
    double rounding = 1e-15 / -balance.slope(brent);
    assertEquals(brent, balance.ph(), 1e-10 + rounding);
    assertEquals(brent, balance.phNear(start), 1e-10 + rounding);
    assertEquals(brent, PhRoot.ofFalling(balance::netCharge, -2, 16), 1e-10 + rounding);
  }

  @Property(tries = 500, seed = "14")
  void strongAcidLowersThePhAtFixedIonicStrength(
      @ForAll("mixtures") Mixture mixture, @ForAll @DoubleRange(min = -6, max = -1) double size) {
    double added = Math.pow(10, size);
    ChargeBalance before = mixture.solution().balance(Conditions.standard(), 0.1);
    ChargeBalance after = before.withStrongCharge(before.strongCharge() - added);
    assertTrue(after.ph() < before.ph());
  }

  @Property(tries = 500, seed = "15")
  void strongAcidLowersThePhOfAnIdealSolution(
      @ForAll("mixtures") Mixture mixture, @ForAll @DoubleRange(min = -6, max = -1) double size) {
    Conditions ideal = Conditions.ideal(14);
    Mixture more = mixture.withStrongCharge(mixture.strongCharge() - Math.pow(10, size));
    assertTrue(more.solution().ph(ideal).ph() < mixture.solution().ph(ideal).ph());
  }

  /** Where activities are molalities, water added takes any solution towards pH 7, not past it. */
  @Property(tries = 500, seed = "16")
  void dilutionGoesTowardsNeutral(
      @ForAll("mixtures") Mixture mixture,
      @ForAll @DoubleRange(min = 0.01, max = 0.9) double factor) {
    Conditions ideal = Conditions.ideal(14);
    double before = mixture.solution().ph(ideal).ph() - 7;
    double after = mixture.solution().times(factor).ph(ideal).ph() - 7;
    assertTrue(Math.abs(after) <= Math.abs(before) + 1e-8, () -> before + " to " + after);
    assertTrue(after * before >= -1e-8, () -> before + " to " + after);
  }

  @Property(tries = 1000, seed = "17")
  void sharesAddUpAndGiveTheCharge(
      @ForAll("acids") AcidBase acid,
      @ForAll @DoubleRange(min = -2, max = 16) double ph,
      @ForAll @DoubleRange(min = 0, max = 2) double ionicStrength,
      @ForAll @DoubleRange(min = 0, max = 60) double temperature) {
    Conditions conditions = Conditions.standard().withTemperature(temperature);
    double[] share = conditions.fractions(acid, ph, ionicStrength);
    double sum = 0;
    double charge = 0;
    for (int i = 0; i < share.length; i++) {
      assertTrue(share[i] >= 0 && share[i] <= 1);
      sum += share[i];
      charge += share[i] * (acid.chargeOfMostProtonatedForm() - i);
    }
    assertEquals(1, sum, 1e-14);
    assertEquals(charge, conditions.meanCharge(acid, ph, ionicStrength), 1e-13);
    assertEquals(share[0], conditions.undissociatedShare(acid, ph, ionicStrength));
  }

  @Property(tries = 300, seed = "18")
  void ionicStrengthSettlesOnItself(@ForAll("mixtures") Mixture mixture) {
    Solution solution = mixture.solution();
    PhResult result = solution.ph(Conditions.standard());
    ChargeBalance balance = solution.balance(Conditions.standard(), result.ionicStrength());
    assertTrue(result.passes() < 60, () -> "passes " + result.passes());
    assertEquals(
        result.ionicStrength(),
        Math.abs(mixture.strongCharge()) / 2 + balance.weakIonicStrength(result.ph()),
        1e-11);
    assertEquals(0, balance.netCharge(result.ph()), 1e-11);
  }

  @Property(tries = 200, seed = "19")
  void sameInputGivesTheSameBits(@ForAll("mixtures") Mixture mixture) {
    PhResult first = mixture.solution().ph(Conditions.standard());
    PhResult second = mixture.solution().ph(Conditions.standard().withTemperature(25));
    assertEquals(Double.doubleToLongBits(first.ph()), Double.doubleToLongBits(second.ph()));
    assertEquals(first, second);
  }
}
