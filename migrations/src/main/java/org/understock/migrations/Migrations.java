package org.understock.migrations;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
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
      usage: [--url jdbc:postgresql://host/database] [--user name] [--service-role name]
      environment: UNDERSTOCK_DB_URL, UNDERSTOCK_DB_USER, UNDERSTOCK_DB_SERVICE_ROLE for the same; UNDERSTOCK_DB_PASSWORD, and
        UNDERSTOCK_DB_SERVICE_PASSWORD where the service's role is to be made or get another password. Passwords are taken from
        there only, or from the file that the same name with _FILE at its end names.
      --service-role: gives that role what the running service needs, and nothing more; it then runs with understock.migrate=false
      exit codes: 0 done, 1 the database refused or can't be reached, 2 called wrongly""";

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
    String role = option(given, "--service-role", System.getenv("UNDERSTOCK_DB_SERVICE_ROLE"));
    try {
      String password = secret("UNDERSTOCK_DB_PASSWORD");
      if (password != null) database.setPassword(password);
      System.out.println(migrate(database) + " schema changes applied");
      Optional<Report> report = StarterLoader.loadIfEmpty(database);
      System.out.println(
          report
              .map(r -> "revision 1 loaded: " + r.details())
              .orElse("the database has evidence already; nothing loaded"));
      if (role != null) {
        ServiceRole.grant(database, role, secret("UNDERSTOCK_DB_SERVICE_PASSWORD"));
        System.out.println("role " + role + " may do what the service does");
      }
    } catch (FlywayException | SQLException e) {
      System.err.println(String.valueOf(e.getMessage()).strip());
      System.exit(1);
    } catch (IOException e) {
      System.err.println("a password can't be read: " + e);
      System.exit(2);
    }
  }

  private static @Nullable String secret(String name) throws IOException {
    String file = System.getenv(name + "_FILE");
    return file == null ? System.getenv(name) : Files.readString(Path.of(file)).strip();
  }

  private static @Nullable String option(
      List<String> args, String name, @Nullable String otherwise) {
    int at = args.indexOf(name);
    return at >= 0 && at + 1 < args.size() ? args.get(at + 1) : otherwise;
  }
}
