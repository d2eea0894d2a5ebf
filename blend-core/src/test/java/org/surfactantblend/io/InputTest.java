package org.surfactantblend.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.Reader;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.surfactantblend.Blends;
import org.surfactantblend.problem.Problem;

class InputTest {
  @TempDir Path folder = Path.of("");

  private static String code(Input input) {
    Problem problem = input.problem();
    assertNotNull(problem);
    return problem.code();
  }

  @Test
  void everyWayInGivesTheSameText() throws IOException {
    String text = "id,inci_name\nx,\u00C9clat\n";
    byte[] bytes = ("\uFEFF" + text).getBytes(StandardCharsets.UTF_8);
    Path file = folder.resolve("mine.csv");
    Files.write(file, bytes);
    assertEquals(text, Input.text("a", "\uFEFF" + text).text());
    assertEquals(text, Input.reader("a", new StringReader(text)).text());
    assertEquals(text, Input.stream("a", new ByteArrayInputStream(bytes)).text());
    assertEquals(text, Input.file(file).text());
    assertEquals("mine.csv", Input.file(file).name());
    assertNull(Input.file(file).problem());
  }

  @Test
  void aFileThatIsNotThere() {
    assertThrows(NoSuchFileException.class, () -> Input.file(folder.resolve("none.csv")));
    assertThrows(IOException.class, () -> Input.file(folder));
  }

  @Test
  void bytesThatAreNotUtf8() throws IOException {
    byte[] latin = "id,inci_name\nx,\u00C9clat\n".getBytes(StandardCharsets.ISO_8859_1);
    byte[] wide = "id,inci_name\n".getBytes(StandardCharsets.UTF_16);
    assertEquals("encoding", code(Input.stream("a", new ByteArrayInputStream(latin))));
    assertEquals("encoding", code(Input.stream("a", new ByteArrayInputStream(wide))));
    assertEquals(
        "encoding",
        MaterialFile.readCsv(
                Input.stream("a", new ByteArrayInputStream(latin)), Blends.starterTable())
            .problems()
            .get(0)
            .code());
  }

  @Test
  void anEndlessStreamStopsAtTheLimit() throws IOException {
    InputStream bytes =
        new InputStream() {
          @Override
          public int read() {
            return 'x';
          }

          @Override
          public int read(byte[] buffer, int from, int length) {
            java.util.Arrays.fill(buffer, from, from + length, (byte) 'x');
            return length;
          }
        };
    Reader characters =
        new Reader() {
          @Override
          public int read(char[] buffer, int from, int length) {
            java.util.Arrays.fill(buffer, from, from + length, 'x');
            return length;
          }

          @Override
          public void close() {}
        };
    assertEquals("too-large", code(Input.stream("a", bytes)));
    assertEquals("too-large", code(Input.reader("a", characters)));
    assertEquals(
        "too-large",
        MaterialFile.readJson(Input.reader("a", characters), Blends.starterTable())
            .problems()
            .get(0)
            .code());
  }

  @Test
  void aReaderThatFails() {
    Reader broken =
        new Reader() {
          @Override
          public int read(char[] buffer, int from, int length) throws IOException {
            throw new IOException("gone");
          }

          @Override
          public void close() {}
        };
    assertThrows(IOException.class, () -> Input.reader("a", broken));
  }

  @Test
  void aNameIsNeeded() {
    assertThrows(IllegalArgumentException.class, () -> Input.text(" ", "x"));
  }
}
