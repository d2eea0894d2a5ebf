package org.surfactantblend.solve;

import java.util.List;
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

  NoBlend(Brief brief, List<ConflictPart> conflict, List<Clash> excluded) {
    this.brief = brief;
    this.conflict = List.copyOf(conflict);
    this.excluded = List.copyOf(excluded);
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

  @Override
  public String summary() {
    StringBuilder s = new StringBuilder("No blend meets \"").append(brief.name()).append("\".\n");
    s.append("These demands cannot hold together:\n");
    for (ConflictPart p : conflict) {
      s.append("  - ").append(p.demand()).append('\n');
      s.append("      alone enough: ").append(p.change()).append('\n');
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
