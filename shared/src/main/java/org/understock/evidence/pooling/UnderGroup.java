package org.understock.evidence.pooling;

import java.util.Arrays;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.understock.evidence.pooling.StratifiedModel.Evaluation;

/**
 * Effects of treatments inside one group, b + w: what is known of a stock under that very variety.
 *
 * @param mean by treatment of the call
 * @param covariance of them, without τ²
 */
record UnderGroup(double[] mean, DMatrixRMaj covariance) {
  /*
   * Given b, w ~ N(ω²H⁻¹(Z'My − Gb), ω²H⁻¹), so b + w has the mean H⁻¹b + ω²H⁻¹Z'My and the covariance ω²H⁻¹ + H⁻¹ Cov(b) H⁻¹. A treatment that the
   * group has not met keeps w ~ N(0, ω²). Symbols as in StratifiedModel.
   */

  /**
   * @param group index, or −1 for a group that was never met
   */
  static UnderGroup of(StratifiedModel model, Evaluation at, int group, int[] treatments) {
    StratifiedModel.Pass pass = model.new Pass(at.tau2(), at.omega2());
    int[] met = group < 0 || pass.omega(group) == 0 ? new int[0] : model.treatmentsOfGroup[group];
    int[] local = Arrays.stream(treatments).map(t -> Arrays.binarySearch(met, t)).toArray();
    double[] pulled =
        met.length == 0 ? new double[0] : pass.sumByGroup(pass.centred(model.rows.y()))[group];
    int n = treatments.length;
    double[] mean = new double[n];
    DMatrixRMaj ofB = new DMatrixRMaj(n, model.columns);
    DMatrixRMaj own = new DMatrixRMaj(n, n);
    for (int i = 0; i < n; i++) {
      if (local[i] < 0) {
        add(model, ofB, i, treatments[i], 1);
        own.add(i, i, at.omega2());
        continue;
      }
      for (int j = 0; j < met.length; j++) {
        double h = pass.inverseH[group].get(local[i], j);
        add(model, ofB, i, met[j], h);
        mean[i] += at.omega2() * h * pulled[j];
      }
      for (int j = 0; j < n; j++)
        if (local[j] >= 0)
          own.add(i, j, at.omega2() * pass.inverseH[group].get(local[i], local[j]));
    }
    for (int i = 0; i < n; i++)
      for (int c = 0; c < model.columns; c++) mean[i] += ofB.get(i, c) * at.b()[c];
    DMatrixRMaj half = new DMatrixRMaj(n, model.columns);
    CommonOps_DDRM.mult(ofB, at.covariance(), half);
    CommonOps_DDRM.multAddTransB(half, ofB, own);
    return new UnderGroup(mean, own);
  }

  private static void add(
      StratifiedModel model, DMatrixRMaj ofB, int row, int treatment, double factor) {
    if (model.column[treatment] >= 0) ofB.add(row, model.column[treatment], factor);
  }
}
