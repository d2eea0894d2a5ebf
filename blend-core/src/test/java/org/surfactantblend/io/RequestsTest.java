package org.surfactantblend.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.surfactantblend.Blends;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.Material;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.solve.Alternatives;
import org.surfactantblend.solve.BlendResult;
import org.surfactantblend.solve.BlendSolver;
import org.surfactantblend.solve.Measure;
import org.surfactantblend.solve.SearchBudget;
import org.surfactantblend.solve.Sensitivity;
import org.surfactantblend.solve.SolvedBlend;
import org.surfactantblend.solve.TradeOff;
import org.surfactantblend.testing.Recheck;
import org.surfactantblend.testing.Says;

/** Requests that are as they should be, and everything that people and programs send instead. */
class RequestsTest {
  private static Requests.Answer answer(String json) {
    return Requests.answer(Input.text("request.json", json), Documents.TABLE);
  }

  private static List<String> problems(String json) {
    Requests.Answer answer = answer(json);
    assertEquals(Requests.Outcome.NOT_USABLE, answer.outcome(), answer.json());
    Schemas.assertValid(answer.json());
    List<String> all = new ArrayList<>();
    for (JsonNode p : Schemas.tree(answer.json()).path("problems")) {
      all.add(p.path("code").asText() + " " + p.path("place").asText());
    }
    return all;
  }

  static Stream<String> kinds() {
    return Stream.concat(Requests.kinds().stream(), Documents.PLAIN.stream());
  }

  @Test
  void theOutcomeSaysWhetherItCouldBeHad() {
    assertEquals(Requests.Outcome.MET, answer(Schemas.example("solve")).outcome());
    Requests.Answer none =
        answer(
            Schemas.example("solve")
                .replace("\"atMostSurfactants\": 3", "\"salt\": {\"high\": 0.01}"));
    assertEquals(Requests.Outcome.NOT_MET, none.outcome());
    Schemas.assertValid(none.json());
    assertFalse(Schemas.tree(none.json()).path("solved").asBoolean());
    Requests.Answer base =
        answer(Schemas.example("dose").replace("\"targetPh\": 5.4", "\"targetPh\": 9"));
    assertEquals(Requests.Outcome.NOT_MET, base.outcome());
    Schemas.assertValid(base.json());
    assertEquals("other-side", Schemas.tree(base.json()).path("verdict").asText());
    Requests.Answer tooMuch =
        answer(
            Schemas.example("swap")
                .replace("\"asSuppliedPercent\": 28", "\"asSuppliedPercent\": 80")
                .replace("\"cocamidopropyl-betaine-37\"", "\"coco-betaine-30\"")
                .replace("\"activePercent\": 36.8", "\"activePercent\": 15"));
    assertEquals(Requests.Outcome.NOT_MET, tooMuch.outcome(), tooMuch.json());
    Schemas.assertValid(tooMuch.json());
  }

  @Test
  void theFiguresAreThoseOfTheLibrary() {
    Blend blend =
        Blend.named("Oat face wash")
            .line(Documents.TABLE.get("cocamidopropyl-betaine-30"), 17.6)
            .line(Documents.TABLE.get("decyl-glucoside-52"), 6.6)
            .line(Documents.TABLE.get("glycerin"), 3)
            .line(Documents.TABLE.get("sodium-benzoate"), 0.5)
            .upToHundredWith(Documents.TABLE.get("water"));
    StartingPh ph =
        StartingPh.of(blend, org.surfactantblend.aqueous.Conditions.standard().withTemperature(22));
    JsonNode answer = Schemas.tree(answer(Schemas.example("starting-ph")).json());
    assertEquals(ph.typical(), answer.path("typical").asDouble());
    assertEquals(ph.likely().low(), answer.path("likely").path("low").asDouble());
    assertEquals(ph.guaranteed().high(), answer.path("guaranteed").path("high").asDouble());
    assertEquals(5, answer.path("contributions").size());
  }

  private static SolveFile.Request brief(String kind) {
    String json =
        Schemas.example(kind).replace("\"kind\": \"" + kind + "\"", "\"kind\": \"solve\"");
    return SolveFile.read(Input.text(kind, json), Documents.TABLE).value().orElseThrow();
  }

