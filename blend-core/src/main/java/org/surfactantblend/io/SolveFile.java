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
import java.util.function.Consumer;
import java.util.function.DoubleConsumer;
import java.util.function.IntConsumer;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.mildness.IrritationIndex;
import org.surfactantblend.mildness.MixingCredit;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.ProblemsException;
import org.surfactantblend.quantity.Text;
import org.surfactantblend.solve.BlendResult;
import org.surfactantblend.solve.BlendSolver;
import org.surfactantblend.solve.ConflictPart;
import org.surfactantblend.solve.NoBlend;
import org.surfactantblend.solve.RequirementReport;
import org.surfactantblend.solve.SolvedBlend;

/**
 * A brief and the blend for it as JSON.
 *
 * <table>
 * <caption>Fields of a brief, in a request of the kind {@code solve} and of the other kinds that
 * begin with one, beside those of {@link Requests}; all but
 * name and totalActive may be left out, and so may one end of each interval</caption>
 * <tr><th>field</th><th>value</th></tr>
 * <tr><td>name</td><td>what to call the product</td></tr>
 * <tr><td>totalActive</td><td>{percent, tolerance} [% active of the product]</td></tr>
 * <tr><td>shares</td><td>by charge class {low, high} [% of the active]</td></tr>
 * <tr><td>sharesOfMaterials</td><td>by material id {low, high} [% of the active]</td></tr>
 * <tr><td>startingPh, startingPhOfSurfactants</td><td>{low, high}</td></tr>
 * <tr><td>toReachPh</td><td>{ph, titrant, atMost} with a material id [% m/m as supplied of the final product]</td></tr>
 * <tr><td>asSupplied</td><td>by material id {low, high} [% m/m as supplied]</td></tr>
 * <tr><td>salt</td><td>{low, high} [% m/m]</td></tr>
 * <tr><td>netAnionicCharge</td><td>{low, high, atPh} [mmol/kg of product]</td></tr>
 * <tr><td>netAnionicChargeShare</td><td>{low, high, atPh} [mol charge per 100 mol of surfactant]; low or high may be left out</td></tr>
 * <tr><td>irritationIndexAtMost, blendedIndexAtMost</td><td>a number [sodium lauryl sulfate = 100]</td></tr>
 * <tr><td>mixingCredit</td><td>{perChargeVariance, atPh}, or {pairs} as a list of {first, second, credit} with material ids or charge classes [sodium lauryl sulfate = 100]; what the blended index needs</td></tr>
 * <tr><td>costAtMost</td><td>a number [currency per kg of product]</td></tr>
 * <tr><td>fixed</td><td>amounts by material id [% m/m as supplied]</td></tr>
 * <tr><td>choosingFrom, leavingOut, mustUse</td><td>lists of material ids</td></tr>
 * <tr><td>atMostSurfactants, exactlySurfactants</td><td>a whole number</td></tr>
 * <tr><td>atMostOfClass</td><td>whole numbers by charge class</td></tr>
 * <tr><td>minimumUse</td><td>a number [% m/m as supplied]</td></tr>
 * <tr><td>notTogether, onlyIf</td><td>lists of pairs of material ids</td></tr>
 * <tr><td>lots</td><td>typical or every-lot</td></tr>
 * <tr><td>wish</td><td>least-surfactant, cheapest, least-anionic-share, mildest or mildest-blended</td></tr>
 * <tr><td>nearestToShares</td><td>another wish: shares to come near to, by charge class [% of the active]</td></tr>
 * <tr><td>leastChangeFrom</td><td>another wish: a recipe to stay near to, as {@link RecipeFile} reads it</td></tr>
 * <tr><td>clashGuardOff</td><td>the reason</td></tr>
 * <tr><td>water</td><td>the id of what fills up to 100 %</td></tr>
 * <tr><td>temperatureC</td><td>0 to 60; 25 when left out</td></tr>
 * </table>
 *
 * <p>A lot that comes with the request stands in for its grade.
 */
public final class SolveFile {
  private static final int MOST_IDS = 1000;
  private static final double MOST_MMOL = 1e5;

