package org.surfactantblend.batch;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.surfactantblend.Blends;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Scale;
import org.surfactantblend.testing.Says;
import org.surfactantblend.testing.Shop;

/** Figures worked out by hand: sulf is 27 % active, beta 30 %. */
class BatchByHandTest {
  private static final Scale TENTH = Scale.of(0.1, 500);
  private static final Scale FIVE = Scale.of(5, 5000);

  private static Blend blend(double sulf, double beta) {
    Blend.Builder b = Blend.named("hand").line(Shop.SULF, sulf);
    return (beta > 0 ? b.line(Shop.BETA, beta) : b).upToHundredWith(Shop.WATER);
  }

  private static BatchSheet.Plan plan(Blend blend, double grams) {
    return BatchSheet.of(blend).mass(Mass.grams(grams));
  }

  private static Material inert(String id, String family, double percent) {
    return Material.builder(id)
        .inciName(id)
        .family(Family.inert(family))
        .constituent(Constituent.other(id, Range.exactly(percent)))
        .build();
  }

  private static BatchLine line(BatchSheet sheet, Material m) {
    return sheet.line(m.id()).orElseThrow();
  }

  @Test
  void lostWaterIsAtMostTheWaterWeighedIn() {
    AsWeighed pot = AsWeighed.of(plan(blend(20, 0), 100).on(TENTH));
    assertEquals(20, pot.evaporated(Mass.grams(80)).mass().inGrams(), 1e-12);
    assertEquals(
        "evaporated water was 80.1, allowed is 0.0 to 80.0 g",
        assertThrows(IllegalArgumentException.class, () -> pot.evaporated(Mass.grams(80.1)))
            .getMessage());
  }

  @Test
  void waterIsLostFromEveryLineOfWater() {
    Material tap = Material.builder("tap").inciName("Aqua").family(Family.inert("water")).build();
    Blend b =
        Blend.named("two waters").line(Shop.SULF, 20).line(tap, 30).upToHundredWith(Shop.WATER);
    BatchSheet sheet = plan(b, 100).on(TENTH);
    assertEquals(30, line(sheet, tap).weighGrams());
    AsWeighed pot = AsWeighed.of(sheet).evaporated(Mass.grams(40));
    assertEquals(60, pot.mass().inGrams(), 1e-9);
    // 20 g of 27 % in 60 g.
    assertEquals(9, pot.contents().totalActive().value(), 1e-9);
  }

  @Test
  void aMissedLineIsNotInTheKettle() {
    AsWeighed pot = AsWeighed.of(plan(blend(20, 10), 100).on(TENTH)).missed("beta");
    assertTrue(pot.contents().line("beta").isEmpty());
    assertEquals(90, pot.mass().inGrams(), 1e-12);
    assertEquals(
        "material was 'none', allowed is a line of hand",
        assertThrows(IllegalArgumentException.class, () -> pot.missed("none")).getMessage());
  }

  @Test
  void onlyWhatIsMissingIsAdded() {
    AsWeighed pot = AsWeighed.of(plan(blend(20, 10), 1000).on(TENTH)).missed("beta");
    Correction fix = pot.correction();
    assertEquals(Set.of(Shop.BETA), fix.additions().keySet());
    assertEquals(100, fix.additions().getOrDefault(Shop.BETA, 0.0), 1e-6);
    assertEquals(Map.of(Shop.BETA, 100.0), fix.additionsToWeigh());
    assertTrue(fix.isNeeded());
    String text = fix.text();
    assertEquals(text, fix.toString());
    assertTrue(text.contains("Correction of hand, 900 g in the kettle"), text);
    assertTrue(text.contains("  add beta" + " ".repeat(36) + "       100.0 g\n"), text);
    assertTrue(text.contains("final mass 1000 g"), text);
    assertFalse(text.contains("no correction needed"), text);
  }

  @Test
  void aBatchAsPlannedNeedsNoCorrection() {
    String text = AsWeighed.of(plan(blend(20, 10), 1000).on(TENTH)).correction().text();
    assertTrue(
        text.contains("Every content is within 1 % of the plan: no correction needed."), text);
  }

