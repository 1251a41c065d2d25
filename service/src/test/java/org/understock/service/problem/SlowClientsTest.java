package org.understock.service.problem;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.net.Socket;
import java.net.SocketException;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.springframework.test.context.TestPropertySource;
import org.understock.service.RunningService;

/** Clients that send half of something and wait: none holds a connection or a thread for long. */
@TestPropertySource(
    properties = {"server.tomcat.connection-timeout=1s", "understock.slow-body-grace=1s"})
class SlowClientsTest extends RunningService {
  private static final String HEAD =
      "POST /v1/advice HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\n";

  private Socket open(String text) throws IOException {
    Socket socket = new Socket("localhost", port());
    socket.setSoTimeout(15_000);
    socket.getOutputStream().write(text.getBytes(StandardCharsets.US_ASCII));
    socket.getOutputStream().flush();
    return socket;
  }

  private static String rest(Socket socket) throws IOException {
    InputStream in = socket.getInputStream();
    return new String(in.readAllBytes(), StandardCharsets.UTF_8);
  }

  private static String asFarAsItComes(Socket socket) throws IOException {
    try {
      return rest(socket);
    } catch (SocketException reset) {
      return "";
    }
  }

  @Test
  void a_body_of_which_the_rest_does_not_come_is_told_so() throws Exception {
    try (Socket socket = open(HEAD + "Content-Length: 100\r\n\r\n{\"crop\":")) {
      assertThat(rest(socket))
          .startsWith("HTTP/1.1 408")
          .contains("/problems/too-slow", "Connection: close");
    }
    given().get("/problems/too-slow").then().statusCode(200);
  }

  @Test
  void a_body_that_trickles_is_not_waited_for() throws Exception {
    try (Socket socket = open(HEAD + "Content-Length: 100000\r\n\r\n{\"crop\":\"")) {
      int sent = 0;
      try {
        for (; sent < 60; sent++) {
          socket.getOutputStream().write('a');
          Thread.sleep(200);
          if (socket.getInputStream().available() > 0) break;
        }
      } catch (SocketException closed) {
        // the service has closed it while we sent
      }
      assertThat(sent).isLessThan(60);
      assertThat(asFarAsItComes(socket))
          .satisfiesAnyOf(
              answer -> assertThat(answer).contains("408", "/problems/too-slow"),
              // A byte that meets the closed door takes the answer away with it.
              answer -> assertThat(answer).isEmpty());
    }
  }

  @Test
  void headers_of_which_the_rest_does_not_come_are_not_waited_for() throws Exception {
    try (Socket socket = open("GET /v1/crops HTTP/1.1\r\nHost: x\r\nX-Half")) {
      assertThat(rest(socket)).isEmpty();
    }
  }

  @Test
  void a_batch_in_which_nothing_more_comes_says_in_its_last_line_that_it_broke_off()
      throws Exception {
    String line = "{\"crop\":\"quince\",\"limit\":1}\n{\"cr";
    try (Socket socket =
        open(
            "POST /v1/advice/batch HTTP/1.1\r\nHost: x\r\nContent-Type: application/x-ndjson\r\n"
                + "Content-Length: 1000\r\n\r\n"
                + line)) {
      assertThat(rest(socket))
          .contains("{\"line\":1,\"advice\"", "{\"line\":2,\"problem\"", "breaks off");
    }
  }

  @Test
  void a_slow_client_takes_nobody_elses_turn() throws Exception {
    Socket[] slow = new Socket[40];
    for (int i = 0; i < slow.length; i++)
      slow[i] = open(HEAD + "Content-Length: 100\r\n\r\n{\"crop\":");
    given()
        .contentType("application/json")
        .body("{\"crop\":\"quince\",\"limit\":1}")
        .post("/v1/advice")
        .then()
        .statusCode(200);
    for (Socket socket : slow) socket.close();
  }
}
