package org.understock.evidence.pooling;

import java.util.Arrays;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.ejml.dense.row.NormOps_DDRM;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;
import org.ejml.interfaces.linsol.LinearSolverDense;

/**
 * The linear mixed model behind all pooling, evaluated at given variances:
 *
 * <pre>y[i] = a[stratum] + b[treatment] + w[group, treatment] + u[i] + e[i]</pre>
 *
 * with fixed a and b, {@code w ~ N(0, ω²)}, {@code u ~ N(0, share[i] τ²)}, {@code e ~ N(0, v[i])},
 * v known. Strata are trials' tables, treatments are stocks, groups are varieties; strata are
 * nested in groups. The fixed effect of one treatment in each connected component is 0.
 *
 * <p>Formulas: restricted likelihood of Patterson and Thompson (1971) in the form used by
 * meta-analysis (Viechtbauer 2005).
 */
final class StratifiedModel {
  /*
   * Intercepts are never columns of a matrix. With d = 1/(v + share τ²), the weights of one stratum centred on their own mean are
   * M = diag(d) − d d'/Σd, and all that is needed of a stratum is Z'MZ, a block as small as its table. Blocks are summed by group into G, and the
   * random effect w is eliminated there: with H = I + ω² G,
   *
   *   Z'V⁻¹Z (centred) = Σ H⁻¹G =: S,    Z'V⁻¹y = Σ H⁻¹ Z'My,    ln|V| = Σ ln(v + share τ²) + Σ ln|H|.
   *
   * At ω² = 0 nothing but plain weighted centring remains. So the cost of an evaluation is linear in the rows (times the size of a table) plus the
   * cube of the number of treatments, however many strata there are.
   */
  final Rows rows;
  final int[] column;
  final int columns;
  final int[][] treatmentsOfGroup;
  private final int[] localTreatment;
  private final boolean grouped;

  /**
   * Observations in a fixed order, rows of one stratum next to each other.
   *
   * @param stratum index of the stratum by row, ascending from 0
   * @param treatment index of the treatment by row
   * @param group index of the group by row; the same for all rows of a stratum
   * @param v known variance by row, 0 or more
   * @param share share of τ² by row: 1 for a mean at one place, 1/m for a mean over m places
   * @param exempt the group that ω² does not touch, or −1
   */
  record Rows(
      int[] stratum,
      int[] treatment,
      int[] group,
      double[] y,
      double[] v,
      double[] share,
      int exempt) {
    int size() {
      return y.length;
    }

    int strata() {
      return size() == 0 ? 0 : stratum[size() - 1] + 1;
    }

    Rows ungrouped() {
      return new Rows(stratum, treatment, new int[size()], y, v, share, -1);
    }

    int groups() {
      return Arrays.stream(group).max().orElse(-1) + 1;
    }
  }

  /**
   * The model at one pair of variances.
   *
   * @param b effect by column
   * @param covariance of b
   * @param residual Py by row: what the restricted likelihood works with
   * @param logLikelihood restricted, without its constants
   * @param intercepts by stratum
   * @param interceptWeights Σd by stratum
   */
  record Evaluation(
      double tau2,
      double omega2,
      double[] b,
      DMatrixRMaj covariance,
      double[] residual,
      double quadratic,
      double logLikelihood,
      double scoreTau,
      double scoreOmega,
      double[] intercepts,
      double[] interceptWeights) {}

  /**
   * @param column column of each treatment's fixed effect, or −1 where it is fixed at 0
   * @param grouped whether ω² is a part of the model; if not, the groups do not matter and its
   *     score is 0
   */
  StratifiedModel(Rows rows, int[] column, boolean grouped) {
    this.rows = grouped ? rows : rows.ungrouped();
    this.grouped = grouped;
    this.column = column;
    this.columns = Arrays.stream(column).max().orElse(-1) + 1;
    this.treatmentsOfGroup = new int[this.rows.groups()][];
    this.localTreatment = new int[rows.size()];
    indexGroups();
  }

