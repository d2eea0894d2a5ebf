package org.surfactantblend.mildness;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.surfactantblend.mildness.DataRows.number;
import static org.surfactantblend.mildness.DataRows.text;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.surfactantblend.material.Evidence;
import org.surfactantblend.material.IrritationScore;
import org.surfactantblend.quantity.Range;

/** Index arithmetic, charge and salt against figures worked elsewhere; rankings as order only. */
class MildnessReferenceTest {
  // 8 % laureth-2 sulfate, 3 % betaine, 2 % decyl glucoside of 1.4 glucose units, active, per 100
  // g;
  // molar masses from the formulas with IUPAC atomic weights, single homologues. Expected figures
  // worked independently, printed to 1e-3.
  @Test
  void chargeShareOfAClassicThreePartBlend() {
    double[] moles = {
      8 / molarMass("Sodium Laureth Sulfate 2 EO"),
      3 / molarMass("Lauramidopropyl Betaine (CAPB C12)"),
      2 / molarMass("Decyl Glucoside DP 1.4")
    };
    double[] charges = {-1, 0, 0};
    assertEquals(35.1990, 1000 * (moles[0] + moles[1] + moles[2]), 1e-3);
    assertEquals(60.369, 100 * ChargeShare.netAnionic(moles, charges), 1e-3);
    assertEquals(61.538, 100 * 8.0 / (8 + 3 + 2), 1e-3);
  }

  // Stoichiometry of carboxymethylation: one sodium chloride (58.44 g/mol) per betaine.
  @Test
  void saltFromThirtyPercentBetaine() {
    for (Map<String, String> row : DataRows.of("salt-from-synthesis.csv")) {
      double perGram =
          number(row, "mol_nacl_per_mol_active")
              * 58.44
              / number(row, "molar_mass_active_g_per_mol");
      assertEquals(perGram, number(row, "nacl_g_per_g_active"), 1e-4, text(row, "name"));
      if (text(row, "name").equals("Lauramidopropyl Betaine")) {
        assertEquals(0.5118, 10 * 0.30 * perGram, 1e-3);
      }
    }
  }

  // Sum of content over limit, both limits 10 %: 8/10 + 3/10.
  @Test
  void eyeHazardOfAPreBlend() {
    EyeHazardSum sum =
        EyeHazardSum.of(
            List.of(
                new EyeHazardSum.Part("ether sulfate", 8, eyeLimit("alkyl ether sulfate")),
                new EyeHazardSum.Part("betaine", 3, eyeLimit("amidopropyl betaine"))));
    assertEquals(1.10, sum.serious(), 1e-12);
    assertTrue(sum.callsForCaution());
    assertEquals(List.of(), sum.withoutLimit());
  }

  // Order only. Patch tests at 5 % active matter: decyl glucoside, betaine, laureth sulfate, lauryl
  // sulfate rising; swelling falls with ethoxylation (J. Soc. Cosmet. Chem. 37, 125 and 199
  // (1986));
  // collagen: ammonium equal to sodium lauryl sulfate.
  @Test
  void scoresKeepThePublishedOrder() {
    double sls = score("Sodium Lauryl Sulfate", "").score().typical();
    double one = score("Sodium Laureth Sulfate", "1 EO").score().typical();
    double two = score("Sodium Laureth Sulfate", "2 EO").score().typical();
    double three = score("Sodium Laureth Sulfate", "3 EO").score().typical();
    double betaine = score("Cocamidopropyl Betaine", "").score().typical();
    double glucoside = score("Decyl Glucoside", "").score().typical();
    assertTrue(sls > one && one > two && two > three, "ethoxylation");
    assertTrue(three > betaine && betaine > glucoside, "patch order");
    assertEquals(sls, score("Ammonium Lauryl Sulfate", "").score().typical());
  }

