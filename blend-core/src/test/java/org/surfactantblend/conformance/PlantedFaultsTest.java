package org.surfactantblend.conformance;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.surfactantblend.Blends;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.CertificateOfAnalysis;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.material.SheetPh;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.quantity.Range;

/** One wrong figure at a time in a good row: the check that is meant for it finds it, no other. */
class PlantedFaultsTest {
  private static final MaterialTable TABLE = Blends.starterTable();
  private static final Material SULFATE = TABLE.get("sodium-laureth-sulfate-27");
  private static final Material BETAINE = TABLE.get("cocamidopropyl-betaine-30");
  private static final Material SULTAINE = TABLE.get("lauryl-hydroxysultaine-30");
  private static final Material GLUCOSIDE = TABLE.get("decyl-glucoside-52");
  private static final Material SARCOSINATE = TABLE.get("sodium-lauroyl-sarcosinate-95");
  private static final Material CITRIC = TABLE.get("citric-acid-20");
  private static final AcidBase CITRIC_ACID = TABLE.acids().get("citric");

  private final Map<String, Supplier<Conformance>> faults = new LinkedHashMap<>();

  private static Constituent active(Material m, Range percent, ChargeClass c, double molarMass) {
    return Constituent.active(m.inciName(), percent, c, OptionalDouble.of(molarMass));
  }

  private void plant(String code, String what, Supplier<Conformance> wrong) {
    faults.put(code + ": " + what, wrong);
  }

  private void row(String code, String what, Supplier<Material.Builder> wrong) {
    plant(code, what, () -> Conformance.of(wrong.get().build()).sourcedFrom(Blends.sources()));
  }

  private void sums(String code, String what, Conformance of, Arithmetic wrong) {
    plant(code, what, () -> of.reckonedBy(wrong));
  }

