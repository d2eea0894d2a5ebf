package org.surfactantblend.acidity;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.SplittableRandom;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.aqueous.ChargeBalance;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.SheetPh;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Range;

/**
 * Titrations of blends whose true lots are hidden: drawn from the table's ranges (triangular,
 * independent), read with a meter error, dosed on a scale of 0.01 g, judged on the true pH.
 */
final class TitrationSimulation {
  private static final long SEED = 20_240_611;
  static final double METER = 0.05;
  static final double BATCH_G = 500;
  private static final double SCALE_G = 0.01;
  private static final int MOST_DOSES = 15;
  private static final Conditions AT = Conditions.standard();

  /** A kind of blend with its target and what is dosed. */
  record Kind(String name, Blend blend, double target, Titrant titrant) {}

  /**
   * How the truth and the bench differ from what the library is told.
   *
   * @param name for the table
   * @param lots how the lots are drawn from their ranges
   * @param pKaOff by how much every uncertain constant lies outside, up or down [pH]
   * @param undeclared the greatest amount of a buffer that nobody declared [mmol/kg of product]
   * @param drift of the meter from reading to reading [pH]
   * @param offset of the meter [pH]
   * @param strength of the titrant, true over named
   */
  record Stress(
      String name,
      Lots lots,
      double pKaOff,
      double undeclared,
      double drift,
      double offset,
      double strength) {
    static final Stress NONE = new Stress("as declared", Lots.INSIDE, 0, 0, 0, 0, 1);
    static final List<Stress> ALL =
        List.of(
            NONE,
            new Stress("anywhere in the ranges alike", Lots.ANYWHERE, 0, 0, 0, 0, 1),
            new Stress("every range at one of its ends", Lots.ENDS, 0, 0, 0, 0, 1),
            new Stress("all buffers in their lowest 15 %", Lots.LEAN, 0, 0, 0, 0, 1),
            new Stress("constants 0.15 off", Lots.INSIDE, 0.15, 0, 0, 0, 1),
            new Stress("constants 0.3 off", Lots.INSIDE, 0.3, 0, 0, 0, 1),
            new Stress("undeclared buffer to 10 mmol/kg", Lots.INSIDE, 0, 10, 0, 0, 1),
            new Stress("meter drifts by -0.02 a reading", Lots.INSIDE, 0, 0, -0.02, 0, 1),
            new Stress("meter drifts by 0.02 a reading", Lots.INSIDE, 0, 0, 0.02, 0, 1),
            new Stress("meter reads 0.05 high", Lots.INSIDE, 0, 0, 0, 0.05, 1),
            new Stress("meter reads 0.10 high", Lots.INSIDE, 0, 0, 0, 0.10, 1),
            new Stress("titrant 5 % too strong", Lots.INSIDE, 0, 0, 0, 0, 1.05),
            new Stress("titrant 5 % too weak", Lots.INSIDE, 0, 0, 0, 0, 0.95));
  }

  /** How lots are drawn from their ranges. */
  enum Lots {
    /** Triangular on least, typical, greatest. */
    INSIDE,
    /** Evenly over the range. */
    ANYWHERE,
    /** At one end or the other. */
    ENDS,
    /** The amounts of all buffers in their lowest 15 %, the rest triangular. */
    LEAN
  }

  /** Who decides the next dose. */
  enum Rule {
    LEARNING,
    HABIT,
    HALF_THEN_SECANT
  }

  /** What came of some runs. */
  static final class Tally {
    int runs;
    int overshot;
    int atMostThree;
    int atMostFour;
    int unfinished;
    int bands;
    int inside;
    int flagged;
    int weaker;
    int finishedWithin;
    double worst;

    void add(Tally o) {
      runs += o.runs;
      overshot += o.overshot;
      atMostThree += o.atMostThree;
      atMostFour += o.atMostFour;
      unfinished += o.unfinished;
      bands += o.bands;
      inside += o.inside;
      flagged += o.flagged;
      weaker += o.weaker;
      finishedWithin += o.finishedWithin;
      worst = Math.max(worst, o.worst);
    }

    double percent(int part) {
      return 100.0 * part / runs;
    }

    double coverage() {
      return bands == 0 ? Double.NaN : 100.0 * inside / bands;
    }

