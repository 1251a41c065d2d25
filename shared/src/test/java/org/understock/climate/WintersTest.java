package org.understock.climate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.time.MonthDay;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.understock.climate.Winter.Standing;
import org.understock.trait.Refusal;
import org.understock.wording.Words;

class WintersTest {
  private static final List<DailyExtremes> SEATTLE = ChillCases.seattle();

  private static Winters winters(List<DailyExtremes> days) {
    return Winters.of(
        TemperatureSeries.ofDaily(47.6, days, NightRule.CONTINUOUS), Season.usual(47.6));
  }

  private static List<DailyExtremes> without(LocalDate from, int days) {
    return SEATTLE.stream()
        .filter(d -> d.date().isBefore(from) || !d.date().isBefore(from.plusDays(days)))
        .toList();
  }

  @Test
  void a_series_that_begins_and_ends_within_winters_has_them_in_part() {
    List<Winter> all = winters(SEATTLE).all();
    assertThat(all)
        .extracting(Winter::label)
        .containsExactly("2011/12", "2012/13", "2013/14", "2014/15", "2015/16");
    assertThat(all)
        .extracting(Winter::standing)
        .containsExactly(
            Standing.PARTIAL,
            Standing.COMPLETE,
            Standing.COMPLETE,
            Standing.COMPLETE,
            Standing.PARTIAL);
    assertThat(all.get(0).text().in(Words.ENGLISH)).contains("2012-01-01 to 2012-03-31");
    assertThat(all.get(0).chill()).isPresent();
    assertThat(all.get(0).missingHours()).isEqualTo(92 * 24);
  }

  @Test
  void a_short_gap_is_bridged_and_counted() {
    Winter gap = winters(without(LocalDate.of(2013, 12, 10), 3)).all().get(2);
    Winter whole = winters(SEATTLE).all().get(2);
    assertThat(gap.standing()).isEqualTo(Standing.COMPLETE);
    assertThat(gap.missingHours()).isEqualTo(72);
    assertThat(gap.text().in(Words.ENGLISH)).contains("72 hours were bridged");
    assertThat(gap.chill().orElseThrow().chillPortions())
        .isCloseTo(whole.chill().orElseThrow().chillPortions(), within(5.0));
  }

  @Test
  void a_long_gap_refuses_its_winter_and_no_other() {
    Winters winters = winters(without(LocalDate.of(2013, 12, 10), 4));
    assertThat(winters.complete()).extracting(Winter::label).containsExactly("2012/13", "2014/15");
    Winter refused = winters.all().get(2);
    assertThat(refused.standing()).isEqualTo(Standing.REFUSED);
    assertThat(refused.chill()).isEmpty();
    assertThat(refused.text().in(Words.ENGLISH)).contains("2013-12-10").contains("4 days");
  }

  @Test
  void a_winter_without_any_day_is_refused_and_not_passed_over() {
    Winters winters = winters(without(LocalDate.of(2013, 9, 1), 250));
    assertThat(winters.all()).extracting(Winter::label).contains("2013/14");
    assertThat(winters.all().get(2).text().in(Words.ENGLISH)).contains("Nothing");
  }

  @Test
  void many_short_gaps_refuse_a_winter_too() {
    List<DailyExtremes> holed =
        SEATTLE.stream()
            .filter(d -> d.date().getYear() != 2014 || d.date().getDayOfMonth() % 4 != 0)
            .toList();
    assertThat(winters(holed).complete()).extracting(Winter::label).containsExactly("2012/13");
  }

  /**
   * The same weather half a year later in the other half of the world; days are as long there then,
   * but for the orbit's eccentricity.
   */
  @Test
  void southern_winters_lie_within_one_year() {
    Season season = Season.usual(-33.9);
    assertThat(season.label(2024)).isEqualTo("2024");
    assertThat(season.start(2024)).isEqualTo(LocalDate.of(2024, 4, 1));
    assertThat(season.end(2024)).isEqualTo(LocalDate.of(2024, 9, 30));
    List<DailyExtremes> moved =
        SEATTLE.stream()
            .map(d -> new DailyExtremes(d.date().plusDays(183), d.minC(), d.maxC()))
            .toList();
    Winters south =
        Winters.of(TemperatureSeries.ofDaily(-47.6, moved, NightRule.CONTINUOUS), season);
    assertThat(south.complete()).hasSize(3);
    double north = winters(SEATTLE).complete(ChillMeasure.CHILL_PORTIONS)[1];
    assertThat(south.complete(ChillMeasure.CHILL_PORTIONS)[1])
        .isCloseTo(north, within(0.03 * north));
  }

  @Test
  void february_may_end_a_season_in_any_year() {
    Season season = new Season(MonthDay.of(11, 1), MonthDay.of(2, 29));
    assertThat(season.end(2022)).isEqualTo(LocalDate.of(2023, 2, 28));
    assertThat(season.end(2023)).isEqualTo(LocalDate.of(2024, 2, 29));
    Winters winters =
        Winters.of(TemperatureSeries.ofDaily(47.6, SEATTLE, NightRule.CONTINUOUS), season);
    assertThat(winters.accumulation(winters.complete().get(0), ChillMeasure.CHILL_HOURS))
        .hasSize(120);
    assertThatThrownBy(() -> new Season(MonthDay.of(10, 1), MonthDay.of(10, 20)))
        .isInstanceOf(Refusal.Conflict.class);
  }

