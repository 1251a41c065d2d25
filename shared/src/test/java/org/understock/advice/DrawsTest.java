package org.understock.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

class DrawsTest {
  @Test
  void every_stratum_is_hit_exactly_once() {
    for (String quantity : new String[] {"m-9 wet-soil", "size g-41", "weight of size"}) {
      double[] u = Draws.uniform(quantity);
      Arrays.sort(u);
      for (int d = 0; d < u.length; d++) assertThat(u[d]).isEqualTo((d + 0.5) / Draws.COUNT);
    }
  }

  @Test
  void the_same_quantity_has_the_same_draws_and_two_vary_independently() {
    assertThat(Draws.uniform("m-9 wet-soil")).isEqualTo(Draws.uniform("m-9 wet-soil"));
    double worst = 0;
    double sum = 0;
    int pairs = 0;
    for (int a = 0; a < 30; a++) {
      for (int b = 0; b < a; b++) {
        double r = correlation(Draws.normal("quantity " + a), Draws.normal("quantity " + b));
        worst = Math.max(worst, Math.abs(r));
        sum += r;
        pairs++;
      }
    }
    // 435 correlations of 256 independent draws: standard deviation 1/16, the largest of them about
    // 3.2 of those.
    assertThat(worst).isLessThan(0.3);
    assertThat(sum / pairs).isCloseTo(0, within(0.02));
  }

  @Test
  void normal_draws_have_mean_0_and_variance_1() {
    double[] z = Draws.normal("anything");
    assertThat(Arrays.stream(z).average().orElseThrow()).isCloseTo(0, within(1e-9));
    assertThat(Arrays.stream(z).map(x -> x * x).average().orElseThrow()).isCloseTo(1, within(0.01));
  }

  private static double correlation(double[] a, double[] b) {
    double sum = 0;
    for (int d = 0; d < a.length; d++) sum += a[d] * b[d];
    return sum / a.length;
  }
}
