package org.understock.client;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;

/** A server that gives the answer of one example of the contract and keeps what it was asked. */
final class Replay implements AutoCloseable {
  static final Path EXAMPLES = Path.of("../../examples");
  static final ObjectMapper PLAIN = new ObjectMapper();

  /** What it gives in place of JSON to who wants it. */
  static final String FORM = "image/svg+xml";

  static final String FORM_ANSWER =
      "<svg xmlns='http://www.w3.org/2000/svg'><text>‘Gala’</text></svg>";

  final JsonNode example;
  private final HttpServer server;
  volatile String asked = "nothing";
  volatile String accepted = "nothing";
  volatile String sentType = "nothing";
  volatile String sent = "nothing";

  /**
   * @param name such as {@code advise/minimal}
   */
  Replay(String name) throws IOException {
    example = PLAIN.readTree(EXAMPLES.resolve(name + ".json").toFile());
    server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    server.createContext("/", this::answer);
    server.start();
  }

  /** A client that asks this server. */
  ApiClient client() {
    ApiClient client = new ApiClient();
    client.updateBaseUri(address());
    return client;
  }

  String address() {
    return "http://" + server.getAddress().getHostString() + ":" + server.getAddress().getPort();
  }

  /** The example's lines, as they go over the wire. */
  static String lines(JsonNode lines) {
    StringBuilder text = new StringBuilder();
    lines.forEach(
        line -> text.append(line.isTextual() ? line.textValue() : line.toString()).append('\n'));
    return text.toString();
  }

  private void answer(HttpExchange exchange) throws IOException {
    try (exchange) {
      asked = exchange.getRequestMethod() + " " + exchange.getRequestURI();
      accepted = exchange.getRequestHeaders().getFirst("Accept");
      sentType =
          String.join(
              " and ", exchange.getRequestHeaders().getOrDefault("Content-Type", List.of()));
      sent = new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
      int status = example.at("/response/status").intValue();
      JsonNode lines = example.at("/response/lines");
      boolean form = accepted.startsWith(FORM);
      byte[] answer =
          (form && status < 300
                  ? FORM_ANSWER
                  : lines.isMissingNode() ? example.at("/response/body").toString() : lines(lines))
              .getBytes(StandardCharsets.UTF_8);
      String type = lines.isMissingNode() ? "application/json" : "application/x-ndjson";
      exchange
          .getResponseHeaders()
          .set(
              "Content-Type",
              form && status < 300 ? FORM : status < 300 ? type : "application/problem+json");
      exchange.sendResponseHeaders(status, answer.length);
      exchange.getResponseBody().write(answer);
    }
  }

  @Override
  public void close() {
    server.stop(0);
  }
}
