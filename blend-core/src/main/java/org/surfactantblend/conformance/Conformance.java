package org.surfactantblend.conformance;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.BiFunction;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.CertificateOfAnalysis;
import org.surfactantblend.material.Family;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.SheetPh;
import org.surfactantblend.material.Source;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.problem.ProblemsException;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Text;

/**
 * Whether a material, a lot, a table or an acid is one that the library can be trusted with: named
 * checks that need no test framework.
 *
 * <p>In a JShell session {@code Conformance.of(material).orElseThrow()} says all that is wrong, or
 * nothing. A program reads {@link #findings()}: each has a code, a place, what was found, what is
 * allowed and an advice. In JUnit every check becomes a dynamic test of its own name:
 *
 * <pre>{@code
 * @TestFactory
 * Stream<DynamicTest> myMaterials() {
 *   return Conformance.of(table).checks().stream().map(c -> dynamicTest(c.name(), c::orElseThrow));
 * }
 * }</pre>
 *
 * <p>A finding is an error where figures contradict each other or a law is broken, and a warning
 * where they are only unusual. Limits that are not plain arithmetic are facts of the trade (common
 * practice, no source); molar masses and the salt of a synthesis are calculated from formulae.
 *
 * <table>
 * <caption>Codes of the findings</caption>
 * <tr><th>code</th><th>subject</th><th>what ought to be true</th></tr>
 * <tr><td>active-spread</td><td>material</td><td>active matter above 0; above 1 % and ends within 30 % of the typical figure (warnings)</td></tr>
 * <tr><td>range-end</td><td>material</td><td>each greatest content leaves room for the least of all others</td></tr>
 * <tr><td>dry-residue</td><td>material</td><td>dry residue within 2 % m/m of the sum of the constituents</td></tr>
 * <tr><td>salt-of-synthesis</td><td>material</td><td>salt of a betaine, sultaine or amphoacetate near what its synthesis forms (warning)</td></tr>
 * <tr><td>molar-mass</td><td>material</td><td>molar mass in the range of the family; missing is a warning</td></tr>
 * <tr><td>class-of-family</td><td>material</td><td>charge class of the family</td></tr>
 * <tr><td>ph-stated</td><td>material</td><td>a pH, with a dilution of 1 to 100 % m/m (warning)</td></tr>
 * <tr><td>ph-of-family</td><td>material</td><td>typical pH in the window in which the family is stable and sold; not asked of the end point of a titration</td></tr>
 * <tr><td>ph-spread</td><td>material</td><td>a pH window of at most 4 (warning)</td></tr>
 * <tr><td>ph-reproduced</td><td>material</td><td>the model's pH at the dilution inside the declared range</td></tr>
 * <tr><td>curve-falls</td><td>material</td><td>charge that never rises with the pH, within its range</td></tr>
 * <tr><td>acid-amount</td><td>material</td><td>moles of an acid within 10 % of mass over molar mass</td></tr>
 * <tr><td>source</td><td>material</td><td>a source for every figure; an unknown id is an error, a missing one a warning</td></tr>
 * <tr><td>swap-with-itself</td><td>material</td><td>the same percentage afterwards</td></tr>
 * <tr><td>linear-in-water</td><td>material</td><td>all contents in proportion to the percentage as supplied</td></tr>
 * <tr><td>active-conserved</td><td>material</td><td>total active = sum over lines, also class by class</td></tr>
 * <tr><td>as of {@link CertificateOfAnalysis#appliedTo}</td><td>lot</td><td>figures that can be true and lie inside the grade's</td></tr>
 * <tr><td>titration-direction</td><td>lot</td><td>acid lowers the pH from the stated one to the end point, base raises it</td></tr>
 * <tr><td>family-in-table, acid-in-table</td><td>table</td><td>families and acids of a material are those of the table</td></tr>
 * <tr><td>price-of-nothing</td><td>table</td><td>every price belongs to a row (warning)</td></tr>
 * <tr><td>same-grade</td><td>table</td><td>no two rows of one INCI name and grade (warning)</td></tr>
 * <tr><td>pka-order, acid-curve-falls, acid-forms, pka-temperature</td><td>acid</td><td>constants in rising order, falling charge, forms that add up, constants steady from 5 to 45 C (warning)</td></tr>
 * <tr><td>unused-deviation</td><td>any</td><td>every known deviation still met</td></tr>
 * </table>
 *
 * <p>Immutable and thread-safe.
 */
public final class Conformance {
  private final String subject;
  private final List<Check> plain;
  private final List<KnownDeviation> known;
  private final BiFunction<@Nullable Map<String, Source>, Arithmetic, List<Check>> make;

  private Conformance(
      String subject,
      BiFunction<@Nullable Map<String, Source>, Arithmetic, List<Check>> make,
      List<Check> plain,
      List<KnownDeviation> known) {
    this.subject = subject;
    this.make = make;
    this.plain = List.copyOf(plain);
    this.known = known;
  }

