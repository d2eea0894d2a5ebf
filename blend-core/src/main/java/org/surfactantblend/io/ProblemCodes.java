package org.surfactantblend.io;

/**
 * The codes of the problems that reading can report. A code never changes its meaning.
 *
 * <table>
 * <caption>Codes, how bad each is, and what it means</caption>
 * <tr><th>code</th><th>severity</th><th>what was met</th></tr>
 * <tr><td>{@value #TOO_LARGE}</td><td>error</td><td>an input longer than {@link Input#MOST_CHARACTERS}; nothing is read</td></tr>
 * <tr><td>{@value #ENCODING}</td><td>error</td><td>bytes that are not UTF-8; nothing is read</td></tr>
 * <tr><td>{@value #EMPTY_INPUT}</td><td>error</td><td>no text at all, or blank cells only</td></tr>
 * <tr><td>{@value #NO_ROWS}</td><td>warning</td><td>a header, or a JSON array, with nothing in it</td></tr>
 * <tr><td>{@value #SEPARATOR}</td><td>warning</td><td>cells separated by semicolon, tab or bar; they are read as such</td></tr>
 * <tr><td>{@value #UNKNOWN_COLUMN}</td><td>warning</td><td>a column of no known name; it is not read</td></tr>
 * <tr><td>{@value #UNKNOWN_FIELD}</td><td>warning</td><td>a JSON field of no known name; it is not read</td></tr>
 * <tr><td>{@value #DUPLICATE_COLUMN}</td><td>error</td><td>two columns of one name; the first is read</td></tr>
 * <tr><td>{@value #MISSING_COLUMN}</td><td>error</td><td>a column without which no row can be read</td></tr>
 * <tr><td>{@value #EXTRA_CELLS}</td><td>error</td><td>a row with more cells than the header; the row is left out</td></tr>
 * <tr><td>{@value #UNBALANCED_QUOTE}</td><td>error</td><td>a quotation mark that never closes or closes too early; the row is left out</td></tr>
 * <tr><td>{@value #CELL_TOO_LONG}</td><td>error</td><td>a cell longer than {@link Input#MOST_CHARACTERS_IN_A_CELL}, or a row of more than 200000 characters; the row is left out</td></tr>
 * <tr><td>{@value #TOO_MANY_ROWS}</td><td>error</td><td>more rows than {@link Input#MOST_ROWS}; the rest is not read</td></tr>
 * <tr><td>{@value #TOO_MANY_COLUMNS}</td><td>error</td><td>more columns than {@link Input#MOST_COLUMNS}; the row is left out</td></tr>
 * <tr><td>{@value #TOO_MANY_PROBLEMS}</td><td>error</td><td>more than a thousand problems; the rest is not listed</td></tr>
 * <tr><td>{@value #CONTROL_CHARACTER}</td><td>error</td><td>a character that no text holds, such as NUL; the row is left out</td></tr>
 * <tr><td>{@value #JSON_SYNTAX}</td><td>error</td><td>text that is not JSON, or a field given twice; nothing is read</td></tr>
 * <tr><td>{@value #JSON_LIMIT}</td><td>error</td><td>JSON beyond the limits of depth, length or count; nothing is read</td></tr>
 * <tr><td>{@value #JSON_TYPE}</td><td>error</td><td>a JSON value of the wrong kind, such as a list for a number</td></tr>
 * <tr><td>{@value #MISSING_VALUE}</td><td>error</td><td>a required figure or name that is not given</td></tr>
 * <tr><td>{@value #DECIMAL_COMMA}</td><td>error</td><td>a number with a comma</td></tr>
 * <tr><td>{@value #PERCENT_SIGN}</td><td>error</td><td>a number with a percent sign</td></tr>
 * <tr><td>{@value #NUMBER_FORMAT}</td><td>error</td><td>anything else that is not a plain decimal number</td></tr>
 * <tr><td>{@value #NUMBER_RANGE}</td><td>error</td><td>a number that its figure cannot have</td></tr>
 * <tr><td>{@value #RANGE_ORDER}</td><td>error</td><td>least, typical and greatest value not in rising order</td></tr>
 * <tr><td>{@value #HALF_RANGE}</td><td>warning</td><td>one end of a range only; it is taken as exact</td></tr>
 * <tr><td>{@value #YES_NO}</td><td>error</td><td>something other than yes or no</td></tr>
 * <tr><td>{@value #CHOICE}</td><td>error</td><td>a word outside a fixed list</td></tr>
 * <tr><td>{@value #TEXT_FORMAT}</td><td>error</td><td>a list of constituents or groups in one cell that cannot be taken apart</td></tr>
 * <tr><td>{@value #DUPLICATE_ID}</td><td>error</td><td>an id that an earlier row has; the earlier row stays, or neither when that one has a fault</td></tr>
 * <tr><td>{@value #ID_FORMAT}</td><td>warning</td><td>an id that is not lower-case words with hyphens</td></tr>
 * <tr><td>{@value #UNKNOWN_CLASS}</td><td>error</td><td>a charge class of no known name</td></tr>
 * <tr><td>{@value #CLASS_FAMILY}</td><td>warning</td><td>a charge class other than the family's usual one</td></tr>
 * <tr><td>{@value #UNKNOWN_FAMILY}</td><td>warning</td><td>a family that is not in the table; nothing is known of its acids and bases</td></tr>
 * <tr><td>{@value #MISSING_FAMILY}</td><td>warning</td><td>a surfactant without a family; as above</td></tr>
 * <tr><td>{@value #ACTIVE_WITHOUT_CLASS}</td><td>error</td><td>active matter for a material that is said to be no surfactant</td></tr>
 * <tr><td>{@value #PH_WITHOUT_DILUTION}</td><td>warning</td><td>a pH whose dilution is not stated; 10 % is taken and the range widened</td></tr>
 * <tr><td>{@value #DILUTION_WITHOUT_PH}</td><td>warning</td><td>a dilution without a pH</td></tr>
 * <tr><td>{@value #DRY_RESIDUE_AS_ACTIVE}</td><td>error or warning</td><td>active matter that looks like the dry residue; an error where the own figures of a row without a lot contradict each other</td></tr>
 * <tr><td>{@value #ACTIVE_AS_FRACTION}</td><td>warning</td><td>active matter of at most 1 %, which no grade has: a share of 1 rather than a percentage</td></tr>
 * <tr><td>{@value #PERCENT_AS_FRACTION}</td><td>warning</td><td>a total or a share of less than 1 % in a brief: a share of 1 rather than a percentage</td></tr>
 * <tr><td>{@value #OVER_100_PERCENT}</td><td>error</td><td>active matter, salt, other constituents and water add up to more than 100 %</td></tr>
 * <tr><td>{@value #NO_CONSTITUENTS}</td><td>warning</td><td>nothing said of what is inside; it is taken as 100 % of its INCI name, without water</td></tr>
 * <tr><td>{@value #DUPLICATE_CONSTITUENT}</td><td>error</td><td>one constituent, or one group, twice in a material</td></tr>
 * <tr><td>{@value #WATER_LISTED}</td><td>error</td><td>water among the constituents</td></tr>
 * <tr><td>{@value #UNKNOWN_ACID}</td><td>error</td><td>an acid key that the table does not have</td></tr>
 * <tr><td>{@value #ACID_CHARGE}</td><td>error</td><td>a charge that contradicts the acid's own</td></tr>
 * <tr><td>{@value #UNKNOWN_MATERIAL}</td><td>error or warning</td><td>a material that the table does not have; a warning for a price</td></tr>
 * <tr><td>{@value #UNKNOWN_LOT}</td><td>error</td><td>a lot that comes with no certificate</td></tr>
 * <tr><td>{@value #UNUSED_LOT}</td><td>warning</td><td>a certificate of a lot that the request does not ask for</td></tr>
 * <tr><td>{@value #CURRENCY_MIXED}</td><td>error</td><td>prices in more than one currency; the first one stays</td></tr>
 * <tr><td>{@value #PRICE_OF_NOTHING}</td><td>warning</td><td>a price of 0 for something other than water; a wish for least cost takes it gladly</td></tr>
 * <tr><td>{@value #UNKNOWN_SOURCE}</td><td>error</td><td>a source id that does not resolve (shipped tables only)</td></tr>
 * </table>
 */
