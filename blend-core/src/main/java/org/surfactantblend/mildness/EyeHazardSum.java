package org.surfactantblend.mildness;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.surfactantblend.quantity.Require;

/**
 * The eye hazard of a neat surfactant, a concentrate or a pre-blend, for whoever handles it:
 *
 * <pre>  E = sum over surfactants of content / limit,   caution from E = 1 upward.</pre>
 *
 * <p>Adding contents against their own limits is how classification guidance treats mixtures (from
 * memory, not verified). Finished cosmetics are outside that classification. A surfactant without a
 * limit is named, so that a low sum is not mistaken for a full account; the sum never clears
 * anything, it only calls for caution.
 *
 * <p>Immutable and thread-safe; equality by value.
 *
 * @param serious the sum against the limits of serious eye damage
 * @param irritating the sum against the limits of eye irritation
 * @param withoutLimit the surfactants that have no limit and are not in the sums
 */
public record EyeHazardSum(double serious, double irritating, List<String> withoutLimit) {
  /**
   * One surfactant of the mixture.
   *
   * @param material its name, for messages
   * @param activePercent its content [% active of the mixture], 0 to 100
   * @param limit its limits, or empty when it has none
   */
  public record Part(String material, double activePercent, Optional<EyeHazardLimit> limit) {
    /**
     * Checks the values.
     *
     * @param material its name, for messages
     * @param activePercent its content [% active of the mixture], 0 to 100
     * @param limit its limits, or empty when it has none
     * @throws IllegalArgumentException if the name is blank or the content out of range
     */
    public Part {
      material = Require.text("material", material);
      activePercent =
          Require.inRange("active content of " + material, activePercent, 0, 100, "% active");
      Objects.requireNonNull(limit, "eye-hazard limit");
    }
  }

  /**
   * Copies the list.
   *
   * @param serious the sum against the limits of serious eye damage
   * @param irritating the sum against the limits of eye irritation
   * @param withoutLimit the surfactants that have no limit and are not in the sums
   */
  public EyeHazardSum {
    withoutLimit = List.copyOf(withoutLimit);
  }

  /**
   * The sums of a mixture.
   *
   * @param parts its surfactants; those with content 0 do not count
   * @return the sums
   */
  public static EyeHazardSum of(List<Part> parts) {
    double serious = 0;
    double irritating = 0;
    List<String> missing = new ArrayList<>();
    for (Part part : parts) {
      if (part.activePercent() == 0) {
        continue;
      }
      if (part.limit().isEmpty()) {
        missing.add(part.material());
      } else {
        serious += part.activePercent() / part.limit().get().seriousFromPercent();
        irritating += part.activePercent() / part.limit().get().irritatingFromPercent();
      }
    }
    return new EyeHazardSum(serious, irritating, missing);
  }

  /**
   * Whether the mixture calls for eye protection as one that can damage the eye.
   *
   * @return true when the sum of serious hazard is 1 or more
   */
  public boolean callsForCaution() {
    return serious >= 1;
  }
}
