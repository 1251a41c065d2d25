package org.understock.service.security;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.notNullValue;
import static org.hamcrest.Matchers.nullValue;

import com.nimbusds.jose.jwk.JWKSet;
import com.sun.net.httpserver.HttpServer;
import io.restassured.RestAssured;
import io.restassured.specification.RequestSpecification;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.boot.autoconfigure.EnableAutoConfiguration;
import org.springframework.boot.flyway.autoconfigure.FlywayAutoConfiguration;
import org.springframework.boot.hibernate.autoconfigure.HibernateJpaAutoConfiguration;
import org.springframework.boot.jdbc.autoconfigure.DataSourceAutoConfiguration;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.annotation.ComponentScan;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.annotation.Import;
import org.springframework.http.MediaType;
import org.springframework.test.context.DynamicPropertyRegistry;
import org.springframework.test.context.DynamicPropertySource;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.servlet.mvc.method.annotation.StreamingResponseBody;
import org.understock.service.Tokens;

/**
 * The doors without the house: what is configured for browsers of other origins, an issuer that
 * goes away, who acts, answers that are streamed.
 */
@SpringBootTest(
    webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT,
    classes = DoorsTest.House.class,
    properties = {
      "understock.cors.allowed-origins=https://shop.example,https://*.extension.example",
      "management.endpoints.web.exposure.include=*"
    })
class DoorsTest {
  private static Tokens tokens;
  private static volatile boolean away;

  @LocalServerPort private int port;

  @DynamicPropertySource
  static void issuer(DynamicPropertyRegistry properties) throws Exception {
    Path home = Files.createTempDirectory("understock-doors");
    LocalAccess.in(home);
    tokens = Tokens.ofHome(home);
    byte[] keys = new JWKSet(tokens.key()).toString().getBytes(StandardCharsets.UTF_8);
    HttpServer issuer =
        HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    issuer.createContext(
        "/keys",
        exchange -> {
          exchange.sendResponseHeaders(away ? 500 : 200, away ? -1 : keys.length);
          if (!away) exchange.getResponseBody().write(keys);
          exchange.close();
        });
    issuer.start();
    properties.add(
        "understock.security.key",
        () -> "http://localhost:" + issuer.getAddress().getPort() + "/keys");
  }

  @BeforeEach
  void pointAtTheDoors() {
    RestAssured.port = port;
    away = false;
  }

  private static RequestSpecification as(String token) {
    return given().header("Authorization", "Bearer " + token);
  }

  @Test
  void a_controller_is_told_who_acts() {
    as(tokens.of("mara", "evidence:review openid"))
        .get("/v1/curation/records")
        .then()
        .statusCode(200)
        .body(equalTo("mara [REVIEW] [REVIEW]"));
    as(tokens.of("jo", "evidence:propose evidence:admin"))
        .get("/v1/curation/records")
        .then()
        .statusCode(200)
        .body(equalTo("jo [PROPOSE, ADMIN] [PROPOSE, ADMIN]"));
  }

  @Test
  void where_no_token_is_looked_at_nobody_is_said_to_act() {
    as(tokens.proposer())
        .get("/v1/nobody")
        .then()
        .statusCode(500)
        .body("type", equalTo("/problems/internal"));
  }

  @Test
  void an_answer_that_is_streamed_goes_through_to_its_end() {
    as(tokens.reviewer())
        .get("/v1/curation/exports")
        .then()
        .statusCode(200)
        .body(equalTo("row\n".repeat(10_000)));
    given().get("/v1/curation/exports").then().statusCode(401);
  }

  @Test
  void without_a_token_the_handler_is_not_reached() {
    int before = Probe.reached;
    given().get("/v1/curation/records").then().statusCode(401);
    as(tokens.reviewer()).post("/v1/curation/records").then().statusCode(403);
    given().post("/v1/curation/unplaced").then().statusCode(401);
    as(tokens.of("all", "evidence:propose evidence:review evidence:admin"))
        .post("/v1/curation/unplaced")
        .then()
        .statusCode(403)
        .body("detail", containsString("no such operation"));
    assertThat(Probe.reached).isEqualTo(before);
    as(tokens.proposer()).post("/v1/curation/records").then().statusCode(200);
    assertThat(Probe.reached).isEqualTo(before + 1);
  }

  @Test
  void a_token_is_read_from_the_header_only() {
    given()
        .queryParam("access_token", tokens.proposer())
        .get("/v1/curation/records")
        .then()
        .statusCode(401);
    given()
        .contentType("application/x-www-form-urlencoded")
        .formParam("access_token", tokens.proposer())
        .post("/v1/curation/records")
        .then()
        .statusCode(401);
    given()
        .cookie("access_token", tokens.proposer())
        .get("/v1/curation/records")
        .then()
        .statusCode(401);
    // A scheme's name has no case (RFC 9110, section 11.1).
    given()
        .header("Authorization", "bearer " + tokens.proposer())
        .get("/v1/curation/records")
        .then()
        .statusCode(200);
  }

