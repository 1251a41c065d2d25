package org.understock.service.curation;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.servlet.http.HttpServletResponse;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.Pattern;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.understock.evidence.Canonical;
import org.understock.evidence.Evidence;
import org.understock.evidence.Source;
import org.understock.evidence.TraitRecord;
import org.understock.evidence.reading.EvidenceFile;
import org.understock.evidence.reading.EvidenceReader.Kind;
import org.understock.service.problem.JsonBodies;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.service.statement.RecordBody;
import org.understock.service.store.Snapshot;
import org.understock.service.store.Snapshots;

/** Everything that is accepted, as files that can be imported elsewhere. */
@RestController
@RequestMapping("/v1/curation/exports")
@Tag(name = "Curation")
class ExportController {
  private static final List<Kind> KINDS =
      List.of(
          Kind.SOURCES,
          Kind.STOCKS,
          Kind.VARIETY_CATALOGUE,
          Kind.TRIAL_MEANS,
          Kind.RATINGS,
          Kind.VARIETIES,
          Kind.COMPATIBILITY);

  private final Snapshots snapshots;
  private final JsonBodies json;

  ExportController(Snapshots snapshots, JsonBodies json) {
    this.snapshots = snapshots;
    this.json = json;
  }

  /** One file. */
  @Schema(name = "ExportFile")
  record ExportFile(
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String kind,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String mediaType,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String path,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) long rows) {}

  /** All files of a revision, in the order in which another store can import them. */
  @Schema(
      name = "Exports",
      description =
          "The files of a revision, in the order in which another store can import them; `records` holds the"
              + " statements of the four files before it.")
  record Exports(
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) long revision,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description =
                  "SHA-256 over the sorted canonical texts of traits, plants, sources and records: the same wherever the same"
                      + " evidence is accepted, whatever its history.")
          String contentDigest,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) List<ExportFile> files) {}

  @GetMapping(produces = MediaType.APPLICATION_JSON_VALUE)
  @Operation(
      operationId = "listExports",
      summary = "List what can be exported",
      description = "The files of a revision with their lengths, and the digest of its content.")
  ResponseEntity<Exports> list(
      @Parameter(description = "As of this revision; the latest when left out.")
          @RequestParam(required = false)
          @Min(1)
          @Nullable Long revision) {
    Snapshot snapshot = snapshot(revision);
    Evidence evidence = snapshot.book().evidence();
    String query = "?revision=" + snapshot.revision().number();
    List<ExportFile> files = new ArrayList<>();
    for (Kind kind : KINDS)
      files.add(
          new ExportFile(
              kind.id(),
              ImportOrder.CSV,
              "/v1/curation/exports/" + kind.id() + query,
              rows(kind, evidence)));
    files.add(
        new ExportFile(
            ImportOrder.RECORDS,
            ImportOrder.NDJSON,
            "/v1/curation/exports/" + ImportOrder.RECORDS + query,
            evidence.records().size()));
    return ResponseEntity.ok()
        .cacheControl(CacheControl.noStore().cachePrivate())
        .body(new Exports(snapshot.revision().number(), Canonical.contentDigest(evidence), files));
  }

  private static long rows(Kind kind, Evidence evidence) {
    return switch (kind) {
      case SOURCES -> evidence.sources().size();
      case STOCKS -> evidence.plants().stocks().size();
      case VARIETY_CATALOGUE -> evidence.plants().varieties().size();
      default -> evidence.records().stream().filter(r -> EvidenceFile.kindOf(r) == kind).count();
    };
  }

  @GetMapping(
      path = "/{kind}",
      produces = {ImportOrder.CSV, ImportOrder.NDJSON})
  @Operation(
      operationId = "exportFile",
      summary = "Export what is accepted",
      description =
          "One file of a revision, in the form that imports read: CSV, and NDJSON for `records`. Texts that a"
              + " spreadsheet would take for formulas begin with an apostrophe, which imports take off again.",
      responses =
          @ApiResponse(
              responseCode = "200",
              description = "The file.",
              content = {
                @Content(mediaType = ImportOrder.CSV, schema = @Schema(type = "string")),
                @Content(mediaType = ImportOrder.NDJSON, schema = @Schema(type = "string"))
              }))
  void export(
      @Parameter(
              description = "What to export.",
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
          @PathVariable
          @Pattern(regexp = ImportController.KINDS, message = ImportController.KINDS_TOLD)
          String kind,
      @Parameter(description = "As of this revision; the latest when left out.")
          @RequestParam(required = false)
          @Min(1)
          @Nullable Long revision,
      HttpServletResponse response)
      throws IOException {
    Snapshot snapshot = snapshot(revision);
    Evidence evidence = snapshot.book().evidence();
    boolean lines = kind.equals(ImportOrder.RECORDS);
    response.setContentType((lines ? ImportOrder.NDJSON : ImportOrder.CSV) + ";charset=UTF-8");
    response.setHeader(
        HttpHeaders.CACHE_CONTROL, CacheControl.noStore().cachePrivate().getHeaderValue());
    response.setHeader(
        HttpHeaders.CONTENT_DISPOSITION,
        "attachment; filename=\"" + kind + (lines ? ".ndjson" : ".csv") + "\"");
    response.setHeader("Understock-Revision", String.valueOf(snapshot.revision().number()));
    try (Writer out =
        new BufferedWriter(
            new OutputStreamWriter(response.getOutputStream(), StandardCharsets.UTF_8))) {
      if (lines) {
        for (TraitRecord record : evidence.records())
          out.append(json.write(RecordBody.of(record, evidence.traits()))).append('\n');
      } else {
        write(Kind.valueOf(kind.toUpperCase(Locale.ROOT).replace('-', '_')), evidence, out);
      }
    } catch (UncheckedIOException e) {
      throw e.getCause(); // the asker has gone away, which is no fault of the service
    }
  }

  private static void write(Kind kind, Evidence evidence, Writer out) throws IOException {
    try (EvidenceFile file = new EvidenceFile(kind, evidence.traits(), out)) {
      switch (kind) {
        case SOURCES ->
            evidence.sources().values().stream()
                .sorted(Comparator.comparing(Source::id))
                .forEach(file::write);
        case STOCKS -> evidence.plants().stocks().forEach(file::write);
        case VARIETY_CATALOGUE -> evidence.plants().varieties().forEach(file::write);
        default ->
            evidence.records().stream()
                .filter(r -> EvidenceFile.kindOf(r) == kind)
                .forEach(file::write);
      }
    }
  }

  private Snapshot snapshot(@Nullable Long revision) {
    if (revision == null) return snapshots.latest();
    return snapshots
        .at(revision)
        .orElseThrow(
            () ->
                ProblemException.of(
                    ProblemType.NOT_FOUND,
                    "There is no revision " + revision + ".",
                    List.of(
                        new ProblemError(
                            null,
                            "revision",
                            "is not known",
                            null,
                            revision,
                            List.of(String.valueOf(snapshots.latest().revision().number()))))));
  }
}
