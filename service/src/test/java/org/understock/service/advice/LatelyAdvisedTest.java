package org.understock.service.advice;

import static org.assertj.core.api.Assertions.assertThat;

import io.micrometer.core.instrument.simple.SimpleMeterRegistry;
import java.time.Instant;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import org.understock.advice.Adviser;
import org.understock.evidence.CompiledTraitBook;
import org.understock.migrations.StarterEvidence;
import org.understock.service.problem.JsonBodies;
import org.understock.service.problem.StrictBodies;
import org.understock.service.store.Revision;
import org.understock.service.store.Snapshot;
import org.understock.wording.Language;

/** A kept answer is handed out for its own question, revision and language, and for no other. */
class LatelyAdvisedTest {
  private static final JsonBodies JSON = StrictBodies.make();
  private static final CompiledTraitBook BOOK =
      CompiledTraitBook.compile(1, StarterEvidence.read().evidence());
  private static final Snapshot SNAPSHOT = snapshot("one");
  private static final String LIST =
      """
      {"id": "%s", "crop": "apple", "site": {"coldestNightC": %s}, "candidates": {"stocks": ["m-9", "b-9"], "varieties": ["gala"]}, "limit": 3}""";

  private final SimpleMeterRegistry meters = new SimpleMeterRegistry();
  private final LatelyAdvised kept = new LatelyAdvised(new AdviceMeters(meters));

  private static Snapshot snapshot(String digest) {
    return new Snapshot(BOOK, Adviser.of(BOOK), new Revision(1, digest, Instant.EPOCH, "", 0));
  }

  private static AdviceRequest asked(String json) {
    return JSON.read(json, AdviceRequest.class);
  }

  /** The answer, and whether it was worked out for this asking. */
  private record Told(AdviceResponse answer, boolean workedOut) {}

  private Told ask(AdviceRequest request, Language language, Snapshot snapshot) {
    AtomicBoolean workedOut = new AtomicBoolean();
    AdviceResponse answer =
        kept.of(
            request,
            language,
            snapshot,
            () -> {
              workedOut.set(true);
              return AdviceController.answer(request, snapshot, language);
            });
    return new Told(answer, workedOut.get());
  }

  private Told ask(String json) {
    return ask(asked(json), Language.ENGLISH, SNAPSHOT);
  }

  /** The second answer, worked out like the first. */
  private Told askTwice(AdviceRequest request, Language language) {
    ask(request, language, SNAPSHOT);
    Told second = ask(request, language, SNAPSHOT);
    assertThat(second.workedOut()).isTrue();
    return second;
  }

  @Test
  void the_same_question_under_another_name_gets_the_same_answer_under_that_name() {
    assertThat(ask(LIST.formatted("nobody", "-20")).workedOut()).isTrue();
    Told first = ask(LIST.formatted("first", "-20"));
    assertThat(first.workedOut()).as("what is asked once is not kept").isTrue();
    assertThat(first.answer().id()).isEqualTo("first");
    AdviceRequest again = asked(LIST.formatted("second", "-20"));
    Told second = ask(again, Language.ENGLISH, SNAPSHOT);
    assertThat(second).isEqualTo(new Told(first.answer().named("second"), false));
    assertThat(JSON.write(second.answer()))
        .isEqualTo(JSON.write(AdviceController.answer(again, SNAPSHOT, Language.ENGLISH)));
    assertThat(meters.get("understock.advice.kept").counter().count()).isEqualTo(1);
  }

  @Test
  void another_question_language_or_revision_is_worked_out() {
    AdviceRequest request = asked(LIST.formatted("a", "-20"));
    askTwice(request, Language.ENGLISH);
    assertThat(ask(LIST.formatted("a", "-20.1")).workedOut()).isTrue();
    Told spanish = askTwice(request, Language.SPANISH);
    assertThat(spanish.workedOut()).isTrue();
    assertThat(ask(request, Language.ENGLISH, snapshot("two")).workedOut()).isTrue();
    assertThat(ask(request, Language.ENGLISH, SNAPSHOT).workedOut()).isFalse();
    assertThat(ask(request, Language.SPANISH, SNAPSHOT))
        .isEqualTo(new Told(spanish.answer(), false));
  }

  @Test
  void long_answers_and_those_on_years_of_measurements_are_not_kept() {
    String all = "{\"crop\": \"apple\", \"limit\": 100}";
    AdviceResponse answer = askTwice(asked(all), Language.ENGLISH).answer();
    assertThat(ask(all).workedOut()).isTrue();
    AdviceRequest measured =
        asked(
            """
            {"crop": "apple", "site": {"temperatures": {"daily": [{"date": "2024-01-01", "minC": 1, "maxC": 2}]}}}""");
    AdviceResponse one = ask(LIST.formatted("any", "-20")).answer();
    kept.of(measured, Language.ENGLISH, SNAPSHOT, () -> one);
    kept.of(measured, Language.ENGLISH, SNAPSHOT, () -> one);
    assertThat(kept.of(measured, Language.ENGLISH, SNAPSHOT, () -> answer)).isSameAs(answer);
  }
}
