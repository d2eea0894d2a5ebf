package org.surfactantblend.mildness;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Examples, caveats and messages of the mixed-micelle model. */
class MixedMicelleTest {
  private static final MicelleComponent SULFATE =
      MicelleComponent.pure("Sodium Lauryl Sulfate", 8.1, HeadGroup.SULFATE);
  private static final MicelleComponent BETAINE =
      MicelleComponent.pure("Lauryl Betaine", 2.0, HeadGroup.BETAINE);
  private static final MicelleComponent GLUCOSIDE =
      MicelleComponent.pure("Decyl Glucoside", 2.0, HeadGroup.SUGAR);

  @Test
  void betaineTakesTheSulfateOutOfTheWater() {
    MixedMicelleModel model =
        MixedMicelleModel.regular(List.of(SULFATE, BETAINE), ShippedMicelles.interactions());
    double[] product = {200, 100};
    MixedMicelle strong = model.at(product);
    MixedMicelle diluted = model.atDilution(product, 10);
    assertTrue(strong.mixtureCmcMmolPerL() < strong.idealCmcMmolPerL());
    assertTrue(strong.activityCoefficient(0) < 1);
    assertTrue(model.anionicMonomerRatio(product).orElseThrow() < 0.5);
    assertEquals(20, diluted.totalMmolPerL(0), 1e-12);
    assertEquals(10, diluted.totalMmolPerL(1), 1e-12);
    assertTrue(diluted.anionicMonomerMmolPerL() > 0);
  }

  @Test
  void withoutAnionicThereIsNoRatio() {
    MixedMicelleModel model = MixedMicelleModel.ideal(List.of(BETAINE, GLUCOSIDE));
    assertEquals(Optional.empty(), model.anionicMonomerRatio(new double[] {5, 5}));
  }

  @Test
  void belowTheCmcEverythingIsMonomer() {
    MixedMicelle state =
        MixedMicelleModel.ideal(List.of(SULFATE, GLUCOSIDE)).at(new double[] {1, 1});
    assertEquals(0, state.micellisedMmolPerL());
    assertEquals(1, state.monomerMmolPerL(0), 1e-15);
    assertEquals(1, state.anionicMonomerMmolPerL(), 1e-15);
  }

  @Test
  void absentSurfactantsStandAtZero() {
    MixedMicelle state =
        MixedMicelleModel.ideal(List.of(SULFATE, GLUCOSIDE)).at(new double[] {20, 0});
    assertEquals(8.1, state.mixtureCmcMmolPerL(), 1e-12);
    assertEquals(8.1, state.monomerMmolPerL(0), 1e-9);
    assertEquals(0, state.monomerMmolPerL(1));
    assertEquals(0, state.micelleFraction(1));
  }

  @Test
  void theLineIsTakenAtTheAnionicShareOfTheMixtureAndNotOfTheWhole() {
    MixedMicelleModel pair =
        MixedMicelleModel.regular(List.of(SULFATE, BETAINE), ShippedMicelles.interactions());
    MixedMicelle two = pair.atCmc(new double[] {1, 1});
    MixedMicelle byConstant =
        MixedMicelleModel.regular(
                List.of(SULFATE, BETAINE),
                InteractionTable.EMPTY.with(
                    HeadGroup.SULFATE,
                    HeadGroup.BETAINE,
                    Interaction.constant(-13.93 + 8.50 * 0.5, "line at one half")))
            .atCmc(new double[] {1, 1});
    assertEquals(byConstant.mixtureCmcMmolPerL(), two.mixtureCmcMmolPerL(), 1e-12);
    Interaction line = ShippedMicelles.interactions().find(SULFATE, BETAINE).orElseThrow();
    assertEquals(-12, line.at(0.1), "held at the most attractive value of the data");
    assertFalse(line.covers(0.1));
    assertTrue(line.covers(0.5));
  }

  @Test
  void namedPairGoesBeforeItsHeadGroups() {
    MicelleComponent decyl = MicelleComponent.pure("Sodium Decyl Sulfate", 33, HeadGroup.SULFATE);
    InteractionTable table = ShippedMicelles.interactions();
    assertEquals(-0.46, table.find(SULFATE, decyl).orElseThrow().at(0));
    assertEquals(-0.46, table.find(decyl, SULFATE).orElseThrow().at(0));
    assertEquals(0, table.find(decyl, decyl).orElseThrow().at(0));
  }

  @Test
  void unknownPairIsNamedAndNeverZero() {
    MicelleComponent oxide = MicelleComponent.pure("Lauramine Oxide", 2.1, HeadGroup.AMINE_OXIDE);
    List<MicelleComponent> both = List.of(oxide, GLUCOSIDE);
    InteractionTable table = ShippedMicelles.interactions();
    assertEquals(
        List.of("Lauramine Oxide with Decyl Glucoside"),
        MixedMicelleModel.missingPairs(both, table));
    IllegalArgumentException refused =
        assertThrows(IllegalArgumentException.class, () -> MixedMicelleModel.regular(both, table));
    assertEquals(
        "interaction parameter of Lauramine Oxide with Decyl Glucoside was not given, every pair"
            + " must have one",
        refused.getMessage());
  }

