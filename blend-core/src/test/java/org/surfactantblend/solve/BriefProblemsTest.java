package org.surfactantblend.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.problem.ProblemsException;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.testing.Conflicts;
import org.surfactantblend.testing.Recheck;
import org.surfactantblend.testing.Shop;

/** What is said about a brief that cannot be read, and which sets of surfactants are allowed. */
class BriefProblemsTest {
  private static final MaterialTable TABLE = Shop.table();

  private static Brief.Builder wash() {
    return Brief.named("wash").totalActive(9, 0.2).choosingFrom("decyl", "coco", "beta", "glut");
  }

  private static void problems(Brief brief, String... texts) {
    assertEquals(
        Arrays.asList(texts),
        BlendSolver.check(brief, TABLE).stream().map(Problem::toString).toList());
  }

  private static void tradeOffProblems(Brief brief, Measure a, Measure b, String... texts) {
    ProblemsException e =
        assertThrows(
            ProblemsException.class,
            () -> BlendSolver.tradeOff(brief, TABLE, a, b, SearchBudget.none()));
    assertEquals(Arrays.asList(texts), e.problems().stream().map(Problem::toString).toList());
  }

  @Test
  void aGoodBriefHasNoProblems() {
    problems(wash().startingPh(6, 7).cheapest().fixed("glycerin", 3).mustUse("beta").build());
  }

  @Test
  void aShareOfATotalThatMayBeNothing() {
    Brief.Builder b =
        Brief.named("wash").totalActive(0.2, 0.3).choosingFrom("decyl", "coco", "beta", "glut");
    problems(b.share(ChargeClass.AMPHOTERIC, 0, 70).build());
    problems(
        b.share(ChargeClass.NONIONIC, 20, 70).build(),
        "error total-active-zero at brief \"wash\" share of nonionic: found a share of a total that"
            + " may be 0; allowed: a total of active matter above 0 %. Maybe: a smaller"
            + " tolerance of the total of active matter");
  }

  @Test
  void whatTheTableDoesNotKnow() {
    problems(
        wash()
            .choosingFrom("betaa")
            .leavingOut("decil")
            .notTogether("beta", "nobody")
            .onlyIf("nothing", "beta")
            .shareOf("none", 1, 2)
            .build(),
        "error unknown-material at brief \"wash\" choosing from: found 'betaa'; allowed: an id of"
            + " the table. Maybe: beta",
        "error unknown-material at brief \"wash\" leaving out: found 'decil'; allowed: an id of"
            + " the table.",
        "error unknown-material at brief \"wash\" not together: found 'nobody'; allowed: an id of"
            + " the table.",
        "error unknown-material at brief \"wash\" only if: found 'nothing'; allowed: an id of the"
            + " table.",
        "error unknown-material at brief \"wash\" share of none: found 'none'; allowed: an id of"
            + " the table.");
  }

  @Test
  void linesThatContradictEachOther() {
    problems(
        wash().fixed("beta", 5).build(),
        "error fixed-and-chosen at brief \"wash\" fixed: found 'beta' both as a fixed line and among"
            + " those to choose from; allowed: one of the two. Maybe: drop it from those to choose"
            + " from");
    problems(
        wash().fixed("water", 5).build(),
        "error water-chosen at brief \"wash\" filling up with: found 'water' also as a line of its"
            + " own; allowed: water only as what fills up. Maybe: limit it with asSupplied");
    problems(
        wash().choosingFrom("glycerin").build(),
        "error not-a-surfactant at brief \"wash\" choosing from: found 'glycerin', which has no"
            + " active matter; allowed: surfactants. Maybe: make it a fixed line");
    problems(
        wash().mustUse("water").build(),
        "error not-a-surfactant at brief \"wash\" must use: found 'water', which has no active"
            + " matter; allowed: surfactants. Maybe: make it a fixed line");
    problems(
        wash().mustUse("beta", "glut").atMostSurfactants(1).build(),
        "error must-use-too-many at brief \"wash\" must use: found 2 materials; allowed: at most 1."
            + " Maybe: allow more surfactants");
    problems(wash().mustUse("beta", "glut").atMostSurfactants(2).build());
  }

