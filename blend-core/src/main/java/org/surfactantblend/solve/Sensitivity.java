package org.surfactantblend.solve;

import java.util.List;
import java.util.OptionalDouble;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.quantity.Text;

/**
 * What would change an answer, and from where on: each figure found by solving again.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param brief what was asked
 * @param loosenings one for each end of a requirement that holds the blend where it is and whose
 *     loosening helps the wish
 * @param entryPrices one for each candidate that is not in the blend, when the wish is the lowest
 *     cost
 * @param gainOfOneMore by how much the wish's figure improves with one surfactant more; empty when
 *     the brief sets no greatest number, or the greater number changes nothing
 */
public record Sensitivity(
    Brief brief,
    List<Loosening> loosenings,
    List<EntryPrice> entryPrices,
    OptionalDouble gainOfOneMore) {

  /**
   * What loosening one end buys.
   *
   * @param bound the end as asked
   * @param gainPerPoint by how much the wish's figure improves per point at first: per 0.1 pH,
   *     share point, 0.1 % of the product, 0.01 of cost
   * @param holdsTo the value of the end up to which the same surfactants are used and the same
   *     other ends bind, so that the gain goes on at about this rate
   * @param gainThere by how much the wish's figure has improved there
   */
  public record Loosening(Bound bound, double gainPerPoint, double holdsTo, double gainThere) {}

  /**
   * The price at which a material would come in.
   *
   * @param materialId the candidate
   * @param price what it costs [currency per kg as supplied]
   * @param entersAt the price just below which it is used; empty when not even for nothing
   * @param asSupplied how much of it would be used then [% m/m as supplied]; 0 when it never is
   */
  public record EntryPrice(
      String materialId, double price, OptionalDouble entersAt, double asSupplied) {}

  /**
   * Keeps copies of the lists.
   *
   * @param brief what was asked
   * @param loosenings one for each end of a requirement that holds the blend where it is and whose
   *     loosening helps the wish
   * @param entryPrices one for each candidate that is not in the blend, when the wish is the lowest
   *     cost
   * @param gainOfOneMore by how much the wish's figure improves with one surfactant more; empty
   *     when the brief sets no greatest number, or the greater number changes nothing
   */
  public Sensitivity {
    loosenings = List.copyOf(loosenings);
    entryPrices = List.copyOf(entryPrices);
  }

  /**
   * The figures as a table in at most 80 columns.
   *
   * @return several lines
   */
  public String table() {
    StringBuilder s = new StringBuilder(brief.name()).append(": what would change the answer\n\n");
    s.append("  asked                                       1 point buys goes on to   in all\n");
    for (Loosening l : loosenings) {
      s.append("  ")
          .append(Text.left(l.bound().toString(), 44))
          .append(Text.right(Text.fixed(l.gainPerPoint(), 4), 12))
          .append(Text.right(Text.fixed(l.holdsTo(), 2), 11))
          .append(Text.right(Text.fixed(l.gainThere(), 4), 9))
          .append('\n');
    }
    if (loosenings.isEmpty()) {
      s.append("  no end of a requirement costs anything\n");
    }
    gainOfOneMore.ifPresent(
        gain -> s.append("  one surfactant more buys ").append(Text.fixed(gain, 4)).append('\n'));
    if (!entryPrices.isEmpty()) {
      s.append("\n  not used                               price per kg    comes in below       as")
          .append(
              "\n                                                                       supplied\n");
      for (EntryPrice e : entryPrices) {
        s.append("  ")
            .append(Text.left(e.materialId(), 36))
            .append(Text.right(Text.fixed(e.price(), 2), 15))
            .append(
                Text.right(
                    e.entersAt().isPresent()
                        ? Text.fixed(e.entersAt().getAsDouble(), 3)
                        : "at no price",
                    18))
            .append(
                Text.right(e.entersAt().isPresent() ? Text.fixed(e.asSupplied(), 2) + " %" : "", 9))
            .append('\n');
      }
    }
    return s.toString();
  }

  @Override
  public String toString() {
    return table();
  }
}
