package org.surfactantblend.io;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;

/**
 * A shop's price list as CSV or JSON.
 *
 * <p>In JSON it is an object with {@code currency} and {@code pricesPerKg}, which holds a number by
 * material id; {@code version} 1 and {@code kind} "prices" may stand beside them.
 *
 * <table>
 * <caption>Columns of CSV</caption>
 * <tr><th>column</th><th></th></tr>
 * <tr><td>material_id</td><td>required; an id of the table</td></tr>
 * <tr><td>price_per_kg</td><td>required; per kg as supplied, 0 or more; 0 is warned of, but for water</td></tr>
 * <tr><td>currency</td><td>the shop's word for it, one for the whole list; {@code cu} when not given</td></tr>
 * <tr><td>supplier</td><td>for people; not kept</td></tr>
 * </table>
 */
public final class PriceFile {
  /** The currency of a list that names none. */
  public static final String UNNAMED_CURRENCY = "cu";

  /** The highest price that is read [per kg]. */
  static final double MOST = Double.MAX_VALUE;

  private static final Set<String> COLUMNS =
      Set.of("material_id", "price_per_kg", "currency", "supplier");
  private static final Set<String> REQUIRED = Set.of("material_id", "price_per_kg");

  private static final JsonDocument.Fields FIELDS =
      new JsonDocument.Fields(
          Map.of("currency", "currency"), Set.of(), Set.of("version", "kind", "pricesPerKg"));

  private PriceFile() {}

  /**
   * Reads a price list.
   *
   * @param input the CSV text
   * @param table the table whose materials it is for; a price for another material is kept, with a
   *     warning
   * @return the prices that could be read, and every problem
   * @throws NullPointerException if an argument is null
   */
  public static Loaded<PriceList> readCsv(Input input, MaterialTable table) {
    ProblemLog log = new ProblemLog();
    List<Row> rows = CsvTable.read(input, COLUMNS, REQUIRED, log);
    Collector prices = new Collector(table, "");
    for (Row row : rows) {
      if (!log.isFull()) {
        prices.take(row);
      }
    }
    return new Loaded<>(prices.list(), log.problems());
  }

  /**
   * Reads a price list.
   *
   * @param input the JSON text
   * @param table the table whose materials it is for; a price for another material is kept, with a
   *     warning
   * @return the prices that could be read, and every problem
   * @throws NullPointerException if an argument is null
   */
  public static Loaded<PriceList> readJson(Input input, MaterialTable table) {
    ProblemLog log = new ProblemLog();
    JsonNode root = JsonDocument.parse(input, log);
    PriceList prices = root == null ? PriceList.EMPTY : read(input.name(), "$", root, table, log);
    return new Loaded<>(prices, log.problems());
  }

  /** The prices of an object. */
  static PriceList read(
      String source, String path, JsonNode root, MaterialTable table, ProblemLog log) {
    Collector prices = new Collector(table, "");
    if (!root.isObject()) {
      log.add(
          Problem.error(
              ProblemCodes.JSON_TYPE,
              Place.in(source, path),
              JsonDocument.kind(root),
              "an object with currency and pricesPerKg",
              ""));
    } else {
      Row outer = JsonDocument.row(source, path, root, FIELDS, log);
      Question.envelope(new JsonPart(source, path, root, log), "prices", false);
      JsonNode list = root.path("pricesPerKg");
      if (!list.isObject()) {
        outer.error(
            list.isMissingNode() ? ProblemCodes.MISSING_VALUE : ProblemCodes.JSON_TYPE,
            "pricesPerKg",
            list.isMissingNode() ? "nothing" : JsonDocument.kind(list),
            "an object with a price by material id",
            "");
      } else if (list.isEmpty()) {
        outer.warning(
            ProblemCodes.NO_ROWS, "pricesPerKg", "no prices", "a price by material id", "");
      }
      String word = outer.word("currency");
      String currency = Row.unprintable(word) < 0 ? word : "";
      for (Map.Entry<String, JsonNode> entry : list.properties()) {
        if (log.isFull()) {
          break;
        }
        Map<String, String> cells = new HashMap<>();
        String here = path + ".pricesPerKg." + Row.shown(entry.getKey());
        Row row = new Row(cells, column -> Place.in(source, here), log);
        row.checkCharacters("material_id", entry.getKey());
        if (!JsonDocument.isNumber(row, "price_per_kg", entry.getValue())) {
          continue;
        }
        cells.put("material_id", entry.getKey());
        cells.put("price_per_kg", entry.getValue().asText());
        cells.put("currency", currency);
        prices.take(row);
      }
    }
    return prices.list();
  }

