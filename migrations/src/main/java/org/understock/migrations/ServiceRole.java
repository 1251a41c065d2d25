package org.understock.migrations;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Objects;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.postgresql.PGConnection;

/**
 * The role under which the service runs once the migrations have another one: it reads, adds and
 * reviews, but can't alter the schema or rewrite history. What it may do stands in {@code
 * db/grants/service.sql}.
 */
public final class ServiceRole {
  private static final String GRANTS = "/db/grants/service.sql";

  private ServiceRole() {}

  /**
   * Gives the role what the service needs on the current schema and takes everything else away, in
   * one transaction. To be called after every migration, by the owner of the tables.
   *
   * @param password when given, the role is made if it is missing, and its password set to this
   *     one; only a digest goes to the database. When null the role must be there
   * @throws SQLException when the role is missing, could do more than a service may, or the caller
   *     may not grant
   */
  public static void grant(DataSource database, String role, @Nullable String password)
      throws SQLException {
    try (Connection connection = database.getConnection()) {
      if (password != null) make(connection, role, password);
      connection.setAutoCommit(false);
      try (PreparedStatement name =
              connection.prepareStatement("select set_config('understock.service_role', ?, true)");
          Statement grants = connection.createStatement()) {
        name.setString(1, role);
        name.execute();
        grants.execute(grants());
        connection.commit();
      } catch (SQLException e) {
        connection.rollback();
        throw e;
      }
    }
  }

  private static void make(Connection connection, String role, String password)
      throws SQLException {
    try (PreparedStatement missing =
        connection.prepareStatement(
            "select format('create role %I login nosuperuser nocreatedb nocreaterole noreplication', name) "
                + "from (select ? as name) asked where not exists (select from pg_roles where rolname = name)")) {
      missing.setString(1, role);
      try (ResultSet rows = missing.executeQuery();
          Statement create = connection.createStatement()) {
        if (rows.next()) create.execute(rows.getString(1));
      }
    }
    connection
        .unwrap(PGConnection.class)
        .alterUserPassword(role, password.toCharArray(), "scram-sha-256");
  }

  private static String grants() {
    try (InputStream in = ServiceRole.class.getResourceAsStream(GRANTS)) {
      return new String(Objects.requireNonNull(in, GRANTS).readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
