package org.understock.bench;

import java.time.LocalDate;
import org.understock.climate.Chill;
import org.understock.climate.ChillSum;

/**
 * Thirty years of hourly temperatures, invented: a yearly and a daily wave, and weather that
 * wanders from hour to hour, rounded to a tenth of a degree as a logger does it. {@code r/chill.R}
 * makes the same values, so that the sums of both can be compared.
 */
final class ThirtyYears {
  static final int HOURS = 30 * 365 * 24;
  static final LocalDate START = LocalDate.of(1990, 10, 1);

  private static final double YEAR_H = 365.0 * 24;
  private static final double DAY_H = 24;

  private ThirtyYears() {}

  /** The values from the first hour of October on, °C. */
  static double[] hourlyC() {
    double[] hours = new double[HOURS];
    double seed = 20260101;
    double weather = 0;
    for (int h = 0; h < HOURS; h++) {
      // the minimal standard generator of Park and Miller 1988; exact in doubles, so the same in R
      seed = seed * 16807 % 2147483647.0;
      weather = 0.98 * weather + (2 * seed / 2147483647.0 - 1);
      double yearly = 9 * Math.sin(2 * Math.PI * (h + 0.45 * YEAR_H) / YEAR_H);
      double daily = 4.5 * Math.sin(2 * Math.PI * (h - 9) / DAY_H);
      hours[h] = Math.floor(10 * (9 + yearly + daily + weather) + 0.5) / 10;
    }
    return hours;
  }

  /** All models over all hours in one run. */
  static Chill sum(double[] hourlyC) {
    ChillSum sum = new ChillSum();
    for (double t : hourlyC) sum.add(t);
    return sum.total();
  }

  /** Prints the sums, a name and a number on each line. */
  public static void main(String[] none) {
    Chill chill = sum(hourlyC());
    System.out.println("chill-hours " + chill.chillHours());
    System.out.println("utah-units " + chill.utahUnits());
    System.out.println("chill-portions " + chill.chillPortions());
    System.out.println("growing-degree-hours " + chill.growingDegreeHours());
  }
}
