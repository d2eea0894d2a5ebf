package org.surfactantblend.material;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/**
 * What a supplier measured on one lot, or the shop itself.
 *
 * <p>Only the lot's name is needed. {@link #appliedTo} lays the figures over a grade; what is
 * missing keeps the grade's range, and the resulting material says so among its caveats.
 *
 * <p>Immutable and thread-safe.
 */
public final class CertificateOfAnalysis {
  /** Potassium hydroxide [g/mol], in whose milligrams acid values are stated. */
  private static final double KOH = 56.106;

  /** How far active matter may seem to exceed the dry residue before it is refused [% m/m]. */
  private static final double METHODS_APART = 0.5;

  private final String lot;
  private final @Nullable Range active;
  private final @Nullable Range dryResidue;
  private final @Nullable Range salt;
  private final @Nullable Double ph;
  private final double phDilution;
  private final @Nullable SheetPh titrated;
  private final List<AcidBaseGroup> buffers;
  private final @Nullable Double density;
  private final Map<String, Range> others;
  private final String method;
  private final @Nullable LocalDate date;
  private final @Nullable LocalDate expiry;
  private final @Nullable Double price;

  private CertificateOfAnalysis(Builder b) {
    lot = b.lot;
    active = b.active;
    dryResidue = b.dryResidue;
    salt = b.salt;
    ph = b.ph;
    phDilution = b.phDilution;
    titrated = b.titrated;
    buffers = List.copyOf(b.buffers);
    density = b.density;
    others = Collections.unmodifiableMap(new LinkedHashMap<>(b.others));
    method = b.method;
    date = b.date;
    expiry = b.expiry;
    price = b.price;
  }

  /**
   * Starts a certificate.
   *
   * @param lot the lot, as it stands on the drum
   * @return a builder
   * @throws IllegalArgumentException if the name is blank
   */
  public static Builder ofLot(String lot) {
    return new Builder(Require.text("lot", lot));
  }

  /**
   * The lot.
   *
   * @return its name
   */
  public String lot() {
    return lot;
  }

  /**
   * The measured active matter.
   *
   * @return [% active, by mass as supplied], or empty
   */
  public Optional<Range> activePercent() {
    return Optional.ofNullable(active);
  }

  /**
   * The measured dry residue.
   *
   * @return [% m/m], or empty
   */
  public Optional<Range> dryResiduePercent() {
    return Optional.ofNullable(dryResidue);
  }

  /**
   * The measured sodium chloride.
   *
   * @return [% m/m as supplied], or empty
   */
  public Optional<Range> saltPercent() {
    return Optional.ofNullable(salt);
  }

  /**
   * The stated pH.
   *
   * @return the pH, or empty
   */
  public OptionalDouble ph() {
    return optional(ph);
  }

  /**
   * The dilution at which the pH was read.
   *
   * @return percent of the material as supplied in the sample [% m/m], or empty when not stated
   */
  public OptionalDouble phDilutionPercent() {
    return phDilution > 0 ? OptionalDouble.of(phDilution) : OptionalDouble.empty();
  }

  /**
   * The titration behind an alkalinity or acid value.
   *
   * @return its end point with the acid (negative: base) it took, or empty
   */
  public Optional<SheetPh> titration() {
    return Optional.ofNullable(titrated);
  }

  /**
   * The weak groups that a titration of the lot found in place of the grade's of the same names.
   *
   * @return the groups, in mol per kg as supplied; empty when none were found out
   */
  public List<AcidBaseGroup> buffers() {
    return buffers;
  }

  /**
   * The density.
   *
   * @return [g/ml], or empty
   */
  public OptionalDouble densityGramsPerMl() {
    return optional(density);
  }

  /**
   * Other measured constituents.
   *
   * @return percent by INCI name [% m/m as supplied]
   */
  public Map<String, Range> others() {
    return others;
  }

  /**
   * The method of the active matter, in the supplier's words.
   *
   * @return the method, may be empty
   */
  public String method() {
    return method;
  }

  /**
   * When it was measured.
   *
   * @return the date, or empty
   */
  public Optional<LocalDate> date() {
    return Optional.ofNullable(date);
  }

  /**
   * The last day of use.
   *
   * @return the date, or empty
   */
  public Optional<LocalDate> expiry() {
    return Optional.ofNullable(expiry);
  }

