package org.surfactantblend.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.junit.jupiter.api.Test;
import org.surfactantblend.Blends;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.quantity.Range;

class ShippedTableTest {
  private final MaterialTable table = Blends.starterTable();

  @Test
  void everyRowLoadsWithoutAProblem() {
    assertEquals(List.of(), ShippedData.starterTable().problems());
    assertEquals(List.of(), ShippedData.sources().problems());
    assertEquals(List.of(), ShippedData.demoPrices(table).problems());
  }

  @Test
  void theTableIsLoadedOnce() {
    assertSame(table, Blends.starterTable());
    assertSame(Blends.demoPrices(), Blends.demoPrices());
    assertSame(Blends.sources(), Blends.sources());
  }

  @Test
  void thereAreEnoughGradesForAShop() {
    assertTrue(table.surfactants().size() >= 45, () -> table.surfactants().size() + " grades");
    assertEquals(
        table.materials().size()
            + " materials, "
            + table.surfactants().size()
            + " of them surfactants, 1 priced",
        table.priced(PriceList.EMPTY.with("water", 0).with("elsewhere", 1)).toString());
    int others = table.materials().size() - table.surfactants().size();
    assertTrue(others >= 25, () -> others + " other materials");
  }

  @Test
  void everySourceIdResolvesAndEveryFigureHasOne() {
    Set<String> known = Blends.sources().keySet();
    for (Material m : table.materials()) {
      m.sources()
          .forEach(
              (figure, ids) -> {
                for (String id : ids.split("; ", -1)) {
                  assertTrue(known.contains(id), () -> m + " " + figure + ": " + id);
                }
              });
      Set<String> sourced = new HashSet<>(m.sources().keySet());
      if (m.isSurfactant()) {
        assertTrue(sourced.contains("active"), () -> m + " has no source for its active matter");
        assertTrue(sourced.contains("molar_mass"), () -> m + " has no source for its molar mass");
      }
      if (m.statedPh().isPresent()) {
        assertTrue(sourced.contains("ph"), () -> m + " has no source for its pH");
      }
    }
  }

  @Test
  void theBetaineDrumHoldsWhatItsRowSays() {
    Material betaine = table.get("cocamidopropyl-betaine-30");
    assertEquals(ChargeClass.AMPHOTERIC, betaine.chargeClass().orElseThrow());
    assertEquals(Range.of(28, 30, 32), betaine.activePercent());
    assertEquals(Range.of(4.5, 5.25, 6), betaine.saltPercent());
    assertEquals("Cocamidopropyl Betaine", betaine.constituents().get(0).inciName());
    assertEquals(Constituent.SODIUM_CHLORIDE, betaine.constituents().get(1).inciName());
    assertEquals(350, betaine.constituents().get(0).molarMass().orElseThrow());
    assertFalse(betaine.sheetPh().orElseThrow().basisCertain());
    assertEquals(1, betaine.family().permanentCharge());
    assertTrue(betaine.groups().stream().anyMatch(g -> g.name().equals("fatty acid")));
    assertEquals("COM", betaine.sources().get("salt"));
  }

  @Test
  void notesForTheBenchLeaveOutWhereAFigureComesFrom() {
    assertEquals(
        List.of(
            "dilution passes through a stiffer gel at about 30-65 % active",
            "free alkali up to 0.1 % sodium hydroxide"),
        table.get("sodium-laureth-sulfate-70").benchNotes());
    Material betaine = table.get("cocamidopropyl-betaine-37");
    assertTrue(betaine.notes().contains("; highest rinse-off use in a survey 11 %"));
    assertEquals(
        List.of(
            "do not take the solids (about 46 %) for active matter",
            "the salt follows from the making: 6.3 % at 37.5 % active", "may set below about 5 C"),
        betaine.benchNotes());
    assertEquals(List.of(), table.get("water").benchNotes());
  }

  @Test
  void anAcidOfTheTableKeepsItsEnthalpies() {
    Material betaine = table.get("cocamidopropyl-betaine-30");
    var glycolic =
        betaine.groups().stream().filter(g -> g.name().equals("glycolic acid")).findFirst();
    assertEquals(table.acids().get("glycolic"), glycolic.orElseThrow().acid());
    assertEquals(-160, glycolic.orElseThrow().acid().steps().get(0).heatCapacityJPerKPerMol());
  }

  @Test
  void aGroupWithConstantsOfItsOwnIsApparent() {
    var fatty =
        table.get("cocamidopropyl-betaine-30").groups().stream()
            .filter(g -> g.name().equals("fatty acid"))
            .findFirst()
            .orElseThrow();
    assertTrue(fatty.acid().apparent());
    assertEquals(Range.of(5.8, 6.3, 7.5), fatty.pKa());
  }

