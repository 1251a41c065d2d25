package org.understock.service.curation;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.response.Response;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.test.context.TestPropertySource;
import org.understock.service.RunningService;
import org.understock.service.contract.Contract;

/**
 * Files of proposals over HTTP, good ones and troubled ones. The statements are invented: they test
 * the way in, not the trade.
 */
@TestPropertySource(properties = "understock.test=import") // a store of its own
class ImportTest extends RunningService {
  private static final String IMPORTS = "/v1/curation/imports";
  private static final String SOURCE = "omafra-susceptibility-table";
  private static final String RATINGS =
      "source_id,crop,stock,trait,level,value_low,value_high,unit,locator,note\n";

  @Autowired private JdbcTemplate database;

  private static String rating(String locator) {
    return SOURCE + ",apple,M.7,fire-blight,resistant,,,," + locator + ",\n";
  }

  private Response send(String kind, String mode, String type, Object body) {
    var request =
        given()
            .header("Authorization", "Bearer " + tokens().proposer())
            .header("Content-Type", type.contains("charset") ? type : type + ";charset=UTF-8");
    return (body instanceof byte[] bytes
            ? request.body(bytes)
            : request.body(((String) body).getBytes(StandardCharsets.UTF_8)))
        .post(IMPORTS + "?kind=" + kind + "&mode=" + mode);
  }

  private Response csv(String mode, Object body) {
    return send("ratings", mode, "text/csv", body);
  }

  private Response read(String path) {
    return given().header("Authorization", "Bearer " + tokens().reviewer()).get(path);
  }

  private int records() {
    return database.queryForObject("select count(*) from records", Integer.class);
  }

  private static int whole(Response answer, String path) {
    return ((Number) answer.path(path)).intValue();
  }

  @Test
  void a_file_is_proposed_reviewed_and_counts() {
    Response answer = csv("all-or-nothing", RATINGS + rating("round 1") + rating("round 2"));
    assertThat(answer.statusCode()).as(answer.asString()).isEqualTo(201);
    assertThat(whole(answer, "rows")).isEqualTo(2);
    assertThat(whole(answer, "proposed")).isEqualTo(2);
    assertThat(whole(answer, "accepted")).isZero();
    assertThat(whole(answer, "duplicates")).isZero();
    assertThat((List<?>) answer.path("problems")).isEmpty();
    String id = answer.path("id");
    assertThat(answer.header("Location")).isEqualTo(IMPORTS + "/" + id);
    assertThat((String) read(IMPORTS + "/" + id).path("status")).isEqualTo("finished");
    Response filed = read("/v1/curation/records?import=" + id);
    assertThat(filed.<List<String>>path("items.locator"))
        .containsExactlyInAnyOrder("round 1", "round 2");
    assertThat(filed.<List<String>>path("items.status")).containsOnly("proposed");

    Response review =
        given()
            .header("Authorization", "Bearer " + tokens().reviewer())
            .contentType("application/json")
            .body(Map.of("acceptImport", id, "note", "checked against the table"))
            .post("/v1/curation/reviews");
    assertThat(review.statusCode()).as(review.asString()).isEqualTo(201);
    assertThat(whole(review, "accepted")).isEqualTo(2);
    String export =
        read("/v1/curation/exports/ratings?revision=" + whole(review, "revision")).asString();
    assertThat(export).contains("round 1").contains("round 2");
    assertThat(read("/v1/curation/exports/ratings?revision=1").asString())
        .doesNotContain("round 1");
    assertThat(read("/v1/curation/audit?subject=import " + id).asString()).contains("2 proposed");
  }

  @Test
  void a_review_may_reject_some_of_an_import_and_nobody_reviews_their_own() {
    Response answer = csv("all-or-nothing", RATINGS + rating("partly 1") + rating("partly 2"));
    String id = answer.path("id");
    String one = read("/v1/curation/records?import=" + id).path("items[0].id");
    String own = tokens().of("test-proposer", "evidence:review");
    assertThat(
            given()
                .header("Authorization", "Bearer " + own)
                .contentType("application/json")
                .body(Map.of("acceptImport", id))
                .post("/v1/curation/reviews")
                .statusCode())
        .isEqualTo(403);
    Response review =
        given()
            .header("Authorization", "Bearer " + tokens().reviewer())
            .contentType("application/json")
            .body(Map.of("acceptImport", id, "reject", List.of(one)))
            .post("/v1/curation/reviews");
    assertThat(whole(review, "accepted")).isEqualTo(1);
    assertThat(whole(review, "rejected")).isEqualTo(1);
    Response again =
        given()
            .header("Authorization", "Bearer " + tokens().reviewer())
            .contentType("application/json")
            .body(Map.of("acceptImport", id))
            .post("/v1/curation/reviews");
    assertThat(again.statusCode()).isEqualTo(409);
    Response resent = csv("all-or-nothing", RATINGS + rating("partly 1") + rating("partly 2"));
    assertThat(whole(resent, "duplicates")).as("whatever became of them").isEqualTo(2);
    assertThat(whole(resent, "proposed")).isZero();
  }

