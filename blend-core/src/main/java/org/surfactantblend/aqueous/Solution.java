package org.surfactantblend.aqueous;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.quantity.Require;
import org.surfactantblend.quantity.Text;

/**
 * A solution in one kilogram of water: strong ions, and weak acids and bases with the total of all
 * their forms.
 *
 * <p>Hydrogen and hydroxide ions are not listed; they make up for whatever charge the listed ions
 * leave open. So 0.1 mol hydrochloric acid is 0.1 mol chloride and nothing else. All ions are taken
 * as free, except pairs of a metal with hydroxide when {@link AcidBase#hydroxidePair} is added in
 * place of the metal's strong ion.
 *
 * <p>Immutable and thread-safe; equality by value.
 */
public final class Solution {
  /** Above this the activity term is past the range it was made for [mol/kg water]. */
  static final double DOUBTFUL_IONIC_STRENGTH = 0.3;

  /** Above this nothing is promised about the pH [mol/kg water]. */
  static final double MOST_IONIC_STRENGTH = 0.5;

  /** Above this the constants and the activity term were not checked [C]. */
  static final double MOST_TEMPERATURE = 60;

  private static final int MOST_PASSES = 100;
  private static final Solution WATER = new Solution(List.of(), List.of());

  private final List<StrongIon> strongIons;
  private final List<WeakSystem> weakSystems;

  private Solution(List<StrongIon> strongIons, List<WeakSystem> weakSystems) {
    this.strongIons = List.copyOf(strongIons);
    this.weakSystems = List.copyOf(weakSystems);
  }

  /**
   * An ion that neither takes up nor loses protons.
   *
   * @param name what it is, such as {@code Na+}
   * @param charge its charge, -6 to 6 and not 0
   * @param molality how much [mol/kg water], 0 to 100
   */
  public record StrongIon(String name, int charge, double molality) {
    /**
     * Checks the figures.
     *
     * @param name what it is, such as {@code Na+}
     * @param charge its charge, -6 to 6 and not 0
     * @param molality how much [mol/kg water], 0 to 100
     * @throws NullPointerException if the name is null
     * @throws IllegalArgumentException if the name is blank or a figure outside its range
     */
    public StrongIon {
      name = Require.text("name", name);
      if (charge == 0 || charge < -6 || charge > 6) {
        throw new IllegalArgumentException(
            "charge of " + name + " was " + charge + ", allowed is -6 to 6 and not 0");
      }
      molality = Require.inRange("molality of " + name, molality, 0, 100, "mol/kg water");
    }
  }

  /**
   * A weak acid or base with the total of all its forms.
   *
   * @param acid the system
   * @param molality how much [mol/kg water], 0 to 100
   */
  public record WeakSystem(AcidBase acid, double molality) {
    /**
     * Checks the figures.
     *
     * @param acid the system
     * @param molality how much [mol/kg water], 0 to 100
     * @throws NullPointerException if the system is null
     * @throws IllegalArgumentException if the molality is NaN or outside its range
     */
    public WeakSystem {
      Objects.requireNonNull(acid, "acid");
      molality = Require.inRange("molality of " + acid.name(), molality, 0, 100, "mol/kg water");
    }
  }

  /**
   * Pure water, to which the rest is added.
   *
   * @return the solution with nothing in it
   */
  public static Solution water() {
    return WATER;
  }

  /**
   * A solution from its parts.
   *
   * @param strongIons the strong ions
   * @param weakSystems the weak acids and bases
   * @return the solution
   * @throws NullPointerException if a list or a part is null
   */
  public static Solution of(List<StrongIon> strongIons, List<WeakSystem> weakSystems) {
    return new Solution(strongIons, weakSystems);
  }

  /**
   * The same solution with a strong ion added.
   *
   * @param name what it is, such as {@code Na+}
   * @param charge its charge, -6 to 6 and not 0
   * @param molality how much [mol/kg water], 0 to 100
   * @return the larger solution
   * @throws NullPointerException if the name is null
   * @throws IllegalArgumentException if the name is blank or a figure outside its range
   */
  public Solution strongIon(String name, int charge, double molality) {
    List<StrongIon> more = new ArrayList<>(strongIons);
    more.add(new StrongIon(name, charge, molality));
    return new Solution(more, weakSystems);
  }

  /**
   * The same solution with a weak acid or base added.
   *
   * @param acid the system
   * @param molality how much, all forms together [mol/kg water], 0 to 100
   * @return the larger solution
   * @throws NullPointerException if the system is null
   * @throws IllegalArgumentException if the molality is NaN or outside its range
   */
  public Solution weak(AcidBase acid, double molality) {
    List<WeakSystem> more = new ArrayList<>(weakSystems);
    more.add(new WeakSystem(acid, molality));
    return new Solution(strongIons, more);
  }

  /**
   * The same solution with more or less water: every molality multiplied.
   *
   * @param factor what is left of each molality, 0 to 10: 0.1 for a tenfold dilution with water
   * @return the solution
   * @throws IllegalArgumentException if the factor, or a molality times the factor, is NaN or
   *     outside its range
   */
  public Solution times(double factor) {
    Require.inRange("factor", factor, 0, 10, "");
    return new Solution(
        strongIons.stream()
            .map(ion -> new StrongIon(ion.name(), ion.charge(), ion.molality() * factor))
            .toList(),
        weakSystems.stream()
            .map(weak -> new WeakSystem(weak.acid(), weak.molality() * factor))
            .toList());
  }