  @Test
  void alternativesAreThoseOfTheLibrary() {
    SolveFile.Request asked = brief("alternatives");
    Alternatives all =
        BlendSolver.alternatives(asked.brief(), asked.table(), 3, 1, SearchBudget.none());
    all.blends().forEach(b -> Recheck.result(b, asked.table().prices()));
    JsonNode answer = Schemas.tree(answer(Schemas.example("alternatives")).json());
    assertEquals(answer, Schemas.tree(AlternativesFile.write(all)));
    assertEquals(2, answer.path("blends").size());
    for (int i = 0; i < 2; i++) {
      JsonNode one = answer.path("blends").get(i);
      assertEquals(all.blends().get(i).wishValue(), one.path("reached").asDouble());
      assertEquals(
          all.blends().get(i).blend().totalActive().value(),
          one.path("totalActivePercent").path("typical").asDouble());
    }
    assertTrue(answer.path("complete").asBoolean());
    // Two sets of two out of three differ in one; no two of them differ in two.
    assertEquals(
        1,
        Schemas.tree(
                answer(
                        Schemas.example("alternatives")
                            .replace("\"differing\": 1", "\"differing\": 2"))
                    .json())
            .path("blends")
            .size());
  }

  @Test
  void aSearchEndsAfterItsStepsWithTheSameAnswer() {
    String stopped =
        Schemas.example("alternatives").replace("\"searchSteps\": 100000", "\"searchSteps\": 1");
    Requests.Answer first = answer(stopped);
    assertFalse(Schemas.tree(first.json()).path("complete").asBoolean());
    Schemas.assertValid(first.json());
    assertEquals(first, answer(stopped));
    // Who names no number of steps and no materials is not kept waiting for all sets of the table.
    String open =
        """
        {"version": 1, "kind": "alternatives", "name": "any", "most": 3,
         "totalActive": {"percent": 8, "tolerance": 0.3}, "startingPh": {"low": 5.5, "high": 5.5},
         "shares": {"amphoteric": {"high": 70}}, "fixed": {"glycerin": 2, "sodium-benzoate": 0.5}}
        """;
    JsonNode any = Schemas.tree(answer(open).json());
    assertEquals(3, any.path("blends").size());
    assertFalse(any.path("complete").asBoolean());
  }

  @Test
  void aTradeOffIsThatOfTheLibrary() {
    SolveFile.Request asked = brief("trade-off");
    TradeOff front =
        BlendSolver.tradeOff(
            asked.brief(), asked.table(), Measure.COST, Measure.SALT, SearchBudget.none());
    String json = Schemas.example("trade-off");
    JsonNode answer = Schemas.tree(answer(json).json());
    assertEquals(answer, Schemas.tree(TradeOffFile.write(front)));
    assertEquals(front.corners().size(), answer.path("corners").size());
    assertTrue(front.corners().size() > 1);
    assertEquals(
        front.corners().get(1).blend().saltPercent().typical(),
        answer.path("corners").get(1).path("second").asDouble(),
        1e-9);
    assertEquals(List.of("choice $.second"), problems(json.replace("\"salt\"", "\"cost\"")));
    assertEquals(
        List.of("total-active-open $.totalActive"),
        problems(json.replace("\"salt\"", "\"irritation-index\"")));
  }

  @Test
  void aSensitivityIsThatOfTheLibrary() {
    SolveFile.Request asked = brief("sensitivity");
    BlendResult result = BlendSolver.solve(asked.brief(), asked.table());
    Recheck.result(result, asked.table().prices());
    JsonNode answer = Schemas.tree(answer(Schemas.example("sensitivity")).json());
    assertEquals(answer, Schemas.tree(SensitivityFile.write(result)));
    Sensitivity found = result.fold(SolvedBlend::sensitivity, none -> null);
    assertNotNull(found);
    assertEquals(2, answer.path("loosenings").size());
    assertEquals(
        found.loosenings().get(1).gainPerPoint(),
        answer.path("loosenings").get(1).path("onePointBuys").asDouble());
    assertEquals("high", answer.path("loosenings").get(1).path("end").asText());
    assertEquals(
        found.entryPrices().get(0).entersAt().orElseThrow(),
        answer.path("entryPrices").get(0).path("comesInBelow").asDouble());
  }

