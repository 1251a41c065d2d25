package org.understock.service.limits;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.nio.ByteBuffer;
import java.nio.channels.SocketChannel;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.springframework.test.context.TestPropertySource;
import org.understock.service.RunningService;

/** Of requests that have begun and do not go on, so many are kept, for each holds memory. */
@TestPropertySource(
    properties = {
      "server.tomcat.connection-timeout=10m",
      "understock.header-time=10m",
      "understock.half-headers=20"
    })
class HalfHeadersTest extends RunningService {
  private static final String HALF = "GET /v1/crops HTTP/1.1\r\nHost: x\r\nX-Half: ";

  private final List<SocketChannel> open = new ArrayList<>();

  private void begin(int many) throws IOException {
    for (int i = 0; i < many; i++) {
      SocketChannel channel = SocketChannel.open(new InetSocketAddress("localhost", port()));
      channel.write(ByteBuffer.wrap(HALF.getBytes(StandardCharsets.US_ASCII)));
      channel.configureBlocking(false);
      open.add(channel);
    }
  }

  private boolean hungUp(SocketChannel channel) {
    try {
      return channel.read(ByteBuffer.allocate(1)) < 0;
    } catch (IOException e) {
      return true;
    }
  }

  private void awaitKept(int many) {
    await()
        .atMost(Duration.ofMinutes(1))
        .until(
            () -> {
              for (SocketChannel channel : List.copyOf(open))
                if (hungUp(channel)) {
                  channel.close();
                  open.remove(channel);
                }
              return open.size() <= many;
            });
    assertThat(open).hasSize(many);
  }

  @Test
  void so_many_are_kept_and_may_still_go_on() throws Exception {
    try {
      begin(30);
      awaitKept(20);
      given().get("/v1/crops").then().statusCode(200);
      SocketChannel one = open.get(0);
      one.configureBlocking(true);
      one.write(
          ByteBuffer.wrap("a\r\nConnection: close\r\n\r\n".getBytes(StandardCharsets.US_ASCII)));
      ByteBuffer answer = ByteBuffer.allocate(12);
      while (answer.hasRemaining() && one.read(answer) >= 0) {}
      assertThat(new String(answer.array(), StandardCharsets.US_ASCII)).isEqualTo("HTTP/1.1 200");
    } finally {
      for (SocketChannel channel : open) channel.close();
    }
  }
}
