package org.understock.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/**
 * The factors are the 90th percentiles of the standard tables: normal 1.28155; Student's t with 10
 * degrees of freedom 1.372 (any statistics textbook's appendix; from memory).
 */
class IntervalsTest {
  private static final Estimate.Support SUPPORT =
      new Estimate.Support(List.of(), 1, Grade.B, Optional.empty());

  @Test
  void a_ratio_uses_students_t_and_a_new_site_varies_for_both_stocks() {
    Intervals i = Intervals.of(new Estimate.Ratio("m-9", Math.log(2), 0.1, 0.2, 5, 10, SUPPORT));
    assertThat(i.value()).isCloseTo(2, within(1e-12));
    assertThat(Math.log(i.high() / i.value())).isCloseTo(1.372 * 0.1, within(1e-4));
    assertThat(Math.log(i.value() / i.low())).isCloseTo(1.372 * 0.1, within(1e-4));
    assertThat(Math.log(i.predictionHigh() / i.value()))
        .isCloseTo(1.372 * Math.sqrt(0.1 * 0.1 + 2 * 0.2 * 0.2), within(2e-4));
  }

  @Test
  void a_quantity_is_symmetric_in_logs_and_an_interval_on_its_own_scale() {
    Intervals q = Intervals.of(new Estimate.Quantity("m", Math.log(3), 0.1, 0.3, SUPPORT));
    assertThat(q.low() * q.high()).isCloseTo(9, within(1e-9));
    assertThat(Math.log(q.predictionHigh() / 3))
        .isCloseTo(1.28155 * Math.hypot(0.1, 0.3), within(1e-4));
    Intervals v = Intervals.of(new Estimate.Interval("degC", -30, 1, 2, SUPPORT));
    assertThat(v.low()).isCloseTo(-31.28155, within(1e-4));
    assertThat(v.predictionHigh()).isCloseTo(-30 + 1.28155 * Math.hypot(1, 2), within(1e-4));
  }
}