  @Test
  void while_the_issuer_is_away_curation_says_so_and_what_is_open_goes_on() {
    away = true;
    String unknownKey = Tokens.signed(tokens.good("x", "evidence:propose").build(), freshKey());
    as(unknownKey)
        .get("/v1/curation/records")
        .then()
        .statusCode(503)
        .body("type", equalTo("/problems/issuer-away"))
        .header("Retry-After", notNullValue());
    as(unknownKey).get("/v1/open").then().statusCode(200);
    away = false;
  }

  private static com.nimbusds.jose.jwk.ECKey freshKey() {
    try {
      return new com.nimbusds.jose.jwk.gen.ECKeyGenerator(com.nimbusds.jose.jwk.Curve.P_256)
          .keyID("unknown")
          .generate();
    } catch (com.nimbusds.jose.JOSEException e) {
      throw new AssertionError(e);
    }
  }

  @Test
  void management_beyond_health_asks_for_the_administrators_scope() {
    given().get("/actuator/health").then().statusCode(200);
    for (String path :
        new String[] {
          "/actuator",
          "/actuator/env",
          "/actuator/beans",
          "/actuator/metrics",
          "/actuator/threaddump"
        }) {
      given().get(path).then().statusCode(401);
      as(tokens.reviewer())
          .get(path)
          .then()
          .statusCode(403)
          .header("WWW-Authenticate", containsString("scope=\"evidence:admin\""));
      as(tokens.admin()).get(path).then().statusCode(200);
    }
  }

  @Test
  void allowed_origins_may_read_what_is_open() {
    for (String origin : new String[] {"https://shop.example", "https://north.extension.example"}) {
      given()
          .header("Origin", origin)
          .get("/v1/open")
          .then()
          .statusCode(200)
          .header("Access-Control-Allow-Origin", equalTo(origin))
          .header("Access-Control-Allow-Credentials", nullValue())
          .header("Access-Control-Expose-Headers", containsString("ETag"));
      preflight(origin, "POST")
          .options("/v1/open")
          .then()
          .statusCode(200)
          .header("Access-Control-Allow-Origin", equalTo(origin))
          .header("Access-Control-Allow-Headers", containsString("content-type"));
    }
    given()
        .get("/v1/open")
        .then()
        .statusCode(200)
        .header("Access-Control-Allow-Origin", nullValue())
        .header("Vary", containsString("Origin"));
  }

  @Test
  void other_origins_methods_and_paths_are_not_opened_to_browsers() {
    given()
        .header("Origin", "https://elsewhere.example")
        .get("/v1/open")
        .then()
        .statusCode(200)
        .header("Access-Control-Allow-Origin", nullValue())
        .header("Vary", containsString("Origin"));
    preflight("https://elsewhere.example", "POST")
        .options("/v1/open")
        .then()
        .statusCode(403)
        .header("Access-Control-Allow-Origin", nullValue())
        .body("type", equalTo("/problems/forbidden"));
    preflight("https://shop.example", "PUT")
        .options("/v1/open")
        .then()
        .statusCode(403)
        .header("Access-Control-Allow-Origin", nullValue());
    preflight("https://shop.example", "POST")
        .options("/v1/curation/records")
        .then()
        .statusCode(401)
        .header("Access-Control-Allow-Origin", nullValue());
    as(tokens.proposer())
        .header("Origin", "https://shop.example")
        .get("/v1/curation/records")
        .then()
        .statusCode(200)
        .header("Access-Control-Allow-Origin", nullValue());
  }

  private static RequestSpecification preflight(String origin, String method) {
    return given()
        .header("Origin", origin)
        .header("Access-Control-Request-Method", method)
        .header("Access-Control-Request-Headers", "content-type");
  }

  @Configuration(proxyBeanMethods = false)
  @EnableAutoConfiguration(
      exclude = {
        DataSourceAutoConfiguration.class,
        HibernateJpaAutoConfiguration.class,
        FlywayAutoConfiguration.class
      })
  @ComponentScan({
    "org.understock.service.security",
    "org.understock.service.limits",
    "org.understock.service.problem"
  })
  @Import(Probe.class)
  static class House {}

  @RestController
  static class Probe {
    private static volatile int reached;
    private final CurrentActor current;

    Probe(CurrentActor current) {
      this.current = current;
    }

    @GetMapping("/v1/curation/records")
    String who(Actor actor) {
      return actor.subject() + " " + actor.scopes() + " " + current.get().scopes();
    }

    @PostMapping({"/v1/curation/records", "/v1/curation/unplaced"})
    String propose() {
      reached++;
      return "done";
    }

    @GetMapping(path = "/v1/curation/exports", produces = MediaType.TEXT_PLAIN_VALUE)
    StreamingResponseBody export() {
      return out -> {
        for (int i = 0; i < 10_000; i++) out.write("row\n".getBytes(StandardCharsets.UTF_8));
      };
    }

    @GetMapping({"/v1/open"})
    String open() {
      return "open";
    }

    @GetMapping("/v1/nobody")
    String nobody(Actor actor) {
      return actor.subject();
    }
  }
}
