package org.understock.service.curation;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import javax.sql.DataSource;
import org.junit.jupiter.api.Test;
import org.understock.evidence.Canonical;
import org.understock.evidence.Evidence;
import org.understock.evidence.TraitRecord;
import org.understock.migrations.StoredEvidence;
import org.understock.service.curation.Client.Answer;
import org.understock.service.store.Snapshots;

/**
 * What one replica accepts the other serves, whatever happens to the connections in between; and
 * both count as one door.
 */
class ReplicasTest extends TwoReplicas {
  private static final String ADVICE =
      """
      {"crop": "apple", "site": {"pressures": ["fire-blight"]}, "candidates": {"stocks": ["m-7", "m-9"], "varieties": ["gala"]}, "limit": 3%s}""";

  @Test
  void a_revision_shows_on_the_other_replica_soon_and_both_answer_alike() throws Exception {
    List<Long> times = new ArrayList<>();
    for (int round = 0; round < 8; round++) {
      Client here = round % 2 == 0 ? one : other;
      Client there = round % 2 == 0 ? other : one;
      times.add(seenAfterAReview(here, there));
    }
    System.out.println("A revision showed on the other replica after " + times + " ms.");
    long latest = one.latest();
    for (long revision = latest; revision > latest - 3; revision--) {
      String asOf = ADVICE.formatted(", \"revision\": " + revision);
      assertThat(other.post("/v1/advice", asOf).body())
          .as("as of " + revision)
          .isEqualTo(one.post("/v1/advice", asOf).body());
      assertThat(other.get("/v1/revisions/" + revision).body())
          .isEqualTo(one.get("/v1/revisions/" + revision).body());
    }
    assertThat(other.post("/v1/advice", ADVICE.formatted("")).body())
        .isEqualTo(one.post("/v1/advice", ADVICE.formatted("")).body());
    assertThat(other.get("/v1/revisions?limit=200").body())
        .isEqualTo(one.get("/v1/revisions?limit=200").body());
    assertThat(one.get("/v1/revisions?limit=200").json().getList("items.revision"))
        .as("no gaps")
        .hasSize((int) Math.min(latest, 200));
  }

  /**
   * A replica that follows reads only what came and went, and pools only what that touches: it must
   * hold what one that starts reads.
   */
  @Test
  void a_replica_that_follows_holds_what_one_that_starts_would() throws Exception {
    String first = one.proposed(once("follows"));
    String second = one.proposed(once("follows"));
    awaitRevision(other, accepted(first, second));
    assertThat(one.review("{\"withdraw\": [\"" + first + "\"]}").status()).isEqualTo(201);
    long latest = one.latest();
    awaitRevision(other, latest);
    Evidence followed =
        otherService.getBean(Snapshots.class).at(latest).orElseThrow().book().evidence();
    Evidence read = StoredEvidence.read(otherService.getBean(DataSource.class), latest);
    assertThat(followed.records()).isEqualTo(read.records());
    assertThat(followed.records()).extracting(TraitRecord::id).contains(second);
    assertThat(followed.records()).extracting(TraitRecord::id).doesNotContain(first);
    assertThat(Canonical.contentDigest(followed)).isEqualTo(Canonical.contentDigest(read));
  }

  private static long accepted(String... ids) throws Exception {
    Answer reviewed = one.review("{\"accept\": [\"" + String.join("\", \"", ids) + "\"]}");
    assertThat(reviewed.status()).isEqualTo(201);
    return one.latest();
  }

  @Test
  void after_its_connections_were_cut_the_other_replica_follows_again() throws Exception {
    List<Long> times = new ArrayList<>();
    for (int round = 0; round < 3; round++) {
      String id = one.proposed(once("cut"));
      long cut =
          count(
              "select count(pg_terminate_backend(pid)) from pg_stat_activity"
                  + " where application_name in ('other', 'understock revision watch')");
      assertThat(cut).as("connections cut: the listening ones and the pool").isGreaterThan(2);
      times.add(seen(one, other, id));
    }
    System.out.println(
        "With its connections cut, a revision showed on the other replica after " + times + " ms.");
    awaitRecovery();
    seenAfterAReview(other, one);
  }