  /** The charge classes as fields. */
  private static final List<String> CLASSES =
      Stream.of(ChargeClass.values()).map(ChargeClass::label).toList();

  private static final Map<String, Consumer<Brief.Builder>> WISHES =
      Map.of(
          "least-surfactant", b -> {},
          "cheapest", Brief.Builder::cheapest,
          "least-anionic-share", Brief.Builder::leastAnionicShare,
          "mildest", Brief.Builder::mildest,
          "mildest-blended", Brief.Builder::mildestBlended);

  static final Question<Request, Found> QUESTION =
      new Question<>(
          "solve",
          SolveFile::request,
          r -> new Found(BlendSolver.solve(r.brief, r.table), r.table),
          f -> answer(f.result, f.table),
          f -> f.result.isSolved());

  private SolveFile() {}

  /**
   * What a request asks.
   *
   * @param brief the brief
   * @param table the table with what the request brings; a lot stands in for its grade
   */
  public record Request(Brief brief, MaterialTable table) {
    /**
     * Checks that nothing is missing.
     *
     * @param brief the brief
     * @param table the table with what the request brings
     * @throws NullPointerException if an argument is null
     */
    public Request {
      Objects.requireNonNull(brief, "brief");
      Objects.requireNonNull(table, "table");
    }
  }

  private record Found(BlendResult result, MaterialTable table) {}

  /**
   * Reads a request.
   *
   * @param input the JSON text
   * @param table what there is, beside what the request brings
   * @return the brief and its table, empty when the request could not be used, and every problem
   * @throws NullPointerException if an argument is null
   */
  public static Loaded<Optional<Request>> read(Input input, MaterialTable table) {
    return QUESTION.read(input, table);
  }

