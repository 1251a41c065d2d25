package org.understock.service.curation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.datasource.DriverManagerDataSource;
import org.understock.service.ServiceProcess;
import org.understock.service.Tokens;
import org.understock.service.curation.Burst.Kind;
import org.understock.service.curation.Burst.Sent;
import org.understock.service.curation.Client.Answer;
import org.understock.service.store.OwnServer;

/**
 * The service is killed at random moments while curators are at work, and started again: what was
 * acknowledged is there, nothing is there by half, no key had two effects, and history is what it
 * was. {@code -Dkill.rounds=50} makes it the rehearsal of deploy/rehearsals.
 */
class KilledServiceTest {
  private static final int ROUNDS = Integer.getInteger("kill.rounds", 3);
  private static final int VERIFY_EVERY = 10;
  private static final long SEED = Long.getLong("kill.seed", System.nanoTime());

  /** What the service's connections call themselves in the database. */
  private static final String NAME = "victim";

  @TempDir private static Path home;

  private static OwnServer server;
  private static ServiceProcess service;
  private static JdbcTemplate database;

  private final List<Sent> acknowledged = new ArrayList<>();
  private final Map<Kind, int[]> cutOff = new EnumMap<>(Kind.class);

  @BeforeAll
  static void start() throws Exception {
    server = new OwnServer(home);
    Path key = Tokens.makeKey(home);
    service =
        new ServiceProcess(
            home.resolve("service.log"),
            List.of(
                "--spring.datasource.url=" + server.url(),
                "--spring.datasource.username=postgres",
                "--spring.datasource.password=postgres",
                "--spring.datasource.hikari.data-source-properties.ApplicationName=" + NAME,
                "--understock.home=" + home.resolve("unused"),
                "--understock.security.key=" + key,
                "--understock.security.issuer=" + Tokens.ISSUER));
    database = new JdbcTemplate(new DriverManagerDataSource(server.url(), "postgres", "postgres"));
  }

  @AfterAll
  static void stop() throws Exception {
    service.close();
    server.close();
  }

  @Test
  void what_was_acknowledged_survives_and_nothing_is_there_by_half() throws Exception {
    System.out.println(
        "Killing the service "
            + ROUNDS
            + " times; -Dkill.seed="
            + SEED
            + " chooses the same moments.");
    Random random = new Random(SEED);
    for (Kind kind : Kind.values()) cutOff.put(kind, new int[2]);
    for (int round = 1; round <= ROUNDS; round++) {
      Burst burst = new Burst(client());
      Thread.sleep(700 + random.nextInt(4000));
      service.kill();
      List<Sent> sent = burst.end();
      /* What the server had begun for the killed process it ends by itself: it is done or undone, but not before the server has noticed. */
      await()
          .atMost(Duration.ofSeconds(30))
          .until(
              () ->
                  count("select count(*) from pg_stat_activity where application_name = ?", NAME)
                      == 0);
      service.restart();
      settle(sent);
      checkWhole();
      if (round % VERIFY_EVERY == 0)
        assertThat(client().verified()).as("the chain after round " + round).isTrue();
    }
    for (Sent request : acknowledged) checkAcknowledged(request);
    assertThat(client().verified()).as("the chain").isTrue();
    report();
  }

  /**
   * Looks at each request of a burst: the acknowledged ones are there; those without an answer are
   * there or not, and once when they are sent again.
   */
  private void settle(List<Sent> sent) throws Exception {
    Client client = client();
    assertThat(client.latest()).isEqualTo(count("select max(number) from revisions"));
    for (Sent request : sent) {
      if (request.answer == null) {
        boolean done = done(request);
        Objects.requireNonNull(cutOff.get(request.kind))[done ? 1 : 0]++;
        if (request.key == null) continue;
        Answer again = request.by(client);
        assertThat(again.status()).as(again.text()).isEqualTo(201);
        assertThat(again.header("Idempotency-Replayed").isPresent())
            .as("an answer is kept where there was an effect, only there")
            .isEqualTo(done);
        request.answer = again;
      }
      assertThat(request.acknowledged()).as(Objects.requireNonNull(request.answer).text()).isTrue();
      acknowledged.add(request);
      checkAcknowledged(request);
    }
  }

  /** Whether a request without an answer had its effect; it must have it whole or not at all. */
  private static boolean done(Sent request) {
    if (request.kind == Kind.REVIEW) {
      long accepted =
          count(
              "select count(*) from records where id = any(?) and status = 'accepted'",
              (Object) request.ids.toArray(new String[0]));
      assertThat(accepted).as("a review, all of it or nothing").isIn(0L, (long) request.ids.size());
      return accepted > 0;
    }
    long filed = count("select count(*) from records where locator like ?", request.mark + "%");
    assertThat(filed)
        .as("a " + request.kind + ", all of it or nothing")
        .isIn(0L, request.kind == Kind.IMPORT ? (long) Burst.ROWS : 1L);
    return filed > 0;
  }

