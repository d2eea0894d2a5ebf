package org.surfactantblend.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.surfactantblend.Blends;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.problem.ProblemsException;
import org.surfactantblend.problem.Severity;
import org.surfactantblend.quantity.Range;

class MaterialCsvTest {
  private static final String HEADER =
      "id,inci_name,charge_class,family,active_typ_pct,salt_typ_pct,ph_low,ph_high,ph_dilution_pct\n";
  private static final String GOOD =
      "betaine-mine,Cocamidopropyl Betaine,amphoteric,amidopropyl betaine,30,5,4.5,6,10\n";

  private final MaterialTable base = Blends.starterTable();

  private Loaded<List<Material>> read(String text) {
    return MaterialFile.materialsFromCsv(Input.text("mine.csv", text), base);
  }

  private static String rows(String... rows) {
    return String.join("\n", rows) + "\n";
  }

  private static Problem only(Loaded<?> loaded, String code) {
    List<Problem> found = loaded.problems().stream().filter(p -> p.code().equals(code)).toList();
    assertEquals(1, found.size(), () -> code + " in " + loaded.problems());
    return found.get(0);
  }

  private static void assertAt(
      Problem problem, Severity severity, int row, String column, String found, String advice) {
    assertEquals(severity, problem.severity(), problem::toString);
    assertEquals("mine.csv", problem.place().source());
    assertEquals(row, problem.place().row(), problem::toString);
    assertEquals(column, problem.place().field(), problem::toString);
    assertEquals(found, problem.found());
    assertEquals(advice, problem.advice());
  }

  private static void assertIds(Loaded<List<Material>> loaded, String... ids) {
    assertEquals(List.of(ids), loaded.value().stream().map(Material::id).toList());
  }

  // What is right

  @Test
  void aShopsRowLiesOverTheShippedTable() {
    Loaded<MaterialTable> loaded =
        MaterialFile.readCsv(
            Input.text(
                "mine.csv",
                HEADER
                    + GOOD
                    + "cocamidopropyl-betaine-30,Cocamidopropyl Betaine,amphoteric,"
                    + "amidopropyl betaine,31,5,5,5,10\n"),
            base);
    assertEquals(List.of(), loaded.problems());
    assertEquals(base.materials().size() + 1, loaded.value().materials().size());
    assertEquals(31, loaded.value().get("cocamidopropyl-betaine-30").activePercent().typical());
    assertSame(base.get("water"), loaded.value().get("water"));
  }

  @Test
  void everyColumnIsRead() {
    Material m =
        read(rows(
                "id,inci_name,grade,charge_class,family,lot,active_min_pct,active_typ_pct,active_max_pct,active_source,dry_residue_min_pct,dry_residue_max_pct,ph_low,ph_high,ph_dilution_pct,ph_basis_certain,ph_basis_note,salt_min_pct,salt_max_pct,molar_mass_g_per_mol,natural_origin_pct,max_use_pct,constituents,groups,caveats,other_sources,notes",
                "b,Coco-Betaine,\"30 %, clear\",Amphoteric,alkyl betaine,L7,29,30,32,COM,36,39,5,8,10,no,10 % in water,5.5,7.5,285,60,11,\"Glycerin 2..3; Disodium 2-Sulfolaurate 3..5..8 [anionic, 324.4 g/mol]\",\"soap: pKa 6.3..6.9..7.5, charge 0, 0..0.04..0.09 mol/kg, apparent; citric acid: acid citric, 0.02 mol/kg; carboxyl: pKa 4.9 6.1, charge 0, 1 mol/mol, on active\",smells of amine,constituent Glycerin: COM,keep cool"))
            .orElseThrow()
            .get(0);
    assertEquals("30 %, clear", m.grade());
    assertEquals("L7", m.lot().orElseThrow());
    assertEquals(Range.of(36, 37.5, 39), m.dryResiduePercent().orElseThrow());
    assertEquals(Range.of(5, 6.5, 8), m.statedPh().orElseThrow().ph());
    assertFalse(m.statedPh().orElseThrow().basisCertain());
    assertEquals(Range.of(5.5, 6.5, 7.5), m.saltPercent());
    assertEquals(60, m.naturalOriginPercent().orElseThrow());
    assertEquals(11, m.maxUsePercent().orElseThrow());
    assertEquals("keep cool; sheet pH: 10 % in water", m.notes());
    assertEquals(Range.of(2, 2.5, 3), m.percentOf("glycerin"));
    Constituent second = m.constituents().get(3);
    assertEquals("Disodium 2-Sulfolaurate", second.inciName());
    assertEquals(ChargeClass.ANIONIC, second.chargeClass().orElseThrow());
    assertEquals(324.4, second.molarMass().orElseThrow());
    assertEquals(3, m.ownGroups().size());
    assertEquals(Range.of(6.3, 6.9, 7.5), m.ownGroups().get(0).pKa());
    assertTrue(m.ownGroups().get(0).acid().apparent());
    assertEquals(base.acids().get("citric"), m.ownGroups().get(1).acid());
    assertEquals(2, m.ownGroups().get(2).acid().steps().size());
    assertTrue(m.ownGroups().get(2).perMoleActive() && m.ownGroups().get(2).onActive());
    assertEquals("COM", m.sources().get("active"));
    assertEquals("COM", m.sources().get("constituent Glycerin"));
    assertEquals(List.of("smells of amine"), m.ownCaveats());
  }

