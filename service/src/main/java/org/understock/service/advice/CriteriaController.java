package org.understock.service.advice;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.media.Schema.RequiredMode;
import io.swagger.v3.oas.annotations.tags.Tag;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import org.understock.advice.Adviser;
import org.understock.advice.Criteria;
import org.understock.advice.Priorities;
import org.understock.site.Goal;
import org.understock.wording.Language;
import org.understock.wording.Words;

/**
 * What advice weighs, and what each purpose stands for. Both belong to the engine, not to a
 * revision of the evidence.
 */
@RestController
@RequestMapping(path = "/v1", produces = MediaType.APPLICATION_JSON_VALUE)
@Tag(name = "Advice")
class CriteriaController {
  @GetMapping("/criteria")
  @Operation(
      operationId = "listCriteria",
      summary = "List the criteria",
      description =
          "All criteria by which pairings are judged, with what each judges against what.")
  ResponseEntity<CriteriaList> criteria(Language language) {
    Words words = Words.in(language);
    return lasting(
        language,
        new CriteriaList(
            Criteria.all().stream()
                .map(
                    c ->
                        new CriterionItem(
                            c.id(), c.label(words), c.definition(words), c.preference(), c.limit()))
                .toList()));
  }

  @GetMapping("/purposes")
  @Operation(
      operationId = "listPurposes",
      summary = "List the purposes",
      description =
          "The priorities, 0 to 5, that each purpose stands for; `goal.priorities` overrides them one by one.")
  ResponseEntity<PurposeList> purposes(Language language) {
    Words words = Words.in(language);
    return lasting(
        language,
        new PurposeList(
            Arrays.stream(Goal.Purpose.values())
                .map(p -> new PurposeItem(p.id(), words.say("purpose." + p.id()), Priorities.of(p)))
                .toList()));
  }

  private static <T> ResponseEntity<T> lasting(Language language, T body) {
    return ResponseEntity.ok()
        .cacheControl(CacheControl.maxAge(Duration.ofMinutes(5)).cachePublic())
        .eTag("W/\"e" + Adviser.ENGINE_VERSION + "-" + language.tag() + "\"")
        .header(HttpHeaders.CONTENT_LANGUAGE, language.tag())
        .varyBy("Accept", "Accept-Encoding", "Accept-Language")
        .body(body);
  }

  @Schema(name = "CriteriaList")
  record CriteriaList(@Schema(requiredMode = RequiredMode.REQUIRED) List<CriterionItem> items) {}

  @Schema(name = "Criterion")
  record CriterionItem(
      @Schema(requiredMode = RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = RequiredMode.REQUIRED) String label,
      @Schema(requiredMode = RequiredMode.REQUIRED) String definition,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Whether it adds to the score and can be given a priority.")
          boolean preference,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Whether it can rule a pairing out.")
          boolean limit) {}

  @Schema(name = "PurposeList")
  record PurposeList(@Schema(requiredMode = RequiredMode.REQUIRED) List<PurposeItem> items) {}

  @Schema(name = "Purpose")
  record PurposeItem(
      @Schema(requiredMode = RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "For people.") String label,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "Criterion to weight, 0 to 5.")
          Map<String, Double> priorities) {}
}