  private void indexGroups() {
    Map<Integer, TreeSet<Integer>> met = new TreeMap<>();
    for (int i = 0; i < rows.size(); i++)
      met.computeIfAbsent(rows.group[i], g -> new TreeSet<>()).add(rows.treatment[i]);
    met.forEach(
        (g, treatments) ->
            treatmentsOfGroup[g] = treatments.stream().mapToInt(Integer::intValue).toArray());
    for (int i = 0; i < rows.size(); i++)
      localTreatment[i] = Arrays.binarySearch(treatmentsOfGroup[rows.group[i]], rows.treatment[i]);
  }

  boolean grouped() {
    return grouped;
  }

  /** Evaluates fit, likelihood and its derivatives. */
  Evaluation at(double tau2, double omega2) {
    return new Pass(tau2, omega2).evaluate();
  }

  /**
   * The average information matrix (Gilmour, Thompson and Cullis 1995) for (τ², ω²): curvature of
   * the restricted likelihood where it is quadratic.
   */
  double[][] averageInformation(Evaluation at) {
    Pass pass = new Pass(at.tau2, at.omega2);
    double[] forTau = new double[rows.size()];
    for (int i = 0; i < forTau.length; i++) forTau[i] = rows.share[i] * at.residual[i];
    double[][] sums = pass.sumByGroup(at.residual);
    double[] forOmega = new double[rows.size()];
    for (int i = 0; i < forOmega.length; i++)
      forOmega[i] = rows.group[i] == rows.exempt ? 0 : sums[rows.group[i]][localTreatment[i]];
    double[] projectedTau = pass.project(forTau).residual;
    double[] projectedOmega = pass.project(forOmega).residual;
    double cross = dot(forTau, projectedOmega) / 2;
    return new double[][] {
      {dot(forTau, projectedTau) / 2, cross}, {cross, dot(forOmega, projectedOmega) / 2}
    };
  }

