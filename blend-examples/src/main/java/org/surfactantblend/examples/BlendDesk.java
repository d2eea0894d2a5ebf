package org.surfactantblend.examples;

import java.io.InputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import org.surfactantblend.Blends;
import org.surfactantblend.io.Input;
import org.surfactantblend.io.Requests;

/** How does a tool that is not written in Java ask? One JSON request in, one JSON answer out. */
public final class BlendDesk {
  private static final String HELP =
      """
      Reads one request as JSON from standard input and writes one answer as JSON to
      standard output. Nothing else is read or written, and no network is used.

        java -jar blend-desk.jar < request.json > answer.json

      The field "kind" of the request says what is wanted:

        solve          a blend for a brief: total active, shares, starting pH, cost
        alternatives   the best blends for a brief with other sets of surfactants
        trade-off      what less of one thing costs in another: cost, salt, irritation
                       index, number of surfactants, ...
        sensitivity    what would change the blend: each limit that costs something,
                       and the price at which another surfactant would come in
        starting-ph    the pH a recipe starts at before any correction, and how sure
                       that is
        dose           the acid or base that brings a batch to a pH
        titration      the next dose after your readings; save the request and go on
        swap           another lot, grade or supplier in a recipe, active content held
        conversion     somebody else's recipe made with the grades you have
        largest-batch  the most that your stock allows, and what runs out first
        batch-sheet    a recipe as grams on your scales, in the order of addition
        correction     what to add when a line was missed, doubled or from the wrong
                       drum
        conformance    whether your materials and certificates can be trusted

      Percentages are by mass. "asSupplied" means as it comes out of the drum,
      "active" the active matter alone. Numbers have a decimal point. Every request
      may bring your own materials, certificates of lots and prices; without them
      the shipped table of typical grades is used, and it has no prices.
      data/examples holds an example of every kind, data/schemas the exact rules.

      ends with 0  all that was asked for is in the answer
                1  it cannot be had, or not all of it: the answer says what and why
                2  the request cannot be used: the answer lists every problem
                3  something unexpected; standard error says what

      An answer is arithmetic on the figures it was given. Measure the pH, follow your
      local rules, and leave release to a qualified person.
      """;

  private BlendDesk() {}

  /**
   * Runs once.
   *
   * @param args {@code --help}, or none
   */
  public static void main(String[] args) {
    PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    PrintStream err = new PrintStream(System.err, true, StandardCharsets.UTF_8);
    System.exit(run(args, System.in, out, err));
  }

  static int run(String[] args, InputStream in, PrintStream out, PrintStream err) {
    if (args.length > 0) {
      boolean help = args[0].equals("--help") || args[0].equals("-h");
      (help ? out : err).print(HELP);
      return help ? 0 : 2;
    }
    try {
      Requests.Answer answer =
          Requests.answer(Input.stream("standard input", in), Blends.starterTable());
      out.print(answer.json());
      return switch (answer.outcome()) {
        case MET -> 0;
        case NOT_MET -> 1;
        case NOT_USABLE -> 2;
      };
    } catch (Throwable e) {
      // An exception that leaves main would end with 1, which means something else here.
      err.println("unexpected: " + e);
      return 3;
    }
  }
}
