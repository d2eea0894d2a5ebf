package org.surfactantblend.mildness;

import java.util.HashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;

/**
 * Interaction parameters by pair of head groups, and by pair of named surfactants where that very
 * pair was measured. A named pair goes before its head groups. A pair that is in neither has no
 * parameter: the table never stands in a zero.
 *
 * <p>Immutable and thread-safe; each {@code with} gives a new table.
 */
public final class InteractionTable {
  /** A table without any pair. */
  public static final InteractionTable EMPTY = new InteractionTable(Map.of(), Map.of());

  private static final Interaction SELF = Interaction.constant(0, "a surfactant with itself");

  private final Map<Interaction.Pair, Interaction> byName;
  private final Map<Interaction.Pair, Interaction> byHeadGroup;

  private InteractionTable(
      Map<Interaction.Pair, Interaction> byName, Map<Interaction.Pair, Interaction> byHeadGroup) {
    this.byName = byName;
    this.byHeadGroup = byHeadGroup;
  }

  /**
   * The table with a parameter for two head groups, in place of an earlier one.
   *
   * @param a one head group
   * @param b the other, or the same
   * @param interaction their parameter
   * @return the new table
   */
  public InteractionTable with(HeadGroup a, HeadGroup b, Interaction interaction) {
    return new InteractionTable(
        byName, plus(byHeadGroup, Interaction.Pair.of(a.label(), b.label()), interaction));
  }

  /**
   * The table with a parameter for two named surfactants, in place of an earlier one.
   *
   * @param a the name of one surfactant, as its component has it
   * @param b the name of the other
   * @param interaction their parameter
   * @return the new table
   */
  public InteractionTable with(String a, String b, Interaction interaction) {
    return new InteractionTable(plus(byName, Interaction.Pair.of(a, b), interaction), byHeadGroup);
  }

  /**
   * The table with another laid over it.
   *
   * @param over the parameters that go first, named pairs before named pairs and head groups before
   *     head groups
   * @return the new table
   */
  public InteractionTable with(InteractionTable over) {
    Map<Interaction.Pair, Interaction> names = new HashMap<>(byName);
    names.putAll(over.byName);
    Map<Interaction.Pair, Interaction> headGroups = new HashMap<>(byHeadGroup);
    headGroups.putAll(over.byHeadGroup);
    return new InteractionTable(Map.copyOf(names), Map.copyOf(headGroups));
  }

  /**
   * The parameter of two surfactants.
   *
   * @param a one of them
   * @param b the other
   * @return the parameter, or empty when the table has none for the pair
   */
  public Optional<Interaction> find(MicelleComponent a, MicelleComponent b) {
    if (a.name().equals(b.name())) {
      return Optional.of(SELF);
    }
    Interaction named = byName.get(Interaction.Pair.of(a.name(), b.name()));
    if (named != null) {
      return Optional.of(named);
    }
    return Optional.ofNullable(
        byHeadGroup.get(Interaction.Pair.of(a.headGroup().label(), b.headGroup().label())));
  }

  private static Map<Interaction.Pair, Interaction> plus(
      Map<Interaction.Pair, Interaction> map, Interaction.Pair pair, Interaction interaction) {
    Map<Interaction.Pair, Interaction> copy = new HashMap<>(map);
    copy.put(pair, Objects.requireNonNull(interaction, "interaction"));
    return Map.copyOf(copy);
  }

  @Override
  public String toString() {
    return byName.size() + " pairs by name, " + byHeadGroup.size() + " by head group";
  }
}
