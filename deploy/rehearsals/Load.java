import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.ByteBuffer;
import java.nio.channels.SocketChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentLinkedQueue;

/**
 * Traffic for the rehearsals, to 127.0.0.1 only, bounded in count and time. Runs from its source:
 * {@code java Load.java steady PORT RATE SECONDS STOP-FILE} asks for advice and reads the catalogue
 * at a steady rate, whether or not answers come, and ends early when the file is there; {@code
 * java Load.java hold PORT COUNT SECONDS KIND} holds so many connections open: {@code idle} says
 * nothing, {@code slow} sends a byte of its header every second, {@code half} sends half a body.
 */
final class Load {
  private static final String ADVICE =
      "{\"crop\":\"apple\",\"goal\":{\"purpose\":\"home-garden\",\"maxHeightM\":3},\"candidates\":{\"varieties\":[\"gala\"]},\"limit\":3}";

  private record Done(long sentMs, int status, long tookMs, boolean stale, String fault) {}

  public static void main(String[] args) throws Exception {
    int port = Integer.parseInt(args[1]);
    int count = Math.min(Integer.parseInt(args[2]), 20_000);
    int seconds = Math.min(Integer.parseInt(args[3]), 600);
    if (args[0].equals("steady")) steady(port, count, seconds, Path.of(args[4]));
    else hold(port, count, seconds, args[4]);
    System.exit(0);
  }

  private static void steady(int port, int rate, int seconds, Path stop) throws Exception {
    HttpClient client =
        HttpClient.newBuilder()
            .version(HttpClient.Version.HTTP_1_1)
            .connectTimeout(Duration.ofSeconds(5))
            .build();
    String at = "http://127.0.0.1:" + port;
    HttpRequest advice =
        HttpRequest.newBuilder(URI.create(at + "/v1/advice"))
            .timeout(Duration.ofSeconds(20))
            .header("Content-Type", "application/json")
            .POST(HttpRequest.BodyPublishers.ofString(ADVICE))
            .build();
    HttpRequest read =
        HttpRequest.newBuilder(URI.create(at + "/v1/stocks/m-9")).timeout(Duration.ofSeconds(20)).build();
    // A process that has just started is slow: not what is rehearsed.
    for (int i = 0; i < 40; i++) {
      client.send(advice, HttpResponse.BodyHandlers.discarding());
      client.send(read, HttpResponse.BodyHandlers.discarding());
    }
    Files.createFile(stop.resolveSibling("load.warm"));
    ConcurrentLinkedQueue<Done> done = new ConcurrentLinkedQueue<>();
    List<CompletableFuture<?>> open = new ArrayList<>();
    long begun = System.nanoTime();
    for (int i = 0; i < rate * seconds && !Files.exists(stop); i++) {
      long due = begun + i * 1_000_000_000L / rate;
      long wait = due - System.nanoTime();
      if (wait > 0) Thread.sleep(wait / 1_000_000, (int) (wait % 1_000_000));
      long sent = System.nanoTime();
      open.add(
          client
              .sendAsync(i % 2 == 0 ? advice : read, HttpResponse.BodyHandlers.ofString())
              .handle(
                  (answer, e) -> {
                    long took = (System.nanoTime() - sent) / 1_000_000;
                    boolean stale =
                        answer != null && answer.headers().firstValue("Evidence-Stale-Since").isPresent();
                    return done.add(
                        new Done(
                            (sent - begun) / 1_000_000,
                            answer == null ? 0 : answer.statusCode(),
                            took,
                            stale,
                            e == null ? "" : String.valueOf(e.getCause() == null ? e : e.getCause())));
                  }));
    }
    CompletableFuture.allOf(open.toArray(new CompletableFuture<?>[0])).join();
    Map<String, Integer> failed = new TreeMap<>();
    for (Done d : done)
      if (d.status() != 200)
        failed.merge(d.status() == 0 ? d.fault() : String.valueOf(d.status()), 1, Integer::sum);
    long[] took = done.stream().filter(d -> d.status() == 200).mapToLong(Done::tookMs).sorted().toArray();
    System.out.printf(
        "%d requests, %d failed%s; %d with Evidence-Stale-Since; median %d ms, p99 %d ms, longest %d ms%n",
        done.size(),
        failed.values().stream().mapToInt(Integer::intValue).sum(),
        failed.isEmpty() ? "" : " " + failed,
        done.stream().filter(Done::stale).count(),
        took.length == 0 ? -1 : took[took.length / 2],
        took.length == 0 ? -1 : took[(int) (took.length * 0.99)],
        took.length == 0 ? -1 : took[took.length - 1]);
  }

  private static void hold(int port, int count, int seconds, String kind) throws Exception {
    byte[] begin =
        switch (kind) {
          case "half" ->
              ("POST /v1/advice HTTP/1.1\r\nHost: a\r\nContent-Type: application/json\r\nContent-Length: 4000\r\n\r\n"
                      + ADVICE)
                  .getBytes(StandardCharsets.US_ASCII);
          case "slow" -> "GET /v1/stocks HTTP/1.1\r\nHost: a\r\nX-Slow: ".getBytes(StandardCharsets.US_ASCII);
          default -> new byte[0];
        };
    List<SocketChannel> held = new ArrayList<>();
    int refused = 0;
    long begun = System.nanoTime();
    for (int i = 0; i < count; i++) {
      try {
        SocketChannel channel = SocketChannel.open();
        channel.socket().connect(new InetSocketAddress("127.0.0.1", port), 1000);
        if (begin.length > 0) channel.write(ByteBuffer.wrap(begin));
        channel.configureBlocking(false);
        held.add(channel);
      } catch (IOException e) {
        refused++;
        if (refused > 50) break; // the door is shut: the rest would only wait
      }
    }
    System.out.printf(
        "%d connections (%s) held after %d ms, %d refused%n", held.size(), kind, (System.nanoTime() - begun) / 1_000_000, refused);
    System.out.flush();
    boolean[] closed = new boolean[held.size()];
    long firstClosed = -1, lastClosed = -1;
    Map<String, Integer> answers = new TreeMap<>();
    ByteBuffer buffer = ByteBuffer.allocate(4096);
    while (System.nanoTime() - begun < seconds * 1_000_000_000L) {
      Thread.sleep(1000);
      for (int i = 0; i < closed.length; i++) {
        if (closed[i]) continue;
        try {
          buffer.clear();
          int read = held.get(i).read(buffer);
          if (read > 0) answers.merge(new String(buffer.array(), 0, Math.min(read, 12), StandardCharsets.US_ASCII), 1, Integer::sum);
          if (read < 0) throw new IOException("closed");
          if (kind.equals("slow")) held.get(i).write(ByteBuffer.wrap(new byte[] {'x'}));
        } catch (IOException e) {
          closed[i] = true;
          held.get(i).close();
          lastClosed = (System.nanoTime() - begun) / 1_000_000;
          if (firstClosed < 0) firstClosed = lastClosed;
        }
      }
    }
    int left = 0;
    for (boolean c : closed) if (!c) left++;
    System.out.printf(
        "the service closed %d of them, the first after %d ms, the last after %d ms; %d were left; answers %s%n",
        closed.length - left, firstClosed, lastClosed, left, answers);
    for (SocketChannel channel : held) channel.close();
  }
}
