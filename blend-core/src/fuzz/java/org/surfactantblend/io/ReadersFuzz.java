package org.surfactantblend.io;

import com.code_intelligence.jazzer.junit.FuzzTest;

/** Fuzz targets of all readers, one method each; what must hold is in {@link ReaderLaws}. */
class ReadersFuzz {
  @FuzzTest
  void materialsCsv(byte[] bytes) {
    ReaderLaws.materialsCsv.check(bytes);
  }

  @FuzzTest
  void materialsJson(byte[] bytes) {
    ReaderLaws.materialsJson.check(bytes);
  }

  @FuzzTest
  void pricesCsv(byte[] bytes) {
    ReaderLaws.pricesCsv.check(bytes);
  }

  @FuzzTest
  void pricesJson(byte[] bytes) {
    ReaderLaws.pricesJson.check(bytes);
  }

  @FuzzTest
  void solveRequest(byte[] bytes) {
    ReaderLaws.solveRequest.check(bytes);
  }
}
