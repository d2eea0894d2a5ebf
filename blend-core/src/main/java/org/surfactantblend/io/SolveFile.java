package org.surfactantblend.io;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.BiConsumer;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.mildness.IrritationIndex;
import org.surfactantblend.mildness.MixingCredit;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.problem.ProblemsException;
import org.surfactantblend.quantity.PhWindow;
import org.surfactantblend.solve.BlendResult;
import org.surfactantblend.solve.ConflictPart;
import org.surfactantblend.solve.NoBlend;
import org.surfactantblend.solve.RequirementReport;
import org.surfactantblend.solve.SolvedBlend;

/**
 * A brief as JSON in, an answer as JSON out: the boundary for tools that are not written in Java.
 *
 * <p>A request is one object:
 *
 * <table>
 * <caption>Fields of a request; all but version, name and totalActive may be left out</caption>
 * <tr><th>field</th><th>value</th></tr>
 * <tr><td>version</td><td>1</td></tr>
 * <tr><td>name</td><td>what to call the product</td></tr>
 * <tr><td>totalActive</td><td>{percent, tolerance} [% active of the product]</td></tr>
 * <tr><td>shares</td><td>by charge class {low, high} [% of the active]</td></tr>
 * <tr><td>sharesOfMaterials</td><td>by material id {low, high} [% of the active]</td></tr>
 * <tr><td>startingPh, startingPhOfSurfactants</td><td>{low, high}</td></tr>
 * <tr><td>asSupplied</td><td>by material id {low, high} [% m/m as supplied]</td></tr>
 * <tr><td>salt</td><td>{low, high} [% m/m]</td></tr>
 * <tr><td>netAnionicCharge</td><td>{low, high, atPh} [mmol/kg of product]</td></tr>
 * <tr><td>netAnionicChargeShare</td><td>{low, high, atPh} [mol charge per 100 mol of surfactant]</td></tr>
 * <tr><td>irritationIndexAtMost, blendedIndexAtMost</td><td>a number [sodium lauryl sulfate = 100]</td></tr>
 * <tr><td>mixingCredit</td><td>{perChargeVariance, atPh}, or {pairs} as a list of {first, second,
 *     credit} with material ids or charge classes [sodium lauryl sulfate = 100]; what the blended
 *     index needs</td></tr>
 * <tr><td>costAtMost</td><td>a number [currency per kg of product]</td></tr>
 * <tr><td>fixed</td><td>amounts by material id [% m/m as supplied]</td></tr>
 * <tr><td>choosingFrom, leavingOut, mustUse</td><td>lists of material ids</td></tr>
 * <tr><td>atMostSurfactants, exactlySurfactants</td><td>a whole number</td></tr>
 * <tr><td>atMostOfClass</td><td>whole numbers by charge class</td></tr>
 * <tr><td>minimumUse</td><td>a number [% m/m as supplied]</td></tr>
 * <tr><td>notTogether, onlyIf</td><td>lists of pairs of material ids</td></tr>
 * <tr><td>lots</td><td>typical or every-lot</td></tr>
 * <tr><td>wish</td><td>least-surfactant, cheapest, least-anionic-share, mildest or mildest-blended</td></tr>
 * <tr><td>nearestToShares</td><td>wanted shares by charge class [% of the active]</td></tr>
 * <tr><td>clashGuardOff</td><td>the reason</td></tr>
 * <tr><td>water</td><td>the id of what fills up to 100 %</td></tr>
 * </table>
 *
 * <p>Unknown fields are reported and not read. No path in the data is ever opened.
 */
public final class SolveFile {
  /** The version of requests and answers. */
  public static final int VERSION = 1;

  private SolveFile() {}

  /**
   * Reads a brief.
   *
   * @param input the JSON text
   * @return the brief, empty when it could not be used, and every problem
   * @throws NullPointerException if the input is null
   */
  public static Loaded<Optional<Brief>> readBrief(Input input) {
    ProblemLog log = new ProblemLog();
    JsonNode root = JsonDocument.parse(Objects.requireNonNull(input, "input"), log);
    if (root == null) {
      return new Loaded<>(Optional.empty(), log.problems());
    }
    Brief brief = new Reading(input.name(), log).brief(root);
    List<Problem> problems = log.problems();
    return new Loaded<>(
        brief == null || problems.stream().anyMatch(Problem::isError)
            ? Optional.empty()
            : Optional.of(brief),
        problems);
  }

