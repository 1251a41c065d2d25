package org.understock.economics;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * A quantity as its draws have it: 10th, 50th and 90th percentile. A percentile that lies among
 * draws without end (a payback that never comes) or without a figure is null.
 */
public record Spread(@Nullable Double low, @Nullable Double likely, @Nullable Double high) {

  /**
   * Percentiles of draws, by the inverse of their distribution function where one beside it is
   * infinite, else between neighbours.
   *
   * @param draws in any order, not changed; at least 20
   */
  public static Spread of(double[] draws) {
    double[] sorted = draws.clone();
    Arrays.sort(sorted);
    return new Spread(finite(sorted, 0.1), finite(sorted, 0.5), finite(sorted, 0.9));
  }

  private static @Nullable Double finite(double[] sorted, double p) {
    double value = percentile(sorted, p);
    return Double.isFinite(value) ? Double.valueOf(value) : null;
  }

  /** A percentile of sorted draws. */
  public static double percentile(double[] sorted, double p) {
    double at = p * sorted.length - 0.5;
    int below = (int) Math.floor(at);
    double low = sorted[below];
    double high = sorted[below + 1];
    if (Double.isInfinite(low) || Double.isInfinite(high)) return at - below < 0.5 ? low : high;
    return low + (at - below) * (high - low);
  }
}
