package org.understock.climate;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import org.understock.trait.Refusal;

/**
 * Air temperatures of one place hour by hour, in local time without daylight saving, and the lowest
 * of each day. What was not measured is bridged in a straight line where the gap is short, and
 * stays unknown where it is long; both are remembered.
 */
public final class TemperatureSeries {
  /*
   * How long a gap may be that is bridged is a judgement: chill sums are steady against single days, and a straight line over more than half a day
   * of hours loses the daily swing that the models live on.
   */
  /** Days without extremes that are bridged between their neighbours. */
  public static final int LONGEST_GAP_DAYS = 3;

  /** Hours without a reading that are bridged. */
  public static final int LONGEST_GAP_HOURS = 12;

  /**
   * Longest step of a logger, in minutes: readings no further apart are joined in a straight line
   * and nothing is missing between them.
   */
  public static final int LONGEST_STEP_MINUTES = 180;

  /** Most years that a series spans. */
  public static final int MOST_YEARS = 200;

  private static final int HOURS = HourlyCurve.HOURS;
  private static final int HOUR_MINUTES = 60;

  private final LocalDate start;
  private final double[] hourlyC;
  private final BitSet bridged;
  private final double[] lowestC;

  private TemperatureSeries(LocalDate start, double[] hourlyC, BitSet bridged, double[] lowestC) {
    this.start = start;
    this.hourlyC = hourlyC;
    this.bridged = bridged;
    this.lowestC = lowestC;
  }

  /**
   * From daily extremes, by {@link HourlyCurve}. Gaps of up to three days are bridged, minimum and
   * maximum each by itself; a longer one parts the series.
   *
   * @param days checked by {@link DailyExtremes#check}: in order, one or more
   */
  public static TemperatureSeries ofDaily(
      double latitude, List<DailyExtremes> days, NightRule rule) {
    DailyColumns columns = new DailyColumns();
    for (DailyExtremes day : days) day.addTo(columns, "daily");
    return columns.series(latitude, rule);
  }

  /**
   * The same, of a minimum and maximum for every day from the first on, NaN where there is none.
   * The arrays become the series' own.
   */
  static TemperatureSeries ofColumns(
      double latitude, LocalDate start, double[] min, double[] max, NightRule rule) {
    int n = min.length;
    BitSet gaps = new BitSet(n);
    bridge(min, gaps);
    bridge(max, gaps);
    double[] hours = filled(n * HOURS, Double.NaN);
    BitSet bridged = new BitSet(hours.length);
    HourlyCurve curve = new HourlyCurve(latitude, rule);
    for (int from = 0; from < n; from++) {
      if (Double.isNaN(min[from] + max[from])) continue;
      int to = from;
      while (to < n && !Double.isNaN(min[to] + max[to])) to++;
      curve.write(start, min, max, from, to, hours, from * HOURS);
      from = to;
    }
    for (int day = gaps.nextSetBit(0); day >= 0; day = gaps.nextSetBit(day + 1)) {
      if (!Double.isNaN(hours[day * HOURS])) bridged.set(day * HOURS, (day + 1) * HOURS);
    }
    return new TemperatureSeries(start, hours, bridged, min);
  }