  @Test
  void whatNoBlendMeetsHasNoAlternatives() {
    for (String kind : List.of("alternatives", "trade-off", "sensitivity")) {
      Requests.Answer none =
          answer(
              Schemas.example(kind)
                  .replaceFirst("\"atMostSurfactants\": .", "\"salt\": {\"high\": 0.01}"));
      assertEquals(Requests.Outcome.NOT_MET, none.outcome(), none::json);
      Schemas.assertValid(none.json());
    }
  }

  @Test
  void aLotComesWithItsCertificate() {
    JsonNode sheet = Schemas.tree(answer(Schemas.example("batch-sheet")).json());
    JsonNode line = sheet.path("lines").get(0);
    assertEquals("TD-118", line.path("lot").asText());
    JsonNode made = sheet.path("asRounded").path("lines").get(0);
    assertEquals(
        0.302 * made.path("asSuppliedPercent").asDouble(),
        made.path("activePercentOfProduct").asDouble(),
        1e-9);
    assertEquals(
        List.of("unknown-lot $.recipe.lines[0].lot"),
        problems(Schemas.example("batch-sheet").replaceFirst("TD-118", "TD-119")));
    assertEquals(
        List.of(
            "active-above-dry-residue $.certificates[0].activePercent",
            "outside-specification $.certificates[0].dryResiduePercent"),
        problems(
            Schemas.example("batch-sheet")
                .replace(
                    "\"activePercent\": 30.2",
                    "\"activePercent\": 30.2, \"dryResiduePercent\": 20")));
  }

  @Test
  void aLotStandsInForItsGradeInABrief() {
    String json =
        Schemas.example("solve")
            .replace(
                "\"prices\":",
                "\"certificates\": [{\"material\": \"decyl-glucoside-52\", \"lot\": \"X\","
                    + " \"activePercent\": 51, \"pricePerKg\": 0.9}], \"prices\":");
    SolveFile.Request request =
        SolveFile.read(Input.text("solve", json), Documents.TABLE).value().orElseThrow();
    assertEquals("X", request.table().get("decyl-glucoside-52").lot().orElseThrow());
    assertEquals(0.9, request.table().prices().pricePerKg("decyl-glucoside-52").orElseThrow());
    JsonNode lines = Schemas.tree(answer(json).json()).path("lines");
    assertTrue(lines.toString().contains("\"lot\":\"X\""), lines::toString);
  }

  @Test
  void findingsAreAnAnswerAndNoProblemOfTheRequest() {
    String json =
        Schemas.example("conformance").replace("\"molarMass\": 342", "\"molarMass\": 3420");
    Requests.Answer answer = answer(json);
    assertEquals(Requests.Outcome.NOT_MET, answer.outcome());
    Schemas.assertValid(answer.json());
    assertTrue(answer.json().contains("\"code\" : \"molar-mass\""), answer.json());
    String lot =
        Schemas.example("conformance")
            .replace(
                "\"activePercent\": 30.7", "\"activePercent\": 30.7, \"dryResiduePercent\": 20");
    assertEquals(Requests.Outcome.NOT_MET, answer(lot).outcome());
    assertTrue(answer(lot).json().contains("\"code\" : \"active-above-dry-residue\""));
    String accepted =
        json.replace(
            "\"kind\": \"conformance\",",
            "\"kind\": \"conformance\", \"knownDeviations\": [{\"subject\": \"own-betaine-31\","
                + " \"code\": \"molar-mass\", \"reason\": \"looked at\"}, {\"subject\":"
                + " \"own-betaine-31 lot K-19\", \"code\": \"molar-mass\", \"reason\": \"the same\"}],");
    assertEquals(Requests.Outcome.MET, answer(accepted).outcome(), answer(accepted).json());
    assertEquals(
        List.of("missing-value $"), problems("{\"version\": 1, \"kind\": \"conformance\"}"));
  }

