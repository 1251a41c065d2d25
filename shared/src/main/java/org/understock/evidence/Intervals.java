package org.understock.evidence;

import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;

/**
 * The middle of an estimate with its two 80 % intervals, on the scale of the trait: where the mean
 * lies, and where the value at a new place lies.
 *
 * <p>Ratios and quantities are pooled as logs, so their intervals are symmetric there and not here.
 * A ratio's intervals use Student's t with the fit's residual degrees of freedom; its value at a
 * new site has variance se² + 2 τ², because both stocks vary. The others use the normal
 * distribution.
 */
public record Intervals(
    double value, double low, double high, double predictionLow, double predictionHigh) {
  /** Share of cases that the intervals are to hold, in percent. */
  public static final int PERCENT = 80;

  private static final double UPPER = 0.5 + PERCENT / 200.0;
  private static final double Z = NormalDistribution.of(0, 1).inverseCumulativeProbability(UPPER);

  public static Intervals of(Estimate.Ratio ratio) {
    double t =
        ratio.degreesOfFreedom() > 0
            ? TDistribution.of(ratio.degreesOfFreedom()).inverseCumulativeProbability(UPPER)
            : Z;
    double tau = ratio.tauLog();
    return log(
        ratio.logMean(),
        t * ratio.standardErrorLog(),
        t * Math.sqrt(ratio.standardErrorLog() * ratio.standardErrorLog() + 2 * tau * tau));
  }

  public static Intervals of(Estimate.Quantity quantity) {
    return log(quantity.logMean(), Z * quantity.standardErrorLog(), Z * quantity.predictionSdLog());
  }

  public static Intervals of(Estimate.Interval interval) {
    double mean = interval.mean();
    double half = Z * interval.standardError();
    double prediction = Z * interval.predictionSd();
    return new Intervals(mean, mean - half, mean + half, mean - prediction, mean + prediction);
  }

  private static Intervals log(double mean, double half, double prediction) {
    return new Intervals(
        Math.exp(mean),
        Math.exp(mean - half),
        Math.exp(mean + half),
        Math.exp(mean - prediction),
        Math.exp(mean + prediction));
  }
}
