package org.surfactantblend.examples.mymaterials;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.lifecycle.AddLifecycleHook;
import net.jqwik.api.lifecycle.PropagationMode;
import org.surfactantblend.Blends;
import org.surfactantblend.acidity.AcidDose;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.acidity.Titrant;
import org.surfactantblend.batch.BatchSheet;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.conformance.Conformance;
import org.surfactantblend.examples.mymaterials.RandomShop.Lot;
import org.surfactantblend.examples.mymaterials.RandomShop.Made;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Material;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.PhWindow;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Scale;
import org.surfactantblend.solve.BlendResult;
import org.surfactantblend.solve.NoBlend;
import org.surfactantblend.solve.SolvedBlend;
import org.surfactantblend.swap.SupplierSwap;

/** Laws that whatever is made of the shop's rows has to obey. */
@AddLifecycleHook(value = FromCommandLine.class, propagateTo = PropagationMode.ALL_DESCENDANTS)
class MyMaterialsProperties {
  private final MyMaterials mine = MyMaterials.read();
  private final RandomShop shop = new RandomShop(mine);

  @Provide
  Arbitrary<Lot> lots() {
    return shop.row().flatMap(shop::lotOf);
  }

  @Provide
  Arbitrary<Blend> blends() {
    return shop.blend();
  }

  @Provide
  Arbitrary<Made> batches() {
    return shop.madeOfLots();
  }

  @Provide
  Arbitrary<Brief> briefs() {
    return shop.brief();
  }

  @Property
  void aLotInsideTheRangesOfItsRowIsOneThatCanExist(@ForAll("lots") Lot lot) {
    List<Problem> errors =
        Conformance.of(lot.material()).findings().stream().filter(Problem::isError).toList();
    assertTrue(errors.isEmpty(), () -> lot + "\n" + errors);
  }

  @Property
  void aBlendHoldsWhatItsLinesBringAndWater(@ForAll("blends") Blend blend) {
    double active = 0;
    double salt = 0;
    for (BlendLine l : blend.lines()) {
      for (Constituent c : l.material().constituents()) {
        double brought = l.amount().value() / 100 * c.percent().typical();
        active += c.isActive() ? brought : 0;
        salt += c.inciName().equalsIgnoreCase("Sodium Chloride") ? brought : 0;
      }
    }
    double byClass = 0;
    for (ChargeClass c : ChargeClass.values()) {
      byClass += blend.active(c).value();
    }
    double all = 0;
    for (double percent : blend.inciAmounts().values()) {
      all += percent;
    }
    assertEquals(active, blend.totalActive().value(), 1e-9, "total active");
    assertEquals(active, byClass, 1e-9, "active of all classes");
    assertEquals(salt, blend.saltPercent().typical(), 1e-9, "sodium chloride");
    assertEquals(100, all, 1e-9, "everything with water");
  }

  @Property
  void halfOfItInWaterHoldsHalf(@ForAll("blends") Blend blend) {
    Blend.Builder half = Blend.named("half of it in water");
    blend.lines().forEach(l -> half.line(l.material(), l.amount().value() / 2));
    Blend thin = half.upToHundredWith(mine.water());
    assertEquals(blend.totalActive().value() / 2, thin.totalActive().value(), 1e-9);
    assertEquals(blend.saltPercent().high() / 2, thin.saltPercent().high(), 1e-9);
  }

  @Property
  void theStartingPhLiesInItsIntervals(@ForAll("blends") Blend blend) {
    StartingPh ph = StartingPh.of(blend);
    PhWindow all = ph.guaranteed();
    assertTrue(all.low() <= ph.likely().low() && ph.likely().high() <= all.high(), ph::summary);
    assertTrue(all.low() <= ph.typical() && ph.typical() <= all.high(), ph::summary);
    assertTrue(ph.typical() > 1 && ph.typical() < 13.5, ph::summary);
  }

  @Property
  void aBatchOfRealLotsStaysInsideWhatWasGuaranteed(@ForAll("batches") Made made) {
    Range active = made.recipe().totalActiveRange();
    Blend batch = made.batch();
    double real = batch.totalActive().value();
    assertTrue(real >= active.low() - 1e-9 && real <= active.high() + 1e-9, "total active " + real);
    PhWindow guaranteed = StartingPh.of(made.recipe()).guaranteed();
    double ph = StartingPh.of(batch).typical();
    assertTrue(
        ph >= guaranteed.low() - 0.02 && ph <= guaranteed.high() + 0.02,
        () -> "pH " + ph + " of the batch, guaranteed " + guaranteed);
  }

  @Property
  void anotherDrumOfTheSameGradeKeepsTheActiveMatter(@ForAll("batches") Made made) {
    BlendLine first = made.recipe().lines().get(0);
    Material lot = made.lots().get(0).material();
    Blend after =
        SupplierSwap.in(made.recipe()).replace(first.material().id()).with(lot).report().after();
    assertEquals(made.recipe().totalActive().value(), after.totalActive().value(), 1e-6);
    Blend same =
        SupplierSwap.in(made.recipe())
            .replace(first.material().id())
            .with(first.material())
            .report()
            .after();
    assertEquals(first.amount().value(), same.asSupplied(first.material().id()).value(), 1e-9);
  }

  @Property
  void aBriefIsMetOrRefusedWithItsReason(@ForAll("briefs") Brief brief) {
    BlendResult result = Blends.solve(brief, mine.table());
    if (result instanceof NoBlend none) {
      assertFalse(none.conflict().isEmpty(), none::summary);
      return;
    }
    Blend blend = ((SolvedBlend) result).blend();
    for (Requirement r : brief.requirements()) {
      double reached =
          switch (r.kind()) {
            case TOTAL_ACTIVE -> blend.totalActive().value();
            case CLASS_SHARE -> blend.share(ChargeClass.parse(r.subject()).orElseThrow()).value();
            default -> StartingPh.of(blend).typical();
          };
      assertTrue(
          reached >= r.low() - 1e-5 && reached <= r.high() + 1e-5,
          () -> r + " reached " + reached + "\n" + blend);
    }
  }

  @Property
  void theAcidDoseLeadsToItsTarget(@ForAll("blends") Blend blend) {
    double start = StartingPh.of(blend).typical();
    double target = Math.max(3, start - 1);
    if (start - target < 0.2) {
      return;
    }
    AcidDose dose =
        AcidDose.of(blend).to(target).with(Titrant.citricAcid(50)).forBatch(Mass.grams(1000));
    assertEquals(target, dose.phAfter(dose.total()), 0.02, dose::summary);
  }

  @Property
  void weighingKeepsTheActiveMatterWithinItsBound(@ForAll("blends") Blend blend) {
    BatchSheet sheet = BatchSheet.of(blend).mass(Mass.kilograms(2)).on(Scale.of(1, 6000));
    assertEquals(
        blend.totalActive().value(),
        sheet.realised().totalActive().value(),
        sheet.activeErrorBound() + 1e-9,
        sheet::text);
  }
}