  @Test
  void aFigureWithoutARangeTakesTheUsualOneOfItsFamily() {
    Material grade = read(HEADER + GOOD).orElseThrow().get(0);
    assertEquals(30, grade.activePercent().typical());
    assertTrue(grade.activePercent().low() < 29.5 && grade.activePercent().low() > 27);
    assertTrue(grade.activePercent().high() > 31 && grade.activePercent().high() < 34);
    assertTrue(grade.caveats().get(0).startsWith("no range of active matter given"));
  }

  @Test
  void theCertificateOfALotIsTakenAsExact() {
    Material lot =
        read(rows(
                "id,inci_name,charge_class,family,active_typ_pct,lot",
                "b,Cocamidopropyl Betaine,amphoteric,amidopropyl betaine,30.4,L 2211"))
            .orElseThrow()
            .get(0);
    assertEquals(Range.exactly(30.4), lot.activePercent());
  }

  @Test
  void whatTheFamilySaysNeedNotBeRepeated() {
    Material m =
        read("id,inci_name,family,active_typ_pct\nb,Cocamidopropyl Betaine,amidopropyl betaine,30\n")
            .orElseThrow()
            .get(0);
    assertEquals(ChargeClass.AMPHOTERIC, m.chargeClass().orElseThrow());
  }

  @Test
  void statedWaterLeavesARemainderThatIsNotWater() {
    Material m =
        read(rows(
                "id,inci_name,charge_class,family,active_typ_pct,water_pct",
                "p,Sodium Cocoyl Isethionate,anionic,acyl isethionate,85,2"))
            .orElseThrow()
            .get(0);
    assertEquals(13, m.percentOf("(undeclared)").typical(), 1e-12);
    assertEquals(2, m.waterPercent().typical(), 1e-12);
  }

  @Test
  void aPriceColumnPricesTheTable() {
    Loaded<MaterialTable> loaded =
        MaterialFile.readCsv(
            Input.text(
                "mine.csv",
                """
                id,inci_name,family,active_typ_pct,price_per_kg
                b,Cocamidopropyl Betaine,amidopropyl betaine,30,2.5
                """),
            base.priced(Blends.demoPrices()));
    assertEquals(2.5, loaded.orElseThrow().prices().pricePerKg("b").orElseThrow());
    assertEquals(
        Blends.demoPrices().materialIds().size() + 1,
        loaded.orElseThrow().prices().materialIds().size());
  }

  @Test
  void aPriceInAnotherCurrencyThanThatUnderneathIsToldWithTheWayOut() {
    Loaded<MaterialTable> loaded =
        MaterialFile.readCsv(
            Input.text(
                "mine.csv",
                """
                id,inci_name,family,active_typ_pct,price_per_kg,currency
                b,Cocamidopropyl Betaine,amidopropyl betaine,30,2.5,shells
                """),
            base.priced(Blends.demoPrices()));
    Problem only = loaded.problems().get(0);
    assertEquals(1, loaded.problems().size());
    assertEquals("currency-mixed", only.code());
    assertEquals("the currency of the prices underneath, cu", only.allowed());
    assertEquals("convert the price, or lay the rows over a table without prices", only.advice());
  }

