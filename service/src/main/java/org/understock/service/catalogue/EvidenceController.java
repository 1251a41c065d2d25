package org.understock.service.catalogue;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.Size;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.context.request.WebRequest;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Crop;
import org.understock.plant.Names;
import org.understock.plant.Plants;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.service.platform.Page;
import org.understock.service.reading.Reading;
import org.understock.service.reading.Reads;
import org.understock.service.reading.Refused;
import org.understock.service.reading.Told;
import org.understock.service.statement.EstimateView;
import org.understock.trait.Trait;

/** What the records add up to, and the records. */
@RestController
@RequestMapping(path = "/v1", produces = MediaType.APPLICATION_JSON_VALUE)
@Tag(name = "Evidence")
class EvidenceController {
  private final Reads reads;

  EvidenceController(Reads reads) {
    this.reads = reads;
  }

  @GetMapping("/estimates")
  @Operation(
      operationId = "listEstimates",
      summary = "Read estimates",
      description =
          "Estimates by crop, then stocks before varieties, then id of the subject, then trait. Filters may be combined.")
  @Nullable ResponseEntity<Page<EstimateView>> estimates(
      @Parameter(description = Told.CROP) @RequestParam(required = false) @Nullable String crop,
      @Parameter(description = "Id or usual spelling of a stock or variety.")
          @RequestParam(required = false)
          @Size(max = 100)
          @Nullable String subject,
      @Parameter(description = "Id of a trait.") @RequestParam(required = false) @Size(max = 100)
          @Nullable String trait,
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
    Crop wantedCrop = Refused.crop(crop);
    Reading reading = reads.page(request, revision, cursor);
    TraitBook book = reading.snapshot().book();
    List<String> traitIds = book.traits().all().stream().map(Trait::id).toList();
    Trait wantedTrait =
        Refused.filter(
            "trait", "trait", trait, book.traits()::find, id -> Names.closest(id, traitIds, 3));
    List<Trait> traits = wantedTrait == null ? book.traits().all() : List.of(wantedTrait);
    Stream<Subject> subjects =
        Arrays.stream(Crop.values())
            .filter(c -> wantedCrop == null || c == wantedCrop)
            .flatMap(
                c -> subject == null ? all(book.plants(), c) : named(book.plants(), c, subject));
    if (subject != null) known(book.plants(), subject);
    Stream<EstimateView> estimates =
        subjects.flatMap(
            s ->
                traits.stream()
                    .flatMap(
                        t ->
                            book
                                .estimate(s, t.id())
                                .map(e -> EstimateView.of(s, t.id(), e))
                                .stream()));
    return reading.walk(
        limit, estimates.iterator(), e -> e.crop() + "/" + e.subject() + "/" + e.trait(), e -> e);
  }

  @GetMapping("/records/{id}")
  @Operation(
      operationId = "getRecord",
      summary = "Read a record",
      description = "One published statement, with its source and where in the source it stands.")
  @Nullable ResponseEntity<RecordView> record(
      @Parameter(description = "Id of the record.") @PathVariable String id,
      @Parameter(description = Told.REVISION) @RequestParam(required = false) @Min(1)
          @Nullable Long revision,
      WebRequest request) {
    Reading reading = reads.one(request, revision);
    TraitBook book = reading.snapshot().book();
    TraitRecord record =
        book.record(id).orElseThrow(() -> Refused.notFound("id", "record", id, List.of()));
    return reading.answer(() -> RecordView.of(book, record));
  }

  private static Stream<Subject> all(Plants plants, Crop crop) {
    return Stream.concat(
        plants.stocks().stream()
            .filter(s -> s.crops().contains(crop))
            .map(s -> new Subject.StockIn(crop, s.id())),
        plants.varieties().stream()
            .filter(v -> v.crop() == crop)
            .map(v -> new Subject.OfVariety(crop, v.id())));
  }

  private static Stream<Subject> named(Plants plants, Crop crop, String subject) {
    Optional<Stock> stock = plants.stock(subject).or(() -> plants.resolveStock(subject));
    Optional<Variety> variety =
        plants
            .variety(subject)
            .filter(v -> v.crop() == crop)
            .or(() -> plants.resolveVariety(crop, subject));
    return Stream.concat(
        stock.stream().map(s -> new Subject.StockIn(crop, s.id())),
        variety.stream().map(v -> new Subject.OfVariety(crop, v.id())));
  }

  /** Refuses a subject that is neither stock nor variety of any crop. */
  private static void known(Plants plants, String subject) {
    if (Arrays.stream(Crop.values())
        .anyMatch(crop -> named(plants, crop, subject).findAny().isPresent())) return;
    List<String> nearest =
        Stream.concat(
                plants.nearestStocks(subject).stream(), plants.nearestVarieties(subject).stream())
            .distinct()
            .limit(5)
            .toList();
    throw Refused.parameter("subject", "is not a known stock or variety", subject, null, nearest);
  }
}
