package org.understock.service.curation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeAll;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.web.server.servlet.context.ServletWebServerApplicationContext;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.datasource.DriverManagerDataSource;
import org.understock.service.Tokens;
import org.understock.service.UnderstockApplication;
import org.understock.service.store.OwnServer;

/**
 * Two services on one database server that the tests can stop, started once for all tests that need
 * them, under the role that can't alter the schema. The other has a pool of a few connections, and
 * its operator allows reviews of one's own words.
 */
abstract class TwoReplicas {
  /** Connections in the other replica's pool. */
  static final int OTHERS_POOL = 4;

  static final Duration SOON = Duration.ofSeconds(30);

  static OwnServer server;
  private static List<String> asRole;
  static ConfigurableApplicationContext oneService;
  static ConfigurableApplicationContext otherService;
  static Client one;
  static Client other;

  /** Asks the database directly, on connections of the tests' own. */
  static JdbcTemplate database;

  @BeforeAll
  static void start() throws Exception {
    if (server != null) return;
    Path home = Files.createTempDirectory("understock-replicas");
    server = new OwnServer(home);
    Path key = Tokens.makeKey(home);
    asRole = server.migrated();
    oneService =
        service(home, key, "--spring.datasource.hikari.data-source-properties.ApplicationName=one");
    otherService =
        service(
            home,
            key,
            "--spring.datasource.hikari.data-source-properties.ApplicationName=other",
            "--spring.datasource.hikari.maximum-pool-size=" + OTHERS_POOL,
            "--understock.curation.four-eyes=false");
    one = new Client(port(oneService), Tokens.ofHome(home));
    other = new Client(port(otherService), Tokens.ofHome(home));
    database = new JdbcTemplate(new DriverManagerDataSource(server.url(), "postgres", "postgres"));
    Runtime.getRuntime().addShutdownHook(new Thread(TwoReplicas::stop));
  }

  private static void stop() {
    oneService.close();
    otherService.close();
    try {
      server.close();
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static ConfigurableApplicationContext service(Path home, Path key, String... more) {
    List<String> arguments =
        new ArrayList<>(
            List.of(
                "--server.port=0",
                "--understock.home=" + home.resolve("unused"),
                "--understock.security.key=" + key,
                "--understock.security.issuer=" + Tokens.ISSUER));
    arguments.addAll(asRole);
    arguments.addAll(Arrays.asList(more));
    return new SpringApplication(UnderstockApplication.class).run(arguments.toArray(new String[0]));
  }

  private static int port(ConfigurableApplicationContext service) {
    return ((ServletWebServerApplicationContext) service).getWebServer().getPort();
  }

  /** What makes a locator another one than that of any other test. */
  static String once(String text) {
    return text + " " + UUID.randomUUID();
  }

  /** Waits until a client sees a revision. @return milliseconds that it took */
  static long awaitRevision(Client client, long number) {
    long begun = System.nanoTime();
    await()
        .atMost(SOON)
        .pollDelay(Duration.ZERO)
        .pollInterval(Duration.ofMillis(5))
        .until(() -> client.latest() >= number);
    return (System.nanoTime() - begun) / 1_000_000;
  }

  /** Waits until the database answers the tests and both services know that it does. */
  static void awaitRecovery() {
    await()
        .atMost(SOON)
        .ignoreExceptionsInstanceOf(DataAccessException.class)
        .until(() -> database.queryForObject("select 1", Integer.class) == 1);
    for (Client client : List.of(one, other)) {
      await()
          .atMost(SOON)
          .until(
              () ->
                  client.get("/actuator/health").status() == 200
                      && client.get("/v1/stocks/m-9").header("Evidence-Stale-Since").isEmpty());
    }
  }

  /**
   * Files many proposals at once, past the door: what they say is the same, the place in the source
   * differs. @return their ids
   */
  static List<String> file(int many) {
    String mark = UUID.randomUUID().toString();
    database.update(
        """
        insert into records (id, content_key, status, crop, subject, stock, trait, scale, unit, level, method, source, locator, note, proposed_by)
        select 'r-' || key, key, 'proposed', 'apple', 'stock', 'm-7', 'fire-blight', 'levels', '', 'moderately-resistant', 'expert-rating',
          'omafra-susceptibility-table', ? || ' ' || i, '', 'test-proposer'
        from (select i, substr(md5(? || i), 1, 16) as key from generate_series(1, ?) i) keyed""",
        mark,
        mark,
        many);
    return database.queryForList(
        "select id from records where locator like ? order by id", String.class, mark + " %");
  }

  /** The other replica's pool, empty until the connections are closed. */
  static List<Connection> holdAll() throws SQLException {
    List<Connection> held = new ArrayList<>();
    javax.sql.DataSource pool = otherService.getBean(javax.sql.DataSource.class);
    for (int i = 0; i < OTHERS_POOL; i++) held.add(pool.getConnection());
    assertThat(held).hasSize(OTHERS_POOL);
    return held;
  }

  static long count(String sql, Object... values) {
    Long count = database.queryForObject(sql, Long.class, values);
    return count == null ? 0 : count;
  }
}