  // Numbers

  @Test
  void aDecimalCommaInQuotes() {
    Loaded<List<Material>> loaded =
        read(HEADER + GOOD + GOOD.replace("mine,", "two,").replace(",30,", ",\"30,5\","));
    assertAt(only(loaded, "decimal-comma"), Severity.ERROR, 3, "active_typ_pct", "'30,5'", "30.5");
    assertIds(loaded, "betaine-mine");
  }

  @Test
  void aDecimalCommaWithoutQuotesMakesOneCellTooMany() {
    Loaded<List<Material>> loaded = read(HEADER + GOOD.replace(",30,", ",30,5,"));
    Problem p = only(loaded, "extra-cells");
    assertEquals(2, p.place().row());
    assertEquals("10 cells", p.found());
    assertTrue(p.advice().startsWith("a decimal comma"));
    assertIds(loaded);
  }

  @Test
  void aCommaThatMayGroupThousands() {
    Loaded<List<Material>> loaded = read(HEADER + GOOD.replace(",30,", ",\"1,234\","));
    assertEquals(
        "1.234, or 1234 if the comma groups thousands", only(loaded, "decimal-comma").advice());
  }

  @Test
  void aPercentSign() {
    Loaded<List<Material>> loaded = read(HEADER + GOOD.replace(",30,", ",30 %,"));
    assertAt(only(loaded, "percent-sign"), Severity.ERROR, 2, "active_typ_pct", "'30 %'", "30");
    assertIds(loaded);
  }

  @Test
  void whatIsNoPlainNumber() {
    for (String word :
        List.of("NaN", "0x1", "Infinity", "1d", "1f", "1e", "--1", "+-1", "\u0663\u0660", "1_0")) {
      Problem p = only(read(HEADER + GOOD.replace(",30,", "," + word + ",")), "number-format");
      assertAt(p, Severity.ERROR, 2, "active_typ_pct", Row.quoted(word), "");
    }
  }

  @Test
  void numbersBeyondTheirRange() {
    for (String word : List.of("1e400", "-1", "101", "-1e400")) {
      Problem p = only(read(HEADER + GOOD.replace(",30,", "," + word + ",")), "number-range");
      assertAt(p, Severity.ERROR, 2, "active_typ_pct", "'" + word + "'", "");
      assertEquals("a number from 0 to 100 % active", p.allowed());
    }
  }

  @Test
  void spacesOfEveryKindAroundANumberDoNotMatter() {
    assertEquals(
        30,
        read(HEADER + GOOD.replace(",30,", ",\u00A0 30\u202F,").replace("pyl Be", "pyl\u00A0Be"))
            .orElseThrow()
            .get(0)
            .percentOf("Cocamidopropyl Betaine")
            .typical());
  }

  @Test
  void aSpaceInsideANumberIsNotGuessed() {
    Problem p = only(read(HEADER + GOOD.replace(",30,", ",3\u00A00,")), "number-format");
    assertAt(p, Severity.ERROR, 2, "active_typ_pct", "'3\\u00a00'", "30");
  }

  @Test
  void aRangeInOneCell() {
    Problem p = only(read(HEADER + GOOD.replace(",30,", ",28-32,")), "number-format");
    assertEquals("a range goes into the columns for its least and its greatest value", p.advice());
  }

  @Test
  void aRangeUpsideDown() {
    Loaded<List<Material>> loaded =
        read(
            rows(
                "id,inci_name,family,active_min_pct,active_typ_pct,active_max_pct",
                "a,Cocamidopropyl Betaine,amidopropyl betaine,32,,28",
                "b,Cocamidopropyl Betaine,amidopropyl betaine,28,35,32"));
    assertEquals(2, loaded.problems().stream().filter(p -> p.code().equals("range-order")).count());
    assertEquals("active_min_pct", loaded.problems().get(0).place().field());
    assertIds(loaded);
  }

  @Test
  void oneEndOfARange() {
    Loaded<List<Material>> loaded =
        read(
            rows(
                "id,inci_name,family,active_typ_pct,salt_max_pct",
                "a,Cocamidopropyl Betaine,amidopropyl betaine,30,6"));
    assertEquals("salt_max_pct", only(loaded, "half-range").place().field());
    assertEquals(Range.exactly(6), loaded.value().get(0).saltPercent());
  }