    @Override
    public String toString() {
      return String.format(
          Locale.ROOT,
          "%6d %9.2f %8.1f %8.1f %9.1f %9.1f %7.2f %7.1f %6.2f",
          runs,
          percent(overshot),
          percent(atMostThree),
          percent(atMostFour),
          percent(finishedWithin),
          coverage(),
          percent(flagged),
          percent(weaker),
          worst);
    }

    static String header() {
      return "  runs overshot%  <=3 ds%  <=4 ds%  <=0.15 %  in band% flagged% weaker%  worst";
    }
  }

  static List<Kind> kinds() {
    Titrant twenty = Titrant.citricAcid(20);
    Titrant ten = Titrant.citricAcid(10);
    Titrant five = Titrant.citricAcid(5);
    String capb = "cocamidopropyl-betaine-30";
    String decyl = "decyl-glucoside-52";
    String sles = "sodium-laureth-sulfate-27";
    String benzoate = "sodium-benzoate";
    return List.of(
        kind("betaine/glucoside", 5.5, ten, capb, 15, decyl, 8.7),
        kind("betaine/glucoside, benzoate", 5.0, twenty, capb, 15, decyl, 8.7, benzoate, 0.5),
        kind(
            "betaine/three glucosides",
            5.5,
            ten,
            capb,
            10,
            decyl,
            5,
            "coco-glucoside-52",
            5,
            "lauryl-glucoside-50",
            3),
        kind("glutamate/betaine", 5.3, twenty, "disodium-cocoyl-glutamate-27", 12, capb, 12),
        kind(
            "glutamate/glucoside, benzoate",
            5.0,
            twenty,
            "disodium-cocoyl-glutamate-27",
            12,
            decyl,
            6,
            benzoate,
            0.5),
        kind(
            "glutamate/glycinate",
            6.5,
            twenty,
            "sodium-cocoyl-glutamate-27",
            9,
            "potassium-cocoyl-glycinate-30",
            9),
        kind("glycinate/betaine", 7.0, twenty, "potassium-cocoyl-glycinate-30", 18, capb, 10),
        kind("glycinate/glucoside", 7.0, twenty, "potassium-cocoyl-glycinate-30", 12, decyl, 6),
        kind("ether sulfate/betaine", 5.5, five, sles, 30, capb, 10),
        kind("ether sulfate/betaine, benzoate", 5.0, ten, sles, 30, capb, 10, benzoate, 0.5),
        kind("ether sulfate/glucoside", 5.5, five, sles, 25, decyl, 6),
        kind(
            "olefin sulfonate/betaine",
            5.5,
            five,
            "sodium-c14-16-olefin-sulfonate-40",
            20,
            capb,
            12),
        kind("amphoacetate/ether sulfate", 5.5, twenty, "sodium-cocoamphoacetate-32", 12, sles, 20),
        kind(
            "amphoacetate/ether s., benzoate",
            5.0,
            twenty,
            "sodium-cocoamphoacetate-32",
            12,
            sles,
            20,
            benzoate,
            0.5),
        kind("amine oxide/ether sulfate", 5.5, twenty, "lauramine-oxide-30", 8, sles, 25),
        kind(
            "amine oxide/glucoside, benzoate",
            5.0,
            twenty,
            "lauramine-oxide-30",
            10,
            decyl,
            8,
            benzoate,
            0.5));
  }

  private static Kind kind(String name, double target, Titrant titrant, Object... lines) {
    return new Kind(name, TestTable.blend(name, lines), target, titrant);
  }

  private TitrationSimulation() {}

  /**
   * The whole simulation.
   *
   * @param args how many runs, and on how many threads
   */
  public static void main(String[] args) {
    int runs = args.length > 0 ? Integer.parseInt(args[0]) : 10_000;
    int threads = args.length > 1 ? Integer.parseInt(args[1]) : 2;
    ExecutorService on = Executors.newFixedThreadPool(threads);
    try {
      for (Rule rule : Rule.values()) {
        long from = System.nanoTime();
        Map<String, Tally> all = run(rule, Stress.NONE, runs, DosingRules.usual(), on);
        System.out.printf(
            Locale.ROOT, "%n%s, %d runs, %.1f s%n", rule, runs, (System.nanoTime() - from) / 1e9);
        System.out.print(table(all));
      }
      System.out.printf("%nStress, LEARNING, new lots%n%-34s%s%n", "", Tally.header());
      for (Stress stress : Stress.ALL) {
        Map<String, Tally> all = run(Rule.LEARNING, stress, runs, DosingRules.usual(), on);
        System.out.printf("%-34s%s%n", stress.name(), all.get("all"));
      }
    } finally {
      on.shutdown();
    }
  }