  /**
   * From a logger's readings, 15 minutes to 3 hours apart. An hour's temperature is the mean of the
   * readings in it; an hour without any lies on the straight line between the readings around it:
   * the logger's own step up to 3 hours, a bridged gap up to 12 hours, unknown beyond.
   *
   * @param start the day of the first reading
   * @param minutes times of the readings in minutes from that day's beginning, rising, one or more
   * @param valuesC as many, all finite
   */
  public static TemperatureSeries ofReadings(LocalDate start, int[] minutes, double[] valuesC) {
    int n =
        span(
            start,
            start.plusDays(minutes[minutes.length - 1] / (HOURS * HOUR_MINUTES)),
            "hourly.valuesC");
    double[] hours = filled(n * HOURS, Double.NaN);
    double[] lowest = filled(n, Double.POSITIVE_INFINITY);
    BitSet bridged = new BitSet(hours.length);
    int lastHour = -1;
    int lastMinute = 0;
    int next = 0;
    while (next < minutes.length) {
      int hour = minutes[next] / HOUR_MINUTES;
      if (lastHour >= 0)
        between(
            hours,
            bridged,
            lastHour,
            lastMinute,
            valuesC[next - 1],
            hour,
            minutes[next],
            valuesC[next]);
      double sum = 0;
      int count = 0;
      while (next < minutes.length && minutes[next] / HOUR_MINUTES == hour) {
        sum += valuesC[next];
        count++;
        lowest[hour / HOURS] = Math.min(lowest[hour / HOURS], valuesC[next]);
        lastMinute = minutes[next];
        next++;
      }
      hours[hour] = sum / count;
      lastHour = hour;
    }
    for (int day = 0; day < n; day++) {
      // A day that is not known whole may have been colder in the hours that are missing.
      for (int h = 0; h < HOURS; h++)
        if (Double.isNaN(hours[day * HOURS + h]) || bridged.get(day * HOURS + h))
          lowest[day] = Double.NaN;
      if (Double.isInfinite(lowest[day])) lowest[day] = Double.NaN;
    }
    return new TemperatureSeries(start, hours, bridged, lowest);
  }

  private static void between(
      double[] hours,
      BitSet bridged,
      int lastHour,
      int lastMinute,
      double lastC,
      int hour,
      int minute,
      double valueC) {
    if (hour - lastHour < 2 || hour - lastHour - 1 > LONGEST_GAP_HOURS) return;
    boolean ownStep = minute - lastMinute <= LONGEST_STEP_MINUTES;
    for (int h = lastHour + 1; h < hour; h++) {
      double share = (h * HOUR_MINUTES - lastMinute) / (double) (minute - lastMinute);
      hours[h] = lastC + share * (valueC - lastC);
      if (!ownStep) bridged.set(h);
    }
  }

  private static void bridge(double[] values, BitSet gaps) {
    int last = -1;
    for (int k = 0; k < values.length; k++) {
      if (Double.isNaN(values[k])) {
        gaps.set(k);
        continue;
      }
      if (last >= 0 && k - last > 1 && k - last - 1 <= LONGEST_GAP_DAYS) {
        for (int g = last + 1; g < k; g++)
          values[g] = values[last] + (g - last) / (double) (k - last) * (values[k] - values[last]);
      }
      last = k;
    }
  }

  private static int span(LocalDate first, LocalDate last, String field) {
    if (last.isAfter(first.plusYears(MOST_YEARS))) {
      throw new Refusal.Conflict(
          field,
          field
              + " runs from "
              + first
              + " to "
              + last
              + "; a series spans "
              + MOST_YEARS
              + " years at most");
    }
    return (int) ChronoUnit.DAYS.between(first, last) + 1;
  }

  private static double[] filled(int n, double value) {
    double[] x = new double[n];
    Arrays.fill(x, value);
    return x;
  }

  /** The same place, every hour warmer by so much; colder when negative. */
  public TemperatureSeries warmed(double byC) {
    return new TemperatureSeries(start, shifted(hourlyC, byC), bridged, shifted(lowestC, byC));
  }

  private static double[] shifted(double[] x, double by) {
    return Arrays.stream(x).map(t -> t + by).toArray();
  }

  /** The first day. */
  public LocalDate start() {
    return start;
  }

  /** The last day. */
  public LocalDate end() {
    return start.plusDays(lowestC.length - 1L);
  }

  /** Temperature of an hour of a day in °C; NaN outside the series and in long gaps. */
  public double at(LocalDate day, int hour) {
    long at = ChronoUnit.DAYS.between(start, day) * HOURS + hour;
    return at < 0 || at >= hourlyC.length ? Double.NaN : hourlyC[(int) at];
  }

  /** Lowest temperature of a day in °C; NaN where the day is not known whole. */
  public double lowest(LocalDate day) {
    long at = ChronoUnit.DAYS.between(start, day);
    return at < 0 || at >= lowestC.length ? Double.NaN : lowestC[(int) at];
  }

  /** Whether an hour was bridged. */
  boolean bridged(LocalDate day, int hour) {
    long at = ChronoUnit.DAYS.between(start, day) * HOURS + hour;
    return at >= 0 && at < hourlyC.length && bridged.get((int) at);
  }
}
