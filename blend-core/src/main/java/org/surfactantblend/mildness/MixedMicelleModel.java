package org.surfactantblend.mildness;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.quantity.Require;

/**
 * Mixed micelles of n surfactants, by ideal mixing or by regular solution theory.
 *
 * <p>With alpha_i the mole fraction of a surfactant in the whole mixture, x_i in the micelle, C_i
 * its CMC alone [mmol/L], f_i its activity coefficient in the micelle, C* the CMC of the mixture, C
 * the total concentration, M the micellised part and m_i the monomer:
 *
 * <pre>
 *   ln f_i = sum_j beta_ij x_j - 1/2 sum_j sum_k beta_jk x_j x_k
 *   at the CMC:   alpha_i C* = x_i f_i C_i
 *   above it:     m_i = x_i f_i C_i,   alpha_i C = M x_i + m_i,   sum x_i = 1
 *   ideal mixing: f_i = 1,   1/C* = sum alpha_i / C_i
 *   far above it: x_i goes to alpha_i, so m_i goes to alpha_i f_i(alpha) C_i
 * </pre>
 *
 * <p>For two surfactants ln f_1 = beta x_2^2. The figures are for surfactant in water with little
 * added salt; counter-ion binding is not modelled.
 *
 * <p>Sources: ideal mixing, Clint, J. Chem. Soc. Faraday Trans. 1, 71, 1327 (1975); two
 * surfactants, Rubingh, in Mittal (ed.), Solution Chemistry of Surfactants 1, 337 (1979); n
 * surfactants, Holland and Rubingh, J. Phys. Chem. 87, 1984 (1983).
 *
 * <p>A figure for reports only. That fewer anionic monomers mean less irritation is one of several
 * competing explanations, and neither monomer nor charge predicts a clinical result.
 *
 * <p>Immutable and thread-safe.
 */
public final class MixedMicelleModel {
  /**
   * From this multiple of the mixture CMC upward {@link #monomersFarAboveCmc} is within about 3 %
   * of the full solution; at a tenth of it, it can be off by more than the figure itself.
   */
  public static final double FAR_ABOVE_CMC = 100;

  /** So close to the mixture CMC that no micelle can be resolved. */
  private static final double AT_CMC = 1e-7;

  private final List<MicelleComponent> components;

  /** Row by row; null on the diagonal and everywhere for ideal mixing. */
  private final @Nullable Interaction[] interactions;

  private MixedMicelleModel(
      List<MicelleComponent> components, @Nullable Interaction[] interactions) {
    this.components = components;
    this.interactions = interactions;
  }

  /**
   * Ideal mixing: all interaction parameters are zero.
   *
   * @param components the surfactants, at least one
   * @return the model
   * @throws IllegalArgumentException if there is no surfactant
   */
  public static MixedMicelleModel ideal(List<MicelleComponent> components) {
    List<MicelleComponent> copy = checked(components);
    return new MixedMicelleModel(copy, new Interaction[copy.size() * copy.size()]);
  }