  private static Conformance begin(
      String subject, BiFunction<@Nullable Map<String, Source>, Arithmetic, List<Check>> make) {
    return new Conformance(subject, make, make.apply(null, new Arithmetic()), List.of());
  }

  /**
   * The checks of a material, or of a lot that is already one.
   *
   * @param material the material
   * @return its checks
   * @throws NullPointerException if the material is null
   */
  public static Conformance of(Material material) {
    Objects.requireNonNull(material, "material");
    return begin(material.toString(), (s, a) -> MaterialChecks.of(material, s, a));
  }

  /**
   * The checks of a certificate: that it can be true, that it fits its grade, and all checks of the
   * material that it makes of the grade.
   *
   * @param lot the certificate
   * @param grade the grade it belongs to
   * @return its checks
   * @throws NullPointerException if an argument is null
   */
  public static Conformance of(CertificateOfAnalysis lot, Material grade) {
    Objects.requireNonNull(lot, "lot");
    Objects.requireNonNull(grade, "grade");
    Loaded<Material> applied = lot.appliedTo(grade);
    return begin(
        applied.value().toString(),
        (s, a) -> {
          List<Check> checks = lotChecks(lot, applied);
          checks.addAll(MaterialChecks.of(applied.value(), s, a));
          return checks;
        });
  }

  /**
   * The checks of an acid or base.
   *
   * @param acid the acid
   * @return its checks
   * @throws NullPointerException if the acid is null
   */
  public static Conformance of(AcidBase acid) {
    Objects.requireNonNull(acid, "acid");
    return begin("acid " + acid.name(), (s, a) -> AcidChecks.of(acid, a));
  }

  /**
   * The checks of every row of a table, of its acids, and of the table as a whole.
   *
   * @param table the table, prices included
   * @return its checks
   * @throws NullPointerException if the table is null
   */
  public static Conformance of(MaterialTable table) {
    Objects.requireNonNull(table, "table");
    return begin(
        table.materials().size() + " materials",
        (s, a) -> {
          List<Check> checks = tableChecks(table);
          table.acids().values().forEach(acid -> checks.addAll(AcidChecks.of(acid, a)));
          table.materials().forEach(m -> checks.addAll(MaterialChecks.of(m, s, a)));
          return checks;
        });
  }

  /**
   * The same checks, with every source id looked up.
   *
   * @param sources the known sources by id
   * @return the stricter checks
   * @throws NullPointerException if the map is null
   */
  public Conformance sourcedFrom(Map<String, Source> sources) {
    return new Conformance(subject, make, make.apply(Map.copyOf(sources), new Arithmetic()), known);
  }

  /** The same checks on other sums than the library's. */
  Conformance reckonedBy(Arithmetic arithmetic) {
    return new Conformance(subject, make, make.apply(null, arithmetic), known);
  }

  /**
   * The same checks without the findings that are known and accepted. A deviation that is not met
   * any more is a finding itself.
   *
   * @param deviations what is accepted, each with its reason
   * @return the checks, with one more that asks whether all of these are still needed
   * @throws NullPointerException if the list or an entry is null
   */
  public Conformance except(Collection<KnownDeviation> deviations) {
    List<KnownDeviation> all = new ArrayList<>(known);
    all.addAll(List.copyOf(deviations));
    return new Conformance(subject, make, plain, List.copyOf(all));
  }

  /**
   * Every check on its own. Nothing is worked out before a check is asked.
   *
   * @return an immutable list, in the order of the table
   */
  public List<Check> checks() {
    if (known.isEmpty()) {
      return plain;
    }
    List<Check> all = new ArrayList<>();
    plain.forEach(c -> all.add(c.without(known)));
    all.add(
        new Check(
            "unused-deviation",
            subject,
            "every known deviation is still met",
            () -> unused(plain.stream().flatMap(c -> c.findings().stream()).toList())));
    return List.copyOf(all);
  }

  private List<Problem> unused(List<Problem> found) {
    List<Problem> unused = new ArrayList<>();
    for (KnownDeviation d : known) {
      if (found.stream().noneMatch(f -> Check.fits(d, f))) {
        unused.add(
            Problem.error(
                "unused-deviation",
                Place.in(d.subject(), d.code()),
                "a deviation that is not met: " + d.reason(),
                "deviations that are met",
                "take it off the list"));
      }
    }
    return unused;
  }

  /**
   * All that is wrong.
   *
   * @return errors and warnings in the order of the checks, without what is accepted; empty when
   *     all is well
   */
  public List<Problem> findings() {
    return checks().stream().flatMap(c -> c.findings().stream()).toList();
  }

  /**
   * Insists that there is no error.
   *
   * @return these checks, when no finding is an error; warnings do not throw
   * @throws ProblemsException with every finding, warnings included, when one is an error
   */
  public Conformance orElseThrow() {
    List<Problem> found = findings();
    if (found.stream().anyMatch(Problem::isError)) {
      throw new ProblemsException(found);
    }
    return this;
  }

