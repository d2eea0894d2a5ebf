package org.surfactantblend.conformance;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.surfactantblend.Blends;
import org.surfactantblend.material.CertificateOfAnalysis;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.SheetPh;
import org.surfactantblend.problem.ProblemsException;

/** Every row of the shipped table, check by check, as a shop would do it with its own. */
class ConformanceTest {
  private static final MaterialTable TABLE = Blends.starterTable().priced(Blends.demoPrices());

  /** Rows of the shipped table that are known to be odd; the reason says why they stand. */
  private static final List<KnownDeviation> KNOWN = List.of();

  @TestFactory
  Stream<DynamicTest> everyRowOfTheShippedTable() {
    return Conformance.of(TABLE).sourcedFrom(Blends.sources()).except(KNOWN).checks().stream()
        .map(c -> dynamicTest(c.name(), () -> assertEquals(List.of(), c.findings())));
  }

  @TestFactory
  Stream<DynamicTest> theTableOfAShopInThreeLines() {
    MaterialTable mine = MaterialTable.of(TABLE.search("glucoside"));
    return Conformance.of(mine).checks().stream().map(c -> dynamicTest(c.name(), c::orElseThrow));
  }

  @Test
  void everyFamilyOfTheShippedTableHasItsFacts() {
    TABLE
        .surfactants()
        .forEach(m -> assertTrue(FamilyFacts.knows(m.family().name()), () -> m + " " + m.family()));
  }

  @Test
  void checksAreToldByTheirSubjectAndCode() {
    var decyl = Conformance.of(TABLE.get("decyl-glucoside-52"));
    assertEquals(
        "decyl-glucoside-52: its dry residue is what its constituents add up to",
        decyl.checks().get(2).name());
    assertEquals("dry-residue", decyl.checks().get(2).code());
    assertEquals("decyl-glucoside-52", decyl.checks().get(2).subject());
    assertEquals("decyl-glucoside-52: 16 checks, no errors, no warnings", decyl.summary());
    assertEquals(decyl, decyl.orElseThrow());
  }

  @Test
  void theEndPointOfATitrationIsNotThePhOfTheLot() {
    Material decyl = TABLE.get("decyl-glucoside-52");
    Material lot =
        CertificateOfAnalysis.ofLot("17")
            .activePercent(51.4)
            .alkalinity(120, 4.5, 20)
            .build()
            .appliedTo(decyl)
            .orElseThrow();
    assertEquals(4.5, lot.statedPh().orElseThrow().ph().typical());
    assertEquals(List.of(), Conformance.of(lot).findings());
    assertEquals(
        "ph-of-family",
        Conformance.of(decyl.toBuilder().sheetPh(SheetPh.of(4.4, 4.6, 20)).build())
            .findings()
            .get(0)
            .code());
  }

  @Test
  void whatIsWrongIsThrownWithEveryFindingInOneText() {
    var wrong =
        Conformance.of(
            TABLE.get("decyl-glucoside-52").toBuilder()
                .sheetPh(org.surfactantblend.material.SheetPh.of(1, 1.4, 0.2))
                .build());
    var thrown = assertThrows(ProblemsException.class, wrong::orElseThrow);
    assertEquals(
        """
        2 problems:
        warning ph-stated at decyl-glucoside-52 dilution of the pH: found 0.2 % m/m; allowed: 1 to 100 % m/m of the material as supplied. Maybe: 10 means 10 g in 100 g; 0.1 may have been meant as a fraction
        error ph-of-family at decyl-glucoside-52 pH: found 1 to 1.4; allowed: 10.5 to 14 for alkaline alkyl polyglucoside. Maybe: a neutralised grade has a family of its own""",
        thrown.getMessage());
    assertEquals(wrong.findings(), thrown.problems());
    assertEquals(
        """
        decyl-glucoside-52: 16 checks, 1 error, 1 warning
        warning ph-stated at decyl-glucoside-52 dilution of the pH: found 0.2 % m/m;
              allowed: 1 to 100 % m/m of the material as supplied. Maybe: 10 means 10 g
              in 100 g; 0.1 may have been meant as a fraction
        error ph-of-family at decyl-glucoside-52 pH: found 1 to 1.4; allowed: 10.5 to 14
              for alkaline alkyl polyglucoside. Maybe: a neutralised grade has a family
              of its own""",
        wrong.toString());
  }

  @Test
  void anAcceptedDeviationIsNoFindingAndAnUnusedOneIs() {
    var wrong =
        Conformance.of(
            TABLE.get("decyl-glucoside-52").toBuilder()
                .dryResiduePercent(org.surfactantblend.quantity.Range.between(40, 42))
                .build());
    var accepted = new KnownDeviation("decyl-glucoside-52", "dry-residue", "a loose sheet");
    assertEquals(List.of(), wrong.except(List.of(accepted)).findings());
    var unused = new KnownDeviation("decyl-glucoside-52", "molar-mass", "from an old sheet");
    var findings = wrong.except(List.of(accepted, unused)).findings();
    assertEquals(1, findings.size());
    assertEquals("unused-deviation", findings.get(0).code());
    assertEquals("decyl-glucoside-52 molar-mass", findings.get(0).place().toString());
    assertTrue(findings.get(0).found().contains("from an old sheet"));
  }
}
