package org.surfactantblend.io;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.acidity.AcidDose;
import org.surfactantblend.acidity.DosingRules;
import org.surfactantblend.acidity.Meter;
import org.surfactantblend.acidity.NextDose;
import org.surfactantblend.acidity.OvershootRepair;
import org.surfactantblend.acidity.PhReading;
import org.surfactantblend.acidity.ReadingFlag;
import org.surfactantblend.acidity.Titrant;
import org.surfactantblend.acidity.Titration;
import org.surfactantblend.acidity.TitrationStep;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.quantity.Scale;

/**
 * A titration as JSON: saved between two readings, resumed from where it stood, and asked for the
 * next dose.
 *
 * <table>
 * <caption>Fields of a document of the kind {@code titration}, beside those of {@link
 * DoseFile}</caption>
 * <tr><th>field</th><th>value</th></tr>
 * <tr><td>meterAccuracy</td><td>the standard deviation of one reading [pH], 0.001 to 1</td></tr>
 * <tr><td>rules</td><td>{tolerance, risk, scale, newLots}, with scale {resolutionGrams, capacityGrams}; the usual ones for whatever is left out</td></tr>
 * <tr><td>steps</td><td>a list of what was done, each {reading, temperatureC, dilutionPercent}, {dosedGrams, titrant} or {freshProductGrams}; a dose without titrant is of the one in use</td></tr>
 * <tr><td>titrantInUse</td><td>what is dosed from now on; the last one when left out</td></tr>
 * </table>
 *
 * <p>The answer of the kind {@code titration-answer} says what to do next. A saved titration brings
 * its materials and resumes to the same figures, to the last bit.
 */
public final class TitrationFile {
  private static final int MOST_STEPS = 1000;
  private static final double MOST_GRAMS = 1e9;

  /** What to do as long as the titration goes as it should. */
  private static final List<NextDose.Action> MET =
      List.of(
          NextDose.Action.DOSE,
          NextDose.Action.READ,
          NextDose.Action.READ_AGAIN,
          NextDose.Action.FINISHED);

  static final Question<Titration, Titration> QUESTION =
      new Question<>(
          "titration",
          TitrationFile::read,
          t -> t,
          TitrationFile::answer,
          t -> MET.contains(t.next().action()));

  private TitrationFile() {}

  /**
   * Resumes a titration.
   *
   * @param input the JSON text
   * @param table what there is, beside what the document brings
   * @return the titration, empty when the document could not be used, and every problem
   * @throws NullPointerException if an argument is null
   */
  public static Loaded<Optional<Titration>> read(Input input, MaterialTable table) {
    return QUESTION.read(input, table);
  }

  /**
   * Saves a titration with every material that is not in a table.
   *
   * @param titration the titration
   * @param table the table that the reader will have
   * @return the JSON text, with line feeds
   * @throws NullPointerException if an argument is null
   * @throws IllegalArgumentException if it does not run under the usual activity term, or two
   *     different materials have the same id and lot
   */
  public static String save(Titration titration, MaterialTable table) {
    AcidDose.Plan plan = titration.dose().plan();
    Conditions usual = Conditions.standard().withTemperature(plan.conditions().temperatureC());
    if (!usual.equals(plan.conditions())) {
      throw new IllegalArgumentException(
          "conditions were " + plan.conditions() + ", allowed is the usual activity term");
    }
    ObjectNode root = Question.document("titration");
    RecipeFile.put(root, plan.blend(), table);
    root.put("batchGrams", JsonDocument.number(titration.dose().batch().inGrams()));
    root.put("targetPh", JsonDocument.number(plan.target()));
    root.set("titrant", Titrants.inFull(plan.titrant(), table));
    plan.measuredStart().ifPresent(p -> root.put("measuredPh", JsonDocument.number(p)));
    root.put("temperatureC", JsonDocument.number(plan.conditions().temperatureC()));
    root.put("meterAccuracy", JsonDocument.number(titration.meter().accuracy()));
    DosingRules rules = titration.rules();
    ObjectNode said = root.putObject("rules");
    said.put("tolerance", JsonDocument.number(rules.tolerance()));
    said.put("risk", JsonDocument.number(rules.risk()));
    said.set("scale", BatchSheetFile.scale(rules.scale()));
    said.put("newLots", rules.newLots());
    ArrayNode steps = root.putArray("steps");
    Titrant inUse = plan.titrant();
    for (TitrationStep step : titration.steps()) {
      ObjectNode one = steps.addObject();
      if (step instanceof PhReading r) {
        one.put("reading", JsonDocument.number(r.ph()));
        one.put("temperatureC", JsonDocument.number(r.temperatureC()));
        one.put("dilutionPercent", JsonDocument.number(r.dilutionPercent()));
      } else if (step instanceof TitrationStep.Dosed d) {
        one.put("dosedGrams", JsonDocument.number(d.grams()));
        if (!d.titrant().equals(inUse)) {
          inUse = d.titrant();
          one.set("titrant", Titrants.inFull(inUse, table));
        }
      } else if (step instanceof TitrationStep.FreshProduct f) {
        one.put("freshProductGrams", JsonDocument.number(f.grams()));
      }
    }
    if (!titration.titrant().equals(inUse)) {
      root.set("titrantInUse", Titrants.inFull(titration.titrant(), table));
    }
    return JsonDocument.write(root);
  }

  /**
   * Writes what to do next.
   *
   * @param titration the titration
   * @return the JSON text, with line feeds
   * @throws NullPointerException if the argument is null
   */
  public static String write(Titration titration) {
    return QUESTION.write(Objects.requireNonNull(titration, "titration"), List.of());
  }

