package org.understock.service.store;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import io.restassured.response.Response;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.Statement;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.understock.service.Tokens;

/**
 * A service that is killed (SIGKILL) at random moments of imports and reviews: every acknowledged
 * write is there, no import is there by half, the chain of revisions verifies, and what was cut off
 * is completed by sending it again. {@code -Dkill.rounds} and {@code -Dkill.seed} rehearse longer.
 */
class KilledServiceTest {
  private static final int ROUNDS = Integer.getInteger("kill.rounds", 2);
  private static final long SEED = Long.getLong("kill.seed", 1);
  private static final int ROWS = 2000;
  private static final HttpClient HTTP = HttpClient.newHttpClient();

  @TempDir private static Path home;

  private final Random random = new Random(SEED);
  private final List<String> acknowledged = new ArrayList<>();

  @Test
  void nothing_acknowledged_is_lost_and_nothing_is_there_by_half() throws Exception {
    System.out.println("Killed in " + ROUNDS + " rounds, seed " + SEED + ".");
    try (OwnServer server = new OwnServer(home)) {
      Path key = Tokens.makeKey(home);
      Tokens tokens = Tokens.ofHome(home);
      for (int round = 0; round <= ROUNDS; round++) {
        int port = freePort();
        Process service = start(server, key, port, round);
        try {
          await().atMost(Duration.ofMinutes(2)).until(() -> answers(port));
          assertThat(verified(port, tokens)).as("the chain before round " + round).isTrue();
          assertThat(lost(server))
              .as("acknowledged reviews that are lost before round " + round)
              .isEmpty();
          if (round > 0) completed(port, tokens, server, round - 1);
          if (round < ROUNDS) killed(port, tokens, service, server, round);
        } finally {
          service.destroyForcibly().waitFor();
        }
      }
    }
    assertThat(acknowledged).as("reviews that were acknowledged").isNotEmpty();
  }

  private void killed(int port, Tokens tokens, Process service, OwnServer server, int round)
      throws Exception {
    CompletableFuture<HttpResponse<String>> imported =
        HTTP.sendAsync(request(port, tokens, round), HttpResponse.BodyHandlers.ofString());
    CompletableFuture<Void> reviews =
        CompletableFuture.runAsync(
            () -> {
              for (int i = 0; service.isAlive(); i++)
                review(port, tokens, "round " + round + " review " + i);
            });
    Thread.sleep(random.nextInt(2500));
    service.destroyForcibly().waitFor(); // SIGKILL
    reviews.get(1, TimeUnit.MINUTES);
    boolean told =
        imported.handle((answer, fault) -> fault == null && answer.statusCode() == 201).get();
    long there =
        count(
            server, "select count(*) from records where locator like 'round " + round + " row %'");
    assertThat(there)
        .as("rows of the import of round " + round + ", acknowledged: " + told)
        .isIn(told ? List.of((long) ROWS) : List.of(0L, (long) ROWS));
  }

  /** Sending the file again files what is missing, which is all or nothing of it. */
  private static void completed(int port, Tokens tokens, OwnServer server, int round)
      throws Exception {
    HttpResponse<String> again =
        HTTP.send(request(port, tokens, round), HttpResponse.BodyHandlers.ofString());
    assertThat(again.statusCode()).as(again.body()).isEqualTo(201);
    assertThat(
            count(
                server,
                "select count(*) from records where locator like 'round " + round + " row %'"))
        .isEqualTo(ROWS);
  }

  private static HttpRequest request(int port, Tokens tokens, int round) {
    StringBuilder file =
        new StringBuilder(
            "source_id,crop,stock,trait,level,value_low,value_high,unit,locator,note\n");
    for (int i = 0; i < ROWS; i++) {
      file.append("omafra-susceptibility-table,apple,M.7,fire-blight,resistant,,,,round ")
          .append(round)
          .append(" row ")
          .append(i)
          .append(",invented\n");
    }
    String mode = round % 2 == 0 ? "all-or-nothing" : "row-by-row";
    return HttpRequest.newBuilder(
            URI.create(
                "http://localhost:" + port + "/v1/curation/imports?kind=ratings&mode=" + mode))
        .header("Authorization", "Bearer " + tokens.proposer())
        .header("Content-Type", "text/csv")
        .POST(HttpRequest.BodyPublishers.ofString(file.toString()))
        .build();
  }

  /** Proposes and accepts one statement, and remembers it if the review was acknowledged. */
  private void review(int port, Tokens tokens, String locator) {
    try {
      Response proposed =
          given()
              .port(port)
              .header("Authorization", "Bearer " + tokens.proposer())
              .contentType("application/json")
              .body(
                  """
          {"subject": {"stock": "m-7", "crop": "apple"}, "trait": "fire-blight", "value": {"level": "resistant"}, "method": "expert-rating",
           "source": "omafra-susceptibility-table", "locator": "%s"}"""
                      .formatted(locator))
              .post("/v1/curation/records");
      if (proposed.statusCode() != 201) return;
      String id = proposed.path("id");
      Response review =
          given()
              .port(port)
              .header("Authorization", "Bearer " + tokens.reviewer())
              .contentType("application/json")
              .body("{\"accept\": [\"" + id + "\"]}")
              .post("/v1/curation/reviews");
      if (review.statusCode() == 201) acknowledged.add(id);
    } catch (Exception e) {
      // not acknowledged: the service is gone, or going; the client throws what the connection
      // threw
    }
  }

  private List<String> lost(OwnServer server) throws Exception {
    List<String> lost = new ArrayList<>();
    for (String id : acknowledged)
      if (count(
              server,
              "select count(*) from records where id = '" + id + "' and status = 'accepted'")
          != 1) lost.add(id);
    return lost;
  }

  private static boolean verified(int port, Tokens tokens) {
    return given()
        .port(port)
        .header("Authorization", "Bearer " + tokens.reviewer())
        .get("/v1/curation/revisions/verify")
        .<Boolean>path("verified");
  }

  private static boolean answers(int port) {
    try {
      return given().port(port).get("/v1/crops").statusCode() == 200;
    } catch (Exception e) {
      return false;
    }
  }

  private static Process start(OwnServer server, Path key, int port, int round) throws Exception {
    Path log = home.resolve("service-" + round + ".log");
    return new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-Xmx512m",
            "-cp",
            System.getProperty("java.class.path"),
            "org.understock.service.UnderstockApplication",
            "--server.port=" + port,
            "--spring.datasource.url=" + server.url(),
            "--spring.datasource.username=postgres",
            "--spring.datasource.password=postgres",
            "--understock.home=" + home.resolve("unused"),
            "--understock.security.key=" + key,
            "--understock.security.issuer=" + Tokens.ISSUER)
        .redirectErrorStream(true)
        .redirectOutput(Files.createFile(log).toFile())
        .start();
  }

  private static int freePort() throws Exception {
    try (ServerSocket free = new ServerSocket(0)) {
      return free.getLocalPort();
    }
  }

  private static long count(OwnServer server, String sql) throws Exception {
    try (Connection connection = DriverManager.getConnection(server.url(), "postgres", "postgres");
        Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery(sql)) {
      row.next();
      return row.getLong(1);
    }
  }
}
