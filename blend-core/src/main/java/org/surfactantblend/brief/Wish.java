package org.surfactantblend.brief;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.material.ChargeClass;

/**
 * What to prefer among the blends that meet every requirement.
 *
 * <p>Immutable and thread-safe.
 */
public final class Wish {
  /** What a wish is about. */
  public enum Aim {
    /** As little surfactant as supplied as will do; the default. */
    LEAST_SURFACTANT("least surfactant as supplied"),
    /** The lowest raw-material cost. */
    CHEAPEST("cheapest"),
    /** The lowest share of anionic active in all active. */
    LEAST_ANIONIC_SHARE("least anionic share"),
    /**
     * The lowest irritation index by the high figures of the scores. An index knows nothing of
     * dose: where the total of active matter is a range, the least of it with the same surfactants
     * is taken among blends of the same index.
     */
    MILDEST("lowest irritation index"),
    /** The lowest irritation index less the brief's credit for mixing; otherwise as the mildest. */
    MILDEST_BLENDED("lowest blended irritation index"),
    /** The smallest sum of absolute changes of the lines of a given blend. */
    LEAST_CHANGE("least change from a given blend"),
    /** The smallest sum of absolute distances from given class shares. */
    NEAREST_SHARES("nearest to given shares");

    private final String label;

    Aim(String label) {
      this.label = label;
    }

    /**
     * The aim in words.
     *
     * @return words in lower case
     */
    public String label() {
      return label;
    }
  }

  private final Aim aim;
  private final @Nullable Blend from;
  private final Map<ChargeClass, Double> shares;

  private Wish(Aim aim, @Nullable Blend from, Map<ChargeClass, Double> shares) {
    this.aim = aim;
    this.from = from;
    this.shares = shares;
  }

  static Wish of(Aim aim) {
    return new Wish(aim, null, Map.of());
  }

  static Wish leastChangeFrom(Blend blend) {
    return new Wish(Aim.LEAST_CHANGE, Objects.requireNonNull(blend, "blend"), Map.of());
  }

  static Wish nearestTo(Map<ChargeClass, Double> shares) {
    return new Wish(Aim.NEAREST_SHARES, null, Collections.unmodifiableMap(new EnumMap<>(shares)));
  }

  /**
   * Whether it is about an irritation index, blended or not.
   *
   * @return true when materials without an irritation score cannot serve it
   */
  public boolean needsScores() {
    return aim == Aim.MILDEST || aim == Aim.MILDEST_BLENDED;
  }

  /**
   * What it is about.
   *
   * @return the aim
   */
  public Aim aim() {
    return aim;
  }

  /**
   * The blend to stay close to.
   *
   * @return the blend of a least-change wish, else empty
   */
  public Optional<Blend> from() {
    return Optional.ofNullable(from);
  }

  /**
   * The shares to come close to.
   *
   * @return wanted shares by class [% of the active], empty for other aims
   */
  public Map<ChargeClass, Double> shares() {
    return shares;
  }

  @Override
  public String toString() {
    return aim.label();
  }
}
