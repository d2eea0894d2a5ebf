package org.surfactantblend.aqueous;

import java.util.Objects;
import java.util.function.DoubleUnaryOperator;
import org.surfactantblend.quantity.Require;

/**
 * Where any falling function of pH crosses zero, such as a net charge that carries its own ionic
 * strength along. A {@link ChargeBalance} finds its own root faster.
 */
public final class PhRoot {
  private static final double TOLERANCE = 1e-13;

  private PhRoot() {}

  /**
   * The pH at which a falling function is zero, by inverse quadratic interpolation that turns into
   * bisection wherever it would not be safe (the criterion of Chandrupatla, Adv. Eng. Software 28
   * (1997) 145).
   *
   * @param falling the function, falling from {@code low} to {@code high} and free of NaN
   * @param low the lower end of the bracket [pH], -2 to 16
   * @param high the upper end of the bracket [pH], from {@code low} to 16
   * @return the pH; {@code low} when the function is nowhere above zero, {@code high} when it is
   *     nowhere below
   * @throws NullPointerException if the function is null
   * @throws IllegalArgumentException if an end is NaN or outside its range
   */
  public static double ofFalling(DoubleUnaryOperator falling, double low, double high) {
    Objects.requireNonNull(falling, "falling");
    double a = Conditions.checkedPh(low);
    double b = Require.inRange("upper end of the pH bracket", high, a, Conditions.MOST_PH, "");
    double fa = falling.applyAsDouble(a);
    if (fa <= 0) {
      return a;
    }
    double fb = falling.applyAsDouble(b);
    if (fb >= 0) {
      return b;
    }
    // The root lies between a and b; c is the end that b replaced.
    double t = 0.5;
    while (true) {
      double x = a + t * (b - a);
      double fx = falling.applyAsDouble(x);
      double c;
      double fc;
      if ((fx > 0) == (fa > 0)) {
        c = a;
        fc = fa;
      } else {
        c = b;
        fc = fb;
        b = a;
        fb = fa;
      }
      a = x;
      fa = fx;
      double gap = Math.abs(b - a);
      if (fa == 0 || gap <= TOLERANCE * Math.max(1, Math.abs(a))) {
        return Math.abs(fa) <= Math.abs(fb) ? a : b;
      }
      double xi = (a - b) / (c - b);
      double phi = (fa - fb) / (fc - fb);
      if (phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi) {
        t =
            fa / (fb - fa) * (fc / (fb - fc))
                + (c - a) / (b - a) * (fa / (fc - fa)) * (fb / (fc - fb));
      } else {
        t = 0.5;
      }
      double least = 0.5 * TOLERANCE * Math.max(1, Math.abs(a)) / gap;
      t = Math.min(1 - least, Math.max(least, t));
    }
  }
}
