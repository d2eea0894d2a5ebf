package org.surfactantblend;

import java.util.Map;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.io.ShippedData;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.material.Source;
import org.surfactantblend.mildness.BlendMildness;
import org.surfactantblend.mildness.MildnessTables;
import org.surfactantblend.problem.ProblemsException;
import org.surfactantblend.solve.Alternatives;
import org.surfactantblend.solve.BlendResult;
import org.surfactantblend.solve.BlendSolver;
import org.surfactantblend.solve.Measure;
import org.surfactantblend.solve.SearchBudget;
import org.surfactantblend.solve.TradeOff;

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
    return Sources.BY_ID;
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

  /**
   * The figures behind the measures of mildness that are only reported: critical micelle
   * concentrations, interactions, eye-hazard limits, salt from synthesis. Irritation scores come
   * with the {@link #starterTable}.
   *
   * @return the tables, the same object each time
   */
  public static MildnessTables mildnessTables() {
    return Mildness.TABLES;
  }

  /**
   * The measures of mildness of a blend, by the scores of a table and the shipped other figures.
   *
   * @param blend the blend
   * @param table the table whose irritation scores count
   * @return the measures side by side
   */
  public static BlendMildness mildness(Blend blend, MaterialTable table) {
    return BlendMildness.of(blend, table.scores(), mildnessTables());
  }

  private static final class Mildness {
    static final MildnessTables TABLES = ShippedData.mildnessTables().orElseThrow();
  }

  private static final class StarterTable {
    static final MaterialTable TABLE = ShippedData.starterTable().orElseThrow();
  }

  private static final class Sources {
    static final Map<String, Source> BY_ID = ShippedData.sources().orElseThrow();
  }

  private static final class DemoPrices {
    static final PriceList PRICES = ShippedData.demoPrices(StarterTable.TABLE).orElseThrow();
  }

  /**
   * Solves a brief.
   *
   * @param brief what is asked
   * @param table what there is, with prices laid over it when the brief speaks of cost
   * @return the best blend, or the reason why there is none
   * @throws ProblemsException if the brief does not fit the table, such as an unknown id or a
   *     missing price; it carries all problems
   */
  public static BlendResult solve(Brief brief, MaterialTable table) {
    return BlendSolver.solve(brief, table);
  }

  /**
   * The best distinct sets of surfactants for a brief, each with its best amounts.
   *
   * @param brief what is asked
   * @param table what there is
   * @param count how many sets at most, 1 to 1000
   * @return blends in order of the wish, best first; of equally good ones the smaller set first
   * @throws ProblemsException if the brief does not fit the table
   * @throws IllegalArgumentException if the count is out of range
   * @see BlendSolver#alternatives for sets that differ more, and for a budget
   */
  public static Alternatives alternatives(Brief brief, MaterialTable table, int count) {
    return BlendSolver.alternatives(brief, table, count, 1, SearchBudget.none());
  }

  /**
   * The trade-off between two measures among all blends that meet a brief.
   *
   * @param brief what is asked; its wish does not count
   * @param table what there is
   * @param first a measure wanted small
   * @param second another measure wanted small
   * @return the blends that cannot be bettered in one measure without giving up on the other
   * @throws ProblemsException if the brief does not fit the table, or a measure is not given for
   *     every material that may come in
   * @throws IllegalArgumentException if the measures are the same
   */
  public static TradeOff tradeOff(Brief brief, MaterialTable table, Measure first, Measure second) {
    return BlendSolver.tradeOff(brief, table, first, second, SearchBudget.none());
  }
}