  @Test
  void fixedLinesThatClash() {
    problems(
        wash().fixed("quar", 2).fixed("sulf", 2).build(),
        "error clash at brief \"wash\" fixed: found quar with sulf; allowed: lines that go together."
            + " Maybe: a cationic surfactant precipitates with an anionic one;"
            + " if you know better, turn the clash guard off with a reason");
    problems(wash().fixed("quar", 2).fixed("sulf", 2).withoutClashGuard("trial").build());
    problems(
        Brief.named("wash")
            .totalActive(9, 0.2)
            .choosingFrom("iset", "decyl")
            .mustUse("iset", "decyl")
            .build(),
        "error clash at brief \"wash\" fixed: found iset with decyl; allowed: lines that go"
            + " together. Maybe: a caustic grade cleaves an ester surfactant unless it is"
            + " neutralised first; if you know better, turn the clash guard off with a reason");
  }

  @Test
  void whatIsNoTitrant() {
    problems(
        wash().toReachPh(5.5, "glycerin", 3).build(),
        "error not-a-titrant at brief \"wash\" "
            + wash().toReachPh(5.5, "glycerin", 3).build().requirements().get(1).label()
            + ": found 'glycerin', 0.0 meq/kg there; allowed: an acid or a base of at least 10"
            + " meq/kg at that pH. Maybe: citric-acid-20, or sodium-hydroxide-10 to raise the pH");
    assertEquals(
        List.of("not-a-titrant"),
        BlendSolver.check(wash().toReachPh(5.5, "sulf", 3).build(), TABLE).stream()
            .map(Problem::code)
            .toList());
    problems(wash().toReachPh(5.5, "citric", 3).build());
  }

  @Test
  void measuresNeedTheirFigures() {
    Brief exact =
        Brief.named("wash").totalActive(9, 0).choosingFrom("decyl", "coco", "beta", "glut").build();
    String ids = "decyl, coco, beta, glut";
    tradeOffProblems(
        exact,
        Measure.NOT_OF_NATURAL_ORIGIN,
        Measure.SALT,
        "error natural-origin-missing at brief \"wash\" natural origin: found no natural origin of "
            + ids
            + ", water; allowed: natural origin of every material that may come in. Maybe: give it"
            + " in rows of your own, or name only materials that have it");
    tradeOffProblems(
        wash().build(),
        Measure.ANIONIC_SHARE,
        Measure.SALT,
        "error total-active-open at brief \"wash\" total active: found a range or nothing; allowed:"
            + " one value without tolerance, so that the measure is linear. Maybe:"
            + " one total of active matter with a tolerance of 0");
    ProblemsException price =
        assertThrows(
            ProblemsException.class,
            () ->
                BlendSolver.tradeOff(
                    wash().build(),
                    MaterialTable.of(TABLE.materials()),
                    Measure.COST,
                    Measure.SALT,
                    SearchBudget.none()));
    assertEquals(
        "error price-missing at brief \"wash\" price list: found no price of "
            + ids
            + ", water; allowed: price of every material that may come in. Maybe:"
            + " give the missing prices, or name only materials that have one",
        price.problems().get(0).toString());
    ProblemsException score =
        assertThrows(
            ProblemsException.class,
            () ->
                BlendSolver.tradeOff(
                    exact, TABLE, Measure.IRRITATION_INDEX, Measure.SALT, SearchBudget.none()));
    assertEquals("irritation-score-missing", score.problems().get(0).code());
    // A limit on the cost needs prices as well, a wish for something else does not.
    MaterialTable bare = MaterialTable.of(TABLE.materials());
    assertEquals(
        List.of("price-missing"),
        BlendSolver.check(wash().costAtMost(1).build(), bare).stream().map(Problem::code).toList());
    assertEquals(List.of(), BlendSolver.check(wash().build(), bare));
  }

  private static SolvedBlend solved(Brief brief) {
    BlendResult result = BlendSolver.solve(brief, TABLE);
    Recheck.result(result, TABLE.prices());
    return result.fold(
        s -> s,
        none -> {
          throw new AssertionError(none.summary());
        });
  }

  private static double percent(SolvedBlend s, String id) {
    return s.blend().asSupplied(id).value();
  }

  private static NoBlend none(Brief brief) {
    BlendResult result = BlendSolver.solve(brief, TABLE);
    Conflicts.verify(result, TABLE);
    return result.fold(
        s -> {
          throw new AssertionError(s.summary());
        },
        n -> n);
  }

