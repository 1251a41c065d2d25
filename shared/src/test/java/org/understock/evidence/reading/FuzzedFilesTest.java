package org.understock.evidence.reading;

import static org.assertj.core.api.Assertions.assertThatNoException;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Files to begin with and those by which {@code deploy/rehearsals/fuzz} found something, as they
 * are and spoiled at random.
 */
class FuzzedFilesTest {
  private static final Path FILES = Path.of("src/test/resources/fuzz/evidence");
  private static final int SPOILED = 200;

  static List<Path> files() throws IOException {
    try (Stream<Path> files = Files.list(FILES)) {
      return files.sorted().toList();
    }
  }

  @ParameterizedTest
  @MethodSource("files")
  void what_must_hold_of_any_bytes_holds(Path file) throws IOException {
    byte[] bytes = Files.readAllBytes(file);
    EvidenceFuzz.fuzzerTestOneInput(bytes);
    SplittableRandom random = new SplittableRandom(1);
    for (int k = 0; k < SPOILED; k++) {
      byte[] spoiled = bytes.clone();
      for (int n = random.nextInt(4); n >= 0; n--)
        spoiled[random.nextInt(spoiled.length)] = (byte) random.nextInt(256);
      assertThatNoException()
          .as("%s, spoiled for the %d. time", file, k)
          .isThrownBy(() -> EvidenceFuzz.fuzzerTestOneInput(spoiled));
    }
  }

  @Test
  void there_is_one_of_every_kind() throws IOException {
    for (int kind = 0; kind < EvidenceReader.Kind.values().length; kind++) {
      int first = '0' + kind;
      boolean any = false;
      for (Path file : files()) any |= Files.readAllBytes(file)[0] == first;
      org.assertj.core.api.Assertions.assertThat(any).as("kind " + kind).isTrue();
    }
  }
}
