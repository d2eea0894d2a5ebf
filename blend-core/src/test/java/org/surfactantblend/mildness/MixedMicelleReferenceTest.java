package org.surfactantblend.mildness;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.surfactantblend.mildness.DataRows.number;
import static org.surfactantblend.mildness.DataRows.text;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.univariate.BrentOptimizer;
import org.apache.commons.math3.optim.univariate.SearchInterval;
import org.apache.commons.math3.optim.univariate.UnivariateObjectiveFunction;
import org.apache.commons.math3.stat.regression.SimpleRegression;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The mixed-micelle model against published arithmetic and measured mixture CMCs. */
class MixedMicelleReferenceTest {
  private static final String PLAIN = "check";
  private static final Map<String, Series> SERIES = measured();

  /** Interior points of one measured series with its two pure CMCs. */
  private record Series(String id, double c1, double c2, List<Point> points) {}

  private record Point(double alpha, double cmc) {}

  // Chem. Cent. J. 5:89 (2011), Table 6: sodium laureth sulfate with three bile salts, 15 rows, the
  // authors' own arithmetic. The CMC of the ether sulfate, 0.80, is implied by their ideal CMCs
  // (0.798 to 0.806). Tolerances: the table prints x and CMC to three digits and beta to 0.01, and
  // beta moves by up to 0.02 per percent of CMC divided by x1 x2.
  static List<Map<String, String>> publishedRows() {
    return DataRows.of("checks/rubingh-sles.csv");
  }

  @ParameterizedTest
  @MethodSource("publishedRows")
  void publishedEtherSulfateTable(Map<String, String> row) {
    MicelleComponent sles = plain("a", number(row, "cmc_sles_mmol_per_l"));
    MicelleComponent bile = plain("b", number(row, "cmc_bile_salt_mmol_per_l"));
    double alpha = number(row, "alpha_sles");
    MixedMicelle ideal =
        MixedMicelleModel.ideal(List.of(sles, bile)).atCmc(new double[] {alpha, 1 - alpha});
    InteractionEstimate estimate =
        InteractionEstimate.of(sles, bile, alpha, number(row, "cmc_measured_mmol_per_l"));
    double published = number(row, "cmc_ideal_published_mmol_per_l");
    assertAll(
        () -> assertEquals(published, ideal.mixtureCmcMmolPerL(), 0.004 * published, "ideal CMC"),
        () ->
            assertEquals(
                number(row, "x_ideal_published"), ideal.micelleFraction(0), 0.003, "ideal"),
        () ->
            assertEquals(
                number(row, "x_published"),
                estimate.micelleFraction().orElseThrow(),
                0.003,
                "micelle fraction"),
        () ->
            assertEquals(
                number(row, "beta_published"), estimate.beta().orElseThrow(), 0.07, "beta"));
  }

  @Test
  void tablesHaveAllTheirRows() {
    assertEquals(15, publishedRows().size());
    assertEquals(15, SERIES.size());
  }

  // Clint (1975), equation of ideal mixing; pure CMCs of series D1, P2SURF open data. 1e-6: printed
  // digits. Measured mixture CMC 11.7838 mmol/L, 15 %: the ideal error of that series is 9 % rms.
  @Test
  void idealMixingOfTwoAlkylSulfates() {
    MixedMicelle state = ideal(8.0541, 32.8108).atCmc(new double[] {0.5, 0.5});
    assertEquals(12.933420, state.mixtureCmcMmolPerL(), 12.93342e-6);
    assertEquals(11.7838, state.mixtureCmcMmolPerL(), 0.15 * 11.7838);
  }

  // Clint (1975), closed form for two surfactants above the CMC.
  @Test
  void idealMonomersFollowTheClosedForm() {
    MixedMicelle state = ideal(8.0541, 32.8108).at(new double[] {25, 25});
    assertEquals(4.969420, state.monomerMmolPerL(0), 4.96942e-6);
    assertEquals(12.566371, state.monomerMmolPerL(1), 12.566371e-6);
    double c1 = 8.0541;
    double c2 = 32.8108;
    for (double c = 15; c < 500; c *= 1.7) {
      for (double alpha = 0.05; alpha < 1; alpha += 0.15) {
        double d = c2 - c1;
        double m1 = c1 * (-(c - d) + Math.sqrt((c - d) * (c - d) + 4 * alpha * c * d)) / (2 * d);
        if (c > 1 / (alpha / c1 + (1 - alpha) / c2)) {
          MixedMicelle at = ideal(c1, c2).at(new double[] {alpha * c, (1 - alpha) * c});
          assertEquals(m1, at.monomerMmolPerL(0), 1e-9 * c, "alpha " + alpha + ", C " + c);
        }
      }
    }
  }

