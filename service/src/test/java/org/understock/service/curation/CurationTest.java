package org.understock.service.curation;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.test.context.TestPropertySource;
import org.understock.service.RunningService;
import org.understock.service.contract.Contract;

/**
 * A record's life, from proposal to withdrawal, over HTTP. The statements are invented: they test
 * the way in, not the trade.
 */
@TestPropertySource(
    properties = "understock.test=curation") // a store of its own: these tests make revisions
class CurationTest extends RunningService {
  private static final String ADVICE =
      """
      {"crop": "apple", "goal": {"purpose": "home-garden", "maxHeightM": 3}, "limit": 3%s}""";

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

  private RequestSpecification proposer() {
    return as(tokens().proposer());
  }

  private RequestSpecification reviewer() {
    return as(tokens().reviewer());
  }

  /** An invented rating; the locator makes it another statement every time. */
  private static String rating(String locator, String level) {
    return """
        {"subject": {"stock": "m-7", "crop": "apple"}, "trait": "fire-blight", "value": {"level": "%s"}, "method": "expert-rating",
         "source": "omafra-susceptibility-table", "locator": "%s"}"""
        .formatted(level, locator);
  }

  private String propose(String locator) {
    Response answer =
        proposer().body(rating(locator, "moderately-resistant")).post("/v1/curation/records");
    assertThat(answer.statusCode()).as(answer.asString()).isEqualTo(201);
    return answer.path("id");
  }

  private Response review(String body) {
    return reviewer().body(body).post("/v1/curation/reviews");
  }

  private static long latest() {
    return ((Number) given().get("/v1/revisions?limit=1").path("items[0].revision")).longValue();
  }

  private static String ask(String more) {
    return given()
        .contentType("application/json")
        .body(ADVICE.formatted(more))
        .post("/v1/advice")
        .asString();
  }

  @Test
  void a_whole_round() {
    long before = latest();
    String then = ask("");
    Response filed =
        proposer().body(rating("whole round", "very-susceptible")).post("/v1/curation/records");
    assertThat(filed.statusCode()).isEqualTo(201);
    String id = filed.path("id");
    assertThat(filed.header("Location")).isEqualTo("/v1/curation/records/" + id);
    assertThat(filed.header("ETag")).isEqualTo("\"" + id + ".0\"");
    assertThat((String) filed.path("status")).isEqualTo("proposed");
    assertThat((String) filed.path("proposedBy")).isEqualTo("test-proposer");
    assertThat(ask("")).as("a proposal changes no answer").isEqualTo(then);
    assertThat(given().get("/v1/records/" + id).statusCode()).isEqualTo(404);

    Response reviewed = review("{\"accept\": [\"" + id + "\"], \"note\": \"seen in print\"}");
    assertThat(reviewed.statusCode()).as(reviewed.asString()).isEqualTo(201);
    assertThat(((Number) reviewed.path("revision")).longValue()).isEqualTo(before + 1);
    assertThat(reviewed.header("Location")).isEqualTo("/v1/revisions/" + (before + 1));
    assertThat(ask(""))
        .as("the next answer cites the revision")
        .contains("\"revision\":" + (before + 1));
    assertThat(ask(", \"revision\": " + before)).as("as of the revision before").isEqualTo(then);
    assertThat(given().get("/v1/records/" + id).statusCode()).isEqualTo(200);
    assertThat(given().get("/v1/records/" + id + "?revision=" + before).statusCode())
        .isEqualTo(404);

    Response revision = given().filter(contract).get("/v1/revisions/" + (before + 1));
    assertThat((List<String>) revision.path("changes.accepted.ids")).containsExactly(id);
    assertThat((String) revision.path("digest")).isEqualTo(reviewed.path("digest"));
    List<String> actions =
        reviewer().get("/v1/curation/audit?subject=record " + id).path("items.action");
    assertThat(actions).containsExactly("propose", "accept");
    Response verified = reviewer().get("/v1/curation/revisions/verify");
    assertThat((boolean) verified.path("verified")).as(verified.asString()).isTrue();
  }

