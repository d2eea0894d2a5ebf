package org.surfactantblend.io;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Text;

/**
 * One record of named cells, whether from a table or from a JSON object, and where each cell
 * stands. Reading a cell reports what is wrong with it; an error marks the row as failed.
 */
final class Row {
  private static final char ZERO_WIDTH_SPACE = '\u200B';
  private static final char BYTE_ORDER_MARK = '\uFEFF';
  private static final int LONGEST_QUOTE = 60;

  private final Map<String, String> cells;
  private final Function<String, Place> places;
  private final ProblemLog log;
  private boolean failed;

  /** Only what is wrong or unusual needs them. */
  private static final class Patterns {
    static final Pattern COMMA_NUMBER = Pattern.compile("[+-]?[0-9]+,[0-9]+");
    static final Pattern THOUSANDS = Pattern.compile("[+-]?[1-9][0-9]{0,2}(?:,[0-9]{3})+");
    static final Pattern SPACES = Pattern.compile("[\\s\\p{Z}\\x1C-\\x1F\\u200B\\uFEFF]+");
    static final Pattern PLAIN = Pattern.compile("[A-Za-z0-9_-]+");
  }

  Row(Map<String, String> cells, Function<String, Place> places, ProblemLog log) {
    this.cells = cells;
    this.places = places;
    this.log = log;
  }

  /** Whether an error has been reported. */
  boolean failed() {
    return failed;
  }

  void fail() {
    failed = true;
  }

  /** The same cells, whose problems go elsewhere. */
  Row reportingTo(ProblemLog other) {
    return new Row(cells, places, other);
  }

  Place place(String column) {
    return places.apply(column);
  }

  ProblemLog log() {
    return log;
  }

  void error(String code, String column, String found, String allowed, String advice) {
    failed = true;
    log.add(Problem.error(code, place(column), found, allowed, advice));
  }

  void warning(String code, String column, String found, String allowed, String advice) {
    log.add(Problem.warning(code, place(column), found, allowed, advice));
  }

  boolean has(String column) {
    return !text(column).isEmpty();
  }

  /** The cell without surrounding white space; empty when it is not given. */
  String text(String column) {
    return trim(cells.getOrDefault(column, ""));
  }

  /** The cell as a name or key: unusual spaces become plain ones. */
  String word(String column) {
    String trimmed = trim(cells.getOrDefault(column, ""));
    for (int i = 0; i < trimmed.length(); i++) {
      char c = trimmed.charAt(i);
      if (isSpace(c) && (c != ' ' || trimmed.charAt(i + 1) == ' ')) {
        return Patterns.SPACES.matcher(trimmed).replaceAll(" ");
      }
    }
    return trimmed;
  }

  /** As {@link #word}, with an error when the cell is empty. */
  String requiredWord(String column, String allowed) {
    String word = word(column);
    if (word.isEmpty()) {
      error(ProblemCodes.MISSING_VALUE, column, "nothing", allowed, "");
    }
    return word;
  }

  /** Yes or no; the default when empty. */
  boolean yesNo(String column, boolean whenEmpty) {
    String word = word(column).toLowerCase(Locale.ROOT);
    if (word.isEmpty()) {
      return whenEmpty;
    }
    if (word.equals("yes") || word.equals("true")) {
      return true;
    }
    if (!word.equals("no") && !word.equals("false")) {
      error(
          ProblemCodes.YES_NO,
          column,
          quoted(word),
          "yes or no",
          Nearest.to(word, List.of("yes", "no")));
    }
    return false;
  }

  /** One of several words. */
  Optional<String> choice(String column, List<String> known, String code) {
    String word = word(column).toLowerCase(Locale.ROOT);
    if (word.isEmpty()) {
      return Optional.empty();
    }
    if (known.contains(word)) {
      return Optional.of(word);
    }
    error(code, column, quoted(word), String.join(", ", known), Nearest.to(word, known));
    return Optional.empty();
  }

  /** A number, or NaN when the cell is empty or wrong. */
  double number(String column, double least, double most, String unit) {
    String cell = trim(cells.getOrDefault(column, ""));
    return cell.isEmpty() ? Double.NaN : parse(column, cell, least, most, unit);
  }

