package org.understock.service.curation;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.ExampleObject;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.Pattern;
import jakarta.validation.constraints.Size;
import java.io.IOException;
import java.net.URI;
import java.nio.charset.Charset;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;
import org.understock.evidence.reading.EvidenceReader.Kind;
import org.understock.service.curation.ImportViews.ImportOutcome;
import org.understock.service.curation.ImportViews.ImportProblem;
import org.understock.service.curation.ImportViews.ImportRefusal;
import org.understock.service.curation.ImportViews.ImportView;
import org.understock.service.platform.Page;
import org.understock.service.problem.Problem;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.service.security.Actor;

/** Many proposals at once, from a spreadsheet or another store. */
@RestController
@RequestMapping(path = "/v1/curation/imports", produces = MediaType.APPLICATION_JSON_VALUE)
@Tag(name = "Curation")
class ImportController {
  /** Kinds that can be imported, and exported: slugs as the evidence files have them. */
  static final String KINDS =
      "sources|stocks|variety-catalogue|trial-means|ratings|varieties|compatibility|records";

  static final String KINDS_TOLD =
      "must be one of sources, stocks, variety-catalogue, trial-means, ratings, varieties, compatibility, records";

  private static final int ERRORS_TOLD = 100;

  private final ImportDesk desk;
  private final ImportLog log;
  private final KeptAnswers kept;
  private final Lists lists;

  ImportController(ImportDesk desk, ImportLog log, KeptAnswers kept, Lists lists) {
    this.desk = desk;
    this.log = log;
    this.kept = kept;
    this.lists = lists;
  }

  @PostMapping(consumes = {ImportOrder.CSV, ImportOrder.NDJSON})
  @ResponseStatus(HttpStatus.CREATED)
  @Operation(
      operationId = "importFile",
      summary = "Import a file of proposals",
      description =
          "Files every row as proposed, as if each had been sent by itself: CSV in the form of the evidence"
              + " files and of the exports, or NDJSON with one object a line in the shape of the single proposals. UTF-8, or as `charset` says; at most 256"
              + " MB unless the operator set another limit. Each bad"
              + " row is told by line, column and reason. `all-or-nothing` keeps nothing when a row is bad (422: a problem with the members of the answer,"
              + " `problems` among them), `row-by-row` keeps the good ones."
              + " What was filed before, whatever became of it, is counted as a duplicate, so that sending a file again changes nothing. A text that begins"
              + " like a formula (`=`, `+`,"
              + " `-`, `@`) is text; one apostrophe before such a beginning, as exports write it, is taken off. While it runs, `GET /v1/curation/imports`"
              + " shows how far it is. One"
              + " import runs at a time (409 for another).",
      responses =
          @ApiResponse(
              responseCode = "201",
              description = "The answer.",
              content =
                  @Content(
                      mediaType = MediaType.APPLICATION_JSON_VALUE,
                      schema = @Schema(implementation = ImportOutcome.class))))
  @io.swagger.v3.oas.annotations.parameters.RequestBody(
      required = true,
      description = "The file.",
      content = {
        @Content(
            mediaType = ImportOrder.CSV,
            schema = @Schema(type = "string"),
            examples =
                @ExampleObject(
                    name = "trial-means",
                    summary = "Two means of a trial, invented",
                    value =
                        "source_id,trial_id,crop,scion,site,planted_year,measured_year,stock,trait,value,unit,n_trees,spread_kind,spread_value,locator\n"
                            + "invented-report,invented-trial,apple,Fuji,Anywhere,2010,2014,m-9-t337,trunk-cross-sectional-area,31.5,cm2,8,HSD,18.8,Table 1\n"
                            + "invented-report,invented-trial,apple,Fuji,Anywhere,2010,2014,m-26,trunk-cross-sectional-area,39.1,cm2,8,HSD,18.8,Table 1\n")),
        @Content(mediaType = ImportOrder.NDJSON, schema = @Schema(type = "string"))
      })
  ResponseEntity<?> importFile(
      @Parameter(
              description =
                  "What the rows are: `sources`, `stocks`, `variety-catalogue`; statements as `trial-means`, `ratings`, `varieties`,"
                      + " `compatibility`; or `records` for"
                      + " NDJSON with statements of any kind.",
              schema =
                  @Schema(
                      allowableValues = {
                        "sources",
                        "stocks",
                        "variety-catalogue",
                        "trial-means",
                        "ratings",
                        "varieties",
                        "compatibility",
                        "records"
                      }))
          @RequestParam
          @Pattern(regexp = KINDS, message = KINDS_TOLD)
          String kind,
      @Parameter(
              description = "What to do when a row is bad.",
              schema =
                  @Schema(
                      allowableValues = {ImportOrder.ALL_OR_NOTHING, ImportOrder.ROW_BY_ROW},
                      defaultValue = ImportOrder.ALL_OR_NOTHING))
          @RequestParam(defaultValue = ImportOrder.ALL_OR_NOTHING)
          @Pattern(
              regexp = "all-or-nothing|row-by-row",
              message = "must be all-or-nothing or row-by-row")
          String mode,
      @Parameter(description = KeptAnswers.TOLD)
          @RequestHeader(name = "Idempotency-Key", required = false)
          @Nullable String key,
      @Parameter(hidden = true) Actor actor,
      HttpServletRequest request)
      throws IOException {
    MediaType type = MediaType.parseMediaType(request.getContentType());
    boolean lines = type.getSubtype().equals("x-ndjson");
    if (kind.equals(ImportOrder.RECORDS) && !lines) {
      throw ProblemException.of(
          ProblemType.INVALID_REQUEST,
          "Records of any kind come as NDJSON; a CSV file holds one kind.",
          List.of(
              new ProblemError(
                  null,
                  "kind",
                  "goes with application/x-ndjson only",
                  "trial-means, ratings, varieties or compatibility",
                  kind,
                  null)));
    }
    Deed deed = Deed.of(actor);
    try (ImportBody body = ImportBody.take(request.getInputStream(), charset(type))) {
      Kind of =
          kind.equals(ImportOrder.RECORDS)
              ? null
              : Kind.valueOf(kind.toUpperCase(Locale.ROOT).replace('-', '_'));
      ImportOrder order =
          new ImportOrder(
              of,
              lines,
              mode.equals(ImportOrder.ALL_OR_NOTHING),
              body.file(),
              body.bytes(),
              body.digest());
      return kept.once(
          deed,
          "POST /v1/curation/imports",
          key,
          kind + '\n' + mode + '\n' + type + '\n' + order.digest(),
          ImportOutcome.class,
          () -> {
            ImportOutcome outcome = desk.carryOut(order, deed);
            return ResponseEntity.created(URI.create("/v1/curation/imports/" + outcome.id()))
                .cacheControl(CacheControl.noStore().cachePrivate())
                .body(outcome);
          });
    } catch (ImportDesk.Refused refused) {
      return refusal(refused, deed);
    }
  }

