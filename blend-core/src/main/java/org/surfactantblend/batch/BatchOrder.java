package org.surfactantblend.batch;

import java.util.ArrayList;
import java.util.List;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/**
 * From bottles to a batch, or from a batch to bottles: losses, tests and retained bottles counted.
 *
 * <p>The tolerance of a filling is that of the average-quantity system: 9 % from 5 to 50 ml, 4.5 ml
 * to 100 ml, 4.5 % to 200 ml, 9 ml to 300 ml, 3 % to 500 ml, 15 ml to 1 l, 1.5 % to 10 l (German
 * packaged-goods ordinance, section 9). Whether it applies is a matter of local rules.
 *
 * <p>Immutable and thread-safe.
 */
public final class BatchOrder {
  private static final double DUST = 1e-9;

  private final double density;
  private final List<Container> containers;
  private final double sampleGrams;
  private final double lossPercent;
  private final double overfillPercent;
  private final double roundUpToGrams;
  private final double batchGrams;

  /**
   * A size of bottle with how many of it.
   *
   * @param name what it is called
   * @param nominalMl its nominal content [ml], 5 to 10000
   * @param forSale how many are for sale, 0 or more
   * @param retained how many filled ones are kept, 0 or more
   */
  public record Container(String name, double nominalMl, int forSale, int retained) {
    /**
     * Checks the figures.
     *
     * @param name what it is called
     * @param nominalMl its nominal content [ml], 5 to 10000
     * @param forSale how many are for sale, 0 or more
     * @param retained how many filled ones are kept, 0 or more
     * @throws IllegalArgumentException if one is out of range
     */
    public Container {
      name = Require.text("container", name);
      Require.inRange("nominal content of " + name, nominalMl, 5, 10000, "ml");
      Require.inRange("count of " + name, forSale, 0, 1e6, "");
      Require.inRange("retained " + name, retained, 0, 1e6, "");
    }

    /**
     * How many are filled.
     *
     * @return those for sale and those retained
     */
    public int filled() {
      return forSale + retained;
    }

    /**
     * How much less than nominal a single filling may hold in the average-quantity system.
     *
     * @return the tolerance [ml]
     */
    public double toleranceMl() {
      double v = nominalMl;
      double ml;
      if (v <= 50) {
        ml = v * 0.09;
      } else if (v <= 100) {
        ml = 4.5;
      } else if (v <= 200) {
        ml = v * 0.045;
      } else if (v <= 300) {
        ml = 9;
      } else if (v <= 500) {
        ml = v * 0.03;
      } else if (v <= 1000) {
        ml = 15;
      } else {
        ml = v * 0.015;
      }
      // Percentages are rounded up to the next tenth of a millilitre.
      return Math.ceil(ml * 10 - DUST) / 10;
    }
  }

  private BatchOrder(Builder b) {
    density = b.density;
    containers = List.copyOf(b.containers);
    sampleGrams = b.sampleGrams;
    lossPercent = b.lossPercent;
    overfillPercent = b.overfillPercent;
    roundUpToGrams = b.roundUpToGrams;
    double needed = neededGrams();
    batchGrams =
        roundUpToGrams == 0 ? needed : Math.ceil(needed / roundUpToGrams - DUST) * roundUpToGrams;
  }

  /**
   * Starts an order.
   *
   * @param densityGramsPerMl the density of the product [g/ml], 0.5 to 2
   * @return a builder
   * @throws IllegalArgumentException if the density is out of range
   */
  public static Builder density(double densityGramsPerMl) {
    return new Builder(Require.inRange("density", densityGramsPerMl, 0.5, 2, "g/ml"));
  }

  /**
   * How many bottles of one size a batch fills.
   *
   * @param batch the mass made
   * @param lossPercent what stays in kettle and hose [% of the batch], 0 to less than 100
   * @param sample what goes into tests
   * @param nominalMl the nominal content [ml], 5 to 10000
   * @param densityGramsPerMl the density [g/ml], 0.5 to 2
   * @param retained how many filled bottles are kept, 0 or more
   * @return the order that the batch fills; {@link #surplusGrams()} is what is left over
   * @throws IllegalArgumentException if a figure is out of range or the batch does not fill the
   *     retained bottles
   */
  public static BatchOrder filledFrom(
      Mass batch,
      double lossPercent,
      Mass sample,
      double nominalMl,
      double densityGramsPerMl,
      int retained) {
    Builder b = density(densityGramsPerMl).lossPercent(lossPercent).sample(sample);
    double left = batch.inGrams() * (1 - lossPercent / 100) - sample.inGrams();
    int filled = (int) Math.floor(left / (nominalMl * densityGramsPerMl) + DUST);
    if (filled < retained) {
      throw new IllegalArgumentException(
          "retained bottles were "
              + retained
              + ", allowed is at most the "
              + Math.max(0, filled)
              + " that "
              + batch
              + " fills");
    }
    b.container("bottle " + Text.number(nominalMl) + " ml", nominalMl, filled - retained, retained);
    return new BatchOrder(b, batch.inGrams());
  }

  private BatchOrder(Builder b, double batchGrams) {
    density = b.density;
    containers = List.copyOf(b.containers);
    sampleGrams = b.sampleGrams;
    lossPercent = b.lossPercent;
    overfillPercent = b.overfillPercent;
    roundUpToGrams = 0;
    this.batchGrams = batchGrams;
  }

  /**
   * The sizes and counts.
   *
   * @return in the order given
   */
  public List<Container> containers() {
    return containers;
  }