  private static final class Reading {
    private final String source;
    private final ProblemLog log;

    Reading(String source, ProblemLog log) {
      this.source = source;
      this.log = log;
    }

    @Nullable Brief brief(JsonNode root) {
      if (!root.isObject()) {
        type("$", root, "an object");
        return null;
      }
      JsonNode version = root.path("version");
      if (!version.isIntegralNumber() || version.asLong() != VERSION) {
        error(
            version.isMissingNode() ? ProblemCodes.MISSING_VALUE : ProblemCodes.CHOICE,
            "$.version",
            version.isMissingNode() ? "nothing" : Row.quoted(version.toString()),
            "the number 1",
            "add \"version\": 1");
      }
      String name = text("$.name", root.path("name"));
      if (name == null) {
        return null;
      }
      Brief.Builder b = Brief.named(name);
      for (Map.Entry<String, JsonNode> e : root.properties()) {
        field(b, e.getKey(), "$." + e.getKey(), e.getValue());
      }
      try {
        return b.build();
      } catch (ProblemsException e) {
        e.problems()
            .forEach(
                p ->
                    log.add(
                        new Problem(
                            p.code(),
                            p.severity(),
                            Place.in(source, "$ " + p.place().field()),
                            p.found(),
                            p.allowed(),
                            p.advice())));
        return null;
      }
    }

