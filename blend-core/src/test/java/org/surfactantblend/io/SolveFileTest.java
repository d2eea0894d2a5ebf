package org.surfactantblend.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.surfactantblend.Blends;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.brief.Wish;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.solve.BlendResult;
import org.surfactantblend.testing.Recheck;

/** Mildness and a final pH across the JSON boundary. */
class SolveFileTest {
  private static final String REQUEST =
      """
      {"version": 1, "kind": "solve", "name": "Mild", "totalActive": {"percent": 10, "tolerance": 0.2},
       "shares": {"anionic": {"low": 30}},
       "netAnionicChargeShare": {"high": 45, "atPh": 5.5},
       "irritationIndexAtMost": 42,
       "blendedIndexAtMost": 33,
       "mixingCredit": {"perChargeVariance": 40, "atPh": 5.5},
       "choosingFrom": ["sodium-laureth-sulfate-27", "cocamidopropyl-betaine-30",
                        "decyl-glucoside-52", "cocamide-mea-95"],
       "wish": "mildest-blended"}
      """;

  private static Loaded<Optional<SolveFile.Request>> read(String json) {
    return SolveFile.read(Input.text("request", json), Blends.starterTable());
  }

  @Test
  void everyFieldOfMildnessIsRead() {
    Loaded<Optional<SolveFile.Request>> loaded = read(REQUEST);
    assertEquals(List.of(), loaded.problems());
    Schemas.assertValid(REQUEST);
    Brief brief = loaded.value().orElseThrow().brief();
    List<Requirement.Kind> kinds = brief.requirements().stream().map(Requirement::kind).toList();
    assertTrue(
        kinds.containsAll(
            List.of(
                Requirement.Kind.NET_ANIONIC_CHARGE_SHARE,
                Requirement.Kind.IRRITATION_INDEX,
                Requirement.Kind.BLENDED_INDEX)),
        kinds::toString);
    assertEquals(Wish.Aim.MILDEST_BLENDED, brief.wish().aim());
    assertEquals(
        "mixing credit: 40.00 for a charge variance of 1 at pH 5.500",
        brief.mixingCredit().orElseThrow().toString());
  }

  @Test
  void theAnswerHoldsTheIndexAndWhatWasLeftOut() throws IOException {
    Brief brief = read(REQUEST).value().orElseThrow().brief();
    BlendResult result = Blends.solve(brief, Blends.starterTable());
    Recheck.result(result, Blends.starterTable());
    String written = SolveFile.write(result, Blends.starterTable());
    Schemas.assertValid(written);
    JsonNode answer = new ObjectMapper().readTree(written);
    assertTrue(answer.path("solved").asBoolean());
    JsonNode index = answer.path("irritationIndex");
    assertTrue(index.path("given").asBoolean());
    assertTrue(index.path("high").asDouble() <= 42 + 1e-6);
    assertEquals("ranked", index.path("weakestEvidence").asText());
    String notes = answer.path("notes").toString();
    assertTrue(notes.contains("cocamide-mea-95"), notes);
    assertTrue(notes.contains("upper bound"), notes);
    for (String word : List.of("safe", "hypoallergenic", "non-irritating")) {
      assertFalse(answer.toString().contains(word), word);
    }
  }

  @Test
  void pairsOfCreditsAreRead() {
    String pairs =
        REQUEST.replace(
            "{\"perChargeVariance\": 40, \"atPh\": 5.5}",
            "{\"pairs\": [{\"first\": \"anionic\", \"second\": \"amphoteric\", \"credit\": -80}]}");
    Brief brief = read(pairs).value().orElseThrow().brief();
    assertEquals(
        "mixing credit: -80.00 for amphoteric with anionic",
        brief.mixingCredit().orElseThrow().toString());
  }

