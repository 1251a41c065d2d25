package org.understock.evidence.pooling;

import org.apache.commons.statistics.distribution.TDistribution;
import org.understock.evidence.Context;

/**
 * Sampling variance of the log of a trial mean from the spread that its table prints.
 *
 * <p>Tukey's HSD divided by the studentized range quantile, Fisher's LSD by √2 times Student's t
 * quantile (both at 5 %), SD by the root of the number of trees: each gives the standard error of a
 * mean, which is divided by the <em>stratum's</em> mean, not by the single value: that would give
 * the smallest stocks the largest variance and pull them up.
 */
public final class SamplingVariance {
  private SamplingVariance() {}

  /**
   * @param stocks number of means compared in the table
   * @param errorDf error degrees of freedom; where a table does not print them, {@link
   *     Double#POSITIVE_INFINITY}
   * @param trees behind the mean; needed for an SD only
   * @param level mean of the stratum, in the unit of the spread
   * @return variance on the log scale
   */
  public static double of(
      Context.Spread spread, int stocks, double errorDf, int trees, double level) {
    double se = standardError(spread.kind(), spread.value(), stocks, errorDf, trees) / level;
    return se * se;
  }

  /** Standard error of a mean in the unit of the spread. */
  public static double standardError(
      Context.Spread.Kind kind, double value, int stocks, double errorDf, int trees) {
    return switch (kind) {
      case SE -> value;
      case SD -> value / Math.sqrt(trees);
      case HSD -> value / StudentizedRange.quantile(0.95, stocks, errorDf);
      case LSD -> value / (student975(errorDf) * Math.sqrt(2));
    };
  }

  private static double student975(double df) {
    return Double.isInfinite(df)
        ? 1.959963984540054
        : TDistribution.of(df).inverseCumulativeProbability(0.975);
  }
}
