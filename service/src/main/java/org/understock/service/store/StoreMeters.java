package org.understock.service.store;

import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.MeterRegistry;
import io.micrometer.core.instrument.binder.MeterBinder;
import java.time.Duration;
import java.time.Instant;
import org.springframework.stereotype.Component;

/**
 * Which evidence is served: {@code understock.revision}, and {@code
 * understock.evidence.stale.seconds} (seconds since the database last answered, 0 while it
 * answers). Neither asks the database.
 */
@Component
class StoreMeters implements MeterBinder {
  private final Snapshots snapshots;
  private final Freshness freshness;

  StoreMeters(Snapshots snapshots, Freshness freshness) {
    this.snapshots = snapshots;
    this.freshness = freshness;
  }

  @Override
  public void bindTo(MeterRegistry meters) {
    Gauge.builder("understock.revision", snapshots, s -> s.latest().revision().number())
        .description("The revision of the evidence that is served")
        .register(meters);
    Gauge.builder("understock.evidence.stale.seconds", freshness, StoreMeters::staleFor)
        .description("Seconds since the database last answered; 0 while it answers")
        .register(meters);
  }

  private static double staleFor(Freshness freshness) {
    return freshness
        .staleSince()
        .map(since -> Duration.between(since, Instant.now()).toMillis() / 1_000.0)
        .orElse(0.0);
  }
}
