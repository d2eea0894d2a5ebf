package org.surfactantblend.solve;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.quantity.Text;

/**
 * The answer to a brief that no blend can meet: one set of demands that cannot hold together, none
 * of which can be left out of it, and for each the smallest change that alone is enough.
 *
 * <p>Immutable and thread-safe.
 */
public final class NoBlend implements BlendResult {
  private final Brief brief;
  private final List<ConflictPart> conflict;
  private final List<Clash> excluded;
  private final List<String> withoutFigures;
  private final @Nullable StartingPh withTypicalLots;

  NoBlend(
      Brief brief,
      List<ConflictPart> conflict,
      List<Clash> excluded,
      List<String> withoutFigures,
      @Nullable StartingPh withTypicalLots) {
    this.brief = brief;
    this.conflict = List.copyOf(conflict);
    this.excluded = List.copyOf(excluded);
    this.withoutFigures = List.copyOf(withoutFigures);
    this.withTypicalLots = withTypicalLots;
  }

  @Override
  public Brief brief() {
    return brief;
  }

  /**
   * The demands that cannot hold together; without any one of them the others can.
   *
   * @return at least one part
   */
  public List<ConflictPart> conflict() {
    return conflict;
  }

  /**
   * The candidates the clash guard took out before the search.
   *
   * @return the clashes, may be empty
   */
  public List<Clash> excludedByGuard() {
    return excluded;
  }

  /**
   * The candidates that could not be used because an index or a charge share that the brief asks
   * for needs a score or a molar mass they do not have.
   *
   * @return ids, may be empty
   */
  public List<String> leftOutWithoutFigures() {
    return withoutFigures;
  }

  /**
   * For a brief that has to hold for every lot and fails on a pH: what the best blend for typical
   * lots can promise.
   *
   * @return its starting pH with the guaranteed interval and the cause of its width, or empty
   */
  public Optional<StartingPh> withTypicalLots() {
    return Optional.ofNullable(withTypicalLots);
  }

  @Override
  public String summary() {
    StringBuilder s = new StringBuilder("No blend meets \"").append(brief.name()).append("\".\n");
    s.append(
        conflict.size() == 1
            ? "This demand cannot be met:\n"
            : "These demands cannot hold together:\n");
    for (ConflictPart p : conflict) {
      s.append("  - ").append(p.demand()).append('\n');
      s.append("      alone enough: ").append(p.change()).append('\n');
    }
    withTypicalLots()
        .ifPresent(
            ph ->
                s.append("With typical lots there is a blend. It can promise ")
                    .append(ph.guaranteed())
                    .append(" for every lot.\nThe spread comes mostly from ")
                    .append(ph.causeInWords())
                    .append(": titrate 20 g of the lot and enter what it takes up.\n"));
    if (!withoutFigures.isEmpty()) {
      s.append("Left out, without irritation score or molar mass: ")
          .append(String.join(", ", withoutFigures))
          .append('\n');
    }
    for (Clash c : excluded) {
      s.append("Left out by the clash guard: ").append(c.first()).append('\n');
      s.append("      ").append(c.reason()).append('\n');
    }
    return Text.wrapped(s, 80);
  }

  @Override
  public String toString() {
    return summary();
  }
}
