package org.surfactantblend.io;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.quantity.Range;

/** Constituents, groups and sources written into one cell of a table, and read back. */
final class PartText {
  private static final String CONSTITUENTS_ALLOWED =
      "name and percent, separated by semicolons, such as Glycerin 2..3; Coco-Betaine 5 [amphoteric, 285 g/mol]";
  private static final String GROUPS_ALLOWED =
      "name: constant, amount, separated by semicolons, such as soap: pKa 6.3..6.9..7.5, charge 0, 0..0.04..0.09 mol/kg, apparent";
  private static final String SOURCES_ALLOWED = "figure: source ids, separated by bars";

  private PartText() {}

  /** The items of a cell, separated by semicolons. */
  static List<String> list(String cell) {
    return items(cell, ';');
  }

  private static List<String> items(String cell, char separator) {
    List<String> items = new ArrayList<>();
    int from = 0;
    while (from <= cell.length()) {
      int next = cell.indexOf(separator, from);
      int to = next < 0 ? cell.length() : next;
      String item = cell.substring(from, to).strip();
      if (!item.isEmpty()) {
        items.add(item);
      }
      from = to + 1;
    }
    return items;
  }

  /** A row inside a cell: every problem stands at that cell. */
  private static Row inner(Row row, String column, Map<String, String> cells) {
    return new Row(cells, inside -> row.place(column), row.log());
  }

  /** The constituents listed in a cell. */
  static List<Constituent> constituents(Row row, String column) {
    List<Constituent> all = new ArrayList<>();
    for (String item : list(row.word(column))) {
      Map<String, String> cells = new HashMap<>();
      String body = item;
      if (item.endsWith("]") && item.indexOf('[') > 0) {
        body = item.substring(0, item.indexOf('[')).strip();
        for (String note : items(item.substring(item.indexOf('[') + 1, item.length() - 1), ',')) {
          if (note.endsWith("g/mol")) {
            cells.put("molar_mass_g_per_mol", note.substring(0, note.length() - 5));
          } else {
            cells.put("charge_class", note);
          }
        }
      }
      if (body.endsWith(" %")) {
        body = body.substring(0, body.length() - 2) + "%";
      }
      int gap = body.lastIndexOf(' ');
      if (gap < 0 || !startsNumber(body.charAt(gap + 1))) {
        row.error(ProblemCodes.TEXT_FORMAT, column, Row.quoted(item), CONSTITUENTS_ALLOWED, "");
        continue;
      }
      cells.put("inci_name", body.substring(0, gap));
      if (!figures(cells, body.substring(gap + 1), "min_pct", "typ_pct", "max_pct")) {
        row.error(ProblemCodes.TEXT_FORMAT, column, Row.quoted(item), CONSTITUENTS_ALLOWED, "");
        continue;
      }
      Row inner = inner(row, column, cells);
      Constituent c = Parts.constituent(inner);
      if (c == null) {
        row.fail();
      } else {
        all.add(c);
      }
    }
    return all;
  }

  private static boolean startsNumber(char c) {
    return (c >= '0' && c <= '9') || c == '.' || c == '-' || c == '+';
  }

  /** One figure, or two or three with .. between them. */
  private static boolean figures(
      Map<String, String> cells, String text, String low, String typical, String high) {
    String[] parts = text.split("\\.\\.", -1);
    for (String part : parts) {
      if (part.isBlank()) {
        return false;
      }
    }
    switch (parts.length) {
      case 1 -> cells.put(typical, parts[0]);
      case 2 -> {
        cells.put(low, parts[0]);
        cells.put(high, parts[1]);
      }
      case 3 -> {
        cells.put(low, parts[0]);
        cells.put(typical, parts[1]);
        cells.put(high, parts[2]);
      }
      default -> {
        return false;
      }
    }
    return true;
  }

