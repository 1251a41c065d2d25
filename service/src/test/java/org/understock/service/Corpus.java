package org.understock.service;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;

/**
 * The inputs that {@code deploy/rehearsals/fuzz} begins with, as they are and spoiled at random.
 */
public final class Corpus {
  private Corpus() {}

  /** What takes one input, and throws when something does not hold. */
  @FunctionalInterface
  public interface Target {
    void take(byte[] input) throws Exception;
  }

  public static List<Path> files(String name) throws IOException {
    try (Stream<Path> files = Files.list(Path.of("src/test/resources/fuzz", name))) {
      List<Path> all = files.sorted().toList();
      if (all.isEmpty()) throw new IOException("no files of " + name);
      return all;
    }
  }

  /** Hands on a file as it is, and as often with up to four of its bytes exchanged. */
  public static void tryOut(Path file, int spoiledTimes, Target target) throws Exception {
    byte[] bytes = Files.readAllBytes(file);
    target.take(bytes);
    SplittableRandom random = new SplittableRandom(1);
    for (int k = 0; k < spoiledTimes; k++) {
      byte[] spoiled = bytes.clone();
      for (int n = random.nextInt(4); n >= 0; n--)
        spoiled[random.nextInt(spoiled.length)] = (byte) random.nextInt(256);
      try {
        target.take(spoiled);
      } catch (Throwable e) {
        throw new AssertionError(file + ", spoiled for the " + k + ". time", e);
      }
    }
  }
}
