package org.understock.growth;

import java.util.Arrays;
import java.util.Comparator;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * A fixed sample of trees: standard normal scores that fill three dimensions evenly, so that
 * percentiles over trees are the same bytes each time.
 *
 * <p>Points are an additive recurrence on the inverse powers of the root of x⁴ = x + 1 (the golden
 * ratio's sister in three dimensions); each dimension is then put on evenly spaced quantiles in the
 * same order, so that single quantities keep their own percentiles exactly.
 */
final class Trees {
  static final int COUNT = 255;
  private static final int DIMENSIONS = 3;

  /** Real root above 1 of x⁴ = x + 1. */
  private static final double ROOT = 1.2207440846057596;

  private static final double[][] SCORES = scores();

  private Trees() {}

  static double score(int tree, int dimension) {
    return SCORES[tree][dimension];
  }

  private static double[][] scores() {
    NormalDistribution normal = NormalDistribution.of(0, 1);
    double[][] scores = new double[COUNT][DIMENSIONS];
    for (int d = 0; d < DIMENSIONS; d++) {
      double step = Math.pow(ROOT, -(d + 1));
      Integer[] order = new Integer[COUNT];
      for (int i = 0; i < COUNT; i++) order[i] = i;
      Arrays.sort(order, Comparator.comparingDouble(i -> fraction((i + 1) * step)));
      for (int rank = 0; rank < COUNT; rank++)
        scores[order[rank]][d] = normal.inverseCumulativeProbability((rank + 0.5) / COUNT);
    }
    return scores;
  }

  private static double fraction(double x) {
    return x - Math.floor(x);
  }
}