  @Test
  void anOvershootComesWithTheWaysBack() {
    Requests.Answer answer =
        answer(
            Schemas.example("titration")
                .replace(
                    "{\"reading\": 7.3}",
                    "{\"reading\": 7.3}, {\"dosedGrams\": 30}, {\"reading\": 4.8}"));
    assertEquals(Requests.Outcome.NOT_MET, answer.outcome(), answer.json());
    Schemas.assertValid(answer.json());
    JsonNode tree = Schemas.tree(answer.json());
    assertEquals("overshot", tree.path("action").asText());
    assertEquals(2, tree.path("repair").path("ways").size());
  }

  @Test
  void everythingWrongIsSaidAtOnce() {
    assertEquals(
        List.of(
            "number-range $.certificates[0].activePercent",
            "unknown-material $.recipe.lines[0].material",
            "decimal-comma $.recipe.lines[1].asSuppliedPercent",
            "unknown-lot $.replacements[0].with[0].lot",
            "missing-value $.holding[0].line",
            "number-range $.correctedWith.targetPh",
            "json-type $.tolerances.ph"),
        problems(
            Schemas.example("swap")
                .replace("\"activePercent\": 36.8", "\"activePercent\": 136.8")
                .replace("\"material\": \"sodium-laureth-sulfate-27\"", "\"material\": \"sles\"")
                .replace("\"asSuppliedPercent\": 12", "\"asSuppliedPercent\": \"12,0\"")
                .replace(", \"line\": \"sodium-chloride\"", "")
                .replace("\"targetPh\": 5.5", "\"targetPh\": 55")
                .replace("\"ph\": 0.4", "\"ph\": [0.4]")));
  }

  @Test
  void versionAndKindAreAsked() {
    String good = Schemas.example("starting-ph");
    assertEquals(
        List.of("choice $.version"), problems(good.replace("\"version\": 1", "\"version\": 2")));
    assertEquals(List.of("missing-value $.version"), problems(good.replace("\"version\": 1,", "")));
    assertEquals(
        List.of("choice $.kind"), problems(good.replace("\"starting-ph\"", "\"start-ph\"")));
    assertEquals(
        List.of("missing-value $.kind"), problems(good.replace("\"kind\": \"starting-ph\",", "")));
    assertTrue(
        answer(good.replace("\"starting-ph\"", "\"start-ph\"")).json().contains("starting-ph"));
    assertEquals(
        Requests.Outcome.MET, answer(good.replace("\"version\": 1", "\"version\": 1.0")).outcome());
  }

  @Test
  void figuresThatDoNotFitTogetherAreAProblemAndNoException() {
    assertEquals(
        List.of("number-range $.recipe"),
        problems(
            Schemas.example("starting-ph")
                .replace("\"asSuppliedPercent\": 17.6", "\"asSuppliedPercent\": 97")));
    Says.parts(
        answer(
                Schemas.example("starting-ph")
                    .replace("\"asSuppliedPercent\": 17.6", "\"asSuppliedPercent\": 97"))
            .json(),
        " % m/m as supplied, allowed is at most 100: take ",
        " off, or divide every line by ");
    assertEquals(
        List.of("number-range $.evaporatedGrams"),
        problems(
            Schemas.example("correction")
                .replace("\"evaporatedGrams\": 60", "\"evaporatedGrams\": 6000")));
    String kettle =
        Schemas.example("correction").replace("\"kettleGrams\": 12000", "\"kettleGrams\": 120");
    assertEquals(List.of("number-range $.kettleGrams"), problems(kettle));
    Says.parts(answer(kettle).json(), "kettle was 120.0, allowed is ", " g or more");
    assertEquals(
        List.of("number-range $.replacements[0]"),
        problems(
            Schemas.example("swap")
                .replace(
                    "\"line\": \"cocamidopropyl-betaine-30\"", "\"line\": \"citric-acid-20\"")));
    assertEquals(
        List.of("number-range $.scales[1]"),
        problems(
            Schemas.example("batch-sheet")
                .replace("\"capacityGrams\": 15000", "\"capacityGrams\": 0.5")));
    assertEquals(
        List.of("price-missing $.prices"),
        problems(Schemas.example("solve").replace("\"decyl-glucoside-52\": 2.75,", "")));
    assertEquals(
        List.of("number-range $.kettleGrams"),
        problems(
            Schemas.example("correction").replace("\"kettleGrams\": 12000", "\"kettleGrams\": 5")));
  }