  @Test
  void sent_again_it_changes_nothing() {
    String file = RATINGS + rating("again 1") + rating("again 2");
    csv("all-or-nothing", file);
    int before = records();
    Response again = csv("row-by-row", file);
    assertThat(again.statusCode()).isEqualTo(201);
    assertThat(whole(again, "duplicates")).isEqualTo(2);
    assertThat(whole(again, "proposed")).isZero();
    assertThat(records()).isEqualTo(before);
  }

  @Test
  void an_amended_proposal_is_not_proposed_again_as_it_was() {
    Response first = csv("all-or-nothing", RATINGS + rating("to be amended"));
    String id = read("/v1/curation/records?import=" + first.path("id")).path("items[0].id");
    Response amended =
        given()
            .header("Authorization", "Bearer " + tokens().proposer())
            .header("If-Match", "\"" + id + ".0\"")
            .contentType("application/json")
            .body(
                """
        {"subject": {"stock": "m-7", "crop": "apple"}, "trait": "fire-blight", "value": {"level": "susceptible"}, "method": "expert-rating",
         "source": "omafra-susceptibility-table", "locator": "amended"}""")
            .put("/v1/curation/records/" + id);
    assertThat(amended.statusCode()).as(amended.asString()).isEqualTo(200);
    int before = records();
    assertThat(whole(csv("all-or-nothing", RATINGS + rating("to be amended")), "duplicates"))
        .isEqualTo(1);
    assertThat(records()).isEqualTo(before);
  }

  @Test
  void one_bad_row_refuses_all_or_only_itself() {
    String file =
        RATINGS
            + rating("bad 1")
            + SOURCE
            + ",apple,M.7000,fire-blight,resistant,,,,bad 2,\n"
            + rating("bad 3");
    int before = records();
    Response all = csv("all-or-nothing", file);
    assertThat(all.statusCode()).isEqualTo(422);
    assertThat(all.contentType()).startsWith("application/problem+json");
    assertThat((String) all.path("type")).isEqualTo("/problems/invalid-request");
    assertThat(whole(all, "rows")).isEqualTo(3);
    assertThat(whole(all, "proposed")).isZero();
    assertThat(whole(all, "problems[0].line")).isEqualTo(3);
    assertThat((String) all.path("problems[0].column")).isEqualTo("stock");
    assertThat((String) all.path("problems[0].text"))
        .contains("'M.7000' is not known; nearest known:");
    assertThat(records()).isEqualTo(before);
    assertThat((String) read(IMPORTS + "/" + all.path("id")).path("status")).isEqualTo("refused");

    Response some = csv("row-by-row", file);
    assertThat(some.statusCode()).isEqualTo(201);
    assertThat(whole(some, "proposed")).isEqualTo(2);
    assertThat(whole(some, "refused")).isEqualTo(1);
    assertThat((List<?>) some.path("problems")).hasSize(1);
    assertThat(records()).isEqualTo(before + 2);
  }

  @Test
  void a_key_stands_for_one_file() {
    String key = UUID.randomUUID().toString();
    String file = RATINGS + rating("key 1");
    Response first = withKey(key, file);
    Response again = withKey(key, file);
    assertThat(again.statusCode()).isEqualTo(201);
    assertThat(again.header("Idempotency-Replayed")).isEqualTo("true");
    assertThat(again.asString()).isEqualTo(first.asString());
    assertThat(withKey(key, file + rating("key 2")).statusCode()).isEqualTo(422);
  }

  private Response withKey(String key, String file) {
    return given()
        .header("Authorization", "Bearer " + tokens().proposer())
        .header("Content-Type", "text/csv;charset=UTF-8")
        .header("Idempotency-Key", key)
        .body(file.getBytes(StandardCharsets.UTF_8))
        .post(IMPORTS + "?kind=ratings");
  }

