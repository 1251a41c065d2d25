package org.understock.service.store;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.Optional;
import java.util.Properties;
import org.jspecify.annotations.Nullable;
import org.postgresql.PGConnection;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.context.SmartLifecycle;
import org.springframework.stereotype.Component;

/**
 * Keeps this process at the latest revision. It listens to the database on a connection of its own,
 * and asks for the latest number besides, at least twice a second: a notification that was lost
 * with a broken connection delays a revision, but can't hide it.
 */
@Component
class RevisionWatch implements Freshness, SmartLifecycle {
  static final String CHANNEL = "understock_revisions";

  private static final Logger LOG = LoggerFactory.getLogger(RevisionWatch.class);
  private static final int PATIENCE_MS = 400;
  private static final int RETRY_MS = 250;

  private final JdbcConnectionDetails details;
  private final StoredSnapshots snapshots;
  private volatile @Nullable Thread thread;

  /**
   * Times of the clock that nobody sets: were the wall's set back meanwhile, what is in memory
   * would be stale since the future.
   */
  private volatile @Nullable Long awaySinceNanos;

  private volatile long lastSeenNanos = System.nanoTime();

  RevisionWatch(JdbcConnectionDetails details, StoredSnapshots snapshots) {
    this.details = details;
    this.snapshots = snapshots;
  }

  @Override
  public Optional<Instant> staleSince() {
    return Optional.ofNullable(awaySinceNanos).map(RevisionWatch::instant);
  }

  private static Instant instant(long nanos) {
    return Instant.now().minusNanos(System.nanoTime() - nanos);
  }

  @Override
  public void start() {
    Thread watch = new Thread(this::watch, "revision-watch");
    watch.setDaemon(true);
    thread = watch;
    watch.start();
  }

  @Override
  public void stop() {
    Thread watch = thread;
    thread = null;
    if (watch != null) watch.interrupt();
  }

  @Override
  public boolean isRunning() {
    return thread != null;
  }

  private void watch() {
    while (isRunning()) {
      try (Connection connection = connect();
          Statement statement = connection.createStatement()) {
        statement.execute("listen " + CHANNEL);
        while (isRunning()) {
          // Not the time of the answer: what was accepted in between is not known.
          long asked = System.nanoTime();
          if (latest(statement) > snapshots.latest().revision().number()) snapshots.catchUp();
          reached(asked);
          connection.unwrap(PGConnection.class).getNotifications(PATIENCE_MS);
        }
      } catch (SQLException | RuntimeException e) {
        if (isRunning()) missed(e);
      }
    }
  }

  private static long latest(Statement statement) throws SQLException {
    try (ResultSet rows = statement.executeQuery("select max(number) from revisions")) {
      rows.next();
      return rows.getLong(1);
    }
  }

  private Connection connect() throws SQLException {
    Properties properties = new Properties();
    if (details.getUsername() != null) properties.setProperty("user", details.getUsername());
    if (details.getPassword() != null) properties.setProperty("password", details.getPassword());
    properties.setProperty("connectTimeout", "2");
    properties.setProperty(
        "socketTimeout", "3"); // a frozen server must not hold the watch for ever
    properties.setProperty("ApplicationName", "understock revision watch");
    return DriverManager.getConnection(details.getJdbcUrl(), properties);
  }

  private void reached(long asked) {
    lastSeenNanos = asked;
    if (awaySinceNanos == null) return;
    LOG.info(
        "The database is reached again; revision {} is served",
        snapshots.latest().revision().number());
    awaySinceNanos = null;
  }

  private void missed(Exception e) {
    if (awaySinceNanos == null) {
      awaySinceNanos = lastSeenNanos;
      LOG.warn(
          "The database can't be reached since {}: {}", instant(lastSeenNanos), e.getMessage());
      return; // often only the connection broke: a new one is tried at once
    }
    try {
      Thread.sleep(RETRY_MS);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
    }
  }
}
