package org.understock.climate;

import java.time.LocalDate;
import java.time.MonthDay;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.plant.Variety;
import org.understock.trait.Refusal;

/**
 * What the asker knows of a variety's bloom at the place: its usual day of full bloom, days seen,
 * or both.
 *
 * @param usual usual day of full bloom, or null
 * @param sdDays standard deviation of that day from year to year
 * @param observed days of full bloom that were seen, one a year
 */
public record ToldBloom(
    Variety variety, @Nullable MonthDay usual, double sdDays, List<LocalDate> observed) {
  /**
   * How far bloom lies from its usual day from year to year, if nothing is said: one week, as often
   * between early and late springs; a judgement.
   */
  public static final double USUAL_SD_DAYS = 7;

  public ToldBloom {
    observed = List.copyOf(observed);
    if (usual == null && observed.isEmpty())
      throw new Refusal.Conflict("bloom", "give fullBloom, observed, or both");
  }

  /** The usual day, or the mean of those seen. */
  MonthDay middle() {
    if (usual != null) return usual;
    LocalDate first = observed.get(0);
    double mean =
        observed.stream()
            .mapToLong(d -> d.toEpochDay() - first.withYear(d.getYear()).toEpochDay())
            .average()
            .orElseThrow();
    LocalDate day = first.plusDays(Math.round(mean));
    return MonthDay.of(day.getMonth(), day.getDayOfMonth());
  }

  /** Spread from year to year: of three days seen or more, their own; else the one told. */
  double spread() {
    if (observed.size() < ChillThenHeat.LEAST_YEARS) return sdDays;
    LocalDate first = observed.get(0);
    double[] days =
        observed.stream()
            .mapToDouble(d -> d.toEpochDay() - first.withYear(d.getYear()).toEpochDay())
            .toArray();
    double mean = java.util.Arrays.stream(days).average().orElseThrow();
    return Math.sqrt(
        java.util.Arrays.stream(days).map(x -> (x - mean) * (x - mean)).sum() / (days.length - 1));
  }

  /**
   * Standard error of the middle: that of the mean of the days seen. A usual day is taken as it was
   * told.
   */
  double doubt() {
    return usual != null || observed.isEmpty() ? 0 : spread() / Math.sqrt(observed.size());
  }
}
