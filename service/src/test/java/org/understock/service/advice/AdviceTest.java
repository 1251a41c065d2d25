package org.understock.service.advice;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import io.restassured.response.Response;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.understock.service.RunningService;
import org.understock.service.contract.Contract;

/** What holds for every answer of {@code POST /v1/advice}, whatever the evidence says. */
class AdviceTest extends RunningService {
  private static final String GARDEN =
      """
      {"crop": "apple", "site": {"coldestNightC": -20, "soil": {"texture": "clay-loam"}}, "goal": {"purpose": "home-garden", "maxHeightM": 3}, "limit": 3}""";

  private @Nullable Contract contract;

  @BeforeEach
  void readTheContract() {
    contract = new Contract(given().get("/v3/api-docs").asString());
  }

  private Response ask(String body) {
    return given().filter(contract).contentType("application/json").body(body).post("/v1/advice");
  }

  @Test
  void the_same_request_gives_the_same_bytes() {
    byte[] first = ask(GARDEN).asByteArray();
    assertThat(ask(GARDEN).asByteArray()).isEqualTo(first);
    assertThat(ask(GARDEN.replace("\"limit\"", "\"revision\": 1, \"limit\"")).asByteArray())
        .isEqualTo(first);
    assertThat(ask(GARDEN.replace("3}, ", "2}, ")).asByteArray()).isNotEqualTo(first);
  }

  @Test
  void effects_add_up_from_the_mean_to_the_score() {
    Response answer = ask(GARDEN);
    List<Map<String, Object>> pairings = answer.path("pairings");
    assertThat(pairings).hasSize(3);
    double mean = ((Number) answer.path("meanScore")).doubleValue();
    for (int k = 0; k < pairings.size(); k++) {
      List<Number> effects = answer.path("pairings[" + k + "].reasons.effect");
      double score = ((Number) answer.path("pairings[" + k + "].score")).doubleValue();
      double sum = mean + effects.stream().mapToDouble(Number::doubleValue).sum();
      // score, mean and each effect are rounded to a tenth
      assertThat(sum).isCloseTo(score, within(0.05 * (effects.size() + 2)));
    }
  }

  @Test
  void every_cited_record_can_be_read_and_its_source_is_listed() {
    Response answer = ask(GARDEN);
    List<String> sources = answer.path("sources.id");
    List<String> cited = answer.path("pairings[0].reasons.records.flatten()");
    assertThat(cited).isNotEmpty();
    for (String id : cited.stream().distinct().limit(25).toList()) {
      Response record = given().filter(contract).get("/v1/records/" + id);
      assertThat(record.statusCode()).as(id).isEqualTo(200);
      assertThat(sources).contains(record.<String>path("source"));
    }
  }

  @Test
  void the_crop_is_read_off_a_candidate_variety() {
    Response answer =
        ask(
            "{\"candidates\": {\"pairings\": [{\"stock\": \"MM 106\", \"variety\": \"Fuji\", \"sku\": \"A-117\"}]}}");
    assertThat(answer.<String>path("crop")).isEqualTo("apple");
    assertThat(answer.<String>path("pairings[0].sku")).isEqualTo("A-117");
    assertThat(answer.<String>path("pairings[0].stock.id")).isEqualTo("mm-106");
    Response without = ask("{\"candidates\": {\"stocks\": [\"m-7\"]}}");
    assertThat(without.statusCode()).isEqualTo(422);
    assertThat(without.<List<String>>path("errors.pointer")).containsExactly("#/crop");
  }

  @Test
  void words_that_would_change_nothing_are_refused() {
    Response pressure =
        ask("{\"crop\": \"apple\", \"site\": {\"pressures\": [\"fire-blight\", \"fireblihgt\"]}}");
    assertThat(pressure.statusCode()).isEqualTo(422);
    assertThat(pressure.<List<String>>path("errors.pointer")).containsExactly("#/site/pressures/1");
    assertThat(pressure.<List<List<String>>>path("errors.nearest").get(0)).contains("fire-blight");
    Response revision = ask("{\"crop\": \"apple\", \"revision\": 9}");
    assertThat(revision.statusCode()).isEqualTo(422);
    assertThat(revision.<String>path("errors[0].detail")).contains("the latest is 1");
  }

  @Test
  void the_best_of_each_stock_names_no_stock_twice() {
    List<String> stocks =
        ask("{\"crop\": \"apple\", \"bestPer\": \"stock\", \"limit\": 20}")
            .path("pairings.stock.id");
    assertThat(stocks).hasSize(20).doesNotHaveDuplicates();
  }

  @Test
  void criteria_and_purposes_know_the_same_words() {
    List<String> preferences =
        given().filter(contract).get("/v1/criteria").path("items.findAll { it.preference }.id");
    List<Map<String, Object>> purposes =
        given().filter(contract).get("/v1/purposes").path("items.priorities");
    assertThat(purposes)
        .hasSize(5)
        .allSatisfy(
            priorities ->
                assertThat(priorities.keySet()).containsExactlyInAnyOrderElementsOf(preferences));
  }
}