  /** The wish asks for glutamate, as the only anionic one; whatever keeps it out shows. */
  private static Brief.Builder anionic() {
    return wash().nearestToShares(Map.of(ChargeClass.ANIONIC, 60.0, ChargeClass.NONIONIC, 40.0));
  }

  @Test
  void keptApartFromAFixedLine() {
    Brief.Builder b = anionic().leavingOut("beta");
    assertTrue(percent(solved(b.fixed("sulf", 3).build()), "glut") > 0);
    for (List<String> pair : List.of(List.of("glut", "sulf"), List.of("sulf", "glut"))) {
      SolvedBlend s =
          solved(
              anionic()
                  .leavingOut("beta")
                  .fixed("sulf", 3)
                  .notTogether(pair.get(0), pair.get(1))
                  .build());
      assertEquals(0, percent(s, "glut"), pair.toString());
      assertEquals(3, percent(s, "sulf"), 1e-9);
    }
    // A pair of which neither is in hinders nothing.
    assertTrue(percent(solved(anionic().notTogether("quar", "iset").build()), "glut") > 0);
    assertTrue(percent(solved(anionic().notTogether("glut", "iset").build()), "glut") > 0);
  }

  @Test
  void onlyTogetherWithAnother() {
    // A fixed line is there; a line that can never come in is not.
    assertTrue(
        percent(solved(anionic().fixed("sulf", 3).onlyIf("glut", "sulf").build()), "glut") > 0);
    assertEquals(0, percent(solved(anionic().onlyIf("glut", "iset").build()), "glut"));
    assertTrue(percent(solved(anionic().onlyIf("iset", "glut").build()), "glut") > 0);
    SolvedBlend both = solved(anionic().onlyIf("glut", "beta").build());
    assertNotEquals(percent(both, "glut") > 0, percent(both, "beta") == 0);
  }

  @Test
  void countsAndLeastUseAreKept() {
    for (int count : new int[] {1, 2, 3, 4}) {
      SolvedBlend s = solved(wash().exactlySurfactants(count).build());
      assertEquals(
          count, s.blend().lines().stream().filter(l -> l.material().isSurfactant()).count());
    }
    SolvedBlend glucosides =
        solved(anionic().atMostOfClass(ChargeClass.NONIONIC, 0).atMostSurfactants(2).build());
    assertEquals(0, percent(glucosides, "decyl") + percent(glucosides, "coco"));
    // Glutamate alone would be nearest; the least use of each keeps all at 4 % or away.
    SolvedBlend least = solved(wash().minimumUse(4).mustUse("beta").cheapest().build());
    for (String id : List.of("decyl", "coco", "beta", "glut")) {
      double p = percent(least, id);
      assertTrue(p == 0 || p >= 4 - 1e-9, id + " " + p);
    }
    assertTrue(percent(least, "beta") >= 4 - 1e-9);
  }

  @Test
  void aConflictOfChoicesNamesEachSetting() {
    NoBlend least =
        none(
            wash()
                .minimumUse(20)
                .share(ChargeClass.NONIONIC, 20, 60)
                .share(ChargeClass.AMPHOTERIC, 40, 80)
                .build());
    ConflictPart use =
        least.conflict().stream()
            .filter(p -> p.demand().equals("minimum use of a chosen surfactant"))
            .findFirst()
            .orElseThrow();
    assertTrue(use.isEnoughAlone());
    double fits = use.enoughAt().orElseThrow();
    assertEquals("minimum use " + fits + " % as supplied", use.change());
    assertTrue(
        BlendSolver.solve(
                wash()
                    .minimumUse(fits)
                    .share(ChargeClass.NONIONIC, 20, 60)
                    .share(ChargeClass.AMPHOTERIC, 40, 80)
                    .build(),
                TABLE)
            .isSolved());
    NoBlend one = none(wash().atMostSurfactants(1).share(ChargeClass.AMPHOTERIC, 10, 90).build());
    ConflictPart count =
        one.conflict().stream()
            .filter(p -> p.demand().equals("at most 1 surfactants"))
            .findFirst()
            .orElseThrow();
    assertEquals("at most 2 surfactants", count.change());
    // Four are wanted: three would not do.
    NoBlend four = none(wash().exactlySurfactants(4).atMostSurfactants(2).build());
    assertEquals(
        List.of(
            "at least 4 surfactants: doing without it",
            "at most 2 surfactants: at most 4 surfactants"),
        four.conflict().stream().map(p -> p.demand() + ": " + p.change()).toList());
    NoBlend apart = none(wash().mustUse("glut", "beta").notTogether("beta", "glut").build());
    assertEquals(
        List.of("must use glut", "must use beta", "beta not together with glut"),
        apart.conflict().stream().map(ConflictPart::demand).toList());
    assertTrue(
        apart.conflict().stream().allMatch(p -> p.change().equals("doing without it")),
        apart.summary());
  }

