package org.understock.service.curation;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.Pattern;
import jakarta.validation.constraints.Size;
import java.net.URI;
import java.time.Instant;
import java.util.List;
import java.util.function.Supplier;
import java.util.regex.Matcher;
import org.jspecify.annotations.Nullable;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;
import org.understock.plant.Crop;
import org.understock.service.platform.OneOf;
import org.understock.service.platform.Page;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.service.security.Actor;
import org.understock.service.statement.RecordBody;
import org.understock.service.store.Snapshots;
import org.understock.trait.Traits;

/** The life of a record: proposed, amended, read with its history. */
@RestController
@RequestMapping(path = "/v1/curation/records", produces = MediaType.APPLICATION_JSON_VALUE)
@Tag(name = "Curation")
class RecordController {
  private static final java.util.regex.Pattern TAG =
      java.util.regex.Pattern.compile("\"(r-[0-9a-f]{16})\\.(\\d{1,18})\"");

  private final Proposals proposals;
  private final RecordFile file;
  private final KeptAnswers kept;
  private final Lists lists;
  private final Snapshots snapshots;

  RecordController(
      Proposals proposals, RecordFile file, KeptAnswers kept, Lists lists, Snapshots snapshots) {
    this.proposals = proposals;
    this.file = file;
    this.kept = kept;
    this.lists = lists;
    this.snapshots = snapshots;
  }

  @PostMapping(consumes = MediaType.APPLICATION_JSON_VALUE)
  @ResponseStatus(HttpStatus.CREATED)
  @Operation(
      operationId = "proposeRecord",
      summary = "Propose a record",
      description =
          "Files one published statement about a trait, with its source and where in the source it stands. It changes no answer until somebody else accepts it."
              + " The same statement can't be proposed twice while it is proposed or accepted (409).")
  ResponseEntity<FiledRecordView> propose(
      @Valid @RequestBody RecordBody body,
      @Parameter(description = KeptAnswers.TOLD)
          @RequestHeader(name = "Idempotency-Key", required = false)
          @Nullable String key,
      @Parameter(hidden = true) Actor actor) {
    Deed deed = Deed.of(actor);
    return kept.once(
        deed,
        "POST /v1/curation/records",
        key,
        body,
        FiledRecordView.class,
        () -> {
          FiledRecord filed =
              exactly(body, () -> proposals.record(body.draft(traits()), body.supersedes(), deed));
          return answer(
              ResponseEntity.created(URI.create("/v1/curation/records/" + filed.record().id())),
              filed);
        });
  }

  @PutMapping(path = "/{id}", consumes = MediaType.APPLICATION_JSON_VALUE)
  @Operation(
      operationId = "amendRecord",
      summary = "Amend a proposed record",
      description =
          "Gives a proposal another content, whole. `If-Match` must carry the ETag that was read (428 without, 412 when the record was changed since). A record that"
              + " was reviewed can't be amended (409): propose one that supersedes it.")
  ResponseEntity<FiledRecordView> amend(
      @Parameter(description = "Id of the record.") @PathVariable String id,
      @Valid @RequestBody RecordBody body,
      @Parameter(description = "The record's ETag as it was read.")
          @RequestHeader(name = HttpHeaders.IF_MATCH, required = false)
          @Nullable String match,
      @Parameter(hidden = true) Actor actor) {
    return answer(
        ResponseEntity.ok(),
        exactly(
            body,
            () ->
                proposals.amend(
                    id,
                    version(id, match),
                    body.draft(traits()),
                    body.supersedes(),
                    Deed.of(actor))));
  }

  @GetMapping("/{id}")
  @Operation(
      operationId = "getFiledRecord",
      summary = "Read a record with its standing",
      description = "Any record, whatever its standing; its ETag is what a change must carry.")
  ResponseEntity<FiledRecordView> read(
      @Parameter(description = "Id of the record.") @PathVariable String id) {
    return answer(
        ResponseEntity.ok(), file.find(id).orElseThrow(() -> RecordProblems.notFound(id)));
  }

