package org.surfactantblend.mildness;

import java.util.OptionalDouble;
import org.apache.commons.math3.analysis.UnivariateFunction;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.util.FastMath;
import org.surfactantblend.quantity.Require;

/**
 * The interaction parameter of two surfactants, from one measured CMC of their mixture: the inverse
 * of the mixed-micelle model. Its result solves Rubingh's pair of equations
 *
 * <pre>
 *   x1^2 ln[alpha1 C* / (x1 C1)] = (1 - x1)^2 ln[(1 - alpha1) C* / ((1 - x1) C2)]
 *   beta = ln[alpha1 C* / (x1 C1)] / (1 - x1)^2
 * </pre>
 *
 * <p>The mixture CMC rises steadily with beta, from nothing towards the smaller of C1/alpha1 and
 * C2/(1 - alpha1). A measured value at or above that has no parameter at all: it happens when the
 * measurement scatters above ideal mixing, and is reported, not clamped.
 *
 * <p>Source: Rubingh, in Mittal (ed.), Solution Chemistry of Surfactants 1, 337 (1979).
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param beta the parameter [RT], or empty when it cannot be determined
 * @param micelleFraction the mole fraction of the first surfactant in the micelle, or empty
 * @param betaChangePerPercentCmc by how much beta moves when the measured CMC is 1 % higher [RT],
 *     or empty
 * @param note why there is no parameter, or what limits it; may be blank
 */
public record InteractionEstimate(
    OptionalDouble beta,
    OptionalDouble micelleFraction,
    OptionalDouble betaChangePerPercentCmc,
    String note) {

  /**
   * The parameter that explains one measurement.
   *
   * @param first one surfactant
   * @param second the other
   * @param firstFraction mole fraction of the first in the mixture, more than 0 and less than 1
   * @param mixtureCmcMmolPerL the measured CMC of the mixture [mmol/L], more than 0
   * @return the estimate, or a note why there is none
   * @throws IllegalArgumentException if the fraction or the CMC is out of range
   */
  public static InteractionEstimate of(
      MicelleComponent first,
      MicelleComponent second,
      double firstFraction,
      double mixtureCmcMmolPerL) {
    Require.inRange("fraction of the first surfactant", firstFraction, 0, 1, "mol/mol");
    Require.positive("fraction of the first surfactant", firstFraction, "mol/mol");
    Require.positive("fraction of the second surfactant", 1 - firstFraction, "mol/mol");
    double measured = FastMath.log(Require.positive("mixture CMC", mixtureCmcMmolPerL, "mmol/L"));
    double ceiling =
        Math.min(first.cmcMmolPerL() / firstFraction, second.cmcMmolPerL() / (1 - firstFraction));
    if (mixtureCmcMmolPerL >= ceiling * (1 - 1e-9)) {
      return none(
          "not determinable: the measured CMC is not below "
              + "the one at which one of the two would form micelles by itself");
    }
    double[] lnCmc = {FastMath.log(first.cmcMmolPerL()), FastMath.log(second.cmcMmolPerL())};
    double[] alpha = {firstFraction, 1 - firstFraction};
    UnivariateFunction excess =
        beta -> new MixingSolver(lnCmc, symmetric(beta)).atCmc(alpha).lnCmc - measured;
    double limit = Interaction.LARGEST;
    if (excess.value(-limit) > 0 || excess.value(limit) < 0) {
      return none("not determinable: it would lie outside -40 to 40");
    }
    double beta = new BrentSolver(1e-13, 1e-13).solve(500, excess, -limit, limit);
    MixingSolver.Micelle state = new MixingSolver(lnCmc, symmetric(beta)).atCmc(alpha);
    double x = state.x[0];
    return new InteractionEstimate(
        OptionalDouble.of(beta),
        OptionalDouble.of(x),
        OptionalDouble.of(0.01 / (x * (1 - x))),
        state.severalMinima ? MicelleCaveat.DEMIXING.text() : "");
  }

  private static InteractionEstimate none(String note) {
    return new InteractionEstimate(
        OptionalDouble.empty(), OptionalDouble.empty(), OptionalDouble.empty(), note);
  }

  private static double[] symmetric(double beta) {
    return new double[] {0, beta, beta, 0};
  }
}