  /** tr(PCPC)/2, C = diag(share): the expected information on τ² alone. */
  double expectedInformation(Evaluation at) {
    Pass pass = new Pass(at.tau2, at.omega2);
    double sum = 0;
    for (int i = 0; i < rows.size(); i++) {
      double[] unit = new double[rows.size()];
      unit[i] = 1;
      double[] column = pass.project(unit).residual;
      for (int j = 0; j < unit.length; j++)
        sum += rows.share[i] * rows.share[j] * column[j] * column[j];
    }
    return sum / 2;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) sum += a[i] * b[i];
    return sum;
  }

  /** Weights, blocks and factorisations at one pair of variances. */
  final class Pass {
    private final double tau2;
    private final double omega2;
    private final double[] d = new double[rows.size()];
    private final double[] weight = new double[rows.strata()];
    private final DMatrixRMaj[] blocks = new DMatrixRMaj[treatmentsOfGroup.length];
    private final DMatrixRMaj[] heterogeneity = new DMatrixRMaj[treatmentsOfGroup.length];
    final DMatrixRMaj[] inverseH = new DMatrixRMaj[treatmentsOfGroup.length];
    private final DMatrixRMaj covariance;
    private double logDeterminant;
    private double traceMC;

    record Projection(double[] b, double[] residual) {}

    Pass(double tau2, double omega2) {
      this.tau2 = tau2;
      this.omega2 = omega2;
      for (int g = 0; g < blocks.length; g++) {
        blocks[g] = new DMatrixRMaj(treatmentsOfGroup[g].length, treatmentsOfGroup[g].length);
        heterogeneity[g] = blocks[g].createLike();
      }
      for (int start = 0; start < rows.size(); ) {
        int end = start;
        while (end < rows.size() && rows.stratum[end] == rows.stratum[start]) end++;
        addStratum(start, end);
        start = end;
      }
      covariance = invertInformation();
    }

    private void addStratum(int start, int end) {
      double sum = 0;
      for (int i = start; i < end; i++) {
        double variance = rows.v[i] + rows.share[i] * tau2;
        d[i] = 1 / variance;
        logDeterminant += Math.log(variance);
        sum += d[i];
      }
      weight[rows.stratum[start]] = sum;
      logDeterminant += Math.log(sum);
      double q = 0;
      for (int i = start; i < end; i++) q += rows.share[i] * d[i] * d[i];
      DMatrixRMaj g = blocks[rows.group[start]];
      DMatrixRMaj e = heterogeneity[rows.group[start]];
      /* M = diag(d) − dd'/Σd and M C M, C = diag(share): products of diagonals and rank-one terms, written out. */
      for (int i = start; i < end; i++) {
        double ci = rows.share[i] * d[i] * d[i];
        traceMC += rows.share[i] * (d[i] - d[i] * d[i] / sum);
        for (int j = start; j < end; j++) {
          double cj = rows.share[j] * d[j] * d[j];
          double m = -d[i] * d[j] / sum;
          double mcm = -(ci * d[j] + d[i] * cj) / sum + q * d[i] * d[j] / (sum * sum);
          if (i == j) {
            m += d[i];
            mcm += ci;
          }
          g.add(localTreatment[i], localTreatment[j], m);
          e.add(localTreatment[i], localTreatment[j], mcm);
        }
      }
    }

    private DMatrixRMaj invertInformation() {
      DMatrixRMaj information = new DMatrixRMaj(columns, columns);
      for (int g = 0; g < blocks.length; g++) {
        if (omega(g) > 0) {
          DMatrixRMaj h = blocks[g].copy();
          CommonOps_DDRM.scale(omega(g), h);
          for (int i = 0; i < h.numRows; i++) h.add(i, i, 1);
          logDeterminant += logDeterminantOf(h);
          inverseH[g] = inverseOf(h);
        }
        addTo(information, shrunk(g, blocks[g]), g);
      }
      if (columns == 0) return information;
      logDeterminant += logDeterminantOf(information);
      return inverseOf(information);
    }

    double omega(int g) {
      return g == rows.exempt ? 0 : omega2;
    }

    /** H⁻¹ times a block of the group; the block itself when ω² is 0. */
    private DMatrixRMaj shrunk(int g, DMatrixRMaj block) {
      if (omega(g) == 0) return block;
      DMatrixRMaj product = new DMatrixRMaj(block.numRows, block.numCols);
      CommonOps_DDRM.mult(inverseH[g], block, product);
      return product;
    }

    private void addTo(DMatrixRMaj total, DMatrixRMaj block, int g) {
      int[] met = treatmentsOfGroup[g];
      for (int i = 0; i < met.length; i++) {
        if (column[met[i]] < 0) continue;
        for (int j = 0; j < met.length; j++)
          if (column[met[j]] >= 0) total.add(column[met[i]], column[met[j]], block.get(i, j));
      }
    }

    double[][] sumByGroup(double[] x) {
      double[][] sums = new double[treatmentsOfGroup.length][];
      for (int g = 0; g < sums.length; g++) sums[g] = new double[treatmentsOfGroup[g].length];
      for (int i = 0; i < x.length; i++) sums[rows.group[i]][localTreatment[i]] += x[i];
      return sums;
    }

    /** M x: weighted deviations from the stratum's weighted mean. */
    double[] centred(double[] x) {
      double[] mean = stratumMeans(x);
      double[] out = new double[x.length];
      for (int i = 0; i < x.length; i++) out[i] = d[i] * (x[i] - mean[rows.stratum[i]]);
      return out;
    }

    private double[] stratumMeans(double[] x) {
      double[] mean = new double[weight.length];
      for (int i = 0; i < x.length; i++) mean[rows.stratum[i]] += d[i] * x[i];
      for (int s = 0; s < mean.length; s++) mean[s] /= weight[s];
      return mean;
    }

    /** P x = V⁻¹(x − fixed part of x), and the fixed part's effects. */
    Projection project(double[] x) {
      double[][] sums = sumByGroup(centred(x));
      double[] right = new double[columns];
      for (int g = 0; g < sums.length; g++) {
        double[] r = omega(g) == 0 ? sums[g] : times(inverseH[g], sums[g]);
        for (int i = 0; i < r.length; i++)
          if (column[treatmentsOfGroup[g][i]] >= 0) right[column[treatmentsOfGroup[g][i]]] += r[i];
      }
      double[] b = columns == 0 ? right : times(covariance, right);
      double[] rest = new double[x.length];
      for (int i = 0; i < x.length; i++)
        rest[i] = x[i] - (column[rows.treatment[i]] < 0 ? 0 : b[column[rows.treatment[i]]]);
      double[] residual = centred(rest);
      if (omega2 > 0) {
        double[][] predicted = sumByGroup(residual);
        for (int g = 0; g < predicted.length; g++)
          if (omega(g) > 0) predicted[g] = times(inverseH[g], predicted[g]);
        for (int i = 0; i < x.length; i++)
          rest[i] -= omega(rows.group[i]) * predicted[rows.group[i]][localTreatment[i]];
        residual = centred(rest);
      }
      return new Projection(b, residual);
    }

    Evaluation evaluate() {
      Projection fit = project(rows.y);
      double quadratic = dot(rows.y, fit.residual);
      double scoreTau = 0;
      for (int i = 0; i < rows.size(); i++)
        scoreTau += rows.share[i] * fit.residual[i] * fit.residual[i];
      double scoreOmega = 0;
      double[][] sums = sumByGroup(fit.residual);
      for (int g = 0; g < sums.length; g++)
        if (g != rows.exempt) scoreOmega += dot(sums[g], sums[g]);
      scoreTau -= traceOfTau();
      scoreOmega -= grouped ? traceOfOmega() : scoreOmega;
      double[] intercepts = intercepts(fit.b);
      return new Evaluation(
          tau2,
          omega2,
          fit.b,
          covariance,
          fit.residual,
          quadratic,
          -(logDeterminant + quadratic) / 2,
          scoreTau / 2,
          scoreOmega / 2,
          intercepts,
          weight.clone());
    }

    private double[] intercepts(double[] b) {
      double[] rest = rows.y.clone();
      for (int i = 0; i < rest.length; i++)
        if (column[rows.treatment[i]] >= 0) rest[i] -= b[column[rows.treatment[i]]];
      return stratumMeans(rest);
    }

    /** tr(P C) with C = diag(share). */
    private double traceOfTau() {
      double trace = traceMC;
      DMatrixRMaj total = new DMatrixRMaj(columns, columns);
      for (int g = 0; g < blocks.length; g++) {
        DMatrixRMaj half = shrunk(g, heterogeneity[g]);
        if (omega(g) > 0) {
          trace -= omega(g) * CommonOps_DDRM.trace(half);
          DMatrixRMaj both = new DMatrixRMaj(half.numRows, half.numCols);
          CommonOps_DDRM.mult(half, inverseH[g], both);
          half = both;
        }
        addTo(total, half, g);
      }
      return trace - dot(covariance.data, total.data);
    }

    /** tr(P W) with W the pattern of ω². */
    private double traceOfOmega() {
      double trace = 0;
      DMatrixRMaj total = new DMatrixRMaj(columns, columns);
      for (int g = 0; g < blocks.length; g++) {
        if (g == rows.exempt) continue;
        DMatrixRMaj f = shrunk(g, blocks[g]);
        trace += CommonOps_DDRM.trace(f);
        DMatrixRMaj squared = new DMatrixRMaj(f.numRows, f.numCols);
        CommonOps_DDRM.mult(f, f, squared);
        addTo(total, squared, g);
      }
      return trace - dot(covariance.data, total.data);
    }
  }

  private static double[] times(DMatrixRMaj matrix, double[] x) {
    DMatrixRMaj out = new DMatrixRMaj(matrix.numRows, 1);
    CommonOps_DDRM.mult(matrix, DMatrixRMaj.wrap(x.length, 1, x), out);
    return out.data;
  }

  private static DMatrixRMaj inverseOf(DMatrixRMaj symmetric) {
    LinearSolverDense<DMatrixRMaj> solver = LinearSolverFactory_DDRM.symmPosDef(symmetric.numRows);
    DMatrixRMaj inverse = symmetric.createLike();
    if (!solver.setA(symmetric.copy()))
      throw new ArithmeticException(
          "information matrix is not positive definite: norm " + NormOps_DDRM.normF(symmetric));
    solver.invert(inverse);
    return inverse;
  }

  /** ln of the determinant, from the Cholesky factor, so that it can't overflow. */
  private static double logDeterminantOf(DMatrixRMaj symmetric) {
    var cholesky =
        org.ejml.dense.row.factory.DecompositionFactory_DDRM.chol(symmetric.numRows, true);
    if (!cholesky.decompose(symmetric.copy()))
      throw new ArithmeticException("matrix is not positive definite");
    DMatrixRMaj factor = cholesky.getT(null);
    double sum = 0;
    for (int i = 0; i < factor.numRows; i++) sum += Math.log(factor.get(i, i));
    return 2 * sum;
  }
}
