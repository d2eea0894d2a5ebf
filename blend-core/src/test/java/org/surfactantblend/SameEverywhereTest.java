package org.surfactantblend;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TimeZone;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.surfactantblend.acidity.AcidDose;
import org.surfactantblend.acidity.Meter;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.acidity.Titrant;
import org.surfactantblend.acidity.Titration;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.batch.BatchSheet;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.conformance.Conformance;
import org.surfactantblend.io.Input;
import org.surfactantblend.io.MaterialFile;
import org.surfactantblend.io.PriceFile;
import org.surfactantblend.io.Requests;
import org.surfactantblend.io.SolveFile;
import org.surfactantblend.material.CertificateOfAnalysis;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Scale;
import org.surfactantblend.solve.BlendResult;
import org.surfactantblend.solve.SolvedBlend;
import org.surfactantblend.swap.SupplierSwap;

/** The same input gives the same bits and the same text in every thread, locale and time zone. */
class SameEverywhereTest {
  private static final int THREADS = 32;

  private static MaterialTable table() {
    return Blends.starterTable().priced(Blends.demoPrices());
  }

  private static List<Brief> briefs() {
    List<Brief> all = new ArrayList<>();
    String[] from = {
      "cocamidopropyl-betaine-30",
      "decyl-glucoside-52",
      "coco-glucoside-52",
      "sodium-cocoyl-glutamate-27",
      "sodium-laureth-sulfate-27"
    };
    for (int active = 6; active <= 16; active += 2) {
      Brief.Builder b =
          Brief.named("Wash " + active)
              .totalActive(active, 0.2)
              .share(ChargeClass.AMPHOTERIC, 30, 60)
              .startingPh(5.5, 7.5)
              .choosingFrom(from)
              .fixed("glycerin", 3)
              .cheapest();
      all.add(b.build());
      all.add(b.atMostSurfactants(2).build());
      all.add(b.salt(0, 0.3).build());
    }
    return all;
  }

  /** An answer to the last bit. */
  private static String bits(BlendResult result) {
    StringBuilder s = new StringBuilder();
    if (result instanceof SolvedBlend solved) {
      solved
          .blend()
          .lines()
          .forEach(
              l ->
                  s.append(l.material().id())
                      .append(' ')
                      .append(Double.toHexString(l.amount().value()))
                      .append('\n'));
      s.append(Double.toHexString(solved.wishValue()))
          .append(Double.toHexString(solved.startingPh().guaranteed().low()));
    }
    return s.append(result.summary()).toString();
  }

  private static String bits(Titration t) {
    return Double.toHexString(t.phNow())
        + Double.toHexString(t.likelyPhNow().low())
        + Double.toHexString(t.remainingGrams().high())
        + t.summary();
  }

  private static Titration titration(AcidDose dose) {
    return dose.begin(Meter.accurateTo(0.05)).reading(8.4).dosed(0.6).reading(7.5);
  }

  /** Everything that is solved, read and titrated, worked out from one table and one dose. */
  private static List<String> everything(MaterialTable table, List<Brief> briefs, AcidDose dose) {
    List<String> all = new ArrayList<>();
    briefs.forEach(b -> all.add(bits(Blends.solve(b, table))));
    for (var m : table.surfactants()) {
      all.add(Double.toHexString(m.chargeCurve(Conditions.standard()).chargeEqPerKg(6.5, 0.1)));
    }
    all.add(bits(titration(dose)));
    return all;
  }

  @Test
  void thirtyTwoThreadsOnOneTableGetWhatOneThreadGets() throws Exception {
    List<Brief> briefs = briefs();
    List<String> alone = everything(table(), briefs, dose(table()));
    // A table and a dose whose memos are still empty, so that the threads fill them together.
    MaterialTable shared =
        table().with(table().materials().stream().map(m -> m.toBuilder().build()).toList());
    AcidDose dose = dose(shared);
    CountDownLatch start = new CountDownLatch(1);
    ExecutorService threads = Executors.newFixedThreadPool(THREADS);
    int solves = 0;
    try {
      List<Future<List<String>>> answers = new ArrayList<>();
      for (int i = 0; i < THREADS; i++) {
        Callable<List<String>> task =
            () -> {
              start.await();
              return everything(shared, briefs, dose);
            };
        answers.add(threads.submit(task));
      }
      start.countDown();
      for (Future<List<String>> f : answers) {
        assertEquals(alone, f.get());
        solves += briefs.size();
      }
    } finally {
      threads.shutdownNow();
    }
    assertEquals(THREADS * briefs.size(), solves);
  }