  @Test
  void accumulation_ends_in_the_total_and_portions_never_fall() {
    Winters winters = winters(SEATTLE);
    for (Winter winter : winters.complete()) {
      for (ChillMeasure measure : ChillMeasure.values()) {
        double[] sums = winters.accumulation(winter, measure);
        assertThat(sums).hasSize((int) ChronoUnit.DAYS.between(winter.from(), winter.to()) + 1);
        assertThat(sums[sums.length - 1]).isEqualTo(winter.chill().orElseThrow().of(measure));
        if (measure == ChillMeasure.CHILL_PORTIONS)
          for (int d = 1; d < sums.length; d++)
            assertThat(sums[d]).isGreaterThanOrEqualTo(sums[d - 1]);
      }
    }
  }

  /** Laws on seeded random hours. */
  @Test
  void
      more_hours_between_0_and_7_never_lower_chilling_hours_and_splitting_changes_no_memoryless_sum() {
    Random random = new Random(20240607);
    for (int round = 0; round < 50; round++) {
      double[] hours = random.doubles(500, -10, 30).toArray();
      ChillSum whole = new ChillSum();
      ChillSum cooled = new ChillSum();
      ChillSum first = new ChillSum();
      ChillSum second = new ChillSum();
      for (int k = 0; k < hours.length; k++) {
        whole.add(hours[k]);
        cooled.add(random.nextInt(4) == 0 ? 7.2 * random.nextDouble() : hours[k]);
        (k < 217 ? first : second).add(hours[k]);
      }
      assertThat(cooled.total().chillHours()).isGreaterThanOrEqualTo(whole.total().chillHours());
      assertThat(first.total().chillHours() + second.total().chillHours())
          .isEqualTo(whole.total().chillHours());
      assertThat(first.total().utahUnits() + second.total().utahUnits())
          .isEqualTo(whole.total().utahUnits());
      assertThat(first.total().positiveUtahUnits() + second.total().positiveUtahUnits())
          .isEqualTo(whole.total().positiveUtahUnits());
      assertThat(first.total().growingDegreeHours() + second.total().growingDegreeHours())
          .isCloseTo(whole.total().growingDegreeHours(), within(1e-8));
      assertThat(whole.total().positiveUtahUnits())
          .isGreaterThanOrEqualTo(whole.total().utahUnits());
      assertThat(first.total().chillPortions()).isLessThanOrEqualTo(whole.total().chillPortions());
    }
  }

  /** R: quantile(c(50, 61, 70, 55, 90), 0.1) is 52, and of c(1, 2, ..., 11) it is 2. */
  @Test
  void safe_chill_is_the_tenth_percentile_of_type_7() {
    assertThat(SafeChill.of(new double[] {50, 61, 70, 55, 90})).isCloseTo(52, within(1e-12));
    assertThat(SafeChill.of(new double[] {11, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1}))
        .isCloseTo(2, within(1e-12));
    assertThat(SafeChill.of(new double[] {42})).isEqualTo(42);
    assertThatThrownBy(() -> SafeChill.of(new double[0])).isInstanceOf(Refusal.OutOfRange.class);
  }

  @Test
  void trend_finds_the_slope_and_one_odd_year_hardly_moves_it() {
    int[] years = {2000, 2001, 2002, 2003, 2004, 2005, 2006, 2007, 2008, 2010};
    double[] falling = new double[years.length];
    for (int k = 0; k < years.length; k++) falling[k] = 80 - 0.6 * (years[k] - 2000);
    Trend exact = Trend.of(years, falling).orElseThrow();
    assertThat(exact.perDecade()).isCloseTo(-6, within(1e-9));
    assertThat(exact.low()).isCloseTo(-6, within(1e-9));
    assertThat(exact.high()).isCloseTo(-6, within(1e-9));
    falling[4] = 10;
    Trend odd = Trend.of(years, falling).orElseThrow();
    assertThat(odd.perDecade()).isCloseTo(-6, within(0.5));
    assertThat(odd.low()).isLessThanOrEqualTo(odd.perDecade());
    assertThat(odd.high()).isGreaterThanOrEqualTo(odd.perDecade());
    assertThat(Trend.of(new int[] {1, 2, 3}, new double[] {1, 2, 3})).isEmpty();
  }

  /** Of many flat noisy series, about four in five intervals hold 0. */
  @Test
  void trend_intervals_hold_the_truth_as_often_as_they_say() {
    Random random = new Random(7);
    int[] years = java.util.stream.IntStream.range(1990, 2015).toArray();
    int held = 0;
    int rounds = 2000;
    for (int round = 0; round < rounds; round++) {
      double[] values = new double[years.length];
      for (int k = 0; k < values.length; k++) values[k] = 60 + 8 * random.nextGaussian();
      Trend trend = Trend.of(years, values).orElseThrow();
      if (trend.low() <= 0 && trend.high() >= 0) held++;
    }
    assertThat(held / (double) rounds).isBetween(0.77, 0.83);
  }
}