  // Collagen film swelling 10.2, 4.4, 2.6, water 1.6 mL/g (J. Soc. Cosmet. Chem. 37, 199 (1986),
  // Table I); stratum corneum swelling 32, 14, 0.2 % (37, 125 (1986), Table V). Scaled to sodium
  // lauryl sulfate 100, water 0, both figures must lie in the range given; 0.5 for rounding.
  @Test
  void rangesHoldTheTwoPublishedScales() {
    Range three = score("Sodium Laureth Sulfate", "3 EO").score();
    Range polysorbate = score("Polysorbate 20", "").score();
    assertAll(
        () -> inside(three, 100 * (4.4 - 1.6) / (10.2 - 1.6)),
        () -> inside(three, 100 * 14.0 / 32),
        () -> inside(polysorbate, 100 * (2.6 - 1.6) / (10.2 - 1.6)),
        () -> inside(polysorbate, 100 * 0.2 / 32));
  }

  // J. Soc. Cosmet. Chem. 30, 415 (1979), p. 422: a fifth of sodium lauryl sulfate (score 10)
  // replaced by acylated protein measured 6.67. No score of zero or more explains that by a
  // weighted
  // mean, so the index must call itself an upper bound.
  @Test
  void weightedMeanCannotReachAMeasuredMixture() {
    Optional<IrritationScore> ten =
        Optional.of(new IrritationScore(Range.of(10, 10, 10), Evidence.MEASURED, "GOLDEMBERG1979"));
    Optional<IrritationScore> none =
        Optional.of(new IrritationScore(Range.of(0, 0, 0), Evidence.ESTIMATED, "least possible"));
    IrritationIndex index =
        IrritationIndex.of(
            List.of(
                new IrritationIndex.Part("Sodium Lauryl Sulfate", 80, ten),
                new IrritationIndex.Part("acylated protein", 20, none)));
    double least = index.range().orElseThrow().low();
    assertEquals(8.0, least, 1e-12);
    assertTrue(least > 6.67);
    assertTrue(IrritationIndex.BASIS.contains("upper bound"));
    // The credit that would explain it on that scale, with the protein at zero: b = (6.67 -
    // 8)/0.16.
    double b = (6.67 - 8.0) / (0.8 * 0.2);
    BlendedIndex blended =
        BlendedIndex.ofPairs(new double[] {10, 0}, new double[][] {{0, b}, {b, 0}});
    assertEquals(6.67, blended.at(new double[] {0.8, 0.2}), 1e-12);
  }

  @Test
  void noTextPromisesWhatCannotBePromised() {
    for (String text :
        List.of(
            IrritationIndex.BASIS,
            MicelleCaveat.CHARGE_COMPENSATION.text(),
            MicelleCaveat.DEMIXING.text())) {
      assertFalse(text.contains("safe") || text.contains("hypoallergenic"), text);
      assertFalse(text.contains("non-irritating"), text);
    }
  }

  private static void inside(Range range, double value) {
    assertTrue(
        value >= range.low() - 0.5 && value <= range.high() + 0.5,
        () -> value + " not in " + range);
  }

  private static double molarMass(String name) {
    for (Map<String, String> row : DataRows.of("checks/charge-and-molar-mass.csv")) {
      if (text(row, "name").equals(name)) {
        return number(row, "molar_mass_g_per_mol");
      }
    }
    throw new IllegalArgumentException(name);
  }

  private static IrritationScore score(String inci, String grade) {
    for (Map<String, String> row : DataRows.of("irritation.csv")) {
      if (text(row, "inci_name").equals(inci) && text(row, "grade").equals(grade)) {
        return MildnessTablesTest.score(row);
      }
    }
    throw new IllegalArgumentException(inci + " " + grade);
  }

  private static Optional<EyeHazardLimit> eyeLimit(String family) {
    for (Map<String, String> row : DataRows.of("eye.csv")) {
      if (text(row, "group").equals(family)) {
        return Optional.of(MildnessTablesTest.limit(row));
      }
    }
    return Optional.empty();
  }
}
