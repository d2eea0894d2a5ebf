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
import java.util.List;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.DeviationRenderer;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.RectangleAnchor;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.jfree.data.xy.YIntervalSeries;
import org.jfree.data.xy.YIntervalSeriesCollection;
import org.jfree.svg.SVGGraphics2D;
import org.surfactantblend.Blends;
import org.surfactantblend.acidity.AcidDose;
import org.surfactantblend.acidity.Meter;
import org.surfactantblend.acidity.NextDose;
import org.surfactantblend.acidity.PhReading;
import org.surfactantblend.acidity.Titrant;
import org.surfactantblend.acidity.Titration;
import org.surfactantblend.acidity.TitrationStep;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Text;

/** What does the curve look like that the readings have taught? Draws it as SVG. */
public final class TitrationCurvePicture {
  private static final int WIDTH = 800;
  private static final int HEIGHT = 520;
  private static final int POINTS = 161;

  // Colours that differ for every kind of colour vision, and in print by lightness.
  private static final Color CURVE = new Color(0x1F4E79);
  private static final Color BAND = new Color(0x9DBFE0);
  private static final Color READING = new Color(0xB3400B);
  private static final Color TARGET = new Color(0x3A6B35);
  private static final Color GRID = new Color(0xDDDDDD);
  private static final Color CLEAR = new Color(0, 0, 0, 0);
  private static final BasicStroke DASHED =
      new BasicStroke(
          1.2f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10, new float[] {5, 4}, 0);
  private static final Font SMALL = new Font(Font.SANS_SERIF, Font.PLAIN, 13);
  private static final Font LARGE = new Font(Font.SANS_SERIF, Font.BOLD, 16);

  private TitrationCurvePicture() {}

  /**
   * Draws the titration of an invented hand wash.
   *
   * @param args where to write the picture; none for {@code titration.svg} here
   * @throws IOException if it cannot be written
   */
  public static void main(String[] args) throws IOException {
    Path file = Path.of(args.length > 0 ? args[0] : "titration.svg");
    Titration titration = titration();
    Files.writeString(file, svg(titration), StandardCharsets.UTF_8);
    System.out.print(titration.curveTable(3, 13));
    System.out.println("drawn to " + file);
  }

  /** The first two readings of a trial, with a third dose to come. */
  static Titration titration() {
    MaterialTable table = Blends.starterTable();
    Blend wash =
        Blend.named("Linden hand wash")
            .line(table.get("cocamidopropyl-betaine-30"), 14.9)
            .line(table.get("decyl-glucoside-52"), 8.7)
            .line(table.get("glycerin"), 3.0)
            .line(table.get("sodium-benzoate"), 0.5)
            .upToHundredWith(table.get("water"));
    return AcidDose.of(wash)
        .to(5.2)
        .with(Titrant.citricAcid(20))
        .forBatch(Mass.grams(400))
        .begin(Meter.accurateTo(0.05))
        .reading(7.6)
        .dosed(0.82)
        .reading(5.97);
  }

