package org.understock.service.pollination;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.response.Response;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeSet;
import java.util.stream.IntStream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.understock.service.RunningService;
import org.understock.service.contract.Contract;
import org.w3c.dom.Document;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/** What holds for the answers about pollination, each held against the contract. */
class PollinationTest extends RunningService {
  private @Nullable Contract contract;

  @BeforeEach
  void readTheContract() {
    contract = new Contract(given().get("/v3/api-docs").asString());
  }

  private Response ask(String body) {
    return given()
        .filter(contract)
        .contentType("application/json")
        .body(body)
        .post("/v1/pollination");
  }

  private Response draw(String body) {
    return given()
        .accept("image/svg+xml")
        .contentType("application/json")
        .body(body)
        .post("/v1/pollination");
  }

  /**
   * A triploid serves nobody (niab-apple-pollinators); what is suggested mends the planting when it
   * is added.
   */
  @Test
  void what_is_suggested_mends_the_planting() {
    Response before = ask("{\"varieties\": [\"mutsu\"]}");
    assertThat(before.<String>path("outcome")).isEqualTo("incomplete");
    assertThat(before.<List<String>>path("unpollinated")).containsExactly("mutsu");
    List<List<String>> options = before.path("mendings[0].options.collect { it.id }");
    assertThat(options).hasSize(5);
    for (List<String> option : options) {
      Response after =
          ask("{\"varieties\": [\"mutsu\", \"" + String.join("\", \"", option) + "\"]}");
      assertThat(after.<Boolean>path("complete")).as(option.toString()).isTrue();
      assertThat(after.<List<Object>>path("suggestions")).isEmpty();
    }
    assertThat(before.<List<String>>path("suggestions.id")).containsAll(options.get(0));
  }

  @Test
  void every_ordered_pair_is_told_once_and_order_changes_no_verdict() {
    Response one = ask("{\"varieties\": [\"gala\", \"fuji\", \"bramley-s-seedling\"]}");
    Response other =
        ask("{\"varieties\": [\"Bramley\", \"Fuji\", \"gala\", \"fuji\"], \"crop\": \"apple\"}");
    assertThat(one.<List<Object>>path("pairs")).hasSize(9);
    assertThat(verdicts(one)).hasSize(9).isEqualTo(verdicts(other));
    assertThat(new TreeSet<>(one.<List<String>>path("unpollinated")))
        .isEqualTo(new TreeSet<>(other.<List<String>>path("unpollinated")));
  }

  private static TreeSet<String> verdicts(Response answer) {
    TreeSet<String> verdicts = new TreeSet<>();
    List<Map<String, Object>> pairs = answer.path("pairs");
    for (Map<String, Object> p : pairs) {
      verdicts.add(
          p.get("pollen")
              + " on "
              + p.get("receiver")
              + ": "
              + p.get("verdict")
              + " "
              + p.get("bloomOverlap"));
    }
    return verdicts;
  }

  @Test
  void every_cited_record_can_be_read_and_its_source_is_listed() {
    Response answer = ask("{\"varieties\": [\"regina\", \"kordia\"]}");
    List<String> sources = answer.path("sources.id");
    List<String> cited = new ArrayList<>(answer.<List<String>>path("pairs.records.flatten()"));
    assertThat(cited).isNotEmpty();
    for (String id : new TreeSet<>(cited)) {
      assertThat(sources)
          .contains(
              given()
                  .filter(contract)
                  .get("/v1/records/" + id)
                  .then()
                  .statusCode(200)
                  .extract()
                  .<String>path("source"));
    }
  }

  /** Gala is the name of an apple and of a sweet cherry. */
  @Test
  void a_name_of_several_crops_is_read_by_its_company_or_asked_back() {
    assertThat(ask("{\"varieties\": [\"Gala\", \"Fuji\"]}").<List<String>>path("varieties.crop"))
        .containsExactly("apple", "apple");
    Response alone = ask("{\"varieties\": [\"Gala\"]}");
    List<Map<String, Object>> galas =
        given().get("/v1/varieties?q=Gala").path("items.findAll { it.name == 'Gala' }");
    if (galas.size() > 1) {
      assertThat(alone.statusCode()).isEqualTo(422);
      assertThat(alone.<List<String>>path("errors.pointer")).containsExactly("#/varieties/0");
    } else {
      assertThat(alone.statusCode()).isEqualTo(200);
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{} | 422 | #/varieties",
        "{\"varieties\": []} | 422 | #/varieties",
        "{\"varieties\": [null]} | 422 | #/varieties/0",
        "{\"varieties\": \"gala\"} | 400 | #/varieties",
        "{\"varieties\": [\"galla\"]} | 422 | #/varieties/0",
        "{\"varieties\": [\"gala\"], \"crop\": \"appel\"} | 422 | #/crop",
        "{\"varieties\": [\"gala\"], \"crop\": \"quince\"} | 422 | #/varieties/0",
        "{\"varieties\": [\"gala\"], \"from\": [\"fuji\", \"fuhji\"]} | 422 | #/from/1",
        "{\"varieties\": [\"gala\"], \"form\": []} | 400 | #/form",
        "{\"varieties\": [\"gala\"], \"limit\": 21} | 422 | #/limit",
        "{\"varieties\": [\"gala\"], \"revision\": 99} | 422 | #/revision"
      })
  void what_cannot_be_used_is_named(String body, int status, String pointer) {
    for (Response refused : List.of(ask(body), draw(body))) {
      assertThat(refused.statusCode()).as(refused.asString()).isEqualTo(status);
      assertThat(refused.contentType()).startsWith("application/problem+json");
      assertThat(refused.<List<String>>path("errors.pointer")).contains(pointer);
    }
  }

