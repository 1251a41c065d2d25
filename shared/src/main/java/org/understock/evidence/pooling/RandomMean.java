package org.understock.evidence.pooling;

import java.util.Arrays;
import org.understock.evidence.pooling.StratifiedModel.Evaluation;
import org.understock.evidence.pooling.StratifiedModel.Rows;
import org.understock.trait.Refusal;

/**
 * Means of subjects that share one variance between statements: {@code y = mean[subject] + u + e}, {@code u ~ N(0, τ²)}, {@code e ~ N(0, v)}, τ² by
 * restricted maximum likelihood. With one subject this is the usual random-effects mean.
 */
final class RandomMean {
  private RandomMean() {}

  /**
   * τ² over all subjects; 0 is a legitimate result.
   *
   * @param subject index by value, ascending from 0 without gaps
   * @throws Refusal.Conflict when no subject has two values, so that nothing is left to estimate it from
   */
  static double tau2(int[] subject, double[] y, double[] v) {
    if (y.length == 0 || y.length - 1 == subject[subject.length - 1]) {
      throw new Refusal.Conflict("values", "no subject has two values to estimate a variance between them");
    }
    return Reml.fit(model(subject, y, v)).tau2();
  }

  /** Mean and standard error of one subject's values at a known τ². */
  static Summary at(double[] y, double[] v, double tau2) {
    double sum = 0;
    double weights = 0;
    for (int i = 0; i < y.length; i++) {
      double w = 1 / (v[i] + tau2);
      sum += w * y[i];
      weights += w;
    }
    return new Summary(sum / weights, Math.sqrt(1 / weights));
  }

  /** One subject: mean, standard error and τ². */
  static Evaluation fit(double[] y, double[] v) {
    return Reml.fit(model(new int[y.length], y, v));
  }

  private static StratifiedModel model(int[] subject, double[] y, double[] v) {
    double[] whole = new double[y.length];
    Arrays.fill(whole, 1);
    return new StratifiedModel(new Rows(subject, new int[y.length], new int[y.length], y, v, whole), new int[] {-1}, false);
  }

  /** A mean and its standard error. */
  record Summary(double mean, double standardError) {
    /** Joined with an independent summary of the same quantity by inverse variances. */
    Summary join(Summary other) {
      double w1 = 1 / (standardError * standardError);
      double w2 = 1 / (other.standardError * other.standardError);
      return new Summary((w1 * mean + w2 * other.mean) / (w1 + w2), Math.sqrt(1 / (w1 + w2)));
    }

    /** How many standard errors the two are apart: look here before joining. */
    double conflict(Summary other) {
      return (mean - other.mean) / Math.hypot(standardError, other.standardError);
    }
  }
}
