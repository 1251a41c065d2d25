package org.understock.service.limits;

import io.github.bucket4j.Bucket;
import jakarta.servlet.ServletRequest;
import org.jspecify.annotations.Nullable;

/**
 * What the client of a request may still ask. The request itself has been counted as one unit; who
 * answers it counts what it costs beyond that.
 */
public final class Allowance {
  private static final String ATTRIBUTE = Allowance.class.getName();
  private static final Allowance UNLIMITED = new Allowance(null);

  /** Pairings that are judged for one unit: about half a millisecond's work. */
  private static final int PAIRINGS_A_UNIT = 500;

  /** Trees that are placed for one unit. */
  private static final int TREES_A_UNIT = 100;

  private static final int DAYS_A_YEAR = 365;

  private final @Nullable Bucket bucket;

  Allowance(@Nullable Bucket bucket) {
    this.bucket = bucket;
  }

  /** Of the client who sent a request; without limit when there is none. */
  public static Allowance of(ServletRequest request) {
    return request.getAttribute(ATTRIBUTE) instanceof Allowance given ? given : UNLIMITED;
  }

  void giveTo(ServletRequest request) {
    request.setAttribute(ATTRIBUTE, this);
  }

  /** Counts what an answer cost, once that is known: it may leave the client in debt. */
  public void charge(long units) {
    if (bucket != null && units > 0) bucket.consumeIgnoringRateLimits(units);
  }

  /** Counts the pairings that were judged. */
  public void chargePairings(int judged) {
    charge(judged / PAIRINGS_A_UNIT);
  }

  /** Counts the trees that were placed. */
  public void chargeTrees(long placed) {
    charge(placed / TREES_A_UNIT);
  }

  /**
   * Counts the years of hours that were worked through, one unit for each: a third of a millisecond
   * for the models, and as much again for reading what they were sent as.
   */
  public void chargeYears(long days) {
    charge(Math.max(0, days) / DAYS_A_YEAR);
  }

  /** Waits until one unit may be asked, and takes it. */
  public void await() throws InterruptedException {
    if (bucket != null) bucket.asBlocking().consume(1);
  }
}
