package org.understock.evidence.pooling;

import java.util.Arrays;
import java.util.Collection;
import org.understock.trait.Refusal;

/**
 * Pools statements about an ordered level as a Dirichlet distribution: a weak uniform prior, and
 * each voice's weight spread over the level it states and a little over the neighbours, because
 * sources use neighbouring words loosely. This is a linear opinion pool of the voices and the prior
 * (Clemen and Winkler 1999); no voice leaves the prior, many agreeing ones narrow it, disagreement
 * stays visible as a wide distribution.
 */
public final class RatingPool {
  /**
   * Total weight of the prior, spread evenly over the levels: a little less than one expert's
   * voice, so that a single rating is heard (judgement).
   */
  public static final double PRIOR = 0.5;

  /** Share of a voice's weight that goes to each neighbour of the level it states. */
  public static final double NEIGHBOUR = 0.1;

  private RatingPool() {}

  /**
   * One voice.
   *
   * @param from lowest level stated, 0 = lowest of the trait
   * @param to highest level stated, the same as {@code from} for a single level
   * @param weight 0 to 1
   */
  public record Voice(int from, int to, double weight) {}

  /**
   * The Dirichlet's parameters, lowest level first.
   *
   * @param levels number of levels, 2 or more
   * @param priorEach prior weight of every level
   * @param neighbour share of a voice's weight for each existing neighbour of its level
   */
  public static double[] pool(
      int levels, double priorEach, double neighbour, Collection<Voice> voices) {
    double[] alpha = new double[levels];
    Arrays.fill(alpha, priorEach);
    for (Voice voice : voices) {
      if (voice.from < 0 || voice.to >= levels || voice.from > voice.to)
        throw new Refusal.OutOfRange(
            "level", voice.from + " to " + voice.to, "0 to " + (levels - 1));
      double each = voice.weight / (voice.to - voice.from + 1);
      for (int level = voice.from; level <= voice.to; level++)
        spread(alpha, level, each, neighbour);
    }
    return alpha;
  }

  private static void spread(double[] alpha, int level, double weight, double neighbour) {
    double kept = 1;
    if (level > 0) {
      alpha[level - 1] += weight * neighbour;
      kept -= neighbour;
    }
    if (level + 1 < alpha.length) {
      alpha[level + 1] += weight * neighbour;
      kept -= neighbour;
    }
    alpha[level] += weight * kept;
  }

  /** Mean level, scored 1 for the lowest. */
  public static double meanLevel(double[] alpha) {
    double sum = 0;
    double total = 0;
    for (int k = 0; k < alpha.length; k++) {
      sum += (k + 1) * alpha[k];
      total += alpha[k];
    }
    return sum / total;
  }

  /**
   * Consensus of a distribution over levels: 1 when all of it is on one level, 0 when it is split
   * between the ends (Tastle and Wierman 2007).
   *
   * @param weights by level, not necessarily summing to 1
   */
  public static double consensus(double[] weights) {
    double mean = meanLevel(weights);
    double total = Arrays.stream(weights).sum();
    double consensus = 1;
    for (int k = 0; k < weights.length; k++) {
      if (weights[k] > 0)
        consensus +=
            weights[k]
                / total
                * Math.log(1 - Math.abs(k + 1 - mean) / (weights.length - 1))
                / Math.log(2);
    }
    return consensus;
  }
}