  // What the trade gets wrong

  @Test
  void dryResidueEnteredAsActiveMatterBesideTheDryResidue() {
    Loaded<List<Material>> loaded =
        read(
            rows(
                "id,inci_name,family,active_typ_pct,salt_typ_pct,dry_residue_min_pct,dry_residue_max_pct",
                "a,Cocamidopropyl Betaine,amidopropyl betaine,35,5,34,37"));
    assertAt(
        only(loaded, "dry-residue-as-active"),
        Severity.ERROR,
        2,
        "active_typ_pct",
        "35 % active and 5 % salt",
        "this is the dry residue; active matter would be about 30.5");
    assertIds(loaded);
  }

  @Test
  void dryResidueEnteredAsActiveMatterWithoutSalt() {
    Loaded<List<Material>> loaded =
        read(
            rows(
                "id,inci_name,family,active_typ_pct,dry_residue_min_pct,dry_residue_max_pct",
                "a,Cocamidopropyl Betaine,amidopropyl betaine,35,34,37"));
    Problem p = only(loaded, "dry-residue-as-active");
    assertEquals(Severity.ERROR, p.severity());
    assertEquals("35 % active of 35.5 % dry residue", p.found());
    assertIds(loaded);
  }

  @Test
  void aShareOfOneEnteredAsPercentOfActiveMatter() {
    Loaded<List<Material>> loaded = read(HEADER + GOOD.replace(",30,", ",0.3,"));
    assertAt(
        only(loaded, "active-as-fraction"),
        Severity.WARNING,
        2,
        "active_typ_pct",
        "0.3 % active",
        "30, if a share of 1 was meant");
    assertIds(loaded, "betaine-mine");
  }

  @Test
  void dryResidueEnteredAsActiveMatterAlone() {
    Loaded<List<Material>> loaded = read(HEADER + GOOD.replace(",30,", ",35,"));
    assertAt(
        only(loaded, "dry-residue-as-active"),
        Severity.WARNING,
        2,
        "active_typ_pct",
        "35 % active",
        "about 30; see the supplier's sheet");
    assertIds(loaded, "betaine-mine");
  }

  @Test
  void activeMatterThatLeavesRoomForTheSaltIsRight() {
    Loaded<List<Material>> loaded =
        read(
            rows(
                "id,inci_name,family,active_typ_pct,salt_typ_pct,dry_residue_min_pct,dry_residue_max_pct",
                "a,Cocamidopropyl Betaine,amidopropyl betaine,30,5.25,34,37",
                "g,Decyl Glucoside,alkaline alkyl polyglucoside,52,0.1,50,55"));
    assertEquals(List.of(), loaded.problems());
  }

  @Test
  void aPhWithoutItsDilution() {
    Loaded<List<Material>> loaded = read(HEADER + GOOD.replace(",6,10", ",6,"));
    assertAt(
        only(loaded, "ph-without-dilution"),
        Severity.WARNING,
        2,
        "ph_dilution_pct",
        "nothing",
        "10, which is taken here, with a wider range");
    assertFalse(loaded.value().get(0).statedPh().orElseThrow().basisCertain());
    assertTrue(loaded.value().get(0).caveats().stream().anyMatch(c -> c.contains("dilution")));
  }

  @Test
  void aDilutionOfNothing() {
    Problem p = only(read(HEADER + GOOD.replace(",6,10", ",6,0")), "number-range");
    assertEquals("ph_dilution_pct", p.place().field());
  }

  @Test
  void aDilutionWithoutPh() {
    Loaded<List<Material>> loaded = read(HEADER + GOOD.replace("4.5,6,10", ",,10"));
    assertEquals(Severity.WARNING, only(loaded, "dilution-without-ph").severity());
    assertIds(loaded, "betaine-mine");
  }