  /** The brief of a request; the other questions about a brief begin with it. */
  static @Nullable Request request(JsonPart r, Shelf shelf) {
    String name = r.text("name");
    Brief.Builder b = Brief.named(name.isEmpty() ? "without a name" : name);
    JsonPart total = r.part("totalActive", true);
    if (total != null) {
      double percent = total.number("percent", 0, 100, "% active");
      double tolerance = total.numberOr("tolerance", 0, 100, "% active", 0);
      total.done();
      percent(total, "percent", percent);
      total.made(() -> b.totalActive(percent, tolerance));
    }
    eachClass(r, "shares", (c, p) -> share(p, c.label(), (l, h) -> b.share(c, l, h)));
    each(r, "sharesOfMaterials", (id, p) -> share(p, id, (l, h) -> b.shareOf(id, l, h)));
    ends(r, "startingPh", 14, b::startingPh);
    ends(r, "startingPhOfSurfactants", 14, b::startingPhOfSurfactants);
    JsonPart reserve = r.part("toReachPh", false);
    if (reserve != null) {
      double ph = reserve.number("ph", 0, 14, "");
      String titrant = reserve.text("titrant");
      double atMost = reserve.number("atMost", 0, 50, "% m/m as supplied");
      reserve.done();
      reserve.made(() -> b.toReachPh(ph, titrant, atMost));
    }
    each(r, "asSupplied", (id, p) -> ends(p, id, 100, (l, h) -> b.asSupplied(id, l, h)));
    ends(r, "salt", 100, b::salt);
    JsonPart charge = r.part("netAnionicCharge", false);
    if (charge != null) {
      double low = charge.number("low", -MOST_MMOL, MOST_MMOL, "mmol/kg");
      double high = charge.number("high", -MOST_MMOL, MOST_MMOL, "mmol/kg");
      double at = charge.number("atPh", 0, 14, "");
      charge.done();
      charge.made(() -> b.netAnionicCharge(low, high, at));
    }
    JsonPart charges = r.part("netAnionicChargeShare", false);
    if (charges != null) {
      double low = charges.numberOr("low", 0, 400, "mol/100 mol", 0);
      double high = charges.numberOr("high", 0, 400, "mol/100 mol", 400);
      double at = charges.number("atPh", 0, 14, "");
      charges.done();
      charges.made(() -> b.netAnionicChargeShare(low, high, at));
    }
    number(r, "irritationIndexAtMost", 200, "", b::irritationIndexAtMost);
    number(r, "blendedIndexAtMost", 200, "", b::blendedIndexAtMost);
    JsonPart credit = r.part("mixingCredit", false);
    if (credit != null) {
      mixingCredit(credit, b);
    }
    number(r, "costAtMost", 1e12, "per kg", b::costAtMost);
    each(r, "fixed", (id, p) -> number(p, id, 100, "% m/m as supplied", d -> b.fixed(id, d)));
    ids(r, shelf, "choosingFrom", b::choosingFrom);
    ids(r, shelf, "leavingOut", b::leavingOut);
    ids(r, shelf, "mustUse", b::mustUse);
    for (String named : List.of("fixed", "asSupplied", "sharesOfMaterials")) {
      each(r, named, (id, p) -> shelf.known(p, p.at(id), id));
    }
    count(r, "atMostSurfactants", 1, b::atMostSurfactants);
    count(r, "exactlySurfactants", 1, b::exactlySurfactants);
    eachClass(r, "atMostOfClass", (c, p) -> count(p, c.label(), 0, n -> b.atMostOfClass(c, n)));
    number(r, "minimumUse", 50, "% m/m as supplied", b::minimumUse);
    pairs(r, "notTogether", b::notTogether);
    pairs(r, "onlyIf", b::onlyIf);
    if (r.choiceOr("lots", List.of("typical", "every-lot"), "typical").equals("every-lot")) {
      b.everyLotWithinSpecification();
    }
    wish(r, shelf, b);
    if (r.has("clashGuardOff")) {
      String reason = r.text("clashGuardOff");
      r.tried(() -> b.withoutClashGuard(reason));
    }
    if (r.has("water")) {
      String id = r.text("water");
      r.tried(() -> b.fillingUpWith(id));
    }
    b.conditions(Shelf.conditions(r));
    MaterialTable table = shelf.tableOfLots(r);
    try {
      return new Request(b.build(), table);
    } catch (ProblemsException e) {
      e.problems().stream()
          .filter(p -> total != null || !p.code().equals("total-active-missing"))
          .forEach(p -> r.log().add(Question.moved(r, p)));
      return null;
    }
  }

  /** A list of ids, each known to the table. */
  private static void ids(JsonPart r, Shelf shelf, String field, Consumer<String> use) {
    JsonNode items = r.items(field, false, MOST_IDS, "texts");
    for (int i = 0; i < items.size(); i++) {
      if (items.get(i).isTextual()) {
        String id = items.get(i).asText().strip();
        if (!id.isEmpty()) {
          shelf.known(r, r.at(field) + "[" + i + "]", id);
        }
      }
    }
    r.texts(field, false, MOST_IDS).forEach(use);
  }

  private record PairCredit(JsonPart part, String first, String second, double credit) {}

  private static void mixingCredit(JsonPart c, Brief.Builder b) {
    if (!c.has("pairs")) {
      double k = c.number("perChargeVariance", 0, 1000, "");
      double at = c.number("atPh", 0, 14, "");
      c.done();
      c.made(() -> b.mixingCredit(MixingCredit.ofChargeVariance(k, at)));
      return;
    }
    MixingCredit all = null;
    for (PairCredit pair : c.list("pairs", true, MOST_IDS, SolveFile::pairCredit)) {
      MixingCredit before = all;
      all =
          pair.part.tried(
              () ->
                  before == null
                      ? MixingCredit.ofPair(pair.first, pair.second, pair.credit)
                      : before.andPair(pair.first, pair.second, pair.credit));
    }
    c.done();
    if (all != null) {
      b.mixingCredit(all);
    }
  }

  private static @Nullable PairCredit pairCredit(JsonPart p) {
    String first = p.text("first");
    String second = p.text("second");
    double credit = p.number("credit", -MOST_MMOL, 0, "");
    p.done();
    return p.made(() -> new PairCredit(p, first, second, credit));
  }

