package org.understock.evidence.pooling;

import java.util.function.DoubleUnaryOperator;
import org.apache.commons.numbers.gamma.LogGamma;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.understock.trait.Refusal;

/**
 * Quantiles of the studentized range: the distribution behind Tukey's honestly significant
 * difference (HSD).
 *
 * <p>With k independent standard normal values and an independent estimate s of their standard
 * deviation on ν degrees of freedom, the range divided by s is at most q with probability
 *
 * <pre>P(q; k, ν) = ∫ f(s; ν) R(q s; k) ds,   R(w; k) = k ∫ φ(z) (Φ(z) − Φ(z − w))^(k−1) dz</pre>
 *
 * where f is the density of s (a chi variable over √ν); for infinite ν, P = R. Domain: k from 2, ν
 * from 1.
 */
public final class StudentizedRange {
  /*
   * Both integrals are smooth and die off fast, so the composite Simpson rule with a fixed number of panels is enough: with the numbers below
   * the quantiles agree with the reference tables to seven digits. P is monotone in q, so the
   * quantile is bracketed and closed in on by false position with halving (the Illinois rule): some ten evaluations instead of forty.
   */
  private static final int INNER_PANELS = 200;
  private static final int OUTER_PANELS = 160;
  private static final double TAIL = 8.5;
  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

  private StudentizedRange() {}

  /**
   * The value that the studentized range stays below with the given probability.
   *
   * @param probability above 0 and below 1
   * @param groups number of means compared, 2 or more
   * @param degreesOfFreedom of the error term, 1 or more; {@link Double#POSITIVE_INFINITY} when it
   *     is not printed
   */
  public static double quantile(double probability, int groups, double degreesOfFreedom) {
    if (!(probability > 0 && probability < 1))
      throw new Refusal.OutOfRange("probability", probability, "above 0 and below 1");
    if (groups < 2) throw new Refusal.OutOfRange("groups", groups, "2 or more");
    if (!(degreesOfFreedom >= 1))
      throw new Refusal.OutOfRange("degreesOfFreedom", degreesOfFreedom, "1 or more");
    double low = 0;
    double high = 8;
    double atLow = -probability;
    double atHigh;
    while ((atHigh = cumulative(high, groups, degreesOfFreedom) - probability) < 0) high *= 2;
    boolean lastMovedLow = false;
    boolean lastMovedHigh = false;
    while (high - low > 1e-11 * high) {
      double next = high - atHigh * (high - low) / (atHigh - atLow);
      if (!(next > low && next < high)) next = (low + high) / 2;
      double atNext = cumulative(next, groups, degreesOfFreedom) - probability;
      if (Math.abs(atNext) < 1e-13) return next;
      if (atNext < 0) {
        low = next;
        atLow = atNext;
        if (lastMovedLow) atHigh /= 2;
      } else {
        high = next;
        atHigh = atNext;
        if (lastMovedHigh) atLow /= 2;
      }
      lastMovedLow = atNext < 0;
      lastMovedHigh = !lastMovedLow;
    }
    return (low + high) / 2;
  }

  /** Probability that the studentized range is at most q. Arguments as in {@link #quantile}. */
  public static double cumulative(double q, int groups, double degreesOfFreedom) {
    if (q <= 0) return 0;
    if (Double.isInfinite(degreesOfFreedom)) return range(q, groups);
    /* The variable is x = ln s: it keeps the long right tail of few degrees of freedom inside a fixed interval. */
    double sd = 1 / Math.sqrt(2 * degreesOfFreedom);
    double from = -2 * TAIL * sd;
    /* Laurent and Massart (2000): s² exceeds 1 + 2 √(t/ν) + 2t/ν with a probability below exp(−t); t = 36. */
    double to = Math.log(1 + 12 / Math.sqrt(degreesOfFreedom) + 72 / degreesOfFreedom) / 2;
    double logConstant =
        Math.log(2)
            + degreesOfFreedom / 2 * Math.log(degreesOfFreedom / 2)
            - LogGamma.value(degreesOfFreedom / 2);
    return simpson(
        from,
        to,
        degreesOfFreedom < 10 ? 4 * OUTER_PANELS : OUTER_PANELS,
        x -> {
          double s = Math.exp(x);
          return Math.exp(logConstant + degreesOfFreedom * x - degreesOfFreedom * s * s / 2)
              * range(q * s, groups);
        });
  }

  /** Probability that the range of standard normal values is at most w. */
  private static double range(double w, int groups) {
    double sum =
        simpson(
            -TAIL,
            TAIL,
            INNER_PANELS,
            z -> {
              double inside = NORMAL.cumulativeProbability(z) - NORMAL.cumulativeProbability(z - w);
              return NORMAL.density(z) * Math.pow(inside, groups - 1);
            });
    return Math.min(1, groups * sum);
  }

  private static double simpson(double from, double to, int panels, DoubleUnaryOperator f) {
    double step = (to - from) / panels;
    double sum = f.applyAsDouble(from) + f.applyAsDouble(to);
    for (int i = 1; i < panels; i++) sum += (i % 2 == 1 ? 4 : 2) * f.applyAsDouble(from + i * step);
    return sum * step / 3;
  }
}
