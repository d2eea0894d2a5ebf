package org.surfactantblend.io;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.SheetPh;
import org.surfactantblend.quantity.Range;

/**
 * A material as the cells of a row, the reverse of {@link MaterialRows}.
 *
 * @param cells numbers and texts by column
 * @param rest the constituents that have no columns of their own
 * @param otherSources the sources that have no columns of their own
 */
record MaterialCells(
    Map<String, String> cells, List<Constituent> rest, Map<String, String> otherSources) {
  static MaterialCells of(Material m) {
    Map<String, String> cells = new LinkedHashMap<>();
    cells.put("id", m.id());
    cells.put("inci_name", m.inciName());
    cells.put("grade", m.grade());
    cells.put("family", m.family().name());
    m.lot().ifPresent(lot -> cells.put("lot", lot));
    List<Constituent> rest = m.constituents();
    String main = MaterialRows.main(m.inciName());
    if (!rest.isEmpty() && isMain(rest.get(0), main)) {
      Constituent first = rest.get(0);
      cells.put("charge_class", first.chargeClass().orElseThrow().label());
      range(cells, "active_min_pct", "active_typ_pct", "active_max_pct", first.percent());
      first.molarMass().ifPresent(v -> cells.put("molar_mass_g_per_mol", PartText.number(v)));
      rest = rest.subList(1, rest.size());
    } else if (!m.isSurfactant()) {
      cells.put("charge_class", "none");
    }
    if (!rest.isEmpty() && isPlainSalt(rest.get(0))) {
      range(cells, "salt_min_pct", "salt_typ_pct", "salt_max_pct", rest.get(0).percent());
      rest = rest.subList(1, rest.size());
    }
    if (m.constituents().isEmpty()) {
      cells.put("water_pct", "100");
    }
    optional(
        cells,
        "dry_residue_min_pct",
        "dry_residue_typ_pct",
        "dry_residue_max_pct",
        m.dryResiduePercent());
    SheetPh sheet = m.statedPh().orElse(null);
    if (sheet != null) {
      range(cells, "ph_low", "ph_typ", "ph_high", sheet.ph());
      cells.put("ph_dilution_pct", PartText.number(sheet.dilutionPercent()));
      cells.put("ph_basis_certain", sheet.basisCertain() ? "yes" : "no");
      if (!sheet.addedAcidEqPerKg().equals(Range.ZERO)) {
        range(
            cells,
            "titrated_acid_min_eq_per_kg",
            "titrated_acid_typ_eq_per_kg",
            "titrated_acid_max_eq_per_kg",
            sheet.addedAcidEqPerKg());
      }
    }
    optional(
        cells,
        "strong_ion_min_eq_per_kg",
        "strong_ion_typ_eq_per_kg",
        "strong_ion_max_eq_per_kg",
        m.strongIonEqPerKg());
    m.naturalOriginPercent().ifPresent(v -> cells.put("natural_origin_pct", PartText.number(v)));
    m.maxUsePercent().ifPresent(v -> cells.put("max_use_pct", PartText.number(v)));
    cells.put("notes", m.notes());
    Map<String, String> other = new TreeMap<>(m.sources());
    for (String figure : MaterialRows.SOURCED) {
      String ids = other.remove(figure);
      if (ids != null) {
        cells.put(figure + "_source", ids);
      }
    }
    return new MaterialCells(cells, rest, other);
  }

  private static boolean isMain(Constituent c, String main) {
    return c.isActive() && c.inciName().equals(main) && c.percent().typical() > 0;
  }

  private static boolean isPlainSalt(Constituent c) {
    return !c.isActive()
        && c.inciName().equals(Constituent.SODIUM_CHLORIDE)
        && c.molarMass().isEmpty();
  }

  private static void optional(
      Map<String, String> cells, String low, String typical, String high, Optional<Range> range) {
    @Nullable Range given = range.orElse(null);
    if (given != null) {
      range(cells, low, typical, high, given);
    }
  }

  private static void range(
      Map<String, String> cells, String low, String typical, String high, Range range) {
    cells.put(low, PartText.number(range.low()));
    cells.put(typical, PartText.number(range.typical()));
    cells.put(high, PartText.number(range.high()));
  }
}
