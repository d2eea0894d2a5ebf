package org.surfactantblend.solve;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.optimise.LinearProgram;
import org.surfactantblend.optimise.SupportProblem;

/**
 * Which sets of surfactants may be chosen, apart from their amounts.
 *
 * @param most greatest count of surfactants, or -1 when not limited
 * @param fewest least count of surfactants
 * @param mostOfClass greatest counts by class
 * @param minimumUse least mass fraction of a chosen surfactant
 * @param mustUse ids that have to be in
 * @param apart pairs that must not be together
 * @param guarded pairs that the clash guard keeps apart
 * @param onlyIf pairs of which the first needs the second
 */
record Choice(
    int most,
    int fewest,
    Map<ChargeClass, Integer> mostOfClass,
    double minimumUse,
    Set<String> mustUse,
    List<Brief.Pair> apart,
    List<Brief.Pair> guarded,
    List<Brief.Pair> onlyIf) {

  /** The least amount that counts as using a surfactant when the brief names none [kg/kg]. */
  static final double LEAST_USE = 1e-3;

  static Choice of(Programme programme) {
    Brief b = programme.brief;
    List<Brief.Pair> guarded =
        programme.clashes.stream().map(c -> new Brief.Pair(c.first(), c.second())).toList();
    return new Choice(
        b.mostSurfactants().orElse(-1),
        b.fewestSurfactants(),
        b.mostOfClass(),
        b.minimumUsePercent() / 100,
        b.mustUse(),
        b.notTogether(),
        guarded,
        b.onlyIf());
  }

  /** Any set of surfactants. */
  static Choice free() {
    return new Choice(-1, 0, Map.of(), 0, Set.of(), List.of(), List.of(), List.of());
  }

  boolean isPlain() {
    return most < 0
        && fewest == 0
        && mostOfClass.isEmpty()
        && minimumUse == 0
        && mustUse.isEmpty()
        && apart.isEmpty()
        && guarded.isEmpty()
        && onlyIf.isEmpty();
  }

  /**
   * The search for a support that obeys this choice.
   *
   * @param programme where the materials stand
   * @param linear the linear programme whose first variables are the mass fractions
   */
  SupportProblem problem(Programme programme, LinearProgram linear) {
    int n = programme.candidates;
    int[] choosable = IntStream.range(0, n).toArray();
    double[] least = new double[n];
    Arrays.fill(least, leastUse());
    SupportProblem.Builder b = SupportProblem.of(linear, choosable, least);
    for (int j = 0; j < n; j++) {
      b.contribution(j, programme.columns.get(j).activePercent().typical());
    }
    if (most >= 0) {
      b.atMost(most);
    }
    if (fewest > 0) {
      b.atLeast(fewest);
    }
    mostOfClass.forEach(
        (c, count) ->
            b.count(
                IntStream.range(0, n)
                    .filter(j -> programme.columns.get(j).chargeClass().orElse(null) == c)
                    .toArray(),
                0,
                count));
    mustUse.forEach(id -> b.mustUse(programme.indexOf(id)));
    Stream.concat(apart.stream(), guarded.stream())
        .forEach(
            p -> {
              int i = programme.candidateIndex(p.first());
              int j = programme.candidateIndex(p.second());
              if (i >= 0 && j >= 0) {
                b.notTogether(i, j);
              } else if (i >= 0 && programme.brief.fixed().containsKey(p.second())) {
                b.count(new int[] {i}, 0, 0);
              } else if (j >= 0 && programme.brief.fixed().containsKey(p.first())) {
                b.count(new int[] {j}, 0, 0);
              }
            });
    onlyIf.forEach(
        p -> {
          int i = programme.candidateIndex(p.first());
          int j = programme.candidateIndex(p.second());
          if (i >= 0 && j >= 0) {
            b.onlyIf(i, j);
          } else if (i >= 0 && !programme.brief.fixed().containsKey(p.second())) {
            b.count(new int[] {i}, 0, 0);
          }
        });
    return b.build();
  }

  /** Whether a blend obeys this choice. */
  boolean allows(Programme programme, double[] w) {
    int used = 0;
    Map<ChargeClass, Integer> ofClass = new EnumMap<>(ChargeClass.class);
    for (int j = 0; j < programme.candidates; j++) {
      if (w[j] > 0) {
        if (!isPlain() && w[j] < leastUse()) {
          return false;
        }
        used++;
        programme.columns.get(j).chargeClass().ifPresent(c -> ofClass.merge(c, 1, Integer::sum));
      }
    }
    boolean counts = used >= fewest && (most < 0 || used <= most);
    for (Map.Entry<ChargeClass, Integer> e : mostOfClass.entrySet()) {
      counts &= ofClass.getOrDefault(e.getKey(), 0) <= e.getValue();
    }
    return counts
        && mustUse.stream().allMatch(id -> w[programme.indexOf(id)] >= leastUse())
        && Stream.concat(apart.stream(), guarded.stream())
            .noneMatch(p -> uses(programme, w, p.first()) && uses(programme, w, p.second()))
        && onlyIf.stream()
            .noneMatch(p -> uses(programme, w, p.first()) && !uses(programme, w, p.second()));
  }

  private static boolean uses(Programme programme, double[] w, String id) {
    int j = programme.indexOf(id);
    return j >= 0 && w[j] > 0;
  }

  /** The least mass fraction of a chosen surfactant. */
  double leastUse() {
    return minimumUse > 0 ? minimumUse : LEAST_USE;
  }

  /** The choice with another greatest count, -1 for no limit. */
  Choice withMost(int count) {
    return new Choice(count, fewest, mostOfClass, minimumUse, mustUse, apart, guarded, onlyIf);
  }

  Choice withFewest(int count) {
    return new Choice(most, count, mostOfClass, minimumUse, mustUse, apart, guarded, onlyIf);
  }

  Choice withoutMostOfClass(ChargeClass chargeClass) {
    Map<ChargeClass, Integer> changed = new EnumMap<>(ChargeClass.class);
    changed.putAll(mostOfClass);
    changed.remove(chargeClass);
    return new Choice(most, fewest, changed, minimumUse, mustUse, apart, guarded, onlyIf);
  }

  Choice withMinimumUse(double fraction) {
    return new Choice(most, fewest, mostOfClass, fraction, mustUse, apart, guarded, onlyIf);
  }

  Choice withoutMust(String id) {
    Set<String> changed = new LinkedHashSet<>(mustUse);
    changed.remove(id);
    return new Choice(most, fewest, mostOfClass, minimumUse, changed, apart, guarded, onlyIf);
  }

  Choice withoutApart(Brief.Pair pair) {
    return new Choice(
        most, fewest, mostOfClass, minimumUse, mustUse, without(apart, pair), guarded, onlyIf);
  }

  Choice withoutGuarded(Brief.Pair pair) {
    return new Choice(
        most, fewest, mostOfClass, minimumUse, mustUse, apart, without(guarded, pair), onlyIf);
  }

  Choice withoutOnlyIf(Brief.Pair pair) {
    return new Choice(
        most, fewest, mostOfClass, minimumUse, mustUse, apart, guarded, without(onlyIf, pair));
  }

  private static List<Brief.Pair> without(List<Brief.Pair> pairs, Brief.Pair pair) {
    return pairs.stream().filter(p -> !p.equals(pair)).toList();
  }

  /** The settings that restrict the choice, each with the choice that does without it. */
  Map<String, Choice> withoutEach() {
    Map<String, Choice> all = new LinkedHashMap<>();
    if (fewest > 0) {
      all.put("at least " + fewest + " surfactants", withFewest(0));
    }
    if (most >= 0) {
      all.put("at most " + most + " surfactants", withMost(-1));
    }
    mostOfClass.forEach(
        (c, n) ->
            all.put("at most " + n + " " + c.label() + " surfactants", withoutMostOfClass(c)));
    if (minimumUse > 0) {
      all.put("minimum use of a chosen surfactant", withMinimumUse(0));
    }
    mustUse.forEach(id -> all.put("must use " + id, withoutMust(id)));
    apart.forEach(p -> all.put(p.first() + " not together with " + p.second(), withoutApart(p)));
    guarded.forEach(
        p -> all.put("clash guard: " + p.first() + " not with " + p.second(), withoutGuarded(p)));
    onlyIf.forEach(p -> all.put(p.first() + " only with " + p.second(), withoutOnlyIf(p)));
    return all;
  }
}
