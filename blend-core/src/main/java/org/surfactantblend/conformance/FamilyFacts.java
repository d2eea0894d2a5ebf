package org.surfactantblend.conformance;

import java.util.Map;
import org.surfactantblend.material.Family;

/**
 * What the formula of a surfactant family says of any member.
 *
 * <p>Molar masses are calculated from the formulae, with an alkyl or acyl chain of 8 to 18 carbon
 * atoms and the counter-ions and numbers of ethylene oxide or glycerol units that are sold. Sodium
 * chloride is what one or two chloroacetate or chlorosulfonate groups leave behind when the
 * zwitterion is made; grades from which it was taken out exist, which is why a low figure is only a
 * warning.
 *
 * @param lightest molar mass of the lightest member [g/mol]
 * @param heaviest molar mass of the heaviest member [g/mol]
 * @param saltPerMole sodium chloride formed [mol per mol of active]
 */
record FamilyFacts(double lightest, double heaviest, double saltPerMole) {
  /** For a surfactant of a family that is not listed. */
  private static final FamilyFacts ANY = new FamilyFacts(150, 10_000, 0);

  private static final Map<String, FamilyFacts> FACTS =
      Map.ofEntries(
          Map.entry("alkyl ether sulfate", mass(300, 560)),
          Map.entry("ammonium alkyl ether sulfate", mass(295, 550)),
          Map.entry("alkyl sulfate", mass(230, 390)),
          Map.entry("ammonium alkyl sulfate", mass(225, 370)),
          Map.entry("triethanolamine alkyl sulfate", mass(355, 505)),
          Map.entry("olefin sulfonate", mass(268, 375)),
          Map.entry("alkane sulfonate", mass(270, 360)),
          Map.entry("sulfosuccinate half ester", mass(350, 720)),
          Map.entry("sulfoacetate", mass(270, 420)),
          Map.entry("acyl isethionate", mass(270, 420)),
          Map.entry("acyl methyl isethionate", mass(284, 430)),
          Map.entry("acyl taurate", mass(270, 430)),
          Map.entry("sulfo fatty ester", mass(258, 405)),
          Map.entry("acyl glutamate", mass(290, 565)),
          Map.entry("acyl sarcosinate", mass(235, 400)),
          Map.entry("acyl glycinate", mass(220, 385)),
          Map.entry("acyl alaninate", mass(235, 400)),
          Map.entry("acyl lactylate", mass(235, 455)),
          Map.entry("ether carboxylate", mass(320, 930)),
          Map.entry("soap", mass(165, 435)),
          Map.entry("alkaline alkyl polyglucoside", mass(290, 600)),
          Map.entry("neutralised alkyl polyglucoside", mass(290, 600)),
          Map.entry("acidified alkyl polyglucoside blend", mass(290, 600)),
          Map.entry("ethoxylated glyceride", mass(360, 1700)),
          Map.entry("ethoxylated sorbitan ester", mass(500, 4200)),
          Map.entry("polyglycerol ester", mass(300, 1300)),
          Map.entry("alkanolamide", mass(185, 375)),
          Map.entry("amine oxide", mass(170, 390)),
          Map.entry("amidopropyl betaine", new FamilyFacts(284, 430, 1)),
          Map.entry("alkyl betaine", new FamilyFacts(213, 360, 1)),
          Map.entry("hydroxysultaine", new FamilyFacts(290, 510, 1)),
          Map.entry("amphoacetate", new FamilyFacts(308, 455, 1)),
          Map.entry("amphodiacetate", new FamilyFacts(388, 535, 2)),
          Map.entry("quaternary ammonium", mass(205, 635)));

  private static FamilyFacts mass(double lightest, double heaviest) {
    return new FamilyFacts(lightest, heaviest, 0);
  }

  static FamilyFacts of(Family family) {
    return FACTS.getOrDefault(family.name(), ANY);
  }

  boolean holds(double molarMass) {
    return molarMass >= lightest && molarMass <= heaviest;
  }

  static boolean knows(String family) {
    return FACTS.containsKey(family);
  }
}
