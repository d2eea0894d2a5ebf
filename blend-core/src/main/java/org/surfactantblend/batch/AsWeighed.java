package org.surfactantblend.batch;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Material;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Scale;
import org.surfactantblend.quantity.Text;
import org.surfactantblend.solve.Rebalance;

/**
 * A batch as it was really weighed: what it contains, and what to add when that is not the plan.
 *
 * <p>It starts as weighed by the sheet; say what was different. Every step returns a new value.
 *
 * <pre>
 * Correction fix = AsWeighed.of(sheet).missed("glycerin").correction();
 * </pre>
 *
 * <p>Immutable and thread-safe.
 */
public final class AsWeighed {
  /** How many times the batch a correction may grow to when no kettle is named. */
  private static final double MOST_GROWTH = 100;

  private final BatchSheet sheet;
  private final List<Rebalance.Amount> weighed;
  private final double evaporatedGrams;
  private final double kettleGrams;

  private AsWeighed(
      BatchSheet sheet,
      List<Rebalance.Amount> weighed,
      double evaporatedGrams,
      double kettleGrams) {
    this.sheet = sheet;
    this.weighed = List.copyOf(weighed);
    this.evaporatedGrams = evaporatedGrams;
    this.kettleGrams = kettleGrams;
  }

  /**
   * A batch that so far was weighed as its sheet says.
   *
   * @param sheet the sheet
   * @return the batch
   */
  public static AsWeighed of(BatchSheet sheet) {
    List<Rebalance.Amount> all = new ArrayList<>();
    sheet.lines().forEach(l -> all.add(new Rebalance.Amount(l.material(), l.weighGrams())));
    sheet.water().ifPresent(w -> all.add(new Rebalance.Amount(w.material(), w.weighGrams())));
    return new AsWeighed(sheet, all, 0, sheet.mass().inGrams() * MOST_GROWTH);
  }

  private int indexOf(String materialId) {
    List<Material> planned = new ArrayList<>();
    sheet.lines().forEach(l -> planned.add(l.material()));
    sheet.water().ifPresent(w -> planned.add(w.material()));
    List<Material> found = planned.stream().filter(m -> m.toString().equals(materialId)).toList();
    if (found.isEmpty()) {
      found = planned.stream().filter(m -> m.id().equals(materialId)).toList();
    }
    if (found.size() != 1) {
      throw new IllegalArgumentException(
          "material was '"
              + materialId
              + "', allowed is "
              + (found.isEmpty()
                  ? "a line of " + sheet.blend().name()
                  : "one of the lots "
                      + String.join(", ", found.stream().map(Material::toString).toList())));
    }
    return planned.indexOf(found.get(0));
  }

  private AsWeighed with(int index, Material material, double grams) {
    List<Rebalance.Amount> all = new ArrayList<>(weighed);
    all.set(index, new Rebalance.Amount(material, grams));
    return new AsWeighed(sheet, all, evaporatedGrams, kettleGrams);
  }

  /**
   * What was really weighed of a line.
   *
   * @param materialId the line, such as {@code x} or, of two lots, {@code x lot A}
   * @param mass the mass
   * @return the changed batch
   * @throws IllegalArgumentException if there is no such line, or more than one
   */
  public AsWeighed weighed(String materialId, Mass mass) {
    int i = indexOf(materialId);
    return with(i, weighed.get(i).material(), mass.inGrams());
  }

  /**
   * What was really weighed of a line, from another lot or material than planned.
   *
   * @param materialId the line, such as {@code x} or, of two lots, {@code x lot A}
   * @param lot what was taken
   * @param mass the mass
   * @return the changed batch
   * @throws IllegalArgumentException if there is no such line, or more than one
   */
  public AsWeighed weighed(String materialId, Material lot, Mass mass) {
    return with(indexOf(materialId), lot, mass.inGrams());
  }

  /**
   * The planned mass of a line was taken from another lot or material.
   *
   * @param materialId the line, such as {@code x} or, of two lots, {@code x lot A}
   * @param lot what was taken
   * @return the changed batch
   * @throws IllegalArgumentException if there is no such line, or more than one
   */
  public AsWeighed fromLot(String materialId, Material lot) {
    int i = indexOf(materialId);
    return with(i, lot, weighed.get(i).mass());
  }

  /**
   * A line was left out.
   *
   * @param materialId the line, such as {@code x} or, of two lots, {@code x lot A}
   * @return the changed batch
   * @throws IllegalArgumentException if there is no such line, or more than one
   */
  public AsWeighed missed(String materialId) {
    return weighed(materialId, Mass.grams(0));
  }

  /**
   * A line was weighed in twice.
   *
   * @param materialId the line, such as {@code x} or, of two lots, {@code x lot A}
   * @return the changed batch
   * @throws IllegalArgumentException if there is no such line, or more than one
   */
  public AsWeighed doubled(String materialId) {
    return weighed(materialId, Mass.grams(2 * weighed.get(indexOf(materialId)).mass()));
  }

  /**
   * Water was lost, by the mass of pot and batch before and after.
   *
   * @param mass the mass of the water lost, at most the water that was weighed in
   * @return the changed batch
   * @throws IllegalArgumentException if more water is lost than was weighed in
   */
  public AsWeighed evaporated(Mass mass) {
    double most = 0;
    for (Rebalance.Amount a : weighed) {
      most += a.material().constituents().isEmpty() ? a.mass() : 0;
    }
    double lost =
        Require.inRange("evaporated water", evaporatedGrams + mass.inGrams(), 0, most, "g");
    return new AsWeighed(sheet, weighed, lost, kettleGrams);
  }