  @Test
  void contentsOverOneHundredPercent() {
    Loaded<List<Material>> loaded =
        read(
            rows(
                "id,inci_name,family,active_typ_pct,salt_typ_pct,water_pct,constituents",
                "a,Cocamidopropyl Betaine,amidopropyl betaine,30,5,70,",
                "b,Cocamidopropyl Betaine,amidopropyl betaine,30,5,,Glycerin 70",
                "c,Cocamidopropyl Betaine,amidopropyl betaine,30,5,65,"));
    List<Problem> found = loaded.problems();
    assertEquals(
        List.of("over-100-percent", "over-100-percent"),
        found.stream().map(Problem::code).toList());
    assertEquals(
        "105 % of active matter, salt, other constituents and water", found.get(0).found());
    assertEquals(2, found.get(0).place().row());
    assertEquals("105 % of active matter, salt and other constituents", found.get(1).found());
    assertEquals(3, found.get(1).place().row());
    assertIds(loaded, "c");
  }

  @Test
  void aDuplicateOfAFaultyRowIsToldAndNeitherIsKept() {
    Loaded<List<Material>> loaded =
        read(HEADER + GOOD.replace(",30,", ",thirty,") + GOOD + GOOD.replace(",30,", ",x,"));
    List<Problem> twice =
        loaded.problems().stream().filter(p -> p.code().equals("duplicate-id")).toList();
    assertEquals(List.of(3, 4), twice.stream().map(p -> p.place().row()).toList());
    assertEquals(
        "the earlier row has a fault, so neither is kept: give this one an id of its own, or remove"
            + " one of the two",
        twice.get(0).advice());
    assertEquals(List.of(), loaded.value());
  }

  @Test
  void aMaterialForNothingIsWarnedOf() {
    Loaded<List<Material>> loaded =
        read("id,inci_name,price_per_kg\nmy-glycerin,Glycerin,0\nmy-water,Aqua,0\n");
    assertEquals(2, only(loaded, "price-of-nothing").place().row());
    assertIds(loaded, "my-glycerin", "my-water");
  }

  @Test
  void aDuplicateIdKeepsTheFirstRow() {
    Loaded<List<Material>> loaded = read(HEADER + GOOD + GOOD.replace(",30,", ",29,"));
    assertAt(
        only(loaded, "duplicate-id"),
        Severity.ERROR,
        3,
        "id",
        "'betaine-mine'",
        "the earlier row is kept: give this one an id of its own, or remove one of the two");
    assertEquals(30, loaded.value().get(0).activePercent().typical());
  }

  @Test
  void anUnknownChargeClass() {
    for (var word :
        List.of(
            List.of("amfoteric", "amphoteric"),
            List.of("zwitterionic", "amphoteric"),
            List.of("non-ionic", "nonionic"),
            List.of("annionic", "anionic"),
            List.of("xyz", ""))) {
      Loaded<List<Material>> loaded =
          read(HEADER + GOOD.replace(",amphoteric,", "," + word.get(0) + ","));
      assertAt(
          only(loaded, "unknown-class"),
          Severity.ERROR,
          2,
          "charge_class",
          "'" + word.get(0) + "'",
          word.get(1));
      assertIds(loaded);
    }
  }

  @Test
  void aClassThatIsNotTheFamilys() {
    Loaded<List<Material>> loaded = read(HEADER + GOOD.replace(",amphoteric,", ",anionic,"));
    assertEquals(Severity.WARNING, only(loaded, "class-family").severity());
  }

  @Test
  void anUnknownOrMissingFamilyGetsTheDefaultOfItsClass() {
    Loaded<List<Material>> loaded =
        read(
            HEADER
                + GOOD.replace(",amidopropyl betaine,", ",amidopropyl betain,")
                + GOOD.replace("mine", "two").replace(",amidopropyl betaine,", ",,"));
    assertAt(
        only(loaded, "unknown-family"),
        Severity.WARNING,
        2,
        "family",
        "'amidopropyl betain'",
        "amidopropyl betaine");
    assertEquals(3, only(loaded, "missing-family").place().row());
    for (Material m : loaded.orElseThrow()) {
      assertTrue(m.family().is(Family.Trait.UNDOCUMENTED));
      assertTrue(m.caveats().stream().anyMatch(c -> c.contains("acids and bases")));
    }
  }

  @Test
  void aSurfactantWithoutActiveMatter() {
    Loaded<List<Material>> loaded = read(HEADER + GOOD.replace(",30,", ",,"));
    assertAt(only(loaded, "missing-value"), Severity.ERROR, 2, "active_typ_pct", "nothing", "");
  }