  @Test
  void after_the_server_was_started_again_both_go_on() throws Exception {
    long before = one.latest();
    server.stop();
    server.start();
    awaitRecovery();
    assertThat(one.latest()).isEqualTo(before);
    long there = seenAfterAReview(one, other);
    long back = seenAfterAReview(other, one);
    System.out.println(
        "With the server started again, revisions showed on the other replica after "
            + there
            + " and "
            + back
            + " ms.");
    assertThat(one.verified()).isTrue();
  }

  @Test
  void a_key_stands_for_one_request_wherever_it_is_sent() throws Exception {
    String key = UUID.randomUUID().toString();
    String locator = once("by key");
    String proposal = Client.rating(locator, "resistant");
    Answer filed = onceOf(atOnce(client -> client.propose(proposal, "Idempotency-Key", key)));
    assertThat(count("select count(*) from records where locator = ?", locator)).isOne();
    replays(filed, client -> client.propose(proposal, "Idempotency-Key", key));
    assertThat(
            count(
                "select count(*) from audit where subject = ?",
                "record " + filed.json().getString("id")))
        .isOne();

    long before = one.latest();
    String review = "{\"accept\": [\"" + filed.json().getString("id") + "\"]}";
    Answer reviewed = onceOf(atOnce(client -> client.review(review, "Idempotency-Key", key)));
    assertThat(count("select max(number) from revisions")).isEqualTo(before + 1);
    replays(reviewed, client -> client.review(review, "Idempotency-Key", key));
    assertThat(count("select max(number) from revisions")).isEqualTo(before + 1);
    for (Client client : List.of(one, other)) {
      assertThat(
              client
                  .propose(Client.rating(once("other body"), "resistant"), "Idempotency-Key", key)
                  .status())
          .isEqualTo(422);
    }
    awaitRevision(one, before + 1);
    awaitRevision(other, before + 1);
  }

  private interface Sending {
    Answer by(Client client) throws Exception;
  }

  private static List<Answer> atOnce(Sending sending) throws Exception {
    ExecutorService senders = Executors.newFixedThreadPool(8);
    try {
      List<Future<Answer>> waiting = new ArrayList<>();
      for (int i = 0; i < 8; i++) {
        Client client = i % 2 == 0 ? one : other;
        waiting.add(senders.submit(() -> sending.by(client)));
      }
      List<Answer> answers = new ArrayList<>();
      for (Future<Answer> answer : waiting) answers.add(answer.get());
      return answers;
    } finally {
      senders.shutdownNow();
    }
  }

  /**
   * The one answer of a request that was carried out; the others came from it, or were asked to
   * come back.
   */
  private static Answer onceOf(List<Answer> answers) {
    List<Answer> first =
        answers.stream()
            .filter(a -> a.status() == 201 && a.header("Idempotency-Replayed").isEmpty())
            .toList();
    assertThat(first).as("carried out").hasSize(1);
    for (Answer answer : answers) {
      assertThat(answer.status()).as(answer.text()).isIn(201, 409);
      if (answer.status() == 409)
        assertThat(answer.header("Retry-After")).as(answer.text()).isPresent();
      else assertThat(answer.body()).isEqualTo(first.get(0).body());
    }
    return first.get(0);
  }

  private static void replays(Answer first, Sending again) throws Exception {
    for (Client client : List.of(one, other, one)) {
      Answer answer = again.by(client);
      assertThat(answer.status()).isEqualTo(201);
      assertThat(answer.header("Idempotency-Replayed")).contains("true");
      assertThat(answer.body()).isEqualTo(first.body());
      for (String header : List.of("Location", "ETag", "Cache-Control", "Content-Type")) {
        assertThat(answer.header(header)).as(header).isEqualTo(first.header(header));
      }
    }
  }

  private static long seenAfterAReview(Client here, Client there) throws Exception {
    return seen(here, there, here.proposed(once("replicas")));
  }

  /** Milliseconds from a review's answer here until there serves its revision. */
  private static long seen(Client here, Client there, String id) throws Exception {
    Answer reviewed = here.accepted(List.of(id));
    long revision = reviewed.json().getLong("revision");
    assertThat(here.latest()).as("the next answer cites it").isEqualTo(revision);
    long ms = awaitRevision(there, revision);
    assertThat(there.get("/v1/records/" + id).status()).isEqualTo(200);
    return ms;
  }
}
