package org.surfactantblend.io;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Collection;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.swap.LargestBatch;
import org.surfactantblend.swap.Stock;

/**
 * What is left of which lot as JSON, and the question for the largest batch it allows.
 *
 * <p>A stock is a list named {@code stock} of {material, lot, grams}, oldest first; lot may be left
 * out. As a document of its own it stands in an object with {@code version} 1 and {@code kind}
 * "stock". A request of the kind {@code largest-batch} holds {@code recipe}, as {@link RecipeFile}
 * reads it, and {@code stock}.
 */
public final class StockFile {
  private static final int MOST_LOTS = 2000;

  /** What can be made of which stock. */
  record Made(List<Stock> stock, LargestBatch batch) {}

  static final Question<Made, Made> QUESTION =
      new Question<>(
          "largest-batch",
          StockFile::question,
          m -> m,
          StockFile::answer,
          m -> m.batch.mass().inGrams() > 0);

  private StockFile() {}

  /**
   * Reads a stock.
   *
   * @param input the JSON text
   * @param table what there is, beside what the document brings
   * @return the lots that could be read, and every problem
   * @throws NullPointerException if an argument is null
   */
  public static Loaded<List<Stock>> read(Input input, MaterialTable table) {
    Objects.requireNonNull(table, "table");
    ProblemLog log = new ProblemLog();
    JsonPart root = Question.root(input, log);
    List<Stock> stock = List.of();
    if (root != null) {
      Question.envelope(root, "stock", true);
      Shelf shelf = Shelf.of(root, table);
      stock = stock(root, shelf);
      shelf.reportLots();
      root.done();
    }
    return new Loaded<>(List.copyOf(stock), log.problems());
  }

  /**
   * Writes a stock with every lot that is not in a table.
   *
   * @param stock the lots, oldest first
   * @param table the table that the reader will have
   * @return the JSON text, with line feeds
   * @throws NullPointerException if an argument is null
   * @throws IllegalArgumentException if two different lots have the same id and lot
   */
  public static String write(Collection<Stock> stock, MaterialTable table) {
    ObjectNode root = Question.document("stock");
    ArrayNode lots = root.putArray("stock");
    for (Stock s : stock) {
      Shelf.reference(lots.addObject(), s.lot())
          .put("grams", JsonDocument.number(s.mass().inGrams()));
    }
    Shelf.embed(root, stock.stream().map(Stock::lot).toList(), table);
    return JsonDocument.write(root);
  }

  private static List<Stock> stock(JsonPart document, Shelf shelf) {
    return document.list("stock", true, MOST_LOTS, p -> stock(shelf, p));
  }

  private static @Nullable Stock stock(Shelf shelf, JsonPart part) {
    Material lot = shelf.material(part);
    double grams = part.number("grams", 0, 1e12, "g");
    part.done();
    return lot == null ? null : part.made(() -> new Stock(lot, Mass.grams(grams)));
  }

  private static @Nullable Made question(JsonPart request, Shelf shelf) {
    Blend blend = RecipeFile.read(request, shelf);
    List<Stock> stock = stock(request, shelf);
    return blend == null || stock.isEmpty()
        ? null
        : request.tried(() -> new Made(stock, LargestBatch.of(blend, stock)));
  }

  private static ObjectNode answer(Made made) {
    LargestBatch b = made.batch;
    ObjectNode node = JsonDocument.object();
    node.put("grams", JsonDocument.number(b.mass().inGrams()));
    node.put("limitedBy", b.limitedBy());
    ArrayNode lots = node.putArray("stock");
    for (Stock s : made.stock) {
      Shelf.reference(lots.addObject(), s.lot())
          .put("usedGrams", JsonDocument.number(b.used().getOrDefault(s, 0.0)))
          .put("leftGrams", JsonDocument.number(b.leftOf(s).inGrams()));
    }
    JsonDocument.texts(node, "takenAsBoughtIn", b.notCounted());
    return node;
  }
}