  /**
   * All findings for a person.
   *
   * @return one line that counts them, then each of them, in at most 80 columns
   */
  public String summary() {
    List<Problem> found = findings();
    long errors = found.stream().filter(Problem::isError).count();
    StringBuilder text =
        new StringBuilder(subject)
            .append(": ")
            .append(checks().size())
            .append(" checks, ")
            .append(counted(errors, "error"))
            .append(", ")
            .append(counted(found.size() - errors, "warning"));
    found.forEach(f -> text.append('\n').append(f));
    return Text.wrapped(text, 80);
  }

  private static String counted(long n, String what) {
    return (n == 0 ? "no" : Long.toString(n)) + " " + what + (n == 1 ? "" : "s");
  }

  /** The same as {@link #summary()}. */
  @Override
  public String toString() {
    return summary();
  }

  private static List<Check> lotChecks(CertificateOfAnalysis lot, Loaded<Material> applied) {
    String name = applied.value().toString();
    List<Check> checks = new ArrayList<>();
    checks.add(
        new Check(
            "lot-of-grade",
            name,
            "the certificate can be true and fits its grade",
            applied::problems));
    checks.add(
        new Check(
            "titration-direction",
            name,
            "acid lowers the pH to the end point of its titration, base raises it",
            () -> {
              Findings f = new Findings("titration-direction", name);
              SheetPh end = lot.titration().orElse(null);
              if (end != null && lot.ph().isPresent()) {
                double moved = end.ph().typical() - lot.ph().getAsDouble();
                Range acid = end.addedAcidEqPerKg();
                if ((acid.low() > 0 && moved >= 0) || (acid.high() < 0 && moved <= 0)) {
                  f.error(
                      "titration",
                      "pH "
                          + Text.number(lot.ph().getAsDouble())
                          + " to "
                          + Text.number(end.ph().typical())
                          + " with "
                          + (acid.low() > 0 ? "acid" : "base"),
                      acid.low() > 0 ? "a lower pH at the end" : "a higher pH at the end",
                      "alkalinity is titrated with acid, an acid value with base");
                }
              }
              return f.list();
            }));
    return checks;
  }

  private static List<Check> tableChecks(MaterialTable table) {
    List<Check> checks = new ArrayList<>();
    checks.add(
        new Check(
            "family-in-table",
            "table",
            "every material's family is the one of the table",
            () -> families(table)));
    checks.add(
        new Check(
            "acid-in-table",
            "table",
            "every acid of a material is the one of the table",
            () -> acids(table)));
    checks.add(
        new Check(
            "price-of-nothing", "table", "every price belongs to a row", () -> prices(table)));
    checks.add(
        new Check(
            "same-grade",
            "table",
            "no two rows have one INCI name and one grade",
            () -> grades(table)));
    return checks;
  }

  private static List<Problem> families(MaterialTable table) {
    List<Problem> all = new ArrayList<>();
    for (Material m : table.materials()) {
      Family f = table.families().get(m.family().name());
      if (!m.family().equals(f)) {
        all.addAll(
            new Findings("family-in-table", m.toString())
                .error(
                    "family",
                    m.family().name() + (f == null ? "" : " with other figures"),
                    "a family as it stands in the table",
                    "take it from the table's families")
                .list());
      }
    }
    return all;
  }

  private static List<Problem> acids(MaterialTable table) {
    Map<String, AcidBase> byName = new LinkedHashMap<>();
    table.acids().values().forEach(a -> byName.put(a.name().toLowerCase(Locale.ROOT), a));
    List<Problem> all = new ArrayList<>();
    for (Material m : table.materials()) {
      for (AcidBaseGroup g : m.groups()) {
        AcidBase own = g.acid();
        AcidBase same = byName.get(own.name().toLowerCase(Locale.ROOT));
        if (same != null && !own.apparent() && !own.steps().equals(same.steps())) {
          all.addAll(
              new Findings("acid-in-table", m.toString())
                  .error(
                      "group " + g.name(),
                      own.toString(),
                      same.toString() + " in the table",
                      "name a constant of your own otherwise")
                  .list());
        }
      }
    }
    return all;
  }

  private static List<Problem> prices(MaterialTable table) {
    List<Problem> all = new ArrayList<>();
    for (String id : table.prices().materialIds()) {
      if (table.find(id).isEmpty()) {
        all.addAll(
            new Findings("price-of-nothing", "table")
                .warning("price of " + id, "a price", "the id of a row", "a misspelt id?")
                .list());
      }
    }
    return all;
  }

  private static List<Problem> grades(MaterialTable table) {
    Set<String> seen = new LinkedHashSet<>();
    List<Problem> all = new ArrayList<>();
    for (Material m : table.materials()) {
      String grade = (m.inciName() + "\n" + m.grade()).toLowerCase(Locale.ROOT);
      if (m.lot().isEmpty() && !seen.add(grade)) {
        all.addAll(
            new Findings("same-grade", m.toString())
                .warning(
                    "grade",
                    m.inciName() + ", " + (m.grade().isEmpty() ? "no grade" : m.grade()),
                    "an INCI name and grade that no other row has",
                    "say in the grade what tells them apart")
                .list());
      }
    }
    return all;
  }
}
