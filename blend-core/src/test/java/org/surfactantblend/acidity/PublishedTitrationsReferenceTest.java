package org.surfactantblend.acidity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.aqueous.PhRoot;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.PhWindow;
import org.surfactantblend.quantity.Scale;

/**
 * Titrations of three real blends with 0.5 mol/L citric acid, from declared constituents only.
 *
 * <p>Source: Chitre et al., Chemistry-Methods, doi 10.1002/cmtd.202300043 (readings, open data, CC
 * BY), with the weighed compositions of Chitre et al., Scientific Data 2024, doi
 * 10.1038/s41597-024-03573-w. Samples of 10 mL, density about 1.01 g/mL, one probe, lots unknown;
 * the polymer solution and laureth-2 are taken as pH-neutral. No amount and no constant of the
 * library was fitted to them; that carboxyls in a micelle do not share one constant is known
 * otherwise, but how much room the prior gives them was settled with these runs in view. The
 * tolerances are those set before the model was run: 0.30 and the 90 % band after two readings,
 * 0.10 after three.
 */
class PublishedTitrationsReferenceTest {
  /** 0.5 mol/L of 192.124 g/mol; density of about 9 % m/m by interpolation of handbook figures. */
  private static final double ACID_G_PER_ML = 1.037;

  private static final Titrant ACID = Titrant.citricAcid(0.5 * 192.124 / 10 / ACID_G_PER_ML);
  private static final double SAMPLE_G = 10.1;
  // One probe in a robot: the accuracy of a meter in surfactant, as everywhere in these tests.
  private static final Meter METER = Meter.accurateTo(0.05);

  private static final Map<String, Blend> BLENDS =
      Map.of(
          "E1",
          TestTable.blend(
              "E1", "sodium-cocoyl-glutamate-27", 9.027, "potassium-cocoyl-glycinate-30", 8.863),
          "E2",
          TestTable.blend(
              "E2", "cocamidopropyl-betaine-37", 10.087, "sodium-cocoyl-glutamate-27", 10.595),
          "E3",
          TestTable.blend(
              "E3", "decyl-glucoside-52", 10.521, "sodium-cocoyl-glutamate-27", 11.995));

  private static Blend blend(String id) {
    return java.util.Objects.requireNonNull(BLENDS.get(id));
  }

  private record Point(double grams, double ph) {}

  private static List<Point> run(String id) {
    List<Point> points = new ArrayList<>();
    for (Map<String, String> row : TestTable.rows(TestTable.CHECKS.resolve("titrations.csv"))) {
      if (id.equals(row.get("check_id")) && "titration".equals(row.get("basis"))) {
        String step = String.valueOf(row.get("ingredient_or_step"));
        double microlitres =
            step.contains("before") ? 0 : Double.parseDouble(step.replaceAll("[^0-9]", ""));
        points.add(
            new Point(microlitres / 1000 * ACID_G_PER_ML, Double.parseDouble(row.get("value"))));
      }
    }
    return points;
  }

  private static Titration begin(String id) {
    DosingRules rules = DosingRules.usual().on(Scale.of(0.001, 100));
    return AcidDose.of(blend(id))
        .to(5.5)
        .with(ACID)
        .forBatch(Mass.grams(SAMPLE_G))
        .begin(METER, rules);
  }

  private static Titration fed(String id, int readings) {
    Titration t = begin(id);
    List<Point> points = run(id);
    for (int i = 0; i < readings; i++) {
      double more = points.get(i).grams() - (i == 0 ? 0 : points.get(i - 1).grams());
      t = i == 0 ? t.reading(points.get(i).ph()) : t.dosed(more).reading(points.get(i).ph());
    }
    return t;
  }

  private record Later(String id, int fed, double read, double predicted, PhWindow band) {
    double error() {
      return predicted - read;
    }
  }

  private static List<Later> later(int readings) {
    List<Later> all = new ArrayList<>();
    for (String id : List.of("E1", "E2", "E3")) {
      List<Point> points = run(id);
      Titration t = fed(id, readings);
      double so = points.get(readings - 1).grams();
      for (Point p : points.subList(readings, points.size())) {
        double more = p.grams() - so;
        all.add(new Later(id, readings, p.ph(), t.phAfter(more), t.likelyReadingAfter(more)));
      }
    }
    return all;
  }

  /** Who foresees the later readings. */
  private enum Method {
    LEARNED("this library"),
    LINE_IN_THE_DOSE("straight line in the dose"),
    LINE_IN_PROTONS("straight line in protons"),
    ONE_BUFFER("one generic buffer");

    final String text;

    Method(String text) {
      this.text = text;
    }
  }

  private static List<Later> later(Method method, int readings) {
    return method == Method.LEARNED ? later(readings) : naive(method, readings);
  }

  /** Two points fix a straight line, or the amount and constant of one buffer; more are fitted. */
  private static List<Later> naive(Method method, int readings) {
    List<Later> all = new ArrayList<>();
    for (String id : List.of("E1", "E2", "E3")) {
      List<Point> points = run(id);
      List<Point> known = points.subList(readings - 2, readings);
      for (Point p : points.subList(readings, points.size())) {
        double foreseen =
            switch (method) {
              case LINE_IN_THE_DOSE -> line(known, p.grams());
              case LINE_IN_PROTONS -> inProtons(known, p.grams());
              default -> oneBuffer(points.subList(0, readings), p.grams());
            };
        all.add(new Later(id, readings, p.ph(), foreseen, PhWindow.of(foreseen, foreseen)));
      }
    }
    return all;
  }

