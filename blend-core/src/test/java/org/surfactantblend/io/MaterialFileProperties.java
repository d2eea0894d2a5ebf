package org.surfactantblend.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.regex.Pattern;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.surfactantblend.Blends;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.SheetPh;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.quantity.Range;

class MaterialFileProperties {
  private static final MaterialTable TABLE = Blends.starterTable();
  private static final Pattern CODE = Pattern.compile("[a-z0-9]+(-[a-z0-9]+)*");
  private static final List<String> LOCALES = List.of("en-US", "tr-TR", "de-DE", "ar-EG-u-nu-arab");

  // Reading back what was written

  @Property(tries = 300, seed = "101")
  void whatIsWrittenReadsBackTheSame(@ForAll("materials") Material m) {
    String csv = MaterialFile.writeCsv(List.of(m), TABLE);
    Loaded<List<Material>> fromCsv = MaterialFile.materialsFromCsv(Input.text("x", csv), TABLE);
    assertEquals(1, fromCsv.value().size(), () -> fromCsv.problems() + "\n" + csv);
    SameMaterial.assertSameMaterial(m, fromCsv.value().get(0));
    String json = MaterialFile.writeJson(List.of(m), TABLE);
    Loaded<List<Material>> fromJson = MaterialFile.materialsFromJson(Input.text("x", json), TABLE);
    assertEquals(1, fromJson.value().size(), () -> fromJson.problems() + "\n" + json);
    SameMaterial.assertSameMaterial(m, fromJson.value().get(0));
  }

  @Provide
  Arbitrary<Material> materials() {
    return Arbitraries.randomValue(MaterialFileProperties::material);
  }

  private static Material material(Random random) {
    String id = "m-" + random.nextInt(1000);
    List<Family> families = List.copyOf(TABLE.families().values());
    List<String> acids = List.copyOf(TABLE.acids().keySet());
    Material.Builder b =
        Material.builder(id)
            .inciName(name(random) + (random.nextInt(4) == 0 ? " (and) " + name(random) : ""))
            .grade(text(random))
            .notes(text(random))
            .family(families.get(random.nextInt(families.size())));
    String main = MaterialRows.main(b.build().inciName());
    double left = 100;
    int parts = random.nextInt(5);
    for (int i = 0; i < parts; i++) {
      double typical = left * random.nextDouble() * 0.9 + 1e-6;
      left -= typical;
      Range percent =
          Range.of(typical * random.nextDouble(), typical, Math.min(100, typical * 1.3));
      OptionalDouble mass =
          random.nextBoolean()
              ? OptionalDouble.empty()
              : OptionalDouble.of(60 + random.nextInt(9000) / 8.0);
      String named =
          switch (random.nextInt(4)) {
            case 0 -> main;
            case 1 -> Constituent.SODIUM_CHLORIDE;
            default -> name(random);
          };
      b.constituent(
          random.nextBoolean()
              ? Constituent.other(named, percent, mass)
              : Constituent.active(
                  named, percent, List.of(ChargeClass.values()).get(random.nextInt(4)), mass));
    }
    // Beside active matter the reader would rightly doubt a dry residue that does not fit it.
    if (parts == 0) {
      b.dryResiduePercent(Range.of(90, 95 + random.nextDouble(), 100));
    }
    if (random.nextBoolean()) {
      double low = random.nextDouble() * 14;
      b.sheetPh(
          new SheetPh(
              Range.of(low, low, low + (14 - low) * random.nextDouble()),
              random.nextBoolean() ? 10 : 1e-5 + random.nextDouble() * 99,
              random.nextBoolean()));
    }
    if (random.nextInt(3) == 0) {
      double low = random.nextDouble() * 100 - 50;
      b.strongIonEqPerKg(Range.of(low, low, low + (50 - low) * random.nextDouble()));
    }
    for (int i = random.nextInt(3); i > 0; i--) {
      AcidBase acid =
          random.nextBoolean()
              ? TABLE.acids().getOrDefault(acids.get(random.nextInt(acids.size())), water())
              : ownAcid(random);
      acid = random.nextBoolean() ? acid.asApparent() : acid;
      double typical = acid.steps().get(0).pKa25();
      Range pKa =
          switch (random.nextInt(4)) {
            case 0 -> Range.of(Math.max(-5, typical - 1), typical, Math.min(20, typical + 0.7));
            case 1 -> Range.exactly(typical);
            case 2 -> Range.of(-5, 3.25, 20);
            default -> null;
          };
      double most = random.nextDouble() * 0.4;
      b.group(
          new AcidBaseGroup(
              "group " + i,
              acid,
              pKa,
              Range.of(0, most / 3, most),
              random.nextBoolean(),
              random.nextBoolean()));
    }
    if (random.nextBoolean()) {
      b.naturalOriginPercent(random.nextDouble() * 100).maxUsePercent(random.nextInt(101));
    }
    if (random.nextBoolean()) {
      b.source("active", "COM; MEM").source("ph", "EST").source("constituent X-1", "CALC");
    }
    if (random.nextBoolean()) {
      b.lot("L " + random.nextInt(9999)).caveat("watch " + name(random));
    }
    return b.build();
  }