public final class ProblemCodes {
  /** An input longer than the limit. */
  public static final String TOO_LARGE = "too-large";

  /** Bytes that are not UTF-8. */
  public static final String ENCODING = "encoding";

  /** No text at all. */
  public static final String EMPTY_INPUT = "empty-input";

  /** A header with nothing under it. */
  public static final String NO_ROWS = "no-rows";

  /** Cells separated by something other than a comma. */
  public static final String SEPARATOR = "separator";

  /** A column of no known name. */
  public static final String UNKNOWN_COLUMN = "unknown-column";

  /** A JSON field of no known name. */
  public static final String UNKNOWN_FIELD = "unknown-field";

  /** Two columns of one name. */
  public static final String DUPLICATE_COLUMN = "duplicate-column";

  /** A column without which no row can be read. */
  public static final String MISSING_COLUMN = "missing-column";

  /** A row with more cells than the header. */
  public static final String EXTRA_CELLS = "extra-cells";

  /** A quotation mark that never closes or closes too early. */
  public static final String UNBALANCED_QUOTE = "unbalanced-quote";

  /** A cell longer than the limit. */
  public static final String CELL_TOO_LONG = "cell-too-long";

  /** More rows than the limit. */
  public static final String TOO_MANY_ROWS = "too-many-rows";

