package org.understock.service.climate;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.ExampleObject;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.understock.climate.ChillMeasure;
import org.understock.climate.TemperatureSeries;
import org.understock.evidence.TraitBook;
import org.understock.service.drawing.Pictures;
import org.understock.service.limits.Allowance;
import org.understock.service.limits.Turns;
import org.understock.service.platform.QueryParameters;
import org.understock.service.problem.JsonBodies;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.service.series.SeriesOf;
import org.understock.service.store.Snapshot;
import org.understock.service.store.Snapshots;
import org.understock.site.Word;
import org.understock.trait.Refusal;
import org.understock.wording.Language;
import org.understock.wording.Words;

/** Winters of a place against varieties and stocks. */
@RestController
@RequestMapping("/v1/chill")
@Tag(name = "Climate")
class ChillController {
  private static final String CSV = "text/csv";

  private final Snapshots snapshots;
  private final JsonBodies bodies;
  private final Turns turns;

  ChillController(Snapshots snapshots, JsonBodies bodies, Turns turns) {
    this.snapshots = snapshots;
    this.bodies = bodies;
    this.turns = turns;
  }

  @PostMapping(
      consumes = {MediaType.APPLICATION_JSON_VALUE, CSV},
      produces = {MediaType.APPLICATION_JSON_VALUE, Pictures.SVG})
  @Operation(
      operationId = "judgeWinters",
      summary = "Judge winters from temperatures",
      description =
          "From daily extremes or a logger's readings: chill and heat of each winter in four models, what nine of ten winters exceed,"
              + " the trend,"
              + " how often each variety's requirement is met (in its own measure only), the coldest nights against varieties and stocks, and, where"
              + " bloom is"
              + " told, what frost does to it; all of it again for a warmer climate when `warmingC` is given. Gaps of up to three days, or twelve"
              + " hours of a"
              + " logger, are bridged and counted; a winter with a longer one is refused. As `text/csv` a station's or logger's export is read: a"
              + " header with"
              + " `date,min,max` or `date-time,temperature`, among other columns; the rest is then told by query parameters, which don't go with JSON."
              + " With"
              + " `Accept: image/svg+xml` the answer is a chart of how chill adds up. At most 16 MB unless the operator set another limit:"
              + " as CSV eighty years of hours or twenty of quarter hours; of a longer record send fewer years a request. A file is read line by"
              + " line, and nothing of it but the numbers is kept.",
      responses =
          @ApiResponse(
              responseCode = "200",
              description = "The answer.",
              content = {
                @Content(
                    mediaType = MediaType.APPLICATION_JSON_VALUE,
                    schema = @Schema(implementation = ChillResponse.class)),
                @Content(mediaType = Pictures.SVG, schema = @Schema(type = "string"))
              }))
  @io.swagger.v3.oas.annotations.parameters.RequestBody(
      required = true,
      content = {
        @Content(
            mediaType = MediaType.APPLICATION_JSON_VALUE,
            schema = @Schema(implementation = ChillRequest.class)),
        @Content(
            mediaType = CSV,
            schema = @Schema(type = "string"),
            examples =
                @ExampleObject(
                    name = "daily",
                    summary = "Three days, invented",
                    value =
                        "date,min,max\n2024-10-01,4.1,15.2\n2024-10-02,5.0,14.8\n2024-10-03,2.2,13.9\n"))
      })
  ResponseEntity<?> judge(
      HttpServletRequest request,
      @Parameter(
              description =
                  "For the chart: the measure to draw; that of the first variety's requirement when left out.",
              schema = @Schema(allowableValues = {"chill-portions", "utah-units", "chill-hours"}))
          @RequestParam(required = false)
          @Nullable String chart,
      @Parameter(description = "For CSV, and needed there: degrees north.")
          @RequestParam(required = false)
          @Nullable String latitude,
      @Parameter(
              description = "For CSV: unit of the temperatures.",
              schema = @Schema(allowableValues = {"celsius", "fahrenheit"}))
          @RequestParam(required = false)
          @Nullable String units,
      @Parameter(description = "For CSV: first day of the season, such as 10-01; with seasonTo.")
          @RequestParam(required = false)
          @Nullable String seasonFrom,
      @Parameter(description = "For CSV: last day of the season, such as 03-31; with seasonFrom.")
          @RequestParam(required = false)
          @Nullable String seasonTo,
      @Parameter(description = "For CSV.") @RequestParam(required = false) @Nullable String crop,
      @Parameter(description = "For CSV: ids or spellings with commas between.")
          @RequestParam(required = false)
          @Nullable String varieties,
      @Parameter(description = "For CSV: ids or spellings with commas between.")
          @RequestParam(required = false)
          @Nullable String stocks,
      @Parameter(
              description = "For CSV: usual days of full bloom, such as `fuji:04-25,gala:04-22`.")
          @RequestParam(required = false)
          @Nullable String bloom,
      @Parameter(description = "For CSV.") @RequestParam(required = false)
          @Nullable String warmingC,
      @Parameter(
              description = "For CSV.",
              schema = @Schema(allowableValues = {"continuous", "split-at-midnight"}))
          @RequestParam(required = false)
          @Nullable String nightRule,
      @Parameter(description = "For CSV: answer as of this revision.")
          @RequestParam(required = false)
          @Nullable String revision,
      Language language)
      throws IOException {
    ChillMeasure drawn = chart == null ? null : measure(chart);
    boolean csv =
        new MediaType("text", "csv")
            .isCompatibleWith(MediaType.parseMediaType(request.getContentType()));
    if (csv) return csv(ChillParameters.request(request, bodies), request, drawn, language);
    List<ProblemError> stray = new ArrayList<>();
    for (String name : request.getParameterMap().keySet()) {
      if (!name.equals("chart") && !name.equals(QueryParameters.LANG))
        stray.add(
            new ProblemError(
                null,
                name,
                "goes with text/csv only; in JSON it is a field of the body",
                null,
                null,
                null));
    }
    if (!stray.isEmpty())
      throw ProblemException.of(
          ProblemType.INVALID_REQUEST, "The query has parameters that don't go with JSON.", stray);
    ChillRequest body = bodies.read(request.getInputStream(), ChillRequest.class);
    Snapshot snapshot = snapshot(body.revision(), false);
    Asked asked = Asked.of(body, snapshot.book());
    return answer(
        asked,
        () ->
            SeriesOf.body(
                body.daily(), body.hourly(), body.latitude(), asked.rule(), asked.unit(), ""),
        snapshot.book(),
        body.hourly() == null,
        List.of(),
        request,
        drawn,
        language);
  }