  PlantedFaultsTest() {
    row(
        "active-spread",
        "greatest active matter 42 for 32",
        () ->
            BETAINE.toBuilder()
                .constituent(active(BETAINE, Range.of(28, 30, 42), ChargeClass.AMPHOTERIC, 350)));
    row(
        "active-spread",
        "no active matter in a surfactant",
        () ->
            SULFATE.toBuilder().constituent(active(SULFATE, Range.ZERO, ChargeClass.ANIONIC, 384)));
    row(
        "active-spread",
        "active matter as a share of 1",
        () ->
            SULFATE.toBuilder()
                .constituent(
                    active(SULFATE, Range.of(0.26, 0.27, 0.285), ChargeClass.ANIONIC, 384)));
    row(
        "range-end",
        "soap that leaves no room for the greatest active matter",
        () ->
            SARCOSINATE.toBuilder()
                .constituent(
                    Constituent.other(
                        "Sodium Laurate", Range.exactly(4), OptionalDouble.of(222.3))));
    row(
        "dry-residue",
        "dry residue of another grade",
        () -> BETAINE.toBuilder().dryResiduePercent(Range.between(44, 48)));
    row(
        "dry-residue",
        "dry residue taken for active matter",
        () ->
            BETAINE.toBuilder()
                .constituent(active(BETAINE, Range.of(34, 35, 36), ChargeClass.AMPHOTERIC, 350)));
    row(
        "salt-of-synthesis",
        "salt with its decimal point shifted",
        () ->
            SULTAINE.toBuilder()
                .constituent(
                    Constituent.other(Constituent.SODIUM_CHLORIDE, Range.between(0.45, 0.65))));
    row(
        "molar-mass",
        "molar mass with its decimal point shifted",
        () ->
            SULFATE.toBuilder()
                .constituent(active(SULFATE, Range.of(26, 27, 28.5), ChargeClass.ANIONIC, 38.4)));
    row(
        "molar-mass",
        "no molar mass",
        () ->
            SULFATE.toBuilder()
                .constituent(
                    Constituent.active(
                        SULFATE.inciName(),
                        Range.of(26, 27, 28.5),
                        ChargeClass.ANIONIC,
                        OptionalDouble.empty())));
    row(
        "class-of-family",
        "a sulfate called nonionic",
        () ->
            SULFATE.toBuilder()
                .constituent(active(SULFATE, Range.of(26, 27, 28.5), ChargeClass.NONIONIC, 384)));
    row(
        "class-of-family",
        "a surfactant in a family without surfactants",
        () -> GLUCOSIDE.toBuilder().family(Family.inert("humectant")));
    row(
        "ph-stated",
        "a dilution written as a fraction",
        () -> SULFATE.toBuilder().sheetPh(SheetPh.of(6.5, 8.5, 0.1)));
    row(
        "ph-stated",
        "an open dilution without a note",
        () ->
            SULFATE.toBuilder().notes("").sheetPh(new SheetPh(Range.between(6.5, 8.5), 10, false)));
    row(
        "ph-of-family",
        "a sulfate at pH 2.5",
        () -> SULFATE.toBuilder().sheetPh(SheetPh.of(2.3, 2.7, 10)));
    row(
        "ph-of-family",
        "an alkaline glucoside at pH 7",
        () -> GLUCOSIDE.toBuilder().sheetPh(SheetPh.of(6.5, 7.5, 20)));
    row(
        "ph-spread",
        "a window from 4.5 to 9",
        () -> BETAINE.toBuilder().sheetPh(SheetPh.of(4.5, 9, 10)));
    row(
        "ph-reproduced",
        "declared alkali that does not go with the pH",
        () -> SULFATE.toBuilder().strongIonEqPerKg(Range.exactly(0.9)).source("strong_ion", "COM"));
    row(
        "acid-amount",
        "acid in mol per kg of a ten times stronger solution",
        () -> CITRIC.toBuilder().group(group("citric acid", CITRIC_ACID, 10.4)));
    row("source", "a pH without a source", () -> SULFATE.toBuilder().source("ph", ""));
    row("source", "a source nobody knows", () -> SULFATE.toBuilder().source("ph", "COM; NOBODY"));
    sums(
        "curve-falls",
        "a charge that rises",
        Conformance.of(SULFATE),
        new Arithmetic() {
          @Override
          double charge(Material material, double ph, double ionicStrength) {
            return super.charge(material, 14 - ph, ionicStrength);
          }
        });
    sums(
        "curve-falls",
        "a charge outside its range",
        Conformance.of(SULFATE),
        new Arithmetic() {
          @Override
          double charge(Material material, double ph, double ionicStrength) {
            return super.charge(material, ph, ionicStrength) + 0.2;
          }
        });
    sums(
        "swap-with-itself",
        "gram for gram with another active matter",
        Conformance.of(SULFATE),
        new Arithmetic() {
          @Override
          Blend swappedWithItself(Blend blend, Material material) {
            return mix(material, blend.asSupplied(material.id()).value() * 30 / 27, WATER, 0);
          }
        });
    sums(
        "linear-in-water",
        "a concentrate that stays as it is",
        Conformance.of(CITRIC),
        new Arithmetic() {
          @Override
          Blend mix(Material one, double oneAmount, Material other, double otherAmount) {
            return other == WATER && oneAmount > 20
                ? super.mix(one, oneAmount * 0.999, other, otherAmount)
                : super.mix(one, oneAmount, other, otherAmount);
          }
        });
    sums(
        "active-conserved",
        "active matter lost in a mix",
        Conformance.of(SULFATE),
        new Arithmetic() {
          @Override
          Blend mix(Material one, double oneAmount, Material other, double otherAmount) {
            return super.mix(one, oneAmount, other, otherAmount == 30 ? 29.999 : otherAmount);
          }
        });
    lots();
    tables();
    acids();
  }

  private static AcidBaseGroup group(String name, AcidBase acid, double molPerKg) {
    return new AcidBaseGroup(name, acid, null, Range.exactly(molPerKg), false, false);
  }

  private void lot(String code, String what, Supplier<CertificateOfAnalysis.Builder> wrong) {
    plant(code, what, () -> Conformance.of(wrong.get().build(), BETAINE));
  }

  private static CertificateOfAnalysis.Builder good() {
    return CertificateOfAnalysis.ofLot("L7").activePercent(30.4).saltPercent(5.2).ph(5.1, 10);
  }

  private void lots() {
    lot(
        "outside-specification",
        "active matter of the weaker grade",
        () -> good().activePercent(26));
    plant(
        "dry-residue-as-active",
        "dry residue as active matter",
        () ->
            Conformance.of(
                CertificateOfAnalysis.ofLot("L8").activePercent(35.6).build(), SULTAINE));
    lot(
        "active-above-dry-residue, dry-residue, outside-specification",
        "more active than dry",
        () -> good().activePercent(31).dryResiduePercent(29.5));
    lot("more-than-100", "salt that leaves no room", () -> good().saltPercent(80));
    lot(
        "titration-direction",
        "an end point above the start although acid went in",
        () -> good().alkalinity(30, 6.5, 10));
  }