  @GetMapping
  @Operation(
      operationId = "listFiledRecords",
      summary = "List records with their standing",
      description = "In the order in which they were proposed. Filters may be combined.")
  ResponseEntity<Page<FiledRecordView>> list(
      @Parameter(
              description = "Only records of this standing.",
              schema =
                  @Schema(
                      allowableValues = {
                        "proposed",
                        "accepted",
                        "rejected",
                        "withdrawn",
                        "superseded"
                      }))
          @RequestParam(required = false)
          @Pattern(
              regexp = "proposed|accepted|rejected|withdrawn|superseded",
              message = "must be one of proposed, accepted, rejected, withdrawn, superseded")
          @Nullable String status,
      @Parameter(description = "Only what belongs to this crop.")
          @RequestParam(required = false)
          @OneOf(Crop.class)
          @Nullable String crop,
      @Parameter(description = "Id of a trait.") @RequestParam(required = false) @Size(max = 100)
          @Nullable String trait,
      @Parameter(description = "Id of a stock or variety.")
          @RequestParam(required = false)
          @Size(max = 100)
          @Nullable String subject,
      @Parameter(description = "Id of a source.") @RequestParam(required = false) @Size(max = 100)
          @Nullable String source,
      @Parameter(description = "Whoever proposed, amended or reviewed it.")
          @RequestParam(required = false)
          @Size(max = 200)
          @Nullable String who,
      @Parameter(description = "Only what was proposed, amended or reviewed at this time or later.")
          @RequestParam(required = false)
          @Nullable Instant since,
      @Parameter(name = "import", description = "Id of the import that it came with.")
          @RequestParam(name = "import", required = false)
          @Size(max = 100)
          @Nullable String importId,
      @Parameter(description = Lists.CURSOR) @RequestParam(required = false) @Size(max = 1000)
          @Nullable String cursor,
      @Parameter(description = "Most items in the page.")
          @RequestParam(defaultValue = "50")
          @Min(1)
          @Max(200)
          int limit,
      HttpServletRequest request) {
    RecordFile.Place after = lists.after(request, cursor).map(RecordController::place).orElse(null);
    List<FiledRecord> found =
        file.list(
            new RecordFile.Filter(status, crop, trait, subject, source, who, since, importId),
            after,
            limit + 1);
    return lists.page(
        request,
        found,
        limit,
        f -> f.proposedAt() + " " + f.record().id(),
        f -> FiledRecordView.of(f, traits()));
  }

  /** What is wrong with a statement is told at the member that says it. */
  private static <T> T exactly(RecordBody body, Supplier<T> work) {
    try {
      return work.get();
    } catch (ProblemException e) {
      throw e.repointed(body::member);
    }
  }

  private static RecordFile.Place place(String key) {
    int space = key.indexOf(' ');
    return new RecordFile.Place(Instant.parse(key.substring(0, space)), key.substring(space + 1));
  }

  private static long version(String id, @Nullable String match) {
    if (match == null) {
      throw ProblemException.of(
          ProblemType.PRECONDITION_REQUIRED,
          "Read the record first, and send its ETag in If-Match.",
          List.of(
              new ProblemError(
                  null, HttpHeaders.IF_MATCH, "is needed", "the ETag of the record", null, null)));
    }
    Matcher tag = TAG.matcher(match.strip());
    if (!tag.matches() || !tag.group(1).equals(id)) {
      throw ProblemException.of(
          ProblemType.STALE,
          "If-Match does not carry an ETag of this record.",
          List.of(
              new ProblemError(
                  null,
                  HttpHeaders.IF_MATCH,
                  "is not a tag of record " + id,
                  "one strong ETag as it was read, with its quotes",
                  match,
                  null)));
    }
    return Long.parseLong(tag.group(2));
  }

  private ResponseEntity<FiledRecordView> answer(
      ResponseEntity.BodyBuilder answer, FiledRecord filed) {
    return answer
        .eTag(RecordProblems.tag(filed))
        .cacheControl(CacheControl.noStore().cachePrivate())
        .body(FiledRecordView.of(filed, traits()));
  }

  private Traits traits() {
    return snapshots.latest().book().traits();
  }
}