  @Test
  void aWindowForEveryLotSaysWhatTypicalLotsCanPromise() {
    NoBlend n =
        none(
            wash()
                .everyLotWithinSpecification()
                .startingPh(6.5, 7.5)
                .share(ChargeClass.AMPHOTERIC, 40, 60)
                .share(ChargeClass.NONIONIC, 20, 60)
                .build());
    assertTrue(n.withTypicalLots().isPresent());
    assertTrue(n.summary().contains("With typical lots there is a blend. It can promise "));
    assertTrue(n.summary().contains("titrate 20 g of the lot"), n.summary());
    NoBlend typical = none(wash().asSupplied("water", 90, 100).build());
    assertTrue(typical.withTypicalLots().isEmpty());
    // Without a pH in the conflict titrating a lot would not help.
    NoBlend dry =
        none(
            wash()
                .everyLotWithinSpecification()
                .asSupplied("water", 90, 100)
                .startingPh(2, 13)
                .build());
    assertTrue(dry.withTypicalLots().isEmpty(), dry.summary());
    assertFalse(typical.summary().contains("With typical lots"));
  }

  @Test
  void whatTheGuardLeftOutIsNamed() {
    NoBlend n =
        none(
            Brief.named("conditioner")
                .totalActive(5, 0.1)
                .fixed("quar", 3)
                .share(ChargeClass.ANIONIC, 10, 100)
                .build());
    assertEquals(
        List.of("sulf", "glut", "iset"), n.excludedByGuard().stream().map(Clash::first).toList());
    assertTrue(n.summary().contains("Left out by the clash guard: sulf\n"), n.summary());
    assertEquals(List.of(), n.leftOutWithoutFigures());
    assertFalse(n.summary().contains("Left out, without irritation score"), n.summary());
  }

  @Test
  void partsOfAConflictSayWhetherTheyAreEnough() {
    assertFalse(
        new ConflictPart(
                "x",
                java.util.Optional.empty(),
                java.util.OptionalDouble.empty(),
                ConflictPart.NOT_ENOUGH)
            .isEnoughAlone());
  }

  @Test
  void measuresHaveNamesAndUnits() {
    assertEquals("cost", Measure.COST.label());
    assertEquals("per kg", Measure.COST.unit());
    assertEquals(4, Measure.COST.decimals());
    assertEquals("", Measure.SURFACTANT_COUNT.unit());
    assertEquals(0, Measure.SURFACTANT_COUNT.decimals());
  }

  @Test
  void whateverIsNamedHasToBeKnown() {
    problems(
        wash().mustUse("nobody").build(),
        "error unknown-material at brief \"wash\" must use: found 'nobody'; allowed: an id of the"
            + " table.");
    problems(
        wash().fillingUpWith("nothing").build(),
        "error unknown-material at brief \"wash\" filling up with: found 'nothing'; allowed: an id"
            + " of the table.");
    problems(
        wash().requirement(Requirement.of(Requirement.Kind.CLASS_SHARE, "soapy", 10, 20)).build(),
        "error unknown-charge-class at brief \"wash\" share of soapy: found 'soapy'; allowed:"
            + " anionic, amphoteric, nonionic or cationic.");
    double charge = Shop.SULF.chargeCurve(Conditions.standard()).chargeEqPerKg(5.5, 0.1);
    assertTrue(
        BlendSolver.check(wash().toReachPh(5.5, "sulf", 3).build(), TABLE)
            .get(0)
            .found()
            .equals(
                String.format(java.util.Locale.ROOT, "'sulf', %.1f meq/kg there", charge * 1000)));
  }