    private void field(Brief.Builder b, String field, String path, JsonNode v) {
      switch (field) {
        case "version", "name" -> {
          // Read before the builder existed.
        }
        case "totalActive" -> {
          fields(path, v, "percent", "tolerance");
          double percent = number(path + ".percent", v.path("percent"), 0, 100);
          double tolerance =
              v.has("tolerance") ? number(path + ".tolerance", v.path("tolerance"), 0, 100) : 0;
          take(path, () -> b.totalActive(percent, tolerance), percent, tolerance);
        }
        case "shares" ->
            eachClass(
                path, v, (c, p) -> ends(p, v.path(c.label()), 100, (l, h) -> b.share(c, l, h)));
        case "sharesOfMaterials" ->
            each(path, v, (id, n) -> ends(path + "." + id, n, 100, (l, h) -> b.shareOf(id, l, h)));
        case "startingPh" -> ends(path, v, 14, b::startingPh);
        case "startingPhOfSurfactants" -> ends(path, v, 14, b::startingPhOfSurfactants);
        case "asSupplied" ->
            each(
                path,
                v,
                (id, n) -> ends(path + "." + id, n, 100, (l, h) -> b.asSupplied(id, l, h)));
        case "salt" -> ends(path, v, 100, b::salt);
        case "netAnionicCharge" -> {
          fields(path, v, "low", "high", "atPh");
          double low = number(path + ".low", v.path("low"), -1e5, 1e5);
          double high = number(path + ".high", v.path("high"), -1e5, 1e5);
          double at = number(path + ".atPh", v.path("atPh"), 0, 14);
          take(path, () -> b.netAnionicCharge(low, high, at), low, high, at);
        }
        case "netAnionicChargeShare" -> {
          fields(path, v, "low", "high", "atPh");
          double low = v.has("low") ? number(path + ".low", v.path("low"), 0, 400) : 0;
          double high = v.has("high") ? number(path + ".high", v.path("high"), 0, 400) : 400;
          double at = number(path + ".atPh", v.path("atPh"), 0, 14);
          take(path, () -> b.netAnionicChargeShare(low, high, at), low, high, at);
        }
        case "irritationIndexAtMost" -> {
          double most = number(path, v, 0, 200);
          take(path, () -> b.irritationIndexAtMost(most), most);
        }
        case "blendedIndexAtMost" -> {
          double most = number(path, v, 0, 200);
          take(path, () -> b.blendedIndexAtMost(most), most);
        }
        case "mixingCredit" -> mixingCredit(b, path, v);
        case "costAtMost" -> {
          double most = number(path, v, 0, 1e12);
          take(path, () -> b.costAtMost(most), most);
        }
        case "fixed" ->
            each(
                path,
                v,
                (id, n) -> {
                  double amount = number(path + "." + id, n, 0, 100);
                  take(path + "." + id, () -> b.fixed(id, amount), amount);
                });
        case "choosingFrom" -> names(path, v).forEach(b::choosingFrom);
        case "leavingOut" -> names(path, v).forEach(b::leavingOut);
        case "mustUse" -> names(path, v).forEach(b::mustUse);
        case "atMostSurfactants" -> count(path, v, b::atMostSurfactants);
        case "exactlySurfactants" -> count(path, v, b::exactlySurfactants);
        case "atMostOfClass" ->
            eachClass(path, v, (c, p) -> count(p, v.path(c.label()), n -> b.atMostOfClass(c, n)));
        case "minimumUse" -> {
          double least = number(path, v, 0, 50);
          take(path, () -> b.minimumUse(least), least);
        }
        case "notTogether" -> pairs(path, v, b::notTogether);
        case "onlyIf" -> pairs(path, v, b::onlyIf);
        case "lots" -> {
          String word = choice(path, v, "typical", "every-lot");
          if (word.equals("every-lot")) {
            b.everyLotWithinSpecification();
          }
        }
        case "wish" -> {
          switch (choice(
              path,
              v,
              "least-surfactant",
              "cheapest",
              "least-anionic-share",
              "mildest",
              "mildest-blended")) {
            case "mildest" -> b.mildest();
            case "mildest-blended" -> b.mildestBlended();
            case "cheapest" -> b.cheapest();
            case "least-anionic-share" -> b.leastAnionicShare();
            default -> {
              // The least surfactant is the builder's own default.
            }
          }
        }
        case "nearestToShares" -> {
          Map<ChargeClass, Double> wanted = new EnumMap<>(ChargeClass.class);
          eachClass(path, v, (c, p) -> wanted.put(c, number(p, v.path(c.label()), 0, 100)));
          if (!wanted.isEmpty() && wanted.values().stream().noneMatch(d -> d.isNaN())) {
            b.nearestToShares(wanted);
          }
        }
        case "clashGuardOff" -> {
          String reason = text(path, v);
          if (reason != null) {
            b.withoutClashGuard(reason);
          }
        }
        case "water" -> {
          String id = text(path, v);
          if (id != null) {
            b.fillingUpWith(id);
          }
        }
        default ->
            log.add(
                Problem.warning(
                    ProblemCodes.UNKNOWN_COLUMN,
                    Place.in(source, path),
                    "the field " + Row.quoted(field),
                    "a field of a request",
                    Nearest.to(field, FIELDS)));
      }
    }

    private void mixingCredit(Brief.Builder b, String path, JsonNode v) {
      if (!v.has("pairs")) {
        fields(path, v, "perChargeVariance", "atPh");
        double k = number(path + ".perChargeVariance", v.path("perChargeVariance"), 0, 1000);
        double at = number(path + ".atPh", v.path("atPh"), 0, 14);
        take(path, () -> b.mixingCredit(MixingCredit.ofChargeVariance(k, at)), k, at);
        return;
      }
      fields(path, v, "pairs");
      JsonNode pairs = v.path("pairs");
      if (!pairs.isArray() || pairs.isEmpty()) {
        type(path + ".pairs", pairs, "a list of {first, second, credit}");
        return;
      }
      MixingCredit credit = null;
      for (int i = 0; i < pairs.size(); i++) {
        String here = path + ".pairs[" + i + "]";
        JsonNode pair = pairs.get(i);
        fields(here, pair, "first", "second", "credit");
        String first = text(here + ".first", pair.path("first"));
        String second = text(here + ".second", pair.path("second"));
        double size = number(here + ".credit", pair.path("credit"), -100_000, 0);
        if (first == null || second == null || Double.isNaN(size)) {
          return;
        }
        credit =
            credit == null
                ? MixingCredit.ofPair(first, second, size)
                : credit.andPair(first, second, size);
      }
      if (credit != null) {
        b.mixingCredit(credit);
      }
    }

