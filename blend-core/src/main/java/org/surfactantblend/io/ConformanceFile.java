package org.surfactantblend.io;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.conformance.Conformance;
import org.surfactantblend.conformance.KnownDeviation;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Problem;

/**
 * The question whether materials and lots can be trusted, and what was found, as JSON.
 *
 * <p>A request of the kind {@code conformance} holds what is to be checked as its {@code materials}
 * and {@code certificates}.
 *
 * <table>
 * <caption>Other fields, beside those of {@link Requests}; each may be left out</caption>
 * <tr><th>field</th><th>value</th></tr>
 * <tr><td>wholeTable</td><td>true to check every row of the table, its acids and its prices as well; false when left out</td></tr>
 * <tr><td>knownDeviations</td><td>a list of {subject, code, reason}: findings that were looked at and accepted</td></tr>
 * </table>
 */
public final class ConformanceFile {
  private static final int MOST = 1000;

  static final Question<Map<String, Conformance>, Map<String, Conformance>> QUESTION =
      new Question<>(
          "conformance",
          ConformanceFile::read,
          all -> all,
          ConformanceFile::answer,
          all ->
              all.values().stream()
                  .flatMap(c -> c.findings().stream())
                  .noneMatch(Problem::isError));

  private ConformanceFile() {}

  /**
   * Reads a request.
   *
   * @param input the JSON text
   * @param table what there is, beside what the request brings
   * @return the checks by subject, empty when the request could not be used, and every problem
   * @throws NullPointerException if an argument is null
   */
  public static Loaded<Optional<Map<String, Conformance>>> read(Input input, MaterialTable table) {
    return QUESTION.read(input, table);
  }

  /**
   * Writes what was found.
   *
   * @param checks the checks by subject, in the order to write them
   * @return the JSON text, with line feeds
   * @throws NullPointerException if the argument is null
   */
  public static String write(Map<String, Conformance> checks) {
    return QUESTION.write(checks, List.of());
  }

  private static @Nullable Map<String, Conformance> read(JsonPart request, Shelf shelf) {
    boolean wholeTable = request.yesNo("wholeTable", false);
    List<KnownDeviation> known =
        request.list("knownDeviations", false, MOST, ConformanceFile::deviation);
    Map<String, Conformance> all = new LinkedHashMap<>();
    for (Material m : shelf.ownMaterials()) {
      all.put(m.toString(), Conformance.of(m));
    }
    for (CertificateFile.OfGrade c : shelf.certificatesToJudge()) {
      all.put(
          c.grade().id() + " lot " + c.certificate().lot(),
          Conformance.of(c.certificate(), c.grade()));
    }
    if (wholeTable) {
      all.put("table", Conformance.of(shelf.table()));
    }
    if (all.isEmpty() && !request.failed()) {
      request.error(
          ProblemCodes.MISSING_VALUE,
          "",
          "nothing to check",
          "materials, certificates or \"wholeTable\": true",
          "");
    }
    if (!known.isEmpty()) {
      // A deviation belongs to the subject that it names; elsewhere it would count as unused.
      all.replaceAll(
          (subject, c) ->
              c.except(
                  known.stream()
                      .filter(d -> subject.equals("table") || subject.equals(d.subject()))
                      .toList()));
    }
    return all;
  }

  private static @Nullable KnownDeviation deviation(JsonPart part) {
    String subject = part.text("subject");
    String code = part.text("code");
    String reason = part.text("reason");
    part.done();
    return part.made(() -> new KnownDeviation(subject, code, reason));
  }

  private static ObjectNode answer(Map<String, Conformance> all) {
    ObjectNode node = JsonDocument.object();
    ArrayNode subjects = node.putArray("checked");
    int errors = 0;
    int warnings = 0;
    for (Map.Entry<String, Conformance> e : all.entrySet()) {
      List<Problem> findings = e.getValue().findings();
      ObjectNode one = subjects.addObject().put("subject", e.getKey());
      one.put("checks", e.getValue().checks().size());
      one.set("findings", Requests.list(findings));
      for (Problem p : findings) {
        errors += p.isError() ? 1 : 0;
        warnings += p.isError() ? 0 : 1;
      }
    }
    return node.put("errors", errors).put("warnings", warnings);
  }
}
