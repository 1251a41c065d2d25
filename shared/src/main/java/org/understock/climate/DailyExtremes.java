package org.understock.climate;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.trait.Refusal;

/**
 * Lowest and highest air temperature of a day; either may be missing.
 *
 * @param minC °C
 * @param maxC °C
 */
public record DailyExtremes(LocalDate date, @Nullable Double minC, @Nullable Double maxC) {
  /**
   * Air on Earth: -89.2 to 56.7 °C have been measured (from memory); where fruit is grown, less.
   */
  private static final double LOWEST_C = -70;

  private static final double HIGHEST_C = 60;

  /** The range of air temperatures that are taken, in words. */
  public static final String RANGE = "between -70 and 60 °C";

  private static final int MOST_TOLD = 50;

  /**
   * What is wrong with a series, the first fifty things: values off any scale, minima above maxima,
   * days twice or out of order, none with a value.
   *
   * @param field name of the list, for the refusals: {@code daily}
   */
  public static List<Refusal> check(List<DailyExtremes> days, String field) {
    List<Refusal> wrong = new ArrayList<>();
    LocalDate last = null;
    boolean any = false;
    for (int k = 0; k < days.size() && wrong.size() < MOST_TOLD; k++) {
      DailyExtremes day = days.get(k);
      String at = field + "[" + k + "]";
      range(day.minC, at + ".minC", wrong);
      range(day.maxC, at + ".maxC", wrong);
      if (day.minC != null && day.maxC != null && day.minC > day.maxC) {
        wrong.add(
            new Refusal.Conflict(
                at + ".minC",
                "the minimum of "
                    + day.date
                    + ", "
                    + day.minC
                    + " °C, is above its maximum, "
                    + day.maxC
                    + " °C"));
      }
      if (last != null && !day.date.isAfter(last)) {
        wrong.add(
            new Refusal.Conflict(
                at + ".date",
                day.date.equals(last)
                    ? day.date + " comes twice"
                    : day.date + " comes after " + last + "; give days in order"));
      }
      last = day.date;
      any |= day.minC != null && day.maxC != null;
    }
    if (!any && wrong.isEmpty())
      wrong.add(
          new Refusal.Conflict(field, field + " has no day with both a minimum and a maximum"));
    return wrong;
  }

  private static void range(@Nullable Double value, String field, List<Refusal> wrong) {
    if (value != null && !inRange(value)) wrong.add(new Refusal.OutOfRange(field, value, RANGE));
  }

  /** Whether a temperature of the air can be meant. */
  public static boolean inRange(double celsius) {
    return celsius >= LOWEST_C && celsius <= HIGHEST_C;
  }
}