  private static @Nullable Charset charset(MediaType type) {
    try {
      return type.getCharset();
    } catch (IllegalArgumentException e) {
      throw ProblemException.of(
          ProblemType.UNSUPPORTED_MEDIA_TYPE,
          "The encoding in the Content-Type isn't known; send UTF-8.",
          List.of());
    }
  }

  private static ResponseEntity<ImportRefusal> refusal(ImportDesk.Refused refused, Deed deed) {
    ProblemType type = ProblemType.INVALID_REQUEST;
    ImportOutcome o = refused.outcome();
    List<ProblemError> errors =
        o.problems().stream().limit(ERRORS_TOLD).map(ImportController::error).toList();
    Problem problem = Problem.of(type, refused.reason(), deed.request(), errors);
    return ResponseEntity.status(problem.status())
        .contentType(MediaType.APPLICATION_PROBLEM_JSON)
        .cacheControl(CacheControl.noStore())
        .body(
            new ImportRefusal(
                problem.type(),
                problem.title(),
                problem.status(),
                problem.detail(),
                problem.instance(),
                problem.errors(),
                o.id(),
                o.kind(),
                o.mode(),
                o.rows(),
                o.accepted(),
                o.proposed(),
                o.duplicates(),
                o.refused(),
                o.problemCount(),
                o.problems()));
  }

  private static ProblemError error(ImportProblem p) {
    String place =
        "line "
            + p.line()
            + (p.column() == null ? "" : ", " + p.column())
            + (p.pointer() == null ? "" : ", " + p.pointer());
    return new ProblemError(null, null, place + ": " + p.text(), null, null, null);
  }

  @GetMapping
  @Operation(
      operationId = "listImports",
      summary = "List imports and how far they are",
      description = "Newest first, those of other replicas included.")
  ResponseEntity<Page<ImportView>> list(
      @Parameter(
              description = "Only imports of this standing.",
              schema =
                  @Schema(
                      allowableValues = {
                        "running",
                        "finished",
                        "refused",
                        "failed",
                        "interrupted"
                      }))
          @RequestParam(required = false)
          @Pattern(
              regexp = "running|finished|refused|failed|interrupted",
              message = "must be one of running, finished, refused, failed, interrupted")
          @Nullable String status,
      @Parameter(description = Lists.CURSOR) @RequestParam(required = false) @Size(max = 1000)
          @Nullable String cursor,
      @Parameter(description = "Most items in the page.")
          @RequestParam(defaultValue = "50")
          @Min(1)
          @Max(200)
          int limit,
      HttpServletRequest request) {
    ImportLog.Place after = lists.after(request, cursor).map(ImportController::place).orElse(null);
    return lists.page(
        request,
        log.list(status, after, limit + 1),
        limit,
        i -> i.startedAt() + " " + i.id(),
        i -> i);
  }

  private static ImportLog.Place place(String key) {
    int space = key.indexOf(' ');
    return new ImportLog.Place(Instant.parse(key.substring(0, space)), key.substring(space + 1));
  }

  @GetMapping("/{id}")
  @Operation(
      operationId = "getImport",
      summary = "Read how far an import is",
      description =
          "The records that came with it: `GET /v1/curation/records?import=…`. A review accepts"
              + " them all by `acceptImport`.")
  ResponseEntity<ImportView> read(
      @Parameter(description = "Id of the import.") @PathVariable String id) {
    ImportView found =
        log.find(id)
            .orElseThrow(
                () ->
                    ProblemException.of(
                        ProblemType.NOT_FOUND,
                        "There is no import '" + id + "'.",
                        List.of(new ProblemError(null, "id", "is not known", null, id, null))));
    return ResponseEntity.ok()
        .eTag("\"" + id + "." + found.status() + "." + found.rows() + "\"")
        .cacheControl(CacheControl.noStore().cachePrivate())
        .body(found);
  }
}
