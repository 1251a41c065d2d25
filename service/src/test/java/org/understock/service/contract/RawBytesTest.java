package org.understock.service.contract;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.springframework.test.context.TestPropertySource;
import org.understock.service.RunningService;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Sends what is no HTTP, or hardly: lengths that lie, broken chunks, torn or doubled lines, NULs,
 * bodies in other encodings, and ends too early. Whatever comes, the service hangs up or answers
 * that the sender is wrong, shows nothing of its inside, and goes on. A short run in every build;
 * {@code -Dfuzz.requests} and {@code -Dfuzz.seed} as in {@link FuzzTest}.
 */
@TestPropertySource(
    properties = {"understock.limits.per-minute=0", "server.tomcat.connection-timeout=5s"})
class RawBytesTest extends RunningService {
  private static final int USUAL_REQUESTS = 1000;
  private static final int MOST_FAULTS = 20;
  private static final Pattern STATUS = Pattern.compile("(?<![\\w/\"])HTTP/1\\.1 (\\d{3})");

  private static final Pattern TRANSFER_CODING =
      Pattern.compile("transfer-encoding:[ \\t]*([^\\r\\n]*)");

  private final SplittableRandom random = new SplittableRandom(Long.getLong("fuzz.seed", 1));
  private final List<String> faults = new ArrayList<>();
  private final Map<String, Integer> byAnswer = new TreeMap<>();

  @Test
  void whatever_comes_the_service_hangs_up_or_says_what_is_wrong() throws IOException {
    List<JsonNode> seeds = seeds();
    int requests = Integer.getInteger("fuzz.requests", USUAL_REQUESTS);
    for (int k = 0; k < requests && faults.size() < MOST_FAULTS; k++) {
      byte[] sent = spoiled(raw(seeds.get(random.nextInt(seeds.size()))));
      String answer = new String(send(sent), StandardCharsets.ISO_8859_1);
      look(sent, answer);
      if (k % 100 == 0) given().get("/v1/crops").then().statusCode(200);
    }
    System.out.println("raw requests: " + requests + ", answers " + byAnswer);
    assertThat(faults).isEmpty();
    assertThat(byAnswer.keySet()).contains("200", "400", "hung up");
  }

  private void look(byte[] sent, String answer) {
    List<Integer> statuses = new ArrayList<>();
    for (Matcher m = STATUS.matcher(answer); m.find(); ) statuses.add(Integer.valueOf(m.group(1)));
    String told =
        shown(new String(sent, StandardCharsets.ISO_8859_1)) + " was answered " + shown(answer);
    if (statuses.isEmpty()) {
      byAnswer.merge(answer.isEmpty() ? "hung up" : "without head", 1, Integer::sum);
      // Tomcat takes a line that it can't read for HTTP/0.9 where its processor had such a one
      // before.
      boolean problem = answer.startsWith("{\"type\":\"/problems/");
      if (!answer.isEmpty() && !problem && !isOfBeforeHttp1(sent)) faults.add(told);
      return;
    }
    for (int status : statuses) {
      byAnswer.merge(String.valueOf(status), 1, Integer::sum);
      if (status >= 500 && status != 503 && !(status == 501 && isCodedUnusually(sent)))
        faults.add(told);
    }
    if (answer.contains("Exception")
        || answer.contains("\tat ")
        || answer.contains("Apache Tomcat")) faults.add("the inside shows: " + told);
    if (statuses.get(0) >= 400 && !answer.contains("application/problem+json"))
      faults.add("no problem: " + told);
  }

  /** A transfer coding that a server does not know is answered 501 (RFC 9112, section 6.1). */
  private static boolean isCodedUnusually(byte[] sent) {
    String head = new String(sent, StandardCharsets.ISO_8859_1).toLowerCase(Locale.ROOT);
    return TRANSFER_CODING.matcher(head).results().anyMatch(m -> !m.group(1).equals("chunked"));
  }

  /** A first line without a version is HTTP/0.9, which knows no heads. */
  private static boolean isOfBeforeHttp1(byte[] sent) {
    String first =
        new String(sent, StandardCharsets.ISO_8859_1).stripLeading().lines().findFirst().orElse("");
    return !first.contains(" HTTP/1.");
  }

  private byte[] send(byte[] bytes) {
    ByteArrayOutputStream answer = new ByteArrayOutputStream();
    try (Socket socket = new Socket()) {
      socket.connect(new InetSocketAddress("localhost", port()));
      socket.setSoTimeout(60_000);
      int cut = random.nextInt(bytes.length + 1);
      socket.getOutputStream().write(bytes, 0, cut);
      socket.getOutputStream().flush();
      socket.getOutputStream().write(bytes, cut, bytes.length - cut);
      socket.shutdownOutput();
      socket.getInputStream().transferTo(answer);
    } catch (SocketTimeoutException e) {
      faults.add(
          "no answer and no end to " + shown(new String(bytes, StandardCharsets.ISO_8859_1)));
    } catch (IOException e) {
      // hung up while we sent: the answer, if any came, is looked at
    }
    return answer.toByteArray();
  }

  private static List<JsonNode> seeds() throws IOException {
    List<JsonNode> seeds = new ArrayList<>();
    try (Stream<Path> walk = Files.walk(Path.of("../api-spec/examples"))) {
      for (Path file : walk.filter(f -> f.toString().endsWith(".json")).sorted().toList())
        seeds.add(JsonMapper.shared().readTree(Files.readString(file)).get("request"));
    }
    assertThat(seeds).hasSizeGreaterThan(40);
    return seeds;
  }

