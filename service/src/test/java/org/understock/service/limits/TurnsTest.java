package org.understock.service.limits;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;

/** How many questions are worked at in one moment. */
class TurnsTest {
  private static Turns turns(int working, Duration patience) {
    return new Turns(new LimitSettings(0, 0, 1, working, patience, 1));
  }

  @Test
  void never_more_than_so_many_at_once_and_each_gets_its_turn() throws Exception {
    Turns turns = turns(3, Duration.ofSeconds(30));
    AtomicInteger now = new AtomicInteger();
    AtomicInteger most = new AtomicInteger();
    ExecutorService askers = Executors.newFixedThreadPool(20);
    List<Future<Integer>> done = new ArrayList<>();
    for (int i = 0; i < 60; i++) {
      int question = i;
      done.add(
          askers.submit(
              () ->
                  turns.take(
                      () -> {
                        most.accumulateAndGet(now.incrementAndGet(), Math::max);
                        try {
                          Thread.sleep(2);
                        } catch (InterruptedException e) {
                          throw new AssertionError(e);
                        }
                        now.decrementAndGet();
                        return question;
                      })));
    }
    for (int i = 0; i < 60; i++) assertThat(done.get(i).get(30, TimeUnit.SECONDS)).isEqualTo(i);
    askers.shutdown();
    assertThat(most.get()).isEqualTo(3);
  }

  @Test
  void who_waits_too_long_is_sent_away_and_what_fails_gives_its_turn_back() throws Exception {
    Turns turns = turns(2, Duration.ZERO);
    CountDownLatch begun = new CountDownLatch(1);
    CountDownLatch end = new CountDownLatch(1);
    ExecutorService asker = Executors.newSingleThreadExecutor();
    Future<String> first =
        asker.submit(
            () ->
                turns.take(
                    () -> {
                      begun.countDown();
                      try {
                        end.await();
                      } catch (InterruptedException e) {
                        throw new AssertionError(e);
                      }
                      return "first";
                    }));
    begun.await();
    assertThatThrownBy(
            () ->
                turns.take(
                    () -> {
                      throw new IllegalStateException("fails");
                    }))
        .isInstanceOf(IllegalStateException.class);
    // Long work is half of two: one turn is free, and none while that runs.
    String within =
        turns.takeLong(
            () -> {
              assertThatThrownBy(() -> turns.take(() -> "third"))
                  .isInstanceOf(ProblemException.class)
                  .satisfies(
                      e -> assertThat(((ProblemException) e).type()).isEqualTo(ProblemType.BUSY));
              return "long";
            });
    assertThat(within).isEqualTo("long");
    end.countDown();
    assertThat(first.get(10, TimeUnit.SECONDS)).isEqualTo("first");
    asker.shutdown();
    assertThat(turns.<String>takeLong(() -> "again")).isEqualTo("again");
  }

  @Test
  void batches_are_counted_by_themselves() throws Exception {
    Turns turns = turns(1, Duration.ZERO);
    turns.batch(
        () -> {
          assertThat(turns.<String>take(() -> "beside a batch")).isEqualTo("beside a batch");
          assertThatThrownBy(() -> turns.batch(() -> {})).isInstanceOf(ProblemException.class);
        });
    turns.batch(() -> {});
  }
}
