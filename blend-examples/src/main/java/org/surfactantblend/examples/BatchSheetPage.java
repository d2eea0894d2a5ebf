package org.surfactantblend.examples;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.surfactantblend.Blends;
import org.surfactantblend.batch.BatchLine;
import org.surfactantblend.batch.BatchOrder;
import org.surfactantblend.batch.BatchSheet;
import org.surfactantblend.batch.Phase;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Scale;
import org.surfactantblend.quantity.Text;

/**
 * How do I get a sheet for the bench? A batch sheet as a page to print, with room to write what was
 * really weighed, from which lot, and every pH reading.
 */
public final class BatchSheetPage {
  private static final int PH_ROWS = 8;

  private static final String STYLE =
      """
      @page { size: A4; margin: 14mm; }
      body { font: 10pt/1.35 serif; color: #000; margin: 0 auto; max-width: 182mm; }
      h1 { font-size: 17pt; margin: 0 0 1mm; }
      h2 { font-size: 11pt; margin: 5mm 0 1mm; border-bottom: 0.4mm solid #000; }
      p, ul { margin: 1mm 0; }
      table { border-collapse: collapse; width: 100%; page-break-inside: auto; }
      tr { page-break-inside: avoid; }
      th { text-align: left; font-weight: normal; font-size: 8.5pt; vertical-align: bottom; }
      th, td { padding: 0.8mm 1.2mm; border-bottom: 0.2mm solid #888; }
      td.n, th.n { text-align: right; font-variant-numeric: tabular-nums; }
      td.w { font-weight: bold; }
      td.b { border: 0.3mm solid #000; height: 6mm; }
      tr.phase td { padding-top: 2.5mm; font-style: italic; border-bottom: 0.3mm solid #000; }
      .f { white-space: nowrap; display: inline-block; margin-right: 4mm; line-height: 1.8; }
      .v { display: inline-block; border-bottom: 0.2mm solid #000; min-width: 34mm; }
      th.lot { min-width: 24mm; }
      .small { font-size: 8.5pt; }
      """;

  private BatchSheetPage() {}

  /**
   * Writes the page of a hand wash for forty bottles.
   *
   * @param args the file to write; none prints the page
   * @throws IOException if the file cannot be written
   */
  public static void main(String[] args) throws IOException {
    String page = of(example());
    if (args.length == 0) {
      System.out.print(page);
      return;
    }
    Path file = Path.of(args[0]);
    Path folder = file.toAbsolutePath().getParent();
    if (folder != null) {
      Files.createDirectories(folder);
    }
    Files.writeString(file, page, StandardCharsets.UTF_8);
  }

  /**
   * The sheet that {@link #main} shows.
   *
   * @return a hand wash on three scales
   */
  static BatchSheet example() {
    MaterialTable table = Blends.starterTable();
    Blend blend =
        Blend.named("Linden hand wash")
            .line(table.get("sodium-laureth-sulfate-27"), 18)
            .line(table.get("cocamidopropyl-betaine-30"), 12)
            .line(table.get("caprylyl-capryl-glucoside-60"), 2.5)
            .line(table.get("glycerin"), 2.5)
            .line(table.get("tetrasodium-glutamate-diacetate-38"), 0.2)
            .line(table.get("sodium-benzoate"), 0.45)
            .line(table.get("potassium-sorbate"), 0.25)
            .line(table.get("allantoin"), 0.2)
            .line(table.get("linden-extract-glycerin-60"), 1)
            .line(table.get("sodium-chloride"), 0.9)
            .line(table.get("citric-acid-20"), 0.7)
            .upToHundredWith(table.get("water"));
    BatchOrder order =
        BatchOrder.density(1.021)
            .container("pump bottle 300 ml", 300, 40, 2)
            .sample(Mass.grams(100))
            .lossPercent(3)
            .meanOverfillPercent(0.5)
            .roundUpTo(Mass.grams(500))
            .build();
    return BatchSheet.of(blend)
        .mass(order)
        .batchNumber("HW-0147")
        .formulaVersion("3")
        .on(Scale.of(0.01, 200), Scale.of(0.1, 2000), Scale.of(1, 30000));
  }