  /**
   * Whether the lot is past its last day of use.
   *
   * @param day the day to judge by
   * @return true when an expiry is stated and the day is after it
   */
  public boolean isExpiredOn(LocalDate day) {
    return expiry != null && day.isAfter(expiry);
  }

  /**
   * What the lot cost.
   *
   * @return the price [currency per kg as supplied], or empty
   */
  public OptionalDouble pricePerKg() {
    return optional(price);
  }

  private static OptionalDouble optional(@Nullable Double v) {
    return v == null ? OptionalDouble.empty() : OptionalDouble.of(v);
  }

  /**
   * The lot as a material: the grade with every measured figure in place of its range.
   *
   * <p>Errors are figures that cannot be true and were left out, such as an active matter above the
   * dry residue; warnings are figures that were used but look wrong. A titration takes precedence
   * over a pH.
   *
   * @param grade the grade
   * @return the lot, with the grade's id, and every problem found
   */
  public Loaded<Material> appliedTo(Material grade) {
    return new Application(Objects.requireNonNull(grade, "grade")).result();
  }

  private final class Application {
    private final Material grade;
    private final Material.Builder b;
    private final List<Problem> problems = new ArrayList<>();

    Application(Material grade) {
      this.grade = grade;
      b = grade.toBuilder().lot(lot);
    }

    Loaded<Material> result() {
      boolean activeUsable = checkActive();
      checkSum(activeUsable);
      if (salt == null && grade.saltPercent().width() > 0) {
        fallsBack("sodium chloride", grade.saltPercent(), "%");
      }
      if (active == null && grade.activePercent().width() > 0) {
        fallsBack("active matter", grade.activePercent(), "%");
      }
      checkResidue();
      if (dryResidue != null) {
        b.dryResiduePercent(dryResidue);
        grade
            .dryResiduePercent()
            .filter(r -> !overlaps(r, dryResidue))
            .ifPresent(r -> outside("dry residue", dryResidue, r));
      }
      acidBase();
      if (!method.isEmpty()) {
        b.source("active", method);
      }
      return new Loaded<>(b.build(), problems);
    }

    private void fallsBack(String figure, Range range, String unit) {
      b.caveat(
          figure
              + " of lot "
              + lot
              + " was not measured: the grade's "
              + Text.number(range.low())
              + " to "
              + Text.number(range.high())
              + " "
              + unit
              + " stands in");
    }

    private boolean checkActive() {
      if (active == null) {
        return false;
      }
      Range usual = grade.activePercent();
      if (!grade.isSurfactant()) {
        error("no-active-expected", "active matter", percent(active), "a grade with active matter");
        return false;
      }
      if (dryResidue != null && active.low() > dryResidue.high() + METHODS_APART) {
        error(
            "active-above-dry-residue",
            "active matter",
            percent(active) + " with a dry residue of " + percent(dryResidue),
            "not more than the dry residue");
        return false;
      }
      if (looksLikeDryResidue(active.typical(), usual)) {
        problems.add(
            Problem.warning(
                "dry-residue-as-active",
                place("active matter"),
                percent(active),
                "active matter, " + percent(usual) + " by the grade",
                "ask whether this is the dry residue; it counts salt and other solids as active"));
        b.caveat(
            "active matter of lot "
                + lot
                + ", "
                + percent(active)
                + ", may be its dry residue, which counts salt and other solids: ask");
      } else if (!overlaps(usual, active)) {
        outside("active matter", active, usual);
      }
      return true;
    }

    private boolean looksLikeDryResidue(double found, Range usual) {
      double otherSolids = 0;
      for (Constituent c : grade.constituents()) {
        otherSolids += c.isActive() ? 0 : c.percent().typical();
      }
      if (salt != null) {
        otherSolids += salt.typical() - grade.saltPercent().typical();
      }
      if (otherSolids < 1) {
        return false;
      }
      if (dryResidue != null) {
        return found > dryResidue.typical() - otherSolids / 2;
      }
      return found > usual.high()
          && (usual.contains(found - otherSolids)
              || grade.dryResiduePercent().filter(r -> r.contains(found)).isPresent());
    }

