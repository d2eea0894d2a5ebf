package org.surfactantblend.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

/** The picture is well-formed SVG that shows the curve, its band, every reading and the target. */
class TitrationCurvePictureTest {
  private static final String SVG = TitrationCurvePicture.svg(TitrationCurvePicture.titration());

  private static Document parsed(String svg) throws Exception {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setNamespaceAware(true);
    factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
    return factory
        .newDocumentBuilder()
        .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)));
  }

  private static List<Element> elements(Document d, String name) {
    return elementsOf(d.getDocumentElement(), name);
  }

  private static List<Element> elementsOf(Element parent, String name) {
    NodeList all = parent.getElementsByTagNameNS("*", name);
    List<Element> list = new ArrayList<>();
    for (int i = 0; i < all.getLength(); i++) {
      list.add((Element) all.item(i));
    }
    return list;
  }

  @Test
  void itIsSvgWithItsWords() throws Exception {
    Document d = parsed(SVG);
    assertEquals("svg", d.getDocumentElement().getLocalName());
    List<String> words = elements(d, "text").stream().map(e -> e.getTextContent().strip()).toList();
    for (String word :
        List.of(
            "400 g of Linden hand wash",
            "grams of citric acid 20 % m/m",
            "target pH 5.20",
            "meter reading",
            "learned curve, band: 90 % of the true pH")) {
      assertTrue(words.contains(word), () -> word + " missing in " + words);
    }
  }

  /** The groups of a style that hold a path. */
  private static List<Element> styled(Document d, String style) {
    return elements(d, "g").stream()
        .filter(g -> g.getAttribute("style").replace(" ", "").contains(style))
        .toList();
  }

  @Test
  void readingsBandAndCurveAreDrawn() throws Exception {
    Document d = parsed(SVG);
    assertEquals(3, styled(d, "fill:rgb(179,64,11)").size(), "two readings and the legend");
    assertEquals(1, styled(d, "fill:rgb(157,191,224)").size(), "the band");
    // The curve, beside its line in the legend, with a point for every dose worked out.
    long points =
        styled(d, "stroke:rgb(31,78,121)").stream()
            .flatMap(g -> elementsOf(g, "path").stream())
            .mapToLong(p -> p.getAttribute("d").chars().filter(c -> c == 'L').count())
            .max()
            .orElseThrow();
    assertEquals(160, points);
    // The next dose: where the dashed line stands.
    assertTrue(
        elements(d, "line").stream()
            .anyMatch(l -> l.getAttribute("style").contains("stroke-dasharray:5.0,4.0")));
  }

  @Test
  void theSameTitrationGivesTheSamePicture(@TempDir Path folder) throws IOException {
    assertEquals(SVG, TitrationCurvePicture.svg(TitrationCurvePicture.titration()));
    Path file = folder.resolve("t.svg");
    TitrationCurvePicture.main(new String[] {file.toString()});
    assertEquals(SVG, Files.readString(file, StandardCharsets.UTF_8));
  }
}