  /** A tally a line, all kinds together last. */
  static String table(Map<String, Tally> all) {
    StringBuilder s = new StringBuilder(String.format("%-34s%s%n", "kind", Tally.header()));
    all.forEach((name, tally) -> s.append(String.format("%-34s%s%n", name, tally)));
    return s.toString();
  }

  /** The runs of one kind that one thread makes at a time. */
  private static final int CHUNK = 25;

  /**
   * Runs every kind and gives the tallies by name, the sum last. Every run has its own seed, so the
   * result does not depend on the number of threads.
   */
  static Map<String, Tally> run(
      Rule rule, Stress stress, int runs, DosingRules rules, ExecutorService on) {
    List<Kind> kinds = kinds();
    List<Future<Tally>> parts = new ArrayList<>();
    List<String> names = new ArrayList<>();
    for (int k = 0; k < kinds.size(); k++) {
      Kind kind = kinds.get(k);
      Bench.Place place = new Bench.Place(kind, rules);
      int most = runs * (k + 1) / kinds.size() - runs * k / kinds.size();
      for (int from = 0; from < most; from += CHUNK) {
        int first = from;
        int last = Math.min(most, from + CHUNK);
        names.add(kind.name());
        parts.add(on.submit(() -> of(place, rule, stress, first, last)));
      }
    }
    Map<String, Tally> all = new LinkedHashMap<>();
    Tally sum = new Tally();
    for (int i = 0; i < parts.size(); i++) {
      try {
        Tally part = parts.get(i).get();
        all.computeIfAbsent(names.get(i), n -> new Tally()).add(part);
        sum.add(part);
      } catch (InterruptedException | ExecutionException e) {
        throw new IllegalStateException(names.get(i), e);
      }
    }
    all.put("all", sum);
    return all;
  }

  private static Tally of(Bench.Place place, Rule rule, Stress stress, int from, int to) {
    Tally tally = new Tally();
    for (int r = from; r < to; r++) {
      SplittableRandom random =
          new SplittableRandom(SEED + place.kind.name().hashCode() + 7919L * r);
      Truth truth = null;
      for (int draw = 0; draw < 200 && truth == null; draw++) {
        Truth candidate = new Truth(place, stress, random);
        // A lot that starts at or below the target needs no acid.
        if (candidate.ph(List.of(), 7) > place.kind.target() + 0.3) {
          truth = candidate;
        }
      }
      if (truth == null) {
        throw new IllegalStateException(place.kind.name() + " never starts above its target");
      }
      Bench bench = new Bench(place.kind, truth, stress, random, tally);
      switch (rule) {
        case LEARNING -> bench.learning(place.begun);
        case HABIT -> bench.habit();
        case HALF_THEN_SECANT -> bench.halfThenSecant();
      }
    }
    return tally;
  }

  /** One vessel on the bench. */
  private static final class Bench {
    /** What all runs of a kind share. */
    static final class Place {
      final Kind kind;
      final BlendCharge typical;
      final Titration begun;

      Place(Kind kind, DosingRules rules) {
        this.kind = kind;
        typical = BlendCharge.of(kind.blend(), AT);
        begun =
            AcidDose.of(kind.blend())
                .to(kind.target())
                .with(kind.titrant())
                .forBatch(Mass.grams(BATCH_G))
                .begin(Meter.accurateTo(METER), rules);
      }
    }

    final Kind kind;
    final Truth truth;
    final Stress stress;
    final SplittableRandom random;
    final Tally tally;
    final Map<Titrant, Double> given = new LinkedHashMap<>();
    int doses;
    double ph;
    double drift;
    boolean overshot;

    Bench(Kind kind, Truth truth, Stress stress, SplittableRandom random, Tally tally) {
      this.kind = kind;
      this.truth = truth;
      this.stress = stress;
      this.random = random;
      this.tally = tally;
      ph = truth.ph(List.of(), 7);
    }

    double read() {
      drift += stress.drift();
      double shown = ph + drift + stress.offset() + METER * random.nextGaussian();
      return Math.round(shown * 100) / 100.0;
    }

