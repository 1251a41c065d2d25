package org.understock.service.pollination;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.validation.Valid;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.context.request.WebRequest;
import org.understock.plant.Variety;
import org.understock.pollination.Partner;
import org.understock.pollination.PartnerNeed;
import org.understock.pollination.PollenCheck;
import org.understock.pollination.Pollination;
import org.understock.pollination.SetVerdict;
import org.understock.service.drawing.Pictures;
import org.understock.service.reading.Reading;
import org.understock.service.reading.Reads;
import org.understock.service.reading.Refused;
import org.understock.service.reading.Told;
import org.understock.service.store.Snapshot;
import org.understock.wording.Language;
import org.understock.wording.Words;

/** Pollination: a planting as a whole, and the partners of a variety. */
@RestController
@Tag(name = "Pollination")
class PollinationController {
  private final Reads reads;

  PollinationController(Reads reads) {
    this.reads = reads;
  }

  @PostMapping(
      path = "/v1/pollination",
      consumes = MediaType.APPLICATION_JSON_VALUE,
      produces = {MediaType.APPLICATION_JSON_VALUE, Pictures.SVG})
  @Operation(
      operationId = "checkPollination",
      summary = "Check a planting's pollination",
      description =
          "Says of every ordered pair of varieties what the pollen does and whether it comes in time, whether each variety gets pollen"
              + " that works, and, where one does not, the fewest varieties that mend the planting. What is not known stays unknown, and is told"
              + " from what is known to fail. Ask for `image/svg+xml` to have it drawn: bloom along the days, and who serves whom.")
  @ApiResponse(
      responseCode = "200",
      content = {
        @Content(
            mediaType = MediaType.APPLICATION_JSON_VALUE,
            schema = @Schema(implementation = PollinationResponse.class)),
        @Content(mediaType = Pictures.SVG, schema = @Schema(type = "string"))
      })
  ResponseEntity<?> check(
      @RequestBody @Valid PollinationRequest request,
      @Parameter(hidden = true) @RequestHeader(name = HttpHeaders.ACCEPT, required = false)
          @Nullable String accept,
      Language language) {
    Snapshot snapshot = reads.asked(request.revision());
    Planting planting = Planting.of(request, snapshot.book().plants());
    PollenCheck check = new PollenCheck(snapshot.adviser()::pollination);
    SetVerdict verdict = check.check(planting.varieties(), planting.from(), planting.limit());
    PollinationResponse answer = Answers.of(verdict, check, snapshot, Words.in(language));
    ResponseEntity.BodyBuilder ok =
        ResponseEntity.ok()
            .cacheControl(CacheControl.noStore())
            .header(HttpHeaders.CONTENT_LANGUAGE, language.tag())
            .varyBy(HttpHeaders.ACCEPT, HttpHeaders.ACCEPT_LANGUAGE);
    if (Pictures.wanted(accept))
      return ok.contentType(Pictures.TYPE).body(BloomChart.of(answer, Words.in(language)));
    return ok.contentType(MediaType.APPLICATION_JSON).body(answer);
  }

  @GetMapping(path = "/v1/varieties/{id}/partners", produces = MediaType.APPLICATION_JSON_VALUE)
  @Operation(
      operationId = "listPartners",
      summary = "Find a variety's pollen partners",
      description =
          "Varieties of its crop whose pollen works or may work on it, the best first: all of the pollen and a bloom that overlaps well,"
              + " then what is better evidenced and better known. Those whose pollen is known not to work are left out. The id may be any usual"
              + " spelling that means one variety.")
  @Nullable ResponseEntity<Partners> partners(
      @Parameter(description = "Id or usual spelling of the variety.") @PathVariable String id,
      @Parameter(description = Told.REVISION) @RequestParam(required = false) @Min(1)
          @Nullable Long revision,
      @Parameter(description = "Most partners to list; `total` counts them all.")
          @RequestParam(defaultValue = "10")
          @Min(1)
          @Max(1000)
          int limit,
      Language language,
      WebRequest request) {
    Reading reading = reads.one(request, revision).in(language);
    Variety variety = Refused.unlessOne(reading.snapshot().book().plants(), id);
    return reading.answer(
        () ->
            Partners.of(
                variety,
                reading.snapshot().adviser().pollination(variety.crop()),
                limit,
                Words.in(language)));
  }

  @Schema(name = "PollenPartners")
  record Partners(
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) PollinationResponse.Named variety,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) Need need,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) PollinationResponse.Bloom bloom,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = "The best first.")
          List<PartnerItem> items,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "Number of partners in all.")
          int total) {
    static Partners of(Variety variety, Pollination pollination, int limit, Words words) {
      List<Partner> all = pollination.partners(variety.id(), Integer.MAX_VALUE);
      return new Partners(
          Answers.named(variety),
          Need.of(pollination.partnerNeed(variety.id()), words),
          Answers.bloom(pollination.bloom(variety.id()), pollination),
          all.stream().limit(limit).map(partner -> PartnerItem.of(partner, words)).toList(),
          all.size());
    }
  }

  @Schema(name = "PollenNeed")
  record Need(
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              allowableValues = {"self-fertile", "partly", "needs-one", "needs-two", "unknown"})
          String need,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "Chance that it bears no crop without another variety.")
          double chanceNeeded,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String text,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) List<String> records) {
    static Need of(PartnerNeed need, Words words) {
      return new Need(
          need.need().id(),
          Math.round(need.chanceNeeded() * 100) / 100.0,
          need.text().in(words),
          need.records());
    }
  }

  @Schema(name = "PollenPartner")
  record PartnerItem(
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) PollinationResponse.Named variety,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "What its pollen does.",
              allowableValues = {"full", "partial", "unknown"})
          String pollen,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              allowableValues = {"good", "some", "poor", "unknown"})
          String bloomOverlap,
      @Schema(
              description =
                  "Chance that the two share at least three days of bloom at some place; absent where days are not recorded for both.")
          @Nullable Double chanceOfOverlap,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              allowableValues = {"A", "B", "C", "D"})
          String grade,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String text,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) List<String> records) {
    static PartnerItem of(Partner partner, Words words) {
      PollinationResponse.Pair pair = Answers.pair(partner.pair(), words);
      return new PartnerItem(
          Answers.named(partner.variety()),
          pair.verdict(),
          pair.bloomOverlap(),
          pair.chanceOfOverlap(),
          pair.grade(),
          pair.text(),
          pair.records());
    }
  }
}
