package org.understock.service.store;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import io.restassured.response.Response;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.web.server.servlet.context.ServletWebServerApplicationContext;
import org.springframework.context.ConfigurableApplicationContext;
import org.understock.service.Tokens;
import org.understock.service.UnderstockApplication;
import org.understock.service.contract.Contract;
import org.understock.service.platform.StaleHeader;

/**
 * Two services on a database server that is not theirs: they start at once on it while it is empty,
 * and go on while it is away.
 */
class ExternalDatabaseTest {
  private static final Duration SOON = Duration.ofSeconds(30);
  private static final String ADVICE =
      "{\"crop\":\"apple\",\"goal\":{\"purpose\":\"home-garden\"},\"candidates\":{\"varieties\":[\"gala\"]},\"limit\":3}";

  @TempDir private static Path home;

  private static OwnServer server;
  private static Path key;
  private static List<ConfigurableApplicationContext> services;

  @BeforeAll
  static void two_services_start_at_once() throws Exception {
    server = new OwnServer(home);
    key = Tokens.makeKey(home);
    CompletableFuture<ConfigurableApplicationContext> one =
        CompletableFuture.supplyAsync(ExternalDatabaseTest::start);
    CompletableFuture<ConfigurableApplicationContext> other =
        CompletableFuture.supplyAsync(ExternalDatabaseTest::start);
    services = List.of(one.get(), other.get());
  }

  @AfterAll
  static void stop() throws Exception {
    services.forEach(ConfigurableApplicationContext::close);
    server.close();
  }

  private static ConfigurableApplicationContext start() {
    return new SpringApplication(UnderstockApplication.class)
        .run(
            "--server.port=0",
            "--spring.datasource.url=" + server.url(),
            "--spring.datasource.username=postgres",
            "--spring.datasource.password=postgres",
            "--understock.home=" + home.resolve("unused"),
            "--understock.security.key=" + key,
            "--understock.security.issuer=" + Tokens.ISSUER);
  }

  @Test
  void the_empty_database_is_loaded_once_and_both_answer_alike() throws SQLException {
    assertThat(ask("select count(*) from revisions")).isEqualTo("1");
    assertThat(ask("select count(*) from audit where action = 'load'")).isEqualTo("1");
    assertThat(ask("select count(*) = (select count(distinct id) from records) from records"))
        .isEqualTo("t");
    for (ConfigurableApplicationContext service : services) {
      assertThat(get(service, "/v1/revisions/1").<String>path("digest"))
          .isEqualTo(ask("select digest from revisions"));
      assertThat(advice(service)).isEqualTo(advice(services.get(0)));
    }
    assertThat(Files.exists(home.resolve("unused"))).as("an embedded database").isFalse();
  }

  @Test
  void a_service_that_starts_again_loads_nothing_anew() throws SQLException {
    try (ConfigurableApplicationContext again = start()) {
      assertThat(ask("select count(*) from audit where action = 'load'")).isEqualTo("1");
      assertThat(advice(again)).isEqualTo(advice(services.get(0)));
    }
  }

  @Test
  void a_service_that_may_not_migrate_refuses_a_database_that_is_not_migrated()
      throws SQLException {
    try (Connection connection = DriverManager.getConnection(server.url(), "postgres", "postgres");
        Statement statement = connection.createStatement()) {
      statement.execute("create database not_migrated");
    }
    assertThatThrownBy(
            () ->
                new SpringApplication(UnderstockApplication.class)
                    .run(
                        "--server.port=0",
                        "--understock.migrate=false",
                        "--spring.datasource.url="
                            + server.url().replaceAll("/postgres$", "/not_migrated"),
                        "--spring.datasource.username=postgres",
                        "--spring.datasource.password=postgres",
                        "--understock.home=" + home.resolve("unused"),
                        "--understock.security.key=" + key,
                        "--understock.security.issuer=" + Tokens.ISSUER))
        .rootCause()
        .hasMessageContaining("run the migrations first");
  }

  @Test
  void while_the_database_is_stopped_answers_go_on_from_memory_and_say_so() throws Exception {
    goesOn(server::stop, server::start);
  }

  @Test
  void while_the_database_hangs_answers_go_on_from_memory_and_say_so() throws Exception {
    goesOn(server::freeze, server::thaw);
  }

  private interface Step {
    void take() throws Exception;
  }

  private static void goesOn(Step away, Step back) throws Exception {
    ConfigurableApplicationContext service = services.get(0);
    Contract contract = new Contract(get(service, "/v3/api-docs").asString());
    String before = advice(service);
    assertThat(get(service, "/v1/stocks/m-9").header(StaleHeader.NAME)).isNull();
    Instant begun = Instant.now();
    away.take();
    try {
      await()
          .atMost(SOON)
          .until(() -> get(service, "/v1/stocks/m-9").header(StaleHeader.NAME) != null);
      assertThat(advice(service)).as("the same request on the same revision").isEqualTo(before);
      Response read = given().port(port(service)).filter(contract).get("/v1/varieties/gala");
      assertThat(read.statusCode()).isEqualTo(200);
      Instant since =
          ZonedDateTime.parse(read.header(StaleHeader.NAME), DateTimeFormatter.RFC_1123_DATE_TIME)
              .toInstant();
      assertThat(since)
          .isBetween(begun.minusSeconds(10), begun.plusSeconds(10).truncatedTo(ChronoUnit.SECONDS));
      assertThat(get(service, "/v1/traits?limit=1").header(StaleHeader.NAME))
          .as("it stays the same")
          .isEqualTo(read.header(StaleHeader.NAME));
      assertThat(get(service, "/actuator/health/liveness").statusCode()).isEqualTo(200);
      assertThat(get(service, "/actuator/health/readiness").statusCode())
          .as("ready: it answers")
          .isEqualTo(200);
      Response health = get(service, "/actuator/health");
      assertThat(health.statusCode()).isEqualTo(503);
      assertThat(health.<String>path("status")).isEqualTo("DOWN");
    } finally {
      back.take();
    }
    await()
        .atMost(SOON)
        .until(() -> get(service, "/v1/stocks/m-9").header(StaleHeader.NAME) == null);
    await().atMost(SOON).until(() -> get(service, "/actuator/health").statusCode() == 200);
    assertThat(advice(service)).isEqualTo(before);
  }

  private static String advice(ConfigurableApplicationContext service) {
    Response response =
        given().port(port(service)).contentType("application/json").body(ADVICE).post("/v1/advice");
    assertThat(response.statusCode()).isEqualTo(200);
    return response.asString();
  }

  private static Response get(ConfigurableApplicationContext service, String path) {
    return given().port(port(service)).get(path);
  }

  private static int port(ConfigurableApplicationContext service) {
    return ((ServletWebServerApplicationContext) service).getWebServer().getPort();
  }

  private static String ask(String query) throws SQLException {
    try (Connection connection = DriverManager.getConnection(server.url(), "postgres", "postgres");
        Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery(query)) {
      assertThat(rows.next()).isTrue();
      return rows.getString(1);
    }
  }
}
