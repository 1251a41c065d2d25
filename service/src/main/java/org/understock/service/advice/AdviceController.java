package org.understock.service.advice;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.validation.Valid;
import java.util.List;
import org.springframework.http.CacheControl;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import org.understock.advice.Question;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.service.store.Snapshot;
import org.understock.service.store.Snapshots;

/** The question that the service is for. */
@RestController
@RequestMapping(path = "/v1/advice", produces = MediaType.APPLICATION_JSON_VALUE)
@Tag(name = "Advice")
class AdviceController {
  private final Snapshots snapshots;

  AdviceController(Snapshots snapshots) {
    this.snapshots = snapshots;
  }

  @PostMapping(consumes = MediaType.APPLICATION_JSON_VALUE)
  @Operation(operationId = "advise", summary = "Ask for advice",
      description = "Ranks pairings of stocks and varieties for a place and a goal, with reasons that add up to the score and cite records. The same "
          + "request on the same revision and engine version gives the same bytes.")
  ResponseEntity<AdviceResponse> advise(@RequestBody @Valid AdviceRequest request) {
    Snapshot snapshot = snapshot(request);
    Question question = Questions.of(request, snapshot.book());
    return ResponseEntity.ok().cacheControl(CacheControl.noStore()).body(Answers.of(snapshot.adviser().advise(question), question, snapshot.book()));
  }

  private Snapshot snapshot(AdviceRequest request) {
    if (request.revision() == null) return snapshots.latest();
    long latest = snapshots.latest().revision().number();
    return snapshots.at(request.revision()).orElseThrow(() -> ProblemException.of(
        ProblemType.UNKNOWN_ID, "There is no revision " + request.revision() + ".",
        List.of(new ProblemError("#/revision", null, "is not known; the latest is " + latest, "between 1 and " + latest, request.revision(),
            List.of(String.valueOf(latest))))));
  }
}
