package org.understock.advice;

import java.nio.charset.StandardCharsets;
import java.util.SplittableRandom;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * The draws by which uncertainty is carried: a Latin hypercube of {@value #COUNT} points (McKay,
 * Beckman and Conover 1979), one coordinate for each uncertain quantity.
 *
 * <p>Every quantity (a trait of a subject, a weight) has a name, and the name decides its
 * coordinate, so the same quantity has the same draws in every request and for every pairing it
 * enters, and two quantities vary independently. A request answered twice gives the same numbers.
 */
final class Draws {
  /*
   * Each coordinate hits the middle of every 1/256 of the unit interval exactly once, in an order of its own: what is left of the sampling error of a
   * mean is only that of interactions between quantities (Stein 1987), and scores are nearly sums. Scrambled Sobol points were tried and dropped:
   * there are thousands of quantities, so many would have to share a dimension, and two scrambles of one dimension are strongly correlated (their
   * first bit alone carries three quarters of the variance), which falsifies the chance of one pairing beating another.
   */
  static final int COUNT = 256;

  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);
  private static final double[] SCORES = scores();

  private Draws() {}

  private static double[] scores() {
    double[] z = new double[COUNT];
    for (int d = 0; d < COUNT; d++) z[d] = NORMAL.inverseCumulativeProbability(middle(d));
    return z;
  }

  private static double middle(int stratum) {
    return (stratum + 0.5) / COUNT;
  }

  /**
   * Mean over the draws, summed in eight strands: in a single strand every addition would wait for
   * the one before.
   */
  static double mean(double[] x) {
    double a = 0, b = 0, c = 0, e = 0, f = 0, g = 0, h = 0, k = 0;
    for (int d = 0; d < COUNT; d += 8) {
      a += x[d];
      b += x[d + 1];
      c += x[d + 2];
      e += x[d + 3];
      f += x[d + 4];
      g += x[d + 5];
      h += x[d + 6];
      k += x[d + 7];
    }
    return (((a + b) + (c + e)) + ((f + g) + (h + k))) / COUNT;
  }

  /** Mean of the products over the draws, likewise. */
  static double mean(double[] x, double[] y) {
    double a = 0, b = 0, c = 0, e = 0, f = 0, g = 0, h = 0, k = 0;
    for (int d = 0; d < COUNT; d += 8) {
      a += x[d] * y[d];
      b += x[d + 1] * y[d + 1];
      c += x[d + 2] * y[d + 2];
      e += x[d + 3] * y[d + 3];
      f += x[d + 4] * y[d + 4];
      g += x[d + 5] * y[d + 5];
      h += x[d + 6] * y[d + 6];
      k += x[d + 7] * y[d + 7];
    }
    return (((a + b) + (c + e)) + ((f + g) + (h + k))) / COUNT;
  }

  /** Uniform draws in (0, 1) for the named quantity. */
  static double[] uniform(String quantity) {
    int[] strata = strata(quantity);
    double[] u = new double[COUNT];
    for (int d = 0; d < COUNT; d++) u[d] = middle(strata[d]);
    return u;
  }

  /** Standard normal draws for the named quantity. */
  static double[] normal(String quantity) {
    int[] strata = strata(quantity);
    double[] z = new double[COUNT];
    for (int d = 0; d < COUNT; d++) z[d] = SCORES[strata[d]];
    return z;
  }

  /**
   * Unit exponential draws for the named quantity; normalised over criteria they are uniform on the
   * simplex of weights.
   */
  static double[] exponential(String quantity) {
    double[] e = uniform(quantity);
    for (int d = 0; d < COUNT; d++) e[d] = -Math.log(e[d]);
    return e;
  }

  /** The strata in the quantity's own order: a shuffle (Fisher and Yates) seeded by the name. */
  private static int[] strata(String quantity) {
    SplittableRandom random = new SplittableRandom(hash(quantity));
    int[] strata = new int[COUNT];
    for (int d = 0; d < COUNT; d++) strata[d] = d;
    for (int d = COUNT - 1; d > 0; d--) {
      int other = (int) Long.remainderUnsigned(random.nextLong(), d + 1);
      int held = strata[d];
      strata[d] = strata[other];
      strata[other] = held;
    }
    return strata;
  }

  /**
   * FNV-1a, 64 bits, over the UTF-8 bytes: the order must not depend on anything that a platform
   * may change.
   */
  private static long hash(String text) {
    long h = 0xcbf29ce484222325L;
    for (byte b : text.getBytes(StandardCharsets.UTF_8)) h = (h ^ (b & 0xff)) * 0x100000001b3L;
    return h;
  }
}
