package org.understock.climate;

import java.time.LocalDate;
import java.util.Locale;
import java.util.Optional;
import org.understock.trait.Refusal;

/**
 * Recognises a series that was given in the other unit from its midwinter and midsummer, which no
 * place at its latitude has.
 */
public final class WrongUnit {
  /*
   * No place is warmer in midwinter than these: 28 °C near the equator, and in a straight line down to 12 °C at 60 degrees (Scilly, at 50 degrees and
   * mild for it, has 8 °C). None where trees grow is colder in midsummer than 0 °C. Figures from memory, taken wide.
   */
  private static final double WARMEST_MIDWINTER_TROPICS_C = 28;
  private static final double TROPICS = 20;
  private static final double FALL_PER_DEGREE_C = 0.4;
  private static final double COLDEST_MIDSUMMER_C = 0;
  private static final int LEAST_DAYS = 10;

  private WrongUnit() {}

  /**
   * @param series as read, in °C
   * @param saidCelsius whether the asker said °C; otherwise °F was said and converted
   * @param field name of the list, for the refusal
   */
  public static Optional<Refusal> check(
      TemperatureSeries series, double latitude, boolean saidCelsius, String field) {
    boolean north = latitude >= 0;
    double winter = mean(series, north ? 1 : 7);
    double most =
        WARMEST_MIDWINTER_TROPICS_C - FALL_PER_DEGREE_C * Math.max(0, Math.abs(latitude) - TROPICS);
    if (saidCelsius && winter > most) {
      return Optional.of(
          new Refusal.Conflict(
              field,
              String.format(
                  Locale.ROOT,
                  "the mean of %s is %.1f °C, more than any place at latitude %s has; these look like °F: say units fahrenheit",
                  north ? "January" : "July",
                  winter,
                  latitude)));
    }
    double summer = mean(series, north ? 7 : 1);
    if (!saidCelsius && summer < COLDEST_MIDSUMMER_C) {
      return Optional.of(
          new Refusal.Conflict(
              field,
              String.format(
                  Locale.ROOT,
                  "the mean of %s is %.1f °C when read as °F; these look like °C: leave units out",
                  north ? "July" : "January",
                  summer)));
    }
    return Optional.empty();
  }

  /** Mean of a month over all years; NaN when fewer than ten days of it are known. */
  private static double mean(TemperatureSeries series, int month) {
    double sum = 0;
    int hours = 0;
    for (LocalDate day = series.start(); !day.isAfter(series.end()); day = day.plusDays(1)) {
      if (day.getMonthValue() != month) continue;
      for (int h = 0; h < HourlyCurve.HOURS; h++) {
        double t = series.at(day, h);
        if (Double.isNaN(t)) continue;
        sum += t;
        hours++;
      }
    }
    return hours < LEAST_DAYS * HourlyCurve.HOURS ? Double.NaN : sum / hours;
  }
}
