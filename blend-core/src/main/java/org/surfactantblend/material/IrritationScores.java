package org.surfactantblend.material;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.surfactantblend.quantity.Require;

/**
 * Irritation scores of surfactants by INCI name, and by grade where the score depends on it, as the
 * number of ethylene oxide units of an ether sulfate.
 *
 * <p>A score with a grade is for materials whose grade holds those words one after the other:
 * {@code 2 EO} is found in {@code about 2 EO, C12-14}, not in {@code about 12 EO}. It goes before a
 * score without one. A surfactant that is in no row has no score; it is never taken as zero.
 *
 * <p>A shop's own scores lie over the shipped ones: where {@link #with(IrritationScores)} brings a
 * score that fits, the ones below are not looked at.
 *
 * <p>Immutable and thread-safe.
 */
public final class IrritationScores {
  /** No scores. */
  public static final IrritationScores EMPTY = new IrritationScores(List.of());

  private static final String GAPS = " \t\n\u000B\f\r,;()";

  private record Graded(String grade, IrritationScore score) {}

  /** The uppermost first; each by INCI name in lower case and as written. */
  private final List<Map<String, List<Graded>>> layers;

  private IrritationScores(List<Map<String, List<Graded>>> layers) {
    this.layers = layers;
  }

  /**
   * These scores with one laid over them.
   *
   * @param inciName the INCI name, compared without regard to case
   * @param grade words that the grade of a material has to hold; empty for every grade
   * @param score the score
   * @return the new scores
   * @throws IllegalArgumentException if the name is blank
   */
  public IrritationScores with(String inciName, String grade, IrritationScore score) {
    return with(new Builder().add(inciName, grade, score).build());
  }

  /**
   * These scores with others laid over them.
   *
   * @param over the scores that go first
   * @return the new scores
   */
  public IrritationScores with(IrritationScores over) {
    List<Map<String, List<Graded>>> all = new ArrayList<>(over.layers);
    all.addAll(layers);
    return new IrritationScores(List.copyOf(all));
  }

  /**
   * The score of an active constituent of a material.
   *
   * @param material the material, for its grade
   * @param constituent the constituent
   * @return its score, or empty when there is none for it
   */
  public Optional<IrritationScore> find(Material material, Constituent constituent) {
    return find(constituent.inciName(), material.grade());
  }

  /**
   * The score of a surfactant.
   *
   * @param inciName the INCI name, compared without regard to case
   * @param grade the grade in words
   * @return the score with the longest grade that fits, or empty when none does
   */
  public Optional<IrritationScore> find(String inciName, String grade) {
    for (Map<String, List<Graded>> layer : layers) {
      // As written in the table it is found without building another text.
      List<Graded> rows = layer.get(inciName);
      if (rows == null) {
        rows = layer.getOrDefault(inciName.toLowerCase(Locale.ROOT), List.of());
      }
      Graded best = null;
      for (Graded row : rows) {
        if ((best == null || row.grade.length() > best.grade.length())
            && (row.grade.isBlank() || words(grade).contains(row.grade))) {
          best = row;
        }
      }
      if (best != null) {
        return Optional.of(best.score);
      }
    }
    return Optional.empty();
  }

  /** The words in lower case with a blank around each. */
  private static String words(String text) {
    if (text.isEmpty()) {
      return "  ";
    }
    StringBuilder words = new StringBuilder();
    boolean gap = false;
    for (char c : text.toLowerCase(Locale.ROOT).toCharArray()) {
      if (GAPS.indexOf(c) < 0) {
        words.append(c);
        gap = false;
      } else if (!gap) {
        words.append(' ');
        gap = true;
      }
    }
    return " " + words.toString().strip() + " ";
  }

  /**
   * Whether there is no score at all.
   *
   * @return true for {@link #EMPTY}
   */
  public boolean isEmpty() {
    for (Map<String, List<Graded>> layer : layers) {
      if (!layer.isEmpty()) {
        return false;
      }
    }
    return true;
  }

  @Override
  public String toString() {
    long names =
        layers.stream()
            .flatMap(l -> l.keySet().stream())
            .map(n -> n.toLowerCase(Locale.ROOT))
            .distinct()
            .count();
    return "irritation scores of " + names + " INCI names";
  }

  /** Gathers the scores of one table, of which none goes before another; not thread-safe. */
  public static final class Builder {
    private final Map<String, List<Graded>> rows = new LinkedHashMap<>();
    private final Map<String, String> written = new LinkedHashMap<>();

    /** Starts without scores. */
    public Builder() {}

    /**
     * Adds a score; one of the same name and grade is replaced.
     *
     * @param inciName the INCI name
     * @param grade words that the grade of a material has to hold; empty for every grade
     * @param score the score
     * @return this builder
     * @throws IllegalArgumentException if the name is blank
     */
    public Builder add(String inciName, String grade, IrritationScore score) {
      String asWritten = Require.text("INCI name", inciName);
      String name = asWritten.toLowerCase(Locale.ROOT);
      written.put(asWritten, name);
      Graded row = new Graded(words(grade), Objects.requireNonNull(score, "irritation score"));
      List<Graded> own = rows.computeIfAbsent(name, n -> new ArrayList<>());
      own.removeIf(old -> old.grade.equals(row.grade));
      own.add(row);
      return this;
    }

    /**
     * Whether a score of that name and grade was added.
     *
     * @param inciName the INCI name
     * @param grade the grade
     * @return true when it was
     */
    public boolean has(String inciName, String grade) {
      String wanted = words(grade);
      for (Graded old : rows.getOrDefault(inciName.toLowerCase(Locale.ROOT), List.of())) {
        if (old.grade.equals(wanted)) {
          return true;
        }
      }
      return false;
    }

    /**
     * Builds the scores.
     *
     * @return the scores
     */
    public IrritationScores build() {
      Map<String, List<Graded>> copy = new LinkedHashMap<>();
      for (Map.Entry<String, List<Graded>> row : rows.entrySet()) {
        copy.put(row.getKey(), List.copyOf(row.getValue()));
      }
      for (Map.Entry<String, String> name : written.entrySet()) {
        copy.put(name.getKey(), copy.getOrDefault(name.getValue(), List.of()));
      }
      return copy.isEmpty() ? EMPTY : new IrritationScores(List.of(Map.copyOf(copy)));
    }

    @Override
    public String toString() {
      return "scores of " + rows.size() + " INCI names so far";
    }
  }
}