    private void checkSum(boolean useActive) {
      Map<String, Constituent> changed = new LinkedHashMap<>();
      double factor =
          useActive && active != null ? active.typical() / grade.activePercent().typical() : 1;
      int actives = 0;
      for (Constituent c : grade.constituents()) {
        actives += c.isActive() ? 1 : 0;
      }
      for (Constituent c : grade.constituents()) {
        Constituent now = c;
        if (c.isActive() && useActive && active != null) {
          now =
              c.withPercent(actives == 1 ? active : Range.exactly(c.percent().typical() * factor));
        } else if (salt != null && c.inciName().equalsIgnoreCase(Constituent.SODIUM_CHLORIDE)) {
          now = c.withPercent(salt);
        }
        changed.put(c.inciName().toLowerCase(java.util.Locale.ROOT), now);
      }
      if (salt != null) {
        changed.putIfAbsent(
            Constituent.SODIUM_CHLORIDE.toLowerCase(java.util.Locale.ROOT),
            Constituent.other(Constituent.SODIUM_CHLORIDE, salt));
      }
      others.forEach(
          (name, percent) ->
              changed.merge(
                  name.toLowerCase(java.util.Locale.ROOT),
                  Constituent.other(name, percent),
                  (old, now) -> old.withPercent(percent)));
      double sum = 0;
      for (Constituent c : changed.values()) {
        sum += c.percent().typical();
      }
      if (sum > 100 + 1e-9) {
        error(
            "more-than-100",
            "constituents",
            Text.number(sum) + " % with what the grade brings",
            "at most 100 %");
        return;
      }
      changed.values().forEach(b::constituent);
      if (salt != null && !overlaps(grade.saltPercent(), salt)) {
        outside("sodium chloride", salt, grade.saltPercent());
      }
      if (actives > 1 && useActive) {
        b.caveat("the split among its surfactants is taken as in the grade");
      }
    }

    /** A measured dry residue below what the lot holds is doubtful, and so is what stands in. */
    private void checkResidue() {
      if (dryResidue == null) {
        return;
      }
      Material soFar = b.build();
      double solids = soFar.activePercent().typical() + soFar.saltPercent().typical();
      boolean told = problems.stream().anyMatch(p -> p.code().contains("dry-residue"));
      if (!told && solids > dryResidue.high() + Material.RESIDUE_TOLERANCE) {
        problems.add(
            Problem.warning(
                "contents-above-dry-residue",
                place("dry residue"),
                percent(dryResidue) + ", active matter and salt " + Text.number(solids) + " %",
                "not less than active matter and salt together",
                "ask for the active matter and the salt of this lot"));
        b.caveat(
            "dry residue of lot "
                + lot
                + ", "
                + percent(dryResidue)
                + ", is less than its active matter and salt together: ask for both");
      }
    }

    private void acidBase() {
      SheetPh usual = grade.sheetPh().orElse(null);
      if (ph != null) {
        boolean stated = phDilution > 0;
        double dilution = stated ? phDilution : usual == null ? 10 : usual.dilutionPercent();
        if (!stated) {
          problems.add(
              Problem.warning(
                  "ph-basis-missing",
                  place("pH"),
                  "pH " + Text.number(ph) + " without a dilution",
                  "a pH with the percentage of the material in the sample",
                  "ask; until then " + Text.number(dilution) + " % is taken"));
        }
        b.sheetPh(new SheetPh(Range.exactly(ph), dilution, stated));
        if (usual != null
            && Math.abs(usual.dilutionPercent() - dilution) <= 1
            && !usual.effective().contains(ph)) {
          outside("pH", Range.exactly(ph), usual.effective());
        }
      }
      if (titrated != null) {
        b.sheetPh(titrated);
        b.strongIonsFromPh();
        buffers.forEach(b::group);
      } else if (ph == null && usual != null && usual.effective().width() > 0) {
        fallsBack("pH", usual.effective(), "at its dilution");
      }
    }

    private void outside(String figure, Range found, Range usual) {
      problems.add(
          Problem.warning(
              "outside-specification",
              place(figure),
              Text.number(found.typical()),
              Text.number(usual.low()) + " to " + Text.number(usual.high()) + " by the grade",
              "check the grade and the unit; the figure is used as it stands"));
      b.caveat(
          figure
              + " of lot "
              + lot
              + ", "
              + Text.number(found.typical())
              + ", is outside the grade's "
              + Text.number(usual.low())
              + " to "
              + Text.number(usual.high()));
    }

