package org.surfactantblend.mildness;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.surfactantblend.Blends;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.Constituent;
import org.surfactantblend.material.Evidence;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.quantity.Range;

/** The measures of blends of the shipped materials. */
class BlendMildnessTest {
  private final MaterialTable table = Blends.starterTable();

  private Blend.Builder blend(String id, double percent) {
    return Blend.named("blend").line(table.get(id), percent);
  }

  private BlendMildness of(Blend.Builder b) {
    return Blends.mildness(b.upToHundredWith(table.get("water")), table);
  }

  private BlendMildness classic() {
    return of(
        blend("sodium-laureth-sulfate-27", 30)
            .line(table.get("cocamidopropyl-betaine-30"), 10)
            .line(table.get("decyl-glucoside-52"), 4));
  }

  @Test
  void theClassicThreePartBlend() {
    BlendMildness m = classic();
    double sulfate = table.get("sodium-laureth-sulfate-27").activePercent().typical() * 0.30;
    double betaine = 3.0;
    double glucoside = 2.08;
    double all = sulfate + betaine + glucoside;
    assertEquals(sulfate / betaine, m.anionicToAmphoteric().orElseThrow(), 1e-9);
    assertEquals(100 * (betaine + glucoside) / all, m.secondarySharePercent(), 1e-9);
    IrritationIndex index = m.irritationIndex();
    assertEquals(
        (73 * sulfate + 35 * betaine + 15 * glucoside) / all,
        index.range().orElseThrow().high(),
        1e-9);
    assertEquals(Optional.of(Evidence.RANKED), index.weakestEvidence());
    // The eye-hazard limits are 10 % for both; the glucoside has none and is named.
    assertEquals((sulfate + betaine) / 10, m.eyeHazard().serious(), 1e-9);
    assertEquals(List.of("decyl-glucoside-52"), m.eyeHazard().withoutLimit());
  }

  @Test
  void chargeComesAndGoesWithPh() {
    BlendMildness oxide = of(blend("lauramine-oxide-30", 10));
    assertEquals(0, oxide.atPh(9).netAnionicCharge().sharePercent().orElseThrow(), 1e-9);
    BlendMildness sulfate = of(blend("sodium-lauryl-sulfate-30", 10));
    assertEquals(100, sulfate.netAnionicCharge().sharePercent().orElseThrow(), 1e-9);
    BlendMildness acetate = of(blend("sodium-cocoamphoacetate-32", 10));
    double low = acetate.atPh(5.5).netAnionicCharge().sharePercent().orElseThrow();
    double high = acetate.atPh(10).netAnionicCharge().sharePercent().orElseThrow();
    assertTrue(low < 1 && high > 95, () -> low + " and " + high);
    BlendMildness glutamate = of(blend("sodium-cocoyl-glutamate-27", 10));
    double acid = glutamate.atPh(4).netAnionicCharge().sharePercent().orElseThrow();
    double neutral = glutamate.atPh(8).netAnionicCharge().sharePercent().orElseThrow();
    assertTrue(acid < 110 && neutral > 190, () -> acid + " and " + neutral);
  }

  @Test
  void whatIsMissingIsNamedAndNeverZero() {
    BlendMildness m = of(blend("cocamide-mea-95", 2).line(table.get("coco-glucoside-52"), 10));
    assertEquals(Optional.empty(), m.irritationIndex().range());
    assertEquals("not given: no score of cocamide-mea-95", m.irritationIndex().text());
    assertEquals(
        List.of("no CMC of Cocamide MEA", "no CMC of Coco-Glucoside"), m.micelles().missing());
    assertEquals(Optional.empty(), m.micelles().diluted());
    String text = m.toString();
    assertTrue(text.contains("not given"), text);
    assertTrue(text.contains("index: no score of cocamide-mea-95"), text);
  }

  @Test
  void aMaterialWithoutMolarMassHasNoChargeShare() {
    Material betaine = table.get("cocamidopropyl-betaine-30");
    Material odd =
        Material.builder("odd")
            .inciName("Odd Betaine")
            .family(betaine.family())
            .constituent(
                Constituent.active(
                    "Odd Betaine",
                    Range.exactly(30),
                    betaine.chargeClass().orElseThrow(),
                    OptionalDouble.empty()))
            .build();
    NetAnionicCharge charge =
        NetAnionicCharge.of(
            Blend.named("x").line(odd, 10).upToHundredWith(table.get("water")),
            5.5,
            Conditions.standard());
    assertEquals("not given: no molar mass of odd", charge.text());
    SaltCarried salt =
        of(Blend.named("x").line(odd, 10).line(table.get("sodium-lauryl-sulfate-30"), 5))
            .saltCarried();
    // Ten per cent of a 30 % amidopropyl betaine: 3 g of active with 0.1706 g of salt each.
    assertEquals(0.5118, salt.estimatedPercent(), 1e-4);
    assertEquals(List.of("odd"), salt.estimatedFor());
  }