  private ResponseEntity<?> csv(
      ChillRequest parameters,
      HttpServletRequest request,
      @Nullable ChillMeasure drawn,
      Language language)
      throws IOException {
    Snapshot snapshot = snapshot(parameters.revision(), true);
    Asked asked;
    try {
      asked = Asked.of(parameters, snapshot.book());
    } catch (Refusal refusal) {
      throw ChillParameters.refused(refusal);
    }
    SeriesCsv file = new SeriesCsv(parameters.latitude(), asked.rule(), asked.unit());
    TemperatureSeries series = file.read(request.getInputStream());
    return answer(
        asked,
        () -> series,
        snapshot.book(),
        file.daily(),
        file.notRead(),
        request,
        drawn,
        language);
  }

  private ResponseEntity<?> answer(
      Asked asked,
      Supplier<TemperatureSeries> read,
      TraitBook book,
      boolean daily,
      List<String> notRead,
      HttpServletRequest request,
      @Nullable ChillMeasure drawn,
      Language language) {
    boolean chart = Pictures.wanted(request.getHeader(HttpHeaders.ACCEPT));
    Words words = Words.in(language);
    ResponseEntity.BodyBuilder answer =
        ResponseEntity.ok()
            .cacheControl(CacheControl.noStore())
            .header(HttpHeaders.CONTENT_LANGUAGE, language.tag())
            .varyBy(HttpHeaders.ACCEPT, HttpHeaders.ACCEPT_LANGUAGE);
    return turns.take(
        () -> {
          TemperatureSeries series = read.get();
          Asked.Outlooks outlooks = asked.answer(book, series);
          long days = ChronoUnit.DAYS.between(series.start(), series.end()) + 1;
          Allowance.of(request).chargeYears(asked.warmingC() == null ? days : 2 * days);
          return chart
              ? answer.contentType(Pictures.TYPE).body(chart(outlooks, drawn, words))
              : answer
                  .contentType(MediaType.APPLICATION_JSON)
                  .body(ChillAnswers.of(asked, outlooks, book, daily, notRead, words));
        });
  }

  private static byte[] chart(Asked.Outlooks outlooks, @Nullable ChillMeasure drawn, Words words) {
    return ChillChart.svg(
            outlooks.now(),
            Objects.requireNonNullElseGet(drawn, () -> ChillChart.usual(outlooks.now())),
            words)
        .getBytes(StandardCharsets.UTF_8);
  }

  private static ChillMeasure measure(String chart) {
    try {
      return Word.of(ChillMeasure.class, "chart", chart);
    } catch (Refusal.Unknown unknown) {
      throw ProblemException.of(
          ProblemType.INVALID_REQUEST,
          "The parameter 'chart' can't be used.",
          List.of(
              new ProblemError(
                  null,
                  "chart",
                  "is not a measure of chill",
                  String.join(", ", unknown.nearest()),
                  chart,
                  null)));
    }
  }

  private Snapshot snapshot(@Nullable Long revision, boolean parameter) {
    if (revision == null) return snapshots.latest();
    long latest = snapshots.latest().revision().number();
    return snapshots
        .at(revision)
        .orElseThrow(
            () ->
                ProblemException.of(
                    ProblemType.UNKNOWN_ID,
                    "There is no revision " + revision + ".",
                    List.of(
                        new ProblemError(
                            parameter ? null : "#/revision",
                            parameter ? "revision" : null,
                            "is not known; the latest is " + latest,
                            "between 1 and " + latest,
                            revision,
                            List.of(String.valueOf(latest))))));
  }
}
