package org.surfactantblend.solve;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.LongPredicate;
import java.util.function.LongToDoubleFunction;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.optimise.NumericBreakdownException;
import org.surfactantblend.quantity.Text;

/**
 * Why a brief cannot be met: one set of demands that cannot hold together and is irreducible, found
 * by leaving out one demand after the other, and for each the smallest change that alone is enough.
 */
final class Explanation {
  private final Programme programme;
  private final Search search;
  private final Search quick;
  private final List<Bound> bounds;
  private final Choice choice;

  Explanation(Programme programme, Search search, List<Bound> bounds) {
    this.programme = programme;
    this.search = search;
    this.quick = Search.withoutProof(programme);
    this.bounds = bounds;
    this.choice = Choice.of(programme);
  }

  NoBlend noBlend() {
    List<Bound> kept = new ArrayList<>(bounds);
    Choice keptChoice = choice;
    for (Map.Entry<String, Choice> e : choice.withoutEach().entrySet()) {
      Choice without = keptChoice.withoutEach().get(e.getKey());
      if (without != null && !search.isFeasible(kept, without)) {
        keptChoice = without;
      }
    }
    for (Bound b : bounds) {
      List<Bound> without = new ArrayList<>(kept);
      without.remove(b);
      if (b.leavesATrace()) {
        without.add(b.loosest());
      }
      if (!search.isFeasible(without, keptChoice)) {
        kept = without;
      }
    }
    List<ConflictPart> parts = new ArrayList<>();
    for (Bound b : bounds) {
      if (kept.contains(b)) {
        parts.add(part(b));
      }
    }
    for (String setting : keptChoice.withoutEach().keySet()) {
      parts.add(part(setting));
    }
    if (parts.isEmpty()) {
      // Not even a trace of active matter: no surfactant is left that may be used.
      bounds.stream().filter(Bound::leavesATrace).forEach(b -> parts.add(part(b)));
      if (!programme.excluded.isEmpty()) {
        parts.add(guard());
      }
    }
    return new NoBlend(
        programme.brief,
        parts,
        programme.excluded,
        programme.withoutFigures(),
        withTypicalLots(kept));
  }

  /** The clash guard that took materials out before the search. */
  private ConflictPart guard() {
    Programme without =
        new Programme(
            programme.brief.toBuilder().withoutClashGuard("to explain").build(), programme.table);
    boolean enough = new Search(without).isFeasible(bounds, Choice.of(without));
    return new ConflictPart(
        "clash guard: "
            + programme.excluded.stream().map(Clash::first).collect(Collectors.joining(", "))
            + " left out",
        Optional.empty(),
        OptionalDouble.empty(),
        enough ? "doing without it" : ConflictPart.NOT_ENOUGH);
  }

  private @Nullable StartingPh withTypicalLots(List<Bound> conflict) {
    if (programme.brief.lots() == Brief.Lots.TYPICAL
        || conflict.stream().noneMatch(Programme::isPh)) {
      return null;
    }
    Brief typical = programme.brief.toBuilder().typicalLots().build();
    return BlendSolver.solve(typical, programme.table)
        .<@Nullable StartingPh>fold(SolvedBlend::startingPh, none -> null);
  }