    void add(Titrant titrant, double grams) {
      doses++;
      given.merge(titrant, grams, Double::sum);
      List<BlendCharge.Addition> all = new ArrayList<>();
      given.forEach(
          (t, g) -> all.add(new BlendCharge.Addition(t, g * stress.strength() / BATCH_G)));
      ph = truth.ph(all, ph);
      if (ph < kind.target() - 0.1) {
        overshot = true;
      }
    }

    void done(boolean finished) {
      tally.runs++;
      tally.overshot += overshot ? 1 : 0;
      tally.atMostThree += finished && doses <= 3 ? 1 : 0;
      tally.atMostFour += finished && doses <= 4 ? 1 : 0;
      tally.unfinished += finished ? 0 : 1;
      tally.finishedWithin += finished && Math.abs(ph - kind.target()) <= 0.15 ? 1 : 0;
      tally.worst = Math.max(tally.worst, kind.target() - ph);
    }

    void learning(Titration begun) {
      Titration t = begun.reading(read());
      boolean flagged = false;
      boolean weaker = false;
      for (int steps = 0; steps < 60 && doses < MOST_DOSES; steps++) {
        NextDose next = t.next();
        switch (next.action()) {
          case READ_AGAIN -> {
            flagged = true;
            t = t.reading(read());
          }
          case WEAKER_SOLUTION -> {
            if (weaker) {
              done(false);
              return;
            }
            weaker = true;
            t = t.with(t.titrant().thinned(10));
          }
          case DOSE -> {
            double grams = next.dose().inGrams();
            add(t.titrant(), grams);
            double shown = read();
            tally.bands++;
            tally.inside += next.likelyReading().contains(shown) ? 1 : 0;
            t = t.dosed(grams).reading(shown);
          }
          default -> {
            tally.flagged += flagged ? 1 : 0;
            tally.weaker += weaker ? 1 : 0;
            done(true);
            return;
          }
        }
      }
      done(false);
    }

    /** 0.2 % citric acid, read, repeat. */
    void habit() {
      double dose = 0.002 * BATCH_G / citricPart();
      while (read() > kind.target() + 0.1 && doses < MOST_DOSES) {
        add(kind.titrant(), dose);
      }
      done(doses < MOST_DOSES);
    }

    private double citricPart() {
      return Objects.requireNonNull(kind.titrant().contents().get("Citric Acid")) / 100;
    }

    /** Half of the estimate, then 0.7 of what the secant in protons says. */
    void halfThenSecant() {
      double shown = read();
      double target = kind.target();
      AcidDose estimate =
          AcidDose.of(kind.blend())
              .to(target)
              .with(kind.titrant())
              .startingAt(shown)
              .forBatch(Mass.grams(BATCH_G));
      double next = whole(0.5 * estimate.total().inGrams());
      double so = 0;
      double before = shown;
      double protonsBefore = 0;
      while (shown > target + 0.1 && doses < MOST_DOSES) {
        add(kind.titrant(), next);
        so += next;
        double now = read();
        double protons = so * protonsPerGram(now);
        double slope = (protons - protonsBefore) / Math.max(0.02, before - now);
        double all = (protons + slope * (now - target)) / protonsPerGram(target);
        next = whole(Math.max(SCALE_G, 0.7 * (all - so)));
        before = now;
        protonsBefore = protons;
        shown = now;
      }
      done(doses < MOST_DOSES);
    }

    private double protonsPerGram(double at) {
      return -kind.titrant().chargeEqPerKg(AT, at, 0.1);
    }

    private static double whole(double grams) {
      return Math.max(SCALE_G, Math.floor(grams / SCALE_G + 1e-9) * SCALE_G);
    }
  }

  /** A blend of true lots, worked out from their drawn figures without the library's curves. */
  static final class Truth {
    private final List<AcidBase> acids = new ArrayList<>();
    private final List<Double> amounts = new ArrayList<>();
    private final BlendCharge typical;
    private final double strong;

