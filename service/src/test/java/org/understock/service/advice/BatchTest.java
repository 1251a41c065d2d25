package org.understock.service.advice;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.BufferedReader;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.understock.service.RunningService;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Many questions in one request: what each line gets, and that lines stream both ways. */
class BatchTest extends RunningService {
  private static final JsonMapper JSON = JsonMapper.shared();
  private static final Duration PATIENCE = Duration.ofSeconds(20);

  private static String garden(int n) {
    return String.format(
        Locale.ROOT,
        "{\"id\":\"g-%d\",\"crop\":\"apple\",\"site\":{\"coldestNightC\":%d},\"candidates\":{\"stocks\":[\"m-9\",\"m-7\"],\"varieties\":[\"gala\"]},\"limit\":1}",
        n,
        -15 - n % 10);
  }

  private HttpResponse<String> batch(String query, byte[] body) throws Exception {
    HttpRequest request =
        HttpRequest.newBuilder(
                URI.create("http://localhost:" + port() + "/v1/advice/batch" + query))
            .header("Content-Type", "application/x-ndjson")
            .POST(HttpRequest.BodyPublishers.ofByteArray(body))
            .build();
    return HttpClient.newHttpClient().send(request, HttpResponse.BodyHandlers.ofString());
  }

  private List<JsonNode> answers(String body) throws Exception {
    HttpResponse<String> response = batch("", body.getBytes(StandardCharsets.UTF_8));
    assertThat(response.statusCode()).as(response.body()).isEqualTo(200);
    assertThat(response.headers().firstValue("Content-Type").orElse(""))
        .startsWith("application/x-ndjson");
    return response.body().lines().map(JSON::readTree).toList();
  }

  @Test
  void each_line_gets_the_answer_that_it_would_get_alone_in_the_order_of_the_lines()
      throws Exception {
    List<String> gardens = IntStream.range(0, 60).mapToObj(BatchTest::garden).toList();
    List<JsonNode> answers = answers(String.join("\n", gardens));
    assertThat(answers).hasSize(60);
    for (int n = 0; n < 60; n++) {
      assertThat(answers.get(n).get("line").asInt()).isEqualTo(n + 1);
      assertThat(answers.get(n).get("id").asString()).isEqualTo("g-" + n);
    }
    for (int n : new int[] {0, 7, 59}) {
      String alone =
          given()
              .contentType("application/json")
              .body(gardens.get(n))
              .post("/v1/advice")
              .asString();
      assertThat(answers.get(n).get("advice").toString())
          .isEqualTo(JSON.readTree(alone).toString());
    }
  }

  @Test
  void a_bad_line_is_told_as_it_would_be_alone_and_the_rest_goes_on() throws Exception {
    List<String> bad =
        List.of(
            "{\"crop\":",
            "[]",
            "null",
            "{\"id\":\"x\",\"crop\":\"apple\",\"goal\":{\"maxHeigthM\":3}}",
            "{\"id\":\"x\",\"crop\":\"apple\",\"site\":{\"latitude\":99,\"soil\":{\"ph\":14}}}",
            "{\"id\":\"x\",\"crop\":\"apple\",\"candidates\":{\"stocks\":[\"m-77\"]}}",
            "{\"id\":\"x\"}",
            "{\"crop\":\"apple\",\"crop\":\"quince\"}");
    List<String> lines = new ArrayList<>();
    for (int n = 0; n < bad.size(); n++) {
      lines.add(garden(n));
      lines.add(bad.get(n));
    }
    lines.add(garden(99));
    List<JsonNode> answers = answers(String.join("\n", lines) + "\n");
    assertThat(answers).hasSize(lines.size());
    for (int n = 0; n < bad.size(); n++) {
      JsonNode told = answers.get(2 * n + 1);
      assertThat(told.has("advice")).isFalse();
      assertThat(told.path("id").asString("")).isEqualTo(bad.get(n).contains("\"x\"") ? "x" : "");
      JsonNode alone =
          JSON.readTree(
              given()
                  .contentType("application/json")
                  .body(bad.get(n))
                  .post("/v1/advice")
                  .asString());
      for (String field : List.of("type", "status", "title", "detail", "errors"))
        assertThat(told.get("problem").path(field)).as(bad.get(n)).isEqualTo(alone.path(field));
      assertThat(answers.get(2 * n).has("advice")).isTrue();
    }
    assertThat(answers.get(lines.size() - 1).get("id").asString()).isEqualTo("g-99");
  }