  /** More columns than the limit. */
  public static final String TOO_MANY_COLUMNS = "too-many-columns";

  /** More problems than are listed. */
  public static final String TOO_MANY_PROBLEMS = "too-many-problems";

  /** A character that no text holds. */
  public static final String CONTROL_CHARACTER = "control-character";

  /** Text that is not JSON. */
  public static final String JSON_SYNTAX = "json-syntax";

  /** JSON beyond the limits of depth, length or count. */
  public static final String JSON_LIMIT = "json-limit";

  /** A JSON value of the wrong kind. */
  public static final String JSON_TYPE = "json-type";

  /** A required figure or name that is not given. */
  public static final String MISSING_VALUE = "missing-value";

  /** A number with a comma. */
  public static final String DECIMAL_COMMA = "decimal-comma";

  /** A number with a percent sign. */
  public static final String PERCENT_SIGN = "percent-sign";

  /** Not a plain decimal number. */
  public static final String NUMBER_FORMAT = "number-format";

  /** A number that its figure cannot have. */
  public static final String NUMBER_RANGE = "number-range";

  /** Least, typical and greatest value out of order. */
  public static final String RANGE_ORDER = "range-order";

  /** One end of a range only. */
  public static final String HALF_RANGE = "half-range";

  /** Something other than yes or no. */
  public static final String YES_NO = "yes-no";

  /** A word outside a fixed list. */
  public static final String CHOICE = "choice";

  /** A list in one cell that cannot be taken apart. */
  public static final String TEXT_FORMAT = "text-format";

  /** An id that an earlier row has. */
  public static final String DUPLICATE_ID = "duplicate-id";

  /** An id that is not lower-case words with hyphens. */
  public static final String ID_FORMAT = "id-format";

  /** A charge class of no known name. */
  public static final String UNKNOWN_CLASS = "unknown-class";

  /** A charge class other than the family's usual one. */
  public static final String CLASS_FAMILY = "class-family";

  /** A family that is not in the table. */
  public static final String UNKNOWN_FAMILY = "unknown-family";

  /** A surfactant without a family. */
  public static final String MISSING_FAMILY = "missing-family";

  /** Active matter for what is said to be no surfactant. */
  public static final String ACTIVE_WITHOUT_CLASS = "active-without-class";

  /** A pH whose dilution is not stated. */
  public static final String PH_WITHOUT_DILUTION = "ph-without-dilution";

  /** A dilution without a pH. */
  public static final String DILUTION_WITHOUT_PH = "dilution-without-ph";

  /** Active matter that looks like the dry residue. */
  public static final String DRY_RESIDUE_AS_ACTIVE = "dry-residue-as-active";

  /** Active matter of at most 1 %: a share of 1 rather than a percentage. */
  public static final String ACTIVE_AS_FRACTION = "active-as-fraction";

  /** A total or a share of less than 1 % in a brief: a share of 1 rather than a percentage. */
  public static final String PERCENT_AS_FRACTION = "percent-as-fraction";

  /** Contents that add up to more than 100 %. */
  public static final String OVER_100_PERCENT = "over-100-percent";

  /** Nothing said of what is inside. */
  public static final String NO_CONSTITUENTS = "no-constituents";

  /** One constituent twice in a material. */
  public static final String DUPLICATE_CONSTITUENT = "duplicate-constituent";

  /** Water among the constituents. */
  public static final String WATER_LISTED = "water-listed";

  /** An acid key that the table does not have. */
  public static final String UNKNOWN_ACID = "unknown-acid";

  /** A charge that contradicts the acid's own. */
  public static final String ACID_CHARGE = "acid-charge";

  /** A lot that comes with no certificate. */
  public static final String UNKNOWN_LOT = "unknown-lot";

  /** A certificate of a lot that the request does not ask for. */
  public static final String UNUSED_LOT = "unused-lot";

  /** A material that the table does not have. */
  public static final String UNKNOWN_MATERIAL = "unknown-material";

  /** Prices in more than one currency. */
  public static final String CURRENCY_MIXED = "currency-mixed";

  /** A price of 0 for something other than water. */
  public static final String PRICE_OF_NOTHING = "price-of-nothing";

  /** A source id that does not resolve. */
  public static final String UNKNOWN_SOURCE = "unknown-source";

  private ProblemCodes() {}
}
