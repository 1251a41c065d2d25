import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetSocketAddress;
import java.net.Socket;
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
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.atomic.AtomicLong;

/**
 * Traffic for the rehearsals, to 127.0.0.1 only, bounded in count and time. Runs from its source:
 * {@code java Load.java steady PORT RATE SECONDS STOP-FILE} asks for advice and reads the catalogue
 * at a steady rate, whether or not answers come, and ends early when the file is there; {@code
 * java Load.java hold PORT COUNT SECONDS KIND} holds so many connections open, from 127.0.0.2:
 * {@code idle} says nothing, {@code slow} sends a byte of its header every second, {@code blank} an
 * empty line, {@code half} sends half a body, {@code unread} half of one that nobody reads; {@code
 * java Load.java flood PORT CONNECTIONS SECONDS} reads the catalogue from 127.0.0.2 as fast as it is
 * answered, and tells whether each refusal says how long to wait.
 */
final class Load {
  private static final String ADVICE =
      "{\"crop\":\"apple\",\"goal\":{\"purpose\":\"home-garden\",\"maxHeightM\":3},\"candidates\":{\"varieties\":[\"gala\"]},\"limit\":3}";

  private static final String OTHERS = "127.0.0.2";

  private record Done(long sentMs, int status, long tookMs, boolean stale, String fault) {}

  public static void main(String[] args) throws Exception {
    int port = Integer.parseInt(args[1]);
    int count = Math.min(Integer.parseInt(args[2]), 20_000);
    int seconds = Math.min(Integer.parseInt(args[3]), 600);
    if (args[0].equals("steady")) steady(port, count, seconds, Path.of(args[4]));
    else if (args[0].equals("flood")) flood(port, count, seconds);
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
          case "half", "unread" ->
              ("POST "
                      + (kind.equals("half") ? "/v1/advice" : "/v1/nothing")
                      + " HTTP/1.1\r\nHost: a\r\nContent-Type: application/json\r\nContent-Length: 4000\r\n\r\n"
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
        channel.bind(new InetSocketAddress(OTHERS, 0));
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
          if (kind.equals("blank")) held.get(i).write(ByteBuffer.wrap(new byte[] {'\n'}));
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

  private static void flood(int port, int connections, int seconds) throws Exception {
    byte[] ask = "GET /v1/stocks/m-9 HTTP/1.1\r\nHost: a\r\n\r\n".getBytes(StandardCharsets.US_ASCII);
    ConcurrentHashMap<String, AtomicLong> answers = new ConcurrentHashMap<>();
    AtomicLong unsaid = new AtomicLong(), longestWait = new AtomicLong();
    long begun = System.nanoTime(), end = begun + seconds * 1_000_000_000L;
    List<Thread> threads = new ArrayList<>();
    for (int i = 0; i < connections; i++) {
      Thread thread =
          new Thread(
              () -> {
                while (System.nanoTime() < end) {
                  try (Socket socket = new Socket()) {
                    socket.bind(new InetSocketAddress(OTHERS, 0));
                    socket.connect(new InetSocketAddress("127.0.0.1", port), 5000);
                    socket.setSoTimeout(20_000);
                    InputStream in = new BufferedInputStream(socket.getInputStream());
                    for (boolean open = true; open && System.nanoTime() < end; ) {
                      socket.getOutputStream().write(ask);
                      String head = head(in);
                      String status = head.substring(9, 12);
                      answers.computeIfAbsent(status, s -> new AtomicLong()).incrementAndGet();
                      String wait = field(head, "retry-after");
                      if (status.equals("429")) {
                        if (wait == null) unsaid.incrementAndGet();
                        else longestWait.accumulateAndGet(Long.parseLong(wait), Math::max);
                      }
                      skipBody(in, head);
                      open = !"close".equals(field(head, "connection"));
                    }
                  } catch (IOException e) {
                    answers.computeIfAbsent(String.valueOf(e.getMessage()), s -> new AtomicLong()).incrementAndGet();
                  }
                }
              });
      threads.add(thread);
      thread.start();
    }
    for (Thread thread : threads) thread.join();
    System.out.printf(
        "%d s from one address: answers %s; %d refusals without Retry-After, the longest wait told %d s%n",
        seconds, new TreeMap<>(answers), unsaid.get(), longestWait.get());
  }

  private static String head(InputStream in) throws IOException {
    StringBuilder head = new StringBuilder();
    while (head.indexOf("\r\n\r\n", Math.max(0, head.length() - 4)) < 0) {
      int b = in.read();
      if (b < 0) throw new IOException("closed within a head");
      head.append((char) b);
    }
    return head.toString();
  }

  private static String field(String head, String name) {
    for (String line : head.split("\r\n"))
      if (line.toLowerCase(Locale.ROOT).startsWith(name + ":")) return line.substring(name.length() + 1).strip();
    return null;
  }

  private static void skipBody(InputStream in, String head) throws IOException {
    String length = field(head, "content-length");
    if (length != null) {
      in.skipNBytes(Long.parseLong(length));
      return;
    }
    while (true) { // in chunks
      StringBuilder line = new StringBuilder();
      for (int b; (b = in.read()) != '\n'; ) {
        if (b < 0) throw new IOException("closed within a body");
        line.append((char) b);
      }
      int size = Integer.parseInt(line.toString().strip(), 16);
      in.skipNBytes(size + 2);
      if (size == 0) return;
    }
  }
}
