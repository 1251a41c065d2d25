package org.understock.service.advice;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.time.Instant;
import java.util.Arrays;
import org.springframework.mock.web.MockHttpServletRequest;
import org.understock.advice.Adviser;
import org.understock.evidence.CompiledTraitBook;
import org.understock.migrations.StarterEvidence;
import org.understock.service.platform.Lines;
import org.understock.service.problem.JsonBodies;
import org.understock.service.problem.Problem;
import org.understock.service.problem.Problems;
import org.understock.service.problem.StrictBodies;
import org.understock.service.store.Revision;
import org.understock.service.store.Snapshot;
import org.understock.wording.Language;

/**
 * What must hold of any bytes that are sent as a batch: they are cut as lines are, and each line
 * becomes advice that can be written, or a problem that is the asker's, not the service's. Entry
 * for a fuzzer guided by coverage.
 */
public final class BatchFuzz {
  private static final int LONGEST = 4096;
  private static final JsonBodies JSON = StrictBodies.make();
  private static final Snapshot SNAPSHOT = snapshot();

  private BatchFuzz() {}

  private static Snapshot snapshot() {
    CompiledTraitBook book = CompiledTraitBook.compile(1, StarterEvidence.read().evidence());
    return new Snapshot(book, Adviser.of(book), new Revision(1, "", Instant.EPOCH, "", 0));
  }

  /** What is read and compiled once is not to count as the first input's time. */
  public static void fuzzerInitialize() {
    if (SNAPSHOT.adviser() == null) throw new AssertionError("there is nobody to ask");
  }

  public static void fuzzerTestOneInput(byte[] input) throws IOException {
    Lines lines = new Lines(new ByteArrayInputStream(input), LONGEST, () -> {});
    int at = 0;
    for (Lines.Line line = lines.next(); line != null; line = lines.next()) {
      int end = at;
      while (end < input.length && input[end] != '\n') end++;
      if (line.length() != end - at) throw new AssertionError("a line of " + line.length());
      byte[] bytes = line.bytes();
      if (bytes == null
          ? line.length() <= LONGEST
          : !Arrays.equals(bytes, 0, bytes.length, input, at, end))
        throw new AssertionError("line " + line.number() + " is another");
      at = end + 1;
      if (bytes != null) answer(line);
    }
    if (at < input.length) throw new AssertionError("bytes are left over");
  }

  private static void answer(Lines.Line line) {
    String text;
    try {
      text = line.text();
    } catch (CharacterCodingException e) {
      return;
    }
    if (text.isEmpty()) return;
    try {
      AdviceRequest asked = JSON.read(text, AdviceRequest.class);
      AdviceResponse advice = AdviceController.answer(asked, SNAPSHOT, Language.values()[0]);
      String written = JSON.write(advice);
      if (written.contains("NaN") || written.contains("Infinity"))
        throw new AssertionError("an answer with figures that are none: " + written);
    } catch (RuntimeException e) {
      Problem problem = Problems.of(e, new MockHttpServletRequest());
      if (problem.status() >= 500) throw new AssertionError("answered " + problem.status(), e);
      if (problem.detail().isBlank()) throw new AssertionError("nothing is said", e);
    }
  }
}