  private static AcidBase water() {
    return AcidBase.acid("water", 14);
  }

  private static AcidBase ownAcid(Random random) {
    List<AcidBase.Step> steps = new ArrayList<>();
    boolean warm = random.nextBoolean();
    for (int i = random.nextInt(3); i >= 0; i--) {
      steps.add(
          new AcidBase.Step(
              random.nextDouble() * 25 - 5,
              warm ? random.nextDouble() * 400 - 200 : 0,
              warm ? random.nextDouble() * 2000 - 1000 : 0));
    }
    return AcidBase.of(
        random.nextBoolean() ? "group 1" : name(random), random.nextInt(13) - 6, steps);
  }

  private static String name(Random random) {
    List<String> words =
        List.of(
            "Sodium",
            "C14-16",
            "Coco",
            "PEG-7",
            "1,2-Hexanediol",
            "Glucoside",
            "(undeclared)",
            "2-Sulfolaurate",
            "TEA",
            "d'Olive",
            "80",
            "\u00C9clat",
            "%",
            "=x",
            "\uD83E\uDDFC");
    StringBuilder name = new StringBuilder("N");
    for (int i = random.nextInt(3); i >= 0; i--) {
      name.append(' ').append(words.get(random.nextInt(words.size())));
    }
    return name.toString().replace(",", random.nextBoolean() ? "" : "-");
  }

  private static String text(Random random) {
    String alphabet = "ab =+-@'\"\n\r\t,;|[]%:\\#\u00E9\u0130\u0131\u00DF\u4E2D0123.";
    StringBuilder text = new StringBuilder();
    for (int i = random.nextInt(14); i > 0; i--) {
      text.append(alphabet.charAt(random.nextInt(alphabet.length())));
    }
    return text.toString();
  }

  // Whatever comes in

  @Property(tries = 400, seed = "102")
  void garbageNeverThrows(@ForAll("garbage") String text) {
    judge(text);
  }

  @Provide
  Arbitrary<String> garbage() {
    Arbitrary<String> characters =
        Arbitraries.strings()
            .withChars(
                "id,inci_name\n\r\"';|\t{}[]:.%0123456789eE+-=@ab \0\u00A0\uFEFF\uD800\uDC00\u0663")
            .ofMaxLength(200);
    return Arbitraries.oneOf(
        characters,
        characters.map(s -> "id,inci_name,active_typ_pct\n" + s),
        characters.map(s -> "[{\"id\": \"" + s + "\"}]"),
        Arbitraries.strings().ofMaxLength(60));
  }

  @Property(tries = 600, seed = "103")
  void damagedTablesNeverThrow(@ForAll Random random) {
    String whole =
        random.nextBoolean()
            ? MaterialFile.writeCsv(some(random), TABLE)
            : MaterialFile.writeJson(some(random), TABLE);
    judge(damaged(whole, random));
  }

  @Property(tries = 100, seed = "104")
  void damagedBytesNeverThrow(@ForAll Random random) throws IOException {
    byte[] bytes = MaterialFile.writeCsv(some(random), TABLE).getBytes(StandardCharsets.UTF_8);
    for (int i = random.nextInt(4); i >= 0; i--) {
      bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
    }
    Loaded<MaterialTable> loaded =
        MaterialFile.readCsv(Input.stream("x", new ByteArrayInputStream(bytes)), TABLE);
    sound(loaded.problems());
  }

  @Property(tries = 60, seed = "105")
  void theAnswerIsTheSameInEveryLocale(@ForAll Random random) {
    String text = damaged(MaterialFile.writeCsv(some(random), TABLE), random);
    Locale before = Locale.getDefault();
    List<String> answers = new ArrayList<>();
    try {
      for (String tag : LOCALES) {
        Locale.setDefault(Locale.forLanguageTag(tag));
        Loaded<List<Material>> loaded = MaterialFile.materialsFromCsv(Input.text("x", text), TABLE);
        answers.add(loaded.problems() + MaterialFile.writeJson(loaded.value(), TABLE));
      }
    } finally {
      Locale.setDefault(before);
    }
    assertEquals(1, answers.stream().distinct().count());
  }

