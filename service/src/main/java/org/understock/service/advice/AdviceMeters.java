package org.understock.service.advice;

import io.micrometer.core.instrument.Counter;
import io.micrometer.core.instrument.MeterRegistry;
import io.micrometer.core.instrument.Timer;
import java.time.Duration;
import java.util.function.Supplier;
import org.springframework.stereotype.Component;

/**
 * What advice costs: {@code understock.advice}, the time from question to answer without waiting,
 * reading and sending, alone or as a line of a batch; and {@code understock.pairings.scored}.
 */
@Component
class AdviceMeters {
  private static final Duration[] BOUNDS =
      java.util.stream.IntStream.of(1, 2, 5, 10, 20, 50, 100, 200, 500, 1_000)
          .mapToObj(Duration::ofMillis)
          .toArray(Duration[]::new);

  private final Timer alone;
  private final Timer line;
  private final Counter scored;
  private final Counter kept;

  AdviceMeters(MeterRegistry meters) {
    alone = timer("alone").register(meters);
    line = timer("batch").register(meters);
    scored =
        Counter.builder("understock.pairings.scored")
            .description("Pairings that were judged for advice")
            .register(meters);
    kept =
        Counter.builder("understock.advice.kept")
            .description("Questions answered by an answer that was kept; none of the others' time")
            .register(meters);
  }

  private static Timer.Builder timer(String asked) {
    return Timer.builder("understock.advice")
        .description("Time from a question to its answer")
        .tag("asked", asked)
        .serviceLevelObjectives(BOUNDS);
  }

  void kept() {
    kept.increment();
  }

  AdviceResponse alone(Supplier<AdviceResponse> work) {
    return counted(alone, work);
  }

  AdviceResponse line(Supplier<AdviceResponse> work) {
    return counted(line, work);
  }

  private AdviceResponse counted(Timer timer, Supplier<AdviceResponse> work) {
    long begun = System.nanoTime();
    AdviceResponse answer = work.get(); // a question that is refused is no advice
    timer.record(Duration.ofNanos(System.nanoTime() - begun));
    scored.increment(answer.considered());
    return answer;
  }
}
