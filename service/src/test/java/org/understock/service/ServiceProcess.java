package org.understock.service.curation;

import java.io.IOException;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ThreadLocalRandom;
import org.understock.service.Tokens;
import org.understock.service.UnderstockApplication;
import org.understock.service.store.OwnServer;

/**
 * The service in a process of its own, always on the same port, which a test can kill and start
 * again.
 */
final class ServiceProcess implements AutoCloseable {
  /** What its connections call themselves in the database. */
  static final String NAME = "victim";

  private static final Duration PATIENCE = Duration.ofMinutes(5);

  private final Path home;
  private final Path key;
  private final OwnServer server;
  private final int port;
  private Process process;

  ServiceProcess(Path home, Path key, OwnServer server) throws IOException, InterruptedException {
    this.home = home;
    this.key = key;
    this.server = server;
    port = port();
    process = started();
  }

  /**
   * One below those that systems give to outgoing connections: while the service is down, such a
   * one would be taken.
   */
  private static int port() throws IOException {
    for (int tries = 0; ; tries++) {
      int port = ThreadLocalRandom.current().nextInt(15_000, 30_000);
      try (ServerSocket free = new ServerSocket(port)) {
        return free.getLocalPort();
      } catch (IOException e) {
        if (tries == 100) throw e;
      }
    }
  }

  private Process started() throws IOException, InterruptedException {
    List<String> command =
        new ArrayList<>(
            List.of(
                ProcessHandle.current().info().command().orElseThrow(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-Xmx384m",
                "-cp",
                System.getProperty("java.class.path"),
                UnderstockApplication.class.getName(),
                "--server.port=" + port,
                "--spring.datasource.url=" + server.url(),
                "--spring.datasource.username=postgres",
                "--spring.datasource.password=postgres",
                "--spring.datasource.hikari.data-source-properties.ApplicationName=" + NAME,
                "--understock.home=" + home.resolve("unused"),
                "--understock.security.key=" + key,
                "--understock.security.issuer=" + Tokens.ISSUER));
    Path log = home.resolve("service.log");
    Process begun =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.appendTo(log.toFile()))
            .start();
    Instant until = Instant.now().plus(PATIENCE);
    while (!ready()) {
      if (!begun.isAlive() || Instant.now().isAfter(until)) {
        begun.destroyForcibly();
        throw new IOException("the service does not start: " + Files.readString(log));
      }
      Thread.sleep(100);
    }
    return begun;
  }

  private boolean ready() throws InterruptedException {
    try {
      return client().get("/actuator/health/readiness").status() == 200;
    } catch (IOException e) {
      return false;
    }
  }

  Client client() {
    return new Client(port, Tokens.ofHome(home));
  }

  /** SIGKILL: no hook runs, nothing is flushed. */
  void kill() throws InterruptedException {
    process.destroyForcibly().waitFor();
  }

  void restart() throws IOException, InterruptedException {
    process = started();
  }

  @Override
  public void close() {
    process.destroy();
  }
}
