package org.understock.climate;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
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
    DailyColumns columns = new DailyColumns();
    for (int k = 0; k < days.size() && wrong.size() < MOST_TOLD; k++)
      wrong.addAll(days.get(k).addTo(columns, field + "[" + k + "]"));
    if (wrong.isEmpty()) columns.nothingWhole(field).ifPresent(wrong::add);
    return wrong;
  }

  List<Refusal> addTo(DailyColumns columns, String at) {
    List<Refusal> wrong =
        columns.add(
            date,
            Objects.requireNonNullElse(minC, Double.NaN),
            Objects.requireNonNullElse(maxC, Double.NaN),
            at);
    // given, and no number: that is not the same as not measured
    if (minC != null && minC.isNaN()) wrong.add(new Refusal.OutOfRange(at + ".minC", minC, RANGE));
    if (maxC != null && maxC.isNaN()) wrong.add(new Refusal.OutOfRange(at + ".maxC", maxC, RANGE));
    return wrong;
  }

  /** Whether a temperature of the air can be meant. */
  public static boolean inRange(double celsius) {
    return celsius >= LOWEST_C && celsius <= HIGHEST_C;
  }
}
