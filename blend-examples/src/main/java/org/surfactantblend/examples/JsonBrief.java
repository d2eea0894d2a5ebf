package org.surfactantblend.examples;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import org.surfactantblend.Blends;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.io.Input;
import org.surfactantblend.io.SolveFile;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.ProblemsException;
import org.surfactantblend.solve.BlendResult;

/** How does a tool that is not written in Java ask? A brief as JSON in, the answer as JSON out. */
public final class JsonBrief {
  private static final String HELP =
      """
      Reads a brief as JSON from standard input, writes the answer as JSON to
      standard output. The table is the shipped one with the demo prices.

      ends with 0  a blend was found
                1  no blend can meet the brief; the answer says why
                2  the brief cannot be used; the answer lists every problem
                3  standard input cannot be read

      data/README.md describes the fields of request and answer.
      """;

  private JsonBrief() {}

  /**
   * Runs once.
   *
   * @param args {@code --help}, or none
   */
  public static void main(String[] args) {
    PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    if (args.length > 0) {
      out.print(HELP);
      return;
    }
    System.exit(run(System.in, out));
  }

  static int run(InputStream in, PrintStream out) {
    Loaded<Optional<Brief>> loaded;
    try {
      loaded = SolveFile.readBrief(Input.stream("standard input", in));
    } catch (IOException e) {
      return 3;
    }
    if (loaded.value().isEmpty()) {
      out.print(SolveFile.writeProblems(loaded.problems()));
      return 2;
    }
    MaterialTable table = Blends.starterTable().priced(Blends.demoPrices());
    try {
      BlendResult result = Blends.solve(loaded.value().get(), table);
      out.print(SolveFile.writeResult(result, table));
      return result.isSolved() ? 0 : 1;
    } catch (ProblemsException e) {
      out.print(SolveFile.writeProblems(e.problems()));
      return 2;
    }
  }
}
