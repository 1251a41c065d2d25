package org.understock.service.planting;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.nio.charset.StandardCharsets;
import org.jspecify.annotations.Nullable;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RestController;
import org.understock.planting.Planner;
import org.understock.planting.PlantingPlan;
import org.understock.service.drawing.Pictures;
import org.understock.service.limits.Allowance;
import org.understock.service.limits.Turns;
import org.understock.service.reading.Reads;
import org.understock.service.store.Snapshot;
import org.understock.wording.Language;
import org.understock.wording.Words;

/** Where the trees go. */
@RestController
@Tag(name = "Planting")
class PlantingPlanController {
  private final Reads reads;
  private final Turns turns;

  PlantingPlanController(Reads reads, Turns turns) {
    this.reads = reads;
    this.turns = turns;
  }

  @PostMapping(
      path = "/v1/planting-plans",
      consumes = MediaType.APPLICATION_JSON_VALUE,
      produces = {MediaType.APPLICATION_JSON_VALUE, Pictures.SVG, MediaType.TEXT_HTML_VALUE})
  @Operation(
      operationId = "planPlanting",
      summary = "Plan a planting",
      description =
          "Lays rows over a plot of any outline, spaced as advice spaces the pairings, and says where each tree stands, which "
              + "pollinates which and how far away, what to order and to put up, and what the planting bears over the years. The same request "
              + "on the same revision and engine version gives the same bytes. Ask for `image/svg+xml` to have it drawn, for `text/html` to have sheets to print: drawing, order, row by row which tree goes "
              + "where, crops and cautions, in metres and feet.")
  @ApiResponse(
      responseCode = "200",
      content = {
        @Content(
            mediaType = MediaType.APPLICATION_JSON_VALUE,
            schema = @Schema(implementation = PlantingPlanResponse.class)),
        @Content(mediaType = Pictures.SVG, schema = @Schema(type = "string")),
        @Content(mediaType = MediaType.TEXT_HTML_VALUE, schema = @Schema(type = "string"))
      })
  ResponseEntity<?> plan(
      @RequestBody @Valid PlantingPlanRequest request,
      @Parameter(hidden = true) @RequestHeader(name = HttpHeaders.ACCEPT, required = false)
          @Nullable String accept,
      Language language,
      HttpServletRequest asked) {
    Words words = Words.in(language);
    Snapshot snapshot = reads.asked(request.revision());
    PlantingPlan plan =
        turns.take(
            () -> Planner.of(snapshot.adviser()).plan(Plans.question(request, snapshot.book())));
    Allowance.of(asked).chargeTrees(plan.trees().size());
    ResponseEntity.BodyBuilder ok =
        ResponseEntity.ok()
            .cacheControl(CacheControl.noStore())
            .header(HttpHeaders.CONTENT_LANGUAGE, language.tag())
            .varyBy(HttpHeaders.ACCEPT, HttpHeaders.ACCEPT_LANGUAGE);
    if (Pictures.pageWanted(accept)) {
      return ok.contentType(new MediaType(MediaType.TEXT_HTML, StandardCharsets.UTF_8))
          .header("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'")
          .body(
              PlanSheets.of(
                  plan, Plans.answer(plan, request, snapshot, words), words, Plans.units(request)));
    }
    return Pictures.wanted(accept)
        ? ok.contentType(Pictures.TYPE).body(PlanDrawing.of(plan, words, Plans.units(request)))
        : ok.contentType(MediaType.APPLICATION_JSON)
            .body(Plans.answer(plan, request, snapshot, words));
  }
}
