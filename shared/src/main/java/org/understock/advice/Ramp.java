package org.understock.advice;

/**
 * A value that runs in a straight line from 0 to 1 between two points of a logarithm, and stays there beyond them. On the log scale because sizes,
 * years and yields are felt in ratios, and because it spares an exponential for every draw.
 */
record Ramp(double noneAt, double slope) {

  /** 0 at {@code none}, 1 at {@code full}; either may be the larger one. Both above 0, in the same unit. */
  static Ramp between(double none, double full) {
    double noneAt = Math.log(none);
    return new Ramp(noneAt, 1 / (Math.log(full) - noneAt));
  }

  double of(double log) {
    double v = (log - noneAt) * slope;
    return Math.max(0, Math.min(1, v));
  }
}