  @Property(tries = 400, seed = "106")
  void oddFiguresInRightPlacesNeverThrow(@ForAll Random random) {
    List<String> odd =
        List.of(
            "",
            "",
            "",
            "0",
            "-0",
            "1e-300",
            "1e-5",
            "0.01",
            "1",
            "10",
            "13.999",
            "30",
            "50",
            "99.9",
            "100",
            "100000",
            "-50",
            "yes",
            "no",
            "none",
            "anionic",
            "cationic",
            "Aqua",
            "WATER",
            "Aqua (and) Aqua",
            "\u0130\u0130\u0130 (AND) x",
            "Sodium Chloride",
            "x",
            "(undeclared)",
            "(undeclared) 3; ((undeclared)) 4",
            "amidopropyl betaine",
            "water",
            "soap",
            "x 1..2..3",
            "A 60; B 39.999999",
            "\"x: acid citric, 50 mol/mol\"",
            "\"x: pKa -5..20, charge -6, 0..50 mol/mol, on active\"",
            "a: b",
            "a: b | c: d");
    StringBuilder table = new StringBuilder(String.join(",", MaterialRows.COLUMNS)).append('\n');
    for (int row = 0; row < 4; row++) {
      List<String> cells = new ArrayList<>();
      for (String column : MaterialRows.COLUMNS) {
        boolean usual = random.nextInt(3) > 0;
        cells.add(
            usual && column.equals("id")
                ? "m" + row
                : usual && column.equals("inci_name")
                    ? "Coco-Betaine"
                    : usual && column.equals("active_typ_pct")
                        ? "30"
                        : usual && column.equals("family")
                            ? "amidopropyl betaine"
                            : usual ? "" : odd.get(random.nextInt(odd.size())));
      }
      table.append(String.join(",", cells)).append('\n');
    }
    Loaded<MaterialTable> loaded = MaterialFile.readCsv(Input.text("x", table.toString()), TABLE);
    sound(loaded.problems());
    for (Material m : loaded.value().materials()) {
      assertTrue(m.activePercent().typical() + m.waterPercent().typical() <= 100 + 1e-9, m::id);
    }
  }

  private static List<Material> some(Random random) {
    List<Material> all = new ArrayList<>(TABLE.materials());
    java.util.Collections.shuffle(all, random);
    return all.subList(0, 1 + random.nextInt(3));
  }

  private static String damaged(String text, Random random) {
    StringBuilder out = new StringBuilder(text);
    String bad = "\",;\n\r\0%{}[]:-.eE9'=\u00A0\uD800\uFEFF\t ";
    for (int i = random.nextInt(6); i >= 0; i--) {
      int at = random.nextInt(out.length());
      switch (random.nextInt(4)) {
        case 0 -> out.deleteCharAt(at);
        case 1 -> out.insert(at, bad.charAt(random.nextInt(bad.length())));
        case 2 -> out.setCharAt(at, bad.charAt(random.nextInt(bad.length())));
        default -> {
          int to = Math.min(out.length(), at + random.nextInt(40));
          out.insert(random.nextInt(out.length()), out.substring(at, to));
        }
      }
    }
    return out.toString();
  }

  private static void judge(String text) {
    Input input = Input.text("x", text);
    List<Loaded<?>> answers =
        List.of(
            MaterialFile.readCsv(input, TABLE),
            MaterialFile.materialsFromCsv(input, TABLE),
            MaterialFile.readJson(input, TABLE),
            PriceFile.readCsv(input, TABLE),
            PriceFile.readJson(input, TABLE));
    for (Loaded<?> answer : answers) {
      assertNotNull(answer.value());
      sound(answer.problems());
    }
  }

  private static void sound(List<Problem> problems) {
    for (Problem p : problems) {
      assertTrue(CODE.matcher(p.code()).matches(), p::toString);
      assertTrue(p.toString().length() < 2000, p::toString);
      assertTrue(
          p.toString().chars().noneMatch(c -> c < ' ' || Character.isSurrogate((char) c)),
          p::toString);
    }
  }

  @Property(tries = 200, seed = "107")
  void unharmedRowsSurviveADamagedNeighbour(@ForAll Random random) {
    Material good = some(random).get(0);
    String csv = MaterialFile.writeCsv(List.of(good), TABLE);
    int body = csv.indexOf('\n') + 1;
    String cells = damaged("x,X,\"y,", random).replace("\n", "").replace("\r", "");
    Loaded<List<Material>> loaded =
        MaterialFile.materialsFromCsv(
            Input.text("x", csv.substring(0, body) + cells + "\n" + csv.substring(body)), TABLE);
    assertTrue(
        loaded.value().stream().anyMatch(m -> m.id().equals(good.id())),
        () -> cells + " " + loaded.problems());
  }
}
