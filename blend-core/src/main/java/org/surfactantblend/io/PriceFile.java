package org.surfactantblend.io;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.problem.Loaded;

/**
 * A shop's price list as CSV.
 *
 * <table>
 * <caption>Columns</caption>
 * <tr><th>column</th><th></th></tr>
 * <tr><td>material_id</td><td>required; an id of the table</td></tr>
 * <tr><td>price_per_kg</td><td>required; per kg as supplied, 0 to 1000000000</td></tr>
 * <tr><td>currency</td><td>the shop's word for it, one for the whole list; {@code cu} when not given</td></tr>
 * <tr><td>supplier</td><td>for people; not kept</td></tr>
 * </table>
 */
public final class PriceFile {
  /** The currency of a list that names none. */
  public static final String UNNAMED_CURRENCY = "cu";

  static final double MOST = 1e9;
  private static final Set<String> COLUMNS =
      Set.of("material_id", "price_per_kg", "currency", "supplier");
  private static final Set<String> REQUIRED = Set.of("material_id", "price_per_kg");

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
    Collector prices = new Collector(table);
    for (Row row : rows) {
      prices.take(row);
    }
    return new Loaded<>(prices.list(), log.problems());
  }

  /** Gathers prices from rows. */
  static final class Collector {
    private final MaterialTable table;
    private final Map<String, Double> prices = new LinkedHashMap<>();
    private String currency = "";

    Collector(MaterialTable table) {
      this.table = table;
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
      put(row, "material_id", id, price);
    }

    void put(Row row, String idColumn, String id, double price) {
      String word = row.word("currency");
      String named = word.isEmpty() ? UNNAMED_CURRENCY : word;
      if (currency.isEmpty()) {
        currency = named;
      } else if (!currency.equals(named)) {
        row.error(
            ProblemCodes.CURRENCY_MIXED,
            "currency",
            Row.quoted(named),
            "one currency for the whole list, " + currency,
            "convert the price");
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
      return prices.isEmpty() ? PriceList.EMPTY : PriceList.of(currency, prices);
    }
  }
}
