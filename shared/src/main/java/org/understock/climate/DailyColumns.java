package org.understock.climate;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.understock.trait.Refusal;

/**
 * Daily extremes put together day after day, checked as they come. Nothing is kept but two numbers
 * a day, from the first day on, and no more than 200 years are taken, so a file of any length takes
 * little memory.
 */
public final class DailyColumns {
  private static final int ROOM_DAYS = 1500;
  private static final String RANGE = DailyExtremes.RANGE;

  private @Nullable LocalDate first;
  private LocalDate last = LocalDate.MIN;
  private double[] minC = new double[ROOM_DAYS];
  private double[] maxC = new double[ROOM_DAYS];
  private int days;
  private boolean anyWhole;

  /**
   * Adds the next day. One whose values are off the scale is told and added nevertheless, so that a
   * series in the wrong unit can be recognised as that; one that can't stand where it does is told
   * and left out.
   *
   * @param minC °C; NaN when it was not measured
   * @param maxC °C; NaN when it was not measured
   * @param at name of the day, for the refusals: {@code daily[17]}
   * @return what is wrong with it: a value off the scale, a minimum above its maximum, a day twice,
   *     out of order or too far from the first
   */
  public List<Refusal> add(LocalDate date, double minC, double maxC, String at) {
    List<Refusal> wrong = new ArrayList<>(0);
    if (offTheScale(minC)) wrong.add(new Refusal.OutOfRange(at + ".minC", minC, RANGE));
    if (offTheScale(maxC)) wrong.add(new Refusal.OutOfRange(at + ".maxC", maxC, RANGE));
    if (minC > maxC) {
      wrong.add(
          new Refusal.Conflict(
              at + ".minC",
              "the minimum of "
                  + date
                  + ", "
                  + minC
                  + " °C, is above its maximum, "
                  + maxC
                  + " °C"));
    }
    LocalDate before = last;
    last = date;
    if (first == null) first = date;
    else if (!date.isAfter(before)) {
      wrong.add(
          new Refusal.Conflict(
              at + ".date",
              date.equals(before)
                  ? date + " comes twice"
                  : date + " comes after " + before + "; give days in order"));
      return wrong;
    }
    anyWhole |= !Double.isNaN(minC + maxC);
    if (date.isAfter(first.plusYears(TemperatureSeries.MOST_YEARS))) {
      wrong.add(
          new Refusal.Conflict(
              at + ".date",
              date
                  + " is too far from the first day, "
                  + first
                  + "; a series spans "
                  + TemperatureSeries.MOST_YEARS
                  + " years at most"));
      return wrong;
    }
    int day = (int) ChronoUnit.DAYS.between(first, date);
    if (day < 0) return wrong; // before the first; that it is out of order was told
    if (day >= this.minC.length) {
      this.minC = Arrays.copyOf(this.minC, Math.max(day + 1, 2 * days));
      this.maxC = Arrays.copyOf(this.maxC, this.minC.length);
    }
    if (day > days) {
      Arrays.fill(this.minC, days, day, Double.NaN);
      Arrays.fill(this.maxC, days, day, Double.NaN);
    }
    this.minC[day] = minC;
    this.maxC[day] = maxC;
    days = Math.max(days, day + 1);
    return wrong;
  }

  private static boolean offTheScale(double value) {
    return !Double.isNaN(value) && !DailyExtremes.inRange(value);
  }

  /** Says so when no day has both a minimum and a maximum. @param field name of the list */
  public Optional<Refusal> nothingWhole(String field) {
    return anyWhole
        ? Optional.empty()
        : Optional.of(
            new Refusal.Conflict(field, field + " has no day with both a minimum and a maximum"));
  }

  /**
   * The hours of all days added; one or more.
   *
   * @see TemperatureSeries#ofDaily
   */
  public TemperatureSeries series(double latitude, NightRule rule) {
    if (first == null) throw new IllegalStateException("no day was added");
    return TemperatureSeries.ofColumns(
        latitude, first, Arrays.copyOf(minC, days), Arrays.copyOf(maxC, days), rule);
  }
}
