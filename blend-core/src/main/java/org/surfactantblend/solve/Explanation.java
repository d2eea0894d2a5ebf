package org.surfactantblend.solve;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.quantity.Text;

/**
 * Why a brief cannot be met: one set of demands that cannot hold together and is irreducible, found
 * by leaving out one demand after the other, and for each the smallest change that alone is enough.
 */
final class Explanation {
  private final Programme programme;
  private final Search search;
  private final List<Bound> bounds;
  private final Choice choice;

  Explanation(Programme programme, Search search, List<Bound> bounds) {
    this.programme = programme;
    this.search = search;
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
    return new NoBlend(
        programme.brief,
        parts,
        programme.excluded,
        programme.withoutFigures(),
        withTypicalLots(kept));
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
    if (most <= 0 || !feasibleWith(b, most)) {
      return new ConflictPart(b.toString(), bound, OptionalDouble.empty(), ConflictPart.NOT_ENOUGH);
    }
    double low = 0;
    double high = most;
    double step = Math.pow(10, -b.requirement().kind().decimals());
    for (int i = 0; i < 60 && high - low > step * 1e-4; i++) {
      double middle = (low + high) / 2;
      if (feasibleWith(b, middle)) {
        high = middle;
      } else {
        low = middle;
      }
    }
    int decimals = b.requirement().kind().decimals();
    double rounded = outwards(b, b.upper() ? b.value() + high : b.value() - high, decimals);
    for (int i = 0; i < 3 && !solvesWith(b, Math.abs(rounded - b.value())); i++) {
      rounded = outwards(b, rounded + (b.upper() ? step : -step), decimals);
    }
    if (!solvesWith(b, Math.abs(rounded - b.value()))) {
      return new ConflictPart(b.toString(), bound, OptionalDouble.empty(), ConflictPart.NOT_ENOUGH);
    }
    return new ConflictPart(b.toString(), bound, OptionalDouble.of(rounded), b.withValue(rounded));
  }

  /** Rounds away from the asked window, so that the told change is enough. */
  private static double outwards(Bound b, double value, int decimals) {
    java.math.BigDecimal exact = java.math.BigDecimal.valueOf(value);
    java.math.BigDecimal cut =
        exact.setScale(
            decimals, b.upper() ? java.math.RoundingMode.CEILING : java.math.RoundingMode.FLOOR);
    return cut.doubleValue() + 0.0;
  }

  private boolean feasibleWith(Bound b, double loosening) {
    return search.isFeasible(loosened(b, loosening), choice);
  }

  /** Whether the looser brief is solved with its wish: what its owner will try. */
  private boolean solvesWith(Bound b, double loosening) {
    return search.best(loosened(b, loosening), programme.objective(), choice) != null;
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
      double fits = 0;
      double fails = choice.minimumUse();
      for (int i = 0; i < 40; i++) {
        double middle = (fits + fails) / 2;
        if (search.isFeasible(bounds, choice.withMinimumUse(middle))) {
          fits = middle;
        } else {
          fails = middle;
        }
      }
      double rounded = Math.floor(fits * 1e4) / 100;
      return new ConflictPart(
          setting,
          Optional.empty(),
          OptionalDouble.of(rounded),
          "minimum use " + Text.number(rounded) + " % as supplied");
    }
    return new ConflictPart(setting, Optional.empty(), OptionalDouble.empty(), "doing without it");
  }
}
