package org.understock.migrations;

import static org.assertj.core.api.Assertions.assertThat;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import javax.sql.DataSource;
import org.junit.jupiter.api.Test;
import org.understock.evidence.Canonical;
import org.understock.evidence.Evidence;
import org.understock.evidence.Ordering;
import org.understock.evidence.TraitRecord;

class LoadTest {

  @Test
  void whatIsLoadedReadsBackEqual() throws SQLException {
    DataSource database = TestDatabase.empty();
    Migrations.migrate(database);
    Instant start = Instant.now();
    Report report = StarterLoader.loadIfEmpty(database).orElseThrow();
    Instant loaded = Instant.now();
    Evidence stored = StoredEvidence.read(database, 1);
    System.out.println(
        "loaded in "
            + Duration.between(start, loaded).toMillis()
            + " ms, read back in "
            + Duration.between(loaded, Instant.now()).toMillis()
            + " ms");
    System.out.println(report.details());
    StarterEvidence starter = StarterEvidence.read();
    assertThat(stored.records()).isEqualTo(starter.evidence().records());
    assertThat(stored.sources()).isEqualTo(starter.evidence().sources());
    assertThat(stored.traits().all()).isEqualTo(starter.evidence().traits().all());
    assertThat(stored.plants().stocks())
        .extracting(Canonical::text)
        .isEqualTo(starter.evidence().plants().stocks().stream().map(Canonical::text).toList());
    assertThat(stored.plants().varieties())
        .extracting(Canonical::text)
        .isEqualTo(starter.evidence().plants().varieties().stream().map(Canonical::text).toList());
  }

  @Test
  void theDigestCanBeComputedAgainFromWhatIsStored() throws SQLException {
    DataSource database = TestDatabase.loaded();
    try (Connection connection = database.getConnection();
        Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery("select digest from revisions where number = 1")) {
      row.next();
      List<Ordering> orderings = StoredEvidence.orderings(connection, 1);
      assertThat(orderings).hasSize(StarterEvidence.read().orderings().size());
      assertThat(Canonical.digest("", StoredEvidence.read(connection, 1), orderings))
          .isEqualTo(row.getString(1));
    }
  }

  @Test
  void migratingAndLoadingTwiceChangesNothing() throws SQLException {
    DataSource database = TestDatabase.loaded();
    assertThat(Migrations.migrate(database)).isZero();
    assertThat(StarterLoader.loadIfEmpty(database)).isEmpty();
    try (Connection connection = database.getConnection()) {
      assertThat(StoredEvidence.latest(connection)).hasValue(1);
    }
  }

  @Test
  void anEmptyDatabaseHasNoRevision() throws SQLException {
    DataSource database = TestDatabase.empty();
    assertThat(Migrations.migrate(database)).isEqualTo(6);
    try (Connection connection = database.getConnection()) {
      assertThat(StoredEvidence.latest(connection)).isEmpty();
    }
  }

  /** Withdrawn in revision 2: gone as of 2, still there as of 1. */
  @Test
  void historyIsReadAsOfARevision() throws SQLException {
    DataSource database = TestDatabase.loaded();
    String id = StarterEvidence.read().evidence().records().get(0).id();
    try (Connection connection = database.getConnection();
        Statement statement = connection.createStatement()) {
      statement.execute(
          "insert into revisions (number, digest, previous_digest, note, created_by) select 2, repeat('b', 64), digest, 'n', 'a test' from revisions");
      statement.execute(
          "update records set status = 'withdrawn', revision_to = 2 where id = '" + id + "'");
    }
    assertThat(StoredEvidence.read(database, 1).records()).extracting(TraitRecord::id).contains(id);
    assertThat(StoredEvidence.read(database, 2).records())
        .extracting(TraitRecord::id)
        .doesNotContain(id);
  }

  /** Replicas that start together on one new database: one loads, the others find it loaded. */
  @Test
  void ofFourLoadersAtOnceOneLoads() throws Exception {
    DataSource database = TestDatabase.empty();
    Migrations.migrate(database);
    ExecutorService pool = Executors.newFixedThreadPool(4);
    try {
      Callable<Optional<Report>> load = () -> StarterLoader.loadIfEmpty(database);
      int loads = 0;
      for (Future<Optional<Report>> done : pool.invokeAll(List.of(load, load, load, load)))
        if (done.get().isPresent()) loads++;
      assertThat(loads).isEqualTo(1);
    } finally {
      pool.shutdownNow();
    }
  }
}