    private void each(String path, JsonNode v, BiConsumer<String, JsonNode> use) {
      if (!v.isObject()) {
        type(path, v, "an object");
        return;
      }
      for (Map.Entry<String, JsonNode> e : v.properties()) {
        if (e.getKey().isBlank()) {
          error(ProblemCodes.MISSING_VALUE, path, "a blank name", "a material id", "");
        } else {
          use.accept(e.getKey().strip(), e.getValue());
        }
      }
    }

    private void eachClass(String path, JsonNode v, BiConsumer<ChargeClass, String> use) {
      each(
          path,
          v,
          (word, n) -> {
            Optional<ChargeClass> c = ChargeClass.parse(word);
            if (c.isEmpty() || !c.get().label().equals(word)) {
              error(
                  ProblemCodes.UNKNOWN_CLASS,
                  path + "." + word,
                  Row.quoted(word),
                  "anionic, amphoteric, nonionic or cationic",
                  Nearest.to(word, List.of("anionic", "amphoteric", "nonionic", "cationic")));
            } else {
              use.accept(c.get(), path + "." + word);
            }
          });
    }

    private interface Ends {
      Brief.Builder use(double low, double high);
    }

    private void ends(String path, JsonNode v, double most, Ends use) {
      fields(path, v, "low", "high");
      double low = v.has("low") ? number(path + ".low", v.path("low"), 0, most) : 0;
      double high = v.has("high") ? number(path + ".high", v.path("high"), 0, most) : most;
      if (low > high) {
        error(
            ProblemCodes.RANGE_ORDER,
            path,
            "low " + low + " above high " + high,
            "low not above high",
            "swap the two");
        return;
      }
      take(path, () -> use.use(low, high), low, high);
    }

    private void take(String path, Runnable use, double... figures) {
      for (double f : figures) {
        if (Double.isNaN(f)) {
          return;
        }
      }
      try {
        use.run();
      } catch (IllegalArgumentException e) {
        error(
            ProblemCodes.NUMBER_RANGE,
            path,
            String.valueOf(e.getMessage()),
            "a figure inside that range",
            "");
      }
    }

    private double number(String path, JsonNode v, double least, double most) {
      if (v.isMissingNode() || v.isNull()) {
        error(ProblemCodes.MISSING_VALUE, path, "nothing", "a number", "");
        return Double.NaN;
      }
      if (!v.isNumber()) {
        error(
            v.isTextual() ? ProblemCodes.NUMBER_FORMAT : ProblemCodes.JSON_TYPE,
            path,
            Row.quoted(v.toString()),
            "a number without quotation marks",
            "");
        return Double.NaN;
      }
      double d = v.asDouble();
      if (!(d >= least && d <= most)) {
        error(ProblemCodes.NUMBER_RANGE, path, v.toString(), least + " to " + most, "");
        return Double.NaN;
      }
      return d;
    }

    private void count(String path, JsonNode v, java.util.function.IntConsumer use) {
      if (!v.isIntegralNumber() || v.asLong() < 0 || v.asLong() > 20) {
        error(
            ProblemCodes.NUMBER_RANGE,
            path,
            Row.quoted(v.toString()),
            "a whole number up to 20",
            "");
        return;
      }
      int n = v.asInt();
      take(path, () -> use.accept(n));
    }

    private @Nullable String text(String path, JsonNode v) {
      if (!v.isTextual() || v.asText().isBlank()) {
        error(
            v.isMissingNode() ? ProblemCodes.MISSING_VALUE : ProblemCodes.JSON_TYPE,
            path,
            v.isMissingNode() ? "nothing" : Row.quoted(v.toString()),
            "a text",
            "");
        return null;
      }
      return v.asText();
    }

    private String choice(String path, JsonNode v, String... words) {
      String word = v.asText("");
      if (!v.isTextual() || !List.of(words).contains(word)) {
        error(
            ProblemCodes.CHOICE,
            path,
            Row.quoted(v.toString()),
            String.join(", ", words),
            Nearest.to(word, List.of(words)));
        return "";
      }
      return word;
    }

    private List<String> names(String path, JsonNode v) {
      List<String> all = new ArrayList<>();
      if (!v.isArray()) {
        type(path, v, "a list of material ids");
        return all;
      }
      for (int i = 0; i < v.size(); i++) {
        String id = text(path + "[" + i + "]", v.get(i));
        if (id != null) {
          all.add(id);
        }
      }
      return all;
    }

