package org.understock.service.advice;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.io.InterruptedIOException;
import java.io.OutputStream;
import java.nio.charset.CharacterCodingException;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.service.limits.Allowance;
import org.understock.service.limits.Turns;
import org.understock.service.platform.Lines;
import org.understock.service.problem.JsonBodies;
import org.understock.service.problem.Problem;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.service.problem.Problems;
import org.understock.service.store.Snapshot;
import org.understock.wording.Language;

/**
 * Answers requests line by line as they come, in their order, all from one snapshot. One line and
 * its answer are in memory at a time: while the asker does not take answers, no more of his lines
 * are read.
 */
final class Batch {
  private final Snapshot snapshot;
  private final Language language;
  private final JsonBodies json;
  private final Turns turns;
  private final AdviceMeters meters;
  private final HttpServletRequest request;
  private final Allowance allowance;
  private final int longestLine;

  /**
   * @param request whose body is read
   * @param longestLine most bytes of a line
   */
  Batch(
      Snapshot snapshot,
      Language language,
      JsonBodies json,
      Turns turns,
      AdviceMeters meters,
      HttpServletRequest request,
      int longestLine) {
    this.snapshot = snapshot;
    this.language = language;
    this.json = json;
    this.turns = turns;
    this.meters = meters;
    this.request = request;
    this.allowance = Allowance.of(request);
    this.longestLine = longestLine;
  }

  /** What became of a batch. */
  record Tally(long advised, long refused) {}

  /**
   * Reads to the end of the body. When the body breaks off, the last answer says so.
   *
   * @throws IOException when the asker has gone away and answers can't be sent
   */
  Tally run(OutputStream answers) throws IOException {
    Lines lines = new Lines(request.getInputStream(), longestLine, answers);
    long advised = 0;
    long refused = 0;
    for (Lines.Line line = next(lines, answers); line != null; line = next(lines, answers)) {
      BatchAnswer answer = answer(line);
      if (answer == null) continue;
      if (answer.advice() == null) refused++;
      else advised++;
      write(answer, answers);
    }
    answers.flush();
    return new Tally(advised, refused);
  }

  private Lines.@Nullable Line next(Lines lines, OutputStream answers) throws IOException {
    try {
      return lines.next();
    } catch (IOException e) {
      ProblemException broken =
          ProblemException.of(
              ProblemType.MALFORMED_REQUEST,
              "The batch breaks off here: its end did not come, or nothing came for too long. The lines before are answered.",
              List.of());
      write(new BatchAnswer(lines.number() + 1, null, null, problem(broken)), answers);
      return null;
    }
  }

  private void write(BatchAnswer answer, OutputStream answers) throws IOException {
    answers.write(json.bytes(answer));
    answers.write('\n');
  }

  /** Null for an empty line. */
  private @Nullable BatchAnswer answer(Lines.Line line) throws IOException {
    String[] id = new String[1];
    try {
      String text = text(line);
      if (text.isEmpty()) return null;
      allowance.await();
      AdviceRequest asked = json.read(text, AdviceRequest.class, read -> id[0] = usable(read.id()));
      if (asked.revision() != null && asked.revision() != snapshot.revision().number())
        throw otherRevision(asked.revision());
      AdviceResponse advice =
          turns.await(() -> meters.line(() -> AdviceController.answer(asked, snapshot, language)));
      allowance.chargePairings(advice.considered());
      return new BatchAnswer(line.number(), asked.id(), advice, null);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new InterruptedIOException("the service stops");
    } catch (RuntimeException e) {
      return new BatchAnswer(line.number(), id[0], null, problem(e));
    }
  }

  private Problem problem(RuntimeException e) {
    return Problems.of(e, request);
  }

  private static @Nullable String usable(@Nullable String id) {
    return id == null || id.length() > AdviceRequest.LONGEST_ID ? null : id;
  }

  private String text(Lines.Line line) {
    if (line.bytes() == null) {
      throw ProblemException.of(
          ProblemType.TOO_LARGE,
          "The line is "
              + line.length()
              + " bytes long; at most "
              + longestLine
              + " are read. The line's end was looked for and the batch goes on.",
          List.of());
    }
    try {
      return line.text();
    } catch (CharacterCodingException e) {
      throw ProblemException.of(ProblemType.MALFORMED_REQUEST, "The line is not UTF-8.", List.of());
    }
  }

  private ProblemException otherRevision(long given) {
    long pinned = snapshot.revision().number();
    return ProblemException.of(
        ProblemType.INVALID_REQUEST,
        "A batch is answered as of one revision.",
        List.of(
            new ProblemError(
                "#/revision",
                null,
                "this batch is answered as of revision "
                    + pinned
                    + "; ask for another with the batch's parameter revision",
                String.valueOf(pinned),
                given,
                null)));
  }
}