  /**
   * Limits how far a correction may let the batch grow.
   *
   * @param most the greatest mass the kettle holds, at least what is in it
   * @return the changed batch
   * @throws IllegalArgumentException if more than that is already in the kettle
   */
  public AsWeighed kettle(Mass most) {
    Require.inRange("kettle", most.inGrams(), mass().inGrams(), Double.MAX_VALUE, "g");
    return new AsWeighed(sheet, weighed, evaporatedGrams, most.inGrams());
  }

  /** What is in the kettle, evaporated water taken off the water lines. */
  private List<Rebalance.Amount> inKettle() {
    List<Rebalance.Amount> all = new ArrayList<>();
    double lost = evaporatedGrams;
    for (Rebalance.Amount a : weighed) {
      double mass = a.mass();
      if (a.material().constituents().isEmpty() && lost > 0) {
        double taken = Math.min(lost, mass);
        mass -= taken;
        lost -= taken;
      }
      if (mass > 0) {
        all.add(new Rebalance.Amount(a.material(), mass));
      }
    }
    return all;
  }

  /**
   * The sheet it was weighed by.
   *
   * @return the sheet
   */
  public BatchSheet sheet() {
    return sheet;
  }

  /**
   * What is in the kettle.
   *
   * @return the mass
   */
  public Mass mass() {
    double sum = 0;
    for (Rebalance.Amount a : inKettle()) {
      sum += a.mass();
    }
    return Mass.grams(sum);
  }

  /**
   * What the batch really contains.
   *
   * @return the blend in the kettle
   * @throws IllegalArgumentException if nothing was weighed
   */
  public Blend contents() {
    double total = Require.positive("mass in the kettle", mass().inGrams(), "g");
    Blend.Builder b = Blend.named(sheet.blend().name() + ", as weighed");
    for (Rebalance.Amount a : inKettle()) {
      b.line(a.material(), a.mass() / total * 100);
    }
    return b.build();
  }

  /**
   * What to add so that every line's main substance, every surfactant above all, comes out as
   * planned, with the smallest final mass. Acids, bases and buffers are left to the readings that
   * follow.
   *
   * @return the additions, and what they cannot repair
   */
  public Correction correction() {
    List<Rebalance.Amount> present = inKettle();
    double least = mass().inGrams();
    double most = Math.max(kettleGrams, least);
    List<Rebalance.Amount> available = new ArrayList<>();
    List<Rebalance.Held> held = new ArrayList<>();
    Blend plan = sheet.blend();
    Set<String> names = new LinkedHashSet<>();
    Set<Material> planned = new LinkedHashSet<>();
    for (BlendLine l : plan.lines()) {
      if (Phase.usualFor(l.material()) == Phase.PH) {
        // Acids and bases go by the pH read afterwards: no batch is stretched to thin them.
        continue;
      }
      planned.add(l.material());
      l.material().constituents().stream()
          .filter(Constituent::isActive)
          .forEach(c -> names.add(c.inciName()));
      if (!l.material().isSurfactant() && !l.material().constituents().isEmpty()) {
        names.add(l.material().constituents().get(0).inciName());
      }
    }
    planned.forEach(m -> available.add(new Rebalance.Amount(m, most)));
    for (String name : names) {
      held.add(
          new Rebalance.Held(
              name, m -> m.percentOf(name).typical(), plan.percentOf(name).typical()));
    }
    double start = Math.min(sheet.mass().inGrams(), most);
    Rebalance.Answer answer =
        new Rebalance(present, available, held, Math.max(least, start), most).solve();
    Map<Material, Double> additions = new LinkedHashMap<>();
    for (int j = 0; j < available.size(); j++) {
      double grams = answer.additions().get(j);
      if (grams > 0) {
        additions.put(available.get(j).material(), grams);
      }
    }
    return new Correction(this, additions, answer.total(), reasons(answer, present), answer);
  }

  private List<Correction.NotRepaired> reasons(
      Rebalance.Answer answer, List<Rebalance.Amount> present) {
    List<Correction.NotRepaired> all = new ArrayList<>();
    for (Rebalance.Reached r : answer.reached()) {
      if (!r.isHeld()) {
        double there = 0;
        for (Rebalance.Amount a : present) {
          there += a.mass() * r.held().percentIn().applyAsDouble(a.material());
        }
        double needs = r.held().percent() > 0 ? there / r.held().percent() : kettleGrams;
        String reason =
            needs > answer.total() * (1 + 1e-9)
                ? "there is too much of it: it would take a batch of " + Text.fixed(needs, 1) + " g"
                : "it cannot be brought in without taking another content further off";
        all.add(
            new Correction.NotRepaired(r.held().name(), r.held().percent(), r.percent(), reason));
      }
    }
    return all;
  }

  /** The scale on which a mass would be weighed. */
  Scale scaleFor(double grams) {
    return new Scales(sheet.scales()).forMass(grams);
  }

  @Override
  public String toString() {
    return sheet.blend().name() + ", " + mass() + " in the kettle of " + sheet.mass() + " planned";
  }
}