  /**
   * Regular solution theory with the parameters of a table.
   *
   * @param components the surfactants, at least one
   * @param table the interaction parameters; every pair of them must be in it
   * @return the model
   * @throws IllegalArgumentException if there is no surfactant, or the table lacks a pair; the
   *     message names the pair. Ask {@link #missingPairs} first where that may happen.
   */
  public static MixedMicelleModel regular(
      List<MicelleComponent> components, InteractionTable table) {
    List<MicelleComponent> copy = checked(components);
    List<String> missing = missingPairs(copy, table);
    if (!missing.isEmpty()) {
      throw new IllegalArgumentException(
          "interaction parameter of "
              + missing.get(0)
              + " was not given, every pair must have one");
    }
    int n = copy.size();
    Interaction[] interactions = new Interaction[n * n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        if (i != j) {
          interactions[i * n + j] = table.find(copy.get(i), copy.get(j)).orElseThrow();
        }
      }
    }
    return new MixedMicelleModel(copy, interactions);
  }

  /**
   * The pairs for which a table has no parameter.
   *
   * @param components the surfactants
   * @param table the interaction parameters
   * @return each pair as "first with second", empty when the table knows them all
   */
  public static List<String> missingPairs(
      List<MicelleComponent> components, InteractionTable table) {
    List<String> missing = new ArrayList<>();
    for (int i = 0; i < components.size(); i++) {
      for (int j = i + 1; j < components.size(); j++) {
        Optional<Interaction> found = table.find(components.get(i), components.get(j));
        if (found.isEmpty()) {
          missing.add(components.get(i).name() + " with " + components.get(j).name());
        }
      }
    }
    return List.copyOf(missing);
  }

  /**
   * The surfactants of the model.
   *
   * @return in the order of every array here
   */
  public List<MicelleComponent> components() {
    return components;
  }

  /**
   * The mixture exactly at its CMC.
   *
   * @param amounts the amount of each surfactant, in one molar unit of any size, 0 or more, not all
   *     0; same length and order as {@link #components}
   * @return the state, with no surfactant in micelles yet; its micelle composition is that of the
   *     first micelle
   * @throws IllegalArgumentException if the array has the wrong length or an amount is out of range
   */
  public MixedMicelle atCmc(double[] amounts) {
    double[] fractions = fractions(amounts);
    return solve(fractions, Double.NaN);
  }

  /**
   * The mixture at a concentration.
   *
   * @param mmolPerL the total concentration of each surfactant [mmol/L], 0 or more, not all 0; same
   *     length and order as {@link #components}
   * @return the state; without micelles when the concentration is below the mixture CMC
   * @throws IllegalArgumentException if the array has the wrong length or a concentration is out of
   *     range
   */
  public MixedMicelle at(double[] mmolPerL) {
    double[] fractions = fractions(mmolPerL);
    double total = 0;
    for (double c : mmolPerL) {
      total += c;
    }
    return solve(fractions, total);
  }

  /**
   * The mixture diluted for use.
   *
   * @param mmolPerL the concentrations of the product as it leaves the bottle [mmol/L]
   * @param fold how many times its volume the product is brought to, 1 or more
   * @return the state of the diluted product
   * @throws IllegalArgumentException if the array has the wrong length or a number is out of range
   */
  public MixedMicelle atDilution(double[] mmolPerL, double fold) {
    Require.inRange("use dilution", fold, 1, 1e6, "fold");
    double[] diluted = mmolPerL.clone();
    for (int i = 0; i < diluted.length; i++) {
      diluted[i] /= fold;
    }
    return at(diluted);
  }

  /**
   * The monomer of each surfactant when nearly all of it is in micelles: alpha_i f_i(alpha) C_i,
   * without solving anything. Good from {@value #FAR_ABOVE_CMC} times the mixture CMC upward.
   *
   * @param amounts the amount of each surfactant, in one molar unit of any size
   * @return monomer concentrations [mmol/L]
   * @throws IllegalArgumentException if the array has the wrong length or an amount is out of range
   */
  public double[] monomersFarAboveCmc(double[] amounts) {
    double[] alpha = fractions(amounts);
    int n = alpha.length;
    double[] lnActivity = new double[n];
    new MixingSolver(new double[n], beta(alpha, identity(n))).lnActivity(alpha, lnActivity);
    double[] monomers = new double[n];
    for (int i = 0; i < n; i++) {
      monomers[i] = alpha[i] * FastMath.exp(lnActivity[i]) * components.get(i).cmcMmolPerL();
    }
    return monomers;
  }

  /**
   * How the anionic monomer of a mixture compares with that of its anionic surfactants alone, at
   * the concentrations they have in the mixture.
   *
   * @param mmolPerL the total concentration of each surfactant [mmol/L]
   * @return monomer in the mixture over monomer alone, or empty when there is no anionic surfactant
   * @throws IllegalArgumentException if the array has the wrong length or a concentration is out of
   *     range
   */
  public Optional<Double> anionicMonomerRatio(double[] mmolPerL) {
    double[] alone = mmolPerL.clone();
    double anionic = 0;
    for (int i = 0; i < components.size() && i < alone.length; i++) {
      if (components.get(i).headGroup().isAnionic()) {
        anionic += alone[i];
      } else {
        alone[i] = 0;
      }
    }
    double together = at(mmolPerL).anionicMonomerMmolPerL();
    return anionic > 0
        ? Optional.of(together / at(alone).anionicMonomerMmolPerL())
        : Optional.empty();
  }

  /** Solves for the surfactants that are present; total NaN means exactly at the CMC. */
  private MixedMicelle solve(double[] fractions, double total) {
    int[] present = present(fractions);
    int n = present.length;
    double[] alpha = new double[n];
    double[] lnCmc = new double[n];
    double idealInverse = 0;
    for (int i = 0; i < n; i++) {
      double cmc = components.get(present[i]).cmcMmolPerL();
      alpha[i] = fractions[present[i]];
      lnCmc[i] = FastMath.log(cmc);
      idealInverse += alpha[i] / cmc;
    }
    double[] beta = beta(fractions, present);
    MixingSolver solver = new MixingSolver(lnCmc, beta);
    MixingSolver.Micelle atCmc = solver.atCmc(alpha);
    double mixtureCmc = FastMath.exp(atCmc.lnCmc);
    boolean demixing = atCmc.severalMinima;
    double concentration = Double.isNaN(total) ? mixtureCmc : total;
    double micellised = 0;
    double[] x = atCmc.x;
    double[] lnActivity = atCmc.lnActivity;
    double[] monomers = new double[n];
    if (concentration > mixtureCmc * (1 + AT_CMC)) {
      MixingSolver.Micelle above = solver.above(alpha, concentration, atCmc);
      micellised = above.micellised * concentration;
      x = above.x;
      lnActivity = above.lnActivity;
      double[] lnMonomers = new double[n];
      for (int i = 0; i < n; i++) {
        lnMonomers[i] = FastMath.log(x[i]) + lnActivity[i] + lnCmc[i];
        monomers[i] = FastMath.exp(lnMonomers[i]);
      }
      demixing |= solver.anotherMicelleForms(lnMonomers, x);
    } else {
      for (int i = 0; i < n; i++) {
        monomers[i] = alpha[i] * concentration;
      }
    }
    int all = components.size();
    double[] totals = new double[all];
    double[] xAll = new double[all];
    double[] fAll = new double[all];
    double[] mAll = new double[all];
    for (int i = 0; i < n; i++) {
      totals[present[i]] = alpha[i] * concentration;
      xAll[present[i]] = x[i];
      fAll[present[i]] = FastMath.exp(lnActivity[i]);
      mAll[present[i]] = monomers[i];
    }
    return new MixedMicelle(
        components,
        totals,
        mixtureCmc,
        1 / idealInverse,
        micellised,
        xAll,
        fAll,
        mAll,
        caveats(fractions, present, demixing));
  }

  private Set<MicelleCaveat> caveats(double[] fractions, int[] present, boolean demixing) {
    EnumSet<MicelleCaveat> caveats = EnumSet.noneOf(MicelleCaveat.class);
    if (demixing) {
      caveats.add(MicelleCaveat.DEMIXING);
    }
    double share = anionicShare(fractions);
    boolean anionic = false;
    boolean cationic = false;
    for (int i : present) {
      MicelleComponent component = components.get(i);
      anionic |= component.headGroup().isAnionic();
      cationic |= component.headGroup().isCationic();
      if (component.technicalGrade()) {
        caveats.add(MicelleCaveat.TECHNICAL_GRADE);
      }
      for (int j : present) {
        Interaction interaction = interactions[i * components.size() + j];
        if (interaction == null) {
          continue;
        }
        if (interaction.dependsOnShare()) {
          caveats.add(MicelleCaveat.INTERPOLATED);
        } else if (interaction.at(share) < -5) {
          caveats.add(MicelleCaveat.STRONG_CONSTANT);
        }
        if (!interaction.covers(share)) {
          caveats.add(MicelleCaveat.OUTSIDE_DATA);
        }
        if (interaction.assumed()) {
          caveats.add(MicelleCaveat.ASSUMED_INTERACTION);
        }
      }
    }
    if (anionic && cationic) {
      caveats.add(MicelleCaveat.CHARGE_COMPENSATION);
    }
    return caveats;
  }

  private double[] beta(double[] fractions, int[] present) {
    int n = present.length;
    double share = anionicShare(fractions);
    double[] beta = new double[n * n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        Interaction interaction = interactions[present[i] * components.size() + present[j]];
        beta[i * n + j] = interaction == null ? 0 : interaction.at(share);
      }
    }
    return beta;
  }

  /** Anionic over anionic plus zwitterionic; 0 when there is neither. */
  private double anionicShare(double[] fractions) {
    double anionic = 0;
    double zwitterionic = 0;
    for (int i = 0; i < fractions.length; i++) {
      if (components.get(i).headGroup().isAnionic()) {
        anionic += fractions[i];
      } else if (components.get(i).headGroup().isZwitterionic()) {
        zwitterionic += fractions[i];
      }
    }
    return anionic == 0 ? 0 : anionic / (anionic + zwitterionic);
  }

  private double[] fractions(double[] amounts) {
    Objects.requireNonNull(amounts, "amounts");
    if (amounts.length != components.size()) {
      throw new IllegalArgumentException(
          "number of amounts was " + amounts.length + ", allowed is " + components.size());
    }
    double[] fractions = new double[amounts.length];
    double sum = 0;
    for (int i = 0; i < amounts.length; i++) {
      fractions[i] =
          Require.inRange("amount of " + components.get(i).name(), amounts[i], 0, 1e9, "mmol/L");
      sum += fractions[i];
    }
    Require.positive("sum of the amounts", sum, "mmol/L");
    for (int i = 0; i < fractions.length; i++) {
      fractions[i] /= sum;
    }
    return fractions;
  }

  private static int[] present(double[] fractions) {
    int count = 0;
    for (double fraction : fractions) {
      count += fraction > 0 ? 1 : 0;
    }
    int[] present = new int[count];
    int next = 0;
    for (int i = 0; i < fractions.length; i++) {
      if (fractions[i] > 0) {
        present[next++] = i;
      }
    }
    return present;
  }

  private static int[] identity(int n) {
    int[] all = new int[n];
    for (int i = 0; i < n; i++) {
      all[i] = i;
    }
    return all;
  }

  private static List<MicelleComponent> checked(List<MicelleComponent> components) {
    List<MicelleComponent> copy = List.copyOf(components);
    if (copy.isEmpty()) {
      throw new IllegalArgumentException("number of components was 0, allowed is 1 or more");
    }
    return copy;
  }

  @Override
  public String toString() {
    return "mixed micelles of " + components.size() + " surfactants";
  }
}
