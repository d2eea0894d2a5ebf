package org.surfactantblend.io;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.surfactantblend.material.Material;

/** Compares two materials figure by figure, because materials themselves compare by identity. */
final class SameMaterial {
  private SameMaterial() {}

  static void assertSameMaterial(Material expected, Material actual) {
    assertEquals(expected.id(), actual.id());
    assertEquals(expected.inciName(), actual.inciName());
    assertEquals(expected.grade(), actual.grade());
    assertEquals(expected.family(), actual.family());
    assertEquals(expected.constituents(), actual.constituents(), expected::id);
    assertEquals(expected.dryResiduePercent(), actual.dryResiduePercent());
    assertEquals(expected.statedPh(), actual.statedPh());
    assertEquals(expected.sheetPh(), actual.sheetPh());
    assertEquals(expected.strongIonEqPerKg(), actual.strongIonEqPerKg());
    assertEquals(expected.ownGroups(), actual.ownGroups());
    assertEquals(expected.groups(), actual.groups());
    assertEquals(expected.naturalOriginPercent(), actual.naturalOriginPercent());
    assertEquals(expected.maxUsePercent(), actual.maxUsePercent());
    assertEquals(expected.notes(), actual.notes());
    assertEquals(expected.lot(), actual.lot());
    assertEquals(expected.sources(), actual.sources());
    assertEquals(expected.caveats(), actual.caveats());
    assertEquals(expected.waterPercent(), actual.waterPercent());
  }
}
