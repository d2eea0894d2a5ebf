package org.surfactantblend.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The tour through JShell prints what the file beside it says, in 80 columns. */
class JShellTourTest {
  private static final Path HERE = Path.of("src", "main", "jshell");

  @Test
  void theTourPrintsWhatIsWrittenDown() throws IOException, InterruptedException {
    Path exit = Files.createTempFile("exit", ".jsh");
    Files.writeString(exit, "/exit\n");
    Process jshell =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "jshell").toString(),
                "-s",
                "--class-path",
                System.getProperty("java.class.path"),
                "--startup",
                HERE.resolve("start.jsh").toString(),
                HERE.resolve("tour.jsh").toString(),
                exit.toString())
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    String printed = new String(jshell.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertTrue(jshell.waitFor(2, TimeUnit.MINUTES), "JShell ended");
    Files.delete(exit);
    List<String> lines = printed.lines().toList();
    lines.forEach(l -> assertTrue(l.length() <= 80, () -> "longer than 80 columns: " + l));
    assertEquals(Files.readAllLines(HERE.resolve("tour.expected.txt")), lines);
  }

  @Test
  void aSessionHasEveryPublicRoomImported() throws IOException {
    List<String> start = Files.readAllLines(HERE.resolve("start.jsh"));
    try (Stream<Path> rooms =
        Files.list(Path.of("..", "blend-core", "src", "main", "java", "org", "surfactantblend"))) {
      List<String> missing =
          rooms
              .filter(Files::isDirectory)
              .map(r -> r.getFileName().toString())
              .filter(r -> !r.equals("optimise")) // not part of the public interface
              .filter(r -> !start.contains("import org.surfactantblend." + r + ".*"))
              .sorted()
              .toList();
      assertEquals(List.of(), missing);
    }
  }
}
