package org.understock.service.curation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.sql.Connection;
import java.sql.Timestamp;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.understock.service.curation.Client.Answer;

/**
 * What becomes of curation when the database has no connection left, is cut off or stopped in
 * mid-review, and when many want the same at once.
 */
class FaultsTest extends TwoReplicas {
  private static final String ADVICE =
      """
      {"crop": "apple", "goal": {"purpose": "home-garden"}, "candidates": {"varieties": ["gala"]}, "limit": 3}""";
  private static final List<String> READS =
      List.of(
          "/v1/stocks/m-9",
          "/v1/stocks?crop=apple&q=mm 106",
          "/v1/varieties/gala",
          "/v1/traits",
          "/v1/sources?limit=5",
          "/v1/estimates?crop=apple&subject=m-7",
          "/v1/revisions",
          "/v1/crops");

  private static final int NO_ANSWER = -1;

  /** Records of a review that is to be hit in its middle. */
  private static final int MANY = 300;

  @Test
  void without_a_free_connection_advice_goes_on_and_curation_asks_to_come_back() throws Exception {
    String before = other.post("/v1/advice", ADVICE).text();
    String locator = once("no connection");
    List<Connection> held = holdAll();
    try {
      long begun = System.nanoTime();
      Answer refused =
          other.propose(
              Client.rating(locator, "resistant"), "Idempotency-Key", UUID.randomUUID().toString());
      System.out.println(
          "Without a free connection curation answered after "
              + (System.nanoTime() - begun) / 1_000_000
              + " ms.");
      away(refused);
      away(other.review("{\"accept\": [\"r-0000000000000000\"]}"));
      away(other.getAs(other.tokens().proposer(), "/v1/curation/records"));
      assertThat(other.post("/v1/advice", ADVICE).text()).isEqualTo(before);
      for (String read : READS) assertThat(other.get(read).status()).as(read).isEqualTo(200);
      assertThat(other.get("/actuator/health/readiness").status()).isEqualTo(200);

      long revision =
          one.accepted(List.of(one.proposed(once("meanwhile")))).json().getLong("revision");
      await()
          .atMost(SOON)
          .until(
              () ->
                  other.latest() >= revision
                      || other.get("/v1/stocks/m-9").header("Evidence-Stale-Since").isPresent());
    } finally {
      for (Connection connection : held) connection.close();
    }
    assertThat(count("select count(*) from records where locator = ?", locator)).isZero();
    assertThat(other.propose(Client.rating(locator, "resistant")).status()).isEqualTo(201);
    awaitRevision(other, one.latest());
    awaitRecovery();
  }

  private static void away(Answer answer) {
    assertThat(answer.status()).as(answer.text()).isEqualTo(503);
    assertThat(answer.json().getString("type")).isEqualTo("/problems/database-away");
    assertThat(answer.header("Retry-After")).isPresent();
  }

  @Test
  void a_review_is_whole_or_refused_when_the_database_stops_under_it() throws Exception {
    long wholeMs = unbroken();
    for (int tenths : List.of(3, 8)) {
      int delayMs = (int) (wholeMs * tenths / 10);
      List<String> told =
          brokenReview(
              delayMs,
              () -> {
                server.stop();
                server.start();
              });
      System.out.println("The database stopped " + delayMs + " ms into a review: " + told);
    }
    assertThat(one.verified()).isTrue();
  }

  @Test
  void a_review_is_whole_or_refused_when_its_connection_is_cut() throws Exception {
    long wholeMs = unbroken();
    for (int tenths : List.of(1, 4, 7, 8, 9, 10, 11)) {
      int delayMs = (int) (wholeMs * tenths / 10);
      List<String> told =
          brokenReview(
              delayMs,
              () ->
                  count(
                      "select count(pg_terminate_backend(pid)) from pg_stat_activity where application_name = 'one'"));
      System.out.println(
          "The connections cut " + delayMs + " ms into a review of " + wholeMs + " ms: " + told);
    }
    assertThat(one.verified()).isTrue();
  }

