import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.LockSupport;

/**
 * Asks at a constant rate, whether or not answers come, and tells how long they took from the moment
 * at which each was due: a request that had to wait for the one before it counts that wait. Runs
 * from its source: {@code java Steady.java URL FILE RATE SECONDS}, the file with one body a line,
 * taken in turns. The first tenth of the time is not counted.
 */
final class Steady {
  /** As many as may wait at one time; more than the service has turns. */
  private static final int CONNECTIONS = 64;

  public static void main(String[] args) throws Exception {
    URI uri = URI.create(args[0]);
    List<String> bodies = Files.readAllLines(Path.of(args[1]));
    double rate = Double.parseDouble(args[2]);
    int count = (int) (rate * Math.min(600, Integer.parseInt(args[3])));
    long[] tookNanos = new long[count];
    AtomicInteger next = new AtomicInteger();
    AtomicInteger refused = new AtomicInteger();
    AtomicLong bytes = new AtomicLong();
    HttpClient client = HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();
    long begun = System.nanoTime();
    Thread[] askers = new Thread[CONNECTIONS];
    for (int a = 0; a < askers.length; a++) {
      askers[a] =
          new Thread(
              () -> {
                for (int i = next.getAndIncrement(); i < count; i = next.getAndIncrement()) {
                  long due = begun + (long) (i / rate * 1e9);
                  for (long left = due - System.nanoTime(); left > 0; left = due - System.nanoTime())
                    LockSupport.parkNanos(left);
                  try {
                    HttpResponse<byte[]> answer =
                        client.send(
                            HttpRequest.newBuilder(uri)
                                .header("Content-Type", "application/json")
                                .POST(
                                    HttpRequest.BodyPublishers.ofString(
                                        bodies.get(i % bodies.size())))
                                .build(),
                            HttpResponse.BodyHandlers.ofByteArray());
                    if (answer.statusCode() != 200) refused.incrementAndGet();
                    bytes.addAndGet(answer.body().length);
                  } catch (Exception e) {
                    refused.incrementAndGet();
                  }
                  tookNanos[i] = System.nanoTime() - due;
                }
              });
      askers[a].start();
    }
    for (Thread asker : askers) asker.join();
    double seconds = (System.nanoTime() - begun) / 1e9;
    long[] counted = Arrays.copyOfRange(tookNanos, count / 10, count);
    Arrays.sort(counted);
    System.out.printf(
        Locale.ROOT,
        "asked %.1f/s answered %.1f/s p50 %.1f p90 %.1f p99 %.1f p99.9 %.1f most %.1f ms, %d asked, %d refused, %d bytes each%n",
        rate,
        count / seconds,
        at(counted, 0.5),
        at(counted, 0.9),
        at(counted, 0.99),
        at(counted, 0.999),
        counted[counted.length - 1] / 1e6,
        count,
        refused.get(),
        bytes.get() / count);
    System.exit(0);
  }

  private static double at(long[] sorted, double p) {
    return sorted[(int) Math.min(sorted.length - 1, Math.floor(p * sorted.length))] / 1e6;
  }
}
