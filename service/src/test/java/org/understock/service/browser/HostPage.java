package org.understock.service.browser;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetSocketAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * Somebody else's page, from another origin and under a strict policy, with the widget in it. Under
 * {@code /front/} it passes requests on to the service, as a proxy would that at times answers for
 * it.
 */
final class HostPage implements AutoCloseable {
  private static final String POLICY =
      "default-src 'none'; script-src %1$s; connect-src http://localhost:* 'self'; style-src 'none'; base-uri 'none';"
          + " form-action 'none'; require-trusted-types-for 'script'";

  private final HttpServer server;
  private final String service;
  private final HttpClient http = HttpClient.newHttpClient();
  private final AtomicInteger refusals = new AtomicInteger();
  private volatile int refusal = 503;
  private volatile String widget = "<understock-advice></understock-advice>";

  HostPage(int port) {
    try {
      service = "http://localhost:" + port;
      server = HttpServer.create(new InetSocketAddress("127.0.0.1", 0), 0);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    server.setExecutor(
        Executors.newCachedThreadPool(
            task -> {
              Thread thread = new Thread(task, "host page");
              thread.setDaemon(true);
              return thread;
            }));
    server.createContext("/", this::page);
    server.createContext("/front/", this::front);
    server.start();
  }

  /** Address of the page with the widget as given. */
  String with(String element) {
    widget = element;
    return origin() + "/page";
  }

  String origin() {
    return "http://127.0.0.1:" + server.getAddress().getPort();
  }

  /**
   * The next advice asked under {@code /front/} is refused so often, to be asked again after two
   * seconds.
   */
  void refuse(int times, int status) {
    refusal = status;
    refusals.set(times);
  }

  private void page(HttpExchange exchange) throws IOException {
    if (!exchange.getRequestURI().getPath().equals("/page")) {
      exchange.sendResponseHeaders(204, -1);
      exchange.close();
      return;
    }
    String html =
        """
        <!doctype html>
        <html lang="en">
        <head><meta charset="utf-8"><title>A page of somebody else</title><meta name="viewport" content="width=device-width, initial-scale=1">
        <script type="module" src="%s/widget/understock-advice.js"></script></head>
        <body><main><h1>A page of somebody else</h1>%s</main></body>
        </html>
        """
            .formatted(service, widget);
    exchange.getResponseHeaders().set("Content-Type", "text/html; charset=utf-8");
    exchange.getResponseHeaders().set("Content-Security-Policy", POLICY.formatted(service));
    send(exchange, 200, html.getBytes(StandardCharsets.UTF_8));
  }

  private void front(HttpExchange exchange) throws IOException {
    byte[] body = exchange.getRequestBody().readAllBytes();
    boolean advice = exchange.getRequestMethod().equals("POST");
    if (advice && refusals.getAndUpdate(n -> Math.max(0, n - 1)) > 0) {
      exchange.getResponseHeaders().set("Retry-After", "2");
      send(exchange, refusal, new byte[0]);
      return;
    }
    String path = exchange.getRequestURI().toString().substring("/front".length());
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create(service + path))
            .header("Accept", "application/json")
            .header("Accept-Language", exchange.getRequestHeaders().getFirst("Accept-Language"))
            .method(
                exchange.getRequestMethod(),
                advice
                    ? HttpRequest.BodyPublishers.ofByteArray(body)
                    : HttpRequest.BodyPublishers.noBody());
    if (advice) request.header("Content-Type", "application/json");
    try {
      HttpResponse<byte[]> answer =
          http.send(request.build(), HttpResponse.BodyHandlers.ofByteArray());
      exchange
          .getResponseHeaders()
          .set("Content-Type", answer.headers().firstValue("Content-Type").orElse(""));
      send(exchange, answer.statusCode(), answer.body());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      exchange.close();
    }
  }

  private static void send(HttpExchange exchange, int status, byte[] body) throws IOException {
    exchange.sendResponseHeaders(status, body.length == 0 ? -1 : body.length);
    if (body.length > 0) exchange.getResponseBody().write(body);
    exchange.close();
  }

  @Override
  public void close() {
    server.stop(0);
  }
}
