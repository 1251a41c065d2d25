package org.understock.service.curation;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.path.json.JsonPath;
import java.io.IOException;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.Enumeration;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.concurrent.CompletableFuture;
import java.util.function.IntFunction;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.test.context.TestPropertySource;
import org.understock.service.RunningService;

/**
 * Files of a hundred thousand rows, of 200 MB, and one whose connection breaks. The statements are
 * invented.
 */
@TestPropertySource(properties = "understock.test=import") // the store of ImportTest
class LargeImportTest extends RunningService {
  private static final String HEADER =
      "source_id,crop,stock,trait,level,value_low,value_high,unit,locator,note\n";
  private static final long BOUND = 256L << 20;

  @Autowired private JdbcTemplate database;

  private static String row(String locator) {
    return "omafra-susceptibility-table,apple,M.7,fire-blight,resistant,,,,"
        + locator
        + ",a note of usual length that says a little more about the value\n";
  }

  /** A file that is made while it is sent. */
  private static InputStream file(int rows, IntFunction<String> row) {
    return new SequenceInputStream(
        new Enumeration<>() {
          private int at = -1;

          @Override
          public boolean hasMoreElements() {
            return at < rows;
          }

          @Override
          public InputStream nextElement() {
            if (!hasMoreElements()) throw new NoSuchElementException();
            StringBuilder text = new StringBuilder(at < 0 ? HEADER : "");
            if (at < 0) at = 0;
            for (int end = Math.min(rows, at + 1000); at < end; at++) text.append(row.apply(at));
            return new java.io.ByteArrayInputStream(
                text.toString().getBytes(StandardCharsets.UTF_8));
          }
        });
  }

  private CompletableFuture<HttpResponse<String>> send(
      String mode, int rows, IntFunction<String> row) {
    return HttpClient.newHttpClient()
        .sendAsync(
            HttpRequest.newBuilder(
                    URI.create(
                        "http://localhost:"
                            + port()
                            + "/v1/curation/imports?kind=ratings&mode="
                            + mode))
                .header("Authorization", "Bearer " + tokens().proposer())
                .header("Content-Type", "text/csv")
                .POST(HttpRequest.BodyPublishers.ofInputStream(() -> file(rows, row)))
                .build(),
            HttpResponse.BodyHandlers.ofString());
  }

  /** What the last collections left, over all pools of the heap: what is really held. */
  private static long held() {
    long sum = 0;
    for (MemoryPoolMXBean pool : ManagementFactory.getMemoryPoolMXBeans()) {
      if (pool.getType() == MemoryType.HEAP && pool.getCollectionUsage() != null)
        sum += pool.getCollectionUsage().getUsed();
    }
    return sum;
  }

  private static long mostHeldWhile(CompletableFuture<?> running) throws InterruptedException {
    long most = 0;
    while (!running.isDone()) {
      System.gc();
      most = Math.max(most, held());
      Thread.sleep(2000);
    }
    return most;
  }

  private List<String> running() {
    return given()
        .header("Authorization", "Bearer " + tokens().reviewer())
        .get("/v1/curation/imports?status=running")
        .path("items.id");
  }

  @Test
  void a_hundred_thousand_rows_need_little_memory_and_tell_how_far_they_are() throws Exception {
    System.gc();
    long idle = held();
    CompletableFuture<HttpResponse<String>> sent =
        send("all-or-nothing", 100_000, i -> row("row " + i));
    String id = null;
    long seen = 0;
    long most = 0;
    for (int i = 0; !sent.isDone(); i++) {
      if (i % 10 == 9) System.gc();
      most = Math.max(most, held());
      if (id == null) id = running().stream().findFirst().orElse(null);
      else
        seen =
            Math.max(
                seen,
                ((Number)
                        given()
                            .header("Authorization", "Bearer " + tokens().reviewer())
                            .get("/v1/curation/imports/" + id)
                            .path("rows"))
                    .longValue());
      Thread.sleep(300);
    }
    JsonPath answer = JsonPath.from(sent.get().body());
    assertThat(sent.get().statusCode()).as(sent.get().body()).isEqualTo(201);
    assertThat(answer.getLong("proposed")).isEqualTo(100_000);
    assertThat(answer.getString("id")).isEqualTo(id);
    assertThat(seen).as("rows told while it ran").isBetween(1L, 100_000L);
    System.out.println("100 000 rows: " + (most - idle >> 20) + " MiB above idle");
    assertThat(most - idle).as("bytes held above idle").isLessThan(BOUND);
    assertThat(
            database.queryForObject(
                "select count(*) from records where import_id = ?", Long.class, id))
        .isEqualTo(100_000);
  }