  /** One step, whose titrant is null when it is the one in use or when nothing was dosed. */
  private record Step(@Nullable TitrationStep done, double dosedGrams) {}

  private static @Nullable Titration read(JsonPart document, Shelf shelf) {
    AcidDose dose = DoseFile.read(document, shelf);
    double accuracy = document.number("meterAccuracy", 0.001, 1, "pH");
    DosingRules rules = rules(document.part("rules", false));
    List<Step> steps = document.list("steps", false, MOST_STEPS, p -> step(p, shelf));
    Titrant inUse =
        document.has("titrantInUse") ? Titrants.read(document, "titrantInUse", shelf) : null;
    if (dose == null || rules == null) {
      return null;
    }
    return document.made(
        () -> {
          Titration t = dose.begin(Meter.accurateTo(accuracy), rules);
          for (Step s : steps) {
            t = s.done == null ? t.dosed(s.dosedGrams) : t.step(s.done);
          }
          return inUse == null ? t : t.with(inUse);
        });
  }

  private static @Nullable DosingRules rules(@Nullable JsonPart r) {
    DosingRules usual = DosingRules.usual();
    if (r == null) {
      return usual;
    }
    double tolerance = r.numberOr("tolerance", 0.02, 1, "pH", usual.tolerance());
    double risk = r.numberOr("risk", 0.0001, 0.5, "", usual.risk());
    JsonPart scale = r.part("scale", false);
    Scale on = scale == null ? usual.scale() : BatchSheetFile.scale(scale);
    boolean newLots = r.yesNo("newLots", usual.newLots());
    r.done();
    return on == null ? null : r.made(() -> new DosingRules(tolerance, risk, on, newLots));
  }

  private static @Nullable Step step(JsonPart p, Shelf shelf) {
    long said =
        List.of("reading", "dosedGrams", "freshProductGrams").stream().filter(p::has).count();
    if (said != 1) {
      p.error(
          ProblemCodes.CHOICE,
          "",
          said == 0 ? "none of them" : said + " of them",
          "one of reading, dosedGrams and freshProductGrams",
          said == 0 ? "" : "make it a step of its own");
      if (said == 0) {
        p.done();
      }
      return null;
    }
    Step step = null;
    if (p.has("reading")) {
      double ph = p.number("reading", 0, 14, "pH");
      double celsius = p.numberOr("temperatureC", 0, 60, "C", PhReading.REFERENCE_C);
      double dilution = p.numberOr("dilutionPercent", 0.1, 100, "% m/m", 100);
      step = p.made(() -> new Step(new PhReading(ph, celsius, dilution), 0));
    } else if (p.has("dosedGrams")) {
      double grams = p.number("dosedGrams", 0, MOST_GRAMS, "g");
      Titrant titrant = p.has("titrant") ? Titrants.read(p, "titrant", shelf) : null;
      step =
          p.made(
              () ->
                  new Step(
                      titrant == null ? null : new TitrationStep.Dosed(titrant, grams), grams));
    } else {
      double grams = p.number("freshProductGrams", 0, MOST_GRAMS, "g");
      step = p.made(() -> new Step(new TitrationStep.FreshProduct(grams), 0));
    }
    p.done();
    return step;
  }

  /** The ways back: product held back, and the usual titrant of the opposite kind. */
  private static ObjectNode repair(OvershootRepair repair) {
    ObjectNode node = JsonDocument.object();
    node.put("surplusMeqPerKg", JsonDocument.number(repair.surplusMeqPerKg()));
    ArrayNode ways = node.putArray("ways");
    Titrant opposite =
        repair.surplusMeqPerKg() >= 0 ? Titrant.sodiumHydroxide(10) : Titrant.citricAcid(20);
    Stream.of(repair.withUnacidified(), repair.with(opposite))
        .flatMap(Optional::stream)
        .forEach(
            c -> {
              ObjectNode way = ways.addObject().put("add", c.what());
              way.put("grams", JsonDocument.number(c.mass().inGrams()));
              way.set("likelyGrams", JsonDocument.range(c.likelyGrams()));
              way.put("activePercentAfter", JsonDocument.number(c.activePercentAfter()));
              JsonDocument.texts(way, "cautions", c.cautions());
            });
    return node;
  }

  private static ObjectNode answer(Titration t) {
    NextDose next = t.next();
    ObjectNode node = JsonDocument.object().put("name", t.dose().plan().blend().name());
    node.put("action", JsonDocument.word(next.action()));
    node.put("titrant", next.titrant().name());
    node.put("doseGrams", JsonDocument.number(next.dose().inGrams()));
    node.put("reason", next.reason());
    node.put("phNow", JsonDocument.number(next.phNow()));
    node.set("likelyPhNow", JsonDocument.window(next.likelyPhNow()));
    node.put("expectedReading", JsonDocument.number(next.expectedReading()));
    node.set("likelyReading", JsonDocument.window(next.likelyReading()));
    node.set("remainingGrams", JsonDocument.range(next.remaining()));
    ArrayNode flags = node.putArray("flags");
    for (ReadingFlag f : t.flags()) {
      flags
          .addObject()
          .put("step", f.step() + 1)
          .put("kind", JsonDocument.word(f.kind()))
          .put("text", f.text())
          .put("held", f.held());
    }
    if (next.action() == NextDose.Action.OVERSHOT) {
      node.set("repair", repair(t.repair()));
    }
    JsonDocument.texts(node, "cautions", next.cautions());
    JsonDocument.texts(node, "assumptions", t.assumptions());
    return node;
  }
}