  /** A straight line through the last two readings; a pH below 0 is left as it is. */
  private static double line(List<Point> two, double grams) {
    double slope = (two.get(1).ph() - two.get(0).ph()) / (two.get(1).grams() - two.get(0).grams());
    return Math.max(0, two.get(1).ph() + slope * (grams - two.get(1).grams()));
  }

  private static double protons(double grams, double ph) {
    return -grams * ACID.chargeEqPerKg(Conditions.standard(), ph, 0.05) / SAMPLE_G;
  }

  /** The same in the protons that the acid gives off at the pH where it arrives. */
  private static double inProtons(List<Point> two, double grams) {
    double from = protons(two.get(0).grams(), two.get(0).ph());
    double to = protons(two.get(1).grams(), two.get(1).ph());
    double slope = (two.get(1).ph() - two.get(0).ph()) / (to - from);
    return PhRoot.ofFalling(ph -> two.get(1).ph() + slope * (protons(grams, ph) - to) - ph, 0, 14);
  }

  /**
   * One buffer whose constant lies in the middle of what the blend passes through, pKa 6; amount
   * and strong ions by least squares in the charge over all readings so far.
   */
  private static double oneBuffer(List<Point> known, double grams) {
    double n = known.size();
    double sx = 0;
    double sy = 0;
    double sxx = 0;
    double sxy = 0;
    for (Point p : known) {
      double x = 1 / (1 + Math.pow(10, p.ph() - 6));
      double y = protons(p.grams(), p.ph());
      sx += x;
      sy += y;
      sxx += x * x;
      sxy += x * y;
    }
    double amount = (n * sxy - sx * sy) / (n * sxx - sx * sx);
    double level = (sy - amount * sx) / n;
    return PhRoot.ofFalling(
        ph -> level + amount / (1 + Math.pow(10, ph - 6)) - protons(grams, ph), 0, 14);
  }

  private static double worst(List<Later> all) {
    return all.stream().mapToDouble(l -> Math.abs(l.error())).max().orElseThrow();
  }

  private static double rootMeanSquare(List<Later> all) {
    return Math.sqrt(all.stream().mapToDouble(l -> l.error() * l.error()).average().orElseThrow());
  }

  @Test
  void everyLaterReadingIsForeseenAndLiesInItsBand() {
    StringBuilder table =
        new StringBuilder("run  fed   read  foreseen  error   90 % band       width\n");
    for (int readings = 2; readings <= 3; readings++) {
      for (Later l : later(readings)) {
        table.append(
            String.format(
                Locale.ROOT,
                "%-4s %d     %.3f  %.3f   %+.3f   %.2f to %.2f   %.2f%n",
                l.id(),
                l.fed(),
                l.read(),
                l.predicted(),
                l.error(),
                l.band().low(),
                l.band().high(),
                l.band().width()));
      }
    }
    table.append("worst and root mean square of all later readings     2 fed         3 fed\n");
    for (Method m : Method.values()) {
      table.append(
          String.format(
              Locale.ROOT,
              "%-50s %.2f  %.2f    %.2f  %.2f%n",
              m.text,
              worst(later(m, 2)),
              rootMeanSquare(later(m, 2)),
              worst(later(m, 3)),
              rootMeanSquare(later(m, 3))));
    }
    System.out.println(table);
    for (Later l : later(2)) {
      assertEquals(l.read(), l.predicted(), 0.30, l.toString());
      assertTrue(l.band().contains(l.read()), l.toString());
    }
    assertTrue(rootMeanSquare(later(2)) < 0.12, table::toString);
    for (Later l : later(3)) {
      assertEquals(l.read(), l.predicted(), 0.10, l.toString());
      assertTrue(l.band().contains(l.read()), l.toString());
    }
    // A test that any rule passes would say nothing.
    for (Method m : Method.values()) {
      assertTrue(m == Method.LEARNED || worst(later(m, 2)) > 0.30, m.text);
    }
  }

  @Test
  void startOfE1AndE3LiesInsideTheGuaranteedIntervalAndItsCauseIsNamed() {
    for (String id : List.of("E1", "E3")) {
      StartingPh start = StartingPh.of(blend(id));
      assertTrue(start.guaranteed().contains(run(id).get(0).ph()), id + start.guaranteed());
      assertEquals(
          "sodium-cocoyl-glutamate-27", start.mainCauseOfSpread().get(0).line().material().id());
      assertTrue(start.summary().contains("The spread comes mostly from"));
    }
  }

  @Test
  void startOfE2ContradictsASheetWhichIsNamedAndTheTitrationGoesOn() {
    Titration t = fed("E2", 1);
    ReadingFlag flag = t.flags().get(0);
    assertEquals(ReadingFlag.Kind.CONTRADICTS_A_SHEET, flag.kind());
    assertFalse(flag.held());
    assertTrue(flag.text().contains("sheet pH of sodium-cocoyl-glutamate-27"), flag.text());
    assertEquals(NextDose.Action.DOSE, t.next().action());
    assertTrue(fed("E1", 1).flags().isEmpty());
    assertTrue(fed("E3", 1).flags().isEmpty());
  }
}