  private void tables() {
    MaterialTable good =
        MaterialTable.of(TABLE.acids(), TABLE.families().values(), List.of(SULFATE));
    plant(
        "price-of-nothing",
        "a price for an id that is not there",
        () -> Conformance.of(good.priced(PriceList.of("cu", Map.of("sodium-laureth", 1.2)))));
    plant(
        "same-grade",
        "one grade under two ids",
        () -> Conformance.of(good.with(SULFATE.toBuilder().id("sles").build())));
    Family old = SULFATE.family();
    plant(
        "family-in-table",
        "a family of the same name without its groups",
        () ->
            Conformance.of(
                good.with(
                    SULFATE.toBuilder()
                        .family(
                            new Family(
                                old.name(),
                                old.usualClass(),
                                -1,
                                old.stable(),
                                Set.of(),
                                List.of()))
                        .build())));
    plant(
        "acid-in-table",
        "another constant under a known name",
        () ->
            Conformance.of(
                good.with(
                    CITRIC.toBuilder()
                        .group(group("citric acid", CITRIC_ACID.withPka(0, 3.3), 1.04))
                        .build())));
  }

  private void acids() {
    plant(
        "pka-order", "two constants changed over", () -> Conformance.of(AcidBase.acid("x", 6, 4)));
    plant(
        "pka-temperature",
        "an enthalpy in J for kJ",
        () -> Conformance.of(AcidBase.of("x", 0, List.of(new AcidBase.Step(4.7, 150, 0)))));
    sums(
        "acid-curve-falls",
        "a charge that rises",
        Conformance.of(AcidBase.base("x", 9)),
        new Arithmetic() {
          @Override
          double charge(AcidBase acid, double ph, double ionicStrength) {
            return super.charge(acid, Math.abs(ph - 9), ionicStrength);
          }

          @Override
          double[] forms(AcidBase acid, double ph, double ionicStrength) {
            return super.forms(acid, Math.abs(ph - 9), ionicStrength);
          }
        });
    sums(
        "acid-forms",
        "a form left out",
        Conformance.of(CITRIC_ACID),
        new Arithmetic() {
          @Override
          double[] forms(AcidBase acid, double ph, double ionicStrength) {
            double[] forms = super.forms(acid, ph, ionicStrength);
            forms[1] = 0;
            return forms;
          }
        });
  }

  @TestFactory
  Stream<DynamicTest> eachIsFoundByItsOwnCheckAndByNoOther() {
    return faults.entrySet().stream()
        .map(
            e ->
                dynamicTest(
                    e.getKey(),
                    () -> {
                      Set<String> found = new TreeSet<>();
                      e.getValue().get().findings().forEach(f -> found.add(f.code()));
                      assertEquals(
                          e.getKey().substring(0, e.getKey().indexOf(':')),
                          String.join(", ", found));
                    }));
  }

  @TestFactory
  Stream<DynamicTest> theGoodRowsBehindThemHaveNoFinding() {
    return Stream.of(SULFATE, BETAINE, SULTAINE, GLUCOSIDE, SARCOSINATE, CITRIC)
        .map(
            m ->
                dynamicTest(
                    m.id(),
                    () ->
                        assertEquals(
                            List.of(),
                            Conformance.of(m).sourcedFrom(Blends.sources()).findings())));
  }

  @Test
  void theGoodLotAndTheGoodTableBehindThemHaveNoFinding() {
    assertEquals(List.of(), Conformance.of(good().build(), BETAINE).findings());
    assertEquals(
        List.of(),
        Conformance.of(
                MaterialTable.of(
                    TABLE.acids(), TABLE.families().values(), List.of(SULFATE, CITRIC)))
            .findings());
  }

  @Test
  void everyCheckHasAFault() {
    Set<String> planted = new TreeSet<>();
    faults.keySet().forEach(k -> planted.add(k.substring(0, k.indexOf(':'))));
    List<Check> all = new ArrayList<>(Conformance.of(TABLE).checks());
    all.addAll(Conformance.of(good().build(), BETAINE).checks());
    Set<String> codes = new TreeSet<>();
    all.forEach(c -> codes.add(c.code()));
    codes.remove("lot-of-grade"); // hands on the codes of the certificate, four of them above
    codes.removeAll(planted);
    assertEquals(Set.of(), codes);
  }

  @Test
  void figuresWithWhichNothingCanBeWorkedOutAreAFinding() {
    List<Problem> found =
        Conformance.of(CITRIC)
            .reckonedBy(
                new Arithmetic() {
                  @Override
                  Blend mix(Material one, double oneAmount, Material other, double otherAmount) {
                    throw new IllegalArgumentException("lines did not add up");
                  }
                })
            .findings();
    assertEquals(
        List.of("swap-with-itself", "linear-in-water", "active-conserved"),
        found.stream().map(Problem::code).toList());
    assertEquals(
        "figures with which it cannot be worked out: lines did not add up", found.get(0).found());
  }
}
