package org.understock.climate;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;

/**
 * Bloom by chill, then heat: from the season's first day chill adds up until the variety's need is
 * met; from the next hour on heat adds up until full bloom (the sequential model). No heat
 * requirement is on record of any variety, so the heat is taken from bloom days seen at the place
 * itself: the mean over the years that the series covers.
 *
 * @param heatGdh growing degree hours from the end of rest to full bloom
 * @param fittedYears number of years from which the heat was taken
 * @param errorDays root mean square of how far each of those years is missed when it is predicted
 *     from the others
 * @param bloom expected day of full bloom by the year in which the season begins; years in which
 *     chill or heat do not suffice, or that the series does not cover, are missing
 * @param notReached years that the series covers and in which chill or heat do not suffice
 */
public record ChillThenHeat(
    double heatGdh,
    int fittedYears,
    double errorDays,
    Map<Integer, LocalDate> bloom,
    int notReached) {
  /** Fewer years than these fit anything; a judgement. */
  public static final int LEAST_YEARS = 3;

  /** Bloom is looked for this long after the season's first day. */
  private static final int LONGEST_DAYS = 330;

  /** A season's years in which the series covers the way from the season's first day to bloom. */
  private record Way(double[] heat, int atDay) {}

  /**
   * Fits the heat to observed bloom days and predicts every year.
   *
   * @param fitTo the series that the observations belong to
   * @param predict the series to predict, the same or a warmed one
   * @param chill need in {@code measure}
   * @return empty with fewer than three observed years that the series covers and in which the need
   *     is met before bloom
   */
  public static Optional<ChillThenHeat> fit(
      Winters fitTo,
      Winters predict,
      ChillMeasure measure,
      double chill,
      List<LocalDate> observed) {
    List<Way> ways = new ArrayList<>();
    for (LocalDate bloom : observed) {
      int year = yearOf(fitTo.season(), bloom);
      double[] heat = heat(fitTo, year, measure, chill);
      int day = (int) ChronoUnit.DAYS.between(fitTo.season().start(year), bloom);
      if (day < heat.length && heat[day] > 0) ways.add(new Way(heat, day));
    }
    if (ways.size() < LEAST_YEARS) return Optional.empty();
    double mean = ways.stream().mapToDouble(w -> w.heat[w.atDay]).average().orElseThrow();
    double squares = 0;
    for (Way left : ways) {
      double others = (mean * ways.size() - left.heat[left.atDay]) / (ways.size() - 1);
      OptionalDouble day = reached(left.heat, others);
      double error = day.orElse(left.heat.length) - left.atDay;
      squares += error * error;
    }
    Map<Integer, LocalDate> bloom = new TreeMap<>();
    int notReached = 0;
    for (int year = predict.series().start().getYear() - 1;
        year <= predict.series().end().getYear();
        year++) {
      double[] heat = heat(predict, year, measure, chill);
      OptionalDouble day = reached(heat, mean);
      if (day.isPresent())
        bloom.put(year, predict.season().start(year).plusDays((long) day.getAsDouble()));
      else if (heat.length == LONGEST_DAYS) notReached++;
    }
    return Optional.of(
        new ChillThenHeat(mean, ways.size(), Math.sqrt(squares / ways.size()), bloom, notReached));
  }

  /** The year in which the season before a bloom day begins. */
  static int yearOf(Season season, LocalDate bloom) {
    return season.start(bloom.getYear()).isAfter(bloom) ? bloom.getYear() - 1 : bloom.getYear();
  }

  /**
   * Heat at the end of each day from the season's first on, 0 while the chill is not met; ends
   * where the series has a gap.
   */
  private static double[] heat(Winters winters, int year, ChillMeasure measure, double chill) {
    TemperatureSeries series = winters.series();
    LocalDate start = winters.season().start(year);
    double[] heat = new double[LONGEST_DAYS];
    ChillSum sum = new ChillSum();
    double gdh = 0;
    for (int d = 0; d < LONGEST_DAYS; d++) {
      for (int h = 0; h < HourlyCurve.HOURS; h++) {
        double t = series.at(start.plusDays(d), h);
        if (Double.isNaN(t)) return java.util.Arrays.copyOf(heat, d);
        if (sum.of(measure) < chill) sum.add(t);
        else gdh += HourWeights.growingDegreeHour(t);
      }
      heat[d] = gdh;
    }
    return heat;
  }

  private static OptionalDouble reached(double[] heat, double need) {
    for (int d = 0; d < heat.length; d++) if (heat[d] >= need) return OptionalDouble.of(d);
    return OptionalDouble.empty();
  }
}
