package org.understock.service.curation;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.validation.Valid;
import java.net.URI;
import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.service.security.Actor;
import org.understock.service.statement.SourceBody;
import org.understock.service.statement.StockBody;
import org.understock.service.statement.VarietyBody;

/** What records speak of: sources, stocks and varieties that are new to the catalogue. */
@RestController
@RequestMapping(path = "/v1/curation", produces = MediaType.APPLICATION_JSON_VALUE)
@Tag(name = "Curation")
class EntryController {
  private static final String ENTERS =
      " Records may name it at once; it enters the catalogue with the first accepted record that needs it, or by itself when a review names it.";

  private final Proposals proposals;
  private final RecordFile file;
  private final KeptAnswers kept;

  EntryController(Proposals proposals, RecordFile file, KeptAnswers kept) {
    this.proposals = proposals;
    this.file = file;
    this.kept = kept;
  }

  @PostMapping(path = "/sources", consumes = MediaType.APPLICATION_JSON_VALUE)
  @ResponseStatus(HttpStatus.CREATED)
  @Operation(
      operationId = "proposeSource",
      summary = "Propose a source",
      description = "Files a publication that records can cite." + ENTERS)
  ResponseEntity<SourceBody> source(
      @Valid @RequestBody SourceBody body,
      @Parameter(description = KeptAnswers.TOLD)
          @RequestHeader(name = "Idempotency-Key", required = false)
          @Nullable String key,
      @Parameter(hidden = true) Actor actor) {
    return created(
        "sources",
        body,
        SourceBody.class,
        key,
        actor,
        deed -> SourceBody.of(proposals.source(body.source(), deed)),
        SourceBody::id);
  }

  @PostMapping(path = "/stocks", consumes = MediaType.APPLICATION_JSON_VALUE)
  @ResponseStatus(HttpStatus.CREATED)
  @Operation(
      operationId = "proposeStock",
      summary = "Propose a stock",
      description = "Files a stock with its crops and spellings." + ENTERS)
  ResponseEntity<StockBody> stock(
      @Valid @RequestBody StockBody body,
      @Parameter(description = KeptAnswers.TOLD)
          @RequestHeader(name = "Idempotency-Key", required = false)
          @Nullable String key,
      @Parameter(hidden = true) Actor actor) {
    return created(
        "stocks",
        body,
        StockBody.class,
        key,
        actor,
        deed -> StockBody.of(proposals.stock(body.stock(), deed)),
        StockBody::id);
  }

  @PostMapping(path = "/varieties", consumes = MediaType.APPLICATION_JSON_VALUE)
  @ResponseStatus(HttpStatus.CREATED)
  @Operation(
      operationId = "proposeVariety",
      summary = "Propose a variety",
      description =
          "Files a variety by its cultivar denomination; trade designations go to `synonyms` and are for finding it only."
              + ENTERS)
  ResponseEntity<VarietyBody> variety(
      @Valid @RequestBody VarietyBody body,
      @Parameter(description = KeptAnswers.TOLD)
          @RequestHeader(name = "Idempotency-Key", required = false)
          @Nullable String key,
      @Parameter(hidden = true) Actor actor) {
    return created(
        "varieties",
        body,
        VarietyBody.class,
        key,
        actor,
        deed -> VarietyBody.of(proposals.variety(body.variety(), deed)),
        VarietyBody::id);
  }

  @GetMapping("/sources/{id}")
  @Operation(
      operationId = "getFiledSource",
      summary = "Read a source, proposed or accepted",
      description = "As it was proposed; the public catalogue shows it once it was accepted.")
  ResponseEntity<SourceBody> source(
      @Parameter(description = "Id of the source.") @PathVariable String id) {
    return read(
        "source",
        id,
        () -> {
          var source = file.catalogue().sources().get(id);
          return source == null ? null : SourceBody.of(source);
        });
  }

  @GetMapping("/stocks/{id}")
  @Operation(
      operationId = "getFiledStock",
      summary = "Read a stock, proposed or accepted",
      description = "As it was proposed; the public catalogue shows it once it was accepted.")
  ResponseEntity<StockBody> stock(
      @Parameter(description = "Id of the stock.") @PathVariable String id) {
    return read(
        "stock", id, () -> file.catalogue().plants().stock(id).map(StockBody::of).orElse(null));
  }

  @GetMapping("/varieties/{id}")
  @Operation(
      operationId = "getFiledVariety",
      summary = "Read a variety, proposed or accepted",
      description = "As it was proposed; the public catalogue shows it once it was accepted.")
  ResponseEntity<VarietyBody> variety(
      @Parameter(description = "Id of the variety.") @PathVariable String id) {
    return read(
        "variety",
        id,
        () -> file.catalogue().plants().variety(id).map(VarietyBody::of).orElse(null));
  }

  private interface Filing<T> {
    T by(Deed deed);
  }

  private <T> ResponseEntity<T> created(
      String path,
      T body,
      Class<T> type,
      @Nullable String key,
      Actor actor,
      Filing<T> filing,
      java.util.function.Function<T, @Nullable String> id) {
    Deed deed = Deed.of(actor);
    return kept.once(
        deed,
        "POST /v1/curation/" + path,
        key,
        body,
        type,
        () -> {
          T filed = filing.by(deed);
          return ResponseEntity.created(URI.create("/v1/curation/" + path + "/" + id.apply(filed)))
              .eTag("\"" + id.apply(filed) + ".0\"")
              .cacheControl(CacheControl.noStore().cachePrivate())
              .body(filed);
        });
  }

  private static <T> ResponseEntity<T> read(String what, String id, Supplier<@Nullable T> find) {
    T found = find.get();
    if (found == null) {
      throw ProblemException.of(
          ProblemType.NOT_FOUND,
          "There is no " + what + " '" + id + "'.",
          List.of(new ProblemError(null, "id", "is not known", null, id, null)));
    }
    return ResponseEntity.ok()
        .eTag("\"" + id + ".0\"")
        .cacheControl(CacheControl.noStore().cachePrivate())
        .body(found);
  }
}
