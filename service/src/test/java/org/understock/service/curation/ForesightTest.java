package org.understock.service.curation;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.test.context.TestPropertySource;
import org.understock.service.RunningService;
import org.understock.service.contract.Contract;

/**
 * What evidence would do before it is accepted, and which to look for, over HTTP. The statements
 * are invented.
 */
@TestPropertySource(
    properties = "understock.test=foresight") // a store of its own: these tests make revisions
class ForesightTest extends RunningService {
  @Autowired private JdbcTemplate database;

  private @Nullable Contract contract;

  @BeforeEach
  void readTheContract() {
    contract = new Contract(given().get("/v3/api-docs").asString());
  }

  private RequestSpecification as(String token) {
    return given()
        .filter(contract)
        .header("Authorization", "Bearer " + token)
        .contentType("application/json");
  }

  private Response impact(String body) {
    return as(tokens().proposer()).body(body).post("/v1/curation/impact");
  }

  private static String rating(String locator, String trait, String level) {
    return """
        {"subject": {"stock": "g-41", "crop": "apple"}, "trait": "%s", "value": {"level": "%s"}, "method": "expert-rating",
         "source": "omafra-susceptibility-table", "locator": "%s"}"""
        .formatted(trait, level, locator);
  }

  private String propose(String record) {
    Response answer = as(tokens().proposer()).body(record).post("/v1/curation/records");
    assertThat(answer.statusCode()).as(answer.asString()).isEqualTo(201);
    return answer.path("id");
  }

  private Response review(String body) {
    return as(tokens().reviewer()).body(body).post("/v1/curation/reviews");
  }

  /** Rows of every table of the schema. */
  private Map<String, Long> rows() {
    Map<String, Long> rows = new TreeMap<>();
    for (String table :
        database.queryForList(
            "select tablename from pg_tables where schemaname = 'public'", String.class)) {
      rows.put(table, database.queryForObject("select count(*) from " + table, Long.class));
    }
    return rows;
  }

  @Test
  void a_statement_shows_what_it_would_do_and_nothing_is_written() {
    Map<String, Long> before = rows();
    String changes =
        database.queryForObject(
            "select md5(string_agg(r::text, '' order by id)) from records r", String.class);
    Response answer =
        impact(
            "{\"records\": [%s]}"
                .formatted(rating("would-be 1", "fire-blight", "very-susceptible")));
    assertThat(answer.statusCode()).as(answer.asString()).isEqualTo(200);
    assertThat(rows()).isEqualTo(before).containsKey("records");
    assertThat(
            database.queryForObject(
                "select md5(string_agg(r::text, '' order by id)) from records r", String.class))
        .isEqualTo(changes);
    JsonPath json = answer.jsonPath();
    assertThat(json.getString("estimates[0].subject")).isEqualTo("g-41");
    assertThat(json.getString("estimates[0].trait")).isEqualTo("fire-blight");
    assertThat(json.getBoolean("estimates[0].direct")).isTrue();
    assertThat(json.getDouble("estimates[0].after.levels[0].probability"))
        .isGreaterThan(json.getDouble("estimates[0].before.levels[0].probability"));
    assertThat(json.getList("advice.example", String.class))
        .hasSizeGreaterThanOrEqualTo(20)
        .doesNotHaveDuplicates();
    assertThat(json.getBoolean("advice[0].changed")).isTrue();
    assertThat(json.getList("advice[0].topBefore")).hasSize(5);
    assertThat(json.getList("advice[0].topAfter")).hasSize(5);
    assertThat(json.getLong("revision"))
        .isEqualTo(
            ((Number) given().get("/v1/revisions?limit=1").path("items[0].revision")).longValue());
  }

  /**
   * What was foreseen comes true: the estimates after the review are those that the impact told.
   */
  @Test
  void what_is_foreseen_of_proposals_comes_true_when_they_are_accepted() {
    String one = propose(rating("foreseen 1", "crown-rot-phytophthora", "very-susceptible"));
    String other = propose(rating("foreseen 2", "woolly-apple-aphid", "susceptible"));
    String body = "{\"accept\": [\"%s\", \"%s\"]}".formatted(one, other);
    JsonPath foreseen = impact(body).jsonPath();
    assertThat(foreseen.getList("estimates")).isNotEmpty();
    assertThat(review(body).statusCode()).isEqualTo(201);
    assertToldByEstimates(foreseen);
    JsonPath back = impact("{\"withdraw\": [\"%s\", \"%s\"]}".formatted(one, other)).jsonPath();
    Map<String, Object> told = new TreeMap<>();
    foreseen
        .getList("estimates", Map.class)
        .forEach(
            e ->
                told.put(
                    e.get("subject") + " " + e.get("crop") + " " + e.get("trait"),
                    e.get("before")));
    Map<String, Object> undone = new TreeMap<>();
    back.getList("estimates", Map.class)
        .forEach(
            e ->
                undone.put(
                    e.get("subject") + " " + e.get("crop") + " " + e.get("trait"), e.get("after")));
    assertThat(undone).as("withdrawing them undoes it").isEqualTo(told);
  }

