package org.surfactantblend.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.junit.jupiter.api.Test;

/** The programs and outputs in the README are those of the examples, line by line. */
class ReadmeTest {
  private static final Path README = Path.of("..", "README.md");
  private static final Path SOURCES =
      Path.of("src", "main", "java", "org", "surfactantblend", "examples");

  private static final List<String> PROGRAMS =
      List.of(
          "FirstBlend",
          "ImpossibleBrief",
          "ChoosingAmongMany",
          "HowMild",
          "AnotherDrum",
          "BatchToWeigh",
          "DoseToTarget",
          "NewMaterials");

  @Test
  void programsAreTheSourcesOfTheExamples() throws IOException {
    for (String name : PROGRAMS) {
      List<String> source =
          Files.readAllLines(SOURCES.resolve(name + ".java")).stream().map(String::strip).toList();
      List<String> shown = block("program " + name).stream().map(String::strip).toList();
      assertTrue(
          String.join("\n", source).contains(String.join("\n", shown)),
          () -> "README shows another program than " + name);
    }
  }

  @Test
  void outputsAreWhatTheExamplesPrint() throws Exception {
    assertEquals(block("output FirstBlend"), printed(() -> call(FirstBlend::main)));
    assertEquals(block("output ImpossibleBrief"), printed(() -> call(ImpossibleBrief::main)));
    assertEquals(block("output OwnMaterials"), printed(() -> call(OwnMaterials::main)));
    assertEquals(block("output NewMaterials"), printed(() -> call(NewMaterials::main)));
    assertEquals(block("output ChoosingAmongMany"), printed(() -> call(ChoosingAmongMany::main)));
    assertEquals(block("output HowMild"), printed(() -> call(HowMild::main)));
    assertEquals(block("output AnotherDrum"), printed(() -> call(AnotherDrum::main)));
    assertEquals(block("output BatchToWeigh"), printed(() -> call(BatchToWeigh::main)));
    assertEquals(block("output DoseToTarget"), printed(() -> call(DoseToTarget::main)));
  }

  @Test
  void theRequestAndItsAnswerAreThoseOfTheProgram() throws IOException {
    String request = Files.readString(Path.of("..", "data", "examples", "largest-batch.json"));
    assertEquals(block("request largest-batch"), request.lines().toList());
    assertEquals(
        List.of(
            "java -jar blend-examples/target/blend-desk.jar < data/examples/largest-batch.json"),
        block("command largest-batch"));
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    PrintStream out = new PrintStream(bytes, true, StandardCharsets.UTF_8);
    InputStream in = new ByteArrayInputStream(request.getBytes(StandardCharsets.UTF_8));
    assertEquals(0, BlendDesk.run(new String[0], in, out, out));
    assertEquals(
        block("answer largest-batch"), bytes.toString(StandardCharsets.UTF_8).lines().toList());
  }

  private interface Main {
    void run(String[] args) throws IOException;
  }

  private static Boolean call(Main main) throws IOException {
    main.run(new String[0]);
    return true;
  }

  private static List<String> printed(Callable<Boolean> program) throws Exception {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    PrintStream before = System.out;
    System.setOut(new PrintStream(bytes, true, StandardCharsets.UTF_8));
    try {
      assertTrue(program.call());
    } finally {
      System.setOut(before);
    }
    return bytes.toString(StandardCharsets.UTF_8).lines().toList();
  }

  /** The indented block behind a marker, without its indent. */
  private static List<String> block(String marker) throws IOException {
    List<String> lines = Files.readAllLines(README);
    int at = lines.indexOf("<!-- " + marker + " -->");
    assertTrue(at >= 0, () -> "README has no marker " + marker);
    List<String> block = new ArrayList<>();
    for (int i = at + 2; i < lines.size(); i++) {
      String line = lines.get(i);
      if (!line.isEmpty() && !line.startsWith("    ")) {
        break;
      }
      block.add(line.isEmpty() ? "" : line.substring(4));
    }
    while (block.get(block.size() - 1).isEmpty()) {
      block.remove(block.size() - 1);
    }
    assertFalse(block.isEmpty());
    return block;
  }
}
