package org.surfactantblend.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;

class JsonBriefTest {
  private static final String GOOD =
      "{\"version\": 1, \"name\": \"Linden hand wash\","
          + " \"totalActive\": {\"percent\": 9, \"tolerance\": 0.3},"
          + " \"startingPh\": {\"low\": 5.5, \"high\": 7.5},"
          + " \"shares\": {\"amphoteric\": {\"low\": 40, \"high\": 70}},"
          + " \"choosingFrom\": [\"cocamidopropyl-betaine-30\", \"decyl-glucoside-52\"],"
          + " \"wish\": \"cheapest\"}";

  @Test
  void aBriefThatCanBeMetEndsWithZero() {
    Answer a = ask(GOOD);
    assertEquals(0, a.code);
    assertTrue(a.text.contains("\"solved\" : true"), a.text);
    assertTrue(a.text.contains("\"material\" : \"decyl-glucoside-52\""), a.text);
  }

  @Test
  void aBriefThatCannotBeMetEndsWithOneAndNamesTheConflict() {
    Answer b =
        ask(
            GOOD.replace(
                "\"shares\": {", "\"shares\": {\"anionic\": {\"low\": 50, \"high\": 60}, "));
    assertEquals(1, b.code);
    assertTrue(b.text.contains("share of anionic at least 50"), b.text);
  }

  @Test
  void aBriefThatCannotBeUsedEndsWithTwoAndListsEveryProblem() {
    Answer a = ask(GOOD.replace("\"percent\": 9", "\"percent\": \"9 %\"").replace("cheapest", "x"));
    assertEquals(2, a.code);
    assertTrue(a.text.contains("$.totalActive.percent"), a.text);
    assertTrue(a.text.contains("$.wish"), a.text);
    assertEquals(2, ask("not json").code);
    assertEquals(2, ask("").code);
    assertEquals(2, ask(GOOD.replace("decyl-glucoside-52", "decyl-glucosid")).code);
  }

  private record Answer(int code, String text) {}

  private static Answer ask(String request) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    int code =
        JsonBrief.run(
            new ByteArrayInputStream(request.getBytes(StandardCharsets.UTF_8)),
            new PrintStream(bytes, true, StandardCharsets.UTF_8));
    return new Answer(code, bytes.toString(StandardCharsets.UTF_8));
  }
}
