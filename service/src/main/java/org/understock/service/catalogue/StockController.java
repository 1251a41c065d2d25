package org.understock.service.catalogue;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.Size;
import java.util.ArrayList;
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
import org.understock.evidence.Advisable;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.service.platform.Page;
import org.understock.service.reading.Reading;
import org.understock.service.reading.Reads;
import org.understock.service.reading.Refused;
import org.understock.service.reading.Told;
import org.understock.trait.Value;

/** Stocks: the list, and the page of one. */
@RestController
@RequestMapping(path = "/v1/stocks", produces = MediaType.APPLICATION_JSON_VALUE)
@Tag(name = "Catalogue")
class StockController {
  private final Reads reads;

  StockController(Reads reads) {
    this.reads = reads;
  }

  @GetMapping
  @Operation(
      operationId = "listStocks",
      summary = "Find stocks",
      description =
          "All stocks in the order of their ids, or those that a name means, best match first.")
  @Nullable ResponseEntity<Page<StockItem>> list(
      @Parameter(description = Told.CROP) @RequestParam(required = false) @Nullable String crop,
      @Parameter(description = Told.Q) @RequestParam(required = false) @Size(max = 100)
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
    Crop wanted = Refused.crop(crop);
    Reading reading = reads.page(request, revision, cursor);
    List<Stock> found =
        reading.snapshot().book().plants().findStocks(q == null ? "" : q).stream()
            .filter(stock -> wanted == null || stock.crops().contains(wanted))
            .toList();
    return reading.page(limit, found, Stock::id, StockItem::of);
  }

  @GetMapping("/{id}")
  @Operation(
      operationId = "getStock",
      summary = "Read a stock",
      description =
          "Names, crops, what the evidence adds up to in each crop, and how little is known where it is little. "
              + "The id may be any usual spelling that means one stock.")
  @Nullable ResponseEntity<StockPage> get(
      @Parameter(description = "Id or usual spelling of the stock.") @PathVariable String id,
      @Parameter(description = Told.REVISION) @RequestParam(required = false) @Min(1)
          @Nullable Long revision,
      WebRequest request) {
    Reading reading = reads.one(request, revision);
    TraitBook book = reading.snapshot().book();
    Stock stock =
        book.plants()
            .stock(id)
            .or(() -> book.plants().resolveStock(id))
            .orElseThrow(
                () -> Refused.notFound("id", "stock", id, book.plants().nearestStocks(id)));
    return reading.answer(() -> StockPage.of(book, stock));
  }

  @Schema(name = "StockItem")
  record StockItem(
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String id,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "As the trial literature prints it.")
          String name,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description =
                  "class: a class of sizes or a stock that a source does not name; never advised.",
              allowableValues = {"clone", "seedling", "interstem", "own-roots", "class"})
          String kind,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) List<String> crops,
      @Schema(description = "Id of the stock of which this is a clone or strain.")
          @Nullable String cloneOf,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "Other spellings and trade designations.")
          List<String> synonyms) {
    static StockItem of(Stock stock) {
      return new StockItem(
          stock.id(),
          stock.name(),
          kindOf(stock),
          cropsOf(stock),
          stock.cloneOf(),
          stock.synonyms());
    }
  }

  @Schema(name = "Stock")
  record StockPage(
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String name,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              allowableValues = {"clone", "seedling", "interstem", "own-roots", "class"})
          String kind,
      @Nullable String cloneOf,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "Clones and strains of this stock.")
          List<String> clones,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) List<String> synonyms,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) List<Knowledge> crops,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) List<Compatibility> compatibility) {
    static StockPage of(TraitBook book, Stock stock) {
      List<String> clones =
          book.plants().stocks().stream()
              .filter(s -> stock.id().equals(s.cloneOf()))
              .map(Stock::id)
              .toList();
      List<Knowledge> crops =
          stock.crops().stream()
              .sorted()
              .map(
                  crop ->
                      Knowledge.of(
                          book,
                          new Subject.StockIn(crop, stock.id()),
                          stock.name(),
                          Advisable.of(book, crop).stock(stock.id())))
              .toList();
      List<Compatibility> verdicts =
          book.evidence().records().stream()
              .filter(r -> r.subject() instanceof Subject.Pairing p && p.stock().equals(stock.id()))
              .map(Compatibility::of)
              .sorted(
                  java.util.Comparator.comparing(Compatibility::crop)
                      .thenComparing(c -> c.variety() == null ? "" : c.variety())
                      .thenComparing(Compatibility::record))
              .toList();
      return new StockPage(
          stock.id(),
          stock.name(),
          kindOf(stock),
          stock.cloneOf(),
          clones,
          stock.synonyms(),
          crops,
          verdicts);
    }
  }

  /** One published verdict on a stock under a variety, or under varieties at large. */
  @Schema(name = "Compatibility")
  record Compatibility(
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String crop,
      @Schema(description = "Absent when varieties at large are meant.") @Nullable String variety,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              allowableValues = {"named", "all", "most", "some"})
          String reach,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String verdict,
      @Schema(description = "What to put between.") @Nullable String interstem,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String record,
      @Nullable String note) {
    static Compatibility of(TraitRecord r) {
      Subject.Pairing p = (Subject.Pairing) r.subject();
      String verdict =
          r.value() instanceof Value.Level level ? level.level() : r.value().toString();
      return new Compatibility(
          p.crop().id(),
          p.variety(),
          p.reach().name().toLowerCase(Locale.ROOT),
          verdict,
          r.context().interstem(),
          r.id(),
          r.note().isEmpty() ? null : r.note());
    }
  }

  static String kindOf(Stock stock) {
    return stock.kind().name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private static List<String> cropsOf(Stock stock) {
    List<Crop> crops = new ArrayList<>(stock.crops());
    crops.sort(null);
    return crops.stream().map(Crop::id).toList();
  }
}
