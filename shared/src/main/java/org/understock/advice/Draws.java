package org.understock.advice;

import java.nio.charset.StandardCharsets;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.hipparchus.random.SobolSequenceGenerator;

/**
 * The draws by which uncertainty is carried: {@value #COUNT} points of a Sobol sequence, scrambled afresh for each uncertain quantity.
 *
 * <p>Every quantity (a trait of a subject, a weight) has a name; the name picks a dimension of the sequence and a scramble, so the same quantity
 * has the same draws in every request and for every pairing it enters, and two quantities vary independently. Nothing here is random: a request
 * answered twice gives the same numbers.
 */
final class Draws {
  /*
   * A power of two, so that each scrambled coordinate hits every 1/256 of the unit interval exactly once: means of monotone value functions
   * are then exact to about 1/256 of their range. Scrambling is Owen's nested uniform scramble in its hash form (Laine and Karras 2011;
   * constants as in Burley 2020, "Practical hash-based Owen scrambling", Journal of Computer Graphics Techniques 9(4)).
   */
  static final int COUNT = 256;

  private static final int DIMENSIONS = 32;
  private static final int[][] POINTS = points();
  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

  private Draws() {}

  private static int[][] points() {
    SobolSequenceGenerator sobol = new SobolSequenceGenerator(DIMENSIONS);
    int[][] points = new int[DIMENSIONS][COUNT];
    for (int d = 0; d < COUNT; d++) {
      double[] point = sobol.nextVector();
      for (int k = 0; k < DIMENSIONS; k++) points[k][d] = (int) (long) (point[k] * 0x1p32);
    }
    return points;
  }

  /** Uniform draws in (0, 1) for the named quantity. */
  static double[] uniform(String quantity) {
    int seed = hash(quantity);
    int[] base = POINTS[Math.floorMod(seed, DIMENSIONS)];
    int scramble = mix(seed);
    double[] u = new double[COUNT];
    // The low bits below 1/COUNT are replaced by one half, so that a draw sits in the middle of its stratum.
    for (int d = 0; d < COUNT; d++) u[d] = ((owen(base[d], scramble) >>> 24) + 0.5) / COUNT;
    return u;
  }

  /** Standard normal draws for the named quantity. */
  static double[] normal(String quantity) {
    double[] z = uniform(quantity);
    for (int d = 0; d < COUNT; d++) z[d] = NORMAL.inverseCumulativeProbability(z[d]);
    return z;
  }

  /** Unit exponential draws for the named quantity; normalised over criteria they are uniform on the simplex of weights. */
  static double[] exponential(String quantity) {
    double[] e = uniform(quantity);
    for (int d = 0; d < COUNT; d++) e[d] = -Math.log(e[d]);
    return e;
  }

  private static int owen(int bits, int seed) {
    int x = Integer.reverse(bits);
    x += seed;
    x ^= x * 0x6c50b47c;
    x ^= x * 0xb82f1e52;
    x ^= x * 0xc7afe638;
    x ^= x * 0x8d22f6e6;
    return Integer.reverse(x);
  }

  /** FNV-1a over the UTF-8 bytes: fixed for all time, unlike a language's own string hash it is ours to keep. */
  private static int hash(String text) {
    int h = 0x811c9dc5;
    for (byte b : text.getBytes(StandardCharsets.UTF_8)) h = (h ^ (b & 0xff)) * 0x01000193;
    return mix(h);
  }

  private static int mix(int x) {
    x ^= x >>> 16;
    x *= 0x7feb352d;
    x ^= x >>> 15;
    x *= 0x846ca68b;
    return x ^ (x >>> 16);
  }
}
