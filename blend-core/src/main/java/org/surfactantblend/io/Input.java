package org.surfactantblend.io;

import java.io.IOException;
import java.io.InputStream;
import java.io.Reader;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.quantity.Require;

/**
 * A text to read, with the name that problems give it. Taken up whole and at once, up to a limit;
 * what is read later never touches a file again. Bytes are read as UTF-8; a byte order mark at the
 * beginning is dropped.
 *
 * <p>Immutable and thread-safe.
 */
public final class Input {
  /** The most text that one input may hold [characters, or bytes of a file]. */
  public static final int MOST_CHARACTERS = 16 << 20;

  /** The most text that one cell or JSON string may hold [characters]. */
  public static final int MOST_CHARACTERS_IN_A_CELL = 20_000;

  /** The most rows that one input may hold, its header included. */
  public static final int MOST_ROWS = 50_000;

  /** The most columns that one row may hold. */
  public static final int MOST_COLUMNS = 200;

  private final String name;
  private final String text;
  private final @Nullable Problem problem;

  private Input(String name, String text, @Nullable Problem problem) {
    this.name = Require.text("name of the input", name);
    this.text = text.startsWith("\uFEFF") ? text.substring(1) : text;
    this.problem = problem;
  }

  /**
   * A text in memory.
   *
   * @param name the name for problems, such as {@code pasted table}
   * @param text the text
   * @return the input
   * @throws NullPointerException if an argument is null
   * @throws IllegalArgumentException if the name is blank
   */
  public static Input text(String name, String text) {
    Objects.requireNonNull(text, "text");
    return text.length() > MOST_CHARACTERS ? tooLarge(name) : new Input(name, text, null);
  }

  /**
   * A file of UTF-8 text; its file name names it in problems.
   *
   * @param path the file
   * @return the input
   * @throws IOException if the file cannot be read
   */
  public static Input file(Path path) throws IOException {
    Path fileName = path.getFileName();
    try (InputStream in = Files.newInputStream(path)) {
      return stream(fileName == null ? path.toString() : fileName.toString(), in);
    }
  }

  /**
   * Everything a reader gives; the reader is not closed.
   *
   * @param name the name for problems
   * @param reader where the text comes from
   * @return the input
   * @throws IOException if the reader fails
   */
  public static Input reader(String name, Reader reader) throws IOException {
    StringBuilder all = new StringBuilder();
    char[] buffer = new char[8192];
    for (int n = reader.read(buffer); n >= 0; n = reader.read(buffer)) {
      if (all.length() + n > MOST_CHARACTERS) {
        return tooLarge(name);
      }
      all.append(buffer, 0, n);
    }
    return new Input(name, all.toString(), null);
  }

  /**
   * Everything a stream of UTF-8 text gives; the stream is not closed.
   *
   * @param name the name for problems
   * @param stream where the bytes come from
   * @return the input
   * @throws IOException if the stream fails
   */
  public static Input stream(String name, InputStream stream) throws IOException {
    byte[] bytes = stream.readNBytes(MOST_CHARACTERS + 1);
    if (bytes.length > MOST_CHARACTERS) {
      return tooLarge(name);
    }
    try {
      String text =
          StandardCharsets.UTF_8
              .newDecoder()
              .onMalformedInput(CodingErrorAction.REPORT)
              .onUnmappableCharacter(CodingErrorAction.REPORT)
              .decode(ByteBuffer.wrap(bytes))
              .toString();
      return new Input(name, text, null);
    } catch (CharacterCodingException e) {
      return new Input(
          name,
          "",
          Problem.error(
              ProblemCodes.ENCODING,
              Place.in(name, ""),
              "bytes that are not UTF-8",
              "text in UTF-8",
              "save the table again and choose UTF-8 as its encoding"));
    }
  }

  private static Input tooLarge(String name) {
    return new Input(
        name,
        "",
        Problem.error(
            ProblemCodes.TOO_LARGE,
            Place.in(name, ""),
            "more than " + MOST_CHARACTERS + " characters",
            "at most " + MOST_CHARACTERS + " characters",
            "split the table, or look whether this is the file you meant"));
  }

  /**
   * The name that problems give it.
   *
   * @return the name
   */
  public String name() {
    return name;
  }

  /** The text, without byte order mark; empty when it was not taken up. */
  String text() {
    return text;
  }

  /** Why it was not taken up, or null. */
  @Nullable Problem problem() {
    return problem;
  }

  @Override
  public String toString() {
    return name;
  }
}
