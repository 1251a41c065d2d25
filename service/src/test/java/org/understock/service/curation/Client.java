package org.understock.service.curation;

import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.path.json.JsonPath;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpHeaders;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.understock.service.Tokens;

/**
 * Talks to one service over HTTP, as curators do; an answer that does not come is an {@link
 * IOException}.
 */
final class Client {
  private static final HttpClient HTTP =
      HttpClient.newBuilder()
          .version(HttpClient.Version.HTTP_1_1)
          .connectTimeout(Duration.ofSeconds(5))
          .build();
  private static final Duration PATIENCE = Duration.ofSeconds(90);

  private final int port;
  private final Tokens tokens;

  Client(int port, Tokens tokens) {
    this.port = port;
    this.tokens = tokens;
  }

  /** An answer, whole. */
  record Answer(int status, HttpHeaders headers, byte[] body) {
    String text() {
      return new String(body, StandardCharsets.UTF_8);
    }

    JsonPath json() {
      return JsonPath.from(text());
    }

    Optional<String> header(String name) {
      return headers.firstValue(name);
    }

    /** The id of the request, as the answer tells it. */
    String request() {
      return header("X-Request-Id").orElseThrow();
    }
  }

  Answer get(String path) throws IOException, InterruptedException {
    return send(request(path).GET());
  }

  Answer getAs(String token, String path) throws IOException, InterruptedException {
    return send(request(path).header("Authorization", "Bearer " + token).GET());
  }

  Answer post(String path, String body) throws IOException, InterruptedException {
    return send(
        request(path)
            .header("Content-Type", "application/json")
            .POST(HttpRequest.BodyPublishers.ofString(body)));
  }

  /** Sends what needs a token. @param headers names and values in turn */
  Answer send(String method, String path, String token, String type, String body, String... headers)
      throws IOException, InterruptedException {
    HttpRequest.Builder request =
        request(path)
            .header("Authorization", "Bearer " + token)
            .header("Content-Type", type)
            .method(method, HttpRequest.BodyPublishers.ofString(body));
    if (headers.length > 0) request.headers(headers);
    return send(request);
  }

  Answer propose(String body, String... headers) throws IOException, InterruptedException {
    return send(
        "POST", "/v1/curation/records", tokens.proposer(), "application/json", body, headers);
  }

  Answer review(String body, String... headers) throws IOException, InterruptedException {
    return send(
        "POST", "/v1/curation/reviews", tokens.reviewer(), "application/json", body, headers);
  }

  /** Files a rating of the invented scenario. @return its id */
  String proposed(String locator) throws IOException, InterruptedException {
    Answer answer = propose(rating(locator, "moderately-resistant"));
    assertThat(answer.status()).as(answer.text()).isEqualTo(201);
    return answer.json().getString("id");
  }

  /** Accepts proposals. @return the answer, which has told a new revision */
  Answer accepted(List<String> ids, String... headers) throws IOException, InterruptedException {
    Answer answer = review("{\"accept\": " + list(ids) + "}", headers);
    assertThat(answer.status()).as(answer.text()).isEqualTo(201);
    return answer;
  }

  long latest() throws IOException, InterruptedException {
    return get("/v1/revisions?limit=1").json().getLong("items[0].revision");
  }

  /** Whether the service finds that the whole history is what it was. */
  boolean verified() throws IOException, InterruptedException {
    Answer answer = getAs(tokens.reviewer(), "/v1/curation/revisions/verify");
    assertThat(answer.status()).as(answer.text()).isEqualTo(200);
    return answer.json().getBoolean("verified");
  }

  Tokens tokens() {
    return tokens;
  }

  /** An invented rating; the locator makes it another statement every time. */
  static String rating(String locator, String level) {
    return """
        {"subject": {"stock": "m-7", "crop": "apple"}, "trait": "fire-blight", "value": {"level": "%s"}, "method": "expert-rating",
         "source": "omafra-susceptibility-table", "locator": "%s"}"""
        .formatted(level, locator);
  }

  static String list(List<String> ids) {
    return ids.stream().collect(Collectors.joining("\", \"", "[\"", "\"]"));
  }

  private HttpRequest.Builder request(String path) {
    return HttpRequest.newBuilder(URI.create("http://localhost:" + port + path.replace(" ", "%20")))
        .timeout(PATIENCE);
  }

  private static Answer send(HttpRequest.Builder request) throws IOException, InterruptedException {
    HttpResponse<byte[]> answer =
        HTTP.send(request.build(), HttpResponse.BodyHandlers.ofByteArray());
    return new Answer(answer.statusCode(), answer.headers(), answer.body());
  }
}