  private static void wish(JsonPart r, Shelf shelf, Brief.Builder b) {
    List<String> wishes =
        Stream.of("wish", "nearestToShares", "leastChangeFrom").filter(r::has).toList();
    if (wishes.size() > 1) {
      r.error(
          ProblemCodes.CHOICE,
          wishes.get(1),
          String.join(" and ", wishes),
          "one wish",
          "leave the others out");
    }
    if (r.has("wish")) {
      String word = r.choice("wish", WISHES.keySet().stream().sorted().toList());
      WISHES.getOrDefault(word, nothing -> {}).accept(b);
    }
    Map<ChargeClass, Double> wanted = new EnumMap<>(ChargeClass.class);
    eachClass(
        r,
        "nearestToShares",
        (c, p) ->
            number(
                p,
                c.label(),
                100,
                "%",
                d -> {
                  percent(p, c.label(), d);
                  wanted.put(c, d);
                }));
    if (!wanted.isEmpty()) {
      r.tried(() -> b.nearestToShares(wanted));
    }
    if (r.has("leastChangeFrom")) {
      Blend from = RecipeFile.read(r, "leastChangeFrom", shelf);
      if (from != null) {
        r.tried(() -> b.leastChangeFrom(from));
      }
    }
  }

  private static void each(JsonPart r, String field, BiConsumer<String, JsonPart> use) {
    JsonPart inner = r.part(field, false);
    if (inner != null) {
      inner.names().forEach(id -> use.accept(id.strip(), inner));
    }
  }

  private static void eachClass(JsonPart r, String field, BiConsumer<ChargeClass, JsonPart> use) {
    each(
        r,
        field,
        (word, p) -> {
          if (CLASSES.contains(word)) {
            use.accept(ChargeClass.parse(word).orElseThrow(), p);
          } else {
            p.error(
                ProblemCodes.UNKNOWN_CLASS,
                word,
                Row.quoted(word),
                String.join(", ", CLASSES),
                Nearest.to(word, CLASSES));
          }
        });
  }

  private interface Ends {
    Brief.Builder use(double low, double high);
  }

  private static void share(JsonPart shares, String of, Ends use) {
    JsonPart ends = ends(shares, of, 100, use);
    if (ends != null) {
      percent(ends, "low", ends.node("low").asDouble());
      percent(ends, "high", ends.node("high").asDouble());
    }
  }

  /** Warns of a percentage that looks like a share of 1. */
  private static void percent(JsonPart part, String field, double value) {
    if (value > 0 && value < 1) {
      part.warning(
          ProblemCodes.PERCENT_AS_FRACTION,
          field,
          Text.number(value) + " %",
          "a percentage, " + Text.number(value) + " % is taken",
          Text.number(100 * value) + ", if a share of 1 was meant");
    }
  }

  /** An interval of which one end may be left out. */
  private static @Nullable JsonPart ends(JsonPart r, String field, double most, Ends use) {
    JsonPart ends = r.part(field, false);
    if (ends == null) {
      return null;
    }
    double low = ends.numberOr("low", 0, most, "", 0);
    double high = ends.numberOr("high", 0, most, "", most);
    if (!ends.has("low") && !ends.has("high")) {
      ends.error(ProblemCodes.MISSING_VALUE, "", "neither end", "low, high or both", "");
    }
    ends.done();
    if (low > high) {
      ends.error(
          ProblemCodes.RANGE_ORDER,
          "",
          "low " + Text.number(low) + " above high " + Text.number(high),
          "low not above high",
          "swap the two");
    }
    ends.made(() -> use.use(low, high));
    return ends;
  }

  private static void number(
      JsonPart r, String field, double most, String unit, DoubleConsumer use) {
    if (r.has(field)) {
      double d = r.number(field, 0, most, unit);
      if (!Double.isNaN(d)) {
        r.tried(
            () -> {
              use.accept(d);
              return d;
            });
      }
    }
  }

  private static void count(JsonPart r, String field, int least, IntConsumer use) {
    if (r.has(field)) {
      use.accept(r.count(field, least, 20));
    }
  }