  @Test
  void acidGoesByReadingsAndStretchesNoBatch() {
    MaterialTable table = Blends.starterTable();
    Blend wash =
        Blend.named("wash")
            .line(table.get("cocamidopropyl-betaine-30"), 20)
            .line(table.get("citric-acid-20"), 0.4)
            .upToHundredWith(table.get("water"));
    AsWeighed asPlanned = AsWeighed.of(plan(wash, 1000).on(TENTH));
    Correction tooMuch = asPlanned.weighed("citric-acid-20", Mass.grams(6)).correction();
    assertFalse(tooMuch.isNeeded(), "held at 0.4 %, it would take a batch of 1500 g");
    assertFalse(tooMuch.text().contains("  add "), tooMuch.text());
    assertTrue(tooMuch.text().contains("dose acid by readings"), tooMuch.text());
    Correction missed =
        asPlanned.missed("citric-acid-20").missed("cocamidopropyl-betaine-30").correction();
    assertEquals(200, missed.additions().get(table.get("cocamidopropyl-betaine-30")), 1e-6);
    assertEquals(1000, missed.finalMass().inGrams(), 1e-6);
    assertFalse(missed.additions().containsKey(table.get("citric-acid-20")), missed.text());
  }

  @Test
  void tooMuchSaysTheBatchItWouldTake() {
    // 400 g instead of 200: a batch of 2000 g would hold 20 % of it.
    AsWeighed twice = AsWeighed.of(plan(blend(20, 0), 1000).on(TENTH)).doubled("sulf");
    Correction fix = twice.kettle(Mass.grams(1500)).correction();
    Correction.NotRepaired n =
        fix.notRepaired().stream().filter(r -> r.name().equals("Invented sulf")).findFirst().get();
    assertEquals("there is too much of it: it would take a batch of 2000.0 g", n.reason());
    assertEquals(0.2 * 27, n.plannedPercent(), 1e-9);
    // All of the kettle's room goes to water: 400 g of 27 % in 1500 g.
    assertEquals(400 * 27 / 1500.0, n.reachedPercent(), 1e-6);
    assertTrue(fix.text().contains("not repaired: Invented sulf 7.200 % instead of 5.400 %;"));
  }

  @Test
  void roundingTogetherTakesTheBestOfUpAndDown() {
    // Half up: -0.04 g each, -0.0228 g active. Sulf up and beta down: +0.0162 - 0.012 g.
    BatchSheet alone = plan(blend(10.04, 10.04), 100).on(TENTH);
    assertEquals(10.0, line(alone, Shop.SULF).weighGrams());
    assertEquals(10.0, line(alone, Shop.BETA).weighGrams());
    assertFalse(alone.keepsTotal());
    BatchSheet together = plan(blend(10.04, 10.04), 100).keepingTotal().on(TENTH);
    assertEquals(10.1, line(together, Shop.SULF).weighGrams());
    assertEquals(10.0, line(together, Shop.BETA).weighGrams());
    assertEquals(79.9, together.water().orElseThrow().weighGrams(), 1e-12);
    assertTrue(together.keepsTotal());
  }

  /** The error of the active [g] when each free line goes down or up; the rest is given. */
  private static double least(List<double[]> downUp, int from, double error) {
    if (from == downUp.size()) {
      return Math.abs(error);
    }
    double[] d = downUp.get(from);
    return Math.min(least(downUp, from + 1, error + d[0]), least(downUp, from + 1, error + d[1]));
  }

