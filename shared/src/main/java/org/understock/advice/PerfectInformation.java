package org.understock.advice;

import java.util.Arrays;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * The expected value of partial perfect information: by how much the best choice would on average
 * be better if one uncertain quantity were known, {@code E_x[max_a E(u_a | x)] - max_a E(u_a)}
 * (Raiffa and Schlaifer 1961; as a measure of which uncertainty matters, Felli and Hazen 1998).
 *
 * <p>The conditional means are given for every state of the quantity. The means without the
 * knowledge are their weighted sums and not figures from elsewhere, so that the value is never
 * below 0 and exactly 0 where the same option is best in every state (Jensen's inequality holds in
 * the sample). Estimators that read the conditional means off the scattered draws by regression
 * (Strong, Oakley and Brennan 2014, doi:10.1177/0272989X13505910) are biased upwards by the
 * scatter; they serve where the model can't be asked again, which it can here.
 */
final class PerfectInformation {
  /**
   * Standard normal scores at which a normal quantity's conditional means are asked for; in between
   * they are joined by straight lines.
   */
  static final double[] NODES = {-2.6, -1.8, -1.2, -0.6, 0, 0.6, 1.2, 1.8, 2.6};

  private static final int STEPS = 256;
  private static final double[] SCORES = scores();

  private PerfectInformation() {}

  /**
   * @param value in units of utility, 0 or more
   * @param wouldChange probability of the states in which another option is best than without the
   *     knowledge
   */
  record Worth(double value, double wouldChange) {}

  /**
   * Of a quantity with a few states.
   *
   * @param probabilities by state, summing to 1
   * @param means conditional mean utility by state and option that depends on the quantity
   * @param other highest mean of the options that don't; negative infinity when there are none
   */
  static Worth ofStates(double[] probabilities, double[][] means, double other) {
    double[] without = new double[means[0].length];
    for (int k = 0; k < means.length; k++)
      for (int a = 0; a < without.length; a++) without[a] += probabilities[k] * means[k][a];
    int best = best(without, other);
    double with = 0;
    double changed = 0;
    for (int k = 0; k < means.length; k++) {
      int now = best(means[k], other);
      with += probabilities[k] * worth(means[k], now, other);
      if (now != best) changed += probabilities[k];
    }
    double gained = with - worth(without, best, other);
    return changed == 0 ? new Worth(0, 0) : new Worth(Math.max(0, gained), changed);
  }

  /**
   * Of a normal quantity.
   *
   * @param means conditional mean utility by node of {@link #NODES} and option
   */
  static Worth ofNormal(double[][] means, double other) {
    double[] probabilities = new double[STEPS];
    Arrays.fill(probabilities, 1.0 / STEPS);
    double[][] fine = new double[STEPS][];
    for (int d = 0; d < STEPS; d++) fine[d] = between(means, SCORES[d]);
    return ofStates(probabilities, fine, other);
  }

  /** The option with the highest mean, the first of equals; -1 when it is one of the others. */
  private static int best(double[] means, double other) {
    int best = -1;
    double most = other;
    for (int a = 0; a < means.length; a++) {
      if (means[a] > most) {
        most = means[a];
        best = a;
      }
    }
    return best;
  }

  private static double worth(double[] means, int option, double other) {
    return option < 0 ? other : means[option];
  }

  private static double[] between(double[][] means, double z) {
    int k = 0;
    while (k < NODES.length - 2 && NODES[k + 1] < z) k++;
    double share =
        (z - NODES[k]) / (NODES[k + 1] - NODES[k]); // beyond the outer nodes the line goes on
    double[] at = new double[means[0].length];
    for (int a = 0; a < at.length; a++)
      at[a] = means[k][a] + share * (means[k + 1][a] - means[k][a]);
    return at;
  }

  /**
   * Means of the 256 equal parts of the standard normal distribution, approximated by the quantile
   * at their middle and scaled to unit variance.
   */
  private static double[] scores() {
    NormalDistribution normal = NormalDistribution.of(0, 1);
    double[] z = new double[STEPS];
    double squares = 0;
    for (int d = 0; d < STEPS; d++) {
      z[d] = normal.inverseCumulativeProbability((d + 0.5) / STEPS);
      squares += z[d] * z[d];
    }
    double scale = Math.sqrt(STEPS / squares);
    for (int d = 0; d < STEPS; d++) z[d] *= scale;
    return z;
  }
}