  // Rubingh (1979) forward, sodium dodecyl sulfate with decanoyl N-methylglucamide (D6, P2SURF):
  // figures from an independent solution of the two equations, measured CMC 2.98 mmol/L. The model
  // misses that point by 4.3 %; the series' error level is 4 % rms.
  @Test
  void sulfateWithGlucamide() {
    MixedMicelle state = sulfateGlucamide().atCmc(new double[] {0.6, 0.4});
    assertEquals(3.108404, state.mixtureCmcMmolPerL(), 3.108404e-6);
    assertEquals(0.516971, state.micelleFraction(0), 1e-6);
    assertEquals(0.472203, state.activityCoefficient(0), 1e-6);
    assertEquals(0.423371, state.activityCoefficient(1), 1e-6);
    assertEquals(2.98, state.mixtureCmcMmolPerL(), 0.07 * 2.98);
  }

  @Test
  void sulfateWithGlucamideAboveTheCmc() {
    MixedMicelleModel model = sulfateGlucamide();
    assertEquals(2.527864, model.at(new double[] {18, 12}).monomerMmolPerL(0), 2.6e-6);
    assertEquals(2.715843, model.at(new double[] {180, 120}).monomerMmolPerL(0), 2.8e-6);
    assertEquals(2.740148, model.monomersFarAboveCmc(new double[] {0.6, 0.4})[0], 2.8e-6);
  }

  // The shortcut for product strength against the full solution, same pair: 1 to 3 % at 100 to 400
  // times the CMC is the published experience with it, allowed here is 3 %.
  @Test
  void farAboveTheCmcTheShortcutHolds() {
    MixedMicelleModel model = sulfateGlucamide();
    double cmc = model.atCmc(new double[] {0.6, 0.4}).mixtureCmcMmolPerL();
    double c = MixedMicelleModel.FAR_ABOVE_CMC * cmc;
    double full = model.at(new double[] {0.6 * c, 0.4 * c}).monomerMmolPerL(0);
    assertEquals(full, model.monomersFarAboveCmc(new double[] {0.6, 0.4})[0], 0.03 * full);
  }

  // Measured mixture CMCs of fifteen binary series (P2SURF; Brozos et al. 2024; Chem. Cent. J.
  // 5:89)
  // against the model with one constant per series, fitted here by least squares on ln CMC, and
  // against ideal mixing. Expected error levels come from an independent fit of the same points and
  // are printed to 0.001, so 0.0015 is allowed; a fitted constant to 0.01.
  @ParameterizedTest
  @MethodSource("errorLevels")
  void errorLevelOfEachSeries(Map<String, String> row) {
    Series series = series(text(row, "series"));
    double beta = fit(series);
    assertAll(
        () -> assertEquals(number(row, "n_points"), series.points().size(), "points"),
        () -> assertEquals(number(row, "beta_fit"), beta, 0.01, "beta"),
        () ->
            assertEquals(
                number(row, "rms_ln_fit"), rms(series, alpha -> beta), 0.0015, "error of the fit"),
        () ->
            assertEquals(
                number(row, "rms_ln_ideal"), rms(series, alpha -> 0), 0.0015, "ideal error"));
  }

  static List<Map<String, String>> errorLevels() {
    return DataRows.of("checks/cmc-mixture-errors.csv");
  }

  // The shipped constant for a sulfate with a sugar nonionic, -3.0, on the twelve points of D4-D6:
  // 8 % rms and none beyond 20 % (ln).
  @Test
  void sulfateWithSugarByTheShippedConstant() {
    Interaction shipped = shipped(HeadGroup.SULFATE, HeadGroup.SUGAR);
    List<Double> errors = errors(List.of("D4", "D5", "D6"), shipped::at);
    assertEquals(12, errors.size());
    assertEquals(0.08, rms(errors), 0.01);
    assertTrue(largest(errors) <= 0.20, () -> "largest was " + largest(errors));
  }

