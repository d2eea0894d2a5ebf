package org.surfactantblend.io;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.ObjDoubleConsumer;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.CertificateOfAnalysis;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.SheetPh;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.quantity.Range;

/**
 * The certificate of a lot as JSON, which travels with the lot.
 *
 * <table>
 * <caption>Fields of a certificate; all but material and lot may be left out. As a document of its
 * own they stand beside {@code version} 1 and {@code kind} "certificate"</caption>
 * <tr><th>field</th><th>value</th></tr>
 * <tr><td>material</td><td>the id of the grade</td></tr>
 * <tr><td>lot</td><td>the lot, as it stands on the drum</td></tr>
 * <tr><td>activePercent</td><td>a number or {low, typical, high} [% active, by mass as supplied]</td></tr>
 * <tr><td>dryResiduePercent, saltPercent</td><td>numbers [% m/m as supplied]; never the dry residue as active matter</td></tr>
 * <tr><td>constituents</td><td>numbers by INCI name [% m/m as supplied]</td></tr>
 * <tr><td>ph</td><td>{value, dilutionPercent}; without the dilution only if the certificate does not say</td></tr>
 * <tr><td>alkalinity</td><td>{mmolPerKg, endPointPh, dilutionPercent}: acid used on a sample; or</td></tr>
 * <tr><td>acidValue</td><td>{mgPotassiumHydroxidePerGram, endPointPh, dilutionPercent}: base used; or</td></tr>
 * <tr><td>titration</td><td>{acidEqPerKg, endPointPh, dilutionPercent, groups}: what a titration of several readings found, acid below zero for base; groups are weak groups as {@link MaterialFile} reads them</td></tr>
 * <tr><td>densityGramsPerMl</td><td>a number</td></tr>
 * <tr><td>method</td><td>how the active matter was measured</td></tr>
 * <tr><td>date, expiry</td><td>days as year-month-day</td></tr>
 * <tr><td>pricePerKg</td><td>what the lot cost [currency of the prices, per kg as supplied]</td></tr>
 * </table>
 */
public final class CertificateFile {
  private CertificateFile() {}

  /**
   * A certificate with the grade it is about.
   *
   * @param grade the grade
   * @param certificate the certificate
   */
  public record OfGrade(Material grade, CertificateOfAnalysis certificate) {
    /**
     * Checks that nothing is missing.
     *
     * @param grade the grade
     * @param certificate the certificate
     * @throws NullPointerException if an argument is null
     */
    public OfGrade {
      Objects.requireNonNull(grade, "grade");
      Objects.requireNonNull(certificate, "certificate");
    }
  }

  /**
   * Reads a certificate. Whether its figures are plausible is found out by {@link
   * CertificateOfAnalysis#appliedTo}.
   *
   * @param input the JSON text
   * @param table what there is, beside what the document brings
   * @return the certificate, empty when it could not be read, and every problem
   * @throws NullPointerException if an argument is null
   */
  public static Loaded<Optional<OfGrade>> read(Input input, MaterialTable table) {
    return Question.read(input, table, "certificate", CertificateFile::read);
  }

  /**
   * Writes a certificate, with its grade when that is not in a table.
   *
   * @param grade the grade
   * @param certificate the certificate
   * @param table the table that the reader will have
   * @return the JSON text, with line feeds; it reads back as the same certificate
   * @throws NullPointerException if an argument is null
   */
  public static String write(
      Material grade, CertificateOfAnalysis certificate, MaterialTable table) {
    ObjectNode root = Question.document("certificate").put("material", grade.id());
    put(root, certificate, table);
    Shelf.embed(root, List.of(grade), table);
    return JsonDocument.write(root);
  }

  /** The certificate in an object, or null with problems. */
  static @Nullable OfGrade read(JsonPart c, Shelf shelf) {
    Material grade = shelf.grade(c, "material");
    String lot = c.text("lot");
    // What is said of the lot, each taken up once everything is read.
    List<Consumer<CertificateOfAnalysis.Builder>> said = new ArrayList<>();
    Range active = c.range("activePercent", 0, 100, "% active");
    if (active != null) {
      said.add(b -> b.activePercent(active));
    }
    number(
        c,
        "dryResiduePercent",
        0,
        100,
        "% m/m",
        said,
        CertificateOfAnalysis.Builder::dryResiduePercent);
    number(c, "saltPercent", 0, 100, "% m/m", said, CertificateOfAnalysis.Builder::saltPercent);
    number(
        c,
        "densityGramsPerMl",
        0.5,
        2,
        "g/ml",
        said,
        CertificateOfAnalysis.Builder::densityGramsPerMl);
    number(
        c,
        "pricePerKg",
        0,
        PriceFile.MOST,
        "per kg as supplied",
        said,
        CertificateOfAnalysis.Builder::pricePerKg);
    c.numbers("constituents", false, 0, 100, "% m/m")
        .forEach((inci, percent) -> said.add(b -> b.constituent(inci, percent)));
    ph(c, said);
    titration(c, shelf, said);
    if (c.has("method")) {
      String method = c.text("method");
      said.add(b -> b.method(method));
    }
    LocalDate date = c.day("date");
    if (date != null) {
      said.add(b -> b.date(date));
    }
    LocalDate expiry = c.day("expiry");
    if (expiry != null) {
      said.add(b -> b.expiry(expiry));
    }
    if (grade == null) {
      return null;
    }
    return c.made(
        () -> {
          CertificateOfAnalysis.Builder b = CertificateOfAnalysis.ofLot(lot);
          said.forEach(s -> s.accept(b));
          return new OfGrade(grade, b.build());
        });
  }

