package org.surfactantblend.solve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.material.Material;
import org.surfactantblend.optimise.DualSimplex;
import org.surfactantblend.optimise.LinearProgram;
import org.surfactantblend.optimise.LpSolution;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/**
 * Finds what to put to masses that are already there so that contents come out as planned.
 *
 * <p>When every content can be held, the answer is the one with the smallest total mass. Otherwise
 * it is the nearest one: the largest relative miss is made as small as possible, then the sum of
 * the misses. Contents are reckoned at the typical figures of the materials.
 *
 * <p>Immutable and thread-safe.
 */
public final class Rebalance {
  /** A relative miss below this counts as none. */
  private static final double HELD = 1e-8;

  private static final double LEAST_SCALE = 1e-3;

  private final List<Amount> present;
  private final List<Amount> available;
  private final List<Held> held;
  private final double leastTotal;
  private final double mostTotal;

  /**
   * A mass of a material.
   *
   * @param material the material
   * @param mass the mass, in any unit that all masses of one task share; 0 or more
   */
  public record Amount(Material material, double mass) {
    /**
     * Checks the mass.
     *
     * @param material the material
     * @param mass the mass, in any unit that all masses of one task share; 0 or more
     * @throws IllegalArgumentException if it is negative or not finite
     */
    public Amount {
      Objects.requireNonNull(material, "material");
      mass = Require.inRange("mass of " + material, mass, 0, Double.MAX_VALUE, "");
    }
  }

  /**
   * A content to hold.
   *
   * @param name what it is, for people
   * @param percentIn how much of it a material brings [% m/m as supplied]
   * @param percent how much of it the total is to have [% m/m]
   */
  public record Held(String name, ToDoubleFunction<Material> percentIn, double percent) {
    /**
     * Checks the percentage.
     *
     * @param name what it is, for people
     * @param percentIn how much of it a material brings [% m/m as supplied]
     * @param percent how much of it the total is to have [% m/m]
     * @throws IllegalArgumentException if it is outside 0 to 100 % m/m
     */
    public Held {
      Objects.requireNonNull(name, "name");
      Objects.requireNonNull(percentIn, "percent in");
      percent = Require.inRange(name, percent, 0, 100, "% m/m");
    }
  }

  /**
   * A content with what became of it.
   *
   * @param held what was to be held
   * @param percent what is reached [% m/m]
   */
  public record Reached(Held held, double percent) {
    /**
     * Whether it is held.
     *
     * @return true when wanted and reached agree
     */
    public boolean isHeld() {
      return Math.abs(percent - held.percent) <= HELD * Math.max(held.percent, LEAST_SCALE);
    }
  }

  /**
   * The answer.
   *
   * @param additions the masses to add, in the order of the available materials
   * @param total the total mass with them
   * @param reached every content with what became of it
   */
  public record Answer(List<Double> additions, double total, List<Reached> reached) {
    /**
     * Copies the lists.
     *
     * @param additions the masses to add, in the order of the available materials
     * @param total the total mass with them
     * @param reached every content with what became of it
     */
    public Answer {
      additions = List.copyOf(additions);
      reached = List.copyOf(reached);
    }

    /**
     * Whether every content is held.
     *
     * @return true when nothing gave way
     */
    public boolean holdsAll() {
      return reached.stream().allMatch(Reached::isHeld);
    }
  }

  /**
   * A task.
   *
   * @param present what is already there and stays
   * @param available what can be added, each with the greatest mass of it
   * @param held the contents to hold
   * @param leastTotal the smallest total mass allowed
   * @param mostTotal the greatest total mass allowed, at least leastTotal and above 0
   * @throws IllegalArgumentException if the totals are out of order, or what is present already
   *     exceeds the greatest total
   */
  public Rebalance(
      List<Amount> present,
      List<Amount> available,
      List<Held> held,
      double leastTotal,
      double mostTotal) {
    this.present = List.copyOf(present);
    this.available = List.copyOf(available);
    this.held = List.copyOf(held);
    this.mostTotal = Require.positive("greatest total", mostTotal, "");
    this.leastTotal = Require.inRange("least total", leastTotal, 0, mostTotal, "");
    Require.inRange("mass already there", sumPresent(), 0, mostTotal * (1 + 1e-12), "");
  }

  private double sumPresent() {
    double sum = 0;
    for (Amount a : present) {
      sum += a.mass();
    }
    return sum;
  }

  /**
   * Solves the task.
   *
   * @return what to add and what is reached
   */
  public Answer solve() {
    double[] y = exact();
    return answer(y != null ? y : nearest());
  }