  /** A request as it should be, but for a body's encoding and how its length is told. */
  private byte[] raw(JsonNode request) {
    String text = request.path("body").isMissingNode() ? "" : request.get("body").toString();
    if (request.has("lines")) {
      StringBuilder lines = new StringBuilder();
      request
          .get("lines")
          .forEach(line -> lines.append(line.isString() ? line.asString() : line).append('\n'));
      text = lines.toString();
    }
    byte[] body =
        text.getBytes(
            switch (random.nextInt(8)) {
              case 0 -> StandardCharsets.UTF_16;
              case 1 -> StandardCharsets.ISO_8859_1;
              default -> StandardCharsets.UTF_8;
            });
    String type =
        pick(
            "application/json",
            "application/json",
            "application/json",
            "application/json;charset=ISO-8859-1",
            "application/x-ndjson",
            "text/csv",
            "application/json;charset=nothing",
            "\u00e4\u0000");
    StringBuilder head =
        new StringBuilder(request.get("method").asString())
            .append(' ')
            .append(request.get("path").asString())
            .append(" HTTP/1.1\r\nHost: x\r\n");
    if (random.nextInt(4) > 0) head.append("Connection: close\r\n");
    if (body.length == 0) return head.append("\r\n").toString().getBytes(StandardCharsets.UTF_8);
    head.append("Content-Type: ").append(type).append("\r\n");
    if (random.nextInt(8) == 0)
      head.append(
              pick(
                  "Content-Encoding: gzip",
                  "Expect: 100-continue",
                  "Expect: 1",
                  "Upgrade: h2c",
                  "Transfer-Encoding: x"))
          .append("\r\n");
    if (random.nextInt(4) == 0)
      return chunked(head.append("Transfer-Encoding: chunked\r\n\r\n"), body);
    String length =
        random.nextInt(6) > 0
            ? String.valueOf(body.length)
            : pick("-1", "0", "1", "99999", "99999999999999999999", "+5", "0x10", "5, 6", "");
    head.append("Content-Length: ").append(length).append("\r\n");
    if (random.nextInt(12) == 0) head.append("Content-Length: 7\r\n");
    return joined(head.append("\r\n").toString().getBytes(StandardCharsets.ISO_8859_1), body);
  }

  private byte[] chunked(StringBuilder head, byte[] body) {
    int half = body.length / 2;
    String size =
        random.nextInt(3) > 0
            ? Integer.toHexString(half)
            : pick("-1", "zz", "ffffffffffffffff", "1;x=\u0000", "");
    byte[] begin = (head + size + "\r\n").getBytes(StandardCharsets.ISO_8859_1);
    byte[] rest =
        ("\r\n"
                + Integer.toHexString(body.length - half)
                + "\r\n"
                + new String(body, half, body.length - half, StandardCharsets.ISO_8859_1)
                + "\r\n0\r\n"
                + pick("\r\n", "", "X: y\r\n\r\n", "\u0000"))
            .getBytes(StandardCharsets.ISO_8859_1);
    byte[] first = new byte[half];
    System.arraycopy(body, 0, first, 0, half);
    return joined(joined(begin, first), rest);
  }

  private static byte[] joined(byte[] a, byte[] b) {
    byte[] both = Arrays.copyOf(a, a.length + b.length);
    System.arraycopy(b, 0, both, a.length, b.length);
    return both;
  }

  /** Changes nothing, some bytes, some lines, or the end. */
  private byte[] spoiled(byte[] request) {
    byte[] bytes = request.clone();
    for (int n = random.nextInt(4); n > 0 && bytes.length > 1; n--) {
      int at = random.nextInt(random.nextBoolean() ? Math.min(200, bytes.length) : bytes.length);
      switch (random.nextInt(6)) {
        case 0 -> bytes[at] = (byte) random.nextInt(256);
        case 1 -> bytes[at] = 0;
        case 2 -> bytes = Arrays.copyOf(bytes, at); // ends here
        case 3 -> bytes = inserted(bytes, at, noise());
        case 4 -> bytes = without(bytes, at, 1 + random.nextInt(20));
        default ->
            bytes =
                inserted(
                    bytes,
                    at,
                    pick(
                            "\r\n",
                            "\n",
                            "\r",
                            "\r\n\r\n",
                            "\u0000",
                            ":",
                            " ",
                            "\t",
                            "%",
                            "X: " + "y".repeat(9000))
                        .getBytes(StandardCharsets.ISO_8859_1));
      }
    }
    return bytes;
  }

  private byte[] noise() {
    byte[] noise = new byte[random.nextInt(random.nextInt(20) == 0 ? 20_000 : 50)];
    random.nextBytes(noise);
    return noise;
  }

  private static byte[] inserted(byte[] bytes, int at, byte[] more) {
    byte[] begin = Arrays.copyOf(bytes, at);
    return joined(joined(begin, more), Arrays.copyOfRange(bytes, at, bytes.length));
  }

  private static byte[] without(byte[] bytes, int at, int many) {
    int to = Math.min(bytes.length, at + many);
    return joined(Arrays.copyOf(bytes, at), Arrays.copyOfRange(bytes, to, bytes.length));
  }

  private String pick(String... from) {
    return from[random.nextInt(from.length)];
  }

  private static String shown(String text) {
    String plain = text.replace("\r", "\\r").replace("\n", "\\n").replace("\0", "\\0");
    return plain.length() <= 600 ? plain : plain.substring(0, 600) + "…";
  }
}