  // The shipped line for a sulfate with a betaine on the eleven points of D7-D9: rms at most 15 %,
  // none beyond 25 %. Three betaines, little salt.
  @Test
  void sulfateWithBetaineByTheShippedLine() {
    Interaction shipped = shipped(HeadGroup.SULFATE, HeadGroup.BETAINE);
    List<Double> errors = errors(List.of("D7", "D8", "D9"), shipped::at);
    assertEquals(11, errors.size());
    assertTrue(rms(errors) <= 0.15, () -> "rms was " + rms(errors));
    assertTrue(largest(errors) <= 0.25, () -> "largest was " + largest(errors));
  }

  // The shipped line for a sulfate with an amine oxide on the four points of D11: none beyond 15 %.
  @Test
  void sulfateWithAmineOxideByTheShippedLine() {
    Interaction shipped = shipped(HeadGroup.SULFATE, HeadGroup.AMINE_OXIDE);
    List<Double> errors = errors(List.of("D11"), shipped::at);
    assertEquals(4, errors.size());
    assertTrue(largest(errors) <= 0.15, () -> "largest was " + largest(errors));
  }

  // The line is honest only if it predicts a betaine it has not seen: fitted to two series, tested
  // on the third, 15.5, 15.4 and 21.9 % rms (an independent calculation, printed to 0.1 %).
  @Test
  void lineForBetainesPredictsTheBetaineLeftOut() {
    Map<String, Double> expected = Map.of("D7", 0.155, "D8", 0.154, "D9", 0.219);
    List<String> all = List.of("D7", "D8", "D9");
    for (String out : all) {
      SimpleRegression line = new SimpleRegression();
      for (String in : all) {
        if (!in.equals(out)) {
          addPointwise(series(in), line);
        }
      }
      double rms = rms(errors(List.of(out), line::predict));
      assertEquals(expected.getOrDefault(out, Double.NaN), rms, 0.001, out);
    }
  }

  // The shipped lines are the regressions of the pointwise parameters, printed to 0.01.
  @Test
  void shippedLinesAreTheRegressionsOfTheirSeries() {
    SimpleRegression betaine = new SimpleRegression();
    for (String id : List.of("D7", "D8", "D9")) {
      addPointwise(series(id), betaine);
    }
    SimpleRegression oxide = new SimpleRegression();
    addPointwise(series("D11"), oxide);
    Interaction withBetaine = shipped(HeadGroup.SULFATE, HeadGroup.BETAINE);
    Interaction withOxide = shipped(HeadGroup.SULFATE, HeadGroup.AMINE_OXIDE);
    assertEquals(betaine.getIntercept(), withBetaine.intercept(), 0.005);
    assertEquals(betaine.getSlope(), withBetaine.slope(), 0.005);
    assertEquals(oxide.getIntercept(), withOxide.intercept(), 0.005);
    assertEquals(oxide.getSlope(), withOxide.slope(), 0.005);
  }

  // P2SURF rows 230-236: two of the five points lie at or above the concentration at which the
  // hexadecyl sulfate in the mixture would form micelles by itself.
  @Test
  void parameterIsNotDeterminableWhereTheMeasurementLiesTooHigh() {
    Series series = series("D2");
    List<Double> without = new ArrayList<>();
    for (Point point : series.points()) {
      InteractionEstimate estimate = estimate(series, point);
      if (estimate.beta().isEmpty()) {
        without.add(point.alpha());
        assertTrue(estimate.note().startsWith("not determinable"), estimate.note());
      }
    }
    assertEquals(List.of(0.2, 0.5), without);
  }

  // Every parameter found must satisfy Rubingh's two equations as printed.
  @Test
  void estimatesSatisfyThePrintedEquations() {
    int found = 0;
    for (Series series : SERIES.values()) {
      for (Point point : series.points()) {
        InteractionEstimate estimate = estimate(series, point);
        if (estimate.beta().isEmpty()) {
          continue;
        }
        found++;
        double x = estimate.micelleFraction().orElseThrow();
        double beta = estimate.beta().orElseThrow();
        double first = Math.log(point.alpha() * point.cmc() / (x * series.c1()));
        double second = Math.log((1 - point.alpha()) * point.cmc() / ((1 - x) * series.c2()));
        assertEquals(beta * (1 - x) * (1 - x), first, 1e-9, series.id());
        assertEquals(beta * x * x, second, 1e-9, series.id());
      }
    }
    assertEquals(65, found);
  }

