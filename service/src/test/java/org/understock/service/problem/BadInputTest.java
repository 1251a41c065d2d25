package org.understock.service.problem;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.RestAssured;
import io.restassured.config.EncoderConfig;
import io.restassured.http.ContentType;
import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.io.InputStream;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.understock.service.RunningService;

/** Whatever is sent: a problem (RFC 9457) with a 4xx status, never a 5xx, never a stack trace. */
class BadInputTest extends RunningService {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{\"crop\":\"apple\",\"goal\":{\"maxHeigthM\":3}} | 400 | #/goal/maxHeigthM",
        "{\"crop\":\"apple\",\"site\":{\"soil\":{\"ph\":14}}} | 422 | #/site/soil/ph",
        "{\"crop\":\"apple\",\"site\":{\"latitude\":1e308}} | 422 | #/site/latitude",
        "{\"crop\":\"apple\",\"site\":{\"latitude\":1e999}} | 422 | #/site/latitude",
        "{\"crop\":\"apple\",\"goal\":{\"maxHeightM\":-0}} | 422 | #/goal/maxHeightM",
        "{\"crop\":\"appel\"} | 422 | #/crop",
        "{\"crop\":\"apple\",\"site\":{\"wind\":\"stormy\"}} | 422 | #/site/wind",
        "{\"crop\":\"apple\",\"candidates\":{\"stocks\":[\"m-77\"]}} | 422 | #/candidates/stocks/0",
        "{\"crop\":\"apple\",\"goal\":{\"priorities\":{\"early-croping\":3}}} | 422 | #/goal/priorities/early-croping",
        "{\"crop\":\"apple\",\"goal\":{\"priorities\":{\"a].b\":99}}} | 422 | ",
        "{\"crop\":\"apple\",\"limit\":0} | 422 | #/limit",
        "{\"crop\":\"apple\",\"revision\":99} | 422 | #/revision",
        "{\"crop\":\"apple\",\"site\":{\"chillHours\":500,\"chillPortions\":40}} | 422 | #/site/chillPortions",
        "{\"crop\":\"apple\",\"goal\":{\"spaceM\":{\"width\":4}}} | 422 | ",
        "{\"crop\":\"apple\",\"site\":5} | 400 | #/site",
        "{\"crop\":\"apple\",\"site\":{\"latitude\":\"north\"}} | 400 | #/site/latitude",
        "{\"crop\":\"apple\",\"site\":{\"latitude\":NaN}} | 400 | ",
        "{\"crop\":\"apple\",\"crop\":\"quince\"} | 400 | ",
        "{\"crop\":\"app\\u0000le\"} | 400 | #/crop",
        "{\"crop\":\"apple\",\"candidates\":{\"stocks\":[\"m-9\",\"m\\ud800\"]}} | 400 | #/candidates/stocks/1",
        "{\"crop\": | 400 | #",
        "[] | 400 | #",
        "null | 400 | #",
        "{} | 422 | ",
      })
  void a_body_that_cannot_be_used_names_the_place(String body, int status, String pointer) {
    JsonPath problem =
        problem(given().contentType("application/json").body(body).post("/v1/advice"), status);
    if (pointer != null && !pointer.isBlank())
      assertThat(problem.getList("errors.pointer", String.class)).contains(pointer);
  }

  @Test
  void a_text_that_no_database_can_keep_is_refused_with_the_character_and_its_place() {
    JsonPath problem =
        problem(
            given()
                .contentType("application/json")
                .body("{\"crop\":\"app\\u0000le\"}")
                .post("/v1/advice"),
            400);
    assertThat(problem.getString("detail"))
        .isEqualTo(
            "A text can't be kept: #/crop holds the control character U+0000 at character 4.");
    problem = problem(given().urlEncodingEnabled(false).get("/v1/estimates?subject=m%00-9"), 400);
    assertThat(problem.getString("errors[0].parameter")).isEqualTo("subject");
    assertThat(problem.getString("errors[0].allowed"))
        .isEqualTo("without the control character U+0000 at character 2");
  }

  @Test
  void a_misspelt_field_comes_with_the_nearest_known_one() {
    JsonPath problem =
        problem(
            given()
                .contentType("application/json")
                .body("{\"crop\":\"apple\",\"goal\":{\"maxHeigthM\":3}}")
                .post("/v1/advice"),
            400);
    assertThat(problem.getString("errors[0].nearest[0]")).isEqualTo("maxHeightM");
  }

  @Test
  void all_ranges_are_told_at_once() {
    String body =
        "{\"crop\":\"apple\",\"site\":{\"latitude\":99,\"coldestNightC\":-99,\"soil\":{\"ph\":14}}}";
    assertThat(
            problem(given().contentType("application/json").body(body).post("/v1/advice"), 422)
                .getList("errors.pointer", String.class))
        .containsExactlyInAnyOrder("#/site/latitude", "#/site/coldestNightC", "#/site/soil/ph");
  }

  @Test
  void huge_deep_and_broken_bodies_are_refused() {
    problem(
        given()
            .contentType("application/json")
            .body(
                "{\"crop\":\"apple\",\"site\":{\"pressures\":["
                    + "\"x\",".repeat(1_100_000)
                    + "\"x\"]}}")
            .post("/v1/advice"),
        413);
    problem(
        given()
            .contentType("application/json")
            .body(
                "{\"crop\":\"apple\",\"site\":{\"pressures\":["
                    + "\"x\",".repeat(20_000)
                    + "\"x\"]}}")
            .post("/v1/advice"),
        422);
    problem(
        given().contentType("application/json").body("{\"site\":".repeat(5_000)).post("/v1/advice"),
        400);
    problem(
        given()
            .contentType("application/json")
            .body(new byte[] {'{', '"', (byte) 0xff, '"', ':', '1', '}'})
            .post("/v1/advice"),
        400);
    problem(given().contentType("application/json").post("/v1/advice"), 400);
  }

  @Test
  void method_and_media_type_are_told() {
    Response method = given().delete("/v1/advice");
    problem(method, 405);
    assertThat(method.getHeader("Allow")).contains("POST");
    problem(
        bytes("application/yaml")
            .body("crop: apple".getBytes(StandardCharsets.UTF_8))
            .post("/v1/advice"),
        415);
    problem(
        bytes("application/xml")
            .body("<crop/>".getBytes(StandardCharsets.UTF_8))
            .post("/v1/advice"),
        415);
    problem(given().accept("application/yaml").get("/v1/stocks"), 406);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/v1/stocks?crpo=apple",
        "/v1/stocks?limit=0",
        "/v1/stocks?limit=x",
        "/v1/stocks?cursor=abc",
        "/v1/stocks?cursor=%00",
        "/v1/estimates?subject=%00",
        "/v1/estimates?trait=%00",
        "/v1/stocks?crop=appel",
        "/v1/stocks?revision=99",
        "/v1/stocks/m-77",
        "/v1/varieties/no-such",
        "/v1/traits/no-such",
        "/v1/sources/no-such",
        "/v1/records/no-such",
        "/v1/revisions/99",
        "/v1/revisions/x",
        "/v1/estimates?trait=no-such",
        "/v1/nothing-here",
        "/v1/stocks/a%2Fb"
      })
  void a_read_that_cannot_be_answered_is_a_problem(String path) {
    Response response = given().urlEncodingEnabled(false).get(path);
    assertThat(response.getStatusCode()).isBetween(400, 499);
    problem(response, response.getStatusCode());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "GET / HTTP/1.1\r\n\r\n",
        "nonsense\r\n\r\n",
        "GET /%zz HTTP/1.1\r\nHost: x\r\n\r\n",
        "GET /v1/stocks/%zz HTTP/1.1\r\nHost: x\r\n\r\n",
        "GET /v1/stocks/[x] HTTP/1.1\r\nHost: x\r\n\r\n",
        "GET /v1/stocks HTTP/9.9\r\nHost: x\r\n\r\n",
        "POST /v1/advice HTTP/1.1\r\nHost: x\r\nContent-Length: -5\r\n\r\n"
      })
  void raw_nonsense_gets_a_4xx_without_a_page_of_the_container(String bytes) throws Exception {
    assertThat(raw(bytes))
        .startsWith("HTTP/1.1 4")
        .doesNotContain("Apache")
        .doesNotContain("<html");
  }

  @Test
  void a_long_header_and_a_long_line_get_a_4xx() throws Exception {
    assertThat(
            raw("GET /v1/crops HTTP/1.1\r\nHost: x\r\nX-Long: " + "a".repeat(20_000) + "\r\n\r\n"))
        .startsWith("HTTP/1.1 4")
        .doesNotContain("Apache");
    assertThat(raw("GET /v1/crops?q=" + "a".repeat(20_000) + " HTTP/1.1\r\nHost: x\r\n\r\n"))
        .startsWith("HTTP/1.1 4")
        .doesNotContain("Apache");
  }

  /** Mutations of a good body, seeded: bytes dropped, doubled or changed. */
  @Test
  void mutated_bodies_never_break_the_service() {
    byte[] good =
        ("{\"crop\":\"apple\",\"site\":{\"latitude\":44.1,\"coldestNightC\":-26,\"soil\":{\"texture\":\"clay-loam\",\"ph\":6.4,\"replant\":true},\"wind\":\"exposed\","
                + "\"pressures\":[\"fire-blight\"]},\"goal\":{\"maxHeightM\":3.0,\"spaceM\":{\"width\":6,\"length\":10}},\"candidates\":{\"stocks\":[\"m-7\"],"
                + "\"varieties\":[\"fuji\"]},\"limit\":2}")
            .getBytes(StandardCharsets.UTF_8);
    Random random = new Random(20261125);
    for (int i = 0; i < 400; i++) {
      byte[] body = good.clone();
      for (int k = 0; k <= random.nextInt(3); k++)
        body[random.nextInt(body.length)] = (byte) random.nextInt(256);
      Response response = given().contentType("application/json").body(body).post("/v1/advice");
      assertThat(response.getStatusCode())
          .as("mutation %d: %s", i, new String(body, StandardCharsets.ISO_8859_1))
          .isLessThan(500);
      if (response.getStatusCode() >= 400) problem(response, response.getStatusCode());
    }
  }

  /** A request whose body is sent as it stands, whatever the media type says. */
  private static RequestSpecification bytes(String mediaType) {
    return given()
        .config(
            RestAssured.config()
                .encoderConfig(
                    EncoderConfig.encoderConfig()
                        .encodeContentTypeAs(mediaType, ContentType.BINARY)
                        .appendDefaultContentCharsetToContentTypeIfUndefined(false)))
        .contentType(mediaType);
  }

  private String raw(String bytes) throws Exception {
    try (Socket socket = new Socket("localhost", port())) {
      socket.setSoTimeout(10_000);
      socket.getOutputStream().write(bytes.getBytes(StandardCharsets.ISO_8859_1));
      socket.getOutputStream().flush();
      socket.shutdownOutput();
      InputStream in = socket.getInputStream();
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  /** Found by raw bytes: it is noticed only when the controller's reader asks for the header. */
  @Test
  void a_header_with_a_character_that_no_header_may_hold_is_the_senders_fault() throws Exception {
    for (String header :
        new String[] {"Content-Type: application/json;charset\u007f", "Accept: a\u007f"})
      assertThat(
              raw(
                  "POST /v1/advice HTTP/1.1\r\nHost: x\r\nConnection: close\r\nContent-Length: 2\r\n"
                      + header
                      + "\r\n\r\n{}"))
          .startsWith("HTTP/1.1 400")
          .contains("/problems/invalid-request");
  }

  private static JsonPath problem(Response response, int status) {
    assertThat(response.getStatusCode()).as(response.asString()).isEqualTo(status);
    assertThat(response.getContentType()).startsWith("application/problem+json");
    assertThat(response.asString())
        .doesNotContain("Exception")
        .doesNotContain("\tat ")
        .doesNotContain("org.understock");
    Map<String, Object> body = response.jsonPath().getMap("$");
    assertThat(body).containsKeys("type", "title", "status", "detail", "instance");
    assertThat(List.of(body.get("type").toString()))
        .allMatch(type -> type.startsWith("/problems/"));
    return response.jsonPath();
  }
}
