package org.surfactantblend.examples;

import java.util.List;
import org.surfactantblend.Blends;
import org.surfactantblend.conformance.Conformance;
import org.surfactantblend.io.Input;
import org.surfactantblend.io.MaterialFile;
import org.surfactantblend.material.CertificateOfAnalysis;
import org.surfactantblend.material.Material;

/** Can the figures of a new drum be true? Ask before the first batch is made of it. */
public final class NewMaterials {
  private static final String SHELF =
      """
      id,inci_name,charge_class,family,active_min_pct,active_typ_pct,active_max_pct,active_source,dry_residue_min_pct,dry_residue_max_pct,dry_residue_source,ph_low,ph_high,ph_dilution_pct,ph_source,salt_min_pct,salt_max_pct,salt_source,molar_mass_g_per_mol,molar_mass_source
      brook-betaine-31,Cocamidopropyl Betaine,amphoteric,amidopropyl betaine,30,31,32,sheet,36,39,sheet,4.8,5.6,10,sheet,4.9,5.6,sheet,348,sheet
      mill-glucoside-50,Decyl Glucoside,nonionic,alkaline alkyl polyglucoside,49,50.5,52,sheet,50,54,sheet,6.5,7.5,0.2,sheet,0,0.1,sheet,3950,sheet
      """;

  private NewMaterials() {}

  /**
   * Checks two new rows and one certificate.
   *
   * @param args not used
   */
  public static void main(String[] args) {
    List<Material> shelf =
        MaterialFile.materialsFromCsv(Input.text("shelf.csv", SHELF), Blends.starterTable())
            .orElseThrow();
    for (Material material : shelf) {
      System.out.println(Conformance.of(material).summary());
    }
    CertificateOfAnalysis lot =
        CertificateOfAnalysis.ofLot("B-204").activePercent(36.4).ph(5.2, 10).build();
    System.out.println(Conformance.of(lot, shelf.get(0)).summary());
  }
}
