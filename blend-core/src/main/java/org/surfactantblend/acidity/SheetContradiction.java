package org.surfactantblend.acidity;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.aqueous.PhRoot;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.SheetPh;
import org.surfactantblend.quantity.PhWindow;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Text;

/**
 * A start pH that no lot inside its sheet can give, and whose sheet pH would explain it.
 *
 * <p>The sheet pH are taken as they are printed, without the widening for an uncertain dilution.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param reading the start pH that was read
 * @param possible the start pH that lots inside their sheets can give
 * @param explanations each material whose sheet pH alone could explain the reading, the one that
 *     has to be least far outside its sheet first
 */
public record SheetContradiction(
    double reading, PhWindow possible, List<Explanation> explanations) {
  /**
   * One material that could explain it.
   *
   * @param materialId the material
   * @param sheet what its sheet allows
   * @param needed the sheet pH its lot would at least need, at the sheet's dilution
   */
  public record Explanation(String materialId, PhWindow sheet, double needed) {
    /**
     * How far outside its sheet the lot would be.
     *
     * @return the distance [pH]
     */
    public double outside() {
      return Math.max(needed - sheet.high(), sheet.low() - needed);
    }
  }

  /**
   * Copies the list.
   *
   * @param reading the start pH that was read
   * @param possible the start pH that lots inside their sheets can give
   * @param explanations each material whose sheet pH alone could explain the reading, the one that
   *     has to be least far outside its sheet first
   */
  public SheetContradiction {
    explanations = List.copyOf(explanations);
  }

  /**
   * Compares a start pH with the sheets.
   *
   * @param blend the blend before any addition
   * @param reading the start pH that was read
   * @param meter how well it was read; two standard deviations are allowed for
   * @param conditions temperature and activity model
   * @return the contradiction; without explanations and with the reading inside {@code possible}
   *     when there is none
   */
  public static SheetContradiction check(
      Blend blend, double reading, Meter meter, Conditions conditions) {
    return check(blend, possible(blend, conditions), reading, meter, conditions);
  }

  /** The start pH that lots inside their printed sheets can give. */
  static PhWindow possible(Blend blend, Conditions conditions) {
    BlendCharge charge = BlendCharge.of(withSheets(blend, null, null), conditions);
    double low = PhRoot.ofFalling(charge::leastChargeEqPerKg, -2, 16);
    return PhWindow.of(low, PhRoot.ofFalling(charge::greatestChargeEqPerKg, low, 16));
  }

  static SheetContradiction check(
      Blend blend, PhWindow possible, double reading, Meter meter, Conditions conditions) {
    double slack = 2 * meter.accuracy();
    List<Explanation> all = new ArrayList<>();
    boolean above = reading > possible.high() + slack;
    if (above || reading < possible.low() - slack) {
      Blend printed = withSheets(blend, null, null);
      for (BlendLine line : printed.lines()) {
        Material m = line.material();
        SheetPh sheet = m.sheetPh().orElse(null);
        if (sheet == null || m.strongIonEqPerKg().isPresent() || line.massFraction() == 0) {
          continue;
        }
        double needed = needed(printed, m, sheet, reading, above, conditions);
        if (needed > 0 && needed < 14) {
          all.add(
              new Explanation(m.id(), PhWindow.of(sheet.ph().low(), sheet.ph().high()), needed));
        }
      }
      all.sort(Comparator.comparingDouble(Explanation::outside));
    }
    return new SheetContradiction(reading, possible, all);
  }

  /** The end of one sheet's range at which the blend's range just holds the reading. */
  private static double needed(
      Blend printed, Material m, SheetPh sheet, double reading, boolean above, Conditions at) {
    if (above) {
      return PhRoot.ofFalling(
          p -> {
            Range moved = Range.of(sheet.ph().low(), sheet.ph().typical(), p);
            BlendCharge c = BlendCharge.of(withSheets(printed, m, moved), at);
            return -c.greatestChargeEqPerKg(reading);
          },
          sheet.ph().high(),
          14);
    }
    return PhRoot.ofFalling(
        p -> {
          Range moved = Range.of(p, sheet.ph().typical(), sheet.ph().high());
          BlendCharge c = BlendCharge.of(withSheets(printed, m, moved), at);
          return -c.leastChargeEqPerKg(reading);
        },
        0,
        sheet.ph().low());
  }

  private static Blend withSheets(Blend blend, @Nullable Material one, @Nullable Range moved) {
    Blend.Builder b = Blend.named(blend.name());
    for (BlendLine line : blend.lines()) {
      Material m = line.material();
      SheetPh sheet = m.sheetPh().orElse(null);
      Material kept = m;
      if (sheet != null && m == one && moved != null) {
        kept = m.toBuilder().sheetPh(new SheetPh(moved, sheet.dilutionPercent(), true)).build();
      } else if (sheet != null && !sheet.basisCertain()) {
        kept =
            m.toBuilder().sheetPh(new SheetPh(sheet.ph(), sheet.dilutionPercent(), true)).build();
      }
      b.line(kept, line.amount().value());
    }
    return b.build();
  }

  /**
   * Whether the reading contradicts the sheets.
   *
   * @return true when it does
   */
  public boolean found() {
    return !explanations.isEmpty();
  }

  @Override
  public String toString() {
    if (!found()) {
      return "start pH " + Text.fixed(reading, 2) + " agrees with the sheets";
    }
    Explanation e = explanations.get(0);
    StringBuilder s = new StringBuilder();
    s.append("start pH ")
        .append(Text.fixed(reading, 2))
        .append(" lies outside what the sheets allow (")
        .append(Text.fixed(possible.low(), 2))
        .append(" to ")
        .append(Text.fixed(possible.high(), 2))
        .append("): it contradicts the sheet pH of ")
        .append(e.materialId())
        .append(", ")
        .append(Text.fixed(e.sheet().low(), 1))
        .append(" to ")
        .append(Text.fixed(e.sheet().high(), 1))
        .append(", whose lot would need ")
        .append(Text.fixed(e.needed(), 2))
        .append(" or more");
    for (Explanation other : explanations.subList(1, explanations.size())) {
      s.append("; or that of ")
          .append(other.materialId())
          .append(" (it would need ")
          .append(Text.fixed(other.needed(), 2))
          .append(')');
    }
    return s.toString();
  }
}