  /** The cell that {@link #constituents} reads. */
  static String ofConstituents(List<Constituent> constituents) {
    List<String> items = new ArrayList<>();
    for (Constituent c : constituents) {
      List<String> notes = new ArrayList<>();
      c.chargeClass().ifPresent(k -> notes.add(k.label()));
      c.molarMass().ifPresent(m -> notes.add(number(m) + " g/mol"));
      items.add(
          plain("constituent", c.inciName(), ";[]")
              + " "
              + range(c.percent())
              + (notes.isEmpty() ? "" : " [" + String.join(", ", notes) + "]"));
    }
    return String.join("; ", items);
  }

  /** The groups listed in a cell. */
  static List<AcidBaseGroup> groups(Row row, String column, Map<String, AcidBase> acids) {
    List<AcidBaseGroup> all = new ArrayList<>();
    for (String item : list(row.word(column))) {
      int colon = item.indexOf(':');
      Map<String, String> cells = new HashMap<>();
      boolean readable = colon > 0;
      if (readable) {
        cells.put("group", item.substring(0, colon));
        for (String part : items(item.substring(colon + 1), ',')) {
          readable &= groupPart(cells, part);
        }
      }
      if (!readable) {
        row.error(ProblemCodes.TEXT_FORMAT, column, Row.quoted(item), GROUPS_ALLOWED, "");
        continue;
      }
      AcidBaseGroup group = Parts.group(inner(row, column, cells), acids);
      if (group == null) {
        row.fail();
      } else {
        all.add(group);
      }
    }
    return all;
  }

  private static boolean groupPart(Map<String, String> cells, String part) {
    int gap = part.indexOf(' ');
    String first = gap < 0 ? part : part.substring(0, gap);
    String rest = gap < 0 ? "" : part.substring(gap + 1);
    if (part.equals("apparent")) {
      cells.put("apparent", "yes");
    } else if (part.equals("on active")) {
      cells.put("on_active", "yes");
    } else if (part.endsWith(" mol/kg") || part.endsWith(" mol/mol")) {
      cells.put("amount_basis", part.endsWith("kg") ? Parts.PER_KG : Parts.PER_MOL_ACTIVE);
      return figures(cells, first, "amount_min", "amount_typ", "amount_max");
    } else if (rest.isEmpty()) {
      return false;
    } else if (first.equals("acid")) {
      cells.put("acid", rest);
    } else if (first.equals("charge")) {
      cells.put("charge_of_acid_form", rest);
    } else if (first.equals("called")) {
      cells.put("acid_name", rest);
    } else if (first.equals("dH")) {
      cells.put("enthalpies_kj_per_mol", rest);
    } else if (first.equals("dCp")) {
      cells.put("heat_capacities_j_per_k_per_mol", rest);
    } else if (first.equals("spread") || (first.equals("pKa") && rest.contains(".."))) {
      return figures(cells, rest, "pka_low", "pka_typ", "pka_high");
    } else if (first.equals("pKa")) {
      cells.put("pka_steps", rest);
    } else {
      return false;
    }
    return true;
  }

  /** The cell that {@link #groups} reads. */
  static String ofGroups(List<AcidBaseGroup> groups, Map<String, AcidBase> acids) {
    List<String> items = new ArrayList<>();
    for (AcidBaseGroup g : groups) {
      Map<String, String> cells = cells(g, acids);
      List<String> parts = new ArrayList<>();
      String acid = cells.get("acid");
      Range pKa = g.pKa();
      if (acid != null) {
        parts.add("acid " + plain("acid", acid, ";,"));
      } else {
        parts.add("pKa " + cells.get("pka_steps"));
        parts.add("charge " + cells.get("charge_of_acid_form"));
        if (cells.containsKey("acid_name")) {
          parts.add("called " + plain("acid", g.acid().name(), ";,"));
        }
        if (cells.containsKey("enthalpies_kj_per_mol")) {
          parts.add("dH " + cells.get("enthalpies_kj_per_mol"));
          parts.add("dCp " + cells.get("heat_capacities_j_per_k_per_mol"));
        }
      }
      if (pKa != null) {
        String spread = range(pKa);
        boolean same = acid == null && number(pKa.typical()).equals(cells.get("pka_steps"));
        if (same && spread.contains("..")) {
          parts.set(0, "pKa " + spread);
        } else {
          parts.add("spread " + spread);
        }
      }
      parts.add(range(g.amount()) + (g.perMoleActive() ? " mol/mol" : " mol/kg"));
      if (g.acid().apparent()) {
        parts.add("apparent");
      }
      if (g.onActive()) {
        parts.add("on active");
      }
      items.add(plain("group", g.name(), ";:,") + ": " + String.join(", ", parts));
    }
    return String.join("; ", items);
  }

