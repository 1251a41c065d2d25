package org.understock.service.advice;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.understock.service.Corpus;

/** Batches to begin with, and those by which the fuzzer found something. */
class FuzzedBatchTest {
  static List<Path> files() throws IOException {
    return Corpus.files("batch");
  }

  @ParameterizedTest
  @MethodSource("files")
  void what_must_hold_of_any_bytes_holds(Path file) throws Exception {
    Corpus.tryOut(file, 100, BatchFuzz::fuzzerTestOneInput);
  }
}