  @ParameterizedTest
  @ValueSource(ints = {3, 7, 12, 19})
  void roundingTogetherLeavesTheSmallestErrorThereIs(int lines) {
    Random random = new Random(lines);
    Blend.Builder b = Blend.named("many");
    List<Material> shop =
        List.of(Shop.SULF, Shop.BETA, Shop.DECYL, Shop.COCO, Shop.GLUT, Shop.ISET);
    for (int i = 0; i < lines; i++) {
      Material m = shop.get(i % shop.size());
      // One line below a step of the scale: it is either nothing or one step.
      b.line(m.toBuilder().id("m" + i).build(), i == 1 ? 0.04 : 0.5 + 3 * random.nextDouble());
    }
    b.line(Shop.GLYCERIN, 1.23);
    Blend blend = b.upToHundredWith(Shop.WATER);
    BatchSheet sheet = plan(blend, 100).keepingTotal().on(TENTH);
    double error = 0;
    List<double[]> free = new ArrayList<>();
    double fixed = 0;
    List<BlendLine> bySize =
        new ArrayList<>(blend.lines().stream().filter(x -> x.material().isSurfactant()).toList());
    bySize.sort(java.util.Comparator.comparingDouble(l -> -l.material().activePercent().typical()));
    for (BlendLine l : bySize) {
      double active = l.material().activePercent().typical() / 100;
      double exact = l.amount().value();
      error += active * (line(sheet, l.material()).weighGrams() - exact);
      double down = Math.floor(exact * 10) / 10;
      if (down == 0 || free.size() == 16) {
        fixed += active * (Math.floor(exact * 10 + 0.5) / 10 - exact);
      } else {
        free.add(new double[] {active * (down - exact), active * (down + 0.1 - exact)});
      }
    }
    assertEquals(least(free, 0, fixed), Math.abs(error), 1e-9);
    assertEquals(0, line(sheet, shop.get(1).toBuilder().id("m1").build()).weighGrams());
  }

  @Test
  void theBoundOfTheActiveIsHalfAStepOfEveryLine() {
    // 0.05 g of 27 %, and 0.05 g more or less of a total that holds 5.4 %.
    assertEquals(
        (0.27 * 0.05 + 0.054 * 0.05) / 100 * 100,
        plan(blend(20, 0), 100).on(TENTH).activeErrorBound(),
        1e-12);
    // A whole step when lines may go up or down.
    assertEquals(
        (0.27 * 0.1 + 0.054 * 0.05) / 100 * 100,
        plan(blend(20, 0), 100).keepingTotal().on(TENTH).activeErrorBound(),
        1e-12);
    // Without water every line moves the total: 60 g of 27 % and 40 g of 30 %.
    Blend dry = Blend.named("dry").line(Shop.SULF, 60).line(Shop.BETA, 40).build();
    double active = 0.6 * 0.27 + 0.4 * 0.30;
    assertEquals(
        (0.57 * 0.05 + active * 0.1) / 100 * 100,
        plan(dry, 100).on(TENTH).activeErrorBound(),
        1e-12);
    assertEquals(
        (0.57 * 0.1 + active * 0.2) / 100 * 100,
        plan(dry, 100).keepingTotal().on(TENTH).activeErrorBound(),
        1e-12);
  }

  @Test
  void waterMayStandFirst() {
    Blend first = Blend.named("first").line(Shop.WATER, 80).line(Shop.SULF, 20).build();
    BatchSheet sheet = plan(first, 100).on(TENTH);
    assertEquals(80, sheet.water().orElseThrow().weighGrams());
    assertEquals(80, sheet.water().orElseThrow().percent());
    assertEquals(List.of("sulf"), sheet.lines().stream().map(l -> l.material().id()).toList());
  }

  @Test
  void waterComesInTwoPoursToKeepTheTotal() {
    BatchSheet sheet = plan(blend(20.03, 0), 1000).keepingTotal().on(FIVE, TENTH);
    WaterLine water = sheet.water().orElseThrow();
    assertEquals(799.7, water.residualGrams(), 1e-9);
    assertEquals(799.7, water.weighGrams(), 1e-9);
    assertEquals(2, water.pours().size());
    BatchLine most = water.pours().get(0);
    BatchLine rest = water.pours().get(1);
    assertEquals(795, most.weighGrams());
    assertEquals(79.5, most.percent(), 1e-9);
    assertEquals(FIVE, most.scale());
    assertEquals(4.7, rest.weighGrams());
    assertEquals(4.7, rest.exactGrams(), 1e-9);
    assertEquals(0.47, rest.percent(), 1e-9);
    assertEquals(TENTH, rest.scale());
    // One pour where the coarse scale gives it, or where the total need not be kept.
    assertEquals(
        List.of(800.0),
        plan(blend(20, 0), 1000)
            .keepingTotal()
            .on(FIVE, TENTH)
            .water()
            .orElseThrow()
            .pours()
            .stream()
            .map(BatchLine::weighGrams)
            .toList());
    assertEquals(
        List.of(800.0),
        plan(blend(20.03, 0), 1000).on(FIVE, TENTH).water().orElseThrow().pours().stream()
            .map(BatchLine::weighGrams)
            .toList());
  }

