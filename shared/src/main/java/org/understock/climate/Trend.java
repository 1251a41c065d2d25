package org.understock.climate;

import java.util.Arrays;
import java.util.Optional;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.understock.evidence.Intervals;

/**
 * Change over the years: the median of the slopes between all pairs of years (Theil 1950, Sen
 * 1968), which one odd year hardly moves, with an 80 % interval from the distribution of Kendall's
 * statistic (Sen 1968, normal approximation).
 *
 * @param perDecade change in ten years
 * @param low lower end of the interval
 * @param high upper end
 */
public record Trend(double perDecade, double low, double high) {
  /** Fewer years than these say nothing; a judgement. */
  public static final int LEAST_YEARS = 8;

  private static final double Z =
      NormalDistribution.of(0, 1).inverseCumulativeProbability(0.5 + Intervals.PERCENT / 200.0);

  /**
   * @param years distinct
   * @param values one a year
   * @return empty for fewer than eight years
   */
  public static Optional<Trend> of(int[] years, double[] values) {
    int n = years.length;
    if (n < LEAST_YEARS) return Optional.empty();
    double[] slopes = new double[n * (n - 1) / 2];
    int at = 0;
    for (int i = 0; i < n; i++)
      for (int j = i + 1; j < n; j++)
        slopes[at++] = 10 * (values[j] - values[i]) / (years[j] - years[i]);
    Arrays.sort(slopes);
    double reach = Z * Math.sqrt(n * (n - 1.0) * (2.0 * n + 5) / 18);
    double low = ranked(slopes, (slopes.length - reach) / 2);
    return Optional.of(
        new Trend(
            SafeChill.quantile(slopes, 0.5), low, ranked(slopes, (slopes.length + reach) / 2 + 1)));
  }

  /**
   * The value at a rank counted from 1; between ranks in a straight line (Sen 1968 leaves it open).
   */
  private static double ranked(double[] sorted, double rank) {
    double at = Math.max(0, Math.min(sorted.length - 1, rank - 1));
    int below = (int) Math.floor(at);
    int above = Math.min(below + 1, sorted.length - 1);
    return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
  }
}
