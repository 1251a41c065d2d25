package org.understock.growth;

/**
 * A positive quantity with its uncertainty, normal on the log scale.
 *
 * @param mu mean of the natural log
 * @param sigma standard deviation of the natural log, 0 or more
 */
public record LogNormal(double mu, double sigma) {
  /** 90th percentile of the standard normal distribution. */
  private static final double Z90 = 1.2815515655446004;

  /** The quantity whose 10th and 90th percentiles are the given ones. */
  public static LogNormal between(double p10, double p90) {
    return new LogNormal(
        (Math.log(p10) + Math.log(p90)) / 2, (Math.log(p90) - Math.log(p10)) / (2 * Z90));
  }

  /** Product with an independent quantity. */
  public LogNormal times(LogNormal other) {
    return new LogNormal(mu + other.mu, both(sigma, other.sigma));
  }

  /**
   * Spread of a sum of two independent quantities. Not {@link Math#hypot}, whose care for overflow
   * costs more than all else that is done for a pairing.
   */
  static double both(double sigma, double other) {
    return Math.sqrt(sigma * sigma + other * other);
  }

  /** Multiplied by a number known exactly. */
  public LogNormal times(double factor) {
    return new LogNormal(mu + Math.log(factor), sigma);
  }

  /** Value at a standard normal score: {@code at(0)} is the median. */
  public double at(double z) {
    return Math.exp(mu + sigma * z);
  }

  public double median() {
    return Math.exp(mu);
  }

  public double p10() {
    return at(-Z90);
  }

  public double p90() {
    return at(Z90);
  }
}