  @Test
  void activeMatterOfWhatIsNoSurfactant() {
    Loaded<List<Material>> loaded = read(HEADER + GOOD.replace(",amphoteric,", ",none,"));
    assertEquals("charge_class", only(loaded, "active-without-class").place().field());
  }

  @Test
  void nothingSaidOfWhatIsInside() {
    Loaded<List<Material>> loaded = read("id,inci_name\noil,Olea Europaea Fruit Oil\n");
    assertEquals(Severity.WARNING, only(loaded, "no-constituents").severity());
    assertEquals(0, loaded.value().get(0).waterPercent().typical());
  }

  @Test
  void waterIsNeverListedAndNothingTwice() {
    Loaded<List<Material>> loaded =
        read(
            rows(
                "id,inci_name,family,active_typ_pct,constituents",
                "a,Cocamidopropyl Betaine,amidopropyl betaine,30,Aqua 60",
                "b,Cocamidopropyl Betaine,amidopropyl betaine,30,Glycerin 1; glycerin 2"));
    assertEquals(2, only(loaded, "water-listed").place().row());
    assertEquals(3, only(loaded, "duplicate-constituent").place().row());
  }

  @Test
  void figuresThatNoKilogramCanHold() {
    Loaded<List<Material>> loaded =
        read(
            rows(
                "id,inci_name,family,active_typ_pct,molar_mass_g_per_mol,lot",
                "a,Cocamidopropyl Betaine,amidopropyl betaine,60,11,L1"));
    assertAt(
        only(loaded, "number-range"),
        Severity.ERROR,
        2,
        "molar_mass_g_per_mol",
        "54.5455 mol/kg of 'betaine carboxyl'",
        "the molar mass is that of the active matter in g/mol");
  }

  @Test
  void waterAsTheMainSurfactantAndAGroupTwice() {
    Loaded<List<Material>> loaded =
        read(
            rows(
                "id,inci_name,family,active_typ_pct,groups",
                "a,Aqua (and) Cocamidopropyl Betaine,amidopropyl betaine,30,",
                "b,Aqua (and) Glycerin,humectant,,",
                "c,Cocamidopropyl Betaine,amidopropyl betaine,30,"
                    + "\"x: acid citric, 1 mol/kg; x: acid citric, 2 mol/kg\""));
    assertEquals("inci_name", only(loaded, "water-listed").place().field());
    assertEquals("groups", only(loaded, "duplicate-constituent").place().field());
    assertIds(loaded, "b");
  }

  @Test
  void aRemainderBesideAnUndeclaredPartIsKeptApart() {
    Material m =
        read(rows(
                "id,inci_name,charge_class,family,active_typ_pct,water_pct,constituents",
                "p,Sodium Cocoyl Isethionate,anionic,acyl isethionate,85,2,(undeclared) 3"))
            .orElseThrow()
            .get(0);
    assertEquals(2, m.waterPercent().typical(), 1e-12);
  }

  @Test
  void listsInOneCellThatCannotBeTakenApart() {
    Loaded<List<Material>> loaded =
        read(
            rows(
                "id,inci_name,family,active_typ_pct,constituents,groups,other_sources",
                "a,Cocamidopropyl Betaine,amidopropyl betaine,30,Glycerin,,",
                "b,Cocamidopropyl Betaine,amidopropyl betaine,30,,soap 0.1 mol/kg,",
                "c,Cocamidopropyl Betaine,amidopropyl betaine,30,,\"soap: colour red, 1 mol/kg\",",
                "d,Cocamidopropyl Betaine,amidopropyl betaine,30,,,COM",
                "e,Cocamidopropyl Betaine,amidopropyl betaine,30,Glycerin 1....2,,"));
    assertEquals(
        List.of(
            "mine.csv row 2 column constituents",
            "mine.csv row 3 column groups",
            "mine.csv row 4 column groups",
            "mine.csv row 5 column other_sources",
            "mine.csv row 6 column constituents"),
        loaded.problems().stream()
            .filter(p -> p.code().equals("text-format"))
            .map(p -> p.place().toString())
            .toList());
    assertIds(loaded);
  }