  @ParameterizedTest
  @MethodSource("kinds")
  void whatIsNoDocumentIsAProblem(String kind) {
    for (String text :
        List.of(
            "",
            " ",
            "{",
            "[",
            "nope",
            "null",
            "5",
            "\"x\"",
            "true",
            "{}",
            "[]",
            "[[]]",
            "\0",
            "{\"version\": 1, \"version\": 1}",
            "{\"kind\": NaN}",
            "{} {}",
            "[1,]",
            "{'a': 1}")) {
      Loaded<?> loaded = Documents.read(kind, text);
      assertFalse(loaded.problems().isEmpty(), text);
      if (!kind.equals("materials") || !text.startsWith("[]")) {
        assertTrue(loaded.hasErrors(), text);
      }
      assertEquals(Requests.Outcome.NOT_USABLE, answer(text).outcome());
    }
  }

  @ParameterizedTest
  @MethodSource("kinds")
  void whatIsCutOffIsAProblem(String kind) {
    String good = Schemas.example(kind).strip();
    for (int end = 0; end < good.length(); end += 7) {
      assertTrue(Documents.read(kind, good.substring(0, end)).hasErrors());
    }
  }

  @ParameterizedTest
  @MethodSource("kinds")
  void whatIsTooMuchIsAProblem(String kind) {
    String good = Schemas.example(kind).strip();
    String open = good.substring(0, good.length() - 1);
    for (String more :
        List.of(
            ", \"x\": " + "[".repeat(100_000) + "}",
            ", \"x\": " + "{\"a\":".repeat(1000) + "1" + "}".repeat(1001),
            ", \"x\": \"" + "x".repeat(10 << 20) + "\"}",
            ", \"x\": " + "9".repeat(5000) + "}",
            ", \"" + "x".repeat(5000) + "\": 1}",
            ", \"x\": [" + "1,".repeat(3_000_000) + "1]}")) {
      Loaded<?> loaded = Documents.read(kind, open + more);
      assertEquals(
          List.of(ProblemCodes.JSON_LIMIT),
          loaded.problems().stream().map(Problem::code).toList(),
          () -> more.substring(0, 20));
    }
    String huge = good + " ".repeat(Input.MOST_CHARACTERS);
    assertEquals(
        List.of(ProblemCodes.TOO_LARGE),
        Documents.read(kind, huge).problems().stream().map(Problem::code).toList());
  }

  @Test
  void aCertificateThatNothingAsksForIsToldAndNotPassedOver() {
    String unused = Schemas.example("batch-sheet").replace("\"lot\": \"TD-118\", \"as", "\"as");
    assertEquals(Requests.Outcome.MET, answer(unused).outcome());
    Says.parts(answer(unused).json(), "\"unused-lot\"", "\"$.certificates[0].lot\"");
    for (String kind : Requests.kinds()) {
      assertFalse(answer(Schemas.example(kind)).json().contains("unused-lot"), kind);
    }
  }

  @Test
  void aLineWeighedTwiceIsTold() {
    assertEquals(
        List.of("duplicate-id $.weighed[1].line"),
        problems(
            Schemas.example("correction")
                .replace(
                    "{\"line\": \"glycerin\", \"grams\": 300}",
                    "{\"line\": \"glycerin\", \"grams\": 300},"
                        + " {\"line\": \"glycerin\", \"grams\": 10}")));
  }

  @Test
  void aStepThatSaysNothingIsToldWithWhatStandsThere() {
    String typo = Schemas.example("titration").replace("{\"reading\": 7.3}", "{\"readin\": 7.3}");
    assertEquals(List.of("choice $.steps[2]", "unknown-field $.steps[2].readin"), problems(typo));
    Says.parts(answer(typo).json(), "\"none of them\"", "\"maybe\" : \"reading\"");
  }

