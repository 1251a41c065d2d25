package org.understock.evidence;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What the records about one trait of one subject add up to. Every estimate knows its records and
 * its grade.
 */
public sealed interface Estimate {

  /** What stands behind an estimate. */
  Support support();

  /**
   * @param records ids of the records used, in order
   * @param sources number of distinct sources
   * @param grade computed from the records by {@link Grade}
   * @param inheritedFrom id of the stock whose records were borrowed where the subject has none of
   *     its own: a clone's parent, or the stock itself when they speak of its roots under other
   *     crops
   */
  record Support(List<String> records, int sources, Grade grade, Optional<String> inheritedFrom) {
    public Support {
      records = List.copyOf(records);
    }
  }

  /**
   * A ratio to the crop's reference stock, pooled from trial means by the network model.
   *
   * @param reference id of the reference stock
   * @param logMean natural log of the ratio
   * @param standardErrorLog standard error of {@code logMean}
   * @param tauLog standard deviation of one stock's log mean from site to site and, where told
   *     apart, from variety to variety (√(τ² + ω²)); a contrast at a new site under a new variety
   *     has variance se² + 2 tauLog²
   * @param strata number of strata in which the stock was met
   * @param degreesOfFreedom residual degrees of freedom of the fit, for intervals by Student's t
   */
  record Ratio(
      String reference,
      double logMean,
      double standardErrorLog,
      double tauLog,
      int strata,
      int degreesOfFreedom,
      Support support)
      implements Estimate {}

  /**
   * Trial means exist, but no chain of trials ties them to the crop's reference stock: not
   * comparable, and not guessed.
   */
  record NotComparable(String reference, int strata, Support support) implements Estimate {}

  /**
   * A positive quantity, on the log scale.
   *
   * @param logMean mean of the natural log
   * @param standardErrorLog uncertainty of that mean
   * @param betweenLog standard deviation between sources or sites on the log scale: what a new
   *     place adds
   */
  record Quantity(
      String unit, double logMean, double standardErrorLog, double betweenLog, Support support)
      implements Estimate {
    /** Standard deviation on the log scale of the quantity at a new place. */
    public double predictionSdLog() {
      return Math.hypot(standardErrorLog, betweenLog);
    }
  }

  /** A quantity on its own scale (degrees, days). Fields as in {@link Quantity}, without logs. */
  record Interval(String unit, double mean, double standardError, double between, Support support)
      implements Estimate {
    public double predictionSd() {
      return Math.hypot(standardError, between);
    }
  }

  /**
   * A Dirichlet distribution over a trait's ordered levels.
   *
   * @param alpha one weight per level, prior included, lowest level first
   */
  record Levels(List<String> levels, double[] alpha, Support support) implements Estimate {
    /** Probability of each level, lowest first. */
    public double[] probabilities() {
      double sum = 0;
      for (double a : alpha) sum += a;
      double[] p = new double[alpha.length];
      for (int k = 0; k < p.length; k++) p[k] = alpha[k] / sum;
      return p;
    }
  }

  /** Words without an order: votes by word, the best supported first. */
  record Named(Map<String, Double> votes, Support support) implements Estimate {
    /** The best-supported word. */
    public String best() {
      return votes.keySet().iterator().next();
    }
  }
}
