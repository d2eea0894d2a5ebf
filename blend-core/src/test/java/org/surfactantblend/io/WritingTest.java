package org.surfactantblend.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.surfactantblend.Blends;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.quantity.Range;

class WritingTest {
  private final MaterialTable table = Blends.starterTable();

  private static Material named(String grade) {
    return Material.builder("x")
        .inciName("Xanthan Gum")
        .grade(grade)
        .constituent(Constituent.other("Xanthan Gum", Range.exactly(90)))
        .build();
  }

  @Test
  void theWholeShippedTableReadsBack() {
    String csv = MaterialFile.writeCsv(table.materials(), table);
    Loaded<List<Material>> fromCsv = MaterialFile.materialsFromCsv(Input.text("all", csv), table);
    assertEquals(List.of(), fromCsv.problems());
    String json = MaterialFile.writeJson(table.materials(), table);
    Loaded<List<Material>> fromJson =
        MaterialFile.materialsFromJson(Input.text("all", json), table);
    assertEquals(List.of(), fromJson.problems());
    List<Material> originals = List.copyOf(table.materials());
    assertEquals(originals.size(), fromCsv.value().size());
    assertEquals(originals.size(), fromJson.value().size());
    for (int i = 0; i < originals.size(); i++) {
      SameMaterial.assertSameMaterial(originals.get(i), fromCsv.value().get(i));
      SameMaterial.assertSameMaterial(originals.get(i), fromJson.value().get(i));
    }
    assertFalse(csv.contains("\r"));
    assertFalse(json.contains("\r"));
  }

  @Test
  void aCellThatASpreadsheetWouldRunIsNeutralised() {
    for (String grade : List.of("=1+1", "+x", "-y", "@sum", "'=1", "''=1", "=\"a\",\"b\"")) {
      String csv = MaterialFile.writeCsv(List.of(named(grade)), table);
      String cell = csv.split("\n", -1)[1].split(",", 3)[2].replaceFirst("^\"", "");
      assertTrue(cell.startsWith("'"), csv);
      Loaded<List<Material>> back = MaterialFile.materialsFromCsv(Input.text("x", csv), table);
      assertEquals(grade, back.orElseThrow().get(0).grade());
    }
    assertEquals(
        "'\tx",
        CsvText.of(List.of("a"), List.of(java.util.Map.of("a", "\tx")))
            .split("\n", -1)[1]
            .replace("\"", ""));
  }

  @Test
  void numbersAreNotNeutralised() {
    Material m =
        Material.builder("x")
            .inciName("Sodium Hydroxide")
            .strongIonEqPerKg(Range.of(-2, -1.5, 1e-7))
            .build();
    String csv = MaterialFile.writeCsv(List.of(m), table);
    assertTrue(csv.contains(",-2,-1.5,0.0000001"), csv);
  }

  @Test
  void plainTextStaysAsItIs() {
    String csv = MaterialFile.writeCsv(List.of(named("80 mesh, \"clear\"\nsecond line")), table);
    assertEquals(
        """
        id,inci_name,grade,charge_class,family,constituents
        x,Xanthan Gum,"80 mesh, ""clear""
        second line",none,unspecified,Xanthan Gum 90
        """,
        csv);
  }

  @Test
  void whatOneCellCannotHoldIsRefusedAndJsonTakesIt() {
    Material m =
        Material.builder("x")
            .inciName("Mixture")
            .constituent(Constituent.other("a; b [c]", Range.exactly(5)))
            .caveat("one; two")
            .source("odd: figure", "A | B")
            .build();
    assertThrows(IllegalArgumentException.class, () -> MaterialFile.writeCsv(List.of(m), table));
    Loaded<List<Material>> back =
        MaterialFile.materialsFromJson(
            Input.text("x", MaterialFile.writeJson(List.of(m), table)), table);
    SameMaterial.assertSameMaterial(m, back.orElseThrow().get(0));
  }

  @Test
  void theDefaultLocaleDoesNotMatter() {
    Locale before = Locale.getDefault();
    String csv = MaterialFile.writeCsv(table.materials(), table);
    String json = MaterialFile.writeJson(table.materials(), table);
    try {
      for (String tag : List.of("tr-TR", "de-DE", "ar-EG-u-nu-arab", "hi-IN-u-nu-deva")) {
        Locale.setDefault(Locale.forLanguageTag(tag));
        assertEquals(csv, MaterialFile.writeCsv(table.materials(), table), tag);
        assertEquals(json, MaterialFile.writeJson(table.materials(), table), tag);
        Loaded<MaterialTable> again = ShippedData.starterTable();
        assertEquals(List.of(), again.problems(), tag);
        assertEquals(csv, MaterialFile.writeCsv(again.value().materials(), table), tag);
        Loaded<List<Material>> wrong =
            MaterialFile.materialsFromCsv(
                Input.text(
                    "x",
                    """
                    ID,INCI_NAME,FAMILY,ACTIVE_TYP_PCT
                    I,Decyl Glucoside,ALKALINE ALKYL POLYGLUCOSIDE,"52,5"
                    """),
                table);
        assertEquals(
            List.of("id-format", "decimal-comma"),
            wrong.problems().stream().map(p -> p.code()).toList(),
            tag);
        assertEquals("i", wrong.problems().get(0).advice(), tag);
        assertEquals("52.5", wrong.problems().get(1).advice(), tag);
      }
    } finally {
      Locale.setDefault(before);
    }
  }
}
