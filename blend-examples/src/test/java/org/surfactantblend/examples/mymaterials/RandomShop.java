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
import org.surfactantblend.quantity.Text;

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
  Arbitrary<Lot> lotOf(Material grade) {
    return Combinators.combine(
            position().list().ofSize(grade.constituents().size()),
            position(),
            position(),
            position().list().ofSize(groups(grade).size()))
        .as((inside, ph, strong, weak) -> new Lot(grade, inside, ph, strong, weak));
  }

  private static List<AcidBaseGroup> groups(Material grade) {
    List<AcidBaseGroup> groups = new ArrayList<>(grade.ownGroups());
    grade.family().groups().stream()
        .filter(g -> grade.ownGroups().stream().noneMatch(own -> own.name().equals(g.name())))
        .forEach(groups::add);
    return groups;
  }

  /**
   * Where a drum lies in the ranges of its row.
   *
   * @param grade the row
   * @param inside position of each constituent
   * @param ph position of the pH
   * @param strong position of the declared strong ions, if any
   * @param weak position of the amount of each weak group
   */
  record Lot(Material grade, List<Double> inside, double ph, double strong, List<Double> weak) {
    Material material() {
      Material.Builder b = grade.toBuilder().lot("drawn");
      double dry = 0;
      for (int i = 0; i < inside.size(); i++) {
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
                  b.sheetPh(new SheetPh(Range.exactly(at(s.ph(), ph)), s.dilutionPercent(), true)));
      grade.strongIonEqPerKg().ifPresent(s -> b.strongIonEqPerKg(Range.exactly(at(s, strong))));
      List<AcidBaseGroup> groups = groups(grade);
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
    }

    @Override
    public String toString() {
      StringBuilder s = new StringBuilder("lot of ").append(grade.id()).append(':');
      for (int i = 0; i < inside.size(); i++) {
        Constituent c = grade.constituents().get(i);
        s.append(' ')
            .append(c.inciName())
            .append(' ')
            .append(Text.number(at(c.percent(), inside.get(i))))
            .append(" %,");
      }
      return s.append(grade.statedPh().map(p -> " pH " + Text.number(at(p.ph(), ph))).orElse(""))
          .toString();
    }
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
            recipe ->
                Combinators.combine(recipe.lines().stream().map(l -> lotOf(l.material())).toList())
                    .as(lots -> new Made(recipe, lots)));
  }

  /** A recipe at the table's figures, and the drums of one batch of it. */
  record Made(Blend recipe, List<Lot> lots) {
    Blend batch() {
      Blend.Builder b = Blend.named("the same of random lots");
      for (int i = 0; i < lots.size(); i++) {
        b.line(lots.get(i).material(), recipe.lines().get(i).amount().value());
      }
      return b.build();
    }

    @Override
    public String toString() {
      StringBuilder s = new StringBuilder(recipe.toString());
      lots.forEach(l -> s.append("  ").append(l).append('\n'));
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