  /**
   * The strong ions.
   *
   * @return the ions in the order in which they were added
   */
  public List<StrongIon> strongIons() {
    return strongIons;
  }

  /**
   * The weak acids and bases.
   *
   * @return the systems in the order in which they were added
   */
  public List<WeakSystem> weakSystems() {
    return weakSystems;
  }

  /**
   * The charge of all strong ions together.
   *
   * @return the strong-ion difference [eq/kg water]
   */
  public double strongCharge() {
    double sum = 0;
    for (StrongIon ion : strongIons) {
      sum += ion.charge() * ion.molality();
    }
    return sum;
  }

  /**
   * The pH, with the ionic strength that goes with it: the charge balance is solved again at the
   * ionic strength of its own result until the two agree.
   *
   * @param conditions the temperature, activity model and ionic product of water
   * @return the pH, with caveats where the model is used outside its validity
   * @throws NullPointerException if the conditions are null
   * @throws ArithmeticException if no pH from -2 to 16 balances the charges
   */
  public PhResult ph(Conditions conditions) {
    double strong = 0;
    for (StrongIon ion : strongIons) {
      strong += ion.molality() * ion.charge() * ion.charge() / 2;
    }
    double charge = strongCharge();
    double ionicStrength = strong;
    double ph = 7;
    int passes = 0;
    double change;
    do {
      ChargeBalance balance = balance(conditions, ionicStrength, charge);
      ph = balance.phNear(ph);
      double next = strong + balance.weakIonicStrength(ph);
      change = Math.abs(next - ionicStrength);
      ionicStrength = next;
      passes++;
    } while (change > 1e-13 * Math.max(1, ionicStrength) && passes < MOST_PASSES);
    return new PhResult(ph, ionicStrength, passes, caveats(conditions, ionicStrength));
  }

  /**
   * The net charge against pH at a given ionic strength.
   *
   * @param conditions the temperature, activity model and ionic product of water
   * @param ionicStrength the ionic strength [mol/kg water], 0 or more
   * @return the balance for one kilogram of water
   * @throws NullPointerException if the conditions are null
   * @throws IllegalArgumentException if the ionic strength is NaN or negative
   */
  public ChargeBalance balance(Conditions conditions, double ionicStrength) {
    return balance(conditions, ionicStrength, strongCharge());
  }

  private ChargeBalance balance(Conditions conditions, double ionicStrength, double charge) {
    ChargeBalance.Builder builder =
        ChargeBalance.at(conditions, ionicStrength).strongCharge(charge);
    for (WeakSystem weak : weakSystems) {
      builder.add(weak.acid(), weak.molality());
    }
    return builder.build();
  }

  private List<String> caveats(Conditions conditions, double ionicStrength) {
    List<String> caveats = new ArrayList<>();
    String strength = "ionic strength " + Text.number(ionicStrength) + " mol/kg water is above ";
    if (ionicStrength > MOST_IONIC_STRENGTH) {
      caveats.add(
          strength + Text.number(MOST_IONIC_STRENGTH) + ": no accuracy is claimed for this pH");
    } else if (ionicStrength > DOUBTFUL_IONIC_STRENGTH) {
      caveats.add(
          strength
              + Text.number(DOUBTFUL_IONIC_STRENGTH)
              + ": published buffers this strong were off by up to 0.15 pH");
    }
    if (conditions.activity().isIdeal()) {
      caveats.add("activities taken equal to molalities: published buffers were off by 0.4 pH");
    }
    if (conditions.temperatureC() > MOST_TEMPERATURE) {
      caveats.add(
          "temperature "
              + Text.number(conditions.temperatureC())
              + " C is above "
              + Text.number(MOST_TEMPERATURE)
              + " C: the constants were not checked there");
    }
    for (WeakSystem weak : weakSystems) {
      AcidBase acid = weak.acid();
      AcidBase.Limit limit = acid.limit();
      if (limit != null && weak.molality() > limit.molality()) {
        caveats.add(
            acid.name()
                + " "
                + Text.number(weak.molality())
                + " mol/kg water is above "
                + Text.number(limit.molality())
                + ": "
                + limit.why());
      }
      if (acid.apparent() && weak.molality() > 0) {
        caveats.add("the apparent pKa of " + acid.name() + " shifts with the mixture it is in");
      }
    }
    return caveats;
  }

  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof Solution that
        && strongIons.equals(that.strongIons)
        && weakSystems.equals(that.weakSystems);
  }

  @Override
  public int hashCode() {
    return Objects.hash(strongIons, weakSystems);
  }

  @Override
  public String toString() {
    List<String> parts = new ArrayList<>();
    for (WeakSystem weak : weakSystems) {
      parts.add(weak.acid().name() + " " + Text.number(weak.molality()));
    }
    for (StrongIon ion : strongIons) {
      parts.add(ion.name() + " " + Text.number(ion.molality()));
    }
    return "solution [mol/kg water]: " + (parts.isEmpty() ? "water" : String.join(", ", parts));
  }
}
