package org.surfactantblend.batch;

import java.util.List;
import java.util.Map;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.quantity.Text;

/** A batch sheet as plain text. */
final class BatchText {
  private BatchText() {}

  static String of(BatchSheet sheet) {
    StringBuilder s = new StringBuilder();
    s.append("Batch sheet: ").append(sheet.blend().name());
    s.append(", ").append(Text.number(sheet.mass().inGrams())).append(" g\n");
    s.append("  batch number ").append(orLine(sheet.batchNumber()));
    s.append("   formula version ").append(orLine(sheet.formulaVersion())).append('\n');
    sheet.order().ifPresent(o -> s.append(o.text()));
    s.append("\n  material                            %      exact g    weigh g    error %  on\n");
    for (Map.Entry<Phase, List<BatchLine>> phase : sheet.orderOfAddition().entrySet()) {
      s.append("  ").append(phase.getKey().label()).append(": ").append(phase.getKey().reason());
      s.append('\n');
      phase.getValue().forEach(l -> line(s, l));
    }
    sheet
        .water()
        .ifPresent(
            w ->
                s.append("  exact rest for water ")
                    .append(Text.fixed(w.residualGrams(), 3))
                    .append(" g, weighed ")
                    .append(Text.number(w.weighGrams()))
                    .append(" g\n"));
    Blend real = sheet.realised();
    s.append("\n  by the rounded grams: ")
        .append(Text.number(sheet.realisedMass().inGrams()))
        .append(" g, total active ")
        .append(Text.fixed(real.totalActive().value(), 4))
        .append(" % (recipe ")
        .append(Text.fixed(sheet.blend().totalActive().value(), 4))
        .append(" %, rounding at most +/- ")
        .append(Text.fixed(sheet.activeErrorBound(), 4))
        .append(" points), sodium chloride ")
        .append(Text.fixed(real.saltPercent().typical(), 3))
        .append(" %\n");
    for (BatchLine l : sheet.lines()) {
      if (l.isTooSmall()) {
        s.append("  ")
            .append(l.material())
            .append(" has only ")
            .append(Text.fixed(l.divisions(), 1))
            .append(" divisions of its scale: ")
            .append(l.advice())
            .append(".\n");
      }
    }
    sheet.notes().forEach(n -> s.append("  Note: ").append(n).append('\n'));
    return Text.wrapped(
        s.append(
                "  Gloves and goggles for undiluted surfactants, acids and alkalis. Follow local\n")
            .append("  rules; release on a measured pH and your own tests, not on this sheet.\n"),
        80);
  }

  private static void line(StringBuilder s, BatchLine l) {
    s.append("    ")
        .append(Text.left(l.material().toString(), 28))
        .append(Text.right(Text.fixed(l.percent(), 3), 8))
        .append(Text.right(Text.fixed(l.exactGrams(), 3), 11))
        .append(Text.right(l.weighText(), 11))
        .append(Text.right(Text.fixed(l.errorPercent(), 2), 9))
        .append(' ')
        .append(Text.number(l.scale().resolutionGrams()))
        .append(" g")
        .append(l.portions() == 1 ? "" : " x" + l.portions())
        .append('\n');
  }

  private static String orLine(String text) {
    return text.isEmpty() ? "____________" : text;
  }
}
