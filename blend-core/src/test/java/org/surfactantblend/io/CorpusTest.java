package org.surfactantblend.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.lang.reflect.Modifier;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.surfactantblend.problem.Loaded;

/** Every kept input goes through its reader again, without a fuzzer. */
class CorpusTest {
  private static final Path INPUTS = Path.of("src", "fuzz", "inputs");

  @TestFactory
  Stream<DynamicTest> keptInputsObeyTheLaws() {
    return Arrays.stream(ReaderLaws.values())
        .flatMap(
            law ->
                inputs(law).stream()
                    .map(
                        file ->
                            DynamicTest.dynamicTest(
                                law + " " + file.getFileName(),
                                () -> law.check(Files.readAllBytes(file)))));
  }

  @Test
  void everyReaderIsCovered() throws IOException {
    Set<String> covered =
        Arrays.stream(ReaderLaws.values())
            .flatMap(law -> law.reads().stream())
            .collect(Collectors.toCollection(TreeSet::new));
    assertEquals(readers(), covered, "see ReaderLaws for what a new reader needs");
    for (ReaderLaws law : ReaderLaws.values()) {
      assertTrue(inputs(law).size() >= 5, () -> "few inputs for " + law);
    }
  }

  /** Public methods of this room that take text from somebody. */
  private static Set<String> readers() throws IOException {
    Set<String> found = new TreeSet<>();
    try (Stream<Path> files =
        Files.list(Path.of("src", "main", "java", "org", "surfactantblend", "io"))) {
      List<String> names =
          files
              .map(f -> f.getFileName().toString())
              .filter(n -> n.endsWith(".java") && !n.equals("package-info.java"))
              .map(n -> n.substring(0, n.length() - 5))
              .toList();
      for (String name : names) {
        Class<?> type = Class.forName("org.surfactantblend.io." + name);
        if (Modifier.isPublic(type.getModifiers())) {
          Arrays.stream(type.getDeclaredMethods())
              .filter(m -> Modifier.isPublic(m.getModifiers()))
              .filter(m -> m.getReturnType() == Loaded.class)
              .filter(m -> m.getParameterCount() > 0 && m.getParameterTypes()[0] == Input.class)
              .forEach(m -> found.add(name + "." + m.getName()));
        }
      }
    } catch (ClassNotFoundException e) {
      throw new AssertionError(e);
    }
    return found;
  }

  private static List<Path> inputs(ReaderLaws law) {
    Path folder = INPUTS.resolve(law.name());
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(folder)) {
      return files.sorted().toList();
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }
}
