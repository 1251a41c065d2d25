package org.understock.service.limits;

import java.util.List;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.springframework.http.HttpHeaders;
import org.springframework.stereotype.Component;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;

/**
 * Lets so many questions be worked at in one moment, in the order in which they came. More at once
 * would only make each slower, and all of them hold memory. Only the work is counted, not the
 * reading of a body or the sending of an answer: a slow client takes nobody's turn.
 */
@Component
public class Turns {
  private static final String RETRY_AFTER_S = "1";

  private final Semaphore working;
  private final int all;
  private final Semaphore batches;
  private final long patienceMs;

  Turns(LimitSettings settings) {
    all = settings.working();
    working = new Semaphore(all, true);
    batches = new Semaphore(settings.batches());
    patienceMs = settings.patience().toMillis();
  }

  /**
   * Does the work when its turn comes.
   *
   * @throws ProblemException 503 when its turn does not come in time
   */
  public <T> T take(Supplier<T> work) {
    return take(1, work);
  }

  /** The same for work that takes seconds: it counts as half of all that may go on. */
  public <T> T takeLong(Supplier<T> work) {
    return take(Math.max(1, all / 2), work);
  }

  private <T> T take(int turns, Supplier<T> work) {
    if (!come(turns)) throw busy("The service has more to do than it can at the moment.");
    try {
      return work.get();
    } finally {
      working.release(turns);
    }
  }

  private boolean come(int turns) {
    try {
      return working.tryAcquire(turns, patienceMs, TimeUnit.MILLISECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }

  /** Does one line's work, however long its turn takes to come: who sends lines is held back. */
  public <T> T await(Supplier<T> work) {
    working.acquireUninterruptibly();
    try {
      return work.get();
    } finally {
      working.release();
    }
  }

  /** Runs for as long as a batch takes. */
  @FunctionalInterface
  public interface BatchWork {
    void run() throws java.io.IOException;
  }

  /**
   * Runs a batch, which holds a thread for as long as its client likes.
   *
   * @throws ProblemException 503 when enough of them run
   */
  public void batch(BatchWork work) throws java.io.IOException {
    if (!batches.tryAcquire()) throw busy("As many batches run as may at one time.");
    try {
      work.run();
    } finally {
      batches.release();
    }
  }

  private static ProblemException busy(String detail) {
    return ProblemException.of(ProblemType.BUSY, detail, List.of())
        .withHeader(HttpHeaders.RETRY_AFTER, RETRY_AFTER_S);
  }
}