    Truth(Bench.Place place, Stress stress, SplittableRandom random) {
      typical = place.typical;
      double sum = 0;
      for (BlendLine line : place.kind.blend().lines()) {
        sum += line.massFraction() * add(line.material(), line.massFraction(), stress, random);
      }
      if (stress.undeclared() > 0) {
        // A buffer nobody declared, half neutralised in the drum, anywhere from pKa 4.5 to 8.5.
        double amount = stress.undeclared() * random.nextDouble() * 1e-3;
        acids.add(AcidBase.acid("undeclared", 4.5 + 4 * random.nextDouble()).asApparent());
        amounts.add(amount);
        sum += amount / 2;
      }
      strong = sum;
    }

    private double add(Material m, double w, Stress stress, SplittableRandom random) {
      List<AcidBase> own = new ArrayList<>();
      List<Double> much = new ArrayList<>();
      for (AcidBaseGroup g : m.groups()) {
        Range pKa = g.pKa();
        AcidBase acid = g.acid();
        if (pKa != null) {
          double sign = stress.pKaOff() == 0 ? 0 : random.nextBoolean() ? 1 : -1;
          acid = acid.withPka(0, draw(pKa, stress.lots(), random) + sign * stress.pKaOff());
        }
        double amount =
            stress.lots() == Lots.LEAN
                ? g.amount().low() + 0.15 * g.amount().width() * random.nextDouble()
                : draw(g.amount(), stress.lots(), random);
        own.add(acid);
        much.add(amount);
        acids.add(acid);
        amounts.add(amount * w);
      }
      double permanent = m.family().permanentCharge() * m.activeMolPerKg().typical();
      SheetPh sheet = m.sheetPh().orElse(null);
      if (m.strongIonEqPerKg().isPresent() || sheet == null) {
        return permanent
            + m.strongIonEqPerKg().map(r -> draw(r, stress.lots(), random)).orElse(0.0);
      }
      double at = draw(sheet.effective(), stress.lots(), random);
      double water =
          Math.max(0.01, m.waterPercent().typical() / 100 + 100 / sheet.dilutionPercent() - 1);
      double salt = m.saltPercent().typical() * 10 / 58.44;
      double ionicStrength = 0;
      double charge = 0;
      for (int pass = 0; pass < 30; pass++) {
        charge = -water * (AT.h(at, ionicStrength) - AT.oh(at, ionicStrength));
        double ions = salt;
        for (int i = 0; i < own.size(); i++) {
          charge -= much.get(i) * AT.meanCharge(own.get(i), at, ionicStrength);
          if (!m.groups().get(i).onActive()) {
            ions += much.get(i) * AT.meanSquareCharge(own.get(i), at, ionicStrength) / 2;
          }
        }
        ionicStrength = (ions + Math.abs(charge - permanent) / 2) / water;
      }
      return charge;
    }

    private static double draw(Range r, Lots lots, SplittableRandom random) {
      double u = random.nextDouble();
      if (r.isExact()) {
        return r.typical();
      }
      if (lots == Lots.ENDS) {
        return u < 0.5 ? r.low() : r.high();
      }
      if (lots == Lots.ANYWHERE) {
        return r.low() + u * r.width();
      }
      double split = (r.typical() - r.low()) / r.width();
      return u < split
          ? r.low() + Math.sqrt(u * r.width() * (r.typical() - r.low()))
          : r.high() - Math.sqrt((1 - u) * r.width() * (r.high() - r.typical()));
    }

    double ph(List<BlendCharge.Addition> additions, double near) {
      double water = typical.waterKgPerKg();
      double charge = strong;
      for (BlendCharge.Addition a : additions) {
        water += a.kgPerKg() * a.titrant().waterKgPerKg();
        charge += a.kgPerKg() * a.titrant().strongChargeEqPerKg();
      }
      double ph = near;
      for (int pass = 0; pass < 3; pass++) {
        double ions = 0;
        double ionicStrength = typical.ionicStrength(ph);
        for (BlendCharge.Addition a : additions) {
          ions += a.kgPerKg() * a.titrant().ionsMolPerKg(AT, ph, ionicStrength);
        }
        ChargeBalance.Builder b =
            ChargeBalance.at(AT, ionicStrength + ions / water).water(water).strongCharge(charge);
        for (int i = 0; i < acids.size(); i++) {
          b.add(acids.get(i), amounts.get(i));
        }
        for (BlendCharge.Addition a : additions) {
          a.titrant().addGroups(b, a.kgPerKg());
        }
        ph = b.build().phNear(ph);
      }
      return ph;
    }
  }
}
