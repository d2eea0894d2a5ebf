package org.surfactantblend.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.NodeList;

/** The picture of mildness is a whole SVG document with its words and its curves. */
class MildnessPictureTest {
  @Test
  void thePictureHoldsItsTextsAndCurves() throws Exception {
    String svg = MildnessPicture.svg();
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
    Document document =
        factory
            .newDocumentBuilder()
            .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)));
    assertEquals(
        "svg",
        document.getDocumentElement().getLocalName() == null
            ? document.getDocumentElement().getNodeName()
            : document.getDocumentElement().getLocalName());
    List<String> texts = new ArrayList<>();
    NodeList nodes = document.getElementsByTagName("text");
    for (int i = 0; i < nodes.getLength(); i++) {
      texts.add(nodes.item(i).getTextContent());
    }
    for (String wanted :
        List.of(
            // The upright labels of the other axes are drawn as outlines.
            "undiluted",
            "middle, with the range of the scores",
            "anionic share of the active, % (the rest is amphoteric)")) {
      assertTrue(texts.contains(wanted), () -> wanted + " is not in " + texts);
    }
    assertTrue(String.join(" ", texts).contains("upper bound"), texts::toString);
    long curves = 0;
    NodeList paths = document.getElementsByTagName("path");
    for (int i = 0; i < paths.getLength(); i++) {
      String d = paths.item(i).getAttributes().getNamedItem("d").getTextContent();
      curves += d.split("L", -1).length > 40 ? 1 : 0;
    }
    assertTrue(curves >= 2, "a band and curves of fifty steps");
    assertEquals(svg, MildnessPicture.svg(), "the same bits each time");
  }
}