  @Test
  void aWindowWithOneOpenSideReachesTheEndOfTheScale() {
    Family glucoside = table.get("decyl-glucoside-52").family();
    assertTrue(glucoside.is(Family.Trait.CAUSTIC));
    assertEquals(3, glucoside.stableWindow().orElseThrow().low());
    assertEquals(14, glucoside.stableWindow().orElseThrow().high());
    assertTrue(table.get("potassium-cocoate-38").family().is(Family.Trait.SOAP));
    assertTrue(table.get("sodium-cocoyl-isethionate-85").family().is(Family.Trait.ESTER));
    assertTrue(table.get("ammonium-lauryl-sulfate-28").family().is(Family.Trait.AMMONIUM));
  }

  @Test
  void strongIonsAreDeclaredOnlyWhereThereIsNoSheetPh() {
    for (Material m : table.materials()) {
      assertFalse(m.statedPh().isPresent() && m.strongIonEqPerKg().isPresent(), m::id);
    }
    assertEquals(
        Range.of(24.25, 24.63, 24.88),
        table.get("sodium-hydroxide-pearls").strongIonEqPerKg().orElseThrow());
  }

  @Test
  void aNeutralSaltStaysNeutralOverItsWholePurity() {
    assertEquals(Range.ZERO, table.get("sodium-chloride").strongIonEqPerKg().orElseThrow());
    assertEquals(Range.ZERO, table.get("potassium-chloride").strongIonEqPerKg().orElseThrow());
  }

  @Test
  void onlyWaterIsAllWater() {
    for (Material m : table.materials()) {
      assertEquals(
          m.id().equals("water"), m.waterPercent().typical() == 100, () -> m + " has no content");
    }
  }

  @Test
  void everyMaterialHasAChargeCurve() {
    for (Material m : table.materials()) {
      assertTrue(
          Double.isFinite(m.chargeCurve(Conditions.standard()).chargeEqPerKg(7, 0.1)), m::id);
    }
  }

  @Test
  void everyDemoPriceIsForAMaterialOfTheTable() {
    for (String id : Blends.demoPrices().materialIds()) {
      assertTrue(table.find(id).isPresent(), id);
    }
  }

  @Test
  void faultsInTheFilesAreFound() {
    Map<String, String> files =
        Map.of(
            "sources.csv",
            "id,citation,kind,note\nA,Book,memory,\nA,Other,memory,\n",
            "acids.csv",
            """
            key,inci_name,step,charge_of_acid_form,pka_25c,source_id
            citric,Citric Acid,1,0,3.1,A
            ciric,X,1,0,5,B
            citric,Citric Acid,2,0,4.8,A
            """,
            "families.csv",
            "family,charge_class,source\nbetaine,amphoteric,A\n",
            "groups.csv",
            """
            scope,key,group,acid,charge_of_acid_form,amount_typ,amount_basis,source
            family,betaine,citric acid,citrc,0,0.1,mol_per_kg_as_supplied,A
            family,betain,acid,citric,0,0.1,mol_per_kg_as_supplied,A
            material,nothing,acid,citric,0,0.1,mol_per_kg_as_supplied,A
            """,
            "irritation.csv",
            "inci_name,low,mid,high,evidence,source\nM Betaine,10,20,35,guessed,A\n",
            "constituents.csv",
            "material_id,inci_name,typ_pct\nnone,Glycerin,2\n",
            "materials.csv",
            """
            id,inci_name,charge_class,family,active_typ_pct
            m,M Betaine,amphoteric,betaine,30
            m,M Betaine,amphoteric,betaine,30
            """);
    Function<String, Input> shipped = name -> Input.text(name, files.getOrDefault(name, ""));
    Loaded<MaterialTable> loaded = ShippedData.starterTable(shipped);
    List<String> found =
        loaded.problems().stream().map(p -> p.code() + " " + p.place()).sorted().toList();
    assertEquals(
        List.of(
            "acid-charge acids.csv row 4 column charge_of_acid_form",
            "choice irritation.csv row 2 column evidence",
            "duplicate-id materials.csv row 3 column id",
            "duplicate-id sources.csv row 3 column id",
            "unknown-acid groups.csv row 2 column acid",
            "unknown-family groups.csv row 3 column key",
            "unknown-material constituents.csv row 2 column material_id",
            "unknown-material groups.csv row 4 column key",
            "unknown-source acids.csv row 3 column source_id"),
        found);
    assertTrue(loaded.problems().stream().allMatch(Problem::isError));
    assertEquals(1, loaded.value().materials().size());
  }
}