  @Test
  void caveatsSayWhatWasStretched() {
    InteractionTable table = ShippedMicelles.interactions();
    MixedMicelleModel pair = MixedMicelleModel.regular(List.of(SULFATE, BETAINE), table);
    assertEquals(Set.of(MicelleCaveat.INTERPOLATED), pair.at(new double[] {20, 20}).caveats());
    assertEquals(
        Set.of(MicelleCaveat.INTERPOLATED, MicelleCaveat.OUTSIDE_DATA),
        pair.at(new double[] {1, 20}).caveats());
    MicelleComponent technical =
        new MicelleComponent("Sodium Laureth Sulfate", 0.8, HeadGroup.ETHER_SULFATE, true);
    assertEquals(
        Set.of(MicelleCaveat.ASSUMED_INTERACTION, MicelleCaveat.TECHNICAL_GRADE),
        MixedMicelleModel.regular(List.of(technical, BETAINE), table)
            .at(new double[] {20, 20})
            .caveats());
    assertEquals(
        Set.of(MicelleCaveat.TECHNICAL_GRADE),
        MixedMicelleModel.regular(List.of(technical, BETAINE), table)
            .at(new double[] {20, 0})
            .caveats());
  }

  @Test
  void oppositeChargesAndStrongConstantsAreCaveats() {
    MicelleComponent quat =
        MicelleComponent.pure("Cetrimonium Chloride", 1.3, HeadGroup.QUATERNARY_AMMONIUM);
    InteractionTable table =
        InteractionTable.EMPTY.with(
            HeadGroup.SULFATE,
            HeadGroup.QUATERNARY_AMMONIUM,
            Interaction.constant(-20, "own measurement"));
    assertEquals(
        Set.of(MicelleCaveat.STRONG_CONSTANT, MicelleCaveat.CHARGE_COMPENSATION),
        MixedMicelleModel.regular(List.of(SULFATE, quat), table).at(new double[] {5, 5}).caveats());
  }

  // Regular solution theory splits a binary mixture when beta is above 2 (exact, textbook).
  @Test
  void strongRepulsionMakesTwoKindsOfMicelle() {
    for (double beta : new double[] {1.9, 2.5}) {
      MixedMicelle state =
          MixedMicelleModel.regular(
                  List.of(
                      MicelleComponent.pure("a", 1, HeadGroup.SUGAR),
                      MicelleComponent.pure("b", 1, HeadGroup.SUGAR)),
                  InteractionTable.EMPTY.with("a", "b", Interaction.constant(beta, "drawn")))
              .at(new double[] {500, 500});
      assertEquals(beta > 2, state.caveats().contains(MicelleCaveat.DEMIXING), "beta " + beta);
    }
  }

  // One strongly attracting pair with a third that is indifferent to both: Hessian of the free
  // energy at equal shares of the pair is negative towards the third once beta is below about -8.
  @Test
  void strongPairMayPushOutAnIndifferentThird() {
    InteractionTable table =
        InteractionTable.EMPTY
            .with("a", "b", Interaction.constant(-16, "drawn"))
            .with("a", "c", Interaction.constant(0, "drawn"))
            .with("b", "c", Interaction.constant(0, "drawn"));
    MixedMicelle state =
        MixedMicelleModel.regular(
                List.of(
                    MicelleComponent.pure("a", 1, HeadGroup.SUGAR),
                    MicelleComponent.pure("b", 1, HeadGroup.SUGAR),
                    MicelleComponent.pure("c", 1, HeadGroup.SUGAR)),
                table)
            .at(new double[] {250, 250, 500});
    assertTrue(state.caveats().contains(MicelleCaveat.DEMIXING));
  }

  @Test
  void everyMaterialOfAFourPartBlendIsAccountedFor() {
    List<MicelleComponent> four =
        List.of(
            ShippedMicelles.component("Sodium Lauryl Sulfate"),
            ShippedMicelles.component("Sodium Laureth-2 Sulfate"),
            ShippedMicelles.component("Cocamidopropyl Betaine"),
            ShippedMicelles.component("Decyl Glucoside"));
    MixedMicelle state =
        MixedMicelleModel.regular(four, ShippedMicelles.interactions())
            .at(new double[] {60, 150, 90, 50});
    double free = 0;
    for (int i = 0; i < 4; i++) {
      free += state.monomerMmolPerL(i);
    }
    assertEquals(350, free + state.micellisedMmolPerL(), 1e-9);
    assertFalse(state.caveats().contains(MicelleCaveat.DEMIXING));
  }

  @Test
  void refusalsNameValueAndRange() {
    MixedMicelleModel model = MixedMicelleModel.ideal(List.of(SULFATE));
    assertEquals(
        "number of amounts was 2, allowed is 1",
        assertThrows(IllegalArgumentException.class, () -> model.at(new double[] {1, 2}))
            .getMessage());
    assertEquals(
        "sum of the amounts was 0.0, allowed is more than 0 mmol/L",
        assertThrows(IllegalArgumentException.class, () -> model.at(new double[] {-0.0}))
            .getMessage());
    assertEquals(
        "amount of Sodium Lauryl Sulfate was NaN, allowed is 0.0 to 1.0E9 mmol/L",
        assertThrows(IllegalArgumentException.class, () -> model.at(new double[] {Double.NaN}))
            .getMessage());
    assertEquals(
        "use dilution was 0.5, allowed is 1.0 to 1000000.0 fold",
        assertThrows(IllegalArgumentException.class, () -> model.atDilution(new double[] {1}, 0.5))
            .getMessage());
    assertEquals(
        "number of components was 0, allowed is 1 or more",
        assertThrows(IllegalArgumentException.class, () -> MixedMicelleModel.ideal(List.of()))
            .getMessage());
  }
}
