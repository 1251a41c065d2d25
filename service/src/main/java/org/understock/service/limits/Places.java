package org.understock.service.limits;

import java.io.IOException;
import java.io.InputStream;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.http.HttpHeaders;
import org.springframework.stereotype.Component;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;

/**
 * Where bodies are waited for that have not come yet: half of the threads at most, an eighth for
 * one client. However many bodies are sent by half, the other threads answer. A body that comes
 * with its head takes no place.
 */
@Component
class Places {
  /**
   * A body that comes at less than a kilobyte a second, after a grace, holds a thread for nothing.
   */
  private static final long NANOS_A_BYTE = 1_000_000;

  private final int all;
  private final int eachClients;
  private final long graceNanos;
  private final Map<String, Integer> taken = new HashMap<>();
  private int allTaken;

  Places(
      @Value("${server.tomcat.threads.max:200}") int threads,
      @Value("${understock.slow-body-grace:20s}") Duration grace) {
    all = Math.max(1, threads / 2);
    eachClients = Math.max(1, threads / 8);
    graceNanos = grace.toNanos();
  }

  /** For the body of one request, from an address. */
  Body body(InputStream from, String address) {
    return new Body(from, Clients.client(address));
  }

  private synchronized void take(String client) {
    int clients = taken.getOrDefault(client, 0);
    if (allTaken == all || clients == eachClients)
      throw ProblemException.of(
              ProblemType.BUSY,
              "As many bodies are waited for as may be at one time. Send a body whole, together with its headers.",
              List.of())
          .withHeader(HttpHeaders.RETRY_AFTER, "1")
          .withHeader(HttpHeaders.CONNECTION, "close");
    taken.put(client, clients + 1);
    allTaken++;
  }

  private synchronized void leave(String client) {
    allTaken--;
    taken.computeIfPresent(client, (c, n) -> n == 1 ? null : n - 1);
  }

  /** One body, as it comes. */
  final class Body {
    private final InputStream from;
    private final String client;
    private final long begun = System.nanoTime();
    private long read;

    private Body(InputStream from, String client) {
      this.from = from;
      this.client = client;
    }

    /**
     * Reads as a stream does, in a place where nothing has come yet.
     *
     * @throws ProblemException 408 when the body comes too slowly, 503 when there is no place
     */
    int read(byte[] into, int offset, int length) throws IOException {
      int n = from.available() > 0 ? from.read(into, offset, length) : await(into, offset, length);
      if (n > 0) read += n;
      if (n >= 0 && System.nanoTime() - begun - graceNanos > read * NANOS_A_BYTE)
        throw ProblemException.of(
                ProblemType.TOO_SLOW, "The body comes at less than a kilobyte a second.", List.of())
            .withHeader(HttpHeaders.CONNECTION, "close");
      return n;
    }

    private int await(byte[] into, int offset, int length) throws IOException {
      take(client);
      try {
        return from.read(into, offset, length);
      } finally {
        leave(client);
      }
    }

    long read() {
      return read;
    }
  }
}
