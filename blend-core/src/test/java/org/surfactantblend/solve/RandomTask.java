package org.surfactantblend.solve;

import java.util.List;
import java.util.Map;
import java.util.Random;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.testing.Recheck;
import org.surfactantblend.testing.RecheckedPh;
import org.surfactantblend.testing.RecheckedPh.Balance;
import org.surfactantblend.testing.RecheckedPh.Water;
import org.surfactantblend.testing.Shop;

/** A random shop, a blend it can make, and random briefs around that blend; all from one seed. */
final class RandomTask {
  final Random random;
  final MaterialTable table;

  /** The blend around which a brief was drawn; it meets the ones that are drawn to be met. */
  final Blend known;

  final List<String> ids;

  private final double knownPh;

  RandomTask(long seed) {
    random = new Random(seed);
    table = Shop.random(random, 3 + random.nextInt(5));
    Blend drawn;
    do {
      drawn = Shop.randomBlend(random, table, 4);
    } while (drawn.totalActive().value() < 0.5);
    known = drawn;
    knownPh = RecheckedPh.of(known, Water.at25());
    ids = table.surfactants().stream().map(Material::id).toList();
  }

  /** A brief that the known blend meets; harder ones have windows that it may miss. */
  Brief.Builder brief(double hardness) {
    double centre = Math.max(0.5, Math.min(99, known.totalActive().value() + miss(hardness)));
    Brief.Builder b =
        Brief.named("random")
            .totalActive(centre, Math.min(centre - 0.2, 0.05 + 0.3 * random.nextDouble()))
            .choosingFrom(ids.toArray(String[]::new))
            .withoutClashGuard("invented materials");
    for (BlendLine l : known.lines()) {
      if (!l.material().isSurfactant() && !l.material().id().equals("water")) {
        b.fixed(l.material().id(), l.amount().value());
      }
    }
    for (ChargeClass c : ChargeClass.values()) {
      if (random.nextInt(3) == 0 && c != ChargeClass.CATIONIC) {
        double share = known.share(c).value() + 20 * miss(hardness);
        b.share(c, clip(share - 8 * random.nextDouble()), clip(share + 8 * random.nextDouble()));
      }
    }
    if (random.nextInt(3) != 0) {
      double ph = knownPh + 3 * miss(hardness);
      double low = ph - 0.6 * random.nextDouble();
      double high = ph + 0.6 * random.nextDouble();
      if (ph > 0 && ph < 14) {
        b.startingPh(Math.max(0, low), Math.min(14, high));
      }
    }
    if (random.nextInt(3) == 0) {
      b.salt(0, known.saltPercent().typical() + 0.05 + Math.max(-0.05, miss(hardness)));
    }
    if (random.nextInt(4) == 0) {
      String id = ids.get(random.nextInt(ids.size()));
      b.asSupplied(id, 0, known.asSupplied(id).value() + 1);
    }
    if (random.nextInt(4) == 0) {
      b.costAtMost(known.costPerKg(table.prices()).orElseThrow() * 1.1);
    }
    if (random.nextInt(4) == 0) {
      reserve(b, hardness);
    }
    return b;
  }

  /** Asks for a final pH below the start, with some more acid than the known blend needs. */
  private void reserve(Brief.Builder b, double hardness) {
    double target = Math.max(4, knownPh - 0.2 - 2 * random.nextDouble());
    Brief any = b.build();
    double low = 0;
    double high = Math.min(20, known.asSupplied("water").value() / 2);
    for (int i = 0; i < 16; i++) {
      double middle = (low + high) / 2;
      if (isAbove(target, Recheck.finished(known, any, Shop.CITRIC, middle))) {
        low = middle;
      } else {
        high = middle;
      }
    }
    if (isAbove(target, Recheck.finished(known, any, Shop.CITRIC, high))) {
      return; // out of reach of a decent amount of acid
    }
    if (high < 0.001) {
      return; // it is there without any
    }
    double most = high * (1.001 + 0.5 * random.nextDouble()) * Math.exp(miss(hardness));
    b.toReachPh(target, Shop.CITRIC.id(), Math.min(50, most));
  }

  private static boolean isAbove(double ph, Blend blend) {
    Balance balance = Balance.typical(blend, Water.at25());
    return balance.charge(ph, balance.ionicStrength(ph)) > 0;
  }

  private double miss(double hardness) {
    return hardness * (random.nextDouble() - 0.5);
  }

  static double clip(double share) {
    return Math.max(0, Math.min(100, share));
  }

  void wish(Brief.Builder b) {
    switch (random.nextInt(5)) {
      case 0 -> b.cheapest();
      case 1 -> b.leastAnionicShare();
      case 2 -> b.leastChangeFrom(known);
      case 3 -> b.nearestToShares(Map.of(ChargeClass.AMPHOTERIC, 45.0, ChargeClass.NONIONIC, 30.0));
      default -> {
        // Least surfactant is what a brief prefers by itself.
      }
    }
  }

  Blend mixture(Blend answer) {
    double toKnown = random.nextInt(3) == 0 ? random.nextDouble() : 0.05 * random.nextDouble();
    double size = Math.pow(10, -4 * random.nextDouble());
    Blend.Builder b = Blend.named("mixture");
    double room = 100;
    for (String id : ids) {
      double w =
          (1 - toKnown) * answer.asSupplied(id).value() + toKnown * known.asSupplied(id).value();
      if (random.nextInt(3) == 0) {
        w = Math.max(0, w + size * random.nextGaussian());
      }
      w = Math.min(w, room);
      room -= w;
      if (w > 0) {
        b.line(table.get(id), w);
      }
    }
    for (BlendLine l : known.lines()) {
      if (!l.material().isSurfactant() && !l.material().id().equals("water")) {
        double w = Math.min(room, l.amount().value());
        room -= w;
        b.line(l.material(), w);
      }
    }
    return b.upToHundredWith(Shop.WATER);
  }

  void choice(Brief.Builder b) {
    if (random.nextBoolean()) {
      b.atMostSurfactants(1 + random.nextInt(3));
    }
    if (random.nextBoolean()) {
      b.minimumUse(0.5 + 2 * random.nextDouble());
    }
    if (random.nextInt(3) == 0) {
      b.atMostOfClass(ChargeClass.NONIONIC, random.nextInt(2));
    }
    if (random.nextInt(3) == 0) {
      b.mustUse(ids.get(random.nextInt(ids.size())));
    }
    if (random.nextInt(3) == 0) {
      b.notTogether(ids.get(0), ids.get(1));
    }
    if (random.nextInt(3) == 0) {
      b.onlyIf(ids.get(1), ids.get(2));
    }
  }
}