  @Test
  void waterThatIsWeighedAtOnceShowsTheRecipeLikeEveryLine() {
    // 1.03 g of the sulfate is weighed as 1.0: 0.03 g are left to the water, which rounds to 99.
    BatchSheet sheet = plan(blend(1.03, 0), 100).on(TENTH);
    WaterLine water = sheet.water().orElseThrow();
    assertEquals(99, water.residualGrams(), 1e-9);
    BatchLine pour = water.pours().get(0);
    assertEquals(98.97, pour.percent());
    assertEquals(98.97, pour.exactGrams(), 1e-9);
    assertEquals(99, pour.weighGrams());
    assertEquals(0.03 / 98.97 * 100, pour.errorPercent(), 1e-9);
    Says.parts(sheet.text(), "  98.970     98.970       99.0     0.03 0.1 g\n");
    assertEquals(List.of(pour), sheet.orderOfAddition().get(Phase.WATER));
  }

  @Test
  void roundingUpCanLeaveNoWater() {
    Blend.Builder b = Blend.named("thick");
    for (int i = 0; i < 4; i++) {
      b.line(inert("powder" + i, "active ingredient", 100), 24.9);
    }
    // 2.54 g each, weighed as 3.
    BatchSheet sheet = plan(b.upToHundredWith(Shop.WATER), 10.2).on(Scale.of(1, 5000));
    assertEquals(0, sheet.water().orElseThrow().weighGrams());
    assertEquals(12, sheet.realisedMass().inGrams());
    assertEquals(25, sheet.realised().line("powder0").orElseThrow().amount().value(), 1e-12);
  }

  @Test
  void aBatchBelowEveryStepIsRefused() {
    assertEquals(
        "batch was 0.1 g, allowed is one that gives at least one step on a scale",
        assertThrows(
                IllegalArgumentException.class, () -> plan(blend(20, 0), 0.1).on(Scale.of(1, 5000)))
            .getMessage());
    assertEquals(
        "scales were none, allowed is at least one",
        assertThrows(IllegalArgumentException.class, () -> plan(blend(20, 0), 1).on(List.of()))
            .getMessage());
  }

  @Test
  void premixesAreAsStrongAsTheScaleAllows() {
    Material oil = inert("oil", "fragrance", 100);
    // 4 g are 40 divisions of 0.1 g: 40 g of a 10 % premix, made from 8 g.
    Blend some = Blend.named("some").line(oil, 4).upToHundredWith(Shop.WATER);
    Premix p = line(plan(some, 100).on(TENTH), oil).premix().orElseThrow();
    assertEquals(new Premix(10, 8, 72, 40, 36), p);
    // 0.3 g: 3 g of 10 % would be 30 divisions, 30 g of 1 % are 300; made from 50 divisions.
    Blend little = Blend.named("little").line(oil, 0.3).upToHundredWith(Shop.WATER);
    Premix q = line(plan(little, 100).on(TENTH), oil).premix().orElseThrow();
    assertEquals(1, q.strengthPercent());
    assertEquals(5, q.materialGrams());
    assertEquals(495, q.liquidGrams(), 1e-9);
    assertEquals(30, q.toWeighGrams());
    assertEquals(29.7, q.liquidBroughtGrams(), 1e-9);
    // 0.02 g would take kilograms of a 0.1 % premix, so a finer scale is advised.
    Blend trace = Blend.named("trace").line(oil, 0.02).upToHundredWith(Shop.WATER);
    BatchLine dust = line(plan(trace, 100).on(TENTH), oil);
    assertTrue(dust.premix().isEmpty());
    assertEquals("take a finer scale or make a larger batch", dust.advice());
    // 3 g of 60 g: 30 g of 10 % would bring 27 g of liquid, but no other line has so much.
    Material syrup = inert("syrup", "humectant", 100);
    Blend crowded =
        Blend.named("crowded")
            .line(oil, 5)
            .line(syrup, 43)
            .line(inert("gum", "thickener", 100), 40)
            .upToHundredWith(Shop.WATER);
    assertTrue(line(plan(crowded, 60).on(TENTH), oil).premix().isEmpty());
    assertEquals(
        new Premix(10, 6, 54, 30, 27),
        line(plan(Blend.named("roomy").line(oil, 5).upToHundredWith(Shop.WATER), 60).on(TENTH), oil)
            .premix()
            .orElseThrow());
    // Fifty divisions are enough; an empty line needs nothing.
    Blend enough = Blend.named("enough").line(oil, 5).upToHundredWith(Shop.WATER);
    BatchLine five = line(plan(enough, 100).on(TENTH), oil);
    assertFalse(five.isTooSmall());
    assertTrue(five.premix().isEmpty());
    assertEquals("", five.advice());
    Blend none = Blend.named("none").line(oil, 0).upToHundredWith(Shop.WATER);
    BatchLine zero = line(plan(none, 100).on(TENTH), oil);
    assertFalse(zero.isTooSmall());
    assertTrue(zero.premix().isEmpty());
    assertEquals(0, zero.errorPercent());
  }

