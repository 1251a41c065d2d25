package org.understock.climate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.understock.climate.ChillCases.near;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import tools.jackson.databind.JsonNode;

/**
 * Chill and hourly temperatures against values computed in R 4.2.2 from the published equations and
 * compared with chillR 0.77 (the files name functions and largest differences). Cases on records
 * that cannot be handed on with the project run with {@code -Dreference.dir=…}.
 */
class ChillReferenceTest {
  private static final JsonNode HOURLY = ChillCases.read("chill-hourly-cases.json");
  private static final JsonNode DAILY = ChillCases.read("chill-daily-cases.json");

  @TestFactory
  List<DynamicTest> hourly_series() {
    List<DynamicTest> tests = new ArrayList<>();
    for (JsonNode one : HOURLY.get("cases")) {
      tests.add(
          DynamicTest.dynamicTest(
              one.get("id").asString(), () -> check(hours(one), one.get("expected"))));
    }
    assertThat(tests).hasSize(21);
    return tests;
  }

  private static double[] hours(JsonNode one) {
    List<Double> hours = new ArrayList<>();
    if (one.has("input_file")) {
      for (String[] row : ChillCases.handedOnSeparately(one.get("input_file").asString())) {
        if (row[0].equals(one.get("block").asString())) hours.add(Double.valueOf(row[5]));
      }
    } else {
      for (JsonNode segment : one.get("segments")) {
        for (int k = 0; k < segment.get("repeat").asInt(); k++)
          for (JsonNode t : segment.get("temperatures")) hours.add(t.asDouble());
      }
    }
    assertThat(hours).hasSize(one.get("hours").asInt());
    return hours.stream().mapToDouble(Double::doubleValue).toArray();
  }

  private static void check(double[] hours, JsonNode expected) {
    ChillSum sum = new ChillSum();
    DynamicModel dynamic = new DynamicModel();
    Chill before = sum.total();
    int at = 0;
    for (JsonNode total : expected) {
      for (; at < total.get("hours").asInt(); at++) {
        before = sum.total();
        sum.add(hours[at]);
        dynamic.hour(hours[at]);
      }
      Chill chill = sum.total();
      same(chill.chillHours(), total, "chilling_hours");
      same(chill.utahUnits(), total, "utah_units");
      same(chill.positiveUtahUnits(), total, "positive_utah_units");
      same(chill.chillPortions(), total, "chill_portions");
      same(before.chillPortions(), total, "chill_portions_last_hour_open");
      same(chill.growingDegreeHours(), total, "growing_degree_hours");
      same(dynamic.intermediate(), total, "intermediate_x");
    }
    assertThat(at).isGreaterThan(0);
  }

  private static void same(double actual, JsonNode expected, String field) {
    assertThat(actual)
        .as(field + " after " + expected.get("hours"))
        .isCloseTo(expected.get(field).asDouble(), near(expected.get(field).asDouble()));
  }

  @Test
  void edges_of_the_classes() {
    for (JsonNode edge : HOURLY.get("edge_weights")) {
      double t = edge.get("temperature").asDouble();
      assertThat(HourWeights.chillingHour(t))
          .as("chilling hour at " + t)
          .isEqualTo(edge.get("chilling_hour").asDouble());
      assertThat(HourWeights.utahUnit(t))
          .as("Utah unit at " + t)
          .isEqualTo(edge.get("utah_unit").asDouble());
      assertThat(HourWeights.growingDegreeHour(t))
          .as("degree hour at " + t)
          .isCloseTo(
              edge.get("growing_degree_hour").asDouble(),
              near(edge.get("growing_degree_hour").asDouble()));
    }
    assertThat(HOURLY.get("edge_weights").size()).isEqualTo(31);
  }

  @Test
  void first_portion_at_constant_temperature_in_closed_form() {
    for (JsonNode one : HOURLY.get("constant_temperature_closed_form")) {
      DynamicModel dynamic = new DynamicModel();
      int hours = 0;
      double portion = 0;
      while (portion == 0) {
        portion = dynamic.hour(one.get("temperature").asDouble());
        hours++;
      }
      assertThat(hours).isEqualTo(one.get("hours_to_first_portion").asInt());
      assertThat(dynamic.intermediate()).isCloseTo(one.get("x_at_that_hour").asDouble(), near(1));
      assertThat(portion).isCloseTo(one.get("xi").asDouble() * dynamic.intermediate(), near(1));
    }
  }

  @Test
  void sun_times() {
    for (JsonNode one : DAILY.get("sun_times")) {
      SunTimes sun = SunTimes.of(one.get("latitude").asDouble(), one.get("day_of_year").asInt());
      assertThat(SunTimes.declination(one.get("day_of_year").asInt()))
          .isCloseTo(one.get("declination_rad").asDouble(), within(1e-11));
      assertThat(sun.dayLengthH()).isCloseTo(one.get("daylength").asDouble(), near(24));
      if (one.get("sunrise").isNull()) {
        assertThat(sun.sunriseH()).isNaN();
        assertThat(sun.sunsetH()).isNaN();
      } else {
        assertThat(sun.sunriseH()).isCloseTo(one.get("sunrise").asDouble(), near(12));
        assertThat(sun.sunsetH()).isCloseTo(one.get("sunset").asDouble(), near(24));
      }
    }
    assertThat(DAILY.get("sun_times").size()).isEqualTo(121);
  }