  private static void assertToldByEstimates(JsonPath foreseen) {
    List<Map<String, Object>> changes = foreseen.getList("estimates");
    for (Map<String, Object> change : changes) {
      Response now =
          given()
              .get(
                  "/v1/estimates?crop="
                      + change.get("crop")
                      + "&subject="
                      + change.get("subject")
                      + "&trait="
                      + change.get("trait"));
      assertThat(now.jsonPath().<Map<String, Object>>get("items[0]"))
          .isEqualTo(change.get("after"));
    }
  }

  @Test
  void every_fault_of_every_record_is_named_where_it_stands() {
    String good = rating("faults", "fire-blight", "resistant");
    Response answer =
        impact(
            "{\"records\": [%s, %s, %s]}"
                .formatted(
                    rating("faults", "fire-blight", "rather-good"),
                    good,
                    good.replace("omafra-susceptibility-table", "no-such-source")
                        .replace("g-41", "g-4711")));
    assertThat(answer.statusCode()).as(answer.asString()).isEqualTo(422);
    assertThat(answer.jsonPath().getList("errors.pointer", String.class))
        .containsExactlyInAnyOrder(
            "#/records/0/value/level", "#/records/2/subject/stock", "#/records/2/source");
    assertThat(answer.jsonPath().getList("errors[0].nearest", String.class)).contains("resistant");
  }

  @Test
  void what_can_not_be_decided_is_refused() {
    assertThat(impact("{}").statusCode()).isEqualTo(422);
    Response unknown = impact("{\"accept\": [\"r-0000000000000000\"]}");
    assertThat(unknown.statusCode()).isEqualTo(422);
    assertThat((String) unknown.path("errors[0].pointer")).isEqualTo("#/accept/0");
    String id = propose(rating("not accepted", "fire-blight", "susceptible"));
    Response standing = impact("{\"withdraw\": [\"%s\"]}".formatted(id));
    assertThat(standing.statusCode()).isEqualTo(409);
    assertThat((String) standing.path("errors[0].pointer")).isEqualTo("#/withdraw/0");
    assertThat(impact("{\"accept\": [\"%s\", \"%s\"]}".formatted(id, id)).statusCode())
        .isEqualTo(409);
    assertThat(impact("{\"record\": []}").statusCode()).isEqualTo(400);
  }

  @Test
  void the_impact_needs_the_right_to_propose_or_review_and_gaps_any() {
    String body = "{\"records\": [%s]}".formatted(rating("rights", "fire-blight", "susceptible"));
    assertThat(
            given()
                .contentType("application/json")
                .body(body)
                .post("/v1/curation/impact")
                .statusCode())
        .isEqualTo(401);
    assertThat(as(tokens().admin()).body(body).post("/v1/curation/impact").statusCode())
        .isEqualTo(403);
    assertThat(as(tokens().reviewer()).body(body).post("/v1/curation/impact").statusCode())
        .isEqualTo(200);
    assertThat(as(tokens().reviewer()).get("/v1/curation/gaps?limit=1").statusCode())
        .isEqualTo(200);
    assertThat(given().get("/v1/curation/gaps").statusCode()).isEqualTo(401);
  }

  @Test
  void a_statement_that_counts_already_is_refused() {
    String record = rating("counts already", "fire-blight", "resistant");
    assertThat(impact("{\"records\": [%s, %s]}".formatted(record, record)).statusCode())
        .isEqualTo(409);
    String id = propose(record);
    assertThat(impact("{\"records\": [%s]}".formatted(record)).statusCode())
        .as("a proposal does not count yet")
        .isEqualTo(200);
    assertThat(
            impact("{\"records\": [%s], \"accept\": [\"%s\"]}".formatted(record, id)).statusCode())
        .isEqualTo(409);
    assertThat(review("{\"accept\": [\"%s\"]}".formatted(id)).statusCode()).isEqualTo(201);
    Response again = impact("{\"records\": [%s]}".formatted(record));
    assertThat(again.statusCode()).isEqualTo(409);
    assertThat((String) again.path("errors[0].detail")).contains(id);
  }

