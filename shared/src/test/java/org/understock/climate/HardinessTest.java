package org.understock.climate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.understock.evidence.Estimate;
import org.understock.evidence.Grade;
import org.understock.trait.Refusal;

class HardinessTest {
  private static final Estimate.Support SUPPORT =
      new Estimate.Support(List.of("r"), 1, Grade.C, Optional.empty());

  private static Estimate.Interval limit(double mean, double se, double between) {
    return new Estimate.Interval("degC", mean, se, between, SUPPORT);
  }

  private static Estimate.Levels cold(double... alpha) {
    return new Estimate.Levels(List.of("poor", "fair", "good", "very-good"), alpha, SUPPORT);
  }

  /**
   * One whole zone (10 °F = 5.556 °C) either way as a 90 % interval: one zone warmer than the limit
   * the chance is Φ(1.645) = 0.95, one zone colder 0.05, at the limit 0.5. Limit of Cortland: zone
   * 4, -34.4 °C (uvm-cold-fruit).
   */
  @Test
  void one_zone_from_the_limit_is_the_edge_of_the_ninety_percent_interval() {
    Estimate.Interval cortland = limit(-34.4, 0, 0);
    assertThat(Hardiness.chanceSurvives(-34.4, cortland).getAsDouble())
        .isCloseTo(0.5, within(1e-9));
    assertThat(Hardiness.chanceSurvives(-34.4 + 50 / 9.0, cortland).getAsDouble())
        .isCloseTo(0.95, within(1e-6));
    assertThat(Hardiness.chanceSurvives(-34.4 - 50 / 9.0, cortland).getAsDouble())
        .isCloseTo(0.05, within(1e-6));
  }

  @Test
  void a_colder_night_is_never_survived_more_likely() {
    Estimate.Interval limit = limit(-30, 1, 4);
    double before = 1;
    for (double night = 0; night > -60; night -= 0.5) {
      double chance = Hardiness.chanceSurvives(night, limit).getAsDouble();
      assertThat(chance).isLessThanOrEqualTo(before).isBetween(0.0, 1.0);
      before = chance;
    }
  }

  @Test
  void less_certain_limits_give_answers_nearer_to_even() {
    double sure = Hardiness.chanceSurvives(-25.0, limit(-30, 0, 0)).getAsDouble();
    double unsure = Hardiness.chanceSurvives(-25.0, limit(-30, 5, 8)).getAsDouble();
    assertThat(unsure).isLessThan(sure).isGreaterThan(0.5);
  }

  /**
   * The words stand for the lower bounds of zones 6, 5, 4 and 3 (hardiness-zones.csv): -23.3,
   * -28.9, -34.4, -40.0 °C.
   */
  @Test
  void words_for_stocks_stand_for_zones() {
    assertThat(Hardiness.limitOf("poor")).isCloseTo(-23.3, within(0.05));
    assertThat(Hardiness.limitOf("fair")).isCloseTo(-28.9, within(0.05));
    assertThat(Hardiness.limitOf("good")).isCloseTo(-34.4, within(0.05));
    assertThat(Hardiness.limitOf("very-good")).isCloseTo(-40.0, within(0.05));
    assertThatThrownBy(() -> Hardiness.limitOf("excellent")).isInstanceOf(Refusal.Unknown.class);
  }

  @Test
  void a_stock_of_disputed_hardiness_lies_between_its_levels() {
    double poor = Hardiness.chanceStockSurvives(-28.0, cold(1, 0, 0, 0)).getAsDouble();
    double good = Hardiness.chanceStockSurvives(-28.0, cold(0, 0, 1, 0)).getAsDouble();
    assertThat(Hardiness.chanceStockSurvives(-28.0, cold(1, 0, 3, 0)).getAsDouble())
        .isCloseTo(0.25 * poor + 0.75 * good, within(1e-12));
    assertThat(poor).isLessThan(0.1);
    assertThat(good).isGreaterThan(0.95);
  }

  /**
   * Roots of G.11 and G.935: half killed at -12 and between -19 and -16 °C of soil temperature
   * (moran-2011-cold).
   */
  @Test
  void roots_are_judged_by_soil_temperature_alone() {
    Estimate.Interval g11 = limit(-12, 1, 1);
    Estimate.Interval g935 = limit(-17.5, 1, 1);
    assertThat(Hardiness.chanceRootsSurvive(-14.0, g11).getAsDouble()).isLessThan(0.2);
    assertThat(Hardiness.chanceRootsSurvive(-14.0, g935).getAsDouble()).isGreaterThan(0.95);
    assertThat(Hardiness.chanceRootsSurvive(null, g11)).isEmpty();
  }

  @Test
  void unknown_stays_unknown() {
    assertThat(Hardiness.chanceSurvives(null, limit(-30, 1, 1))).isEmpty();
    assertThat(Hardiness.chanceSurvives(-20.0, null)).isEmpty();
    assertThat(Hardiness.chanceStockSurvives(-20.0, null)).isEmpty();
    assertThat(Hardiness.chanceStockSurvives(null, cold(1, 1, 1, 1))).isEmpty();
  }
}