  /**
   * Writes a price list as CSV that {@link #readCsv} reads back as the same list.
   *
   * @param prices the prices
   * @return the CSV text, with line feeds
   * @throws NullPointerException if the list is null
   */
  public static String writeCsv(PriceList prices) {
    List<Map<String, String>> rows = new ArrayList<>();
    for (String id : prices.materialIds()) {
      rows.add(
          Map.of(
              "material_id", id,
              "price_per_kg", PartText.number(prices.pricePerKg(id).orElseThrow()),
              "currency", prices.currency()));
    }
    return CsvText.of(List.of("material_id", "price_per_kg", "currency"), rows);
  }

  /**
   * Writes a price list as JSON that {@link #readJson} reads back as the same list.
   *
   * @param prices the prices
   * @return the JSON text, with line feeds
   * @throws NullPointerException if the list is null
   */
  public static String writeJson(PriceList prices) {
    ObjectNode root = Question.document("prices").put("currency", prices.currency());
    ObjectNode list = root.putObject("pricesPerKg");
    for (String id : prices.materialIds()) {
      list.put(id, JsonDocument.number(prices.pricePerKg(id).orElseThrow()));
    }
    return JsonDocument.write(root);
  }

  /** Gathers prices from rows. */
  static final class Collector {
    private final MaterialTable table;
    private final Map<String, Double> prices = new LinkedHashMap<>();
    private final String underneath;
    private String currency;

    /** Prices for a table, in the currency of the prices it has, if it has any. */
    Collector(MaterialTable table, String currency) {
      this.table = table;
      this.underneath = currency;
      this.currency = currency;
    }

    void take(Row row) {
      String id = row.requiredWord("material_id", "an id of the table");
      double price = row.number("price_per_kg", 0, MOST, "per kg as supplied");
      if (!row.has("price_per_kg")) {
        row.error(
            ProblemCodes.MISSING_VALUE,
            "price_per_kg",
            "nothing",
            "a price per kg as supplied",
            "");
      }
      if (row.failed()) {
        return;
      }
      if (table.find(id).isEmpty()) {
        row.warning(
            ProblemCodes.UNKNOWN_MATERIAL,
            "material_id",
            Row.quoted(id),
            "an id of the table",
            Nearest.to(id, table.materials().stream().map(m -> m.id()).toList()));
      }
      warnOfNothing(row, price, table.find(id).filter(Collector::isWater).isPresent());
      put(row, "material_id", id, price);
    }

    /** Tap water is often not counted (common practice); nothing else is had for nothing. */
    static void warnOfNothing(Row row, double price, boolean water) {
      if (price == 0 && !water) {
        row.warning(
            ProblemCodes.PRICE_OF_NOTHING,
            "price_per_kg",
            "0",
            "a price above 0, as a wish for least cost takes gladly what costs nothing",
            "leave the price out while it is not known");
      }
    }

    static boolean isWater(Material material) {
      return material.constituents().isEmpty();
    }

    void put(Row row, String idColumn, String id, double price) {
      String named = row.word("currency");
      if (named.isEmpty()) {
        named = currency;
      } else if (currency.isEmpty()) {
        currency = named;
      }
      if (!currency.equals(named)) {
        row.error(
            ProblemCodes.CURRENCY_MIXED,
            "currency",
            Row.quoted(named),
            underneath.isEmpty()
                ? "one currency for the whole list, " + currency
                : "the currency of the prices underneath, " + underneath,
            underneath.isEmpty()
                ? "convert the price"
                : "convert the price, or lay the rows over a table without prices");
        return;
      }
      if (prices.putIfAbsent(id, price) != null) {
        row.error(
            ProblemCodes.DUPLICATE_ID,
            idColumn,
            Row.quoted(id),
            "one price for each material",
            "leave out one of the two rows");
      }
    }

    PriceList list() {
      return prices.isEmpty()
          ? PriceList.EMPTY
          : PriceList.of(currency.isEmpty() ? UNNAMED_CURRENCY : currency, prices);
    }
  }
}
