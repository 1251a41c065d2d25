package org.understock.climate;

import java.time.LocalDate;

/**
 * Hourly temperatures from daily extremes: a sine by day, {@code T = min + (max - min) sin(π t / (D
 * + 4))} with t hours after sunrise and day length D, and by night a logarithm from the sunset
 * temperature down to the next minimum (Linvill 1990). Hours are local solar time, 0 to 23.
 *
 * <p>What a run of days does not tell is filled with that day's minimum: the hours before the first
 * sunrise and after the last sunset.
 */
public final class HourlyCurve {
  /** Hours of a day. */
  public static final int HOURS = 24;

  /** The warmest hour lies two hours after noon: half of D + 4. */
  private static final double AFTER_NOON_H = 4;

  private final double latitude;
  private final NightRule rule;

  /**
   * @param latitude degrees north, -66 to 66: beyond, days without sunrise or sunset come, for
   *     which the curve is not meant
   */
  public HourlyCurve(double latitude, NightRule rule) {
    if (!(Math.abs(latitude) <= 66))
      throw new org.understock.trait.Refusal.OutOfRange(
          "latitude", latitude, "between -66 and 66 degrees");
    this.latitude = latitude;
    this.rule = rule;
  }

  /**
   * The hours of days that follow each other.
   *
   * @param start the first day
   * @param minC minimum of each day
   * @param maxC maximum of each day, as many
   * @return 24 values a day, the one at 0 o'clock of the first day first
   */
  public double[] hours(LocalDate start, double[] minC, double[] maxC) {
    double[] hours = new double[minC.length * HOURS];
    write(start, minC, maxC, 0, minC.length, hours, 0);
    return hours;
  }

  /**
   * Writes the hours of the days {@code from} (inclusive) to {@code to} (exclusive) as one run, the
   * first of them at {@code at}.
   */
  void write(
      LocalDate start, double[] minC, double[] maxC, int from, int to, double[] hours, int at) {
    SunTimes yesterday = null;
    SunTimes today = from < to ? sun(start, from) : null;
    for (int day = from; day < to; day++) {
      SunTimes tomorrow = day + 1 < to ? sun(start, day + 1) : null;
      SunTimes sun = java.util.Objects.requireNonNull(today);
      double amplitude = maxC[day] - minC[day];
      double sunsetC = minC[day] + amplitude * sunsetShare(sun.dayLengthH());
      for (int h = 0; h < HOURS; h++) {
        double value;
        if (h <= sun.sunriseH()) {
          value = yesterday == null ? minC[day] : morning(h, day, minC, maxC, yesterday, sun);
        } else if (h <= sun.sunsetH()) {
          value =
              minC[day]
                  + amplitude
                      * Math.sin(
                          Math.PI * (h - sun.sunriseH()) / (sun.dayLengthH() + AFTER_NOON_H));
        } else {
          value =
              tomorrow == null
                  ? minC[day]
                  : fallen(
                      sunsetC,
                      minC[day + 1],
                      h - sun.sunsetH(),
                      Math.log(night(sun, tomorrow) + 1));
        }
        hours[at + (day - from) * HOURS + h] = value;
      }
      yesterday = sun;
      today = tomorrow;
    }
  }

  private double morning(
      int h, int day, double[] minC, double[] maxC, SunTimes yesterday, SunTimes today) {
    double night = night(yesterday, today);
    boolean continuous = rule == NightRule.CONTINUOUS;
    double dayLength = continuous ? yesterday.dayLengthH() : today.dayLengthH();
    double sunsetC = minC[day - 1] + (maxC[day - 1] - minC[day - 1]) * sunsetShare(dayLength);
    return fallen(
        sunsetC,
        minC[day],
        h + HOURS - yesterday.sunsetH(),
        Math.log(continuous ? night + 1 : Math.max(1, night)));
  }

  private static double fallen(
      double sunsetC, double nextMinC, double sinceSunsetH, double divisor) {
    return sunsetC - (sunsetC - nextMinC) / divisor * Math.log(sinceSunsetH + 1);
  }

  private static double night(SunTimes evening, SunTimes morning) {
    return HOURS - evening.sunsetH() + morning.sunriseH();
  }

  private static double sunsetShare(double dayLengthH) {
    return Math.sin(Math.PI * dayLengthH / (dayLengthH + AFTER_NOON_H));
  }

  /**
   * At ±66 degrees the midsummer sun does not set for a few days: then the day is taken as the
   * longest that has a night, a minute each side.
   */
  private SunTimes sun(LocalDate start, int day) {
    SunTimes sun = SunTimes.of(latitude, start.plusDays(day).getDayOfYear());
    if (sun.dayLengthH() == 24) return new SunTimes(1 / 60.0, 24 - 1 / 60.0, 24 - 2 / 60.0);
    return sun.dayLengthH() == 0 ? new SunTimes(12 - 1 / 60.0, 12 + 1 / 60.0, 2 / 60.0) : sun;
  }
}
