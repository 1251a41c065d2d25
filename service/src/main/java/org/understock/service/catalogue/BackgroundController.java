package org.understock.service.catalogue;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.Size;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.context.request.WebRequest;
import org.understock.evidence.Source;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.plant.Names;
import org.understock.service.catalogue.BackgroundViews.CropItem;
import org.understock.service.catalogue.BackgroundViews.RevisionItem;
import org.understock.service.catalogue.BackgroundViews.SourceItem;
import org.understock.service.catalogue.BackgroundViews.SourcePage;
import org.understock.service.catalogue.BackgroundViews.TraitItem;
import org.understock.service.platform.Page;
import org.understock.service.reading.Reading;
import org.understock.service.reading.Reads;
import org.understock.service.reading.Refused;
import org.understock.service.reading.Told;
import org.understock.service.store.Revision;
import org.understock.service.store.RevisionChanges;
import org.understock.trait.Trait;

/** What the evidence is about and where it comes from: crops, traits, sources, revisions. */
@RestController
@RequestMapping(path = "/v1", produces = MediaType.APPLICATION_JSON_VALUE)
@Tag(name = "Evidence")
class BackgroundController {
  private final Reads reads;
  private final RevisionChanges changes;

  BackgroundController(Reads reads, RevisionChanges changes) {
    this.reads = reads;
    this.changes = changes;
  }

  @GetMapping("/crops")
  @Operation(
      operationId = "listCrops",
      summary = "List the crops",
      description = "All crops, with how many stocks and varieties are known and advised unasked.")
  @Nullable ResponseEntity<Page<CropItem>> crops(
      @Parameter(description = Told.REVISION) @RequestParam(required = false) @Min(1)
          @Nullable Long revision,
      WebRequest request) {
    Reading reading = reads.one(request, revision);
    return reading.page(
        Crop.values().length,
        Arrays.asList(Crop.values()),
        Crop::id,
        crop -> CropItem.of(reading.snapshot().book(), crop));
  }

  @GetMapping("/traits")
  @Operation(
      operationId = "listTraits",
      summary = "List the traits",
      description = "All traits with definition, scale, unit and range, in the order of their ids.")
  @Nullable ResponseEntity<Page<TraitItem>> traits(
      @Parameter(description = Told.REVISION) @RequestParam(required = false) @Min(1)
          @Nullable Long revision,
      @Parameter(description = Told.CURSOR) @RequestParam(required = false) @Size(max = 1000)
          @Nullable String cursor,
      @Parameter(description = Told.LIMIT)
          @RequestParam(defaultValue = Told.PAGE)
          @Min(1)
          @Max(Told.LARGEST_PAGE)
          int limit,
      WebRequest request) {
    Reading reading = reads.page(request, revision, cursor);
    return reading.page(limit, reading.snapshot().book().traits().all(), Trait::id, TraitItem::of);
  }

  @GetMapping("/traits/{id}")
  @Operation(
      operationId = "getTrait",
      summary = "Read a trait",
      description = "Definition, scale, unit and range of one trait.")
  @Nullable ResponseEntity<TraitItem> trait(
      @Parameter(description = "Id of the trait.") @PathVariable String id,
      @Parameter(description = Told.REVISION) @RequestParam(required = false) @Min(1)
          @Nullable Long revision,
      WebRequest request) {
    Reading reading = reads.one(request, revision);
    List<Trait> all = reading.snapshot().book().traits().all();
    Trait trait =
        reading
            .snapshot()
            .book()
            .traits()
            .find(id)
            .orElseThrow(
                () ->
                    Refused.notFound(
                        "id",
                        "trait",
                        id,
                        Names.closest(id, all.stream().map(Trait::id).toList(), 3)));
    return reading.answer(() -> TraitItem.of(trait));
  }

