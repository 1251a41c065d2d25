package org.understock.climate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;
import org.junit.jupiter.api.Test;
import org.understock.trait.Refusal;

class TemperatureSeriesTest {
  private static final LocalDate FIRST = LocalDate.of(2019, 10, 1);

  /**
   * Days from 1 October 2019 on, four degrees to ten and a bit warmer each day, without those that
   * are left out.
   */
  private static List<DailyExtremes> days(int n, IntPredicate leftOut) {
    List<DailyExtremes> days = new ArrayList<>();
    for (int k = 0; k < n; k++)
      if (!leftOut.test(k))
        days.add(new DailyExtremes(FIRST.plusDays(k), 4 + 0.01 * k, 10 + 0.01 * k));
    return days;
  }

  private static TemperatureSeries readings(int stepMinutes, int n, IntPredicate leftOut) {
    List<Integer> minutes = new ArrayList<>();
    List<Double> values = new ArrayList<>();
    for (int k = 0; k < n; k++) {
      if (leftOut.test(k)) continue;
      LocalDateTime time = FIRST.atStartOfDay().plusMinutes((long) k * stepMinutes);
      minutes.add(k * stepMinutes);
      values.add(celsius(time));
    }
    return TemperatureSeries.ofReadings(
        FIRST,
        minutes.stream().mapToInt(m -> m).toArray(),
        values.stream().mapToDouble(x -> x).toArray());
  }

  private static double celsius(LocalDateTime time) {
    return 5 + 4 * Math.sin(2 * Math.PI * (time.getHour() * 60 + time.getMinute()) / 1440.0);
  }

  @Test
  void hourly_readings_are_the_hours() {
    TemperatureSeries series = readings(60, 48, k -> false);
    for (int k = 0; k < 48; k++) {
      assertThat(series.at(FIRST.plusDays(k / 24), k % 24))
          .isEqualTo(celsius(FIRST.atStartOfDay().plusHours(k)));
    }
    assertThat(series.lowest(FIRST)).isEqualTo(1);
    assertThat(series.at(FIRST.minusDays(1), 0)).isNaN();
    assertThat(series.at(FIRST.plusDays(2), 0)).isNaN();
  }

  @Test
  void quarter_hours_are_averaged_within_their_hour() {
    TemperatureSeries series = readings(15, 96, k -> false);
    double mean = 0;
    for (int m = 0; m < 60; m += 15) mean += celsius(FIRST.atTime(7, m)) / 4;
    assertThat(series.at(FIRST, 7)).isCloseTo(mean, within(1e-12));
  }

  @Test
  void between_readings_three_hours_apart_lies_a_straight_line_and_nothing_is_missing() {
    TemperatureSeries series = readings(180, 17, k -> false);
    double at3 = celsius(FIRST.atTime(3, 0));
    double at6 = celsius(FIRST.atTime(6, 0));
    assertThat(series.at(FIRST, 4)).isCloseTo(at3 + (at6 - at3) / 3, within(1e-12));
    assertThat(series.bridged(FIRST, 4)).isFalse();
  }

  @Test
  void twelve_missing_hours_are_bridged_and_thirteen_are_not() {
    TemperatureSeries twelve = readings(60, 48, k -> k >= 30 && k < 42);
    assertThat(twelve.at(FIRST.plusDays(1), 10)).isNotNaN();
    assertThat(twelve.bridged(FIRST.plusDays(1), 10)).isTrue();
    assertThat(twelve.bridged(FIRST.plusDays(1), 20)).isFalse();
    assertThat(twelve.lowest(FIRST.plusDays(1)))
        .as("the missing hours may have been colder")
        .isNaN();
    TemperatureSeries thirteen = readings(60, 48, k -> k >= 30 && k < 43);
    assertThat(thirteen.at(FIRST.plusDays(1), 10)).isNaN();
  }

  @Test
  void three_missing_days_are_bridged_and_four_part_the_series() {
    TemperatureSeries whole =
        TemperatureSeries.ofDaily(45, days(60, k -> false), NightRule.CONTINUOUS);
    TemperatureSeries three =
        TemperatureSeries.ofDaily(45, days(60, k -> k >= 20 && k < 23), NightRule.CONTINUOUS);
    // The extremes rise in a straight line, so the bridge finds what was left out.
    assertThat(three.at(FIRST.plusDays(21), 13))
        .isCloseTo(whole.at(FIRST.plusDays(21), 13), within(1e-9));
    assertThat(three.bridged(FIRST.plusDays(21), 13)).isTrue();
    assertThat(three.bridged(FIRST.plusDays(23), 13)).isFalse();
    TemperatureSeries four =
        TemperatureSeries.ofDaily(45, days(60, k -> k >= 20 && k < 24), NightRule.CONTINUOUS);
    assertThat(four.at(FIRST.plusDays(21), 13)).isNaN();
    assertThat(four.at(FIRST.plusDays(24), 13))
        .isCloseTo(whole.at(FIRST.plusDays(24), 13), within(1e-9));
  }