  /** How long a review takes that nothing happens to. */
  private static long unbroken() throws Exception {
    List<String> ids = file(MANY);
    long begun = System.nanoTime();
    one.accepted(ids);
    return (System.nanoTime() - begun) / 1_000_000;
  }

  private interface Step {
    void take() throws Exception;
  }

  /**
   * A review of many records, with something happening in its middle, and the same review
   * again. @return the two statuses
   */
  private static List<String> brokenReview(int delayMs, Step fault) throws Exception {
    List<String> ids = file(MANY);
    String key = UUID.randomUUID().toString();
    String body = "{\"accept\": " + Client.list(ids) + "}";
    long before = count("select max(number) from revisions");
    ExecutorService reviewer = Executors.newSingleThreadExecutor();
    Future<Integer> first =
        reviewer.submit(
            () -> {
              try {
                Answer answer = one.review(body, "Idempotency-Key", key);
                if (answer.status() == 503) assertThat(answer.header("Retry-After")).isPresent();
                return answer.status();
              } catch (IOException e) {
                return NO_ANSWER;
              }
            });
    reviewer.shutdown();
    TimeUnit.MILLISECONDS.sleep(delayMs);
    fault.take();
    int status = first.get();
    assertThat(status).isIn(201, 503, NO_ANSWER);
    awaitRecovery();
    long counting =
        count(
            "select count(*) from records where id = any(?) and status = 'accepted'",
            (Object) ids.toArray(new String[0]));
    long made = count("select max(number) from revisions") - before;
    assertThat(counting).as("all or nothing").isIn(0L, (long) ids.size());
    assertThat(made).isEqualTo(counting == 0 ? 0 : 1);
    if (status == 201) assertThat(made).as("what was acknowledged is there").isOne();

    Answer again = one.review(body, "Idempotency-Key", key);
    assertThat(again.status()).as(again.text()).isEqualTo(201);
    assertThat(again.header("Idempotency-Replayed").isPresent())
        .as("the answer of what was done already")
        .isEqualTo(made == 1);
    assertThat(again.json().getLong("revision")).isEqualTo(before + 1);
    assertThat(count("select max(number) from revisions")).isEqualTo(before + 1);
    awaitRevision(one, before + 1);
    awaitRevision(other, before + 1);
    return List.of(String.valueOf(status), made == 1 ? "was done" : "was not done");
  }

  @Test
  void thousands_of_records_are_reviewed_at_once() throws Exception {
    List<String> ids = file(5000);
    long begun = System.nanoTime();
    Answer reviewed = one.accepted(ids);
    long acceptedMs = (System.nanoTime() - begun) / 1_000_000;
    assertThat(reviewed.json().getInt("accepted")).isEqualTo(5000);
    assertThat(
            count(
                "select count(distinct subject) from audit where request = ? and action = 'accept'",
                reviewed.request()))
        .isEqualTo(5000);
    assertThat(count("select count(*) from audit where request = ?", reviewed.request()))
        .isEqualTo(5001);
    begun = System.nanoTime();
    Answer withdrawn = one.review("{\"withdraw\": " + Client.list(ids) + "}");
    assertThat(withdrawn.status()).as(withdrawn.text()).isEqualTo(201);
    assertThat(withdrawn.json().getInt("withdrawn")).isEqualTo(5000);
    System.out.println(
        "5000 records were accepted in "
            + acceptedMs
            + " ms and withdrawn in "
            + (System.nanoTime() - begun) / 1_000_000
            + " ms.");
    assertThat(one.verified()).isTrue();
    awaitRevision(other, withdrawn.json().getLong("revision"));
  }

  @Test
  void of_many_who_file_the_same_at_once_one_is_taken() throws Exception {
    for (int round = 0; round < 6; round++) {
      String locator = once("the same");
      String source = "source-" + UUID.randomUUID();
      oneTaken(client -> client.propose(Client.rating(locator, "resistant")));
      assertThat(count("select count(*) from records where locator = ?", locator)).isOne();
      oneTaken(
          client ->
              client.send(
                  "POST",
                  "/v1/curation/sources",
                  client.tokens().proposer(),
                  "application/json",
                  "{\"id\": \""
                      + source
                      + "\", \"kind\": \"handbook\", \"title\": \"An invented book\", \"year\": \"2024\"}"));
      assertThat(count("select count(*) from audit where subject = ?", "source " + source)).isOne();
    }
  }

