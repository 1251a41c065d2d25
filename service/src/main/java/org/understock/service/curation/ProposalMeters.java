package org.understock.service.curation;

import com.github.benmanes.caffeine.cache.Caffeine;
import com.github.benmanes.caffeine.cache.LoadingCache;
import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.MeterRegistry;
import io.micrometer.core.instrument.binder.MeterBinder;
import java.time.Duration;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/**
 * How much waits for a reviewer: {@code understock.proposals.waiting}. Counted in the database at
 * most once in a while, whoever asks; not a number while the database is away.
 */
@Component
class ProposalMeters implements MeterBinder {
  private static final Duration KEPT = Duration.ofSeconds(15);

  private final LoadingCache<String, Double> waiting;

  ProposalMeters(JdbcClient database) {
    waiting = Caffeine.newBuilder().expireAfterWrite(KEPT).build(status -> count(database, status));
  }

  @Override
  public void bindTo(MeterRegistry meters) {
    Gauge.builder("understock.proposals.waiting", waiting, counted -> counted.get("proposed"))
        .description("Proposals that nobody has reviewed")
        .register(meters);
  }

  private static double count(JdbcClient database, String status) {
    try {
      return database
          .sql("select count(*) from records where status = ?")
          .param(status)
          .query(Long.class)
          .single();
    } catch (DataAccessException e) {
      return Double.NaN;
    }
  }
}
