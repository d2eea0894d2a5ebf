package org.surfactantblend.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.statistics.Statistics;
import org.surfactantblend.acidity.AcidDose;
import org.surfactantblend.acidity.DosingRules;
import org.surfactantblend.acidity.Meter;
import org.surfactantblend.acidity.PhReading;
import org.surfactantblend.acidity.Titrant;
import org.surfactantblend.acidity.Titration;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.CertificateOfAnalysis;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.SheetPh;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Scale;
import org.surfactantblend.swap.Stock;

/** Documents of random blends and lots of the shipped table read back the same, to the last bit. */
class DocumentProperties {
  private static final MaterialTable TABLE = Documents.TABLE;
  private static final List<String> OTHERS =
      List.of("glycerin", "sodium-benzoate", "sodium-chloride", "panthenol-75");

  private static double between(Random random, double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  private static <T> T one(Random random, List<T> of) {
    return of.get(random.nextInt(of.size()));
  }

  /** A random certificate of a grade. */
  private static CertificateOfAnalysis certificate(Random random, Material grade, String lot) {
    CertificateOfAnalysis.Builder b = CertificateOfAnalysis.ofLot(lot);
    Range usual = grade.activePercent();
    double typical = between(random, usual.low(), usual.high());
    if (random.nextBoolean()) {
      b.activePercent(
          Range.of(
              typical * between(random, 0.98, 1),
              typical,
              Math.min(100, typical * between(random, 1, 1.01))));
    }
    if (random.nextBoolean()) {
      b.saltPercent(grade.saltPercent().typical() * between(random, 0.9, 1.1));
    }
    if (random.nextBoolean() && grade.sheetPh().isPresent()) {
      Range ph = grade.sheetPh().get().ph();
      b.ph(between(random, ph.low(), ph.high()), between(random, 1, 100));
    }
    switch (random.nextInt(4)) {
      case 0 -> b.alkalinity(between(random, 1, 300), between(random, 3, 5), 10);
      case 1 -> b.acidValue(between(random, 0.1, 20), between(random, 8, 9), 20);
      case 2 -> {
        double acid = between(random, 0.01, 0.1);
        b.titration(
            SheetPh.endPoint(
                between(random, 3, 9),
                between(random, 1, 100),
                Range.of(acid * 0.9, acid, acid * 1.2)),
            List.of(
                new AcidBaseGroup(
                    "found buffer",
                    AcidBase.acid("found buffer", between(random, 4, 9)).asApparent(),
                    null,
                    Range.exactly(between(random, 0, 0.05)),
                    false,
                    false)));
      }
      default -> b.method("by the supplier");
    }
    if (random.nextBoolean()) {
      b.date(java.time.LocalDate.of(2026, 1 + random.nextInt(12), 1 + random.nextInt(28)))
          .expiry(java.time.LocalDate.of(2027 + random.nextInt(3), 2, 28))
          .densityGramsPerMl(between(random, 0.9, 1.2))
          .pricePerKg(between(random, 0.1, 20));
    }
    return b.build();
  }

  private static Blend blend(Random random, boolean lots) {
    Blend.Builder b = Blend.named("random " + random.nextInt(1000));
    List<Material> surfactants = TABLE.surfactants();
    int n = 1 + random.nextInt(4);
    for (int i = 0; i < n; i++) {
      Material m = one(random, surfactants);
      if (lots && random.nextBoolean()) {
        Loaded<Material> lot = certificate(random, m, "lot " + i).appliedTo(m);
        m = lot.hasErrors() ? m : lot.value();
      }
      b.line(m, between(random, 0.3, 12));
    }
    for (String id : OTHERS) {
      if (random.nextInt(3) == 0) {
        b.line(TABLE.get(id), between(random, 0.1, 2));
      }
    }
    return b.upToHundredWith(TABLE.get("water"));
  }

  private static <T> T read(Loaded<Optional<T>> loaded, String json) {
    assertTrue(!loaded.hasErrors(), () -> loaded.problems() + "\n" + json);
    return loaded.value().orElseThrow();
  }

  @Property(tries = 150, seed = "501")
  void aRecipeOfLotsReadsBackTheSame(@ForAll long seed) {
    Blend blend = blend(new Random(seed), true);
    String json = RecipeFile.write(blend, TABLE);
    Schemas.assertValid(json);
    Blend back = read(RecipeFile.read(Input.text("recipe", json), TABLE), json);
    assertEquals(blend.name(), back.name());
    assertEquals(blend.lines().size(), back.lines().size());
    for (int i = 0; i < blend.lines().size(); i++) {
      BlendLine a = blend.lines().get(i);
      BlendLine b = back.lines().get(i);
      assertEquals(a.amount(), b.amount());
      SameMaterial.assertSameMaterial(a.material(), b.material());
    }
    assertEquals(json, RecipeFile.write(back, TABLE));
  }

  @Property(tries = 300, seed = "502")
  void aCertificateReadsBackTheSame(@ForAll long seed) {
    Random random = new Random(seed);
    Material grade = one(random, TABLE.surfactants());
    CertificateOfAnalysis c = certificate(random, grade, "B-" + random.nextInt(100));
    String json = CertificateFile.write(grade, c, TABLE);
    Schemas.assertValid(json);
    CertificateFile.OfGrade back =
        read(CertificateFile.read(Input.text("certificate", json), TABLE), json);
    assertEquals(grade, back.grade());
    CertificateOfAnalysis d = back.certificate();
    assertEquals(c.lot(), d.lot());
    assertEquals(c.activePercent(), d.activePercent());
    assertEquals(c.saltPercent(), d.saltPercent());
    assertEquals(c.ph(), d.ph());
    assertEquals(c.phDilutionPercent(), d.phDilutionPercent());
    assertEquals(c.titration(), d.titration());
    assertEquals(c.buffers(), d.buffers());
    assertEquals(c.densityGramsPerMl(), d.densityGramsPerMl());
    assertEquals(c.date(), d.date());
    assertEquals(c.expiry(), d.expiry());
    assertEquals(c.pricePerKg(), d.pricePerKg());
    assertEquals(c.method(), d.method());
    assertEquals(c.others(), d.others());
  }

  @Property(tries = 100, seed = "503")
  void aStockReadsBackTheSame(@ForAll long seed) {
    Random random = new Random(seed);
    List<Stock> stock = new ArrayList<>();
    for (BlendLine l : blend(random, true).lines()) {
      if (stock.stream().noneMatch(s -> s.lot().toString().equals(l.material().toString()))) {
        stock.add(new Stock(l.material(), Mass.grams(between(random, 0, 1e4))));
      }
    }
    String json = StockFile.write(stock, TABLE);
    Schemas.assertValid(json);
    Loaded<List<Stock>> back = StockFile.read(Input.text("stock", json), TABLE);
    assertTrue(!back.hasErrors(), () -> back.problems().toString());
    assertEquals(stock.size(), back.value().size());
    for (int i = 0; i < stock.size(); i++) {
      assertEquals(stock.get(i).mass(), back.value().get(i).mass());
      SameMaterial.assertSameMaterial(stock.get(i).lot(), back.value().get(i).lot());
    }
  }

  @Property(tries = 60, seed = "504")
  void aSavedTitrationGoesOnToTheLastBit(@ForAll long seed) {
    Random random = new Random(seed);
    Blend blend = blend(random, true);
    List<Titrant> titrants =
        List.of(
            Titrant.citricAcid(between(random, 5, 50)),
            Titrant.lacticAcid(80).thinned(between(random, 1, 20)),
            Titrant.sodiumHydroxide(between(random, 1, 20)),
            Titrant.of(TABLE.get("citric-acid-50")));
    AcidDose.Plan plan = AcidDose.of(blend).to(between(random, 4, 7)).with(one(random, titrants));
    plan = random.nextBoolean() ? plan.startingAt(between(random, 5, 10)) : plan;
    plan =
        random.nextBoolean()
            ? plan.under(Conditions.standard().withTemperature(between(random, 15, 40)))
            : plan;
    Titration t =
        plan.forBatch(Mass.grams(between(random, 100, 5000)))
            .begin(
                Meter.accurateTo(between(random, 0.02, 0.2)),
                DosingRules.usual()
                    .on(Scale.of(0.05, 200))
                    .within(between(random, 0.05, 0.3))
                    .risking(between(random, 0.01, 0.1)));
    double ph = between(random, 5, 10);
    for (int i = random.nextInt(5); i >= 0; i--) {
      PhReading reading = PhReading.of(ph);
      t =
          switch (random.nextInt(6)) {
            case 0 ->
                t.reading(reading.at(between(random, 10, 40)).diluted(between(random, 1, 50)));
            case 1 -> t.freshProduct(between(random, 1, 50)).reading(reading);
            case 2 -> t.with(one(random, titrants));
            default -> t.reading(reading);
          };
      t = t.dosed(between(random, 0.1, 2));
      ph = Math.max(3, ph - between(random, 0, 0.5));
    }
    t = random.nextBoolean() ? t.reading(ph) : t;
    String json = TitrationFile.save(t, TABLE);
    Schemas.assertValid(json);
    Titration back = read(TitrationFile.read(Input.text("titration", json), TABLE), json);
    assertEquals(t.steps(), back.steps());
    assertEquals(t.titrant(), back.titrant());
    assertEquals(t.next(), back.next());
    assertEquals(t.flags(), back.flags());
    assertEquals(json, TitrationFile.save(back, TABLE));
    Titration on = t.dosed(0.7).reading(ph - 0.1);
    assertEquals(on.next(), back.dosed(0.7).reading(ph - 0.1).next());
    Schemas.assertValid(TitrationFile.write(t));
    assertNotEquals("", TitrationFile.write(back));
  }

  // Requests

  @Property(tries = 120, seed = "505")
  void everyAnswerIsValid(@ForAll long seed) {
    Random random = new Random(seed);
    Blend blend = blend(random, true);
    ObjectNode recipe = (ObjectNode) Schemas.tree(RecipeFile.write(blend, TABLE));
    String kind = one(random, Requests.kinds());
    ObjectNode request = recipe.deepCopy().put("kind", kind);
    switch (kind) {
      case "solve" -> {
        request.remove("recipe");
        solve(random, request);
      }
      case "alternatives", "trade-off", "sensitivity" -> {
        request.remove("recipe");
        solve(random, request);
        if (kind.equals("alternatives")) {
          request.put("most", 1 + random.nextInt(4)).put("searchSteps", 2000);
        } else if (kind.equals("trade-off")) {
          request.put("first", "surfactant-as-supplied").put("second", "salt");
        }
      }
      case "starting-ph" -> request.put("surfactantsOnly", random.nextBoolean());
      case "dose" -> dose(random, request);
      case "titration" -> {
        dose(random, request);
        request.put("meterAccuracy", 0.05);
        ArrayNode steps = request.putArray("steps");
        for (int i = random.nextInt(4); i > 0; i--) {
          steps.addObject().put("reading", between(random, 4, 11));
          steps.addObject().put("dosedGrams", between(random, 0, 3));
        }
      }
      case "swap" -> swap(random, request, blend);
      case "conversion" -> {
        ArrayNode grades = request.putArray("grades");
        for (BlendLine l : blend.lines()) {
          if (!l.material().constituents().isEmpty()) {
            grades.addObject().put("material", l.material().id());
          }
        }
        request.put("upToHundredWith", "water");
      }
      case "largest-batch" -> {
        ArrayNode stock = request.putArray("stock");
        for (BlendLine l : blend.lines()) {
          stock
              .addObject()
              .put("material", l.material().id())
              .put("grams", between(random, 0, 1e4));
        }
      }
      case "batch-sheet", "correction" -> {
        request.put("batchGrams", between(random, 50, 2e4));
        request.put("keepingTotal", random.nextBoolean());
        ArrayNode scales = request.putArray("scales");
        scales.addObject().put("resolutionGrams", 0.01).put("capacityGrams", 300);
        scales.addObject().put("resolutionGrams", 1).put("capacityGrams", 5000);
        if (kind.equals("correction")) {
          request
              .putArray("weighed")
              .addObject()
              .put("line", blend.lines().get(0).material().id())
              .put("grams", between(random, 0, 4000));
        }
      }
      case "conformance" -> {
        request.remove("recipe");
        request
            .putArray("certificates")
            .addObject()
            .put("material", "decyl-glucoside-52")
            .put("lot", "X")
            .put("activePercent", between(random, 40, 60));
      }
      default -> request.put("never", kind);
    }
    String json = request.toString();
    Schemas.assertValid(json);
    Requests.Answer answer = Requests.answer(Input.text("request", json), TABLE);
    Schemas.assertValid(answer.json());
    Statistics.label("outcome")
        .collect(answer.outcome())
        .coverage(c -> c.check(Requests.Outcome.NOT_USABLE).percentage(p -> p < 20));
    // What cannot be used is so for its figures, never for its shape.
    for (JsonNode p : Schemas.tree(answer.json()).path("problems")) {
      assertTrue(
          !List.of("json-type", "missing-value", "unknown-field").contains(p.path("code").asText()),
          p + "\n" + json);
    }
    assertEquals(answer, Requests.answer(Input.text("request", json), TABLE));
  }

  private static void solve(Random random, ObjectNode request) {
    request.put("name", "random brief");
    double active = between(random, 3, 16);
    request.putObject("totalActive").put("percent", active).put("tolerance", random.nextDouble());
    double low = between(random, 20, 60);
    request.putObject("shares").putObject("amphoteric").put("low", low).put("high", low + 30);
    if (random.nextBoolean()) {
      request.putObject("startingPh").put("low", 4.5).put("high", between(random, 5, 9));
    }
    if (random.nextBoolean()) {
      request.putObject("salt").put("high", between(random, 0.1, 1.5));
    }
    ArrayNode ids = request.putArray("choosingFrom");
    for (int i = 0; i < 4; i++) {
      ids.add(one(random, TABLE.surfactants()).id());
    }
    ids.add("cocamidopropyl-betaine-30");
    if (random.nextInt(4) == 0) {
      request.putObject("nearestToShares").put("nonionic", 60).put("amphoteric", 40);
    }
  }

  private static void dose(Random random, ObjectNode request) {
    request.put("batchGrams", between(random, 10, 1e4));
    request.put("targetPh", between(random, 3.5, 8));
    ObjectNode titrant = request.putObject("titrant");
    switch (random.nextInt(3)) {
      case 0 -> titrant.put("solution", "citric-acid").put("percent", between(random, 1, 50));
      case 1 -> titrant.put("material", "sodium-hydroxide-10");
      default -> titrant.put("solution", "gluconolactone");
    }
    if (random.nextBoolean()) {
      request.put("measuredPh", between(random, 4, 11));
    }
  }

  private static void swap(Random random, ObjectNode request, Blend blend) {
    Material out = blend.lines().get(0).material();
    Material in =
        one(
            random,
            TABLE.surfactants().stream()
                .filter(m -> m.chargeClass().equals(out.chargeClass()))
                .toList());
    ObjectNode replacement = request.putArray("replacements").addObject().put("line", out.id());
    replacement.putArray("with").addObject().put("material", in.id());
    if (random.nextBoolean()) {
      request.putObject("correctedWith").put("material", "citric-acid-20").put("targetPh", 5.5);
    }
  }
}
