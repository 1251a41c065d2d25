package org.understock.evidence.pooling;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What is known of treatments inside one group, against Henderson's mixed-model equations written
 * out in full (Henderson 1975, Biometrics 31: 423-447): strata, treatments and cells all stand as
 * columns, and the inverse of the coefficients is the joint covariance of the errors. The package
 * never builds that matrix, so the two share no step.
 */
class UnderGroupTest {
  private static final double TAU2 = 0.03;
  private static final double OMEGA2 = 0.05;
  private static final int TREATMENTS = 4;

  /** Three groups; group 0 has not met treatment 3, group 1 has not met 0; shares differ. */
  private static final List<Network.Row> ROWS =
      List.of(
          row(0, 0, 0, 1.00, 0.010, 1),
          row(0, 1, 0, 0.40, 0.020, 1),
          row(1, 0, 0, 1.30, 0.015, 1),
          row(1, 1, 0, 0.90, 0.010, 1),
          row(1, 2, 0, 0.20, 0.012, 0.5),
          row(2, 1, 1, 0.70, 0.010, 1),
          row(2, 3, 1, 0.10, 0.030, 2),
          row(3, 0, 2, 0.80, 0.010, 1),
          row(3, 2, 2, 0.60, 0.010, 1),
          row(3, 3, 2, -0.20, 0.010, 1));

  private static Network.Row row(
      int stratum, int treatment, int group, double y, double v, double share) {
    return new Network.Row(stratum, treatment, group, y, v, share);
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2, 9})
  void agrees_with_the_mixed_model_equations(int group) {
    int[] treatments = {3, 0, 2, 1};
    UnderGroup under = Network.of(TREATMENTS, ROWS).fit(TAU2, OMEGA2).under(group, treatments);
    Dense dense = new Dense(group, treatments, OMEGA2);
    for (int i = 0; i < TREATMENTS; i++) {
      assertThat(under.mean()[i]).isCloseTo(dense.mean[i], within(1e-9));
      for (int j = 0; j < TREATMENTS; j++)
        assertThat(under.covariance().get(i, j))
            .isCloseTo(dense.covariance.get(i, j), within(1e-9));
    }
  }

  /** Without a variance between groups a treatment is the same under all of them. */
  @ParameterizedTest
  @ValueSource(ints = {0, 9})
  void without_omega_a_group_tells_nothing_of_its_own(int group) {
    Network.Fit fit = Network.of(TREATMENTS, ROWS).fit(TAU2, 0);
    UnderGroup under = fit.under(group, new int[] {1, 2});
    assertThat(under.mean()[0] - under.mean()[1]).isCloseTo(fit.contrast(1, 2), within(1e-12));
    DMatrixRMaj c = under.covariance();
    assertThat(c.get(0, 0) + c.get(1, 1) - 2 * c.get(0, 1))
        .isCloseTo(Math.pow(fit.standardError(1, 2), 2), within(1e-12));
  }

  /** Columns: strata, treatments 1 to 3 (0 is the base), cells of groups 0 to 2 and a fourth. */
  private static final class Dense {
    final double[] mean;
    final DMatrixRMaj covariance;

    Dense(int group, int[] treatments, double omega2) {
      int strata = 4;
      int cells = strata + TREATMENTS - 1;
      int n = cells + 4 * TREATMENTS;
      DMatrixRMaj left = new DMatrixRMaj(n, n);
      DMatrixRMaj right = new DMatrixRMaj(n, 1);
      for (Network.Row r : ROWS) {
        double[] x = new double[n];
        x[r.stratum()] = 1;
        if (r.treatment() > 0) x[strata + r.treatment() - 1] = 1;
        x[cells + r.group() * TREATMENTS + r.treatment()] = 1;
        double weight = 1 / (r.variance() + r.share() * TAU2);
        for (int i = 0; i < n; i++) {
          right.add(i, 0, x[i] * weight * r.y());
          for (int j = 0; j < n; j++) left.add(i, j, x[i] * weight * x[j]);
        }
      }
      for (int i = cells; i < n; i++) left.add(i, i, 1 / omega2);
      DMatrixRMaj inverse = new DMatrixRMaj(n, n);
      assertThat(CommonOps_DDRM.invert(left, inverse)).isTrue();
      DMatrixRMaj pick = new DMatrixRMaj(treatments.length, n);
      for (int i = 0; i < treatments.length; i++) {
        if (treatments[i] > 0) pick.set(i, strata + treatments[i] - 1, 1);
        pick.set(i, cells + Math.min(group, 3) * TREATMENTS + treatments[i], 1);
      }
      DMatrixRMaj half = new DMatrixRMaj(treatments.length, n);
      CommonOps_DDRM.mult(pick, inverse, half);
      covariance = new DMatrixRMaj(treatments.length, treatments.length);
      CommonOps_DDRM.multTransB(half, pick, covariance);
      DMatrixRMaj at = new DMatrixRMaj(treatments.length, 1);
      CommonOps_DDRM.mult(half, right, at);
      mean = Arrays.copyOf(at.getData(), treatments.length);
    }
  }
}
