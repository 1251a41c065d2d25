package org.understock.growth;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.understock.trait.Refusal;

class ExpectationsTest {
  private static final Expectations TREE = expectations(4, 8, 30, 60);

  @Test
  void trees_per_hectare_follow_the_spacing() {
    assertThat(TREE.treesPerHa()).isCloseTo(10_000 / (2.6 * 4.6), within(1e-9));
  }

  @Test
  void nothing_is_picked_before_the_first_crop_can_come() {
    List<YearYield> years = TREE.yearlyYield(40);
    assertThat(years).extracting(YearYield::year).startsWith(1, 2, 3).hasSize(40);
    assertThat(years.get(0).high()).isZero();
    assertThat(years.get(3).likely()).isPositive();
  }

  @Test
  void crops_rise_to_the_full_crop_and_fall_at_the_end_of_life() {
    List<YearYield> years = TREE.yearlyYield(40);
    for (int i = 1; i < 8; i++)
      assertThat(years.get(i).likely()).isGreaterThanOrEqualTo(years.get(i - 1).likely());
    double best = years.stream().mapToDouble(YearYield::likely).max().orElseThrow();
    assertThat(best).isBetween(50.0, 61.0);
    assertThat(years.get(39).likely()).isLessThan(best / 2);
  }

  @Test
  void percentiles_are_in_order_and_repeat_exactly() {
    List<YearYield> years = TREE.yearlyYield(60);
    assertThat(years)
        .allSatisfy(
            y -> assertThat(y.low()).isLessThanOrEqualTo(y.likely()).isLessThanOrEqualTo(y.high()));
    assertThat(years).allSatisfy(y -> assertThat(y.likely()).isLessThanOrEqualTo(y.high()));
    assertThat(TREE.yearlyYield(60)).isEqualTo(years);
  }

  /**
   * Trunk-shaken tart cherry: full until year 18, half of it lost by year 25 (Perry, Growing
   * Produce: growingproduce-perry-tart).
   */
  @Test
  void decline_of_tart_cherry_agrees_with_published_years() {
    assertThat(Expectations.share(18, 3, 8, 25)).isCloseTo(1, within(1e-9));
    assertThat(Expectations.share(25, 3, 8, 25)).isCloseTo(0.5, within(1e-9));
    assertThat(Expectations.share(40, 3, 8, 25)).isZero();
  }

  @Test
  void years_out_of_range_are_refused() {
    assertThatThrownBy(() -> TREE.yearlyYield(0)).isInstanceOf(Refusal.OutOfRange.class);
    assertThatThrownBy(() -> TREE.yearlyYield(151)).isInstanceOf(Refusal.OutOfRange.class);
  }

  /**
   * The fixed sample stands for the normal distribution: quantiles 1.2816 and 1.6449 (tables of the
   * normal distribution) leave 10 % and 5 % above.
   */
  @Test
  void fixed_sample_has_the_shape_of_the_normal() {
    for (int d = 0; d < 3; d++) {
      int dimension = d;
      assertThat(share(dimension, 1.2816)).isCloseTo(0.10, within(0.01));
      assertThat(share(dimension, 1.6449)).isCloseTo(0.05, within(0.01));
      assertThat(
              java.util.stream.IntStream.range(0, Trees.COUNT)
                  .mapToDouble(i -> Trees.score(i, dimension))
                  .average()
                  .orElseThrow())
          .isCloseTo(0, within(0.02));
    }
    double product =
        java.util.stream.IntStream.range(0, Trees.COUNT)
            .mapToDouble(i -> Trees.score(i, 0) * Trees.score(i, 1))
            .average()
            .orElseThrow();
    assertThat(product).as("dimensions are independent").isCloseTo(0, within(0.08));
  }

  private static double share(int dimension, double above) {
    return java.util.stream.IntStream.range(0, Trees.COUNT)
            .filter(i -> Trees.score(i, dimension) > above)
            .count()
        / (double) Trees.COUNT;
  }

  private static Expectations expectations(double first, double full, double life, double kg) {
    return new Expectations(
        about(4),
        about(3),
        about(2.5),
        about(2.6),
        about(first),
        about(full),
        about(life),
        about(kg),
        2.6,
        4.6,
        new SupportNeed(1, 0, 0));
  }

  private static LogNormal about(double median) {
    return new LogNormal(Math.log(median), 0.15);
  }
}