  @Test
  void a_proposal_is_amended_by_whoever_has_seen_its_latest_version() {
    String id = propose("to be amended");
    String other = rating("amended", "resistant");
    assertThat(proposer().body(other).put("/v1/curation/records/" + id).statusCode())
        .isEqualTo(428);
    Response stale =
        proposer()
            .header("If-Match", "\"" + id + ".7\"")
            .body(other)
            .put("/v1/curation/records/" + id);
    assertThat(stale.statusCode()).isEqualTo(412);
    assertThat(stale.header("ETag")).isEqualTo("\"" + id + ".0\"");
    assertThat(
            proposer()
                .header("If-Match", "*")
                .body(other)
                .put("/v1/curation/records/" + id)
                .statusCode())
        .isEqualTo(412);
    Response amended =
        proposer()
            .header("If-Match", stale.header("ETag"))
            .body(other)
            .put("/v1/curation/records/" + id);
    assertThat(amended.statusCode()).as(amended.asString()).isEqualTo(200);
    assertThat((String) amended.path("value.level")).isEqualTo("resistant");
    assertThat(amended.header("ETag")).isEqualTo("\"" + id + ".1\"");
    assertThat(
            proposer()
                .header("If-Match", stale.header("ETag"))
                .body(other)
                .put("/v1/curation/records/" + id)
                .statusCode())
        .isEqualTo(412);
    assertThat(review("{\"accept\": [\"" + id + "\"]}").statusCode()).isEqualTo(201);
    Response late =
        proposer()
            .header("If-Match", proposer().get("/v1/curation/records/" + id).header("ETag"))
            .body(other)
            .put("/v1/curation/records/" + id);
    assertThat(late.statusCode()).isEqualTo(409);
  }

  @Test
  void what_is_wrong_is_told_all_at_once() {
    Response answer =
        proposer()
            .body(
                """
        {"subject": {"stock": "m-77", "crop": "apple"}, "trait": "fire-blihgt", "value": {"level": "resistant"}, "method": "expert-rating", "source": "nowhere",
         "locator": "p. 1", "context": {"plantedYear": 1066, "spread": {"kind": "SE", "value": -1}}}""")
            .post("/v1/curation/records");
    assertThat(answer.statusCode()).isEqualTo(422);
    assertThat((List<String>) answer.path("errors.pointer"))
        .contains(
            "#/subject/stock",
            "#/trait",
            "#/source",
            "#/context/plantedYear",
            "#/context/spread/value");
    assertThat((List<String>) answer.path("errors.find { it.pointer == '#/trait' }.nearest"))
        .contains("fire-blight");
    Response misspelt =
        proposer()
            .body(rating("x", "resistant").replace("\"locator\"", "\"locater\""))
            .post("/v1/curation/records");
    assertThat(misspelt.statusCode()).isEqualTo(400);
    Response unit =
        proposer()
            .body(
                """
        {"subject": {"stock": "m-7", "crop": "apple"}, "trait": "mature-height", "value": {"low": 3, "high": 12, "unit": "ft"}, "method": "expert-rating",
         "source": "omafra-susceptibility-table", "locator": "p. 1"}""")
            .post("/v1/curation/records");
    assertThat(unit.statusCode()).isEqualTo(422);
    assertThat((String) unit.path("errors[0].pointer")).isEqualTo("#/value/unit");
  }

  @Test
  void the_same_statement_is_not_taken_twice_while_it_lives() {
    String id = propose("only once");
    Response again =
        proposer().body(rating("only once", "moderately-resistant")).post("/v1/curation/records");
    assertThat(again.statusCode()).isEqualTo(409);
    assertThat((String) again.path("detail")).contains(id);
    assertThat(
            review("{\"reject\": [\"" + id + "\"], \"note\": \"not in the source\"}").statusCode())
        .isEqualTo(201);
    Response anew =
        proposer().body(rating("only once", "moderately-resistant")).post("/v1/curation/records");
    assertThat(anew.statusCode()).isEqualTo(201);
    assertThat((String) anew.path("id")).as("the rejected one keeps its id").isNotEqualTo(id);
  }

