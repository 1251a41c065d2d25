package org.understock.service.advice;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import jakarta.validation.constraints.Min;
import java.io.IOException;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpHeaders;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.understock.service.limits.Turns;
import org.understock.service.problem.JsonBodies;
import org.understock.service.reading.Reads;
import org.understock.service.reading.Told;
import org.understock.wording.Language;

/** The same question for many places at once. */
@RestController
@RequestMapping("/v1/advice/batch")
@Tag(name = "Advice")
class BatchController {
  private static final Logger LOG = LoggerFactory.getLogger(BatchController.class);
  private static final String NDJSON = "application/x-ndjson";

  private final Reads reads;
  private final JsonBodies json;
  private final Turns turns;
  private final AdviceMeters meters;
  private final int longestLine;

  BatchController(
      Reads reads,
      JsonBodies json,
      Turns turns,
      AdviceMeters meters,
      @Value("${understock.max-body-bytes:1048576}") int longestLine) {
    this.reads = reads;
    this.json = json;
    this.turns = turns;
    this.meters = meters;
    this.longestLine = longestLine;
  }

  @PostMapping(consumes = NDJSON, produces = NDJSON)
  @Operation(
      operationId = "adviseBatch",
      summary = "Ask for advice on many places",
      description =
          "NDJSON in, NDJSON out, UTF-8: every line is a request as `/v1/advice` takes it, and is answered by one line with its number and"
              + " `id`, in order. A line that can't be used is answered by its problem and the rest goes on. All lines are answered as of one"
              + " revision, the latest when the batch begins or the one asked for. Any number of lines; a line may be as long as the body of"
              + " `/v1/advice`; empty lines are passed over. Both ways are streamed: answers come while lines are sent, and lines are read only"
              + " as fast as answers are taken, so read while you send."
              + " Each line counts as a request of its own; a client who has used up his allowance is not sent away but waits.",
      responses =
          @ApiResponse(
              responseCode = "200",
              description = "The answers.",
              content =
                  @Content(
                      mediaType = NDJSON,
                      schema = @Schema(implementation = BatchAnswer.class))))
  @io.swagger.v3.oas.annotations.parameters.RequestBody(
      required = true,
      description = "The requests, one a line.",
      content =
          @Content(mediaType = NDJSON, schema = @Schema(implementation = AdviceRequest.class)))
  void adviseBatch(
      @Parameter(description = Told.REVISION) @RequestParam(required = false) @Min(1)
          @Nullable Long revision,
      Language language,
      HttpServletRequest request,
      HttpServletResponse response)
      throws IOException {
    Batch batch =
        new Batch(reads.pinned(revision), language, json, turns, meters, request, longestLine);
    turns.batch(() -> answer(batch, language, response));
  }

  private static void answer(Batch batch, Language language, HttpServletResponse response)
      throws IOException {
    response.setContentType(NDJSON + ";charset=UTF-8");
    response.setHeader(HttpHeaders.CACHE_CONTROL, CacheControl.noStore().getHeaderValue());
    response.setHeader(HttpHeaders.CONTENT_LANGUAGE, language.tag());
    response.addHeader(HttpHeaders.VARY, HttpHeaders.ACCEPT_LANGUAGE);
    try {
      Batch.Tally tally = batch.run(response.getOutputStream());
      LOG.info("Batch answered: {} advised, {} refused", tally.advised(), tally.refused());
    } catch (IOException e) {
      LOG.info("The asker of a batch has gone: {}", e.getMessage());
    }
  }
}
