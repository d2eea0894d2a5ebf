package org.surfactantblend.examples.mymaterials;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.material.AcidBaseGroup;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.SheetPh;
import org.surfactantblend.quantity.Range;

/**
 * Random lots, blends and briefs made of a shop's rows. They shrink to few lines, round numbers and
 * typical lots, so that a counterexample can be read.
 */
final class RandomShop {
  private final MyMaterials mine;

  RandomShop(MyMaterials mine) {
    this.mine = mine;
  }

  /** A point of a range: 0 is typical, -1 the least and 1 the greatest. */
  private static Arbitrary<Double> position() {
    return Arbitraries.integers().between(-10, 10).map(i -> i / 10.0);
  }

  private static double at(Range r, double position) {
    return position < 0
        ? r.typical() + position * (r.typical() - r.low())
        : r.typical() + position * (r.high() - r.typical());
  }

  /** A drum that its row allows: every content, pH and amount of a weak group somewhere inside. */
  Arbitrary<Material> lotOf(Material grade) {
    int contents = grade.constituents().size();
    List<AcidBaseGroup> groups = new ArrayList<>(grade.ownGroups());
    grade.family().groups().stream()
        .filter(g -> grade.ownGroups().stream().noneMatch(own -> own.name().equals(g.name())))
        .forEach(groups::add);
    return Combinators.combine(
            position().list().ofSize(contents),
            position(),
            position(),
            position().list().ofSize(groups.size()))
        .as(
            (inside, ph, strong, weak) -> {
              Material.Builder b = grade.toBuilder().lot("drawn");
              double dry = 0;
              for (int i = 0; i < contents; i++) {
                Constituent c = grade.constituents().get(i);
                double percent = at(c.percent(), inside.get(i));
                b.constituent(c.withPercent(Range.exactly(percent)));
                dry += percent;
              }
              if (grade.dryResiduePercent().isPresent()) {
                b.dryResiduePercent(Range.exactly(Math.min(100, dry)));
              }
              grade
                  .statedPh()
                  .ifPresent(
                      s ->
                          b.sheetPh(
                              new SheetPh(
                                  Range.exactly(at(s.ph(), ph)), s.dilutionPercent(), true)));
              grade
                  .strongIonEqPerKg()
                  .ifPresent(s -> b.strongIonEqPerKg(Range.exactly(at(s, strong))));
              for (int i = 0; i < groups.size(); i++) {
                AcidBaseGroup g = groups.get(i);
                b.group(
                    new AcidBaseGroup(
                        g.name(),
                        g.acid(),
                        g.pKa(),
                        Range.exactly(at(g.amount(), weak.get(i))),
                        g.perMoleActive(),
                        g.onActive()));
              }
              return b.build();
            });
  }

  Arbitrary<Material> surfactant() {
    return Arbitraries.of(mine.surfactants());
  }

  Arbitrary<Material> row() {
    return Arbitraries.of(mine.rows());
  }

  /** One to four rows in 0.5 to 20 % as supplied, filled up with water. */
  Arbitrary<Blend> blend() {
    return Combinators.combine(
            surfactant().list().uniqueElements().ofMinSize(1).ofMaxSize(3),
            amount().list().ofSize(3),
            row(),
            Arbitraries.integers().between(0, 4))
        .as(
            (some, amounts, extra, ofExtra) -> {
              Blend.Builder b = Blend.named("random blend");
              for (int i = 0; i < some.size(); i++) {
                b.line(some.get(i), amounts.get(i));
              }
              if (ofExtra > 0) {
                b.line(extra, ofExtra / 2.0);
              }
              return b.upToHundredWith(mine.water());
            });
  }

  private static Arbitrary<Double> amount() {
    return Arbitraries.integers().between(1, 40).map(i -> i / 2.0);
  }

  /** The same blend from drums drawn out of the ranges of its rows. */
  Arbitrary<Made> madeOfLots() {
    return blend()
        .flatMap(
            typical -> {
              List<Arbitrary<Material>> lots = new ArrayList<>();
              typical.lines().forEach(l -> lots.add(lotOf(l.material())));
              return Combinators.combine(lots)
                  .as(
                      drawn -> {
                        Blend.Builder b = Blend.named("the same of random lots");
                        for (int i = 0; i < drawn.size(); i++) {
                          b.line(drawn.get(i), typical.lines().get(i).amount().value());
                        }
                        return new Made(typical, b.build());
                      });
            });
  }

  /** A recipe at the table's figures, and as one batch of it comes out. */
  record Made(Blend recipe, Blend batch) {
    @Override
    public String toString() {
      StringBuilder s = new StringBuilder(recipe.toString());
      batch
          .lines()
          .forEach(
              l ->
                  s.append("  lot of ")
                      .append(l.material().id())
                      .append(": ")
                      .append(l.material().constituents())
                      .append(l.material().statedPh().map(p -> ", pH " + p.ph()).orElse(""))
                      .append('\n'));
      return s.toString();
    }
  }

  /** What a shop may ask: total active, now and then a share, a starting pH, a number of drums. */
  Arbitrary<Brief> brief() {
    return Combinators.combine(
            surfactant().list().uniqueElements().ofMinSize(1).ofMaxSize(4),
            Arbitraries.integers().between(4, 20),
            Arbitraries.of(ChargeClass.values()),
            Arbitraries.integers().between(-4, 8),
            Arbitraries.integers().between(-4, 12),
            Arbitraries.integers().between(1, 3))
        .as(
            (some, active, chargeClass, share, ph, most) -> {
              Brief.Builder b =
                  Brief.named("random brief")
                      .totalActive(active, 0.3)
                      .atMostSurfactants(most)
                      .choosingFrom(some.stream().map(Material::id).toArray(String[]::new));
              if (share >= 0) {
                b.share(chargeClass, share * 10, share * 10 + 20);
              }
              if (ph >= 0) {
                b.startingPh(4 + ph / 2.0, 5 + ph / 2.0);
              }
              return b.build();
            });
  }
}