  private Answer answer(double[] y) {
    List<Double> additions = new ArrayList<>();
    double total = sumPresent();
    for (int j = 0; j < available.size(); j++) {
      double mass = Math.max(0, y[j]) * mostTotal;
      // The optimiser leaves dust of its tolerance where nothing is to be added.
      mass = mass < 1e-11 * mostTotal ? 0 : Math.min(mass, available.get(j).mass());
      additions.add(mass);
      total += mass;
    }
    List<Reached> reached = new ArrayList<>();
    for (Held h : held) {
      double sum = 0;
      for (Amount a : present) {
        sum += a.mass() * h.percentIn().applyAsDouble(a.material());
      }
      for (int j = 0; j < available.size(); j++) {
        double mass = additions.get(j);
        if (mass > 0) {
          sum += mass * h.percentIn().applyAsDouble(available.get(j).material());
        }
      }
      reached.add(new Reached(h, total == 0 ? 0 : sum / total));
    }
    return new Answer(additions, total, reached);
  }

  private double @Nullable [] exact() {
    int n = available.size();
    int k = held.size();
    double[][] a = new double[k + 1][n];
    double[] low = new double[k + 1];
    double[] cost = new double[n];
    Arrays.fill(cost, 1);
    fillRows(a, low);
    double[] high = low.clone();
    high[k] = Math.max(low[k], 1 - sumPresent() / mostTotal);
    return solution(LinearProgram.of(cost, a, low, high, new double[n], most(n)), n);
  }

  /** Rows of the contents, in fractions of a fraction, and the row of the total mass. */
  private void fillRows(double[][] a, double[] right) {
    int k = held.size();
    for (int i = 0; i < k; i++) {
      Held h = held.get(i);
      double scale = Math.max(h.percent(), LEAST_SCALE);
      for (int j = 0; j < available.size(); j++) {
        double percent = h.percentIn().applyAsDouble(available.get(j).material());
        a[i][j] = (percent - h.percent()) / scale;
      }
      for (Amount p : present) {
        double percent = h.percentIn().applyAsDouble(p.material());
        right[i] -= (percent - h.percent()) / scale * (p.mass() / mostTotal);
      }
    }
    Arrays.fill(a[k], 0, available.size(), 1);
    right[k] = Math.max(0, leastTotal - sumPresent()) / mostTotal;
  }

  private double[] most(int length) {
    double[] most = new double[length];
    Arrays.fill(most, 1e6);
    for (int j = 0; j < available.size(); j++) {
      most[j] = Math.min(1, available.get(j).mass() / mostTotal);
    }
    return most;
  }

  private double[] nearest() {
    int n = available.size();
    int k = held.size();
    // Unknowns: additions, excess and shortfall of each content, and the largest miss.
    int width = n + 2 * k + 1;
    double[][] a = new double[2 * k + 1][width];
    double[] low = new double[2 * k + 1];
    double[] high = new double[2 * k + 1];
    double[][] base = new double[k + 1][n];
    double[] right = new double[k + 1];
    fillRows(base, right);
    for (int i = 0; i < k; i++) {
      System.arraycopy(base[i], 0, a[i], 0, n);
      a[i][n + 2 * i] = -1;
      a[i][n + 2 * i + 1] = 1;
      low[i] = right[i];
      high[i] = right[i];
      a[k + i][n + 2 * i] = 1;
      a[k + i][n + 2 * i + 1] = 1;
      a[k + i][width - 1] = -1;
      low[k + i] = Double.NEGATIVE_INFINITY;
    }
    System.arraycopy(base[k], 0, a[2 * k], 0, n);
    low[2 * k] = right[k];
    high[2 * k] = Math.max(low[2 * k], 1 - sumPresent() / mostTotal);
    double[] cost = new double[width];
    cost[width - 1] = 1;
    double[] lower = new double[width];
    double[] upper = most(width);
    LinearProgram worst = LinearProgram.of(cost, a, low, high, lower, upper);
    double[] first = solution(worst, width);
    if (first == null) {
      throw new IllegalArgumentException(
          "greatest total was "
              + mostTotal
              + ", allowed is one that what is there and what is available can make up");
    }
    double[] sum = new double[width];
    Arrays.fill(sum, n, width - 1, 1);
    Arrays.fill(sum, 0, n, 1e-6);
    double[] capped = upper.clone();
    capped[width - 1] = first[width - 1] * (1 + 1e-7) + 1e-10;
    double[] second = solution(LinearProgram.of(sum, a, low, high, lower, capped), width);
    return second == null ? first : second;
  }

  private static double @Nullable [] solution(LinearProgram programme, int length) {
    LpSolution s = new DualSimplex().solve(programme);
    return s.isOptimal() ? Arrays.copyOf(s.x(), length) : null;
  }

  @Override
  public String toString() {
    return held.size()
        + " contents to hold in "
        + Text.number(leastTotal)
        + " to "
        + Text.number(mostTotal);
  }
}
