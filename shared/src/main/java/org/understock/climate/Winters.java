package org.understock.climate;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.understock.climate.Winter.Standing;
import org.understock.wording.Sentence;
import org.understock.wording.Words;

/**
 * The winters of a series, oldest first. Every model starts from zero at the first hour of each.
 */
public final class Winters {
  /** Share of a winter's hours that may be bridged; a judgement. */
  private static final double MOST_BRIDGED = 0.1;

  private static final int HOURS = HourlyCurve.HOURS;

  private final TemperatureSeries series;
  private final Season season;
  private final List<Winter> winters;

  private Winters(TemperatureSeries series, Season season, List<Winter> winters) {
    this.series = series;
    this.season = season;
    this.winters = List.copyOf(winters);
  }

  /** All winters of which at least one hour is known, and those that a gap swallowed whole. */
  public static Winters of(TemperatureSeries series, Season season) {
    List<Winter> winters = new ArrayList<>();
    for (int year = series.start().getYear() - 1; year <= series.end().getYear(); year++) {
      if (season.end(year).isBefore(series.start()) || season.start(year).isAfter(series.end()))
        continue;
      winter(series, season, year).ifPresent(winters::add);
    }
    return new Winters(series, season, winters);
  }

  public TemperatureSeries series() {
    return series;
  }

  public Season season() {
    return season;
  }

  public List<Winter> all() {
    return winters;
  }

  /** Those that are known whole. */
  public List<Winter> complete() {
    return winters.stream().filter(w -> w.standing() == Standing.COMPLETE).toList();
  }

  /** Chill of each complete winter in one measure. */
  public double[] complete(ChillMeasure measure) {
    return complete().stream().mapToDouble(w -> w.chill().orElseThrow().of(measure)).toArray();
  }

  /** Lowest temperature of each complete winter, °C. */
  public double[] coldestNightsC() {
    return complete().stream()
        .filter(w -> w.coldestNightC() != null)
        .mapToDouble(w -> w.coldestNightC())
        .toArray();
  }

  /**
   * How chill adds up over a winter.
   *
   * @return the sum at the end of each day of the season, in order; NaN until the first known hour
   *     and after the last
   */
  public double[] accumulation(Winter winter, ChillMeasure measure) {
    double[] sums = new double[(int) ChronoUnit.DAYS.between(winter.from(), winter.to()) + 1];
    ChillSum sum = new ChillSum();
    for (int d = 0; d < sums.length; d++) {
      LocalDate day = winter.from().plusDays(d);
      boolean known = false;
      for (int h = 0; h < HOURS; h++) {
        double t = series.at(day, h);
        if (Double.isNaN(t)) continue;
        known = true;
        sum.add(t);
      }
      sums[d] = known ? sum.of(measure) : Double.NaN;
    }
    return sums;
  }

  private static Optional<Winter> winter(TemperatureSeries series, Season season, int year) {
    LocalDate from = season.start(year);
    LocalDate to = season.end(year);
    ChillSum sum = new ChillSum();
    Reach reach = new Reach();
    double coldest = Double.POSITIVE_INFINITY;
    for (LocalDate day = from; !day.isAfter(to); day = day.plusDays(1)) {
      for (int h = 0; h < HOURS; h++) {
        double t = series.at(day, h);
        if (reach.hour(t, series.bridged(day, h), day)) sum.add(t);
      }
      if (series.lowest(day) < coldest) coldest = series.lowest(day);
    }
    String label = season.label(year);
    Double night = Double.isInfinite(coldest) ? null : Double.valueOf(coldest);
    int missing = reach.hours - reach.measured;
    if (reach.known == 0) {
      return Optional.of(
          new Winter(
              label,
              from,
              to,
              Standing.REFUSED,
              Optional.empty(),
              missing,
              null,
              Sentence.of("winter.unknown")));
    }
    if (reach.gap > 0) {
      return Optional.of(
          new Winter(
              label,
              from,
              to,
              Standing.REFUSED,
              Optional.empty(),
              missing,
              night,
              Sentence.of(
                  "winter.gap", "from", reach.gapFrom.toString(), "span", span(reach.gap))));
    }
    if (reach.bridged > MOST_BRIDGED * reach.hours) {
      return Optional.of(
          new Winter(
              label,
              from,
              to,
              Standing.REFUSED,
              Optional.empty(),
              missing,
              night,
              Sentence.of(
                  "winter.bridged-too-many", "bridged", reach.bridged, "hours", reach.hours)));
    }
    boolean whole = reach.known == reach.hours;
    return Optional.of(
        new Winter(
            label,
            from,
            to,
            whole ? Standing.COMPLETE : Standing.PARTIAL,
            Optional.of(sum.total()),
            missing,
            night,
            words -> text(reach, whole, words)));
  }

  private static String text(Reach reach, boolean whole, Words words) {
    List<String> said = new ArrayList<>();
    if (!whole)
      said.add(
          words.say(
              "winter.part",
              "known",
              reach.known,
              "hours",
              reach.hours,
              "first",
              reach.first.toString(),
              "last",
              reach.last.toString()));
    if (reach.bridged > 0) said.add(words.say("winter.bridged", "bridged", reach.bridged));
    return String.join(" ", said);
  }

  private static Sentence span(int hours) {
    return Sentence.of(
        "winter.span", "days", hours % HOURS == 0 ? hours / HOURS : 0, "hours", hours);
  }

  /** How far what is known reaches into a winter, and the longest gap within it. */
  private static final class Reach {
    private int hours;
    private int known;
    private int measured;
    private int bridged;
    private int gap;
    private int open;
    private LocalDate openFrom = LocalDate.MIN;
    private LocalDate gapFrom = LocalDate.MIN;
    private LocalDate first = LocalDate.MIN;
    private LocalDate last = LocalDate.MIN;

    /**
     * @return whether the hour is known
     */
    boolean hour(double t, boolean wasBridged, LocalDate day) {
      hours++;
      if (Double.isNaN(t)) {
        if (known > 0 && open++ == 0) openFrom = day;
        return false;
      }
      if (known++ == 0) first = day;
      if (open > gap) {
        gap = open;
        gapFrom = openFrom;
      }
      open = 0;
      last = day;
      if (wasBridged) bridged++;
      else measured++;
      return true;
    }
  }
}
