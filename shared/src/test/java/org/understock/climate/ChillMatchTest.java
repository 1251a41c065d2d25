package org.understock.climate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.understock.evidence.Estimate;
import org.understock.evidence.Grade;
import org.understock.site.Site;
import org.understock.site.Soil;
import org.understock.trait.Refusal;

class ChillMatchTest {
  private static final Estimate.Support SUPPORT =
      new Estimate.Support(List.of("r"), 1, Grade.B, Optional.empty());

  private static Estimate.Quantity need(String unit, double median, double se, double between) {
    return new Estimate.Quantity(unit, Math.log(median), se, between, SUPPORT);
  }

  private static Site site(Double hours, Double portions) {
    return new Site(null, null, hours, portions, null, Soil.UNKNOWN, null, null, List.of());
  }

  /**
   * Means and standard deviations in chill portions of the UC Davis compilation (source
   * ucdavis-chill-portions).
   */
  private static final double[][] PUBLISHED_MEAN_SD = {
    {33.2, 6.2},
    {41.4, 7.5},
    {41.7, 8.1},
    {34.3, 6.1},
    {39.6, 3.74},
    {51.2, 4.7},
    {53.8, 2.9},
    {55.25, 1.42},
    {55.9, 2.8},
    {56.2, 3.7},
    {57.4, 1.8},
    {61.35, 6.05},
    {69.1, 3},
    {61.9, 4.94},
    {64.8, 2.7}
  };

  @Test
  void the_least_spread_is_the_root_mean_square_of_the_published_ones() {
    double sum = 0;
    for (double[] row : PUBLISHED_MEAN_SD) sum += Math.pow(row[1] / row[0], 2);
    double rms = Math.sqrt(sum / PUBLISHED_MEAN_SD.length);
    // A requirement without spread of its own, met by a winter one such spread above it: Φ(1) =
    // 0.8413.
    double chance = ChillMatch.chanceMet(need("portions", 50, 0, 0), 50 * Math.exp(rms));
    assertThat(chance).isCloseTo(0.8413, within(0.005));
  }

  /** Redhaven peach: 75 portions (ucdavis-chill-portions); Earligrande: 12. */
  @Test
  void a_high_need_fails_where_a_low_one_is_met() {
    Site mild = site(null, 40.0);
    assertThat(
            ChillMatch.chanceMet(mild, Optional.empty(), Optional.of(need("portions", 75, 0, 0)))
                .getAsDouble())
        .isLessThan(0.001);
    assertThat(
            ChillMatch.chanceMet(mild, Optional.empty(), Optional.of(need("portions", 12, 0, 0)))
                .getAsDouble())
        .isGreaterThan(0.999);
  }

  @Test
  void hours_are_compared_with_hours_and_portions_with_portions_only() {
    Optional<Estimate> hours = Optional.of(need("h", 950, 0.1, 0.1));
    Optional<Estimate> portions = Optional.of(need("portions", 50, 0.1, 0.1));
    assertThat(ChillMatch.chanceMet(site(1000.0, null), Optional.empty(), portions)).isEmpty();
    assertThat(ChillMatch.chanceMet(site(null, 60.0), hours, Optional.empty())).isEmpty();
    assertThat(ChillMatch.chanceMet(site(null, null), hours, portions)).isEmpty();
    assertThat(ChillMatch.chanceMet(site(950.0, null), hours, portions).getAsDouble())
        .isCloseTo(0.5, within(1e-12));
    assertThatThrownBy(() -> ChillMatch.chanceMet(site(950.0, null), portions, hours))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void a_winter_without_chill_meets_nothing() {
    assertThat(ChillMatch.chanceMet(need("h", 100, 1, 1), 0)).isZero();
  }

  @Test
  void over_several_winters_the_chance_is_their_mean() {
    Estimate.Quantity need = need("portions", 50, 0.1, 0);
    double both = ChillMatch.chanceMet(need, new double[] {45, 60});
    assertThat(both)
        .isCloseTo(
            (ChillMatch.chanceMet(need, 45) + ChillMatch.chanceMet(need, 60)) / 2, within(1e-15));
    assertThatThrownBy(() -> ChillMatch.chanceMet(need, new double[0]))
        .isInstanceOf(Refusal.OutOfRange.class);
  }
}
