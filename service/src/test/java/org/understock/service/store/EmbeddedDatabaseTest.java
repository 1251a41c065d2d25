package org.understock.service.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class EmbeddedDatabaseTest {
  @Test
  void a_committed_row_survives_a_killed_process_and_its_orphaned_server(@TempDir Path home)
      throws Exception {
    Process holder =
        new ProcessBuilder(
                ProcessHandle.current().info().command().orElseThrow(),
                "-cp",
                System.getProperty("java.class.path"),
                Holder.class.getName(),
                home.toString())
            .redirectError(home.resolve("holder.log").toFile())
            .start();
    BufferedReader said = new BufferedReader(new InputStreamReader(holder.getInputStream()));
    String line = said.readLine();
    while (line != null && !line.equals("committed")) line = said.readLine();
    assertThat(line).as(Files.readString(home.resolve("holder.log"))).isEqualTo("committed");

    assertThatThrownBy(() -> EmbeddedDatabase.start(home))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("in use by another");

    holder.destroyForcibly().waitFor();
    ProcessHandle orphan =
        ProcessHandle.of(
                Long.parseLong(
                    Files.readAllLines(home.resolve("postgres-17/postmaster.pid")).get(0).strip()))
            .orElseThrow();
    assertThat(orphan.isAlive())
        .as("the server outlives its process: there is something to cure")
        .isTrue();

    try (EmbeddedDatabase again = EmbeddedDatabase.start(home);
        Connection connection = connect(again, again.getPassword())) {
      assertThat(orphan.isAlive()).isFalse();
      assertThat(ask(connection, "select note from kept")).isEqualTo("höher");
    }
  }

  @Test
  void it_writes_through_and_asks_for_its_password(@TempDir Path home) throws Exception {
    try (EmbeddedDatabase database = EmbeddedDatabase.start(home)) {
      try (Connection connection = connect(database, database.getPassword())) {
        assertThat(ask(connection, "show fsync")).isEqualTo("on");
        assertThat(ask(connection, "show synchronous_commit")).isEqualTo("on");
        assertThat(ask(connection, "show full_page_writes")).isEqualTo("on");
        assertThat(ask(connection, "show server_encoding")).isEqualTo("UTF8");
        assertThat(
                ask(
                    connection,
                    "select datlocale from pg_database where datname = current_database()"))
            .isEqualTo("C.UTF-8");
      }
      assertThatThrownBy(() -> connect(database, "wrong"))
          .isInstanceOf(SQLException.class)
          .hasMessageContaining("password authentication failed");
      assertThat(
              PosixFilePermissions.toString(
                  Files.getPosixFilePermissions(home.resolve("postgres-17.password"))))
          .isEqualTo("rw-------");
    }
  }

  private static Connection connect(EmbeddedDatabase database, String password)
      throws SQLException {
    return DriverManager.getConnection(database.getJdbcUrl(), database.getUsername(), password);
  }

  private static String ask(Connection connection, String query) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery(query)) {
      assertThat(rows.next()).isTrue();
      return rows.getString(1);
    }
  }

  /** The process that is killed: commits a row, says so and waits. */
  static final class Holder {
    public static void main(String[] args) throws Exception {
      EmbeddedDatabase database = EmbeddedDatabase.start(Path.of(args[0]));
      try (Connection connection = connect(database, database.getPassword());
          Statement statement = connection.createStatement()) {
        statement.execute("create table kept (note text)");
        statement.execute("insert into kept values ('höher')");
      }
      System.out.println("committed");
      Thread.sleep(120_000);
    }
  }
}
