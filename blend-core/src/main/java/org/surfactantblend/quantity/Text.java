package org.surfactantblend.quantity;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/** Numbers as text, the same in every locale. */
public final class Text {
  private static final MathContext SIX_DIGITS = new MathContext(6, RoundingMode.HALF_UP);

  /** No page is wider, and no number has more decimals [characters]. */
  private static final int MOST = 1000;

  private Text() {}

  /**
   * A number with at most six significant digits and no trailing zeros.
   *
   * @param value the number; infinities and NaN are written as words
   * @return the text
   */
  public static String number(double value) {
    if (Double.isNaN(value) || Double.isInfinite(value)) {
      return Double.isNaN(value) ? "not given" : value > 0 ? "no limit" : "no limit below";
    }
    BigDecimal rounded = new BigDecimal(value).round(SIX_DIGITS).stripTrailingZeros();
    return rounded.signum() == 0 ? "0" : rounded.toPlainString();
  }

  /**
   * A number with a fixed count of decimals, rounded half up.
   *
   * @param value the number, finite
   * @param decimals how many decimals, 0 to 1000
   * @return the text, never "-0"
   * @throws IllegalArgumentException if the number is not finite or the count out of range
   */
  public static String fixed(double value, int decimals) {
    Require.inRange("number", value, -Double.MAX_VALUE, Double.MAX_VALUE, "");
    Require.inRange("decimals", decimals, 0, MOST, "");
    BigDecimal rounded = BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP);
    return rounded.signum() == 0 ? rounded.abs().toPlainString() : rounded.toPlainString();
  }

  /**
   * Lines no longer than a width: longer ones are broken at spaces and go on indented; spaces at
   * the end of a line are dropped.
   *
   * @param text the text
   * @param width the greatest length of a line [characters], 20 to 1000
   * @return the text
   * @throws IllegalArgumentException if the width is out of range
   */
  public static String wrapped(CharSequence text, int width) {
    Require.inRange("width", width, 20, MOST, "characters");
    StringBuilder out = new StringBuilder();
    for (String line : text.toString().split("\n", -1)) {
      String rest = line.stripTrailing();
      while (rest.length() > width) {
        int cut = rest.lastIndexOf(' ', width);
        if (cut <= 8) {
          break;
        }
        out.append(rest.substring(0, cut).stripTrailing()).append('\n');
        rest = "      " + rest.substring(cut + 1);
      }
      out.append(rest).append('\n');
    }
    out.setLength(out.length() - 1);
    return out.toString();
  }

  /**
   * Pads on the left.
   *
   * @param text the text
   * @param width the wanted width [characters], 0 to 1000
   * @return the text, right-aligned
   * @throws IllegalArgumentException if the width is out of range
   */
  public static String right(String text, int width) {
    Require.inRange("width", width, 0, MOST, "characters");
    return " ".repeat(Math.max(0, width - text.length())) + text;
  }

  /**
   * Pads on the right, cutting what is too long; a lot at the end is kept if it fits.
   *
   * @param text the text
   * @param width the wanted width [characters], 1 to 1000
   * @return the text, left-aligned in exactly that width
   * @throws IllegalArgumentException if the width is out of range
   */
  public static String left(String text, int width) {
    Require.inRange("width", width, 1, MOST, "characters");
    if (text.length() <= width) {
      return text + " ".repeat(width - text.length());
    }
    int lot = text.lastIndexOf(" lot ");
    int room = width - 1 - (lot < 0 ? 0 : text.length() - lot);
    return lot > 0 && room > 0
        ? text.substring(0, room) + "~" + text.substring(lot)
        : text.substring(0, width - 1) + "~";
  }
}
