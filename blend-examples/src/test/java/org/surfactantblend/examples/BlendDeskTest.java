package org.surfactantblend.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.surfactantblend.io.Requests;

class BlendDeskTest {
  private static final Path EXAMPLES = Path.of("..", "data", "examples");

  private record Answer(int code, String text, String errors) {}

  private static Answer run(InputStream in, String... args) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    int code =
        BlendDesk.run(
            args,
            in,
            new PrintStream(out, true, StandardCharsets.UTF_8),
            new PrintStream(err, true, StandardCharsets.UTF_8));
    return new Answer(
        code, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
  }

  private static Answer ask(String request) {
    return run(new ByteArrayInputStream(request.getBytes(StandardCharsets.UTF_8)));
  }

  private static String example(String kind) throws IOException {
    return Files.readString(EXAMPLES.resolve(kind + ".json"));
  }

  static List<String> kinds() {
    return Requests.kinds();
  }

  @ParameterizedTest
  @MethodSource("kinds")
  void everyExampleIsAnswered(String kind) throws IOException {
    Answer a = ask(example(kind));
    assertEquals(0, a.code, a.text);
    assertTrue(a.text.contains("\"kind\" : \"" + kind + "-answer\""), a.text);
    assertEquals("", a.errors);
  }

  @Test
  void whatCannotBeHadEndsWithOneAndSaysWhy() throws IOException {
    Answer a =
        ask(
            example("solve")
                .replace(
                    "\"shares\": {", "\"shares\": {\"anionic\": {\"low\": 70, \"high\": 80}, "));
    assertEquals(1, a.code);
    assertTrue(a.text.contains("share of anionic at least 70"), a.text);
  }

  @Test
  void whatCannotBeUsedEndsWithTwoAndListsEveryProblem() throws IOException {
    Answer a =
        ask(
            example("solve")
                .replace("\"percent\": 9", "\"percent\": \"9 %\"")
                .replace("cheapest", "cheepest"));
    assertEquals(2, a.code);
    assertTrue(a.text.contains("$.totalActive.percent"), a.text);
    assertTrue(a.text.contains("$.wish"), a.text);
    assertTrue(a.text.contains("\"maybe\" : \"cheapest\""), a.text);
    assertEquals(2, ask("not json").code);
    assertEquals(2, ask("").code);
    assertEquals(2, ask(example("solve").replace("decyl-glucoside-52", "decyl-glucosid")).code);
    assertEquals(2, run(new ByteArrayInputStream(new byte[] {(byte) 0xC3, 0x28})).code);
  }

  @Test
  void anythingElseEndsWithThree() {
    Answer a =
        run(
            new InputStream() {
              @Override
              public int read() throws IOException {
                throw new IOException("the pipe broke");
              }
            });
    assertEquals(3, a.code);
    assertEquals("", a.text);
    assertTrue(a.errors.contains("the pipe broke"), a.errors);
  }

  @Test
  void helpNamesEveryKindAndNothingIsRead() {
    Answer help = run(InputStream.nullInputStream(), "--help");
    assertEquals(0, help.code);
    for (String kind : Requests.kinds()) {
      assertTrue(help.text.contains("\n  " + kind + " "), kind);
    }
    assertTrue(help.text.lines().allMatch(l -> l.length() <= 80), help.text);
    Answer wrong = run(InputStream.nullInputStream(), "request.json");
    assertEquals(2, wrong.code);
    assertEquals("", wrong.text);
  }
}
