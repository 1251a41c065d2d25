package org.understock.climate;

import java.time.LocalDate;
import java.time.MonthDay;
import java.time.temporal.ChronoUnit;
import org.understock.trait.Refusal;

/**
 * The part of the year over which chill is counted, both days included. 29 February stands for the
 * last day of February in any year.
 *
 * @param from first day
 * @param to last day; in the next year when it lies before {@code from}
 */
public record Season(MonthDay from, MonthDay to) {
  private static final int SHORTEST_DAYS = 28;
  private static final int ANY_LEAP_YEAR = 2024;

  public Season {
    LocalDate start = from.atYear(ANY_LEAP_YEAR - 1);
    LocalDate end = to.atYear(to.isBefore(from) ? ANY_LEAP_YEAR : ANY_LEAP_YEAR - 1);
    long days = ChronoUnit.DAYS.between(start, end) + 1;
    if (days < SHORTEST_DAYS) {
      throw new Refusal.Conflict(
          "season.to",
          "season.to is "
              + days
              + " days from season.from; a season has "
              + SHORTEST_DAYS
              + " days or more");
    }
  }

  /** October to March in the north, April to September in the south: common practice, no source. */
  public static Season usual(double latitude) {
    return latitude >= 0
        ? new Season(MonthDay.of(10, 1), MonthDay.of(3, 31))
        : new Season(MonthDay.of(4, 1), MonthDay.of(9, 30));
  }

  /** First day of the season that begins in a year. */
  public LocalDate start(int year) {
    return from.atYear(year);
  }

  /** Last day of the season that begins in a year. */
  public LocalDate end(int year) {
    return to.atYear(spansNewYear() ? year + 1 : year);
  }

  /** Name of the winter that begins in a year: 2024/25, or 2024 for a season within one year. */
  public String label(int year) {
    return spansNewYear()
        ? String.format(java.util.Locale.ROOT, "%d/%02d", year, (year + 1) % 100)
        : String.valueOf(year);
  }

  private boolean spansNewYear() {
    return to.isBefore(from);
  }
}
