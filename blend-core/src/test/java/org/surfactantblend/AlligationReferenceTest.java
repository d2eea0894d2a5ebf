package org.surfactantblend;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.OptionalDouble;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.solve.BlendResult;
import org.surfactantblend.solve.BlendSolver;
import org.surfactantblend.testing.Recheck;

/**
 * Alligation alternate, the pharmacist's rule for mixing two strengths to one between them, as a
 * brief with two materials and no water.
 *
 * <p>Sources: ointments of 16 % and 12 % to 1 kg of 12.5 %, the example of the United States
 * Pharmacopeia, general chapter 1160, pharmaceutical calculations (answer 125 g and 875 g; figures
 * from memory). Alcohols of 95 % and 50 % to 70 %, 20 parts to 25, in Ansel, Introduction to
 * Pharmaceutical Calculations (from memory; there by volume, here by mass, which changes nothing in
 * the arithmetic). Isopropyl alcohols of 70 % and 40 % to 60 %, 200 parts in 300, a teaching page
 * of pharmacytechniciantoday.com. Exact arithmetic, so the tolerance is that of sums.
 */
class AlligationReferenceTest {
  private static final double EXACT = 1e-9;

  @ParameterizedTest
  @CsvSource({"16, 12, 12.5, 125, 875", "95, 50, 70, 20, 25", "70, 40, 60, 200, 100"})
  void twoStrengthsMakeOneBetween(
      double strong, double weak, double wanted, double partsStrong, double partsWeak) {
    MaterialTable table =
        MaterialTable.of(
            java.util.List.of(
                strength("strong", strong),
                strength("weak", weak),
                Material.builder("water").inciName("Aqua").family(Family.inert("water")).build()));
    Brief brief =
        Brief.named("alligation")
            .totalActive(wanted, 0)
            .asSupplied("water", 0, 0)
            .choosingFrom("strong", "weak")
            .build();
    BlendResult result = BlendSolver.solve(brief, table);
    Recheck.result(result);
    Blend blend = result.orElseThrow();
    double all = partsStrong + partsWeak;
    assertEquals(partsStrong / all * 100, blend.asSupplied("strong").value(), EXACT);
    assertEquals(partsWeak / all * 100, blend.asSupplied("weak").value(), EXACT);
  }

  private static Material strength(String id, double percent) {
    return Material.builder(id)
        .inciName("Drug " + id)
        .family(Family.inert("drug"))
        .constituent(
            Constituent.active(
                "Drug " + id, Range.exactly(percent), ChargeClass.NONIONIC, OptionalDouble.empty()))
        .strongIonEqPerKg(Range.ZERO)
        .build();
  }
}