  @Test
  void a_key_stands_for_one_request() {
    String key = "\"" + UUID.randomUUID() + "\"";
    String body = rating("by key", "resistant");
    Response first =
        proposer().header("Idempotency-Key", key).body(body).post("/v1/curation/records");
    assertThat(first.statusCode()).isEqualTo(201);
    Response second =
        proposer().header("Idempotency-Key", key).body(body).post("/v1/curation/records");
    assertThat(second.statusCode()).isEqualTo(201);
    assertThat(second.asByteArray()).isEqualTo(first.asByteArray());
    assertThat(second.header("Location")).isEqualTo(first.header("Location"));
    assertThat(second.header("ETag")).isEqualTo(first.header("ETag"));
    assertThat(second.header("Idempotency-Replayed")).isEqualTo("true");
    Response other =
        proposer()
            .header("Idempotency-Key", key)
            .body(rating("by key, another", "resistant"))
            .post("/v1/curation/records");
    assertThat(other.statusCode()).isEqualTo(422);
    assertThat((String) other.path("type")).isEqualTo("/problems/idempotency-key-reused");
    assertThat(
            proposer()
                .header("Idempotency-Key", "no key!")
                .body(body)
                .post("/v1/curation/records")
                .statusCode())
        .isEqualTo(400);
    String stranger = tokens().of("another-proposer", "evidence:propose");
    assertThat(
            as(stranger)
                .header("Idempotency-Key", key)
                .body(rating("by key of another", "resistant"))
                .post("/v1/curation/records")
                .statusCode())
        .isEqualTo(201);
  }

  @Test
  void a_review_is_all_or_nothing() {
    long before = latest();
    String good = propose("good one");
    Response unknown = review("{\"accept\": [\"" + good + "\", \"r-0000000000000000\"]}");
    assertThat(unknown.statusCode()).isEqualTo(422);
    assertThat((String) unknown.path("errors[0].pointer")).isEqualTo("#/accept/1");
    assertThat(
            review("{\"accept\": [\"" + good + "\"], \"reject\": [\"" + good + "\"]}").statusCode())
        .isEqualTo(409);
    assertThat(review("{}").statusCode()).isEqualTo(422);
    assertThat((String) proposer().get("/v1/curation/records/" + good).path("status"))
        .isEqualTo("proposed");
    assertThat(latest()).isEqualTo(before);
  }

  @Test
  void an_id_that_no_database_can_hold_is_refused_by_its_place() {
    long before = latest();
    Response refused = review("{\"accept\": [\"\\u0000\"], \"note\": \"seen in print\"}");
    assertThat(refused.statusCode()).as(refused.asString()).isEqualTo(400);
    assertThat((String) refused.path("errors[0].pointer")).isEqualTo("#/accept/0");
    refused = reviewer().urlEncodingEnabled(false).get("/v1/curation/audit?subject=%00");
    assertThat(refused.statusCode()).as(refused.asString()).isEqualTo(400);
    assertThat(latest()).isEqualTo(before);
  }

  @Test
  void nobody_reviews_their_own_words() {
    String both = tokens().of("somebody", "evidence:propose evidence:review");
    String id =
        as(both).body(rating("own words", "resistant")).post("/v1/curation/records").path("id");
    Response own = as(both).body("{\"accept\": [\"" + id + "\"]}").post("/v1/curation/reviews");
    assertThat(own.statusCode()).isEqualTo(403);
    assertThat((String) own.path("type")).isEqualTo("/problems/four-eyes");
    String amended = propose("amended by the reviewer");
    assertThat(
            as(both)
                .header("If-Match", "\"" + amended + ".0\"")
                .body(rating("amended by the reviewer, so", "resistant"))
                .put("/v1/curation/records/" + amended)
                .statusCode())
        .isEqualTo(200);
    assertThat(
            as(both)
                .body("{\"accept\": [\"" + amended + "\"]}")
                .post("/v1/curation/reviews")
                .statusCode())
        .isEqualTo(403);
    assertThat(review("{\"accept\": [\"" + id + "\"]}").statusCode()).isEqualTo(201);
  }

  @Test
  void a_record_takes_the_place_of_another_and_is_withdrawn() {
    String old = propose("first edition");
    review("{\"accept\": [\"" + old + "\"]}");
    long first = latest();
    String body =
        rating("second edition", "resistant")
            .replace("\"locator\"", "\"supersedes\": \"" + old + "\", \"locator\"");
    Response filed = proposer().body(body).post("/v1/curation/records");
    assertThat(filed.statusCode()).as(filed.asString()).isEqualTo(201);
    String successor = filed.path("id");
    Response reviewed = review("{\"accept\": [\"" + successor + "\"]}");
    assertThat((List<String>) reviewed.path("superseded")).containsExactly(old);
    assertThat((String) proposer().get("/v1/curation/records/" + old).path("status"))
        .isEqualTo("superseded");
    assertThat(given().get("/v1/records/" + old).statusCode()).isEqualTo(404);
    assertThat(given().get("/v1/records/" + old + "?revision=" + first).statusCode())
        .isEqualTo(200);
    assertThat(
            review("{\"withdraw\": [\"" + successor + "\"], \"note\": \"misprint\"}").statusCode())
        .isEqualTo(201);
    assertThat((String) proposer().get("/v1/curation/records/" + successor).path("status"))
        .isEqualTo("withdrawn");
    assertThat(review("{\"withdraw\": [\"" + successor + "\"]}").statusCode()).isEqualTo(409);
    assertThat((boolean) reviewer().get("/v1/curation/revisions/verify").path("verified")).isTrue();
  }

