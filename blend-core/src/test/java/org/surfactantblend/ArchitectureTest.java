package org.surfactantblend;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.core.domain.Dependency;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaField;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.NullMarked;
import org.junit.jupiter.api.Test;

/** Keeps the rooms of the library apart and its promises about the host. */
class ArchitectureTest {
  private static final String ROOT = "org.surfactantblend";

  /** The level of each room; a room may use rooms of a lower level only. */
  private static final Map<String, Integer> LEVELS =
      Map.ofEntries(
          Map.entry("quantity", 0),
          Map.entry("problem", 0),
          Map.entry("optimise", 0),
          Map.entry("aqueous", 1),
          Map.entry("material", 2),
          Map.entry("blend", 3),
          Map.entry("acidity", 4),
          Map.entry("mildness", 4),
          Map.entry("brief", 5),
          Map.entry("solve", 6),
          Map.entry("batch", 7),
          Map.entry("swap", 7),
          Map.entry("conformance", 8),
          Map.entry("io", 9),
          Map.entry("", 10));

  private static final JavaClasses LIBRARY =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .importPackages(ROOT);

  private static String room(JavaClass c) {
    String name = c.getPackageName();
    return name.equals(ROOT) ? "" : name.substring(ROOT.length() + 1);
  }

  @Test
  void everyRoomHasALevelAndUsesLowerOnesOnly() {
    Set<String> wrong = new TreeSet<>();
    for (JavaClass c : LIBRARY) {
      Integer own = LEVELS.get(room(c));
      assertTrue(own != null, () -> "no level for the room of " + c.getName());
      for (Dependency d : c.getDirectDependenciesFromSelf()) {
        JavaClass other = d.getTargetClass().getBaseComponentType();
        if (other.getPackageName().startsWith(ROOT) && !room(other).equals(room(c))) {
          Integer used = LEVELS.get(room(other));
          if (used == null || used >= own) {
            wrong.add(room(c) + " uses " + room(other) + ": " + d.getDescription());
          }
        }
      }
    }
    assertEquals(Set.of(), wrong);
  }

  @Test
  void roomsFormNoCycle() {
    slices().matching(ROOT + ".(*)..").should().beFreeOfCycles().check(LIBRARY);
  }

  @Test
  void onlyTheRoomOfFilesTouchesJackson() {
    noClasses()
        .that()
        .resideOutsideOfPackage(ROOT + ".io..")
        .should()
        .dependOnClassesThat()
        .resideInAPackage("com.fasterxml..")
        .check(LIBRARY);
  }

  @Test
  void nothingButTheNamedLibrariesIsUsed() {
    classes()
        .should()
        .onlyDependOnClassesThat()
        .resideInAnyPackage(
            "java..",
            "org.jspecify..",
            "org.apache.commons.math3..",
            "com.fasterxml.jackson..",
            ROOT + "..")
        .check(LIBRARY);
  }

  @Test
  void theHostIsLeftAlone() {
    noClasses()
        .should()
        .accessField(System.class, "out")
        .orShould()
        .accessField(System.class, "err")
        .orShould()
        .dependOnClassesThat()
        .haveNameMatching(
            "java\\.(util\\.Random|util\\.concurrent\\.ThreadLocalRandom|lang\\.Thread"
                + "|util\\.logging\\..*|net\\.http\\..*|net\\.Socket|time\\.Clock)")
        .orShould()
        .callMethod(System.class, "currentTimeMillis")
        .orShould()
        .callMethod(System.class, "nanoTime")
        .orShould()
        .callMethod(Math.class, "random")
        .orShould()
        .callMethod(String.class, "toLowerCase")
        .orShould()
        .callMethod(String.class, "toUpperCase")
        .orShould()
        .callMethod(String.class, "format", String.class, Object[].class)
        .orShould()
        .callMethod(String.class, "getBytes")
        .check(LIBRARY);
  }

  @Test
  void noStaticStateChanges() {
    Set<String> wrong =
        LIBRARY.stream()
            .flatMap(c -> c.getFields().stream())
            .filter(f -> f.getModifiers().contains(JavaModifier.STATIC))
            .filter(f -> !f.getModifiers().contains(JavaModifier.FINAL))
            .map(JavaField::getFullName)
            .collect(Collectors.toCollection(TreeSet::new));
    assertEquals(Set.of(), wrong);
  }

  @Test
  void everyPackageIsNullMarked() {
    Map<String, Boolean> marked = new TreeMap<>();
    for (JavaClass c : LIBRARY) {
      marked.putIfAbsent(c.getPackageName(), false);
      if (c.getSimpleName().equals("package-info") && c.isAnnotatedWith(NullMarked.class)) {
        marked.put(c.getPackageName(), true);
      }
    }
    List<String> bare =
        marked.entrySet().stream().filter(e -> !e.getValue()).map(Map.Entry::getKey).toList();
    assertEquals(List.of(), bare);
  }

  @Test
  void noClassIsACupboard() {
    noClasses()
        .should()
        .haveNameMatching(".*(Utils?|Helpers?|Managers?|Commons?)(\\$.*)?")
        .check(LIBRARY);
  }

  @Test
  void theOptimiserIsNoPartOfThePublicApi() {
    Set<String> wrong = new TreeSet<>();
    for (JavaClass c : LIBRARY) {
      if (!room(c).equals("optimise") && c.getModifiers().contains(JavaModifier.PUBLIC)) {
        c.getMethods().stream()
            .filter(m -> m.getModifiers().contains(JavaModifier.PUBLIC))
            .filter(
                m ->
                    m.getRawReturnType().getPackageName().endsWith(".optimise")
                        || m.getRawParameterTypes().stream()
                            .anyMatch(p -> p.getPackageName().endsWith(".optimise")))
            .forEach(m -> wrong.add(m.getFullName()));
      }
    }
    assertEquals(Set.of(), wrong);
  }
}
