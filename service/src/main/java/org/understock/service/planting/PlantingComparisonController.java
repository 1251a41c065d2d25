package org.understock.service.planting;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import org.jspecify.annotations.Nullable;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RestController;
import org.understock.planting.Comparer;
import org.understock.planting.Comparison;
import org.understock.service.drawing.Pictures;
import org.understock.service.limits.Allowance;
import org.understock.service.limits.Turns;
import org.understock.service.reading.Reads;
import org.understock.service.store.Snapshot;

/** Which planting of a plot brings or bears the most, and when. */
@RestController
@Tag(name = "Planting")
class PlantingComparisonController {
  private final Reads reads;
  private final Turns turns;

  PlantingComparisonController(Reads reads, Turns turns) {
    this.reads = reads;
    this.turns = turns;
  }

  @PostMapping(
      path = "/v1/planting-comparisons",
      consumes = MediaType.APPLICATION_JSON_VALUE,
      produces = {MediaType.APPLICATION_JSON_VALUE, Pictures.SVG})
  @Operation(
      operationId = "comparePlantings",
      summary = "Compare plantings of a plot",
      description =
          "Plans the plot with each of several pairings, one at a time, and holds the plantings against each other over the years: by your own "
              + "prices and costs where `money` is given, else by kilograms. Says how likely each is the best and in which year one overtakes the "
              + "other. Ask for `image/svg+xml` to have the sums to each year drawn. An aid to deciding and no financial advice.")
  @ApiResponse(
      responseCode = "200",
      content = {
        @Content(
            mediaType = MediaType.APPLICATION_JSON_VALUE,
            schema = @Schema(implementation = PlantingComparisonResponse.class)),
        @Content(mediaType = Pictures.SVG, schema = @Schema(type = "string"))
      })
  ResponseEntity<?> compare(
      @RequestBody @Valid PlantingComparisonRequest request,
      @Parameter(hidden = true) @RequestHeader(name = HttpHeaders.ACCEPT, required = false)
          @Nullable String accept,
      HttpServletRequest asked) {
    Snapshot snapshot = reads.asked(request.revision());
    Comparison comparison =
        turns.take(
            () -> Comparer.of(snapshot.adviser()).compare(request.question(snapshot.book())));
    Allowance allowance = Allowance.of(asked);
    allowance.chargePairings(comparison.judged());
    allowance.chargeTrees(
        comparison.plantings().stream().mapToLong(p -> p.plan().trees().size()).sum());
    ResponseEntity.BodyBuilder ok =
        ResponseEntity.ok().cacheControl(CacheControl.noStore()).varyBy(HttpHeaders.ACCEPT);
    return Pictures.wanted(accept)
        ? ok.contentType(Pictures.TYPE).body(ComparisonDrawing.of(comparison))
        : ok.contentType(MediaType.APPLICATION_JSON)
            .body(PlantingComparisonResponse.of(comparison, snapshot));
  }
}