    private void error(String code, String figure, String found, String allowed) {
      problems.add(
          Problem.error(
              code, place(figure), found, allowed, "the figure is left out, the grade's is used"));
    }

    private Place place(String figure) {
      return Place.in("certificate of lot " + lot + " of " + grade.id(), figure);
    }
  }

  private static boolean overlaps(Range a, Range b) {
    return b.low() <= a.high() + 1e-9 && b.high() >= a.low() - 1e-9;
  }

  private static String percent(Range r) {
    return (r.isExact()
            ? Text.number(r.typical())
            : Text.number(r.low()) + " to " + Text.number(r.high()))
        + " %";
  }

  @Override
  public String toString() {
    return "certificate of lot " + lot;
  }

  /** Builds a {@link CertificateOfAnalysis}; not thread-safe. */
  public static final class Builder {
    private final String lot;
    private @Nullable Range active;
    private @Nullable Range dryResidue;
    private @Nullable Range salt;
    private @Nullable Double ph;
    private double phDilution;
    private @Nullable SheetPh titrated;
    private List<AcidBaseGroup> buffers = List.of();
    private @Nullable Double density;
    private final Map<String, Range> others = new LinkedHashMap<>();
    private String method = "";
    private @Nullable LocalDate date;
    private @Nullable LocalDate expiry;
    private @Nullable Double price;

    private Builder(String lot) {
      this.lot = lot;
    }

    /**
     * Sets the measured active matter.
     *
     * @param percent [% active, by mass as supplied], above 0 to 100
     * @return this builder
     * @throws IllegalArgumentException if it is out of range
     */
    public Builder activePercent(double percent) {
      return activePercent(Range.exactly(percent));
    }

    /**
     * Sets the measured active matter with its uncertainty.
     *
     * @param percent [% active, by mass as supplied], above 0 to 100
     * @return this builder
     * @throws IllegalArgumentException if it is out of range
     */
    public Builder activePercent(Range percent) {
      Require.positive("active matter of lot " + lot, percent.low(), "% active");
      active = checked("active matter", percent);
      return this;
    }

    /**
     * Sets the measured dry residue.
     *
     * @param percent [% m/m], 0 to 100
     * @return this builder
     * @throws IllegalArgumentException if it is out of range
     */
    public Builder dryResiduePercent(double percent) {
      dryResidue = checked("dry residue", Range.exactly(percent));
      return this;
    }

    /**
     * Sets the measured sodium chloride.
     *
     * @param percent [% m/m as supplied], 0 to 100
     * @return this builder
     * @throws IllegalArgumentException if it is out of range
     */
    public Builder saltPercent(double percent) {
      salt = checked("sodium chloride", Range.exactly(percent));
      return this;
    }

    /**
     * Sets the measured amount of another constituent, such as a humectant or a preservative.
     *
     * @param inciName its INCI name
     * @param percent [% m/m as supplied], 0 to 100
     * @return this builder
     * @throws IllegalArgumentException if the percent is out of range or the name is blank
     */
    public Builder constituent(String inciName, double percent) {
      others.put(Require.text("INCI name", inciName), checked(inciName, Range.exactly(percent)));
      return this;
    }

    private Range checked(String name, Range percent) {
      Require.inRange("lowest " + name + " of lot " + lot, percent.low(), 0, 100, "% m/m");
      Require.inRange("highest " + name + " of lot " + lot, percent.high(), 0, 100, "% m/m");
      return percent;
    }

    /**
     * Sets the measured pH with its dilution.
     *
     * @param value the pH, 0 to 14
     * @param dilutionPercent percent of the material as supplied in the sample [% m/m], above 0 to
     *     100
     * @return this builder
     * @throws IllegalArgumentException if a figure is out of range
     */
    public Builder ph(double value, double dilutionPercent) {
      Require.positive("dilution of the pH of lot " + lot, dilutionPercent, "% m/m");
      phDilution = Require.inRange("dilution of the pH", dilutionPercent, 0, 100, "% m/m");
      ph = Require.inRange("pH of lot " + lot, value, 0, 14, "");
      return this;
    }

