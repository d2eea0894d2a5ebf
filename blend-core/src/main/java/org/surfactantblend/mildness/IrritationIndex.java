package org.surfactantblend.mildness;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Evidence;
import org.surfactantblend.material.IrritationScore;
import org.surfactantblend.material.IrritationScores;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/**
 * The irritation index of a surfactant mix: the scores of its surfactants weighted by their share
 * of the active matter,
 *
 * <pre>  I = sum a_i I_i / sum a_i.</pre>
 *
 * <p>{@link #BASIS} says what the figure is and is not. A surfactant without a score makes the
 * index "not given" and is named; it never counts as zero.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param range low, middle and high index [sodium lauryl sulfate = 100], or empty when a score is
 *     missing or there is no active matter
 * @param weakestEvidence the weakest evidence among the scores used, or empty when none was used
 * @param withoutScore the materials that hold active matter but have no score
 */
public record IrritationIndex(
    Optional<Range> range, Optional<Evidence> weakestEvidence, List<String> withoutScore) {
  /** What the index is, to be shown with it. */
  public static final String BASIS =
      "Screening indicator, weighted by share of the active. For anionic with amphoteric or"
          + " nonionic surfactant it is an upper bound: measured mixtures fall below the weighted"
          + " mean. It knows nothing of dose, pH, added salt or fragrance. Assessment by a"
          + " qualified person is required.";

  /**
   * One material of a mix.
   *
   * @param material its name, for messages
   * @param active its active matter, in one mass unit of any size, 0 or more
   * @param score its score, or empty when it has none
   */
  public record Part(String material, double active, Optional<IrritationScore> score) {
    /**
     * Checks the values.
     *
     * @param material its name, for messages
     * @param active its active matter, in one mass unit of any size, 0 or more
     * @param score its score, or empty when it has none
     * @throws IllegalArgumentException if the name is blank or the active matter out of range
     */
    public Part {
      material = Require.text("material", material);
      active = Require.inRange("active matter of " + material, active, 0, 1e9, "mass units");
      Objects.requireNonNull(score, "irritation score");
    }
  }

  /**
   * The index in words.
   *
   * @return for instance {@code 10 to 31, middle 18, weakest evidence ranked}, or what is missing
   */
  public String text() {
    if (range.isEmpty()) {
      return withoutScore.isEmpty()
          ? "not given: no active matter"
          : "not given: no score of " + String.join(", ", withoutScore);
    }
    Range r = range.get();
    return Text.fixed(r.low(), 1)
        + " to "
        + Text.fixed(r.high(), 1)
        + ", middle "
        + Text.fixed(r.typical(), 1)
        + weakestEvidence.map(e -> ", weakest evidence " + e.label()).orElse("");
  }

  /**
   * Copies the list.
   *
   * @param range low, middle and high index [sodium lauryl sulfate = 100], or empty when a score is
   *     missing or there is no active matter
   * @param weakestEvidence the weakest evidence among the scores used, or empty when none was used
   * @param withoutScore the materials that hold active matter but have no score
   */
  public IrritationIndex {
    Objects.requireNonNull(range, "index");
    Objects.requireNonNull(weakestEvidence, "evidence");
    withoutScore = List.copyOf(withoutScore);
  }

  /**
   * The index of a blend at the typical contents of its materials.
   *
   * @param blend the blend
   * @param scores the scores, such as those of the table of materials
   * @return the index, or the ids of the materials that lack a score
   */
  public static IrritationIndex of(Blend blend, IrritationScores scores) {
    List<Part> parts = new ArrayList<>();
    for (BlendLine line : blend.lines()) {
      for (Constituent c : line.material().constituents()) {
        if (c.isActive()) {
          parts.add(
              new Part(
                  line.material().id(),
                  line.massFraction() * c.percent().typical(),
                  scores.find(line.material(), c)));
        }
      }
    }
    return of(parts);
  }

  /**
   * The index of a mix.
   *
   * @param parts its materials; those without active matter do not count
   * @return the index, or the names of the materials that lack a score
   */
  public static IrritationIndex of(List<Part> parts) {
    double total = 0;
    double low = 0;
    double typical = 0;
    double high = 0;
    Optional<Evidence> weakest = Optional.empty();
    List<String> missing = new ArrayList<>();
    for (Part part : parts) {
      if (part.active() == 0) {
        continue;
      }
      if (part.score().isEmpty()) {
        if (!missing.contains(part.material())) {
          missing.add(part.material());
        }
        continue;
      }
      IrritationScore score = part.score().get();
      total += part.active();
      low += part.active() * score.score().low();
      typical += part.active() * score.score().typical();
      high += part.active() * score.score().high();
      if (weakest.isEmpty() || score.evidence().compareTo(weakest.get()) > 0) {
        weakest = Optional.of(score.evidence());
      }
    }
    if (total == 0 || !missing.isEmpty()) {
      return new IrritationIndex(Optional.empty(), weakest, missing);
    }
    double least = low / total;
    double middle = Math.max(least, typical / total);
    return new IrritationIndex(
        Optional.of(Range.of(least, middle, Math.max(middle, high / total))), weakest, missing);
  }
}
