package org.understock.advice;

import java.util.Arrays;
import java.util.Optional;
import org.understock.trait.Refusal;

/**
 * The measures of stochastic multicriteria acceptability analysis (SMAA-2; Lahdelma and Salminen
 * 2001, Operations Research 49: 444–454), from joint draws of weights and values: how often an
 * option takes which rank, which weights make it first, and how sure it is to be first under those.
 *
 * <p>An option's worth in a draw is the weighted sum of its values; its rank is 1 + the number of
 * options worth strictly more, so equals share the better rank. All measures are shares of draws:
 * the standard error of a share b is √(b (1 − b)/N).
 */
public final class Acceptability {
  private final double[][][] values;
  private final double[][] weights;
  private final int options;
  private final double[][] ranks;
  private final double[][] winning;
  private final double[][] centralSums;
  private final double[] firsts;

  private Acceptability(double[][][] values, double[][] weights) {
    this.values = values;
    this.weights = weights;
    this.options = values[0].length;
    this.ranks = new double[options][options];
    this.winning = new double[options][options];
    this.centralSums = new double[options][weights[0].length];
    this.firsts = new double[options];
    for (int d = 0; d < values.length; d++) count(d);
    for (double[] row : ranks) divide(row, values.length);
    for (double[] row : winning) divide(row, values.length);
  }

  /**
   * Measures over joint draws.
   *
   * @param values by draw, option and criterion, each scaled to 0..1
   * @param weights by draw and criterion, summing to 1 in each draw
   * @throws Refusal.Conflict when there are no draws, or their numbers differ
   */
  public static Acceptability of(double[][][] values, double[][] weights) {
    if (values.length == 0 || values.length != weights.length) {
      throw new Refusal.Conflict(
          "draws",
          values.length
              + " draws of values and "
              + weights.length
              + " of weights; as many of each are needed, and at least one");
    }
    return new Acceptability(values, weights);
  }

  private void count(int draw) {
    double[] worth = new double[options];
    for (int i = 0; i < options; i++) worth[i] = worth(values[draw][i], weights[draw]);
    for (int i = 0; i < options; i++) {
      int better = 0;
      for (int k = 0; k < options; k++) {
        if (worth[k] > worth[i]) better++;
        else if (worth[i] > worth[k]) winning[i][k]++;
      }
      ranks[i][better]++;
      if (better > 0) continue;
      firsts[i]++;
      for (int j = 0; j < weights[draw].length; j++) centralSums[i][j] += weights[draw][j];
    }
  }

  private static double worth(double[] values, double[] weights) {
    double sum = 0;
    for (int j = 0; j < weights.length; j++) sum += weights[j] * values[j];
    return sum;
  }

  private static void divide(double[] row, double by) {
    for (int k = 0; k < row.length; k++) row[k] /= by;
  }

  /** Share of draws in which the option takes rank 1, 2, … */
  public double[] rankAcceptability(int option) {
    return ranks[option].clone();
  }

  /** Mean weights over the draws in which the option is first; empty when it never is. */
  public Optional<double[]> centralWeights(int option) {
    if (firsts[option] == 0) return Optional.empty();
    double[] central = centralSums[option].clone();
    divide(central, firsts[option]);
    return Optional.of(central);
  }

  /**
   * Share of the value draws in which the option is first under its own central weights; empty when
   * it is never first.
   */
  public Optional<Double> confidenceFactor(int option) {
    return centralWeights(option).map(central -> firstShare(option, central));
  }

  /**
   * Share of the value draws in which the option is first under the central weights of another one;
   * empty when that one is never first.
   */
  public Optional<Double> crossConfidence(int option, int weightsOf) {
    return centralWeights(weightsOf).map(central -> firstShare(option, central));
  }

  /** Share of the value draws in which the option is first under the given weights. */
  public double firstShare(int option, double[] under) {
    int first = 0;
    for (double[][] draw : values) {
      double own = worth(draw[option], under);
      boolean best = true;
      for (int k = 0; k < options && best; k++) best = k == option || worth(draw[k], under) <= own;
      if (best) first++;
    }
    return (double) first / values.length;
  }

  /** Share of draws in which the first option is worth strictly more than the second. */
  public double pairwiseWinning(int option, int other) {
    return winning[option][other];
  }

  /**
   * Sum over ranks of the rank's meta-weight times the rank acceptability. @param metaWeights by
   * rank, not increasing, the first 1
   */
  public double holistic(int option, double[] metaWeights) {
    double sum = 0;
    for (int r = 0; r < options; r++) sum += metaWeights[r] * ranks[option][r];
    return sum;
  }

  /** Linear meta-weights: (m − r)/(m − 1) for rank r of m. */
  public static double[] linearMetaWeights(int ranks) {
    double[] weights = new double[ranks];
    Arrays.setAll(weights, r -> ranks == 1 ? 1 : (ranks - 1.0 - r) / (ranks - 1));
    return weights;
  }

  /**
   * Rank-order centroid meta-weights, scaled to 1 for the first rank: Σ_{t ≥ r} 1/t over Σ_t 1/t.
   */
  public static double[] centroidMetaWeights(int ranks) {
    double[] weights = new double[ranks];
    double tail = 0;
    for (int r = ranks; r >= 1; r--) {
      tail += 1.0 / r;
      weights[r - 1] = tail;
    }
    divide(weights, tail);
    return weights;
  }
}