  @Test
  void unknown_names_are_told_all_at_once_with_the_nearest() {
    Response refused =
        ask("{\"varieties\": [\"galla\", \"fuji\", \"braebun\"], \"from\": [\"no-such\"]}");
    assertThat(refused.<List<String>>path("errors.pointer"))
        .containsExactly("#/varieties/0", "#/varieties/2", "#/from/0");
    assertThat(refused.<List<List<String>>>path("errors.nearest").get(1)).contains("braeburn");
    String many =
        "[" + String.join(", ", IntStream.range(0, 31).mapToObj(k -> "\"gala\"").toList()) + "]";
    assertThat(ask("{\"varieties\": " + many + "}").<List<String>>path("errors.pointer"))
        .contains("#/varieties");
  }

  @Test
  void partners_are_ranked_and_conditional_like_every_read() {
    Response partners = given().filter(contract).get("/v1/varieties/Regina/partners?limit=20");
    assertThat(partners.<String>path("variety.id")).isEqualTo("regina");
    assertThat(partners.<String>path("need.need")).isEqualTo("needs-one");
    assertThat(partners.<List<String>>path("items.pollen").subList(0, 5)).containsOnly("full");
    assertThat(partners.<List<String>>path("items.bloomOverlap").subList(0, 5))
        .containsOnly("good");
    assertThat(partners.<List<String>>path("items.variety.id"))
        .hasSize(20)
        .doesNotHaveDuplicates()
        .doesNotContain("regina");
    assertThat(((Number) partners.path("total")).intValue()).isGreaterThan(100);
    List<String> first =
        given()
            .filter(contract)
            .get("/v1/varieties/regina/partners?limit=3&revision=1")
            .path("items.variety.id");
    assertThat(first).isEqualTo(partners.<List<String>>path("items.variety.id").subList(0, 3));
    String tag = partners.header("ETag");
    assertThat(
            given()
                .filter(contract)
                .header("If-None-Match", tag)
                .get("/v1/varieties/Regina/partners?limit=20")
                .statusCode())
        .isEqualTo(304);
    assertThat(
            given()
                .filter(contract)
                .header("If-None-Match", tag)
                .get("/v1/varieties/Regina/partners?limit=21")
                .statusCode())
        .isEqualTo(200);
  }

  @Test
  void partners_that_cannot_be_listed_are_a_problem() {
    Response missing = given().filter(contract).get("/v1/varieties/regima/partners");
    assertThat(missing.statusCode()).isEqualTo(404);
    assertThat(missing.<List<List<String>>>path("errors.nearest").get(0)).contains("regina");
    assertThat(given().filter(contract).get("/v1/varieties/regina/partners?limit=0").statusCode())
        .isEqualTo(400);
    assertThat(
            given().filter(contract).get("/v1/varieties/regina/partners?revision=9").statusCode())
        .isEqualTo(404);
    assertThat(given().accept("image/svg+xml").get("/v1/varieties/regina/partners").statusCode())
        .isEqualTo(406);
  }

  @Test
  void a_picture_says_all_that_the_answer_says() throws Exception {
    String body =
        "{\"varieties\": [\"bramley-s-seedling\", \"cox-s-orange-pippin\", \"golden-delicious\", \"bing\", \"j-h-hale\"]}";
    Response picture = draw(body);
    assertThat(picture.contentType()).startsWith("image/svg+xml");
    assertThat(picture.asByteArray()).isEqualTo(draw(body).asByteArray());
    Document svg =
        DocumentBuilderFactory.newDefaultInstance()
            .newDocumentBuilder()
            .parse(new InputSource(new StringReader(picture.asString())));
    String description = svg.getElementsByTagName("desc").item(0).getTextContent();
    Response answer = ask(body);
    assertThat(description).contains(answer.<String>path("text"));
    for (String text : answer.<List<String>>path("varieties.text"))
      assertThat(description).contains(text);
    NodeList titles = svg.getElementsByTagName("title");
    List<String> hints =
        IntStream.range(0, titles.getLength())
            .mapToObj(k -> titles.item(k).getTextContent())
            .toList();
    assertThat(hints)
        .containsAll(
            answer.<List<String>>path(
                "pairs.findAll { it.pollen != 'bing' && it.receiver != 'bing' && it.pollen != 'j-h-hale'"
                    + " && it.receiver != 'j-h-hale' }.text"));
    assertThat(hints)
        .as("kinds that do not cross have no column")
        .noneMatch(hint -> hint.contains("is a pollen partner for any"));
    assertThat(answer.contentType()).startsWith("application/json");
    assertThat(
            given()
                .accept("text/csv")
                .contentType("application/json")
                .body(body)
                .post("/v1/pollination")
                .statusCode())
        .isEqualTo(406);
  }

  /**
   * Mutations of a good body, seeded: whatever comes, it is answered or refused, and drawn or
   * refused.
   */
  @Test
  void mutated_bodies_never_break_it() {
    byte[] good =
        "{\"varieties\": [\"gala\", \"fuji\", \"bing\"], \"from\": [\"lapins\"], \"limit\": 2, \"revision\": 1}"
            .getBytes(StandardCharsets.UTF_8);
    Random random = new Random(20261125);
    for (int k = 0; k < 150; k++) {
      byte[] body = good.clone();
      for (int n = 0; n <= random.nextInt(3); n++)
        body[random.nextInt(body.length)] = (byte) random.nextInt(256);
      Response response =
          given()
              .accept(k % 2 == 0 ? "application/json" : "image/svg+xml")
              .contentType("application/json")
              .body(body)
              .post("/v1/pollination");
      assertThat(response.statusCode())
          .as("mutation %d: %s", k, new String(body, StandardCharsets.ISO_8859_1))
          .isIn(200, 400, 422);
    }
  }
}