  @Test
  void a_line_that_is_too_long_and_one_that_is_no_text_are_passed_over() throws Exception {
    java.io.ByteArrayOutputStream body = new java.io.ByteArrayOutputStream();
    body.write((garden(1) + "\n{\"id\":\"" + "a".repeat(1_100_000) + "\"}\n").getBytes("UTF-8"));
    body.write(new byte[] {'{', '"', (byte) 0xff, '"', '\n', '\n'});
    body.write(garden(2).getBytes("UTF-8"));
    List<JsonNode> answers =
        batch("", body.toByteArray()).body().lines().map(JSON::readTree).toList();
    assertThat(answers.stream().map(a -> a.get("line").asInt())).containsExactly(1, 2, 3, 5);
    assertThat(answers.get(1).at("/problem/status").asInt()).isEqualTo(413);
    assertThat(answers.get(1).at("/problem/detail").asString()).contains("1100009", "1048576");
    assertThat(answers.get(2).at("/problem/detail").asString()).contains("UTF-8");
    assertThat(answers.get(3).at("/advice/considered").asInt()).isEqualTo(2);
  }

  @Test
  void a_batch_is_of_one_revision() throws Exception {
    List<JsonNode> answers =
        answers(
            "{\"crop\":\"quince\",\"limit\":1,\"revision\":1}\n{\"crop\":\"quince\",\"limit\":1,\"revision\":2}");
    assertThat(answers.get(0).at("/advice/revision").asInt()).isEqualTo(1);
    assertThat(answers.get(1).at("/problem/errors/0/pointer").asString()).isEqualTo("#/revision");
    assertThat(answers.get(1).at("/problem/errors/0/detail").asString())
        .contains("this batch is answered as of revision 1");
    assertThat(batch("?revision=1", garden(1).getBytes("UTF-8")).statusCode()).isEqualTo(200);
    assertThat(batch("?revision=99", garden(1).getBytes("UTF-8")).statusCode()).isEqualTo(404);
    assertThat(batch("?revision=0", garden(1).getBytes("UTF-8")).statusCode()).isEqualTo(400);
  }

  @Test
  void other_forms_are_refused_and_an_empty_batch_has_no_answers() throws Exception {
    given()
        .contentType("application/json")
        .body("{}")
        .post("/v1/advice/batch")
        .then()
        .statusCode(415);
    assertThat(answers("")).isEmpty();
    assertThat(answers("\n \r\n")).isEmpty();
  }

  /** Each question waits for the answer to the one before: nothing is held back on either side. */
  @Test
  void an_answer_comes_before_the_next_line_is_sent() throws Exception {
    try (Talk talk = new Talk()) {
      for (int n = 0; n < 5; n++) {
        talk.send(garden(n) + "\n" + "{\"id\":\"half"); // half a line is nothing to wait for
        assertThat(JSON.readTree(talk.line()).get("id").asString()).isEqualTo("g-" + n);
        talk.send("\",\"crop\":\"quince\",\"limit\":1}\n");
        assertThat(JSON.readTree(talk.line()).get("id").asString()).isEqualTo("half");
      }
      talk.end();
      assertThat(talk.line()).isNull();
    }
  }

  /**
   * An asker who sends and does not read: the service stops reading when the network's buffers are
   * full, so that far fewer lines can be sent than there are.
   */
  @Test
  void lines_are_read_only_as_fast_as_answers_are_taken() throws Exception {
    int all = 200_000;
    int[] sent = new int[1];
    try (Talk talk = new Talk()) {
      Thread sender =
          new Thread(
              () -> {
                try {
                  for (; sent[0] < all; sent[0]++) talk.send(garden(sent[0]) + "\n");
                } catch (IOException e) {
                  // closed below, or by the service
                }
              });
      sender.start();
      Instant until = Instant.now().plus(PATIENCE);
      int before = -1;
      while (Instant.now().isBefore(until) && (sent[0] != before || before < 10)) {
        before = sent[0];
        Thread.sleep(1_500);
      }
      assertThat(sent[0])
          .as("lines taken from an asker who takes no answers")
          .isBetween(10, all / 2);
      for (int n = 0; n < 2_000; n++)
        assertThat(JSON.readTree(talk.line()).get("line").asInt()).isEqualTo(n + 1);
    }
    given().get("/v1/crops").then().statusCode(200);
  }