  @Test
  void the_continuous_curve_has_no_step_at_midnight_and_stays_within_the_extremes() {
    TemperatureSeries series =
        TemperatureSeries.ofDaily(50, ChillCases.seattle(), NightRule.CONTINUOUS);
    List<DailyExtremes> days = ChillCases.seattle();
    for (int k = 1; k + 1 < days.size(); k++) {
      DailyExtremes day = days.get(k);
      // Where a day's minimum lies above the evening before, the night rises from there.
      double least = Math.min(day.minC(), Math.min(days.get(k - 1).minC(), days.get(k + 1).minC()));
      double most = Math.max(day.maxC(), days.get(k - 1).maxC());
      for (int h = 0; h < 24; h++)
        assertThat(series.at(day.date(), h)).isBetween(least - 1e-9, most + 1e-9);
      assertThat(series.lowest(day.date())).isEqualTo(day.minC());
      // The night falls by a logarithm: from an hour to the next never by more than in the first
      // hour after sunset.
      double range = Math.max(day.maxC(), days.get(k + 1).maxC()) - least;
      assertThat(Math.abs(series.at(day.date().plusDays(1), 0) - series.at(day.date(), 23)))
          .isLessThan(0.1 * range + 0.5);
    }
  }

  @Test
  void warmed_is_every_hour_and_night_warmer() {
    TemperatureSeries series =
        TemperatureSeries.ofDaily(45, days(40, k -> k == 7), NightRule.CONTINUOUS);
    TemperatureSeries warmed = series.warmed(1.5);
    assertThat(warmed.at(FIRST, 5)).isEqualTo(series.at(FIRST, 5) + 1.5);
    assertThat(warmed.lowest(FIRST)).isEqualTo(series.lowest(FIRST) + 1.5);
    assertThat(warmed.bridged(FIRST.plusDays(7), 5)).isTrue();
  }

  @Test
  void what_is_wrong_with_days_is_told_all_at_once() {
    List<DailyExtremes> days =
        List.of(
            new DailyExtremes(FIRST, 8.0, 3.0),
            new DailyExtremes(FIRST, 1.0, 99.0),
            new DailyExtremes(FIRST.minusDays(2), -80.0, 2.0));
    assertThat(DailyExtremes.check(days, "daily"))
        .extracting(Refusal::field)
        .containsExactly(
            "daily[0].minC", "daily[1].maxC", "daily[1].date", "daily[2].minC", "daily[2].date");
    assertThat(DailyExtremes.check(days(9, k -> k == 3), "daily")).isEmpty();
    assertThat(DailyExtremes.check(List.of(), "daily")).hasSize(1);
    assertThat(DailyExtremes.check(List.of(new DailyExtremes(FIRST, 1.0, null)), "daily"))
        .hasSize(1);
  }

  @Test
  void fahrenheit_given_as_celsius_is_recognised_and_the_reverse() {
    List<DailyExtremes> celsius = ChillCases.seattle();
    List<DailyExtremes> fahrenheit =
        celsius.stream()
            .map(d -> new DailyExtremes(d.date(), d.minC() * 1.8 + 32, d.maxC() * 1.8 + 32))
            .toList();
    List<DailyExtremes> twice =
        celsius.stream()
            .map(d -> new DailyExtremes(d.date(), (d.minC() - 32) / 1.8, (d.maxC() - 32) / 1.8))
            .toList();
    assertThat(WrongUnit.check(series(celsius), 47.6, true, "daily")).isEmpty();
    assertThat(WrongUnit.check(series(celsius), 47.6, false, "daily")).isEmpty();
    assertThat(WrongUnit.check(series(fahrenheit), 47.6, true, "daily").orElseThrow().getMessage())
        .contains("January")
        .contains("fahrenheit");
    assertThat(WrongUnit.check(series(twice), 47.6, false, "daily").orElseThrow().getMessage())
        .contains("July")
        .contains("°C");
  }

  private static TemperatureSeries series(List<DailyExtremes> days) {
    return TemperatureSeries.ofDaily(47.6, days, NightRule.CONTINUOUS);
  }

  @Test
  void the_polar_circle_is_the_end() {
    assertThatThrownBy(() -> new HourlyCurve(66.5, NightRule.CONTINUOUS))
        .isInstanceOf(Refusal.OutOfRange.class)
        .hasMessageContaining("-66 and 66");
    // At 66 degrees the sun does not set around midsummer: still a curve, and within the extremes.
    double[] hours =
        new HourlyCurve(66, NightRule.CONTINUOUS)
            .hours(
                LocalDate.of(2024, 6, 10),
                new double[] {5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5},
                new double[] {15, 15, 15, 15, 15, 15, 15, 15, 15, 15, 15, 15});
    for (double t : hours) assertThat(t).isBetween(5.0, 15.0);
  }
}