  private static Input shelf() {
    return Input.text(
        "shelf.csv",
        """
        id,inci_name,charge_class,family,active_typ_pct,ph_low,ph_high,ph_dilution_pct
        my-betaine,Cocamidopropyl Betaine,amphoteric,amidopropyl betaine,31,4.8,5.4,10
        odd,Ilık Sulfate,anionik,alkyl ether sulfate,"27,5",6,8,
        """);
  }

  private static Blend blend(MaterialTable table) {
    return Blend.named("Hand wash")
        .line(table.get("cocamidopropyl-betaine-30"), 15.25)
        .line(table.get("decyl-glucoside-52"), 8.125)
        .line(table.get("sodium-chloride"), 1.5)
        .upToHundredWith(table.get("water"));
  }

  private static AcidDose dose(MaterialTable table) {
    return AcidDose.of(blend(table))
        .to(5.5)
        .with(Titrant.citricAcid(20))
        .forBatch(Mass.grams(1234.5));
  }

  /** Every text that the library writes for people or programs. */
  private static String texts() {
    MaterialTable table = table();
    Blend blend = blend(table);
    AcidDose dose = dose(table);
    var lot =
        CertificateOfAnalysis.ofLot("L1")
            .activePercent(26.5)
            .saltPercent(5.25)
            .ph(5.25, 10)
            .build();
    var read = MaterialFile.readCsv(shelf(), table);
    Brief brief = briefs().get(0);
    BlendResult solved = Blends.solve(brief, table);
    BlendResult none =
        Blends.solve(brief.toBuilder().share(ChargeClass.CATIONIC, 50.5, 60.5).build(), table);
    var swap =
        SupplierSwap.in(blend)
            .replace("cocamidopropyl-betaine-30")
            .with(lot.appliedTo(table.get("cocamidopropyl-betaine-30")).value())
            .report();
    BatchSheet sheet =
        BatchSheet.of(blend)
            .mass(Mass.kilograms(12.345))
            .on(Scale.of(0.01, 500), Scale.of(1, 15000));
    return String.join(
        "\n",
        blend.toString(),
        StartingPh.of(blend).summary(),
        solved.summary(),
        none.summary(),
        dose.summary(),
        titration(dose).summary(),
        titration(dose).curveTable(5, 9),
        swap.summary(),
        sheet.text(),
        lot.appliedTo(table.get("cocamidopropyl-betaine-30")).problems().toString(),
        read.problems().toString(),
        Conformance.of(lot, table.get("cocamidopropyl-betaine-30")).summary(),
        table.search("BETAINE").toString(),
        SolveFile.write(solved, table),
        SolveFile.write(none, table),
        Requests.writeProblems(read.problems()),
        MaterialFile.writeCsv(table.surfactants(), table),
        MaterialFile.writeJson(table.surfactants(), table),
        PriceFile.writeCsv(table.prices()),
        PriceFile.writeJson(table.prices()));
  }

  @ParameterizedTest
  @ValueSource(strings = {"tr-TR", "de-DE", "ar-EG-u-nu-arab", "hi-IN-u-nu-deva"})
  void textsAreTheSameInEveryLocaleAndTimeZone(String tag) {
    Locale locale = Locale.getDefault();
    TimeZone zone = TimeZone.getDefault();
    String here = texts();
    assertTrue(here.length() > 10_000);
    try {
      for (String place : List.of("Pacific/Kiritimati", "America/St_Johns", "Asia/Kathmandu")) {
        Locale.setDefault(Locale.forLanguageTag(tag));
        TimeZone.setDefault(TimeZone.getTimeZone(place));
        assertEquals(here, texts(), () -> tag + " in " + place);
      }
    } finally {
      Locale.setDefault(locale);
      TimeZone.setDefault(zone);
    }
  }
}
