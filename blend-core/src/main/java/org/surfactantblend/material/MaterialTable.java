package org.surfactantblend.material;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.quantity.Require;

/**
 * The raw materials a shop can use, the families and acids they refer to, the shop's prices and the
 * irritation scores.
 *
 * <p>A shop's own rows lie over the shipped ones: {@link #with(Collection)} replaces rows of the
 * same id and adds the others.
 *
 * <p>Immutable and thread-safe.
 */
public final class MaterialTable {
  private final Map<String, Material> materials;
  private final List<Material> surfactants;
  private final Map<String, Family> families;
  private final Map<String, AcidBase> acids;
  private final PriceList prices;
  private final IrritationScores scores;

  private MaterialTable(
      Map<String, Material> materials,
      Map<String, Family> families,
      Map<String, AcidBase> acids,
      PriceList prices,
      IrritationScores scores) {
    this.materials = Collections.unmodifiableMap(materials);
    this.surfactants = materials.values().stream().filter(Material::isSurfactant).toList();
    this.families = Collections.unmodifiableMap(families);
    this.acids = Collections.unmodifiableMap(acids);
    this.prices = prices;
    this.scores = scores;
  }

  /**
   * A table from its parts.
   *
   * @param acids the acids by key
   * @param families the families
   * @param materials the materials; a later one of the same id replaces an earlier one
   * @return the table, without prices and irritation scores
   */
  public static MaterialTable of(
      Map<String, AcidBase> acids, Collection<Family> families, Collection<Material> materials) {
    Map<String, Family> byName = new LinkedHashMap<>();
    for (Family family : families) {
      byName.put(family.name(), family);
    }
    return new MaterialTable(
            new LinkedHashMap<>(),
            byName,
            new LinkedHashMap<>(acids),
            PriceList.EMPTY,
            IrritationScores.EMPTY)
        .with(materials);
  }

  /**
   * A table of materials that bring their own families.
   *
   * @param materials the materials
   * @return the table, without prices and irritation scores
   */
  public static MaterialTable of(Collection<Material> materials) {
    Map<String, Family> byName = new LinkedHashMap<>();
    materials.forEach(m -> byName.put(m.family().name(), m.family()));
    return of(Map.of(), byName.values(), materials);
  }

  /**
   * This table with other rows laid over it.
   *
   * @param over the rows; they replace rows of the same id
   * @return the new table
   */
  public MaterialTable with(Collection<Material> over) {
    Map<String, Material> all = new LinkedHashMap<>(materials);
    for (Material material : over) {
      all.put(material.id(), material);
    }
    return new MaterialTable(all, families, acids, prices, scores);
  }

  /**
   * This table with one row laid over it.
   *
   * @param over the row
   * @return the new table
   */
  public MaterialTable with(Material over) {
    return with(List.of(Objects.requireNonNull(over, "material")));
  }

  /**
   * This table with a shop's prices in place of any it had.
   *
   * @param newPrices the prices
   * @return the new table
   */
  public MaterialTable priced(PriceList newPrices) {
    return new MaterialTable(
        materials, families, acids, Objects.requireNonNull(newPrices, "prices"), scores);
  }

  /**
   * This table with other irritation scores in place of any it had; {@code
   * scored(scores().with(own))} lays a shop's own over them.
   *
   * @param newScores the scores
   * @return the new table
   */
  public MaterialTable scored(IrritationScores newScores) {
    return new MaterialTable(
        materials, families, acids, prices, Objects.requireNonNull(newScores, "scores"));
  }

  /**
   * The irritation scores laid over the table.
   *
   * @return the scores, empty when there are none
   */
  public IrritationScores scores() {
    return scores;
  }

  /**
   * The prices laid over the table.
   *
   * @return the list, empty when there is none
   */
  public PriceList prices() {
    return prices;
  }

  /**
   * All materials.
   *
   * @return in the order of the table
   */
  public Collection<Material> materials() {
    return materials.values();
  }

  /**
   * All surfactants.
   *
   * @return in the order of the table
   */
  public List<Material> surfactants() {
    return surfactants;
  }

  /**
   * The material of an id.
   *
   * @param id the id
   * @return the material
   * @throws IllegalArgumentException if the table has none of that id; the message names similar
   *     ones
   */
  public Material get(String id) {
    return find(id)
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "material was '" + id + "', allowed is an id of the table" + suggestion(id)));
  }

  /**
   * The material of an id, if there is one.
   *
   * @param id the id
   * @return the material, or empty
   */
  public Optional<Material> find(String id) {
    return Optional.ofNullable(materials.get(Objects.requireNonNull(id, "material id")));
  }

  /**
   * The materials whose id, INCI name or grade holds every word of a phrase.
   *
   * @param words the phrase, in any case
   * @return the matches, in the order of the table
   */
  public List<Material> search(String words) {
    String[] wanted = Require.text("words", words).toLowerCase(Locale.ROOT).split("\\s+", -1);
    List<Material> found = new ArrayList<>();
    for (Material m : materials.values()) {
      String text = (m.id() + " " + m.inciName() + " " + m.grade()).toLowerCase(Locale.ROOT);
      boolean all = true;
      for (String w : wanted) {
        all &= text.contains(w);
      }
      if (all) {
        found.add(m);
      }
    }
    return found;
  }

  private String suggestion(String id) {
    String probe = id.toLowerCase(Locale.ROOT).strip();
    return materials.keySet().stream()
        .map(k -> Map.entry(common(k, probe), k))
        .filter(e -> e.getKey() >= 4)
        .sorted(Map.Entry.<Integer, String>comparingByKey().reversed())
        .limit(3)
        .map(Map.Entry::getValue)
        .reduce((a, b) -> a + ", " + b)
        .map(s -> ". Maybe: " + s)
        .orElse("");
  }

  private static int common(String a, String b) {
    int n = 0;
    while (n < a.length() && n < b.length() && a.charAt(n) == b.charAt(n)) {
      n++;
    }
    return n;
  }

  /**
   * The families by name.
   *
   * @return an immutable map
   */
  public Map<String, Family> families() {
    return families;
  }

  /**
   * The acids by key.
   *
   * @return an immutable map
   */
  public Map<String, AcidBase> acids() {
    return acids;
  }

  @Override
  public String toString() {
    long priced = materials.keySet().stream().filter(prices.materialIds()::contains).count();
    return materials.size()
        + " materials, "
        + surfactants.size()
        + " of them surfactants, "
        + priced
        + " priced";
  }
}