  @GetMapping("/sources")
  @Operation(
      operationId = "listSources",
      summary = "Find sources",
      description =
          "All sources in the order of their ids, or those in whose citation every word of the search stands.")
  @Nullable ResponseEntity<Page<SourceItem>> sources(
      @Parameter(description = "Words of authors, title, publication or year.")
          @RequestParam(required = false)
          @Size(max = 100)
          @Nullable String q,
      @Parameter(description = Told.REVISION) @RequestParam(required = false) @Min(1)
          @Nullable Long revision,
      @Parameter(description = Told.CURSOR) @RequestParam(required = false) @Size(max = 1000)
          @Nullable String cursor,
      @Parameter(description = Told.LIMIT)
          @RequestParam(defaultValue = Told.PAGE)
          @Min(1)
          @Max(Told.LARGEST_PAGE)
          int limit,
      WebRequest request) {
    Reading reading = reads.page(request, revision, cursor);
    List<String> words =
        q == null
            ? List.of()
            : Arrays.stream(q.toLowerCase(Locale.ROOT).split("\\s+"))
                .filter(w -> !w.isEmpty())
                .toList();
    List<Source> found =
        reading.snapshot().book().evidence().sources().values().stream()
            .sorted(Comparator.comparing(Source::id))
            .filter(
                source -> {
                  String text = source.citation().toLowerCase(Locale.ROOT);
                  return words.stream().allMatch(text::contains);
                })
            .toList();
    return reading.page(limit, found, Source::id, SourceItem::of);
  }

  @GetMapping("/sources/{id}")
  @Operation(
      operationId = "getSource",
      summary = "Read a source",
      description = "One source, with the ids of the records that were drawn from it.")
  @Nullable ResponseEntity<SourcePage> source(
      @Parameter(description = "Id of the source.") @PathVariable String id,
      @Parameter(description = Told.REVISION) @RequestParam(required = false) @Min(1)
          @Nullable Long revision,
      WebRequest request) {
    Reading reading = reads.one(request, revision);
    TraitBook book = reading.snapshot().book();
    Source source = book.evidence().sources().get(id);
    if (source == null)
      throw Refused.notFound(
          "id",
          "source",
          id,
          Names.closest(id, book.evidence().sources().keySet().stream().sorted().toList(), 3));
    return reading.answer(() -> SourcePage.of(book, source));
  }

  @GetMapping("/revisions")
  @Operation(
      operationId = "listRevisions",
      summary = "List the revisions",
      description = "All numbered states of the accepted evidence, newest first.")
  @Nullable ResponseEntity<Page<RevisionItem>> revisions(
      @Parameter(description = Told.CURSOR) @RequestParam(required = false) @Size(max = 1000)
          @Nullable String cursor,
      @Parameter(description = Told.LIMIT)
          @RequestParam(defaultValue = Told.PAGE)
          @Min(1)
          @Max(Told.LARGEST_PAGE)
          int limit,
      WebRequest request) {
    Reading reading = reads.page(request, null, cursor);
    long pinned = reading.snapshot().revision().number();
    List<Revision> known =
        reads.snapshots().revisions().stream().filter(r -> r.number() <= pinned).toList();
    return reading.page(limit, known, r -> String.valueOf(r.number()), RevisionItem::of);
  }

  @GetMapping("/revisions/{number}")
  @Operation(
      operationId = "getRevision",
      summary = "Read a revision",
      description = "Digest, time, size and reason of one revision, and what it changed.")
  @Nullable ResponseEntity<RevisionItem> revision(
      @Parameter(description = "Number of the revision.") @PathVariable @Min(1) long number,
      WebRequest request) {
    Reading reading = reads.one(request, null);
    Revision revision =
        reads.snapshots().revisions().stream()
            .filter(r -> r.number() == number)
            .findFirst()
            .orElseThrow(
                () ->
                    Refused.notFound(
                        "number",
                        "revision",
                        number,
                        List.of(String.valueOf(reading.snapshot().revision().number()))));
    return reading.answer(() -> RevisionItem.of(revision, changes.of(number)));
  }
}