  @Test
  void what_is_new_enters_the_catalogue_with_the_first_record_that_needs_it() {
    assertThat(
            proposer()
                .body(
                    """
        {"id": "meadow-trial", "kind": "peer-reviewed-trial", "title": "An invented trial", "authorsOrBody": "Nobody", "year": "2024"}""")
                .post("/v1/curation/sources")
                .statusCode())
        .isEqualTo(201);
    Response stock =
        proposer()
            .body(
                """
        {"id": "meadow-1", "name": "Meadow 1", "kind": "clone", "crops": ["apple"], "synonyms": ["Meadow One"]}""")
            .post("/v1/curation/stocks");
    assertThat(stock.statusCode()).as(stock.asString()).isEqualTo(201);
    assertThat(
            proposer()
                .body(
                    """
        {"id": "meadow-2", "name": "Meadow One", "kind": "clone", "crops": ["apple"]}""")
                .post("/v1/curation/stocks")
                .statusCode())
        .isEqualTo(422);
    assertThat(
            proposer()
                .body(
                    """
        {"id": "meadow-sweet", "crop": "apple", "name": "Meadow Sweet"}""")
                .post("/v1/curation/varieties")
                .statusCode())
        .isEqualTo(201);
    assertThat(given().get("/v1/stocks/meadow-1").statusCode()).isEqualTo(404);
    String id =
        proposer()
            .body(
                """
        {"subject": {"stock": "meadow-1", "crop": "apple"}, "trait": "fire-blight", "value": {"level": "resistant"}, "method": "replicated-single-site",
         "source": "meadow-trial", "locator": "table 1"}""")
            .post("/v1/curation/records")
            .path("id");
    assertThat(
            review("{\"accept\": [\"" + id + "\"], \"varieties\": [\"meadow-sweet\"]}")
                .statusCode())
        .isEqualTo(201);
    assertThat(given().get("/v1/stocks/meadow-1").statusCode()).isEqualTo(200);
    assertThat((String) given().get("/v1/stocks?crop=apple&q=meadow one").path("items[0].id"))
        .isEqualTo("meadow-1");
    assertThat(given().get("/v1/sources/meadow-trial").statusCode()).isEqualTo(200);
    assertThat(given().get("/v1/varieties/meadow-sweet").statusCode()).isEqualTo(200);
    assertThat((boolean) reviewer().get("/v1/curation/revisions/verify").path("verified")).isTrue();
  }

  @Test
  void of_many_reviewers_at_once_one_decides_on_a_record() throws Exception {
    long before = latest();
    List<String> ids = new ArrayList<>();
    for (int i = 0; i < 3; i++) ids.add(propose("for many reviewers " + i));
    List<String> bodies =
        List.of(
            "{\"accept\": [\"" + ids.get(0) + "\", \"" + ids.get(1) + "\"]}",
            "{\"accept\": [\"" + ids.get(1) + "\", \"" + ids.get(2) + "\"]}",
            "{\"accept\": [\"" + ids.get(2) + "\", \"" + ids.get(0) + "\"]}",
            "{\"reject\": [\"" + ids.get(0) + "\"]}");
    ExecutorService reviewers = Executors.newFixedThreadPool(8);
    List<Future<Integer>> answers = new ArrayList<>();
    for (int k = 0; k < 8; k++) {
      String body = bodies.get(k % bodies.size());
      String token = tokens().of("reviewer-" + k, "evidence:review");
      answers.add(
          reviewers.submit(
              () ->
                  given()
                      .header("Authorization", "Bearer " + token)
                      .contentType("application/json")
                      .body(body)
                      .post("/v1/curation/reviews")
                      .statusCode()));
    }
    reviewers.shutdown();
    assertThat(reviewers.awaitTermination(60, TimeUnit.SECONDS)).isTrue();
    int made = 0;
    for (Future<Integer> answer : answers) {
      assertThat(answer.get()).isIn(201, 409);
      if (answer.get() == 201) made++;
    }
    assertThat(made).isBetween(1, 2);
    int accepted = 0;
    for (String id : ids)
      if (proposer().get("/v1/curation/records/" + id).path("status").equals("accepted"))
        accepted++;
    assertThat(latest() - before).isIn((long) made, (long) made - 1);
    assertThat(
            database.queryForObject(
                "select count(*) from audit where action = 'accept' and subject = any(?)",
                Long.class,
                (Object) ids.stream().map(i -> "record " + i).toArray(String[]::new)))
        .isEqualTo(accepted);
    assertThat((boolean) reviewer().get("/v1/curation/revisions/verify").path("verified")).isTrue();
  }

