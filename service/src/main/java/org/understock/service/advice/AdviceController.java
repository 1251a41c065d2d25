package org.understock.service.advice;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import org.understock.advice.Question;
import org.understock.service.limits.Allowance;
import org.understock.service.limits.Turns;
import org.understock.service.reading.Reads;
import org.understock.service.store.Snapshot;
import org.understock.wording.Language;

/** The question that the service is for. */
@RestController
@RequestMapping(path = "/v1/advice", produces = MediaType.APPLICATION_JSON_VALUE)
@Tag(name = "Advice")
class AdviceController {
  private final Reads reads;
  private final Turns turns;
  private final AdviceMeters meters;
  private final LatelyAdvised kept;

  AdviceController(Reads reads, Turns turns, AdviceMeters meters, LatelyAdvised kept) {
    this.kept = kept;
    this.meters = meters;
    this.reads = reads;
    this.turns = turns;
  }

  @PostMapping(consumes = MediaType.APPLICATION_JSON_VALUE)
  @Operation(
      operationId = "advise",
      summary = "Ask for advice",
      description =
          "Ranks pairings of stocks and varieties for a place and a goal, with reasons that add up to the score and cite records. The same "
              + "request on the same revision and engine version, in the same language, gives the same bytes. At most 4 MB unless the operator set"
              + " another limit: thirty years of daily `site.temperatures` fit.")
  ResponseEntity<AdviceResponse> advise(
      @RequestBody @Valid AdviceRequest request, Language language, HttpServletRequest asked) {
    Snapshot snapshot = reads.asked(request.revision());
    AdviceResponse answer =
        kept.of(
            request,
            language,
            snapshot,
            () -> turns.take(() -> meters.alone(() -> answer(request, snapshot, language))));
    Allowance.of(asked).chargePairings(answer.considered());
    return ResponseEntity.ok()
        .cacheControl(CacheControl.noStore())
        .header(HttpHeaders.CONTENT_LANGUAGE, language.tag())
        .varyBy(HttpHeaders.ACCEPT_LANGUAGE)
        .body(answer);
  }

  /** The way of every request for advice, alone or one of many: checked before it comes here. */
  static AdviceResponse answer(AdviceRequest request, Snapshot snapshot, Language language) {
    Question question = Questions.of(request, snapshot.book(), language);
    return Answers.of(request.id(), snapshot.adviser().advise(question), question);
  }
}
