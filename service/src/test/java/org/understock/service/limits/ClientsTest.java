package org.understock.service.limits;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.time.Duration;
import java.util.Properties;
import org.junit.jupiter.api.Test;
import org.springframework.mock.web.MockFilterChain;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.mock.web.MockHttpServletResponse;

/** Who counts as one client, and how many are remembered. */
class ClientsTest {
  private static LimitSettings settings(long perMinute, int clients) {
    return new LimitSettings(perMinute, 0, clients, 1, Duration.ZERO, 1);
  }

  @Test
  void addresses_are_told_apart_but_not_those_of_one_ipv6_network() {
    assertThat(Clients.client("192.0.2.1")).isNotEqualTo(Clients.client("192.0.2.2"));
    assertThat(Clients.client("2001:db8::1")).isEqualTo(Clients.client("2001:db8::ffff:0:1"));
    assertThat(Clients.client("2001:db8::1")).isNotEqualTo(Clients.client("2001:db8:0:1::1"));
    assertThat(Clients.client("::ffff:192.0.2.1")).isEqualTo("192.0.2.1");
    assertThat(Clients.client("no:address")).isEqualTo("no:address");
  }

  @Test
  void however_many_clients_ask_so_many_are_remembered() {
    Clients clients = new Clients(settings(60, 100));
    for (int i = 0; i < 10_000; i++) clients.of("192.0." + i / 250 + "." + i % 250).tryConsume(1);
    assertThat(clients.remembered()).isLessThanOrEqualTo(100);
  }

  /** The header is believed where a trusted proxy's word was taken before, and nowhere else. */
  @Test
  void a_header_by_itself_makes_no_other_client() throws Exception {
    Properties usual = new Properties();
    try (InputStream in =
        ClientsTest.class.getClassLoader().getResourceAsStream("application.properties")) {
      usual.load(in);
    } catch (IOException e) {
      throw new AssertionError(e);
    }
    assertThat(usual.getProperty("server.forward-headers-strategy")).isEqualTo("none");
    int[] refused = new int[1];
    RateLimit limit =
        new RateLimit(
            settings(5, 100),
            (request, response, handler, e) -> {
              refused[0]++;
              return null;
            });
    for (int i = 0; i < 8; i++) {
      MockHttpServletRequest request = new MockHttpServletRequest("GET", "/v1/crops");
      request.setRemoteAddr("192.0.2.1");
      request.addHeader("X-Forwarded-For", "198.51.100." + i);
      limit.doFilter(request, new MockHttpServletResponse(), new MockFilterChain());
    }
    assertThat(refused[0]).isEqualTo(3);
  }

  @Test
  void settings_that_make_no_sense_are_refused_by_name() {
    assertThatThrownBy(() -> settings(-1, 1)).hasMessageContaining("understock.limits.per-minute");
    assertThatThrownBy(() -> settings(1, 0)).hasMessageContaining("understock.limits.clients");
  }
}
