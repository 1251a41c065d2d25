package org.understock.service.card;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.context.request.WebRequest;
import org.understock.advice.Adviser;
import org.understock.advice.Units;
import org.understock.plant.Crop;
import org.understock.service.drawing.Pictures;
import org.understock.service.platform.OneOf;
import org.understock.service.reading.Reading;
import org.understock.service.reading.Reads;
import org.understock.service.reading.Told;
import org.understock.site.Word;
import org.understock.wording.Language;
import org.understock.wording.Words;

/** The card that goes with a tree. */
@RestController
@Tag(name = "Pairings")
class CardController {
  private final Reads reads;

  CardController(Reads reads) {
    this.reads = reads;
  }

  @GetMapping(
      path = "/v1/pairings/{stock}/{variety}",
      produces = {MediaType.APPLICATION_JSON_VALUE, MediaType.TEXT_HTML_VALUE, Pictures.SVG})
  @Operation(
      operationId = "getPairing",
      summary = "Read a pairing's card",
      description =
          "What is on record of one variety on one stock, to hand out or to hang on the tree: size beside a person, time to crop, pollen"
              + " partners, what it bears and suffers from, care, cautions and sources; what is not on record is said to be so. A browser"
              + " gets a page that prints on one sheet; ask for `image/svg+xml` to have it drawn, and with `sheet=tags` for two-sided tags,"
              + " eight to a sheet. A pairing whose union fails has a card too, which says so first.")
  @ApiResponse(
      responseCode = "200",
      content = {
        @Content(
            mediaType = MediaType.APPLICATION_JSON_VALUE,
            schema = @Schema(implementation = CardResponse.class)),
        @Content(mediaType = MediaType.TEXT_HTML_VALUE, schema = @Schema(type = "string")),
        @Content(mediaType = Pictures.SVG, schema = @Schema(type = "string"))
      })
  @Nullable ResponseEntity<?> card(
      @Parameter(description = "Id or usual spelling of the stock.") @PathVariable String stock,
      @Parameter(
              description =
                  "Id or usual spelling of the variety; it is looked for among the stock's crops.")
          @PathVariable
          String variety,
      @Parameter(
              description = "Units of the texts and of the drawing's scale; fields are SI always.")
          @RequestParam(defaultValue = "metric")
          @OneOf(Units.class)
          String units,
      @Parameter(description = Told.REVISION) @RequestParam(required = false) @Min(1)
          @Nullable Long revision,
      @Parameter(description = "Goes before the `Accept` header, for a link in a page.")
          @RequestParam(required = false)
          @OneOf(Form.class)
          @Nullable String format,
      @Parameter(
              description =
                  "`tags`: two-sided tags, several to a sheet, in place of the card; as a page only, whatever is accepted beside it.")
          @RequestParam(defaultValue = "card")
          @OneOf(Sheet.class)
          String sheet,
      @Parameter(
              description =
                  "What the page is printed on; left out, `a4`, or `letter` for US units.")
          @RequestParam(required = false)
          @OneOf(Paper.class)
          @Nullable String paper,
      @Parameter(description = "How many tags.")
          @RequestParam(defaultValue = "8")
          @Min(1)
          @Max(TagSheet.MOST)
          int copies,
      @Parameter(hidden = true) @RequestHeader(name = HttpHeaders.ACCEPT, required = false)
          @Nullable String accept,
      Language language,
      WebRequest request) {
    Reading reading = reads.one(request, revision).in(language);
    Words words = Words.in(language);
    Found found = Found.of(reading.snapshot().book().plants(), stock, variety);
    Units in = Word.of(Units.class, "units", units);
    Paper on =
        paper != null
            ? Word.of(Paper.class, "paper", paper)
            : in == Units.US_CUSTOMARY ? Paper.LETTER : Paper.A4;
    boolean tags = Word.of(Sheet.class, "sheet", sheet) == Sheet.TAGS;
    Form form = tags ? Form.HTML : form(format, accept);
    return reading.answer(
        form.type,
        () -> {
          Adviser adviser = reading.snapshot().adviser();
          Crop crop = found.variety().crop();
          CardResponse card =
              Cards.of(
                  adviser.portrait(crop, found.stock().id(), found.variety().id(), in, language),
                  reading.snapshot().revision().number(),
                  adviser.pollination(crop),
                  words);
          ResponseEntity.BodyBuilder ok = ResponseEntity.ok().contentType(form.type);
          return switch (form) {
            case JSON -> ok.body(card);
            case SVG -> ok.body(CardPicture.of(new Said(card, in, words)));
            case HTML -> {
              Page page =
                  tags
                      ? TagSheet.of(new Said(card, in, words), on, copies)
                      : CardPage.of(new Said(card, in, words), on);
              yield ok.header("Content-Security-Policy", page.policy()).body(page.html());
            }
          };
        });
  }

  private static Form form(@Nullable String format, @Nullable String accept) {
    if (format != null) return Word.of(Form.class, "format", format);
    MediaType best = Pictures.best(accept, Form.OFFERED);
    return Form.values()[Form.OFFERED.indexOf(best)];
  }
}