  /** Printed in the vignette hourly_temperatures of chillR. */
  @Test
  void sunrise_as_published() {
    SunTimes sun = SunTimes.of(50.4, 15);
    assertThat(sun.sunriseH()).isCloseTo(7.766425, within(5e-7));
    assertThat(sun.sunsetH()).isCloseTo(16.23357, within(5e-6));
  }

  private static NightRule rule(JsonNode one) {
    return one.get("night_rule").asString().equals("continuous")
        ? NightRule.CONTINUOUS
        : NightRule.SPLIT_AT_MIDNIGHT;
  }

  @TestFactory
  List<DynamicTest> hourly_curves() {
    List<DynamicTest> tests = new ArrayList<>();
    for (JsonNode one : DAILY.get("hourly_curves"))
      tests.add(DynamicTest.dynamicTest(one.get("id").asString(), () -> curve(one)));
    assertThat(tests).hasSize(24);
    return tests;
  }

  private static void curve(JsonNode one) {
    JsonNode days = one.get("days");
    double[] min = new double[days.size()];
    double[] max = new double[days.size()];
    for (int k = 0; k < min.length; k++) {
      min[k] = days.get(k).get("tmin").asDouble();
      max[k] = days.get(k).get("tmax").asDouble();
    }
    LocalDate start = LocalDate.ofYearDay(2023, days.get(0).get("day_of_year").asInt());
    double[] hours =
        new HourlyCurve(one.get("latitude").asDouble(), rule(one)).hours(start, min, max);
    for (int k = 0; k < hours.length; k++) {
      assertThat(hours[k])
          .as("hour " + k)
          .isCloseTo(one.get("expected_hourly").get(k / 24).get(k % 24).asDouble(), within(1e-10));
    }
  }

  @TestFactory
  List<DynamicTest> winters_from_daily_extremes() {
    List<DynamicTest> tests = new ArrayList<>();
    for (JsonNode one : DAILY.get("season_cases"))
      tests.add(DynamicTest.dynamicTest(one.get("id").asString(), () -> winter(one)));
    assertThat(tests).hasSize(9);
    return tests;
  }

  private static void winter(JsonNode one) {
    List<DailyExtremes> days =
        ChillCases.handedOnSeparately(one.get("input_file").asString()).stream()
            .map(
                row ->
                    new DailyExtremes(
                        LocalDate.of(
                            Integer.parseInt(row[0]),
                            Integer.parseInt(row[1]),
                            Integer.parseInt(row[2])),
                        Double.valueOf(row[3]),
                        Double.valueOf(row[4])))
            .toList();
    TemperatureSeries series =
        TemperatureSeries.ofDaily(one.get("latitude").asDouble(), days, rule(one));
    LocalDate start = LocalDate.parse(one.get("start").asString());
    int hours = one.get("expected").get(one.get("expected").size() - 1).get("hours").asInt();
    check(hours(series, start, hours), one.get("expected"));
  }

  private static double[] hours(TemperatureSeries series, LocalDate start, int hours) {
    double[] x = new double[hours];
    for (int k = 0; k < hours; k++) x[k] = series.at(start.plusDays(k / 24), k % 24);
    return x;
  }

  /**
   * The night rule of chillR, and its chill portions one hour late: that is how the expected values
   * were made.
   */
  @Test
  void three_winters_of_seattle() {
    TemperatureSeries series =
        TemperatureSeries.ofDaily(47.6, ChillCases.seattle(), NightRule.SPLIT_AT_MIDNIGHT);
    Winters winters = Winters.of(series, Season.usual(47.6));
    JsonNode expected =
        ChillCases.read("seattle-chill-expected.json").get("daily_winters_oct1_to_mar31");
    assertThat(winters.complete()).hasSize(3);
    for (int k = 0; k < 3; k++) {
      Winter winter = winters.complete().get(k);
      JsonNode one = expected.get(k);
      Chill chill = winter.chill().orElseThrow();
      assertThat(winter.label()).isEqualTo(one.get("winter").asString());
      assertThat(chill.chillHours()).isEqualTo(one.get("chillHours").asDouble());
      assertThat(chill.utahUnits()).isEqualTo(one.get("utahUnits").asDouble());
      // printed to ten significant digits
      assertThat(chill.growingDegreeHours())
          .isCloseTo(one.get("growingDegreeHours").asDouble(), within(5e-6));
      int hours = one.get("hours").asInt();
      assertThat(ChronoUnit.DAYS.between(winter.from(), winter.to()) + 1).isEqualTo(hours / 24);
      DynamicModel dynamic = new DynamicModel();
      double portions = 0;
      for (double t : hours(series, winter.from(), hours - 1)) portions += dynamic.hour(t);
      assertThat(portions).isCloseTo(one.get("chillPortionsLagged").asDouble(), within(5e-8));
      assertThat(chill.chillPortions()).isBetween(portions, portions + 2);
    }
  }
}