  @Test
  void weighedOnTheFinestScaleThatHoldsIt() {
    // 500 g lie on the fine scale just so; 500.1 g do not.
    assertEquals(TENTH, line(plan(blend(50, 0), 1000).on(FIVE, TENTH), Shop.SULF).scale());
    assertEquals(FIVE, line(plan(blend(50.01, 0), 1000).on(FIVE, TENTH), Shop.SULF).scale());
    // Too heavy for all: the largest, wherever it stands.
    Scale fineAndLarge = Scale.of(0.01, 2000);
    Scale coarse = Scale.of(1, 500);
    BatchLine heavy = line(plan(blend(60, 0), 5000).on(coarse, fineAndLarge), Shop.SULF);
    assertEquals(fineAndLarge, heavy.scale());
    assertEquals(2, heavy.portions());
    assertEquals(
        Scale.of(1, 2000),
        line(plan(blend(60, 0), 5000).on(TENTH, Scale.of(1, 2000)), Shop.SULF).scale());
    // A full scale is one portion, twice as much two.
    assertEquals(1, line(plan(blend(50, 0), 1000).on(TENTH), Shop.SULF).portions());
    assertEquals(2, line(plan(blend(50, 0), 2000).on(TENTH), Shop.SULF).portions());
  }

  @Test
  void aLineTooSmallForACoarseScaleIsWeighedInPortionsOnTheFineOne() {
    // 730 g are 14.6 steps of the large scale; the small one holds 500 g at once.
    Scale fifty = Scale.of(50, 150_000);
    BatchSheet sheet = plan(blend(1.46, 2), 50_000).on(TENTH, fifty);
    BatchLine twice = line(sheet, Shop.SULF);
    assertEquals(TENTH, twice.scale());
    assertEquals(2, twice.portions());
    assertEquals(730, twice.weighGrams(), 1e-9);
    assertFalse(twice.isTooSmall());
    assertEquals(2, line(sheet, Shop.BETA).portions());
    // 4 portions at most: 2000 g go on the small scale, 2000.5 g on the large one.
    assertEquals(4, line(plan(blend(4, 0), 50_000).on(TENTH, fifty), Shop.SULF).portions());
    BatchLine over = line(plan(blend(4.001, 0), 50_000).on(TENTH, fifty), Shop.SULF);
    assertEquals(fifty, over.scale());
    assertTrue(over.isTooSmall());
    // 50 steps are enough for the large one.
    BatchLine enough = line(plan(blend(5, 0), 50_000).on(TENTH, fifty), Shop.SULF);
    assertEquals(fifty, enough.scale());
    assertEquals(1, enough.portions());
  }