    private void pairs(String path, JsonNode v, BiConsumer<String, String> use) {
      if (!v.isArray()) {
        type(path, v, "a list of pairs");
        return;
      }
      for (int i = 0; i < v.size(); i++) {
        List<String> pair = names(path + "[" + i + "]", v.get(i));
        if (pair.size() == 2) {
          use.accept(pair.get(0), pair.get(1));
        } else {
          error(
              ProblemCodes.JSON_TYPE,
              path + "[" + i + "]",
              pair.size() + " ids",
              "two material ids",
              "");
        }
      }
    }

    private void fields(String path, JsonNode v, String... known) {
      if (!v.isObject()) {
        type(path, v, "an object with " + String.join(", ", known));
        return;
      }
      for (Map.Entry<String, JsonNode> e : v.properties()) {
        if (!List.of(known).contains(e.getKey())) {
          log.add(
              Problem.warning(
                  ProblemCodes.UNKNOWN_COLUMN,
                  Place.in(source, path + "." + e.getKey()),
                  "the field " + Row.quoted(e.getKey()),
                  String.join(", ", known),
                  Nearest.to(e.getKey(), List.of(known))));
        }
      }
    }

    private void type(String path, JsonNode v, String allowed) {
      error(ProblemCodes.JSON_TYPE, path, JsonDocument.kind(v), allowed, "");
    }

    private void error(String code, String path, String found, String allowed, String advice) {
      log.add(Problem.error(code, Place.in(source, path), found, allowed, advice));
    }
  }

  private static final List<String> FIELDS =
      List.of(
          "version",
          "name",
          "totalActive",
          "shares",
          "sharesOfMaterials",
          "startingPh",
          "startingPhOfSurfactants",
          "asSupplied",
          "salt",
          "netAnionicCharge",
          "netAnionicChargeShare",
          "irritationIndexAtMost",
          "blendedIndexAtMost",
          "mixingCredit",
          "costAtMost",
          "fixed",
          "choosingFrom",
          "leavingOut",
          "mustUse",
          "atMostSurfactants",
          "exactlySurfactants",
          "atMostOfClass",
          "minimumUse",
          "notTogether",
          "onlyIf",
          "lots",
          "wish",
          "nearestToShares",
          "clashGuardOff",
          "water");

  /**
   * Writes an answer.
   *
   * @param result the answer
   * @param table the table it was found in, for its prices
   * @return the JSON text, with line feeds
   * @throws NullPointerException if an argument is null
   */
  public static String writeResult(BlendResult result, MaterialTable table) {
    ObjectNode root = JsonDocument.object().put("version", VERSION);
    root.put("name", result.brief().name());
    root.put("solved", result.isSolved());
    result.<ObjectNode>fold(s -> solved(root, s, table), n -> unsolved(root, n));
    return JsonDocument.write(root);
  }

