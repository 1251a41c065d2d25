package org.understock.service;

import java.io.IOException;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ThreadLocalRandom;
import java.util.concurrent.TimeUnit;

/**
 * The service in a process of its own, always on the same port, which a test can kill and start
 * again.
 */
public final class ServiceProcess implements AutoCloseable {
  /** Of a machine that has much else to do, and a database that has yet to be made. */
  private static final Duration PATIENCE = Duration.ofMinutes(5);

  private static final HttpClient HTTP = HttpClient.newHttpClient();

  private final Path log;
  private final List<String> arguments;
  private final int port;
  private Process process;

  /**
   * Starts it, and waits until it is ready.
   *
   * @param log file that it writes its log to
   * @param arguments of the service, but for its port
   */
  public ServiceProcess(Path log, List<String> arguments) throws IOException, InterruptedException {
    this.log = log;
    this.arguments = List.copyOf(arguments);
    port = freePort();
    process = started();
  }

  /**
   * One below those that systems give to outgoing connections: while the service is down, such a
   * one would be taken.
   */
  private static int freePort() throws IOException {
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
                "--server.port=" + port));
    command.addAll(arguments);
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
      return HTTP.send(
                  HttpRequest.newBuilder(
                          URI.create("http://localhost:" + port + "/actuator/health/readiness"))
                      .build(),
                  HttpResponse.BodyHandlers.discarding())
              .statusCode()
          == 200;
    } catch (IOException e) {
      return false;
    }
  }

  public int port() {
    return port;
  }

  /** SIGKILL: no hook runs, nothing is flushed. */
  public void kill() throws InterruptedException {
    process.destroyForcibly().waitFor();
  }

  /** SIGTERM: it ends in its own way; back when it is gone. */
  public void stop() throws InterruptedException {
    process.destroy();
    process.waitFor();
  }

  /** On the same port, with the same arguments; back when it is ready. */
  public void restart() throws IOException, InterruptedException {
    process = started();
  }

  @Override
  public void close() {
    process.destroy();
    try {
      if (!process.waitFor(1, TimeUnit.MINUTES)) process.destroyForcibly();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