  @Test
  void ndjson_holds_records_of_any_kind_and_faults_are_told_by_line_and_pointer() {
    String good =
        """
        {"subject": {"stock": "m-7", "crop": "apple"}, "trait": "fire-blight", "value": {"level": "resistant"}, "method": "expert-rating", "source": "%s", \
        "locator": "%s"}
        """;
    String file =
        good.formatted(SOURCE, "line 1")
            + "\n"
            + good.formatted(SOURCE, "line 3").replace("fire-blight", "fire-blite")
            + "{\"subjct\": 1}\n"
            + good.formatted(SOURCE, "line 5").replace("resistant", "very good")
            + "not json\n"
            + good.formatted(SOURCE, "line 7");
    Response answer = send("records", "row-by-row", "application/x-ndjson", file);
    assertThat(answer.statusCode()).as(answer.asString()).isEqualTo(201);
    assertThat(whole(answer, "rows")).isEqualTo(6);
    assertThat(whole(answer, "proposed")).isEqualTo(2);
    assertThat(whole(answer, "refused")).isEqualTo(4);
    List<Map<String, Object>> problems = answer.path("problems");
    assertThat(problems)
        .anySatisfy(
            p ->
                assertThat(p)
                    .containsEntry("line", 3)
                    .containsEntry("pointer", "#/trait")
                    .extracting("text")
                    .asString()
                    .contains("fire-blight"));
    assertThat(problems)
        .anySatisfy(
            p ->
                assertThat(p)
                    .containsEntry("line", 4)
                    .containsEntry("pointer", "#/subjct")
                    .extracting("text")
                    .asString()
                    .contains("subject"));
    assertThat(problems)
        .anySatisfy(
            p -> assertThat(p).containsEntry("line", 5).containsEntry("pointer", "#/value/level"));
    assertThat(problems)
        .anySatisfy(
            p ->
                assertThat(p)
                    .containsEntry("line", 6)
                    .extracting("text")
                    .asString()
                    .contains("not json".substring(0, 3)));
  }

  @Test
  void sources_and_plants_come_as_csv_and_as_ndjson() {
    Response sources =
        send(
            "sources",
            "all-or-nothing",
            "text/csv",
            "source_id,kind,title,authors_or_body,year,publication,doi_or_isbn,url,note,origin\n"
                + "invented-b,handbook,=Restated,,,,,,,invented-a\ninvented-a,handbook,Invented,Nobody,2020,,,,,\n");
    assertThat(sources.statusCode()).as(sources.asString()).isEqualTo(201);
    assertThat(whole(sources, "proposed")).isEqualTo(2);
    Response changed =
        send(
            "sources",
            "row-by-row",
            "application/x-ndjson",
            """
        {"id": "invented-a", "kind": "handbook", "title": "Another title"}
        {"id": "invented-b", "kind": "handbook", "title": "=Restated", "origin": "invented-a"}
        """);
    assertThat(whole(changed, "refused")).isEqualTo(1);
    assertThat(whole(changed, "duplicates")).isEqualTo(1);
    assertThat((String) changed.path("problems[0].text"))
        .contains("is known already, with other content");
    Response plants =
        send(
            "stocks",
            "all-or-nothing",
            "text/csv",
            "id,name,kind,crops,clone_of,synonyms\nxx-1-a,XX.1A,clone,apple,xx-1,XX1A | XX 1 A\nxx-1,XX.1,clone,apple,,\n");
    assertThat(plants.statusCode()).as(plants.asString()).isEqualTo(201);
    Response varieties =
        send(
            "variety-catalogue",
            "all-or-nothing",
            "application/x-ndjson",
            "{\"id\": \"invented-red\", \"crop\": \"apple\", \"name\": \"Invented Red\"}\n");
    assertThat(varieties.statusCode()).as(varieties.asString()).isEqualTo(201);
    Response review =
        given()
            .header("Authorization", "Bearer " + tokens().reviewer())
            .contentType("application/json")
            .body(Map.of("acceptImport", (String) plants.path("id")))
            .post("/v1/curation/reviews");
    assertThat(review.statusCode()).as(review.asString()).isEqualTo(201);
    assertThat((String) given().get("/v1/stocks/xx-1-a").path("name")).isEqualTo("XX.1A");
    assertThat(read("/v1/curation/exports/stocks").asString())
        .contains("xx-1-a,XX.1A,clone,apple,xx-1,XX 1 A | XX1A");
  }