  @Test
  void micellesTakeThePlaceOfMonomers() {
    BlendMicelles micelles = classic().micelles();
    MixedMicelle product = micelles.product().orElseThrow();
    MixedMicelle diluted = micelles.diluted().orElseThrow();
    double total = 0;
    double free = product.micellisedMmolPerL();
    for (int i = 0; i < product.components().size(); i++) {
      total += product.totalMmolPerL(i);
      free += product.monomerMmolPerL(i);
    }
    assertEquals(total, free, 1e-9 * total, "balance");
    assertEquals(product.totalMmolPerL(0) / 10, diluted.totalMmolPerL(0), 1e-12);
    assertTrue(micelles.anionicMonomerRatio().orElseThrow() < 1, "attraction holds anionics back");
    assertTrue(
        micelles.caveats().stream().anyMatch(c -> c.contains("sodium chloride")),
        () -> micelles.caveats().toString());
    assertTrue(micelles.sources().contains("CCJ2011"), () -> micelles.sources().toString());
  }

  @Test
  void twoDrumsOfOneSurfactantMakeOneComponent() {
    BlendMicelles micelles =
        of(blend("sodium-laureth-sulfate-27", 10).line(table.get("sodium-laureth-sulfate-70"), 5))
            .micelles();
    assertEquals(1, micelles.product().orElseThrow().components().size());
    assertEquals(0.80, micelles.product().orElseThrow().mixtureCmcMmolPerL(), 1e-12);
  }

  @Test
  void aPolymersChargeIsAskedFor() {
    Blend.Builder b =
        blend("sodium-laureth-sulfate-27", 30).line(table.get("polyquaternium-7-9"), 2);
    BlendMildness m = of(b);
    assertEquals(
        "not given: no charge of polyquaternium-7-9", m.polymerChargeRatio().orElseThrow().text());
    PolymerChargeRatio ratio =
        m.withPolymerCharge("polyquaternium-7-9", 0.3).polymerChargeRatio().orElseThrow();
    double minus = m.netAnionicCharge().meqPerKg().orElseThrow();
    assertEquals(2 * 10 * 0.3 / minus, ratio.ratio().orElseThrow(), 1e-12);
    assertFalse(ratio.isNearOne());
    assertEquals(Optional.empty(), classic().polymerChargeRatio());
  }

  @Test
  void aCreditLowersTheIndexByTheVarianceOfCharge() {
    BlendMildness m = classic();
    assertEquals(OptionalDouble.empty(), m.blendedIndex(), "off unless asked for");
    double y = m.blend().share(org.surfactantblend.material.ChargeClass.ANIONIC).value() / 100;
    double linear = m.irritationIndex().range().orElseThrow().high();
    double blended =
        m.withCredit(MixingCredit.ofChargeVariance(50, 6)).blendedIndex().orElseThrow();
    // Sulfate -1, the rest within 0.001 of 0: the variance is y (1 - y).
    assertEquals(linear - 50 * y * (1 - y), blended, 0.05);
  }

  @Test
  void threeBlendsSideBySide() {
    BlendMildness a = classic();
    BlendMildness b =
        of(blend("cocamidopropyl-betaine-30", 20).line(table.get("decyl-glucoside-52"), 10));
    BlendMildness c =
        of(blend("sodium-cocoyl-glutamate-27", 20).line(table.get("coco-glucoside-52"), 10));
    String text = BlendMildness.table(List.of(a, b, c));
    text.lines().forEach(l -> assertTrue(l.length() <= 80, l));
    for (String part :
        List.of(
            "total active",
            "net anionic charge",
            "irritation index",
            "weakest evidence",
            "anionic monomer",
            "sodium chloride",
            "eye-hazard sum",
            "upper bound",
            "C: micelles: no CMC of Sodium Cocoyl Glutamate, no CMC of Coco-Glucoside")) {
      assertTrue(text.contains(part), () -> part + " is not in\n" + text);
    }
    for (String word : List.of("safe", "hypoallergenic", "non-irritating")) {
      assertFalse(text.contains(word), word);
    }
    assertThrows(IllegalArgumentException.class, () -> BlendMildness.table(List.of()));
    assertThrows(IllegalArgumentException.class, () -> BlendMildness.table(List.of(a, b, c, a)));
  }
}
