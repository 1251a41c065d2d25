package org.understock.evidence.pooling;

import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;

/**
 * Linear model with known sampling variances and one or more variance components, by restricted maximum likelihood:
 *
 * <pre>y = X b + sum over k of Z[k] u[k] + e,   u[k] ~ N(0, s[k] I),   e[i] ~ N(0, v[i]), v known</pre>
 *
 * Each component groups the rows: rows of one group share one draw (a component whose groups are single rows is the plain heterogeneity variance).
 * For designs of a few hundred rows: its cost grows with their cube. The plain stock model is {@link NetworkModel}'s, which is linear.
 */
public final class VarianceComponents {
  /*
   * Fisher scoring: with P = V^-1 - V^-1 X (X'V^-1X)^-1 X'V^-1 the score of component k is (y'P V[k] P y - tr P V[k])/2, the information
   * tr(P V[k] P V[l])/2. A component that a step would make negative is held at 0 in that step. Steps are halved when they do not raise the likelihood.
   */
  private static final int MOST_STEPS = 400;
  private static final double CONVERGED = 1e-12;

  private VarianceComponents() {}

  /**
   * @param components variances in the order of the groupings
   * @param estimate fixed effects
   * @param covariance of the fixed effects
   */
  public record Fit(double[] components, double[] estimate, double[][] covariance) {
    public double standardError(int effect) {
      return Math.sqrt(covariance[effect][effect]);
    }
  }

  /**
   * @param x fixed-effects design of full column rank, one row for each y
   * @param groups by component, the group of every row, counted from 0
   */
  public static Fit fit(double[][] x, double[] y, double[] v, int[][] groups) {
    DMatrixRMaj design = new DMatrixRMaj(x);
    DMatrixRMaj values = new DMatrixRMaj(y.length, 1, true, y);
    double[] s = new double[groups.length];
    double spread = variance(y) / (groups.length + 1);
    java.util.Arrays.fill(s, spread);
    State state = State.of(design, values, v, groups, s);
    for (int step = 0; step < MOST_STEPS; step++) {
      double[] next = state.scored(groups, s);
      State at = State.of(design, values, v, groups, next);
      for (int half = 0; half < 30 && at.logLikelihood < state.logLikelihood - 1e-13 * Math.abs(state.logLikelihood); half++) {
        for (int k = 0; k < next.length; k++) next[k] = (next[k] + s[k]) / 2;
        at = State.of(design, values, v, groups, next);
      }
      double moved = 0;
      for (int k = 0; k < next.length; k++) moved = Math.max(moved, Math.abs(next[k] - s[k]));
      s = next;
      state = at;
      if (moved < CONVERGED) break;
    }
    double[][] covariance = new double[design.getNumCols()][design.getNumCols()];
    for (int i = 0; i < covariance.length; i++) for (int j = 0; j < covariance.length; j++) covariance[i][j] = state.covariance.get(i, j);
    return new Fit(s, state.estimate.getData().clone(), covariance);
  }

  private static double variance(double[] y) {
    double mean = java.util.Arrays.stream(y).average().orElseThrow();
    return java.util.Arrays.stream(y).map(a -> (a - mean) * (a - mean)).sum() / (y.length - 1);
  }

  private record State(DMatrixRMaj p, DMatrixRMaj py, DMatrixRMaj estimate, DMatrixRMaj covariance, double logLikelihood) {

    static State of(DMatrixRMaj x, DMatrixRMaj y, double[] v, int[][] groups, double[] s) {
      int n = v.length;
      DMatrixRMaj total = CommonOps_DDRM.diag(v);
      for (int k = 0; k < groups.length; k++) {
        for (int i = 0; i < n; i++) for (int j = 0; j < n; j++) if (groups[k][i] == groups[k][j]) total.add(i, j, s[k]);
      }
      DMatrixRMaj inverse = new DMatrixRMaj(n, n);
      CommonOps_DDRM.invert(total, inverse);
      DMatrixRMaj vx = new DMatrixRMaj(n, x.getNumCols());
      CommonOps_DDRM.mult(inverse, x, vx);
      DMatrixRMaj information = new DMatrixRMaj(x.getNumCols(), x.getNumCols());
      CommonOps_DDRM.multTransA(x, vx, information);
      DMatrixRMaj covariance = new DMatrixRMaj(x.getNumCols(), x.getNumCols());
      CommonOps_DDRM.invert(information, covariance);
      DMatrixRMaj vxc = new DMatrixRMaj(n, x.getNumCols());
      CommonOps_DDRM.mult(vx, covariance, vxc);
      DMatrixRMaj p = inverse.copy();
      CommonOps_DDRM.multAddTransB(-1, vxc, vx, p);
      DMatrixRMaj estimate = new DMatrixRMaj(x.getNumCols(), 1);
      CommonOps_DDRM.multTransA(vxc, y, estimate);
      DMatrixRMaj py = new DMatrixRMaj(n, 1);
      CommonOps_DDRM.mult(p, y, py);
      double quadratic = 0;
      for (int i = 0; i < n; i++) quadratic += y.get(i) * py.get(i);
      double logLikelihood = -0.5 * (logDeterminant(total) + logDeterminant(information) + quadratic);
      return new State(p, py, estimate, covariance, logLikelihood);
    }

