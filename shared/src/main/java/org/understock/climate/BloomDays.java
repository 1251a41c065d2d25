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

  private final Map<Integer, List<LocalDate>> byYear;

  private BloomDays(Map<Integer, List<LocalDate>> byYear) {
    this.byYear = byYear;
  }

  /**
   * The same spread of days in every year of a series.
   *
   * @param usualDay any date whose month and day are the usual day of full bloom
   * @param sdDays standard deviation from year to year
   */
  public static BloomDays usual(
      TemperatureSeries series, java.time.MonthDay usualDay, double sdDays) {
    Map<Integer, List<LocalDate>> days = new TreeMap<>();
    for (int year = series.start().getYear(); year <= series.end().getYear(); year++)
      days.put(year, spread(usualDay.atYear(year), sdDays));
    return new BloomDays(days);
  }

  /** A day of its own in each year, uncertain by so much. */
  public static BloomDays expected(Iterable<LocalDate> expected, double sdDays) {
    Map<Integer, List<LocalDate>> days = new TreeMap<>();
    for (LocalDate day : expected) days.put(day.getYear(), spread(day, sdDays));
    return new BloomDays(days);
  }

  /** With the day that was seen in place of what was thought of its year. */
  public BloomDays seen(Iterable<LocalDate> observed) {
    Map<Integer, List<LocalDate>> days = new TreeMap<>(byYear);
    for (LocalDate day : observed) days.put(day.getYear(), List.of(day));
    return new BloomDays(days);
  }

  /** Ten days at the middles of tenths of a normal distribution. */
  private static List<LocalDate> spread(LocalDate middle, double sdDays) {
    if (sdDays == 0) return List.of(middle);
    List<LocalDate> days = new ArrayList<>();
    NormalDistribution normal = NormalDistribution.of(0, sdDays);
    for (int k = 0; k < NODES; k++)
      days.add(middle.plusDays(Math.round(normal.inverseCumulativeProbability((k + 0.5) / NODES))));
    return days;
  }

  Map<Integer, List<LocalDate>> byYear() {
    return byYear;
  }
}
