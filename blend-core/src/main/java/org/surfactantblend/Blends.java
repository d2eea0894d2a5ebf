package org.surfactantblend;

import java.util.Map;
import org.surfactantblend.io.ShippedData;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.material.Source;

/**
 * The entry points that a first program or a JShell session needs.
 *
 * <p>Thread-safe; what it hands out is immutable.
 */
public final class Blends {
  private Blends() {}

  /**
   * The table of raw materials that ships with the library, without prices: surfactant grades and
   * what else a cleanser holds, by INCI name and grade. Its figures are those of typical commercial
   * grades; the certificate of the lot in hand wins over every one of them.
   *
   * @return the table, the same object each time
   */
  public static MaterialTable starterTable() {
    return StarterTable.TABLE;
  }

  /**
   * Where the figures of the starter table come from, by source id.
   *
   * @return an immutable map, the same object each time
   */
  public static Map<String, Source> sources() {
    return StarterTable.SOURCES;
  }

  /**
   * Prices for some of the materials of the starter table, invented so that the examples can ask
   * for the cheapest blend.
   *
   * @return the prices, the same object each time
   */
  public static PriceList demoPrices() {
    return DemoPrices.PRICES;
  }

  private static final class StarterTable {
    static final MaterialTable TABLE = ShippedData.starterTable().orElseThrow();
    static final Map<String, Source> SOURCES = ShippedData.sources().orElseThrow();
  }

  private static final class DemoPrices {
    static final PriceList PRICES = ShippedData.demoPrices(StarterTable.TABLE).orElseThrow();
  }
}