  /**
   * Every row says the same: one is kept, the others are told, the first thousand of them in words.
   */
  @Test
  void two_hundred_megabytes_of_one_row() throws Exception {
    String same = row("same").replace("a note", "a note " + "that goes on and on ".repeat(90));
    int rows = 200_000_000 / same.length();
    System.gc();
    long idle = held();
    CompletableFuture<HttpResponse<String>> sent = send("row-by-row", rows, i -> same);
    long most = mostHeldWhile(sent);
    JsonPath answer = JsonPath.from(sent.get().body());
    assertThat(sent.get().statusCode()).isEqualTo(201);
    assertThat(answer.getLong("rows")).isEqualTo(rows);
    assertThat(answer.getLong("proposed")).isEqualTo(1);
    assertThat(answer.getLong("refused")).isEqualTo(rows - 1);
    assertThat(answer.getList("problems")).hasSize(1000);
    System.out.println("200 MB: " + (most - idle >> 20) + " MiB above idle");
    assertThat(most - idle).as("bytes held above idle").isLessThan(BOUND);
  }

  @Test
  void a_body_beyond_the_limit_is_refused() throws Exception {
    int rows = 270_000_000 / row("too much").length();
    try {
      HttpResponse<String> answer = send("row-by-row", rows, i -> row("too much")).get();
      assertThat(answer.statusCode()).isEqualTo(413);
    } catch (java.util.concurrent.ExecutionException e) {
      assertThat(e)
          .as("the service may hang up before the client has sent all")
          .hasCauseInstanceOf(IOException.class);
    }
    assertThat(
            database.queryForObject(
                "select count(*) from records where locator = 'too much'", Long.class))
        .isZero();
  }

  /**
   * What a killed process leaves is what a broken connection leaves: the transaction is rolled
   * back.
   */
  @Test
  void an_import_that_breaks_off_leaves_nothing_and_completes_when_sent_again() throws Exception {
    for (String mode : List.of("all-or-nothing", "row-by-row")) {
      IntFunction<String> row = i -> row("broken " + mode + " " + i);
      CompletableFuture<HttpResponse<String>> sent = send(mode, 20_000, row);
      int ended = 0;
      while (ended == 0 && !sent.isDone()) {
        ended =
            database.queryForObject(
                """
            select count(pg_terminate_backend(pid)) from pg_stat_activity
            where pid <> pg_backend_pid() and backend_type = 'client backend' and xact_start < clock_timestamp() - interval '200 milliseconds'""",
                Integer.class);
        Thread.sleep(20);
      }
      assertThat(ended).as("connections that were broken").isPositive();
      assertThat(sent.get().statusCode()).as(sent.get().body()).isGreaterThanOrEqualTo(500);
      assertThat(
              database.queryForObject(
                  "select count(*) from records where locator like ?",
                  Long.class,
                  "broken " + mode + "%"))
          .isZero();
      HttpResponse<String> again = send(mode, 20_000, row).get();
      assertThat(again.statusCode()).as(again.body()).isEqualTo(201);
      assertThat(JsonPath.from(again.body()).getLong("proposed")).isEqualTo(20_000);
    }
  }
}
