package org.surfactantblend.mildness;

import static org.surfactantblend.mildness.DataRows.number;
import static org.surfactantblend.mildness.DataRows.text;

import java.util.Map;

/** The interaction table and CMCs as the data files have them. */
final class ShippedMicelles {
  private ShippedMicelles() {}

  static InteractionTable interactions() {
    InteractionTable table = InteractionTable.EMPTY;
    for (Map<String, String> row : DataRows.of("interaction.csv")) {
      Interaction interaction =
          new Interaction(
              number(row, "intercept"),
              number(row, "slope"),
              number(row, "lowest"),
              number(row, "highest"),
              number(row, "anionic_share_from"),
              number(row, "anionic_share_to"),
              text(row, "evidence").equals("assumption"),
              text(row, "source"));
      String first = text(row, "first");
      String second = text(row, "second");
      table =
          text(row, "level").equals("head_group")
              ? table.with(
                  HeadGroup.parse(first).orElseThrow(),
                  HeadGroup.parse(second).orElseThrow(),
                  interaction)
              : table.with(first, second, interaction);
    }
    return table;
  }

  static MicelleComponent component(String name) {
    for (Map<String, String> row : DataRows.of("cmc.csv")) {
      if (text(row, "name").equals(name) && text(row, "used").equals("yes")) {
        return new MicelleComponent(
            name,
            number(row, "cmc_mmol_per_l"),
            HeadGroup.parse(text(row, "head_group")).orElseThrow(),
            text(row, "technical_grade").equals("yes"));
      }
    }
    throw new IllegalArgumentException("no CMC of " + name);
  }
}
