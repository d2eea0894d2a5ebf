package org.surfactantblend.examples.mymaterials;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.surfactantblend.conformance.Conformance;
import org.surfactantblend.problem.Problem;

/** Every row of the shop's table, check by check; warnings count as well. */
class MyMaterialsTest {
  private final MyMaterials mine = MyMaterials.read();

  @Test
  void theFileIsReadWithoutAProblem() {
    assertEquals("", told(mine.problems()));
    assertFalse(mine.rows().isEmpty(), "the file holds at least one material");
  }

  @TestFactory
  Stream<DynamicTest> everyRow() {
    // A shop that names no source anywhere does not want to be asked for each.
    boolean named = mine.rows().stream().anyMatch(m -> !m.sources().isEmpty());
    return Conformance.of(mine.table()).except(MyMaterials.deviations()).checks().stream()
        .filter(c -> !c.subject().equals("water") && !c.subject().startsWith("acid "))
        .filter(c -> named || !c.code().equals("source"))
        .map(c -> dynamicTest(c.name(), () -> assertEquals("", told(c.findings()))));
  }

  private static String told(List<Problem> problems) {
    return problems.stream().map(Problem::toString).collect(Collectors.joining("\n"));
  }
}
