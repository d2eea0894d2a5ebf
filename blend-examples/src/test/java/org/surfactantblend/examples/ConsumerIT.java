package org.surfactantblend.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A program of somebody else ({@code src/consumer}) is compiled from scratch against the packaged
 * library and its run-time dependencies, nothing else, and solves a blend: on the class path and on
 * the module path. Runs after the library is packaged.
 */
class ConsumerIT {
  private static final Path SOURCES = Path.of("src", "consumer");
  private static final String MAIN = "org.example.workshop.Workshop";

  /** What the library may bring along; a new name here is a decision. */
  private static final List<String> ALLOWED =
      List.of(
          "blend-core",
          "commons-math3",
          "jackson-annotations",
          "jackson-core",
          "jackson-databind",
          "jackson-dataformat-csv",
          "jspecify");

  @TempDir Path work;

  @Test
  void theLibraryBringsItsDeclaredDependenciesOnly() throws IOException {
    Pattern version = Pattern.compile("-[0-9][^/\\\\]*\\.jar$");
    List<String> names =
        classPath().stream()
            .map(jar -> version.matcher(Path.of(jar).getFileName().toString()).replaceAll(""))
            .sorted()
            .toList();
    assertEquals(ALLOWED, names);
  }

  @Test
  void solvesOnTheClassPath() throws IOException, InterruptedException {
    Path classes = work.resolve("classes");
    String jars = String.join(File.pathSeparator, classPath());
    compile(List.of("--class-path", jars), classes, SOURCES.resolve("java"));
    Ran ran = java("--class-path", classes + File.pathSeparator + jars, MAIN);
    assertEquals("null", ran.err, "the unnamed module");
    assertSolved(ran.out);
  }

  @Test
  void solvesOnTheModulePath() throws IOException, InterruptedException {
    Path classes = work.resolve("modules").resolve("org.example.workshop");
    String jars = String.join(File.pathSeparator, classPath());
    compile(
        List.of("--module-path", jars),
        classes,
        SOURCES.resolve("java"),
        SOURCES.resolve("module"));
    Ran ran =
        java(
            "--module-path",
            classes + File.pathSeparator + jars,
            // An automatic module names no dependencies, so Jackson has to be asked for.
            "--add-modules",
            "ALL-MODULE-PATH",
            "--module",
            "org.example.workshop/" + MAIN);
    assertEquals("org.surfactantblend", ran.err);
    assertSolved(ran.out);
  }

  /** Active shares and the total are checked from the printed lines alone. */
  private static void assertSolved(String out) {
    List<String> lines = out.lines().toList();
    assertEquals("Linden hand wash", lines.get(0), out);
    double[] betaine = figures(lines, "cocamidopropyl-betaine-30");
    double[] glucoside = figures(lines, "decyl-glucoside-52");
    double active = betaine[1] + glucoside[1];
    assertTrue(active >= 8.8 - 0.002 && active <= 9.2 + 0.002, out);
    double share = 100 * betaine[1] / active;
    assertTrue(share >= 40 - 0.1 && share <= 60 + 0.1, out);
    assertEquals(0.30, betaine[1] / betaine[0], 0.001, out);
    assertTrue(out.contains("\"solved\""), out);
    assertTrue(out.contains("\"Barley shampoo\""), out);
  }

  private static double[] figures(List<String> lines, String material) {
    String line =
        lines.stream()
            .map(String::strip)
            .filter(l -> l.startsWith(material + " "))
            .findFirst()
            .orElseThrow(() -> new AssertionError(material + " in " + lines));
    return Arrays.stream(line.substring(material.length()).strip().split("\\s+"))
        .mapToDouble(Double::parseDouble)
        .toArray();
  }

  private static List<String> classPath() throws IOException {
    String written = Files.readString(Path.of("target", "run-time-classpath.txt")).strip();
    List<String> jars = List.of(written.split(Pattern.quote(File.pathSeparator)));
    jars.forEach(jar -> assertTrue(jar.endsWith(".jar") && Files.isRegularFile(Path.of(jar)), jar));
    return jars;
  }

  private static void compile(List<String> options, Path classes, Path... sources)
      throws IOException, InterruptedException {
    List<String> command = new ArrayList<>(List.of(tool("javac"), "-d", classes.toString()));
    command.addAll(List.of("--release", "17", "-proc:none", "-Xlint:all", "-Werror"));
    // Said of every automatic module; the library has a stable name.
    command.add("-Xlint:-requires-automatic");
    command.addAll(options);
    for (Path source : sources) {
      try (var files = Files.walk(source)) {
        files.map(Path::toString).filter(f -> f.endsWith(".java")).sorted().forEach(command::add);
      }
    }
    Ran ran = run(command);
    assertEquals("", ran.out + ran.err);
    assertEquals(0, ran.exit);
  }

  private static Ran java(String... arguments) throws IOException, InterruptedException {
    List<String> command = new ArrayList<>(List.of(tool("java")));
    command.addAll(List.of(arguments));
    Ran ran = run(command);
    assertEquals(0, ran.exit, ran.err);
    return ran;
  }

  private static String tool(String name) {
    boolean windows = System.getProperty("os.name").toLowerCase(Locale.ROOT).startsWith("windows");
    return Path.of(System.getProperty("java.home"), "bin", windows ? name + ".exe" : name)
        .toString();
  }

  private static Ran run(List<String> command) throws IOException, InterruptedException {
    Path err = Files.createTempFile("consumer", ".err");
    ProcessBuilder builder = new ProcessBuilder(command).redirectError(err.toFile());
    builder.environment().remove("JAVA_TOOL_OPTIONS");
    builder.environment().remove("CLASSPATH");
    Process process = builder.start();
    String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertTrue(process.waitFor(5, TimeUnit.MINUTES), "ended");
    Ran ran = new Ran(process.exitValue(), out, Files.readString(err));
    Files.delete(err);
    return ran;
  }

  private record Ran(int exit, String out, String err) {}
}
