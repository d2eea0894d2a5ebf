package org.surfactantblend.testing;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.solve.BlendResult;
import org.surfactantblend.solve.BlendSolver;
import org.surfactantblend.solve.Bound;
import org.surfactantblend.solve.Clash;
import org.surfactantblend.solve.ConflictPart;
import org.surfactantblend.solve.NoBlend;

/**
 * Verifies why there is no blend by really solving: the parts of the conflict alone admit no blend,
 * any one left out they do, each told change is enough, and a smaller one is not.
 */
public final class Conflicts {
  /** The least active matter that the library speaks of [% active]. */
  private static final double TRACE = 0.1;

  private Conflicts() {}

  /** Verifies an explanation. */
  public static void verify(BlendResult result, MaterialTable table) {
    NoBlend none =
        result.fold(
            solved -> {
              throw new AssertionError("solved: " + solved.summary());
            },
            n -> n);
    Recheck.result(none, table);
    List<ConflictPart> parts = none.conflict();
    assertFalse(solves(only(none, parts), table), () -> "its parts go together: " + none);
    for (ConflictPart p : parts) {
      List<ConflictPart> others = new ArrayList<>(parts);
      others.remove(p);
      assertTrue(
          solves(only(none, others), table), () -> "not irreducible, without " + p + ":\n" + none);
      p.bound().ifPresent(b -> change(none.brief(), p, b, table));
    }
  }

  private static void change(Brief brief, ConflictPart p, Bound b, MaterialTable table) {
    Requirement.Kind kind = b.requirement().kind();
    double sign = b.upper() ? 1 : -1;
    if (p.enoughAt().isEmpty()) {
      double furthest =
          switch (kind) {
            case STARTING_PH, STARTING_PH_OF_SURFACTANTS -> b.upper() ? 14 : 0;
            case COST -> 1e6;
            case TOTAL_ACTIVE -> b.upper() ? 100 : Math.min(b.value(), TRACE);
            case NET_ANIONIC_CHARGE -> sign * 1e5;
            case NET_ANIONIC_CHARGE_SHARE -> b.upper() ? 400 : 0;
            case IRRITATION_INDEX, BLENDED_INDEX -> b.upper() ? 200 : 0;
            default -> b.upper() ? 100 : 0;
          };
      assertFalse(solves(moved(brief, b, furthest), table), () -> "a change of it is enough: " + p);
      return;
    }
    double enough = p.enoughAt().getAsDouble();
    assertTrue(sign * (enough - b.value()) >= 0, () -> "the wrong way: " + p);
    BlendResult changed = BlendSolver.solve(moved(brief, b, enough), table);
    assertTrue(changed.isSolved(), () -> "not enough: " + p);
    Recheck.result(changed, table);
    double step = Math.pow(10, -kind.decimals());
    double lessByAStep = enough - sign * step * 1.01;
    if (sign * (lessByAStep - b.value()) > 0) {
      assertFalse(solves(moved(brief, b, lessByAStep), table), () -> "less is enough: " + p);
      double half = (enough + b.value()) / 2;
      assertFalse(
          sign * (half - lessByAStep) <= 0 && solves(moved(brief, b, half), table),
          () -> "half of it is enough: " + p);
    }
  }

  private static Brief moved(Brief brief, Bound b, double value) {
    int index = brief.requirements().indexOf(b.requirement());
    Requirement r = b.requirement();
    return brief.withRequirement(
        index,
        new Requirement(
            r.kind(),
            r.subject(),
            b.upper() ? r.low() : value,
            b.upper() ? value : r.high(),
            r.atPh()));
  }

  private static boolean solves(Brief brief, MaterialTable table) {
    BlendResult result = BlendSolver.solve(brief, table);
    Recheck.result(result, table);
    return result.isSolved();
  }