  @Test
  void aPriceIsNeededOfFixedLinesToo() {
    MaterialTable some =
        TABLE.priced(
            PriceList.of(
                "cu", Map.of("decyl", 5.0, "coco", 4.0, "beta", 2.0, "glut", 3.0, "water", 0.01)));
    List<Problem> found = BlendSolver.check(wash().fixed("glycerin", 3).cheapest().build(), some);
    assertEquals(1, found.size());
    assertEquals("no price of glycerin", found.get(0).found());
    assertEquals(List.of(), BlendSolver.check(wash().cheapest().build(), some));
  }

  @Test
  void naturalOriginOfAllIsEnough() {
    List<Material> all =
        TABLE.materials().stream()
            .map(m -> m.toBuilder().naturalOriginPercent(m.isSurfactant() ? 60 : 100).build())
            .toList();
    TradeOff front =
        BlendSolver.tradeOff(
            Brief.named("wash").totalActive(9, 0).choosingFrom("decyl", "beta").build(),
            MaterialTable.of(all).priced(TABLE.prices()),
            Measure.COST,
            Measure.NOT_OF_NATURAL_ORIGIN,
            SearchBudget.none());
    assertFalse(front.corners().isEmpty());
    // 40 % of every surfactant as supplied: decyl alone is the least, beta alone the cheapest.
    TradeOff.Corner last = front.corners().get(front.corners().size() - 1);
    assertEquals(0.4 * 9 / 0.52, last.second(), 1e-4);
    assertEquals(0.4 * 9 / 0.30, front.corners().get(0).second(), 1e-4);
  }

  @Test
  void aChargeShareNeedsMolarMasses() {
    Material nameless =
        Shop.GLUT.toBuilder()
            .id("nameless")
            .constituent(
                Constituent.active(
                    "Unknown", Range.exactly(1), ChargeClass.ANIONIC, OptionalDouble.empty()))
            .build();
    List<Material> all = new ArrayList<>(TABLE.materials());
    all.add(nameless);
    MaterialTable table = MaterialTable.of(all).priced(TABLE.prices());
    Brief.Builder b = wash().netAnionicChargeShare(10, 40, 7);
    assertEquals(List.of(), BlendSolver.check(b.build(), table));
    List<Problem> found =
        BlendSolver.check(
            wash().netAnionicChargeShare(10, 40, 7).mustUse("nameless").build(), table);
    assertEquals(List.of("molar-mass-missing"), found.stream().map(Problem::code).toList());
    assertEquals("no molar mass of nameless", found.get(0).found());
    List<Problem> fixed =
        BlendSolver.check(
            wash().netAnionicChargeShare(10, 40, 7).fixed("nameless", 2).build(), table);
    assertEquals("no molar mass of nameless", fixed.get(0).found());
    List<Problem> only =
        BlendSolver.check(
            Brief.named("wash")
                .totalActive(9, 0.2)
                .choosingFrom("nameless")
                .netAnionicChargeShare(10, 40, 7)
                .build(),
            table);
    assertEquals("no molar mass of nameless", only.get(0).found());
    // One candidate with a molar mass is enough; the other is left out, and said to be.
    BlendResult result =
        BlendSolver.solve(
            wash().choosingFrom("nameless", "sulf").netAnionicChargeShare(10, 40, 7).build(),
            table);
    Recheck.result(result, table.prices());
    SolvedBlend left =
        result.fold(
            s -> s,
            n -> {
              throw new AssertionError(n.summary());
            });
    assertEquals(List.of("nameless"), left.leftOutWithoutFigures());
    assertTrue(
        left.summary().contains("  Left out, without irritation score or molar mass: nameless\n"),
        left.summary());
    BlendResult unasked = BlendSolver.solve(wash().choosingFrom("nameless").build(), table);
    assertEquals(List.of(), unasked.fold(SolvedBlend::leftOutWithoutFigures, n -> List.of("none")));
    assertEquals(
        List.of(),
        BlendSolver.check(
            wash().choosingFrom("nameless").netAnionicChargeShare(10, 40, 7).build(), table));
  }