  /**
   * The density of the product.
   *
   * @return [g/ml]
   */
  public double densityGramsPerMl() {
    return density;
  }

  /**
   * What goes into tests.
   *
   * @return the mass
   */
  public Mass sample() {
    return Mass.grams(sampleGrams);
  }

  /**
   * What stays in kettle and hose.
   *
   * @return [% of the batch]
   */
  public double lossPercent() {
    return lossPercent;
  }

  /**
   * What one container is filled with on average.
   *
   * @param c the container
   * @return the mass [g]
   */
  public double fillGrams(Container c) {
    return c.nominalMl() * density * (1 + overfillPercent / 100);
  }

  /**
   * The mass below which at most one filling in forty may lie.
   *
   * @param c the container
   * @return nominal less tolerance [g]
   */
  public double lowerLimitGrams(Container c) {
    return (c.nominalMl() - c.toleranceMl()) * density;
  }

  /**
   * The mass below which no filling may lie.
   *
   * @param c the container
   * @return nominal less twice the tolerance [g]
   */
  public double absoluteLimitGrams(Container c) {
    return (c.nominalMl() - 2 * c.toleranceMl()) * density;
  }

  /**
   * What has to come out of the kettle: fillings and tests.
   *
   * @return the mass [g]
   */
  public double productGrams() {
    double sum = sampleGrams;
    for (Container c : containers) {
      sum += c.filled() * fillGrams(c);
    }
    return sum;
  }

  /**
   * The batch that is just enough.
   *
   * @return the mass [g]
   */
  public double neededGrams() {
    return productGrams() / (1 - lossPercent / 100);
  }

  /**
   * The batch to make.
   *
   * @return what is needed, rounded up as asked
   */
  public Mass batch() {
    return Mass.grams(batchGrams);
  }

  /**
   * What is left when everything is filled.
   *
   * @return the mass [g], 0 or more
   */
  public double surplusGrams() {
    return Math.max(0, batchGrams * (1 - lossPercent / 100) - productGrams());
  }

  /**
   * How many more containers the surplus fills.
   *
   * @param c the container
   * @return the count
   */
  public int moreFromSurplus(Container c) {
    return (int) Math.floor(surplusGrams() / fillGrams(c) + DUST);
  }

  /**
   * The containers, the tests and the surplus.
   *
   * @return the lines of the batch sheet
   */
  @Override
  public String toString() {
    return text();
  }

  /** Two or more lines for the sheet. */
  String text() {
    StringBuilder s = new StringBuilder();
    for (Container c : containers) {
      s.append("  ")
          .append(c.filled())
          .append(" x ")
          .append(c.name())
          .append(" at ")
          .append(Text.fixed(fillGrams(c), 1))
          .append(" g, ")
          .append(c.retained())
          .append(" of them retained\n");
    }
    return s.append("  tests ")
        .append(Text.number(sampleGrams))
        .append(" g, loss ")
        .append(Text.number(lossPercent))
        .append(" %, surplus ")
        .append(Text.fixed(surplusGrams(), 1))
        .append(" g\n")
        .toString();
  }

  /** Builds a {@link BatchOrder}; not thread-safe. */
  public static final class Builder {
    private final double density;
    private final List<Container> containers = new ArrayList<>();
    private double sampleGrams;
    private double lossPercent;
    private double overfillPercent;
    private double roundUpToGrams;

    private Builder(double density) {
      this.density = density;
    }

    /**
     * Adds a size.
     *
     * @param name what it is called
     * @param nominalMl its nominal content [ml], 5 to 10000
     * @param forSale how many are for sale, 0 or more
     * @param retained how many filled ones are kept, 0 or more
     * @return this builder
     * @throws IllegalArgumentException if a figure is out of range
     */
    public Builder container(String name, double nominalMl, int forSale, int retained) {
      containers.add(new Container(name, nominalMl, forSale, retained));
      return this;
    }

    /**
     * Sets what goes into tests.
     *
     * @param mass the mass
     * @return this builder
     */
    public Builder sample(Mass mass) {
      sampleGrams = mass.inGrams();
      return this;
    }

    /**
     * Sets what stays in kettle and hose.
     *
     * @param percent [% of the batch], 0 to 99
     * @return this builder
     * @throws IllegalArgumentException if it is out of range
     */
    public Builder lossPercent(double percent) {
      lossPercent = Require.inRange("loss", percent, 0, 99, "% of the batch");
      return this;
    }

    /**
     * Sets by how much the filler gives more than nominal on average.
     *
     * @param percent [% of nominal], 0 to 50
     * @return this builder
     * @throws IllegalArgumentException if it is out of range
     */
    public Builder meanOverfillPercent(double percent) {
      overfillPercent = Require.inRange("mean overfill", percent, 0, 50, "% of nominal");
      return this;
    }

    /**
     * Rounds the batch up to whole steps.
     *
     * @param step the step, more than 0
     * @return this builder
     * @throws IllegalArgumentException if the step is 0
     */
    public Builder roundUpTo(Mass step) {
      roundUpToGrams = Require.positive("step of the batch", step.inGrams(), "g");
      return this;
    }

    /**
     * Works the order out.
     *
     * @return the order
     * @throws IllegalArgumentException if nothing is to be made
     */
    public BatchOrder build() {
      BatchOrder o = new BatchOrder(this);
      Require.positive("mass of the order", o.batchGrams, "g");
      return o;
    }

    @Override
    public String toString() {
      return containers.size()
          + " container sizes at "
          + Text.number(density)
          + " g/ml, not built yet";
    }
  }
}
