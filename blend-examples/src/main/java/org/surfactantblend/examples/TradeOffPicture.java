package org.surfactantblend.examples;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Rectangle2D;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Collectors;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.annotations.XYTextAnnotation;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.title.TextTitle;
import org.jfree.chart.ui.HorizontalAlignment;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.jfree.svg.SVGGraphics2D;
import org.surfactantblend.Blends;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.quantity.Text;
import org.surfactantblend.solve.Measure;
import org.surfactantblend.solve.TradeOff;

/** A trade-off as a picture: any drums mixed freely against three of them. */
public final class TradeOffPicture {
  private static final int WIDTH = 760;
  private static final int HEIGHT = 560;
  private static final Font SMALL = new Font(Font.SANS_SERIF, Font.PLAIN, 11);

  private TradeOffPicture() {}

  /**
   * Writes the picture.
   *
   * @param args the file to write; {@code trade-off.svg} in the target folder unless given
   * @throws IOException if it cannot be written
   */
  public static void main(String[] args) throws IOException {
    Path file = Path.of(args.length > 0 ? args[0] : "target/trade-off.svg");
    MaterialTable table = Blends.starterTable().priced(Blends.demoPrices());
    Files.writeString(file, svg(table), StandardCharsets.UTF_8);
    System.out.println("written: " + file);
  }

  /**
   * The picture.
   *
   * @param table the table with its prices
   * @return SVG
   */
  static String svg(MaterialTable table) {
    Brief three = ChoosingAmongMany.brief(table);
    Brief.Builder any =
        Brief.named(three.name()).choosingFrom(three.candidates().toArray(String[]::new));
    three.requirements().forEach(any::requirement);
    TradeOff free = Blends.tradeOff(any.build(), table, Measure.COST, Measure.SALT);
    TradeOff few = Blends.tradeOff(three, table, Measure.COST, Measure.SALT);

    XYSeriesCollection data = new XYSeriesCollection();
    data.addSeries(series("any number of surfactants, mixtures included", free));
    data.addSeries(series("three surfactants, each at least 1 %", few));
    XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer();
    renderer.setSeriesLinesVisible(0, free.between());
    renderer.setSeriesShapesVisible(0, true);
    renderer.setSeriesLinesVisible(1, false);
    renderer.setSeriesShapesVisible(1, true);
    renderer.setSeriesPaint(0, new Color(0x1b4965));
    renderer.setSeriesPaint(1, new Color(0xbc4b51));
    renderer.setSeriesStroke(0, new BasicStroke(1.6f));
    renderer.setSeriesShape(0, new Ellipse2D.Double(-2.5, -2.5, 5, 5));
    renderer.setSeriesShape(1, new Rectangle2D.Double(-4, -4, 8, 8));
    NumberAxis cost =
        new NumberAxis(Measure.COST.label() + ", " + table.prices().currency() + " per kg");
    NumberAxis salt = new NumberAxis(Measure.SALT.label() + ", " + Measure.SALT.unit());
    cost.setAutoRangeIncludesZero(false);
    XYPlot plot = new XYPlot(data, cost, salt, renderer);
    plot.setBackgroundPaint(Color.WHITE);
    plot.setDomainGridlinePaint(new Color(0xdddddd));
    plot.setRangeGridlinePaint(new Color(0xdddddd));
    StringBuilder key = new StringBuilder();
    char letter = 'a';
    for (TradeOff.Corner c : few.corners()) {
      String names =
          c.blend().lines().stream()
              .filter(l -> l.material().isSurfactant())
              .map(l -> Text.fixed(l.amount().value(), 1) + " % " + l.material().id())
              .collect(Collectors.joining(", "));
      key.append(letter).append(":  ").append(names).append('\n');
      XYTextAnnotation note = new XYTextAnnotation("  " + letter, c.first(), c.second());
      note.setFont(SMALL);
      note.setTextAnchor(TextAnchor.BOTTOM_LEFT);
      plot.addAnnotation(note);
      letter++;
    }
    JFreeChart chart = new JFreeChart(three.name() + ": what less salt costs", plot);
    chart.setBackgroundPaint(Color.WHITE);
    TextTitle names = new TextTitle(key.toString().strip(), SMALL);
    names.setPosition(RectangleEdge.BOTTOM);
    names.setTextAlignment(HorizontalAlignment.LEFT);
    names.setPadding(8, 40, 8, 8);
    chart.addSubtitle(names);
    SVGGraphics2D g = new SVGGraphics2D(WIDTH, HEIGHT);
    chart.draw(g, new Rectangle2D.Double(0, 0, WIDTH, HEIGHT));
    return g.getSVGDocument();
  }

  private static XYSeries series(String name, TradeOff front) {
    XYSeries s = new XYSeries(name);
    front.corners().forEach(c -> s.add(c.first(), c.second()));
    return s;
  }
}