  /**
   * A sheet as a page in XHTML syntax, to be read by any browser and printed on A4.
   *
   * @param sheet the sheet
   * @return the page
   */
  public static String of(BatchSheet sheet) {
    StringBuilder s = new StringBuilder();
    s.append(
        "<!DOCTYPE html>\n<html lang=\"en\" xmlns=\"http://www.w3.org/1999/xhtml\">\n<head>\n");
    s.append("<meta charset=\"utf-8\"/>\n<title>Batch sheet: ");
    s.append(text(sheet.blend().name())).append("</title>\n<style>\n").append(STYLE);
    s.append("</style>\n</head>\n<body>\n");
    head(s, sheet);
    startUp(s, sheet);
    lines(s, sheet);
    premixes(s, sheet);
    notes(s, sheet);
    made(s, sheet);
    readings(s);
    close(s, sheet);
    return s.append("</body>\n</html>\n").toString();
  }

  private static void head(StringBuilder s, BatchSheet sheet) {
    s.append("<h1>").append(text(sheet.blend().name())).append("</h1>\n<p class=\"lines\">");
    field(s, "Batch number", sheet.batchNumber());
    field(s, "Formula version", sheet.formulaVersion());
    field(s, "Date", "");
    s.append("</p>\n<p>Batch ").append(Text.number(sheet.mass().inGrams())).append(" g.");
    sheet
        .order()
        .ifPresent(
            o -> {
              for (BatchOrder.Container c : o.containers()) {
                s.append(' ')
                    .append(c.filled())
                    .append(" x ")
                    .append(text(c.name()))
                    .append(" at ")
                    .append(Text.fixed(o.fillGrams(c), 1))
                    .append(" g, ")
                    .append(c.retained())
                    .append(" of them retained; no filling below ")
                    .append(Text.fixed(o.absoluteLimitGrams(c), 1))
                    .append(" g, one in forty below ")
                    .append(Text.fixed(o.lowerLimitGrams(c), 1))
                    .append(" g.");
              }
              s.append(" Tests ")
                  .append(Text.number(o.sample().inGrams()))
                  .append(" g, expected loss ")
                  .append(Text.number(o.lossPercent()))
                  .append(" %, surplus ")
                  .append(Text.fixed(o.surplusGrams(), 0))
                  .append(" g.");
            });
    s.append("</p>\n");
  }

  private static void field(StringBuilder s, String label, String value) {
    s.append("<span class=\"f\">").append(label).append(" <span class=\"v\">");
    s.append(value.isEmpty() ? "&#160;" : text(value)).append("</span></span> ");
  }

  private static void startUp(StringBuilder s, BatchSheet sheet) {
    s.append("<h2>Before starting</h2>\n<p class=\"small\">");
    s.append("&#9744; bench and kettle clean and empty of other products &#160; ");
    s.append("&#9744; documents of this batch at hand &#160; ");
    s.append("&#9744; lots and expiry dates checked &#160; ");
    s.append("&#9744; pH meter calibrated &#160; &#9744; gloves and goggles</p>\n");
    s.append("<p class=\"lines\">");
    for (Scale scale : sheet.scales()) {
      field(
          s,
          "Scale " + Text.number(scale.resolutionGrams()) + " g, checked with a weight; number",
          "");
    }
    s.append("</p>\n");
  }

  private static void lines(StringBuilder s, BatchSheet sheet) {
    s.append(
        "<h2>Weighing and order of addition</h2>\n<p class=\"small\">Weigh small lines first, ");
    s.append("into cups labelled with material, lot, mass and batch number.</p>\n<table>\n<tr>");
    s.append("<th>material</th><th class=\"n\">%</th><th class=\"n\">weigh, g</th>");
    s.append("<th class=\"n\">scale, g</th><th class=\"lot\">lot</th><th>weighed, g</th>");
    s.append("<th>time, temperature</th><th>by</th></tr>\n");
    for (Map.Entry<Phase, List<BatchLine>> e : sheet.orderOfAddition().entrySet()) {
      s.append("<tr class=\"phase\"><td colspan=\"8\">")
          .append(text(e.getKey().label()))
          .append(": ")
          .append(text(e.getKey().reason()))
          .append("</td></tr>\n");
      for (BatchLine l : e.getValue()) {
        s.append("<tr><td>")
            .append(text(l.material().inciName()))
            .append("<br/><span class=\"small\">")
            .append(text(l.material().id()))
            .append("</span></td><td class=\"n\">")
            .append(Text.fixed(l.percent(), 3))
            .append("</td><td class=\"n w\">")
            .append(l.weighText())
            .append(l.portions() == 1 ? "" : " in " + l.portions() + " portions")
            .append("</td><td class=\"n\">")
            .append(Text.number(l.scale().resolutionGrams()))
            .append("</td><td class=\"b\">")
            .append(text(l.material().lot().orElse("")))
            .append("</td><td class=\"b\"></td><td class=\"b\"></td><td class=\"b\"></td></tr>\n");
      }
    }
    s.append("</table>\n");
  }