    /**
     * Sets a pH whose dilution the certificate does not state.
     *
     * @param value the pH, 0 to 14
     * @return this builder
     * @throws IllegalArgumentException if it is out of range
     */
    public Builder phWithoutDilution(double value) {
      phDilution = 0;
      ph = Require.inRange("pH of lot " + lot, value, 0, 14, "");
      return this;
    }

    /**
     * Sets an alkalinity: the strong acid that brought a sample down to an end point.
     *
     * @param mmolPerKg acid used [mmol/kg as supplied], 0 to 50 000
     * @param endPointPh where the titration stopped, 0 to 14
     * @param dilutionPercent percent of the material as supplied in the sample [% m/m], above 0 to
     *     100
     * @return this builder
     * @throws IllegalArgumentException if a figure is out of range
     */
    public Builder alkalinity(double mmolPerKg, double endPointPh, double dilutionPercent) {
      Require.inRange("alkalinity of lot " + lot, mmolPerKg, 0, 50000, "mmol/kg");
      return titration(
          SheetPh.endPoint(endPointPh, dilutionPercent, Range.exactly(mmolPerKg / 1000)),
          List.of());
    }

    /**
     * Sets what a titration of several readings found: the acid to an end point and the weak groups
     * on the way. A later {@link #alkalinity} or {@link #acidValue} takes its place.
     *
     * @param endPoint the end point with the acid, or below zero the base, it took
     * @param found the weak groups, each in place of the grade's group of the same name; none to
     *     keep the grade's
     * @return this builder
     */
    public Builder titration(SheetPh endPoint, List<AcidBaseGroup> found) {
      titrated = Objects.requireNonNull(endPoint, "end point");
      buffers = List.copyOf(found);
      return this;
    }

    /**
     * Sets an acid value: the potassium hydroxide that brought a sample up to an end point.
     *
     * @param mgPotassiumHydroxidePerGram base used [mg KOH per g as supplied], 0 to 2500
     * @param endPointPh where the titration stopped, 0 to 14; about 8.5 for phenolphthalein (from
     *     memory)
     * @param dilutionPercent percent of the material as supplied in the sample [% m/m], above 0 to
     *     100
     * @return this builder
     * @throws IllegalArgumentException if a figure is out of range
     */
    public Builder acidValue(
        double mgPotassiumHydroxidePerGram, double endPointPh, double dilutionPercent) {
      Require.inRange("acid value of lot " + lot, mgPotassiumHydroxidePerGram, 0, 2500, "mg/g");
      return titration(
          SheetPh.endPoint(
              endPointPh, dilutionPercent, Range.exactly(-mgPotassiumHydroxidePerGram / KOH)),
          List.of());
    }

    /**
     * Sets the density.
     *
     * @param gramsPerMl [g/ml], 0.5 to 2
     * @return this builder
     * @throws IllegalArgumentException if it is out of range
     */
    public Builder densityGramsPerMl(double gramsPerMl) {
      density = Require.inRange("density of lot " + lot, gramsPerMl, 0.5, 2, "g/ml");
      return this;
    }

    /**
     * Names the method behind the active matter.
     *
     * @param words the supplier's words
     * @return this builder
     */
    public Builder method(String words) {
      method = words.strip();
      return this;
    }

    /**
     * Sets the date of measurement.
     *
     * @param day the day
     * @return this builder
     */
    public Builder date(LocalDate day) {
      date = Objects.requireNonNull(day, "date");
      return this;
    }

    /**
     * Sets the last day of use.
     *
     * @param day the day
     * @return this builder
     */
    public Builder expiry(LocalDate day) {
      expiry = Objects.requireNonNull(day, "expiry");
      return this;
    }

    /**
     * Sets what the lot cost.
     *
     * @param perKg [currency per kg as supplied], 0 or more
     * @return this builder
     * @throws IllegalArgumentException if it is negative or not finite
     */
    public Builder pricePerKg(double perKg) {
      price = Require.inRange("price of lot " + lot, perKg, 0, Double.MAX_VALUE, "per kg");
      return this;
    }

    /**
     * Builds the certificate.
     *
     * @return the certificate
     */
    public CertificateOfAnalysis build() {
      return new CertificateOfAnalysis(this);
    }

    @Override
    public String toString() {
      return "certificate of lot " + lot + ", not built yet";
    }
  }
}
