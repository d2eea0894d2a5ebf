package org.surfactantblend.swap;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.material.Material;
import org.surfactantblend.testing.RandomBlends;

class RecipeConversionProperties {
  private static List<Material> otherGrades(Blend blend, long seed) {
    Random random = new Random(seed);
    List<Material> all = new ArrayList<>();
    for (BlendLine l : blend.lines()) {
      Material m = l.material();
      if (m.isSurfactant()) {
        int number = Integer.parseInt(m.id().substring("surfactant-".length()));
        all.add(RandomBlends.lot(random, number, "of " + seed));
      } else if (!m.constituents().isEmpty()) {
        all.add(m);
      }
    }
    return all;
  }

  private static RecipeConversion convert(Blend blend, List<Material> grades) {
    return ContentRecipe.of(blend).toGrades(RandomBlends.WATER).using(grades).convert();
  }

  @Property(tries = 300, seed = "20261125")
  void aConversionOfAConversionIsTheDirectOne(@ForAll long seed) {
    Blend teacher = RandomBlends.blend(seed);
    RecipeConversion detour = convert(teacher, otherGrades(teacher, seed + 1));
    List<Material> mine = otherGrades(teacher, seed + 2);
    RecipeConversion direct = convert(teacher, mine);
    if (detour.notHeld().isEmpty() && direct.notHeld().isEmpty()) {
      Blend twice = convert(detour.blend(), mine).blend();
      for (BlendLine l : direct.blend().lines()) {
        assertEquals(
            l.amount().value(), twice.asSupplied(l.material().id()).value(), 1e-9, l.toString());
      }
    } else {
      // Only the salt line can run out: the new lots may carry more than the recipe holds.
      assertTrue(
          detour.notHeld().stream().allMatch(h -> !h.remark().isEmpty())
              && direct.notHeld().stream().allMatch(h -> !h.remark().isEmpty()));
    }
  }
}
