package org.surfactantblend;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.jar.JarFile;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** What the {@code release} profile leaves in {@code target} is complete and holds no more. */
class ReleaseIT {
  /** Declared, or brought along by Jackson's databind; with the licence each one states. */
  private static final Map<String, String> RUN_TIME =
      Map.of(
          "com.fasterxml.jackson.core:jackson-annotations", "Apache-2.0",
          "com.fasterxml.jackson.core:jackson-core", "Apache-2.0",
          "com.fasterxml.jackson.core:jackson-databind", "Apache-2.0",
          "com.fasterxml.jackson.dataformat:jackson-dataformat-csv", "Apache-2.0",
          "org.apache.commons:commons-math3", "Apache-2.0",
          "org.jspecify:jspecify", "Apache-2.0");

  @Test
  void theBillOfMaterialsListsTheRunTimeDependenciesOnly() throws IOException {
    JsonNode bill = new ObjectMapper().readTree(file("-bom.json").toFile());
    assertEquals("CycloneDX", bill.path("bomFormat").asText());
    assertEquals("blend-core", bill.at("/metadata/component/name").asText());
    Map<String, String> listed = new TreeMap<>();
    for (JsonNode part : bill.path("components")) {
      listed.put(
          part.path("group").asText() + ":" + part.path("name").asText(),
          part.at("/licenses/0/license/id").asText());
      assertFalse(part.path("hashes").isEmpty(), () -> "no checksum: " + part);
    }
    assertEquals(new TreeMap<>(RUN_TIME), listed);
  }

  @Test
  void theJarsHoldTheLibraryItsSourcesAndItsDocumentation() throws IOException {
    assertEquals("org.surfactantblend", moduleName());
    Set<String> classes = names(".jar", "[A-Za-z/]+\\.class");
    Set<String> sources = names("-sources.jar", "[A-Za-z/]+\\.java");
    assertTrue(sources.size() > 50, () -> "only " + sources);
    assertEquals(
        sources.stream().map(s -> s.replace(".java", "")).collect(Collectors.toSet()),
        classes.stream().map(c -> c.replace(".class", "")).collect(Collectors.toSet()));
    Set<String> pages = names("-javadoc.jar", ".*org/surfactantblend/.*\\.html");
    assertTrue(pages.stream().anyMatch(p -> p.endsWith("/Blends.html")), () -> "only " + pages);
    assertEquals(
        Set.of(), pages.stream().filter(p -> p.contains("/optimise/")).collect(Collectors.toSet()));
    Set<String> others = names(".jar", ".*");
    others.removeIf(
        n -> n.startsWith("org/surfactantblend/") || n.startsWith("META-INF/") || n.endsWith("/"));
    assertEquals(Set.of(), others);
  }

  private static String moduleName() throws IOException {
    try (JarFile jar = new JarFile(file(".jar").toFile())) {
      return jar.getManifest().getMainAttributes().getValue("Automatic-Module-Name");
    }
  }

  private static Set<String> names(String ending, String pattern) throws IOException {
    try (JarFile jar = new JarFile(file(ending).toFile())) {
      return jar.stream()
          .map(entry -> entry.getName())
          .filter(name -> name.matches(pattern))
          .collect(Collectors.toCollection(TreeSet::new));
    }
  }

  private static Path file(String ending) throws IOException {
    try (Stream<Path> files = Files.list(Path.of("target"))) {
      return files
          .filter(
              f -> f.getFileName().toString().matches("blend-core-[0-9.]+(-SNAPSHOT)?" + ending))
          .findFirst()
          .orElseThrow(() -> new AssertionError("no *" + ending + " in target"));
    }
  }
}
