package org.understock.service.store;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import javax.sql.DataSource;
import org.springframework.jdbc.datasource.DriverManagerDataSource;
import org.understock.migrations.Migrations;
import org.understock.migrations.ServiceRole;
import org.understock.migrations.StarterLoader;

/**
 * A PostgreSQL server of a test's own, always on the same port, which the test can stop, start,
 * freeze and thaw.
 */
public final class OwnServer implements AutoCloseable {
  private static final String ROLE = "understock_service";

  private final Path home;
  private final int port;
  private EmbeddedPostgres server;

  public OwnServer(Path home) throws IOException {
    this.home = home;
    try (ServerSocket free = new ServerSocket(0)) {
      port = free.getLocalPort();
    }
    server = started();
  }

  private EmbeddedPostgres started() throws IOException {
    return EmbeddedPostgres.builder()
        .setOverrideWorkingDirectory(home.resolve("server").toFile())
        .setDataDirectory(home.resolve("data"))
        .setCleanDataDirectory(false)
        .setPort(port)
        .start();
  }

  /**
   * Migrates and loads as the owner, as an operator does before the service runs under a role of
   * its own.
   *
   * @return arguments of a service that runs under that role, which can't alter the schema
   */
  public List<String> migrated() throws SQLException {
    DataSource owner = new DriverManagerDataSource(url(), "postgres", "postgres");
    Migrations.migrate(owner);
    StarterLoader.loadIfEmpty(owner);
    ServiceRole.grant(owner, ROLE, ROLE);
    return List.of(
        "--understock.migrate=false",
        "--spring.datasource.url=" + url(),
        "--spring.datasource.username=" + ROLE,
        "--spring.datasource.password=" + ROLE);
  }

  public String url() {
    return "jdbc:postgresql://localhost:" + port + "/postgres";
  }

  public void stop() throws IOException {
    server.close();
  }

  public void start() throws IOException {
    server = started();
  }

  /** The server and all its processes stay, and answer nothing. */
  public void freeze() throws IOException, InterruptedException {
    signal("-STOP");
  }

  public void thaw() throws IOException, InterruptedException {
    signal("-CONT");
  }

  private void signal(String signal) throws IOException, InterruptedException {
    long pid =
        Long.parseLong(Files.readAllLines(home.resolve("data/postmaster.pid")).get(0).strip());
    ProcessHandle main = ProcessHandle.of(pid).orElseThrow();
    List<String> command = new ArrayList<>(List.of("kill", signal));
    Stream.concat(Stream.of(main), main.descendants())
        .forEach(process -> command.add(String.valueOf(process.pid())));
    Process kill = new ProcessBuilder(command).redirectErrorStream(true).start();
    String said = new String(kill.getInputStream().readAllBytes());
    // A child that has gone meanwhile is no matter; the main process is there.
    if (kill.waitFor() != 0 && !said.contains("No such process"))
      throw new IOException(command + ": " + said);
  }

  @Override
  public void close() throws IOException {
    server.close();
  }
}