  @Test
  void aLineOfTwoLotsIsCorrectedByTheNameOfItsLot() {
    Material first = Shop.BETA.toBuilder().lot("A").build();
    Material other = Shop.BETA.toBuilder().lot("B").build();
    Blend blend = Blend.named("lots").line(Shop.WATER, 70).line(first, 10).line(other, 20).build();
    AsWeighed pot = AsWeighed.of(plan(blend, 1000).on(TENTH));
    String id = Shop.BETA.id();
    assertEquals(980, pot.weighed(id + " lot B", Mass.grams(180)).mass().inGrams(), 1e-9);
    assertEquals(900, pot.missed(id + " lot A").mass().inGrams(), 1e-9);
    assertEquals(
        "material was '" + id + "', allowed is one of the lots " + first + ", " + other,
        assertThrows(IllegalArgumentException.class, () -> pot.missed(id)).getMessage());
    assertThrows(IllegalArgumentException.class, () -> pot.missed(id + " lot C"));
  }

  @Test
  void twoLotsOfOneGradeAreToldApart() {
    Material first = Material.builder("cocamidopropyl-betaine-30").inciName("B").lot("A").build();
    Material other = first.toBuilder().lot("B").build();
    Blend blend =
        Blend.named("lots").line(first, 0.01).line(other, 0.02).upToHundredWith(Shop.WATER);
    String text = plan(blend, 1000).on(TENTH).text();
    assertTrue(text.contains("\n    cocamidopropyl-betain~ lot A   0.010"), text);
    assertTrue(text.contains("\n    cocamidopropyl-betain~ lot B   0.020"), text);
    assertTrue(text.contains("\n  cocamidopropyl-betaine-30 lot A has only 1.0 divisions"), text);
    assertTrue(text.contains("\n  cocamidopropyl-betaine-30 lot B has only 2.0 divisions"), text);
  }

  @ParameterizedTest
  @CsvSource({"0.001, 12.400", "0.02, 12.40", "0.1, 12.4", "0.5, 12.5", "1, 12", "5, 10"})
  void gramsCarryTheDecimalsOfTheScale(double resolution, String text) {
    BatchSheet sheet = plan(blend(12.4, 0), 100).on(Scale.of(resolution, 5000));
    assertEquals(text, line(sheet, Shop.SULF).weighText());
  }

  @Test
  void aLineOffByExactlyTheLimitIsNotAboveIt() {
    // 2.5 g weighed as 3: 20 %.
    BatchSheet sheet = plan(blend(2.5, 40), 100).on(Scale.of(1, 5000));
    assertEquals(20, line(sheet, Shop.SULF).errorPercent());
    assertEquals(List.of(), sheet.linesOffByMoreThan(20));
    assertEquals(List.of(line(sheet, Shop.SULF)), sheet.linesOffByMoreThan(19.9));
    assertEquals(line(sheet, Shop.SULF), sheet.worstLine().orElseThrow());
  }

  @Test
  void theSheetInWords() {
    BatchOrder order =
        BatchOrder.density(1)
            .container("bottle", 100, 8, 1)
            .sample(Mass.grams(50))
            .lossPercent(5)
            .build();
    // 950 g out of the kettle, 5 % of 1000 g lost.
    Material oil = inert("oil", "fragrance", 100);
    Blend blend =
        Blend.named("wash").line(Shop.SULF, 60.003).line(oil, 0.3).upToHundredWith(Shop.WATER);
    BatchSheet sheet =
        BatchSheet.of(blend).mass(order).batchNumber(" 12 ").formulaVersion(" 3 ").on(TENTH);
    assertEquals(order, sheet.order().orElseThrow());
    assertTrue(sheet.text().contains(order.toString()), order::toString);
    assertEquals("12", sheet.batchNumber());
    assertEquals("3", sheet.formulaVersion());
    assertEquals(
        """
        Batch sheet: wash, 1000 g
          batch number 12   formula version 3
          9 x bottle at 100.0 g, 1 of them retained
          tests 50 g, loss 5 %, surplus 0.0 g

          material                            %      exact g    weigh g    error %  on
          water phase: a little water is held back to make up the mass at the end
            water                         39.697    396.970      397.0     0.01 0.1 g
          surfactants: late and slowly, under the surface: air beaten into a thick batch
              stays for days and falsifies fill, viscosity and pH
            sulf                          60.003    600.030      600.0     0.00 0.1 g x2
          fragrance, extracts and actives: cool, oils first mixed with part of the
              surfactant
            oil                            0.300      3.000        3.0     0.00 0.1 g
          exact rest for water 397.000 g, weighed 397 g

          by the rounded grams: 1000 g, total active 16.2000 % (recipe 16.2008 %,
              rounding at most +/- 0.0022 points), sodium chloride 0.120 %
          oil has only 30.0 divisions of its scale: mix 6 g with 54 g of water or
              another liquid line that dissolves it, weigh 30 g of that and leave out 27
              g of the liquid.
          Gloves and goggles for undiluted surfactants, acids and alkalis. Follow local
          rules; release on a measured pH and your own tests, not on this sheet.
        """,
        sheet.text());
    assertEquals(sheet.text(), sheet.toString());
  }

