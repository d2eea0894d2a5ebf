package org.surfactantblend.material;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeMap;
import org.surfactantblend.quantity.Require;

/**
 * What a shop pays: a price per kilogram as supplied for some of the materials.
 *
 * <p>Immutable and thread-safe.
 */
public final class PriceList {
  /** The list without prices. */
  public static final PriceList EMPTY = new PriceList("", Map.of());

  private final String currency;
  private final Map<String, Double> pricePerKg;

  private PriceList(String currency, Map<String, Double> pricePerKg) {
    this.currency = currency;
    this.pricePerKg = Collections.unmodifiableMap(new LinkedHashMap<>(new TreeMap<>(pricePerKg)));
  }

  /**
   * A list of prices.
   *
   * @param currency the currency, in the shop's own words
   * @param pricePerKg price by material id [currency per kg as supplied], each 0 or more
   * @return the list
   * @throws IllegalArgumentException if a price is negative or not finite
   */
  public static PriceList of(String currency, Map<String, Double> pricePerKg) {
    pricePerKg.forEach(
        (id, price) ->
            Require.inRange("price of " + id, price, 0, Double.MAX_VALUE, currency + " per kg"));
    return new PriceList(Require.text("currency", currency), pricePerKg);
  }

  /**
   * The currency.
   *
   * @return the shop's word for it; empty for the list without prices
   */
  public String currency() {
    return currency;
  }

  /**
   * The price of a material.
   *
   * @param materialId its id
   * @return the price [currency per kg as supplied], or empty when none is known
   */
  public OptionalDouble pricePerKg(String materialId) {
    Double price = pricePerKg.get(Objects.requireNonNull(materialId, "material id"));
    return price == null ? OptionalDouble.empty() : OptionalDouble.of(price);
  }

  /**
   * The materials that have a price.
   *
   * @return their ids, sorted
   */
  public Set<String> materialIds() {
    return pricePerKg.keySet();
  }

  /**
   * The same list with one price set.
   *
   * @param materialId the material
   * @param price its price [currency per kg as supplied], 0 or more
   * @return the changed list
   * @throws IllegalArgumentException if the price is negative or not finite
   */
  public PriceList with(String materialId, double price) {
    Map<String, Double> copy = new TreeMap<>(pricePerKg);
    copy.put(Require.text("material id", materialId), price);
    return of(currency.isEmpty() ? "cu" : currency, copy);
  }

  @Override
  public String toString() {
    return pricePerKg.isEmpty()
        ? "no prices"
        : pricePerKg.size() + " prices in " + currency + " per kg";
  }
}
