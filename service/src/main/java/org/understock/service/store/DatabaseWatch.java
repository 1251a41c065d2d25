package org.understock.service.store;

import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.util.Optional;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.DisposableBean;
import org.springframework.stereotype.Component;

/** Asks the database all the time whether it is there; on a thread of its own, because one that hangs would stop the asker. */
@Component
class DatabaseWatch implements Freshness, DisposableBean {
  private static final Logger LOG = LoggerFactory.getLogger(DatabaseWatch.class);
  private static final long EVERY_MS = 1_000;
  private static final int ANSWER_WITHIN_S = 2;

  private final DataSource database;
  private final ScheduledExecutorService asker = Executors.newSingleThreadScheduledExecutor(task -> {
    Thread thread = new Thread(task, "database-watch");
    thread.setDaemon(true);
    return thread;
  });
  private volatile @Nullable Instant staleSince;
  private Instant answered = Instant.now(); // used by the asker's thread only

  DatabaseWatch(DataSource database) {
    this.database = database;
    asker.scheduleWithFixedDelay(this::ask, EVERY_MS, EVERY_MS, TimeUnit.MILLISECONDS);
  }

  @Override
  public Optional<Instant> staleSince() {
    return Optional.ofNullable(staleSince);
  }

  private void ask() {
    Instant asked = Instant.now();
    try (Connection connection = database.getConnection()) {
      if (!connection.isValid(ANSWER_WITHIN_S)) throw new SQLException("no answer within " + ANSWER_WITHIN_S + " s");
      if (staleSince != null) LOG.info("The database is back; it was away since {}", staleSince);
      answered = asked; // not the time of the answer: what was accepted in between is not known
      staleSince = null;
    } catch (SQLException | RuntimeException e) { // a runtime exception, too, would end the watch for ever
      if (asker.isShutdown()) return;
      if (staleSince == null) LOG.warn("The database is away: {}. Answers about the latest revision go on from memory.", e.getMessage());
      staleSince = answered;
    }
  }

  @Override
  public void destroy() {
    asker.shutdownNow();
  }
}
