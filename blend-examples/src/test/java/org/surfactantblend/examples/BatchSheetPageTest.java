package org.surfactantblend.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.surfactantblend.batch.BatchLine;
import org.surfactantblend.batch.BatchSheet;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Scale;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

class BatchSheetPageTest {
  private static Document parsed(BatchSheet sheet) throws Exception {
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(BatchSheetPage.of(sheet))));
  }

  private static List<Element> all(Element in, String tag) {
    NodeList nodes = in.getElementsByTagName(tag);
    List<Element> list = new ArrayList<>();
    for (int i = 0; i < nodes.getLength(); i++) {
      list.add((Element) nodes.item(i));
    }
    return list;
  }

  @Test
  void everyLineHasItsGramsAndRoomToWrite() throws Exception {
    BatchSheet sheet = BatchSheetPage.example();
    Document page = parsed(sheet);
    List<Element> rows = all(page.getDocumentElement(), "tr");
    List<BatchLine> lines = new ArrayList<>(sheet.lines());
    lines.addAll(sheet.water().orElseThrow().pours());
    for (BatchLine l : lines) {
      Element row =
          rows.stream()
              .filter(r -> all(r, "td").size() == 8)
              .filter(r -> r.getTextContent().contains(l.material().id()))
              .findFirst()
              .orElseThrow();
      List<Element> cells = all(row, "td");
      assertEquals(l.weighText(), cells.get(2).getTextContent());
      for (int blank = 5; blank < 8; blank++) {
        assertEquals("", cells.get(blank).getTextContent());
        assertEquals("b", cells.get(blank).getAttribute("class"));
      }
    }
  }

  @Test
  void whatIsNotedOfTheMaterialsIsOnThePage() throws Exception {
    BatchSheet sheet = BatchSheetPage.example();
    List<String> items =
        all(parsed(sheet).getDocumentElement(), "li").stream()
            .map(Element::getTextContent)
            .toList();
    assertTrue(
        sheet.notes().contains("allantoin: dissolves to about 0.5 % at 25 C and 0.2 % at 6-8 C"));
    assertTrue(items.containsAll(sheet.notes()), items.toString());
  }

  @Test
  void thePhTableIsEmptyAndLongEnough() throws Exception {
    Element table =
        all(parsed(BatchSheetPage.example()).getDocumentElement(), "table").stream()
            .filter(t -> t.getAttribute("id").equals("ph"))
            .findFirst()
            .orElseThrow();
    assertTrue(all(table, "tr").size() >= 7);
    assertEquals(7, all(table, "th").size());
  }

  /**
   * What a batch record has to hold by ISO 22716:2007, 7.2.1.2 (formula, raw materials with lot and
   * quantity, operations), 7.2.2 (start-up checks), 7.2.3 (batch number) and 7.2.4 (labelled
   * weighing); the fields around them (readings, yield, deviations, signature) are common practice.
   */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "Formula version",
        "Batch number",
        "Date",
        "lot",
        "weighed, g",
        "Weighing and order of addition",
        "time, temperature",
        "bench and kettle clean",
        "documents of this batch at hand",
        "lots and expiry dates checked",
        "cups labelled with material, lot, mass and batch number",
        "Scale 0.01 g, checked with a weight; number",
        "pH after 24 h",
        "Appearance and odour",
        "Viscosity",
        "Samples taken",
        "filled, g",
        "retained",
        "loss, g",
        "Deviations",
        "Made by",
        "Checked by"
      })
  void theBatchRecordIsComplete(String element) throws Exception {
    String text = parsed(BatchSheetPage.example()).getDocumentElement().getTextContent();
    assertTrue(text.contains(element), element);
  }

  @Test
  void aSmallTrialGetsItsPremixes() throws Exception {
    BatchSheet trial =
        BatchSheet.of(BatchSheetPage.example().blend())
            .mass(Mass.grams(150))
            .on(Scale.of(0.1, 500));
    String text = parsed(trial).getDocumentElement().getTextContent();
    assertTrue(text.contains("Lines below fifty divisions"));
    assertTrue(text.contains("allantoin: 3.0 divisions"), text);
    assertTrue(text.contains("Better: mix"));
  }

  @Test
  void namesFromOutsideCannotBreakThePage() throws Exception {
    Material water = Material.builder("water").inciName("Aqua").build();
    Blend odd = Blend.named("<b>\"Oat\" & more</b>").upToHundredWith(water);
    BatchSheet sheet =
        BatchSheet.of(odd)
            .mass(Mass.kilograms(1))
            .batchNumber("a<script>1</script>")
            .on(Scale.of(1, 5000));
    Document page = parsed(sheet);
    assertTrue(page.getDocumentElement().getTextContent().contains("<b>\"Oat\" & more</b>"));
    assertEquals(0, all(page.getDocumentElement(), "script").size());
  }

  @Test
  void thePagePromisesNothing() {
    String page = BatchSheetPage.of(BatchSheetPage.example()).toLowerCase(Locale.ROOT);
    for (String word : List.of("safe", "preserved", "hypoallergenic", "non-irritating")) {
      assertFalse(page.contains(word), word);
    }
  }
}
