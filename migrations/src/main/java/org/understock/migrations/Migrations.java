package org.understock.migrations;

import java.sql.SQLException;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import javax.sql.DataSource;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.jspecify.annotations.Nullable;
import org.postgresql.ds.PGSimpleDataSource;

/**
 * Brings a PostgreSQL database to the current schema and gives an empty one the starter evidence.
 * Runs on its own or from the service.
 */
public final class Migrations {
  private static final String USAGE =
      """
      usage: [--url jdbc:postgresql://host/database] [--user name]
      environment: UNDERSTOCK_DB_URL, UNDERSTOCK_DB_USER, UNDERSTOCK_DB_PASSWORD (the password is taken from there only)""";

  private Migrations() {}

  /**
   * Applies the schema changes that are missing. Does nothing on a current database.
   *
   * @return how many were applied
   */
  public static int migrate(DataSource database) {
    return Flyway.configure()
        .dataSource(database)
        .locations("classpath:db/migration")
        .load()
        .migrate()
        .migrationsExecuted;
  }

  /**
   * Migrates, loads the starter evidence if there is none, prints what was loaded and what was
   * refused.
   */
  public static void main(String[] args) {
    List<String> given = Arrays.asList(args);
    String url = option(given, "--url", System.getenv("UNDERSTOCK_DB_URL"));
    if (url == null || given.contains("--help")) {
      System.err.println(USAGE);
      System.exit(url == null ? 2 : 0);
      return;
    }
    PGSimpleDataSource database = new PGSimpleDataSource();
    database.setUrl(url);
    String user = option(given, "--user", System.getenv("UNDERSTOCK_DB_USER"));
    if (user != null) database.setUser(user);
    String password = System.getenv("UNDERSTOCK_DB_PASSWORD");
    if (password != null) database.setPassword(password);
    try {
      System.out.println(migrate(database) + " schema changes applied");
      Optional<Report> report = StarterLoader.loadIfEmpty(database);
      System.out.println(
          report
              .map(r -> "revision 1 loaded: " + r.details())
              .orElse("the database has evidence already; nothing loaded"));
    } catch (FlywayException | SQLException e) {
      System.err.println(String.valueOf(e.getMessage()).strip());
      System.exit(1);
    }
  }

  private static @Nullable String option(
      List<String> args, String name, @Nullable String otherwise) {
    int at = args.indexOf(name);
    return at >= 0 && at + 1 < args.size() ? args.get(at + 1) : otherwise;
  }
}
