package org.understock.service.curation;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.validation.Valid;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.net.URI;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.service.security.Actor;

/** Reviews: what was proposed comes to count, or not. */
@RestController
@RequestMapping(path = "/v1/curation/reviews", produces = MediaType.APPLICATION_JSON_VALUE)
@Tag(name = "Curation")
class ReviewController {
  private final ReviewDesk desk;
  private final KeptAnswers kept;

  ReviewController(ReviewDesk desk, KeptAnswers kept) {
    this.desk = desk;
    this.kept = kept;
  }

  /** A review as it is sent; every list may be left out. */
  @Schema(name = "Review", description = "What is decided, all of it or nothing.")
  record ReviewBody(
      @Size(max = 50_000) @Schema(description = "Ids of proposals that are to count.")
          @Nullable List<@NotNull @Size(max = 40) String> accept,
      @Size(max = 50_000) @Schema(description = "Ids of proposals that are not to.")
          @Nullable List<@NotNull @Size(max = 40) String> reject,
      @Size(max = 50_000)
          @Schema(
              description =
                  "Ids of accepted records that are to count no longer. They stay readable.")
          @Nullable List<@NotNull @Size(max = 40) String> withdraw,
      @Size(max = 1000)
          @Schema(
              description =
                  "Ids of proposed sources that enter the catalogue by themselves; those that accepted records need enter with them.")
          @Nullable List<@NotNull @Size(max = 100) String> sources,
      @Size(max = 1000) @Schema(description = "The same for stocks.")
          @Nullable List<@NotNull @Size(max = 100) String> stocks,
      @Size(max = 1000) @Schema(description = "The same for varieties.")
          @Nullable List<@NotNull @Size(max = 100) String> varieties,
      @Size(min = 1, max = 40)
          @Schema(
              description =
                  "Id of an import: all that came with it and still waits is to count, but what `reject` names.")
          @Nullable String acceptImport,
      @Size(max = 2000) @Schema(description = "Why; it stands in the revision and in the audit.")
          @Nullable String note) {

    Review review() {
      Review review =
          new Review(
              list(accept),
              list(reject),
              list(withdraw),
              list(sources),
              list(stocks),
              list(varieties),
              acceptImport,
              note == null || note.isBlank() ? "Review" : note);
      if (!review.changesEvidence() && review.reject().isEmpty()) {
        throw ProblemException.of(
            ProblemType.INVALID_REQUEST,
            "The review decides nothing; name something in accept, reject, withdraw, sources, stocks, varieties or acceptImport.",
            List.of());
      }
      return review;
    }

    private static List<String> list(@Nullable List<String> given) {
      return given == null ? List.of() : List.copyOf(given);
    }
  }

  /** What came of a review. */
  @Schema(name = "ReviewOutcome")
  record OutcomeView(
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "The revision that it made; the one that stands when it only rejected.")
          long revision,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String digest,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "Whether it made a revision.")
          boolean newRevision,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) int accepted,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) int rejected,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) int withdrawn,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "Ids of the records whose place accepted ones have taken.")
          List<String> superseded) {}

  @PostMapping(consumes = MediaType.APPLICATION_JSON_VALUE)
  @ResponseStatus(HttpStatus.CREATED)
  @Operation(
      operationId = "review",
      summary = "Review proposals",
      description =
          "Accepts, rejects and withdraws, all of it or nothing, as one new revision. Nobody may accept or reject what they wrote (403), unless the operator allows it."
              + " A record that is in another standing by now refuses the whole review (409). The next answer of this replica cites the revision; others follow within a second.")
  ResponseEntity<OutcomeView> review(
      @Valid @RequestBody ReviewBody body,
      @Parameter(description = KeptAnswers.TOLD)
          @RequestHeader(name = "Idempotency-Key", required = false)
          @Nullable String key,
      @Parameter(hidden = true) Actor actor) {
    Deed deed = Deed.of(actor);
    Review review = body.review();
    return kept.once(
        deed,
        "POST /v1/curation/reviews",
        key,
        body,
        OutcomeView.class,
        () -> {
          ReviewDesk.Outcome outcome = desk.carryOut(review, deed);
          return ResponseEntity.created(URI.create("/v1/revisions/" + outcome.revision().number()))
              .cacheControl(CacheControl.noStore().cachePrivate())
              .body(
                  new OutcomeView(
                      outcome.revision().number(),
                      outcome.revision().digest(),
                      outcome.made(),
                      outcome.accepted(),
                      outcome.rejected(),
                      outcome.withdrawn(),
                      outcome.superseded()));
        });
  }
}