  private static ObjectNode solved(ObjectNode root, SolvedBlend s, MaterialTable table) {
    Blend blend = s.blend();
    ArrayNode lines = root.putArray("lines");
    for (BlendLine l : blend.lines()) {
      ObjectNode line = lines.addObject().put("material", l.material().id());
      line.put("asSuppliedPercent", JsonDocument.number(l.amount().value()));
      if (l.material().isSurfactant()) {
        line.put(
            "activePercentOfProduct",
            JsonDocument.number(l.amount().value() * l.material().activePercent().typical() / 100));
        line.put(
            "shareOfActivePercent",
            JsonDocument.number(blend.shareOfMaterial(l.material().id()).value()));
      }
    }
    root.set("totalActivePercent", JsonDocument.range(blend.totalActiveRange()));
    ObjectNode shares = root.putObject("sharesOfActivePercent");
    for (ChargeClass c : ChargeClass.values()) {
      shares.set(c.label(), JsonDocument.range(blend.shareRange(c)));
    }
    root.put("waterPercent", JsonDocument.number(blend.waterPercent()));
    root.set("sodiumChloridePercent", JsonDocument.range(blend.saltPercent()));
    root.set("irritationIndex", index(s.irritationIndex()));
    StartingPh ph = s.startingPh();
    ObjectNode start = root.putObject("startingPh");
    start.put("typical", JsonDocument.number(ph.typical()));
    start.set("likely", window(ph.likely()));
    start.set("guaranteed", window(ph.guaranteed()));
    start.put("causeOfSpread", ph.causeInWords());
    s.costPerKg()
        .ifPresent(
            cost -> {
              ObjectNode price = root.putObject("cost").put("currency", table.prices().currency());
              price.put("perKg", JsonDocument.number(cost));
              s.costPerKgActive().ifPresent(a -> price.put("perKgActive", JsonDocument.number(a)));
            });
    ArrayNode requirements = root.putArray("requirements");
    for (RequirementReport r : s.reports()) {
      ObjectNode one = requirements.addObject().put("asked", r.requirement().toString());
      one.set("reached", JsonDocument.range(r.reached()));
      one.put("bindsBelow", r.bindingLow());
      one.put("bindsAbove", r.bindingHigh());
      r.gainPerPoint().ifPresent(g -> one.put("onePointBuys", JsonDocument.number(g)));
    }
    root.putObject("wish")
        .put("aim", s.brief().wish().toString())
        .put("reached", JsonDocument.number(s.wishValue()));
    ArrayNode notes = root.putArray("notes");
    if (s.irritationIndex().range().isPresent()) {
      notes.add("irritation index: " + IrritationIndex.BASIS);
    }
    withoutFigures(notes, s.leftOutWithoutFigures());
    s.excludedByGuard().forEach(c -> notes.add("left out by the clash guard: " + c));
    s.brief().guardOffReason().ifPresent(r -> notes.add("the clash guard is off: " + r));
    ph.caveats().forEach(notes::add);
    notes.add("a prediction from tables: measure before you correct or release");
    return root;
  }

  private static ObjectNode index(IrritationIndex index) {
    ObjectNode node = JsonDocument.object();
    if (index.range().isPresent()) {
      node = JsonDocument.range(index.range().get());
    }
    node.put("given", index.range().isPresent());
    if (index.weakestEvidence().isPresent()) {
      node.put("weakestEvidence", index.weakestEvidence().get().label());
    }
    ArrayNode missing = node.putArray("withoutScore");
    index.withoutScore().forEach(missing::add);
    return node;
  }

  private static void withoutFigures(ArrayNode notes, List<String> ids) {
    if (!ids.isEmpty()) {
      notes.add("left out, without irritation score or molar mass: " + String.join(", ", ids));
    }
  }

  private static ObjectNode window(PhWindow w) {
    return JsonDocument.object()
        .put("low", JsonDocument.number(w.low()))
        .put("high", JsonDocument.number(w.high()));
  }

  private static ObjectNode unsolved(ObjectNode root, NoBlend n) {
    ArrayNode parts = root.putArray("conflict");
    for (ConflictPart p : n.conflict()) {
      ObjectNode part = parts.addObject().put("demand", p.demand());
      part.put("enoughAlone", p.isEnoughAlone()).put("change", p.change());
      p.enoughAt().ifPresent(v -> part.put("enoughAt", JsonDocument.number(v)));
    }
    ArrayNode notes = root.putArray("notes");
    withoutFigures(notes, n.leftOutWithoutFigures());
    n.excludedByGuard().forEach(c -> notes.add("left out by the clash guard: " + c));
    return root;
  }

  /**
   * Writes problems, as the answer to a request that could not be used.
   *
   * @param problems the problems
   * @return the JSON text, with line feeds
   * @throws NullPointerException if the list is null
   */
  public static String writeProblems(List<Problem> problems) {
    ObjectNode root = JsonDocument.object().put("version", VERSION);
    ArrayNode list = root.putArray("problems");
    for (Problem p : problems) {
      ObjectNode one = list.addObject().put("code", p.code());
      one.put("severity", p.isError() ? "error" : "warning");
      one.put("source", p.place().source());
      if (p.place().row() > 0) {
        one.put("row", p.place().row());
      }
      one.put("place", p.place().field());
      one.put("found", p.found()).put("allowed", p.allowed()).put("advice", p.advice());
    }
    return JsonDocument.write(root);
  }
}