  @Test
  void some_examples_may_do() {
    String body = "{\"records\": [%s], \"examples\": [\"apple-market-trellis\", \"%s\"]}";
    String record = rating("some", "fire-blight", "susceptible");
    Response two = impact(body.formatted(record, "quince-garden"));
    assertThat(two.jsonPath().getList("advice.example", String.class))
        .containsExactlyInAnyOrder("apple-market-trellis", "quince-garden");
    assertThat(two.jsonPath().getList("advice.changed", Boolean.class))
        .containsExactly(true, false);
    Response unknown = impact(body.formatted(record, "quince-gardens"));
    assertThat(unknown.statusCode()).isEqualTo(422);
    assertThat((String) unknown.path("errors[0].pointer")).isEqualTo("#/examples/1");
    assertThat(unknown.jsonPath().getList("errors[0].nearest", String.class))
        .contains("quince-garden");
  }

  /** A proposed stock and source count as if they were accepted with the record. */
  @Test
  void what_a_record_speaks_of_comes_with_it() {
    assertThat(
            as(tokens().proposer())
                .body(
                    """
        {"id": "invented-7", "name": "Invented 7", "kind": "clone", "crops": ["quince"]}""")
                .post("/v1/curation/stocks")
                .statusCode())
        .isEqualTo(201);
    Response answer =
        impact(
            """
        {"records": [{"subject": {"stock": "invented-7", "crop": "quince"}, "trait": "fire-blight", "value": {"level": "resistant"},
         "method": "expert-rating", "source": "omafra-susceptibility-table", "locator": "new stock"}]}""");
    assertThat(answer.statusCode()).as(answer.asString()).isEqualTo(200);
    assertThat((String) answer.path("estimates[0].subject")).isEqualTo("invented-7");
    assertThat(answer.jsonPath().<Object>get("estimates[0].before")).isNull();
  }

  @Test
  void gaps_are_ranked_filtered_and_walked_page_by_page() {
    List<Map<String, Object>> all = new ArrayList<>();
    Response page = as(tokens().proposer()).get("/v1/curation/gaps?crop=quince&limit=7");
    while (true) {
      assertThat(page.statusCode()).as(page.asString()).isEqualTo(200);
      all.addAll(page.jsonPath().getList("items"));
      String next = page.path("next");
      if (next == null) break;
      page =
          as(tokens().proposer())
              .queryParam("crop", "quince")
              .queryParam("limit", "7")
              .queryParam("cursor", next)
              .get("/v1/curation/gaps");
    }
    assertThat(all).hasSizeGreaterThan(7);
    double last = Double.MAX_VALUE;
    Set<Object> seen = new HashSet<>();
    for (int k = 0; k < all.size(); k++) {
      Map<String, Object> gap = all.get(k);
      assertThat(((Number) gap.get("rank")).intValue()).isEqualTo(k + 1);
      assertThat(((Number) gap.get("points")).doubleValue()).isLessThanOrEqualTo(last);
      last = ((Number) gap.get("points")).doubleValue();
      assertThat(((Map<?, ?>) gap.get("subject")).get("crop")).isEqualTo("quince");
      assertThat(seen.add(List.of(gap.get("subject"), gap.get("trait")))).isTrue();
      double sum =
          ((List<?>) gap.get("examples"))
              .stream()
                  .mapToDouble(s -> ((Number) ((Map<?, ?>) s).get("points")).doubleValue())
                  .sum();
      assertThat(sum).isCloseTo(last, within(0.02));
    }
    Response everything = as(tokens().proposer()).get("/v1/curation/gaps?limit=200");
    assertThat(everything.jsonPath().getList("items.subject.crop", String.class))
        .contains("apple", "quince", "sweet-cherry");
    assertThat(as(tokens().proposer()).get("/v1/curation/gaps?crop=banana").statusCode())
        .isEqualTo(400);
    assertThat(as(tokens().proposer()).get("/v1/curation/gaps?cursor=nonsense").statusCode())
        .isEqualTo(400);
  }
}
