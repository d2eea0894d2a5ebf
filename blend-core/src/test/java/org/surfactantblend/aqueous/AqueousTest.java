package org.surfactantblend.aqueous;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class AqueousTest {
  private static final AcidBase CITRIC = AcidBase.acid("citric acid", 3.128, 4.761, 6.396);
  private static final Conditions STANDARD = Conditions.standard();

  private static void refused(String message, Executable call) {
    assertEquals(message, assertThrows(IllegalArgumentException.class, call).getMessage());
  }

  @Test
  void readsAsItWouldBeSaid() {
    // Potassium dihydrogen citrate standard, 3.776 (Staples and Bates 1969).
    PhResult result = Solution.water().weak(CITRIC, 0.05).strongIon("K+", 1, 0.05).ph(STANDARD);
    assertEquals(3.776, result.ph(), 0.04);
    assertEquals(List.of(), result.caveats());
    assertTrue(result.passes() < 20, () -> "passes " + result.passes());
  }

  @Test
  void pureWaterIsNeutral() {
    assertEquals(STANDARD.pKw() / 2, Solution.water().ph(STANDARD).ph(), 1e-9);
    assertEquals(7, Solution.water().ph(Conditions.ideal(14)).ph(), 1e-12);
  }

  @Test
  void idealStrongAcidAndBase() {
    Conditions ideal = Conditions.ideal(14);
    assertEquals(2, Solution.water().strongIon("Cl-", -1, 0.01).ph(ideal).ph(), 1e-9);
    assertEquals(12, Solution.water().strongIon("Na+", 1, 0.01).ph(ideal).ph(), 1e-9);
  }

  @Test
  void meanChargeAtEqualShares() {
    Conditions ideal = Conditions.ideal(14);
    assertEquals(-0.5, ideal.meanCharge(AcidBase.acid("acid", 4.2), 4.2, 0), 1e-15);
    assertEquals(0.5, ideal.meanCharge(AcidBase.base("amine", 9.5), 9.5, 0.1), 1e-15);
    assertEquals(0.5, ideal.meanSquareCharge(AcidBase.base("amine", 9.5), 9.5, 0.1), 1e-15);
  }

  @Test
  void apparentConstantsStandAsTheyAre() {
    AcidBase fatty = AcidBase.acid("fatty acid", 8).asApparent();
    assertTrue(fatty.apparent());
    assertSame(fatty, fatty.asApparent());
    assertEquals(-0.5, STANDARD.meanCharge(fatty, 8, 0.3), 1e-15);
    assertEquals(0, STANDARD.meanSquareCharge(fatty, 9, 0.3));
    assertEquals(
        List.of("the apparent pKa of fatty acid shifts with the mixture it is in"),
        Solution.water().weak(fatty, 0.01).ph(STANDARD).caveats());
  }

  @Test
  void withPkaKeepsTheRest() {
    AcidBase acid = AcidBase.of("a", 1, List.of(new AcidBase.Step(4, 30, -100)));
    AcidBase moved = acid.asApparent().withPka(0, 5);
    assertEquals(List.of(new AcidBase.Step(5, 30, -100)), moved.steps());
    assertEquals(1, moved.chargeOfMostProtonatedForm());
    assertTrue(moved.apparent());
    assertEquals(acid.asApparent(), moved.withPka(0, 4));
    assertEquals(acid.asApparent().hashCode(), moved.withPka(0, 4).hashCode());
    assertNotEquals(acid, moved.withPka(0, 4));
    refused("step of a was 1, allowed is 0 to 0", () -> acid.withPka(1, 5));
  }

  @Test
  void twelveProtonsDoNotOverflow() {
    double[] pKa = new double[12];
    java.util.Arrays.fill(pKa, -5);
    AcidBase strong = AcidBase.acid("twelve protons", pKa);
    assertEquals(-12, STANDARD.meanCharge(strong, 16, 0.5), 1e-9);
    assertEquals(144, STANDARD.meanSquareCharge(strong, 16, 0.5), 1e-9);
    assertEquals(1, STANDARD.fractions(strong, 16, 0.5)[12], 1e-12);
    ChargeBalance balance =
        ChargeBalance.at(STANDARD, 0.1).add(strong, 0.001).strongCharge(0.02).build();
    assertEquals(0, balance.netCharge(balance.ph()), 1e-12);
    assertTrue(balance.slope(16) < 0);
  }

  @Test
  void hydroxidePairIsAnAcid() {
    AcidBase calcium = AcidBase.hydroxidePair("calcium ion", 2, 1.3, 8.3);
    double oh = STANDARD.oh(12.5, 0);
    double[] share = STANDARD.fractions(calcium, 12.5, 0);
    assertEquals(Math.pow(10, 1.3), share[1] / (share[0] * oh), 1e-6);
    refused(
        "charge was 0, allowed is 1 to 6", () -> AcidBase.hydroxidePair("calcium ion", 0, 1.3, 0));
  }

  @Test
  void caveats() {
    Solution brine = Solution.water().strongIon("Na+", 1, 0.4).strongIon("Cl-", -1, 0.4);
    assertEquals(
        List.of(
            "ionic strength 0.4 mol/kg water is above 0.3: published buffers this strong were off"
                + " by up to 0.15 pH"),
        brine.ph(STANDARD).caveats());
    assertEquals(
        List.of("ionic strength 0.8 mol/kg water is above 0.5: no accuracy is claimed for this pH"),
        brine.times(2).ph(STANDARD).caveats());
    assertEquals(List.of(), brine.times(0.5).ph(STANDARD).caveats());
    assertEquals(
        List.of("temperature 70 C is above 60 C: the constants were not checked there"),
        Solution.water().ph(STANDARD.withTemperature(70)).caveats());
    assertEquals(
        List.of("activities taken equal to molalities: published buffers were off by 0.4 pH"),
        Solution.water().ph(Conditions.ideal(14)).caveats());
    AcidBase boric =
        AcidBase.acid("boric acid", 9.237).withCaveatAbove(0.05, "it joins into larger ions");
    assertEquals(
        List.of("boric acid 0.06 mol/kg water is above 0.05: it joins into larger ions"),
        Solution.water().weak(boric, 0.06).ph(STANDARD).caveats());
    assertEquals(List.of(), Solution.water().weak(boric, 0.05).ph(STANDARD).caveats());
  }

  @Test
  void temperatureMovesAminesAndHardlyCarboxylicAcids() {
    AcidBase amine = AcidBase.of("amine", 1, List.of(new AcidBase.Step(7.762, 33.6, 50)));
    Conditions warm = STANDARD.withTemperature(35);
    assertEquals(7.762 - 0.19, warm.pKa(amine, 0), 0.01);
    assertEquals(3.128, warm.pKa(CITRIC, 0));
    assertEquals(13.685, warm.pKw(), 0.004);
    assertEquals(14, Conditions.ideal(14).withTemperature(35).pKw());
  }

  @Test
  void activityTermIsHeldFarOutsideItsValidity() {
    ActivityModel model = ActivityModel.davies();
    assertEquals(model.log10Gamma(2, 1, 25), model.log10Gamma(2, 50, 25));
    assertEquals(0, model.log10Gamma(0, 0.1, 25));
    assertEquals(0, ActivityModel.ideal().log10Gamma(3, 0.1, 25));
    assertEquals(model.log10Gamma(3, 0.1, 25), model.log10Gamma(-3, 0.1, 25));
  }

  @Test
  void valuesWithEqualPartsAreEqual() {
    assertEquals(ActivityModel.davies(), ActivityModel.davies(0.2));
    assertNotEquals(ActivityModel.davies(0), ActivityModel.ideal());
    assertEquals(STANDARD, STANDARD.withTemperature(30).withTemperature(25));
    assertEquals(STANDARD.hashCode(), STANDARD.withTemperature(30).withTemperature(25).hashCode());
    assertNotEquals(Conditions.ideal(14), Conditions.ideal(13.9));
    Solution a = Solution.water().weak(CITRIC, 0.1).strongIon("Na+", 1, 0.1);
    Solution b = Solution.of(a.strongIons(), a.weakSystems());
    assertEquals(a, b);
    assertEquals(a.hashCode(), b.hashCode());
    assertNotEquals(a, a.times(2));
    assertFalse(a.toString().isBlank());
  }

  @Test
  void refusals() {
    refused("pKa was 21.0, allowed is -5.0 to 20.0", () -> AcidBase.acid("a", 21));
    refused("number of steps of a was 0, allowed is 1 to 12", () -> AcidBase.acid("a"));
    refused(
        "charge of the most protonated form of a was 7, allowed is -6 to 6",
        () -> AcidBase.of("a", 7, List.of(AcidBase.Step.of(4))));
    refused("pH was 16.5, allowed is -2.0 to 16.0", () -> STANDARD.h(16.5, 0));
    refused(
        "pH was NaN, allowed is -2.0 to 16.0", () -> STANDARD.meanCharge(CITRIC, Double.NaN, 0));
    refused(
        "ionic strength was -0.1, allowed is 0 mol/kg water or more",
        () -> STANDARD.meanCharge(CITRIC, 7, -0.1));
    refused(
        "ionic strength was NaN, allowed is 0 mol/kg water or more",
        () -> STANDARD.oh(7, Double.NaN));
    refused(
        "temperature was 101.0, allowed is 0.0 to 100.0 C", () -> STANDARD.withTemperature(101));
    refused("pKw was 7.0, allowed is 10.0 to 18.0", () -> Conditions.ideal(7));
    refused(
        "Davies coefficient was 2.0, allowed is 0.0 to 1.0 kg water/mol",
        () -> ActivityModel.davies(2));
    refused(
        "charge of Na+ was 0, allowed is -6 to 6 and not 0",
        () -> Solution.water().strongIon("Na+", 0, 0.1));
    refused(
        "molality of Na+ was -0.1, allowed is 0.0 to 100.0 mol/kg water",
        () -> Solution.water().strongIon("Na+", 1, -0.1));
    refused(
        "molality of citric acid was NaN, allowed is 0.0 to 100.0 mol/kg water",
        () -> Solution.water().weak(CITRIC, Double.NaN));
    refused(
        "amount of citric acid was -1.0, allowed is 0.0 to 1000.0 mol",
        () -> ChargeBalance.at(STANDARD, 0).add(CITRIC, -1));
    refused(
        "water was 0.0, allowed is more than 0 kg", () -> ChargeBalance.at(STANDARD, 0).water(0));
    refused("step of citric acid was 3, allowed is 0 to 2", () -> STANDARD.pKa(CITRIC, 3));
  }

  @Test
  @SuppressWarnings("NullAway")
  void nullsAreRefused() {
    assertThrows(NullPointerException.class, () -> AcidBase.of(null, 0, List.of()));
    assertThrows(NullPointerException.class, () -> AcidBase.of("a", 0, null));
    assertThrows(NullPointerException.class, () -> Solution.water().weak(null, 0.1));
    assertThrows(NullPointerException.class, () -> Solution.water().ph(null));
    assertThrows(NullPointerException.class, () -> STANDARD.withActivity(null));
    assertThrows(NullPointerException.class, () -> STANDARD.meanCharge(null, 7, 0));
    assertThrows(NullPointerException.class, () -> ChargeBalance.at(null, 0));
    assertThrows(NullPointerException.class, () -> PhRoot.ofFalling(null, 0, 14));
  }

  @ParameterizedTest
  @ValueSource(doubles = {-400, 400})
  void chargesThatNoPhBalances(double charge) {
    ChargeBalance balance = ChargeBalance.at(Conditions.ideal(14), 0).strongCharge(charge).build();
    String message =
        String.valueOf(assertThrows(ArithmeticException.class, balance::ph).getMessage());
    assertTrue(
        message.contains(
            "no pH from -2 to 16 balances the charges; strong-ion difference " + charge),
        message);
  }

  @ParameterizedTest
  @ValueSource(doubles = {-1.999, -1, 0, 3, 11, 15, 15.999})
  void rootsNearTheEndsFromEveryStart(double ph) {
    Conditions ideal = Conditions.ideal(14);
    double strong = ideal.oh(ph, 0) - ideal.h(ph, 0);
    ChargeBalance balance = ChargeBalance.at(ideal, 0).strongCharge(strong).build();
    for (double start : new double[] {-2, 1, 7, 13, 16}) {
      assertEquals(ph, balance.phNear(start), 1e-9);
    }
  }

  @Test
  void balanceOfMoreWaterIsTheSameLiquid() {
    ChargeBalance one =
        ChargeBalance.at(STANDARD, 0.1).strongCharge(0.05).add(CITRIC, 0.03).build();
    ChargeBalance three =
        ChargeBalance.at(STANDARD, 0.1).strongCharge(0.15).add(CITRIC, 0.09).water(3).build();
    assertEquals(one.ph(), three.ph(), 1e-12);
    assertEquals(3 * one.netCharge(6), three.netCharge(6), 1e-15);
    assertEquals(3 * one.slope(6), three.slope(6), 1e-15);
    assertEquals(3 * one.weakIonicStrength(6), three.weakIonicStrength(6), 1e-15);
    assertEquals(0.15, three.strongCharge());
    assertEquals(one.netCharge(5) + 0.02, one.withStrongCharge(0.07).netCharge(5), 1e-15);
  }

  @Test
  void manySystemsFit() {
    ChargeBalance.Builder builder = ChargeBalance.at(STANDARD, 0.1).strongCharge(0.1);
    double expected = 0.1 + STANDARD.h(5, 0.1) - STANDARD.oh(5, 0.1);
    for (int i = 0; i < 40; i++) {
      AcidBase one = AcidBase.base("base", 3 + 0.2 * i);
      AcidBase two = AcidBase.acid("acid", 2 + 0.2 * i, 5 + 0.2 * i);
      builder.add(one, 0.001 * i).add(two, 0.002 * i);
      expected +=
          0.001 * i * STANDARD.meanCharge(one, 5, 0.1)
              + 0.002 * i * STANDARD.meanCharge(two, 5, 0.1);
    }
    assertEquals(expected, builder.build().netCharge(5), 1e-13);
  }

  @Test
  void rootOfAnyFallingFunction() {
    AtomicInteger calls = new AtomicInteger();
    double root =
        PhRoot.ofFalling(
            x -> {
              calls.incrementAndGet();
              return Math.cos(x / 10) - x / 10;
            },
            -2,
            16);
    assertEquals(7.390851332151607, root, 1e-12);
    assertTrue(calls.get() < 14, () -> "calls " + calls);
    assertEquals(-1, PhRoot.ofFalling(x -> -1 - x, -2, 16), 1e-12);
    assertEquals(3, PhRoot.ofFalling(x -> -5, 3, 8));
    assertEquals(8, PhRoot.ofFalling(x -> 5, 3, 8));
    assertEquals(4, PhRoot.ofFalling(x -> x < 4 ? 1 : -1, 3, 8), 1e-12);
    refused(
        "upper end of the pH bracket was 2.0, allowed is 3.0 to 16.0",
        () -> PhRoot.ofFalling(x -> -x, 3, 2));
  }

  /** The state is a shorter way to the figures of {@link Conditions}; those are held elsewhere. */
  @ParameterizedTest
  @ValueSource(doubles = {-1, 4.5, 7, 9.25, 13})
  void stateReadsLikeItsConditions(double ph) {
    Conditions warm = STANDARD.withTemperature(40);
    for (double ionicStrength : new double[] {0, 0.1, 0.4}) {
      AqueousState state = warm.at(ph, ionicStrength);
      double h = warm.h(ph, ionicStrength);
      double oh = warm.oh(ph, ionicStrength);
      assertEquals(ph, state.ph());
      assertEquals(ionicStrength, state.ionicStrength());
      assertEquals(Math.pow(10, -ph), state.activityOfHydrogen(), 1e-14 * Math.pow(10, -ph));
      assertEquals(h - oh, state.hydrogenLessHydroxide(), 1e-13 * (h + oh));
      assertEquals((h + oh) / 2, state.ownIonicStrength(), 1e-13 * (h + oh));
      double logGamma = ActivityModel.davies().log10Gamma(1, ionicStrength, 40);
      assertEquals(Math.pow(10, -logGamma), state.unitFactor(), 1e-13);
      for (int z : new int[] {-3, -1, 0, 1, 2}) {
        // A step from charge z to z - 1: gamma of the acid form over that of the base form.
        double expected =
            Math.pow(
                10,
                ActivityModel.davies().log10Gamma(z, ionicStrength, 40)
                    - ActivityModel.davies().log10Gamma(z - 1, ionicStrength, 40));
        assertEquals(expected, state.constantFactor(z), 1e-12 * expected);
      }
      AqueousState moved = state.withIonicStrength(0.2);
      assertEquals(warm.at(ph, 0.2).unitFactor(), moved.unitFactor());
      assertEquals(0.2, moved.ionicStrength());
      assertEquals(ph, moved.ph());
      assertSame(moved, moved.withIonicStrength(0.2));
    }
  }

  /** Where the derivative of sqrt(I) / (1 + sqrt(I)) - C I is zero, worked out by hand. */
  @ParameterizedTest
  @ValueSource(doubles = {0.15, 0.2, 0.3, 1})
  void ionsAreLeastActiveWhereTheTermTurns(double c) {
    double turn = ActivityModel.davies(c).ionicStrengthOfLowestActivity();
    double root = Math.sqrt(turn);
    assertEquals(1, 2 * c * root * (1 + root) * (1 + root), 1e-12);
  }

  @Test
  void activityOnlyFallsWithoutATurn() {
    assertEquals(1, ActivityModel.davies(0).ionicStrengthOfLowestActivity(), 1e-15);
    assertEquals(0, ActivityModel.ideal().ionicStrengthOfLowestActivity());
  }

  @Test
  void saysWhatItIs() {
    assertEquals("citric acid (pKa 3.128 4.761 6.396)", CITRIC.toString());
    assertEquals(
        "fatty acid (apparent pKa 8.0)", AcidBase.acid("fatty acid", 8).asApparent().toString());
    assertEquals("Davies, C = 0.2 at 25.0 C", STANDARD.toString());
    assertEquals("ideal (no activity term) at 25.0 C, pKw 14.0", Conditions.ideal(14).toString());
    assertEquals("solution [mol/kg water]: water", Solution.water().toString());
    assertEquals(
        "solution [mol/kg water]: citric acid 0.05, K+ 0.1",
        Solution.water().strongIon("K+", 1, 0.1).weak(CITRIC, 0.05).toString());
  }

  @Test
  void endsOfRangesAreAllowed() {
    for (int z : new int[] {-6, 6}) {
      assertEquals(
          z, AcidBase.of("a", z, List.of(AcidBase.Step.of(4))).chargeOfMostProtonatedForm());
      assertEquals(z, Solution.water().strongIon("ion", z, 1).strongCharge());
    }
    for (int z : new int[] {1, 6}) {
      assertEquals(z, AcidBase.hydroxidePair("ion", z, 1.3, 0).chargeOfMostProtonatedForm());
    }
    refused(
        "charge was 7, allowed is 1 to 6", () -> AcidBase.hydroxidePair("calcium ion", 7, 1.3, 0));
    refused(
        "charge of ion was 7, allowed is -6 to 6 and not 0",
        () -> Solution.water().strongIon("ion", 7, 0.1));
    refused(
        "charge of ion was -7, allowed is -6 to 6 and not 0",
        () -> Solution.water().strongIon("ion", -7, 0.1));
    refused(
        "charge of the most protonated form of a was -7, allowed is -6 to 6",
        () -> AcidBase.of("a", -7, List.of(AcidBase.Step.of(4))));
    refused(
        "ionic strength was Infinity, allowed is 0 mol/kg water or more",
        () -> STANDARD.h(7, Double.POSITIVE_INFINITY));
    assertEquals(STANDARD.h(7, 1), STANDARD.h(7, Double.MAX_VALUE));
  }

  /** The association constant moves with its own enthalpy, by van 't Hoff's law. */
  @Test
  void hydroxidePairMovesWithItsEnthalpy() {
    AcidBase calcium = AcidBase.hydroxidePair("calcium ion", 2, 1.3, 8.3);
    Conditions warm = STANDARD.withTemperature(50);
    double logK = 1.3 + 8300 / (8.314462618 * Math.log(10)) * (1 / 298.15 - 1 / 323.15);
    assertEquals(logK, warm.pKw() - warm.pKa(calcium, 0), 1e-9);
  }

  @Test
  void ionsOfHigherChargeCountBySquare() {
    // 0.1 mol/kg calcium chloride: (0.1 * 4 + 0.2 * 1) / 2.
    PhResult result =
        Solution.water().strongIon("Ca+2", 2, 0.1).strongIon("Cl-", -1, 0.2).ph(STANDARD);
    assertEquals(0.3, result.ionicStrength(), 1e-6);
    assertTrue(result.passes() >= 1, () -> "passes " + result.passes());
  }

  @Test
  void noCaveatAtTheLimitItself() {
    assertEquals(List.of(), Solution.water().ph(STANDARD.withTemperature(60)).caveats());
    AcidBase fatty = AcidBase.acid("fatty acid", 8).asApparent();
    assertEquals(List.of(), Solution.water().weak(fatty, 0).ph(STANDARD).caveats());
  }

  /** Eight protons long gone, the ninth half gone: half are -8, half are -9. */
  @Test
  void lastOfManyStepsCounts() {
    double[] pKa = new double[9];
    java.util.Arrays.fill(pKa, -5);
    pKa[8] = 15;
    AcidBase strong = AcidBase.acid("nine protons", pKa);
    Conditions ideal = Conditions.ideal(14);
    double water = ideal.h(15, 0) + ideal.oh(15, 0);
    double charge = 0.01 * 8.5 + ideal.oh(15, 0) - ideal.h(15, 0);
    ChargeBalance balance =
        ChargeBalance.at(ideal, 0).add(strong, 0.01).strongCharge(charge).build();
    assertEquals(-Math.log(10) * (0.01 * 0.25 + water), balance.slope(15), 1e-9);
    assertEquals((0.01 * (64 + 81) / 2 + water) / 2, balance.weakIonicStrength(15), 1e-9);
    assertEquals(15, balance.ph(), 1e-9);
    assertEquals(15, balance.phNear(3), 1e-9);
  }

  @Test
  void rootAtTheEndOfTheBracket() {
    assertEquals(3, PhRoot.ofFalling(x -> 3 - x, 3, 8));
    assertEquals(8, PhRoot.ofFalling(x -> 8 - x, 3, 8));
    assertEquals(5, PhRoot.ofFalling(x -> 5 - x, 5, 5));
  }

  /** Work, not time: a change that makes the way to a root longer has to be seen. */
  @Test
  void rootsKeepToTheirBudgetOfSteps() {
    AtomicInteger calls = new AtomicInteger();
    for (int i = 0; i < 60; i++) {
      AcidBase acid = AcidBase.acid("acid", 2 + 0.2 * i, 3.5 + 0.2 * i);
      for (double strong : new double[] {0.001, 0.01, 0.05, 0.1}) {
        ChargeBalance balance =
            ChargeBalance.at(Conditions.ideal(14), 0).add(acid, 0.06).strongCharge(strong).build();
        double root =
            PhRoot.ofFalling(
                ph -> {
                  calls.incrementAndGet();
                  return balance.netCharge(ph);
                },
                -2,
                16);
        assertEquals(balance.ph(), root, 1e-9);
      }
    }
    assertTrue(calls.get() <= 3350, () -> "calls " + calls);
  }
}
