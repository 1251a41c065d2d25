package org.understock.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.understock.site.Goal;
import org.understock.trait.Refusal;
import org.understock.wording.Words;

class KernelTest {
  @Test
  void rounded_effects_keep_their_sum() {
    double[] exact = {1.4, 1.4, 1.4, -0.4};
    long[] rounded = Effects.roundTo(exact, 4);
    assertThat(rounded[0] + rounded[1] + rounded[2] + rounded[3]).isEqualTo(4);
    for (int k = 0; k < exact.length; k++)
      assertThat((double) rounded[k]).isCloseTo(exact[k], within(1.0));
  }

  @Test
  void a_ramp_runs_from_0_to_1_on_the_log_scale() {
    Ramp down = Ramp.between(4, 1);
    assertThat(down.of(Math.log(0.5))).isEqualTo(1);
    assertThat(down.of(Math.log(2))).isCloseTo(0.5, within(1e-12));
    assertThat(down.of(Math.log(9))).isEqualTo(0);
  }

  @Test
  void a_ramp_over_all_draws_is_the_ramp_at_each() {
    Ramp ramp = Ramp.between(2, 5);
    double[] stock = Draws.normal("size of a stock");
    double[] variety = Draws.normal("size of a variety");
    double[] weight = Draws.uniform("a weight");
    double[] times = new double[Draws.COUNT];
    double[] mixed = new double[Draws.COUNT];
    ramp.times(Math.log(3), 0.4, 0.6, stock, variety, weight, times);
    ramp.mix(Math.log(3), 0.4, 0.35, stock, variety, weight, variety, mixed);
    for (int d = 0; d < Draws.COUNT; d++) {
      double one = ramp.of(Math.log(3) + 0.4 * (stock[d] + variety[d]));
      assertThat(times[d]).isCloseTo(weight[d] * (0.6 + 0.4 * one), within(1e-12));
      assertThat(mixed[d]).isCloseTo(weight[d] * (0.65 * variety[d] + 0.35 * one), within(1e-12));
    }
    assertThat(times)
        .as("the head of the ramp is reached")
        .contains(weight[indexOfMost(stock, variety)]);
  }

  private static int indexOfMost(double[] a, double[] b) {
    int most = 0;
    for (int d = 1; d < a.length; d++) if (a[d] + b[d] > a[most] + b[most]) most = d;
    return most;
  }

  @Test
  void a_mean_over_draws_counts_every_draw_once() {
    double[] x = new double[Draws.COUNT];
    for (int d = 0; d < x.length; d++) x[d] = d * d;
    assertThat(Draws.mean(x))
        .isCloseTo(255 * 511 / 6.0, within(1e-9)); // mean of squares 0² to 255²
  }

  @Test
  void weights_sum_to_one_in_every_draw_and_follow_the_priorities() {
    List<Active> active =
        List.of(
            new Active(Criteria.SIZE, Bearing.always(1), null),
            new Active(Criteria.LIFE, Bearing.always(0.5), null));
    Goal goal =
        new Goal(
            null, null, null, null, null, null, null, null, Map.of("size", 2.0, "long-life", 4.0));
    Weights weights = Weights.of(active, goal);
    assertThat(weights.mean(0)).isCloseTo(0.5, within(1e-12));
    Weights free = Weights.of(active, Goal.UNKNOWN);
    for (int d = 0; d < Draws.COUNT; d++)
      assertThat(free.of(0)[d] + free.of(1)[d]).isCloseTo(1, within(1e-12));
    Goal nothing =
        new Goal(
            null, null, null, null, null, null, null, null, Map.of("size", 0.0, "long-life", 0.0));
    assertThatThrownBy(() -> Weights.of(active, nothing)).isInstanceOf(Refusal.Conflict.class);
  }

  /** Uniform on the simplex of two: mean one half, standard deviation 1/sqrt(12) (closed form). */
  @Test
  void unstated_weights_are_uniform_on_the_simplex() {
    List<Active> active =
        List.of(
            new Active(Criteria.SIZE, Bearing.always(1), null),
            new Active(Criteria.LIFE, Bearing.always(1), null));
    double[] w = Weights.of(active, Goal.UNKNOWN).of(0);
    double mean = java.util.Arrays.stream(w).average().orElseThrow();
    double sd =
        Math.sqrt(
            java.util.Arrays.stream(w).map(x -> (x - mean) * (x - mean)).average().orElseThrow());
    assertThat(mean).isCloseTo(0.5, within(0.03));
    assertThat(sd).isCloseTo(1 / Math.sqrt(12), within(0.03));
  }

  @Test
  void texts_come_in_either_units() {
    assertThat(Units.METRIC.lengths(Words.ENGLISH, 2.4, 3.04)).isEqualTo("2.4 to 3.0 m");
    assertThat(Units.US_CUSTOMARY.length(Words.ENGLISH, 3.048)).isEqualTo("10.0 ft");
    assertThat(Units.US_CUSTOMARY.temperature(-40).in(Words.ENGLISH)).isEqualTo("-40 °F");
    assertThat(Units.US_CUSTOMARY.masses(Words.ENGLISH, 45.359237, 45.359237)).isEqualTo("100 lb");
  }
}
