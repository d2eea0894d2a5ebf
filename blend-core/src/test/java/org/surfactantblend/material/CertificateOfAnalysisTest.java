package org.surfactantblend.material;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.quantity.Range;

class CertificateOfAnalysisTest {
  private static final Material BETAINE =
      Material.builder("betaine-30")
          .inciName("Cocamidopropyl Betaine")
          .constituent(
              Constituent.active(
                  "Cocamidopropyl Betaine",
                  Range.of(29, 30, 31),
                  ChargeClass.AMPHOTERIC,
                  OptionalDouble.of(342)))
          .constituent(Constituent.other(Constituent.SODIUM_CHLORIDE, Range.of(4.5, 5, 6)))
          .dryResiduePercent(Range.of(34, 35, 37))
          .sheetPh(SheetPh.of(4.5, 5.5, 10))
          .build();

  private static List<String> codes(Loaded<Material> loaded) {
    return loaded.problems().stream().map(Problem::code).toList();
  }

  @Test
  void measuredFiguresTakeThePlaceOfRanges() {
    Loaded<Material> loaded =
        CertificateOfAnalysis.ofLot("K-17")
            .activePercent(30.4)
            .saltPercent(5.2)
            .dryResiduePercent(35.9)
            .ph(5.1, 10)
            .method("two-phase titration")
            .date(LocalDate.of(2026, 3, 2))
            .expiry(LocalDate.of(2027, 3, 1))
            .pricePerKg(2.3)
            .densityGramsPerMl(1.04)
            .build()
            .appliedTo(BETAINE);
    assertEquals(List.of(), loaded.problems());
    Material lot = loaded.value();
    assertEquals("betaine-30 lot K-17", lot.toString());
    assertEquals(Range.exactly(30.4), lot.activePercent());
    assertEquals(Range.exactly(5.2), lot.saltPercent());
    assertEquals(64.4, lot.waterPercent().typical(), 1e-12);
    assertEquals(Range.exactly(5.1), lot.sheetPh().orElseThrow().ph());
    assertEquals(List.of(), lot.ownCaveats());
  }

  @Test
  void whatIsMissingFallsBackToTheGradeAndSaysSo() {
    Material lot =
        CertificateOfAnalysis.ofLot("K-18")
            .activePercent(30.1)
            .build()
            .appliedTo(BETAINE)
            .orElseThrow();
    assertEquals(BETAINE.saltPercent(), lot.saltPercent());
    assertEquals(
        List.of(
            "sodium chloride of lot K-18 was not measured: the grade's 4.5 to 6 % stands in",
            "pH of lot K-18 was not measured: the grade's 4.5 to 5.5 at its dilution stands in"),
        lot.ownCaveats());
  }

  @Test
  void dryResidueTakenForActiveIsNoticed() {
    Loaded<Material> loaded =
        CertificateOfAnalysis.ofLot("K-19")
            .activePercent(35.2)
            .ph(5, 10)
            .build()
            .appliedTo(BETAINE);
    assertEquals(List.of("dry-residue-as-active"), codes(loaded));
    assertEquals(
        "warning dry-residue-as-active at certificate of lot K-19 of betaine-30 active matter:"
            + " found 35.2 %; allowed: active matter, 29 to 31 % by the grade. Maybe: ask whether"
            + " this is the dry residue; it counts salt and other solids as active",
        loaded.problems().get(0).toString());
    assertEquals(35.2, loaded.value().activePercent().typical(), "used, but marked");
    assertTrue(
        loaded
            .value()
            .ownCaveats()
            .contains(
                "active matter of lot K-19, 35.2 %, may be its dry residue, which counts salt and"
                    + " other solids: ask"));

    assertEquals(
        List.of("dry-residue-as-active"),
        codes(
            CertificateOfAnalysis.ofLot("K-20")
                .activePercent(34.9)
                .dryResiduePercent(35)
                .ph(5, 10)
                .build()
                .appliedTo(BETAINE)));
  }

  @Test
  void aDryResidueBelowWhatTheLotHoldsIsToldAndStaysWithIt() {
    // Active matter was not measured: 30 % and 5 % salt by the grade leave no room for 33.9 %.
    Loaded<Material> low =
        CertificateOfAnalysis.ofLot("K-23")
            .dryResiduePercent(33.9)
            .saltPercent(5)
            .ph(5, 10)
            .build()
            .appliedTo(BETAINE);
    assertEquals(List.of("contents-above-dry-residue", "outside-specification"), codes(low));
    assertEquals(
        "warning contents-above-dry-residue at certificate of lot K-23 of betaine-30 dry residue:"
            + " found 33.9 %, active matter and salt 35 %; allowed: not less than active matter"
            + " and salt together. Maybe: ask for the active matter and the salt of this lot",
        low.problems().get(0).toString());
    assertEquals(Range.exactly(33.9), low.value().dryResiduePercent().orElseThrow());
    assertTrue(
        low.value()
            .ownCaveats()
            .contains(
                "dry residue of lot K-23, 33.9 %, is less than its active matter and salt together:"
                    + " ask for both"));
    // A point apart is what two methods may differ by.
    assertEquals(
        List.of(),
        codes(
            CertificateOfAnalysis.ofLot("K-24")
                .activePercent(30)
                .dryResiduePercent(34)
                .saltPercent(5)
                .ph(5, 10)
                .build()
                .appliedTo(BETAINE)));
  }

