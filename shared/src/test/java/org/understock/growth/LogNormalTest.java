package org.understock.growth;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/**
 * Closed forms of the log-normal distribution; 1.2816 leaves a tenth above (tables of the normal).
 */
class LogNormalTest {
  @Test
  void percentiles_and_what_lies_between_them_are_one_thing() {
    LogNormal tree = new LogNormal(Math.log(4), 0.25);
    assertThat(tree.median()).isCloseTo(4, within(1e-12));
    assertThat(tree.p10()).isCloseTo(4 * Math.exp(-0.25 * 1.2816), within(1e-4));
    assertThat(tree.p90()).isCloseTo(4 * Math.exp(0.25 * 1.2816), within(1e-4));
    assertThat(tree.at(2)).isCloseTo(4 * Math.exp(0.5), within(1e-12));
    LogNormal again = LogNormal.between(tree.p10(), tree.p90());
    assertThat(again.mu()).isCloseTo(tree.mu(), within(1e-12));
    assertThat(again.sigma()).isCloseTo(tree.sigma(), within(1e-12));
  }

  @Test
  void a_product_adds_means_and_squares_of_spreads_of_logs() {
    LogNormal product = new LogNormal(1, 0.3).times(new LogNormal(-3, 0.4));
    assertThat(product.mu()).isCloseTo(-2, within(1e-12));
    assertThat(product.sigma()).isCloseTo(0.5, within(1e-12));
    assertThat(LogNormal.both(5, 12)).isEqualTo(13);
  }

  @Test
  void an_exact_number_moves_the_middle_and_leaves_the_spread() {
    LogNormal half = new LogNormal(Math.log(6), 0.2).times(0.5);
    assertThat(half.median()).isCloseTo(3, within(1e-12));
    assertThat(half.sigma()).isEqualTo(0.2);
  }
}
