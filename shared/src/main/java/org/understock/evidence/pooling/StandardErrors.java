package org.understock.evidence.pooling;

import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;
import org.understock.evidence.Context.Spread;
import org.understock.trait.Refusal;

/**
 * The standard error of one mean behind each kind of printed spread, both comparisons at 5 %:
 *
 * <ul>
 *   <li>Tukey's HSD = q(0.95; k, ν) × SE, with k means and ν error degrees of freedom (Tukey 1953; tables of q in any statistics book);
 *   <li>Fisher's LSD = t(0.975; ν) √2 × SE;
 *   <li>SD between n trees = √n × SE.
 * </ul>
 */
public final class StandardErrors {
  private StandardErrors() {}

  /** SE from Tukey's HSD. @param degreesOfFreedom of the error, infinite when not printed */
  public static double ofHsd(double hsd, int means, double degreesOfFreedom) {
    return hsd / StudentizedRange.quantile(0.95, means, degreesOfFreedom);
  }

  /** SE from Fisher's LSD. @param degreesOfFreedom of the error, infinite when not printed */
  public static double ofLsd(double lsd, double degreesOfFreedom) {
    return lsd / (studentT(0.975, degreesOfFreedom) * Math.sqrt(2));
  }

  /** SE from the standard deviation between trees. */
  public static double ofSd(double sd, int trees) {
    if (trees < 1) throw new Refusal.OutOfRange("trees", trees, "1 or more");
    return sd / Math.sqrt(trees);
  }

  /**
   * SE of a mean from whatever spread was printed.
   *
   * @param means number of means in the table, for HSD
   * @param trees number of trees behind the mean, for SD
   * @param degreesOfFreedom of the error, for HSD and LSD
   */
  static double of(Spread spread, int means, int trees, double degreesOfFreedom) {
    return switch (spread.kind()) {
      case SE -> spread.value();
      case SD -> ofSd(spread.value(), trees);
      case HSD -> ofHsd(spread.value(), Math.max(2, means), degreesOfFreedom);
      case LSD -> ofLsd(spread.value(), degreesOfFreedom);
    };
  }

  /** Quantile of Student's t; of the normal distribution for infinite degrees of freedom. */
  public static double studentT(double probability, double degreesOfFreedom) {
    return Double.isInfinite(degreesOfFreedom)
        ? NormalDistribution.of(0, 1).inverseCumulativeProbability(probability)
        : TDistribution.of(degreesOfFreedom).inverseCumulativeProbability(probability);
  }
}