  /** A whole number, or the default when the cell is empty or wrong. */
  int integer(String column, int least, int most, int whenEmpty) {
    double value = number(column, least, most, "");
    if (Double.isNaN(value)) {
      return whenEmpty;
    }
    if (value != Math.rint(value)) {
      error(
          ProblemCodes.NUMBER_RANGE,
          column,
          quoted(text(column)),
          "a whole number, " + least + " to " + most,
          "");
      return whenEmpty;
    }
    return (int) value;
  }

  /** Whether a text is a number as it should be. */
  static boolean isPlainNumber(String text) {
    return isNumber(trim(text));
  }

  /** Digits with a decimal point, a sign before and an exponent of one to four digits after. */
  private static boolean isNumber(String text) {
    int whole = afterSign(text, 0);
    int at = afterDigits(text, whole);
    int digits = at - whole;
    if (at < text.length() && text.charAt(at) == '.') {
      int fraction = at + 1;
      at = afterDigits(text, fraction);
      digits += at - fraction;
    }
    if (digits == 0) {
      return false;
    }
    if (at < text.length() && (text.charAt(at) == 'e' || text.charAt(at) == 'E')) {
      int exponent = afterSign(text, at + 1);
      at = afterDigits(text, exponent);
      return at == text.length() && at > exponent && at <= exponent + 4;
    }
    return at == text.length();
  }

  private static int afterSign(String text, int at) {
    return at < text.length() && (text.charAt(at) == '+' || text.charAt(at) == '-') ? at + 1 : at;
  }

  private static int afterDigits(String text, int from) {
    int at = from;
    while (at < text.length() && text.charAt(at) >= '0' && text.charAt(at) <= '9') {
      at++;
    }
    return at;
  }

  double parse(String column, String cell, double least, double most, String unit) {
    if (!isNumber(cell)) {
      notANumber(column, cell, allowed(least, most, unit));
      return Double.NaN;
    }
    double value = Double.parseDouble(cell) + 0.0;
    if (!(value >= least && value <= most) || Double.isInfinite(value)) {
      error(ProblemCodes.NUMBER_RANGE, column, quoted(cell), allowed(least, most, unit), "");
      return Double.NaN;
    }
    return value;
  }

  static String allowed(double least, double most, String unit) {
    return "a number from "
        + Text.number(least)
        + (most == Double.MAX_VALUE ? " up" : " to " + Text.number(most))
        + (unit.isEmpty() ? "" : " " + unit);
  }

  private void notANumber(String column, String cell, String allowed) {
    if (cell.indexOf('%') >= 0) {
      String bare = trim(cell.replace('%', ' '));
      String advice = bare.replace(',', '.');
      error(
          bare.indexOf(',') >= 0 ? ProblemCodes.DECIMAL_COMMA : ProblemCodes.PERCENT_SIGN,
          column,
          quoted(cell),
          allowed + ", without a percent sign",
          isNumber(advice) ? advice : "");
      return;
    }
    if (Patterns.COMMA_NUMBER.matcher(cell).matches()
        || Patterns.THOUSANDS.matcher(cell).matches()) {
      String asPoint = Patterns.COMMA_NUMBER.matcher(cell).matches() ? cell.replace(',', '.') : "";
      String asWhole = Patterns.THOUSANDS.matcher(cell).matches() ? cell.replace(",", "") : "";
      error(
          ProblemCodes.DECIMAL_COMMA,
          column,
          quoted(cell),
          allowed + ", with a decimal point",
          asPoint.isEmpty() || asWhole.isEmpty()
              ? asPoint + asWhole
              : asPoint + ", or " + asWhole + " if the comma groups thousands");
      return;
    }
    String joined = Patterns.SPACES.matcher(cell).replaceAll("");
    error(
        ProblemCodes.NUMBER_FORMAT,
        column,
        quoted(cell),
        allowed,
        isNumber(joined)
            ? joined
            : cell.matches("[0-9.]+ *(?:-|\u2013|to|\\.\\.) *[0-9.]+")
                ? "a range goes into the columns for its least and its greatest value"
                : "");
  }

