package org.understock.evidence.pooling;

import java.util.List;

/**
 * Pools statements of a quantity, each with a mean and a standard deviation, by inverse variance
 * with a variance between sources: random-effects meta-analysis of one mean. For positive
 * quantities the caller takes logarithms first.
 */
public final class QuantityPool {
  private QuantityPool() {}

  /** One statement: its mean and its own standard deviation. */
  public record Statement(double mean, double sd) {}

  /**
   * @param mean pooled mean
   * @param standardError of the mean
   */
  public record Pooled(double mean, double standardError) {}

  /**
   * Pools with a given between-source variance.
   *
   * @param statements one or more
   */
  public static Pooled pool(List<Statement> statements, double between2) {
    double sumW = 0;
    double sumWy = 0;
    for (Statement s : statements) {
      double w = 1 / (s.sd * s.sd + between2);
      sumW += w;
      sumWy += w * s.mean;
    }
    return new Pooled(sumWy / sumW, Math.sqrt(1 / sumW));
  }

  /**
   * Variance between sources, common to all subjects of a trait, by the moment estimator of
   * DerSimonian and Laird with the subjects' own means taken out: sum of (Q - df) over sum of (sum
   * w - sum w²/sum w), cut at 0. NaN when no subject has two statements.
   */
  public static double between2(List<List<Statement>> subjects) {
    double excess = 0;
    double scale = 0;
    for (List<Statement> statements : subjects) {
      if (statements.size() < 2) continue;
      double sumW = 0;
      double sumW2 = 0;
      double sumWy = 0;
      for (Statement s : statements) {
        double w = 1 / (s.sd * s.sd);
        sumW += w;
        sumW2 += w * w;
        sumWy += w * s.mean;
      }
      double mean = sumWy / sumW;
      double q = 0;
      for (Statement s : statements) q += (s.mean - mean) * (s.mean - mean) / (s.sd * s.sd);
      excess += q - (statements.size() - 1);
      scale += sumW - sumW2 / sumW;
    }
    return scale > 0 ? Math.max(0, excess / scale) : Double.NaN;
  }
}
