package org.understock.service.series;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.understock.climate.DailyExtremes;
import org.understock.climate.NightRule;
import org.understock.climate.TemperatureSeries;
import org.understock.climate.WrongUnit;
import org.understock.service.problem.ProblemException;
import org.understock.trait.Refusal;

/**
 * Makes a series of what was sent as JSON, and names every value that cannot be meant, up to fifty.
 */
public final class SeriesOf {
  private static final int MOST_TOLD = 50;
  private static final int HOUR_MINUTES = 60;
  private static final int LAST_YEAR = 9998;

  private SeriesOf() {}

  /**
   * One of the two must be given.
   *
   * @param at where they stand in the body, such as {@code site.temperatures}; empty for the body
   *     itself
   * @throws ProblemException naming the values
   */
  public static TemperatureSeries body(
      @Nullable List<@Nullable DayBody> daily,
      @Nullable HourlyBody hourly,
      double latitude,
      NightRule rule,
      TemperatureUnit unit,
      String at) {
    if (daily != null && hourly == null) return daily(daily, latitude, rule, unit, at);
    if (hourly != null && daily == null)
      return hourly(hourly, latitude, unit, at.isEmpty() ? "hourly" : at + ".hourly");
    throw new Refusal.Conflict(
        at.isEmpty() ? "daily" : at,
        daily == null
            ? "the temperatures are missing; give daily or hourly"
            : "give daily or hourly, not both");
  }

  private static TemperatureSeries daily(
      List<@Nullable DayBody> sent,
      double latitude,
      NightRule rule,
      TemperatureUnit unit,
      String at) {
    List<Refusal> wrong = new ArrayList<>();
    List<DailyExtremes> days = new ArrayList<>(sent.size());
    for (int k = 0; k < sent.size() && wrong.size() < MOST_TOLD; k++) {
      DayBody day = sent.get(k);
      LocalDate date = day == null || day.date() == null ? null : date(day.date());
      if (day == null || date == null) {
        wrong.add(
            new Refusal.Conflict(
                "daily[" + k + "]" + (day == null ? "" : ".date"),
                day == null
                    ? "a day is missing"
                    : "must be a date such as 2024-10-01"
                        + (day.date() == null ? "; it is missing" : "")));
      } else {
        days.add(new DailyExtremes(date, celsius(day.minC(), unit), celsius(day.maxC(), unit)));
      }
    }
    if (wrong.isEmpty()) wrong.addAll(refusals(days, latitude, rule, unit));
    if (!wrong.isEmpty()) throw ProblemException.ofRefusals(wrong, at);
    return TemperatureSeries.ofDaily(latitude, days, rule);
  }

  /**
   * What is wrong with days, named {@code daily[17].minC}. Values beyond the range that look like
   * another unit are told as that, once.
   */
  public static List<Refusal> refusals(
      List<DailyExtremes> days, double latitude, NightRule rule, TemperatureUnit unit) {
    List<Refusal> wrong = DailyExtremes.check(days, "daily");
    if (!wrong.stream().allMatch(Refusal.OutOfRange.class::isInstance)) return wrong;
    return wrongUnit(TemperatureSeries.ofDaily(latitude, days, rule), latitude, unit, "daily")
        .map(List::of)
        .orElse(wrong);
  }

  private static TemperatureSeries hourly(
      HourlyBody sent, double latitude, TemperatureUnit unit, String at) {
    LocalDateTime start = time(sent.start());
    if (start == null)
      throw new Refusal.Conflict(
          at + ".start", "must be a local time such as 2024-10-01T00:00, without an offset");
    int step = sent.stepMinutes() == null ? HOUR_MINUTES : sent.stepMinutes();
    int first = start.getHour() * HOUR_MINUTES + start.getMinute();
    int n = sent.valuesC().size();
    int[] minutes = new int[n];
    double[] values = new double[n];
    int known = 0;
    List<Refusal> wrong = new ArrayList<>();
    for (int k = 0; k < n && wrong.size() < MOST_TOLD; k++) {
      Double given = sent.valuesC().get(k);
      if (given == null) continue;
      double celsius = unit.toCelsius(given);
      if (!DailyExtremes.inRange(celsius))
        wrong.add(new Refusal.OutOfRange(at + ".valuesC[" + k + "]", given, DailyExtremes.RANGE));
      minutes[known] = Math.addExact(first, Math.multiplyExact(k, step));
      values[known++] = celsius;
    }
    if (known == 0) throw new Refusal.Conflict(at + ".valuesC", at + ".valuesC has no value");
    TemperatureSeries series =
        TemperatureSeries.ofReadings(
            start.toLocalDate(),
            java.util.Arrays.copyOf(minutes, known),
            java.util.Arrays.copyOf(values, known));
    wrongUnit(series, latitude, unit, at + ".valuesC")
        .ifPresent(
            refusal -> {
              throw refusal;
            });
    if (!wrong.isEmpty()) throw ProblemException.ofRefusals(wrong, "");
    return series;
  }

  /** Says when the temperatures look like another unit than the one that was said. */
  public static Optional<Refusal> wrongUnit(
      TemperatureSeries series, double latitude, TemperatureUnit unit, String field) {
    return WrongUnit.check(series, latitude, unit == TemperatureUnit.CELSIUS, field);
  }

  private static @Nullable Double celsius(@Nullable Double given, TemperatureUnit unit) {
    return given == null ? null : Double.valueOf(unit.toCelsius(given));
  }

  /** Null when it is none. */
  public static @Nullable LocalDate date(String text) {
    try {
      LocalDate day = LocalDate.parse(text);
      return day.getYear() >= 1 && day.getYear() <= LAST_YEAR ? day : null;
    } catch (DateTimeException none) {
      return null;
    }
  }

  /** Null when it is none; day and time may be parted by a space. */
  public static @Nullable LocalDateTime time(String text) {
    try {
      LocalDateTime time = LocalDateTime.parse(text.replace(' ', 'T'));
      return time.getYear() >= 1 && time.getYear() <= LAST_YEAR ? time : null;
    } catch (DateTimeException none) {
      return null;
    }
  }
}