  /**
   * Draws the learned curve with its 90 % band, the readings and the target.
   *
   * @param titration with doses of one titrant
   * @return an SVG document
   */
  static String svg(Titration titration) {
    double target = titration.dose().plan().target();
    double sofar = 0;
    XYSeries readings = new XYSeries("meter reading");
    for (TitrationStep step : titration.steps()) {
      if (step instanceof TitrationStep.Dosed d) {
        sofar += d.grams();
      } else if (step instanceof PhReading r) {
        readings.add(sofar, r.ph());
      }
    }
    double last = Math.ceil(1.4 * (sofar + titration.remainingGrams().high()) * 2) / 2;

    YIntervalSeries curve = new YIntervalSeries("learned curve, band: 90 % of the true pH");
    List<Titration.CurvePoint> points = titration.curve(last, POINTS);
    for (Titration.CurvePoint p : points) {
      curve.add(p.grams(), p.ph(), p.likelyPh().low(), p.likelyPh().high());
    }
    YIntervalSeriesCollection curves = new YIntervalSeriesCollection();
    curves.addSeries(curve);

    NumberAxis grams = new NumberAxis("grams of " + titration.titrant());
    grams.setRange(-0.02 * last, last);
    NumberAxis ph = new NumberAxis("pH");
    ph.setAutoRangeIncludesZero(false);
    double lowest = points.get(points.size() - 1).likelyPh().low();
    double highest =
        Math.max(points.get(0).likelyPh().high(), readings.isEmpty() ? 0 : readings.getMaxY());
    ph.setRange(Math.floor(lowest * 2) / 2, Math.ceil(highest * 2 + 0.2) / 2);
    for (NumberAxis axis : List.of(grams, ph)) {
      axis.setLabelFont(SMALL);
      axis.setTickLabelFont(SMALL);
    }

    DeviationRenderer line = new DeviationRenderer(true, false);
    line.setSeriesPaint(0, CURVE);
    line.setSeriesFillPaint(0, BAND);
    line.setAlpha(0.6f);
    line.setSeriesStroke(0, new BasicStroke(2.5f));
    line.setDefaultLegendTextFont(SMALL);
    XYPlot plot = new XYPlot(curves, grams, ph, line);
    plot.setBackgroundPaint(Color.WHITE);
    plot.setDomainGridlinePaint(GRID);
    plot.setRangeGridlinePaint(GRID);

    XYSeriesCollection read = new XYSeriesCollection(readings);
    XYLineAndShapeRenderer dots = new XYLineAndShapeRenderer(false, true);
    dots.setSeriesPaint(0, READING);
    dots.setSeriesShape(0, new Ellipse2D.Double(-5, -5, 10, 10));
    dots.setDefaultLegendTextFont(SMALL);
    plot.setDataset(1, read);
    plot.setRenderer(1, dots);
    plot.setDatasetRenderingOrder(org.jfree.chart.plot.DatasetRenderingOrder.FORWARD);

    ValueMarker aim = new ValueMarker(target, TARGET, new BasicStroke(1.5f));
    aim.setLabel("target pH " + Text.fixed(target, 2));
    aim.setLabelFont(SMALL);
    aim.setLabelPaint(TARGET);
    aim.setLabelAnchor(RectangleAnchor.TOP_RIGHT);
    aim.setLabelTextAnchor(TextAnchor.BOTTOM_RIGHT);
    aim.setLabelBackgroundColor(CLEAR);
    plot.addRangeMarker(aim);
    NextDose next = titration.next();
    if (next.action() == NextDose.Action.DOSE) {
      ValueMarker dose = new ValueMarker(sofar + next.dose().inGrams(), READING, DASHED);
      dose.setLabel("next: " + next.dose());
      dose.setLabelFont(SMALL);
      dose.setLabelPaint(READING);
      dose.setLabelAnchor(RectangleAnchor.TOP_RIGHT);
      dose.setLabelTextAnchor(TextAnchor.TOP_LEFT);
      dose.setLabelBackgroundColor(CLEAR);
      plot.addDomainMarker(dose);
    }

    JFreeChart chart =
        new JFreeChart(
            titration.dose().batch() + " of " + titration.dose().plan().blend().name(),
            LARGE,
            plot,
            true);
    chart.setBackgroundPaint(Color.WHITE);
    chart.setPadding(new org.jfree.chart.ui.RectangleInsets(8, 8, 8, 16));
    SVGGraphics2D canvas = new SVGGraphics2D(WIDTH, HEIGHT);
    // Without a prefix of its own two pictures on one page would share the names of their parts.
    canvas.setDefsKeyPrefix("titration");
    chart.draw(canvas, new Rectangle2D.Double(0, 0, WIDTH, HEIGHT));
    return canvas.getSVGDocument();
  }
}