  private static void checkAcknowledged(Sent request) {
    Answer answer = Objects.requireNonNull(request.answer);
    assertThat(done(request)).as("acknowledged, and lost: " + answer.text()).isTrue();
    boolean replayed =
        answer
            .header("Idempotency-Replayed")
            .isPresent(); // the audit names the request that had the effect
    if (request.kind == Kind.REVIEW) {
      long revision = answer.json().getLong("revision");
      assertThat(
              count(
                  "select count(*) from revisions where number = ? and digest = ?",
                  revision,
                  answer.json().getString("digest")))
          .isOne();
      assertThat(
              count(
                  "select count(*) from records where revision_from = ? and id = any(?)",
                  revision,
                  request.ids.toArray(new String[0])))
          .isEqualTo(request.ids.size());
    } else if (request.kind == Kind.IMPORT) {
      assertThat(
              count(
                  "select count(*) from imports i join records r on r.import_id = i.id where i.id = ? and i.status = 'finished'",
                  answer.json().getString("id")))
          .isEqualTo(Burst.ROWS);
    } else {
      assertThat(
              count(
                  "select count(*) from records where id = ? and locator = ?",
                  answer.json().getString("id"),
                  request.mark))
          .isOne();
    }
    long lines =
        switch (request.kind) {
          case PROPOSAL -> 1;
          case REVIEW -> request.ids.size() + 1L;
          case IMPORT -> Burst.ROWS + 1L;
        };
    if (!replayed)
      assertThat(count("select count(*) from audit where request = ?", answer.request()))
          .as("lines in the audit")
          .isEqualTo(lines);
  }

  /** What must hold of the whole database, whatever was sent. */
  private static void checkWhole() {
    none(
        "a statement twice",
        "select locator from records where locator like 'burst %' group by locator having count(*) > 1");
    none(
        "a record without its line, or with two",
        "select r.id from records r where locator like 'burst %'"
            + " and (select count(*) from audit a where a.subject = 'record ' || r.id and a.action = 'propose') <> 1");
    none(
        "an accepted record without its line, or with two",
        "select r.id from records r where locator like 'burst %' and status = 'accepted'"
            + " and (select count(*) from audit a where a.subject = 'record ' || r.id and a.action = 'accept' and a.revision = r.revision_from) <> 1");
    none(
        "a line without its record",
        "select a.id from audit a where a.subject like 'record %'"
            + " and not exists (select from records r where a.subject = 'record ' || r.id and (a.action <> 'accept' or r.revision_from = a.revision))");
    none(
        "a revision without its line, or with two",
        "select number from revisions v where number > 1"
            + " and (select count(*) from audit a where a.action = 'revise' and a.revision = v.number and a.detail = v.digest) <> 1");
    none(
        "a gap, or a broken link",
        "select v.number from revisions v left join revisions p on p.number = v.number - 1 where v.number > 1"
            + " and v.previous_digest is distinct from p.digest");
    none(
        "half an import",
        "select i.id from imports i join records r on r.import_id = i.id group by i.id"
            + " having i.status <> 'finished' or count(*) <> i.proposed");
    none(
        "a kept answer without its effect",
        "select key from kept_answers k where k.operation = 'POST /v1/curation/records'"
            + " and not exists (select from records r where '/v1/curation/records/' || r.id = split_part(k.headers, chr(10), 1))");
  }

  private static void none(String what, String sql) {
    assertThat(database.queryForList(sql, String.class)).as(what).isEmpty();
  }

  private static long count(String sql, Object... values) {
    Long count = database.queryForObject(sql, Long.class, values);
    return count == null ? 0 : count;
  }

  private void report() {
    StringBuilder told = new StringBuilder("Killed " + ROUNDS + " times: ");
    for (Kind kind : Kind.values()) {
      int[] cut = Objects.requireNonNull(cutOff.get(kind));
      told.append(
          String.format(
              Locale.ROOT,
              "%d %ss acknowledged and there (%d cut off, %d of them done), ",
              acknowledged.stream().filter(s -> s.kind == kind).count(),
              kind.name().toLowerCase(Locale.ROOT),
              cut[0] + cut[1],
              cut[1]));
    }
    System.out.println(
        told.append(count("select max(number) from revisions"))
            + " revisions, nothing lost, nothing by half, the chain holds.");
  }

  private static Client client() {
    return new Client(service.port(), Tokens.ofHome(home));
  }
}
