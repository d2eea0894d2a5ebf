package org.surfactantblend.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringReader;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.surfactantblend.Blends;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.solve.Measure;
import org.surfactantblend.solve.TradeOff;
import org.w3c.dom.Document;
import org.xml.sax.InputSource;

class TradeOffPictureTest {
  @Test
  void everyCornerIsNamed() throws Exception {
    MaterialTable table = Blends.starterTable().priced(Blends.demoPrices());
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
    Document svg =
        factory
            .newDocumentBuilder()
            .parse(new InputSource(new StringReader(TradeOffPicture.svg(table))));
    assertEquals("svg", svg.getDocumentElement().getTagName());
    String text = svg.getDocumentElement().getTextContent();
    TradeOff front =
        Blends.tradeOff(
            ChoosingAmongMany.brief(table), table, Measure.COST, Measure.IRRITATION_INDEX);
    assertTrue(front.corners().size() > 2);
    for (int i = 0; i < front.corners().size(); i++) {
      String first = front.corners().get(i).blend().lines().get(0).material().id();
      assertTrue(text.contains((char) ('a' + i) + ":"), text);
      assertTrue(text.contains(first), text);
    }
  }
}