  @Test
  void longListsAreAProblem() {
    String line = "{\"material\": \"glycerin\", \"asSuppliedPercent\": 0.001}";
    String lines = "\"lines\": [" + (line + ",").repeat(600) + line + "], \"x\": [";
    assertEquals(
        "too-many-rows $.recipe.lines",
        problems(Schemas.example("starting-ph").replace("\"lines\": [", lines)).get(0));
  }

  /** One byte changed, a piece doubled or cut out: an answer every time, and never an exception. */
  @ParameterizedTest
  @MethodSource("kinds")
  void damagedTextNeverThrows(String kind) {
    String good = Schemas.example(kind);
    Random random = new Random(kind.hashCode());
    String odd = "{}[]\":,-+.eE0123456789ntfu\\\u0000\ud800\u20ac ";
    for (int i = 0; i < 400; i++) {
      StringBuilder text = new StringBuilder(good);
      for (int k = random.nextInt(3); k >= 0; k--) {
        int at = random.nextInt(text.length());
        switch (random.nextInt(3)) {
          case 0 -> text.setCharAt(at, odd.charAt(random.nextInt(odd.length())));
          case 1 -> text.delete(at, Math.min(text.length(), at + random.nextInt(12)));
          default -> text.insert(at, good, 0, random.nextInt(Math.min(40, good.length())));
        }
      }
      Loaded<?> loaded = Documents.read(kind, text.toString());
      assertNotNull(loaded.value());
      Requests.Answer answer = answer(text.toString());
      Schemas.assertValid(answer.json());
    }
  }

  @Test
  void oddCharactersInNamesAreRefused() {
    for (String bad : List.of("\\ud800", "\\u0000", "\\u0007")) {
      assertEquals(
          List.of("control-character $.recipe.name"),
          problems(Schemas.example("starting-ph").replace("Oat face", "Oat" + bad)));
    }
    String named = Schemas.example("starting-ph").replace("Oat face", "<b>\\\"Oat\\\"</b> \\u00e9");
    assertEquals(
        "<b>\"Oat\"</b> \u00e9 wash", Schemas.tree(answer(named).json()).path("name").asText());
  }

  @Test
  void aTypeOrAPathInTheTextIsOnlyText() {
    String json =
        Schemas.example("starting-ph")
            .replace("{\n  \"version\"", "{\n  \"@class\": \"java.lang.Runtime\", \"version\"")
            .replace("Oat face wash", "file:///etc/hostname");
    Requests.Answer answer = answer(json);
    assertEquals(Requests.Outcome.MET, answer.outcome());
    JsonNode tree = Schemas.tree(answer.json());
    assertEquals("file:///etc/hostname", tree.path("name").asText());
    assertEquals("unknown-field", tree.path("problems").get(0).path("code").asText());
  }

  @Test
  void theDefaultLocaleDoesNotMatter() {
    Locale before = Locale.getDefault();
    List<String> answers =
        Requests.kinds().stream().map(k -> answer(Schemas.example(k)).json()).toList();
    try {
      for (String tag : List.of("tr-TR", "de-DE", "ar-EG-u-nu-arab", "hi-IN-u-nu-deva")) {
        Locale.setDefault(Locale.forLanguageTag(tag));
        assertEquals(
            answers,
            Requests.kinds().stream().map(k -> answer(Schemas.example(k)).json()).toList(),
            tag);
      }
    } finally {
      Locale.setDefault(before);
    }
  }

  @Test
  void anotherMaterialOfTheSameNameIsRefusedWhenWriting() {
    Material one = Documents.TABLE.get("glycerin");
    Blend blend =
        Blend.named("x").line(one, 50).line(one.toBuilder().notes("other").build(), 50).build();
    assertThrows(IllegalArgumentException.class, () -> RecipeFile.write(blend, Documents.TABLE));
  }

  @Test
  void nullIsRefused() {
    assertThrows(NullPointerException.class, () -> Requests.answer(null, Documents.TABLE));
    assertThrows(NullPointerException.class, () -> Requests.answer(Input.text("x", "{}"), null));
    assertThrows(NullPointerException.class, () -> RecipeFile.write(null, Blends.starterTable()));
  }
}