  /** German packaged-goods ordinance, section 9, percentages rounded up to 0.1 ml. */
  @ParameterizedTest
  @CsvSource({
    "30, 2.7",
    "33, 3",
    "50, 4.5",
    "75, 4.5",
    "100, 4.5",
    "150, 6.8",
    "200, 9",
    "250, 9",
    "300, 9",
    "400, 12",
    "500, 15",
    "750, 15",
    "1000, 15",
    "2000, 30"
  })
  void toleranceOfAFilling(double nominalMl, double toleranceMl) {
    assertEquals(
        toleranceMl, new BatchOrder.Container("bottle", nominalMl, 1, 0).toleranceMl(), 1e-12);
  }

  @Test
  void exactFitsAreNotRoundedAway() {
    BatchOrder.Builder ten = BatchOrder.density(1).container("bottle", 100, 10, 0);
    assertEquals(1000, ten.roundUpTo(Mass.grams(250)).build().batch().inGrams(), 1e-9);
    assertEquals(1200, ten.roundUpTo(Mass.grams(300)).build().batch().inGrams(), 1e-9);
    BatchOrder filled = BatchOrder.filledFrom(Mass.grams(1100), 0, Mass.grams(100), 100, 1, 10);
    assertEquals(0, filled.containers().get(0).forSale());
    assertEquals(10, filled.containers().get(0).filled());
    assertEquals(
        "retained bottles were 11, allowed is at most the 10 that 1100 g fills",
        assertThrows(
                IllegalArgumentException.class,
                () -> BatchOrder.filledFrom(Mass.grams(1100), 0, Mass.grams(100), 100, 1, 11))
            .getMessage());
    BatchOrder more = ten.roundUpTo(Mass.grams(1200)).build();
    assertEquals(200, more.surplusGrams(), 1e-9);
    assertEquals(2, more.moreFromSurplus(more.containers().get(0)));
    assertEquals(1, more.densityGramsPerMl());
    BatchOrder lossy =
        BatchOrder.density(1.02).container("bottle", 100, 10, 0).lossPercent(4).build();
    assertEquals(4, lossy.lossPercent());
    assertEquals(1.02, lossy.densityGramsPerMl());
    assertEquals(1020 / 0.96, lossy.neededGrams(), 1e-9);
  }

  /** Common practice, no source. */
  @ParameterizedTest
  @CsvSource({
    "chelator, 40, WATER",
    "humectant, 99, HUMECTANTS",
    "gum, 99, HUMECTANTS",
    "preservative, 99, PRESERVATIVE",
    "acid, 20, PH",
    "base, 20, PH",
    "buffer, 99, PH",
    "thickener, 99, THICKENER",
    "salt, 100, SALT",
    "active ingredient, 99, POWDERS",
    "active ingredient, 95, DELICATE",
    "active ingredient, 20, DELICATE",
    "fragrance, 100, DELICATE",
    "extract, 10, DELICATE",
    "something else, 90, POWDERS"
  })
  void usualPhases(String family, double percent, Phase phase) {
    assertEquals(phase, Phase.usualFor(inert("thing", family, percent)));
  }

  @Test
  void surfactantsAndWaterHaveTheirPhases() {
    assertEquals(Phase.SURFACTANTS, Phase.usualFor(Shop.BETA));
    assertEquals(Phase.WATER, Phase.usualFor(Shop.WATER));
    for (Phase p : Phase.values()) {
      assertFalse(p.label().isBlank());
      assertFalse(p.reason().isBlank());
    }
  }
}