  private interface Sending {
    Answer by(Client client) throws Exception;
  }

  private static void oneTaken(Sending sending) throws Exception {
    ExecutorService senders = Executors.newFixedThreadPool(6);
    List<Future<Answer>> answers = new ArrayList<>();
    for (int i = 0; i < 6; i++) {
      Client client = i % 2 == 0 ? one : other;
      answers.add(senders.submit(() -> sending.by(client)));
    }
    senders.shutdown();
    int taken = 0;
    for (Future<Answer> answer : answers) {
      assertThat(answer.get().status()).as(answer.get().text()).isIn(201, 409);
      if (answer.get().status() == 201) taken++;
    }
    assertThat(taken).isOne();
  }

  @Test
  void revisions_are_dated_in_their_order_however_long_reviewers_waited() throws Exception {
    ExecutorService reviewers = Executors.newFixedThreadPool(8);
    List<Future<Answer>> answers = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      Client client = i % 3 == 0 ? other : one;
      String id = client.proposed(once("in order"));
      String[] headers =
          i % 2 == 0
              ? new String[0]
              : new String[] {"Idempotency-Key", UUID.randomUUID().toString()};
      answers.add(reviewers.submit(() -> client.accepted(List.of(id), headers)));
    }
    reviewers.shutdown();
    long last = 0;
    for (Future<Answer> answer : answers)
      last = Math.max(last, answer.get().json().getLong("revision"));
    List<Timestamp> dates =
        database.queryForList("select created_at from revisions order by number", Timestamp.class);
    assertThat(dates).isSorted().hasSize((int) last);
    awaitRevision(one, last);
    awaitRevision(other, last);
    assertThat(other.get("/v1/revisions?limit=200").body())
        .isEqualTo(one.get("/v1/revisions?limit=200").body());
  }

  @Test
  void an_operator_may_let_people_review_their_own_words() throws Exception {
    String both = one.tokens().of("alone", "evidence:propose evidence:review");
    Answer filed =
        one.send(
            "POST",
            "/v1/curation/records",
            both,
            "application/json",
            Client.rating(once("own words"), "resistant"));
    String id = filed.json().getString("id");
    String review = "{\"accept\": [\"" + id + "\"]}";
    Answer refused = one.send("POST", "/v1/curation/reviews", both, "application/json", review);
    assertThat(refused.status()).isEqualTo(403);
    assertThat(refused.json().getString("type")).isEqualTo("/problems/four-eyes");
    Answer allowed = other.send("POST", "/v1/curation/reviews", both, "application/json", review);
    assertThat(allowed.status()).as(allowed.text()).isEqualTo(201);
    awaitRevision(one, allowed.json().getLong("revision"));
  }

  @Test
  void kept_answers_go_away_when_they_are_due() throws Exception {
    String key = UUID.randomUUID().toString();
    String body = Client.rating(once("kept"), "resistant");
    assertThat(one.propose(body, "Idempotency-Key", key).status()).isEqualTo(201);
    database.update(
        """
        insert into kept_answers (actor, operation, key, fingerprint, status, headers, body, at)
        select actor, operation, key || '-' || i, fingerprint, status, headers, body, now() - interval '25 hours'
        from kept_answers, generate_series(1, 20) i where key = ?""",
        key);
    Answer anew =
        one.propose(
            Client.rating(once("kept no longer"), "resistant"), "Idempotency-Key", key + "-7");
    assertThat(anew.status()).as("the key is free again: " + anew.text()).isEqualTo(201);
    assertThat(anew.header("Idempotency-Replayed")).isEmpty();
    assertThat(count("select count(*) from kept_answers where at <= now() - interval '24 hours'"))
        .isZero();
    assertThat(one.propose(body, "Idempotency-Key", key).header("Idempotency-Replayed"))
        .as("what is not due stays")
        .contains("true");
  }
}
