package org.understock.climate;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.statistics.distribution.NormalDistribution;

/** Days of full bloom that are thought possible in each year, all equally likely. */
public final class BloomDays {
  private static final int NODES = 10;

  /** Middles of tenths of a standard normal distribution. */
  private static final double[] SCORES = scores();

  private final Map<Integer, Year> years;

  /**
   * One year's full bloom.
   *
   * @param seen whether the day is the variety's own and was seen, so that nothing moves it
   */
  private record Year(LocalDate middle, double sdDays, boolean seen) {}

  private BloomDays(Map<Integer, Year> years) {
    this.years = years;
  }

  /**
   * The same spread of days in every year of a series.
   *
   * @param usualDay any date whose month and day are the usual day of full bloom
   * @param sdDays standard deviation from year to year
   */
  public static BloomDays usual(
      TemperatureSeries series, java.time.MonthDay usualDay, double sdDays) {
    Map<Integer, Year> years = new TreeMap<>();
    for (int year = series.start().getYear(); year <= series.end().getYear(); year++)
      years.put(year, new Year(usualDay.atYear(year), sdDays, false));
    return new BloomDays(years);
  }

  /** A day of its own in each year, uncertain by so much. */
  public static BloomDays expected(Iterable<LocalDate> expected, double sdDays) {
    Map<Integer, Year> years = new TreeMap<>();
    for (LocalDate day : expected) years.put(day.getYear(), new Year(day, sdDays, false));
    return new BloomDays(years);
  }

  /** With the day that was seen in place of what was thought of its year. */
  public BloomDays seen(Iterable<LocalDate> observed) {
    Map<Integer, Year> seen = new TreeMap<>(years);
    for (LocalDate day : observed) seen.put(day.getYear(), new Year(day, 0, true));
    return new BloomDays(seen);
  }

  /** Days of another variety that blooms so many days later in every year; earlier if negative. */
  BloomDays later(long days) {
    Map<Integer, Year> later = new TreeMap<>();
    years.forEach(
        (year, one) -> later.put(year, new Year(one.middle.plusDays(days), one.sdDays, false)));
    return new BloomDays(later);
  }

  /**
   * With a doubt about the middle added to the spread of every year in which bloom was not seen.
   */
  BloomDays doubted(double sdDays) {
    Map<Integer, Year> doubted = new TreeMap<>();
    years.forEach(
        (year, one) ->
            doubted.put(
                year,
                one.seen ? one : new Year(one.middle, Math.hypot(one.sdDays, sdDays), false)));
    return new BloomDays(doubted);
  }

  private static double[] scores() {
    NormalDistribution normal = NormalDistribution.of(0, 1);
    double[] scores = new double[NODES];
    for (int k = 0; k < NODES; k++)
      scores[k] = normal.inverseCumulativeProbability((k + 0.5) / NODES);
    return scores;
  }

  /** Ten days at the middles of tenths of a normal distribution. */
  private static List<LocalDate> spread(LocalDate middle, double sdDays) {
    if (sdDays == 0) return List.of(middle);
    List<LocalDate> days = new ArrayList<>();
    for (double score : SCORES) days.add(middle.plusDays(Math.round(sdDays * score)));
    return days;
  }

  Map<Integer, List<LocalDate>> byYear() {
    Map<Integer, List<LocalDate>> days = new TreeMap<>();
    years.forEach((year, one) -> days.put(year, spread(one.middle, one.sdDays)));
    return days;
  }

  /** Whether the variety's own bloom was seen in a year. */
  boolean seen(int year) {
    Year one = years.get(year);
    return one != null && one.seen;
  }
}
