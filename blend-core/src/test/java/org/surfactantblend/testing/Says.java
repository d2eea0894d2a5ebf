package org.surfactantblend.testing;

import static org.junit.jupiter.api.Assertions.assertTrue;

/** What a text has to say. */
public final class Says {
  private Says() {}

  /** A text holds every one of some parts. */
  public static void parts(String text, String... parts) {
    for (String part : parts) {
      assertTrue(text.contains(part), () -> part + " in\n" + text);
    }
  }

  /** A text holds every one of some line ends, each up to the end of its line. */
  public static void lines(String text, String... lines) {
    for (String line : lines) {
      assertTrue(text.contains(line + "\n"), () -> line + " in\n" + text);
    }
  }
}