  /** The cells of a group, except its amount and the range of its pKa. */
  static Map<String, String> cells(AcidBaseGroup g, Map<String, AcidBase> acids) {
    Map<String, String> cells = new LinkedHashMap<>();
    AcidBase acid = g.acid();
    for (Map.Entry<String, AcidBase> known : acids.entrySet()) {
      AcidBase as = acid.apparent() ? known.getValue().asApparent() : known.getValue();
      if (as.equals(acid)) {
        cells.put("acid", known.getKey());
        return cells;
      }
    }
    cells.put("charge_of_acid_form", String.valueOf(acid.chargeOfMostProtonatedForm()));
    List<String> steps = new ArrayList<>();
    List<String> enthalpies = new ArrayList<>();
    List<String> heatCapacities = new ArrayList<>();
    boolean warm = false;
    for (AcidBase.Step step : acid.steps()) {
      steps.add(number(step.pKa25()));
      enthalpies.add(number(step.enthalpyKjPerMol()));
      heatCapacities.add(number(step.heatCapacityJPerKPerMol()));
      warm |= step.enthalpyKjPerMol() != 0 || step.heatCapacityJPerKPerMol() != 0;
    }
    cells.put("pka_steps", String.join(" ", steps));
    if (warm) {
      cells.put("enthalpies_kj_per_mol", String.join(" ", enthalpies));
      cells.put("heat_capacities_j_per_k_per_mol", String.join(" ", heatCapacities));
    }
    if (!acid.name().equals(g.name())) {
      cells.put("acid_name", acid.name());
    }
    return cells;
  }

  /** The sources listed in a cell, by figure. */
  static Map<String, String> sources(Row row, String column) {
    Map<String, String> all = new TreeMap<>();
    for (String item : items(row.text(column), '|')) {
      int colon = item.indexOf(": ");
      if (colon <= 0) {
        row.error(ProblemCodes.TEXT_FORMAT, column, Row.quoted(item), SOURCES_ALLOWED, "");
      } else {
        all.put(item.substring(0, colon).strip(), item.substring(colon + 2).strip());
      }
    }
    return all;
  }

  /** The cell that {@link #sources} reads. */
  static String ofSources(Map<String, String> sources) {
    List<String> items = new ArrayList<>();
    sources.forEach(
        (figure, ids) ->
            items.add(plain("figure", figure, "|:") + ": " + plain("source ids", ids, "|")));
    return String.join(" | ", items);
  }

  /** The cell that {@link #list} reads. */
  static String ofList(String what, List<String> items) {
    items.forEach(item -> plain(what, item, ";"));
    return String.join("; ", items);
  }

  private static String plain(String what, String text, String forbidden) {
    for (int i = 0; i < forbidden.length(); i++) {
      if (text.indexOf(forbidden.charAt(i)) >= 0) {
        throw new IllegalArgumentException(
            what
                + " was "
                + Row.quoted(text)
                + ", allowed in one cell of a table is text without any of "
                + forbidden
                + "; JSON takes it");
      }
    }
    return text;
  }

  static String range(Range range) {
    return range.isExact()
        ? number(range.typical())
        : number(range.low()) + ".." + number(range.typical()) + ".." + number(range.high());
  }

  /** A number that reads back as the same bits, the same in every locale. */
  static String number(double value) {
    String text = Double.toString(value + 0.0);
    int exponent = text.indexOf('E');
    if (exponent < 0) {
      return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
    }
    return Math.abs(value) >= 1e-9 && Math.abs(value) < 1e15
        ? new BigDecimal(text).stripTrailingZeros().toPlainString()
        : text;
  }
}
