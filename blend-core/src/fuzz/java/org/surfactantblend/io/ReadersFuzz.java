package org.surfactantblend.io;

/** Hands the fuzzer's bytes to one of {@link ReaderLaws}, named as its argument. */
public final class ReadersFuzz {
  private static ReaderLaws law = ReaderLaws.materialsCsv;

  private ReadersFuzz() {}

  /** Called once by the fuzzer. */
  public static void fuzzerInitialize(String[] arguments) {
    law = ReaderLaws.valueOf(arguments[0]);
  }

  /** Called by the fuzzer for every input. */
  public static void fuzzerTestOneInput(byte[] bytes) {
    law.check(bytes);
  }
}