  private static void pairs(JsonPart r, String field, BiConsumer<String, String> use) {
    if (!r.has(field)) {
      return;
    }
    for (List<String> pair : r.pairs(field, MOST_IDS)) {
      use.accept(pair.get(0), pair.get(1));
    }
  }

  /**
   * Writes an answer.
   *
   * @param result the answer
   * @param table the table it was found in, for its prices
   * @return the JSON text, with line feeds
   * @throws NullPointerException if an argument is null
   */
  public static String write(BlendResult result, MaterialTable table) {
    return QUESTION.write(new Found(result, table), List.of());
  }

  private static ObjectNode answer(BlendResult result, MaterialTable table) {
    ObjectNode root = JsonDocument.object().put("name", result.brief().name());
    root.put("solved", result.isSolved());
    return result.<ObjectNode>fold(s -> solved(root, s, table), n -> unsolved(root, n));
  }

  private static ObjectNode solved(ObjectNode root, SolvedBlend s, MaterialTable table) {
    Blend blend = s.blend();
    root.setAll(RecipeFile.contents(blend));
    root.set("irritationIndex", index(s.irritationIndex()));
    StartingPh ph = s.startingPh();
    root.set("startingPh", StartingPhFile.intervals(ph));
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
      asked(one, r.requirement());
      one.set("reached", JsonDocument.range(r.reached()));
      one.put("bindsBelow", r.bindingLow());
      one.put("bindsAbove", r.bindingHigh());
      r.gainPerPoint().ifPresent(g -> one.put("onePointBuys", JsonDocument.number(g)));
    }
    root.putObject("wish")
        .put("aim", s.brief().wish().toString())
        .put("reached", JsonDocument.number(s.wishValue()));
    List<String> notes = new ArrayList<>();
    if (s.irritationIndex().range().isPresent()) {
      notes.add("irritation index: " + IrritationIndex.BASIS);
    }
    withoutFigures(notes, s.leftOutWithoutFigures());
    s.excludedByGuard().forEach(c -> notes.add("left out by the clash guard: " + c));
    s.brief().guardOffReason().ifPresent(r -> notes.add("the clash guard is off: " + r));
    notes.addAll(s.notes());
    StartingPhFile.notes(root, notes);
    return root;
  }

  /** A requirement for a program, beside its words. */
  static void asked(ObjectNode node, Requirement r) {
    node.put("figure", JsonDocument.word(r.kind()));
    node.put("unit", r.kind().unit());
    if (!r.subject().isEmpty()) {
      node.put("of", r.subject());
    }
    if (Double.isFinite(r.low())) {
      node.put("low", JsonDocument.number(r.low()));
    }
    if (Double.isFinite(r.high())) {
      node.put("high", JsonDocument.number(r.high()));
    }
    if (!Double.isNaN(r.atPh())) {
      node.put("atPh", JsonDocument.number(r.atPh()));
    }
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
    JsonDocument.texts(node, "withoutScore", index.withoutScore());
    return node;
  }

  private static void withoutFigures(List<String> notes, List<String> ids) {
    if (!ids.isEmpty()) {
      notes.add("left out, without irritation score or molar mass: " + String.join(", ", ids));
    }
  }

  /** Why there is no blend, into an answer. */
  static ObjectNode unsolved(ObjectNode root, NoBlend n) {
    ArrayNode parts = root.putArray("conflict");
    for (ConflictPart p : n.conflict()) {
      ObjectNode part = parts.addObject().put("demand", p.demand());
      part.put("enoughAlone", p.isEnoughAlone()).put("change", p.change());
      p.enoughAt().ifPresent(v -> part.put("enoughAt", JsonDocument.number(v)));
    }
    List<String> notes = new ArrayList<>();
    withoutFigures(notes, n.leftOutWithoutFigures());
    n.excludedByGuard().forEach(c -> notes.add("left out by the clash guard: " + c));
    JsonDocument.texts(root, "notes", notes);
    return root;
  }
}