  private ConflictPart part(Bound b) {
    Optional<Bound> bound = Optional.of(b);
    double most = b.mostLoosening();
    if (most <= 0 || !search.isFeasible(loosened(b, most), choice)) {
      return new ConflictPart(b.toString(), bound, OptionalDouble.empty(), ConflictPart.NOT_ENOUGH);
    }
    // What can be told: this end rounded outwards, and from there step by step.
    int decimals = b.requirement().kind().decimals();
    BigDecimal first =
        BigDecimal.valueOf(b.value())
            .setScale(decimals, b.upper() ? RoundingMode.CEILING : RoundingMode.FLOOR);
    BigDecimal step = BigDecimal.ONE.movePointLeft(decimals);
    LongToDoubleFunction told =
        k -> first.add(step.multiply(BigDecimal.valueOf(b.upper() ? k : -k))).doubleValue() + 0.0;
    LongToDoubleFunction loosening = k -> Math.abs(told.applyAsDouble(k) - b.value());
    long enough =
        fewest(
            (long) Math.ceil(most / step.doubleValue()),
            (s, k) -> s.isFeasible(loosened(b, loosening.applyAsDouble(k)), choice));
    // With hardly any charge in it a blend hangs on a hair's breadth that only the wish may find.
    LongPredicate solves = k -> k >= 0 && solvesAtOnce(b, loosening.applyAsDouble(k));
    if (solves.test(enough - 1)) {
      enough = fewest(-1, enough - 1, solves);
    }
    for (int i = 0; i < 4; i++) {
      double value = told.applyAsDouble(enough + i);
      if (solvesWith(b, Math.abs(value - b.value()))) {
        return new ConflictPart(b.toString(), bound, OptionalDouble.of(value), b.withValue(value));
      }
    }
    return new ConflictPart(b.toString(), bound, OptionalDouble.empty(), ConflictPart.NOT_ENOUGH);
  }

  /** Whether a search finds a blend after so many steps of loosening. */
  private interface Trial {
    boolean succeeds(Search search, long steps);
  }

  /**
   * The fewest steps that are enough. Found by the search that looks in one place only; that one
   * step less is not enough is then proved.
   *
   * @param most steps that are enough
   */
  private long fewest(long most, Trial trial) {
    long fewest = fewest(-1, most, k -> trial.succeeds(quick, k));
    return fewest > 0 && trial.succeeds(search, fewest - 1)
        ? fewest(-1, fewest - 1, k -> trial.succeeds(search, k))
        : fewest;
  }

  private static long fewest(long tooFew, long enough, LongPredicate succeeds) {
    long low = tooFew;
    long high = enough;
    while (high - low > 1) {
      long middle = (low + high) / 2;
      if (succeeds.test(middle)) {
        high = middle;
      } else {
        low = middle;
      }
    }
    return high;
  }

  /** Whether the looser brief is solved with its wish: what its owner will try. */
  private boolean solvesWith(Bound b, double loosening) {
    return solvesAtOnce(b, loosening) || solves(search, b, loosening);
  }

  private boolean solvesAtOnce(Bound b, double loosening) {
    return solves(quick, b, loosening);
  }

  private boolean solves(Search by, Bound b, double loosening) {
    try {
      return by.best(loosened(b, loosening), programme.objective(), choice) != null;
    } catch (NumericBreakdownException e) {
      return false; // by a hair's breadth at most
    }
  }

  private List<Bound> loosened(Bound b, double loosening) {
    List<Bound> changed = new ArrayList<>(bounds);
    changed.set(changed.indexOf(b), b.loosened(loosening));
    return changed;
  }

  private ConflictPart part(String setting) {
    Choice without = choice.withoutEach().get(setting);
    if (without == null || !search.isFeasible(bounds, without)) {
      return new ConflictPart(
          setting, Optional.empty(), OptionalDouble.empty(), ConflictPart.NOT_ENOUGH);
    }
    if (setting.equals("at most " + choice.most() + " surfactants")) {
      for (int k = choice.most() + 1; k <= programme.candidates; k++) {
        if (search.isFeasible(bounds, choice.withMost(k))) {
          return new ConflictPart(
              setting, Optional.empty(), OptionalDouble.of(k), "at most " + k + " surfactants");
        }
      }
    }
    if (setting.startsWith("minimum use")) {
      long hundredths = Math.round(Math.floor(choice.minimumUse() * 1e4));
      long fewer =
          fewest(
              hundredths,
              (s, k) -> s.isFeasible(bounds, choice.withMinimumUse((hundredths - k) / 1e4)));
      double rounded = (hundredths - fewer) / 100.0;
      return new ConflictPart(
          setting,
          Optional.empty(),
          OptionalDouble.of(rounded),
          "minimum use " + Text.number(rounded) + " % as supplied");
    }
    return new ConflictPart(setting, Optional.empty(), OptionalDouble.empty(), "doing without it");
  }
}
