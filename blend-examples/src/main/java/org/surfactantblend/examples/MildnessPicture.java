package org.surfactantblend.examples;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.geom.Rectangle2D;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.CombinedDomainXYPlot;
import org.jfree.chart.plot.SeriesRenderingOrder;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.DeviationRenderer;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.title.TextTitle;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.jfree.data.xy.YIntervalSeries;
import org.jfree.data.xy.YIntervalSeriesCollection;
import org.jfree.svg.SVGGraphics2D;
import org.surfactantblend.Blends;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.mildness.BlendMicelles;
import org.surfactantblend.mildness.BlendMildness;
import org.surfactantblend.quantity.Range;

/**
 * A picture of two measures along the ratio of an ether sulfate to a betaine at a constant total of
 * active matter: the irritation index with its range, and the anionic monomer.
 */
public final class MildnessPicture {
  private static final double TOTAL_ACTIVE = 12;
  private static final double DILUTION = 100;
  private static final int STEPS = 50;
  private static final int WIDTH = 900;
  private static final int HEIGHT = 700;
  private static final Color BLUE = new Color(0x1F, 0x5A, 0x99);
  private static final Color ORANGE = new Color(0xB4, 0x50, 0x00);
  private static final Font SMALL = new Font("SansSerif", Font.PLAIN, 12);

  private MildnessPicture() {}

  /**
   * Writes the picture.
   *
   * @param args the file to write, {@code mildness.svg} when not given
   * @throws IOException if it cannot be written
   */
  public static void main(String[] args) throws IOException {
    Path file = Path.of(args.length > 0 ? args[0] : "mildness.svg");
    Files.writeString(file, svg());
    System.out.println("wrote " + file);
  }

  /**
   * The picture.
   *
   * @return the text of an SVG document
   */
  static String svg() {
    MaterialTable table = Blends.starterTable();
    Material sulfate = table.get("sodium-laureth-sulfate-27");
    Material betaine = table.get("cocamidopropyl-betaine-30");
    YIntervalSeries index = new YIntervalSeries("middle, with the range of the scores");
    XYSeries product = new XYSeries("undiluted");
    XYSeries inUse = new XYSeries("in use, a hundred times the volume");
    for (int i = 0; i <= STEPS; i++) {
      double anionic = (double) i / STEPS;
      Blend blend =
          Blend.named("shampoo")
              .line(sulfate, asSupplied(sulfate, anionic))
              .line(betaine, asSupplied(betaine, 1 - anionic))
              .upToHundredWith(table.get("water"));
      BlendMildness measures = Blends.mildness(blend, table).atDilution(DILUTION);
      Range range = measures.irritationIndex().range().orElseThrow();
      index.add(100 * anionic, range.typical(), range.low(), range.high());
      BlendMicelles micelles = measures.micelles();
      product.add(100 * anionic, micelles.product().orElseThrow().anionicMonomerMmolPerL());
      inUse.add(100 * anionic, micelles.diluted().orElseThrow().anionicMonomerMmolPerL());
    }
    JFreeChart chart = chart(index, product, inUse);
    SVGGraphics2D svg = new SVGGraphics2D(WIDTH, HEIGHT);
    svg.setDefsKeyPrefix("mildness");
    chart.draw(svg, new Rectangle2D.Double(0, 0, WIDTH, HEIGHT));
    return svg.getSVGDocument();
  }

  private static double asSupplied(Material m, double shareOfActive) {
    return shareOfActive * TOTAL_ACTIVE / m.activePercent().typical() * 100;
  }

  private static JFreeChart chart(YIntervalSeries index, XYSeries product, XYSeries inUse) {
    YIntervalSeriesCollection band = new YIntervalSeriesCollection();
    band.addSeries(index);
    DeviationRenderer bandRenderer = new DeviationRenderer(true, false);
    bandRenderer.setSeriesPaint(0, BLUE);
    bandRenderer.setSeriesFillPaint(0, BLUE);
    bandRenderer.setSeriesStroke(0, new BasicStroke(2.5f));
    bandRenderer.setAlpha(0.2f);
    NumberAxis indexAxis = new NumberAxis("irritation index (lauryl sulfate = 100)");
    indexAxis.setRange(0, 100);
    XYPlot top = new XYPlot(band, null, indexAxis, bandRenderer);

    XYSeriesCollection monomers = new XYSeriesCollection();
    monomers.addSeries(product);
    monomers.addSeries(inUse);
    XYLineAndShapeRenderer lines = new XYLineAndShapeRenderer(true, false);
    lines.setSeriesPaint(0, ORANGE);
    lines.setSeriesStroke(0, new BasicStroke(2.5f));
    lines.setSeriesPaint(1, Color.DARK_GRAY);
    lines.setSeriesStroke(
        1,
        new BasicStroke(
            2.5f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1, new float[] {8, 5}, 0));
    NumberAxis monomerAxis = new NumberAxis("anionic monomer, mmol/L");
    XYPlot bottom = new XYPlot(monomers, null, monomerAxis, lines);
    bottom.setSeriesRenderingOrder(SeriesRenderingOrder.FORWARD);

    NumberAxis ratio = new NumberAxis("anionic share of the active, % (the rest is amphoteric)");
    ratio.setRange(0, 100);
    CombinedDomainXYPlot both = new CombinedDomainXYPlot(ratio);
    both.setGap(18);
    both.add(top, 1);
    both.add(bottom, 1);
    JFreeChart chart =
        new JFreeChart(
            "Ether sulfate with betaine at 12 % active: two measures of mildness",
            JFreeChart.DEFAULT_TITLE_FONT, both, true);
    chart.setBackgroundPaint(Color.WHITE);
    for (XYPlot plot : new XYPlot[] {top, bottom}) {
      plot.setBackgroundPaint(Color.WHITE);
      plot.setDomainGridlinePaint(Color.LIGHT_GRAY);
      plot.setRangeGridlinePaint(Color.LIGHT_GRAY);
    }
    chart.addSubtitle(
        new TextTitle(
            "Index: an upper bound for such mixtures; scores of class ranked. Monomer: an assumed"
                + " interaction and the CMCs of technical grades.",
            SMALL));
    chart.addSubtitle(
        new TextTitle(
            "Screening indicators; assessment by a qualified person is required.", SMALL));
    return chart;
  }
}
