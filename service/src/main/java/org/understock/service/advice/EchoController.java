package org.understock.service.advice;

import io.swagger.v3.oas.annotations.Hidden;
import jakarta.validation.Valid;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.springframework.context.annotation.Profile;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RestController;
import org.understock.service.reading.Reads;
import org.understock.service.store.Snapshot;
import org.understock.wording.Language;

/**
 * What the server costs without the engine, as the yardstick of {@code deploy/bench/http}. Only
 * under the profile {@code bench}.
 */
@Hidden
@RestController
@Profile("bench")
class EchoController {
  /** Parts of a question on which the length of its answer hangs most. */
  private record Shape(AdviceRequest.CandidatesRequest candidates, int limit) {}

  private final Reads reads;
  private final Map<Shape, AdviceResponse> answers = new ConcurrentHashMap<>();

  EchoController(Reads reads) {
    this.reads = reads;
  }

  /** A request for advice, read and checked as always, is written down again. */
  @PostMapping(
      path = "/bench/echo",
      consumes = MediaType.APPLICATION_JSON_VALUE,
      produces = MediaType.APPLICATION_JSON_VALUE)
  AdviceRequest echo(@RequestBody @Valid AdviceRequest request) {
    return request;
  }

  /**
   * A request for advice, read and checked as always, is answered by the advice that the first one
   * with the same candidates got: written down anew each time, with the same headers, through the
   * same filters. All that is missing is the asking of the engine.
   */
  @PostMapping(
      path = "/bench/echo-answer",
      consumes = MediaType.APPLICATION_JSON_VALUE,
      produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<AdviceResponse> answer(
      @RequestBody @Valid AdviceRequest request, Language language) {
    Snapshot snapshot = reads.asked(request.revision());
    AdviceResponse answer =
        answers.computeIfAbsent(
            new Shape(
                java.util.Objects.requireNonNull(request.candidates()),
                java.util.Objects.requireNonNull(request.limit())),
            shape -> AdviceController.answer(request, snapshot, language));
    return ResponseEntity.ok()
        .cacheControl(CacheControl.noStore())
        .header(HttpHeaders.CONTENT_LANGUAGE, language.tag())
        .varyBy(HttpHeaders.ACCEPT_LANGUAGE)
        .body(answer);
  }
}