  /**
   * A range from up to three cells: no typical value = the middle; no ends = the typical value.
   * Null when nothing is given or something is wrong.
   */
  @Nullable Range range(
      String low, String typical, String high, double least, double most, String unit) {
    double a = number(low, least, most, unit);
    double t = number(typical, least, most, unit);
    double b = number(high, least, most, unit);
    boolean wrong =
        (has(low) && Double.isNaN(a))
            || (has(typical) && Double.isNaN(t))
            || (has(high) && Double.isNaN(b));
    if (wrong || (Double.isNaN(a) && Double.isNaN(t) && Double.isNaN(b))) {
      return null;
    }
    if (Double.isNaN(t) && Double.isNaN(a) != Double.isNaN(b)) {
      warning(
          ProblemCodes.HALF_RANGE,
          Double.isNaN(a) ? high : low,
          "one end only",
          "both ends, or the typical value",
          "the figure is taken as exact");
      t = Double.isNaN(a) ? b : a;
    }
    double from = Double.isNaN(a) ? (Double.isNaN(t) ? b : t) : a;
    double to = Double.isNaN(b) ? (Double.isNaN(t) ? a : t) : b;
    if (from > to) {
      error(
          ProblemCodes.RANGE_ORDER,
          Double.isNaN(a) ? typical : low,
          Text.number(from) + " to " + Text.number(to),
          "least, typical and greatest in rising order",
          "swap the two");
      return null;
    }
    double middle = Double.isNaN(t) ? from + (to - from) / 2 : t;
    if (middle < from || middle > to) {
      error(
          ProblemCodes.RANGE_ORDER,
          typical,
          Text.number(middle),
          "a typical value from " + Text.number(from) + " to " + Text.number(to),
          "");
      return null;
    }
    return Range.of(from, middle, to);
  }

  /** Reports a character that no text holds. */
  void checkCharacters(String column, String cell) {
    int odd = unprintable(cell);
    if (odd >= 0) {
      error(
          ProblemCodes.CONTROL_CHARACTER,
          column,
          "the character " + quoted(String.valueOf(cell.charAt(odd))),
          "printable text",
          "save the table again as UTF-8 text");
    }
  }

  /** Where the first character stands that no text holds, -1 when there is none. */
  static int unprintable(String text) {
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c >= ' ' && c < 0x7F) {
        continue;
      }
      boolean pair =
          Character.isHighSurrogate(c)
              && i + 1 < text.length()
              && Character.isLowSurrogate(text.charAt(i + 1));
      if (pair) {
        i++;
      } else if (Character.isSurrogate(c) || (c < ' ' && "\t\n\r".indexOf(c) < 0) || c == 0x7F) {
        return i;
      }
    }
    return -1;
  }

  /** Removes white space of every kind at both ends. */
  static String trim(String text) {
    int from = 0;
    int to = text.length();
    while (from < to && isSpace(text.charAt(from))) {
      from++;
    }
    while (to > from && isSpace(text.charAt(to - 1))) {
      to--;
    }
    return text.substring(from, to);
  }

  private static boolean isSpace(char c) {
    return Character.isWhitespace(c)
        || Character.isSpaceChar(c)
        || c == ZERO_WIDTH_SPACE
        || c == BYTE_ORDER_MARK;
  }

  /** A name as part of a place: as it is when plain, in quotes otherwise. */
  static String shown(String name) {
    return name.length() <= LONGEST_QUOTE && Patterns.PLAIN.matcher(name).matches()
        ? name
        : quoted(name);
  }

  /** The text in quotes, shortened, with unprintable characters spelled out. */
  static String quoted(String text) {
    StringBuilder out = new StringBuilder("'");
    int shown = Math.min(text.length(), LONGEST_QUOTE);
    for (int i = 0; i < shown; i++) {
      char c = text.charAt(i);
      if (Character.isISOControl(c)
          || Character.isSurrogate(c)
          || Character.getType(c) == Character.FORMAT
          || (c != ' ' && Character.isSpaceChar(c))) {
        out.append("\\u").append(Integer.toHexString(0x10000 | c).substring(1));
      } else {
        out.append(c);
      }
    }
    out.append('\'');
    if (shown < text.length()) {
      out.append(" and ").append(text.length() - shown).append(" characters more");
    }
    return out.toString();
  }
}
