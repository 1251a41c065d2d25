package org.understock.service.platform;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.springframework.boot.autoconfigure.AutoConfiguration;
import org.springframework.boot.autoconfigure.AutoConfigurations;
import org.springframework.boot.context.annotation.ImportCandidates;
import org.springframework.mock.env.MockEnvironment;

/** Which of Boot's own set-ups are left out when no endpoint takes traces. */
class TracesWhenAskedTest {
  private static long dropped(String endpoint) {
    String[] all =
        ImportCandidates.load(AutoConfiguration.class, AutoConfigurations.class.getClassLoader())
            .getCandidates()
            .toArray(String[]::new);
    TracesWhenAsked filter = new TracesWhenAsked();
    filter.setEnvironment(new MockEnvironment().withProperty(TracesWhenAsked.ENDPOINT, endpoint));
    long dropped = 0;
    boolean[] wanted = filter.match(all, null);
    for (int i = 0; i < all.length; i++) {
      if (wanted[i]) continue;
      assertThat(all[i]).matches("(?i).*(trac|opentelemetry).*");
      dropped++;
    }
    return dropped;
  }

  @Test
  void nothing_of_traces_is_set_up_unless_an_endpoint_takes_them() {
    assertThat(dropped("")).isGreaterThanOrEqualTo(3);
    assertThat(dropped("http://collector.example:4318/v1/traces")).isZero();
  }
}