  /** Every place in the list of candidates, the first and the last among them. */
  @Test
  void pairsOfAllCandidatesAreKept() {
    List<String> ids = List.of("decyl", "coco", "beta", "glut");
    for (String a : ids) {
      for (String b : ids) {
        if (a.equals(b)) {
          continue;
        }
        // Both wanted in equal parts, but kept apart.
        Brief.Builder both =
            wash().shareOf(a, 0, 60).shareOf(b, 0, 60).leastChangeFrom(halves(a, b));
        SolvedBlend free = solved(both.build());
        assertTrue(percent(free, a) > 0 && percent(free, b) > 0, a + " " + b);
        SolvedBlend apart = solved(both.notTogether(a, b).build());
        assertTrue(percent(apart, a) == 0 || percent(apart, b) == 0, a + " " + b);
        // The one alone would be best, but needs the other.
        SolvedBlend alone = solved(wash().leastChangeFrom(halves(a, a)).build());
        assertEquals(0, percent(alone, b), a + " " + b);
        SolvedBlend needs = solved(wash().leastChangeFrom(halves(a, a)).onlyIf(a, b).build());
        assertTrue(percent(needs, a) == 0 || percent(needs, b) > 0, a + " " + b);
      }
      // Kept apart from a fixed line, and in need of what can never come in.
      SolvedBlend without =
          solved(
              wash().leastChangeFrom(halves(a, a)).fixed("sulf", 1).notTogether(a, "sulf").build());
      assertEquals(0, percent(without, a), a);
      SolvedBlend reversed =
          solved(
              wash().leastChangeFrom(halves(a, a)).fixed("sulf", 1).notTogether("sulf", a).build());
      assertEquals(0, percent(reversed, a), a);
      SolvedBlend never = solved(wash().leastChangeFrom(halves(a, a)).onlyIf(a, "iset").build());
      assertEquals(0, percent(never, a), a);
    }
  }

  /** 9 % active, half of it from each. */
  private static Blend halves(String a, String b) {
    Material first = TABLE.get(a);
    Material second = TABLE.get(b);
    Blend.Builder blend = Blend.named("halves");
    blend.line(first, (a.equals(b) ? 9 : 4.5) / first.activePercent().typical() * 100);
    if (!a.equals(b)) {
      blend.line(second, 4.5 / second.activePercent().typical() * 100);
    }
    return blend.upToHundredWith(Shop.WATER);
  }

  /** A titrant has to have 10 meq/kg there; 0.5 % of citric acid has some 50, 0.02 % some 2. */
  @Test
  void aTitrantHasToPush() {
    for (double percent : new double[] {0.02, 0.5}) {
      Material thin =
          Material.builder("thin")
              .inciName("Citric Acid")
              .constituent(Constituent.other("Citric Acid", Range.exactly(percent)))
              .group(
                  new AcidBaseGroup(
                      "citric acid",
                      AcidBase.acid("citric acid", 3.13, 4.76, 6.40),
                      null,
                      Range.exactly(percent * 10 / 192.12),
                      false,
                      false))
              .strongIonEqPerKg(Range.ZERO)
              .build();
      List<Material> all = new ArrayList<>(TABLE.materials());
      all.add(thin);
      List<Problem> found =
          BlendSolver.check(
              wash().toReachPh(5.5, "thin", 3).build(),
              MaterialTable.of(all).priced(TABLE.prices()));
      assertEquals(
          percent < 0.1 ? List.of("not-a-titrant") : List.of(),
          found.stream().map(Problem::code).toList());
    }
    // A base pushes the other way.
    Material lye =
        Material.builder("lye")
            .inciName("Sodium Hydroxide")
            .strongIonEqPerKg(Range.exactly(2.5))
            .build();
    List<Material> all = new ArrayList<>(TABLE.materials());
    all.add(lye);
    assertEquals(
        List.of(),
        BlendSolver.check(
            wash().toReachPh(9, "lye", 3).build(), MaterialTable.of(all).priced(TABLE.prices())));
  }

  @Test
  void theLinesOfABlendComeByAmount() {
    SolvedBlend s =
        solved(
            wash()
                .choosingFrom("sulf")
                .leavingOut("decyl", "coco")
                .fixed("glycerin", 30)
                .fixed("benzoate", 0.5)
                .shareOf("glut", 20, 100)
                .shareOf("beta", 40, 100)
                .shareOf("sulf", 20, 100)
                .build());
    assertEquals(
        List.of("beta", "sulf", "glut", "glycerin", "benzoate", "water"),
        s.blend().lines().stream().map(l -> l.material().id()).toList());
    assertEquals(30, percent(s, "glycerin"), 1e-12);
    assertEquals(0.5, percent(s, "benzoate"), 1e-12);
  }
}