  @Test
  void everyFaultOfARowIsReportedAtOnce() {
    Loaded<List<Material>> loaded =
        read(
            rows(
                "id,inci_name,charge_class,family,active_typ_pct,salt_typ_pct,ph_low,ph_high",
                ",,cationc,x,\"3,0\",5%,9,4"));
    assertEquals(
        List.of(
            "missing-value",
            "missing-value",
            "unknown-class",
            "decimal-comma",
            "unknown-family",
            "percent-sign",
            "range-order"),
        loaded.problems().stream().map(Problem::code).toList());
    ProblemsException thrown = assertThrows(ProblemsException.class, loaded::orElseThrow);
    assertEquals(7, thrown.problems().size());
  }

  // Files

  @Test
  void aByteOrderMarkAndCarriageReturnsDoNotMatter() {
    Loaded<List<Material>> loaded = read("\uFEFF" + (HEADER + GOOD).replace("\n", "\r\n"));
    assertEquals(List.of(), loaded.problems());
    assertIds(loaded, "betaine-mine");
  }

  @Test
  void aLineBreakInQuotesKeepsTheRowNumbersRight() {
    Loaded<List<Material>> loaded =
        read(
            String.join(
                "\r\n",
                "id,inci_name,family,active_typ_pct,notes",
                "a,Cocamidopropyl Betaine,amidopropyl betaine,30,\"two",
                "",
                "lines\"",
                "b,Cocamidopropyl Betaine,amidopropyl betaine,30 %,\"more",
                "lines\"",
                "",
                "c,Cocamidopropyl Betaine,amidopropyl betaine,\"3,0\",",
                ""));
    assertEquals("two\r\n\r\nlines", loaded.value().get(0).notes());
    assertEquals(5, only(loaded, "percent-sign").place().row());
    assertEquals(8, only(loaded, "decimal-comma").place().row());
  }

  @Test
  void anEmptyFile() {
    for (String text : List.of("", "\n\n", " \r\n", "\uFEFF")) {
      Loaded<List<Material>> loaded = read(text);
      assertEquals(Severity.ERROR, only(loaded, "empty-input").severity());
      assertEquals(1, loaded.problems().size());
    }
  }

  @Test
  void aHeaderOnly() {
    Loaded<List<Material>> loaded = read(HEADER);
    assertEquals(Severity.WARNING, only(loaded, "no-rows").severity());
    assertEquals(1, loaded.problems().size());
  }

  @Test
  void otherSeparatorsAreReadWithAWarning() {
    for (String separator : List.of(";", "\t", "|")) {
      Loaded<List<Material>> loaded = read((HEADER + GOOD).replace(",", separator));
      assertEquals(Severity.WARNING, only(loaded, "separator").severity());
      assertIds(loaded, "betaine-mine");
    }
  }

  @Test
  void aDecimalCommaInASemicolonFileIsStillAsked() {
    Loaded<List<Material>> loaded =
        read((HEADER + GOOD).replace(",", ";").replace(";30;", ";30,5;"));
    assertEquals("30.5", only(loaded, "decimal-comma").advice());
    assertIds(loaded);
  }

  @Test
  void anUnknownColumn() {
    Loaded<List<Material>> loaded =
        read(
            HEADER.replace("salt_typ_pct", "salt_typ_pc").replace("\n", ",colour of the lid\n")
                + GOOD);
    List<Problem> found =
        loaded.problems().stream().filter(p -> p.code().equals("unknown-column")).toList();
    assertEquals(2, found.size());
    assertEquals("salt_typ_pct", found.get(0).advice());
    assertEquals(1, found.get(0).place().row());
    assertEquals("", found.get(1).advice());
    assertEquals(Severity.WARNING, found.get(0).severity());
    assertIds(loaded, "betaine-mine");
  }

  @Test
  void aMissingColumn() {
    Loaded<List<Material>> loaded = read("name,family\nBetaine,amidopropyl betaine\n");
    List<Problem> found =
        loaded.problems().stream().filter(p -> p.code().equals("missing-column")).toList();
    assertEquals(List.of("id", "inci_name"), found.stream().map(p -> p.place().field()).toList());
    assertEquals(1, found.get(0).place().row());
    assertIds(loaded);
  }

