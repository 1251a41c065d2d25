package org.understock.service.security;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.response.Response;
import java.io.InputStream;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.boot.test.system.CapturedOutput;
import org.springframework.boot.test.system.OutputCaptureExtension;
import org.springframework.test.context.TestPropertySource;
import org.understock.service.RunningService;

/**
 * What a browser is told with every answer, whatever answers it; that nothing of a token is written
 * to the log, however much is logged; what is open on the port of the service.
 */
@TestPropertySource(
    properties = {
      "logging.level.org.understock=trace",
      "logging.level.org.springframework.security=trace",
      "logging.level.org.springframework.web=trace"
    })
@ExtendWith(OutputCaptureExtension.class)
class AnswerHeadersTest extends RunningService {

  private static void closed(Response response) {
    assertThat(response.getHeader("X-Content-Type-Options")).isEqualTo("nosniff");
    assertThat(response.getHeader("Referrer-Policy")).isEqualTo("no-referrer");
    assertThat(response.getHeader("Content-Security-Policy"))
        .contains("default-src", "frame-ancestors 'none'");
    assertThat(response.getHeader("Strict-Transport-Security")).as("only under TLS").isNull();
    assertThat(response.getHeader("Server")).isNull();
    assertThat(response.getHeader("X-Powered-By")).isNull();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/v1/crops",
        "/v1/stocks/m-9",
        "/v1/nothing-here",
        "/v1/stocks?limit=x",
        "/v1/curation/records",
        "/v3/api-docs",
        "/swagger-ui/index.html",
        "/actuator/health",
        "/actuator/prometheus",
        "/nothing"
      })
  void every_answer_is_closed(String path) {
    closed(given().get(path));
  }

  @Test
  void so_are_pictures_refused_bodies_and_what_the_container_refuses() throws Exception {
    Response picture =
        given()
            .contentType("application/json")
            .accept("image/svg+xml")
            .body("{\"varieties\":[\"regina\",\"kordia\"]}")
            .post("/v1/pollination");
    assertThat(picture.getContentType()).startsWith("image/svg+xml");
    closed(picture);
    Response large =
        given().contentType("application/json").body("x".repeat(4_300_000)).post("/v1/advice");
    assertThat(large.getStatusCode()).isEqualTo(413);
    closed(large);
    try (Socket socket = new Socket("localhost", port())) {
      socket.setSoTimeout(10_000);
      socket
          .getOutputStream()
          .write("GET /%zz HTTP/1.1\r\nHost: x\r\n\r\n".getBytes(StandardCharsets.US_ASCII));
      socket.shutdownOutput();
      InputStream in = socket.getInputStream();
      assertThat(new String(in.readAllBytes(), StandardCharsets.UTF_8))
          .startsWith("HTTP/1.1 400")
          .contains("nosniff", "frame-ancestors 'none'", "no-referrer");
    }
  }

  @Test
  void no_token_is_ever_logged(CapturedOutput logged) {
    String good = tokens().proposer();
    String broken = good.substring(0, good.length() - 8) + "AAAAAAAA";
    String foreign = "eyJhbGciOiJub25lIn0.c2VjcmV0LXBheWxvYWQ.c2VjcmV0LXNpZ25hdHVyZQ";
    for (String token : new String[] {good, broken, foreign, "secret-" + "x".repeat(60)}) {
      for (String path : new String[] {"/v1/curation/records", "/v1/crops", "/actuator/prometheus"})
        given().header("Authorization", "Bearer " + token).get(path);
      given()
          .header("Authorization", "Bearer " + token)
          .contentType("application/json")
          .body("{\"no\":\"record\"}")
          .post("/v1/curation/records");
      int signature = token.lastIndexOf('.') + 1;
      assertThat(logged.getAll()).doesNotContain(token).doesNotContain(token.substring(signature));
    }
    assertThat(logged.getAll()).as("the log is as talkative as asked").contains("TRACE");
  }

  @Test
  void metrics_ask_for_the_administrators_scope_where_they_share_the_port() {
    given().contentType("application/json").body("{\"crop\":\"quince\"}").post("/v1/advice");
    given().get("/actuator/prometheus").then().statusCode(401);
    given()
        .header("Authorization", "Bearer " + tokens().reviewer())
        .get("/actuator/prometheus")
        .then()
        .statusCode(403);
    String metrics = metrics();
    assertThat(metrics)
        .containsPattern("understock_advice_seconds_count\\{asked=\"alone\"[^}]*} [1-9]")
        .containsPattern("understock_advice_seconds_bucket\\{asked=\"alone\",[^}]*le=\"0.05\"")
        .containsPattern("understock_pairings_scored_total\\S* \\d{2,}")
        .containsPattern("understock_revision\\S* 1\\.0")
        .containsPattern("understock_evidence_stale_seconds\\S* 0\\.0")
        .containsPattern("understock_proposals_waiting\\S* 0\\.0")
        .contains("hikaricp_connections_active", "jvm_memory_used_bytes");
  }
}
