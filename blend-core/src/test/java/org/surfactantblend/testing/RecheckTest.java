package org.surfactantblend.testing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.testing.RecheckedPh.Water;

/** The recheck must stay independent of what it checks, and must fail when it ought to. */
class RecheckTest {
  private static final Path HERE = Path.of("src", "test", "java", "org/surfactantblend/testing");
  private static final Set<String> INDEPENDENT_OF = Set.of("aqueous", "acidity", "optimise");

  /** What may be read of the materials' data, the brief's conditions and the answer. */
  private static final Set<String> READS =
      Set.of(
          "steps", "pKa25", "chargeOfMostProtonatedForm", "apparent", "toString", "pKw", "typical");

  @Test
  void theRecheckImportsNothingOfWhatItChecks() throws IOException {
    for (String file : List.of("Recheck.java", "RecheckedPh.java", "RecheckedIndex.java")) {
      String source = Files.readString(HERE.resolve(file));
      for (String room : INDEPENDENT_OF) {
        assertTrue(
            !source.contains("surfactantblend." + room), file + " must not import from " + room);
      }
    }
  }

  @Test
  void theRecheckOnlyReadsDataFromWhatItChecks() {
    Set<String> calls = new TreeSet<>();
    for (JavaClass c :
        new ClassFileImporter()
            .importPackages("org.surfactantblend.testing")
            .that(DescribedPredicate.describe("the recheck", RecheckTest::isRecheck))) {
      for (JavaAccess<?> a : c.getAccessesFromSelf()) {
        String room = a.getTargetOwner().getPackageName();
        if (INDEPENDENT_OF.stream().anyMatch(r -> room.endsWith("surfactantblend." + r))) {
          calls.add(a.getTarget().getName());
        }
      }
    }
    assertTrue(READS.containsAll(calls), () -> "the recheck calls " + calls);
    assertTrue(calls.contains("steps"), () -> "the scan saw nothing: " + calls);
  }

  private static boolean isRecheck(JavaClass c) {
    String name = c.getName().replaceAll("\\$.*", "");
    return List.of(".Recheck", ".RecheckedPh", ".RecheckedIndex").stream().anyMatch(name::endsWith);
  }

  /**
   * pH of 0.05 mol/kg potassium hydrogen phthalate at 25 C is 4.005 and of 0.01 mol/kg borax 9.180:
   * NIST SP 260-53 (1988). The recheck's own chemistry has to meet them too, with the constants the
   * library documents (phthalic 2.950 and 5.408; boric 9.237, from Goldberg, Kishore and Lennen, J.
   * Phys. Chem. Ref. Data 31 (2002) 231). Tolerance: the 0.03 the activity term is good for.
   */
  @Test
  void itsOwnChemistryMeetsPublishedBuffers() {
    assertEquals(4.005, buffer(0.05, 0, 0.05, 2.950, 5.408), 0.03);
    assertEquals(9.180, buffer(0.04, 0, 0.02, 9.237), 0.03);
  }

  private static double buffer(double molality, int topCharge, double sodium, double... pKa) {
    Water water = Water.at25();
    RecheckedPh.Group acid = new RecheckedPh.Group(molality, pKa, topCharge, false, false);
    double low = 0;
    double high = 14;
    for (int i = 0; i < 100; i++) {
      double ph = (low + high) / 2;
      double ionic = 0.05;
      for (int pass = 0; pass < 200; pass++) {
        ionic =
            sodium / 2
                + molality * acid.charges(water, ph, ionic)[1] / 2
                + (water.h(ph, ionic) + water.oh(ph, ionic)) / 2;
      }
      double charge =
          sodium
              + molality * acid.charges(water, ph, ionic)[0]
              + water.h(ph, ionic)
              - water.oh(ph, ionic);
      if (charge > 0) {
        low = ph;
      } else {
        high = ph;
      }
    }
    return low;
  }

  /** One demand each that the linden face wash of the worked cases misses. */
  static Map<String, UnaryOperator<Brief.Builder>> missed() {
    return Map.ofEntries(
        Map.entry("share", b -> b.share(ChargeClass.AMPHOTERIC, 50.01, 60)),
        Map.entry("material share", b -> b.shareOf("DG1", 0, 49.99)),
        Map.entry("salt", b -> b.salt(0, 0.759)),
        Map.entry("as supplied", b -> b.asSupplied("WATER", 77, 100)),
        Map.entry("starting pH", b -> b.startingPh(7.84, 7.85)),
        Map.entry("pH of surfactants", b -> b.startingPhOfSurfactants(7.9, 8.5)),
        Map.entry("cost", b -> b.costAtMost(0.8)),
        Map.entry("charge", b -> b.netAnionicCharge(1, 10, 7)),
        Map.entry("left out", b -> b.leavingOut("DG1")),
        Map.entry("not chosen from", b -> b.choosingFrom("DG1")),
        Map.entry("fixed", b -> b.fixed("GLY", 1)),
        Map.entry("count", b -> b.atMostSurfactants(1)),
        Map.entry("fewest", b -> b.exactlySurfactants(3)),
        Map.entry("class count", b -> b.atMostOfClass(ChargeClass.NONIONIC, 0)),
        Map.entry("minimum use", b -> b.minimumUse(10)),
        Map.entry("must use", b -> b.mustUse("LG1")),
        Map.entry("not together", b -> b.notTogether("DG1", "CB1")),
        Map.entry("only if", b -> b.onlyIf("DG1", "LG1")));
  }

  static Set<String> demands() {
    return new TreeSet<>(missed().keySet());
  }

  @ParameterizedTest
  @MethodSource("demands")
  void itFailsWhenADemandIsMissed(String demand) {
    WorkedCase c = WorkedCase.number(1);
    Blend blend = c.blend(Map.of(), Map.of());
    Recheck.blend(blend, brief(b -> b), c.prices());
    UnaryOperator<Brief.Builder> change = missed().getOrDefault(demand, b -> b);
    assertThrows(
        AssertionError.class, () -> Recheck.blend(blend, brief(change), c.prices()), demand);
  }

  @Test
  void itFailsWhenTheTotalIsMissed() {
    WorkedCase c = WorkedCase.number(1);
    Blend blend = c.blend(Map.of(), Map.of());
    Brief asked = Brief.named("x").totalActive(9.1, 0.05).fillingUpWith("WATER").build();
    assertThrows(AssertionError.class, () -> Recheck.blend(blend, asked, PriceList.EMPTY));
  }

  private static Brief brief(UnaryOperator<Brief.Builder> change) {
    return change
        .apply(
            Brief.named("linden wash")
                .totalActive(9, 0)
                .fillingUpWith("WATER")
                .conditions(Conditions.ideal(14.00)))
        .build();
  }
}
