package org.understock.growth;

import java.util.List;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.understock.trait.Refusal;

/**
 * A linear model of log quantities: {@code y = x·c + u + e}, with {@code e} of known variance for
 * each observation, {@code u} of one unknown residual spread, and normal priors on the coefficients
 * {@code c}.
 *
 * <p>Given the residual spread the coefficients are exact (normal prior times normal likelihood).
 * The residual variance is found by expectation maximisation, with a prior guess that counts as a
 * few observations, so that a crop with three points does not claim a perfect line.
 */
final class LinearFit {
  /**
   * Steps of the expectation maximisation; each shrinks the error by a constant factor, and this
   * many leave nothing that matters.
   */
  private static final int STEPS = 60;

  private final double[] coefficients;
  private final DMatrixRMaj covariance;
  private final double residualSd;

  private LinearFit(double[] coefficients, DMatrixRMaj covariance, double residualSd) {
    this.coefficients = coefficients;
    this.covariance = covariance;
    this.residualSd = residualSd;
  }

  /** One point: its covariates, its log value, the sampling variance of that. */
  record Point(double[] x, double y, double variance) {}

  /**
   * What is held before the points are seen.
   *
   * @param mean of each coefficient
   * @param sd of each coefficient, above 0; 10 says next to nothing on a log scale
   * @param residualSd guess of the residual spread
   * @param residualWeight how many observations the guess counts for
   */
  record Prior(double[] mean, double[] sd, double residualSd, double residualWeight) {}

  static LinearFit of(List<Point> points, Prior prior) {
    double variance = prior.residualSd * prior.residualSd;
    LinearFit fit = solve(points, prior, variance);
    for (int step = 0; step < STEPS && !points.isEmpty(); step++) {
      double sum = prior.residualWeight * prior.residualSd * prior.residualSd;
      for (Point p : points) {
        double r = p.y - fit.at(p.x);
        double share = variance / (p.variance + variance);
        // expected u²: its mean given the residual, its spread given the residual, and what the
        // coefficients themselves leave open
        sum += share * share * (r * r + fit.varianceAt(p.x)) + share * p.variance;
      }
      variance = sum / (prior.residualWeight + points.size());
      fit = solve(points, prior, variance);
    }
    return fit;
  }

  private static LinearFit solve(List<Point> points, Prior prior, double residualVariance) {
    int n = prior.mean.length;
    DMatrixRMaj precision = new DMatrixRMaj(n, n);
    double[] right = new double[n];
    for (int i = 0; i < n; i++) {
      double w = 1 / (prior.sd[i] * prior.sd[i]);
      precision.set(i, i, w);
      right[i] = w * prior.mean[i];
    }
    for (Point p : points) {
      double w = 1 / (p.variance + residualVariance);
      for (int i = 0; i < n; i++) {
        right[i] += w * p.x[i] * p.y;
        for (int j = 0; j < n; j++) precision.add(i, j, w * p.x[i] * p.x[j]);
      }
    }
    if (!CommonOps_DDRM.invert(precision))
      throw new Refusal.Conflict("fit", "the points and the priors leave a coefficient open");
    double[] c = new double[n];
    for (int i = 0; i < n; i++) for (int j = 0; j < n; j++) c[i] += precision.get(i, j) * right[j];
    return new LinearFit(c, precision, Math.sqrt(residualVariance));
  }

  double coefficient(int i) {
    return coefficients[i];
  }

  /** Standard error of a coefficient. */
  double standardError(int i) {
    return Math.sqrt(covariance.get(i, i));
  }

  /** Standard deviation of single subjects about the line. */
  double residualSd() {
    return residualSd;
  }

  /** The line's value. */
  double at(double[] x) {
    double y = 0;
    for (int i = 0; i < x.length; i++) y += x[i] * coefficients[i];
    return y;
  }

  /** Variance of the line's value, without the residual spread. */
  double varianceAt(double[] x) {
    double v = 0;
    for (int i = 0; i < x.length; i++)
      for (int j = 0; j < x.length; j++) v += x[i] * covariance.get(i, j) * x[j];
    return v;
  }
}