    private static double logDeterminant(DMatrixRMaj positive) {
      var cholesky = org.ejml.dense.row.factory.DecompositionFactory_DDRM.chol(positive.getNumRows(), true);
      if (!cholesky.decompose(positive.copy())) throw new IllegalStateException("covariance matrix is not positive definite");
      DMatrixRMaj t = cholesky.getT(null);
      double sum = 0;
      for (int i = 0; i < t.getNumRows(); i++) sum += 2 * Math.log(t.get(i, i));
      return sum;
    }

    /** The components after one step of Fisher scoring. */
    double[] scored(int[][] groups, double[] s) {
      int m = groups.length;
      DMatrixRMaj[] pv = new DMatrixRMaj[m];
      DMatrixRMaj score = new DMatrixRMaj(m, 1);
      for (int k = 0; k < m; k++) {
        pv[k] = timesGrouping(groups[k]);
        double quadratic = 0;
        int n = p.getNumRows();
        for (int i = 0; i < n; i++) for (int j = 0; j < n; j++) if (groups[k][i] == groups[k][j]) quadratic += py.get(i) * py.get(j);
        score.set(k, 0, 0.5 * (quadratic - CommonOps_DDRM.trace(pv[k])));
      }
      boolean[] held = new boolean[m];
      for (int round = 0; round <= m; round++) {
        double[] next = step(pv, score, s, held);
        boolean again = false;
        for (int k = 0; k < m; k++) {
          if (next[k] < 0 && !held[k] && s[k] == 0) {
            held[k] = true;
            again = true;
          }
        }
        if (!again) {
          for (int k = 0; k < m; k++) next[k] = Math.max(0, next[k]);
          return next;
        }
      }
      return s.clone();
    }

    private double[] step(DMatrixRMaj[] pv, DMatrixRMaj score, double[] s, boolean[] held) {
      int m = s.length;
      DMatrixRMaj information = new DMatrixRMaj(m, m);
      DMatrixRMaj wanted = score.copy();
      for (int k = 0; k < m; k++) {
        for (int l = 0; l < m; l++) information.set(k, l, held[k] || held[l] ? (k == l ? 1 : 0) : 0.5 * traceOfProduct(pv[k], pv[l]));
        if (held[k]) wanted.set(k, 0, 0);
      }
      DMatrixRMaj change = new DMatrixRMaj(m, 1);
      CommonOps_DDRM.solve(information, wanted, change);
      double[] next = new double[m];
      for (int k = 0; k < m; k++) next[k] = s[k] + change.get(k);
      return next;
    }

    /** P times the matrix that is 1 where two rows share a group. */
    private DMatrixRMaj timesGrouping(int[] group) {
      int n = group.length;
      int most = java.util.Arrays.stream(group).max().orElse(-1) + 1;
      DMatrixRMaj product = new DMatrixRMaj(n, n);
      double[] sums = new double[most];
      for (int i = 0; i < n; i++) {
        java.util.Arrays.fill(sums, 0);
        for (int j = 0; j < n; j++) sums[group[j]] += p.get(i, j);
        for (int j = 0; j < n; j++) product.set(i, j, sums[group[j]]);
      }
      return product;
    }

    private static double traceOfProduct(DMatrixRMaj a, DMatrixRMaj b) {
      double sum = 0;
      for (int i = 0; i < a.getNumRows(); i++) for (int j = 0; j < a.getNumCols(); j++) sum += a.get(i, j) * b.get(j, i);
      return sum;
    }
  }
}
