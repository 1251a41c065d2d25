package org.understock.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.understock.site.Goal;
import org.understock.trait.Refusal;

class KernelTest {
  @Test
  void rounded_effects_keep_their_sum() {
    double[] exact = {1.4, 1.4, 1.4, -0.4};
    long[] rounded = Effects.roundTo(exact, 4);
    assertThat(rounded[0] + rounded[1] + rounded[2] + rounded[3]).isEqualTo(4);
    for (int k = 0; k < exact.length; k++) assertThat((double) rounded[k]).isCloseTo(exact[k], within(1.0));
  }

  @Test
  void a_ramp_runs_from_0_to_1_on_the_log_scale() {
    Ramp down = Ramp.between(4, 1);
    assertThat(down.of(Math.log(0.5))).isEqualTo(1);
    assertThat(down.of(Math.log(2))).isCloseTo(0.5, within(1e-12));
    assertThat(down.of(Math.log(9))).isEqualTo(0);
  }

  @Test
  void weights_sum_to_one_in_every_draw_and_follow_the_priorities() {
    List<Active> active = List.of(new Active(Criteria.SIZE, Bearing.told(1, "x"), null), new Active(Criteria.LIFE, Bearing.told(0.5, "x"), null));
    Goal goal = new Goal(null, null, null, null, null, null, null, null, Map.of("size", 2.0, "long-life", 4.0));
    Weights weights = Weights.of(active, goal);
    assertThat(weights.mean(0)).isCloseTo(0.5, within(1e-12));
    Weights free = Weights.of(active, Goal.UNKNOWN);
    for (int d = 0; d < Draws.COUNT; d++) assertThat(free.of(0)[d] + free.of(1)[d]).isCloseTo(1, within(1e-12));
    Goal nothing = new Goal(null, null, null, null, null, null, null, null, Map.of("size", 0.0, "long-life", 0.0));
    assertThatThrownBy(() -> Weights.of(active, nothing)).isInstanceOf(Refusal.Conflict.class);
  }

  /** Uniform on the simplex of two: mean one half, standard deviation 1/sqrt(12) (closed form). */
  @Test
  void unstated_weights_are_uniform_on_the_simplex() {
    List<Active> active = List.of(new Active(Criteria.SIZE, Bearing.told(1, "x"), null), new Active(Criteria.LIFE, Bearing.told(1, "x"), null));
    double[] w = Weights.of(active, Goal.UNKNOWN).of(0);
    double mean = java.util.Arrays.stream(w).average().orElseThrow();
    double sd = Math.sqrt(java.util.Arrays.stream(w).map(x -> (x - mean) * (x - mean)).average().orElseThrow());
    assertThat(mean).isCloseTo(0.5, within(0.03));
    assertThat(sd).isCloseTo(1 / Math.sqrt(12), within(0.03));
  }

  @Test
  void texts_come_in_either_units() {
    assertThat(Units.METRIC.lengths(2.4, 3.04)).isEqualTo("2.4 to 3.0 m");
    assertThat(Units.US_CUSTOMARY.length(3.048)).isEqualTo("10.0 ft");
    assertThat(Units.US_CUSTOMARY.temperature(-40)).isEqualTo("-40 °F");
    assertThat(Units.US_CUSTOMARY.masses(45.359237, 45.359237)).isEqualTo("100 lb");
  }
}
