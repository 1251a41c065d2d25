package org.understock.service.advice;

import static org.assertj.core.api.Assertions.assertThat;

import io.micrometer.core.instrument.simple.SimpleMeterRegistry;
import java.time.Instant;
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

  private AdviceResponse keep(AdviceRequest request) {
    AdviceResponse answer = AdviceController.answer(request, SNAPSHOT, Language.ENGLISH);
    kept.keep(request, Language.ENGLISH, SNAPSHOT, answer);
    return answer;
  }

  @Test
  void the_same_question_under_another_name_gets_the_same_answer_under_that_name() {
    AdviceRequest first = asked(LIST.formatted("first", "-20"));
    assertThat(kept.find(first, Language.ENGLISH, SNAPSHOT)).isEmpty();
    AdviceResponse answer = keep(first);
    AdviceRequest second = asked(LIST.formatted("second", "-20"));
    assertThat(kept.find(second, Language.ENGLISH, SNAPSHOT)).contains(answer.named("second"));
    assertThat(JSON.write(kept.find(second, Language.ENGLISH, SNAPSHOT).orElseThrow()))
        .isEqualTo(JSON.write(AdviceController.answer(second, SNAPSHOT, Language.ENGLISH)));
    assertThat(meters.get("understock.advice.kept").counter().count()).isEqualTo(2);
  }

  @Test
  void another_question_language_or_revision_is_worked_out() {
    AdviceRequest request = asked(LIST.formatted("a", "-20"));
    keep(request);
    assertThat(kept.find(asked(LIST.formatted("a", "-20.1")), Language.ENGLISH, SNAPSHOT))
        .isEmpty();
    assertThat(kept.find(request, Language.SPANISH, SNAPSHOT)).isEmpty();
    assertThat(kept.find(request, Language.ENGLISH, snapshot("two"))).isEmpty();
    assertThat(kept.find(request, Language.ENGLISH, SNAPSHOT)).isPresent();
  }

  @Test
  void long_answers_are_not_kept() {
    AdviceRequest request = asked("{\"crop\": \"apple\", \"limit\": 100}");
    keep(request);
    assertThat(kept.find(request, Language.ENGLISH, SNAPSHOT)).isEmpty();
  }
}
