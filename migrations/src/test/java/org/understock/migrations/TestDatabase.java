package org.understock.migrations;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.concurrent.atomic.AtomicInteger;
import javax.sql.DataSource;

/**
 * One real PostgreSQL server for all tests of this module, a database of its own for each class.
 */
final class TestDatabase {
  private static final AtomicInteger COUNT = new AtomicInteger();
  private static final EmbeddedPostgres SERVER = start();

  private TestDatabase() {}

  private static EmbeddedPostgres start() {
    try {
      EmbeddedPostgres server = EmbeddedPostgres.builder().start();
      Runtime.getRuntime()
          .addShutdownHook(
              new Thread(
                  () -> {
                    try {
                      server.close();
                    } catch (IOException e) {
                      throw new UncheckedIOException(e);
                    }
                  }));
      return server;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A new, empty database. */
  static DataSource empty() throws SQLException {
    String name = "test_" + COUNT.incrementAndGet();
    try (Connection connection = SERVER.getPostgresDatabase().getConnection();
        Statement statement = connection.createStatement()) {
      statement.execute("create database " + name);
    }
    return SERVER.getDatabase("postgres", name);
  }

  /** A new database with schema and starter evidence. */
  static DataSource loaded() throws SQLException {
    DataSource database = empty();
    Migrations.migrate(database);
    if (StarterLoader.loadIfEmpty(database).isEmpty())
      throw new IllegalStateException("the database was not empty");
    return database;
  }
}