  @Test
  void aDuplicateColumn() {
    Loaded<List<Material>> loaded =
        read(
            rows(
                "id,inci_name,family,active_typ_pct,Active_Typ_Pct",
                "a,Cocamidopropyl Betaine,amidopropyl betaine,30,46"));
    assertAt(
        only(loaded, "duplicate-column"),
        Severity.ERROR,
        1,
        "active_typ_pct",
        "a second column of this name",
        "only the first is read: rename or remove the second");
    assertEquals(30, loaded.value().get(0).activePercent().typical());
  }

  @Test
  void aColumnNameThatCannotBePrintedIsSpelledOut() {
    Loaded<List<Material>> loaded = read("id,inci_name,a\0,a\0\nx,Aqua,,\n");
    assertEquals("'a\\u0000'", only(loaded, "unknown-column").place().field());
    assertEquals("'a\\u0000'", only(loaded, "duplicate-column").place().field());
  }

  @Test
  void nulAndOtherControlCharacters() {
    Loaded<List<Material>> loaded =
        read(HEADER + GOOD.replace("Coca", "Co\0ca") + GOOD.replace("mine", "two"));
    assertEquals(2, only(loaded, "control-character").place().row());
    assertEquals("the character '\\u0000'", only(loaded, "control-character").found());
    assertIds(loaded, "betaine-two");
  }

  @Test
  void aQuoteThatNeverCloses() {
    Loaded<List<Material>> loaded =
        read(HEADER + GOOD + "\"lost,Cocamidopropyl Betaine\n" + GOOD.replace("mine", "two"));
    assertEquals(3, only(loaded, "unbalanced-quote").place().row());
    assertIds(loaded, "betaine-mine", "betaine-two");
  }

  @Test
  void aQuoteThatClosesTooEarly() {
    Loaded<List<Material>> loaded = read(HEADER + "\"lost\" one,Cocamidopropyl Betaine\n" + GOOD);
    assertEquals(2, only(loaded, "unbalanced-quote").place().row());
    assertIds(loaded, "betaine-mine");
  }

  @Test
  void aRowOfTenMegabytes() {
    String long1 = "x".repeat(10 << 20);
    Loaded<List<Material>> oneCell =
        read(HEADER + GOOD + "long," + long1 + ",,,\n" + GOOD.replace("mine", "two"));
    assertEquals(3, only(oneCell, "cell-too-long").place().row());
    assertIds(oneCell, "betaine-mine", "betaine-two");

    Loaded<List<Material>> manyCells = read(HEADER + "x,".repeat(5 << 20) + "\n" + GOOD);
    assertEquals(2, only(manyCells, "too-many-columns").place().row());
    assertIds(manyCells, "betaine-mine");
  }

  @Test
  void moreThanTheLimit() {
    Loaded<List<Material>> loaded = read("x".repeat(Input.MOST_CHARACTERS + 1));
    assertEquals(Severity.ERROR, only(loaded, "too-large").severity());
    assertEquals(1, loaded.problems().size());
  }

  @Test
  void moreRowsThanTheLimit() {
    Loaded<List<Material>> loaded = read("id,inci_name\n" + "x,X\n".repeat(Input.MOST_ROWS));
    Problem p =
        loaded.problems().stream()
            .filter(q -> q.code().equals("too-many-rows"))
            .findFirst()
            .orElse(null);
    // Duplicates fill the list of problems first; either answer is a clear one.
    assertNotNull(
        p == null
            ? loaded.problems().stream()
                .filter(q -> q.code().equals("too-many-problems"))
                .findFirst()
                .orElse(null)
            : p);
  }

  @Test
  void aHopelessFileGivesAReadableNumberOfProblems() {
    Loaded<List<Material>> loaded = read(HEADER + "\"a\" b\n".repeat(5000));
    assertTrue(loaded.problems().size() <= 30, () -> loaded.problems().size() + " problems");
    Loaded<List<Material>> wrong = read(HEADER + GOOD.replace(",30,", ",3 %,").repeat(5000));
    assertEquals(ProblemLog.MOST + 1, wrong.problems().size());
    assertEquals(
        1, wrong.problems().stream().filter(p -> p.code().equals("too-many-problems")).count());
  }

  @Test
  void anIdThatIsNotInTheUsualForm() {
    Problem p = only(read(HEADER + GOOD.replace("betaine-mine", "My Betaine (30 %)")), "id-format");
    assertAt(p, Severity.WARNING, 2, "id", "'My Betaine (30 %)'", "my-betaine-30");
  }
}