  @Test
  void of_many_who_file_the_same_at_once_one_does() throws Exception {
    ExecutorService proposers = Executors.newFixedThreadPool(8);
    List<Future<Integer>> answers = new ArrayList<>();
    for (int k = 0; k < 8; k++) {
      String token = tokens().of("proposer-" + k, "evidence:propose");
      boolean source = k % 2 == 0;
      String body =
          source
              ? "{\"id\": \"at-once\", \"kind\": \"handbook\", \"title\": \"Invented\"}"
              : rating("at once", "resistant");
      answers.add(
          proposers.submit(
              () ->
                  given()
                      .header("Authorization", "Bearer " + token)
                      .contentType("application/json")
                      .body(body)
                      .post(source ? "/v1/curation/sources" : "/v1/curation/records")
                      .statusCode()));
    }
    proposers.shutdown();
    assertThat(proposers.awaitTermination(60, TimeUnit.SECONDS)).isTrue();
    List<Integer> statuses = new ArrayList<>();
    for (Future<Integer> answer : answers) statuses.add(answer.get());
    assertThat(statuses).containsOnly(201, 409);
    assertThat(statuses.stream().filter(s -> s == 201).count()).isEqualTo(2);
  }

  @Test
  void lists_are_filtered_and_walked() {
    for (int i = 0; i < 5; i++) propose("for the list " + i);
    String path =
        "/v1/curation/records?status=proposed&crop=apple&trait=fire-blight&subject=m-7&who=test-proposer&limit=2";
    Response page = proposer().get(path);
    List<String> seen = new ArrayList<>(page.path("items.id"));
    for (String next = page.path("next"); next != null; next = page.path("next")) {
      page = proposer().get(path + "&cursor=" + next);
      seen.addAll(page.path("items.id"));
    }
    assertThat(seen).doesNotHaveDuplicates().hasSizeGreaterThanOrEqualTo(5);
    assertThat((List<String>) proposer().get("/v1/curation/records?source=no-such").path("items"))
        .isEmpty();
    assertThat(proposer().get("/v1/curation/records?status=lost").statusCode()).isEqualTo(400);
    assertThat(proposer().get("/v1/curation/records?since=yesterday").statusCode()).isEqualTo(400);
    assertThat(
            proposer().get("/v1/curation/records?since=2026-01-01T00:00:00Z&limit=1").statusCode())
        .isEqualTo(200);
    assertThat(proposer().get(path + "&cursor=AAAA").statusCode()).isEqualTo(400);
  }

  @Test
  void a_change_behind_the_back_breaks_the_chain() {
    String id = propose("to be tampered with");
    review("{\"accept\": [\"" + id + "\"]}");
    long revision = latest();
    asOwner().execute("alter table records disable trigger record_standing");
    try {
      asOwner().update("update records set level = 'very-susceptible' where id = ?", id);
      Response broken = reviewer().get("/v1/curation/revisions/verify");
      assertThat((boolean) broken.path("verified")).isFalse();
      assertThat(((Number) broken.path("firstBroken")).longValue()).isEqualTo(revision);
    } finally {
      asOwner().update("update records set level = 'moderately-resistant' where id = ?", id);
      asOwner().execute("alter table records enable trigger record_standing");
    }
    assertThat((boolean) reviewer().get("/v1/curation/revisions/verify").path("verified")).isTrue();
  }
}