  private static void addPointwise(Series series, SimpleRegression line) {
    for (Point point : series.points()) {
      line.addData(point.alpha(), estimate(series, point).beta().orElseThrow());
    }
  }

  private static InteractionEstimate estimate(Series series, Point point) {
    return InteractionEstimate.of(
        plain("a", series.c1()), plain("b", series.c2()), point.alpha(), point.cmc());
  }

  private static List<Double> errors(List<String> ids, DoubleUnaryOperator beta) {
    List<Double> errors = new ArrayList<>();
    for (String id : ids) {
      Series series = series(id);
      for (Point point : series.points()) {
        errors.add(error(series, point, beta.applyAsDouble(point.alpha())));
      }
    }
    return errors;
  }

  private static double error(Series series, Point point, double beta) {
    MixedMicelleModel model = model(series.c1(), series.c2(), beta);
    double predicted =
        model.atCmc(new double[] {point.alpha(), 1 - point.alpha()}).mixtureCmcMmolPerL();
    return Math.log(predicted / point.cmc());
  }

  private static double rms(Series series, DoubleUnaryOperator beta) {
    return rms(errors(List.of(series.id()), beta));
  }

  private static double rms(List<Double> errors) {
    double sum = 0;
    for (double error : errors) {
      sum += error * error;
    }
    return Math.sqrt(sum / errors.size());
  }

  private static double largest(List<Double> errors) {
    double largest = 0;
    for (double error : errors) {
      largest = Math.max(largest, Math.abs(error));
    }
    return largest;
  }

  private static double fit(Series series) {
    return new BrentOptimizer(1e-9, 1e-9)
        .optimize(
            new MaxEval(500),
            new UnivariateObjectiveFunction(beta -> rms(series, alpha -> beta)),
            GoalType.MINIMIZE,
            new SearchInterval(-20, 3))
        .getPoint();
  }

  private static Series series(String id) {
    return Objects.requireNonNull(SERIES.get(id), id);
  }

  private static Map<String, Series> measured() {
    Map<String, Series> all = new LinkedHashMap<>();
    List<Map<String, String>> rows = DataRows.of("checks/cmc-mixtures-binary.csv");
    for (Map<String, String> row : rows) {
      String id = text(row, "series");
      if (all.containsKey(id)) {
        continue;
      }
      double c1 = 0;
      double c2 = 0;
      List<Point> points = new ArrayList<>();
      for (Map<String, String> other : rows) {
        if (text(other, "series").equals(id)) {
          double alpha = number(other, "alpha_first");
          double cmc = number(other, "cmc_measured_mmol_per_l");
          if (alpha == 0) {
            c2 = cmc;
          } else if (alpha == 1) {
            c1 = cmc;
          } else {
            points.add(new Point(alpha, cmc));
          }
        }
      }
      all.put(id, new Series(id, c1, c2, points));
    }
    return all;
  }

  private static Interaction shipped(HeadGroup a, HeadGroup b) {
    Interaction found =
        ShippedMicelles.interactions()
            .find(MicelleComponent.pure("a", 1, a), MicelleComponent.pure("b", 1, b))
            .orElseThrow();
    assertFalse(found.assumed());
    return found;
  }

  private static MixedMicelleModel sulfateGlucamide() {
    return model(7.64, 6.08, -3.216);
  }

  private static MixedMicelleModel model(double c1, double c2, double beta) {
    return MixedMicelleModel.regular(
        List.of(plain("a", c1), plain("b", c2)),
        InteractionTable.EMPTY.with("a", "b", Interaction.constant(beta, PLAIN)));
  }

  private static MixedMicelleModel ideal(double c1, double c2) {
    return MixedMicelleModel.ideal(List.of(plain("a", c1), plain("b", c2)));
  }

  private static MicelleComponent plain(String name, double cmc) {
    return MicelleComponent.pure(name, cmc, HeadGroup.SUGAR);
  }
}
