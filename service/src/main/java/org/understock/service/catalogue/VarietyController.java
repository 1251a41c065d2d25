package org.understock.service.catalogue;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.Size;
import java.util.List;
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
import org.understock.plant.Crop;
import org.understock.plant.Variety;
import org.understock.service.platform.Page;
import org.understock.service.reading.Reading;
import org.understock.service.reading.Reads;
import org.understock.service.reading.Refused;
import org.understock.service.reading.Told;

/** Varieties: the list, and the page of one. */
@RestController
@RequestMapping(path = "/v1/varieties", produces = MediaType.APPLICATION_JSON_VALUE)
@Tag(name = "Catalogue")
class VarietyController {
  private final Reads reads;

  VarietyController(Reads reads) {
    this.reads = reads;
  }

  @GetMapping
  @Operation(
      operationId = "listVarieties",
      summary = "Find varieties",
      description =
          "All varieties in the order of their ids, or those that a name means, best match first.")
  @Nullable ResponseEntity<Page<VarietyItem>> list(
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
    List<Variety> found =
        reading.snapshot().book().plants().findVarieties(q == null ? "" : q).stream()
            .filter(variety -> wanted == null || variety.crop() == wanted)
            .toList();
    return reading.page(limit, found, Variety::id, VarietyItem::of);
  }

  @GetMapping("/{id}")
  @Operation(
      operationId = "getVariety",
      summary = "Read a variety",
      description =
          "Names, and what the evidence adds up to. The id may be any usual spelling that means one variety.")
  @Nullable ResponseEntity<VarietyPage> get(
      @Parameter(description = "Id or usual spelling of the variety.") @PathVariable String id,
      @Parameter(description = Told.REVISION) @RequestParam(required = false) @Min(1)
          @Nullable Long revision,
      WebRequest request) {
    Reading reading = reads.one(request, revision);
    TraitBook book = reading.snapshot().book();
    Variety variety = Refused.unlessOne(book.plants(), id);
    return reading.answer(() -> VarietyPage.of(book, variety));
  }

  @Schema(name = "VarietyItem")
  record VarietyItem(
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String crop,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = "Cultivar denomination.")
          String name,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "Other spellings and trade designations.")
          List<String> synonyms) {
    static VarietyItem of(Variety variety) {
      return new VarietyItem(variety.id(), variety.crop().id(), variety.name(), variety.synonyms());
    }
  }

  @Schema(name = "Variety")
  record VarietyPage(
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String name,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) List<String> synonyms,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) Knowledge knowledge) {
    static VarietyPage of(TraitBook book, Variety variety) {
      return new VarietyPage(
          variety.id(),
          variety.name(),
          variety.synonyms(),
          Knowledge.of(
              book,
              new Subject.OfVariety(variety.crop(), variety.id()),
              variety.name(),
              Advisable.of(book, variety.crop()).variety(variety.id())));
    }
  }
}