  /** A client can tell that not all was answered: the answer breaks off too (RFC 9112, 8). */
  @Test
  void a_body_that_breaks_off_is_not_taken_for_a_whole_one() throws Exception {
    try (Talk talk = new Talk()) {
      talk.send(garden(1) + "\n{\"id\":");
      assertThat(talk.line()).contains("\"g-1\"");
      talk.socket.shutdownOutput();
      assertThatThrownBy(
              () -> {
                while (talk.line() != null) {}
              })
          .isInstanceOf(EOFException.class);
    }
  }

  /** The threads that answer batches are free again when the askers have gone in the middle. */
  @Test
  void askers_who_go_away_leave_nothing_behind() throws Exception {
    for (int n = 0; n < 40; n++) {
      try (Talk talk = new Talk()) {
        talk.send(garden(n) + "\n" + garden(n) + "\n");
        talk.line();
        talk.send("{\"id\":");
      }
    }
    Instant until = Instant.now().plus(PATIENCE);
    while (answering() > 0 && Instant.now().isBefore(until)) Thread.sleep(100);
    assertThat(answering()).isZero();
  }

  private static long answering() {
    return Thread.getAllStackTraces().values().stream()
        .filter(
            stack ->
                java.util.Arrays.stream(stack)
                    .anyMatch(frame -> frame.getClassName().equals(Batch.class.getName())))
        .count();
  }

  /** A batch on a bare connection, in chunks (RFC 9112, section 7.1). */
  private final class Talk implements AutoCloseable {
    private final Socket socket = new Socket("localhost", port());
    private final OutputStream out = socket.getOutputStream();
    private final InputStream in = socket.getInputStream();
    private BufferedReader answers;

    Talk() throws IOException {
      socket.setSoTimeout((int) PATIENCE.toMillis());
      out.write(
          ("POST /v1/advice/batch HTTP/1.1\r\nHost: x\r\nContent-Type: application/x-ndjson\r\n"
                  + "Transfer-Encoding: chunked\r\n\r\n")
              .getBytes(StandardCharsets.US_ASCII));
    }

    void send(String text) throws IOException {
      byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
      out.write((Integer.toHexString(bytes.length) + "\r\n").getBytes(StandardCharsets.US_ASCII));
      out.write(bytes);
      out.write("\r\n".getBytes(StandardCharsets.US_ASCII));
      out.flush();
    }

    void end() throws IOException {
      out.write("0\r\n\r\n".getBytes(StandardCharsets.US_ASCII));
      out.flush();
    }

    String line() throws IOException {
      if (answers == null) {
        StringBuilder head = new StringBuilder();
        while (!head.toString().endsWith("\r\n\r\n")) head.append((char) in.read());
        assertThat(head.toString()).startsWith("HTTP/1.1 200").contains("chunked");
        answers = new BufferedReader(new InputStreamReader(new Chunks(in), StandardCharsets.UTF_8));
      }
      return answers.readLine();
    }

    @Override
    public void close() throws IOException {
      socket.close();
    }
  }

  /** The content of chunks. */
  private static final class Chunks extends InputStream {
    private final InputStream in;
    private int left;
    private boolean ended;

    Chunks(InputStream in) {
      this.in = in;
    }

    @Override
    public int read() throws IOException {
      byte[] one = new byte[1];
      return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
    }

    @Override
    public int read(byte[] into, int offset, int length) throws IOException {
      if (ended) return -1;
      if (left == 0) {
        String size = header();
        if (size.isEmpty()) size = header();
        if (size.isEmpty()) throw new EOFException("no last chunk");
        left = Integer.parseInt(size, 16);
        if (left == 0) {
          ended = true;
          return -1;
        }
      }
      int n = in.read(into, offset, Math.min(length, left));
      if (n > 0) left -= n;
      return n;
    }

    private String header() throws IOException {
      StringBuilder text = new StringBuilder();
      for (int b = in.read(); b >= 0 && b != '\n'; b = in.read())
        if (b != '\r') text.append((char) b);
      return text.toString();
    }
  }
}
