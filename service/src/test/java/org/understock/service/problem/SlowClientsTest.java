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
    properties = {
      "server.tomcat.connection-timeout=1s",
      "understock.slow-body-grace=1s",
      "understock.header-time=1s",
      "understock.limits.working=4"
    })
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

  /**
   * Bytes sent before the service hung up; each comes well before the silence between two is too
   * long.
   */
  private int trickled(String begin, char each) throws Exception {
    try (Socket socket = open(begin)) {
      int sent = 0;
      try {
        for (; sent < 150; sent++) {
          socket.getOutputStream().write(each);
          Thread.sleep(200);
          if (socket.getInputStream().available() > 0) break;
        }
        assertThat(rest(socket)).isEmpty();
      } catch (SocketException closed) {
        // hung up while we sent
      }
      return sent;
    }
  }

  @Test
  void headers_that_trickle_are_not_waited_for() throws Exception {
    assertThat(trickled("GET /v1/crops HTTP/1.1\r\nHost: x\r\nX-Slow: ", 'a')).isLessThan(150);
    assertThat(trickled("GE", 'T')).isLessThan(150);
  }

  @Test
  void nor_are_empty_lines_before_a_request() throws Exception {
    assertThat(trickled("", '\n')).isLessThan(150);
  }

  @Test
  void a_connection_that_waits_between_requests_is_kept() throws Exception {
    String ask = "GET /v1/crops HTTP/1.1\r\nHost: x\r\n";
    try (Socket socket = open(ask + "\r\n")) {
      InputStream in = socket.getInputStream();
      assertThat(in.read()).isEqualTo('H');
      Thread.sleep(2500);
      socket
          .getOutputStream()
          .write((ask + "Connection: close\r\n\r\n").getBytes(StandardCharsets.US_ASCII));
      assertThat(rest(socket).split("HTTP/1.1 200", -1))
          .as("the second answer, too")
          .hasSize(2 + 0);
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

  /** Nobody reads it, so that the answer comes at once; what is left of it is not waited for. */
  @Test
  void nor_is_a_body_that_nobody_reads() throws Exception {
    String head = "POST /v1/nothing HTTP/1.1\r\nHost: x\r\nContent-Length: 100000\r\n\r\n";
    try (Socket socket = open(head + "{")) {
      int sent = 0;
      try {
        for (; sent < 150; sent++) {
          socket.getOutputStream().write('a');
          Thread.sleep(200);
        }
      } catch (SocketException closed) {
        // hung up while we sent
      }
      assertThat(sent).isLessThan(150);
    }
    try (Socket socket = open(head.replace("100000", "2") + "{")) {
      InputStream in = socket.getInputStream();
      assertThat(new String(in.readNBytes(12), StandardCharsets.UTF_8)).isEqualTo("HTTP/1.1 404");
      socket
          .getOutputStream()
          .write(
              "}GET /v1/crops HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n"
                  .getBytes(StandardCharsets.US_ASCII));
      assertThat(rest(socket)).contains("HTTP/1.1 200");
    }
  }

  /** The sixteen places of one client are taken; who has none is told so and holds no thread. */
  @Test
  void of_many_bodies_by_half_most_are_sent_away_at_once() throws Exception {
    Socket[] slow = new Socket[60];
    for (int i = 0; i < slow.length; i++)
      slow[i] = open(HEAD + "Connection: close\r\nContent-Length: 100\r\n\r\n{\"crop\":");
    int sentAway = 0;
    for (Socket socket : slow) {
      String answer = rest(socket);
      if (answer.startsWith("HTTP/1.1 503")) sentAway++;
      else assertThat(answer).startsWith("HTTP/1.1 408");
      socket.close();
    }
    assertThat(sentAway).isPositive();
  }

  @Test
  void a_slow_client_takes_nobody_elses_turn() throws Exception {
    Socket[] slow = new Socket[12];
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