  private static void premixes(StringBuilder s, BatchSheet sheet) {
    List<BatchLine> small = sheet.lines().stream().filter(BatchLine::isTooSmall).toList();
    if (small.isEmpty()) {
      return;
    }
    s.append("<h2>Lines below fifty divisions of their scale</h2>\n<ul>\n");
    for (BatchLine l : small) {
      s.append("<li>")
          .append(text(l.material().toString()))
          .append(": ")
          .append(Text.fixed(l.divisions(), 1))
          .append(" divisions, rounding error ")
          .append(Text.fixed(l.errorPercent(), 1))
          .append(" %. Better: ")
          .append(l.advice())
          .append(".</li>\n");
    }
    s.append("</ul>\n");
  }

  private static void notes(StringBuilder s, BatchSheet sheet) {
    if (sheet.notes().isEmpty()) {
      return;
    }
    s.append("<h2>Notes on the materials</h2>\n<ul class=\"small\">\n");
    sheet.notes().forEach(n -> s.append("<li>").append(text(n)).append("</li>\n"));
    s.append("</ul>\n");
  }

  private static void made(StringBuilder s, BatchSheet sheet) {
    Blend real = sheet.realised();
    s.append("<p class=\"small\">By the grams above: ")
        .append(Text.number(sheet.realisedMass().inGrams()))
        .append(" g, total active ")
        .append(Text.fixed(real.totalActive().value(), 3))
        .append(" % (formula ")
        .append(Text.fixed(sheet.blend().totalActive().value(), 3))
        .append(" %, rounding at most ")
        .append(Text.fixed(sheet.activeErrorBound(), 4))
        .append(" points), sodium chloride ")
        .append(Text.fixed(real.saltPercent().typical(), 2))
        .append(" %, at typical contents.</p>\n");
  }

  private static void readings(StringBuilder s) {
    s.append("<h2>pH</h2>\n<p class=\"lines\">");
    field(s, "Target", "");
    field(s, "Sample diluted to, %", "");
    field(s, "Meter", "");
    s.append("</p>\n<table id=\"ph\">\n<tr><th>time</th><th>added, g</th><th>added in all, g</th>");
    s.append("<th>stirred, min</th><th>temperature</th><th>pH</th><th>by</th></tr>\n");
    for (int i = 0; i < PH_ROWS; i++) {
      s.append("<tr>").append("<td class=\"b\"></td>".repeat(7)).append("</tr>\n");
    }
    s.append(
        "</table>\n<p class=\"small\">Start with half of the expected dose, stir, wait, read. ");
    s.append("Read again after 24 h.</p>\n");
  }

  private static void close(StringBuilder s, BatchSheet sheet) {
    s.append("<h2>Result</h2>\n<p class=\"lines\">");
    field(s, "Appearance and odour", "");
    field(s, "Viscosity", "");
    field(s, "Samples taken", "");
    field(s, "pH after 24 h", "");
    s.append("</p>\n<table id=\"yield\">\n<tr><th>made, g</th><th>filled, g</th><th>bottles</th>");
    s.append("<th>samples, g</th><th>retained</th><th>loss, g</th><th>gap, %</th></tr>\n<tr>");
    s.append("<td class=\"b\"></td>".repeat(7));
    s.append(
        "</tr>\n</table>\n<p class=\"small\">Made = filled + samples + loss; a gap above 2 % ");
    s.append("needs a reason (common practice).</p>\n");
    s.append("<h2>Deviations</h2>\n<table><tr><td class=\"b\" style=\"height: 16mm\"></td></tr>");
    s.append("</table>\n<p class=\"lines\" style=\"margin-top: 5mm\">");
    field(s, "Made by", "");
    field(s, "Checked by", "");
    field(s, "Date", "");
    s.append(
        "</p>\n<p class=\"small\">Undiluted surfactants, acids and alkalis: gloves and goggles. ");
    s.append(
        "Follow local rules; a qualified person decides on release, on measured pH and tests of ");
    s.append("batch ").append(sheet.batchNumber().isEmpty() ? "" : text(sheet.batchNumber()));
    s.append(", not on this sheet.</p>\n");
  }

  private static String text(String plain) {
    return plain.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }
}