  private static void number(
      JsonPart c,
      String field,
      double least,
      double most,
      String unit,
      List<Consumer<CertificateOfAnalysis.Builder>> said,
      ObjDoubleConsumer<CertificateOfAnalysis.Builder> use) {
    if (c.has(field)) {
      double d = c.number(field, least, most, unit);
      said.add(b -> use.accept(b, d));
    }
  }

  private static void ph(JsonPart c, List<Consumer<CertificateOfAnalysis.Builder>> said) {
    JsonPart ph = c.part("ph", false);
    if (ph == null) {
      return;
    }
    double value = ph.number("value", 0, 14, "");
    if (ph.has("dilutionPercent")) {
      double dilution = ph.positive("dilutionPercent", 100, "% m/m");
      said.add(b -> b.ph(value, dilution));
    } else {
      said.add(b -> b.phWithoutDilution(value));
    }
    ph.done();
  }

  private static void titration(
      JsonPart c, Shelf shelf, List<Consumer<CertificateOfAnalysis.Builder>> said) {
    List<String> found = Stream.of("alkalinity", "acidValue", "titration").filter(c::has).toList();
    if (found.size() > 1) {
      c.error(
          ProblemCodes.CHOICE,
          found.get(1),
          String.join(" and ", found),
          "one of alkalinity, acidValue and titration",
          "leave the others out");
    }
    for (String field : found) {
      JsonPart t = c.part(field, true);
      if (t == null) {
        return;
      }
      double endPoint = t.number("endPointPh", 0, 14, "");
      double dilution = t.positive("dilutionPercent", 100, "% m/m");
      switch (field) {
        case "alkalinity" -> {
          double used = t.number("mmolPerKg", 0, 50_000, "mmol/kg");
          said.add(b -> b.alkalinity(used, endPoint, dilution));
        }
        case "acidValue" -> {
          double used = t.number("mgPotassiumHydroxidePerGram", 0, 2500, "mg/g");
          said.add(b -> b.acidValue(used, endPoint, dilution));
        }
        default -> {
          if (!t.has("acidEqPerKg")) {
            t.error(ProblemCodes.MISSING_VALUE, "acidEqPerKg", "nothing", "-50 to 50 eq/kg", "");
          }
          Range used = t.range("acidEqPerKg", -50, 50, "eq/kg");
          List<AcidBaseGroup> groups = MaterialFile.groups(t, "groups", shelf.table().acids());
          if (used != null) {
            said.add(b -> b.titration(SheetPh.endPoint(endPoint, dilution, used), groups));
          }
        }
      }
      t.done();
    }
  }

  private static void put(ObjectNode node, CertificateOfAnalysis c, MaterialTable table) {
    node.put("lot", c.lot());
    c.activePercent().ifPresent(r -> node.set("activePercent", JsonDocument.range(r)));
    c.dryResiduePercent()
        .ifPresent(r -> node.put("dryResiduePercent", JsonDocument.number(r.typical())));
    c.saltPercent().ifPresent(r -> node.put("saltPercent", JsonDocument.number(r.typical())));
    if (!c.others().isEmpty()) {
      ObjectNode others = node.putObject("constituents");
      c.others().forEach((inci, r) -> others.put(inci, JsonDocument.number(r.typical())));
    }
    if (c.ph().isPresent()) {
      ObjectNode ph = node.putObject("ph").put("value", JsonDocument.number(c.ph().orElse(0)));
      c.phDilutionPercent().ifPresent(d -> ph.put("dilutionPercent", JsonDocument.number(d)));
    }
    c.titration()
        .ifPresent(
            t -> {
              ObjectNode titration = node.putObject("titration");
              titration.set("acidEqPerKg", JsonDocument.range(t.addedAcidEqPerKg()));
              titration.put("endPointPh", JsonDocument.number(t.ph().typical()));
              titration.put("dilutionPercent", JsonDocument.number(t.dilutionPercent()));
              if (!c.buffers().isEmpty()) {
                ArrayNode groups = titration.putArray("groups");
                c.buffers().forEach(g -> groups.add(MaterialFile.json(g, table.acids())));
              }
            });
    c.densityGramsPerMl().ifPresent(d -> node.put("densityGramsPerMl", JsonDocument.number(d)));
    if (!c.method().isEmpty()) {
      node.put("method", c.method());
    }
    c.date().ifPresent(d -> node.put("date", d.toString()));
    c.expiry().ifPresent(d -> node.put("expiry", d.toString()));
    c.pricePerKg().ifPresent(p -> node.put("pricePerKg", JsonDocument.number(p)));
  }
}
