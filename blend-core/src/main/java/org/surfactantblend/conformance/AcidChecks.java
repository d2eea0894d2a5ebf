package org.surfactantblend.conformance;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.quantity.Text;

/** The checks of an acid or base. */
final class AcidChecks {
  private static final double[] IONIC_STRENGTHS = {0, 0.1, 1};

  /** How far a constant may move between 5 and 45 C: the steepest amines move by 1.2 units. */
  private static final double MOST_MOVED = 2;

  private final AcidBase acid;
  private final String subject;
  private final Arithmetic arithmetic;
  private final List<Check> checks = new ArrayList<>();

  private AcidChecks(AcidBase acid, Arithmetic arithmetic) {
    this.acid = acid;
    this.arithmetic = arithmetic;
    subject = "acid " + acid.name();
  }

  static List<Check> of(AcidBase acid, Arithmetic arithmetic) {
    AcidChecks c = new AcidChecks(acid, arithmetic);
    c.add("pka-order", "its constants rise from proton to proton", c::order);
    c.add("acid-curve-falls", "its mean charge never rises with the pH", c::falls);
    c.add("acid-forms", "its forms add up to one and to its mean charge", c::forms);
    c.add("pka-temperature", "its constants move little between 5 and 45 C", c::temperature);
    return c.checks;
  }

  private void add(String code, String sentence, Consumer<Findings> question) {
    checks.add(Findings.check(code, subject, sentence, question));
  }

  private void order(Findings f) {
    List<AcidBase.Step> steps = acid.steps();
    for (int i = 1; i < steps.size(); i++) {
      if (steps.get(i).pKa25() < steps.get(i - 1).pKa25()) {
        f.error(
            "pKa " + (i + 1),
            Text.number(steps.get(i).pKa25()) + " after " + Text.number(steps.get(i - 1).pKa25()),
            "not below the constant of the proton before it",
            "put the constants in rising order");
      }
    }
  }

  private void falls(Findings f) {
    for (double strength : IONIC_STRENGTHS) {
      double before = Double.POSITIVE_INFINITY;
      for (double ph = 0; ph <= 14; ph += 0.125) {
        double now = arithmetic.charge(acid, ph, strength);
        if (!(now <= before + 1e-12)) {
          f.error(
              "mean charge",
              "a rise to "
                  + Text.number(now)
                  + " at pH "
                  + Text.number(ph)
                  + " and ionic strength "
                  + Text.number(strength),
              "a charge that falls as the pH rises",
              "");
          return;
        }
        before = now;
      }
    }
  }

  private void forms(Findings f) {
    for (double strength : IONIC_STRENGTHS) {
      for (double ph = 0; ph <= 14; ph += 0.5) {
        double[] parts = arithmetic.forms(acid, ph, strength);
        double sum = 0;
        double charge = 0;
        for (int i = 0; i < parts.length; i++) {
          sum += parts[i];
          charge += parts[i] * (acid.chargeOfMostProtonatedForm() - i);
        }
        double mean = arithmetic.charge(acid, ph, strength);
        if (Math.abs(sum - 1) > 1e-9 || Math.abs(charge - mean) > 1e-9) {
          f.error(
              "forms",
              "forms that add up to "
                  + Text.number(sum)
                  + " with a charge of "
                  + Text.number(charge)
                  + " at pH "
                  + Text.number(ph),
              "1 and the mean charge of " + Text.number(mean),
              "");
          return;
        }
      }
    }
  }

  private void temperature(Findings f) {
    Conditions cold = Conditions.standard().withTemperature(5);
    Conditions warm = Conditions.standard().withTemperature(45);
    for (int i = 0; i < acid.steps().size(); i++) {
      double moved = warm.pKa(acid, i) - cold.pKa(acid, i);
      if (Math.abs(moved) > MOST_MOVED) {
        f.warning(
            "enthalpy of pKa " + (i + 1),
            "a constant that moves by " + Text.number(moved) + " from 5 to 45 C",
            "at most " + Text.number(MOST_MOVED) + " either way",
            "the enthalpy is in kJ/mol and the heat capacity in J/(K mol)");
      }
    }
  }
}