  @Test
  void troubled_files_are_told_what_is_wrong_with_them() {
    String good = RATINGS + rating("trouble");
    byte[] latin = (RATINGS + rating("caf\u00E9")).getBytes(StandardCharsets.ISO_8859_1);
    assertThat(csv("all-or-nothing", latin).path("problems[0].text").toString())
        .contains("is not UTF-8: byte")
        .contains("0xE9");
    assertThat(csv("all-or-nothing", good.replace(',', ';')).path("problems[0].text").toString())
        .contains("semicolons");
    assertThat(csv("all-or-nothing", good.replace(',', '\t')).path("problems[0].text").toString())
        .contains("tabs");
    assertThat(csv("all-or-nothing", "").path("problems[0].text").toString()).contains("empty");
    assertThat(csv("row-by-row", "").statusCode()).isEqualTo(422);
    assertThat(
            csv("all-or-nothing", good.replace("level", "crop")).path("problems.text").toString())
        .contains("named twice");
    assertThat(
            csv("all-or-nothing", good.replace("level", "levle")).path("problems.text").toString())
        .contains("nearest known: level");
    assertThat(
            csv("all-or-nothing", RATINGS + "x,".repeat(999_999) + "x\n")
                .path("problems[0].text")
                .toString())
        .contains("1000000 fields");
    assertThat(
            csv("all-or-nothing", good + SOURCE + ",apple,\"M.7")
                .path("problems[0].text")
                .toString())
        .contains("not readable as CSV");
    assertThat(
            csv("all-or-nothing", good.replace("trouble", "tr\0uble"))
                .path("problems[0].text")
                .toString())
        .contains("U+0000");
    Response formula =
        csv("all-or-nothing", "\uFEFF" + RATINGS + rating("=cmd()") + rating("\"two\nlines\""));
    assertThat(whole(formula, "proposed")).as(formula.asString()).isEqualTo(2);
    assertThat(
            read("/v1/curation/records?import=" + formula.path("id"))
                .<List<String>>path("items.locator"))
        .containsExactlyInAnyOrder("=cmd()", "two\nlines");
  }

  @Test
  void a_declared_encoding_is_read_and_a_wrong_declaration_refused() {
    byte[] latin = (RATINGS + rating("caf\u00E9")).getBytes(StandardCharsets.ISO_8859_1);
    Response read = send("ratings", "all-or-nothing", "text/csv;charset=ISO-8859-1", latin);
    assertThat(read.statusCode()).as(read.asString()).isEqualTo(201);
    assertThat(
            (String)
                read("/v1/curation/records?import=" + read.path("id")).path("items[0].locator"))
        .isEqualTo("caf\u00E9");
    Response wrong =
        send(
            "ratings",
            "all-or-nothing",
            "text/csv;charset=ISO-8859-1",
            (RATINGS + rating("caf\u00E9")).getBytes(StandardCharsets.UTF_8));
    assertThat(wrong.statusCode()).isEqualTo(422);
    assertThat((String) wrong.path("detail")).contains("says ISO-8859-1, but the file is UTF-8");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"text/csv;charset=no-such-thing", "application/json", "application/vnd.ms-excel"})
  void another_form_is_refused(String type) {
    assertThat(send("ratings", "all-or-nothing", type, RATINGS + rating("form")).statusCode())
        .isEqualTo(415);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "?kind=everything",
        "?mode=all-or-nothing",
        "?kind=ratings&mode=half",
        "?kind=records"
      })
  void a_wrong_question_is_refused(String query) {
    Response answer =
        given()
            .header("Authorization", "Bearer " + tokens().proposer())
            .header("Content-Type", "text/csv")
            .body("x")
            .post(IMPORTS + query);
    assertThat(answer.statusCode()).as(answer.asString()).isEqualTo(400);
  }

  @Test
  void exports_match_what_the_contract_says() {
    Contract contract = new Contract(given().get("/v3/api-docs").asString());
    Response list =
        given()
            .filter(contract)
            .header("Authorization", "Bearer " + tokens().reviewer())
            .get("/v1/curation/exports");
    assertThat(list.statusCode()).isEqualTo(200);
    assertThat((String) list.path("contentDigest")).matches("[0-9a-f]{64}");
    List<Map<String, Object>> files = list.path("files");
    assertThat(files).hasSize(8);
    for (Map<String, Object> file : files) {
      Response export = read((String) file.get("path"));
      assertThat(export.statusCode()).isEqualTo(200);
      assertThat(export.contentType()).startsWith((String) file.get("mediaType"));
    }
    assertThat(read("/v1/curation/exports/ratings?revision=9999").statusCode()).isEqualTo(404);
    assertThat(read("/v1/curation/exports/everything").statusCode()).isBetween(400, 404);
    assertThat(
            given()
                .filter(contract)
                .header("Authorization", "Bearer " + tokens().reviewer())
                .get(IMPORTS)
                .statusCode())
        .isEqualTo(200);
  }
}