  @Test
  void impossibleFiguresAreLeftOut() {
    Loaded<Material> above =
        CertificateOfAnalysis.ofLot("K-21")
            .activePercent(30)
            .dryResiduePercent(27)
            .ph(5, 10)
            .build()
            .appliedTo(BETAINE);
    assertTrue(codes(above).contains("active-above-dry-residue"));
    assertTrue(above.hasErrors());
    assertEquals(BETAINE.activePercent(), above.value().activePercent());

    Loaded<Material> tooMuch =
        CertificateOfAnalysis.ofLot("K-22")
            .activePercent(96)
            .saltPercent(8)
            .ph(5, 10)
            .build()
            .appliedTo(BETAINE);
    assertTrue(codes(tooMuch).contains("more-than-100"));
    assertEquals(BETAINE.activePercent(), tooMuch.value().activePercent());
  }

  @Test
  void outsideTheSpecificationAndWithoutAPhBasis() {
    Loaded<Material> loaded =
        CertificateOfAnalysis.ofLot("K-23")
            .activePercent(27.6)
            .saltPercent(4.7)
            .phWithoutDilution(5)
            .build()
            .appliedTo(BETAINE);
    assertEquals(List.of("outside-specification", "ph-basis-missing"), codes(loaded));
    assertFalse(loaded.value().sheetPh().orElseThrow().basisCertain());
    assertFalse(loaded.hasErrors());
  }

  @Test
  void anExpiredLotByTheDayAsked() {
    CertificateOfAnalysis c =
        CertificateOfAnalysis.ofLot("K-24").expiry(LocalDate.of(2026, 5, 31)).build();
    assertFalse(c.isExpiredOn(LocalDate.of(2026, 5, 31)));
    assertTrue(c.isExpiredOn(LocalDate.of(2026, 6, 1)));
  }

  @Test
  void figuresOutOfRangeAreRefusedWithNameAndRange() {
    CertificateOfAnalysis.Builder b = CertificateOfAnalysis.ofLot("K-25");
    assertEquals(
        "highest active matter of lot K-25 was 101.0, allowed is 0.0 to 100.0 % m/m",
        assertThrows(IllegalArgumentException.class, () -> b.activePercent(Range.of(99, 100, 101)))
            .getMessage());
    assertThrows(IllegalArgumentException.class, () -> b.ph(5, 0));
    assertThrows(IllegalArgumentException.class, () -> b.pricePerKg(-1));
  }

  /** By hand, activities equal to molalities: S = A - n q(pH) - W (h - oh). */
  @Test
  void anAlkalinityFixesTheStrongCharge() {
    Conditions byHand = Conditions.ideal(14);
    AcidBaseGroup carboxyl =
        new AcidBaseGroup(
            "carboxyl",
            AcidBase.acid("carboxyl", 4.9),
            null,
            Range.of(0.6, 0.7, 0.8),
            false,
            false);
    Material grade =
        Material.builder("glutamate-29")
            .inciName("Disodium Cocoyl Glutamate")
            .group(carboxyl)
            .sheetPh(SheetPh.of(8.5, 10, 5))
            .build();
    Material lot =
        CertificateOfAnalysis.ofLot("G-1")
            .alkalinity(360, 4.9, 10)
            .build()
            .appliedTo(grade)
            .orElseThrow();
    ChargeCurve curve = lot.chargeCurve(byHand);
    // Half of 0.7 mol carries a charge at pH = pKa. The sample holds 10 kg of water per kg: 9 kg of
    // dilution and, as no constituent is declared, 1 kg of its own.
    double strong = 0.36 + 0.35 - 10 * Math.pow(10, -4.9) + 10 * Math.pow(10, -9.1);
    assertEquals(strong, curve.strongChargeEqPerKg(), 1e-9);
    // At the end point the range of the group no longer matters: the titration has counted it.
    assertEquals(curve.leastChargeEqPerKg(4.9, 0), curve.greatestChargeEqPerKg(4.9, 0), 1e-12);
    assertTrue(curve.greatestChargeEqPerKg(7, 0) - curve.leastChargeEqPerKg(7, 0) > 0.05);
    assertEquals(List.of(), lot.ownCaveats(), "no fall-back on the grade's pH");
  }

  @Test
  void anAcidValueIsAnAlkalinityBelowZero() {
    Material grade = Material.builder("acid").inciName("Some Acid").build();
    Material lot =
        CertificateOfAnalysis.ofLot("A-1")
            .acidValue(56.106, 7, 10)
            .build()
            .appliedTo(grade)
            .orElseThrow();
    // 56.106 mg of KOH per gram is one mole per kg; at pH 7 water's own ions cancel.
    assertEquals(-1, lot.chargeCurve(Conditions.ideal(14)).strongChargeEqPerKg(), 1e-12);
  }
}