  @Test
  void whatCannotBeUsedIsToldWithItsPath() {
    String bad =
        REQUEST
            .replace("\"irritationIndexAtMost\": 42", "\"irritationIndexAtMost\": 420")
            .replace("\"mildest-blended\"", "\"mild\"")
            .replace("\"perChargeVariance\": 40", "\"perChargeVariance\": \"much\"");
    List<String> found =
        read(bad).problems().stream()
            .map(p -> p.code() + " " + p.place().field())
            .sorted()
            .toList();
    assertEquals(
        List.of(
            "choice $.wish",
            "mixing-credit-missing $.blendedIndexAtMost",
            "number-format $.mixingCredit.perChargeVariance",
            "number-range $.irritationIndexAtMost"),
        found);
  }

  @Test
  void sharesOfOneInPlaceOfPercentAreWarnedOf() {
    String json =
        """
        {"version": 1, "kind": "solve", "name": "x",
         "totalActive": {"percent": %s, "tolerance": 0.01},
         "shares": {"amphoteric": {"low": %s, "high": %s}, "cationic": {"low": 0, "high": 0}},
         "choosingFrom": ["decyl-glucoside-52", "cocamidopropyl-betaine-30"]}
        """;
    assertEquals(
        List.of(
            "percent-as-fraction $.totalActive.percent",
            "percent-as-fraction $.shares.amphoteric.low",
            "percent-as-fraction $.shares.amphoteric.high"),
        read(json.formatted("0.09", "0.4", "0.7")).problems().stream()
            .map(p -> p.code() + " " + p.place().field())
            .toList());
    Problem high = read(json.formatted("9", "0", "0.7")).problems().get(0);
    assertFalse(high.isError());
    assertEquals("70, if a share of 1 was meant", high.advice());
    assertEquals(List.of(), read(json.formatted("9", "40", "70")).problems());
    assertEquals(
        List.of(
            "percent-as-fraction $.nearestToShares.anionic",
            "percent-as-fraction $.nearestToShares.nonionic"),
        read(
                json.formatted("9", "40", "70")
                    .replace(
                        "\"choosingFrom\"",
                        "\"nearestToShares\": {\"anionic\": 0.6, \"nonionic\": 0.4},"
                            + " \"choosingFrom\""))
            .problems()
            .stream()
            .map(p -> p.code() + " " + p.place().field())
            .toList());
  }

  @Test
  void unknownMaterialsAreToldTogetherWithAllElse() {
    String json =
        """
        {"version": 1, "kind": "solve", "name": "x", "totalActive": 9,
         "choosingFrom": ["decyl-glucoside-52", "decyl-glucosid-52"], "mustUse": ["soap"],
         "fixed": {"glycerine": 3}, "salt": {"low": 0, "high": -1}}
        """;
    assertEquals(
        List.of(
            "json-type $.totalActive",
            "number-range $.salt.high",
            "unknown-material $.choosingFrom[1]",
            "unknown-material $.fixed.glycerine",
            "unknown-material $.mustUse[0]"),
        read(json).problems().stream()
            .map(p -> p.code() + " " + p.place().field())
            .sorted()
            .toList());
  }

  @Test
  void aFinalPhIsReadAndAnswered() {
    String json =
        """
        {"version": 1, "kind": "solve", "name": "Final pH", "totalActive": {"percent": 9},
         "toReachPh": {"ph": 5, "titrant": "citric-acid-20", "atMost": 0.8},
         "choosingFrom": ["cocamidopropyl-betaine-30", "decyl-glucoside-52"]}
        """;
    Schemas.assertValid(json);
    Brief brief = read(json).value().orElseThrow().brief();
    Requirement r = brief.requirements().get(1);
    assertEquals(Requirement.Kind.TO_REACH_PH, r.kind());
    assertEquals("citric-acid-20 to reach pH 5 at most 0.8 % as supplied", r.toString());
    Schemas.assertValid(Requests.answer(Input.text("request", json), Blends.starterTable()).json());
    assertTrue(read(json.replace("0.8", "80")).problems().toString().contains("toReachPh.atMost"));
  }
}
