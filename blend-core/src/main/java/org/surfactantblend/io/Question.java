package org.surfactantblend.io;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.problem.ProblemsException;

/**
 * One kind of document that asks something: how it is read, worked out and answered.
 *
 * @param kind the word for it in the field {@code kind}; its answer is of the kind {@code
 *     <kind>-answer}
 * @param reader builds what is asked; null after an error
 * @param work works the answer out
 * @param writer writes the answer, envelope apart
 * @param met whether everything that was asked for could be had
 */
record Question<Q, A>(
    String kind,
    Reader<Q> reader,
    Function<Q, A> work,
    Function<A, ObjectNode> writer,
    Predicate<A> met) {
  /** The fields of what other rooms have their own words for. */
  private static final Map<String, List<String>> FIELDS =
      Map.of(
          "active matter", List.of("activePercent"),
          "sodium chloride", List.of("saltPercent", "salt"),
          "dry residue", List.of("dryResiduePercent"),
          "filling up with", List.of("water"),
          "price list", List.of("prices"),
          "cost", List.of("costAtMost"),
          "irritation index", List.of("irritationIndexAtMost"),
          "irritation index (high)", List.of("irritationIndexAtMost"),
          "blended irritation index (high)", List.of("blendedIndexAtMost"));

  /** The version of every document. */
  static final int VERSION = 1;

  /** Reads what is asked. */
  interface Reader<Q> {
    @Nullable Q read(JsonPart request, Shelf shelf);
  }

  /** A document of a kind with nothing in it yet. */
  static ObjectNode document(String kind) {
    return JsonDocument.object().put("version", VERSION).put("kind", kind);
  }

  /** Checks version and kind of a document. */
  static void envelope(JsonPart root, String kind, boolean needed) {
    if (needed || root.has("version")) {
      JsonNode version = root.node("version");
      if (!version.isNumber() || version.doubleValue() != VERSION) {
        root.error(
            version.isMissingNode() ? ProblemCodes.MISSING_VALUE : ProblemCodes.CHOICE,
            "version",
            version.isMissingNode() ? "nothing" : Row.quoted(version.toString()),
            "the number " + VERSION,
            "\"version\": " + VERSION);
      }
    }
    if (needed || root.has("kind")) {
      root.choice("kind", List.of(kind));
    }
  }

  /** The object a document has to be, or null with a problem. */
  static @Nullable JsonPart root(Input input, ProblemLog log) {
    JsonNode root = JsonDocument.parse(Objects.requireNonNull(input, "input"), log);
    if (root == null) {
      return null;
    }
    if (!root.isObject()) {
      log.add(
          Problem.error(
              ProblemCodes.JSON_TYPE,
              Place.in(input.name(), "$"),
              JsonDocument.kind(root),
              "an object",
              ""));
      return null;
    }
    return new JsonPart(input.name(), "$", root, log);
  }

  /** What a document of a kind holds, or null with problems. */
  private static <T> @Nullable T read(
      JsonPart root, String kind, MaterialTable table, Reader<T> reader) {
    envelope(root, kind, true);
    Shelf shelf = Shelf.of(root, table);
    T read = reader.read(root, shelf);
    shelf.reportLots();
    root.done();
    return root.failed() ? null : read;
  }

  /** What a document of a kind holds, with every problem. */
  static <T> Loaded<Optional<T>> read(
      Input input, MaterialTable table, String kind, Reader<T> reader) {
    Objects.requireNonNull(table, "table");
    ProblemLog log = new ProblemLog();
    JsonPart root = root(input, log);
    T read = root == null ? null : read(root, kind, table, reader);
    return new Loaded<>(Optional.ofNullable(read), log.problems());
  }

  Loaded<Optional<Q>> read(Input input, MaterialTable table) {
    return read(input, table, kind, reader);
  }

  /** The whole document of an answer. */
  String write(A answer, List<Problem> problems) {
    ObjectNode root = document(kind + "-answer");
    root.setAll(writer.apply(answer));
    root.set("problems", Requests.list(problems));
    return JsonDocument.write(root);
  }

  /** A problem that another room found, placed in the document. */
  static Problem moved(JsonPart part, Problem p) {
    return new Problem(
        p.code(),
        p.severity(),
        Place.in(part.source(), at(part, p.place().field())),
        p.found(),
        p.allowed(),
        p.advice());
  }

  /** The field that other rooms' words mean, or the object itself where none is given. */
  private static String at(JsonPart part, String words) {
    return FIELDS.getOrDefault(words, List.of(camelCase(words))).stream()
        .filter(part::has)
        .findFirst()
        .map(part::at)
        .orElse(part.path());
  }

  /** {@code choosingFrom} for "choosing from", {@code startingPh} for "starting pH". */
  private static String camelCase(String words) {
    StringBuilder name = new StringBuilder();
    for (String word : words.toLowerCase(Locale.ROOT).split(" ", -1)) {
      boolean first = name.length() == 0 || word.isEmpty();
      name.append(first ? word : word.substring(0, 1).toUpperCase(Locale.ROOT) + word.substring(1));
    }
    return name.toString();
  }

  Requests.Answer reply(JsonPart root, MaterialTable table) {
    Q asked = read(root, kind, table, reader);
    if (asked == null) {
      return Requests.Answer.notUsable(root.log().problems());
    }
    A answer;
    try {
      answer = work.apply(asked);
    } catch (ProblemsException e) {
      e.problems().forEach(p -> root.log().add(moved(root, p)));
      return Requests.Answer.notUsable(root.log().problems());
    }
    return new Requests.Answer(
        met.test(answer) ? Requests.Outcome.MET : Requests.Outcome.NOT_MET,
        write(answer, root.log().problems()));
  }
}
