package org.surfactantblend.mildness;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Text;

/** The measures of some blends as text. */
final class MildnessText {
  private static final int LABEL = 35;
  private static final int CELL = 15;
  private static final String NOT_GIVEN = "not given";

  private final List<BlendMildness> reports;
  private final StringBuilder s = new StringBuilder();

  MildnessText(List<BlendMildness> reports) {
    this.reports = List.copyOf(reports);
  }

  String text() {
    BlendMildness first = reports.get(0);
    for (BlendMildness r : reports) {
      s.append(reports.size() == 1 ? "" : letter(r) + ": ").append(r.blend().name()).append('\n');
    }
    if (reports.size() > 1) {
      row("", r -> letter(r));
    }
    row("total active, % of the product", r -> number(r.blend().totalActive().value(), 2));
    for (ChargeClass c : ChargeClass.values()) {
      if (reports.stream().anyMatch(r -> r.blend().share(c).value() > 0)) {
        row(c.label() + ", % of the active", r -> number(r.blend().share(c).value(), 1));
      }
    }
    row("anionic : amphoteric, by active", r -> number(r.anionicToAmphoteric(), 2, "-"));
    row("net anionic charge, % of the moles", r -> chargeShare(r));
    row("irritation index, low to high", r -> index(r));
    row("  its weakest evidence", r -> evidence(r));
    if (reports.stream().anyMatch(r -> r.credit().isPresent())) {
      row("blended index (high)", r -> number(r.blendedIndex(), 1, NOT_GIVEN));
    }
    row("CMC of the mixture, mmol/L", r -> cmc(r));
    row("anionic monomer, undiluted, mmol/L", r -> monomer(r, false));
    row("anionic monomer, in use, mmol/L", r -> monomer(r, true));
    row("  against its anionics alone", r -> number(r.micelles().anionicMonomerRatio(), 2, "-"));
    row("sodium chloride, % m/m", r -> range(r.saltCarried().percent(), 2));
    row("eye-hazard sum, undiluted", r -> number(r.eyeHazard().serious(), 2) + mark(r));
    if (reports.stream().anyMatch(r -> r.polymerChargeRatio().isPresent())) {
      row("polymer charge : anionic charge", r -> polymer(r));
    }
    notes(first);
    return Text.wrapped(s, 80);
  }

  private String letter(BlendMildness r) {
    return String.valueOf((char) ('A' + reports.indexOf(r)));
  }

  private void row(String label, Function<BlendMildness, String> cell) {
    s.append("  ").append(Text.left(label, LABEL));
    for (BlendMildness r : reports) {
      s.append(Text.right(cell.apply(r), CELL - 1));
    }
    s.append('\n');
  }

  private static String number(double value, int decimals) {
    return Text.fixed(value, decimals);
  }

  private static String number(OptionalDouble value, int decimals, String without) {
    return value.isPresent() ? Text.fixed(value.getAsDouble(), decimals) : without;
  }

  private static String range(Range r, int decimals) {
    String low = Text.fixed(r.low(), decimals);
    String high = Text.fixed(r.high(), decimals);
    return low.equals(high) ? low : low + " to " + high;
  }

  private static String chargeShare(BlendMildness r) {
    return number(r.netAnionicCharge().sharePercent(), 1, NOT_GIVEN);
  }

  private static String index(BlendMildness r) {
    return r.irritationIndex().range().map(i -> range(i, 1)).orElse(NOT_GIVEN);
  }

  private static String evidence(BlendMildness r) {
    return r.irritationIndex().range().isEmpty()
        ? "-"
        : r.irritationIndex().weakestEvidence().map(e -> e.label()).orElse("-");
  }

  private static String cmc(BlendMildness r) {
    return r.micelles().product().map(m -> Text.fixed(m.mixtureCmcMmolPerL(), 3)).orElse(NOT_GIVEN);
  }

  private static String monomer(BlendMildness r, boolean inUse) {
    BlendMicelles micelles = r.micelles();
    return (inUse ? micelles.diluted() : micelles.product())
        .map(m -> Text.fixed(m.anionicMonomerMmolPerL(), 3))
        .orElse(NOT_GIVEN);
  }

  private static String mark(BlendMildness r) {
    return r.eyeHazard().callsForCaution()
        ? " !"
        : r.eyeHazard().withoutLimit().isEmpty() ? "" : " +";
  }

  private static String polymer(BlendMildness r) {
    return r.polymerChargeRatio()
        .map(p -> number(p.ratio(), 2, NOT_GIVEN) + (p.isNearOne() ? " !" : ""))
        .orElse("-");
  }

  /** What stands behind each measure, then what each blend lacks. */
  private void notes(BlendMildness first) {
    s.append("Shares: arithmetic on the typical contents.\n");
    s.append("Charge: at pH ")
        .append(each(r -> Text.number(r.ph())))
        .append(
            ", from the acid-base groups of the table; the measure that recent reviews relate"
                + " best to skin penetration; no clinical prediction.\n");
    s.append("Index: ").append(IrritationIndex.BASIS).append('\n');
    first.credit().ifPresent(c -> s.append("Blended index: ").append(c).append(".\n"));
    Set<String> sources = new TreeSet<>();
    reports.forEach(r -> sources.addAll(r.micelles().sources()));
    s.append("Micelles: regular solution theory, in use at ")
        .append(each(r -> Text.number(r.fold())))
        .append(" times the volume, 1 kg taken as 1 L; for reports only")
        .append(sources.isEmpty() ? "" : "; sources " + String.join(", ", sources))
        .append(".\n");
    s.append(
        "Eye hazard: for whoever handles concentrates; finished cosmetics are outside that"
            + " classification; local rules and the sheets go first. \"!\" calls for caution, \"+\""
            + " means that not every surfactant has a limit.\n");
    Map<String, String> lettersByNote = new LinkedHashMap<>();
    for (BlendMildness r : reports) {
      Set<String> own = new LinkedHashSet<>();
      missing(own, "index", r.irritationIndex().withoutScore(), "no score of ");
      missing(own, "charge", r.netAnionicCharge().withoutMolarMass(), "no molar mass of ");
      missing(own, "micelles", r.micelles().missing(), "");
      r.micelles().caveats().forEach(c -> own.add("micelles: " + c));
      missing(own, "eye hazard", r.eyeHazard().withoutLimit(), "no limit of ");
      missing(own, "sodium chloride", r.saltCarried().unknownFor(), "the sheet gives none for ");
      if (!r.saltCarried().estimatedFor().isEmpty()) {
        own.add(
            String.format(
                Locale.ROOT,
                "sodium chloride: %.2f %% of it reckoned from synthesis for %s",
                r.saltCarried().estimatedPercent(),
                String.join(", ", r.saltCarried().estimatedFor())));
      }
      r.polymerChargeRatio()
          .filter(p -> p.ratio().isEmpty())
          .ifPresent(p -> own.add("polymer: " + p.text()));
      own.forEach(note -> lettersByNote.merge(note, letter(r), (a, b) -> a + ", " + b));
    }
    lettersByNote.forEach(
        (note, letters) ->
            s.append(reports.size() == 1 ? "" : letters + ": ").append(note).append('\n'));
  }

  private String each(Function<BlendMildness, String> figure) {
    Set<String> all = new LinkedHashSet<>();
    reports.forEach(r -> all.add(figure.apply(r)));
    return String.join(" or ", new ArrayList<>(all));
  }

  private static void missing(Set<String> own, String measure, List<String> what, String say) {
    if (!what.isEmpty()) {
      own.add(measure + ": " + say + String.join(", ", what));
    }
  }
}