  /** The brief that asks for some parts only, with its fixed lines and candidates. */
  private static Brief only(NoBlend none, List<ConflictPart> parts) {
    Brief old = none.brief();
    Brief.Builder b =
        Brief.named(old.name())
            .fillingUpWith(old.water())
            .conditions(old.conditions())
            .choosingFrom(old.candidates().toArray(String[]::new))
            .choosingFrom(
                old.candidates().isEmpty() ? new String[0] : old.mustUse().toArray(String[]::new))
            .leavingOut(old.leftOut().toArray(String[]::new));
    old.fixed().forEach(b::fixed);
    old.mixingCredit().ifPresent(b::mixingCredit);
    if (old.wish().needsScores()) {
      b.leavingOut(none.leftOutWithoutFigures().toArray(String[]::new));
    }
    if (old.lots() == Brief.Lots.EVERY_LOT_WITHIN_SPECIFICATION) {
      b.everyLotWithinSpecification();
    }
    b.withoutClashGuard("each clash is asked for by itself here");
    for (Clash c : none.excludedByGuard()) {
      b.leavingOut(c.first());
    }
    boolean total = false;
    for (Requirement r : old.requirements()) {
      double low = Double.NEGATIVE_INFINITY;
      double high = Double.POSITIVE_INFINITY;
      for (ConflictPart p : parts) {
        if (p.bound().isPresent() && p.bound().get().requirement().equals(r)) {
          low = p.bound().get().upper() ? low : r.low();
          high = p.bound().get().upper() ? r.high() : high;
        }
      }
      if (r.kind() == Requirement.Kind.TOTAL_ACTIVE && r.hasLow() && Double.isInfinite(low)) {
        // Giving the total up still leaves a trace of it: without any, every share would be met.
        low = Math.min(r.low(), TRACE);
      }
      if (!Double.isInfinite(low) || !Double.isInfinite(high)) {
        total |= r.kind() == Requirement.Kind.TOTAL_ACTIVE;
        b.requirement(new Requirement(r.kind(), r.subject(), low, high, r.atPh()));
      }
    }
    if (!total) {
      b.requirement(
          Requirement.of(Requirement.Kind.TOTAL_ACTIVE, "", Double.NEGATIVE_INFINITY, 100));
    }
    settings(b, old, none, parts.stream().map(ConflictPart::demand).toList());
    return b.build();
  }

  private static void settings(Brief.Builder b, Brief old, NoBlend none, List<String> demands) {
    for (String d : demands) {
      if (d.equals("at least " + old.fewestSurfactants() + " surfactants")) {
        b.exactlySurfactants(old.fewestSurfactants()).atMostSurfactants(20);
      }
    }
    old.mostSurfactants()
        .ifPresent(
            n -> {
              if (demands.contains("at most " + n + " surfactants")) {
                b.atMostSurfactants(n);
              }
            });
    for (Map.Entry<ChargeClass, Integer> e : old.mostOfClass().entrySet()) {
      if (demands.contains("at most " + e.getValue() + " " + e.getKey().label() + " surfactants")) {
        b.atMostOfClass(e.getKey(), e.getValue());
      }
    }
    if (demands.contains("minimum use of a chosen surfactant")) {
      b.minimumUse(old.minimumUsePercent());
    }
    for (String id : old.mustUse()) {
      if (demands.contains("must use " + id)) {
        b.mustUse(id);
      }
    }
    for (Brief.Pair p : old.notTogether()) {
      if (demands.contains(p.first() + " not together with " + p.second())) {
        b.notTogether(p.first(), p.second());
      }
    }
    for (Brief.Pair p : old.onlyIf()) {
      if (demands.contains(p.first() + " only with " + p.second())) {
        b.onlyIf(p.first(), p.second());
      }
    }
    for (String d : demands) {
      if (d.startsWith("clash guard: ")) {
        String[] ids = d.substring("clash guard: ".length()).split(" not with ", 2);
        b.notTogether(ids[0], ids[1]);
      }
    }
    assertTrue(
        demands.stream()
            .filter(
                d ->
                    none.conflict().stream()
                        .anyMatch(p -> p.demand().equals(d) && p.bound().isEmpty()))
            .allMatch(
                d ->
                    d.startsWith("at ")
                        || d.startsWith("minimum use of")
                        || d.startsWith("must use ")
                        || d.startsWith("clash guard: ")
                        || d.contains(" not together with ")
                        || d.contains(" only with ")),
        () -> "a demand this test cannot ask for: " + demands);
  }
}
